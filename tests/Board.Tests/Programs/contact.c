/* D2 is a normally closed contact with the chip's pull-up: open reads high. An opening lowers B0 in an interrupt; B1 follows
 * the level all the time, and D7 is written all the time, which must not disturb the input beside it. */
#include <avr/interrupt.h>
#include <avr/io.h>

ISR(INT0_vect)
{
    PORTB &= (uint8_t)~_BV(0);
}

int main(void)
{
    DDRB = _BV(0) | _BV(1);
    PORTB = _BV(0);
    DDRD = _BV(7);
    PORTD = _BV(2);
    EICRA = _BV(ISC01) | _BV(ISC00);
    EIFR = _BV(INTF0);
    EIMSK = _BV(INT0);
    sei();
    for (;;) {
        PIND = _BV(7);
        if ((PIND & _BV(2)) != 0)
            PORTB |= _BV(1);
        else
            PORTB &= (uint8_t)~_BV(1);
    }
}
