#include "steps.h"

#include "apart.h"
#include "order.h"
#include "step_path.h"

void steps_prepare(bridge_steps *steps, uint32_t count, uint8_t leaders)
{
    steps->leaders = leaders;
    steps->watched = 0;
    steps->quiet = 0;
    steps->sought = 0;
    steps->follower[0].bit = 0;
    steps->follower[1].bit = 0;
    steps->left = count;
    steps->now.steps = 0;
    steps->now.interval = 0;
    steps->is_over = false;
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

void steps_guard(bridge_steps *steps, uint8_t endstops)
{
    steps->watched |= endstops;
}

void steps_seek(bridge_steps *steps, uint8_t endstop, bool until_reached)
{
    steps->sought = endstop;
    steps->watched |= endstop;
    steps->quiet = until_reached ? 0 : endstop;
}

/* The whole part of (ratio * done + 2^31) / 2^32: a product of 64 bits from halves of 16, in less code than a library's. */
uint32_t steps_made(const step_follower *follower, uint32_t done)
{
    uint16_t ratio = (uint16_t)(follower->ratio >> 16), ratio_low = (uint16_t)follower->ratio;
    uint16_t high = (uint16_t)(done >> 16), low = (uint16_t)done;
    uint32_t left = (uint32_t)ratio * low;
    uint32_t right = (uint32_t)ratio_low * high;
    uint32_t middle = ((uint32_t)ratio_low * low >> 16) + (uint16_t)left + (uint16_t)right + 0x8000u;
    return (uint32_t)ratio * high + (left >> 16) + (right >> 16) + (middle >> 16);
}

uint32_t steps_left(const bridge_steps *steps)
{
    /* Read until both belong together: a lock would make steps late. */
    uint32_t left;
    uint16_t now;
    do {
        left = steps->left;
        now = steps->now.steps;
        KEEP_ORDER();
    } while (left != steps->left || now != steps->now.steps);
    return left + now;
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
    uint8_t changed = (uint8_t)((inputs ^ steps->quiet) & steps->watched);
    if (changed != 0 && steps->state == STEPS_RUNNING) {
        steps->left += (uint16_t)(steps->now.steps + (steps->due != 0)); /* they are not made */
        steps_leave(steps, (changed & (uint8_t)~steps->sought) != 0 ? STEPS_HIT : STEPS_FOUND);
    }
    return steps->due;
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
        if (steps->dry_ticks > interval) {
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
    const step_segment *next = &steps->ring[steps->head & (SEGMENTS - 1)];
    steps->now.interval = next->interval; /* one by one: quicker than an 8-bit compiler's copy of the whole */
    steps->now.change = next->change;
    steps->now.steps = next->steps;
    steps->now.is_even = next->is_even;
    steps->now.is_last = next->is_last;
    KEEP_ORDER();
    steps->head++;
    steps->is_over = steps->now.is_last;
    steps->dry_ticks = 0;
    if (steps->now.steps > steps->left) {
        steps_leave(steps, STEPS_FAULT);
        return 0;
    }
    steps->left -= steps->now.steps;
    uint16_t ticks = (uint16_t)(steps->now.interval >> 16);
    if (steps->now.steps == 0) {
        steps->due = 0;
        steps->now.interval = 0;
    }
    return ticks;
}

uint16_t steps_next(bridge_steps *steps)
{
    if (steps->now.steps == 0) {
        uint16_t ticks = begin_segment(steps);
        if (steps->now.steps == 0)
            return ticks;
    }
    return step_path_next(steps);
}
