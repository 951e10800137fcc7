#ifndef BW_TESTS_JUNCTION_PLAN_H
#define BW_TESTS_JUNCTION_PLAN_H

/* Rasters made by hand: cells of materials or of air of an environment. */

#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "junction/vapour_year.h"

enum { PLAN_KINDS = 8, PLAN_ENVIRONMENTS = 2, NOWHERE = -1 };

typedef struct plan {
    bw_arena arena;
    size_t nx, ny;
    double *x, *y;
    int *cell;         /* material, or BW_NOT_THERE */
    int *air;          /* its environment then; NOWHERE elsewhere */
    int rim[BW_EDGES]; /* environment along a side; NOWHERE: symmetry */
    int *film_x, *film_y;
    bw_drawn_material material[PLAN_KINDS];
    bw_drawn_film film[PLAN_KINDS];
    bw_environment environment[PLAN_ENVIRONMENTS]; /* outside, room */
    double surface[PLAN_ENVIRONMENTS];
    bw_junction junction;
    bw_raster raster;
    bw_vapour vapour;
} plan;

static inline void plan_start(plan *p, size_t nx, size_t ny)
{
    memset(p, 0, sizeof *p);
    p->nx = nx;
    p->ny = ny;
    p->x = BW_NEW(&p->arena, double, nx + 1);
    p->y = BW_NEW(&p->arena, double, ny + 1);
    p->cell = BW_NEW(&p->arena, int, nx *ny);
    p->air = BW_NEW(&p->arena, int, nx *ny);
    p->film_x = BW_NEW(&p->arena, int, (nx + 1) * ny);
    p->film_y = BW_NEW(&p->arena, int, nx *(ny + 1));
    for (size_t i = 0; i < nx * ny; ++i)
        p->air[i] = NOWHERE;
    for (size_t i = 0; i < (nx + 1) * ny; ++i)
        p->film_x[i] = BW_NOT_THERE;
    for (size_t i = 0; i < nx * (ny + 1); ++i)
        p->film_y[i] = BW_NOT_THERE;
    for (size_t e = 0; e < BW_EDGES; ++e)
        p->rim[e] = NOWHERE;
    p->environment[0] = (bw_environment){.kind = BW_ENVIRONMENT_OUTSIDE,
                                         .id = "outside"};
    p->environment[1] = (bw_environment){.kind = BW_ENVIRONMENT_ROOM,
                                         .id = "room"};
    p->surface[0] = 0.04;
    p->surface[1] = 0.25;
}

/* What lies beyond a side of a cell: an environment, or NOWHERE. */
static inline int plan_beyond(const plan *p, size_t i, size_t j,
                              bw_cell_side side)
{
    const bool rim[BW_EDGES] = {i == 0, i + 1 == p->nx, j == 0, j + 1 == p->ny};
    const size_t cell = j * p->nx + i;
    const size_t other[BW_EDGES] = {cell - 1, cell + 1, cell - p->nx,
                                    cell + p->nx};
    return rim[side] ? p->rim[side] : p->air[other[side]];
}

static inline void plan_make(plan *p)
{
    bw_raster_face *face = BW_NEW(&p->arena, bw_raster_face, 4 * p->nx * p->ny);
    size_t faces = 0, filled = 0;
    for (size_t j = 0; j < p->ny; ++j)
        for (size_t i = 0; i < p->nx; ++i) {
            if (p->cell[j * p->nx + i] == BW_NOT_THERE)
                continue;
            ++filled;
            for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side) {
                const int beyond = plan_beyond(p, i, j, side);
                const int film[BW_EDGES] = {
                    p->film_x[j * (p->nx + 1) + i],
                    p->film_x[j * (p->nx + 1) + i + 1],
                    p->film_y[j * p->nx + i],
                    p->film_y[(j + 1) * p->nx + i],
                };
                const bool upright = side <= BW_EDGE_RIGHT;
                const double w = p->x[i + 1] - p->x[i];
                const double h = p->y[j + 1] - p->y[j];
                if (beyond == NOWHERE)
                    continue;
                face[faces++] = (bw_raster_face){
                    .cell = j * p->nx + i,
                    .side = side,
                    .environment = (size_t)beyond,
                    .length = upright ? h : w,
                    .x = side == BW_EDGE_LEFT    ? p->x[i]
                         : side == BW_EDGE_RIGHT ? p->x[i + 1]
                                                 : p->x[i] + 0.5 * w,
                    .y = side == BW_EDGE_BELOW   ? p->y[j]
                         : side == BW_EDGE_ABOVE ? p->y[j + 1]
                                                 : p->y[j] + 0.5 * h,
                    .half = 0.5 * (upright ? w : h),
                    .film = film[side],
                };
            }
        }
    p->junction = (bw_junction){.file = "plan",
                                .environment_count = PLAN_ENVIRONMENTS,
                                .environment = p->environment,
                                .material_count = PLAN_KINDS,
                                .material = p->material,
                                .film_count = PLAN_KINDS,
                                .film = p->film};
    for (size_t e = 0; e < BW_EDGES; ++e)
        p->junction.symmetry[e] = p->rim[e] == NOWHERE;
    p->raster = (bw_raster){.junction = &p->junction,
                            .nx = p->nx,
                            .ny = p->ny,
                            .x = p->x,
                            .y = p->y,
                            .material = p->cell,
                            .film_x = p->film_x,
                            .film_y = p->film_y,
                            .filled = filled,
                            .face_count = faces,
                            .face = face};
    ck_assert_int_eq(
        bw_vapour_make(&p->vapour, &p->arena, &p->raster, p->surface, NULL),
        BW_OK);
}

static inline bw_vapour_result plan_run(plan *p, const bw_vapour_air *air,
                                        const bw_vapour_options *options)
{
    bw_vapour_result r;
    bw_error err;
    const bw_status status = bw_vapour_year(&r, &p->arena, &p->vapour, air,
                                            options, &err);
    ck_assert_msg(status == BW_OK, "%s", status == BW_OK ? "" : err.message);
    return r;
}

/* Not random: the same numbers everywhere. 0 <= value < 1. */
static inline double plan_chance(unsigned long *state)
{
    *state = (*state * 1103515245UL + 12345UL) & 0x7fffffffUL;
    return (double)*state / 2147483648.0;
}

#endif
