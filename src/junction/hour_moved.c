/* Figures of one grid beside those of a coarser one, every line of which it
 * has: of each face that of the face within which it lies, of each piece of
 * wood that of the same piece, of each spot its own.
 *
 *   e(h) = C h^p,  |f(2h) - f(h)| = C h^p (2^p - 1) >= e(h) for p >= 1
 *
 * Cells at the lines of the drawing are three times as wide on the coarse grid
 * (2 and 4 mm joined), so that there it covers p >= 0.63. Invariant: nothing
 * moved without its like. */

#include "hour_moved.h"

#include <math.h>
#include <stdint.h>

#include "fail.h"
#include "raster.h"

static const double ON_LINE = 1e-9; /* m */

typedef struct span {
    bool upright;
    double at;       /* m, across */
    double from, to; /* m, along */
} span;

/* Where a watched face lies. */
static span span_of(const bw_hour_watch *w, size_t place)
{
    const bw_raster *r = w->raster;
    const bw_hour_face *f = &w->face[place];
    const bw_hour_place *p = &w->place[place];
    size_t cell;
    bool upright;
    if (f->room) {
        const bw_raster_face *face = &r->face[f->at];
        cell = face->cell;
        upright = face->side == BW_EDGE_LEFT || face->side == BW_EDGE_RIGHT;
    } else {
        const bw_sheet_face *face = &w->model->sheet.face[f->at];
        const size_t a = w->model->raster[face->a];
        const size_t b = w->model->raster[face->b];
        cell = a < b ? a : b;
        upright = (a < b ? b - a : a - b) == 1;
    }
    const double *line = upright ? r->y : r->x;
    const size_t k = upright ? cell / r->nx : cell % r->nx;
    return (span){upright, upright ? p->x : p->y, line[k], line[k + 1]};
}

static bool lies_in(const span *a, const span *b)
{
    return a->upright == b->upright && fabs(a->at - b->at) < ON_LINE &&
           a->from > b->from - ON_LINE && a->to < b->to + ON_LINE;
}

/* SIZE_MAX: none. */
static size_t like_place(const bw_hour_watch *fine, size_t place,
                         const bw_hour_watch *coarse)
{
    const span at = span_of(fine, place);
    for (size_t k = 0; k < coarse->out->place_count; ++k) {
        const span other = span_of(coarse, k);
        if (coarse->place[k].room == fine->place[place].room &&
            lies_in(&at, &other))
            return k;
    }
    return SIZE_MAX;
}

static bw_status no_match(bw_error *err)
{
    return bw_fail(err, BW_ERR_NUMERIC, NULL, 0,
                   "the cells of two grids do not match");
}

static bw_status move_places(const bw_hour_watch *fine,
                             const bw_hour_watch *coarse, bw_error *err)
{
    for (size_t k = 0; k < fine->out->place_count; ++k) {
        const size_t like = like_place(fine, k, coarse);
        if (like == SIZE_MAX)
            return no_match(err);
        bw_hour_place *p = &fine->place[k];
        const bw_hour_place *q = &coarse->place[like];
        p->moved = (bw_place_moved){
            .rh = fabs(p->month_rh[p->dampest] - q->month_rh[p->dampest]),
            .above_95 = fabs(p->above_95 - q->above_95),
            .mould = fabs(p->mould - q->mould),
            .mould_slow = fabs(p->mould_slow - q->mould_slow),
            .free_water = fabs(p->free_water - q->free_water)};
    }
    return BW_OK;
}

/* The piece that holds the middle of a cell of the fine grid. */
static size_t like_piece(const bw_hour_watch *fine, size_t cell,
                         const bw_hour_watch *coarse)
{
    double x, y;
    bw_hour_middle(fine, cell, &x, &y);
    const long at = bw_raster_cell_at(coarse->raster, x, y);
    return at < 0 ? SIZE_MAX : coarse->wood_of[coarse->model->cell[(size_t)at]];
}

static bw_status move_wood(const bw_hour_watch *fine,
                           const bw_hour_watch *coarse, bw_error *err)
{
    for (size_t c = 0; c < fine->model->sheet.n; ++c) {
        if (fine->wood_of[c] == SIZE_MAX)
            continue;
        const size_t like = like_piece(fine, c, coarse);
        if (like == SIZE_MAX)
            return no_match(err);
        bw_hour_wood *a = &fine->wood[fine->wood_of[c]];
        const bw_hour_wood *b = &coarse->wood[like];
        a->moved = (bw_wood_moved){
            .highest = fabs(a->highest - b->highest),
            .days_above_line = fabs(a->days_above_line - b->days_above_line),
            .first_dose = fabs(a->first_dose - b->first_dose),
            .dose = fabs(a->dose - b->dose)};
    }
    return BW_OK;
}

/* Five days' mean humidity of a face in the last year. */
static double mean_phi(const bw_hour_watch *w, size_t place, size_t at)
{
    double sum = 0.0;
    for (size_t h = at * BW_SPAN_HOURS; h < (at + 1) * BW_SPAN_HOURS; ++h)
        sum += (double)w->phi[h * w->out->place_count + place];
    return sum / BW_SPAN_HOURS;
}

static bw_status move_spots(const bw_hour_watch *fine,
                            const bw_hour_watch *coarse, bw_error *err)
{
    for (size_t k = 0; k < fine->out->spot_count; ++k) {
        bw_hour_spot *a = &fine->spot[k];
        const bw_hour_spot *b = &coarse->spot[k];
        const size_t like = like_place(fine, a->place, coarse);
        if (like == SIZE_MAX || (a->wood >= 0) != (b->wood >= 0))
            return no_match(err);
        for (size_t i = 0; i < BW_SPANS; ++i) {
            a->moved_phi = fmax(a->moved_phi,
                                fabs(a->phi[i] - mean_phi(coarse, like, i)));
            a->moved_moisture = fmax(a->moved_moisture,
                                     fabs(a->moisture[i] - b->moisture[i]));
        }
    }
    return BW_OK;
}

bw_status bw_hour_moved(const bw_hour_watch *fine, const bw_hour_watch *coarse,
                        bw_error *err)
{
    if (fine->out->wood_count != coarse->out->wood_count ||
        fine->out->spot_count != coarse->out->spot_count)
        return no_match(err);
    BW_TRY(move_places(fine, coarse, err));
    BW_TRY(move_wood(fine, coarse, err));
    return move_spots(fine, coarse, err);
}
