#include <stdlib.h>
#include <string.h>

#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "vectors.h"

static void hello_is_answered_with_what_the_board_is(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_BROWN_OUT);
    host_hello(&host, 0xABCD);
    CHECK_EQUAL(host.welcomes, 1);
    CHECK_EQUAL(host.statuses, 0);
    CHECK_EQUAL(get_u16(host.welcome), 0xABCD);
    CHECK_EQUAL(host.welcome[2], WIRE_VERSION);
    CHECK_EQUAL(host.welcome[5], 7);
    CHECK_EQUAL(host.welcome[6], 64);
    CHECK_EQUAL(host.welcome[7], 16);
    CHECK(get_u16(host.welcome + 8) >= 256);
    CHECK_EQUAL(host.welcome[10], BRIDGE_RESET_BROWN_OUT);
    CHECK_EQUAL(host.welcome[11], STATE_ABORTED);
    host_close(&host);
}

static void hello_of_another_version_changes_nothing(void)
{
    test_host host;
    uint8_t body[3] = {2, 0x55, 0x34};
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    host_beat(&host);
    host_wait(&host, 3);
    host_command(&host, COMMAND_START);
    host_send(&host, MESSAGE_HELLO, 0, body, 3);
    host_wait(&host, 3);
    CHECK_EQUAL(get_u16(host.welcome), 0x5534);
    CHECK_EQUAL(host.welcome[2], WIRE_VERSION);
    CHECK_EQUAL(host.welcome_number, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_WRONG_STATE);
    host_close(&host);
}

static void without_a_session_the_board_says_nothing(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_beat(&host);
    host_wait(&host, 200);
    CHECK_EQUAL(host.statuses + host.welcomes, 0);
    host_hello(&host, 0x1234);
    host.session = 0x35;
    host_beat(&host);
    host_wait(&host, 10);
    CHECK_EQUAL(host.statuses, 0);
    host_close(&host);
}

static void a_duplicate_and_a_gap_are_answered_and_otherwise_ignored(void)
{
    test_host host;
    uint8_t clear = COMMAND_CLEAR;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    host_send(&host, MESSAGE_COMMAND, 1, &clear, 1);
    host_wait(&host, 5);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    CHECK_EQUAL(host.status.head & 4, 4);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK_EQUAL(host.status.head & 4, 0);
    host_wait(&host, 5);
    CHECK_EQUAL(host.status.state, STATE_STOPPED);
    CHECK((host.states_seen & (1u << STATE_CLEARING)) != 0);
    int before = host.statuses;
    host_send(&host, MESSAGE_COMMAND, 0, &clear, 1);
    host_wait(&host, 5);
    CHECK_EQUAL(host.statuses, before + 1);
    CHECK_EQUAL(host.status.answer, ANSWER_NONE);
    host_close(&host);
}

static void bodies_that_must_not_be_read_are_refused_or_ignored(void)
{
    static vector_file lines;
    uint8_t octets[VECTOR_OCTETS];
    int refused = 0;
    if (!vectors_open(&lines, "wire/bad-bodies.txt"))
        return;
    while (vectors_next(&lines)) {
        test_host host;
        size_t length = vector_octets(lines.field[1], octets);
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_hello(&host, 0x1234);
        int welcomes = host.welcomes;
        if (octets[0] >= MESSAGE_SET_MACHINE && octets[0] <= MESSAGE_REFERENCE_READ && octets[0] != MESSAGE_JOG) {
            CHECK_EQUAL(host_say(&host, octets[0], octets + 3, (uint8_t)(length - 3)), ANSWER_BAD_VALUE);
            refused++;
        } else {
            host_send(&host, octets[0], 0, octets + 3, (uint8_t)(length - 3));
            host_wait(&host, 5);
            CHECK_EQUAL(host.statuses, 0);
            CHECK_EQUAL(host.welcomes, welcomes);
        }
        host_close(&host);
    }
    CHECK(refused >= 25);
}

/* The golden messages of a host, sent to a fresh board: each is taken for what it is. */
static void golden_messages_are_understood(void)
{
    static vector_file lines;
    uint8_t octets[VECTOR_OCTETS], frame[VECTOR_OCTETS];
    int understood = 0;
    if (!vectors_open(&lines, "wire/messages.txt"))
        return;
    while (vectors_next(&lines)) {
        test_host host;
        size_t length = vector_octets(lines.field[2], octets);
        vector_octets(lines.field[1], frame);
        if (frame[0] >= 0x80 || frame[0] == MESSAGE_HELLO)
            continue;
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_hello(&host, frame[1]);
        for (uint8_t number = 0; number != frame[2] && frame[0] > MESSAGE_BEAT; number++) {
            host_send(&host, 0x7F, number, NULL, 0);
            host_wait(&host, 1);
        }
        host_send_octets(&host, octets, (uint32_t)length);
        host_wait(&host, 5);
        CHECK(host.statuses > 0);
        bool is_far = strncmp(lines.field[0], "set_axis_max", 12) == 0;
        uint8_t wanted = is_far ? ANSWER_SPEED_TOO_HIGH
            : frame[0] == MESSAGE_BEGIN || frame[0] == MESSAGE_COMMAND ? ANSWER_WRONG_STATE
            : frame[0] == MESSAGE_RECORDS ? ANSWER_NO_RUN : ANSWER_NONE;
        CHECK_EQUAL(host.status.answer, wanted);
        understood++;
        host_close(&host);
    }
    CHECK(understood >= 10);
}

static void unknown_messages_are_refused_and_boards_own_are_ignored(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    CHECK_EQUAL(host_say(&host, 0x10, NULL, 0), ANSWER_UNKNOWN_MESSAGE);
    CHECK_EQUAL(host_say(&host, 0x7F, NULL, 0), ANSWER_UNKNOWN_MESSAGE);
    int before = host.statuses;
    host_send(&host, 0x80, host.next, NULL, 0);
    host_send(&host, 0x00, host.next, NULL, 0);
    host_send(&host, 0x82, host.next, NULL, 0);
    host_wait(&host, 5);
    CHECK_EQUAL(host.statuses, before);
    host_close(&host);
}

static void what_cannot_be_done_yet_is_refused_with_the_reason(void)
{
    test_host host;
    uint8_t record[3] = {0x40, 0x12, 0x04};
    host_machine fast = plotter;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    CHECK_EQUAL(host_records(&host, 0, record, 3), ANSWER_NO_RUN);
    CHECK_EQUAL(host_begin(&host, 1, 1), ANSWER_WRONG_STATE);
    native_set_e_stop(host.memory, 1);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_CAUSE_PRESENT);
    native_set_e_stop(host.memory, 0);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_NO_SETUP);
    fast.axis[0].top = 40001;
    CHECK_EQUAL(host_set_axis(&host, &fast, 0), ANSWER_SPEED_TOO_HIGH);
    host_close(&host);
}

static void a_machine_whose_places_cannot_be_counted_is_refused(void)
{
    test_host host;
    host_machine vast = gantry_3d;
    vast.axis[2].pitch_q16 = 0xFFFFFFFF;
    vast.cells[2] = 65535;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_hello(&host, 0x1234);
    CHECK_EQUAL(host_set_machine(&host, &vast), ANSWER_NONE);
    for (uint8_t axis = 0; axis < 3; axis++)
        CHECK_EQUAL(host_set_axis(&host, &vast, axis), ANSWER_NONE);
    CHECK_EQUAL(host_set_head(&host, &vast, 0), ANSWER_NONE);
    CHECK_EQUAL(host_set_head(&host, &vast, 1), ANSWER_NONE);
    CHECK_EQUAL(host_command(&host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(&host, STATE_STOPPED, 100));
    CHECK_EQUAL(host_command(&host, COMMAND_RESET), ANSWER_BAD_VALUE);
    CHECK_EQUAL(host.status.state, STATE_STOPPED);
    host_close(&host);
}

static void a_watchdog_reset_says_so(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_WATCHDOG);
    host_hello(&host, 0x1234);
    host_beat(&host);
    host_wait(&host, 3);
    CHECK_EQUAL(host.status.state, STATE_ABORTED);
    CHECK_EQUAL(host.status.cause, CAUSE_WATCHDOG);
    CHECK_EQUAL(host.welcome[10], BRIDGE_RESET_WATCHDOG);
    host_close(&host);
}

void message_tests(void)
{
    RUN(hello_is_answered_with_what_the_board_is);
    RUN(hello_of_another_version_changes_nothing);
    RUN(without_a_session_the_board_says_nothing);
    RUN(a_duplicate_and_a_gap_are_answered_and_otherwise_ignored);
    RUN(bodies_that_must_not_be_read_are_refused_or_ignored);
    RUN(golden_messages_are_understood);
    RUN(unknown_messages_are_refused_and_boards_own_are_ignored);
    RUN(what_cannot_be_done_yet_is_refused_with_the_reason);
    RUN(a_machine_whose_places_cannot_be_counted_is_refused);
    RUN(a_watchdog_reset_says_so);
}
