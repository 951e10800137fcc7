/* Faces between two materials, and of rooms: their state by the hour as in one
 * dimension (watch.c of the folder transient), humid hours, standing water, the
 * mould index with the last year repeated.
 *
 * Invariant: every face inside is watched, whatever has a name. */

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#include "bothways/air.h"
#include "bothways/geography.h"
#include "climate_make.h"
#include "fail.h"
#include "hour_air.h"
#include "hour_places.h"

/* No index grows below it (critical humidity is 80 % and more). */
static const double NO_MOULD_RH = 0.79;

/* ---- where ----------------------------------------------------------------
 */

static int material_of(const bw_hour_watch *w, size_t cell)
{
    return w->raster->material[w->model->raster[cell]];
}

static const bw_drawn_material *drawn_of(const bw_hour_watch *w, size_t cell)
{
    return &w->raster->junction->material[material_of(w, cell)];
}

/* What lies in a face of the sheet; BW_NOT_THERE: no film. */
static int film_of(const bw_hour_watch *w, const bw_sheet_face *f)
{
    const bw_raster *r = w->raster;
    const size_t a = w->model->raster[f->a], b = w->model->raster[f->b];
    const size_t later = a > b ? a : b, before = a > b ? b : a;
    return later - before == 1
               ? r->film_x[later / r->nx * (r->nx + 1) + later % r->nx]
               : r->film_y[later];
}

static bool is_watched(const bw_hour_watch *w, const bw_sheet_face *f)
{
    return material_of(w, f->a) != material_of(w, f->b) || f->face.film != NULL;
}

static bw_mould_class more_sensitive(bw_mould_class a, bw_mould_class b)
{
    return a < b ? a : b;
}

/* As of two slabs that meet; a film between is met by both. */
static void describe(bw_hour_watch *w, bw_hour_place *p, const bw_sheet_face *f)
{
    const bw_junction *j = w->raster->junction;
    const bw_drawn_material *drawn[2] = {drawn_of(w, f->a), drawn_of(w, f->b)};
    bw_slab slab[2] = {bw_sheet_slab(drawn[0]), bw_sheet_slab(drawn[1])};
    const bw_section section = {.slab_count = 2, .slab = slab};
    const int film = film_of(w, f);
    p->mould_class = bw_mould_class_between(&slab[0], &slab[1]).mould_class;
    if (film != BW_NOT_THERE) {
        const bw_slab between = bw_sheet_film_slab(&j->film[film]);
        p->mould_class = more_sensitive(
            bw_mould_class_between(&slab[0], &between).mould_class,
            bw_mould_class_between(&between, &slab[1]).mould_class);
    }
    for (size_t k = 0; k < 2; ++k) {
        const bw_geography geography = {.insulation = k};
        p->beside[k] = drawn[k]->name;
        p->at_risk = p->at_risk || bw_face_at_risk(&geography, &section, 0);
    }
}

/* Cells of one material in a row from one on. */
typedef struct row {
    const double *line;
    size_t first, lines, cell;
    long step; /* to the next cell of the raster; the sign is the way */
} row;

static row row_of(const bw_hour_watch *w, size_t cell, long step)
{
    const bw_raster *r = w->raster;
    const size_t c = w->model->raster[cell];
    const bool along_x = labs(step) == 1;
    return (row){.line = along_x ? r->x : r->y,
                 .first = along_x ? c % r->nx : c / r->nx,
                 .lines = along_x ? r->nx : r->ny,
                 .cell = c,
                 .step = step};
}

/* The k-th of them; false: the row has ended. */
static bool row_at(const bw_hour_watch *w, const row *of, size_t k,
                   size_t *cell, double *wide)
{
    const long way = of->step > 0 ? 1 : -1;
    const long at = (long)of->first + way * (long)k;
    if (at < 0 || at >= (long)of->lines)
        return false;
    *cell = (size_t)((long)of->cell + of->step * (long)k);
    *wide = of->line[at + 1] - of->line[at];
    return w->raster->material[*cell] == w->raster->material[of->cell];
}

static double length_of(const bw_hour_watch *w, size_t cell, long step)
{
    const row of = row_of(w, cell, step);
    double sum = 0.0, wide;
    size_t at;
    for (size_t k = 0; row_at(w, &of, k, &at, &wide); ++k)
        sum += wide;
    return sum;
}

/* The cells beside a face up to the middle of their run of one material, as in
 * one dimension, but no farther than what one sees of water at a face: a thin
 * row of cells along a stud is no slab. */
static bool add_half(bw_hour_watch *w, size_t cell, size_t other)
{
    static const double AT_FACE = 0.02; /* m, choice */
    const size_t *of = w->model->raster;
    const long step = (long)of[cell] - (long)of[other];
    const double run = length_of(w, cell, step);
    const double most = fmin(0.5 * run, AT_FACE);
    const row cells = row_of(w, cell, step);
    double depth = 0.0, wide;
    size_t at;
    for (size_t k = 0; depth < most - 1e-9 && row_at(w, &cells, k, &at, &wide);
         ++k) {
        const bool alone = wide > run - 1e-9;
        const double by = alone ? wide : fmin(wide, most - depth);
        if (!bw_hour_part_add(&w->halves, w->arena, w->model->cell[at], by))
            return false;
        depth += wide;
    }
    return true;
}

static bw_status add_face(bw_hour_watch *w, size_t at, bw_error *err)
{
    const bw_sheet_face *f = &w->model->sheet.face[at];
    const size_t n = w->out->place_count++;
    bw_hour_place *p = &w->place[n];
    double xa, ya, xb, yb;
    bw_hour_middle(w, f->a, &xa, &ya);
    bw_hour_middle(w, f->b, &xb, &yb);
    const double share = f->half_a / (f->half_a + f->half_b);
    *p = (bw_hour_place){.x = xa + share * (xb - xa),
                         .y = ya + share * (yb - ya),
                         .free_month = -1};
    describe(w, p, f);
    bw_hour_face *face = &w->face[n];
    *face = (bw_hour_face){.at = at, .from = w->halves.count, .air = SIZE_MAX};
    for (size_t k = 0; k < w->model->sheet.air_count; ++k)
        if (w->model->sheet.air[k].face == at)
            face->air = k;
    bool good = add_half(w, f->a, f->b);
    face->middle = w->halves.count;
    good = good && add_half(w, f->b, f->a);
    face->to = w->halves.count;
    return good ? BW_OK : bw_fail_memory(err);
}

static void add_room(bw_hour_watch *w, size_t at)
{
    const bw_raster_face *r = &w->raster->face[at];
    const bw_sheet_edge *e = &w->model->sheet.edge[at];
    const bw_drawn_material *drawn = drawn_of(w, e->cell);
    const bw_slab slab = bw_sheet_slab(drawn);
    const size_t n = w->out->place_count++;
    bw_mould_class class = bw_mould_class_between(&slab, NULL).mould_class;
    if (r->film != BW_NOT_THERE) {
        const bw_slab film = bw_sheet_film_slab(
            &w->raster->junction->film[r->film]);
        class = bw_mould_class_between(&film, NULL).mould_class;
    }
    w->place[n] = (bw_hour_place){
        .x = r->x,
        .y = r->y,
        .room = true,
        .beside = {drawn->name,
                   w->raster->junction->environment[r->environment].id},
        .mould_class = class,
        .free_month = -1};
    w->face[n] = (bw_hour_face){.at = at, .room = true};
}

static bool is_of_room(const bw_hour_watch *w, size_t edge)
{
    const size_t e = w->raster->face[edge].environment;
    return w->raster->junction->environment[e].kind == BW_ENVIRONMENT_ROOM;
}

static size_t count_places(const bw_hour_watch *w)
{
    const bw_sheet *s = &w->model->sheet;
    size_t count = 0;
    for (size_t f = 0; f < s->face_count; ++f)
        count += is_watched(w, &s->face[f]);
    for (size_t e = 0; e < s->edge_count; ++e)
        count += is_of_room(w, e);
    return count;
}

bw_status bw_hour_places_make(bw_hour_watch *w, bw_error *err)
{
    const bw_sheet *s = &w->model->sheet;
    const size_t count = count_places(w), series = BW_HOUR_YEAR * count;
    w->place = BW_NEW(w->keep, bw_hour_place, count + 1);
    w->face = BW_NEW(w->arena, bw_hour_face, count + 1);
    w->mould = BW_NEW(w->arena, bw_mould_state, count + 1);
    w->theta = BW_NEW(w->arena, float, series + 1);
    w->phi = BW_NEW(w->arena, float, series + 1);
    BW_TRY_MEMORY(!w->arena->failed && !w->keep->failed, err);
    w->out->place = w->place;
    for (size_t f = 0; f < s->face_count; ++f)
        if (is_watched(w, &s->face[f]))
            BW_TRY(add_face(w, f, err));
    for (size_t e = 0; e < s->edge_count; ++e)
        if (is_of_room(w, e))
            add_room(w, e);
    return BW_OK;
}

/* ---- its state ------------------------------------------------------------
 */

typedef struct half {
    double theta, p, heat, water; /* conductances */
} half;

static half half_of(const bw_sheet_solver *s, size_t cell, double away)
{
    const bw_cell c = bw_cells_get(&s->cells, cell);
    double water = 1.0 / (away * c.rv);
    if (c.kphi > 0.0)
        water += c.kphi * c.phi / (c.p * away);
    return (half){s->v[2 * cell], c.p, 1.0 / (away * c.rt), water};
}

static double film_between(const bw_film *film, double phi)
{
    if (film == NULL)
        return 0.0;
    const double x = fmin(fmax(phi, 0.0), 1.0) * BW_FILM_ROWS;
    const size_t i = (size_t)x;
    return film->resistance[i] +
           (x - (double)i) * (film->resistance[i + 1] - film->resistance[i]);
}

static double humidity(double theta, double p)
{
    return fmin(fmax(p / bw_saturation_pressure(theta), 0.0), 1.0);
}

/* Of what lies in a face the more humid side. */
static void state_at(double *theta, double *phi, half l, half r, double film)
{
    const double q = (l.theta - r.theta) / (1.0 / l.heat + 1.0 / r.heat);
    const double g = (l.p - r.p) / (1.0 / l.water + film + 1.0 / r.water);
    const double at = l.theta - q / l.heat;
    *theta = at;
    *phi = fmax(humidity(at, l.p - g / l.water),
                humidity(at, r.p + g / r.water));
}

static void see_face(const bw_hour_watch *w, size_t k, const bw_sheet_solver *s,
                     const bw_sheet_weather *weather, double *theta,
                     double *phi)
{
    const bw_sheet *sheet = &w->model->sheet;
    if (w->face[k].room) {
        const bw_sheet_edge *e = &sheet->edge[w->face[k].at];
        const bw_sheet_air *air = &weather->side[e->side];
        const double mean = 0.5 * (bw_cells_phi(&s->cells, e->cell) +
                                   humidity(air->theta, air->p));
        state_at(theta, phi, half_of(s, e->cell, e->half),
                 (half){air->theta, air->p, air->h, air->beta},
                 film_between(e->face.film, mean));
        return;
    }
    const bw_sheet_face *f = &sheet->face[w->face[k].at];
    const double mean = 0.5 * (bw_cells_phi(&s->cells, f->a) +
                               bw_cells_phi(&s->cells, f->b));
    state_at(theta, phi, half_of(s, f->a, f->half_a),
             half_of(s, f->b, f->half_b), film_between(f->face.film, mean));
    if (w->face[k].air == SIZE_MAX)
        return;
    bw_sheet_past past; /* the air may be moister than what it wets */
    bw_sheet_air_past(&past, sheet, &sheet->air[w->face[k].air], weather, s->v,
                      &s->cells, false);
    *phi = fmax(*phi, humidity(*theta, past.p));
}

/* ---- hours ----------------------------------------------------------------
 */

void bw_hour_places_year(bw_hour_watch *w)
{
    for (size_t k = 0; k < w->out->place_count; ++k) {
        bw_hour_place *p = &w->place[k];
        p->highest_rh = p->above_80 = p->above_90 = p->above_95 = 0.0;
        for (int m = 0; m < BW_MONTHS; ++m)
            p->month_rh[m] = 0.0;
    }
}

/* More than a material binds, in any cell. */
static bool any_free(const bw_hour_watch *w, const bw_sheet_solver *s)
{
    for (size_t c = 0; c < s->sheet->n; ++c)
        if (bw_cells_water(&s->cells, c) >
            w->model->bound[w->raster->material[w->model->raster[c]]])
            return true;
    return false;
}

static double standing(const bw_hour_watch *w, size_t k,
                       const bw_sheet_solver *s)
{
    double sum = 0.0;
    for (size_t i = w->face[k].from; i < w->face[k].to; ++i) {
        const bw_hour_part *part = &w->halves.part[i];
        const size_t at = w->model->raster[part->cell];
        const double bound = w->model->bound[w->raster->material[at]];
        sum += part->by *
               fmax(0.0, bw_cells_water(&s->cells, part->cell) - bound);
    }
    return sum;
}

void bw_hour_places_hour(bw_hour_watch *w, const bw_sheet_solver *s,
                         const bw_sheet_weather *weather, int month)
{
    const size_t count = w->out->place_count;
    const bool free_water = any_free(w, s);
    for (size_t k = 0; k < count; ++k) {
        bw_hour_place *p = &w->place[k];
        double theta, phi;
        see_face(w, k, s, weather, &theta, &phi);
        p->above_80 += phi > 0.80;
        p->above_90 += phi > 0.90;
        p->above_95 += phi > 0.95;
        p->highest_rh = fmax(p->highest_rh, phi);
        p->month_rh[month] += phi;
        bw_mould_step(&w->mould[k], p->mould_class, theta, phi, 1.0);
        p->mould = fmax(p->mould, w->mould[k].index);
        const size_t at = (size_t)w->hour * count + k;
        w->theta[at] = (float)theta;
        w->phi[at] = (float)phi;
        const double water = free_water && !p->room ? standing(w, k, s) : 0.0;
        if (water > p->free_water) {
            p->free_water = water;
            p->free_month = month;
        }
    }
}

void bw_hour_places_end_year(bw_hour_watch *w)
{
    for (size_t k = 0; k < w->out->place_count; ++k) {
        bw_hour_place *p = &w->place[k];
        p->dampest = 0;
        for (int m = 0; m < BW_MONTHS; ++m) {
            p->month_rh[m] /= bw_month_seconds(m) / 3600.0;
            if (p->month_rh[m] > p->month_rh[p->dampest])
                p->dampest = m;
        }
    }
}

/* ---- the last year repeated -----------------------------------------------
 */

static bw_status repeat(bw_hour_watch *w, size_t k, double *theta, double *phi,
                        bw_error *err)
{
    const bw_mould_rule *rule[2] = {bw_mould_rule_by_class(),
                                    bw_mould_rule_ashrae160()};
    const size_t count = w->out->place_count;
    bw_hour_place *p = &w->place[k];
    bw_mould_outcome outcome[2];
    for (size_t h = 0; h < BW_HOUR_YEAR; ++h) {
        theta[h] = (double)w->theta[h * count + k];
        phi[h] = (double)w->phi[h * count + k];
    }
    for (size_t r = 0; r < 2; ++r) {
        const bw_mould_exposure year = {
            .theta = theta,
            .phi = phi,
            .hours = BW_HOUR_YEAR,
            .start = w->mould[k].index,
            .mould_class = p->mould_class,
            .decline = rule[r]->decline[p->mould_class],
            .limit = p->room ? rule[r]->limit_room : rule[r]->limit_hidden};
        BW_TRY(bw_mould_repeat(&outcome[r], &year, err));
    }
    p->mould_slow = fmax(p->mould, outcome[1].highest);
    p->mould = fmax(p->mould, outcome[0].highest);
    p->settled = outcome[0].settled;
    return BW_OK;
}

bw_status bw_hour_places_end(bw_hour_watch *w, bw_error *err)
{
    double *theta = BW_NEW(w->arena, double, BW_HOUR_YEAR);
    double *phi = BW_NEW(w->arena, double, BW_HOUR_YEAR);
    BW_TRY_MEMORY(theta != NULL && phi != NULL, err);
    for (size_t k = 0; k < w->out->place_count; ++k) {
        bw_hour_place *p = &w->place[k];
        p->mould_slow = p->mould;
        p->settled = true;
        if (p->highest_rh >= NO_MOULD_RH)
            BW_TRY(repeat(w, k, theta, phi, err));
    }
    return BW_OK;
}
