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
 * Both interrupts are written in the controller's own instructions, because the line brings an octet every 320 cycles: so they save the few
 * registers that they need, and they let all others in after a few cycles, so that a step is not late for their sake. Each is off itself
 * meanwhile, so GPIOR0 to GPIOR2 are the receive interrupt's alone.
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

/* Switches one interrupt off and lets all others in; r24 is lost, and the flags. */
#define LEAVE_ROOM \
    LINES("lds r24, %[control]") \
    LINES("andi r24, 0xFF - (1 << %[itself])") \
    LINES("sts %[control], r24") \
    LINES("sei")

/* And on again; nothing is let in any more before the interrupt's end. */
#define COME_BACK \
    LINES("cli") \
    LINES("lds r24, %[control]") \
    LINES("ori r24, 1 << %[itself]") \
    LINES("sts %[control], r24")

/* Z becomes the place in a ring whose number is in r30. */
#define RING_PLACE \
    LINES("ldi r31, 0") \
    LINES("subi r30, lo8(-(%[ring]))") \
    LINES("sbci r31, hi8(-(%[ring]))")

/* What receive.c does with an octet where it is not 7F, nothing has been lost and the ring has room; serial_receive does the rest. The
 * receiver's status is read before its octet (DS40002061A, section 20.7.3). */
ISR(USART_RX_vect, ISR_NAKED)
{
    __asm__ volatile(
        LINES("push r24")
        LINES("in r24, %[sreg]")
        LINES("out %[flags], r24")
        LINES("lds r24, %[uart_status]")
        LINES("out %[status], r24")
        LINES("lds r24, %[uart_octet]")
        LINES("out %[octet], r24")
        LINES("cpi r24, %[reserved]")
        LINES("breq 2f")
        LEAVE_ROOM
        LINES("push r30")
        LINES("push r31")
        LINES("in r24, %[status]")
        LINES("andi r24, %[errors]")
        LINES("lds r30, %[lost]")
        LINES("or r24, r30")
        LINES("brne 1f")
        LINES("lds r30, %[tail]")
        LINES("lds r24, %[head]")
        LINES("dec r24")
        LINES("cp r24, r30")
        LINES("breq 1f")
        RING_PLACE
        LINES("in r24, %[octet]")
        LINES("st Z, r24")
        LINES("sts %[before], r24")
        LINES("lds r30, %[tail]")
        LINES("inc r30")
        LINES("sts %[tail], r30")
        LINES("rjmp 3f")
        LINES("1: call seldom_receive")
        LINES("3: pop r31")
        LINES("pop r30")
        COME_BACK
        LINES("4: in r24, %[flags]")
        LINES("out %[sreg], r24")
        LINES("pop r24")
        LINES("reti")
        LINES("2: call seldom_receive")
        LINES("rjmp 4b")
        :
        : [sreg] "I"(_SFR_IO_ADDR(SREG)), [octet] "I"(_SFR_IO_ADDR(GPIOR0)), [status] "I"(_SFR_IO_ADDR(GPIOR1)), [flags] "I"(_SFR_IO_ADDR(GPIOR2)),
          [uart_status] "i"(_SFR_MEM_ADDR(UCSR0A)), [uart_octet] "i"(_SFR_MEM_ADDR(UDR0)), [control] "i"(_SFR_MEM_ADDR(UCSR0B)), [itself] "I"(RXCIE0),
          [reserved] "M"(RESERVED), [errors] "M"(RECEIVE_ERRORS), [lost] "i"(&board.receive.lost),
          [before] "i"(&board.receive.before), [head] "i"(&board.receive.head), [tail] "i"(&board.receive.tail), [ring] "i"(board.receive.ring));
}

ISR(USART_UDRE_vect, ISR_NAKED)
{
    __asm__ volatile(
        LINES("push r24")
        LINES("in r24, %[sreg]")
        LINES("push r24")
        LEAVE_ROOM
        LINES("push r30")
        LINES("lds r30, %[head]")
        LINES("lds r24, %[tail]")
        LINES("cp r30, r24")
        LINES("breq 2f")
        LINES("push r31")
        LINES("andi r30, %[size] - 1")
        RING_PLACE
        LINES("ld r24, Z")
        LINES("sts %[uart_octet], r24")
        LINES("pop r31")
        LINES("lds r30, %[head]")
        LINES("inc r30")
        LINES("sts %[head], r30")
        LINES("lds r24, %[tail]")
        LINES("cp r30, r24")
        LINES("breq 2f")
        COME_BACK
        LINES("2: pop r30")
        LINES("pop r24")
        LINES("out %[sreg], r24")
        LINES("pop r24")
        LINES("reti")
        :
        : [sreg] "I"(_SFR_IO_ADDR(SREG)), [uart_octet] "i"(_SFR_MEM_ADDR(UDR0)), [control] "i"(_SFR_MEM_ADDR(UCSR0B)), [itself] "I"(UDRIE0),
          [size] "M"(RING), [head] "i"(&head), [tail] "i"(&tail), [ring] "i"(ring));
}
