#ifndef BW_TESTS_RASTER_VALUE_H
#define BW_TESTS_RASTER_VALUE_H

/* Fields of a raster at points, as published ones are given. */

#include <math.h>
#include <stdbool.h>

#include "junction/patches.h"
#include "junction/raster.h"

/* The cells of lines that a place lies in or on; false: in none. */
static inline bool cells_around(size_t out[2], const double *line, size_t cells,
                                double at)
{
    if (at < line[0] - BW_ONE_LINE || at > line[cells] + BW_ONE_LINE)
        return false;
    size_t first = 0;
    while (first + 1 < cells && at > line[first + 1] + BW_ONE_LINE)
        first++;
    const bool on_line = first + 1 < cells &&
                         at >= line[first + 1] - BW_ONE_LINE;
    out[0] = first;
    out[1] = on_line ? first + 1 : first;
    return true;
}

/* What a field of cells is at a point: that of its cell, or on a line the mean
 * of those around it by how well they lead there; NAN where no material is. */
static inline double value_at(const bw_raster *g, const double *value, double x,
                              double y)
{
    size_t column[2] = {0, 0}, row[2] = {0, 0};
    double sum = 0.0, weights = 0.0;
    if (!cells_around(column, g->x, g->nx, x) ||
        !cells_around(row, g->y, g->ny, y))
        return (double)NAN;
    for (size_t j = row[0]; j <= row[1]; j++)
        for (size_t i = column[0]; i <= column[1]; i++) {
            const size_t c = j * g->nx + i;
            if (g->material[c] == BW_NOT_THERE)
                continue;
            const double k = g->junction->material[g->material[c]].conductivity;
            const double lead =
                (column[1] > column[0] ? 1.0 / (g->x[i + 1] - g->x[i]) : 0.0) +
                (row[1] > row[0] ? 1.0 / (g->y[j + 1] - g->y[j]) : 0.0);
            const double weight = lead > 0.0 ? k * lead : k;
            sum += weight * value[c];
            weights += weight;
        }
    return weights > 0.0 ? sum / weights : (double)NAN;
}

#endif
