#include "ramp.h"

#include <math.h>

#define ONE_TICK 65536.0f
#define TICKS_MAX 65000.0f
#define INTERVAL_MIN (2.0f * ONE_TICK)
#define WAIT_TICKS 32768u
#define STEPS_AHEAD 2u
#define PARTS_AHEAD 2.5f /* longest segments that are planned ahead: 20 ms */

/*
 * At s steps from the start of a move of n, v = sqrt(2a * min(s, n - s, v * v / 2a)), and from speed v to speed w at a steady
 * rate a way of k steps takes 2k / (v + w). So each segment's time is exact by itself and no error adds up. Within a segment
 * the intervals change evenly, by the change in its middle: c = 1 / v, so dc = -a c^3 for each step. It is short enough, a quarter
 * of the steps from or to rest, for that to be within 1 % of the exact interval, and the first and last steps have segments of
 * their own. The intervals are those of Austin, "Generate stepper-motor speed profiles in real time" (2005):
 * c_n = c_0 (sqrt(n + 1) - sqrt(n)).
 */

static uint32_t least(uint32_t left, uint32_t right)
{
    return left < right ? left : right;
}

/* Steps that are made at growing speed, and as many at falling speed. */
static void set_rising(bridge_ramp *ramp)
{
    float half = 0.5f * (float)ramp->length;
    ramp->rising = half < ramp->until_top ? half : ramp->until_top;
}

static float speed_after(const bridge_ramp *ramp, float steps)
{
    return sqrtf(ramp->twice_accel * steps);
}

/* Ticks from one distance from rest to another, both within the rising steps. */
static float ticks_between(const bridge_ramp *ramp, float near, float far)
{
    return 2.0f * (far - near) / (speed_after(ramp, near) + speed_after(ramp, far));
}

/* Ticks of what lies within the rising steps of the step from a distance from rest; the rest of the step is left. */
static float rising_ticks(const bridge_ramp *ramp, uint32_t steps, float *left)
{
    float near = (float)steps;
    float far = near + 1.0f;
    if (near >= ramp->rising)
        return 0.0f;
    if (far > ramp->rising)
        far = ramp->rising;
    *left -= far - near;
    return ticks_between(ramp, near, far);
}

/* Longer than the step timer takes at once: the whole of it is stood first. */
static float part_wait(bridge_ramp *ramp, float ticks)
{
    if (ticks <= TICKS_MAX)
        return ticks;
    ramp->wait = (uint32_t)ticks & ~(WAIT_TICKS - 1);
    return ticks - (float)ramp->wait;
}

static void set_interval(bridge_ramp *ramp, float ticks)
{
    float interval = part_wait(ramp, ticks) * ONE_TICK;
    ramp->next.interval = interval < INTERVAL_MIN ? (uint32_t)INTERVAL_MIN : (uint32_t)interval;
}

/* One step, in which the speed changes its way of changing. */
static void plan_single(bridge_ramp *ramp, uint32_t from_end)
{
    float left = 1.0f;
    float ticks = rising_ticks(ramp, ramp->planned, &left) + rising_ticks(ramp, from_end - 1, &left);
    if (left > 0.0f)
        ticks += left / speed_after(ramp, ramp->rising);
    set_interval(ramp, ticks);
    float after = (float)least(ramp->planned + 1, from_end - 1);
    ramp->speed = speed_after(ramp, after < ramp->rising ? after : ramp->rising);
}

/* Steps at growing or falling speed, to a distance from rest. */
static void plan_change(bridge_ramp *ramp, uint32_t to, bool rises)
{
    float after = speed_after(ramp, (float)to);
    float mean = 2.0f / (ramp->speed + after);
    uint16_t more = (uint16_t)(ramp->next.steps - 1);
    ramp->speed = after;
    set_interval(ramp, mean);
    if (more == 0)
        return;
    float change = 0.5f * ONE_TICK * ramp->twice_accel * mean * mean * mean;
    ramp->next.change = (int32_t)(rises ? -change : change);
    ramp->next.is_even = false;
    /* The mean is that of all intervals: what the whole number cuts off of the change does not change the sum. */
    ramp->next.interval -= (uint32_t)(ramp->next.change * more / 2);
}

static uint16_t in_time(const bridge_ramp *ramp, uint32_t steps)
{
    float most = ramp->speed * ramp->ticks_most;
    if ((float)steps > most)
        steps = (uint32_t)most;
    return (uint16_t)(steps < 1 ? 1 : least(steps, UINT16_MAX));
}

static void plan(bridge_ramp *ramp)
{
    step_segment *next = &ramp->next;
    uint32_t whole = (uint32_t)ramp->rising;
    uint32_t from_start = ramp->planned;
    uint32_t from_end = ramp->length - from_start;
    next->change = 0;
    next->is_even = true;
    next->steps = 1;
    if (from_start < whole) {
        next->steps = in_time(ramp, least(from_start / 4, whole - from_start));
        plan_change(ramp, from_start + next->steps, true);
    } else if (from_end <= whole) {
        next->steps = in_time(ramp, from_end / 5);
        plan_change(ramp, from_end - next->steps, false);
    } else if ((float)from_start < ramp->rising || from_end == whole + 1) {
        plan_single(ramp, from_end);
    } else {
        float ticks = 1.0f / ramp->speed;
        if (ticks <= TICKS_MAX)
            next->steps = in_time(ramp, from_end - whole - 1);
        set_interval(ramp, ticks);
    }
}

void ramp_begin(bridge_ramp *ramp, uint32_t length, float top_speed, float acceleration, uint32_t ticks_per_second)
{
    float per_tick = 1.0f / (float)ticks_per_second;
    ramp->twice_accel = 2.0f * acceleration * per_tick * per_tick;
    ramp->until_top = top_speed / acceleration * top_speed * 0.5f;
    ramp->most_way = ramp->until_top < (float)length ? (uint32_t)ramp->until_top + 1 : length;
    ramp->ticks_most = (float)ticks_per_second / 128.0f;
    ramp->length = length;
    ramp->planned = 0;
    ramp->speed = 0.0f;
    ramp->wait = 0;
    ramp->has_next = false;
    set_rising(ramp);
}

void ramp_stand(bridge_ramp *ramp, uint32_t ticks)
{
    ramp->length = 0;
    ramp->planned = 0;
    ramp->wait = ticks;
    ramp->has_next = false;
}

static void give_wait(bridge_ramp *ramp, step_segment *segment)
{
    uint32_t ticks = least(ramp->wait, WAIT_TICKS);
    ramp->wait -= ticks;
    segment->interval = ticks << 16;
    segment->change = 0;
    segment->steps = 0;
    segment->is_even = true;
    segment->is_last = ramp->length == 0 && ramp->wait == 0;
}

bool ramp_next(bridge_ramp *ramp, step_segment *segment)
{
    if (!ramp->has_next && ramp->planned < ramp->length) {
        plan(ramp);
        ramp->planned += ramp->next.steps;
        ramp->next.is_last = ramp->planned == ramp->length;
        ramp->has_next = true;
    }
    if (ramp->wait > 0) {
        give_wait(ramp, segment);
        return true;
    }
    bool has_next = ramp->has_next;
    *segment = ramp->next;
    ramp->has_next = false;
    return has_next;
}

uint32_t ramp_least(const bridge_ramp *ramp)
{
    return ramp->planned + least(least(ramp->planned, ramp->most_way), ramp->length - ramp->planned);
}

uint32_t ramp_ahead(const bridge_ramp *ramp)
{
    return STEPS_AHEAD + (uint32_t)(ramp->speed * ramp->ticks_most * PARTS_AHEAD);
}

void ramp_cut(bridge_ramp *ramp, uint32_t length)
{
    ramp->length = length;
    set_rising(ramp);
    if (ramp->has_next)
        ramp->next.is_last = ramp->planned == length;
}
