#include "reference.h"

#include <string.h>

#include "board.h"

enum { PHASE_LIFT_B, PHASE_LIFT, PHASE_LEAVE, PHASE_LEFT, PHASE_SEEK, PHASE_FOUND, PHASE_RETURN, PHASE_CHECK };
enum { TURN_HOME_XY = 3, TURN_HOME_Z, TURN_PLAY, TURN_DONE };

static uint8_t axis_of_turn(const bridge *board, uint8_t turn)
{
    bool z_is_first = board->setup.axes == 3 && setup_endstop_at_max(&board->setup, 2);
    if (!z_is_first)
        return turn;
    return turn == 0 ? 2 : (uint8_t)(turn - 1);
}

static bool is_reached(const bridge *board, uint8_t axis)
{
    return (board->port->inputs(board->port->context) & (2u << axis)) != 0;
}

static bool has_found(const bridge *board)
{
    return board->steps.state == STEPS_FOUND;
}

/* The longest way to an endstop: the axis, its gap and the heads' offsets, and a quarter more. Below 2^31: see setup_fits. */
static uint32_t seek_length(const bridge *board, uint8_t axis)
{
    uint32_t way = (uint32_t)setup_far_steps(&board->setup, axis);
    for (uint8_t head = 0; head < board->setup.heads; head++) {
        int32_t offset = setup_offset(&board->setup, head, axis);
        way += (uint32_t)(offset < 0 ? -offset : offset);
    }
    return way + way / 4 + 2 * setup_axis_number(&board->setup, axis, AXIS_ENDSTOP_GAP) + 1;
}

/* Four ways away from an endstop that is closed at the beginning: each its gap, or a quarter of a cell if that is more. A carriage that is pushed
 * right into it gets out; one whose endstop has a cut wire is not driven on to its frame. */
static uint32_t leave_length(const bridge *board, uint8_t axis)
{
    uint32_t gaps = 4 * setup_axis_number(&board->setup, axis, AXIS_ENDSTOP_GAP);
    uint32_t cell = (uint32_t)setup_cell_steps(&board->setup, axis, 1);
    return gaps > cell ? gaps : cell + 1;
}

void reference_begin(bridge *board)
{
    bool is_known = moves_are_referenced(board);
    board->reference.turn = is_known ? TURN_HOME_XY : 0;
    board->reference.phase = is_known ? PHASE_LIFT : PHASE_LIFT_B;
    board->reference.is_busy = false;
    if (is_known)
        return;
    if (board->setup.axes != 3)
        board->moves.place[2] = 0; /* where acts_place has an axis that the machine is not told to have: so that it is not moved */
    board->reference.known = board->moves.believed;
    board->reference.up = board->moves.up;
    board->moves.referenced = 0;
    board->moves.believed = 0;
}

static bool begun(bridge *board, bool is_moving)
{
    board->reference.is_busy = is_moving;
    return is_moving;
}

/* Where the endstop has closed the place is known: its gap before the first cell or behind the last. */
static void note_place(bridge *board, uint8_t axis)
{
    int32_t gap = (int32_t)setup_axis_number(&board->setup, axis, AXIS_ENDSTOP_GAP);
    board->reference.counted[axis] += board->moves.place[axis];
    board->moves.place[axis] = setup_endstop_at_max(&board->setup, axis) ? setup_far_steps(&board->setup, axis) + gap : -gap;
}

static bool move_to_nearest_cell(bridge *board, uint8_t axis)
{
    uint16_t cell = setup_endstop_at_max(&board->setup, axis) ? (uint16_t)(setup_cells(&board->setup, axis) - 1) : 0;
    int32_t place[SETUP_AXES];
    memcpy(place, board->moves.place, sizeof place);
    place[axis] = setup_place(&board->setup, axis, cell, 0);
    return moves_begin(board, place) != MOVE_NONE;
}

/* One phase of an axis; REFERENCE_DONE means go on with the next. */
static reference_step go_on_axis(bridge *board, uint8_t axis)
{
    bridge_reference *reference = &board->reference;
    bool at_max = setup_endstop_at_max(&board->setup, axis);
    switch (reference->phase) {
    case PHASE_LEAVE:
        reference->counted[axis] = board->moves.place[axis];
        board->moves.place[axis] = 0;
        reference->phase = PHASE_SEEK;
        if (!is_reached(board, axis))
            return REFERENCE_DONE;
        reference->phase = PHASE_LEFT;
        moves_seek(board, axis, !at_max, leave_length(board, axis), false);
        return REFERENCE_BUSY;
    case PHASE_LEFT:
        reference->phase = PHASE_SEEK;
        return has_found(board) ? REFERENCE_DONE : REFERENCE_FAILED;
    case PHASE_SEEK:
        reference->phase = PHASE_FOUND;
        moves_seek(board, axis, at_max, seek_length(board, axis), true);
        return REFERENCE_BUSY;
    case PHASE_FOUND:
        if (!has_found(board))
            return REFERENCE_FAILED;
        reference->phase = PHASE_RETURN;
        note_place(board, axis);
        return REFERENCE_DONE;
    case PHASE_RETURN:
        if (move_to_nearest_cell(board, axis))
            return REFERENCE_BUSY;
        reference->phase = PHASE_CHECK;
        return REFERENCE_DONE;
    default:
        if (is_reached(board, axis) && setup_axis_number(&board->setup, axis, AXIS_ENDSTOP_GAP) != 0)
            return REFERENCE_FAILED;
        board->moves.referenced = (uint8_t)(board->moves.referenced | (1u << axis));
        reference->phase = PHASE_LEAVE;
        reference->turn++;
        if (reference->turn == board->setup.axes)
            reference->turn = TURN_HOME_XY;
        return REFERENCE_DONE;
    }
}

/* Straight along X and Y, then Z, then the play, so that each axis is as referencing leaves it. */
static bool go_home(bridge *board, uint8_t turn)
{
    int32_t home[SETUP_AXES];
    acts_place(board, 0, 0, 0, 0, home);
    if (turn == TURN_HOME_XY)
        home[2] = board->moves.place[2];
    return turn == TURN_PLAY ? moves_turn_away(board) : moves_begin(board, home) != MOVE_NONE;
}

/* A controller that was reset knows nothing of a pen, and its servo stays where it was: so each is down until it has been lifted. */
static void doubt_pen(bridge *board, uint8_t head)
{
    board->acts.head = head;
    board->acts.pen_is_down = head < board->setup.heads && setup_is_pen(&board->setup, head);
}

static reference_step go_on(bridge *board)
{
    bridge_reference *reference = &board->reference;
    if (reference->phase <= PHASE_LIFT) {
        if (reference->turn == 0)
            doubt_pen(board, reference->phase == PHASE_LIFT_B);
        reference->phase++;
        return acts_lift(board) ? REFERENCE_BUSY : REFERENCE_DONE;
    }
    if (reference->turn < TURN_HOME_XY)
        return go_on_axis(board, axis_of_turn(board, reference->turn));
    if (go_home(board, reference->turn))
        return REFERENCE_BUSY;
    reference->turn++;
    return REFERENCE_DONE;
}

reference_step reference_next(bridge *board)
{
    bridge_reference *reference = &board->reference;
    while (reference->turn < TURN_DONE) {
        reference_step step = go_on(board);
        if (step == REFERENCE_FAILED)
            return step;
        if (begun(board, step == REFERENCE_BUSY))
            return REFERENCE_BUSY;
    }
    return REFERENCE_DONE;
}

bool reference_poll(bridge *board)
{
    bridge_reference *reference = &board->reference;
    if (!reference->is_busy)
        return false;
    bool goes_on = board->acts.act == ACT_LIFT ? acts_poll(board) : moves_poll(board);
    if (board->halted != CAUSE_NONE)
        return true;
    reference->is_busy = goes_on;
    return goes_on;
}

void reference_stop(bridge *board)
{
    if (board->reference.is_busy)
        moves_cut(board, ramp_least(&board->moves.ramp));
}
