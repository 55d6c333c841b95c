/* The speed of a straight move, rest to rest (MOTION.md, section 3), cut into segments for the step interrupt. The main loop's alone. */
#ifndef BRIDGE_RAMP_H
#define BRIDGE_RAMP_H

#include <stdbool.h>
#include <stdint.h>

#include "steps.h"

typedef struct {
    float twice_accel; /* 2a, steps per tick squared */
    float until_top;   /* steps from rest to the top speed: v * v / 2a */
    float speed;       /* after what is planned, steps per tick */
    float rising;      /* steps made at growing speed, and as many at falling speed */
    float ticks_most;  /* the longest segment of more than one step */
    uint32_t most_way; /* whole steps that are enough to come to rest from the top speed */
    uint32_t length;   /* steps of the move */
    uint32_t planned;  /* steps that are in segments already */
    uint32_t wait;     /* ticks to stand still before `next`, or before the end */
    bool has_next;
    step_segment next;
} bridge_ramp;

/* A move of length steps, 1 or more. Speeds in steps/s, acceleration in steps/s2, both above 0. */
void ramp_begin(bridge_ramp *ramp, uint32_t length, float top_speed, float acceleration, uint32_t ticks_per_second);

/* Standing still for a number of ticks. */
void ramp_stand(bridge_ramp *ramp, uint32_t ticks);

/* The next segment; false where the last has been given. */
bool ramp_next(bridge_ramp *ramp, step_segment *segment);

/* The least length that the move can still be cut to: what is planned, and the way to rest from there. */
uint32_t ramp_least(const bridge_ramp *ramp);

/* Steps that are to be planned ahead of those made: about 20 ms, so that a controlled stop need not wait long for what is planned. */
uint32_t ramp_ahead(const bridge_ramp *ramp);

/* Cuts the move; a length from ramp_least to the present one. What has been planned stays as it is. */
void ramp_cut(bridge_ramp *ramp, uint32_t length);

#endif
