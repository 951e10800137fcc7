#ifndef BW_TESTS_FULL_JUNCTION_H
#define BW_TESTS_FULL_JUNCTION_H

/* A junction in which everything that can be told is there: an L of two
 * materials between outside and two rooms, the corner of the L at x 0, y 0.
 * Nothing is solved: every number is random and its own, as of
 * full_result.h. */

#include "bothways/assessment.h"
#include "random_wall.h"

enum {
    FULL_ENVIRONMENTS = 3,
    FULL_ROOMS = 2,
    FULL_NX = 4, /* of the L, and at most of any other */
    FULL_NY = 3,
    FULL_LINES = 32,
    FULL_MESH = FULL_LINES * FULL_LINES
};

typedef struct full_junction {
    bw_junction junction;
    bw_environment environment[FULL_ENVIRONMENTS];
    bw_material stuff[2];
    bw_drawn_material material[2];
    bw_filling filling[2];
    bw_drawn_space space[FULL_ROOMS];
    bw_drawn_spot spot[1];
    bw_climate climate;
    bw_junction_heat heat;
    double x[FULL_LINES + 1], y[FULL_LINES + 1];
    int cell[FULL_MESH];
    double weight[FULL_ENVIRONMENTS][FULL_MESH];
    double *weights[FULL_ENVIRONMENTS];
    bw_found coupling[FULL_ENVIRONMENTS * FULL_ENVIRONMENTS];
    bw_coldest coldest[FULL_ROOMS * BW_SURFACES_FLOW];
    double theta[FULL_ENVIRONMENTS * BW_MONTHS];
    double p[FULL_ENVIRONMENTS * BW_MONTHS];
    bw_junction_room room[FULL_ROOMS];
    bw_criterion criterion[2];
    bw_junction_assessment assessment;
    bw_water_place water[1];
    bw_hour_place face[1];
    bw_hour_wood wood[1];
    bw_hour_spot course[1];
    bw_junction_spot at_spot[1];
} full_junction;

static full_junction meeting;

enum { FULL_COLDEST_MONTH = 1, FULL_DAMPEST_MONTH = 7 };

static inline bw_found full_found(dice *d)
{
    return (bw_found){between(d, 0.1, 0.9), between(d, 0.1, 0.9),
                      between(d, 0.1, 0.9), between(d, 1.1, 1.9)};
}

static inline void full_drawing(full_junction *f)
{
    static const char *const ids[] = {"outside", "kitchen", "loft"};
    static const char *const names[] = {"old brick", "wood fibre"};
    for (size_t e = 0; e < FULL_ENVIRONMENTS; e++)
        f->environment[e] = (bw_environment){
            .kind = e == 0 ? BW_ENVIRONMENT_OUTSIDE : BW_ENVIRONMENT_ROOM,
            .id = ids[e]};
    for (size_t i = 0; i < 2; i++) {
        f->stuff[i] = (bw_material){
            .id = i == 0 ? "brick" : "fibre", .name = names[i], .group = "x"};
        f->material[i] = (bw_drawn_material){.name = names[i],
                                             .material = &f->stuff[i],
                                             .conductivity = 0.7 -
                                                             0.3 * (double)i,
                                             .mu_dry = 5.0,
                                             .mu_wet = 5.0};
        f->filling[i] = (bw_filling){.material = i, .over = true};
        f->space[i] = (bw_drawn_space){.environment = i + 1};
    }
    f->filling[0].at = (bw_rectangle){-0.3, 0.0, -0.2, 0.6};
    f->filling[1].at = (bw_rectangle){0.0, 0.9, -0.2, 0.0};
    f->space[0].at = (bw_rectangle){0.0, 0.9, 0.0, 0.3};
    f->space[1].at = (bw_rectangle){0.0, 0.9, 0.3, 0.6};
    f->spot[0] = (bw_drawn_spot){.name = "plate end", .x = -0.2, .y = -0.1};
    f->junction = (bw_junction){.file = "meeting.xml",
                                .id = "meeting",
                                .title = "Where walls meet",
                                .remark = "",
                                .kind = "drawing",
                                .environment_count = FULL_ENVIRONMENTS,
                                .environment = f->environment,
                                .material_count = 2,
                                .material = f->material,
                                .filling_count = 2,
                                .filling = f->filling,
                                .space_count = FULL_ROOMS,
                                .space = f->space,
                                .spot_count = 1,
                                .spot = f->spot};
}

/* Cells within the fillings hold their material, the others none. */
static inline void full_mesh(full_junction *f, size_t nx, size_t ny)
{
    bw_raster *g = &f->heat.raster;
    *g = (bw_raster){.junction = &f->junction,
                     .nx = nx,
                     .ny = ny,
                     .x = f->x,
                     .y = f->y,
                     .material = f->cell};
    for (size_t k = 0; k < nx * ny; k++) {
        const size_t i = k % nx, j = k / nx;
        const double x = 0.5 * (f->x[i] + f->x[i + 1]);
        const double y = 0.5 * (f->y[j] + f->y[j + 1]);
        f->cell[k] = BW_NOT_THERE;
        for (size_t n = 0; n < f->junction.filling_count; n++) {
            const bw_rectangle *r = &f->filling[n].at;
            if (x > r->x0 && x < r->x1 && y > r->y0 && y < r->y1)
                f->cell[k] = (int)f->filling[n].material;
        }
        g->filled += f->cell[k] != BW_NOT_THERE;
    }
}

static inline void full_heat(full_junction *f, dice *d)
{
    bw_junction_heat *h = &f->heat;
    *h = (bw_junction_heat){.junction = &f->junction,
                            .grids = 4,
                            .cells = {1001, 2002, 3003, 4004},
                            .weight = f->weights,
                            .environment_count = FULL_ENVIRONMENTS,
                            .coupling = f->coupling,
                            .l2d = full_found(d),
                            .coldest_count = FULL_ROOMS,
                            .coldest = f->coldest,
                            .flank_count = 2,
                            .has_psi = true,
                            .psi_inner = between(d, 0.1, 0.9),
                            .psi_outer = between(d, 0.1, 0.9),
                            .balance = 3e-8};
    for (size_t e = 0; e < FULL_ENVIRONMENTS; e++) {
        f->weights[e] = f->weight[e];
        for (size_t k = 0; k < FULL_MESH; k++)
            f->weight[e][k] = between(d, 0.1, 0.9);
        for (size_t i = 0; i < FULL_ENVIRONMENTS; i++)
            f->coupling[e * FULL_ENVIRONMENTS + i] = full_found(d);
    }
    for (size_t i = 0; i < FULL_ROOMS * BW_SURFACES_FLOW; i++)
        f->coldest[i] = (bw_coldest){1 + i / BW_SURFACES_FLOW, full_found(d),
                                     between(d, 0.0, 0.9), 0.0};
    for (size_t k = 0; k < 2; k++)
        h->flank[k] = (bw_flank){k == 0 ? BW_EDGE_RIGHT : BW_EDGE_ABOVE,
                                 between(d, 0.1, 0.9), between(d, 0.1, 0.9),
                                 between(d, 0.1, 0.9)};
}

static inline void full_rooms(full_junction *f, dice *d)
{
    static const double rsi[] = {0.25, 0.35, 1.0};
    for (size_t i = 0; i < FULL_ENVIRONMENTS * BW_MONTHS; i++) {
        f->theta[i] = between(d, -9.0, 22.0);
        f->p[i] = between(d, 300.0, 900.0);
    }
    for (size_t r = 0; r < FULL_ROOMS; r++) {
        f->room[r] = (bw_junction_room){.environment = r + 1};
        for (size_t w = 0; w < BW_SURFACES_FLOW; w++) {
            bw_surface_result *s = &f->room[r].surface[w];
            *s = (bw_surface_result){.rsi = rsi[w],
                                     .rsi_source = "",
                                     .frsi = between(d, 0.1, 0.9),
                                     .frsi_required = between(d, 0.1, 0.9),
                                     .critical_month = 10};
            for (int m = 0; m < BW_MONTHS; m++)
                s->month[m] = (bw_surface_month){
                    .theta_si = between(d, 1.0, 19.0),
                    .rh_si = between(d, 0.1, 0.9)};
        }
    }
    for (size_t i = 0; i < 2; i++)
        f->criterion[i] = (bw_criterion){.section = i == 0 ? "kitchen" : "loft",
                                         .criterion = "surface-mould",
                                         .title = "Surface temperature factor",
                                         .method = "steady",
                                         .decides = true,
                                         .has_value = true,
                                         .value = between(d, 0.1, 0.9),
                                         .unit = "-",
                                         .has_limit = i == 0,
                                         .limit = between(d, 0.1, 0.9),
                                         .margin = between(d, 0.1, 0.9),
                                         .verdict = BW_MARGINAL,
                                         .outcome = BW_MARGINAL,
                                         .reason = "somewhere",
                                         .rule = "some rule"};
}

static inline void full_hours(full_junction *f, dice *d)
{
    f->face[0] = (bw_hour_place){.x = -0.2,
                                 .y = -0.1,
                                 .beside = {"old brick", "wood fibre"},
                                 .dampest = 4,
                                 .highest_rh = 0.93,
                                 .above_80 = 801,
                                 .above_90 = 92,
                                 .above_95 = 13,
                                 .mould = 1.7,
                                 .mould_slow = 2.3,
                                 .free_water = 0.04,
                                 .free_month = 3,
                                 .moved = {.rh = 0.021,
                                           .above_95 = 5,
                                           .mould = 0.31,
                                           .mould_slow = 0.47,
                                           .free_water = 0.006}};
    for (int m = 0; m < BW_MONTHS; m++)
        f->face[0].month_rh[m] = 0.77;
    f->wood[0] = (bw_hour_wood){.name = "joist",
                                .material = &f->stuff[1],
                                .limit = 0.2,
                                .highest = 0.17,
                                .first_highest = 0.18,
                                .month = 2,
                                .moved = {.highest = 0.013}};
    f->course[0] = (bw_hour_spot){.name = "plate end", .x = -0.2, .y = -0.1};
    for (size_t i = 0; i < BW_SPANS; i++) {
        f->course[0].theta[i] = between(d, 1.0, 19.0);
        f->course[0].phi[i] = between(d, 0.5, 0.9);
        f->course[0].moisture[i] = between(d, 0.1, 0.2);
    }
    f->assessment.hours = (bw_junction_hours){.asked = true,
                                              .ran = true,
                                              .reason = "",
                                              .cells = 707,
                                              .steps = 30303,
                                              .years = 3,
                                              .periodic = true,
                                              .balance = 2e-9,
                                              .place_count = 1,
                                              .place = f->face,
                                              .wood_count = 1,
                                              .wood = f->wood,
                                              .spot_count = 1,
                                              .spot = f->course,
                                              .compared = true,
                                              .not_compared = "",
                                              .coarse_cells = 171,
                                              .coarse_steps = 29292};
}

static inline void full_junction_make(full_junction *f, dice *d)
{
    static const double x[] = {-0.3, -0.1, 0.0, 0.4, 0.9};
    static const double y[] = {-0.2, 0.0, 0.3, 0.6};
    memset(f, 0, sizeof *f);
    memcpy(f->x, x, sizeof x);
    memcpy(f->y, y, sizeof y);
    full_drawing(f);
    full_heat(f, d);
    full_mesh(f, FULL_NX, FULL_NY);
    full_rooms(f, d);
    f->climate = (bw_climate){.file = "c.csv",
                              .place = "nowhere",
                              .source = "",
                              .licence = "",
                              .remark = ""};
    for (int m = 0; m < BW_MONTHS; m++)
        f->climate.month[m].temperature = between(d, 0.0, 20.0);
    f->climate.month[FULL_COLDEST_MONTH].temperature = -3.0;
    f->water[0] = (bw_water_place){.x = -0.05,
                                   .y = 0.12,
                                   .x0 = -0.07,
                                   .x1 = 0.21,
                                   .y0 = 0.11,
                                   .y1 = 0.19,
                                   .beside = {"this", "that"},
                                   .month = 2,
                                   .most = 0.31,
                                   .most_by_area = 1.7,
                                   .most_shed = 0.9,
                                   .left = 0.13,
                                   .left_by_area = 0.7};
    f->at_spot[0] = (bw_junction_spot){.spot = &f->spot[0],
                                       .material = &f->stuff[0],
                                       .has_rh = true,
                                       .has_moisture = true};
    for (int m = 0; m < BW_MONTHS; m++) {
        f->at_spot[0].theta[m] = between(d, -9.0, 22.0);
        f->at_spot[0].rh[m] = between(d, 0.1, 0.2);
        f->at_spot[0].moisture[m] = between(d, 0.05, 0.25);
    }
    f->at_spot[0].rh[FULL_DAMPEST_MONTH] = between(d, 0.3, 0.9);
    f->assessment = (bw_junction_assessment){
        .spot_count = 1,
        .spot = f->at_spot,
        .junction = &f->junction,
        .climate = &f->climate,
        .heat = &f->heat,
        .theta = f->theta,
        .p = f->p,
        .room_count = FULL_ROOMS,
        .room = f->room,
        .water = {.ran = true,
                  .reason = "",
                  .periodic = true,
                  .years = 1,
                  .place_count = 1,
                  .place = f->water},
        .criterion_count = 2,
        .criterion = f->criterion,
        .profile = "default",
        .verdict = BW_NOT_ASSESSED,
        .surface_verdict = BW_MARGINAL,
        .verdict_reason = "It is made up."};
    full_hours(f, d);
}

#endif
