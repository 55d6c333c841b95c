/* The states and what is done in each of them (SPEC.md, section 7). */
#include <stddef.h>

#include "board.h"

static bool needs_line(uint8_t state)
{
    switch (state) {
    case STATE_STARTING:
    case STATE_EXECUTE:
    case STATE_UNHOLDING:
    case STATE_SUSPENDING:
    case STATE_SUSPENDED:
    case STATE_UNSUSPENDING:
    case STATE_RESETTING:
        return true;
    default:
        return false;
    }
}

/* A run from the store needs no host. */
static bool listens(const bridge *board)
{
    bool is_stored = board->run.from_store && run_is_open(&board->run) && board->state != STATE_RESETTING;
    return board->link.is_open && needs_line(board->state) && !is_stored;
}

/* Not where a STOP has come behind the Clear: then the board stays halted, and so goes back to Aborted. */
static void drivers_on(bridge *board)
{
    const bridge_port *port = board->port;
    uint8_t before = port->lock(port->context);
    if ((port->inputs(port->context) & BRIDGE_INPUT_E_STOP) == 0 && !board->receive.stop_is_ahead) {
        board->halted = CAUSE_NONE;
        port->enable(port->context);
    }
    port->unlock(port->context, before);
}

static void drop_all(bridge *board, uint8_t cause)
{
    board_halt(board, cause);
    moves_drop(board);
    run_end(board);
    acts_drop(board);
    board->reference.is_busy = false;
    board->jog.is_busy = false;
    board->jog.is_off = false;
}

static void begin_stop(bridge *board)
{
    acts_stop(board);
    reference_stop(board);
    jog_stop(board);
}

void control_enter(bridge *board, uint8_t state, uint8_t cause)
{
    board->state = state;
    board->cause = cause;
    board->status_is_due = true;
    switch (state) {
    case STATE_CLEARING:
        drivers_on(board);
        break;
    case STATE_RESETTING:
        board->jog.is_off = false;
        reference_begin(board);
        break;
    case STATE_STOPPING:
    case STATE_COMPLETING:
        run_end(board);
        begin_stop(board);
        break;
    case STATE_HOLDING:
    case STATE_SUSPENDING:
        begin_stop(board);
        break;
    case STATE_SUSPENDED:
        board->suspended_ms = board->now_ms;
        break;
    case STATE_ABORTING:
        drop_all(board, cause);
        break;
    default:
        break;
    }
}

static uint8_t refusal(const bridge *board, uint8_t command)
{
    const bridge_port *port = board->port;
    switch (command) {
    case COMMAND_CLEAR:
        return (port->inputs(port->context) & BRIDGE_INPUT_E_STOP) != 0 ? ANSWER_CAUSE_PRESENT : ANSWER_NONE;
    case COMMAND_RESET:
        if (!setup_is_complete(&board->setup))
            return ANSWER_NO_SETUP;
        return setup_fits(&board->setup) ? ANSWER_NONE : ANSWER_BAD_VALUE;
    case COMMAND_START:
        if (!moves_are_referenced(board))
            return ANSWER_NOT_REFERENCED;
        return run_is_open(&board->run) ? ANSWER_NONE : ANSWER_NO_RUN;
    default:
        return ANSWER_NONE;
    }
}

uint8_t control_command(bridge *board, uint8_t command)
{
    uint8_t next = state_after(board->state, command);
    if (next == STATE_NONE)
        return ANSWER_WRONG_STATE;
    uint8_t answer = refusal(board, command);
    if (answer == ANSWER_NONE)
        control_enter(board, next, CAUSE_OPERATOR);
    return answer;
}

void control_stop_for_line(bridge *board, uint8_t cause)
{
    if (needs_line(board->state))
        control_enter(board, board->state == STATE_RESETTING ? STATE_STOPPING : STATE_HOLDING, cause);
}

/* True where a record is at hand now; else the state has been left. */
static bool take_record(bridge *board)
{
    bridge_record record;
    const uint8_t *octets;
    if (board->run.done == board->run.count) {
        control_enter(board, STATE_COMPLETING, CAUSE_JOB_COMPLETE);
        return false;
    }
    octets = run_next(board);
    if (octets == NULL) {
        bool has_ended = board->run.done == board->run.count; /* a store may end without `end` */
        control_enter(board, has_ended ? STATE_COMPLETING : STATE_SUSPENDING, has_ended ? CAUSE_JOB_COMPLETE : CAUSE_STARVED);
        return false;
    }
    if (!record_read(&record, octets, board->setup.axis_bits)) {
        board_halt(board, CAUSE_FIRMWARE_FAULT); /* it was valid when it was taken */
        return false;
    }
    if (record.verb == VERB_END) {
        board->run.done++;
        control_enter(board, STATE_COMPLETING, CAUSE_JOB_COMPLETE);
        return false;
    }
    if (!acts_begin_record(board, &record)) {
        control_enter(board, STATE_STOPPING, CAUSE_BAD_RECORD);
        return false;
    }
    return true;
}

static void execute(bridge *board)
{
    if (acts_poll(board))
        return;
    if (!board->acts.has_record && !take_record(board))
        return;
    switch (acts_next(board)) {
    case ACTS_RECORD_DONE:
        board->run.done++;
        break;
    case ACTS_OPERATOR:
        control_enter(board, STATE_HOLDING, CAUSE_OPERATOR_WAIT);
        break;
    default:
        acts_poll(board); /* its first step is planned now */
        break;
    }
}

static void reset(bridge *board)
{
    if (reference_poll(board))
        return;
    switch (reference_next(board)) {
    case REFERENCE_FAILED:
        control_enter(board, STATE_ABORTING, CAUSE_REFERENCE_FAILED);
        break;
    case REFERENCE_DONE:
        acts_begin_run(board);
        control_enter(board, STATE_IDLE, board->cause);
        break;
    default:
        break;
    }
}

/* A state that is left by itself is left once the host has been told of it. */
static bool is_told(const bridge *board)
{
    return !board->status_is_due || !board->link.is_open;
}

static void stop(bridge *board)
{
    if (jog_poll(board) || reference_poll(board) || acts_poll(board) || acts_stop_next(board) || !is_told(board))
        return;
    control_enter(board, state_completed(board->state), board->cause);
}

static void wait_for_records(bridge *board)
{
    if (board->cause != CAUSE_STARVED)
        return;
    if (board->queue.count > 0)
        control_enter(board, STATE_UNSUSPENDING, CAUSE_NONE);
    else if (board->now_ms - board->suspended_ms >= setup_line_timeout_ms(&board->setup))
        control_enter(board, STATE_HOLDING, CAUSE_STARVED);
}

static void look_at_inputs(bridge *board)
{
    const bridge_port *port = board->port;
    bool is_down = board->state == STATE_ABORTING || board->state == STATE_ABORTED;
    if (!is_down && (port->inputs(port->context) & BRIDGE_INPUT_E_STOP) != 0)
        board_halt(board, CAUSE_E_STOP);
    if (!is_down && board->halted != CAUSE_NONE)
        control_enter(board, STATE_ABORTING, board->halted);
}

void control_poll(bridge *board)
{
    look_at_inputs(board);
    if (listens(board) && board->now_ms - board->heard_ms >= setup_line_timeout_ms(&board->setup))
        control_stop_for_line(board, CAUSE_LINE_SILENT);
    switch (board->state) {
    case STATE_EXECUTE:
        execute(board);
        break;
    case STATE_RESETTING:
        reset(board);
        break;
    case STATE_HOLDING:
    case STATE_SUSPENDING:
    case STATE_STOPPING:
    case STATE_COMPLETING:
        stop(board);
        break;
    case STATE_SUSPENDED:
        wait_for_records(board);
        break;
    case STATE_IDLE:
    case STATE_HELD:
        jog_poll(board);
        break;
    case STATE_STARTING:
    case STATE_UNHOLDING:
        if (jog_poll(board) || jog_return(board))
            break;
        if (is_told(board))
            control_enter(board, STATE_EXECUTE, board->cause);
        break;
    default:
        if (state_is_acting(board->state) && is_told(board))
            control_enter(board, state_completed(board->state), board->cause);
        break;
    }
}
