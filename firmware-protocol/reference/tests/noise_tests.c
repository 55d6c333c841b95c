#include <stdlib.h>
#include <string.h>

#include "../core/board.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "host.h"
#include "noise.h"

/* noise_play ends the process where a rule is broken. */
static void whatever_comes_the_board_stays_safe_and_answers(void)
{
    static uint8_t script[4000];
    static const uint8_t rests[] = {STATE_STOPPED, STATE_IDLE, STATE_EXECUTE, STATE_ABORTED, STATE_HELD, STATE_COMPLETE};
    uint32_t seen = 0;
    for (unsigned seed = 1; seed <= 240; seed++) {
        srand(seed);
        for (size_t index = 0; index < sizeof script; index++)
            script[index] = (uint8_t)(rand() >> 7);
        for (size_t index = 1; index < sizeof script; index += 13)
            script[index] %= 14;
        seen |= noise_play(script, sizeof script / (seed % 4 + 1));
    }
    for (size_t index = 0; index < sizeof rests; index++)
        CHECK(seen & UINT32_C(1) << rests[index]); /* else it tries less than it says */
}

/* Before each piece of noise a frame that would move it: its type, the session and the number are right, its check sequence is not. */
static void a_hundred_thousand_octets_of_noise_move_nothing(void)
{
    static const uint8_t start[] = {COMMAND_START}, jog[] = {0, 1};
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    CHECK_EQUAL(host_begin(&host, 1, 4), ANSWER_NONE);
    uint32_t pulses = native_pulses(host.memory);
    srand(2);
    for (int turn = 0; turn < 1000; turn++) {
        uint8_t octets[100];
        uint32_t length = turn % 2 ? host_frame(&host, MESSAGE_COMMAND, host.next, start, 1, octets)
                                   : host_frame(&host, MESSAGE_JOG, host.next, jog, 2, octets);
        octets[length - 3] ^= (uint8_t)(1 + rand() % 15); /* the check sequence */
        for (; length < sizeof octets; length++)
            octets[length] = (uint8_t)((rand() >> 5) % FRAME_RESERVED); /* two of which would be STOP */
        native_receive(host.memory, octets, sizeof octets);
        native_advance(host.memory, 2000);
    }
    host_beat(&host);
    host_wait(&host, 5);
    CHECK_EQUAL(host.status.state, STATE_IDLE);
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    host_close(&host);
}

/* One to three bits turned, an octet lost or one doubled; the length then. */
static uint32_t damage(uint8_t *line, uint32_t length)
{
    uint32_t at = 1 + (uint32_t)rand() % (length - 2);
    int kind = rand() % 5;
    if (kind == 0) {
        memmove(line + at, line + at + 1, length - at - 1);
        return length - 1;
    }
    if (kind == 1) {
        memmove(line + at + 1, line + at, length - at);
        return length + 1;
    }
    for (int bits = kind - 1; bits > 0; bits--)
        line[1 + (at + (uint32_t)bits) % (length - 2)] ^= (uint8_t)(1 << rand() % 8);
    return length;
}

/* Whatever is accepted was sent. */
static void a_bad_line_never_makes_a_board_do_what_was_not_said(void)
{
    for (unsigned seed = 1; seed <= 20; seed++) {
        test_host host;
        char text[2000];
        uint8_t records[6] = {0x40, 0x12, 0x04, 0, 0, 0};
        host_open(&host, BRIDGE_RESET_POWER_ON);
        host_ready(&host, &plotter);
        CHECK_EQUAL(host_begin(&host, 1, 2), ANSWER_NONE);
        srand(seed);
        for (int turn = 0; turn < 200; turn++) {
            static const uint8_t body[] = {0, 0, 0, 0, 0x40, 0x12, 0x04, 0, 0, 0};
            uint8_t line[HOST_LINE_MAX + 1];
            uint32_t length = host_frame(&host, MESSAGE_RECORDS, host.next, body, sizeof body, line);
            host_send_octets(&host, line, damage(line, length));
            native_advance(host.memory, 500);
        }
        host_beat(&host);
        host_wait(&host, 5);
        CHECK_EQUAL(host.status.taken, 0);
        CHECK_EQUAL(host_records(&host, 0, records, 6), ANSWER_NONE);
        CHECK_EQUAL(host_command(&host, COMMAND_START), ANSWER_NONE);
        CHECK(host_wait_for(&host, STATE_COMPLETE, 10000));
        host_worked(&host, text, sizeof text);
        CHECK(strcmp(text, "a:1,2,0 a:2,2,0 a:3,2,0 a:4,2,0 a:5,2,0") == 0);
        host_close(&host);
    }
}

void noise_tests(void)
{
    RUN(whatever_comes_the_board_stays_safe_and_answers);
    RUN(a_hundred_thousand_octets_of_noise_move_nothing);
    RUN(a_bad_line_never_makes_a_board_do_what_was_not_said);
}
