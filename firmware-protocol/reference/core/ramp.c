#include "ramp.h"

#include <math.h>

#define ONE_TICK 65536.0f
#define INTERVAL_MAX (65000.0f * ONE_TICK)
#define INTERVAL_MIN (2.0f * ONE_TICK)
#define WAIT_TICKS 32768u
#define SLOW_TICKS 50000.0f /* slower than this, each step is a segment of its own */

/*
 * At s steps from the start of a move of n, v = sqrt(2a * min(s, n - s, v * v / 2a)), and from speed v to speed w at a steady
 * rate a way of k steps takes 2k / (v + w). So each segment's time is exact by itself and no error adds up. Within a segment
 * the intervals change evenly; it is short enough, a quarter of the steps from or to rest, for that to be within 1 % of the
 * exact interval from the eighth step on, and the steps before have segments of their own. The intervals are those of
 * Austin, "Generate stepper-motor speed profiles in real time" (2005): c_n = c_0 (sqrt(n + 1) - sqrt(n)).
 */

static float least(float left, float right)
{
    return left < right ? left : right;
}

static uint32_t least_u32(uint32_t left, uint32_t right)
{
    return left < right ? left : right;
}

/* Steps that are made at growing speed, and as many at falling speed. */
static float rising_steps(const bridge_ramp *ramp)
{
    return least(ramp->until_top, 0.5f * (float)ramp->length);
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

/* Ticks of one step, in which the speed may change its way of changing. */
static float ticks_of_step(const bridge_ramp *ramp, uint32_t from)
{
    float rising = rising_steps(ramp);
    float start = (float)from;
    float end = (float)(ramp->length - from - 1);
    float level = 1.0f;
    float ticks = 0.0f;
    if (start < rising) {
        float to = least(start + 1.0f, rising);
        ticks += ticks_between(ramp, start, to);
        level -= to - start;
    }
    if (end < rising) {
        float to = least(end + 1.0f, rising);
        ticks += ticks_between(ramp, end, to);
        level -= to - end;
    }
    if (level > 0.0f)
        ticks += level / speed_after(ramp, rising);
    return ticks;
}

/* As many steps as take no longer than a segment may. */
static uint32_t steps_in_time(const bridge_ramp *ramp, float speed, uint32_t steps)
{
    float most = speed * ramp->ticks_most;
    if (most < (float)steps)
        steps = most < 1.0f ? 1 : (uint32_t)most;
    return least_u32(steps, UINT16_MAX);
}

static uint32_t to_interval(float ticks)
{
    float interval = ticks * ONE_TICK;
    return interval < INTERVAL_MIN ? (uint32_t)INTERVAL_MIN : (uint32_t)interval;
}

static void plan_single(bridge_ramp *ramp, step_segment *segment)
{
    float ticks = ticks_of_step(ramp, ramp->planned);
    if (ticks * ONE_TICK > INTERVAL_MAX) {
        uint32_t waits = (uint32_t)ticks / WAIT_TICKS;
        ramp->wait = waits * WAIT_TICKS;
        ticks -= (float)ramp->wait;
    }
    segment->interval = to_interval(ticks);
    segment->change = 0;
    segment->steps = 1;
}

static void plan_level(const bridge_ramp *ramp, step_segment *segment, float speed, uint32_t steps)
{
    segment->steps = (uint16_t)steps_in_time(ramp, speed, steps);
    segment->interval = to_interval(1.0f / speed);
    segment->change = 0;
}

/* Steps at growing or falling speed: the first interval and the mean are exact, and give the change. */
static void plan_change(const bridge_ramp *ramp, step_segment *segment, float speed, uint32_t steps, bool rises)
{
    float start = rises ? (float)ramp->planned : (float)(ramp->length - ramp->planned);
    float sign = rises ? 1.0f : -1.0f;
    steps = steps_in_time(ramp, speed, steps);
    float count = (float)steps;
    float first = 2.0f / (speed + speed_after(ramp, start + sign));
    float mean = 2.0f / (speed + speed_after(ramp, start + sign * count));
    float change = steps > 1 ? 2.0f * (mean - first) / (count - 1.0f) * ONE_TICK : 0.0f;
    segment->steps = (uint16_t)steps;
    segment->change = (int32_t)change;
    /* What the whole number cuts off of the change is made good at the start, so that the sum stays exact. */
    segment->interval = to_interval(mean) - (uint32_t)(segment->change * (int32_t)(steps - 1) / 2);
}

static void plan(bridge_ramp *ramp, step_segment *segment)
{
    float rising = rising_steps(ramp);
    uint32_t whole = (uint32_t)rising;
    uint32_t from_start = ramp->planned;
    uint32_t from_end = ramp->length - ramp->planned;
    float speed = speed_after(ramp, least((float)least_u32(from_start, from_end), ramp->until_top));
    if (speed * SLOW_TICKS < 1.0f)
        plan_single(ramp, segment);
    else if (from_start < whole && from_start >= 8)
        plan_change(ramp, segment, speed, least_u32(from_start / 4, whole - from_start), true);
    else if ((float)from_start >= rising && from_end > whole + 1)
        plan_level(ramp, segment, speed, from_end - whole - 1);
    else if (from_end <= whole && from_end >= 10)
        plan_change(ramp, segment, speed, from_end / 5, false);
    else
        plan_single(ramp, segment);
}

void ramp_begin(bridge_ramp *ramp, uint32_t length, float top_speed, float acceleration, uint32_t ticks_per_second)
{
    float per_tick = 1.0f / (float)ticks_per_second;
    ramp->twice_accel = 2.0f * acceleration * per_tick * per_tick;
    ramp->until_top = top_speed / acceleration * top_speed * 0.5f;
    ramp->ticks_most = (float)ticks_per_second / 512.0f;
    ramp->length = length;
    ramp->planned = 0;
    ramp->wait = 0;
    ramp->has_next = false;
}

void ramp_stand(bridge_ramp *ramp, uint32_t ticks)
{
    ramp->length = 0;
    ramp->planned = 0;
    ramp->wait = ticks;
    ramp->has_next = false;
}

static bool next_wait(bridge_ramp *ramp, step_segment *segment)
{
    uint32_t ticks = least_u32(ramp->wait, WAIT_TICKS);
    ramp->wait -= ticks;
    segment->interval = ticks << 16;
    segment->change = 0;
    segment->steps = 0;
    segment->is_last = ramp->length == 0 && ramp->wait == 0;
    return true;
}

bool ramp_next(bridge_ramp *ramp, step_segment *segment)
{
    if (!ramp->has_next && ramp->planned < ramp->length) {
        plan(ramp, &ramp->next);
        ramp->planned += ramp->next.steps;
        ramp->next.is_last = ramp->planned == ramp->length;
        ramp->has_next = true;
    }
    if (ramp->wait > 0)
        return next_wait(ramp, segment);
    if (!ramp->has_next)
        return false;
    *segment = ramp->next;
    ramp->has_next = false;
    return true;
}

uint32_t ramp_least(const bridge_ramp *ramp)
{
    uint32_t way = least_u32(ramp->planned, ramp->length - ramp->planned);
    if (ramp->until_top < (float)way)
        way = (uint32_t)ramp->until_top + 1;
    return least_u32(ramp->planned + way, ramp->length);
}

void ramp_cut(bridge_ramp *ramp, uint32_t length)
{
    ramp->length = length;
    if (ramp->has_next)
        ramp->next.is_last = ramp->planned == length;
}
