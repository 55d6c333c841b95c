/* A port to begin from: every function that a controller must give the core, with what it has to do. See PORTING.md. */
#ifndef BRIDGE_TEMPLATE_H
#define BRIDGE_TEMPLATE_H

#include "../../core/bridge.h"

typedef struct {
    bridge board;
    bridge_port port;
} template_port;

/* Sets up the pins with drivers off, then the board, then the interrupts. */
void template_begin(template_port *self, uint8_t reset_reason);

/* The main loop's turn; kick the watchdog after it and nowhere else. */
void template_turn(template_port *self, uint32_t now_ms);

/* Bodies of the four interrupts. */
void template_on_octet(template_port *self, uint8_t octet, bool was_misread);
void template_on_step_timer(template_port *self);
void template_on_e_stop(template_port *self);

#endif
