#include "path.h"

/* Freeman's headings, IRE Transactions EC-10, 1961: counter-clockwise from +X. */
static int8_t heading_x(uint8_t heading)
{
    return (int8_t)(heading == 2 || heading == 6 ? 0 : heading > 2 && heading < 6 ? -1 : 1);
}

static int8_t heading_y(uint8_t heading)
{
    return (int8_t)(heading == 0 || heading == 4 ? 0 : heading < 4 ? 1 : -1);
}

static void stand(bridge_path *path, uint16_t x, uint16_t y)
{
    path->x = path->end_x = x;
    path->y = path->end_y = y;
    path->along_x = path->along_y = 0;
    path->aside_x = path->aside_y = 0;
    path->left = path->row = path->rows = 0;
    path->discriminant = -1;
    path->straight = path->diagonal = 0;
    path->works_start = false;
    path->is_line = false;
}

/* The cell some way from another, where it is one. */
static bool go_far(uint16_t *cell, int8_t direction, uint32_t way, uint16_t cells)
{
    if (direction == 0)
        return true;
    if (direction > 0 ? way > (uint32_t)(cells - 1 - *cell) : way > *cell)
        return false;
    *cell = (uint16_t)(direction > 0 ? *cell + way : *cell - way);
    return true;
}

static bool begin_patch(bridge_path *path, const bridge_record *record, uint16_t cells_x, uint16_t cells_y)
{
    int8_t way_x = record->heading & 2 ? -1 : 1;
    int8_t way_y = record->heading & 4 ? -1 : 1;
    if (record->heading & 1) {
        path->along_y = way_y;
        path->aside_x = way_x;
        path->row = record->q;
        path->rows = record->p;
    } else {
        path->along_x = way_x;
        path->aside_y = way_y;
        path->row = record->p;
        path->rows = record->q;
    }
    path->left = path->row;
    path->works_start = true;
    return go_far(&path->end_x, way_x, record->p, cells_x) && go_far(&path->end_y, way_y, record->q, cells_y);
}

static int8_t sign(int16_t value)
{
    return (int8_t)((value > 0) - (value < 0));
}

/* A straight line from where the path stands to its end. */
static void aim(bridge_path *path)
{
    int16_t way_x = (int16_t)(path->end_x - path->x);
    int16_t way_y = (int16_t)(path->end_y - path->y);
    int16_t size_x = (int16_t)(way_x < 0 ? -way_x : way_x);
    int16_t size_y = (int16_t)(way_y < 0 ? -way_y : way_y);
    bool is_along_x = size_x >= size_y;
    int16_t longer = is_along_x ? size_x : size_y;
    int16_t shorter = is_along_x ? size_y : size_x;
    *(is_along_x ? &path->along_x : &path->along_y) = sign(is_along_x ? way_x : way_y);
    *(is_along_x ? &path->aside_y : &path->aside_x) = sign(is_along_x ? way_y : way_x);
    path->discriminant = (int16_t)(2 * shorter - longer);
    path->straight = (int16_t)(2 * shorter);
    path->diagonal = (int16_t)(2 * (shorter - longer));
    path->left = (uint16_t)longer;
    path->is_line = true;
}

/* A row is the line to its last cell, and works its first cell too. */
static bool begin_row(bridge_path *path, const bridge_record *record, uint8_t axis_bits, uint16_t cells_x, uint16_t cells_y)
{
    uint32_t way = record_pq(record, axis_bits);
    path->works_start = true;
    return go_far(&path->end_x, heading_x(record->heading), way, cells_x) && go_far(&path->end_y, heading_y(record->heading), way, cells_y);
}

bool path_begin(bridge_path *path, const bridge_record *record, uint8_t axis_bits, uint16_t x, uint16_t y, uint16_t cells_x, uint16_t cells_y)
{
    uint8_t verb = record->verb;
    bool has_cell = verb == VERB_GO || verb == VERB_ROW || verb == VERB_PATCH || verb == VERB_LINE;
    bool starts_here = !has_cell || verb == VERB_LINE;
    if (has_cell && (record->x >= cells_x || record->y >= cells_y))
        return false;
    stand(path, starts_here ? x : record->x, starts_here ? y : record->y);
    if (verb == VERB_PATCH)
        return begin_patch(path, record, cells_x, cells_y);
    if (verb == VERB_ROW && !begin_row(path, record, axis_bits, cells_x, cells_y))
        return false;
    if (verb == VERB_LINE) {
        path->end_x = record->x;
        path->end_y = record->y;
    }
    if (verb == VERB_ROW || verb == VERB_LINE)
        aim(path);
    return true;
}

static uint16_t moved(uint16_t cell, uint16_t way, int8_t direction)
{
    return (uint16_t)(direction > 0 ? cell + way : direction < 0 ? cell - way : cell);
}

static void step(bridge_path *path, int8_t x, int8_t y)
{
    path->x = moved(path->x, 1, x);
    path->y = moved(path->y, 1, y);
}

bool path_next(bridge_path *path)
{
    if (path->left > 0) {
        path->left--;
        step(path, path->along_x, path->along_y);
        if (path->is_line && path->discriminant >= 0) {
            step(path, path->aside_x, path->aside_y);
            path->discriminant = (int16_t)(path->discriminant + path->diagonal);
        } else {
            path->discriminant = (int16_t)(path->discriminant + path->straight);
        }
        return true;
    }
    if (path->rows == 0)
        return false;
    path->rows--;
    path->left = path->row;
    path->along_x = (int8_t)-path->along_x;
    path->along_y = (int8_t)-path->along_y;
    step(path, path->aside_x, path->aside_y);
    return true;
}

uint16_t path_leg(const bridge_path *path, uint16_t *x, uint16_t *y)
{
    if (path->left > 0 && path->is_line) {
        *x = path->end_x;
        *y = path->end_y;
        return path->left;
    }
    bool is_row = path->left > 0;
    if (!is_row && path->rows == 0)
        return 0;
    uint16_t cells = is_row ? path->left : 1;
    *x = moved(path->x, cells, is_row ? path->along_x : path->aside_x);
    *y = moved(path->y, cells, is_row ? path->along_y : path->aside_y);
    return cells;
}
