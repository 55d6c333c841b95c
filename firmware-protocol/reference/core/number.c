#include "number.h"

static uint32_t shifted_ratio(uint32_t numerator, uint16_t denominator, int8_t shift)
{
    uint32_t ratio = numerator / denominator;
    uint32_t rest = numerator - ratio * denominator;
    for (; shift < 0 && ratio != 0; shift++)
        ratio >>= 1;
    for (; shift > 0; shift--) {
        if ((ratio & 0x80000000u) != 0)
            return UINT32_MAX;
        ratio <<= 1;
        rest <<= 1;
        if (rest >= denominator) {
            rest -= denominator;
            ratio |= 1;
        }
    }
    return ratio;
}

uint32_t number_ratio(uint32_t numerator, uint32_t denominator, int8_t shift)
{
    if (numerator == 0)
        return 0;
    for (; (numerator & 0x80000000u) == 0; shift--)
        numerator <<= 1;
    for (; denominator > UINT16_MAX; shift--)
        denominator >>= 1;
    return shifted_ratio(numerator, (uint16_t)denominator, shift);
}

uint32_t number_root(uint32_t number)
{
    uint8_t up = 16;
    uint16_t root = 0;
    if (number == 0)
        return 0;
    for (; number < 0x40000000u; up--)
        number <<= 2;
    for (uint16_t bit = 0x8000; bit != 0; bit >>= 1) {
        uint16_t next = root | bit;
        if ((uint32_t)next * next <= number)
            root = next;
    }
    return (uint32_t)root << up;
}
