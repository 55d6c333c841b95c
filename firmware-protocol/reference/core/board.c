/* The calls of bridge.h. */
#include "bridge.h"

#include <string.h>

#include "step_path.h"

enum { OCTETS_A_TURN = 32 };

void bridge_init(bridge *board, const bridge_port *port)
{
    memset(board, 0, sizeof *board);
    board->port = port;
    board->state = STATE_ABORTED;
    board->cause = port->reset_reason == BRIDGE_RESET_WATCHDOG ? CAUSE_WATCHDOG : CAUSE_POWER_ON;
    board_halt(board, board->cause);
}

void board_halt(bridge *board, uint8_t cause)
{
    const bridge_port *port = board->port;
    uint8_t before = port->lock(port->context);
    if (board->halted == CAUSE_NONE) {
        board->halted = cause;
        steps_leave(&board->steps, STEPS_IDLE);
    }
    port->halt(port->context);
    port->unlock(port->context, before);
}

void bridge_receive_octet(bridge *board, uint8_t octet)
{
    if (receive_octet(&board->receive, octet))
        board_halt(board, CAUSE_STOP_OCTETS);
}

void bridge_receive_error(bridge *board)
{
    receive_error(&board->receive);
}

void bridge_e_stop(bridge *board)
{
    board_halt(board, CAUSE_E_STOP);
}

uint8_t bridge_step(bridge *board, uint8_t inputs)
{
    if (step_path_is_free(board, inputs))
        return board->steps.due;
    if (board->halted != CAUSE_NONE)
        return 0;
    if ((inputs & BRIDGE_INPUT_E_STOP) != 0) {
        board_halt(board, CAUSE_E_STOP);
        return 0;
    }
    uint8_t axes = steps_now(&board->steps, inputs);
    if (board->steps.state == STEPS_HIT)
        board_halt(board, CAUSE_ENDSTOP_HIT);
    return axes;
}

uint16_t bridge_step_next(bridge *board)
{
    uint16_t ticks = steps_next(&board->steps);
    if (ticks == 0 && board->steps.state == STEPS_FAULT)
        board_halt(board, CAUSE_FIRMWARE_FAULT);
    return ticks;
}

static void hear(bridge *board)
{
    uint8_t most = OCTETS_A_TURN;
    frame_event event;
    while ((event = receive_decode(&board->receive, &board->decoder, &most)) != FRAME_NONE)
        if (event == FRAME_GOOD)
            board_hear(board, board->decoder.octets, board->decoder.length);
}

void bridge_poll(bridge *board, uint32_t now_ms)
{
    board->now_ms = now_ms;
    hear(board);
    /* Each state is told before it is left; only an abort does not wait for the line. A transmitter takes little at a time, so it is looked at twice. */
    board_tell(board);
    button_poll(board);
    control_poll(board);
    store_poll(board);
    board_tell(board);
}
