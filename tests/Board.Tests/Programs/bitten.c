/* Lets the watchdog bite: B0 goes high after a first start, B1 after the watchdog's. */
#include <avr/io.h>
#include <avr/wdt.h>

int main(void)
{
    uint8_t cause = MCUSR;
    MCUSR = 0;
    wdt_disable();
    DDRB = _BV(0) | _BV(1);
    if ((cause & _BV(WDRF)) != 0) {
        PORTB = _BV(1);
        for (;;)
            ;
    }
    PORTB = _BV(0);
    wdt_enable(WDTO_15MS);
    for (;;)
        ;
}
