/* One run: how many records it has, how many were taken and done (SPEC.md, section 4, begin and status). */
#ifndef BRIDGE_RUN_H
#define BRIDGE_RUN_H

#include <stdbool.h>
#include <stdint.h>

struct bridge;

typedef struct {
    uint16_t id;    /* 0 before the first */
    bool has_ended;  /* the counters stay */
    bool from_store; /* its records come from lasting memory */
    uint32_t count;  /* UINT32_MAX while the end of the store has not been met */
    uint32_t taken;
    uint32_t limit; /* records may be sent whose index is below it */
    uint32_t done;
} bridge_run;

/* A run that takes records: begun and not ended. */
bool run_is_open(const bridge_run *run);

/* Each takes a body and gives an ANSWER_. */
uint8_t run_begin(struct bridge *board, const uint8_t *body, uint8_t length);
uint8_t run_take(struct bridge *board, const uint8_t *body, uint8_t length);

uint8_t run_begin_stored(struct bridge *board, uint16_t id);

/* The octets of the next record, NULL where none is there now. They stand until the next call. */
const uint8_t *run_next(struct bridge *board);

/* Grants what the queue has room for; the limit never falls. */
void run_grant(struct bridge *board);

/* Ends the run; what is left of it is dropped. */
void run_end(struct bridge *board);

#endif
