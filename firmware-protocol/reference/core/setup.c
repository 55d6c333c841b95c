#include "setup.h"

#include <string.h>

#include "apart.h"
#include "octets.h"
#include "words.h"

/* Sums of a few lengths below this fit 32 bits with their sign. */
#define FARTHEST ((uint32_t)1 << 27)

enum { MACHINE_TIMEOUT = 3, MACHINE_HEAD_CHANGE = 5, MACHINE_CELLS = 7, MACHINE_DIGEST = 13 };
enum { AXIS_FLAGS = 1, AXIS_BACKLASH = 22 };
enum { HEAD_KIND = 1, HEAD_OFFSETS = 6 };

static const uint8_t *axis_body(const bridge_setup *setup, uint8_t axis)
{
    return setup->octets + SETUP_AXES_START + axis * SETUP_AXIS;
}

static const uint8_t *head_body(const bridge_setup *setup, uint8_t head)
{
    return setup->octets + SETUP_HEADS_START + head * SETUP_HEAD;
}

static void take(bridge_setup *setup, uint8_t start, const uint8_t *body, uint8_t length, uint8_t told)
{
    memcpy(setup->octets + start, body, length);
    setup->told |= told;
}

uint8_t setup_take_machine(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change)
{
    if (length != SETUP_MACHINE)
        return ANSWER_BAD_VALUE;
    uint8_t bits = body[0];
    if ((bits != 4 && bits != 8 && bits != 12) || body[1] < 2 || body[1] > 3 || body[2] < 1 || body[2] > 2)
        return ANSWER_BAD_VALUE;
    uint16_t most = (uint16_t)(1u << bits);
    for (uint8_t offset = MACHINE_TIMEOUT; offset < MACHINE_DIGEST; offset = (uint8_t)(offset + 2)) {
        uint16_t number = get_u16(body + offset);
        bool is_cells = offset == MACHINE_CELLS || offset == MACHINE_CELLS + 2;
        if ((number == 0 && offset != MACHINE_HEAD_CHANGE) || (is_cells && number > most))
            return ANSWER_BAD_VALUE;
    }
    if (!may_change)
        return ANSWER_WRONG_STATE;
    setup->axis_bits = bits;
    setup->axes = body[1];
    setup->heads = body[2];
    take(setup, 0, body, SETUP_MACHINE, 1);
    return ANSWER_NONE;
}

uint8_t setup_take_axis(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change, uint32_t max_steps_per_second)
{
    if (length != SETUP_AXIS || body[0] >= SETUP_AXES || body[AXIS_FLAGS] > 1)
        return ANSWER_BAD_VALUE;
    for (uint8_t offset = AXIS_PITCH_Q16; offset < AXIS_ENDSTOP_GAP; offset = (uint8_t)(offset + 4))
        if (get_u32(body + offset) == 0)
            return ANSWER_BAD_VALUE;
    uint32_t top = get_u32(body + AXIS_TOP_SPEED);
    if (get_u32(body + AXIS_REFERENCE_SPEED) > top)
        return ANSWER_BAD_VALUE;
    if (!may_change)
        return ANSWER_WRONG_STATE;
    if (top > max_steps_per_second)
        return ANSWER_SPEED_TOO_HIGH;
    take(setup, (uint8_t)(SETUP_AXES_START + body[0] * SETUP_AXIS), body, SETUP_AXIS, (uint8_t)(2u << body[0]));
    return ANSWER_NONE;
}

uint8_t setup_take_head(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change)
{
    if (length != SETUP_HEAD || body[0] >= SETUP_HEADS || body[HEAD_KIND] > 1)
        return ANSWER_BAD_VALUE;
    if (body[HEAD_KIND] == 0 && get_u16(body + HEAD_SECOND_MS) != 0)
        return ANSWER_BAD_VALUE;
    if (!may_change)
        return ANSWER_WRONG_STATE;
    take(setup, (uint8_t)(SETUP_HEADS_START + body[0] * SETUP_HEAD), body, SETUP_HEAD, (uint8_t)(16u << body[0]));
    return ANSWER_NONE;
}

bool setup_is_complete(const bridge_setup *setup)
{
    uint8_t needed = (uint8_t)(1u | (setup->axes == 3 ? 14u : 6u) | (setup->heads == 2 ? 48u : 16u));
    return (setup->told & needed) == needed;
}

static bool is_near(int32_t steps)
{
    return steps < (int32_t)FARTHEST && steps > -(int32_t)FARTHEST;
}

/* Whether the carriage must go to the endstop or beyond it for a head at this offset to be over the cell nearest to it. One that closes at the
 * edge of the grid itself is no obstacle. */
static bool is_behind_endstop(const bridge_setup *setup, uint8_t axis, int32_t offset)
{
    int32_t towards = setup_endstop_at_max(setup, axis) ? -offset : offset;
    return towards > 0 && towards >= (int32_t)setup_axis_number(setup, axis, AXIS_ENDSTOP_GAP);
}

bool setup_fits(const bridge_setup *setup)
{
    for (uint8_t axis = 0; axis < setup->axes; axis++) {
        if ((uint32_t)setup_far_steps(setup, axis) >= FARTHEST || setup_axis_number(setup, axis, AXIS_ENDSTOP_GAP) >= FARTHEST)
            return false;
        for (uint8_t head = 0; head < setup->heads; head++) {
            int32_t offset = setup_offset(setup, head, axis);
            if (!is_near(offset) || is_behind_endstop(setup, axis, offset))
                return false;
        }
    }
    return true;
}

uint16_t setup_line_timeout_ms(const bridge_setup *setup)
{
    return get_u16(setup->octets + MACHINE_TIMEOUT);
}

uint16_t setup_head_change_ms(const bridge_setup *setup)
{
    return get_u16(setup->octets + MACHINE_HEAD_CHANGE);
}

uint16_t setup_cells(const bridge_setup *setup, uint8_t axis)
{
    return get_u16(setup->octets + MACHINE_CELLS + 2 * axis);
}

const uint8_t *setup_digest(const uint8_t *machine_body)
{
    return machine_body + MACHINE_DIGEST;
}

uint32_t setup_axis_number(const bridge_setup *setup, uint8_t axis, uint8_t offset)
{
    return get_u32(axis_body(setup, axis) + offset);
}

uint16_t setup_backlash(const bridge_setup *setup, uint8_t axis)
{
    return get_u16(axis_body(setup, axis) + AXIS_BACKLASH);
}

bool setup_endstop_at_max(const bridge_setup *setup, uint8_t axis)
{
    return axis_body(setup, axis)[AXIS_FLAGS] != 0;
}

bool setup_is_pen(const bridge_setup *setup, uint8_t head)
{
    return head_body(setup, head)[HEAD_KIND] != 0;
}

uint16_t setup_head_ms(const bridge_setup *setup, uint8_t head, uint8_t offset)
{
    return get_u16(head_body(setup, head) + offset);
}

int32_t setup_offset(const bridge_setup *setup, uint8_t head, uint8_t axis)
{
    return axis < 2 ? get_i32(head_body(setup, head) + HEAD_OFFSETS + 4 * axis) : 0;
}

APART int32_t setup_cell_steps(const bridge_setup *setup, uint8_t axis, uint16_t cell)
{
    /* The product needs 48 bits; its halves fit 32 each. */
    uint32_t pitch = setup_axis_number(setup, axis, AXIS_PITCH_Q16);
    uint32_t whole = cell * (pitch >> 16);
    uint32_t part = (cell * (pitch & 0xFFFF) + 0x8000) >> 16;
    return (int32_t)(whole + part);
}

int32_t setup_far_steps(const bridge_setup *setup, uint8_t axis)
{
    return setup_cell_steps(setup, axis, (uint16_t)(setup_cells(setup, axis) - 1));
}

int32_t setup_place(const bridge_setup *setup, uint8_t axis, uint16_t cell, uint8_t head)
{
    return setup_cell_steps(setup, axis, cell) - setup_offset(setup, head, axis);
}
