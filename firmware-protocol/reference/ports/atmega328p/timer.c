#include "timer.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "controller.h"
#include "pins.h"

/* The least ticks ahead at which a compare value is still met by the counter while it is written: 2 ticks are 16 cycles. */
enum { TICKS_AHEAD = 2 };

enum { CLOCK_TICK_US = 64 };

static uint32_t now_ms;
static uint16_t rest_us;
static uint8_t clock_before;

/* Timer 1 counts freely and a step is due at a compare match, so a late interrupt delays its own step and no other. Timer 0 is
 * read, not waited for: a clock that needs no interrupt disturbs none. */
void timer_begin(void)
{
    TCCR1B = _BV(CS11);
    TCCR0B = _BV(CS02) | _BV(CS00); /* 16 MHz / 1024 */
}

void timer_start_steps(void *context, uint16_t ticks)
{
    (void)context;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        OCR1A = TCNT1 + (ticks < TICKS_AHEAD ? TICKS_AHEAD : ticks);
        TIFR1 = _BV(OCF1A);
        TIMSK1 = _BV(OCIE1A);
    }
}

void timer_stop_steps(void)
{
    TIMSK1 = 0;
}

/* A compare value that the counter has passed already would be met one round later, 33 ms: such a step is made at once. */
static void set_next(uint16_t ticks)
{
    uint16_t before = OCR1A;
    OCR1A = before + ticks;
    uint16_t elapsed = TCNT1 - before;
    if (elapsed + TICKS_AHEAD > ticks || elapsed > UINT16_MAX - TICKS_AHEAD)
        OCR1A = TCNT1 + TICKS_AHEAD;
}

/* The pulse is as long as bridge_step_next takes, which the tests hold to be 2 us at least (common practice for drivers). */
ISR(TIMER1_COMPA_vect, __attribute__((flatten)))
{
    uint8_t axes = bridge_step(&board, pins_read());
    PORTB |= axes;
    uint16_t ticks = bridge_step_next(&board);
    PORTB &= (uint8_t)~PIN_STEPS;
    if (ticks == 0)
        timer_stop_steps();
    else
        set_next(ticks);
}

uint32_t timer_now_ms(void)
{
    uint8_t clock = TCNT0;
    rest_us += (uint16_t)((uint8_t)(clock - clock_before) * CLOCK_TICK_US);
    clock_before = clock;
    while (rest_us >= 1000) {
        rest_us -= 1000;
        now_ms++;
    }
    return now_ms;
}
