/* The bounded queue of packed records. The main loop's alone. */
#ifndef BRIDGE_QUEUE_H
#define BRIDGE_QUEUE_H

#include <stdbool.h>
#include <stdint.h>

#include "record.h"

enum { QUEUE_RECORDS = 16 }; /* a power of two */

typedef struct {
    uint8_t octets[QUEUE_RECORDS][RECORD_MAX];
    uint8_t first;
    uint8_t count;
} bridge_queue;

/* Adds the octets of a record; only while count is below QUEUE_RECORDS. */
void queue_add(bridge_queue *queue, const uint8_t *octets, uint8_t length);

/* The oldest record's octets, then forgotten; NULL where there is none. They stand until the next queue_add. */
const uint8_t *queue_take(bridge_queue *queue);

void queue_clear(bridge_queue *queue);

#endif
