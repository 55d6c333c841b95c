#include "record.h"

uint8_t record_length(uint8_t axis_bits)
{
    return (uint8_t)(1 + axis_bits / 2);
}

static void read_numbers(bridge_record *record, const uint8_t *octets, uint8_t axis_bits)
{
    switch (axis_bits) {
    case 4:
        record->x = octets[0] >> 4;
        record->y = octets[0] & 0x0F;
        record->p = octets[1] >> 4;
        record->q = octets[1] & 0x0F;
        break;
    case 8:
        record->x = octets[0];
        record->y = octets[1];
        record->p = octets[2];
        record->q = octets[3];
        break;
    default:
        record->x = (uint16_t)((octets[0] << 4) | (octets[1] >> 4));
        record->y = (uint16_t)(((octets[1] & 0x0F) << 8) | octets[2]);
        record->p = (uint16_t)((octets[3] << 4) | (octets[4] >> 4));
        record->q = (uint16_t)(((octets[4] & 0x0F) << 8) | octets[5]);
        break;
    }
}

/* Bits that a verb does not use are zero. */
static bool is_valid(const bridge_record *record)
{
    const bool no_pq = record->p == 0 && record->q == 0;
    const bool no_xy = record->x == 0 && record->y == 0;
    switch (record->verb) {
    case VERB_END:
        return record->head == 0 && record->heading == 0 && !record->rise && no_xy && no_pq;
    case VERB_GO:
    case VERB_LINE:
        return record->heading == 0 && no_pq;
    case VERB_ROW:
    case VERB_PATCH:
        return true;
    case VERB_AGAIN:
        return record->head == 0 && record->heading == 0 && !record->rise;
    case VERB_WAIT:
        return record->head == 0 && no_xy && (record->heading == 0 || (record->heading == 1 && no_pq));
    default:
        return false;
    }
}

bool record_read(bridge_record *record, const uint8_t *octets, uint8_t axis_bits)
{
    record->verb = octets[0] >> 5;
    record->head = (octets[0] >> 4) & 1;
    record->heading = (octets[0] >> 1) & 7;
    record->rise = (octets[0] & 1) != 0;
    read_numbers(record, octets + 1, axis_bits);
    return is_valid(record);
}

uint32_t record_pq(const bridge_record *record, uint8_t axis_bits)
{
    return ((uint32_t)record->p << axis_bits) | record->q;
}

uint32_t record_xy(const bridge_record *record, uint8_t axis_bits)
{
    return ((uint32_t)record->x << axis_bits) | record->y;
}
