/*
 * Ways from an interrupt to C functions that it seldom needs. They save what a call may change, so that the interrupt saves no more than it needs
 * itself. r24 and r25 carry the argument and the result.
 */
.macro step_seldom name function
    .global \name
\name:
    push r30
    push r31
    call \function
    pop r31
    pop r30
    ret
.endm

    step_seldom seldom_step timer_step
    step_seldom seldom_next timer_next

    .global seldom_receive
seldom_receive:
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
    call serial_receive
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
    ret
