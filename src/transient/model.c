#include "model.h"

#include <math.h>
#include <string.h>

#include "bothways/air.h"
#include "bothways/geography.h"
#include "fail.h"
#include "mesh.h"

/* Face cells: what a monitor needs (measured, docs/methods.md). */
static const double FINEST = 0.001; /* m */
/* m, where rain may be drawn in: at most */
static const double FINEST_RAIN = 0.0005;
/* of the depth that an hour of rain can wet */
static const double WETTED_SHARE = 0.025;
static const double LEAST_RAIN = 5e-6; /* m */
/* Into a layer thicker than this rain goes deep: there the cells of the outer
 * half grow less, or the water they hold runs ahead of itself. */
static const double DEEP = 0.15; /* m */
static const double GROWTH_DEEP = 1.2;
/* A solid thinner than this is a coat: no cells. */
static const double THINNEST = 1e-4; /* m */
/* Of a paint that nothing is known of: the most that class W2 of EN 1062-3
 * allows, 0.5 kg/(m2 h^0.5) (memory hi). More rain behind the paint is the
 * worse side: vapour leaves by its sd alone. Class W1 has no upper limit; a
 * paint sold for outer walls that is worse than W2 is an estimate not made. */
static const double COAT_ABSORPTION = 0.5 / 60; /* kg/(m2 s^0.5) */

/* Air changes [1/h] of ventilated cavities, from the field ranges 1-10 behind
 * brick and 100-1000 behind siding: the end of each range that dries least
 * for siding, most for brick with openings top and bottom (slight: one tenth).
 */
static const double CHANGES_HEAVY = 10.0;
static const double CHANGES_LIGHT = 100.0;
static const double SLIGHT = 0.1;
/* m: cladding at least this thick is masonry */
static const double HEAVY = 0.06;

static bool is_film(const bw_slab *slab)
{
    return slab->kind == BW_LAYER_MEMBRANE ||
           (slab->kind == BW_LAYER_SOLID && slab->thickness < THINNEST);
}

static bool add_film(bw_model *model, bw_face *face, const bw_slab *slab)
{
    face->heat_resistance += slab->resistance;
    bw_film *film = BW_NEW(&model->arena, bw_film, 1);
    if (film == NULL)
        return false;
    for (int i = 0; i <= BW_FILM_ROWS; i++)
        film->resistance[i] =
            bw_slab_sd(slab, (double)i / BW_FILM_ROWS, 1e-6) / BW_DELTA_0 +
            (face->film != NULL ? face->film->resistance[i] : 0);
    film->resistance[BW_FILM_ROWS + 1] = film->resistance[BW_FILM_ROWS];
    face->film = film;
    return true;
}

/* Of what is known to draw no water in, or is a tight sheet, no rain passes;
 * what nothing is known of counts as a paint. */
static void add_coat(bw_coat *coat, const bw_slab *slab)
{
    const bw_property *known = &slab->material->water_absorption;
    const bool sheds = bw_film_sheds_rain(slab);
    const double absorption = known->known ? known->value
                              : sheds      ? 0
                                           : COAT_ABSORPTION;
    if (coat->label != NULL && absorption >= coat->absorption)
        return;
    *coat = (bw_coat){.label = slab->label,
                      .absorption = absorption,
                      .assumed = !known->known && !sheds,
                      .sheet = !known->known && sheds};
}

static bool lets_rain(const bw_coat *coat)
{
    return coat->label == NULL || coat->absorption > 0;
}

/* The first cell under rain. An hour of it wets A_w sqrt(3600 s) / w_f deep,
 * a small part of a millimetre where A_w is low; a cell deeper than that is
 * never wet, and its wetness is what stops the uptake. Without rain the same
 * cell follows the dew and the sun of each hour. */
static double rain_cell_of(const bw_storage *s)
{
    const double wetted = sqrt(3600 * s->d_saturated / BW_DIFFUSIVITY_FACTOR);
    return fmax(fmin(FINEST_RAIN, WETTED_SHARE * wetted), LEAST_RAIN);
}

/* `rained`: what rain wets of it, or NULL where none comes to it. */
static size_t cells_of(const bw_slab *slab, const bw_storage *rained, int parts,
                       double *dx)
{
    if (slab->kind == BW_LAYER_CAVITY) {
        if (dx != NULL)
            dx[0] = slab->thickness;
        return 1;
    }
    const double outer = rained != NULL ? rain_cell_of(rained) : FINEST;
    const double growth = rained != NULL && slab->thickness > DEEP
                              ? GROWTH_DEEP
                              : BW_MESH_GROWTH;
    return bw_mesh_layer(slab->thickness, outer, FINEST, growth, parts, dx);
}

static bw_status make_tables(bw_model *model,
                             const bw_transient_options *options, bw_error *err)
{
    const bw_section *section = model->section;
    size_t cells = 0;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        if (is_film(slab))
            continue;
        if (!(slab->thickness > 0))
            return bw_fail_domain(err,
                                  "layer %s has no thickness for the hourly "
                                  "calculation; write thickness=",
                                  slab->label);
        BW_TRY(bw_storage_of_slab(&model->storage[k], slab,
                                  options->allow_missing, err));
        const bw_hygro_law law = bw_storage_law(&model->storage[k]);
        const bw_storage of = bw_storage_of_law(&model->storage[k]);
        BW_TRY(bw_hygro_build_on(options->shelf, (bw_shelf_key){&of, sizeof of},
                                 &model->hygro[k], &law, err));
        cells++;
    }
    if (cells == 0)
        return bw_fail_domain(err, "a wall of membranes alone cannot be "
                                   "simulated; write its other layers, too");
    return BW_OK;
}

/* All that a table of a face is made from. */
typedef struct joint_key {
    bw_storage outer, inner;
    double per_outer, per_inner;
    double slow;
} joint_key;

/* The tables of a face between two materials, cells [0] and [1]. */
static bool add_joints(bw_model *model, bw_shelf *shelf, bw_face *face,
                       const bw_hygro *const *hygro, const double *per_half)
{
    bw_joint *joint = BW_NEW(&model->arena, bw_joint, 2);
    if (joint == NULL)
        return false;
    const bw_storage *outer = &model->storage[hygro[0] - model->hygro];
    const bw_storage *inner = &model->storage[hygro[1] - model->hygro];
    for (int slow = 0; slow < 2; slow++) {
        const joint_key of = {bw_storage_of_law(outer),
                              bw_storage_of_law(inner), per_half[0],
                              per_half[1], slow};
        const bw_shelf_key key = {&of, sizeof of};
        if (!bw_shelf_take(shelf, key, &joint[slow], sizeof *joint)) {
            bw_joint_build(&joint[slow], hygro[0], hygro[1], per_half[0],
                           per_half[1], slow == 1);
            bw_shelf_put(shelf, key, &joint[slow], sizeof *joint);
        }
        face->joint[slow] = &joint[slow];
    }
    return true;
}

/* The outermost solid, which rain may reach through the coats on it; NULL
 * where none can or it draws none in. */
static const bw_storage *rained(bw_model *model)
{
    const bw_slab *slab = model->section->slab;
    size_t k = 0;
    for (; is_film(&slab[k]); k++)
        add_coat(&model->coat, &slab[k]);
    const bool drinks = model->storage[k].d_saturated > 0;
    return drinks && lets_rain(&model->coat) ? &model->storage[k] : NULL;
}

/* Which faces let liquid pass, and by which table between two materials. */
static bool open_faces(bw_model *model, bw_shelf *shelf, bw_face *face)
{
    const bw_wall *wall = &model->wall;
    const bw_hygro *const *hygro = wall->hygro;
    for (size_t i = 0; i <= wall->n; i++) {
        const bool outer = i == 0 || hygro[i - 1]->liquid;
        const bool inner = i == wall->n || hygro[i]->liquid;
        face[i].liquid = outer && inner && face[i].film == NULL;
    }
    /* over the outer face the coat has the say (bw_year_coat) */
    face[0].liquid = hygro[0]->liquid && lets_rain(&model->coat);
    model->blocks_rain = !face[0].liquid;
    for (size_t i = 1; i < wall->n; i++)
        if (face[i].liquid && !face[i].same &&
            !add_joints(model, shelf, &face[i], &hygro[i - 1],
                        &wall->per_half[i - 1]))
            return false;
    return true;
}

/* The films go into the faces, every other slab into its cells. */
static bool fill_slabs(bw_model *model, int parts, const bw_storage *wet,
                       double *dx, const bw_hygro **hygro, bw_face *face)
{
    const bw_section *section = model->section;
    size_t at = 0;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_storage *storage = &model->storage[k];
        model->range[k] = (bw_range){at, 0};
        if (is_film(slab)) {
            if (!add_film(model, &face[at], slab))
                return false;
            continue;
        }
        const size_t count = cells_of(slab, storage == wet ? wet : NULL, parts,
                                      dx + at);
        model->range[k].count = count;
        for (size_t i = at; i < at + count; i++) {
            hygro[i] = &model->hygro[k];
            face[i].same = i > at;
        }
        at += count;
    }
    return true;
}

static bool lay_cells(bw_model *model, const bw_transient_options *options)
{
    const bw_section *section = model->section;
    const int parts = options->grid_refinement > 1
                          ? (int)fmin(ceil(options->grid_refinement - 1e-9), 8)
                          : 1;
    const bw_storage *wet = rained(model);
    size_t n = 0;
    for (size_t k = 0; k < section->slab_count; k++)
        if (!is_film(&section->slab[k]))
            n += cells_of(&section->slab[k],
                          &model->storage[k] == wet ? wet : NULL, parts, NULL);
    double *dx = BW_NEW(&model->arena, double, n);
    double *per_half = BW_NEW(&model->arena, double, n);
    const bw_hygro **hygro = BW_NEW(&model->arena, const bw_hygro *, n);
    bw_face *face = BW_NEW(&model->arena, bw_face, n + 1);
    if (dx == NULL || per_half == NULL || hygro == NULL || face == NULL ||
        !fill_slabs(model, parts, wet, dx, hygro, face))
        return false;
    for (size_t i = 0; i < n; i++)
        per_half[i] = 2 / dx[i];
    for (size_t i = 1; i < n; i++)
        face[i].per = 2 / (dx[i - 1] + dx[i]);
    model->wall.n = n;
    model->wall.per_half = per_half;
    model->wall.dx = dx;
    model->wall.hygro = hygro;
    model->wall.face = face;
    return open_faces(model, options->shelf, face);
}

/* ---- cavities ---- */

static double air_change(const bw_section *section, const bw_layer *layer,
                         size_t slab)
{
    if (layer->air_change > 0)
        return layer->air_change;
    double cladding = 0;
    for (size_t k = 0; k < slab; k++)
        if (section->slab[k].kind == BW_LAYER_SOLID)
            cladding += section->slab[k].thickness;
    const double per_hour = cladding >= HEAVY ? CHANGES_HEAVY : CHANGES_LIGHT;
    return per_hour / 3600 *
           (layer->ventilation == BW_VENT_SLIGHT ? SLIGHT : 1);
}

static bool add_vents(bw_model *model, const bw_assembly *assembly,
                      const bw_transient_options *options)
{
    const bw_section *section = model->section;
    bw_vent *vent = BW_NEW(&model->arena, bw_vent, section->slab_count);
    if (vent == NULL)
        return false;
    model->wall.vent = vent;
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        if (slab->kind != BW_LAYER_CAVITY || options->cavities_blocked ||
            slab->layer >= assembly->layer_count)
            continue;
        const bw_layer *layer = &assembly->layer[slab->layer];
        if (layer->ventilation == BW_VENT_NONE)
            continue;
        vent[model->wall.vent_count++] = (bw_vent){
            .cell = model->range[k].first,
            .flow = air_change(section, layer, k) * slab->thickness,
        };
    }
    return true;
}

/* ---- leaks ---- */

/* Of the cells on both sides of a face, the one that stores more. */
static long thirstier(const bw_wall *wall, size_t face)
{
    if (face == 0)
        return 0;
    if (face == wall->n)
        return (long)wall->n - 1;
    const double outer = bw_hygro_water(wall->hygro[face - 1], 0.8);
    const double inner = bw_hygro_water(wall->hygro[face], 0.8);
    return (long)(inner > outer ? face : face - 1);
}

static void place_leaks(bw_model *model, const bw_assembly *assembly)
{
    const bw_section *section = model->section;
    bw_wall *wall = &model->wall;
    wall->leak_cell = wall->rain_cell = -1;
    model->leak_slab = section->slab_count;
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    const long plane = thirstier(wall, model->range[geography.leak].first);
    if (assembly->air_leakage.given) {
        model->leak_slab = geography.leak;
        wall->leak_cell = plane;
    }
    const bw_rain_leak *rain = &assembly->rain_leak;
    wall->rain_cell = plane;
    if (!rain->given || rain->after_layer < 0)
        return;
    for (size_t k = 0; k < section->slab_count; k++)
        if (section->slab[k].layer <= (size_t)rain->after_layer)
            wall->rain_cell = thirstier(wall, model->range[k].first +
                                                  model->range[k].count);
}

static double fixed_permeability(double theta, double pressure)
{
    (void)theta;
    (void)pressure;
    return BW_DELTA_0;
}

bw_status bw_model_make(bw_model *model, const bw_assembly *assembly,
                        const bw_section *section, double pressure,
                        const bw_transient_options *options, bw_error *err)
{
    memset(model, 0, sizeof *model);
    const size_t count = section->slab_count;
    if (count == 0)
        return bw_fail_domain(err,
                              "a section without layers cannot be simulated");
    model->section = section;
    model->range = BW_NEW(&model->arena, bw_range, count);
    model->storage = BW_NEW(&model->arena, bw_storage, count);
    model->hygro = BW_NEW(&model->arena, bw_hygro, count);
    model->humid = BW_NEW(&model->arena, bw_humid, 1);
    BW_TRY_MEMORY(!model->arena.failed, err);
    bw_humid_build(model->humid, bw_saturation_pressure,
                   options->fixed_permeability ? fixed_permeability
                                               : bw_vapour_permeability_of_air,
                   pressure);
    model->wall.humid = model->humid;
    model->wall.latent = BW_LATENT_HEAT;
    model->wall.r_v = BW_R_V;
    BW_TRY(make_tables(model, options, err));
    BW_TRY_MEMORY(
        lay_cells(model, options) && add_vents(model, assembly, options), err);
    place_leaks(model, assembly);
    return BW_OK;
}

void bw_model_free(bw_model *model)
{
    bw_arena_release(&model->arena);
}
