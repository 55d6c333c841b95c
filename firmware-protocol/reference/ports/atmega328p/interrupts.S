/*
 * The ways into the serial line's interrupts. Each switches itself off and lets all others in at once, so that a step is never late for more
 * than the few cycles up to SEI; it switches itself on again at its end (serial.c). A compiler would save its registers first.
 *
 * 7F alone is dealt with while all other interrupts wait: it may be half of a STOP, which comes before any step.
 */
#include <avr/io.h>

#define CONTROL _SFR_MEM_ADDR(UCSR0B)
#define STATUS _SFR_IO_ADDR(SREG)
#define KEPT_FLAGS _SFR_IO_ADDR(GPIOR2)
#define RESERVED 0x7F

/* The first SEI lets in what is waiting, one instruction later; the flags that are then put back are those of an interrupt, so it takes another. */
.macro leave_room itself
    lds r24, CONTROL
    andi r24, 0xFF - (1 << \itself)
    sts CONTROL, r24
    sei
.endm

/* The receiver's status is read before its octet (DS40002061A, section 20.7.3); both are kept where one instruction finds them, and so are the
 * flags: while this interrupt is off nobody else uses these places. */
    .global USART_RX_vect
USART_RX_vect:
    push r24
    in r24, STATUS
    out KEPT_FLAGS, r24
    lds r24, _SFR_MEM_ADDR(UCSR0A)
    out _SFR_IO_ADDR(GPIOR1), r24
    lds r24, _SFR_MEM_ADDR(UDR0)
    out _SFR_IO_ADDR(GPIOR0), r24
    cpi r24, RESERVED
    breq 1f
    leave_room RXCIE0
    in r24, KEPT_FLAGS
    out STATUS, r24
    pop r24
    sei
    jmp __vector_receive
1:  call serial_call_seldom
    in r24, KEPT_FLAGS
    out STATUS, r24
    pop r24
    reti

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

/* Calls serial_receive_seldom with every register saved that a call may change. */
    .global serial_call_seldom
serial_call_seldom:
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
    push r30
    push r31
    clr r1
    call serial_receive_seldom
    pop r31
    pop r30
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
