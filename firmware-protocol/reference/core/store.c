#include "store.h"

#include <string.h>

#include "apart.h"
#include "board.h"
#include "fcs16.h"
#include "octets.h"

enum { SIGNATURE = 0xB7, SIGNATURE_2 = 0x4A, FORMAT = 1, ERASED = 0xFF };
enum { PHASE_NONE, PHASE_ERASE, PHASE_HEAD, PHASE_DATA, PHASE_FCS_LOW, PHASE_FCS_HIGH, PHASE_SIGN };

static const uint32_t most_records = 10000000; /* of one execution (JOB-FORMAT.md, section 2) */

static APART uint16_t slot_address(const bridge *board, uint8_t slot)
{
    return slot == 0 ? 0 : board->port->lasting_bytes / 2;
}

static uint8_t read(const bridge *board, uint16_t address)
{
    return board->port->lasting_read(board->port->context, address);
}

static void read_octets(const bridge *board, uint16_t address, uint8_t *octets, uint8_t count)
{
    for (uint8_t index = 0; index < count; index++)
        octets[index] = read(board, (uint16_t)(address + index));
}

static uint16_t read_u16(const bridge *board, uint16_t address)
{
    uint8_t octets[2];
    read_octets(board, address, octets, 2);
    return get_u16(octets);
}

uint16_t store_bytes(const bridge *board)
{
    uint16_t half = board->port->lasting_bytes / 2;
    return half > STORE_OVERHEAD ? (uint16_t)(half - STORE_OVERHEAD) : 0;
}

static uint8_t judge(const bridge *board, uint8_t slot)
{
    uint16_t start = slot_address(board, slot);
    uint8_t first = read(board, start);
    if (first == 0 || first == ERASED)
        return ANSWER_STORE_BLANK;
    if (first != SIGNATURE || read(board, (uint16_t)(start + 1)) != SIGNATURE_2 || read(board, (uint16_t)(start + 2)) != FORMAT)
        return ANSWER_STORE_FOREIGN;
    uint16_t length = read_u16(board, (uint16_t)(start + 4));
    if (length == 0 || length > store_bytes(board))
        return ANSWER_STORE_DAMAGED;
    uint16_t fcs = FCS_START;
    for (uint16_t offset = 0; offset < STORE_OVERHEAD + length; offset++)
        fcs = fcs_update(fcs, read(board, (uint16_t)(start + offset)));
    return fcs == FCS_GOOD ? ANSWER_NONE : ANSWER_STORE_DAMAGED;
}

/* Damage is told rather than foreign octets, and these rather than nothing. */
static uint8_t worse(uint8_t left, uint8_t right)
{
    if (left == ANSWER_STORE_DAMAGED || right == ANSWER_STORE_DAMAGED)
        return ANSWER_STORE_DAMAGED;
    return left == ANSWER_STORE_BLANK ? right : left;
}

static uint8_t generation(const bridge *board, uint8_t slot)
{
    return read(board, (uint16_t)(slot_address(board, slot) + 3));
}

/* The slot with the newest good job. Where there is none it is 1: the next job is written into the other one. A job in the other slot that is signed,
 * so written to its end, and not good must be the one before: else it is a newer one that is damaged, and the older one is not for running. */
static uint8_t newest(const bridge *board, uint8_t *slot)
{
    uint8_t answers[2] = {judge(board, 0), judge(board, 1)};
    bool first_is_newer = (uint8_t)(generation(board, 1) - generation(board, 0)) >= 128;
    *slot = answers[0] == ANSWER_NONE && (answers[1] != ANSWER_NONE || first_is_newer) ? 0 : 1;
    if (answers[*slot] != ANSWER_NONE)
        return worse(answers[0], answers[1]);
    uint8_t other = *slot ^ 1;
    bool is_signed = read(board, slot_address(board, other)) == SIGNATURE;
    bool is_before = (uint8_t)(generation(board, other) + 1) == generation(board, *slot);
    return answers[other] != ANSWER_NONE && is_signed && !is_before ? ANSWER_STORE_DAMAGED : ANSWER_NONE;
}

/* Between two messages of a job that is being written, memory is at rest. */
static bool is_busy(const bridge_store *store)
{
    return store->phase != PHASE_NONE && (store->phase != PHASE_DATA || store->pending_count > 0);
}

uint8_t store_find(bridge *board)
{
    bridge_store *store = &board->store;
    uint8_t slot;
    if (store_bytes(board) == 0)
        return ANSWER_STORE_BLANK;
    if (is_busy(store) || board->moves.is_running) /* both slots are judged, which takes longer than the steps that are planned ahead */
        return ANSWER_STORE_BUSY;
    uint8_t answer = newest(board, &slot);
    if (answer != ANSWER_NONE)
        return answer;
    uint16_t image = (uint16_t)(slot_address(board, slot) + STORE_IMAGE);
    if (image != store->image && board->run.from_store && run_is_open(&board->run))
        return ANSWER_STORE_DAMAGED; /* what the run reads was the newest job, and is no longer good */
    store->image = image;
    store->image_length = read_u16(board, (uint16_t)(slot_address(board, slot) + 4));
    return ANSWER_NONE;
}

/* Writing */

uint8_t store_begin(bridge *board, const uint8_t *body, uint8_t length)
{
    bridge_store *store = &board->store;
    uint8_t slot;
    if (length != 2 || get_u16(body) == 0)
        return ANSWER_BAD_VALUE;
    if (board->state != STATE_STOPPED && board->state != STATE_ABORTED && board->state != STATE_IDLE)
        return ANSWER_WRONG_STATE;
    if (!setup_is_complete(&board->setup))
        return ANSWER_NO_SETUP;
    if (get_u16(body) > store_bytes(board))
        return ANSWER_STORE_FULL;
    if (store->phase != PHASE_NONE && store->phase != PHASE_DATA)
        return ANSWER_STORE_BUSY;
    newest(board, &slot);
    store->slot = slot ^ 1;
    store->generation = (uint8_t)(generation(board, slot) + 1);
    store->length = get_u16(body);
    store->taken = 0;
    store->pending_count = 0;
    store->pending_next = 0;
    store->phase = PHASE_ERASE;
    run_end(board); /* its records may be those of the job that is replaced */
    return ANSWER_NONE;
}

uint8_t store_data(bridge *board, const uint8_t *body, uint8_t length)
{
    bridge_store *store = &board->store;
    if (length < 3 || length > 2 + STORE_DATA_MAX)
        return ANSWER_BAD_VALUE;
    uint8_t count = (uint8_t)(length - 2);
    if (store->phase == PHASE_NONE)
        return ANSWER_WRONG_STATE;
    if (store->phase != PHASE_DATA || store->pending_count > 0)
        return ANSWER_STORE_BUSY;
    if (get_u16(body) != store->taken)
        return ANSWER_INDEX_MISMATCH;
    if (count > store->length - store->taken)
        return ANSWER_STORE_FULL;
    memcpy(store->pending, body + 2, count);
    store->pending_count = count;
    store->pending_next = 0;
    store->taken = (uint16_t)(store->taken + count);
    return ANSWER_NONE;
}

/* Whether the octets just written are records of a job. */
static uint8_t check_image(const bridge *board, uint16_t image, uint16_t length, uint8_t axis_bits)
{
    uint8_t size = record_length(axis_bits);
    uint16_t clear = 0; /* records since the start or the last `again` */
    uint32_t total = 0;
    uint8_t octets[RECORD_MAX];
    bridge_record record;
    for (uint16_t offset = 0; offset + size <= length; offset = (uint16_t)(offset + size)) {
        read_octets(board, (uint16_t)(image + offset), octets, size);
        if (!record_read(&record, octets, axis_bits))
            return ANSWER_BAD_RECORD;
        if (record.verb == VERB_END)
            return ANSWER_NONE;
        total++;
        clear++;
        if (total > most_records)
            return ANSWER_BAD_RECORD;
        if (record.verb == VERB_AGAIN) {
            uint32_t reach = record_xy(&record, axis_bits) + 1;
            uint32_t times = record_pq(&record, axis_bits) + 1;
            if (reach >= clear || times > (most_records - total) / reach)
                return ANSWER_BAD_RECORD;
            total += reach * times;
            clear = 0;
        }
    }
    return total > 0 ? ANSWER_NONE : ANSWER_BAD_RECORD;
}

uint8_t store_commit(bridge *board, const uint8_t *body, uint8_t length)
{
    bridge_store *store = &board->store;
    if (length != 2)
        return ANSWER_BAD_VALUE;
    if (store->phase == PHASE_NONE)
        return ANSWER_WRONG_STATE;
    if (store->phase != PHASE_DATA || store->pending_count > 0)
        return ANSWER_STORE_BUSY;
    if (store->taken != store->length)
        return ANSWER_INDEX_MISMATCH;
    uint16_t image = (uint16_t)(slot_address(board, store->slot) + STORE_IMAGE);
    uint16_t fcs = FCS_START;
    for (uint16_t offset = 0; offset < store->length; offset++)
        fcs = fcs_update(fcs, read(board, (uint16_t)(image + offset)));
    uint16_t sequence = (uint16_t)~fcs;
    if (sequence != get_u16(body))
        return ANSWER_STORE_DAMAGED;
    uint8_t answer = check_image(board, image, store->length, board->setup.axis_bits);
    if (answer == ANSWER_NONE)
        store->phase = PHASE_FCS_LOW;
    return answer;
}

static void write(bridge *board, uint8_t octet)
{
    bridge_store *store = &board->store;
    store->fcs = fcs_update(store->fcs, octet);
    board->port->lasting_write(board->port->context, store->address++, octet);
}

/* An octet of the header and of the machine, by its place in the slot. */
static uint8_t head_octet(const bridge *board, uint16_t offset)
{
    const bridge_store *store = &board->store;
    switch (offset) {
    case 1:
        return SIGNATURE_2;
    case 2:
        return FORMAT;
    case 3:
        return store->generation;
    case 4:
        return (uint8_t)(store->length >> 8);
    case 5:
        return (uint8_t)store->length;
    default:
        return board->setup.octets[offset - STORE_SETUP];
    }
}

static void write_head(bridge *board)
{
    bridge_store *store = &board->store;
    uint16_t offset = (uint16_t)(store->address - slot_address(board, store->slot));
    write(board, head_octet(board, offset));
    if (offset + 1 == STORE_IMAGE)
        store->phase = PHASE_DATA;
}

static void write_data(bridge *board)
{
    bridge_store *store = &board->store;
    if (store->pending_count == 0)
        return;
    write(board, store->pending[store->pending_next++]);
    if (store->pending_next == store->pending_count)
        store->pending_count = 0;
}

void store_poll(bridge *board)
{
    bridge_store *store = &board->store;
    const bridge_port *port = board->port;
    if (store->phase == PHASE_NONE || port->lasting_busy(port->context))
        return;
    uint16_t start = slot_address(board, store->slot);
    switch (store->phase) {
    case PHASE_ERASE:
        port->lasting_write(port->context, start, ERASED);
        store->fcs = fcs_update(FCS_START, SIGNATURE);
        store->address = (uint16_t)(start + 1);
        store->phase = PHASE_HEAD;
        break;
    case PHASE_HEAD:
        write_head(board);
        break;
    case PHASE_DATA:
        write_data(board);
        break;
    case PHASE_FCS_LOW:
        port->lasting_write(port->context, store->address++, (uint8_t)~store->fcs);
        store->phase = PHASE_FCS_HIGH;
        break;
    case PHASE_FCS_HIGH:
        port->lasting_write(port->context, store->address, (uint8_t)(~store->fcs >> 8));
        store->phase = PHASE_SIGN;
        break;
    default:
        port->lasting_write(port->context, start, SIGNATURE);
        store->phase = PHASE_NONE;
        break;
    }
}

/* Reading */

void store_octets(const bridge *board, uint16_t offset, uint8_t *octets, uint8_t count)
{
    read_octets(board, (uint16_t)(board->store.image + offset), octets, count);
}

static void read_setup_part(const bridge *board, uint8_t offset, uint8_t length, uint8_t *body)
{
    read_octets(board, (uint16_t)(board->store.image - STORE_IMAGE + STORE_SETUP + offset), body, length);
}

uint8_t store_check(bridge *board)
{
    const bridge_store *store = &board->store;
    uint8_t machine[SETUP_MACHINE];
    read_setup_part(board, 0, SETUP_MACHINE, machine);
    if (machine[0] != board->setup.axis_bits || memcmp(setup_digest(machine), setup_digest(board->setup.octets), SETUP_DIGEST) != 0)
        return ANSWER_STORE_FOREIGN;
    return check_image(board, store->image, store->image_length, board->setup.axis_bits);
}

void store_take_setup(bridge *board)
{
    uint8_t body[SETUP_AXIS];
    read_setup_part(board, 0, SETUP_MACHINE, body);
    setup_take_machine(&board->setup, body, SETUP_MACHINE, true);
    for (uint8_t axis = 0; axis < board->setup.axes; axis++) {
        read_setup_part(board, (uint8_t)(SETUP_AXES_START + axis * SETUP_AXIS), SETUP_AXIS, body);
        setup_take_axis(&board->setup, body, SETUP_AXIS, true, board->port->max_steps_per_second);
    }
    for (uint8_t head = 0; head < board->setup.heads; head++) {
        read_setup_part(board, (uint8_t)(SETUP_HEADS_START + head * SETUP_HEAD), SETUP_HEAD, body);
        setup_take_head(&board->setup, body, SETUP_HEAD, true);
    }
}

void store_drop(bridge *board)
{
    if (board->store.phase <= PHASE_DATA)
        board->store.phase = PHASE_NONE;
}

void store_rewind(bridge *board)
{
    store_drop(board);
    board->store.next = 0;
    board->store.is_repeating = false;
}

/* Where an `again` leads: back, or on once its repeats are done. */
static void follow_again(bridge *board, const bridge_record *again, uint8_t size)
{
    bridge_store *store = &board->store;
    uint8_t bits = board->setup.axis_bits;
    if (!store->is_repeating) {
        store->is_repeating = true;
        store->repeats_left = record_pq(again, bits) + 1;
    }
    if (store->repeats_left == 0) {
        store->is_repeating = false;
        store->next = (uint16_t)(store->next + size);
        return;
    }
    store->repeats_left--;
    store->next = (uint16_t)(store->next - (record_xy(again, bits) + 1) * size);
}

bool store_next(bridge *board, uint8_t *octets)
{
    bridge_store *store = &board->store;
    uint8_t size = record_length(board->setup.axis_bits);
    bridge_record record;
    while (store->next + size <= store->image_length) {
        store_octets(board, store->next, octets, size);
        if (!record_read(&record, octets, board->setup.axis_bits))
            return true; /* whoever reads it refuses it */
        if (record.verb != VERB_AGAIN) {
            store->next = (uint16_t)(store->next + size);
            return true;
        }
        follow_again(board, &record, size);
    }
    return false;
}
