#include "ramp.h"

#include <math.h>

#define ONE_TICK 65536.0f
#define TICKS_MAX 65000.0f
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

static uint32_t to_interval(float ticks)
{
    float interval = ticks * ONE_TICK;
    return interval < INTERVAL_MIN ? (uint32_t)INTERVAL_MIN : (uint32_t)interval;
}

/* One step, in which the speed may change its way of changing. */
static void plan_single(bridge_ramp *ramp)
{
    float left = 1.0f;
    float ticks = rising_ticks(ramp, ramp->planned, &left) + rising_ticks(ramp, ramp->length - ramp->planned - 1, &left);
    if (left > 0.0f)
        ticks += left / speed_after(ramp, ramp->rising);
    if (ticks > TICKS_MAX) {
        ramp->wait = (uint32_t)ticks & ~(WAIT_TICKS - 1);
        ticks -= (float)ramp->wait;
    }
    ramp->next.interval = to_interval(ticks);
}

/* Steps at growing or falling speed, from one distance from rest to another: the first interval and the mean are exact, and give
 * the change. */
static void plan_change(bridge_ramp *ramp, float from, float step)
{
    float count = (float)ramp->next.steps;
    float first = ticks_between(ramp, from, from + step);
    float mean = ticks_between(ramp, from, from + step * count) / count;
    int32_t less = (int32_t)ramp->next.steps - 1;
    if (less > 0)
        ramp->next.change = (int32_t)((mean - first) * step / (float)less * (2.0f * ONE_TICK));
    /* What the whole number cuts off of the change is made good at the start, so that the sum stays exact. */
    ramp->next.interval = to_interval(mean * step) - (uint32_t)(ramp->next.change * less / 2);
}

static void plan(bridge_ramp *ramp)
{
    step_segment *next = &ramp->next;
    uint32_t whole = (uint32_t)ramp->rising;
    uint32_t from_start = ramp->planned;
    uint32_t from_end = ramp->length - from_start;
    uint32_t from_rest = least(from_start, from_end);
    bool is_level = (float)from_start >= ramp->rising && from_end > whole + 1;
    float speed = speed_after(ramp, is_level ? ramp->rising : (float)from_rest);
    uint32_t steps = 1;
    if (is_level)
        steps = from_end - whole - 1;
    else if (from_start < whole)
        steps = least(from_start / 4, whole - from_start);
    else if (from_end <= whole)
        steps = from_end / 5;
    float most = speed * ramp->ticks_most;
    if ((float)steps > most)
        steps = (uint32_t)most;
    next->change = 0;
    next->steps = (uint16_t)least(steps, UINT16_MAX);
    if (next->steps < 2 || speed * SLOW_TICKS < 1.0f) {
        next->steps = 1;
        plan_single(ramp);
    } else if (is_level) {
        next->interval = to_interval(1.0f / speed);
    } else {
        plan_change(ramp, (float)from_rest, from_start < whole ? 1.0f : -1.0f);
    }
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
    uint32_t way = least(ramp->planned, ramp->length - ramp->planned);
    if (ramp->until_top < (float)way)
        way = (uint32_t)ramp->until_top + 1;
    return least(ramp->planned + way, ramp->length);
}

void ramp_cut(bridge_ramp *ramp, uint32_t length)
{
    ramp->length = length;
    set_rising(ramp);
    if (ramp->has_next)
        ramp->next.is_last = ramp->planned == length;
}
