#include "gantry.h"

#include "../port.h"
#include "native.h"

static bool is_closed(const gantry_axis *axis)
{
    if (axis->fault != 0)
        return axis->fault == 2;
    return axis->closes_up ? axis->place >= axis->closes_at : axis->place <= axis->closes_at;
}

uint8_t gantry_inputs(const native_gantry *gantry)
{
    uint8_t inputs = gantry->e_stop_is_open ? BRIDGE_INPUT_E_STOP : 0;
    if (gantry->start_is_pressed)
        inputs |= BRIDGE_INPUT_START;
    for (uint8_t axis = 0; axis < GANTRY_AXES; axis++)
        if (is_closed(&gantry->axis[axis]))
            inputs = (uint8_t)(inputs | (BRIDGE_INPUT_ENDSTOP_X << axis));
    return inputs;
}

void gantry_head(native_gantry *gantry, uint8_t head, bool is_pen, bool works)
{
    bool gives_dot = works && !is_pen;
    if (gives_dot && gantry->has_dot[head])
        gantry->wrong[NATIVE_DOT_TWICE]++;
    gantry->has_dot[head] = gantry->has_dot[head] || gives_dot;
    gantry->head_is_pen[head] = is_pen;
    gantry->has_pulse[head] = is_pen;
    gantry->head_works[head] = works;
}

void gantry_worked(native_gantry *gantry, uint8_t head)
{
    bool has_worked = gantry->head_is_pen[head] ? gantry->head_works[head] : gantry->has_dot[head];
    if (!has_worked)
        gantry->wrong[NATIVE_WORK_WITHOUT_TOOL]++;
    if (!gantry->drivers_are_on || gantry->e_stop_is_open)
        gantry->wrong[NATIVE_WORK_WITHOUT_POWER]++;
    gantry->has_dot[head] = false;
}

void gantry_halt(native_gantry *gantry)
{
    gantry->drivers_are_on = false;
    for (uint8_t head = 0; head < GANTRY_HEADS; head++) {
        if (!gantry->head_is_pen[head] || gantry->has_pulse[head])
            gantry->head_works[head] = false;
        gantry->has_dot[head] = false;
    }
}

void gantry_reset(native_gantry *gantry)
{
    for (uint8_t head = 0; head < GANTRY_HEADS; head++)
        gantry->has_pulse[head] = false;
    gantry_halt(gantry);
}

static void step(native_gantry *gantry, gantry_axis *axis, bool up)
{
    int32_t next = axis->place + (up ? 1 : -1);
    if (!gantry->drivers_are_on || gantry->e_stop_is_open) {
        gantry->wrong[NATIVE_STEPS_WITHOUT_POWER]++;
        return;
    }
    if (is_closed(axis) && up == axis->closes_up)
        gantry->wrong[NATIVE_STEPS_INTO_ENDSTOP]++;
    axis->steps++;
    if (next < axis->least || next > axis->most)
        gantry->wrong[NATIVE_STEPS_STALLED]++;
    else
        axis->place = next;
}

void gantry_step(native_gantry *gantry, uint8_t axes)
{
    for (uint8_t axis = 0; axis < GANTRY_AXES; axis++)
        if ((axes >> axis) & 1)
            step(gantry, &gantry->axis[axis], ((gantry->up >> axis) & 1) != 0);
}
