#include "timer.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "controller.h"
#include "pins.h"

/* The least ticks ahead at which a compare value is still met by the counter while it is written: 2 ticks are 16 cycles. */
enum { TICKS_AHEAD = 2 };

/* Ticks from the match to the pulse: as long as the way there takes when another interrupt's beginning came between. Without the wait a step would
 * be up to 25 cycles late, and the next one not. */
enum { PULSE_AFTER = 13 };

enum { CLOCK_TICK_US = 64 };

static uint32_t now_ms;
static uint16_t rest_us;
static uint8_t clock_before;
static uint16_t step_due; /* the interrupt's, while it runs */

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
        step_due = TCNT1 + (ticks < TICKS_AHEAD ? TICKS_AHEAD : ticks);
        OCR1A = step_due;
        TIFR1 = _BV(OCF1A);
        TIMSK1 = _BV(OCIE1A);
    }
}

void timer_stop_steps(void)
{
    TIMSK1 = 0;
}

/* A compare value that the counter has passed already would be met one round later, 33 ms: such a step is made at once, and the one after it is due
 * when it would have been: no delay adds up. */
static void set_next(uint16_t ticks)
{
    uint16_t before = step_due;
    step_due = before + ticks;
    OCR1A = step_due;
    uint16_t elapsed = TCNT1 - before;
    if (elapsed + TICKS_AHEAD > ticks || elapsed > UINT16_MAX - TICKS_AHEAD)
        OCR1A = TCNT1 + TICKS_AHEAD;
}

/* A call by way of call_saved: for the compiler, which would save all registers at each interrupt for a call, there is none. */
#define CALL_SELDOM(function) \
    __asm__ volatile("ldi r30, lo8(gs(" #function "))\n ldi r31, hi8(gs(" #function "))\n call call_saved" ::: "r30", "r31", "memory")

static volatile uint8_t seldom_axes;
static volatile uint16_t seldom_ticks;

__attribute__((used, externally_visible)) void timer_step_seldom(void)
{
    seldom_axes = bridge_step(&board, pins_read());
}

__attribute__((used, externally_visible)) void timer_next_seldom(void)
{
    seldom_ticks = bridge_begin_segment(&board);
}

/* The pulse is as long as it takes to work out the next step, which the tests hold to be 2 us at least (common practice for drivers). */
ISR(TIMER1_COMPA_vect, __attribute__((flatten)))
{
    uint8_t axes = board.steps.due;
    if (!bridge_step_is_plain(&board, pins_read())) {
        CALL_SELDOM(timer_step_seldom);
        axes = seldom_axes;
    }
    while ((uint8_t)(TCNT1L - OCR1AL) < PULSE_AFTER) {
    }
    PORTB |= axes;
    uint16_t ticks = 0;
    if (!bridge_next_is_plain(&board)) {
        CALL_SELDOM(timer_next_seldom);
        ticks = seldom_ticks;
    }
    if (bridge_next_is_plain(&board))
        ticks = steps_go_on(&board.steps);
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
