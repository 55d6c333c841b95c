/* The receive interrupt's side of the line: the watch for STOP, and a ring of octets for the main loop. */
#ifndef BRIDGE_RECEIVE_H
#define BRIDGE_RECEIVE_H

#include <stdbool.h>
#include <stdint.h>

#include "frame.h"

enum { RECEIVE_RING = 256, RECEIVE_FULL = 255 }; /* places, as many as an octet tells apart, and how many of them are in use at most */

typedef struct {
    uint8_t before;        /* the interrupt's: the octet before this one */
    bool lost;             /* the interrupt's: octets were lost since the last one in the ring */
    volatile uint8_t head; /* the main loop takes here */
    volatile uint8_t tail; /* the interrupt puts here */
    volatile bool stop_is_ahead; /* a STOP has come that the main loop has not got to: set by the interrupt, cleared by the main loop (pass_stop) */
    volatile uint8_t stop_end;   /* the interrupt's: the place in the ring behind the last STOP */
    uint8_t ring[RECEIVE_RING];
} bridge_receive;

/* Interrupt: takes an octet; true where it says STOP. */
bool receive_octet(bridge_receive *receive, uint8_t octet);

/* Interrupt: an octet was lost or misread. */
void receive_error(bridge_receive *receive);

/* Main loop: decodes octets, the oldest first, until one ends a frame or as many as `most` are done, which is counted down. */
frame_event receive_decode(bridge_receive *receive, frame_decoder *decoder, uint8_t *most);

#endif
