#include "ramp.h"

#include "number.h"

#define TICKS_MAX 65000u
#define WAIT_TICKS 32768u
#define TICKS_LEFT 256u

/* A part is 1/32 of a step: half a step over 16, so that the root of 16 makes up for it. */
enum { PART_BITS = 5, PARTS = 1 << PART_BITS, HALF_BITS = PART_BITS - 1, ROOT_BITS = HALF_BITS / 2, FINEST_SCALE = 16 };

/*
 * At s steps from rest v = sqrt(2as), so with h = 2s half steps behind it and a unit u = 1 / sqrt(a) the time from rest is u sqrt(h), and from h to g
 * half steps the mean time of a step is u / ((sqrt(h) + sqrt(g)) / 2): one root and one division a segment, nothing is subtracted that is nearly
 * alike, and no error adds up. The same holds for parts of a step that are n times smaller than halves, with sqrt(n) u. Within a segment the
 * intervals change evenly, by the change in its middle: c = u / sqrt(h), so dc = -c / h for each step. It is short enough, a quarter of the steps
 * from or to rest, for that to be within 1 % of the exact interval, and the first and last steps have segments of their own. The intervals are those
 * of Austin, "Generate stepper-motor speed profiles in real time" (2005): c_n = c_0 (sqrt(n + 1) - sqrt(n)).
 */

static uint32_t least(uint32_t left, uint32_t right)
{
    return left < right ? left : right;
}

/* Whole steps that are made at growing speed, and as many at falling speed. */
static uint32_t whole_rising(const bridge_ramp *ramp)
{
    return ramp->rising >> PART_BITS;
}

static void set_rising(bridge_ramp *ramp)
{
    ramp->rising = least(least(ramp->length, UINT32_MAX >> HALF_BITS) << HALF_BITS, ramp->until_top);
}

static uint32_t root_at(uint32_t steps)
{
    return number_root(steps << PART_BITS);
}

/* Ticks of a step, times 2^scale, in the mean between two distances from rest whose roots these are. */
static uint32_t mean_interval(const bridge_ramp *ramp, uint32_t root, uint32_t other)
{
    return number_ratio(ramp->unit, root / 2 + other / 2, 16);
}

/* Longer than the step timer takes at once: a part of it is stood first, and enough is left to be an interval. */
static void set_interval(bridge_ramp *ramp, uint32_t scaled)
{
    uint32_t ticks = scaled >> ramp->scale;
    ramp->interval = (uint16_t)least(ticks, UINT16_MAX);
    if (ticks > TICKS_MAX) {
        ramp->wait = (ticks - TICKS_LEFT) & ~(uint32_t)(WAIT_TICKS - 1);
        scaled -= ramp->wait << ramp->scale;
    }
    ramp->next.interval = scaled << (FINEST_SCALE - ramp->scale);
}

/* Ticks, times 2^scale, of what lies within the rising parts of the step from a distance from rest; the rest of the step is left. */
static uint32_t rising_ticks(const bridge_ramp *ramp, uint32_t steps, uint8_t *left)
{
    uint32_t near = steps << PART_BITS;
    if (steps > whole_rising(ramp) || near >= ramp->rising)
        return 0;
    uint8_t parts = (uint8_t)least(ramp->rising - near, PARTS);
    *left = (uint8_t)(*left - parts);
    return (mean_interval(ramp, number_root(near), number_root(near + parts)) >> PART_BITS) * parts;
}

/* One step, in which the speed changes its way of changing. */
static void plan_single(bridge_ramp *ramp, uint32_t from_end)
{
    uint8_t left = PARTS;
    uint32_t scaled = rising_ticks(ramp, ramp->planned, &left) + rising_ticks(ramp, from_end - 1, &left);
    scaled += (ramp->top >> PART_BITS) * left;
    set_interval(ramp, scaled);
    ramp->root = root_at(least(least(ramp->planned + 1, from_end - 1), whole_rising(ramp)));
}

/* Steps at growing or falling speed, from one distance from rest to another. */
static void plan_change(bridge_ramp *ramp, uint32_t from, uint32_t to, bool rises)
{
    step_segment *next = &ramp->next;
    uint32_t root = root_at(to);
    uint16_t more = (uint16_t)(next->steps - 1);
    set_interval(ramp, mean_interval(ramp, ramp->root, root));
    ramp->root = root;
    if (more == 0)
        return;
    int32_t change = (int32_t)(next->interval / (from + to));
    next->is_even = false;
    next->change = rises ? -change : change;
    /* The mean is that of all intervals: what the whole number cuts off of the change does not change the sum. */
    next->interval -= (uint32_t)(next->change * more / 2);
    ramp->interval = (uint16_t)((next->interval + (uint32_t)(next->change * more)) >> 16);
}

/* Steps of the longest segment at the present speed. */
static uint16_t longest(const bridge_ramp *ramp)
{
    return (uint16_t)(ramp->interval == 0 ? 0 : ramp->ticks_most / ramp->interval);
}

/* As many of some steps as the longest segment has, but one at least. */
static uint16_t in_time(const bridge_ramp *ramp, uint32_t steps)
{
    uint16_t most = (uint16_t)least(steps, longest(ramp));
    return most == 0 ? 1 : most;
}

static void plan(bridge_ramp *ramp)
{
    step_segment *next = &ramp->next;
    uint32_t whole = whole_rising(ramp);
    uint32_t from_start = ramp->planned;
    uint32_t from_end = ramp->length - from_start;
    next->change = 0;
    next->is_even = true;
    next->steps = 1;
    if (from_start < whole) {
        next->steps = in_time(ramp, least(from_start / 4, whole - from_start));
        plan_change(ramp, from_start, from_start + next->steps, true);
    } else if (from_end <= whole) {
        next->steps = in_time(ramp, from_end / 5);
        plan_change(ramp, from_end, from_end - next->steps, false);
    } else if (from_start == whole || from_end == whole + 1) {
        plan_single(ramp, from_end);
    } else {
        set_interval(ramp, ramp->top);
        next->steps = in_time(ramp, from_end - whole - 1);
    }
}

/* The unit, and the interval at the top speed, as fine as 30 bits hold the longest of them. */
static void set_intervals(bridge_ramp *ramp, uint32_t top_speed, uint32_t acceleration, uint32_t ticks_per_second)
{
    uint32_t root = number_root(acceleration);
    ramp->scale = FINEST_SCALE + 4;
    do {
        ramp->scale = (uint8_t)(ramp->scale - 4);
        ramp->unit = number_ratio(ticks_per_second, root, (int8_t)(16 + ROOT_BITS + ramp->scale));
        ramp->top = number_ratio(ticks_per_second, top_speed, (int8_t)(8 + ramp->scale));
    } while (((ramp->unit | ramp->top) >> 29) != 0 && ramp->scale > 0);
}

void ramp_begin(bridge_ramp *ramp, uint32_t length, uint32_t top_speed, uint32_t acceleration, uint32_t ticks_per_second)
{
    uint32_t whole_speed = (top_speed + SPEED_ONE / 2) / SPEED_ONE;
    uint32_t square = whole_speed * whole_speed;
    ramp->until_top = number_ratio(square, acceleration, HALF_BITS);
    set_intervals(ramp, top_speed, acceleration, ticks_per_second);
    ramp->ticks_most = (uint16_t)(ticks_per_second / 128);
    ramp->length = length;
    ramp->planned = 0;
    ramp->root = 0;
    ramp->interval = 0;
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
    uint32_t way = least(ramp->planned, (ramp->until_top >> PART_BITS) + 1);
    return ramp->planned + least(way, ramp->length - ramp->planned);
}

uint16_t ramp_ahead(const bridge_ramp *ramp)
{
    return (uint16_t)(2 + longest(ramp) * 5u / 2);
}

void ramp_cut(bridge_ramp *ramp, uint32_t length)
{
    ramp->length = length;
    set_rising(ramp);
    if (ramp->has_next)
        ramp->next.is_last = ramp->planned == length;
}
