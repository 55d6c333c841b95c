#include "host.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../core/octets.h"
#include "../core/record.h"
#include "../ports/native/native.h"
#include "../ports/port.h"
#include "check.h"
#include "vectors.h"

const host_machine plotter = {
    4, 2, 2, 500, 200, {16, 16, 1},
    {{0, 400u << 16, 4800, 32000, 800, 320, 16}, {0, 400u << 16, 4800, 24000, 800, 320, 24}, {0, 0, 0, 0, 0, 0, 0}},
    {{1, 150, 120, {0, 0}}, {1, 150, 120, {-1600, 0}}},
};

const host_machine gantry_3d = {
    4, 3, 2, 500, 1500, {16, 16, 16},
    {{0, 320u << 16, 9600, 80000, 1200, 400, 4}, {1, 320u << 16, 9600, 64000, 1200, 400, 4}, {0, 800u << 16, 4000, 20000, 800, 400, 0}},
    {{0, 400, 0, {0, 0}}, {0, 600, 0, {-2000, 0}}},
};

const host_machine wide = {
    8, 2, 1, 500, 0, {256, 256, 1},
    {{0, 80u << 16, 12000, 96000, 1600, 400, 0}, {0, 80u << 16, 12000, 72000, 1600, 400, 0}, {0, 0, 0, 0, 0, 0, 0}},
    {{1, 150, 120, {0, 0}}, {0, 0, 0, {0, 0}}},
};

void host_open(test_host *host, uint8_t reset_reason)
{
    memset(host, 0, sizeof *host);
    host->memory = malloc(native_size());
    native_create(host->memory, reset_reason);
}

void host_close(test_host *host)
{
    native_destroy(host->memory);
    free(host->memory);
}

static void hear_status(test_host *host, const uint8_t *body)
{
    host_status *to = &host->status;
    to->answer_number = body[0];
    to->answer = body[1];
    to->state = body[2];
    to->cause = body[3];
    to->inputs = body[4];
    to->run_id = get_u16(body + 5);
    to->taken = get_u32(body + 7);
    to->limit = get_u32(body + 11);
    to->done = get_u32(body + 15);
    to->cells = get_u32(body + 19);
    to->x = get_u16(body + 23);
    to->y = get_u16(body + 25);
    to->layer = get_u16(body + 27);
    to->head = body[29];
    host->states_seen |= (uint32_t)1 << to->state;
    host->statuses++;
    CHECK(to->done <= to->taken && to->taken <= to->limit);
}

static void hear(test_host *host)
{
    const uint8_t *frame = host->decoder.octets;
    if (frame[1] != host->session && frame[0] != MESSAGE_WELCOME)
        return; /* of the session before */
    if (frame[0] == MESSAGE_STATUS) {
        CHECK_EQUAL(host->decoder.length, 33);
        host->status.expected = frame[2];
        hear_status(host, frame + 3);
    } else if (frame[0] == MESSAGE_STORED) {
        host->stored_length = (uint8_t)(host->decoder.length - 3);
        memcpy(host->stored, frame + 3, host->stored_length);
        host->storeds++;
    } else if (frame[0] == MESSAGE_REFERENCES) {
        CHECK_EQUAL(host->decoder.length, 17);
        host->known = frame[3];
        host->up = frame[4];
        for (int axis = 0; axis < 3; axis++)
            host->counted[axis] = (int32_t)get_u32(frame + 5 + 4 * axis);
        host->references++;
    } else {
        CHECK_EQUAL(frame[0], MESSAGE_WELCOME);
        CHECK_EQUAL(host->decoder.length, 15);
        host->welcome_number = frame[2];
        memcpy(host->welcome, frame + 3, 12);
        host->welcomes++;
    }
}

void host_wait(test_host *host, uint32_t ms)
{
    uint8_t octets[256];
    for (uint32_t index = 0; index < ms; index++) {
        size_t count;
        native_advance(host->memory, 1000);
        while ((count = native_take(host->memory, octets, sizeof octets)) > 0)
            for (size_t octet = 0; octet < count; octet++) {
                frame_event event = frame_push(&host->decoder, octets[octet]);
                CHECK(event == FRAME_NONE || event == FRAME_GOOD);
                if (event == FRAME_GOOD)
                    hear(host);
            }
    }
}

bool host_wait_for(test_host *host, uint8_t state, uint32_t most_ms)
{
    for (uint32_t ms = 0; ms < most_ms && host->status.state != state; ms++) {
        if (ms % 50 == 0)
            host_beat(host);
        host_wait(host, 1);
    }
    return host->status.state == state;
}

void host_send_octets(test_host *host, const uint8_t *octets, uint32_t length)
{
    CHECK_EQUAL(native_receive(host->memory, octets, length), length);
}

static uint8_t *put_escaped(uint8_t *to, uint8_t octet)
{
    if (octet < FRAME_ESCAPE || octet > FRAME_RESERVED) {
        *to++ = octet;
        return to;
    }
    *to++ = FRAME_ESCAPE;
    *to++ = octet ^ FRAME_XOR;
    return to;
}

uint32_t host_frame(const test_host *host, uint8_t type, uint8_t number, const uint8_t *body, uint8_t length, uint8_t *line)
{
    uint8_t content[FRAME_MAX] = {type, host->session, number};
    uint8_t *to = line;
    uint16_t fcs = 0xFFFF;
    if (length > 0)
        memcpy(content + 3, body, length);
    length = (uint8_t)(length + 3);
    for (uint8_t index = 0; index < length; index++) {
        fcs ^= content[index];
        for (int bit = 0; bit < 8; bit++)
            fcs = (uint16_t)((fcs & 1) ? (fcs >> 1) ^ 0x8408 : fcs >> 1);
    }
    content[length++] = (uint8_t)~fcs;
    content[length++] = (uint8_t)(~fcs >> 8);
    *to++ = FRAME_FLAG;
    for (uint8_t index = 0; index < length; index++)
        to = put_escaped(to, content[index]);
    *to++ = FRAME_FLAG;
    return (uint32_t)(to - line);
}

void host_send(test_host *host, uint8_t type, uint8_t number, const uint8_t *body, uint8_t length)
{
    uint8_t line[HOST_LINE_MAX];
    host_send_octets(host, line, host_frame(host, type, number, body, length, line));
}

uint8_t host_say(test_host *host, uint8_t type, const uint8_t *body, uint8_t length)
{
    uint8_t number = host->next++;
    host_send(host, type, number, body, length);
    for (int ms = 0; ms < 50 && host->status.expected != host->next; ms++)
        host_wait(host, 1);
    CHECK_EQUAL(host->status.expected, host->next);
    if (type == MESSAGE_RECORDS && host->status.answer_number != number)
        return ANSWER_NONE; /* of records only a refusal is told */
    CHECK_EQUAL(host->status.answer_number, number);
    return host->status.answer;
}

void host_hello(test_host *host, uint16_t token)
{
    uint8_t body[3] = {WIRE_VERSION, (uint8_t)(token >> 8), (uint8_t)token};
    host->session = (uint8_t)token;
    host->next = 0;
    host->status.expected = 0;
    host_send(host, MESSAGE_HELLO, 0, body, 3);
    host_wait(host, 3);
}

void host_beat(test_host *host)
{
    host_send(host, MESSAGE_BEAT, host->next, NULL, 0);
}

uint8_t host_command(test_host *host, uint8_t command)
{
    return host_say(host, MESSAGE_COMMAND, &command, 1);
}

uint8_t host_set_machine(test_host *host, const host_machine *machine)
{
    uint8_t body[21];
    uint8_t *to = put_u8(body, machine->axis_bits);
    to = put_u8(to, machine->axes);
    to = put_u8(to, machine->heads);
    to = put_u16(to, machine->timeout_ms);
    to = put_u16(to, machine->change_ms);
    for (int axis = 0; axis < 3; axis++)
        to = put_u16(to, machine->cells[axis]);
    memcpy(to, "digest!!", 8);
    return host_say(host, MESSAGE_SET_MACHINE, body, 21);
}

uint8_t host_set_axis(test_host *host, const host_machine *machine, uint8_t axis)
{
    uint8_t body[24];
    uint8_t *to = put_u8(body, axis);
    to = put_u8(to, machine->axis[axis].at_max);
    to = put_u32(to, machine->axis[axis].pitch_q16);
    to = put_u32(to, machine->axis[axis].top);
    to = put_u32(to, machine->axis[axis].acceleration);
    to = put_u32(to, machine->axis[axis].reference);
    to = put_u32(to, machine->axis[axis].gap);
    put_u16(to, machine->axis[axis].backlash);
    return host_say(host, MESSAGE_SET_AXIS, body, 24);
}

uint8_t host_set_head(test_host *host, const host_machine *machine, uint8_t head)
{
    uint8_t body[14];
    uint8_t *to = put_u8(body, head);
    to = put_u8(to, machine->head[head].is_pen);
    to = put_u16(to, machine->head[head].first_ms);
    to = put_u16(to, machine->head[head].second_ms);
    to = put_u32(to, (uint32_t)machine->head[head].offset[0]);
    put_u32(to, (uint32_t)machine->head[head].offset[1]);
    return host_say(host, MESSAGE_SET_HEAD, body, 14);
}

static void set_gantry(test_host *host, const host_machine *machine)
{
    for (uint8_t axis = 0; axis < machine->axes; axis++) {
        int32_t far = (int32_t)(((uint64_t)(machine->cells[axis] - 1) * machine->axis[axis].pitch_q16 + 0x8000) >> 16);
        int32_t gap = (int32_t)machine->axis[axis].gap;
        bool at_max = machine->axis[axis].at_max;
        native_set_axis(host->memory, axis, far / 3, at_max ? far + gap : -gap, at_max, at_max ? -5000 : -gap - 50, at_max ? far + gap + 50 : far + 5000);
    }
}

void host_ready(test_host *host, const host_machine *machine)
{
    host_hello(host, (uint16_t)(0x2234 + host->sessions++));
    CHECK_EQUAL(host_set_machine(host, machine), ANSWER_NONE);
    for (uint8_t axis = 0; axis < machine->axes; axis++)
        CHECK_EQUAL(host_set_axis(host, machine, axis), ANSWER_NONE);
    for (uint8_t head = 0; head < machine->heads; head++)
        CHECK_EQUAL(host_set_head(host, machine, head), ANSWER_NONE);
    set_gantry(host, machine);
    CHECK_EQUAL(host_command(host, COMMAND_CLEAR), ANSWER_NONE);
    CHECK(host_wait_for(host, STATE_STOPPED, 100));
    CHECK_EQUAL(host_command(host, COMMAND_RESET), ANSWER_NONE);
    CHECK(host_wait_for(host, STATE_IDLE, 60000));
}

uint8_t host_begin(test_host *host, uint16_t run, uint32_t records)
{
    uint8_t body[6];
    put_u32(put_u16(body, run), records);
    return host_say(host, MESSAGE_BEGIN, body, 6);
}

uint8_t host_records(test_host *host, uint32_t first, const uint8_t *octets, uint8_t length)
{
    uint8_t body[60];
    memcpy(put_u32(body, first), octets, length);
    return host_say(host, MESSAGE_RECORDS, body, (uint8_t)(4 + length));
}

static bool has_ended(const test_host *host)
{
    uint8_t state = host->status.state;
    return state == STATE_COMPLETE || state == STATE_STOPPED || state == STATE_ABORTED;
}

uint32_t host_run(test_host *host, const host_machine *machine, const char *hex)
{
    static uint8_t octets[VECTOR_OCTETS];
    size_t length = vector_octets(hex, octets);
    uint8_t size = record_length(machine->axis_bits);
    uint32_t count = (uint32_t)(length / size);
    uint32_t sent = 0;
    uint64_t began;
    CHECK_EQUAL(host_begin(host, 7, count), ANSWER_NONE);
    for (bool started = false; !started || !has_ended(host);) {
        uint32_t room = host->status.limit - sent;
        uint32_t most = 55u / size;
        uint32_t next = room < most ? room : most;
        if (next > 0 && host_records(host, sent, octets + sent * size, (uint8_t)(next * size)) == ANSWER_NONE)
            sent += next;
        if (!started) {
            began = native_now(host->memory);
            CHECK_EQUAL(host_command(host, COMMAND_START), ANSWER_NONE);
        }
        started = true;
        if (host->status.state == STATE_HELD && host->status.cause == CAUSE_OPERATOR_WAIT)
            CHECK_EQUAL(host_command(host, COMMAND_UNHOLD), ANSWER_NONE);
        host_beat(host);
        for (int ms = 0; ms < 20 && !has_ended(host); ms++)
            host_wait(host, 1);
        if (native_now(host->memory) - began > 600u * 1000000u)
            return 0;
    }
    return (uint32_t)((native_now(host->memory) - began) / 1000);
}

void host_worked(const test_host *host, char *text, uint32_t room)
{
    uint32_t used = 0;
    text[0] = '\0';
    for (uint32_t index = 0; index < native_worked(host->memory) && used + 30 < room; index++) {
        uint16_t cell[4];
        native_worked_cell(host->memory, index, cell);
        used += (uint32_t)snprintf(text + used, room - used, "%s%c:%u,%u,%u", index > 0 ? " " : "", cell[0] ? 'b' : 'a', cell[1], cell[2], cell[3]);
    }
}

uint32_t host_wrongs(const test_host *host)
{
    uint32_t all = 0;
    for (uint8_t what = 0; what < NATIVE_WRONGS; what++)
        all += native_wrong(host->memory, what);
    return all;
}
