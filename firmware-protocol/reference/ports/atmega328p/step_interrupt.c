/* The step timer's interrupt, apart so that it can be made quick. */
#include <avr/interrupt.h>
#include <avr/io.h>

#include "../../core/step_path.h"
#include "controller.h"
#include "pins.h"
#include "timer.h"

uint16_t timer_due;

/* A compare value that the counter has passed already would be met one round later, 33 ms: such a step is made at once, and the one after it when
 * it would have been due without that. */
static inline void set_next(uint16_t ticks)
{
    uint16_t before = timer_due;
    timer_due = before + ticks;
    OCR1A = timer_due;
    uint16_t ahead = TCNT1 - before + TICKS_AHEAD;
    if (ahead > ticks)
        OCR1A = TCNT1 + TICKS_AHEAD;
}

/* What the interrupt seldom needs, by way of seldom.S, and what that does not save: what the interrupt needs itself at every step. */
#define CHANGED "r0", "r18", "r19", "r20", "r21", "r22", "r23", "r26", "r27", "memory"
uint16_t timer_step(uint8_t inputs);
uint16_t timer_next(void);

uint16_t timer_step(uint8_t inputs)
{
    return bridge_step(&board, inputs);
}

uint16_t timer_next(void)
{
    return bridge_step_next(&board);
}

static inline uint8_t step(uint8_t inputs)
{
    if (step_path_is_free(&board, inputs))
        return board.steps.due;
    register uint16_t axes __asm__("r24") = inputs;
    __asm__ volatile("call seldom_step" : "+r"(axes)::CHANGED);
    return (uint8_t)axes;
}

static inline uint16_t next(void)
{
    if (board.steps.now.steps != 0)
        return step_path_next(&board.steps);
    register uint16_t ticks __asm__("r24");
    __asm__ volatile("call seldom_next" : "=r"(ticks)::CHANGED);
    return ticks;
}

/* The pulse is as long as finding the next step takes, which the tests hold to be 2 us at least (common practice for drivers). */
ISR(TIMER1_COMPA_vect)
{
    PORTB |= step(pins_read());
    uint16_t ticks = next();
    PORTB &= (uint8_t)~PIN_STEPS;
    if (ticks == 0)
        timer_stop_steps();
    else
        set_next(ticks);
}
