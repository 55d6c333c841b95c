#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "../core/ramp.h"
#include "check.h"

#define TICKS 2000000.0

static double top_of(double length, double v, double a)
{
    return length >= v * v / a ? v : sqrt(a * length);
}

/* Seconds from the start to a step, by the closed form. */
static double time_at(double step, double length, double v, double a)
{
    double peak = top_of(length, v, a);
    double rise = peak * peak / (2 * a);
    double whole = length >= v * v / a ? length / v + v / a : 2 * sqrt(length / a);
    if (step <= rise)
        return sqrt(2 * step / a);
    if (length - step <= rise)
        return whole - sqrt(2 * (length - step) / a);
    return peak / a + (step - rise) / peak;
}

typedef struct {
    double worst_interval; /* relative, from the third step on, but for the last three */
    double worst_time;     /* seconds, of any step */
    double seconds;
    uint32_t steps;
    bool ended;
} ramp_walk;

static ramp_walk walk(uint32_t length, double v, double a)
{
    bridge_ramp ramp;
    step_segment segment;
    ramp_walk measured = {0, 0, 0, 0, false};
    double ticks = 0, before = 0;
    ramp_begin(&ramp, length, (uint32_t)v * SPEED_ONE, (uint32_t)a, (uint32_t)TICKS);
    while (ramp_next(&ramp, &segment)) {
        CHECK(!measured.ended);
        CHECK(segment.interval >= 2u << 16);
        measured.ended = segment.is_last;
        double interval = segment.interval / 65536.0;
        if (segment.steps == 0)
            ticks += interval;
        for (uint16_t step = 0; step < segment.steps; step++) {
            ticks += interval;
            interval += segment.change / 65536.0;
            measured.steps++;
            double at = time_at(measured.steps, length, v, a);
            double ideal = at - time_at(measured.steps - 1, length, v, a);
            double is = ticks / TICKS - before;
            before = ticks / TICKS;
            measured.worst_time = fmax(measured.worst_time, fabs(before - at));
            if (measured.steps >= 3 && measured.steps + 3 <= length)
                measured.worst_interval = fmax(measured.worst_interval, fabs(is / ideal - 1));
        }
    }
    measured.seconds = ticks / TICKS;
    return measured;
}

/* Lynch and Park, Modern Robotics, section 9.2.2.2, with 80 steps/mm: L 100 mm, v 50 mm/s, a 200 mm/s2 in 2.25 s; L 10 mm in 0.447214 s. */
static void a_move_takes_the_time_of_a_trapezoid(void)
{
    ramp_walk trapezoid = walk(8000, 4000, 16000);
    CHECK_EQUAL(trapezoid.steps, 8000);
    CHECK(trapezoid.ended);
    CHECK(fabs(trapezoid.seconds - 2.25) < 1e-4);
    ramp_walk triangle = walk(800, 4000, 16000);
    CHECK(fabs(triangle.seconds - 0.447214) < 1e-4);
}

/* The top speed is taken to be reached at a whole 32nd of a step, up to one too soon: x half steps are made in 2 sqrt(x) / sqrt(a), so this long. */
static double cut_off(double v, double a)
{
    double halves = v * v / a;
    double lost = sqrt(halves) - sqrt(floor(16 * halves) / 16);
    return lost * lost / v;
}

/* Austin, 2005: c_n = c_0 (sqrt(n + 1) - sqrt(n)), within 0.5 % from the third step on. */
static void intervals_are_within_a_hundredth_of_the_exact_ones(void)
{
    srand(11);
    double worst = 0, worst_time = 0;
    for (int trial = 0; trial < 400; trial++) {
        uint32_t length = 1 + (uint32_t)rand() % (trial % 3 == 0 ? 40 : 30000);
        double v = floor(pow(10, 1.5 + 3.1 * rand() / RAND_MAX));
        double a = floor(pow(10, 1 + 4.5 * rand() / RAND_MAX));
        ramp_walk is = walk(length, v, a);
        double whole = time_at(length, length, v, a);
        CHECK_EQUAL(is.steps, length);
        CHECK(is.ended);
        CHECK(fabs(is.seconds - whole) < 1e-4 * whole + 2e-6 + cut_off(v, a));
        worst = fmax(worst, is.worst_interval);
        worst_time = fmax(worst_time, is.worst_time / whole);
    }
    CHECK(worst < 0.005);
    CHECK(worst_time < 0.005); /* where the top speed is reached within a few parts of a step */
}

static void slow_machines_wait_in_whole_intervals(void)
{
    ramp_walk is = walk(3, 1, 1);
    CHECK_EQUAL(is.steps, 3);
    CHECK(fabs(is.seconds - time_at(3, 3, 1, 1)) < 1e-4);
}

/* 3125/256 steps/s are 163 840 ticks a step: five whole times the longest wait. A step needs an interval of its own all the same. */
static void a_step_of_whole_waits_has_an_interval_left(void)
{
    for (uint32_t speed = 3100; speed < 3150; speed++) {
        bridge_ramp ramp;
        step_segment segment;
        uint64_t ticks = 0;
        ramp_begin(&ramp, 5, speed, 100000, (uint32_t)TICKS);
        while (ramp_next(&ramp, &segment)) {
            CHECK(segment.steps <= 1);
            CHECK(segment.interval >= 256u << 16 && segment.interval < 65535u << 16);
            ticks += segment.interval;
        }
        CHECK(fabs((double)ticks / 65536 / (5 * TICKS * SPEED_ONE / speed) - 1) < 1e-3);
    }
}

/* An interval is a whole number of 1/65536 tick: over a long way that is a millionth of the time. */
static void at_a_constant_speed_every_step_takes_its_time(void)
{
    bridge_ramp ramp;
    step_segment segment;
    double ideal = TICKS / 12345.0, off = 0;
    uint32_t steps = 0;
    ramp_begin(&ramp, 100000, 12345u * SPEED_ONE, 50000, (uint32_t)TICKS);
    while (ramp_next(&ramp, &segment))
        if (segment.change == 0 && fabs(segment.interval / 65536.0 - ideal) < 1) {
            steps += segment.steps;
            off += segment.steps * (segment.interval / 65536.0 - ideal);
        }
    CHECK(steps > 90000);
    CHECK(fabs(off) < 1e-6 * steps * ideal);
}

static void standing_still_lasts_its_ticks(void)
{
    bridge_ramp ramp;
    step_segment segment;
    uint64_t ticks = 0;
    ramp_stand(&ramp, 1234567);
    do {
        CHECK(ramp_next(&ramp, &segment));
        CHECK_EQUAL(segment.steps, 0);
        ticks += segment.interval >> 16;
    } while (!segment.is_last);
    CHECK_EQUAL(ticks, 1234567);
    CHECK(!ramp_next(&ramp, &segment));
}

/* Wherever it is cut, it comes to rest in the time of a move of that length, and what has been planned keeps its times. */
static void a_move_that_is_cut_is_a_shorter_move(void)
{
    srand(5);
    for (int trial = 0; trial < 300; trial++) {
        bridge_ramp ramp;
        step_segment segment;
        uint32_t length = 10 + (uint32_t)rand() % 5000, steps = 0, planned = (uint32_t)rand() % length;
        double ticks = 0;
        bool last = false;
        ramp_begin(&ramp, length, 4000u * SPEED_ONE, 30000, (uint32_t)TICKS);
        while (ramp_next(&ramp, &segment)) {
            steps += segment.steps;
            double count = segment.steps;
            ticks += segment.steps == 0 ? segment.interval / 65536.0 : (segment.interval * count + segment.change * count * (count - 1) / 2) / 65536.0;
            last = segment.is_last;
            if (steps >= planned && length == ramp.length) {
                uint32_t least = ramp_least(&ramp);
                uint32_t cut = least + (uint32_t)rand() % (ramp.length - least + 1);
                CHECK(least >= steps && least <= length);
                if (cut < length)
                    ramp_cut(&ramp, cut);
                length = cut;
            }
        }
        CHECK_EQUAL(steps, length);
        CHECK(last);
        double whole = time_at(length, length, 4000, 30000);
        CHECK(fabs(ticks / TICKS - whole) < 1e-4 * whole);
    }
}

void ramp_tests(void)
{
    RUN(a_move_takes_the_time_of_a_trapezoid);
    RUN(intervals_are_within_a_hundredth_of_the_exact_ones);
    RUN(slow_machines_wait_in_whole_intervals);
    RUN(a_step_of_whole_waits_has_an_interval_left);
    RUN(at_a_constant_speed_every_step_takes_its_time);
    RUN(standing_still_lasts_its_ticks);
    RUN(a_move_that_is_cut_is_a_shorter_move);
}
