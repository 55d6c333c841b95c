#include "button.h"

#include "board.h"

enum { SURE_MS = 30, RUN_OF_BUTTON = 0xFFFF };

static uint8_t cause_of(uint8_t answer)
{
    switch (answer) {
    case ANSWER_STORE_BLANK:
        return CAUSE_STORE_BLANK;
    case ANSWER_STORE_FOREIGN:
        return CAUSE_STORE_FOREIGN;
    case ANSWER_BAD_RECORD:
        return CAUSE_BAD_RECORD;
    default:
        return CAUSE_STORE_DAMAGED;
    }
}

/* The machine that the stored job is for. */
static void reset(bridge *board)
{
    uint8_t answer = store_find(board);
    if (answer == ANSWER_STORE_BUSY)
        return;
    if (answer == ANSWER_NONE) {
        board->moves.referenced = 0;
        store_take_setup(board);
        answer = control_command(board, COMMAND_RESET);
    }
    if (answer != ANSWER_NONE)
        board->cause = cause_of(answer);
}

static void start(bridge *board)
{
    uint8_t answer = run_begin_stored(board, RUN_OF_BUTTON);
    if (answer == ANSWER_NONE)
        control_command(board, COMMAND_START);
    else if (answer != ANSWER_STORE_BUSY)
        board->cause = cause_of(answer);
}

static void press(bridge *board)
{
    switch (board->state) {
    case STATE_ABORTED:
        control_command(board, COMMAND_CLEAR);
        break;
    case STATE_STOPPED:
    case STATE_COMPLETE:
        reset(board);
        break;
    case STATE_IDLE:
        start(board);
        break;
    case STATE_HELD:
        control_command(board, COMMAND_UNHOLD);
        break;
    default:
        break;
    }
}

void button_poll(bridge *board)
{
    bridge_button *button = &board->button;
    bool reads_down = (board->port->inputs(board->port->context) & BRIDGE_INPUT_START) != 0;
    if (reads_down != button->reads_down) {
        button->reads_down = reads_down;
        button->changed_ms = board->now_ms;
    }
    if (board->now_ms - button->changed_ms < SURE_MS)
        return;
    bool is_press = reads_down && !button->is_down && button->was_up;
    button->is_down = reads_down;
    button->was_up = button->was_up || !reads_down;
    if (is_press && !board->link.is_open)
        press(board);
}
