#include "record.h"

#include "apart.h"

uint8_t record_length(uint8_t axis_bits)
{
    return (uint8_t)(1 + axis_bits / 2);
}

/* Numbers are of one, two or three nibbles; the high nibble of an octet comes first. */
static uint16_t read_number(const uint8_t *octets, uint8_t *nibble, uint8_t nibbles)
{
    uint16_t number = 0;
    for (uint8_t end = (uint8_t)(*nibble + nibbles); *nibble < end; ++*nibble) {
        uint8_t octet = octets[*nibble / 2];
        number = (uint16_t)((number << 4) | (*nibble & 1 ? octet & 0x0F : octet >> 4));
    }
    return number;
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
    uint8_t nibble = 2;
    record->x = read_number(octets, &nibble, axis_bits / 4);
    record->y = read_number(octets, &nibble, axis_bits / 4);
    record->p = read_number(octets, &nibble, axis_bits / 4);
    record->q = read_number(octets, &nibble, axis_bits / 4);
    return is_valid(record);
}

APART uint32_t record_pq(const bridge_record *record, uint8_t axis_bits)
{
    return ((uint32_t)record->p << axis_bits) | record->q;
}

APART uint32_t record_xy(const bridge_record *record, uint8_t axis_bits)
{
    return ((uint32_t)record->x << axis_bits) | record->y;
}
