/* Straight moves of the carriage, from where it is to a place (MOTION.md, sections 2, 3 and 7). Places in steps per axis. */
#ifndef BRIDGE_MOVES_H
#define BRIDGE_MOVES_H

#include <stdbool.h>
#include <stdint.h>

#include "ramp.h"
#include "setup.h"

struct bridge;

typedef enum { MOVE_NONE, MOVE_TAKE_UP, MOVE_STRAIGHT } move_kind;

typedef struct {
    int32_t place[SETUP_AXES]; /* where the carriage stands, or stood before the present move */
    uint8_t up;                /* BRIDGE_AXIS_ bits: axes that moved up last */
    uint8_t referenced;        /* BRIDGE_AXIS_ bits */
    uint8_t believed;          /* referenced before the machine was told again, and held by their motors since */
    bool is_running;           /* something has been begun and not settled */
    bool is_started;           /* its step timer too */
    bool keeps_place;          /* taking up play, or standing still */
    uint8_t axes;              /* those of the present move */
    uint32_t length;           /* its steps */
    uint32_t ahead;            /* steps that are to be planned ahead */
    bridge_ramp ramp;
} bridge_moves;

/* Begins to move towards a place. First comes the play of axes that turn, if there is any: call again when that is done. */
move_kind moves_begin(struct bridge *board, const int32_t place[SETUP_AXES]);

/* Begins to move one axis by some steps at its reference speed, until an endstop reads as wanted. */
void moves_seek(struct bridge *board, uint8_t axis, bool up, uint32_t length, bool until_reached);

/* Like moves_begin for one axis, at its reference speed or slower. */
move_kind moves_creep(struct bridge *board, uint8_t axis, int32_t place, uint32_t most_speed);

/* Takes up the play of the axes whose last move was not away from their endstop; false where there is none. */
bool moves_turn_away(struct bridge *board);

/* Stands still; 0 is the shortest time. */
void moves_stand(struct bridge *board, uint32_t ticks);

/* Plans ahead and notices the end; true while the move goes on. After the end the place is that of the carriage. */
bool moves_poll(struct bridge *board);

/* Steps of the present move that are made. */
uint32_t moves_done(const struct bridge *board);

/* Cuts the present move to a length from ramp_least up. Play is taken up to its end: half of it would be of no use. */
void moves_cut(struct bridge *board, uint32_t length);

/* Cuts standing still; the ticks that are left out. */
uint32_t moves_cut_stand(struct bridge *board);

/* Forgets the present move and every reference: after a halt the place is not known. */
void moves_drop(struct bridge *board);

/* Every axis is to be referenced again, though its motor has held its place. */
void moves_doubt(struct bridge *board);

/* Whether all axes of the machine are referenced. */
bool moves_are_referenced(const struct bridge *board);

#endif
