#include "fcs16.h"

uint16_t fcs_update(uint16_t fcs, uint8_t octet)
{
    return fcs_next(fcs, octet);
}
