#include "noise.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../core/board.h"
#include "../core/octets.h"
#include "../ports/native/native.h"
#include "../ports/port.h"

static void demand(bool holds, const char *what)
{
    if (holds)
        return;
    fprintf(stderr, "broken: %s\n", what);
    abort();
}

/* A frame straight into the board, as after the decoder: the script need not find check sequences by chance. */
static void say(bridge *board, uint8_t type, const uint8_t *body, uint8_t length)
{
    uint8_t frame[FRAME_MAX] = {type, (uint8_t)board->link.token, board->link.expected};
    if (length > 0)
        memcpy(frame + 3, body, length);
    board_hear(board, frame, (uint8_t)(length + 3));
}

static void say_known(bridge *board, uint8_t what)
{
    static const uint8_t machine[21] = {4, 3, 2, 1, 244, 0, 50, 0, 16, 0, 16, 0, 4};
    static const uint8_t head_a[14] = {0, 1, 0, 30, 0, 30}, head_b[14] = {1, 0, 0, 30, 0, 0, 0, 0, 0, 10};
    uint8_t axis[24] = {0, 0, 0, 20, 0, 0, 0, 0, 0x0F, 0xA0, 0, 0, 0x9C, 0x40, 0, 0, 3, 0, 0, 0, 0, 20, 0, 3};
    say(board, MESSAGE_SET_MACHINE, machine, 21);
    for (axis[0] = 0; axis[0] < 3; axis[0]++)
        say(board, MESSAGE_SET_AXIS, axis, 24);
    say(board, MESSAGE_SET_HEAD, head_a, 14);
    say(board, MESSAGE_SET_HEAD, head_b, 14);
    say(board, MESSAGE_COMMAND, &what, 1);
}

/* The next four records: rows of up to four cells, which the grid holds. */
static void say_rows(bridge *board, const uint8_t *script)
{
    uint8_t records[4 + 4 * 3];
    put_u32(records, board->run.taken);
    for (int index = 0; index < 12; index += 3) {
        records[4 + index] = (uint8_t)(0x40 | (script[index] & 0x10));
        records[5 + index] = script[index + 1] & 0x77;
        records[6 + index] = script[index + 2] & 0x03;
    }
    say(board, MESSAGE_RECORDS, records, sizeof records);
}

static void look(void *memory)
{
    const bridge *board = memory;
    demand(native_wrong(memory, NATIVE_STEPS_WITHOUT_POWER) == 0, "a step without power");
    demand(native_wrong(memory, NATIVE_STEPS_INTO_ENDSTOP) == 0, "a step into a closed endstop");
    demand(board->state >= STATE_CLEARING && board->state <= STATE_COMPLETE, "a state that is none");
    demand(board->queue.count <= QUEUE_RECORDS, "a queue beyond its end");
    demand(board->run.done <= board->run.taken && board->run.taken <= board->run.limit, "counters out of order");
    demand(board->cause != CAUSE_FIRMWARE_FAULT, "a fault of the firmware's own");
    if (board->state != STATE_ABORTED)
        return;
    uint32_t pulses = native_pulses(memory);
    native_advance(memory, 2000);
    demand(board->state != STATE_ABORTED || native_pulses(memory) == pulses, "a step in Aborted");
    demand(board->state != STATE_ABORTED || !native_drivers(memory), "drivers on in Aborted");
}

static void act(void *memory, uint8_t what, const uint8_t *body, uint8_t length)
{
    bridge *board = memory;
    switch (what % 16) {
    case 0:
    case 1:
    case 2:
        say(board, body[0] % 16, body + 1, (uint8_t)(length - 1));
        break;
    case 3:
        native_receive(memory, body, length);
        break;
    case 4:
        for (int left = body[0]; left > 0; left -= 20) {
            say(board, MESSAGE_BEAT, NULL, 0);
            native_advance(memory, (uint64_t)(left < 20 ? left : 20) * 5000);
        }
        break;
    case 5: /* the same time with nothing heard */
        native_advance(memory, (uint64_t)body[0] * 5000);
        break;
    case 6:
        native_set_e_stop(memory, body[0] % 4 == 1);
        break;
    case 7:
        native_set_endstop(memory, body[0] % 3, body[1] % 8 < 6 ? 0 : body[1] % 8 - 5);
        break;
    case 8:
        native_set_start(memory, body[0] & 1);
        native_advance(memory, 40000);
        break;
    case 9:
        say_known(board, COMMAND_CLEAR);
        native_advance(memory, 10000);
        say_known(board, COMMAND_RESET);
        for (int tenth = 0; tenth < 30 && board->state == STATE_RESETTING; tenth++) {
            say(board, MESSAGE_BEAT, NULL, 0);
            native_advance(memory, 100000);
        }
        break;
    case 10: /* a run of four records or of eight, with the first four */
        say(board, MESSAGE_BEGIN, (const uint8_t[]){0, 1, 0, 0, 0, body[12] % 2 ? 8 : 4}, 6);
        say_rows(board, body);
        say(board, MESSAGE_COMMAND, (const uint8_t *)"\x02", 1);
        break;
    case 11:
        say_rows(board, body);
        break;
    case 12:
        say(board, MESSAGE_COMMAND, body, 1);
        break;
    case 13:
        if (body[0] % 4 == 3)
            native_reset(memory, body[1] % 2 ? BRIDGE_RESET_WATCHDOG : BRIDGE_RESET_POWER_ON);
        else
            native_receive_error(memory);
        break;
    case 14:
        say(board, MESSAGE_HELLO, (const uint8_t[]){1, body[0] % 2, body[1] % 2}, 3);
        break;
    default:
        say(board, MESSAGE_JOG, (const uint8_t[]){body[0] % 3, body[1] % 2}, 2);
        native_advance(memory, 30000);
        break;
    }
}

/* Whatever has come before, a host that says hello is answered. */
static void answer(void *memory)
{
    static const uint8_t hello[] = {0x7E, 0x01, 0x34, 0x00, 0x01, 0x12, 0x34, 0x3F, 0x81, 0x7E};
    uint8_t octets[256];
    size_t count, all = 0;
    native_advance(memory, 100000);
    while (native_take(memory, octets, sizeof octets) > 0)
        ;
    native_receive(memory, hello, sizeof hello);
    native_receive(memory, hello, sizeof hello); /* the first may end a frame that was cut */
    native_advance(memory, 10000);
    while ((count = native_take(memory, octets, sizeof octets)) > 0)
        all += count;
    demand(all > 0, "no answer to hello");
}

uint32_t noise_play(const uint8_t *script, size_t length)
{
    uint32_t seen = 0;
    void *memory = malloc(native_size());
    uint8_t body[64];
    native_create(memory, BRIDGE_RESET_POWER_ON);
    for (uint8_t axis = 0; axis < 3; axis++)
        native_set_axis(memory, axis, 30 + axis, -20, 0, -40, 2000);
    say(memory, MESSAGE_HELLO, (const uint8_t[]){1, 0, 0}, 3);
    while (length >= 2) {
        uint8_t what = script[0];
        uint8_t want = (uint8_t)(1 + script[1] % 60);
        script += 2;
        length -= 2;
        uint8_t count = (uint8_t)(want < length ? want : length);
        memset(body, 0, sizeof body);
        memcpy(body, script, count);
        script += count;
        length -= count;
        act(memory, what, body, count > 0 ? count : 1);
        native_advance(memory, 500);
        look(memory);
        seen |= UINT32_C(1) << ((const bridge *)memory)->state;
    }
    answer(memory);
    free(memory);
    return seen;
}
