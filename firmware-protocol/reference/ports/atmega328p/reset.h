/* What happens before main: why the chip was reset, and a painted stack. */
#ifndef BRIDGE_RESET_H
#define BRIDGE_RESET_H

#include <stdint.h>

/* A BRIDGE_RESET_. Unknown where a boot loader has cleared the flags. */
uint8_t reset_reason(void);

#endif
