/* The step timer and the clock. */
#ifndef BRIDGE_TIMER_H
#define BRIDGE_TIMER_H

#include <stdint.h>

enum { TIMER_TICKS_PER_SECOND = 2000000 };

void timer_begin(void);
void timer_start_steps(void *context, uint16_t ticks);

/* From any interrupt: no step after this. */
void timer_stop_steps(void);

/* Milliseconds since timer_begin; only right where it is called every 16 ms. */
uint32_t timer_now_ms(void);

#endif
