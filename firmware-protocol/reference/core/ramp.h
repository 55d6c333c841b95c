/* The speed of a straight move, rest to rest (MOTION.md, section 3), cut into segments for the step interrupt. The main loop's alone. */
#ifndef BRIDGE_RAMP_H
#define BRIDGE_RAMP_H

#include <stdbool.h>
#include <stdint.h>

#include "steps.h"

/* Distances from rest are in parts, of which a step has 32. */
typedef struct {
    uint32_t unit;      /* ticks of a step where the root of the parts from rest is 1, times 2^scale */
    uint32_t top;       /* ticks from step to step at the top speed, times 2^scale */
    uint32_t until_top; /* parts from rest to the top speed */
    uint32_t rising;    /* parts made at growing speed, and as many at falling speed */
    uint32_t root;      /* square root of the parts from rest where what is planned ends, times 65536 */
    uint16_t interval;  /* whole ticks of the step planned last, 0 at rest */
    uint16_t ticks_most; /* the longest segment of more than one step */
    uint8_t scale;
    uint32_t length;    /* steps of the move */
    uint32_t planned;   /* steps that are in segments already */
    uint32_t wait;      /* ticks to stand still before `next`, or before the end */
    bool has_next;
    step_segment next;
} bridge_ramp;

enum { SPEED_ONE = 256 }; /* 1 step/s, as ramp_begin takes it */

/* A move of length steps, 1 to 2^31 - 1. Speed in steps/s times SPEED_ONE, below 65536 steps/s; acceleration in steps/s2; both above 0. */
void ramp_begin(bridge_ramp *ramp, uint32_t length, uint32_t top_speed, uint32_t acceleration, uint32_t ticks_per_second);

/* Standing still for a number of ticks. */
void ramp_stand(bridge_ramp *ramp, uint32_t ticks);

/* The next segment; false where the last has been given. */
bool ramp_next(bridge_ramp *ramp, step_segment *segment);

/* The least length that the move can still be cut to: what is planned, and the way to rest from there. */
uint32_t ramp_least(const bridge_ramp *ramp);

/* Steps that are to be planned ahead of those made: about 20 ms, so that a controlled stop need not wait long for what is planned. */
uint16_t ramp_ahead(const bridge_ramp *ramp);

/* Cuts the move; a length from ramp_least to the present one. What has been planned stays as it is. */
void ramp_cut(bridge_ramp *ramp, uint32_t length);

#endif
