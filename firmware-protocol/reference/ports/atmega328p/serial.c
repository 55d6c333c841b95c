#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

#include "controller.h"

enum { BAUD = 500000, RING = 64 }; /* a power of two */

enum { RESERVED = 0x7F, RECEIVE_ERRORS = _BV(FE0) | _BV(DOR0) };

/* The main loop puts at tail, the interrupt takes at head. */
static uint8_t ring[RING];
static volatile uint8_t head;
static volatile uint8_t tail;

/* The divisor last: the emulator of the tests works out the time of an octet when it is written. */
void serial_begin(void)
{
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UBRR0 = F_CPU / 8 / BAUD - 1;
    UCSR0B = _BV(RXCIE0) | _BV(RXEN0) | _BV(TXEN0);
}

uint8_t serial_room(void *context)
{
    (void)context;
    return (uint8_t)(RING - (uint8_t)(tail - head));
}

void serial_put(void *context, uint8_t octet)
{
    (void)context;
    ring[tail & (RING - 1)] = octet;
    tail++;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
        UCSR0B |= _BV(UDRIE0);
}

/*
 * Both are entered from interrupts.S, each with its own interrupt off and all others on. GPIOR0 has the octet and GPIOR1 its status. What they do
 * to the control register at the end is not one instruction, and need not be: a receive interrupt in between leaves it as it was, and a transmit
 * interrupt more finds nothing to do.
 */
void __vector_receive(void) __attribute__((signal, used, externally_visible, flatten));
void serial_receive_seldom(void);
void __vector_transmit(void) __attribute__((signal, used, externally_visible));

/* All but the plain octet; the status goes with the octet. After an overrun this octet is good: what is lost came between the one before and
 * this one. Called by way of serial_call_seldom. */
__attribute__((used, externally_visible)) void serial_receive_seldom(void)
{
    if ((GPIOR1 & RECEIVE_ERRORS) != 0)
        bridge_receive_error(&board);
    if ((GPIOR1 & _BV(FE0)) == 0)
        bridge_receive_octet(&board, GPIOR0);
}

/* The plain octet is dealt with here without a call, for which the compiler would save all registers each time; what is seldom saves them for
 * itself. The comparison with RESERVED is never true: it tells the compiler so. */
void __vector_receive(void)
{
    uint8_t octet = GPIOR0;
    if (octet != RESERVED && (GPIOR1 & RECEIVE_ERRORS) == 0)
        bridge_receive_octet(&board, octet);
    else
        __asm__ volatile("call serial_call_seldom" ::: "memory");
    UCSR0B |= _BV(RXCIE0);
}

void __vector_transmit(void)
{
    uint8_t from = head;
    if (from == tail)
        return;
    UDR0 = ring[from & (RING - 1)];
    from++;
    head = from;
    if (from != tail)
        UCSR0B |= _BV(UDRIE0);
}
