/* Cells of the sheet as places of the drawing, and sums over them. */

#include "hour_seen.h"

void bw_hour_middle(const bw_hour_watch *w, size_t cell, double *x, double *y)
{
    const bw_raster *r = w->raster;
    const size_t c = w->model->raster[cell];
    const size_t i = c % r->nx, j = c / r->nx;
    *x = 0.5 * (r->x[i] + r->x[i + 1]);
    *y = 0.5 * (r->y[j] + r->y[j + 1]);
}

bool bw_hour_part_add(bw_hour_parts *parts, bw_arena *arena, size_t cell,
                      double by)
{
    enum { FIRST = 256 };
    if (parts->part == NULL) {
        parts->room = FIRST;
        parts->part = BW_NEW(arena, bw_hour_part, FIRST);
    }
    if (parts->part != NULL)
        parts->part = bw_arena_more(arena, parts->part, parts->count,
                                    &parts->room, sizeof *parts->part);
    if (parts->part == NULL)
        return false;
    parts->part[parts->count++] = (bw_hour_part){cell, by};
    return true;
}
