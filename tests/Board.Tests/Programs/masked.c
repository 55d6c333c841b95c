/* Masks the receive interrupt for 100 us, which B1 shows low; the interrupt raises B0. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/delay.h>

ISR(USART_RX_vect)
{
    PORTB |= _BV(0);
    (void)UDR0;
    PORTB &= (uint8_t)~_BV(0);
}

int main(void)
{
    DDRB = _BV(0) | _BV(1);
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UBRR0 = 3;
    UCSR0B = _BV(RXEN0);
    sei();
    _delay_us(100);
    PORTB |= _BV(1);
    UCSR0B |= _BV(RXCIE0);
    for (;;)
        ;
}
