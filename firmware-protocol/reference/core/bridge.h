/*
 * The whole of a board: the caller owns one struct bridge and calls these functions. No heap, no static data, no clock.
 *
 * Three kinds of caller. The receive interrupt calls bridge_receive_octet and bridge_receive_error, the step timer's
 * interrupt calls bridge_step and bridge_step_next, the e-stop input's interrupt calls bridge_e_stop. All else is the main
 * loop's. The step interrupt and the e-stop's run to their end; the receive interrupt may be interrupted by them, and by nothing
 * else. What an interrupt and the main loop share is marked in the structs; each such field has one writer, or is changed under
 * the port's lock, or says how its two writers agree.
 */
#ifndef BRIDGE_H
#define BRIDGE_H

#include "../ports/port.h"
#include "board.h"

#define BRIDGE_FIRMWARE_MAJOR 0
#define BRIDGE_FIRMWARE_MINOR 1

/* Begins from the beginning: Aborted, drivers off, nothing known of the machine. The port outlives the board. */
void bridge_init(bridge *board, const bridge_port *port);

/* The main loop's turn: reads frames, goes through states, plans motion, answers. Call it at least every 2 ms and as often as
 * there is time. now_ms counts milliseconds from anywhere and may wrap. */
void bridge_poll(bridge *board, uint32_t now_ms);

/* An octet from the line, in the receive interrupt. STOP is acted on here. */
void bridge_receive_octet(bridge *board, uint8_t octet);

/* The receiver lost or misread an octet: the frame it was in is spoiled. */
void bridge_receive_error(bridge *board);

/* The e-stop input has opened. Also call it if the input is open when its interrupt is first enabled. */
void bridge_e_stop(bridge *board);

/* First thing in the step timer's interrupt: the axes that step now, BRIDGE_AXIS_ bits, 0 for none. The inputs are those of
 * this moment; the port makes the pulses at once. */
uint8_t bridge_step(bridge *board, uint8_t inputs);

/* After the pulses, in the same interrupt: ticks from this interrupt to the next, or 0 where the timer stops. */
uint16_t bridge_step_next(bridge *board);

#endif
