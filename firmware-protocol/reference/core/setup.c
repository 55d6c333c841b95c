#include "setup.h"

#include <string.h>

#include "octets.h"
#include "words.h"

/* No place on an axis is further from its zero, so that a difference of two always fits 32 bits. */
#define FARTHEST ((int32_t)0x1FFFFFFF)

static bool holds_cells(uint16_t cells, uint8_t axis_bits)
{
    return cells >= 1 && cells <= (uint16_t)(1u << axis_bits);
}

uint8_t setup_take_machine(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change)
{
    if (length != SETUP_MACHINE)
        return ANSWER_BAD_VALUE;
    uint8_t bits = body[0];
    if ((bits != 4 && bits != 8 && bits != 12) || body[1] < 2 || body[1] > 3 || body[2] < 1 || body[2] > 2)
        return ANSWER_BAD_VALUE;
    if (get_u16(body + 3) == 0 || !holds_cells(get_u16(body + 7), bits) || !holds_cells(get_u16(body + 9), bits) || get_u16(body + 11) == 0)
        return ANSWER_BAD_VALUE;
    if (!may_change)
        return ANSWER_WRONG_STATE;
    setup->axis_bits = bits;
    setup->axes = body[1];
    setup->heads = body[2];
    setup->line_timeout_ms = get_u16(body + 3);
    setup->head_change_ms = get_u16(body + 5);
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        setup->cells[axis] = get_u16(body + 7 + 2 * axis);
    memcpy(setup->digest, body + 13, sizeof setup->digest);
    setup->told |= 1;
    return ANSWER_NONE;
}

static bool read_axis(setup_axis *axis, const uint8_t *body)
{
    axis->endstop_at_max = body[1] != 0;
    axis->steps_per_cell_q16 = get_u32(body + 2);
    axis->top_speed = get_u32(body + 6);
    axis->acceleration = get_u32(body + 10);
    axis->reference_speed = get_u32(body + 14);
    axis->endstop_gap = get_u32(body + 18);
    axis->backlash = get_u16(body + 22);
    return body[0] < SETUP_AXES && body[1] <= 1 && axis->steps_per_cell_q16 >= 1 && axis->top_speed >= 1 && axis->acceleration >= 1
        && axis->reference_speed >= 1 && axis->reference_speed <= axis->top_speed;
}

uint8_t setup_take_axis(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change, uint32_t max_steps_per_second)
{
    setup_axis axis;
    if (length != SETUP_AXIS || !read_axis(&axis, body))
        return ANSWER_BAD_VALUE;
    if (!may_change)
        return ANSWER_WRONG_STATE;
    if (axis.top_speed > max_steps_per_second)
        return ANSWER_SPEED_TOO_HIGH;
    setup->axis[body[0]] = axis;
    setup->told = (uint8_t)(setup->told | (2u << body[0]));
    return ANSWER_NONE;
}

uint8_t setup_take_head(bridge_setup *setup, const uint8_t *body, uint8_t length, bool may_change)
{
    if (length != SETUP_HEAD || body[0] >= SETUP_HEADS || body[1] > 1 || (body[1] == 0 && get_u16(body + 4) != 0))
        return ANSWER_BAD_VALUE;
    if (!may_change)
        return ANSWER_WRONG_STATE;
    setup_head *head = &setup->head[body[0]];
    head->is_pen = body[1] != 0;
    head->first_ms = get_u16(body + 2);
    head->second_ms = get_u16(body + 4);
    head->offset[0] = get_i32(body + 6);
    head->offset[1] = get_i32(body + 10);
    setup->told = (uint8_t)(setup->told | (16u << body[0]));
    return ANSWER_NONE;
}

bool setup_is_complete(const bridge_setup *setup)
{
    uint8_t needed = (uint8_t)(1u | (setup->axes == 3 ? 14u : 6u) | (setup->heads == 2 ? 48u : 16u));
    return (setup->told & needed) == needed;
}

bool setup_fits(const bridge_setup *setup)
{
    for (uint8_t axis = 0; axis < setup->axes; axis++)
        if (setup_cell_steps(&setup->axis[axis], (uint16_t)(setup->cells[axis] - 1)) == FARTHEST)
            return false;
    return true;
}

int32_t setup_cell_steps(const setup_axis *axis, uint16_t cell)
{
    /* The product needs 48 bits; its halves fit 32 each. */
    uint32_t whole = cell * (axis->steps_per_cell_q16 >> 16);
    uint32_t part = (cell * (axis->steps_per_cell_q16 & 0xFFFF) + 0x8000) >> 16;
    uint32_t steps = whole + part;
    return steps <= (uint32_t)FARTHEST ? (int32_t)steps : FARTHEST;
}

static int32_t clamp(int32_t steps)
{
    return steps > FARTHEST ? FARTHEST : steps < -FARTHEST ? -FARTHEST : steps;
}

int32_t setup_place(const bridge_setup *setup, uint8_t axis, uint16_t cell, uint8_t head)
{
    int32_t over = setup_cell_steps(&setup->axis[axis], cell);
    return axis < 2 ? clamp(over - clamp(setup->head[head].offset[axis])) : over;
}
