/* The start button of a board that has no host: each press is one command, and none of them follows from another. */
#ifndef BRIDGE_BUTTON_H
#define BRIDGE_BUTTON_H

#include <stdbool.h>
#include <stdint.h>

struct bridge;

typedef struct {
    bool is_down;        /* as far as it is sure */
    bool was_up;         /* it has been seen up since the reset: a button that is stuck does nothing */
    bool reads_down;
    uint32_t changed_ms; /* since when it reads so */
} bridge_button;

/* Looks at the button; with no session open a press is acted on. */
void button_poll(struct bridge *board);

#endif
