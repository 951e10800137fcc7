/* What is kept of the hours of a drawing, put together, and the places with a
 * name through the year. Watching changes nothing that is simulated. */

#include "hour_watch.h"

#include <math.h>
#include <stdint.h>

#include "climate_make.h"
#include "fail.h"
#include "hour_places.h"
#include "hour_wood.h"

static const double NEAR_WOOD = 0.020; /* m from a spot, choice */

/* ---- places with a name ---------------------------------------------------
 */

/* m from a point to a cell; 0 within it. */
static double away_from(const bw_hour_watch *w, size_t cell, double x, double y)
{
    const bw_raster *r = w->raster;
    const size_t c = w->model->raster[cell];
    const size_t i = c % r->nx, j = c / r->nx;
    const double dx = fmax(fmax(r->x[i] - x, x - r->x[i + 1]), 0.0);
    const double dy = fmax(fmax(r->y[j] - y, y - r->y[j + 1]), 0.0);
    return hypot(dx, dy);
}

static void find_spot(bw_hour_watch *w, size_t k)
{
    bw_hour_spot *s = &w->spot[k];
    double nearest = NEAR_WOOD + 1e-9;
    s->away = HUGE_VAL;
    for (size_t p = 0; p < w->out->place_count; ++p) {
        const double away = hypot(w->place[p].x - s->x, w->place[p].y - s->y);
        if (away < s->away) {
            s->away = away;
            s->place = p;
        }
    }
    s->wood = -1;
    w->spot_cell[k] = SIZE_MAX;
    for (size_t c = 0; c < w->model->sheet.n; ++c) {
        const double away = away_from(w, c, s->x, s->y);
        if (w->wood_of[c] == SIZE_MAX || away >= nearest)
            continue;
        nearest = away;
        s->wood = (long)w->wood_of[c];
        w->spot_cell[k] = c;
    }
}

static bw_status make_spots(bw_hour_watch *w, bw_error *err)
{
    const bw_junction *j = w->raster->junction;
    const size_t count = w->out->place_count > 0 ? j->spot_count : 0;
    w->spot = BW_NEW(w->keep, bw_hour_spot, count + 1);
    w->spot_cell = BW_NEW(w->arena, size_t, count + 1);
    BW_TRY_MEMORY(w->spot != NULL && w->spot_cell != NULL, err);
    for (size_t k = 0; k < count; ++k) {
        w->spot[k] = (bw_hour_spot){
            .name = j->spot[k].name, .x = j->spot[k].x, .y = j->spot[k].y};
        find_spot(w, k);
    }
    w->out->spot = w->spot;
    w->out->spot_count = count;
    return BW_OK;
}

static void see_spots(bw_hour_watch *w, const bw_sheet_solver *s)
{
    const size_t span = (size_t)w->hour / BW_SPAN_HOURS;
    const double share = 1.0 / BW_SPAN_HOURS;
    for (size_t k = 0; k < w->out->spot_count; ++k) {
        bw_hour_spot *spot = &w->spot[k];
        const size_t at = (size_t)w->hour * w->out->place_count + spot->place;
        const size_t cell = w->spot_cell[k];
        if (w->hour % BW_SPAN_HOURS == 0)
            spot->theta[span] = spot->phi[span] = spot->moisture[span] = 0.0;
        spot->theta[span] += share * (double)w->theta[at];
        spot->phi[span] += share * (double)w->phi[at];
        if (cell != SIZE_MAX)
            spot->moisture[span] += share * bw_cells_water(&s->cells, cell) /
                                    w->wood[spot->wood].material->density.value;
    }
}

/* ---- together -------------------------------------------------------------
 */

bw_status bw_hour_watch_make(bw_hour_watch *w, bw_error *err)
{
    BW_TRY(bw_hour_places_make(w, err));
    BW_TRY(bw_hour_wood_make(w, err));
    return make_spots(w, err);
}

void bw_hour_watch_year(bw_hour_watch *w)
{
    w->hour = 0;
    bw_hour_places_year(w);
    bw_hour_wood_year(w);
}

void bw_hour_watch_hour(bw_hour_watch *w, const bw_sheet_solver *s,
                        const bw_sheet_weather *weather, int hour_of_year)
{
    const int month = bw_hour_month(hour_of_year);
    bw_hour_places_hour(w, s, weather, month);
    bw_hour_wood_hour(w, s, month);
    see_spots(w, s);
    ++w->hour;
}

void bw_hour_watch_end_year(bw_hour_watch *w)
{
    bw_hour_places_end_year(w);
    bw_hour_wood_end_year(w);
}

bw_status bw_hour_watch_end(bw_hour_watch *w, bw_error *err)
{
    return bw_hour_places_end(w, err);
}
