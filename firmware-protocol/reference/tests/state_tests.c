#include "../core/states.h"
#include "check.h"
#include "vectors.h"

static void every_command_in_every_state_leads_where_the_table_says(void)
{
    static vector_file lines;
    if (!vectors_open(&lines, "wire/states.txt"))
        return;
    while (vectors_next(&lines))
        CHECK_EQUAL(state_after((uint8_t)vector_number(lines.field[0]), (uint8_t)vector_number(lines.field[1])), vector_number(lines.field[2]));
    CHECK_EQUAL(lines.lines, 170);
}

static void every_state_is_followed_by_the_one_the_table_says(void)
{
    static vector_file lines;
    if (!vectors_open(&lines, "wire/states-complete.txt"))
        return;
    while (vectors_next(&lines)) {
        uint8_t state = (uint8_t)vector_number(lines.field[0]);
        CHECK_EQUAL(state_completed(state), vector_number(lines.field[1]));
        CHECK_EQUAL(state_is_acting(state), vector_number(lines.field[2]));
    }
    CHECK_EQUAL(lines.lines, 17);
}

static void a_command_that_does_not_exist_leads_nowhere(void)
{
    for (uint8_t state = 1; state <= 17; state++) {
        CHECK_EQUAL(state_after(state, 0), STATE_NONE);
        CHECK_EQUAL(state_after(state, 11), STATE_NONE);
    }
}

void state_tests(void)
{
    RUN(every_command_in_every_state_leads_where_the_table_says);
    RUN(every_state_is_followed_by_the_one_the_table_says);
    RUN(a_command_that_does_not_exist_leads_nowhere);
}
