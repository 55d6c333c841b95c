#include <stdio.h>
#include <string.h>

#include "../core/board.h"
#include "../core/path.h"
#include "check.h"
#include "vectors.h"

static uint8_t image[VECTOR_OCTETS];

static uint8_t image_octet(void *context, uint16_t address)
{
    (void)context;
    return image[address];
}

typedef struct {
    char text[65536];
    size_t used;
    uint16_t x, y, layer;
    uint8_t head;
} drawn_job;

static void work(drawn_job *job, const bridge_path *path)
{
    job->used += (size_t)snprintf(job->text + job->used, sizeof job->text - job->used, "%s%c:%u,%u,%u",
        job->used > 0 ? " " : "", job->head ? 'b' : 'a', path->x, path->y, job->layer);
}

/* Works the cells of a record; false where it may not. */
static bool perform(drawn_job *job, const bridge_record *record, uint8_t bits, const uint16_t grid[3])
{
    bridge_path path;
    if (record->rise && ++job->layer >= grid[2])
        return false;
    if (!path_begin(&path, record, bits, job->x, job->y, grid[0], grid[1]))
        return false;
    if (record->verb != VERB_WAIT)
        job->head = record->head;
    if (path.works_start)
        work(job, &path);
    while (path_next(&path))
        work(job, &path);
    job->x = path.x;
    job->y = path.y;
    CHECK(path.x == path.end_x || record->verb == VERB_PATCH);
    return true;
}

static bool perform_image(drawn_job *job, bridge *board, const uint16_t grid[3])
{
    uint8_t octets[RECORD_MAX];
    uint8_t bits = board->setup.axis_bits;
    store_rewind(board);
    for (int count = 0; store_next(board, octets) && count < 100000; count++) {
        bridge_record record;
        if (!record_read(&record, octets, bits))
            return false;
        if (record.verb == VERB_END)
            return true;
        if (!perform(job, &record, bits, grid))
            return false;
    }
    return true;
}

static void jobs_from_the_store_work_the_cells_of_the_vectors(void)
{
    static vector_file lines;
    static drawn_job job;
    static bridge board;
    static bridge_port port;
    if (!vectors_open(&lines, "job/jobs.txt"))
        return;
    port.lasting_read = image_octet;
    board.port = &port;
    while (vectors_next(&lines)) {
        unsigned grid[3];
        if (strstr(lines.field[4], "Again") != NULL)
            continue; /* the check of an image refuses them before a run */
        memset(&job, 0, sizeof job);
        sscanf(lines.field[2], "%u %u %u", &grid[0], &grid[1], &grid[2]);
        uint16_t cells[3] = {(uint16_t)grid[0], (uint16_t)grid[1], (uint16_t)grid[2]};
        board.setup.axis_bits = (uint8_t)vector_number(lines.field[1]);
        board.store.image = 0;
        board.store.image_length = (uint16_t)vector_octets(lines.field[3], image);
        bool is_complete = perform_image(&job, &board, cells);
        const char *wanted = lines.fields > 5 ? lines.field[5] : "";
        if (strcmp(job.text, wanted) != 0)
            printf("%s: %s\n", lines.field[0], job.text);
        CHECK(strcmp(job.text, wanted) == 0);
        CHECK_EQUAL(is_complete, strcmp(lines.field[4], "complete") == 0 || strncmp(lines.field[4], "complete ", 9) == 0);
    }
    CHECK(lines.lines > 55);
}

/* Hearn and Baker's example: (20, 10) to (30, 18), discriminants 6, 2, -2, 14, 10, 6, 2, -2, 14, 10. */
static void a_line_has_the_discriminants_of_the_textbook(void)
{
    static const int wanted[] = {6, 2, -2, 14, 10, 6, 2, -2, 14, 10};
    bridge_record record = {VERB_LINE, 0, 0, false, 30, 18, 0, 0};
    bridge_path path;
    CHECK(path_begin(&path, &record, 8, 20, 10, 256, 256));
    for (int index = 0; index < 10; index++) {
        CHECK_EQUAL(path.discriminant, wanted[index]);
        CHECK(path_next(&path));
    }
    CHECK(!path_next(&path));
    CHECK(path.x == 30 && path.y == 18);
}

/* From anywhere on a path the leg ahead ends where going cell by cell ends it, and is straight. */
static void a_leg_ends_where_its_cells_end(void)
{
    for (uint8_t heading = 0; heading < 8; heading++) {
        bridge_record record = {VERB_PATCH, 0, heading, false, 7, 8, 3, 4};
        bridge_path path;
        int cells = 1;
        CHECK(path_begin(&path, &record, 4, 0, 0, 16, 16));
        for (;;) {
            uint16_t x, y;
            uint16_t count = path_leg(&path, &x, &y);
            if (count == 0)
                break;
            int across = (path.x != x) + (path.y != y);
            CHECK_EQUAL(across, 1);
            for (uint16_t index = 0; index < count; index++)
                CHECK(path_next(&path));
            cells += count;
            CHECK(path.x == x && path.y == y);
        }
        CHECK_EQUAL(cells, 20);
        CHECK(!path_next(&path));
        CHECK(path.x == path.end_x || path.y == path.end_y);
    }
}

void path_tests(void)
{
    RUN(jobs_from_the_store_work_the_cells_of_the_vectors);
    RUN(a_line_has_the_discriminants_of_the_textbook);
    RUN(a_leg_ends_where_its_cells_end);
}
