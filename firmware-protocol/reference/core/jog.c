#include "jog.h"

#include <string.h>

#include "board.h"

/* How long slowing down may take: with the leave of 40 ms and what is planned ahead it ends within a beat, 100 ms. */
enum { SLOWING_A_SECOND = 64 };

static bool is_allowed(const bridge *board)
{
    return (board->state == STATE_IDLE || board->state == STATE_HELD) && moves_are_referenced(board);
}

/* To the last cell that way, for the head in use. */
static void begin(bridge *board)
{
    bridge_jog *jog = &board->jog;
    uint8_t axis = jog->axis;
    uint16_t cell = jog->up ? (uint16_t)(setup_cells(&board->setup, axis) - 1) : 0;
    int32_t end = setup_place(&board->setup, axis, cell, board->acts.head);
    bool is_beyond = jog->up ? end <= board->moves.place[axis] : end >= board->moves.place[axis];
    uint32_t speed = setup_axis_number(&board->setup, axis, AXIS_ACCELERATION) / SLOWING_A_SECOND + 1;
    move_kind kind = is_beyond ? MOVE_NONE : moves_creep(board, axis, end, speed);
    jog->takes_up = kind == MOVE_TAKE_UP;
    jog->is_busy = kind != MOVE_NONE;
    jog->is_returning = false;
    if (jog->is_busy && !jog->is_off) {
        memcpy(jog->origin, board->moves.place, sizeof jog->origin);
        jog->is_off = true;
    }
}

static bool has_leave(const bridge *board)
{
    return is_allowed(board) && board->now_ms - board->jog.given_ms < JOG_LEAVE_MS;
}

void jog_hear(bridge *board, const uint8_t *body)
{
    bridge_jog *jog = &board->jog;
    if (body[0] >= board->setup.axes || body[1] > 1 || !is_allowed(board))
        return;
    bool up = body[1] != 0;
    bool is_other = jog->axis != body[0] || jog->up != up;
    if (jog->is_busy && is_other)
        return; /* the leave for the way at hand runs out first */
    jog->given_ms = board->now_ms;
    jog->axis = body[0];
    jog->up = up;
    if (!board->moves.is_running)
        begin(board);
}

void jog_stop(bridge *board)
{
    if (board->jog.is_busy)
        moves_cut(board, ramp_least(&board->moves.ramp));
}

bool jog_poll(bridge *board)
{
    bridge_jog *jog = &board->jog;
    if (!jog->is_busy)
        return false;
    if (!jog->is_returning && !has_leave(board))
        jog_stop(board);
    if (moves_poll(board))
        return true;
    jog->is_busy = false;
    if (jog->takes_up && !jog->is_returning && has_leave(board))
        begin(board);
    return jog->is_busy;
}

/* Up before across, across before down. */
static bool begin_return(bridge *board)
{
    const bridge_jog *jog = &board->jog;
    int32_t place[SETUP_AXES];
    memcpy(place, jog->origin, sizeof place);
    if (place[2] > board->moves.place[2]) {
        place[0] = board->moves.place[0];
        place[1] = board->moves.place[1];
    } else if (place[0] != board->moves.place[0] || place[1] != board->moves.place[1]) {
        place[2] = board->moves.place[2];
    }
    return moves_begin(board, place) != MOVE_NONE;
}

bool jog_return(bridge *board)
{
    bridge_jog *jog = &board->jog;
    if (!jog->is_off)
        return false;
    jog->is_off = begin_return(board);
    jog->is_returning = jog->is_off;
    jog->is_busy = jog->is_off;
    return jog->is_busy;
}
