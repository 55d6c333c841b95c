/* What the host has told of the machine (SPEC.md, section 4, set_machine to set_head). Lengths in steps, times in ms. */
#ifndef BRIDGE_SETUP_H
#define BRIDGE_SETUP_H

#include <stdbool.h>
#include <stdint.h>

enum { SETUP_AXES = 3, SETUP_HEADS = 2, SETUP_MACHINE = 21, SETUP_AXIS = 24, SETUP_HEAD = 14 };

typedef struct {
    uint32_t steps_per_cell_q16;
    uint32_t top_speed;
    uint32_t acceleration;
    uint32_t reference_speed;
    uint32_t endstop_gap;
    uint16_t backlash;
    bool endstop_at_max;
} setup_axis;

typedef struct {
    bool is_pen;
    uint16_t first_ms;  /* a dot's time, or a pen's to lower */
    uint16_t second_ms; /* a pen's to lift */
    int32_t offset[2];
} setup_head;

typedef struct {
    uint8_t axis_bits;
    uint8_t axes;
    uint8_t heads;
    uint8_t told; /* bit 0 machine, bits 1 to 3 axes, bits 4 and 5 heads */
    uint16_t line_timeout_ms;
    uint16_t head_change_ms;
    uint16_t cells[SETUP_AXES]; /* X, Y and the layers */
    uint8_t digest[8];
    setup_axis axis[SETUP_AXES];
    setup_head head[SETUP_HEADS];
} bridge_setup;

/* Each checks a body and takes it; an answer other than ANSWER_NONE changes nothing. */
uint8_t setup_take_machine(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change);
uint8_t setup_take_axis(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change, uint32_t max_steps_per_second);
uint8_t setup_take_head(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change);

/* Whether the machine, all its axes and all its heads have been told. */
bool setup_is_complete(const bridge_setup *setup);

/* An octet of all that has been told: the body of set_machine, three of set_axis, two of set_head, back to back. An axis or a head
 * that has not been told reads as nothing that could be. */
uint8_t setup_octet(const bridge_setup *setup, uint8_t offset);

/* Whether all places, gaps and offsets are small enough to be reckoned with in steps: below 2^27. */
bool setup_fits(const bridge_setup *setup);

/* Steps from the centre of cell 0 to that of another: (cell * steps_per_cell_q16 + 8000h) >> 16. */
int32_t setup_cell_steps(const setup_axis *axis, uint16_t cell);

/* Where the carriage stands along an axis with a head over a cell (MOTION.md, section 2). */
int32_t setup_place(const bridge_setup *setup, uint8_t axis, uint16_t cell, uint8_t head);

#endif
