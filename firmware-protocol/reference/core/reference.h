/* Finding the machine's zero: each axis to its endstop and back to the nearest cell, then home. Z first where its endstop is away
 * from the work, else last. */
#ifndef BRIDGE_REFERENCE_H
#define BRIDGE_REFERENCE_H

#include <stdbool.h>
#include <stdint.h>

#include "setup.h"

struct bridge;

typedef enum { REFERENCE_BUSY, REFERENCE_DONE, REFERENCE_FAILED } reference_step;

typedef struct {
    uint8_t turn;  /* which axis in the order, then the ways home */
    uint8_t phase;
    bool is_busy;
    uint8_t known;                /* BRIDGE_AXIS_ bits: axes that were referenced before, so that their count means something */
    uint8_t up;                   /* BRIDGE_AXIS_ bits: axes that had moved up last, which is the side that their play was on */
    int32_t counted[SETUP_AXES];  /* where the axis was by its count when its endstop closed; while that is sought, where it began */
} bridge_reference;

/* Begins; axes that are all referenced only go home. */
void reference_begin(struct bridge *board);

/* Begins the next move; only while none is being done. */
reference_step reference_next(struct bridge *board);

/* Goes on with the move at hand; true while it lasts. */
bool reference_poll(struct bridge *board);

/* A controlled stop of the move at hand. */
void reference_stop(struct bridge *board);

#endif
