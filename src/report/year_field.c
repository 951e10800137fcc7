/* The humidity over the depth of a wall and the year: of a simulation the means
 * of five days in every cell, else the planes of the monthly method. */

#include <math.h>

#include "year.h"

double bw_year_row(const bw_year_picture *p, double at)
{
    return p->simulated ? bw_year_place(p->first, at / (double)p->spans) : at;
}

/* What a column shows. */
typedef struct source {
    const bw_cell_year *cell;
    const bw_plane *plane;
} source;

static double humidity(const bw_year_picture *p, source of, size_t span)
{
    const size_t month = ((size_t)p->first + span) % BW_MONTHS;
    return p->simulated ? of.cell->phi[span]
                        : of.plane->month[month].relative_humidity;
}

/* Of each slab its faces and the middles of its cells; at a face the humidity
 * is that of the cell beside it. */
static size_t lay_cells(bw_year_picture *p, source of[BW_YEAR_COLUMNS])
{
    const bw_transient_result *run = &p->part->transient;
    size_t count = 0;
    for (size_t i = 0; i < run->cells && count + 3 <= BW_YEAR_COLUMNS; i++) {
        const bw_cell_year *c = &run->cell[i];
        const bool first = i == 0 || c[-1].slab != c->slab;
        const bool last = i + 1 == run->cells || c[1].slab != c->slab;
        const double at[] = {c->middle - 0.5 * c->width, c->middle,
                             c->middle + 0.5 * c->width};
        for (size_t k = first ? 0 : 1; k < (last ? 3u : 2u); k++) {
            p->x[count] = at[k];
            of[count++].cell = c;
        }
    }
    return count;
}

double bw_year_depth(const bw_year_picture *p, bw_plane_at at)
{
    double x = p->before + at.depth;
    for (size_t i = 0; i < at.slab; i++)
        x += p->part->section->slab[i].thickness;
    return x;
}

static size_t lay_planes(bw_year_picture *p, source of[BW_YEAR_COLUMNS])
{
    const bw_monthly_result *run = &p->part->run[BW_RUN_DESIGN].result;
    size_t count = 0;
    for (; count < run->plane_count && count < BW_YEAR_COLUMNS; count++) {
        p->x[count] = bw_year_depth(p, run->plane[count].at);
        of[count].plane = &run->plane[count];
    }
    return count;
}

/* Rows: the middles of the spans, and both ends of the year. */
bool bw_year_lay(bw_year_picture *p)
{
    source of[BW_YEAR_COLUMNS];
    const size_t rows = p->spans + 2;
    const size_t columns = p->simulated ? lay_cells(p, of) : lay_planes(p, of);
    double *z = BW_NEW(&p->page->arena, double, rows *columns + 1);
    if (z == NULL)
        return false;
    for (size_t r = 0; r < rows; r++) {
        const bool end = r == 0 || r > p->spans;
        const size_t at = r == 0 ? 0 : r > p->spans ? p->spans - 1 : r - 1;
        const size_t other = end && p->cyclic ? p->spans - 1 - at : at;
        const double middle = fmin(fmax((double)r - 0.5, 0.0),
                                   (double)p->spans);
        p->y[r] = bw_year_row(p, middle);
        for (size_t c = 0; c < columns; c++)
            z[r * columns + c] = 0.5 * (humidity(p, of[c], at) +
                                        humidity(p, of[c], other));
    }
    p->field = (bw_field){p->x, p->y, columns, rows, z};
    return columns >= 2;
}
