#include <stdio.h>
#include <string.h>

#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "vectors.h"

/* Every golden job that a host may stream as it is, on a machine of its grid: the cells, in order. */
static void golden_jobs_work_their_cells(const host_machine *kind, const char *grid)
{
    static vector_file lines;
    static char text[65536];
    int jobs = 0;
    if (!vectors_open(&lines, "job/jobs.txt"))
        return;
    while (vectors_next(&lines)) {
        test_host host;
        bool is_complete = strncmp(lines.field[4], "complete", 8) == 0;
        bool has_again = strstr(lines.field[0], "again") != NULL || strstr(lines.field[0], "more times") != NULL;
        bool is_refused = strstr(lines.field[4], "VerbNone") != NULL || strstr(lines.field[4], "ReservedBits") != NULL;
        if (vector_number(lines.field[1]) != kind->axis_bits || strcmp(lines.field[2], grid) != 0 || has_again || is_refused)
            continue;
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, kind);
        CHECK(host_run(&host, kind, lines.field[3]) > 0);
        host_worked(&host, text, sizeof text);
        const char *wanted = lines.fields > 5 ? lines.field[5] : "";
        if (strcmp(text, wanted) != 0)
            printf("%s: %s\n", lines.field[0], text);
        CHECK(strcmp(text, wanted) == 0);
        CHECK_EQUAL(host.status.state, is_complete ? STATE_COMPLETE : STATE_STOPPED);
        CHECK_EQUAL(host.status.cause, is_complete ? CAUSE_JOB_COMPLETE : CAUSE_BAD_RECORD);
        CHECK_EQUAL(host_wrongs(&host), 0);
        CHECK_EQUAL(native_head(host.memory, 0) + native_head(host.memory, 1), 0);
        jobs++;
        host_close(&host);
    }
    CHECK(jobs > 0);
}

static void golden_jobs_of_four_bits_are_drawn_by_pens(void)
{
    golden_jobs_work_their_cells(&plotter, "16 16 1");
}

static void golden_jobs_of_four_bits_are_built_of_dots(void)
{
    host_machine flat = gantry_3d;
    flat.axes = 2;
    flat.cells[2] = 1;
    flat.head[0].first_ms = 20;
    golden_jobs_work_their_cells(&flat, "16 16 1");
}

static void golden_jobs_of_layers_rise(void)
{
    host_machine low = gantry_3d;
    low.cells[2] = 2;
    golden_jobs_work_their_cells(&low, "16 16 2");
    low.cells[2] = 4;
    golden_jobs_work_their_cells(&low, "16 16 4");
}

static void golden_jobs_of_eight_bits_are_drawn(void)
{
    golden_jobs_work_their_cells(&wide, "256 256 1");
}

static void golden_jobs_of_twelve_bits_are_drawn(void)
{
    host_machine vast = gantry_3d;
    vast.axis_bits = 12;
    vast.cells[0] = vast.cells[1] = 4096;
    vast.cells[2] = 2;
    for (int axis = 0; axis < 3; axis++) {
        vast.axis[axis].pitch_q16 = 10u << 16;
        vast.axis[axis].at_max = 0;
    }
    golden_jobs_work_their_cells(&vast, "4096 4096 2");
}

/* The steps on the pins are the cells' distance: nothing is added up. */
static void steps_are_exact_after_a_long_job(void)
{
    test_host host;
    static char hex[2000];
    host_machine machine = wide;
    machine.axis[0].pitch_q16 = 5242881; /* 80 and 1/65536 steps */
    machine.axis[1].pitch_q16 = 2621507; /* 40 and 67/65536 */
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &machine);
    for (int index = 0; index < 60; index++)
        sprintf(hex + strlen(hex), "40%02X%02X0005", (index * 97) % 250, (index * 61) % 256);
    strcat(hex, "20FF7B00000000000000");
    CHECK(host_run(&host, &machine, hex) > 0);
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(native_place(host.memory, 0), (255ll * 5242881 + 0x8000) >> 16);
    CHECK_EQUAL(native_place(host.memory, 1), (123ll * 2621507 + 0x8000) >> 16);
    CHECK_EQUAL(host.status.x, 255);
    CHECK_EQUAL(host.status.y, 123);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void records_are_taken_all_or_none(void)
{
    test_host host;
    uint8_t records[60] = {0x40, 0x12, 0x00, 0x40, 0x13, 0x00, 0x40, 0x14, 0x10};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 20), ANSWER_NONE);
    CHECK_EQUAL(host.status.limit, 16);
    CHECK_EQUAL(host_records(&host, 1, records, 3), ANSWER_INDEX_MISMATCH);
    CHECK_EQUAL(host_records(&host, 0, records, 4), ANSWER_BAD_VALUE);
    records[6] = 0xFF;
    CHECK_EQUAL(host_records(&host, 0, records, 9), ANSWER_BAD_RECORD);
    records[6] = 0xA0;
    CHECK_EQUAL(host_records(&host, 0, records, 9), ANSWER_BAD_RECORD);
    memset(records + 6, 0, 3);
    CHECK_EQUAL(host_records(&host, 0, records, 9), ANSWER_BAD_RECORD); /* an end before the end */
    CHECK_EQUAL(host.status.taken, 0);
    for (int index = 0; index < 18; index++)
        memcpy(records + 3 * index, "\x40\x12\x00", 3);
    CHECK_EQUAL(host_records(&host, 0, records, 51), ANSWER_QUEUE_OVERRUN);
    CHECK_EQUAL(host_records(&host, 0, records, 48), ANSWER_NONE);
    host_beat(&host);
    host_wait(&host, 3);
    CHECK_EQUAL(host.status.taken, 16);
    CHECK_EQUAL(host_begin(&host, 2, 2), ANSWER_NONE);
    CHECK_EQUAL(host.status.taken, 0);
    CHECK_EQUAL(host_records(&host, 0, records, 9), ANSWER_BEYOND_RUN);
    CHECK_EQUAL(host.status.limit, 2);
    CHECK_EQUAL(host_begin(&host, 0, 2), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 3), ANSWER_NO_RUN);
    host_close(&host);
}

static void a_start_needs_a_run(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NO_RUN);
    host_close(&host);
}

static void a_run_that_has_ended_is_not_started_again(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK(host_run(&host, &plotter, "000000") > 0);
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(host.status.done, 1);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 10000));
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NO_RUN);
    host_close(&host);
}

static void an_empty_queue_suspends_and_records_let_it_go_on(void)
{
    test_host host;
    const uint8_t first[3] = {0x40, 0x12, 0x02}, second[6] = {0x80, 0x84, 0x00, 0, 0, 0};
    char text[300];
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 3), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, first, 3), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_SUSPENDED, 5000));
    CHECK_EQUAL(host.status.cause, CAUSE_STARVED);
    CHECK_EQUAL(host.status.done, 1);
    CHECK_EQUAL(native_head(host.memory, 0), 0); /* the pen is lifted while it waits */
    CHECK_EQUAL(host_records(&host, 1, second, 6), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 5000));
    host_worked(&host, text, sizeof text);
    CHECK(strcmp(text, "a:1,2,0 a:2,2,0 a:3,2,0 a:4,2,0 a:5,3,0 a:6,3,0 a:7,4,0 a:8,4,0") == 0);
    host_close(&host);
}

static void a_long_wait_for_records_holds(void)
{
    test_host host;
    const uint8_t first[3] = {0x40, 0x12, 0x02};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 3), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, first, 3), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 5000));
    CHECK_EQUAL(host.status.cause, CAUSE_STARVED);
    host_close(&host);
}

static void suspend_and_unsuspend_are_the_hosts_too(void)
{
    test_host host;
    const uint8_t records[6] = {0x40, 0x12, 0x0C, 0, 0, 0};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 2), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 6), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    for (int turn = 0; turn < 20; turn++) {
        host_beat(&host);
        host_wait(&host, 50);
    }
    CHECK_EQUAL(host_command(&host, COMMAND_SUSPEND), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_SUSPENDED, 3000));
    for (int turn = 0; turn < 20; turn++) {
        host_beat(&host);
        host_wait(&host, 50);
    }
    CHECK_EQUAL(host.status.state, STATE_SUSPENDED); /* until the operator goes on, records or not */
    CHECK_EQUAL(host_command(&host, COMMAND_UNSUSPEND), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 5000));
    CHECK_EQUAL(native_worked(host.memory), 13);
    host_close(&host);
}

static void a_wait_for_the_operator_holds_until_unhold(void)
{
    test_host host;
    const uint8_t records[9] = {0xC2, 0, 0, 0x40, 0x12, 0x00, 0, 0, 0};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 3), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 9), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 1000));
    CHECK_EQUAL(host.status.cause, CAUSE_OPERATOR_WAIT);
    CHECK_EQUAL(host.status.done, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 5000));
    CHECK_EQUAL(host.status.done, 3);
    host_close(&host);
}

static void complete_from_the_host_ends_the_run(void)
{
    test_host host;
    const uint8_t records[3] = {0x40, 0x12, 0x0C};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 2), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 3), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    host_wait(&host, 400);
    CHECK_EQUAL(host_command(&host, COMMAND_COMPLETE), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 2000));
    CHECK_EQUAL(host.status.cause, CAUSE_OPERATOR);
    CHECK(native_worked(host.memory) < 13);
    CHECK_EQUAL(native_head(host.memory, 0), 0);
    host_close(&host);
}

static void a_status_comes_every_50_ms_while_the_machine_moves(void)
{
    test_host host;
    const uint8_t records[3] = {0x40, 0xC2, 0x00};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 2), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 3), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    host_wait(&host, 20);
    int before = host.statuses;
    host_wait(&host, 300);
    CHECK(host.statuses - before >= 5 && host.statuses - before <= 7);
    host_close(&host);
}

void run_tests(void)
{
    RUN(golden_jobs_of_four_bits_are_drawn_by_pens);
    RUN(golden_jobs_of_four_bits_are_built_of_dots);
    RUN(golden_jobs_of_layers_rise);
    RUN(golden_jobs_of_eight_bits_are_drawn);
    RUN(golden_jobs_of_twelve_bits_are_drawn);
    RUN(steps_are_exact_after_a_long_job);
    RUN(records_are_taken_all_or_none);
    RUN(a_start_needs_a_run);
    RUN(a_run_that_has_ended_is_not_started_again);
    RUN(an_empty_queue_suspends_and_records_let_it_go_on);
    RUN(a_long_wait_for_records_holds);
    RUN(suspend_and_unsuspend_are_the_hosts_too);
    RUN(a_wait_for_the_operator_holds_until_unhold);
    RUN(complete_from_the_host_ends_the_run);
    RUN(a_status_comes_every_50_ms_while_the_machine_moves);
}
