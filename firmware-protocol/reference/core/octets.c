#include "octets.h"

uint16_t get_u16(const uint8_t *from)
{
    return (uint16_t)((uint16_t)(from[0] << 8) | from[1]);
}

uint32_t get_u32(const uint8_t *from)
{
    return ((uint32_t)get_u16(from) << 16) | get_u16(from + 2);
}

/* The conversion is spelled out because a cast of a value beyond INT32_MAX is implementation-defined (C99, 6.3.1.3). */
int32_t get_i32(const uint8_t *from)
{
    uint32_t value = get_u32(from);
    return value <= INT32_MAX ? (int32_t)value : -(int32_t)(UINT32_MAX - value) - 1;
}

uint8_t *put_u8(uint8_t *to, uint8_t value)
{
    *to = value;
    return to + 1;
}

uint8_t *put_u16(uint8_t *to, uint16_t value)
{
    return put_u8(put_u8(to, (uint8_t)(value >> 8)), (uint8_t)value);
}

uint8_t *put_u32(uint8_t *to, uint32_t value)
{
    return put_u16(put_u16(to, (uint16_t)(value >> 16)), (uint16_t)value);
}
