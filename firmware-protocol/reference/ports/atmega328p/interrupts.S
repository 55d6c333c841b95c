/*
 * The serial line's interrupts. Each switches itself off and lets all others in at once, so that a step is never late for more than the
 * few cycles up to SEI, and switches itself on again at its end. Written by hand because a compiler saves its registers first.
 */
#include <avr/io.h>

#define CONTROL _SFR_MEM_ADDR(UCSR0B)
#define STATUS _SFR_IO_ADDR(SREG)

.macro enter vector, itself
    .global \vector
\vector:
    push r24
    in r24, STATUS
    push r24
    lds r24, CONTROL
    andi r24, 0xFF - (1 << \itself)
    sts CONTROL, r24
    sei
    push r0
    push r1
    push r18
    push r19
    push r20
    push r21
    push r22
    push r23
    push r25
    push r26
    push r27
    push r30
    push r31
    clr r1
.endm

.macro restore
    pop r31
    pop r30
    pop r27
    pop r26
    pop r25
    pop r23
    pop r22
    pop r21
    pop r20
    pop r19
    pop r18
    pop r1
    pop r0
.endm

.macro leave
    pop r24
    out STATUS, r24
    pop r24
    reti
.endm

.macro switch_on itself
    lds r24, CONTROL
    ori r24, 1 << \itself
    sts CONTROL, r24
.endm

    enter USART_RX_vect, RXCIE0
    call serial_receive
    restore
    cli
    switch_on RXCIE0
    leave

    enter USART_UDRE_vect, UDRIE0
    call serial_transmit
    tst r24
    restore
    breq 1f
    cli
    switch_on UDRIE0
1:  leave
