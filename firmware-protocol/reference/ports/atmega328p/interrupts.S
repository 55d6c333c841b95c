/*
 * The way into the transmit interrupt, and the way from an interrupt to what is seldom. A serial interrupt switches itself off and lets all others
 * in at once, so that a step is never late for more than the few cycles up to SEI; it switches itself on again at its end (serial.c). A compiler would
 * save its registers first.
 */
#include <avr/io.h>

#define CONTROL _SFR_MEM_ADDR(UCSR0B)
#define STATUS _SFR_IO_ADDR(SREG)

/* The first SEI lets in what is waiting, one instruction later; the flags that are then put back are those of an interrupt, so it takes another. */
.macro leave_room itself
    lds r24, CONTROL
    andi r24, 0xFF - (1 << \itself)
    sts CONTROL, r24
    sei
.endm

    .global USART_UDRE_vect
USART_UDRE_vect:
    push r24
    in r24, STATUS
    push r24
    leave_room UDRIE0
    pop r24
    out STATUS, r24
    pop r24
    sei
    jmp __vector_transmit

/* Calls the function that Z names, with every register saved that a call may change but Z. */
    .global call_saved
call_saved:
    push r0
    push r1
    push r18
    push r19
    push r20
    push r21
    push r22
    push r23
    push r24
    push r25
    push r26
    push r27
    clr r1
    icall
    pop r27
    pop r26
    pop r25
    pop r24
    pop r23
    pop r22
    pop r21
    pop r20
    pop r19
    pop r18
    pop r1
    pop r0
    ret
