/*
 * How a record is carried out: which act comes next (MOTION.md, sections 4 to 8).
 *
 * Nothing is planned in advance. What comes next follows from the record, the path that is left of it, where the carriage is and
 * whether the pen is down; so going on after a controlled stop is the same as going on.
 */
#ifndef BRIDGE_ACTS_H
#define BRIDGE_ACTS_H

#include <stdbool.h>
#include <stdint.h>

#include "path.h"
#include "record.h"

struct bridge;

typedef enum {
    ACTS_BUSY,        /* an act has been begun */
    ACTS_RECORD_DONE,
    ACTS_OPERATOR     /* the record holds until the operator goes on */
} acts_step;

enum {
    ACT_NONE,
    ACT_LIFT,
    ACT_RISE,
    ACT_CHANGE,
    ACT_TAKE_UP,
    ACT_IDLE_MOVE,
    ACT_LOWER,
    ACT_LEG,
    ACT_DOT_MOVE,
    ACT_DOT,
    ACT_WAIT
};

typedef struct {
    /* Where the job stands. */
    uint16_t x, y, layer;
    uint8_t head;

    /* The record at hand. */
    bool has_record;
    bool lifts;       /* the pen is lifted before anything else */
    bool cell_is_due; /* the cell that the path stands on is to be worked */
    bool works;       /* the approach is over */
    bool is_let_go;   /* no wait for the operator is due */
    uint8_t verb;
    uint8_t new_head;
    uint16_t new_layer;
    uint32_t wait_tenths; /* seconds / 10 that are still to be waited */
    uint32_t wait_ticks;  /* and ticks that a controlled stop has left over */
    uint32_t cells_done;
    bridge_path path;

    /* The act at hand. */
    uint8_t act;  /* ACT_NONE between acts */
    uint8_t last; /* the act before */
    bool stops;         /* a controlled stop has begun */
    uint16_t leg_cells; /* cells of the leg */
    uint16_t leg_cut;   /* how many of them are done before a controlled stop ends it */
    uint16_t leg_done;
    uint32_t leg_steps; /* steps of the whole leg */
    uint32_t leg_mark;  /* steps after which the next cell is worked */

    bool pen_is_down;   /* really */
    bool job_pen_down;  /* as far as the job goes: a controlled stop lifts the pen for a while */
} bridge_acts;

/* The start of a job, over the first cell: (0, 0) on layer 0 with head a. The cells that were counted stay. */
void acts_begin_run(struct bridge *board);

/* Takes a record that is valid; false where it leads off the grid or needs a head that is not there. */
bool acts_begin_record(struct bridge *board, const bridge_record *record);

/* Begins the next act of the record; only while none is being done. */
acts_step acts_next(struct bridge *board);

/* Goes on with the act at hand; true while it lasts. */
bool acts_poll(struct bridge *board);

/* Begins a controlled stop of the act at hand. */
void acts_stop(struct bridge *board);

/* In a controlled stop, after an act: begins what must still be done before it is complete; false where nothing is. */
bool acts_stop_next(struct bridge *board);

/* Forgets the act at hand and the cell that it was for: nothing of it is made up for by a later stop. */
void acts_drop(struct bridge *board);

/* Lifts the pen; false where it is up. */
bool acts_lift(struct bridge *board);

/* Whether the head works, or a pen is down. */
bool acts_work(const struct bridge *board);

/* Where the carriage stands for a cell, a layer and a head. */
void acts_place(const struct bridge *board, uint16_t x, uint16_t y, uint16_t layer, uint8_t head, int32_t place[3]);

#endif
