/* An ATmega328P at 16 MHz as a board: the port's parts put together, the e-stop's interrupt, the main loop. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>
#include <stddef.h>

#include "controller.h"
#include "heads.h"
#include "lasting.h"
#include "pins.h"
#include "reset.h"
#include "serial.h"
#include "timer.h"

__attribute__((externally_visible)) bridge board;

static uint8_t lock(void *context)
{
    (void)context;
    uint8_t before = SREG;
    cli();
    return before;
}

static void unlock(void *context, uint8_t before)
{
    (void)context;
    SREG = before;
}

static void halt(void *context)
{
    (void)context;
    timer_stop_steps();
    PORTD |= PIN_DISABLE;
    heads_rest();
}

static bridge_port port = {
    .ticks_per_second = TIMER_TICKS_PER_SECOND,
    .max_steps_per_second = 40000,
    .lasting_bytes = LASTING_BYTES,
    .lock = lock,
    .unlock = unlock,
    .transmit_room = serial_room,
    .transmit = serial_put,
    .inputs = pins_inputs,
    .enable = pins_enable,
    .halt = halt,
    .directions = pins_directions,
    .head = heads_work,
    .start_steps = timer_start_steps,
    .lasting_read = lasting_read,
    .lasting_write = lasting_write,
    .lasting_busy = lasting_busy,
};

ISR(INT0_vect)
{
    bridge_e_stop(&board);
}

/* The input is read once its interrupt is on: one that opened before makes no edge any more. */
static void watch_e_stop(void)
{
    EICRA = _BV(ISC01) | _BV(ISC00);
    EIFR = _BV(INTF0);
    EIMSK = _BV(INT0);
    if ((pins_read() & BRIDGE_INPUT_E_STOP) != 0)
        bridge_e_stop(&board);
}

int main(void)
{
    pins_begin();
    heads_begin();
    timer_begin();
    serial_begin();
    port.reset_reason = reset_reason();
    bridge_init(&board, &port);
    wdt_enable(WDTO_60MS);
    watch_e_stop();
    sei();
    for (;;) {
        wdt_reset();
        bridge_poll(&board, timer_now_ms());
    }
}
