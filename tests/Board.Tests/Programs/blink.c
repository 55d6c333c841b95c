/* Toggles B5 every 8000 cycles by timer 1, and shows at B0 to B3 why it was reset. */
#include <avr/interrupt.h>
#include <avr/io.h>

ISR(TIMER1_COMPA_vect)
{
    PINB = _BV(5);
}

int main(void)
{
    uint8_t cause = MCUSR;
    DDRB = _BV(5) | 0x0F;
    PORTB = cause & 0x0F;
    OCR1A = 999;
    TIMSK1 = _BV(OCIE1A);
    TCCR1B = _BV(WGM12) | _BV(CS11);
    sei();
    for (;;)
        ;
}
