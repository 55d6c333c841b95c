#include "template.h"

/* Replace each body; what the comment says must hold. */

/* Interrupts off; gives back whether they were on. */
static uint8_t lock(void *context)
{
    (void)context;
    return 0;
}

/* Interrupts on again if they were. */
static void unlock(void *context, uint8_t before)
{
    (void)context;
    (void)before;
}

/* Room in the transmitter, in octets. Never wait in transmit. */
static uint8_t transmit_room(void *context)
{
    (void)context;
    return 0;
}

static void transmit(void *context, uint8_t octet)
{
    (void)context;
    (void)octet;
}

/* All contacts but the button are normally closed: a pin that is pulled up reads high when its contact opens or its wire is cut, and
 * high is what counts. Reading nothing at all must read as an open e-stop, as here. */
static uint8_t inputs(void *context)
{
    (void)context;
    return BRIDGE_INPUT_E_STOP;
}

static void enable(void *context)
{
    (void)context;
}

/* From any interrupt: stop the step timer, drivers off, heads to rest. */
static void halt(void *context)
{
    (void)context;
}

/* Direction pins. The drivers' set-up time passes before the first step: the first interval is longer. */
static void directions(void *context, uint8_t up)
{
    (void)context;
    (void)up;
}

static void head(void *context, uint8_t head, bool is_pen, bool works)
{
    (void)context;
    (void)head;
    (void)is_pen;
    (void)works;
}

/* One compare match so many ticks from now. */
static void start_steps(void *context, uint16_t ticks)
{
    (void)context;
    (void)ticks;
}

/* Pulses on the step pins of the axes: long enough for the drivers, 1 or 2 us for most (common practice). */
static void pulse(uint8_t axes)
{
    (void)axes;
}

/* The next compare match, so many ticks after this one and not after now; 0: none. */
static void next_match(uint16_t ticks)
{
    (void)ticks;
}

void template_begin(template_port *self, uint8_t reset_reason)
{
    self->port = (bridge_port){
        .context = self,
        .ticks_per_second = 2000000,
        .max_steps_per_second = 20000,
        .lasting_bytes = 0, /* without lasting memory its three functions may be NULL */
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
    };
    bridge_init(&self->board, &self->port);
}

void template_turn(template_port *self, uint32_t now_ms)
{
    bridge_poll(&self->board, now_ms);
}

void template_on_octet(template_port *self, uint8_t octet, bool was_misread)
{
    if (was_misread)
        bridge_receive_error(&self->board);
    else
        bridge_receive_octet(&self->board, octet);
}

void template_on_step_timer(template_port *self)
{
    pulse(bridge_step(&self->board, inputs(self)));
    next_match(bridge_step_next(&self->board));
}

void template_on_e_stop(template_port *self)
{
    bridge_e_stop(&self->board);
}
