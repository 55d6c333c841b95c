/*
 * What the host has told of the machine (SPEC.md, section 4, set_machine to set_head). Lengths in steps, times in ms.
 *
 * The bodies are kept as they came: so they are stored with a job as they are, and it takes less code to read a number where it is
 * needed than to keep it in two forms.
 */
#ifndef BRIDGE_SETUP_H
#define BRIDGE_SETUP_H

#include <stdbool.h>
#include <stdint.h>

enum { SETUP_AXES = 3, SETUP_HEADS = 2, SETUP_MACHINE = 21, SETUP_AXIS = 24, SETUP_HEAD = 14, SETUP_DIGEST = 8 };
enum { SETUP_AXES_START = SETUP_MACHINE, SETUP_HEADS_START = SETUP_AXES_START + SETUP_AXES * SETUP_AXIS };
enum { SETUP_LENGTH = SETUP_HEADS_START + SETUP_HEADS * SETUP_HEAD };

/* Numbers of an axis, by their offset in set_axis. */
enum { AXIS_PITCH_Q16 = 2, AXIS_TOP_SPEED = 6, AXIS_ACCELERATION = 10, AXIS_REFERENCE_SPEED = 14, AXIS_ENDSTOP_GAP = 18 };

/* Times of a head, by their offset in set_head: first_ms is a dot's time, or a pen's to lower. */
enum { HEAD_FIRST_MS = 2, HEAD_SECOND_MS = 4 };

typedef struct {
    uint8_t told; /* bit 0 machine, bits 1 to 3 axes, bits 4 and 5 heads */
    uint8_t axis_bits;
    uint8_t axes;
    uint8_t heads;
    uint8_t octets[SETUP_LENGTH]; /* the bodies of set_machine, three set_axis, two set_head */
} bridge_setup;

/* Each checks a body and takes it; an answer other than ANSWER_NONE changes nothing. */
uint8_t setup_take_machine(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change);
uint8_t setup_take_axis(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change, uint32_t max_steps_per_second);
uint8_t setup_take_head(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change);

/* Whether the machine, all its axes and all its heads have been told. */
bool setup_is_complete(const bridge_setup *setup);

/* Whether all places, gaps and offsets are small enough to be reckoned with in steps, below 2^27, and no endstop keeps a head from a cell. */
bool setup_fits(const bridge_setup *setup);

uint16_t setup_line_timeout_ms(const bridge_setup *setup);
uint16_t setup_head_change_ms(const bridge_setup *setup);

/* Cells of an axis; of Z, the layers. */
uint16_t setup_cells(const bridge_setup *setup, uint8_t axis);

/* The first eight octets of the machine file's digest. */
const uint8_t *setup_digest(const uint8_t *machine_body);

uint32_t setup_axis_number(const bridge_setup *setup, uint8_t axis, uint8_t offset);
uint16_t setup_backlash(const bridge_setup *setup, uint8_t axis);
bool setup_endstop_at_max(const bridge_setup *setup, uint8_t axis);

bool setup_is_pen(const bridge_setup *setup, uint8_t head);
uint16_t setup_head_ms(const bridge_setup *setup, uint8_t head, uint8_t offset);

/* A head's offset along an axis; 0 along Z. */
int32_t setup_offset(const bridge_setup *setup, uint8_t head, uint8_t axis);

/* Steps from the centre of cell 0 to that of another: (cell * steps_per_cell_q16 + 8000h) >> 16. */
int32_t setup_cell_steps(const bridge_setup *setup, uint8_t axis, uint16_t cell);

/* The same for the last cell. */
int32_t setup_far_steps(const bridge_setup *setup, uint8_t axis);

/* Where the carriage stands along an axis with a head over a cell (MOTION.md, section 2). */
int32_t setup_place(const bridge_setup *setup, uint8_t axis, uint16_t cell, uint8_t head);

#endif
