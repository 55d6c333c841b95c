/* The receive interrupt's side of the line: the watch for STOP, and a ring of octets for the main loop. */
#ifndef BRIDGE_RECEIVE_H
#define BRIDGE_RECEIVE_H

#include <stdbool.h>
#include <stdint.h>

enum { RECEIVE_RING = 128 }; /* a power of two */

typedef struct {
    uint8_t before;        /* the interrupt's: the octet before this one */
    bool lost;             /* the interrupt's: octets were lost since the last one in the ring */
    volatile uint8_t head; /* the main loop takes here */
    volatile uint8_t tail; /* the interrupt puts here */
    uint8_t ring[RECEIVE_RING];
} bridge_receive;

/* Interrupt: takes an octet; true where it says STOP. */
bool receive_octet(bridge_receive *receive, uint8_t octet);

/* Interrupt: an octet was lost or misread. */
void receive_error(bridge_receive *receive);

/* Main loop: the oldest octet; false where there is none. */
bool receive_take(bridge_receive *receive, uint8_t *octet);

#endif
