#include <string.h>

#include "../core/link.h"
#include "check.h"
#include "vectors.h"

static bridge_link link_expecting(uint8_t number)
{
    bridge_link link = {0x1234, number, true, false};
    return link;
}

static void numbers_are_taken_as_the_vectors_say(void)
{
    static vector_file lines;
    if (!vectors_open(&lines, "wire/receiver.txt"))
        return;
    while (vectors_next(&lines)) {
        bridge_link link = link_expecting((uint8_t)vector_number(lines.field[0]));
        link_verdict verdict = link_accept(&link, (uint8_t)vector_number(lines.field[1]));
        const char *name = verdict == LINK_NEW ? "new" : verdict == LINK_GAP ? "gap" : "duplicate";
        CHECK(strcmp(name, lines.field[2]) == 0);
    }
    CHECK(lines.lines >= 14);
}

static void order_is_that_of_rfc_1982(void)
{
    static vector_file lines;
    if (!vectors_open(&lines, "wire/serial-compare.txt"))
        return;
    while (vectors_next(&lines)) {
        bridge_link link = link_expecting((uint8_t)vector_number(lines.field[1]));
        link_verdict verdict = link_accept(&link, (uint8_t)vector_number(lines.field[0]));
        bool is_earlier = strcmp(lines.field[2], "earlier") == 0;
        CHECK_EQUAL(verdict == LINK_DUPLICATE, is_earlier);
    }
    CHECK(lines.lines >= 20);
}

static void a_gap_is_closed_by_the_message_that_was_missing(void)
{
    bridge_link link = link_expecting(5);
    CHECK_EQUAL(link_accept(&link, 6), LINK_GAP);
    CHECK(link.gap);
    CHECK_EQUAL(link_accept(&link, 4), LINK_DUPLICATE);
    CHECK(link.gap);
    CHECK_EQUAL(link_accept(&link, 5), LINK_NEW);
    CHECK(!link.gap);
}

static void a_beat_of_a_later_number_tells_of_a_gap(void)
{
    bridge_link link = link_expecting(250);
    link_hear_next(&link, 250);
    link_hear_next(&link, 249);
    link_hear_next(&link, 122);
    CHECK(!link.gap);
    link_hear_next(&link, 1);
    CHECK(link.gap);
}

static void a_session_opens_once_for_its_token(void)
{
    bridge_link link;
    memset(&link, 0, sizeof link);
    CHECK(!link_holds(&link, 0));
    CHECK(link_open(&link, 0x0000));
    CHECK(link_holds(&link, 0));
    link.expected = 9;
    link.gap = true;
    CHECK(!link_open(&link, 0x0000));
    CHECK_EQUAL(link.expected, 9);
    CHECK(link_open(&link, 0x0100));
    CHECK_EQUAL(link.expected, 0);
    CHECK(!link.gap);
}

void link_tests(void)
{
    RUN(numbers_are_taken_as_the_vectors_say);
    RUN(order_is_that_of_rfc_1982);
    RUN(a_gap_is_closed_by_the_message_that_was_missing);
    RUN(a_beat_of_a_later_number_tells_of_a_gap);
    RUN(a_session_opens_once_for_its_token);
}
