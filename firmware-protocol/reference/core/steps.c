#include "steps.h"

#include "order.h"

/* What happens once a segment keeps out of what happens at every step. */
#ifdef __GNUC__
#define APART __attribute__((noinline))
#else
#define APART
#endif

void steps_prepare(bridge_steps *steps, uint32_t count, uint8_t leaders)
{
    steps->leaders = leaders;
    steps->guarded = 0;
    steps->sought = 0;
    steps->sought_as = 0;
    steps->follower[0].bit = 0;
    steps->follower[1].bit = 0;
    steps->left = count;
    steps->now.steps = 0;
    steps->is_over = false;
    steps->fraction = 0;
    steps->interval = 0;
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

/* The whole part of (ratio * done + 2^31) / 2^32: a product of 64 bits digit by digit, in less code than a library's. */
uint32_t steps_made(const step_follower *follower, uint32_t done)
{
    uint32_t low = 0;
    uint32_t high = 0;
    for (uint8_t digit = 0; digit < 32; digit++) {
        high = (high << 1) | (low >> 31);
        low <<= 1;
        if (done & 0x80000000u) {
            low += follower->ratio;
            high += low < follower->ratio;
        }
        done <<= 1;
    }
    return high + (low >> 31);
}

uint32_t steps_left(const bridge_steps *steps)
{
    return steps->left + steps->now.steps;
}

uint8_t steps_room(const bridge_steps *steps)
{
    return (uint8_t)(SEGMENTS - (uint8_t)(steps->tail - steps->head));
}

void steps_put(bridge_steps *steps, const step_segment *segment)
{
    steps->ring[steps->tail & (SEGMENTS - 1)] = *segment;
    KEEP_ORDER();
    steps->tail++;
}

uint16_t steps_start(bridge_steps *steps)
{
    steps->state = STEPS_RUNNING;
    return steps_next(steps);
}

void steps_leave(bridge_steps *steps, uint8_t state)
{
    steps->due = 0;
    steps->now.steps = 0;
    steps->state = state;
}

uint8_t steps_now(bridge_steps *steps, uint8_t inputs)
{
    if ((inputs & steps->guarded) != 0 && steps->state == STEPS_RUNNING)
        steps_leave(steps, STEPS_HIT);
    else if (steps->sought != 0 && (inputs & steps->sought) == steps->sought_as && steps->state == STEPS_RUNNING)
        steps_leave(steps, STEPS_FOUND);
    return steps->due;
}

/* No segment is there. Standing still may last a little longer; in motion one interval more is borne, then the motor may have
 * lost steps and the place is not known any more. */
static uint16_t wait_for_segment(bridge_steps *steps)
{
    uint16_t ticks = (uint16_t)(steps->interval / 4 + 16);
    steps->due = 0;
    if (steps->interval != 0) {
        steps->dry_ticks = (uint16_t)(steps->dry_ticks + ticks);
        if (steps->dry_ticks > steps->interval) {
            steps_leave(steps, STEPS_FAULT);
            return 0;
        }
    }
    return ticks;
}

/* Begins the next segment; where that has no steps in it, or there is none, the ticks to wait, 0 where it is all over. The steps of
 * the move are counted here, by themselves: whatever the segments say, no more are made. */
static APART uint16_t begin_segment(bridge_steps *steps)
{
    if (steps->state != STEPS_RUNNING)
        return 0;
    if (steps->is_over) {
        steps_leave(steps, steps->left == 0 ? STEPS_IDLE : STEPS_FAULT);
        return 0;
    }
    if (steps->head == steps->tail)
        return wait_for_segment(steps);
    steps->now = steps->ring[steps->head & (SEGMENTS - 1)];
    KEEP_ORDER();
    steps->head++;
    steps->is_over = steps->now.is_last;
    steps->dry_ticks = 0;
    if (steps->now.steps > steps->left) {
        steps_leave(steps, STEPS_FAULT);
        return 0;
    }
    steps->left -= steps->now.steps;
    steps->due = 0;
    steps->interval = 0;
    return (uint16_t)(steps->now.interval >> 16);
}

static uint8_t follow(step_follower *follower)
{
    uint32_t phase = follower->phase + follower->ratio;
    follower->phase = phase;
    return phase < follower->ratio ? follower->bit : 0;
}

uint16_t steps_next(bridge_steps *steps)
{
    if (steps->now.steps == 0) {
        uint16_t ticks = begin_segment(steps);
        if (steps->now.steps == 0)
            return ticks;
    }
    steps->now.steps--;
    uint8_t due = steps->leaders;
    if (steps->follower[0].bit != 0) {
        due |= follow(&steps->follower[0]);
        if (steps->follower[1].bit != 0)
            due |= follow(&steps->follower[1]);
    }
    steps->due = due;
    uint32_t interval = steps->now.interval;
    uint32_t sum = interval + steps->fraction;
    steps->now.interval = interval + (uint32_t)steps->now.change;
    steps->fraction = (uint16_t)sum;
    steps->interval = (uint16_t)(sum >> 16);
    return steps->interval;
}
