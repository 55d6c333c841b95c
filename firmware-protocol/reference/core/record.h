/* One record (JOB-FORMAT.md, sections 1 and 2). */
#ifndef BRIDGE_RECORD_H
#define BRIDGE_RECORD_H

#include <stdbool.h>
#include <stdint.h>

enum { VERB_END = 0, VERB_GO = 1, VERB_ROW = 2, VERB_PATCH = 3, VERB_LINE = 4, VERB_AGAIN = 5, VERB_WAIT = 6 };

enum { RECORD_MAX = 7 };

typedef struct {
    uint8_t verb;
    uint8_t head;
    uint8_t heading;
    bool rise;
    uint16_t x, y, p, q;
} bridge_record;

/* Octets of a record: 3, 5 or 7 for axis_bits 4, 8 or 12. */
uint8_t record_length(uint8_t axis_bits);

/* Reads a record; false where it is not valid (verb 7, a reserved bit). */
bool record_read(bridge_record *record, const uint8_t *octets, uint8_t axis_bits);

/* The numbers p and q, or x and y, as one. */
uint32_t record_pq(const bridge_record *record, uint8_t axis_bits);
uint32_t record_xy(const bridge_record *record, uint8_t axis_bits);

#endif
