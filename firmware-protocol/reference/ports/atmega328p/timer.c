#include "timer.h"

#include <avr/io.h>
#include <util/atomic.h>

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
        timer_due = TCNT1 + (ticks < TICKS_AHEAD ? TICKS_AHEAD : ticks);
        OCR1A = timer_due;
        TIFR1 = _BV(OCF1A);
        TIMSK1 = _BV(OCIE1A);
    }
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
