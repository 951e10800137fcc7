/* Junctions made of walls that exist. Walls run along x with the outer face at
 * y = 0 and the room above; a corner has its vertex at (0, 0). What is a
 * section from above to below is turned at the end, outside to the left.
 *
 * A wall goes on for 1 m, or three times its thickness where that is more, to a
 * cut: ISO 10211's cut-off planes [from memory, medium].
 *
 * Invariant: away from the junction the drawing is the wall between its studs.
 */

#include <math.h>

#include "beyond.h"
#include "fail.h"
#include "foot.h"
#include "shaping.h"

const char *const bw_shape_name[BW_SHAPES] = {
    [BW_SHAPE_OUTER_CORNER] = "outer-corner",
    [BW_SHAPE_INNER_CORNER] = "inner-corner",
    [BW_SHAPE_JAMB] = "window-jamb",
    [BW_SHAPE_HEAD] = "window-head",
    [BW_SHAPE_SILL] = "window-sill",
    [BW_SHAPE_PARTITION] = "partition",
    [BW_SHAPE_JOIST] = "joist-end",
    [BW_SHAPE_STUD] = "stud",
    [BW_SHAPE_BALCONY] = "balcony",
    [BW_SHAPE_FILLED] = "filled-opening",
    [BW_SHAPE_FOOT] = "wall-foot",
};

static const double least_length = 1.0; /* m */
static const double thicknesses = 3.0;
/* ---- corners ----------------------------------------------------------------
 */

/* Layer k from the vertex outwards: the far wall's layers nest in the near
 * one's order. */
static void corner_layer(bw_shaping *s, size_t k, bool from_inside)
{
    const bw_stack *a = &s->a, *b = &s->b;
    const size_t i = from_inside ? a->count - 1 - k : k;
    const double a0 = from_inside ? a->total - a->at[i + 1] : a->at[i];
    const double a1 = from_inside ? a->total - a->at[i] : a->at[i + 1];
    const double b0 = from_inside ? b->total - b->at[i + 1] : b->at[i];
    const double b1 = from_inside ? b->total - b->at[i] : b->at[i + 1];
    const double l = s->length;
    if (a->film[i]) {
        bw_draw_film_line(s->d, a->material[i],
                          bw_shaping_box(-b0, l, -a0, -a0));
        bw_draw_film_line(s->d, b->material[i],
                          bw_shaping_box(-b0, -b0, -a0, l));
        return;
    }
    bw_shaping_fill(s, a->material[i], -b1, l, -a1, -a0);
    bw_shaping_fill(s, b->material[i], -b1, -b0, -a0, l);
}

/* Leaks follow the faces of their layers: as far apart from the vertex as
 * these. */
static void corner_leaks(bw_shaping *s, bool from_inside)
{
    const bw_stack *a = &s->a, *b = &s->b;
    const double ya = from_inside ? a->total - a->leak_at : a->leak_at;
    const double xb = from_inside ? b->total - b->leak_at : b->leak_at;
    bw_shaping_leak(s, a, -xb, s->length, -ya, -ya);
    bw_shaping_leak(s, b, -xb, -xb, -ya, s->length);
}

static bw_status draw_corner(bw_shaping *s, bool outer)
{
    const bw_stack *a = &s->a, *b = &s->b;
    bool same = a->count == b->count;
    for (size_t k = 0; same && k < a->count; k++)
        same = a->film[k] == b->film[k];
    if (!same)
        return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, 0,
                       "the walls \"%.60s\" and \"%.60s\" do not have as many "
                       "layers and films in the same order, so that nobody can "
                       "tell how they meet; draw the corner freely",
                       a->wall->id, b->wall->id);
    const double l = s->length;
    const size_t near = outer ? BW_ROOM : BW_OUTSIDE;
    const size_t far = outer ? BW_OUTSIDE : BW_ROOM;
    for (size_t k = 0; k < a->count; k++)
        corner_layer(s, k, outer);
    corner_leaks(s, outer);
    bw_shaping_space(s, near, 0.0, l, 0.0, l);
    bw_shaping_space(s, far, -b->total - bw_shaping_air, l,
                     -a->total - bw_shaping_air, -a->total);
    bw_shaping_space(s, far, -b->total - bw_shaping_air, -b->total, -a->total,
                     l);
    bw_shaping_cut(s, false, true, false, true);
    bw_draw_spot(s->d, outer ? "corner of the room" : "corner outside", 0.0,
                 0.0);
    return BW_OK;
}

/* ---- openings
 * ---------------------------------------------------------------- */

static bw_status draw_opening(bw_shaping *s)
{
    const bw_member *f = &s->parts->frame, *lining = &s->parts->lining;
    const double d = s->a.total, l = s->length, w = f->width;
    const double inner = f->setback + f->depth; /* face of the frame */
    size_t frame = 0, over = 0;
    if (inner > d + 1e-9)
        return bw_shaping_refuse(
            s, f,
            "<frame> stands out of the wall on the room's side: "
            "setback= and depth= are more than the wall is thick");
    if (lining->given && lining->width >= w)
        return bw_shaping_refuse(
            s, lining,
            "<lining> covers the whole frame; its thickness= must be "
            "below the frame's width=");
    BW_TRY(bw_shaping_material(s, f, &frame));
    bw_shaping_space(s, BW_OUTSIDE, -w, l, -bw_shaping_air, 0.0);
    bw_shaping_space(s, BW_OUTSIDE, -w, 0.0, 0.0, f->setback);
    bw_shaping_space(s, BW_ROOM, -w, l, d, d + bw_shaping_air);
    bw_shaping_space(s, BW_ROOM, -w, 0.0, inner, d);
    bw_shaping_wall(s, &s->a, 0.0, l, 0.0);
    bw_shaping_fill(s, frame, -w, 0.0, f->setback, inner);
    if (lining->given && inner < d - 1e-9) {
        BW_TRY(bw_shaping_material(s, lining, &over));
        bw_shaping_fill(s, over, -lining->width, 0.0, inner, d);
    }
    bw_shaping_cut(s, true, true, false, false);
    bw_draw_spot(s->d, "reveal at the frame",
                 lining->given ? -lining->width : 0.0, inner);
    return BW_OK;
}

/* ---- what runs into or through a wall
 * ------------------------------------------ */

/* From y0 to the cut in the room. */
static bw_status draw_through(bw_shaping *s, double y0, const char *spot)
{
    const bw_member *m = &s->parts->member;
    const double d = s->a.total, l = s->length, half = 0.5 * m->width;
    size_t material = 0;
    BW_TRY(bw_shaping_material(s, m, &material));
    bw_shaping_space(s, BW_OUTSIDE, -l - half, l + half,
                     fmin(0.0, y0) - bw_shaping_air, 0.0);
    bw_shaping_space(s, BW_ROOM, -l - half, l + half, d, d + l);
    bw_shaping_wall(s, &s->a, -l - half, l + half, 0.0);
    bw_shaping_fill(s, material, -half, half, y0, d + l);
    bw_shaping_cut(s, true, true, false, true);
    bw_draw_spot(s->d, spot, 0.0, y0);
    bw_draw_spot(s->d, "surface beside it", half, d);
    return BW_OK;
}

static bw_status draw_partition(bw_shaping *s)
{
    size_t k = 0;
    BW_TRY(bw_shaping_layer(s, &s->a, &s->parts->member, &k));
    return draw_through(s, s->a.at[k + 1], "end of the partition");
}

static bw_status draw_joist(bw_shaping *s)
{
    const bw_member *m = &s->parts->member;
    size_t k = 0;
    BW_TRY(bw_shaping_layer(s, &s->a, m, &k));
    if (m->bearing >= s->a.at[k + 1] - s->a.at[k])
        return bw_shaping_refuse(
            s, m,
            "<joist> runs through its layer: bearing= must be less "
            "than the layer is thick");
    return draw_through(s, s->a.at[k + 1] - m->bearing, "end of the joist");
}

static bw_status draw_balcony(bw_shaping *s)
{
    return draw_through(s, -s->parts->member.reach, "edge of the slab");
}

/* ---- a stud in its bay
 * --------------------------------------------------------- */

static bw_status find_spacing(bw_shaping *s, double *spacing)
{
    const bw_assembly *wall = s->a.wall;
    *spacing = 0.0;
    for (size_t k = 0; k < s->a.count; k++) {
        const bw_framing *f = &wall->layer[s->a.layer[k]].framing;
        if (!f->present)
            continue;
        if (f->width <= 0.0)
            return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, 0,
                           "the framing of \"%.60s\" is given as a fraction; a "
                           "stud that is drawn needs width= and spacing= in "
                           "the wall's file",
                           wall->layer[s->a.layer[k]].id);
        if (*spacing > 0.0 && fabs(*spacing - f->spacing) > 1e-6)
            return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, 0,
                           "the layers of \"%.60s\" are framed at different "
                           "spacings, which no bay shows; draw it freely",
                           wall->id);
        *spacing = f->spacing;
    }
    if (*spacing > 0.0)
        return BW_OK;
    return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, 0,
                   "the wall \"%.60s\" has no framing, and no stud to draw",
                   wall->id);
}

static bw_status draw_stud(bw_shaping *s)
{
    double spacing = 0.0;
    BW_TRY(find_spacing(s, &spacing));
    const double half = 0.5 * spacing, d = s->a.total;
    bw_shaping_space(s, BW_OUTSIDE, -half, half, -bw_shaping_air, 0.0);
    bw_shaping_space(s, BW_ROOM, -half, half, d, d + bw_shaping_air);
    bw_shaping_wall(s, &s->a, -half, half, 0.0);
    for (size_t k = 0; k < s->a.count; k++) {
        const bw_framing *f = &s->a.wall->layer[s->a.layer[k]].framing;
        if (!f->present || s->a.film[k])
            continue;
        const bw_member stud = {.material = f->material};
        size_t material = 0;
        BW_TRY(bw_shaping_material(s, &stud, &material));
        const double top = s->a.at[k + 1];
        bw_shaping_fill(s, material, -0.5 * f->width, 0.5 * f->width,
                        f->depth > 0.0 ? fmax(top - f->depth, s->a.at[k])
                                       : s->a.at[k],
                        top);
    }
    bw_shaping_cut(s, true, true, false, false);
    bw_draw_spot(s->d, "surface at the stud", 0.0, d);
    bw_draw_spot(s->d, "surface between the studs", half, d);
    return BW_OK;
}

/* ---- an opening filled with another wall
 * --------------------------------------- */

static bw_status draw_filled(bw_shaping *s)
{
    const double l = s->length, off = s->parts->offset;
    const double top_a = s->a.total, top_b = off + s->b.total;
    const double low = fmin(0.0, off), high = fmax(top_a, top_b);
    if (s->d->junction.wall_count < 2)
        return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, 0,
                       "a filled opening needs two walls: that around it, then "
                       "that which fills it");
    bw_shaping_space(s, BW_OUTSIDE, -l, l, low - bw_shaping_air, low);
    bw_shaping_space(s, BW_OUTSIDE, -l, 0.0, low, 0.0);
    bw_shaping_space(s, BW_OUTSIDE, 0.0, l, low, off);
    bw_shaping_space(s, BW_ROOM, -l, l, high, high + bw_shaping_air);
    bw_shaping_space(s, BW_ROOM, -l, 0.0, top_a, high);
    bw_shaping_space(s, BW_ROOM, 0.0, l, top_b, high);
    bw_shaping_wall(s, &s->a, -l, 0.0, 0.0);
    bw_shaping_wall(s, &s->b, 0.0, l, off);
    bw_shaping_cut(s, true, true, false, false);
    bw_draw_spot(s->d, "joint at the room", 0.0, fmin(top_a, top_b));
    return BW_OK;
}

/* ---- turning
 * --------------------------------------------------------------------- */

/* (x, y) to (y, x), and upside down for a sill: outside to the left. */
static void turn_ends(double *x0, double *x1, double *y0, double *y1, bool down)
{
    const double a0 = *x0, a1 = *x1;
    *x0 = *y0;
    *x1 = *y1;
    *y0 = down ? -a1 : a0;
    *y1 = down ? -a0 : a1;
}

static void turn(bw_drawing *d, bool down)
{
    bw_junction *j = &d->junction;
    for (size_t i = 0; i < j->filling_count; i++) {
        bw_rectangle *r = &d->filling[i].at;
        turn_ends(&r->x0, &r->x1, &r->y0, &r->y1, down);
    }
    for (size_t i = 0; i < j->space_count; i++) {
        bw_rectangle *r = &d->space[i].at;
        turn_ends(&r->x0, &r->x1, &r->y0, &r->y1, down);
    }
    for (size_t i = 0; i < j->film_line_count; i++) {
        bw_film_line *f = &d->film_line[i];
        turn_ends(&f->x0, &f->x1, &f->y0, &f->y1, down);
    }
    for (size_t i = 0; i < j->leak_count; i++) {
        bw_rectangle *r = &d->leak[i].at;
        turn_ends(&r->x0, &r->x1, &r->y0, &r->y1, down);
    }
    for (size_t i = 0; i < j->spot_count; i++) {
        double x1 = d->spot[i].x, y1 = d->spot[i].y;
        turn_ends(&d->spot[i].x, &x1, &d->spot[i].y, &y1, down);
    }
    const bool left = j->symmetry[BW_EDGE_LEFT];
    const bool right = j->symmetry[BW_EDGE_RIGHT];
    j->symmetry[BW_EDGE_LEFT] = j->symmetry[BW_EDGE_BELOW];
    j->symmetry[BW_EDGE_RIGHT] = j->symmetry[BW_EDGE_ABOVE];
    j->symmetry[BW_EDGE_BELOW] = down ? right : left;
    j->symmetry[BW_EDGE_ABOVE] = down ? left : right;
}

/* ---- the whole
 * ------------------------------------------------------------------- */

static void draw_sides(bw_shaping *s)
{
    const bw_assembly *wall = s->a.wall;
    const double outer = fmin(s->a.outer_resistance, s->b.outer_resistance);
    const bw_environment outside = {
        .kind = wall->beyond.kind != NULL ? BW_ENVIRONMENT_GROUND
                                          : BW_ENVIRONMENT_OUTSIDE,
        .id = wall->beyond.kind != NULL ? wall->beyond.kind->element
                                        : "outside",
        .beyond = wall->beyond,
        .has_surface_resistance = s->a.dropped > 0 ||
                                  wall->outdoors.has_surface_resistance,
        .surface_resistance = outer,
    };
    const bw_environment room = {
        .kind = BW_ENVIRONMENT_ROOM,
        .id = "room",
        .indoors = wall->indoors,
        .has_surface_resistance = wall->indoors.has_surface_resistance,
        .surface_resistance = wall->indoors.surface_resistance,
    };
    bw_draw_environment(s->d, &outside);
    bw_draw_environment(s->d, &room);
    s->d->junction.outdoors = wall->outdoors;
}

static bw_status draw(bw_shaping *s, bw_shape shape)
{
    switch (shape) {
    case BW_SHAPE_OUTER_CORNER:
        return draw_corner(s, true);
    case BW_SHAPE_INNER_CORNER:
        return draw_corner(s, false);
    case BW_SHAPE_JAMB:
    case BW_SHAPE_HEAD:
    case BW_SHAPE_SILL:
        return draw_opening(s);
    case BW_SHAPE_PARTITION:
        return draw_partition(s);
    case BW_SHAPE_JOIST:
        return draw_joist(s);
    case BW_SHAPE_STUD:
        return draw_stud(s);
    case BW_SHAPE_BALCONY:
        return draw_balcony(s);
    case BW_SHAPE_FOOT:
        return bw_shaping_foot(s);
    case BW_SHAPE_FILLED:
    case BW_SHAPES:
        break;
    }
    return draw_filled(s);
}

bw_status bw_shape_draw(bw_drawing *d, bw_shape shape,
                        const bw_shape_parts *parts, bw_error *err)
{
    bw_shaping s = {.d = d, .parts = parts, .err = err};
    const bw_junction *j = &d->junction;
    BW_TRY(bw_stack_make(&s.a, d, j->wall[0], err));
    s.b = s.a;
    if (j->wall_count > 1)
        BW_TRY(bw_stack_make(&s.b, d, j->wall[1], err));
    s.length = fmax(least_length, thicknesses * fmax(s.a.total, s.b.total));
    draw_sides(&s);
    BW_TRY(draw(&s, shape));
    if (shape == BW_SHAPE_HEAD || shape == BW_SHAPE_SILL ||
        shape == BW_SHAPE_JOIST || shape == BW_SHAPE_BALCONY)
        turn(d, shape == BW_SHAPE_SILL);
    return d->arena.failed ? bw_fail_memory(err) : BW_OK;
}
