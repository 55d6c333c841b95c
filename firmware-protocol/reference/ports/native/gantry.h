/* A gantry of counters: what the step pins do to a carriage, and what its switches say. */
#ifndef BRIDGE_GANTRY_H
#define BRIDGE_GANTRY_H

#include <stdbool.h>
#include <stdint.h>

enum { GANTRY_AXES = 3, GANTRY_HEADS = 2, GANTRY_WRONGS = 6 };

typedef struct {
    int32_t place, closes_at, least, most;
    bool closes_up;
    uint8_t fault; /* 0 none, 1 never reached, 2 always */
    uint32_t steps;
} gantry_axis;

typedef struct {
    gantry_axis axis[GANTRY_AXES];
    bool e_stop_is_open, start_is_pressed, drivers_are_on;
    bool head_works[GANTRY_HEADS], head_is_pen[GANTRY_HEADS];
    bool has_pulse[GANTRY_HEADS]; /* its servo is told where to be; else it stays where it is */
    bool has_dot[GANTRY_HEADS]; /* a dot was given that is not yet counted as a cell */
    uint8_t up;
    uint32_t wrong[GANTRY_WRONGS];
} native_gantry;

uint8_t gantry_inputs(const native_gantry *gantry);

/* A head is lowered or lifted, or begins or ends a dot. */
void gantry_head(native_gantry *gantry, uint8_t head, bool is_pen, bool works);

/* A cell is said to be worked by a head. */
void gantry_worked(native_gantry *gantry, uint8_t head);

/* The drivers lose their power, a dot ends, and a pen whose servo is told where to be goes up. */
void gantry_halt(native_gantry *gantry);

/* The controller is reset: it drives no pin, so the drivers and the dots are off, and a pen stays where it is. */
void gantry_reset(native_gantry *gantry);

/* One step of each axis whose bit is set. */
void gantry_step(native_gantry *gantry, uint8_t axes);

#endif
