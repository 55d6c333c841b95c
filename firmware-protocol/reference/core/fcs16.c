#include "fcs16.h"

/* The eight shifts of one octet folded into four XORs: no table, few cycles on an 8-bit controller, which shifts octets and not words. The folding
 * follows from the polynomial's bits 15, 10 and 3 (8408); the tests compare it with eight single shifts. */
uint16_t fcs_update(uint16_t fcs, uint8_t octet)
{
    uint8_t folded = (uint8_t)(octet ^ fcs);
    folded = (uint8_t)(folded ^ (folded << 4));
    uint8_t high = (uint8_t)(folded ^ (folded >> 5));
    uint8_t low = (uint8_t)((uint8_t)(fcs >> 8) ^ (uint8_t)(folded >> 4) ^ (uint8_t)(folded << 3));
    return (uint16_t)((high << 8) | low);
}

uint16_t fcs_of(const uint8_t *octets, uint8_t length)
{
    uint16_t fcs = FCS_START;
    while (length-- > 0)
        fcs = fcs_update(fcs, *octets++);
    return fcs;
}
