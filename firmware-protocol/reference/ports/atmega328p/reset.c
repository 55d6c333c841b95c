#include "reset.h"

#include <avr/io.h>
#include <avr/wdt.h>

#include "../port.h"

#define PAINT 0xC5 /* what memory holds that the stack never reached */

static uint8_t flags __attribute__((section(".noinit")));

/* After its bite the watchdog goes on at its shortest time, 16 ms, until its flag is cleared and it is switched off. */
__attribute__((naked, used, section(".init3"))) void reset_note_reason(void);
void reset_note_reason(void)
{
    flags = MCUSR;
    MCUSR = 0;
    wdt_disable();
}

/* From the end of static memory to the stack pointer. */
__attribute__((naked, used, section(".init5"))) void reset_paint_stack(void);
void reset_paint_stack(void)
{
    extern uint8_t _end;
    for (uint8_t *place = &_end; place < (uint8_t *)SP; place++)
        *place = PAINT;
}

/* Several flags may be set: power that comes on looks like the others too. */
uint8_t reset_reason(void)
{
    if ((flags & _BV(PORF)) != 0)
        return BRIDGE_RESET_POWER_ON;
    if ((flags & _BV(BORF)) != 0)
        return BRIDGE_RESET_BROWN_OUT;
    if ((flags & _BV(WDRF)) != 0)
        return BRIDGE_RESET_WATCHDOG;
    if ((flags & _BV(EXTRF)) != 0)
        return BRIDGE_RESET_EXTERNAL;
    return BRIDGE_RESET_UNKNOWN;
}
