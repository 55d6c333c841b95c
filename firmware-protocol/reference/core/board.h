/* All that a board remembers, and what its parts ask of one another. A port needs none of it but the size. */
#ifndef BRIDGE_BOARD_H
#define BRIDGE_BOARD_H

#include <stdbool.h>
#include <stdint.h>

#include "../ports/port.h"
#include "acts.h"
#include "button.h"
#include "frame.h"
#include "jog.h"
#include "link.h"
#include "moves.h"
#include "queue.h"
#include "receive.h"
#include "reference.h"
#include "run.h"
#include "setup.h"
#include "states.h"
#include "steps.h"
#include "store.h"
#include "words.h"

/* What is used most comes first: an 8-bit controller reaches the first octets of a struct with shorter instructions. */
typedef struct bridge {
    const bridge_port *port;
    volatile uint8_t halted; /* why nothing may move, a CAUSE_; set anywhere, cleared by the main loop in Clearing */

    /* The main loop's alone. */
    uint8_t state;
    uint8_t cause;
    uint8_t answer_number;
    uint8_t answer;
    bool status_is_due;
    bool welcome_is_due;
    bool references_are_due;
    uint8_t welcome_number;
    uint16_t welcome_token;
    uint8_t stored_count; /* octets of the store that are to be sent, 0 for none */
    uint16_t stored_offset;
    uint32_t now_ms;
    uint32_t heard_ms;     /* when a good frame of the session came last */
    uint32_t told_ms;      /* when a Status was last begun */
    uint32_t suspended_ms; /* since when the queue has been empty in Suspended */
    bridge_link link;
    bridge_run run;
    bridge_acts acts;
    bridge_moves moves;
    bridge_reference reference;
    bridge_jog jog;
    bridge_button button;
    bridge_store store;
    bridge_setup setup;
    frame_encoder encoder;
    frame_decoder decoder;
    bridge_queue queue;

    /* The interrupts' and the main loop's. */
    bridge_steps steps;
    bridge_receive receive;
} bridge;

/* Stops at once from anywhere, interrupts included: no step after this, drivers off. */
void board_halt(bridge *board, uint8_t cause);

/* A frame of the host's. */
void board_hear(bridge *board, const uint8_t *frame, uint8_t length);

/* Sends what is due as far as the line takes it. */
void board_tell(bridge *board);

/* Carries out a command or refuses it, an ANSWER_. */
uint8_t control_command(bridge *board, uint8_t command);

/* Enters a state, with a cause. */
void control_enter(bridge *board, uint8_t state, uint8_t cause);

/* Goes on with what the present state does. */
void control_poll(bridge *board);

/* A controlled stop for the line's sake, if the state needs the line. */
void control_stop_for_line(bridge *board, uint8_t cause);

#endif
