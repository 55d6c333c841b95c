/*
 * What the core asks of a controller: its pins, its step timer, its serial line, its lasting memory.
 *
 * A port is a struct of functions and a context that each of them gets back. All are short and never wait. A port calls
 * the core as core/bridge.h says; PORTING.md goes through it function by function.
 */
#ifndef BRIDGE_PORT_H
#define BRIDGE_PORT_H

#include <stdbool.h>
#include <stdint.h>

/* Bits of the inputs, as a Status carries them (SPEC.md, section 4). All contacts are normally closed but for the button,
 * so a cut wire reads as an open e-stop or as an endstop reached. */
enum {
    BRIDGE_INPUT_E_STOP = 0x01,
    BRIDGE_INPUT_ENDSTOP_X = 0x02, /* Y is 0x04, Z is 0x08 */
    BRIDGE_INPUT_ENDSTOPS = 0x0E,
    BRIDGE_INPUT_START = 0x10,
    BRIDGE_INPUT_PINS = 0x1F
};

/* Bits of the axes in a step or a direction. */
enum { BRIDGE_AXIS_X = 0x01, BRIDGE_AXIS_Y = 0x02, BRIDGE_AXIS_Z = 0x04 };

/* Why the controller last began from the beginning (SPEC.md, section 4, welcome). */
enum {
    BRIDGE_RESET_UNKNOWN = 0,
    BRIDGE_RESET_POWER_ON = 1,
    BRIDGE_RESET_EXTERNAL = 2,
    BRIDGE_RESET_BROWN_OUT = 3,
    BRIDGE_RESET_WATCHDOG = 4
};

typedef struct bridge_port {
    void *context;

    uint32_t ticks_per_second;     /* of the step timer: 250 000 to 4 000 000, a multiple of 1000 */
    uint32_t max_steps_per_second; /* of one axis, whatever the others do */
    uint16_t lasting_bytes;        /* of lasting memory (EEPROM): 0, or 512 to 4096 */
    uint8_t reset_reason;

    /* Keeps the port's interrupts out until unlock; locks nest. Returns what unlock needs. */
    uint8_t (*lock)(void *context);
    void (*unlock)(void *context, uint8_t before);

    /* Octets that transmit takes now without waiting. */
    uint8_t (*transmit_room)(void *context);
    void (*transmit)(void *context, uint8_t octet);

    /* The inputs as they are at this moment, BRIDGE_INPUT_ bits. */
    uint8_t (*inputs)(void *context);

    /* Drivers on: the motors hold their place. */
    void (*enable)(void *context);

    /* From any interrupt: step timer stopped, drivers off, every head to rest (pen up, dot off). Takes a few microseconds. */
    void (*halt)(void *context);

    /* Bit set: that axis's next steps go up. Only while the step timer is stopped. */
    void (*directions)(void *context, uint8_t up);

    /* Head 0 or 1 works (a pen goes down, a dot is on) or rests. A pen's travel time is the core's business. */
    void (*head)(void *context, uint8_t head, bool is_pen, bool works);

    /* Calls bridge_step after so many ticks, once. Only while the step timer is stopped. */
    void (*start_steps)(void *context, uint16_t ticks);

    /* Lasting memory, address below lasting_bytes. write begins a write and is called only while not busy. */
    uint8_t (*lasting_read)(void *context, uint16_t address);
    void (*lasting_write)(void *context, uint16_t address, uint8_t octet);
    bool (*lasting_busy)(void *context);

    /* A cell has been worked; for a look at the machine from outside. NULL where nobody looks. */
    void (*worked)(void *context, uint8_t head, uint16_t x, uint16_t y, uint16_t layer);
} bridge_port;

#endif
