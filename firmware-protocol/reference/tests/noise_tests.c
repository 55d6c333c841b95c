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

static void a_hundred_thousand_octets_of_noise_move_nothing(void)
{
    test_host host;
    host_open(&host, BRIDGE_RESET_POWER_ON);
    host_ready(&host, &plotter);
    uint32_t pulses = native_pulses(host.memory);
    srand(2);
    for (int turn = 0; turn < 1000; turn++) {
        uint8_t octets[100];
        for (size_t index = 0; index < sizeof octets; index++)
            octets[index] = (uint8_t)(rand() >> 5);
        native_receive(host.memory, octets, sizeof octets);
        native_advance(host.memory, 2000);
    }
    CHECK_EQUAL(native_pulses(host.memory), pulses);
    host_hello(&host, 0x4444);
    CHECK(host.welcomes >= 2);
    host_close(&host);
}

/* Frames with bits turned, octets lost and doubled: whatever is accepted was sent. */
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
            uint8_t frame[] = {0x7E, MESSAGE_RECORDS, host.session, host.next, 0, 0, 0, 0, 0x40, 0x12, 0x04, 0, 0, 0, 0, 0, 0x7E};
            uint16_t fcs = 0xFFFF;
            for (int index = 1; index < 14; index++) {
                fcs ^= frame[index];
                for (int bit = 0; bit < 8; bit++)
                    fcs = (uint16_t)((fcs & 1) ? (fcs >> 1) ^ 0x8408 : fcs >> 1);
            }
            frame[14] = (uint8_t)~fcs;
            frame[15] = (uint8_t)(~fcs >> 8);
            frame[1 + rand() % 15] ^= (uint8_t)(1 << rand() % 8);
            native_receive(host.memory, frame, sizeof frame);
            native_advance(host.memory, 400);
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
