#include "acts.h"

#include <string.h>

#include "board.h"

static bool is_pen(const bridge *board, uint8_t head)
{
    return setup_is_pen(&board->setup, head);
}

static uint16_t layers(const bridge *board)
{
    return board->setup.axes == 3 ? setup_cells(&board->setup, 2) : 1;
}

static uint32_t ticks_of(const bridge *board, uint32_t ms)
{
    return ms * (board->port->ticks_per_second / 1000);
}

void acts_place(const bridge *board, uint16_t x, uint16_t y, uint16_t layer, uint8_t head, int32_t place[3])
{
    place[0] = setup_place(&board->setup, 0, x, head);
    place[1] = setup_place(&board->setup, 1, y, head);
    place[2] = board->setup.axes == 3 ? setup_place(&board->setup, 2, layer, head) : 0;
}

void acts_begin_run(bridge *board)
{
    bridge_acts *acts = &board->acts;
    acts->x = 0;
    acts->y = 0;
    acts->layer = 0;
    acts->head = 0;
    acts->has_record = false;
    acts->act = ACT_NONE;
    acts->stops = false;
    acts->job_pen_down = false;
}

/* Whether the carriage has a way to go to the cell that the path stands on. */
static bool is_elsewhere(const bridge *board, uint8_t head)
{
    const bridge_acts *acts = &board->acts;
    int32_t here[3];
    int32_t there[3];
    acts_place(board, acts->x, acts->y, acts->layer, acts->head, here);
    acts_place(board, acts->path.x, acts->path.y, acts->layer, head, there);
    return memcmp(here, there, sizeof here) != 0;
}

static void enter_path(bridge *board)
{
    bridge_acts *acts = &board->acts;
    acts->lifts = acts->job_pen_down
        && (acts->verb == VERB_WAIT || acts->new_layer != acts->layer || acts->new_head != acts->head || is_elsewhere(board, acts->new_head));
    acts->cell_is_due = acts->path.works_start;
    /* A line with the pen up starts at the first cell that it works. */
    bool is_down = acts->job_pen_down && !acts->lifts;
    if (acts->verb == VERB_LINE && is_pen(board, acts->new_head) && !is_down)
        acts->cell_is_due = path_next(&acts->path);
}

bool acts_begin_record(bridge *board, const bridge_record *record)
{
    bridge_acts *acts = &board->acts;
    const bridge_setup *setup = &board->setup;
    bool sets_head = record->verb != VERB_WAIT;
    acts->verb = record->verb;
    acts->new_head = sets_head ? record->head : acts->head;
    acts->new_layer = (uint16_t)(acts->layer + record->rise);
    if (acts->new_head >= setup->heads || acts->new_layer >= layers(board))
        return false;
    if (!path_begin(&acts->path, record, setup->axis_bits, acts->x, acts->y, setup_cells(setup, 0), setup_cells(setup, 1)))
        return false;
    bool is_timed = record->verb == VERB_WAIT && record->heading == 0;
    acts->wait_tenths = is_timed ? record_pq(record, setup->axis_bits) : 0;
    acts->wait_ticks = 0;
    acts->is_let_go = record->verb != VERB_WAIT || is_timed;
    acts->works = false;
    acts->cells_done = 0;
    enter_path(board);
    acts->has_record = true;
    return true;
}

static void count_cell(bridge *board)
{
    bridge_acts *acts = &board->acts;
    const bridge_port *port = board->port;
    acts->cells_done++;
    acts->x = acts->path.x;
    acts->y = acts->path.y;
    if (port->worked)
        port->worked(port->context, acts->head, acts->x, acts->y, acts->layer);
}

static void stand(bridge *board, uint8_t act, uint32_t ticks)
{
    board->acts.act = act;
    moves_stand(board, ticks);
}

/* Under the lock: a halt between the look and the call would leave a head at work with the drivers off. */
static void set_head(bridge *board, bool works)
{
    const bridge_port *port = board->port;
    uint8_t head = board->acts.head;
    uint8_t before = port->lock(port->context);
    if (!works || board->halted == CAUSE_NONE)
        port->head(port->context, head, is_pen(board, head), works);
    port->unlock(port->context, before);
}

bool acts_lift(bridge *board)
{
    bridge_acts *acts = &board->acts;
    if (!acts->pen_is_down)
        return false;
    set_head(board, false);
    stand(board, ACT_LIFT, ticks_of(board, setup_head_ms(&board->setup, acts->head, HEAD_SECOND_MS)));
    return true;
}

static void lower(bridge *board)
{
    board->acts.pen_is_down = true;
    board->acts.job_pen_down = true;
    set_head(board, true);
    stand(board, ACT_LOWER, ticks_of(board, setup_head_ms(&board->setup, board->acts.head, HEAD_FIRST_MS)));
}

/* True where a move has been begun; its play comes first. */
static bool move(bridge *board, uint8_t act, const int32_t place[3])
{
    move_kind kind = moves_begin(board, place);
    if (kind == MOVE_NONE)
        return false;
    board->acts.act = kind == MOVE_TAKE_UP ? ACT_TAKE_UP : act;
    return true;
}

static bool move_to_cell(bridge *board, uint8_t act)
{
    const bridge_acts *acts = &board->acts;
    int32_t place[3];
    acts_place(board, acts->path.x, acts->path.y, acts->layer, acts->head, place);
    return move(board, act, place);
}

/* Rise, head change, idle move; false where all is done. */
static bool approach(bridge *board)
{
    bridge_acts *acts = &board->acts;
    if (acts->lifts) {
        acts->lifts = false;
        acts->job_pen_down = false;
        if (acts_lift(board))
            return true;
    }
    if (acts->layer != acts->new_layer) {
        int32_t place[3];
        memcpy(place, board->moves.place, sizeof place);
        place[2] = setup_place(&board->setup, 2, acts->new_layer, acts->head);
        if (move(board, ACT_RISE, place))
            return true;
        acts->layer = acts->new_layer;
    }
    if (acts->head != acts->new_head) {
        stand(board, ACT_CHANGE, ticks_of(board, setup_head_change_ms(&board->setup)));
        return true;
    }
    return move_to_cell(board, ACT_IDLE_MOVE);
}

/* The pen has come k of n parts of its way when it has made this many of its steps. */
static uint32_t steps_of_cells(const bridge_acts *acts, uint32_t cells)
{
    uint32_t count = acts->leg_cells;
    uint32_t whole = acts->leg_steps / count;
    uint32_t rest = acts->leg_steps % count;
    return cells * whole + (cells * rest + count - 1) / count;
}

/* Counts the cells that the pen has passed. The last of the steps may be settled and not made yet. */
static void count_leg(bridge *board, uint32_t steps)
{
    bridge_acts *acts = &board->acts;
    while (acts->leg_done < acts->leg_cut && steps > acts->leg_mark) {
        path_next(&acts->path);
        count_cell(board);
        acts->leg_done++;
        acts->leg_mark = steps_of_cells(acts, acts->leg_done + 1u);
    }
}

/* True where a leg has been begun; one without steps is done at once. */
static bool begin_leg(bridge *board, uint16_t x, uint16_t y, uint16_t cells)
{
    bridge_acts *acts = &board->acts;
    int32_t place[3];
    acts_place(board, x, y, acts->layer, acts->head, place);
    acts->leg_cells = cells;
    acts->leg_cut = cells;
    acts->leg_done = 0;
    if (move(board, ACT_LEG, place)) {
        acts->leg_steps = board->moves.length;
        acts->leg_mark = steps_of_cells(acts, 1);
        return true;
    }
    count_leg(board, UINT32_MAX);
    return false;
}

static bool draw(bridge *board)
{
    bridge_acts *acts = &board->acts;
    uint16_t x, y, cells;
    if (!acts->pen_is_down && (acts->cell_is_due || path_leg(&acts->path, &x, &y) > 0)) {
        lower(board);
        return true;
    }
    if (acts->cell_is_due) {
        acts->cell_is_due = false;
        count_cell(board);
    }
    while ((cells = path_leg(&acts->path, &x, &y)) > 0)
        if (begin_leg(board, x, y, cells))
            return true;
    return false;
}

static bool dot(bridge *board)
{
    bridge_acts *acts = &board->acts;
    if (!acts->cell_is_due)
        acts->cell_is_due = path_next(&acts->path);
    if (!acts->cell_is_due)
        return false;
    if (move_to_cell(board, ACT_DOT_MOVE))
        return true;
    set_head(board, true);
    stand(board, ACT_DOT, ticks_of(board, setup_head_ms(&board->setup, acts->head, HEAD_FIRST_MS)));
    return true;
}

/* Long waits are stood a part at a time. */
static bool wait(bridge *board)
{
    enum { TENTHS_A_PART = 100 };
    bridge_acts *acts = &board->acts;
    if (acts->wait_ticks > 0) {
        uint32_t ticks = acts->wait_ticks;
        acts->wait_ticks = 0;
        stand(board, ACT_WAIT, ticks);
        return true;
    }
    if (acts->wait_tenths == 0)
        return false;
    uint32_t tenths = acts->wait_tenths < TENTHS_A_PART ? acts->wait_tenths : TENTHS_A_PART;
    acts->wait_tenths -= tenths;
    stand(board, ACT_WAIT, ticks_of(board, tenths * 100));
    return true;
}

static bool work(bridge *board)
{
    const bridge_acts *acts = &board->acts;
    if (acts->verb == VERB_WAIT)
        return wait(board);
    return is_pen(board, acts->head) ? draw(board) : dot(board);
}

acts_step acts_next(bridge *board)
{
    bridge_acts *acts = &board->acts;
    acts->stops = false;
    if (!acts->works) {
        if (approach(board))
            return ACTS_BUSY;
        acts->works = true;
        acts->x = acts->path.x;
        acts->y = acts->path.y;
    }
    if (!acts->is_let_go) {
        acts->is_let_go = true;
        return ACTS_OPERATOR;
    }
    if (work(board))
        return ACTS_BUSY;
    acts->has_record = false;
    acts->cells_done = 0;
    return ACTS_RECORD_DONE;
}

static void finish(bridge *board)
{
    bridge_acts *acts = &board->acts;
    acts->last = acts->act;
    acts->act = ACT_NONE;
    switch (acts->last) {
    case ACT_LIFT:
        acts->pen_is_down = false;
        break;
    case ACT_CHANGE:
        acts->head = acts->new_head;
        break;
    case ACT_LEG:
        count_leg(board, UINT32_MAX);
        break;
    case ACT_DOT:
        set_head(board, false);
        acts->cell_is_due = false;
        count_cell(board);
        break;
    default:
        break;
    }
}

bool acts_poll(bridge *board)
{
    bridge_acts *acts = &board->acts;
    if (acts->act == ACT_NONE)
        return false;
    bool goes_on = moves_poll(board);
    uint32_t done = moves_done(board); /* before the look at a halt, which drops steps that were not made */
    if (board->halted != CAUSE_NONE)
        return true; /* what was at hand is not done; the abort drops it */
    if (!goes_on)
        finish(board);
    else if (acts->act == ACT_LEG)
        count_leg(board, done);
    return goes_on;
}

/* The first cell of the leg at or beyond a number of steps. */
static uint16_t cell_at(const bridge_acts *acts, uint32_t steps)
{
    uint16_t low = acts->leg_done;
    uint16_t high = acts->leg_cut;
    while (low < high) {
        uint16_t middle = (uint16_t)(low + (high - low) / 2);
        if (steps_of_cells(acts, middle) >= steps)
            high = middle;
        else
            low = (uint16_t)(middle + 1);
    }
    return high;
}

void acts_stop(bridge *board)
{
    bridge_acts *acts = &board->acts;
    uint32_t least = ramp_least(&board->moves.ramp);
    if (acts->stops)
        return;
    acts->stops = true;
    switch (acts->act) {
    case ACT_IDLE_MOVE:
    case ACT_RISE:
        moves_cut(board, least);
        break;
    case ACT_LEG:
        acts->leg_cut = cell_at(acts, least);
        moves_cut(board, steps_of_cells(acts, acts->leg_cut));
        break;
    case ACT_WAIT:
        acts->wait_ticks = moves_cut_stand(board);
        break;
    default:
        break;
    }
}

bool acts_stop_next(bridge *board)
{
    const bridge_acts *acts = &board->acts;
    bool is_over_dot = acts->last == ACT_DOT_MOVE && acts->cell_is_due;
    return is_over_dot ? dot(board) : acts_lift(board);
}

void acts_drop(bridge *board)
{
    board->acts.act = ACT_NONE;
    board->acts.last = ACT_NONE;
    board->acts.cell_is_due = false;
}

bool acts_work(const bridge *board)
{
    return board->acts.pen_is_down || board->acts.act == ACT_DOT;
}
