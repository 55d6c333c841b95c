#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"

static void jog(test_host *host, uint8_t axis, uint8_t up, int ms)
{
    uint8_t body[2] = {axis, up};
    for (int elapsed = 0; elapsed < ms; elapsed += 25) {
        host_send(host, MESSAGE_JOG, host->next, body, 2);
        host_wait(host, 25);
    }
}

static void jogging_moves_for_as_long_as_it_is_allowed(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    jog(&host, 0, 1, 1000);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    int32_t place = native_place(host.memory, 0);
    CHECK(place > 500);
    host_wait(&host, 75); /* 25 ms since the last leave and these are a beat */
    int32_t after = native_place(host.memory, 0);
    host_wait(&host, 500);
    CHECK_EQUAL(native_place(host.memory, 0), after);
    CHECK(after - place < 80);
    host_close(&host);
}

static void jogging_ends_at_the_edge_of_the_grid(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    jog(&host, 0, 1, 14000);
    CHECK_EQUAL(native_place(host.memory, 0), 15 * 400 + 16);
    jog(&host, 0, 1, 200);
    CHECK_EQUAL(native_place(host.memory, 0), 15 * 400 + 16);
    jog(&host, 0, 0, 14000);
    CHECK_EQUAL(native_place(host.memory, 0), 0); /* back over cell 0, the play on the other side */
    jog(&host, 1, 0, 200);
    CHECK_EQUAL(native_place(host.memory, 1), 24);
    CHECK_EQUAL(host_wrongs(&host), 0);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    host_close(&host);
}

static void a_run_starts_from_home_after_jogging(void)
{
    test_host host;
    char text[200];
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &gantry_3d);
    jog(&host, 2, 1, 600);
    jog(&host, 0, 1, 300);
    host_wait(&host, 200);
    jog(&host, 0, 0, 100);
    host_wait(&host, 200);
    CHECK(host_run(&host, &gantry_3d, "401204000000") > 0);
    host_worked(&host, text, sizeof text);
    CHECK(strcmp(text, "a:1,2,0 a:2,2,0 a:3,2,0 a:4,2,0 a:5,2,0") == 0);
    CHECK_EQUAL(native_place(host.memory, 0), 5 * 320 + 4);
    CHECK_EQUAL(native_place(host.memory, 2), 0);
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void a_held_run_goes_on_where_it_was_after_jogging(void)
{
    test_host host;
    const uint8_t records[6] = {0x40, 0x12, 0x0C, 0, 0, 0};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 2), ANSWER_NONE);
    CHECK_EQUAL(host_records(&host, 0, records, 6), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
    CHECK(!host_wait_for(&host, STATE_COMPLETE, 800));
    CHECK_EQUAL(host_command(&host, COMMAND_HOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_HELD, 2000));
    jog(&host, 0, 0, 500);
    jog(&host, 1, 1, 500);
    CHECK_EQUAL(host_command(&host, COMMAND_UNHOLD), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_COMPLETE, 10000));
    CHECK_EQUAL(native_worked(host.memory), 13);
    CHECK_EQUAL(native_place(host.memory, 0), 13 * 400 + 16);
    CHECK_EQUAL(native_place(host.memory, 1), 2 * 400); /* its play on the other side: it came back from above */
    CHECK_EQUAL(host_wrongs(&host), 0);
    host_close(&host);
}

static void jogging_is_ignored_where_it_is_not_allowed(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    uint32_t pulses = native_pulses(host.memory);
    uint8_t bad[3] = {0, 2, 0};
    host_send(&host, MESSAGE_JOG, host.next, bad, 2);
    bad[0] = 2;
    bad[1] = 1;
    host_send(&host, MESSAGE_JOG, host.next, bad, 2);
    bad[0] = 0;
    host_send(&host, MESSAGE_JOG, host.next, bad, 3);
    host_wait(&host, 100);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    jog(&host, 0, 1, 200);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    host_close(&host);
}

static void nothing_of_the_machine_changes_while_it_is_jogged(void)
{
    test_host host;
    uint8_t body[2] = {0, 1};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    jog(&host, 0, 1, 100);
    host_send(&host, MESSAGE_JOG, host.next, body, 2);
    CHECK_EQUAL(host_set_axis(&host, &plotter, 0), ANSWER_WRONG_STATE);
    CHECK_EQUAL(host_command(&host, COMMAND_STOP), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 200));
    int32_t place = native_place(host.memory, 0);
    host_wait(&host, 100);
    CHECK_EQUAL(native_place(host.memory, 0), place);
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_IDLE, 3000));
    CHECK_EQUAL(native_place(host.memory, 0), 16);
    host_close(&host);
}

static void the_e_stop_ends_jogging(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    jog(&host, 0, 1, 300);
    native_set_e_stop(host.memory, 1);
    uint32_t pulses = native_pulses(host.memory);
    jog(&host, 0, 1, 300);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    host_close(&host);
}

void jog_tests(void)
{
    RUN(jogging_moves_for_as_long_as_it_is_allowed);
    RUN(jogging_ends_at_the_edge_of_the_grid);
    RUN(a_run_starts_from_home_after_jogging);
    RUN(a_held_run_goes_on_where_it_was_after_jogging);
    RUN(jogging_is_ignored_where_it_is_not_allowed);
    RUN(nothing_of_the_machine_changes_while_it_is_jogged);
    RUN(the_e_stop_ends_jogging);
}
