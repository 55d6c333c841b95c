/*
 * The step interrupt's side of a move: when the next step is due, which axes make it, and what forbids it.
 *
 * The main loop cuts a move into segments of steps whose intervals change evenly, and keeps a few ahead in a ring. The
 * interrupt only adds: no multiplication, no division. Every field is the main loop's while `state` is not STEPS_RUNNING; while
 * it is, the main loop writes nothing but `tail` and what lies in the ring between tail and head.
 */
#ifndef BRIDGE_STEPS_H
#define BRIDGE_STEPS_H

#include <stdbool.h>
#include <stdint.h>

enum { SEGMENTS = 8 }; /* a power of two */

typedef struct {
    uint32_t interval; /* ticks * 65536 before the first step, below 65535 * 65536 */
    int32_t change;    /* ticks * 65536 that each interval is longer than the one before it */
    uint16_t steps;    /* 0: an interval without a step */
    bool is_even;      /* change is 0 */
    bool is_last;
} step_segment;

enum {
    STEPS_IDLE,    /* nothing to do, or arrived */
    STEPS_RUNNING,
    STEPS_FOUND,   /* the endstop that was looked for has changed */
    STEPS_HIT,     /* an endstop closed that must not */
    STEPS_FAULT    /* more steps than the move has, or segments came too late */
};

typedef struct {
    uint32_t phase; /* a step is due when it overflows */
    uint32_t ratio; /* the axis's steps for each step of the move, times 2^32 */
    uint8_t bit;    /* BRIDGE_AXIS_, 0 where the axis rests */
} step_follower;

typedef struct {
    /* The move, set by the main loop. */
    uint8_t leaders; /* axes that step at every step of the move */
    uint8_t watched; /* endstops whose change ends the move */
    uint8_t quiet;   /* what they read until then */
    uint8_t sought;  /* of them, the one that is looked for */

    /* The interrupt's. */
    uint8_t due;          /* axes whose step the next interrupt makes */
    bool is_over;         /* the last segment has been begun */
    uint16_t fraction;    /* of a tick, carried from interval to interval */
    step_segment now;     /* what is left of the segment at hand; no steps while not STEPS_RUNNING, no interval where the axes stand */
    uint16_t dry_ticks;   /* how long no segment was there when one was due */
    uint32_t left;        /* steps of the move that no segment begun has in it */
    step_follower follower[2];

    /* Shared. */
    volatile uint8_t state; /* the interrupt leaves STEPS_RUNNING, the main loop enters it */
    volatile uint8_t head;  /* ring: the interrupt takes here */
    volatile uint8_t tail;  /* and the main loop puts here */
    step_segment ring[SEGMENTS];
} bridge_steps;

/* Main loop, not running: a move of steps, each of which all leaders make and each follower now and then. 0 steps stand still. */
void steps_prepare(bridge_steps *steps, uint32_t count, uint8_t leaders);

/* Main loop, after steps_prepare: an axis that makes part of the move's steps, 1 to count - 1. At most two. */
void steps_follow(bridge_steps *steps, uint8_t bit, uint32_t part, uint32_t count);

/* Main loop, after steps_prepare: endstops that must not be reached. */
void steps_guard(bridge_steps *steps, uint8_t endstops);

/* Main loop, after steps_prepare: the endstop that ends the move once it is reached, or once it is not any more. */
void steps_seek(bridge_steps *steps, uint8_t endstop, bool until_reached);

/* How many steps a follower has made after so many steps of the move. */
uint32_t steps_made(const step_follower *follower, uint32_t done);

/* Steps of the move still to be made. */
uint32_t steps_left(const bridge_steps *steps);

/* Segments that there is room for. */
uint8_t steps_room(const bridge_steps *steps);

/* Adds a segment; only while there is room. */
void steps_put(bridge_steps *steps, const step_segment *segment);

/* Enters STEPS_RUNNING; the ticks to the first interrupt. At least one segment must be there. */
uint16_t steps_start(bridge_steps *steps);

/* Anywhere, under the lock: no step after this. */
void steps_leave(bridge_steps *steps, uint8_t state);

/* The interrupt, first thing: the axes that step now. */
uint8_t steps_now(bridge_steps *steps, uint8_t inputs);

/* The interrupt, after the pulses: ticks to the next interrupt, 0 for none. */
uint16_t steps_next(bridge_steps *steps);

#endif
