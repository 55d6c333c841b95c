/* What a host and an operator do with the store: write, read back, begin, and press the button. */
#ifndef BRIDGE_STORE_HOST_H
#define BRIDGE_STORE_HOST_H

#include <stdint.h>

#include "host.h"

/* Says a message again for as long as the store is busy; the last answer. */
uint8_t say_patiently(test_host *host, uint8_t type, const uint8_t *body, uint8_t length);
uint8_t write_image(test_host *host, const uint8_t *image, uint16_t length);
uint8_t write_hex(test_host *host, const char *hex);
uint8_t begin_stored(test_host *host, uint16_t run);
uint8_t read_back(test_host *host, uint16_t offset, uint8_t count);

/* One press of the start button. */
void press(test_host *host);
void wait_for_state(test_host *host, uint8_t state);
void run_by_button(test_host *host);

#endif
