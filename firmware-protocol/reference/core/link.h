/* The device's side of the link (SPEC.md, section 5): the session, the order of messages, the gap. */
#ifndef BRIDGE_LINK_H
#define BRIDGE_LINK_H

#include <stdbool.h>
#include <stdint.h>

typedef enum { LINK_NEW, LINK_DUPLICATE, LINK_GAP } link_verdict;

typedef struct {
    uint16_t token;
    uint8_t expected; /* number of the next message */
    bool is_open;
    bool gap;
} bridge_link;

/* Opens a session; false where this one is open already. */
bool link_open(bridge_link *link, uint16_t token);

/* Whether a frame belongs to the open session. */
bool link_holds(const bridge_link *link, uint8_t session);

/* What to make of a numbered message; a new one moves the session on. */
link_verdict link_accept(bridge_link *link, uint8_t number);

/* Hears the next number that the host will send. */
void link_hear_next(bridge_link *link, uint8_t next);

#endif
