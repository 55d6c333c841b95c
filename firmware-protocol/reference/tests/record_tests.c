#include <stdio.h>
#include <string.h>

#include "../core/queue.h"
#include "../core/record.h"
#include "check.h"
#include "vectors.h"

static void say(const bridge_record *record, char *text, size_t room)
{
    static const char *const verbs[] = {"end", "go", "row", "patch", "line", "again", "wait"};
    snprintf(text, room, "%s %c %d %d %d %d %d %d", verbs[record->verb], record->head ? 'b' : 'a', record->heading, record->rise,
        record->x, record->y, record->p, record->q);
}

static void records_are_read_or_refused_as_the_vectors_say(void)
{
    static vector_file lines;
    uint8_t octets[VECTOR_OCTETS];
    char text[100];
    if (!vectors_open(&lines, "job/records.txt"))
        return;
    while (vectors_next(&lines)) {
        bridge_record record;
        uint8_t bits = (uint8_t)vector_number(lines.field[0]);
        size_t length = vector_octets(lines.field[1], octets);
        CHECK_EQUAL(length, record_length(bits));
        bool is_valid = record_read(&record, octets, bits);
        bool is_refused = strncmp(lines.field[2], "refused", 7) == 0;
        if (is_valid)
            say(&record, text, sizeof text);
        CHECK_EQUAL(is_valid, !is_refused);
        CHECK(is_refused || strcmp(text, lines.field[2]) == 0);
    }
    CHECK(lines.lines > 220);
}

static void pairs_of_numbers_are_read_as_one(void)
{
    bridge_record record = {VERB_AGAIN, 0, 0, false, 1, 2, 3, 4};
    CHECK_EQUAL(record_pq(&record, 4), 0x34);
    CHECK_EQUAL(record_xy(&record, 8), 0x102);
    CHECK_EQUAL(record_xy(&record, 12), 0x1002);
}

static void the_queue_gives_records_back_in_order(void)
{
    bridge_queue queue;
    uint8_t put = 0, taken = 0;
    memset(&queue, 0, sizeof queue);
    for (int round = 0; round < 40; round++) {
        while (queue.count < QUEUE_RECORDS) {
            uint8_t octets[3] = {put, 0, (uint8_t)~put};
            queue_add(&queue, octets, 3);
            put++;
        }
        for (int index = 0; index < 1 + round % QUEUE_RECORDS; index++) {
            const uint8_t *octets = queue_take(&queue);
            CHECK(octets != NULL && octets[0] == taken && octets[2] == 0xFF - taken);
            taken++;
        }
    }
    queue_clear(&queue);
    CHECK(queue_take(&queue) == NULL);
}

void record_tests(void)
{
    RUN(records_are_read_or_refused_as_the_vectors_say);
    RUN(pairs_of_numbers_are_read_as_one);
    RUN(the_queue_gives_records_back_in_order);
}
