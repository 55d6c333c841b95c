/* RFC 1662's 16-bit frame check sequence: CRC-16/IBM-SDLC, reflected polynomial 8408. */
#ifndef BRIDGE_FCS16_H
#define BRIDGE_FCS16_H

#include <stdint.h>

#define FCS_START 0xFFFFu
#define FCS_GOOD 0xF0B8u /* remainder over content and sequence (RFC 1662, appendix C.2) */

/* One octet further. The sequence itself is the complement of the last value, sent low octet first. */
uint16_t fcs_update(uint16_t fcs, uint8_t octet);

#endif
