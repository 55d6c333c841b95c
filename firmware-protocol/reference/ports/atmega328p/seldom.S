/*
 * Ways from an interrupt to C functions that it seldom needs. They save every register that a call may change but r24 and r25, which carry the
 * argument and the result; so an interrupt that calls them saves no more than it needs itself.
 */
.macro seldom name function
    .global \name
\name:
    push r30
    push r31
    ldi r30, pm_lo8(\function)
    ldi r31, pm_hi8(\function)
    rjmp call_saving
.endm

    seldom seldom_step timer_step
    seldom seldom_next timer_next
    seldom seldom_receive serial_receive

call_saving:
    push r0
    push r1
    push r18
    push r19
    push r20
    push r21
    push r22
    push r23
    push r26
    push r27
    clr r1
    icall
    pop r27
    pop r26
    pop r23
    pop r22
    pop r21
    pop r20
    pop r19
    pop r18
    pop r1
    pop r0
    pop r31
    pop r30
    ret
