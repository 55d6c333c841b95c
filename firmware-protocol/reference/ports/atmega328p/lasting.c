#include "lasting.h"

#include <avr/io.h>
#include <util/atomic.h>

bool lasting_busy(void *context)
{
    (void)context;
    return (EECR & _BV(EEPE)) != 0;
}

/* A write at hand would spoil a read: it is waited for, but for no longer than it takes. */
uint8_t lasting_read(void *context, uint16_t address)
{
    while (lasting_busy(context))
        ;
    EEAR = address;
    EECR |= _BV(EERE);
    return EEDR;
}

/* The second bit must follow within four cycles of the first. */
void lasting_write(void *context, uint16_t address, uint8_t octet)
{
    (void)context;
    EEAR = address;
    EEDR = octet;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        EECR = _BV(EEMPE);
        EECR |= _BV(EEPE);
    }
}
