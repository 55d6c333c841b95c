/*
 * A board and a gantry in one block of memory, driven by a time that the caller gives: a flat interface for tests in any
 * language. Everything in it is deterministic.
 */
#ifndef BRIDGE_NATIVE_H
#define BRIDGE_NATIVE_H

#include <stddef.h>
#include <stdint.h>

/* What a gantry has done that none should ever do. */
enum {
    NATIVE_STEPS_INTO_ENDSTOP = 0, /* into a closed endstop */
    NATIVE_STEPS_WITHOUT_POWER = 1, /* with the drivers off or the e-stop open */
    NATIVE_STEPS_STALLED = 2,      /* against the frame */
    NATIVE_WORK_WITHOUT_POWER = 3, /* cells said to be worked then */
    NATIVE_WORK_WITHOUT_TOOL = 4,  /* cells said to be worked with the pen up, or without a dot of their own */
    NATIVE_DOT_TWICE = 5,          /* a dot where the one before is not counted as a cell, and no halt cut it off */
    NATIVE_WRONGS = 6
};

/* Bytes of memory that a board needs; aligned as for any object. */
size_t native_size(void);

/* Begins a board in memory of native_size bytes. Its lasting memory is erased, its carriage over cell 0 of no machine yet. */
void native_create(void *memory, uint8_t reset_reason);

/* Nothing is held but the memory itself. */
void native_destroy(void *memory);

/* Starts the controller again, as a reset does: the gantry stays where it is and the lasting memory stays as it is. */
void native_reset(void *memory, uint8_t reset_reason);

/* Puts octets on the line to the board, 20 us each from now on; the number taken, less where the line's buffer is full. */
size_t native_receive(void *memory, const uint8_t *octets, size_t length);

/* The receiver misreads an octet now. */
void native_receive_error(void *memory);

/* Takes octets that the board has sent; the number of them. */
size_t native_take(void *memory, uint8_t *octets, size_t room);

/* Lets time pass. */
void native_advance(void *memory, uint64_t microseconds);

/* The main loop takes a turn this often and no oftener, as on a slow controller; 0, as at first, also whenever something comes while no step is due. */
void native_set_turn(void *memory, uint16_t microseconds);

/* Microseconds since the beginning. */
uint64_t native_now(const void *memory);

/* The gantry: where the carriage is in steps, where the endstop closes (at or beyond it), where the frame ends. */
void native_set_axis(void *memory, uint8_t axis, int32_t place, int32_t closes_at, uint8_t closes_up, int32_t least, int32_t most);
int32_t native_place(const void *memory, uint8_t axis);
uint32_t native_steps(const void *memory, uint8_t axis);

/* e-stop contact 1 open, 0 closed; start button 1 pressed. */
void native_set_e_stop(void *memory, uint8_t open);
void native_set_start(void *memory, uint8_t pressed);

/* An endstop works (0), never reads as reached (1), or always does, as a cut wire (2). */
void native_set_endstop(void *memory, uint8_t axis, uint8_t fault);

uint8_t native_drivers(const void *memory);
uint8_t native_head(const void *memory, uint8_t head);
uint32_t native_wrong(const void *memory, uint8_t what);

/* Cells worked, in order, and those of them that can be read: the last 65 536. Each is head, x, y, layer. */
uint32_t native_worked(const void *memory);
void native_worked_cell(const void *memory, uint32_t index, uint16_t cell[4]);

/* Where the carriage really was then, in steps along X, Y and Z. */
void native_worked_place(const void *memory, uint32_t index, int32_t place[3]);

/* Time of a step of an axis: the last 65 536 are kept, in ticks of 0.5 us, axes in the low three bits. */
uint32_t native_pulses(const void *memory);
uint64_t native_pulse(const void *memory, uint32_t index);

/* What is left of an octet in whose write the supply fails: a write first sets all bits, as erased, and then clears those that are to be 0. */
enum {
    NATIVE_LEFT_OLD = 0, /* it was still being erased */
    NATIVE_LEFT_NEW = 1  /* it was being written */
};

/* Lasting memory, 1024 octets. After so many more writes the supply fails: the next one leaves the old octet or the new one with some bits set as in
 * erased memory (0 for none, FF for all), and all later ones are lost, until a reset. */
uint8_t *native_lasting(void *memory);
void native_fail_after_writes(void *memory, uint32_t writes, uint8_t left_of, uint8_t left_erased);
uint32_t native_lasting_writes(const void *memory);

/* State and cause, for a look inside. */
uint8_t native_state(const void *memory);
uint8_t native_cause(const void *memory);

#endif
