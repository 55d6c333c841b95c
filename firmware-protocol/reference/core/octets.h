/* Numbers in octets, most significant first. */
#ifndef BRIDGE_OCTETS_H
#define BRIDGE_OCTETS_H

#include <stdint.h>

uint16_t get_u16(const uint8_t *from);
uint32_t get_u32(const uint8_t *from);
int32_t get_i32(const uint8_t *from);

/* Each gives the place behind what it has put. */
uint8_t *put_u8(uint8_t *to, uint8_t value);
uint8_t *put_u16(uint8_t *to, uint16_t value);
uint8_t *put_u32(uint8_t *to, uint32_t value);

#endif
