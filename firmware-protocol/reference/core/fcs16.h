/* RFC 1662's 16-bit frame check sequence: CRC-16/IBM-SDLC, reflected polynomial 8408. */
#ifndef BRIDGE_FCS16_H
#define BRIDGE_FCS16_H

#include <stdint.h>

#define FCS_START 0xFFFFu
#define FCS_GOOD 0xF0B8u /* remainder over content and sequence (RFC 1662, appendix C.2) */

/* One octet further. The sequence itself is the complement of the last value, sent low octet first. */
uint16_t fcs_update(uint16_t fcs, uint8_t octet);

/* The same, inline. The eight shifts of one octet are folded into four XORs of halves: no table, few cycles on an 8-bit controller. The folding
 * follows from the polynomial's bits 15, 10 and 3 (8408); the tests compare it with eight single shifts. */
static inline uint16_t fcs_next(uint16_t fcs, uint8_t octet)
{
    uint8_t mix = (uint8_t)(octet ^ fcs);
    uint8_t swapped = (uint8_t)((mix << 4) | (mix >> 4)); /* one instruction */
    mix = (uint8_t)(mix ^ (swapped & 0xF0));
    uint8_t low = (uint8_t)((fcs >> 8) ^ (mix >> 4) ^ (uint8_t)(mix << 3));
    uint8_t high = (uint8_t)(mix ^ (mix >> 5));
    return (uint16_t)((uint16_t)(high << 8) | low);
}

#endif
