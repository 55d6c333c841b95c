#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "controller.h"

enum { BAUD = 500000 };

enum { RESERVED = 0x7F, RECEIVE_ERRORS = _BV(FE0) | _BV(DOR0) };

/* What the control register holds while the receive interrupt is on, and while it is off. */
enum { HEARS = _BV(RXCIE0) | _BV(RXEN0) | _BV(TXEN0), IS_BUSY = _BV(RXEN0) | _BV(TXEN0) };

/* The divisor last: the emulator of the tests works out the time of an octet when it is written. */
void serial_begin(void)
{
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UBRR0 = F_CPU / 8 / BAUD - 1;
    UCSR0B = HEARS;
}

/* Octets go out straight from the main loop: a transmit interrupt would make steps late, and take as much time again. */
uint8_t serial_room(void *context)
{
    (void)context;
    return (UCSR0A & _BV(UDRE0)) != 0;
}

void serial_put(void *context, uint8_t octet)
{
    (void)context;
    UDR0 = octet;
}

/*
 * The receive interrupt is written in the controller's own instructions, because the line brings an octet every 320 cycles: so it saves the few
 * registers that it needs, and lets all others in after seven cycles, so that a step is not late for its sake. It is off itself meanwhile, so
 * GPIOR0 to GPIOR2 are its alone. The flags are kept as they were before it let the others in: so they wait again once it is on again, and an
 * octet that has come meanwhile finds the stack as the one before did.
 *
 * 7F is dealt with while all other interrupts wait: it may be half of a STOP, which comes before any step.
 */
void serial_receive(void);

/* All but the plain octet; the status goes with the octet. After an overrun this octet is good: what is lost came between the one before and
 * this one. By way of seldom.S. */
__attribute__((used, externally_visible)) void serial_receive(void)
{
    if ((GPIOR1 & RECEIVE_ERRORS) != 0)
        bridge_receive_error(&board);
    if ((GPIOR1 & _BV(FE0)) == 0)
        bridge_receive_octet(&board, GPIOR0);
}

#define LINES(text) text "\n\t"

/* What receive.c does with an octet where it is not 7F, nothing has been lost and the ring has room; serial_receive does the rest. The
 * receiver's status is read before its octet (DS40002061A, section 20.7.3). */
ISR(USART_RX_vect, ISR_NAKED)
{
    __asm__ volatile(
        LINES("push r24")
        LINES("ldi r24, %[is_busy]")
        LINES("sts %[control], r24")
        LINES("in r24, %[sreg]")
        LINES("sei")
        LINES("out %[flags], r24")
        LINES("push r30")
        LINES("lds r30, %[uart_status]")
        LINES("lds r24, %[uart_octet]")
        LINES("cpi r24, %[reserved]")
        LINES("breq 2f")
        LINES("push r31")
        LINES("lds r31, %[lost]")
        LINES("andi r30, %[errors]")
        LINES("or r31, r30")
        LINES("brne 1f")
        LINES("lds r30, %[tail]")
        LINES("lds r31, %[head]")
        LINES("dec r31")
        LINES("cp r31, r30")
        LINES("ldi r31, 0")
        LINES("breq 1f")
        LINES("subi r30, lo8(-(%[ring]))")
        LINES("sbci r31, hi8(-(%[ring]))")
        LINES("st Z, r24")
        LINES("sts %[before], r24")
        LINES("lds r30, %[tail]")
        LINES("inc r30")
        LINES("sts %[tail], r30")
        LINES("0: pop r31")
        LINES("3: pop r30")
        LINES("in r24, %[flags]")
        LINES("out %[sreg], r24")
        LINES("ldi r24, %[hears]")
        LINES("sts %[control], r24")
        LINES("pop r24")
        LINES("reti")
        LINES("1: out %[octet], r24")
        LINES("out %[status], r30")
        LINES("call seldom_receive")
        LINES("rjmp 0b")
        LINES("2: cli")
        LINES("out %[octet], r24")
        LINES("out %[status], r30")
        LINES("call seldom_receive")
        LINES("rjmp 3b")
        :
        : [sreg] "I"(_SFR_IO_ADDR(SREG)), [octet] "I"(_SFR_IO_ADDR(GPIOR0)), [status] "I"(_SFR_IO_ADDR(GPIOR1)), [flags] "I"(_SFR_IO_ADDR(GPIOR2)),
          [uart_status] "i"(_SFR_MEM_ADDR(UCSR0A)), [uart_octet] "i"(_SFR_MEM_ADDR(UDR0)), [control] "i"(_SFR_MEM_ADDR(UCSR0B)),
          [is_busy] "M"(IS_BUSY), [hears] "M"(HEARS), [reserved] "M"(RESERVED), [errors] "M"(RECEIVE_ERRORS),
          [lost] "i"(&board.receive.lost), [before] "i"(&board.receive.before), [head] "i"(&board.receive.head), [tail] "i"(&board.receive.tail),
          [ring] "i"(board.receive.ring));
}
