/* Where a port keeps the function that is told of every worked cell. */
#include <stddef.h>

#include "port.h"

const uint16_t worked_offset = offsetof(bridge_port, worked);
