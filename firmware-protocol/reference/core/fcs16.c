#include "fcs16.h"

/* The eight shifts of one octet folded into four XORs: no table, few cycles on an 8-bit controller. The folding follows from
 * the polynomial's bits 15, 10 and 3 (8408); the tests compare it with eight single shifts. */
uint16_t fcs_update(uint16_t fcs, uint8_t octet)
{
    uint8_t low = (uint8_t)(octet ^ fcs);
    low = (uint8_t)(low ^ (low << 4));
    uint16_t wide = low;
    return (uint16_t)((uint16_t)((wide << 8) | (fcs >> 8)) ^ (wide >> 4) ^ (wide << 3));
}
