#include "start.h"

#include <math.h>
#include <string.h>

#include "fail.h"
#include "number.h"
#include "when.h"

/* m2 s Pa/kg: nothing passes in any number of years */
static const double CLOSED = 1e30;

/* ---- when ---- */

int bw_start_month(const bw_climate *climate)
{
    enum { APRIL = 3, OCTOBER = 9 };
    static const double CLEARLY = 0.5; /* K, in the mean: else it matters not */
    double warmer = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        warmer += (m >= APRIL && m < OCTOBER ? 2.0 : -2.0) / BW_MONTHS *
                  climate->month[m].temperature;
    return warmer < -CLEARLY ? APRIL : OCTOBER;
}

/* ---- moisture as given ---- */

typedef struct given {
    bool is_given, is_rh;
    double moisture; /* kg/kg, or RH */
} given;

static given moisture_of(const bw_assembly *assembly, const bw_slab *s)
{
    if (s->layer >= assembly->layer_count)
        return (given){0};
    const bw_layer *l = &assembly->layer[s->layer];
    const bw_framing *f = &l->framing;
    if (s->is_framing)
        return (given){f->has_initial_moisture, f->initial_is_rh,
                       f->initial_moisture};
    return (given){l->has_initial_moisture, l->initial_is_rh,
                   l->initial_moisture};
}

bool bw_start_given(double *z, const bw_model *model,
                    const bw_assembly *assembly, size_t slab)
{
    const bw_slab *s = &model->section->slab[slab];
    const bw_hygro *h = &model->hygro[slab];
    const given g = moisture_of(assembly, s);
    if (!g.is_given)
        return false;
    *z = g.is_rh
             ? bw_hygro_z_of_phi(h, fmin(g.moisture, 1))
             : bw_hygro_z_of_water(h, g.moisture * s->material->density.value);
    return true;
}

static double start_z(bw_start *start, const bw_model *model,
                      const bw_assembly *assembly, size_t slab)
{
    double z;
    if (bw_start_given(&z, model, assembly, slab))
        return z;
    start->by_rule = true;
    return bw_hygro_z_of_phi(&model->hygro[slab], BW_START_RH);
}

bool bw_start_straight(double *v, bw_model *model, const bw_start_sides *sides)
{
    const bw_wall *wall = &model->wall;
    bw_cells cells;
    if (!bw_cells_init(&cells, wall, &model->arena))
        return false;
    bw_cells_at(wall, v, &cells, false);
    double sum = 1 / sides->h_e;
    for (size_t i = 0; i < wall->n; i++)
        sum += wall->face[i].heat_resistance + 2 * bw_cells_get(&cells, i).rt;
    const double all = sum + 1 / sides->h_i;
    sum = 1 / sides->h_e;
    for (size_t i = 0; i < wall->n; i++) {
        const double half = bw_cells_get(&cells, i).rt;
        sum += wall->face[i].heat_resistance + half;
        v[2 * i] = sides->theta_e +
                   (sides->theta_i - sides->theta_e) * sum / all;
        sum += half;
    }
    return true;
}

/* Moisture by slab; temperature straight over resistance. */
static bool by_layers(bw_start *start, bw_model *model,
                      const bw_assembly *assembly, const bw_year *year,
                      const bw_hourly *now)
{
    double *v = start->v;
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const bw_range range = model->range[k];
        if (range.count == 0)
            continue;
        const double z = start_z(start, model, assembly, k);
        for (size_t i = range.first; i < range.first + range.count; i++)
            v[2 * i + 1] = z;
    }
    return bw_start_straight(
        v, model,
        &(bw_start_sides){now->theta_e, now->h_e, now->theta_i, year->h_i});
}

/* ---- water put at a face ---- */

/* Fills the cells of one slab from cell i on, to free saturation; returns what
 * is left. */
static double fill(bw_start *start, const bw_wall *wall, long i, long step,
                   double left)
{
    if (i < 0 || i >= (long)wall->n)
        return left;
    const bw_hygro *slab = wall->hygro[i];
    for (; left > 0 && i >= 0 && i < (long)wall->n && wall->hygro[i] == slab;
         i += step) {
        double *z = &start->v[2 * i + 1];
        const double held = bw_hygro_water(slab, *z);
        const double part = fmin(left,
                                 fmax(slab->scale - held, 0) * wall->dx[i]);
        if (part > 0)
            *z = bw_hygro_z_of_water(slab, held + part / wall->dx[i]);
        left -= part;
        bw_range *wetted = &start->wetted;
        if (wetted->count == 0)
            start->place = (size_t)i;
        if (wetted->count == 0 || (size_t)i < wetted->first)
            wetted->first = (size_t)i;
        wetted->count++;
    }
    return left;
}

static bw_status put_water(bw_start *start, const bw_model *model,
                           const bw_water_put *put, bw_error *err)
{
    const bw_wall *wall = &model->wall;
    if (put->slab >= model->section->slab_count)
        return bw_fail_domain(
            err, "water cannot be put at slab %zu: the section has %zu",
            put->slab, model->section->slab_count);
    const bw_range range = model->range[put->slab];
    const bool film = range.count == 0;
    const size_t face = put->outer_side ? range.first
                                        : range.first + range.count;
    /* of the slab itself and on from its face; of a film, beside it */
    const bool inwards = film ? !put->outer_side : put->outer_side;
    const long inner = (long)face, outer = (long)face - 1;
    double left = fill(start, wall, inwards ? inner : outer, inwards ? 1 : -1,
                       put->water);
    if (!film && wall->face[face].film == NULL)
        left = fill(start, wall, inwards ? outer : inner, inwards ? -1 : 1,
                    left);
    if (!(left > 1e-12 * put->water))
        return BW_OK;
    return bw_fail_domain(
        err,
        "%s kg/m2 of water cannot be put at %s: there is room for %s kg/m2",
        BW_NUMBER_G(put->water, 3), model->section->slab[put->slab].label,
        BW_NUMBER_G(put->water - left, 3));
}

static bool is_vented(const bw_wall *wall, size_t cell)
{
    for (size_t k = 0; k < wall->vent_count; k++)
        if (wall->vent[k].cell == cell)
            return true;
    return false;
}

/* The faces on either side of the wetted cells beyond which the air is that
 * the wall dries into: that of a ventilated cavity or of a surface. */
static void ends_of(const bw_wall *wall, bw_range wetted, size_t side[2])
{
    side[0] = wetted.first;
    while (side[0] > 0 && !is_vented(wall, side[0] - 1))
        side[0]--;
    side[1] = wetted.first + wetted.count;
    while (side[1] < wall->n && !is_vented(wall, side[1]))
        side[1]++;
}

static bw_status close_sides(const bw_start *start, bw_model *model,
                             bw_closed closed, bw_error *err)
{
    const bw_range wetted = start->wetted;
    for (size_t i = wetted.first; i < wetted.first + wetted.count; i++)
        if (is_vented(&model->wall, i))
            return bw_fail_domain(err, "no side of a ventilated cavity that is "
                                       "wetted itself can be closed");
    const size_t faces = model->wall.n + 1;
    bw_face *face = BW_NEW(&model->arena, bw_face, faces);
    bw_film *film = BW_NEW(&model->arena, bw_film, 1);
    BW_TRY_MEMORY(face != NULL && film != NULL, err);
    memcpy(face, model->wall.face, faces * sizeof *face);
    for (int i = 0; i < BW_FILM_ROWS + 2; i++)
        film->resistance[i] = CLOSED;
    size_t side[2];
    ends_of(&model->wall, wetted, side);
    const bool shut[2] = {closed != BW_CLOSED_INSIDE,
                          closed != BW_CLOSED_OUTSIDE};
    for (int k = 0; k < 2; k++)
        if (shut[k]) {
            face[side[k]].film = film;
            face[side[k]].liquid = false;
        }
    model->wall.face = face;
    return BW_OK;
}

/* ---- the whole ---- */

static bw_status check(const bw_model *model,
                       const bw_transient_options *options, bw_error *err)
{
    if (options->state != NULL && options->state_cells != model->wall.n)
        return bw_fail_domain(err,
                              "the state to start from is of a wall of %zu "
                              "cells; this one has %zu",
                              options->state_cells, model->wall.n);
    const double water = options->put.water;
    if (!(water >= 0) || !isfinite(water))
        return bw_fail_domain(err,
                              "the water put at a place must not be negative");
    if (options->closed != BW_CLOSED_NOWHERE && !(water > 0))
        return bw_fail_domain(
            err, "a side can be closed only beside water that is put");
    return BW_OK;
}

bw_status bw_start_make(bw_start *start, bw_model *model,
                        const bw_assembly *assembly, const bw_year *year,
                        const bw_hourly *now,
                        const bw_transient_options *options, bw_error *err)
{
    const size_t size = 2 * model->wall.n;
    memset(start, 0, sizeof *start);
    BW_TRY(check(model, options, err));
    start->v = BW_NEW(&model->arena, double, size);
    BW_TRY_MEMORY(start->v != NULL, err);
    if (options->state != NULL)
        memcpy(start->v, options->state, size * sizeof *start->v);
    else if (!by_layers(start, model, assembly, year, now))
        return bw_fail_memory(err);
    if (!(options->put.water > 0))
        return BW_OK;
    BW_TRY(put_water(start, model, &options->put, err));
    return options->closed == BW_CLOSED_NOWHERE
               ? BW_OK
               : close_sides(start, model, options->closed, err);
}
