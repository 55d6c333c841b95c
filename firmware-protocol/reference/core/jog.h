/* Jogging, hold-to-run (SPEC.md, section 10): each jog message is leave to move for a short time, no more. */
#ifndef BRIDGE_JOG_H
#define BRIDGE_JOG_H

#include <stdbool.h>
#include <stdint.h>

struct bridge;

enum { JOG_LENGTH = 2, JOG_LEAVE_MS = 40 };

typedef struct {
    bool is_busy;
    bool takes_up;     /* play, before it moves */
    bool is_returning; /* to where the state left the carriage; needs no leave */
    bool is_off;       /* the carriage is not where the state left it */
    uint8_t axis;
    bool up;
    uint32_t given_ms; /* when leave was given last */
    int32_t origin[3]; /* where the state left the carriage */
} bridge_jog;

/* Hears the body of a jog message, JOG_LENGTH octets; one that is not allowed is ignored. */
void jog_hear(struct bridge *board, const uint8_t *body);

/* Goes on; true while the carriage moves. */
bool jog_poll(struct bridge *board);

/* Takes the leave away. */
void jog_stop(struct bridge *board);

/* Begins to go back to where the state left the carriage; false where it is there. Only while nothing is being done. */
bool jog_return(struct bridge *board);

#endif
