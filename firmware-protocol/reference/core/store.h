/*
 * A job in lasting memory, with the machine that it is for (SPEC.md, section 10).
 *
 * Two slots of half the memory each. A job is written into the slot that does not hold the newest good one, whose first octet is
 * erased before and written last; so whenever the power fails there is the old job or the new one.
 *
 *   0  signature B7 4A      2  format 1      3  generation      4  octets of the image (2)
 *   6  the bodies of set_machine (21), set_axis (3 x 24), set_head (2 x 14)
 * 127  image                then the check sequence of all before it, low octet first
 */
#ifndef BRIDGE_STORE_H
#define BRIDGE_STORE_H

#include <stdbool.h>
#include <stdint.h>

#include "setup.h"

struct bridge;

enum {
    STORE_SETUP = 6,
    STORE_IMAGE = STORE_SETUP + SETUP_LENGTH,
    STORE_OVERHEAD = STORE_IMAGE + 2,
    STORE_DATA_MAX = 55
};

typedef struct {
    /* Writing: octets of the image on their way to lasting memory. */
    uint8_t pending[STORE_DATA_MAX];
    uint8_t pending_count;
    uint8_t pending_next;
    uint8_t phase;
    uint8_t slot;       /* that is written, 0 or 1 */
    uint8_t generation;
    uint16_t length;    /* of the image that is written */
    uint16_t taken;     /* octets of it taken */
    uint16_t address;   /* of the next write */
    uint16_t fcs;       /* over what has been written */

    /* Reading a run's records. */
    uint16_t image;     /* address */
    uint16_t image_length;
    uint16_t next;      /* offset of the next record */
    bool is_repeating;
    uint32_t repeats_left;
} bridge_store;

/* Octets that an image may have; 0 where there is no store. */
uint16_t store_bytes(const struct bridge *board);

/* Each takes a body and gives an ANSWER_. */
uint8_t store_begin(struct bridge *board, const uint8_t *body, uint8_t length);
uint8_t store_data(struct bridge *board, const uint8_t *body, uint8_t length);
uint8_t store_commit(struct bridge *board, const uint8_t *body, uint8_t length);

/* Goes on writing, an octet at a time. */
void store_poll(struct bridge *board);

/* Finds the newest good job: ANSWER_NONE, or why there is none. */
uint8_t store_find(struct bridge *board);

/* After store_find: whether it is for the machine that has been told, and is made of good records. */
uint8_t store_check(struct bridge *board);

/* After store_find: takes the machine from the store. */
void store_take_setup(struct bridge *board);

/* After store_find: octets of the image. */
void store_octets(const struct bridge *board, uint16_t offset, uint8_t *octets, uint8_t count);

/* Drops a job that was begun and not committed. */
void store_drop(struct bridge *board);

/* After store_check: begins at the first record. What was begun and not committed is dropped. */
void store_rewind(struct bridge *board);

/* The next record with every `again` unrolled; false where the image has ended without `end`. */
bool store_next(struct bridge *board, uint8_t *octets);

#endif
