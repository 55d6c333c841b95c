/* What the host says (SPEC.md, sections 4 and 5). */
#include "board.h"
#include "octets.h"

enum { HEADER = 3, HELLO_LENGTH = 3, STORE_READ_LENGTH = 3, STORED_MAX = 26 };

static void hear_hello(bridge *board, const uint8_t *body, uint8_t length)
{
    if (length < HELLO_LENGTH)
        return;
    uint16_t token = get_u16(body + 1);
    bool is_ours = body[0] == WIRE_VERSION;
    if (is_ours) {
        board->heard_ms = board->now_ms;
        if (link_open(&board->link, token)) {
            board->answer_number = 0;
            board->answer = ANSWER_NONE;
            control_stop_for_line(board, CAUSE_HOST_RESTARTED);
        }
    }
    board->welcome_is_due = true;
    board->welcome_token = token;
    board->welcome_number = is_ours ? board->link.expected : 0;
}

static uint8_t set_part(bridge *board, uint8_t type, const uint8_t *body, uint8_t length)
{
    bool is_at_rest = board->state == STATE_STOPPED || board->state == STATE_ABORTED || board->state == STATE_IDLE;
    bool may_change = is_at_rest && !board->moves.is_running;
    uint8_t answer = type == MESSAGE_SET_MACHINE ? setup_take_machine(&board->setup, body, length, may_change)
        : type == MESSAGE_SET_AXIS ? setup_take_axis(&board->setup, body, length, may_change, board->port->max_steps_per_second)
                                   : setup_take_head(&board->setup, body, length, may_change);
    if (answer == ANSWER_NONE) {
        moves_doubt(board);
        store_drop(board); /* its head would be of two machines */
        run_end(board); /* records that are in the queue were meant for another machine */
    }
    return answer;
}

static uint8_t read_store(bridge *board, const uint8_t *body, uint8_t length)
{
    if (length != STORE_READ_LENGTH || body[2] < 1 || body[2] > STORED_MAX)
        return ANSWER_BAD_VALUE;
    uint8_t answer = store_find(board);
    if (answer != ANSWER_NONE)
        return answer;
    uint16_t offset = get_u16(body);
    if (offset >= board->store.image_length || body[2] > board->store.image_length - offset)
        return ANSWER_BAD_VALUE;
    board->stored_offset = offset;
    board->stored_count = body[2];
    return ANSWER_NONE;
}

static uint8_t begin_stored(bridge *board, const uint8_t *body, uint8_t length)
{
    if (length != 2 || get_u16(body) == 0)
        return ANSWER_BAD_VALUE;
    return run_begin_stored(board, get_u16(body));
}

static uint8_t execute(bridge *board, uint8_t type, const uint8_t *body, uint8_t length)
{
    switch (type) {
    case MESSAGE_SET_MACHINE:
    case MESSAGE_SET_AXIS:
    case MESSAGE_SET_HEAD:
        return set_part(board, type, body, length);
    case MESSAGE_BEGIN:
        return run_begin(board, body, length);
    case MESSAGE_COMMAND:
        if (length != 1 || body[0] < COMMAND_RESET || body[0] > COMMAND_COMPLETE)
            return ANSWER_BAD_VALUE;
        return control_command(board, body[0]);
    case MESSAGE_RECORDS:
        return run_take(board, body, length);
    case MESSAGE_STORE_BEGIN:
        return store_begin(board, body, length);
    case MESSAGE_STORE_DATA:
        return store_data(board, body, length);
    case MESSAGE_STORE_COMMIT:
        return store_commit(board, body, length);
    case MESSAGE_STORE_READ:
        return read_store(board, body, length);
    case MESSAGE_BEGIN_STORED:
        return begin_stored(board, body, length);
    case MESSAGE_REFERENCE_READ:
        board->references_are_due = length == 0;
        return length == 0 ? ANSWER_NONE : ANSWER_BAD_VALUE;
    default:
        return ANSWER_UNKNOWN_MESSAGE;
    }
}

static void hear_numbered(bridge *board, uint8_t type, uint8_t number, const uint8_t *body, uint8_t length)
{
    if (link_accept(&board->link, number) != LINK_NEW)
        return;
    uint8_t answer = execute(board, type, body, length);
    if (type == MESSAGE_RECORDS && answer == ANSWER_NONE)
        return;
    board->answer_number = number;
    board->answer = answer;
}

void board_hear(bridge *board, const uint8_t *frame, uint8_t length)
{
    uint8_t type = frame[0];
    uint8_t number = frame[2];
    const uint8_t *body = frame + HEADER;
    length = (uint8_t)(length - HEADER);
    if (type == MESSAGE_HELLO) {
        hear_hello(board, body, length);
        return;
    }
    bool is_jog = type == MESSAGE_JOG;
    bool is_unnumbered = type == MESSAGE_BEAT || is_jog;
    if (type == 0 || type > MESSAGE_LAST_FROM_HOST || !link_holds(&board->link, frame[1]))
        return;
    if (is_unnumbered && length != (is_jog ? JOG_LENGTH : 0))
        return;
    if (is_jog && (body[0] >= SETUP_AXES || body[1] > 1))
        return;
    board->heard_ms = board->now_ms;
    board->status_is_due = true;
    if (!is_unnumbered) {
        hear_numbered(board, type, number, body, length);
        return;
    }
    link_hear_next(&board->link, number);
    if (is_jog)
        jog_hear(board, body);
}
