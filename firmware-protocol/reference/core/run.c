#include "run.h"

#include <stddef.h>

#include "board.h"
#include "octets.h"

enum { BEGIN_LENGTH = 6, INDEX_LENGTH = 4, RECORDS_MAX = 59 };

bool run_is_open(const bridge_run *run)
{
    return run->id != 0 && !run->has_ended;
}

void run_grant(bridge *board)
{
    bridge_run *run = &board->run;
    if (run->has_ended || run->from_store)
        return;
    uint32_t left = run->count - run->taken;
    uint32_t room = (uint32_t)(QUEUE_RECORDS - board->queue.count);
    uint32_t limit = run->taken + (left < room ? left : room);
    if (limit > run->limit)
        run->limit = limit;
}

void run_end(bridge *board)
{
    board->run.has_ended = true;
    board->acts.has_record = false;
    board->acts.job_pen_down = false;
    queue_clear(&board->queue);
}

static void begin(bridge *board, uint16_t id, uint32_t count, bool from_store)
{
    bridge_run *run = &board->run;
    queue_clear(&board->queue);
    acts_begin_run(board);
    board->acts.cells_done = 0;
    run->id = id;
    run->has_ended = false;
    run->from_store = from_store;
    run->count = count;
    run->taken = 0;
    run->limit = 0;
    run->done = 0;
    run_grant(board);
}

uint8_t run_begin(bridge *board, const uint8_t *body, uint8_t length)
{
    if (length != BEGIN_LENGTH || get_u16(body) == 0 || get_u32(body + 2) == 0)
        return ANSWER_BAD_VALUE;
    if (board->state != STATE_IDLE)
        return ANSWER_WRONG_STATE;
    if (!moves_are_referenced(board))
        return ANSWER_NOT_REFERENCED;
    begin(board, get_u16(body), get_u32(body + 2), false);
    return ANSWER_NONE;
}

uint8_t run_begin_stored(bridge *board, uint16_t id)
{
    if (board->state != STATE_IDLE)
        return ANSWER_WRONG_STATE;
    if (!moves_are_referenced(board))
        return ANSWER_NOT_REFERENCED;
    uint8_t answer = store_find(board);
    if (answer == ANSWER_NONE)
        answer = store_check(board);
    if (answer != ANSWER_NONE)
        return answer;
    begin(board, id, UINT32_MAX, true);
    store_rewind(board);
    return ANSWER_NONE;
}

/* Records of a store are taken one by one as they are needed. */
static const uint8_t *next_stored(bridge *board)
{
    bridge_run *run = &board->run;
    uint8_t *octets = board->queue.octets[0];
    if (!store_next(board, octets)) {
        run->count = run->taken;
        return NULL;
    }
    run->taken++;
    run->limit = run->taken;
    return octets;
}

const uint8_t *run_next(bridge *board)
{
    if (board->run.from_store)
        return next_stored(board);
    const uint8_t *octets = queue_take(&board->queue);
    run_grant(board);
    return octets;
}

/* `again` is unrolled by the host, and `end` ends nothing but the run. */
static bool is_valid(const bridge *board, const uint8_t *octets, uint32_t index)
{
    bridge_record record;
    if (!record_read(&record, octets, board->setup.axis_bits) || record.verb == VERB_AGAIN)
        return false;
    return record.verb != VERB_END || index == board->run.count - 1;
}

static uint8_t check(const bridge *board, const uint8_t *octets, uint8_t length, uint32_t first)
{
    const bridge_run *run = &board->run;
    uint8_t size = record_length(board->setup.axis_bits);
    uint8_t count = (uint8_t)(length / size);
    if (length % size != 0)
        return ANSWER_BAD_VALUE;
    if (first != run->taken)
        return ANSWER_INDEX_MISMATCH;
    if (count > run->count - first)
        return ANSWER_BEYOND_RUN;
    if (count > run->limit - first)
        return ANSWER_QUEUE_OVERRUN;
    for (uint8_t index = 0; index < count; index++)
        if (!is_valid(board, octets + index * size, first + index))
            return ANSWER_BAD_RECORD;
    return ANSWER_NONE;
}

uint8_t run_take(bridge *board, const uint8_t *body, uint8_t length)
{
    bridge_run *run = &board->run;
    if (length <= INDEX_LENGTH || length > RECORDS_MAX)
        return ANSWER_BAD_VALUE;
    if (!run_is_open(run))
        return ANSWER_NO_RUN;
    uint8_t octets = (uint8_t)(length - INDEX_LENGTH);
    uint8_t answer = check(board, body + INDEX_LENGTH, octets, get_u32(body));
    if (answer != ANSWER_NONE)
        return answer;
    uint8_t size = record_length(board->setup.axis_bits);
    for (uint8_t offset = 0; offset < octets; offset = (uint8_t)(offset + size)) {
        queue_add(&board->queue, body + INDEX_LENGTH + offset, size);
        run->taken++;
    }
    run_grant(board);
    return ANSWER_NONE;
}
