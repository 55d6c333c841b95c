#include <stdio.h>
#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "store_host.h"
#include "vectors.h"

static void a_stored_job_runs_with_again_and_without_a_line(void)
{
    test_host host;
    static char text[2000];
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "443301" "A00001" "447301" "A00000" "000000"), ANSWER_NONE);
    CHECK_EQUAL(begin_stored(&host, 99), ANSWER_NONE);
    CHECK_EQUAL(host.status.run_id, 99);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    for (int ms = 0; ms < 20000 && host.status.state != STATE_COMPLETE; ms++)
        host_wait(&host, 1); /* no beat: a stored run needs no host */
    CHECK_EQUAL(host.status.state, STATE_COMPLETE);
    CHECK_EQUAL(host.status.done, 6); /* `again` unrolled, and the end */
    host_worked(&host, text, sizeof text);
    CHECK(strcmp(text, "a:3,3,0 a:3,4,0 a:3,3,0 a:3,4,0 a:3,3,0 a:3,4,0 a:7,3,0 a:7,4,0 a:7,3,0 a:7,4,0") == 0);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_full_store_needs_no_end(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401200" "401300"), ANSWER_NONE);
    CHECK_EQUAL(begin_stored(&host, 1), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 10000));
    CHECK_EQUAL(host.status.done, 2);
    CHECK_EQUAL(native_worked(host.memory), 2);
    host_close(&host);
}

static void the_start_button_runs_it_with_no_host(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &gantry_3d);
    CHECK_EQUAL(write_hex(&host, "401204" "715522" "000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    run_by_button(&host);
    CHECK_EQUAL(native_worked(host.memory), 5 + 9);
    CHECK_EQUAL(native_cause(host.memory), CAUSE_JOB_COMPLETE);
    CHECK_EQUAL(host_wrongs(&host), 0);
    press(&host);
    wait_for_state(&host, STATE_IDLE);
    press(&host);
    wait_for_state(&host, STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 28);
    host_close(&host);
}

/* The octets of head b, which such a machine lacks, are those of a dot of 0 ms of head a. */
static void the_start_button_lowers_the_only_pen_of_a_machine(void)
{
    test_host host;
    bool was_down = false;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &wide);
    CHECK_EQUAL(write_hex(&host, "4001020003" "0000000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    press(&host);
    press(&host);
    wait_for_state(&host, STATE_IDLE);
    press(&host);
    for (int turn = 0; turn < 6000 && native_state(host.memory) != STATE_COMPLETE; turn++) {
        native_advance(host.memory, 10000);
        was_down = was_down || native_head(host.memory, 0) != 0;
    }
    CHECK(was_down);
    CHECK_EQUAL(native_state(host.memory), STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 4);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void each_press_is_one_command_and_a_stuck_button_is_none(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    native_set_start(host.memory, 1);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    native_advance(host.memory, 1000000);
    CHECK_EQUAL(native_state(host.memory), STATE_ABORTED);
    press(&host);
    wait_for_state(&host, STATE_STOPPED);
    uint32_t pulses = native_pulses(host.memory);
    native_advance(host.memory, 1000000);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    native_set_start(host.memory, 1);
    native_advance(host.memory, 10000);
    native_set_start(host.memory, 0); /* a bounce */
    native_advance(host.memory, 500000);
    CHECK_EQUAL(native_state(host.memory), STATE_STOPPED);
    native_set_e_stop(host.memory, 1);
    native_advance(host.memory, 10000);
    press(&host);
    CHECK_EQUAL(native_state(host.memory), STATE_ABORTED);
    host_close(&host);
}

static void with_a_host_the_button_is_only_told(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    native_set_start(host.memory, 1);
    host_beat(&host);
    host_wait(&host, 200);
    CHECK_EQUAL(host.status.inputs & BRIDGE_INPUT_START, BRIDGE_INPUT_START);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    native_set_start(host.memory, 0);
    host_close(&host);
}

static void a_held_stored_run_goes_on_at_the_next_press(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401204C20000401304000000"), ANSWER_NONE);
    host_wait(&host, 1000);
    native_reset(host.memory, BRIDGE_RESET_POWER_ON);
    for (int turn = 0; turn < 3; turn++) {
        press(&host);
        native_advance(host.memory, 20000000);
    }
    CHECK_EQUAL(native_state(host.memory), STATE_HELD);
    CHECK_EQUAL(native_cause(host.memory), CAUSE_OPERATOR_WAIT);
    press(&host);
    wait_for_state(&host, STATE_COMPLETE);
    CHECK_EQUAL(native_worked(host.memory), 10);
    host_close(&host);
}

/* The records of the run begun would be those of the job that is replaced. */
static void a_job_that_is_written_over_a_begun_run_ends_it(void)
{
    test_host host;
    static char text[2000];
    uint8_t too_long[2] = {0xFF, 0xFF}, two[2] = {0, 6};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(write_hex(&host, "401200" "401300" "401400" "401500" "000000"), ANSWER_NONE);
    CHECK_EQUAL(begin_stored(&host, 1), ANSWER_NONE);
    CHECK_EQUAL(say_patiently(&host, MESSAGE_STORE_BEGIN, too_long, 2), ANSWER_STORE_FULL);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE); /* what is refused ends nothing */
    CHECK(host_wait_for(&host, STATE_COMPLETE, 20000));
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 20000));
    CHECK_EQUAL(begin_stored(&host, 2), ANSWER_NONE);
    CHECK_EQUAL(say_patiently(&host, MESSAGE_STORE_BEGIN, two, 2), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NO_RUN);
    CHECK_EQUAL(begin_stored(&host, 3), ANSWER_NONE);
    CHECK_EQUAL(write_hex(&host, "408200" "408300" "408400" "408500" "000000"), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NO_RUN);
    CHECK_EQUAL(begin_stored(&host, 4), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    for (int ms = 0; ms < 20000 && host.status.done < 2; ms++)
        host_wait(&host, 1);
    CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 5000));
    CHECK(host.status.done < 4);
    CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE);
    CHECK_EQUAL(host.status.state, STATE_HELD);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 20000));
    host_worked(&host, text, sizeof text);
    CHECK(strcmp(text, "a:1,2,0 a:1,3,0 a:1,4,0 a:1,5,0 a:8,2,0 a:8,3,0 a:8,4,0 a:8,5,0") == 0);
    host_close(&host);
}

/* The first octet is what says that a job is there: without it the other slot has the newest. */
static void a_newest_job_that_goes_bad_gives_its_run_no_record_of_the_other_one(void)
{
    enum { SECOND = 512 };
    for (int is_started = 0; is_started < 2; is_started++) {
        test_host host;
        static char text[2000];
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, &plotter);
        CHECK_EQUAL(write_hex(&host, "408200" "408300" "408400" "408500" "408600" "000000"), ANSWER_NONE);
        host_wait(&host, 100);
        CHECK_EQUAL(write_hex(&host, "401200" "401300" "401400" "401500" "000000"), ANSWER_NONE);
        CHECK_EQUAL(begin_stored(&host, 1), ANSWER_NONE);
        if (is_started) {
            CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
            for (int ms = 0; ms < 20000 && host.status.done == 0; ms++)
                host_wait(&host, 1);
        }
        native_lasting(host.memory)[SECOND] ^= 0x10;
        if (is_started) {
            const uint8_t octets[3] = {0, 0, 3};
            CHECK_EQUAL(host_say(&host, MESSAGE_STORE_READ, octets, 3), ANSWER_STORE_BUSY); /* the machine moves */
            CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
            CHECK(host_wait_for(&host, STATE_HELD, 5000));
        }
        CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_STORE_DAMAGED);
        CHECK_EQUAL(host.storeds, 0);
        CHECK_EQUAL(host_command(&host, is_started ? COMMAND_UNHOLD : COMMAND_START), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_COMPLETE, 20000));
        host_worked(&host, text, sizeof text);
        CHECK(strcmp(text, "a:1,2,0 a:1,3,0 a:1,4,0 a:1,5,0") == 0);
        CHECK_EQUAL(read_back(&host, 0, 3), ANSWER_NONE); /* of no run any more */
        CHECK_EQUAL(host.stored[5], 0x82);
        host_close(&host);
    }
}

void stored_run_tests(void)
{
    RUN(a_stored_job_runs_with_again_and_without_a_line);
    RUN(a_full_store_needs_no_end);
    RUN(the_start_button_runs_it_with_no_host);
    RUN(the_start_button_lowers_the_only_pen_of_a_machine);
    RUN(each_press_is_one_command_and_a_stuck_button_is_none);
    RUN(with_a_host_the_button_is_only_told);
    RUN(a_held_stored_run_goes_on_at_the_next_press);
    RUN(a_job_that_is_written_over_a_begun_run_ends_it);
    RUN(a_newest_job_that_goes_bad_gives_its_run_no_record_of_the_other_one);
}
