/* Adds one to the octet at 0010h of the EEPROM and lights B0. */
#include <avr/eeprom.h>
#include <avr/io.h>

int main(void)
{
    uint8_t *place = (uint8_t *)0x10;
    eeprom_update_byte(place, (uint8_t)(eeprom_read_byte(place) + 1));
    eeprom_busy_wait();
    DDRB = _BV(0);
    PORTB = _BV(0);
    for (;;)
        ;
}
