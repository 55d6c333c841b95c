#include "heads.h"

#include <avr/io.h>

#include "pins.h"

/* A pulse lasts one tick more than the compare register says (fast PWM, DS40002061A, section 18.7.3). */
#define PULSE(us) ((us) / SERVO_TICK_US - 1)

void heads_begin(void)
{
    OCR2A = PULSE(SERVO_UP_US);
    OCR2B = PULSE(SERVO_UP_US);
    TCCR2A = _BV(WGM21) | _BV(WGM20);
    TCCR2B = _BV(CS22) | _BV(CS21) | _BV(CS20); /* 16 MHz / 1024 */
}

static void work_a(bool is_pen, bool works)
{
    if (!is_pen) {
        TCCR2A &= (uint8_t)~_BV(COM2A1);
        if (works)
            PORTB |= PIN_HEAD_A;
        else
            PORTB &= (uint8_t)~PIN_HEAD_A;
        return;
    }
    OCR2A = works ? PULSE(SERVO_DOWN_US) : PULSE(SERVO_UP_US);
    TCCR2A |= _BV(COM2A1);
}

static void work_b(bool is_pen, bool works)
{
    if (!is_pen) {
        TCCR2A &= (uint8_t)~_BV(COM2B1);
        if (works)
            PORTD |= PIN_HEAD_B;
        else
            PORTD &= (uint8_t)~PIN_HEAD_B;
        return;
    }
    OCR2B = works ? PULSE(SERVO_DOWN_US) : PULSE(SERVO_UP_US);
    TCCR2A |= _BV(COM2B1);
}

void heads_work(void *context, uint8_t head, bool is_pen, bool works)
{
    (void)context;
    if (head == 0)
        work_a(is_pen, works);
    else
        work_b(is_pen, works);
}

void heads_rest(void)
{
    OCR2A = PULSE(SERVO_UP_US);
    OCR2B = PULSE(SERVO_UP_US);
    PORTB &= (uint8_t)~PIN_HEAD_A;
    PORTD &= (uint8_t)~PIN_HEAD_B;
}
