/* The cells that a record works, in order (JOB-FORMAT.md, section 2). */
#ifndef BRIDGE_PATH_H
#define BRIDGE_PATH_H

#include <stdbool.h>
#include <stdint.h>

#include "record.h"

typedef struct {
    uint16_t x, y;         /* the cell that it stands on */
    uint16_t end_x, end_y; /* the last one; of a patch, the corner across */
    int8_t along_x, along_y;
    int8_t aside_x, aside_y; /* a line's diagonal, a patch's next row */
    uint16_t left;           /* cells left on the row or line */
    uint16_t row;            /* cells of a patch's row after its first */
    uint16_t rows;           /* rows left */
    int16_t discriminant, straight, diagonal; /* Bresenham's, IBM Systems Journal 4(1), 1965 */
    bool works_start;
    bool is_line;
} bridge_path;

/* The path of a record from a cell; false where it leaves the grid of cells_x by cells_y. A record without work stands on a cell:
 * a go's is its own. */
bool path_begin(bridge_path *path, const bridge_record *record, uint8_t axis_bits, uint16_t x, uint16_t y, uint16_t cells_x, uint16_t cells_y);

/* Goes to the next cell; false where there is none. */
bool path_next(bridge_path *path);

/* The straight leg ahead: its last cell, and how many cells it works; 0 where the path is at its end. */
uint16_t path_leg(const bridge_path *path, uint16_t *x, uint16_t *y);

#endif
