#include "pins.h"

void pins_begin(void)
{
    PORTD = PIN_E_STOP | PIN_DISABLE | _BV(0);
    DDRD = PIN_HEAD_B | PIN_DISABLE | (uint8_t)(7 << PIN_UP_SHIFT);
    PORTB = 0;
    DDRB = PIN_STEPS | PIN_HEAD_A;
    PORTC = PIN_CONTACTS;
    DDRC = 0;
}

void pins_enable(void *context)
{
    (void)context;
    PORTD &= (uint8_t)~PIN_DISABLE;
}

/* Bit by bit: what an interrupt does to the port's other pins between reading and writing it must not be undone. */
void pins_directions(void *context, uint8_t up)
{
    (void)context;
    if ((up & BRIDGE_AXIS_X) != 0)
        PORTD |= _BV(PIN_UP_SHIFT);
    else
        PORTD &= (uint8_t)~_BV(PIN_UP_SHIFT);
    if ((up & BRIDGE_AXIS_Y) != 0)
        PORTD |= _BV(PIN_UP_SHIFT + 1);
    else
        PORTD &= (uint8_t)~_BV(PIN_UP_SHIFT + 1);
    if ((up & BRIDGE_AXIS_Z) != 0)
        PORTD |= _BV(PIN_UP_SHIFT + 2);
    else
        PORTD &= (uint8_t)~_BV(PIN_UP_SHIFT + 2);
}

uint8_t pins_inputs(void *context)
{
    (void)context;
    return pins_read();
}
