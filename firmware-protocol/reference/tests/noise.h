/* A board under arbitrary octets, presses and faults; what must hold of it whatever comes. */
#ifndef BRIDGE_NOISE_H
#define BRIDGE_NOISE_H

#include <stddef.h>
#include <stdint.h>

/* Plays octets as a script of frames, raw octets, time and hands on a board; ends the process where a rule is broken. A bit for each
 * state that was seen, bit 1 << STATE_IDLE for Idle. */
uint32_t noise_play(const uint8_t *script, size_t length);

#endif
