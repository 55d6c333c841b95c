#include "setup.h"

#include <string.h>

#include "octets.h"
#include "words.h"

/* Sums of a few lengths below this fit 32 bits with their sign. */
#define FARTHEST ((uint32_t)1 << 27)

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

static void put_machine(const bridge_setup *setup, uint8_t *to)
{
    to = put_u8(to, setup->axis_bits);
    to = put_u8(to, setup->axes);
    to = put_u8(to, setup->heads);
    to = put_u16(to, setup->line_timeout_ms);
    to = put_u16(to, setup->head_change_ms);
    for (uint8_t axis = 0; axis < SETUP_AXES; axis++)
        to = put_u16(to, setup->cells[axis]);
    memcpy(to, setup->digest, sizeof setup->digest);
}

static void put_axis(const bridge_setup *setup, uint8_t index, uint8_t *to)
{
    const setup_axis *axis = &setup->axis[index];
    to = put_u8(to, index);
    to = put_u8(to, axis->endstop_at_max);
    to = put_u32(to, axis->steps_per_cell_q16);
    to = put_u32(to, axis->top_speed);
    to = put_u32(to, axis->acceleration);
    to = put_u32(to, axis->reference_speed);
    to = put_u32(to, axis->endstop_gap);
    put_u16(to, axis->backlash);
}

static void put_head(const bridge_setup *setup, uint8_t index, uint8_t *to)
{
    const setup_head *head = &setup->head[index];
    to = put_u8(to, index);
    to = put_u8(to, head->is_pen);
    to = put_u16(to, head->first_ms);
    to = put_u16(to, head->second_ms);
    to = put_u32(to, (uint32_t)head->offset[0]);
    put_u32(to, (uint32_t)head->offset[1]);
}

uint8_t setup_octet(const bridge_setup *setup, uint8_t offset)
{
    uint8_t body[SETUP_AXIS];
    if (offset < SETUP_MACHINE) {
        put_machine(setup, body);
        return body[offset];
    }
    offset = (uint8_t)(offset - SETUP_MACHINE);
    if (offset < SETUP_AXES * SETUP_AXIS) {
        put_axis(setup, offset / SETUP_AXIS, body);
        return body[offset % SETUP_AXIS];
    }
    offset = (uint8_t)(offset - SETUP_AXES * SETUP_AXIS);
    put_head(setup, offset / SETUP_HEAD, body);
    return body[offset % SETUP_HEAD];
}

static uint32_t cell_steps(const setup_axis *axis, uint16_t cell)
{
    /* The product needs 48 bits; its halves fit 32 each. */
    uint32_t whole = cell * (axis->steps_per_cell_q16 >> 16);
    uint32_t part = (cell * (axis->steps_per_cell_q16 & 0xFFFF) + 0x8000) >> 16;
    return whole + part;
}

static bool is_near(int32_t steps)
{
    return steps < (int32_t)FARTHEST && steps > -(int32_t)FARTHEST;
}

bool setup_fits(const bridge_setup *setup)
{
    for (uint8_t index = 0; index < setup->axes; index++) {
        const setup_axis *axis = &setup->axis[index];
        if (cell_steps(axis, (uint16_t)(setup->cells[index] - 1)) >= FARTHEST || axis->endstop_gap >= FARTHEST)
            return false;
    }
    for (uint8_t head = 0; head < setup->heads; head++)
        if (!is_near(setup->head[head].offset[0]) || !is_near(setup->head[head].offset[1]))
            return false;
    return true;
}

int32_t setup_cell_steps(const setup_axis *axis, uint16_t cell)
{
    return (int32_t)cell_steps(axis, cell);
}

int32_t setup_place(const bridge_setup *setup, uint8_t axis, uint16_t cell, uint8_t head)
{
    int32_t over = setup_cell_steps(&setup->axis[axis], cell);
    return axis < 2 ? over - setup->head[head].offset[axis] : over;
}
