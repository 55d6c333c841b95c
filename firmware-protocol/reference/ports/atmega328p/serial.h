/* The serial line at 500 000 baud: octets in by interrupt, octets out from a ring. */
#ifndef BRIDGE_SERIAL_H
#define BRIDGE_SERIAL_H

#include <stdint.h>

void serial_begin(void);

uint8_t serial_room(void *context);
void serial_put(void *context, uint8_t octet);

#endif
