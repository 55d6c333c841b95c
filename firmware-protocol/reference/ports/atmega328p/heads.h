/*
 * The two heads' outputs. A pen's servo gets its pulses from timer 2 alone, so that nothing the program does makes it tremble: every
 * 16.384 ms (common practice for such servos: about 20 ms) one of 64 us times a whole number. A dot is a level.
 */
#ifndef BRIDGE_HEADS_H
#define BRIDGE_HEADS_H

#include <stdbool.h>
#include <stdint.h>

/* Pulses of a pen's servo; common practice: 1000 us is one end of its way and 2000 us the other. */
#define SERVO_TICK_US 64
#define SERVO_UP_US 1152
#define SERVO_DOWN_US 1728

void heads_begin(void);
void heads_work(void *context, uint8_t head, bool is_pen, bool works);

/* From any interrupt: pens up, dots off. */
void heads_rest(void);

#endif
