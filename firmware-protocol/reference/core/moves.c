#include "moves.h"

#include <string.h>

#include "apart.h"
#include "board.h"
#include "number.h"

enum { SEGMENTS_A_TURN = 1 };

typedef struct {
    uint32_t way[SETUP_AXES];
    uint32_t longest;
    uint8_t axes;
    uint8_t up;
} whole_way;

static uint8_t axis_bit(uint8_t axis)
{
    return (uint8_t)(1u << axis);
}

static uint8_t machine_axes(const bridge *board)
{
    return board->setup.axes == 3 ? 7 : 3;
}

static void add_axis(whole_way *whole, uint8_t axis, uint32_t way, bool up)
{
    whole->way[axis] = way;
    if (way == 0)
        return;
    whole->axes |= axis_bit(axis);
    if (up)
        whole->up |= axis_bit(axis);
    if (way > whole->longest)
        whole->longest = way;
}

/* A number of an axis, for the longest one to go by. */
static uint32_t in_proportion(const whole_way *whole, uint8_t axis, uint32_t number)
{
    uint32_t way = whole->way[axis];
    return way == whole->longest ? number : number_ratio(number, number_ratio(way, whole->longest, 32), 32);
}

/* The limits of each axis bear on the longest one in proportion: all start and stop together. */
static void plan(bridge *board, const whole_way *whole)
{
    uint32_t speed = UINT32_MAX;
    uint32_t acceleration = UINT32_MAX;
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++) {
        if (whole->way[axis] == 0)
            continue;
        uint32_t top = in_proportion(whole, axis, setup_axis_number(&board->setup, axis, AXIS_TOP_SPEED) * SPEED_ONE);
        uint32_t rate = in_proportion(whole, axis, setup_axis_number(&board->setup, axis, AXIS_ACCELERATION));
        speed = top < speed ? top : speed;
        acceleration = rate < acceleration ? rate : acceleration;
    }
    ramp_begin(&board->moves.ramp, whole->longest, speed, acceleration, board->port->ticks_per_second);
}

static void prepare(bridge *board, const whole_way *whole, bool keeps_place)
{
    bridge_moves *moves = &board->moves;
    uint8_t leaders = 0;
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        if (whole->way[axis] != 0 && whole->way[axis] == whole->longest)
            leaders |= axis_bit(axis);
    steps_prepare(&board->steps, whole->longest, leaders);
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        if (whole->way[axis] != 0 && whole->way[axis] != whole->longest)
            steps_follow(&board->steps, axis_bit(axis), whole->way[axis], whole->longest);
    moves->axes = whole->axes;
    moves->length = whole->longest;
    moves->up = (uint8_t)((moves->up & ~whole->axes) | whole->up);
    moves->keeps_place = keeps_place;
    moves->is_running = true;
    moves->is_started = false;
    moves->ahead = 0;
    board->port->directions(board->port->context, moves->up);
}

/* An endstop that closes at the edge of the grid itself is watched only on the way towards it. */
static uint8_t guarded(const bridge *board)
{
    const bridge_moves *moves = &board->moves;
    uint8_t axes = moves->referenced;
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++) {
        bool goes_up = (moves->up & axis_bit(axis)) != 0;
        bool goes_towards = (moves->axes & axis_bit(axis)) != 0 && goes_up == setup_endstop_at_max(&board->setup, axis);
        if (setup_axis_number(&board->setup, axis, AXIS_ENDSTOP_GAP) == 0 && !goes_towards)
            axes &= (uint8_t)~axis_bit(axis);
    }
    return (uint8_t)(axes << 1);
}

static bool take_up(bridge *board, uint8_t turning, uint8_t up)
{
    whole_way play = {{0}, 0, 0, 0};
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        if ((turning & axis_bit(axis)) != 0)
            add_axis(&play, axis, setup_backlash(&board->setup, axis), (up & axis_bit(axis)) != 0);
    if (play.longest == 0)
        return false;
    plan(board, &play);
    prepare(board, &play, true);
    return true;
}

move_kind moves_begin(bridge *board, const int32_t place[SETUP_AXES])
{
    whole_way whole = {{0}, 0, 0, 0};
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++) {
        int32_t way = place[axis] - board->moves.place[axis];
        add_axis(&whole, axis, way < 0 ? (uint32_t)-way : (uint32_t)way, way > 0);
    }
    if (whole.longest == 0)
        return MOVE_NONE;
    uint8_t turning = (uint8_t)((whole.up ^ board->moves.up) & whole.axes);
    bool takes_up = take_up(board, turning, whole.up);
    if (!takes_up) {
        plan(board, &whole);
        prepare(board, &whole, false);
    }
    steps_guard(&board->steps, guarded(board));
    return takes_up ? MOVE_TAKE_UP : MOVE_STRAIGHT;
}

static void creep(bridge *board, uint8_t axis, bool up, uint32_t length, uint32_t speed)
{
    whole_way whole = {{0}, 0, 0, 0};
    add_axis(&whole, axis, length, up);
    ramp_begin(&board->moves.ramp, length, speed * SPEED_ONE, setup_axis_number(&board->setup, axis, AXIS_ACCELERATION), board->port->ticks_per_second);
    prepare(board, &whole, false);
    steps_guard(&board->steps, guarded(board));
}

move_kind moves_creep(bridge *board, uint8_t axis, int32_t place, uint32_t most_speed)
{
    int32_t way = place - board->moves.place[axis];
    uint32_t speed = setup_axis_number(&board->setup, axis, AXIS_REFERENCE_SPEED);
    uint8_t up = way > 0 ? axis_bit(axis) : 0;
    if (way == 0)
        return MOVE_NONE;
    if (take_up(board, (uint8_t)((board->moves.up ^ up) & axis_bit(axis)), up)) {
        steps_guard(&board->steps, guarded(board));
        return MOVE_TAKE_UP;
    }
    creep(board, axis, way > 0, way < 0 ? (uint32_t)-way : (uint32_t)way, speed < most_speed ? speed : most_speed);
    return MOVE_STRAIGHT;
}

void moves_seek(bridge *board, uint8_t axis, bool up, uint32_t length, bool until_reached)
{
    creep(board, axis, up, length, setup_axis_number(&board->setup, axis, AXIS_REFERENCE_SPEED));
    steps_seek(&board->steps, (uint8_t)(2u << axis), until_reached);
}

bool moves_turn_away(bridge *board)
{
    uint8_t away = 0;
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        if (!setup_endstop_at_max(&board->setup, axis))
            away |= axis_bit(axis);
    uint8_t turning = (uint8_t)((away ^ board->moves.up) & machine_axes(board));
    bool takes_up = take_up(board, turning, away);
    if (takes_up)
        steps_guard(&board->steps, guarded(board));
    board->moves.up = away;
    return takes_up;
}

void moves_stand(bridge *board, uint32_t ticks)
{
    bridge_moves *moves = &board->moves;
    ramp_stand(&moves->ramp, ticks > 0 ? ticks : 1);
    steps_prepare(&board->steps, 0, 0);
    moves->axes = 0;
    moves->length = 0;
    moves->keeps_place = true;
    moves->is_running = true;
    moves->is_started = false;
    moves->ahead = 0;
    steps_guard(&board->steps, guarded(board));
}

APART uint32_t moves_done(const bridge *board)
{
    return board->moves.length - steps_left(&board->steps);
}

/* Only from the lock: an interrupt that halts comes before this, and then it does nothing, or after it. */
static void start(bridge *board)
{
    const bridge_port *port = board->port;
    uint8_t before = port->lock(port->context);
    if (board->halted == CAUSE_NONE)
        port->start_steps(port->context, steps_start(&board->steps));
    port->unlock(port->context, before);
}

/* A few segments at a time, so that the line is not kept waiting; and only a little ahead, so that a controlled stop is not. */
static void feed(bridge *board)
{
    bridge_moves *moves = &board->moves;
    bridge_steps *steps = &board->steps;
    uint8_t spare = moves->length == 0 ? SEGMENTS - 2 : 0;
    step_segment segment;
    for (uint8_t turn = 0; turn < SEGMENTS_A_TURN && steps_room(steps) > spare; turn++) {
        if (moves->ramp.planned - moves_done(board) > moves->ahead || !ramp_next(&moves->ramp, &segment))
            return;
        steps_put(steps, &segment);
        moves->ahead = ramp_ahead(&moves->ramp);
        if (!moves->is_started) {
            moves->is_started = true;
            start(board);
        }
    }
}

static uint32_t made_by(const bridge *board, uint8_t axis, uint32_t done)
{
    const bridge_steps *steps = &board->steps;
    if ((steps->leaders & axis_bit(axis)) != 0)
        return done;
    const step_follower *follower = &steps->follower[steps->follower[0].bit != axis_bit(axis)];
    return steps_made(follower, done);
}

static void settle(bridge *board)
{
    bridge_moves *moves = &board->moves;
    moves->is_running = false;
    if (moves->keeps_place)
        return;
    uint32_t done = moves_done(board);
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++) {
        if ((moves->axes & axis_bit(axis)) == 0)
            continue;
        int32_t made = (int32_t)made_by(board, axis, done);
        moves->place[axis] += (moves->up & axis_bit(axis)) != 0 ? made : -made;
    }
}

bool moves_poll(bridge *board)
{
    if (!board->moves.is_running)
        return false;
    feed(board);
    if (board->steps.state == STEPS_RUNNING)
        return true;
    settle(board);
    return false;
}

void moves_cut(bridge *board, uint32_t length)
{
    const bridge_port *port = board->port;
    uint32_t less = board->moves.length - length;
    if (less == 0 || board->moves.keeps_place)
        return;
    ramp_cut(&board->moves.ramp, length);
    uint8_t before = port->lock(port->context);
    board->steps.left -= less;
    port->unlock(port->context, before);
    board->moves.length = length;
}

uint32_t moves_cut_stand(bridge *board)
{
    uint32_t rest = board->moves.ramp.wait;
    if (rest <= 1)
        return 0;
    board->moves.ramp.wait = 1;
    return rest - 1;
}

void moves_drop(bridge *board)
{
    steps_prepare(&board->steps, 0, 0);
    board->moves.is_running = false;
    board->moves.referenced = 0;
    board->moves.believed = 0;
}

void moves_doubt(bridge *board)
{
    board->moves.believed |= board->moves.referenced;
    board->moves.referenced = 0;
}

bool moves_are_referenced(const bridge *board)
{
    uint8_t axes = machine_axes(board);
    return board->setup.axes != 0 && (board->moves.referenced & axes) == axes;
}
