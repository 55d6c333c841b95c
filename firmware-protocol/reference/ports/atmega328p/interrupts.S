/*
 * The ways into the serial line's interrupts. Each switches itself off and lets all others in at once, so that a step is never late for more
 * than the few cycles up to SEI; it switches itself on again at its end (serial.c). A compiler would save its registers first.
 */
#include <avr/io.h>

#define CONTROL _SFR_MEM_ADDR(UCSR0B)
#define STATUS _SFR_IO_ADDR(SREG)

.macro enter vector, itself, function
    .global \vector
\vector:
    push r24
    in r24, STATUS
    push r24
    lds r24, CONTROL
    andi r24, 0xFF - (1 << \itself)
    sts CONTROL, r24
    pop r24
    out STATUS, r24
    pop r24
    sei
    jmp \function
.endm

    enter USART_RX_vect, RXCIE0, __vector_receive
    enter USART_UDRE_vect, UDRIE0, __vector_transmit
