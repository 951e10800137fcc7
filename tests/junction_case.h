#ifndef BW_TESTS_JUNCTION_CASE_H
#define BW_TESTS_JUNCTION_CASE_H

/* Drawings made by hand: conductivities and rectangles in mm. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "arena.h"
#include "bothways/junction.h"

enum { MOST_DRAWN = 64 };

typedef struct drawn {
    bw_junction junction;
    bw_drawn_material material[MOST_DRAWN];
    bw_filling filling[MOST_DRAWN];
    bw_drawn_space space[MOST_DRAWN];
    bw_environment environment[4];
    bw_arena arena;
} drawn;

static const bw_material some_material = {.id = "m", .name = "m"};

/* Nothing drawn yet; outside, and one room. */
static inline void draw_start(drawn *d)
{
    memset(d, 0, sizeof *d);
    bw_junction *j = &d->junction;
    j->file = "drawing.xml";
    j->id = j->title = j->remark = j->kind = "";
    j->material = d->material;
    j->filling = d->filling;
    j->space = d->space;
    j->environment = d->environment;
    j->environment_count = 2;
    d->environment[0] = (bw_environment){.kind = BW_ENVIRONMENT_OUTSIDE,
                                         .id = "outside"};
    d->environment[1] = (bw_environment){.kind = BW_ENVIRONMENT_ROOM,
                                         .id = "room"};
}

/* Surface resistances [m2 K/W] that count whatever is asked for. */
static inline void draw_resistances(drawn *d, double outside, double room)
{
    const double r[] = {outside, room};
    for (size_t e = 0; e < 2; e++) {
        d->environment[e].has_surface_resistance = true;
        d->environment[e].surface_resistance = r[e];
    }
}

static inline bw_rectangle in_mm(double x0, double x1, double y0, double y1)
{
    return (bw_rectangle){1e-3 * x0, 1e-3 * x1, 1e-3 * y0, 1e-3 * y1};
}

/* A rectangle of a material, in the place of whatever is there. */
static inline void draw_box(drawn *d, double lambda, double x0, double x1,
                            double y0, double y1)
{
    bw_junction *j = &d->junction;
    ck_assert_uint_lt(j->filling_count, MOST_DRAWN);
    d->material[j->material_count] = (bw_drawn_material){
        .name = "m",
        .material = &some_material,
        .conductivity = lambda,
        .mu_dry = 1.0,
        .mu_wet = 1.0};
    d->filling[j->filling_count] = (bw_filling){.at = in_mm(x0, x1, y0, y1),
                                                .material = j->material_count++,
                                                .over = true,
                                                .line = 100 +
                                                        (long)j->filling_count};
    j->filling_count++;
}

static inline void draw_space(drawn *d, size_t environment, double x0,
                              double x1, double y0, double y1)
{
    bw_junction *j = &d->junction;
    ck_assert_uint_lt(j->space_count, MOST_DRAWN);
    d->space[j->space_count] = (bw_drawn_space){.at = in_mm(x0, x1, y0, y1),
                                                .environment = environment,
                                                .over = true,
                                                .line = 10 +
                                                        (long)j->space_count};
    j->space_count++;
}

static inline void draw_cut(drawn *d, bool left, bool right, bool below,
                            bool above)
{
    d->junction.symmetry[BW_EDGE_LEFT] = left;
    d->junction.symmetry[BW_EDGE_RIGHT] = right;
    d->junction.symmetry[BW_EDGE_BELOW] = below;
    d->junction.symmetry[BW_EDGE_ABOVE] = above;
}

static inline void draw_end(drawn *d)
{
    bw_arena_release(&d->arena);
}

#endif
