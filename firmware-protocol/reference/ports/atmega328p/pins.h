/*
 * Where everything is connected to an ATmega328P at 16 MHz. Change it here and nowhere else; what must stay together is said.
 *
 *  B0 B1 B2   out  step X, Y, Z: a step at the rising edge. One port, in this order: the bits are BRIDGE_AXIS_ bits.
 *  B3         out  head a: a servo's pulse for a pen (timer 2, output A), a level for a dot, high where it works.
 *                  For a dot it wants a resistor of 10 kilohms to ground: in a reset and in a boot loader the pin drives nothing.
 *  C1 C2 C3   in   endstops X, Y, Z: contacts to ground, normally closed. High: reached, or a wire is cut.
 *  C4         in   start button: a contact to ground, normally open. Low: pressed.
 *                  C1 to C4 are one port, in this order: the bits are BRIDGE_INPUT_ bits.
 *  D0 D1           serial line: receives, sends
 *  D2         in   e-stop: a second contact to ground, normally closed, on interrupt INT0. High: open, or a wire is cut.
 *  D3         out  head b, as head a, its resistor too (timer 2, output B)
 *  D4         out  drivers' enable, low: on. It wants a resistor to +5 V of its own: in a reset the pin drives nothing.
 *  D5 D6 D7   out  direction X, Y, Z, high: up. One port, in this order.
 *
 * B4, B5 and C0, C5 are free. Inputs have the chip's own pull-ups; long wires want stronger ones (common practice: 1 to 4.7 kilohms) and
 * a capacitor of 10 to 100 nF to ground against noise.
 */
#ifndef BRIDGE_PINS_H
#define BRIDGE_PINS_H

#include <avr/io.h>
#include <stdint.h>

#include "../port.h"

#define PIN_STEPS (_BV(0) | _BV(1) | _BV(2)) /* port B */
#define PIN_HEAD_A _BV(3)                    /* port B */
#define PIN_CONTACTS (_BV(1) | _BV(2) | _BV(3) | _BV(4)) /* port C */
#define PIN_E_STOP _BV(2)                    /* port D */
#define PIN_HEAD_B _BV(3)                    /* port D */
#define PIN_DISABLE _BV(4)                   /* port D */
#define PIN_UP_SHIFT 5                       /* port D */

/* The inputs at this moment, BRIDGE_INPUT_ bits. */
static inline uint8_t pins_read(void)
{
    uint8_t inputs = (uint8_t)((PINC & PIN_CONTACTS) ^ BRIDGE_INPUT_START);
    if ((PIND & PIN_E_STOP) != 0)
        inputs |= BRIDGE_INPUT_E_STOP;
    return inputs;
}

/* Drivers off, nothing steps, heads at rest, pull-ups on. */
void pins_begin(void);

void pins_enable(void *context);
void pins_directions(void *context, uint8_t up);
uint8_t pins_inputs(void *context);

#endif
