#include "steps.h"

void steps_prepare(bridge_steps *steps, uint32_t count, uint8_t leaders)
{
    steps->leaders = leaders;
    steps->guarded = 0;
    steps->sought = 0;
    steps->sought_as = 0;
    steps->follower[0].bit = 0;
    steps->follower[1].bit = 0;
    steps->left = count;
    steps->fraction = 0;
    steps->dry_ticks = 0;
    steps->due = 0;
    steps->head = steps->tail;
    steps->state = STEPS_IDLE;
}

void steps_follow(bridge_steps *steps, uint8_t bit, uint32_t part, uint32_t count)
{
    step_follower *follower = &steps->follower[steps->follower[0].bit != 0];
    /* part * 2^32 / count, digit by digit: it leaves less than one step of error in 2^32 steps. */
    uint32_t ratio = 0;
    uint32_t rest = part;
    for (uint8_t digit = 0; digit < 32; digit++) {
        rest <<= 1;
        ratio <<= 1;
        if (rest >= count) {
            rest -= count;
            ratio |= 1;
        }
    }
    follower->phase = 0x80000000u;
    follower->ratio = ratio;
    follower->bit = bit;
}

uint32_t steps_made(const step_follower *follower, uint32_t done)
{
    return (uint32_t)(((uint64_t)follower->ratio * done + 0x80000000u) >> 32);
}

uint8_t steps_room(const bridge_steps *steps)
{
    return (uint8_t)(SEGMENTS - (uint8_t)(steps->tail - steps->head));
}

void steps_put(bridge_steps *steps, const step_segment *segment)
{
    steps->ring[steps->tail & (SEGMENTS - 1)] = *segment;
    steps->tail++;
}

uint16_t steps_start(bridge_steps *steps)
{
    steps->now.steps = 0;
    steps->now.interval = 0;
    steps->now.is_last = false;
    steps->state = STEPS_RUNNING;
    return steps_next(steps);
}

uint8_t steps_now(bridge_steps *steps, uint8_t inputs)
{
    if (steps->state != STEPS_RUNNING)
        return 0;
    if ((inputs & steps->guarded) != 0) {
        steps->state = STEPS_HIT;
        return 0;
    }
    if (steps->sought != 0 && (inputs & steps->sought) == steps->sought_as) {
        steps->state = STEPS_FOUND;
        return 0;
    }
    return steps->due;
}

static uint16_t leave(bridge_steps *steps, uint8_t state)
{
    steps->due = 0;
    steps->state = state;
    return 0;
}

/* No segment is there. Standing still may last a little longer; in motion one interval more is borne, then the motor may have
 * lost steps and the place is not known any more. */
static uint16_t wait_for_segment(bridge_steps *steps)
{
    uint16_t interval = (uint16_t)(steps->now.interval >> 16);
    uint16_t ticks = (uint16_t)(interval / 4 + 16);
    steps->due = 0;
    if (interval != 0) {
        steps->dry_ticks = (uint16_t)(steps->dry_ticks + ticks);
        if (steps->dry_ticks > interval)
            return leave(steps, STEPS_FAULT);
    }
    return ticks;
}

static void step_axes(bridge_steps *steps)
{
    uint8_t due = steps->leaders;
    for (uint8_t index = 0; index < 2; index++) {
        step_follower *follower = &steps->follower[index];
        if (follower->bit == 0)
            break;
        uint32_t phase = follower->phase + follower->ratio;
        if (phase < follower->ratio)
            due |= follower->bit;
        follower->phase = phase;
    }
    steps->due = due;
}

uint16_t steps_next(bridge_steps *steps)
{
    if (steps->state != STEPS_RUNNING)
        return 0;
    step_segment *now = &steps->now;
    if (now->steps == 0) {
        if (now->is_last)
            return leave(steps, steps->left == 0 ? STEPS_IDLE : STEPS_FAULT);
        if (steps->head == steps->tail)
            return wait_for_segment(steps);
        *now = steps->ring[steps->head & (SEGMENTS - 1)];
        steps->head++;
        steps->dry_ticks = 0;
    }
    uint32_t sum = now->interval + steps->fraction;
    uint16_t ticks = (uint16_t)(sum >> 16);
    steps->fraction = (uint16_t)sum;
    if (now->steps == 0) {
        now->interval = 0;
        steps->due = 0;
        return ticks;
    }
    now->steps--;
    now->interval += (uint32_t)now->change;
    if (steps->left == 0)
        return leave(steps, STEPS_FAULT);
    steps->left--;
    step_axes(steps);
    return ticks;
}
