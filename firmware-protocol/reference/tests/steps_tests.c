#include <stdlib.h>
#include <string.h>

#include "../core/ramp.h"
#include "../core/steps.h"
#include "../ports/port.h"
#include "check.h"

typedef struct {
    uint32_t made[3];
    uint64_t ticks;
    int interrupts;
} steps_walk;

/* Plays the interrupt until it stops, the ring kept full. */
static steps_walk walk(bridge_steps *steps, bridge_ramp *ramp, uint8_t inputs, int inputs_from)
{
    steps_walk walked = {{0, 0, 0}, 0, 0};
    step_segment segment;
    uint16_t ticks = 0;
    do {
        while (steps_room(steps) > 0 && ramp_next(ramp, &segment))
            steps_put(steps, &segment);
        if (walked.interrupts == 0) {
            ticks = steps_start(steps);
        } else {
            uint8_t axes = steps_now(steps, walked.interrupts >= inputs_from ? inputs : 0);
            for (int axis = 0; axis < 3; axis++)
                walked.made[axis] += (axes >> axis) & 1;
            ticks = steps_next(steps);
        }
        walked.ticks += ticks;
        walked.interrupts++;
    } while (ticks != 0);
    return walked;
}

static void begin(bridge_steps *steps, bridge_ramp *ramp, uint32_t count)
{
    memset(steps, 0, sizeof *steps);
    steps_prepare(steps, count, BRIDGE_AXIS_Y);
    ramp_begin(ramp, count, 10000u * SPEED_ONE, 200000, 2000000);
}

static void every_axis_makes_exactly_its_steps(void)
{
    srand(3);
    for (int trial = 0; trial < 200; trial++) {
        bridge_steps steps;
        bridge_ramp ramp;
        uint32_t count = 2 + (uint32_t)rand() % 3000;
        uint32_t x = 1 + (uint32_t)rand() % (count - 1), z = 1 + (uint32_t)rand() % (count - 1);
        begin(&steps, &ramp, count);
        steps_follow(&steps, BRIDGE_AXIS_X, x, count);
        steps_follow(&steps, BRIDGE_AXIS_Z, z, count);
        steps_walk is = walk(&steps, &ramp, 0, 0);
        CHECK_EQUAL(steps.state, STEPS_IDLE);
        CHECK_EQUAL(is.made[0], x);
        CHECK_EQUAL(is.made[1], count);
        CHECK_EQUAL(is.made[2], z);
    }
}

static void followers_of_a_very_long_move_make_exactly_their_steps(void)
{
    bridge_steps steps;
    steps_prepare(&steps, 2000000011u, BRIDGE_AXIS_X);
    steps_follow(&steps, BRIDGE_AXIS_Y, 1999999999u, 2000000011u);
    CHECK_EQUAL(steps_made(&steps.follower[0], 2000000011u), 1999999999u);
    steps_follow(&steps, BRIDGE_AXIS_Z, 1, 2000000011u);
    CHECK_EQUAL(steps_made(&steps.follower[1], 2000000011u), 1);
    CHECK_EQUAL(steps_made(&steps.follower[1], 1000000000u), 0);
}

static void a_follower_is_never_more_than_half_a_step_off(void)
{
    bridge_steps steps;
    steps_prepare(&steps, 997, BRIDGE_AXIS_X);
    steps_follow(&steps, BRIDGE_AXIS_Y, 313, 997);
    for (uint32_t done = 0; done <= 997; done++) {
        double off = (double)steps_made(&steps.follower[0], done) - 313.0 * done / 997.0;
        CHECK(off <= 0.5 && off >= -0.5);
    }
}

static void no_step_is_made_once_a_guarded_endstop_is_reached(void)
{
    bridge_steps steps;
    bridge_ramp ramp;
    begin(&steps, &ramp, 1000);
    steps_guard(&steps, BRIDGE_INPUT_ENDSTOP_X << 2);
    steps_walk is = walk(&steps, &ramp, BRIDGE_INPUT_ENDSTOP_X << 2, 101);
    CHECK_EQUAL(steps.state, STEPS_HIT);
    CHECK_EQUAL(is.made[1], 100);
}

static void an_endstop_that_is_sought_ends_the_move(void)
{
    bridge_steps steps;
    bridge_ramp ramp;
    begin(&steps, &ramp, 1000);
    steps_seek(&steps, BRIDGE_INPUT_ENDSTOP_X, true);
    steps_walk is = walk(&steps, &ramp, BRIDGE_INPUT_ENDSTOP_X, 51);
    CHECK_EQUAL(steps.state, STEPS_FOUND);
    CHECK_EQUAL(is.made[1], 50);
    CHECK_EQUAL(steps_now(&steps, 0), 0);
    CHECK_EQUAL(steps_next(&steps), 0);
}

static void segments_with_more_steps_than_the_move_are_a_fault(void)
{
    bridge_steps steps;
    bridge_ramp ramp;
    begin(&steps, &ramp, 1000);
    steps.left = 900;
    steps_walk is = walk(&steps, &ramp, 0, 0);
    CHECK_EQUAL(steps.state, STEPS_FAULT);
    CHECK(is.made[1] > 800 && is.made[1] <= 900); /* a segment that has too many is not begun */
}

static void segments_with_fewer_steps_than_the_move_are_a_fault(void)
{
    bridge_steps steps;
    bridge_ramp ramp;
    begin(&steps, &ramp, 1000);
    steps.left = 1100;
    CHECK_EQUAL(walk(&steps, &ramp, 0, 0).made[1], 1000);
    CHECK_EQUAL(steps.state, STEPS_FAULT);
}

/* One interval more is borne, then the place is not known any more. */
static void segments_that_come_too_late_are_a_fault(void)
{
    bridge_steps steps;
    step_segment segment = {1000u << 16, 0, 10, true, false};
    memset(&steps, 0, sizeof steps);
    steps_prepare(&steps, 20, BRIDGE_AXIS_X);
    steps_put(&steps, &segment);
    uint16_t ticks = steps_start(&steps);
    uint64_t waited = 0;
    int made = 0;
    while (ticks != 0) {
        made += steps_now(&steps, 0) != 0;
        ticks = steps_next(&steps);
        if (made == 10)
            waited += ticks;
    }
    CHECK_EQUAL(steps.state, STEPS_FAULT);
    CHECK(waited >= 700 && waited <= 1100);
    CHECK_EQUAL(made, 10);
}

static void a_segment_that_is_a_little_late_is_borne(void)
{
    bridge_steps steps;
    step_segment segment = {1000u << 16, 0, 10, true, false};
    int made = 0;
    memset(&steps, 0, sizeof steps);
    steps_prepare(&steps, 20, BRIDGE_AXIS_X);
    steps_put(&steps, &segment);
    for (uint16_t ticks = steps_start(&steps); ticks != 0; ticks = steps_next(&steps)) {
        made += steps_now(&steps, 0) != 0;
        if (steps.dry_ticks > 0 && !segment.is_last) {
            segment.is_last = true;
            steps_put(&steps, &segment);
        }
    }
    CHECK_EQUAL(steps.state, STEPS_IDLE);
    CHECK_EQUAL(made, 20);
}

void steps_tests(void)
{
    RUN(every_axis_makes_exactly_its_steps);
    RUN(followers_of_a_very_long_move_make_exactly_their_steps);
    RUN(a_follower_is_never_more_than_half_a_step_off);
    RUN(no_step_is_made_once_a_guarded_endstop_is_reached);
    RUN(an_endstop_that_is_sought_ends_the_move);
    RUN(segments_with_more_steps_than_the_move_are_a_fault);
    RUN(segments_with_fewer_steps_than_the_move_are_a_fault);
    RUN(segments_that_come_too_late_are_a_fault);
    RUN(a_segment_that_is_a_little_late_is_borne);
}
