/* A raster as cells of heat and moisture: the tables of its materials, and
 * which faces let liquid pass, by the rules of one dimension (model.c of the
 * folder transient).
 *
 * Cells are numbered along the shorter side of the drawing, so that those that
 * exchange have near numbers. */

#include <stdint.h>

#include "bothways/air.h"
#include "bothways/geography.h"
#include "fail.h"
#include "hour_sheet.h"
#include "keep.h"
#include "storage.h"

typedef struct maker {
    bw_sheet_model *out;
    bw_arena *arena;
    const bw_raster *raster;
    bw_hygro *hygro; /* [materials] */
    bw_film *film;   /* [films] */
    const bw_hygro **of;
    double *area;
    bw_sheet_face *face;
    bw_sheet_edge *edge;
} maker;

static double width(const bw_raster *r, size_t i)
{
    return r->x[i + 1] - r->x[i];
}

static double height(const bw_raster *r, size_t j)
{
    return r->y[j + 1] - r->y[j];
}

/* A metre of the material, or of its layer of air. */
bw_slab bw_sheet_slab(const bw_drawn_material *drawn)
{
    bw_slab slab = {.label = drawn->name,
                    .material = drawn->material,
                    .kind = drawn->air ? BW_LAYER_CAVITY : BW_LAYER_SOLID,
                    .thickness = 1.0,
                    .resistance = 1.0 / drawn->conductivity};
    if (!drawn->air)
        bw_slab_set_vapour(&slab);
    slab.sd_curve = NULL;
    slab.sd_dry = drawn->mu_dry;
    slab.sd_wet = drawn->mu_wet;
    return slab;
}

bw_slab bw_sheet_film_slab(const bw_drawn_film *drawn)
{
    return (bw_slab){.label = drawn->name,
                     .material = drawn->material,
                     .kind = BW_LAYER_MEMBRANE,
                     .sd_dry = drawn->sd_dry,
                     .sd_wet = drawn->sd_wet,
                     .sd_curve = drawn->sd_curve};
}

static bw_status make_tables(maker *m, bw_error *err)
{
    const bw_junction *junction = m->raster->junction;
    for (size_t k = 0; k < junction->material_count; ++k) {
        bool used = false;
        for (size_t c = 0; c < m->raster->nx * m->raster->ny; ++c)
            used = used || m->raster->material[c] == (int)k;
        if (!used)
            continue;
        const bw_slab slab = bw_sheet_slab(&junction->material[k]);
        bw_storage storage; /* read while the table is built */
        BW_TRY(bw_storage_of_slab(&storage, &slab, false, err));
        const bw_hygro_law law = bw_storage_law(&storage);
        BW_TRY(bw_hygro_build(&m->hygro[k], &law, err));
        m->out->bound[k] = bw_bound_water(&slab, &storage);
    }
    for (size_t k = 0; k < junction->film_count; ++k) {
        const bw_slab slab = bw_sheet_film_slab(&junction->film[k]);
        double *resistance = m->film[k].resistance;
        for (int i = 0; i <= BW_FILM_ROWS; ++i)
            resistance[i] = bw_slab_sd(&slab, (double)i / BW_FILM_ROWS, 1e-6) /
                            BW_DELTA_0;
        resistance[BW_FILM_ROWS + 1] = resistance[BW_FILM_ROWS];
    }
    return BW_OK;
}

/* The cells in the order of their numbers. */
static void number_cells(maker *m)
{
    const bw_raster *r = m->raster;
    const bool upright = r->ny < r->nx; /* numbered along y */
    const size_t outer = upright ? r->nx : r->ny;
    const size_t inner = upright ? r->ny : r->nx;
    for (size_t a = 0; a < outer; ++a)
        for (size_t b = 0; b < inner; ++b) {
            const size_t i = upright ? a : b, j = upright ? b : a;
            const size_t c = j * r->nx + i, n = m->out->sheet.n;
            m->out->cell[c] = SIZE_MAX;
            if (r->material[c] == BW_NOT_THERE)
                continue;
            m->out->cell[c] = n;
            m->out->raster[n] = c;
            m->area[n] = width(r, i) * height(r, j);
            m->of[n] = &m->hygro[r->material[c]];
            ++m->out->sheet.n;
        }
}

static bw_status add_joints(maker *m, bw_sheet_face *f, bw_error *err)
{
    bw_joint *joint = BW_NEW(m->arena, bw_joint, 2);
    BW_TRY_MEMORY(joint != NULL, err);
    for (int slow = 0; slow < 2; ++slow) {
        bw_joint_build(&joint[slow], m->of[f->a], m->of[f->b], 1 / f->half_a,
                       1 / f->half_b, slow == 1);
        f->face.joint[slow] = &joint[slow];
    }
    return BW_OK;
}

/* Between two cells of the raster, the first before the second. */
static bw_status add_face(maker *m, size_t before, size_t after, double half_a,
                          double half_b, double length, int film, bw_error *err)
{
    const bw_raster *r = m->raster;
    if (r->material[before] == BW_NOT_THERE ||
        r->material[after] == BW_NOT_THERE)
        return BW_OK;
    const size_t a = m->out->cell[before], b = m->out->cell[after];
    bw_sheet_face *f = &m->face[m->out->sheet.face_count++];
    *f = (bw_sheet_face){
        .a = a, .b = b, .half_a = half_a, .half_b = half_b, .length = length};
    f->face.film = film != BW_NOT_THERE ? &m->film[film] : NULL;
    f->face.same = m->of[a] == m->of[b];
    f->face.per = 1 / (half_a + half_b);
    f->face.liquid = film == BW_NOT_THERE && m->of[a]->liquid &&
                     m->of[b]->liquid;
    return f->face.liquid && !f->face.same ? add_joints(m, f, err) : BW_OK;
}

static bw_status add_faces(maker *m, bw_error *err)
{
    const bw_raster *r = m->raster;
    for (size_t j = 0; j < r->ny; ++j)
        for (size_t i = 0; i < r->nx; ++i) {
            const size_t c = j * r->nx + i;
            if (i > 0)
                BW_TRY(add_face(m, c - 1, c, 0.5 * width(r, i - 1),
                                0.5 * width(r, i), height(r, j),
                                r->film_x[j * (r->nx + 1) + i], err));
            if (j > 0)
                BW_TRY(add_face(m, c - r->nx, c, 0.5 * height(r, j - 1),
                                0.5 * height(r, j), width(r, i), r->film_y[c],
                                err));
        }
    return BW_OK;
}

/* Rain passes a face that draws water, and a film that does not shed it (what
 * a coat lets through the weather is to be held to: bw_year_coat). */
static bool takes_rain(const maker *m, size_t cell, int film)
{
    if (film == BW_NOT_THERE)
        return m->of[cell]->liquid;
    const bw_slab slab = bw_sheet_film_slab(&m->raster->junction->film[film]);
    const bw_property *known = &slab.material->water_absorption;
    const bool sheds = known->known ? !(known->value > 0)
                                    : bw_film_sheds_rain(&slab);
    return m->of[cell]->liquid && !sheds;
}

static bw_status add_edges(maker *m, const size_t *side, bw_error *err)
{
    const bw_raster *r = m->raster;
    for (size_t k = 0; k < r->face_count; ++k) {
        const bw_raster_face *face = &r->face[k];
        const size_t i = face->cell % r->nx, j = face->cell / r->nx;
        const bool upright = face->side == BW_EDGE_LEFT ||
                             face->side == BW_EDGE_RIGHT;
        bw_sheet_edge *e = &m->edge[m->out->sheet.edge_count++];
        *e = (bw_sheet_edge){
            .cell = m->out->cell[face->cell],
            .side = side != NULL ? side[k] : face->environment,
            .half = 0.5 * (upright ? width(r, i) : height(r, j)),
            .length = face->length,
        };
        if (e->side >= BW_SHEET_SIDES)
            return bw_fail_domain(err,
                                  "a drawing has more than %d kinds of surface",
                                  (int)BW_SHEET_SIDES);
        e->face.film = face->film != BW_NOT_THERE ? &m->film[face->film] : NULL;
        e->face.liquid = takes_rain(m, e->cell, face->film);
    }
    return BW_OK;
}

static bool reserve(maker *m)
{
    const bw_junction *junction = m->raster->junction;
    const size_t all = m->raster->nx * m->raster->ny, n = m->raster->filled;
    m->hygro = BW_NEW(m->arena, bw_hygro, junction->material_count + 1);
    m->film = BW_NEW(m->arena, bw_film, junction->film_count + 1);
    m->of = BW_NEW(m->arena, const bw_hygro *, n + 1);
    m->area = BW_NEW(m->arena, double, n + 1);
    m->face = BW_NEW(m->arena, bw_sheet_face, 2 * n + 1);
    m->edge = BW_NEW(m->arena, bw_sheet_edge, m->raster->face_count + 1);
    m->out->cell = BW_NEW(m->arena, size_t, all);
    m->out->raster = BW_NEW(m->arena, size_t, n + 1);
    m->out->bound = BW_NEW(m->arena, double, junction->material_count + 1);
    return !m->arena->failed;
}

bw_status bw_sheet_make(bw_sheet_model *out, bw_arena *arena,
                        const bw_raster *raster, const size_t *side,
                        double pressure, bw_error *err)
{
    maker m = {.out = out, .arena = arena, .raster = raster};
    *out = (bw_sheet_model){.sheet = {.latent = BW_LATENT_HEAT, .r_v = BW_R_V}};
    bw_humid *humid = BW_NEW(arena, bw_humid, 1);
    BW_TRY_MEMORY(humid != NULL && reserve(&m), err);
    bw_humid_build(humid, bw_saturation_pressure, bw_vapour_permeability_of_air,
                   pressure);
    BW_TRY(make_tables(&m, err));
    number_cells(&m);
    BW_TRY(add_faces(&m, err));
    BW_TRY(add_edges(&m, side, err));
    bw_sheet *s = &out->sheet;
    s->area = m.area;
    s->hygro = m.of;
    s->face = m.face;
    s->edge = m.edge;
    s->humid = humid;
    return bw_sheet_prepare(s, arena, err);
}

void bw_sheet_hour_at(const void *ctx, double t, bw_sheet_weather *w)
{
    const bw_sheet_hour *h = ctx;
    *w = (bw_sheet_weather){.redistributes = true};
    for (size_t k = 0; k < BW_SHEET_SIDES; ++k)
        w->side[k] = (bw_sheet_air){.h = 1.0, .beta = 1.0};
    for (size_t k = 0; k < h->sides; ++k) {
        const bw_window hour = bw_window_from(h->year[k], h->hour, 1, h->from);
        bw_edge e;
        bw_window_edge(&hour, t, &e);
        if (h->room[k])
            w->side[k] = (bw_sheet_air){
                .theta = e.theta_i, .p = e.p_i, .h = e.h_i, .beta = e.beta_i};
        else
            w->side[k] = (bw_sheet_air){.theta = e.theta_e,
                                        .p = e.p_e,
                                        .h = e.h_e,
                                        .beta = e.beta_e,
                                        .gain = e.gain,
                                        .rain = e.rain};
        w->redistributes = w->redistributes && (h->room[k] || e.redistributes);
        if (k == 0)
            w->leak_theta = e.theta_e;
    }
    for (size_t k = 0; k < BW_SHEET_RAINS; ++k) {
        w->leak[k] = h->leak[k] != NULL ? h->leak[k][h->hour] : 0.0;
        w->redistributes = w->redistributes && !(w->leak[k] > 0.0);
    }
}
