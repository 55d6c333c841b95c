/* The EEPROM, 1024 octets. A write takes 3.4 ms (DS40002061A, section 8.6.3) and is not waited for. */
#ifndef BRIDGE_LASTING_H
#define BRIDGE_LASTING_H

#include <stdbool.h>
#include <stdint.h>

enum { LASTING_BYTES = 1024 };

uint8_t lasting_read(void *context, uint16_t address);
void lasting_write(void *context, uint16_t address, uint8_t octet);
bool lasting_busy(void *context);

#endif
