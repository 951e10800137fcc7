#ifndef BW_TESTS_JUNCTION_STRIP_H
#define BW_TESTS_JUNCTION_STRIP_H

/* A section as a drawing: a strip with the outside below, cut where the
 * monthly method cuts. A slab without resistance is a film. */

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/glaser.h"
#include "junction/vapour_year.h"
#include "vapour.h"

enum { STRIP_MOST = 64, STRIP_COLUMNS = 3, STRIP_ROWS_MOST = 400 };
static const double strip_x[STRIP_COLUMNS + 1] = {0.0, 0.1, 0.35, 0.5};
static const double strip_width = 0.5;

typedef struct strip {
    bw_arena arena;
    const bw_section *section;
    bw_junction junction;
    bw_environment environment[2]; /* outside, room */
    bw_drawn_material material[STRIP_MOST];
    bw_drawn_film film[STRIP_MOST];
    double y[STRIP_ROWS_MOST + 1];
    int cell[STRIP_ROWS_MOST * STRIP_COLUMNS];
    int film_x[STRIP_ROWS_MOST * (STRIP_COLUMNS + 1)];
    int film_y[(STRIP_ROWS_MOST + 1) * STRIP_COLUMNS];
    double inner[STRIP_MOST]; /* where a slab's inner face is */
    bool is_film[STRIP_MOST];
    bw_raster_face face[2 * STRIP_COLUMNS];
    bw_raster raster;
    bw_vapour vapour;
    bw_vapour_air air[2];
} strip;

/* The face rows of a strip: below the outside, above the room. */
static inline void strip_faces(strip *s)
{
    bw_raster *r = &s->raster;
    for (size_t i = 0; i < STRIP_COLUMNS; ++i)
        for (size_t e = 0; e < 2; ++e) {
            size_t row = e == 0 ? 0 : r->ny - 1;
            s->face[r->face_count++] = (bw_raster_face){
                .cell = row * r->nx + i,
                .side = e == 0 ? BW_EDGE_BELOW : BW_EDGE_ABOVE,
                .environment = e,
                .length = strip_x[i + 1] - strip_x[i],
                .film = s->film_y[(e == 0 ? 0 : r->ny) * r->nx + i],
            };
        }
}

static inline void strip_slab(strip *s, size_t k)
{
    const bw_slab *slab = &s->section->slab[k];
    bw_raster *r = &s->raster;
    s->is_film[k] = slab->resistance <= 0.0;
    if (s->is_film[k]) {
        s->film[k] = (bw_drawn_film){.name = slab->label,
                                     .sd_dry = slab->sd_dry,
                                     .sd_wet = slab->sd_wet,
                                     .sd_curve = slab->sd_curve};
        for (size_t i = 0; i < r->nx; ++i) {
            ck_assert_int_eq(s->film_y[r->ny * r->nx + i], BW_NOT_THERE);
            s->film_y[r->ny * r->nx + i] = (int)k;
        }
        s->inner[k] = s->y[r->ny];
        return;
    }
    ck_assert_ptr_null(slab->sd_curve);
    double thickness = slab->thickness > 0.0 ? slab->thickness : 0.001;
    s->material[k] = (bw_drawn_material){.name = slab->label,
                                         .conductivity = thickness /
                                                         slab->resistance,
                                         .mu_dry = slab->sd_dry / thickness,
                                         .mu_wet = slab->sd_wet / thickness};
    size_t strips = bw_slab_strips(slab);
    double outer = s->y[r->ny];
    for (size_t n = 1; n <= strips; ++n) {
        for (size_t i = 0; i < r->nx; ++i)
            s->cell[r->ny * r->nx + i] = (int)k;
        s->y[++r->ny] = outer + thickness * (double)n / (double)strips;
    }
    s->inner[k] = s->y[r->ny];
}

static inline void strip_of(strip *s, const bw_section *section,
                            const bw_boundary *boundary)
{
    memset(s, 0, sizeof *s);
    memset(s->film_x, 0xff, sizeof s->film_x); /* BW_NOT_THERE */
    memset(s->film_y, 0xff, sizeof s->film_y);
    ck_assert_uint_le(section->slab_count, STRIP_MOST);
    s->section = section;
    s->environment[0] = (bw_environment){.kind = BW_ENVIRONMENT_OUTSIDE,
                                         .id = "outside"};
    s->environment[1] = (bw_environment){.kind = BW_ENVIRONMENT_ROOM,
                                         .id = "room"};
    s->junction = (bw_junction){
        .file = "strip",
        .environment_count = 2,
        .environment = s->environment,
        .material_count = section->slab_count,
        .material = s->material,
        .film_count = section->slab_count,
        .film = s->film,
        .symmetry = {[BW_EDGE_LEFT] = true, [BW_EDGE_RIGHT] = true},
    };
    s->raster = (bw_raster){.junction = &s->junction,
                            .nx = STRIP_COLUMNS,
                            .x = strip_x,
                            .y = s->y,
                            .material = s->cell,
                            .film_x = s->film_x,
                            .film_y = s->film_y,
                            .face = s->face};
    for (size_t k = 0; k < section->slab_count; ++k)
        strip_slab(s, k);
    s->raster.filled = s->raster.nx * s->raster.ny;
    strip_faces(s);
    const double surface[2] = {section->outer_resistance,
                               section->inner_resistance};
    for (int m = 0; m < BW_MONTHS; ++m) {
        s->air[0].theta[m] = boundary[m].theta_e;
        s->air[0].p[m] = boundary[m].p_e;
        s->air[1].theta[m] = boundary[m].theta_i;
        s->air[1].p[m] = boundary[m].p_i;
    }
    ck_assert_int_eq(
        bw_vapour_make(&s->vapour, &s->arena, &s->raster, surface, NULL),
        BW_OK);
}

/* The nodes on the line of the grid at y; side: where the cells lie whose nodes
 * they are, which of a film's two. */
static inline bw_vapour_line strip_line_at(strip *s, double y,
                                           bw_cell_side side)
{
    const bw_raster *g = &s->raster;
    const bool below = side == BW_EDGE_BELOW;
    bw_vapour_line line = {
        .node = bw_arena_get(&s->arena, g->nx + 1, sizeof *line.node),
        .length = bw_arena_get(&s->arena, g->nx + 1, sizeof *line.length)};
    size_t at = 0;
    for (size_t j = 1; j <= g->ny; ++j)
        if (fabs(g->y[j] - y) < fabs(g->y[at] - y))
            at = j;
    ck_assert(below ? at > 0 : at < g->ny);
    const size_t *corner = s->vapour.nodes.corner +
                           (below ? at - 1 : at) * g->nx * BW_CORNERS;
    const size_t left = below ? 3 : 0, right = below ? 2 : 1;
    for (size_t i = 0; i < g->nx; ++i) {
        const double half = 0.5 * (g->x[i + 1] - g->x[i]);
        line.node[i] = corner[i * BW_CORNERS + left];
        line.node[i + 1] = corner[i * BW_CORNERS + right];
        line.length[i] += half;
        line.length[i + 1] += half;
        line.total += 2.0 * half;
    }
    line.count = g->nx + 1;
    return line;
}

/* A plane of the section, inside the wall. */
static inline bw_vapour_line strip_line(strip *s, bw_plane_at at)
{
    double y = s->inner[at.slab];
    bool film = s->is_film[at.slab];
    if (!at.layer_face) {
        double thickness = s->section->slab[at.slab].thickness;
        y -= (thickness > 0.0 ? thickness : 0.001) - at.depth;
    }
    bw_vapour_line line = strip_line_at(s, y,
                                        film ? BW_EDGE_ABOVE : BW_EDGE_BELOW);
    ck_assert_double_eq_tol(line.total, strip_width, 1e-12);
    return line;
}

static inline bw_vapour_result strip_run(strip *s,
                                         const bw_vapour_options *options)
{
    bw_vapour_result r;
    bw_error err;
    bw_status status = bw_vapour_year(&r, &s->arena, &s->vapour, s->air,
                                      options, &err);
    ck_assert_msg(status == BW_OK, "%s", status == BW_OK ? "" : err.message);
    return r;
}

/* What stands on a line, of a field [12][nodes], kg/m2. */
static inline double strip_sum(const strip *s, const bw_vapour_line *line,
                               const double *field, size_t month)
{
    double sum = 0.0;
    for (size_t i = 0; i < line->count; ++i)
        sum += field[month * s->vapour.nodes.count + line->node[i]];
    return sum / line->total;
}

#endif
