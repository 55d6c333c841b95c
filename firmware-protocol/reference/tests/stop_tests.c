#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../core/board.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "vectors.h"

/* A job under way, all of it taken. */
static void open_running(test_host *host, const host_machine *machine, const char *hex)
{
    uint8_t octets[VECTOR_OCTETS];
    size_t length = vector_octets(hex, octets);
    host_open(host, BRIDGE_RESET_POWER_ON);
    host_ready(host, machine);
    CHECK_EQUAL(host_begin(host, 1, (uint32_t)length / 3), ANSWER_NONE);
    CHECK_EQUAL(host_records(host, 0, octets, (uint8_t)length), ANSWER_NONE);
    CHECK_EQUAL(host_command(host, COMMAND_START), ANSWER_NONE);
}

static const char *const pen_job = "40120C605533" "807F00" "500A05" "C00003" "000000";

/* Held at any moment and let go on, the same cells are worked in the same order, each once, and the machine ends where it should. */
static void a_hold_at_any_moment_loses_and_repeats_nothing(const host_machine *machine, const char *hex, uint32_t every_ms)
{
    static char whole[65536], text[65536];
    test_host host;
    open_running(&host, machine, hex);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 100000));
    uint32_t end = (uint32_t)(native_now(host.memory) / 1000);
    int32_t x = native_place(host.memory, 0), y = native_place(host.memory, 1);
    host_worked(&host, whole, sizeof whole);
    host_close(&host);
    for (uint32_t at = 1; at < 20000; at += every_ms) {
        open_running(&host, machine, hex);
        host_wait_for(&host, STATE_COMPLETE, at);
        if (host.status.state == STATE_COMPLETE) {
            host_close(&host);
            break;
        }
        CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_HELD, 3000));
        CHECK_EQUAL(native_head(host.memory, 0) + native_head(host.memory, 1), 0);
        uint32_t steps = native_steps(host.memory, 0) + native_steps(host.memory, 1);
        host_wait(&host, 700); /* held, a silent line matters no more */
        CHECK_EQUAL(native_steps(host.memory, 0) + native_steps(host.memory, 1), steps);
        CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_COMPLETE, 60000));
        host_worked(&host, text, sizeof text);
        CHECK(strcmp(text, whole) == 0);
        CHECK_EQUAL(native_place(host.memory, 0), x);
        CHECK_EQUAL(native_place(host.memory, 1), y);
        CHECK_EQUAL(host_wrongs(&host), 0);
        host_close(&host);
    }
    CHECK(end > 1000);
}

static void pens_go_on_after_a_hold_at_any_moment(void)
{
    a_hold_at_any_moment_loses_and_repeats_nothing(&plotter, pen_job, 139);
}

static void dots_go_on_after_a_hold_at_any_moment(void)
{
    host_machine machine = gantry_3d;
    machine.head[0].first_ms = 70;
    machine.head[1].first_ms = 90;
    machine.change_ms = 150;
    a_hold_at_any_moment_loses_and_repeats_nothing(&machine, "400002" "710022" "807F00" "C00002" "000000", 151);
}

/* A hold in a row stops at the first cell that it can stop at: v * v / 2a ahead at most, the pace of planning, and one cell. */
static void a_hold_in_a_row_stops_at_a_cell_nearby(void)
{
    test_host host;
    open_running(&host, &plotter, "40000F000000");
    CHECK(host_wait_for(&host, STATE_COMPLETE, 700) == false);
    int32_t before = native_place(host.memory, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 2000));
    int32_t after = native_place(host.memory, 0);
    CHECK_EQUAL((after - 16) % 400, 0);
    CHECK(after - before <= 360 + 400 + 160);
    CHECK_EQUAL(host.status.x * 400 + 16, after);
    host_close(&host);
}

static void a_wait_is_held_at_once_and_the_rest_of_it_waited_later(void)
{
    test_host host;
    open_running(&host, &plotter, "C00014000000");
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 500));
    CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 100));
    host_wait(&host, 3000);
    uint64_t began = native_now(host.memory);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 3000));
    uint64_t rest = (native_now(host.memory) - began) / 1000;
    CHECK(rest > 1420 && rest < 1520);
    host_close(&host);
}

static void stop_ends_the_run_in_a_controlled_way(void)
{
    test_host host;
    uint8_t record[3] = {0x40, 0x12, 0x04};
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 1000));
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 2000));
    CHECK(native_drivers(host.memory));
    CHECK_EQUAL(native_head(host.memory, 0), 0);
    CHECK_EQUAL(host.status.inputs & 0xE0, 0x60);
    CHECK_EQUAL(host_records(&host, host.status.taken, record, 3), ANSWER_NO_RUN);
    uint32_t worked = native_worked(host.memory);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 5000));
    CHECK_EQUAL(native_worked(host.memory), worked);
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    host_close(&host);
}

static void stop_while_holding_ends_the_run(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 1000));
    CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 2000));
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

/* At every moment of a run, in its own right: no step after the contact opens, and nothing moves when it closes again. */
static void no_step_is_made_after_the_e_stop_opens(void)
{
    int in_motion = 0, at_work = 0;
    for (uint32_t at = 100; at < 3000; at += 133) {
        test_host host;
        open_running(&host, &plotter, pen_job);
        CHECK(!host_wait_for(&host, STATE_COMPLETE, at));
        uint32_t before = native_pulses(host.memory);
        native_advance(host.memory, 5000 + at);
        CHECK_EQUAL(native_state(host.memory), STATE_EXECUTE);
        uint32_t pulses = native_pulses(host.memory);
        in_motion += pulses > before;
        at_work += pulses > before && native_head(host.memory, 0);
        native_set_e_stop(host.memory, 1);
        CHECK_EQUAL(native_pulses(host.memory), pulses);
        CHECK_EQUAL(native_drivers(host.memory), 0);
        host_wait(&host, 100);
        CHECK_EQUAL(host.status.state, STATE_ABORTED);
        CHECK_EQUAL(host.status.cause, CAUSE_E_STOP);
        CHECK_EQUAL(host.status.inputs & 0xE0, 0);
        CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_CAUSE_PRESENT);
        native_set_e_stop(host.memory, 0);
        host_wait(&host, 200);
        CHECK_EQUAL(native_pulses(host.memory), pulses);
        CHECK_EQUAL(host.status.state, STATE_ABORTED);
        CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_STOPPED, 100));
        CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_IDLE, 30000));
        CHECK_EQUAL(native_place(host.memory, 0), 16);
        CHECK_EQUAL(host_wrongs(&host), 0);
        host_close(&host);
    }
    CHECK(in_motion >= 12 && at_work >= 6); /* else it tries less than it says */
}

static void two_7f_stop_the_board_in_its_receive_interrupt(void)
{
    const uint8_t stop[] = {0x7F, 0x7F};
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 1000));
    host_send_octets(&host, stop, 2);
    native_advance(host.memory, 45); /* two octets of 20 us */
    CHECK_EQUAL(native_drivers(host.memory), 0);
    uint32_t pulses = native_pulses(host.memory);
    host_wait(&host, 50);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    CHECK_EQUAL(host.status.cause, CAUSE_STOP_OCTETS);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_WRONG_STATE);
    host_close(&host);
}

static void stop_octets_need_no_session(void)
{
    const uint8_t stop[] = {0x55, 0x7F, 0x7F};
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    native_reset(host.memory, BRIDGE_RESET_EXTERNAL);
    host_hello(&host, 0x4321);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    host_send_octets(&host, stop, 3);
    host_wait(&host, 5);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    host_close(&host);
}

static void no_step_is_made_into_an_endstop_that_closes(void)
{
    test_host host;
    open_running(&host, &plotter, "40120C485E0CC00005000000");
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 900));
    int32_t place = native_place(host.memory, 0);
    native_set_axis(host.memory, 0, place, place + 500, 1, -5000, 20000); /* something is in the way */
    CHECK(host_wait_for(&host, STATE_ABORTED, 1000));
    CHECK_EQUAL(host.status.cause, CAUSE_ENDSTOP_HIT);
    CHECK_EQUAL(native_place(host.memory, 0), place + 500);
    CHECK_EQUAL(native_wrong(host.memory, NATIVE_STEPS_INTO_ENDSTOP), 0);
    CHECK_EQUAL(native_drivers(host.memory), 0);
    host_close(&host);
}

static void a_cut_endstop_wire_stops_the_motion(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 900));
    native_set_endstop(host.memory, 1, 2);
    uint32_t pulses = native_pulses(host.memory);
    host_wait(&host, 50);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    CHECK_EQUAL(host.status.cause, CAUSE_ENDSTOP_HIT);
    host_close(&host);
}

/* A gap of nothing: the endstop is closed over the first cell itself, and only the way towards it is forbidden. */
static void an_endstop_at_the_first_cell_itself_is_no_hit_on_the_way_out(void)
{
    test_host host;
    host_machine machine = plotter;
    machine.axis[0].gap = 0;
    machine.axis[0].backlash = 0;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &machine);
    CHECK(host_run(&host, &machine, "40010F000000") > 0);
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(native_wrong(host.memory, NATIVE_STEPS_INTO_ENDSTOP), 0);
    host_close(&host);
}

static void a_silent_line_holds_and_does_not_go_on_by_itself(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 600));
    host_wait(&host, 1500);
    CHECK_EQUAL(host.status.state, STATE_HELD);
    CHECK_EQUAL(host.status.cause, CAUSE_LINE_SILENT);
    for (int turn = 0; turn < 10; turn++) {
        host_beat(&host);
        host_wait(&host, 50);
    }
    CHECK_EQUAL(host.status.state, STATE_HELD);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 60000));
    host_close(&host);
}

static void a_new_session_in_motion_holds(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 600));
    host_hello(&host, 0x7777);
    CHECK(host_wait_for(&host, STATE_HELD, 2000));
    CHECK_EQUAL(host.status.cause, CAUSE_HOST_RESTARTED);
    CHECK_EQUAL(host.status.run_id, 1);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 60000));
    host_close(&host);
}

static void after_any_reset_nothing_moves(void)
{
    for (uint8_t reason = 0; reason <= BRIDGE_RESET_WATCHDOG; reason++) {
        test_host host;
        open_running(&host, &plotter, pen_job);
        CHECK(!host_wait_for(&host, STATE_COMPLETE, 900));
        native_reset(host.memory, reason);
        uint32_t pulses = native_pulses(host.memory);
        host_wait(&host, 500);
        CHECK_EQUAL(native_drivers(host.memory), 0);
        host_hello(&host, 0x2222);
        host_beat(&host);
        host_wait(&host, 500);
        CHECK_EQUAL(native_pulses(host.memory), pulses);
        CHECK_EQUAL(host.status.state, STATE_ABORTED);
        CHECK_EQUAL(host.status.inputs & 0xE0, 0);
        CHECK_EQUAL(host.status.run_id, 0);
        host_close(&host);
    }
}

static void a_pen_that_an_abort_left_down_is_lifted_before_anything_moves(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    while (native_head(host.memory, 0) == 0) {
        host_beat(&host);
        host_wait(&host, 10);
    }
    host_wait(&host, 200);
    CHECK_EQUAL(host_command(&host, COMMAND_ABORT), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_ABORTED, 100));
    CHECK_EQUAL(host.status.cause, CAUSE_OPERATOR);
    CHECK_EQUAL(host.status.head & 2, 2);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    uint32_t pulses = native_pulses(host.memory);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    native_advance(host.memory, 110000);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    CHECK(host_wait_for(&host, STATE_IDLE, 30000));
    CHECK_EQUAL(host.status.head & 2, 0);
    host_close(&host);
}

/* Aborted at any moment, in the midst of a dot too: what was at hand is not made up for by a stop that comes later. */
static void a_stop_after_an_abort_works_no_cell(void)
{
    host_machine machine = gantry_3d;
    machine.head[0].first_ms = 70;
    machine.head[1].first_ms = 90;
    machine.axis[0].backlash = 0;
    machine.axis[1].backlash = 0;
    for (uint32_t at = 20; at < 1500; at += 37) {
        test_host host;
        open_running(&host, &machine, "400002" "710022" "807F00" "C00002" "000000");
        host_wait_for(&host, STATE_COMPLETE, at);
        CHECK_EQUAL(host_command(&host, COMMAND_ABORT), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_ABORTED, 100));
        uint32_t worked = native_worked(host.memory);
        CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_STOPPED, 100));
        CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
        CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_STOPPED, 2000));
        CHECK_EQUAL(native_worked(host.memory), worked);
        CHECK_EQUAL(native_head(host.memory, 0) + native_head(host.memory, 1), 0);
        host_close(&host);
    }
}

/* The firmware found itself in a state that cannot be: it stops rather than guesses. */
static void a_fault_of_the_firmwares_own_stops_everything(void)
{
    test_host host;
    open_running(&host, &plotter, pen_job);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 300));
    bridge *board = host.memory;
    board->steps.left -= 3;
    host_wait(&host, 300);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    CHECK_EQUAL(host.status.cause, CAUSE_FIRMWARE_FAULT);
    host_close(&host);
    open_running(&host, &plotter, pen_job);
    board = host.memory;
    memset(board->queue.octets, 0xFF, sizeof board->queue.octets);
    host_wait_for(&host, STATE_ABORTED, 5000);
    CHECK_EQUAL(host.status.cause, CAUSE_FIRMWARE_FAULT);
    host_close(&host);
}

void stop_tests(void)
{
    RUN(pens_go_on_after_a_hold_at_any_moment);
    RUN(dots_go_on_after_a_hold_at_any_moment);
    RUN(a_hold_in_a_row_stops_at_a_cell_nearby);
    RUN(a_wait_is_held_at_once_and_the_rest_of_it_waited_later);
    RUN(stop_ends_the_run_in_a_controlled_way);
    RUN(stop_while_holding_ends_the_run);
    RUN(no_step_is_made_after_the_e_stop_opens);
    RUN(two_7f_stop_the_board_in_its_receive_interrupt);
    RUN(stop_octets_need_no_session);
    RUN(no_step_is_made_into_an_endstop_that_closes);
    RUN(a_cut_endstop_wire_stops_the_motion);
    RUN(an_endstop_at_the_first_cell_itself_is_no_hit_on_the_way_out);
    RUN(a_silent_line_holds_and_does_not_go_on_by_itself);
    RUN(a_new_session_in_motion_holds);
    RUN(after_any_reset_nothing_moves);
    RUN(a_pen_that_an_abort_left_down_is_lifted_before_anything_moves);
    RUN(a_stop_after_an_abort_works_no_cell);
    RUN(a_fault_of_the_firmwares_own_stops_everything);
}
