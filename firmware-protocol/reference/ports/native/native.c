#include "native.h"

#include <stdbool.h>
#include <string.h>

#include "../../core/bridge.h"
#include "gantry.h"

enum {
    TICKS_PER_US = 2,
    OCTET_TICKS = 20 * TICKS_PER_US, /* ten bits at 500 000 baud */
    POLL_TICKS = 100 * TICKS_PER_US,
    WRITE_TICKS = 3400 * TICKS_PER_US, /* an EEPROM write of the ATmega328P, 3.4 ms (datasheet) */
    LASTING = 1024,
    LINE_IN = 65536,
    LINE_OUT = 65536,
    KEPT = 65536
};

typedef struct {
    bridge board;
    bridge_port port;
    native_gantry gantry;

    uint64_t now, step_at, octet_at, poll_at, written_at;
    uint64_t turn; /* ticks from one turn of the main loop to the next, where it is slow; else 0 */
    bool timer_runs;

    uint8_t in[LINE_IN], out[LINE_OUT];
    uint32_t in_head, in_tail, out_head, out_tail;

    uint8_t lasting[LASTING];
    uint32_t writes, fail_after;
    bool fails, has_failed;
    uint8_t left_of, left_erased; /* what the write in which the supply fails leaves */

    uint16_t worked[KEPT][4];
    int32_t worked_at[KEPT][GANTRY_AXES];
    uint32_t worked_count;
    uint64_t pulses[KEPT];
    uint32_t pulse_count;
} native;

/* Nothing interrupts the main loop here: interrupts are called between its turns. */
static uint8_t lock(void *context)
{
    (void)context;
    return 0;
}

static void unlock(void *context, uint8_t before)
{
    (void)context;
    (void)before;
}

static uint8_t transmit_room(void *context)
{
    const native *self = context;
    uint32_t room = LINE_OUT - (self->out_tail - self->out_head);
    return (uint8_t)(room > 255 ? 255 : room);
}

static void transmit(void *context, uint8_t octet)
{
    native *self = context;
    self->out[self->out_tail++ % LINE_OUT] = octet;
}

static uint8_t inputs(void *context)
{
    return gantry_inputs(&((native *)context)->gantry);
}

static void enable(void *context)
{
    ((native *)context)->gantry.drivers_are_on = true;
}

static void halt(void *context)
{
    native *self = context;
    self->timer_runs = false;
    gantry_halt(&self->gantry);
}

static void directions(void *context, uint8_t up)
{
    ((native *)context)->gantry.up = up;
}

static void head(void *context, uint8_t head, bool is_pen, bool works)
{
    gantry_head(&((native *)context)->gantry, head, is_pen, works);
}

static void start_steps(void *context, uint16_t ticks)
{
    native *self = context;
    self->timer_runs = true;
    self->step_at = self->now + ticks;
}

static uint8_t lasting_read(void *context, uint16_t address)
{
    return ((native *)context)->lasting[address];
}

static void lasting_write(void *context, uint16_t address, uint8_t octet)
{
    native *self = context;
    self->written_at = self->now + WRITE_TICKS;
    self->writes++;
    if (self->fails && self->fail_after == 0) {
        uint8_t left = self->left_of == NATIVE_LEFT_NEW ? octet : self->lasting[address];
        if (!self->has_failed)
            self->lasting[address] = left | self->left_erased;
        self->has_failed = true;
        return;
    }
    self->fail_after--;
    self->lasting[address] = octet;
}

static bool lasting_busy(void *context)
{
    const native *self = context;
    return self->now < self->written_at;
}

static void worked(void *context, uint8_t head, uint16_t x, uint16_t y, uint16_t layer)
{
    native *self = context;
    int32_t *at = self->worked_at[self->worked_count % KEPT];
    uint16_t *cell = self->worked[self->worked_count++ % KEPT];
    for (uint8_t axis = 0; axis < GANTRY_AXES; axis++)
        at[axis] = self->gantry.axis[axis].place;
    cell[0] = head;
    cell[1] = x;
    cell[2] = y;
    cell[3] = layer;
    gantry_worked(&self->gantry, head);
}

static void begin(native *self, uint8_t reset_reason)
{
    self->port = (bridge_port){
        .context = self,
        .ticks_per_second = 2000000,
        .max_steps_per_second = 40000,
        .lasting_bytes = LASTING,
        .reset_reason = reset_reason,
        .lock = lock,
        .unlock = unlock,
        .transmit_room = transmit_room,
        .transmit = transmit,
        .inputs = inputs,
        .enable = enable,
        .halt = halt,
        .directions = directions,
        .head = head,
        .start_steps = start_steps,
        .lasting_read = lasting_read,
        .lasting_write = lasting_write,
        .lasting_busy = lasting_busy,
        .worked = worked,
    };
    bridge_init(&self->board, &self->port);
}

size_t native_size(void)
{
    return sizeof(native);
}

void native_create(void *memory, uint8_t reset_reason)
{
    native *self = memory;
    memset(self, 0, sizeof *self);
    memset(self->lasting, 0xFF, sizeof self->lasting);
    for (uint8_t axis = 0; axis < GANTRY_AXES; axis++)
        native_set_axis(memory, axis, 0, -1000000, 0, -2000000, 2000000);
    begin(self, reset_reason);
}

void native_destroy(void *memory)
{
    (void)memory;
}

void native_reset(void *memory, uint8_t reset_reason)
{
    native *self = memory;
    self->timer_runs = false;
    gantry_reset(&self->gantry);
    self->in_head = self->in_tail;
    self->fails = false;
    begin(self, reset_reason);
}

size_t native_receive(void *memory, const uint8_t *octets, size_t length)
{
    native *self = memory;
    size_t taken = 0;
    if (self->in_head == self->in_tail && self->octet_at < self->now + OCTET_TICKS)
        self->octet_at = self->now + OCTET_TICKS;
    while (taken < length && self->in_tail - self->in_head < LINE_IN)
        self->in[self->in_tail++ % LINE_IN] = octets[taken++];
    return taken;
}

void native_receive_error(void *memory)
{
    bridge_receive_error(&((native *)memory)->board);
}

size_t native_take(void *memory, uint8_t *octets, size_t room)
{
    native *self = memory;
    size_t taken = 0;
    while (taken < room && self->out_head != self->out_tail)
        octets[taken++] = self->out[self->out_head++ % LINE_OUT];
    return taken;
}

static void step(native *self)
{
    uint8_t axes = bridge_step(&self->board, inputs(self));
    if (axes != 0) {
        self->pulses[self->pulse_count++ % KEPT] = (self->now << 3) | axes;
        gantry_step(&self->gantry, axes);
    }
    uint16_t ticks = bridge_step_next(&self->board);
    self->timer_runs = self->timer_runs && ticks != 0;
    self->step_at = self->now + ticks;
}

static uint64_t earlier(uint64_t left, uint64_t right)
{
    return left < right ? left : right;
}

static void poll(native *self)
{
    self->poll_at = self->now + (self->turn != 0 ? self->turn : POLL_TICKS);
    bridge_poll(&self->board, (uint32_t)(self->now / (1000 * TICKS_PER_US)));
}

void native_advance(void *memory, uint64_t microseconds)
{
    native *self = memory;
    uint64_t end = self->now + microseconds * TICKS_PER_US;
    while (self->now < end) {
        uint64_t next = earlier(end, self->poll_at);
        bool hears = self->in_head != self->in_tail;
        if (self->timer_runs)
            next = earlier(next, self->step_at);
        if (hears)
            next = earlier(next, self->octet_at);
        self->now = next;
        if (hears && self->octet_at == next) {
            self->octet_at = next + OCTET_TICKS;
            bridge_receive_octet(&self->board, self->in[self->in_head++ % LINE_IN]);
        }
        if (self->timer_runs && self->step_at == next)
            step(self);
        if (self->poll_at <= next || (self->turn == 0 && self->board.steps.state != STEPS_RUNNING))
            poll(self);
    }
}

void native_set_turn(void *memory, uint16_t microseconds)
{
    native *self = memory;
    self->turn = (uint64_t)microseconds * TICKS_PER_US;
}

uint64_t native_now(const void *memory)
{
    return ((const native *)memory)->now / TICKS_PER_US;
}

void native_set_axis(void *memory, uint8_t axis, int32_t place, int32_t closes_at, uint8_t closes_up, int32_t least, int32_t most)
{
    gantry_axis *to = &((native *)memory)->gantry.axis[axis];
    to->place = place;
    to->closes_at = closes_at;
    to->closes_up = closes_up != 0;
    to->least = least;
    to->most = most;
}

int32_t native_place(const void *memory, uint8_t axis)
{
    return ((const native *)memory)->gantry.axis[axis].place;
}

uint32_t native_steps(const void *memory, uint8_t axis)
{
    return ((const native *)memory)->gantry.axis[axis].steps;
}

/* The contact is on an interrupt. */
void native_set_e_stop(void *memory, uint8_t open)
{
    native *self = memory;
    self->gantry.e_stop_is_open = open != 0;
    if (open)
        bridge_e_stop(&self->board);
}

void native_set_start(void *memory, uint8_t pressed)
{
    ((native *)memory)->gantry.start_is_pressed = pressed != 0;
}

void native_set_endstop(void *memory, uint8_t axis, uint8_t fault)
{
    ((native *)memory)->gantry.axis[axis].fault = fault;
}

uint8_t native_drivers(const void *memory)
{
    return ((const native *)memory)->gantry.drivers_are_on;
}

uint8_t native_head(const void *memory, uint8_t head)
{
    return ((const native *)memory)->gantry.head_works[head];
}

uint32_t native_wrong(const void *memory, uint8_t what)
{
    return ((const native *)memory)->gantry.wrong[what];
}

uint32_t native_worked(const void *memory)
{
    return ((const native *)memory)->worked_count;
}

void native_worked_cell(const void *memory, uint32_t index, uint16_t cell[4])
{
    memcpy(cell, ((const native *)memory)->worked[index % KEPT], 4 * sizeof cell[0]);
}

void native_worked_place(const void *memory, uint32_t index, int32_t place[3])
{
    memcpy(place, ((const native *)memory)->worked_at[index % KEPT], 3 * sizeof place[0]);
}

uint32_t native_pulses(const void *memory)
{
    return ((const native *)memory)->pulse_count;
}

uint64_t native_pulse(const void *memory, uint32_t index)
{
    return ((const native *)memory)->pulses[index % KEPT];
}

uint8_t *native_lasting(void *memory)
{
    return ((native *)memory)->lasting;
}

void native_fail_after_writes(void *memory, uint32_t writes, uint8_t left_of, uint8_t left_erased)
{
    native *self = memory;
    self->fails = true;
    self->has_failed = false;
    self->fail_after = writes;
    self->left_of = left_of;
    self->left_erased = left_erased;
}

uint32_t native_lasting_writes(const void *memory)
{
    return ((const native *)memory)->writes;
}

uint8_t native_state(const void *memory)
{
    return ((const native *)memory)->board.state;
}

uint8_t native_cause(const void *memory)
{
    return ((const native *)memory)->board.cause;
}
