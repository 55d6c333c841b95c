/* Ratios and roots to 15 bits or better, in 32-bit arithmetic: what planning needs, in less code and time than floating point. */
#ifndef BRIDGE_NUMBER_H
#define BRIDGE_NUMBER_H

#include <stdint.h>

/* numerator / denominator * 2^shift, at most UINT32_MAX. Exact but for the last bit where the denominator has no more than 16 significant bits. The
 * denominator is above 0. */
uint32_t number_ratio(uint32_t numerator, uint32_t denominator, int8_t shift);

/* The square root times 65536. */
uint32_t number_root(uint32_t number);

#endif
