#include <math.h>
#include <stdio.h>
#include <string.h>

#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"

/* A straight move, rest to rest (MOTION.md, section 3), in ms. */
static double move(double steps, double v, double a)
{
    return 1000 * (steps >= v * v / a ? steps / v + v / a : 2 * sqrt(steps / a));
}

/* A run's time within 1 % or 3 ms. */
static void takes(const host_machine *machine, const char *hex, double wanted_ms)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, machine);
    double is = host_run(&host, machine, hex);
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    if (fabs(is - wanted_ms) > fmax(0.01 * wanted_ms, 3))
        printf("%s takes %.1f ms, not %.1f\n", hex, is, wanted_ms);
    CHECK(fabs(is - wanted_ms) <= fmax(0.01 * wanted_ms, 3));
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_row_of_a_pen_is_one_move(void)
{
    takes(&plotter, "401204000000", move(800, 4800, 24000) + 150 + move(1600, 4800, 32000) + 120);
}

static void a_second_row_where_the_pen_stands_needs_no_lift(void)
{
    /* The row ends at (5, 2) and the next one starts there, up. */
    takes(&plotter, "401204445203000000",
        move(800, 4800, 24000) + 150 + move(1600, 4800, 32000) + move(1200, 4800, 24000) + 120);
}

static void a_turn_takes_up_its_play_first(void)
{
    /* (1, 2) to (5, 2), then back along -X from (5, 2) to (3, 2). */
    takes(&plotter, "401204485202000000",
        move(800, 4800, 24000) + 150 + move(1600, 4800, 32000) + move(16, 4800, 32000) + move(800, 4800, 32000) + 120);
}

static void a_patch_is_drawn_leg_by_leg(void)
{
    takes(&plotter, "600031000000", 150 + move(1200, 4800, 32000) + move(400, 4800, 24000) + move(16, 4800, 32000) + move(1200, 4800, 32000) + 120);
}

/* The idle move goes to the line's first cell, not to the one it starts on. */
static void a_line_with_the_pen_up_starts_at_its_first_cell(void)
{
    takes(&plotter, "804400000000", move(400, 4800, 24000) + 150 + move(1200, 4800, 24000) + 120);
}

static void another_head_is_a_change_and_a_way(void)
{
    /* Pen b stands 1600 steps to the left of the carriage's place: the carriage goes right. */
    takes(&plotter, "500000000000", 200 + move(1600, 4800, 32000) + 150 + 120);
}

static void dots_stop_at_every_cell(void)
{
    host_machine flat = gantry_3d;
    flat.axes = 2;
    flat.axis[1].at_max = 0;
    takes(&flat, "400004000000", 5 * 400 + 4 * move(320, 9600, 80000));
}

static void a_rise_is_a_move_of_its_own(void)
{
    host_machine machine = gantry_3d;
    machine.axis[1].at_max = 0;
    takes(&machine, "410000000000", move(800, 4000, 20000) + 400);
}

static void waits_are_stood_still(void)
{
    takes(&plotter, "C0000CC00011000000", 1200 + 1700);
}

static void dots_as_short_as_a_step_are_all_worked(void)
{
    test_host host;
    host_machine tiny = plotter;
    tiny.axis[0].pitch_q16 = 20000; /* a third of a step */
    tiny.axis[0].backlash = 0;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &tiny);
    CHECK(host_run(&host, &tiny, "40000F601171000000") > 0);
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 32);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_head_that_is_not_there_ends_the_run(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &wide);
    CHECK(host_run(&host, &wide, "50010100000000000000") > 0);
    CHECK_EQUAL(host.status.state, STATE_STOPPED);
    CHECK_EQUAL(host.status.cause, CAUSE_BAD_RECORD);
    CHECK_EQUAL(host.status.done, 0);
    CHECK_EQUAL(native_worked(host.memory), 0);
    host_close(&host);
}

/* Cells are counted as the pen passes them, and where they are told. */
static void the_status_follows_the_pen(void)
{
    test_host host;
    const uint8_t records[3] = {0x40, 0x02, 0x0F};
    uint32_t last = 0;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 1), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 3), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    while (host.status.state == STATE_EXECUTE) {
        host_beat(&host);
        host_wait(&host, 20);
        if (host.status.state != STATE_EXECUTE || host.status.cells == 0)
            continue;
        CHECK(host.status.cells >= last);
        CHECK_EQUAL(host.status.x, host.status.cells - 1);
        int32_t place = native_place(host.memory, 0);
        CHECK(place >= (int32_t)(host.status.cells - 1) * 400 && place < (int32_t)host.status.cells * 400 + 400);
        CHECK_EQUAL(host.status.head & 3, 2);
        last = host.status.cells;
    }
    CHECK(last >= 14);
    CHECK_EQUAL(host.status.state, STATE_COMPLETING + (host.status.state == STATE_COMPLETE));
    host_close(&host);
}

void acts_tests(void)
{
    RUN(a_row_of_a_pen_is_one_move);
    RUN(a_second_row_where_the_pen_stands_needs_no_lift);
    RUN(a_turn_takes_up_its_play_first);
    RUN(a_patch_is_drawn_leg_by_leg);
    RUN(a_line_with_the_pen_up_starts_at_its_first_cell);
    RUN(another_head_is_a_change_and_a_way);
    RUN(dots_stop_at_every_cell);
    RUN(a_rise_is_a_move_of_its_own);
    RUN(waits_are_stood_still);
    RUN(dots_as_short_as_a_step_are_all_worked);
    RUN(a_head_that_is_not_there_ends_the_run);
    RUN(the_status_follows_the_pen);
}
