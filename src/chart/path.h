#ifndef BW_CHART_PATH_H
#define BW_CHART_PATH_H

/* The outline of an SVG path, in tenths of a unit, each step relative to the
 * last: short, and without the sum of rounding errors. */

#include <stdbool.h>
#include <stddef.h>

/* Zero-initialise. */
typedef struct bw_path {
    char *text;
    size_t used, room;
    long x, y; /* tenths */
    bool no_memory;
} bw_path;

void bw_path_move(bw_path *path, double x, double y);
/* A step that goes nowhere is left out. */
void bw_path_line(bw_path *path, double x, double y);
void bw_path_close(bw_path *path);
void bw_path_clear(bw_path *path);
void bw_path_free(bw_path *path);

#endif
