#include <stdio.h>

#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"

/* Ready to reset, the gantry of the machine in place. */
static void open_stopped(test_host *host, const host_machine *machine)
{
    host_open(host, BRIDGE_RESET_POWER_ON);
    host_ready(host, machine);
    CHECK_EQUAL(host_command(host, COMMAND_ABORT), ANSWER_NONE);
    CHECK(host_wait_for(host, STATE_ABORTED, 100));
    CHECK_EQUAL(host_command(host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(host, STATE_STOPPED, 100));
}

static void the_carriage_ends_over_the_first_cell_with_its_play_taken_up(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &gantry_3d);
    CHECK_EQUAL(host.status.inputs & 0xE0, 0xE0);
    CHECK_EQUAL(native_place(host.memory, 0), 4); /* its play: the motor turns, the carriage does not */
    CHECK_EQUAL(native_place(host.memory, 1), -4);
    CHECK_EQUAL(native_place(host.memory, 2), 0);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void an_axis_that_stands_on_its_endstop_leaves_it_first(void)
{
    test_host host;
    open_stopped(&host, &plotter);
    native_set_axis(host.memory, 0, -340, -320, 0, -370, 8000);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

/* Three ways of the endstop's gap into it: as deep as a hand may push a carriage without power. */
static void an_axis_that_stands_deep_in_its_endstop_leaves_it_first(void)
{
    test_host host;
    open_stopped(&host, &plotter);
    native_set_axis(host.memory, 0, -320 - 3 * 320, -320, 0, -320 - 4 * 320, 8000);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void leaves(const host_machine *ready, const host_machine *machine, uint8_t axis, int32_t way)
{
    test_host host;
    open_stopped(&host, ready);
    CHECK_EQUAL(host_set_axis(&host, machine, axis), ANSWER_NONE);
    int32_t place = native_place(host.memory, axis);
    native_set_endstop(host.memory, axis, 2);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_ABORTED, 60000));
    CHECK_EQUAL(host.status.cause, CAUSE_REFERENCE_FAILED);
    CHECK_EQUAL(native_place(host.memory, axis), place + way);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

/* The endstop of gantry_3d's Y is at the far end. A quarter of a cell is 100 steps of the plotter. */
static void an_axis_whose_endstop_never_opens_goes_four_ways_and_no_further(void)
{
    host_machine machine = plotter;
    leaves(&plotter, &plotter, 0, 4 * 320);
    leaves(&gantry_3d, &gantry_3d, 1, -4 * 400);
    machine.axis[0].gap = 40;
    leaves(&plotter, &machine, 0, 4 * 100 + 1);
}

/* No gap, and cells that are nearer to each other than half a step. */
static void an_axis_that_has_no_way_to_go_makes_one_step_and_fails(void)
{
    host_machine machine = plotter;
    machine.axis[0].gap = 0;
    machine.axis[0].pitch_q16 = 1;
    leaves(&plotter, &machine, 0, 1);
}

static void fails(uint8_t fault, uint8_t axis)
{
    test_host host;
    open_stopped(&host, &plotter);
    native_set_endstop(host.memory, axis, fault);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_ABORTED, 120000));
    CHECK_EQUAL(host.status.cause, CAUSE_REFERENCE_FAILED);
    CHECK_EQUAL(native_drivers(host.memory), 0);
    CHECK_EQUAL(host.status.inputs & 0xE0, 0);
    host_close(&host);
}

static void an_endstop_that_never_closes_fails(void)
{
    fails(1, 0);
    fails(1, 1);
}

static void an_endstop_that_never_opens_fails(void)
{
    fails(2, 0);
    fails(2, 1);
}

/* An endstop that sticks once it has closed: the axis comes back to its cell and still reads as reached. */
static void an_endstop_that_is_not_left_fails(void)
{
    test_host host;
    open_stopped(&host, &plotter);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    for (int ms = 0; ms < 20000 && (host.status.inputs & BRIDGE_INPUT_ENDSTOP_X) == 0; ms++) {
        host_wait(&host, 1);
        if (ms % 50 == 0)
            host_beat(&host);
        if (native_place(host.memory, 0) <= -320)
            native_set_endstop(host.memory, 0, 2);
    }
    CHECK(host_wait_for(&host, STATE_ABORTED, 20000));
    CHECK_EQUAL(host.status.cause, CAUSE_REFERENCE_FAILED);
    host_close(&host);
}

static void stop_ends_the_search_and_the_machine_is_not_referenced(void)
{
    test_host host;
    open_stopped(&host, &plotter);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    host_wait(&host, 300);
    CHECK_EQUAL(host.status.state, STATE_RESETTING);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 1000));
    int32_t place = native_place(host.memory, 0);
    host_wait(&host, 200);
    CHECK_EQUAL(native_place(host.memory, 0), place);
    CHECK(native_drivers(host.memory));
    CHECK(host.status.inputs < 0x60);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    host_close(&host);
}

static void a_silent_line_stops_the_search(void)
{
    test_host host;
    open_stopped(&host, &plotter);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    host_wait(&host, 1000);
    CHECK_EQUAL(host.status.state, STATE_STOPPED);
    CHECK_EQUAL(host.status.cause, CAUSE_LINE_SILENT);
    host_close(&host);
}

static void a_referenced_machine_only_goes_home(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK(host_run(&host, &plotter, "405502000000") > 0);
    uint32_t steps = native_steps(host.memory, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(native_steps(host.memory, 0) - steps, 7 * 400 + 16 + 16);
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_change_of_the_machine_costs_the_reference(void)
{
    test_host host;
    uint8_t record[3] = {0x40, 0x12, 0x04};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 1), ANSWER_NONE);
    CHECK_EQUAL(host_set_axis(&host, &plotter, 1), ANSWER_NONE);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    CHECK_EQUAL(host.status.inputs & 0xE0, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NOT_REFERENCED);
    CHECK_EQUAL(host_begin(&host, 2, 1), ANSWER_NOT_REFERENCED);
    CHECK_EQUAL(host_records(&host, 0, record, 3), ANSWER_NO_RUN);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(host.status.inputs & 0xE0, 0x60);
    host_close(&host);
}

static void z_comes_first_where_its_endstop_is_away_from_the_work(void)
{
    test_host host;
    host_machine machine = gantry_3d;
    machine.axis[2].at_max = 1;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &machine);
    CHECK_EQUAL(native_pulse(host.memory, 0) & 7, BRIDGE_AXIS_Z);
    CHECK_EQUAL(native_place(host.memory, 2), 0);
    host_close(&host);
}

/* The endstop of X closes before cell 0, that of gantry_3d's Y behind the last cell. */
static void a_head_that_an_endstop_keeps_from_a_cell_is_refused(void)
{
    for (uint8_t head = 0; head < 2; head++)
        for (uint8_t axis = 0; axis < 2; axis++) {
            test_host host;
            host_machine machine = gantry_3d;
            int32_t *offset = &machine.head[head].offset[axis];
            open_stopped(&host, &machine);
            uint32_t pulses = native_pulses(host.memory);
            *offset = axis == 0 ? 400 : -400;
            CHECK_EQUAL(host_set_head(&host, &machine, head), ANSWER_NONE);
            CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_BAD_VALUE);
            CHECK_EQUAL(host.status.state, STATE_STOPPED);
            CHECK_EQUAL(native_pulses(host.memory), pulses);
            *offset = axis == 0 ? 399 : -399;
            CHECK_EQUAL(host_set_head(&host, &machine, head), ANSWER_NONE);
            CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
            CHECK(host_wait_for(&host, STATE_IDLE, 60000));
            CHECK_EQUAL(host_wrongs(&host), 0);
            host_close(&host);
        }
}

static void an_endstop_at_the_edge_of_the_grid_keeps_no_head_without_an_offset_from_a_cell(void)
{
    test_host host;
    host_machine machine = plotter;
    machine.axis[0].gap = 0;
    open_stopped(&host, &plotter);
    CHECK_EQUAL(host_set_axis(&host, &machine, 0), ANSWER_NONE);
    machine.head[0].offset[0] = 1;
    CHECK_EQUAL(host_set_head(&host, &machine, 0), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host_set_head(&host, &plotter, 0), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    host_close(&host);
}

static void reference_again(test_host *host, const host_machine *machine)
{
    host_command(host, COMMAND_STOP); /* where it has not stopped by itself */
    host_wait_for(host, STATE_STOPPED, 100);
    CHECK_EQUAL(host_set_machine(host, machine), ANSWER_NONE);
    CHECK_EQUAL(host_set_axis(host, machine, 0), ANSWER_NONE);
    CHECK_EQUAL(host_command(host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(host, STATE_IDLE, 60000));
    CHECK_EQUAL(host_say(host, MESSAGE_REFERENCE_READ, NULL, 0), ANSWER_NONE);
}

/* The endstops of the plotter close 320 steps before cell 0 and, of Y, as far behind the last cell, 15 cells of 400 steps on. */
static void a_second_reference_tells_how_far_the_count_was_off(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_say(&host, MESSAGE_REFERENCE_READ, NULL, 0), ANSWER_NONE);
    CHECK_EQUAL(host.known, 0);
    reference_again(&host, &plotter);
    CHECK_EQUAL(host.references, 2);
    CHECK_EQUAL(host.known, 3);
    CHECK_EQUAL(host.counted[0], -320 - ((host.up & 1) != 0 ? 16 : 0));
    int32_t y = host.counted[1];
    native_set_axis(host.memory, 0, native_place(host.memory, 0) - 7, -320, 0, -370, 8000);
    reference_again(&host, &plotter);
    CHECK_EQUAL(host.counted[0], -320 + 7 - ((host.up & 1) != 0 ? 16 : 0));
    CHECK_EQUAL(host.counted[1], y);
    CHECK_EQUAL(host_command(&host, COMMAND_ABORT), ANSWER_NONE); /* a motor without power holds nothing */
    CHECK(host_wait_for(&host, STATE_ABORTED, 100));
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    reference_again(&host, &plotter);
    CHECK_EQUAL(host.known, 0);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

/* No servo is told where to be after a reset: the pen stays down, and is lifted before anything moves. */
static void a_pen_that_a_reset_left_down_is_lifted_before_the_search(void)
{
    for (uint8_t head = 0; head < 2; head++) {
        test_host host;
        host_machine machine = plotter;
        uint8_t record[3] = {(uint8_t)(0x40 | head << 4), 0x12, 0x04};
        open_stopped(&host, &plotter);
        machine.head[head].second_ms = 900;
        machine.head[head].is_pen = 1;
        CHECK_EQUAL(host_set_head(&host, &machine, head), ANSWER_NONE);
        CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_IDLE, 60000));
        CHECK_EQUAL(host_begin(&host, 1, 1), ANSWER_NONE);
        CHECK_EQUAL(host_records(&host, 0, record, 3), ANSWER_NONE);
        CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
        for (int ms = 0; ms < 5000 && native_head(host.memory, head) == 0; ms++) {
            host_wait(&host, 1);
            if (ms % 50 == 0)
                host_beat(&host);
        }
        native_reset(host.memory, BRIDGE_RESET_WATCHDOG);
        CHECK_EQUAL(native_head(host.memory, head), 1);
        host_hello(&host, 2);
        CHECK_EQUAL(host_set_machine(&host, &machine), ANSWER_NONE);
        for (uint8_t part = 0; part < 2; part++) {
            CHECK_EQUAL(host_set_axis(&host, &machine, part), ANSWER_NONE);
            CHECK_EQUAL(host_set_head(&host, &machine, part), ANSWER_NONE);
        }
        CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_STOPPED, 100));
        uint32_t pulses = native_pulses(host.memory);
        CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
        host_wait(&host, 450);
        host_beat(&host);
        host_wait(&host, 440);
        host_beat(&host);
        CHECK_EQUAL(native_head(host.memory, head), 0);
        CHECK_EQUAL(native_pulses(host.memory), pulses); /* it takes its time */
        CHECK(host_wait_for(&host, STATE_IDLE, 60000));
        CHECK_EQUAL(host_wrongs(&host), 0);
        host_close(&host);
    }
}

/* Told first with three axes and then with two: the third is not the machine's any more, and stays where it is. */
static void an_axis_that_the_machine_is_not_told_to_have_is_not_moved(void)
{
    test_host host;
    host_machine two = gantry_3d;
    two.axes = 2;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &gantry_3d);
    CHECK(host_run(&host, &gantry_3d, "415502000000") > 0);
    CHECK_EQUAL(native_place(host.memory, 2), 800);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    host_wait_for(&host, STATE_STOPPED, 1000);
    CHECK_EQUAL(host_set_machine(&host, &two), ANSWER_NONE);
    CHECK_EQUAL(host_set_axis(&host, &two, 0), ANSWER_NONE);
    CHECK_EQUAL(host_set_axis(&host, &two, 1), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 60000));
    CHECK_EQUAL(native_place(host.memory, 2), 800);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

void reference_tests(void)
{
    RUN(a_pen_that_a_reset_left_down_is_lifted_before_the_search);
    RUN(an_axis_that_the_machine_is_not_told_to_have_is_not_moved);
    RUN(the_carriage_ends_over_the_first_cell_with_its_play_taken_up);
    RUN(an_axis_that_stands_on_its_endstop_leaves_it_first);
    RUN(an_axis_that_stands_deep_in_its_endstop_leaves_it_first);
    RUN(an_axis_whose_endstop_never_opens_goes_four_ways_and_no_further);
    RUN(an_axis_that_has_no_way_to_go_makes_one_step_and_fails);
    RUN(an_endstop_that_never_closes_fails);
    RUN(an_endstop_that_never_opens_fails);
    RUN(an_endstop_that_is_not_left_fails);
    RUN(stop_ends_the_search_and_the_machine_is_not_referenced);
    RUN(a_silent_line_stops_the_search);
    RUN(a_referenced_machine_only_goes_home);
    RUN(a_second_reference_tells_how_far_the_count_was_off);
    RUN(a_change_of_the_machine_costs_the_reference);
    RUN(z_comes_first_where_its_endstop_is_away_from_the_work);
    RUN(a_head_that_an_endstop_keeps_from_a_cell_is_refused);
    RUN(an_endstop_at_the_edge_of_the_grid_keeps_no_head_without_an_offset_from_a_cell);
}
