/* A wall on its plinth, with the floor beside it: section from above to below,
 * outside to the left. The wall's outer face is x = 0, the plinth's top y = 0.
 *
 *   floor on the ground   soil below it and beside the plinth, both as in its
 *                         own file
 *   any other floor       a void below it, as cold as outdoor air
 *
 * Invariant: the floor goes on to the right and the wall upwards, each as in
 * its own file. */

#include <math.h>

#include "beyond.h"
#include "fail.h"
#include "foot.h"

typedef struct foot {
    bw_shaping *s;
    double under;  /* m, underside of the floor */
    double bottom; /* m, of the plinth */
    size_t below;  /* environment under the floor */
} foot;

static void draw_below(foot *f, double right)
{
    bw_shaping *s = f->s;
    const bw_member *plinth = &s->parts->member;
    const double low = f->bottom - bw_shaping_air;
    const double surface = -plinth->above;
    const bool ground = s->b.wall->beyond.kind != NULL;
    const bw_environment below = {
        .kind = ground ? BW_ENVIRONMENT_GROUND : BW_ENVIRONMENT_OUTSIDE,
        .id = ground ? "ground" : "void",
        .beyond = s->b.wall->beyond,
        .has_surface_resistance = !ground && s->b.outer_resistance > 0.0 &&
                                  s->b.dropped > 0,
        .surface_resistance = s->b.outer_resistance,
    };
    f->below = bw_draw_environment(s->d, &below);
    bw_shaping_space(s, f->below, 0.0, right, low, f->under);
    const double soil = ground ? fmax(surface, low) : low;
    bw_shaping_space(s, f->below, -bw_shaping_air, 0.0, low, soil);
    bw_shaping_space(s, BW_OUTSIDE, -bw_shaping_air, 0.0, soil, s->length);
}

/* Layers of the floor: those under the wall's foot, or beside it. */
static void draw_floor(foot *f, double right)
{
    bw_shaping *s = f->s;
    const bw_stack *b = &s->b;
    for (size_t k = 0; k < b->count; k++) {
        const double y0 = f->under + b->at[k], y1 = f->under + b->at[k + 1];
        const double x0 = y1 > 1e-9 ? s->a.total : 0.0;
        if (b->film[k])
            bw_draw_film_line(s->d, b->material[k],
                              bw_shaping_box(x0, right, y0, y0));
        else
            bw_shaping_fill(s, b->material[k], x0, right, y0, y1);
    }
    const double leak = f->under + b->leak_at;
    bw_shaping_leak(s, b, leak > -1e-9 ? s->a.total : 0.0, right, leak, leak);
}

/* The wall upwards. */
static void draw_wall(foot *f)
{
    bw_shaping *s = f->s;
    const bw_stack *a = &s->a;
    for (size_t k = 0; k < a->count; k++)
        if (a->film[k])
            bw_draw_film_line(
                s->d, a->material[k],
                bw_shaping_box(a->at[k], a->at[k], 0.0, s->length));
        else
            bw_shaping_fill(s, a->material[k], a->at[k], a->at[k + 1], 0.0,
                            s->length);
    bw_shaping_leak(s, a, a->leak_at, a->leak_at, 0.0, s->length);
}

static bw_status draw_plate(foot *f)
{
    bw_shaping *s = f->s;
    const bw_member *plate = &s->parts->plate;
    size_t k = 0, material = 0;
    if (!plate->given)
        return BW_OK;
    BW_TRY(bw_shaping_layer(s, &s->a, plate, &k));
    BW_TRY(bw_shaping_material(s, plate, &material));
    const double x0 = s->a.at[k], x1 = s->a.at[k + 1];
    bw_shaping_fill(s, material, x0, x1, 0.0, plate->height);
    const double in = fmin(0.01, 0.25 * (x1 - x0)); /* m, well in the wood */
    bw_draw_spot(s->d, "underside of the plate, outside", x0 + in, 0.0);
    bw_draw_spot(s->d, "underside of the plate, inside", x1 - in, 0.0);
    bw_draw_spot(s->d, "middle of the plate", 0.5 * (x0 + x1),
                 0.5 * plate->height);
    return BW_OK;
}

static bw_status find_levels(foot *f)
{
    bw_shaping *s = f->s;
    const bw_member *plinth = &s->parts->member;
    size_t k = 0;
    f->bottom = -plinth->height;
    if (plinth->layer != NULL) {
        BW_TRY(bw_shaping_layer(s, &s->b, plinth, &k));
        f->under = -s->b.at[k + 1];
    }
    if (f->bottom > f->under + 1e-9)
        return bw_shaping_refuse(
            s, plinth,
            "<plinth> ends above the underside of the floor; its height= is "
            "counted downwards from the foot of the wall, and must reach it");
    if (s->a.wall->beyond.kind != NULL)
        return bw_shaping_refuse(
            s, plinth,
            "<plinth> carries a wall in the ground; a wall-foot takes one in "
            "the air: draw it freely");
    return BW_OK;
}

bw_status bw_shaping_foot(bw_shaping *s)
{
    const bw_member *plinth = &s->parts->member;
    foot f = {.s = s};
    size_t material = 0;
    if (s->d->junction.wall_count < 2 || s->b.wall->element != BW_ELEMENT_FLOOR)
        return bw_shaping_refuse(s, plinth,
                                 "a wall-foot needs two files: the wall, then "
                                 "the floor, which says element=\"floor\"");
    BW_TRY(find_levels(&f));
    BW_TRY(bw_shaping_material(s, plinth, &material));
    const double right = fmax(s->a.total, plinth->width) + s->length;
    draw_below(&f, right);
    bw_shaping_space(s, BW_ROOM, s->a.total, right, f.under + s->b.total,
                     s->length);
    draw_floor(&f, right);
    bw_shaping_fill(s, material, 0.0, plinth->width, f.bottom, 0.0);
    draw_wall(&f);
    BW_TRY(draw_plate(&f));
    bw_shaping_cut(s, false, true, false, true);
    bw_draw_spot(s->d, "floor at the wall", s->a.total, f.under + s->b.total);
    return BW_OK;
}
