/* What the board says (SPEC.md, section 4, welcome and status). */
#include "board.h"
#include "bridge.h"
#include "octets.h"

enum { STATUS_EVERY_MS = 50, WIDTHS = 7 };

static void begin_frame(bridge *board, uint8_t type, uint8_t session, uint8_t number)
{
    board->encoder.octets[0] = type;
    board->encoder.octets[1] = session;
    board->encoder.octets[2] = number;
}

static void end_frame(bridge *board, const uint8_t *end)
{
    frame_send(&board->encoder, (uint8_t)(end - board->encoder.octets));
}

static void send_welcome(bridge *board)
{
    begin_frame(board, MESSAGE_WELCOME, (uint8_t)board->welcome_token, board->welcome_number);
    uint8_t *to = put_u16(board->encoder.octets + 3, board->welcome_token);
    to = put_u8(to, WIRE_VERSION);
    to = put_u8(to, BRIDGE_FIRMWARE_MAJOR);
    to = put_u8(to, BRIDGE_FIRMWARE_MINOR);
    to = put_u8(to, WIDTHS);
    to = put_u8(to, FRAME_MAX);
    to = put_u8(to, QUEUE_RECORDS);
    to = put_u16(to, store_bytes(board));
    to = put_u8(to, board->port->reset_reason);
    to = put_u8(to, board->state);
    end_frame(board, to);
}

static uint8_t inputs(const bridge *board)
{
    uint8_t pins = board->port->inputs(board->port->context) & BRIDGE_INPUT_PINS;
    return (uint8_t)(pins | (board->moves.referenced << 5));
}

static uint8_t head_octet(const bridge *board)
{
    return (uint8_t)(board->acts.head | (acts_work(board) ? 2 : 0) | (board->link.gap ? 4 : 0));
}

static void send_status(bridge *board)
{
    const bridge_run *run = &board->run;
    const bridge_acts *acts = &board->acts;
    begin_frame(board, MESSAGE_STATUS, (uint8_t)board->link.token, board->link.expected);
    uint8_t *to = put_u8(board->encoder.octets + 3, board->answer_number);
    to = put_u8(to, board->answer);
    to = put_u8(to, board->state);
    to = put_u8(to, board->cause);
    to = put_u8(to, inputs(board));
    to = put_u16(to, run->id);
    to = put_u32(to, run->taken);
    to = put_u32(to, run->limit);
    to = put_u32(to, run->done);
    to = put_u32(to, acts->cells_done);
    to = put_u16(to, acts->x);
    to = put_u16(to, acts->y);
    to = put_u16(to, acts->layer);
    to = put_u8(to, head_octet(board));
    end_frame(board, to);
    board->told_ms = board->now_ms;
}

static void send_stored(bridge *board)
{
    begin_frame(board, MESSAGE_STORED, (uint8_t)board->link.token, board->link.expected);
    uint8_t *to = put_u16(board->encoder.octets + 3, board->store.image_length);
    to = put_u16(to, board->stored_offset);
    store_octets(board, board->stored_offset, to, board->stored_count);
    end_frame(board, to + board->stored_count);
    board->stored_count = 0;
}

static void send_references(bridge *board)
{
    begin_frame(board, MESSAGE_REFERENCES, (uint8_t)board->link.token, board->link.expected);
    uint8_t *to = put_u8(board->encoder.octets + 3, board->reference.known);
    to = put_u8(to, board->reference.up);
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        to = put_u32(to, (uint32_t)board->reference.counted[axis]);
    end_frame(board, to);
}

/* Nothing waits but for what is on its way out, not even while the line brings more: a host whose window is full waits for this. A Status that
 * comes late so answers several messages. */
static void choose(bridge *board)
{
    if (board->moves.is_running && board->now_ms - board->told_ms >= STATUS_EVERY_MS)
        board->status_is_due = true;
    if (board->welcome_is_due) {
        board->welcome_is_due = false;
        send_welcome(board);
    } else if (board->stored_count > 0) {
        send_stored(board);
    } else if (board->references_are_due) {
        board->references_are_due = false;
        send_references(board);
    } else if (board->status_is_due) {
        board->status_is_due = false;
        if (board->link.is_open)
            send_status(board);
    }
}

void board_tell(bridge *board)
{
    const bridge_port *port = board->port;
    if (board->encoder.length == 0)
        choose(board);
    while (board->encoder.length != 0 && port->transmit_room(port->context) > 0)
        port->transmit(port->context, frame_pull(&board->encoder));
}
