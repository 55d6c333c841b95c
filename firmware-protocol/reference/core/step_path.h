/*
 * The step interrupt's usual way, inline: nothing forbids the step, and the segment at hand has steps left. A call from an interrupt makes the
 * compiler save every register that a call may change, so a port does this much by itself and calls bridge.h's functions for all else.
 */
#ifndef BRIDGE_STEP_PATH_H
#define BRIDGE_STEP_PATH_H

#include "board.h"

/* Whether bridge_step would do nothing but give the axes that are due. */
static inline bool step_path_is_free(const bridge *board, uint8_t inputs)
{
    const bridge_steps *steps = &board->steps;
    uint8_t changed = (uint8_t)((inputs ^ steps->quiet) & (steps->watched | BRIDGE_INPUT_E_STOP));
    return (changed | board->halted) == 0;
}

static inline uint8_t step_path_follow(step_follower *follower)
{
    uint32_t phase = follower->phase + follower->ratio;
    follower->phase = phase;
    return phase < follower->ratio ? follower->bit : 0;
}

/* What steps_next does while now.steps is not 0: settles the next step, and gives the ticks to it. */
static inline uint16_t step_path_next(bridge_steps *steps)
{
    uint8_t due = steps->leaders;
    steps->now.steps--;
    if (steps->follower[0].bit != 0) {
        due |= step_path_follow(&steps->follower[0]);
        if (steps->follower[1].bit != 0)
            due |= step_path_follow(&steps->follower[1]);
    }
    steps->due = due;
    uint32_t interval = steps->now.interval;
    uint32_t sum = interval + steps->fraction;
    if (!steps->now.is_even)
        steps->now.interval = interval + (uint32_t)steps->now.change;
    steps->fraction = (uint16_t)sum;
    return (uint16_t)(sum >> 16);
}

#endif
