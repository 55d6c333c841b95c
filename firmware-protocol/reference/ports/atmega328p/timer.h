/* The step timer and the clock. */
#ifndef BRIDGE_TIMER_H
#define BRIDGE_TIMER_H

#include <avr/io.h>
#include <stdint.h>

enum { TIMER_TICKS_PER_SECOND = 2000000 };

/* The least ticks ahead at which a compare value is still met by the counter while it is written: 2 ticks are 16 cycles. */
enum { TICKS_AHEAD = 2 };

/* Ticks of timer 1 at which the next step is due; the step interrupt's while it runs. */
extern uint16_t timer_due;

void timer_begin(void);
void timer_start_steps(void *context, uint16_t ticks);

/* From any interrupt: no step after this. */
static inline void timer_stop_steps(void)
{
    TIMSK1 = 0;
}

/* Milliseconds since timer_begin; only right where it is called every 16 ms. */
uint32_t timer_now_ms(void);

#endif
