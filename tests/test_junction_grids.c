/* From grids halved in turn to a number: what is told of a drawing's heat
 * against the grids themselves, solved one by one, and Richardson's
 * extrapolation by hand; orders at a corner as find.c says [theory of corner
 * singularities; from memory, high]. */

#include <math.h>

#include "junction/heat.h"
#include "junction_case.h"
#include "suite.h"

enum { AIRS = 3, GRIDS = BW_MOST_GRIDS, ROOMS = 2 };

/* m2 K/W of a room: ISO 13788, ISO 6946 [from memory, high]. */
static const double of_room[BW_SURFACES_COUNT] = {[BW_SURFACES_MOISTURE] = 0.25,
                                                  [BW_SURFACES_LOWER] = 0.35,
                                                  [BW_SURFACES_CUPBOARD] = 1.0,
                                                  [BW_SURFACES_FLOW] = 0.13};

static drawn d;
static bw_junction_heat *h;

/* What is followed, of each grid. */
static struct {
    double coupling[AIRS * AIRS][GRIDS], l2d[GRIDS];
    double frsi[ROOMS * BW_SURFACES_FLOW][GRIDS];
    double x[ROOMS * BW_SURFACES_FLOW], y[ROOMS * BW_SURFACES_FLOW];
    size_t cells[GRIDS];
    double weight; /* the most that one of a surface is off on the last */
} seen;

static void start(void)
{
    memset(&seen, 0, sizeof seen);
    draw_start(&d);
}

static void end(void)
{
    bw_junction_heat_free(h);
    h = NULL;
    draw_end(&d);
}

/* A wall, a partition between two rooms upon it that conducts well; or a corner
 * of two walls, about one room. */
static void draw(bool corner)
{
    if (corner) {
        draw_box(&d, 0.8, -200, 900, -200, 0);
        draw_box(&d, 0.8, -200, 0, -200, 900);
        draw_box(&d, 0.04, -40, 900, -40, 0);
        draw_box(&d, 0.04, -40, 0, -40, 900);
        draw_space(&d, 0, -250, -200, -250, 900);
        draw_space(&d, 0, -200, 900, -250, -200);
        draw_space(&d, 1, 0, 900, 0, 900);
        draw_cut(&d, false, true, false, true);
        return;
    }
    d.environment[2] = (bw_environment){.kind = BW_ENVIRONMENT_ROOM,
                                        .id = "second"};
    d.junction.environment_count = AIRS;
    draw_box(&d, 0.5, 0, 1000, 0, 150);
    draw_box(&d, 0.04, 0, 1000, 150, 230);
    draw_box(&d, 2.0, 400, 500, 100, 900);
    draw_space(&d, 0, 0, 1000, -50, 0);
    draw_space(&d, 1, 0, 400, 230, 900);
    draw_space(&d, 2, 500, 1000, 230, 900);
    draw_cut(&d, true, true, false, true);
}

/* ---- the grids ------------------------------------------------------------
 */

static double room_factor(const bw_heat *heat, const bw_raster_face *f)
{
    double sum = 0.0;
    for (size_t e = 1; e < d.junction.environment_count; e++)
        sum += bw_heat_face(heat, e, f);
    return sum;
}

static void see_surfaces(const bw_heat *heat, int which, size_t grid)
{
    const size_t m = d.junction.environment_count;
    const bw_raster *r = heat->raster;
    for (size_t room = 1; room < m; room++) {
        const size_t at = (room - 1) * BW_SURFACES_FLOW + (size_t)which;
        double *least = &seen.frsi[at][grid];
        *least = 2.0;
        for (size_t f = 0; f < r->face_count; f++) {
            const double here = room_factor(heat, &r->face[f]);
            if (r->face[f].environment != room || here >= *least)
                continue;
            *least = here;
            seen.x[at] = r->face[f].x;
            seen.y[at] = r->face[f].y;
        }
    }
    if (grid + 1 != h->grids)
        return;
    for (size_t e = 0; e < m; e++)
        for (size_t f = 0; f < r->face_count; f++) {
            const double told =
                h->face_weight[((size_t)which * m + e) * r->face_count + f];
            const double is = bw_heat_face(heat, e, &r->face[f]);
            seen.weight = fmax(seen.weight, fabs(told - is));
        }
}

static void see_grid(size_t grid, double smallest)
{
    const size_t m = d.junction.environment_count;
    const bw_raster_options options = {.smallest = smallest,
                                       .halvings = (int)grid};
    bw_raster raster;
    bw_heat heat;
    ck_assert_int_eq(
        bw_raster_make(&raster, &d.junction, &options, &d.arena, NULL), BW_OK);
    seen.cells[grid] = raster.filled;
    for (int w = 0; w < BW_SURFACES_COUNT; w++) {
        const double surface[AIRS] = {0.04, of_room[w], of_room[w]};
        ck_assert_int_eq(
            bw_heat_solve(&heat, &raster, surface, NULL, &d.arena, NULL),
            BW_OK);
        if (w != BW_SURFACES_FLOW) {
            see_surfaces(&heat, w, grid);
            continue;
        }
        for (size_t i = 0; i < m * m; i++)
            seen.coupling[i][grid] = heat.coupling[i];
        for (size_t i = 0; i < m; i++) { /* of its own: what the others give */
            double others = 0.0;
            for (size_t k = 0; k < m; k++)
                others += k != i ? heat.coupling[i * m + k] : 0.0;
            ck_assert_double_eq_tol(heat.coupling[i * m + i], others, 1e-6);
        }
        for (size_t room = 1; room < m; room++)
            seen.l2d[grid] += heat.coupling[room];
    }
}

/* ---- a number -------------------------------------------------------------
 */

/* Of the last three of so many grids. */
static bw_found by_hand(const double *v, size_t grids, double corner_order)
{
    const double a = v[grids - 3], b = v[grids - 2], c = v[grids - 1];
    const double seen_order = (b - a) / (c - b) > 0.0 ? log2((b - a) / (c - b))
                                                      : 0.0;
    double order = corner_order;
    if (seen_order >= 0.5 && seen_order <= 2.5)
        order = fmin(seen_order, 2.0);
    const double moved = (c - b) / (pow(2.0, order) - 1.0);
    return (bw_found){.finest = c,
                      .order = seen_order,
                      .value = seen_order > 0.0 ? c + moved : c,
                      .error = seen_order > 0.0
                                   ? fabs(moved)
                                   : fmax(fabs(moved), fabs(b - a))};
}

static void check(const bw_found *is, const double *v, size_t grids,
                  double corner_order)
{
    const bw_found due = by_hand(v, grids, corner_order);
    ck_assert_double_eq_tol(is->finest, due.finest, 1e-7);
    ck_assert_double_eq_tol(is->value, due.value, 1e-6);
    ck_assert_double_eq_tol(is->error, due.error, 1e-6);
    ck_assert_double_eq_tol(is->order, due.order, 0.02);
}

static bool good_enough(size_t grids, const bw_junction_options *o)
{
    const bw_found l2d = by_hand(seen.l2d, grids, 4.0 / 3.0);
    bool good = l2d.error <= o->l2d_error * l2d.value;
    const size_t rooms = d.junction.environment_count - 1;
    for (size_t k = 0; k < rooms * BW_SURFACES_FLOW; k++)
        good = good &&
               by_hand(seen.frsi[k], grids, 2.0 / 3.0).error <= o->frsi_error;
    return good;
}

static const struct {
    bool corner;
    bw_junction_options options;
} cases[] = {
    {false, {.smallest = 0.04, .l2d_error = 0.5, .frsi_error = 0.5}},
    {false, {.smallest = 0.04, .l2d_error = 0.5, .frsi_error = 6e-3}},
    {true, {.smallest = 0.04, .l2d_error = 4e-3, .frsi_error = 0.5}},
    {true,
     {.smallest = 0.04,
      .most_cells = 8000,
      .l2d_error = 1e-9,
      .frsi_error = 1}},
};

START_TEST(what_is_told_is_what_the_grids_lead_to)
{
    const bw_junction_options *o = &cases[_i].options;
    draw(cases[_i].corner);
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, o, NULL), BW_OK);
    const size_t m = d.junction.environment_count, rooms = m - 1;
    const size_t most = o->most_cells > 0 ? o->most_cells : 200000;
    for (size_t g = 0; g < h->grids; g++) {
        see_grid(g, o->smallest);
        ck_assert_uint_eq(h->cells[g], seen.cells[g]);
        if (g < 2)
            continue;
        const bool more = g + 1 < GRIDS && !good_enough(g + 1, o) &&
                          4 * seen.cells[g] <= most;
        ck_assert_int_eq(more, g + 1 < h->grids);
    }
    ck_assert_uint_ge(h->grids, 3);
    check(&h->l2d, seen.l2d, h->grids, 4.0 / 3.0);
    for (size_t i = 0; i < m; i++)
        for (size_t k = 0; k < m; k++)
            if (i != k)
                check(&h->coupling[i * m + k], seen.coupling[i * m + k],
                      h->grids, 4.0 / 3.0);
    ck_assert_uint_eq(h->coldest_count, rooms);
    for (size_t k = 0; k < rooms * BW_SURFACES_FLOW; k++) {
        const bw_coldest *c = &h->coldest[k];
        ck_assert_uint_eq(c->environment, 1 + k / BW_SURFACES_FLOW);
        check(&c->frsi, seen.frsi[k], h->grids, 2.0 / 3.0);
        ck_assert_double_eq_tol(c->x, seen.x[k], 1e-9);
        ck_assert_double_eq_tol(c->y, seen.y[k], 1e-9);
    }
    ck_assert_double_lt(seen.weight, 1e-7);
}
END_TEST

/* ---- psi ------------------------------------------------------------------
 */

/* ISO 10211: L2D less U l of what leaves the drawing [from memory, high]; by
 * hand, whichever way it is turned. */
START_TEST(psi_is_what_the_plane_walls_leave)
{
    static const bool cut[4][BW_EDGES] = {
        {0, 1, 0, 1}, {1, 0, 0, 1}, {1, 0, 1, 0}, {0, 1, 1, 0}};
    const bw_junction_options options = {
        .smallest = 0.04, .l2d_error = 0.5, .frsi_error = 0.5};
    draw(true);
    for (int k = 0; k < _i; k++) {
        for (size_t i = 0; i < d.junction.filling_count; i++) {
            const bw_rectangle r = d.filling[i].at;
            d.filling[i].at = (bw_rectangle){-r.y1, -r.y0, r.x0, r.x1};
        }
        for (size_t i = 0; i < d.junction.space_count; i++) {
            const bw_rectangle r = d.space[i].at;
            d.space[i].at = (bw_rectangle){-r.y1, -r.y0, r.x0, r.x1};
        }
    }
    memcpy(d.junction.symmetry, cut[_i], sizeof cut[_i]);
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    const double u = 1.0 / (0.04 + 0.16 / 0.8 + 0.04 / 0.04 + 0.13);
    ck_assert(h->has_psi);
    ck_assert_uint_eq(h->flank_count, 2);
    for (size_t k = 0; k < 2; k++) {
        ck_assert_double_eq_tol(h->flank[k].transmittance, u, 1e-9);
        ck_assert_double_eq_tol(h->flank[k].inner, 0.9, 1e-9);
        ck_assert_double_eq_tol(h->flank[k].outer, 1.1, 1e-9);
    }
    ck_assert_double_eq_tol(h->psi_inner, h->l2d.value - 2 * 0.9 * u, 1e-9);
    ck_assert_double_eq_tol(h->psi_outer, h->l2d.value - 2 * 1.1 * u, 1e-9);
}
END_TEST

/* A wall that goes on to a cut on both sides is half of each; one between two
 * rooms, or beside the ground, has no psi. */
START_TEST(walls_between_rooms_are_no_flanks)
{
    const bw_junction_options options = {
        .smallest = 0.04, .l2d_error = 0.5, .frsi_error = 0.5};
    draw(false);
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    const double u = 1.0 / (0.04 + 0.15 / 0.5 + 0.08 / 0.04 + 0.13);
    ck_assert(h->has_psi);
    ck_assert_uint_eq(h->flank_count, 2);
    for (size_t k = 0; k < 2; k++) {
        const bool left = h->flank[k].side == BW_EDGE_LEFT;
        ck_assert_double_eq_tol(h->flank[k].transmittance, u, 1e-9);
        ck_assert_double_eq_tol(h->flank[k].inner, left ? 0.4 : 0.5, 1e-9);
        ck_assert_double_eq_tol(h->flank[k].outer, 0.5, 1e-9);
    }
    ck_assert_double_eq_tol(h->psi_inner, h->l2d.value - 0.9 * u, 1e-9);
    bw_junction_heat_free(h);
    d.environment[0].kind = BW_ENVIRONMENT_GROUND;
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    ck_assert(!h->has_psi);
}
END_TEST

/* In whatever order the environments stand. */
START_TEST(flows_are_those_of_the_rooms_wherever_outside_stands)
{
    const bw_junction_options options = {
        .smallest = 0.04, .l2d_error = 0.5, .frsi_error = 0.5};
    static const size_t order[2][AIRS] = {{1, 0, 2}, {2, 1, 0}};
    bw_environment was[AIRS];
    double l2d, flow;
    draw(false);
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    l2d = h->l2d.value;
    flow = h->coupling[0 * AIRS + 1].value;
    bw_junction_heat_free(h);
    memcpy(was, d.environment, sizeof was);
    for (size_t e = 0; e < AIRS; e++)
        d.environment[order[_i][e]] = was[e];
    for (size_t k = 0; k < d.junction.space_count; k++)
        d.space[k].environment = order[_i][d.space[k].environment];
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    ck_assert_double_eq_tol(h->l2d.value, l2d, 1e-8);
    ck_assert_double_eq_tol(
        h->coupling[order[_i][0] * AIRS + order[_i][1]].value, flow, 1e-8);
    ck_assert_uint_eq(h->coldest_count, ROOMS);
}
END_TEST

/* Twice as wide cells a time, growing faster, until three grids keep to it. */
START_TEST(a_drawing_of_many_lines_starts_coarser_or_is_refused)
{
    bw_junction_options options = {.smallest = 0.01,
                                   .most_cells = 1200,
                                   .l2d_error = 0.5,
                                   .frsi_error = 0.5};
    draw(false);
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_OK);
    ck_assert_uint_le(16 * h->cells[0], 4 * options.most_cells);
    bw_raster_options cells = {.smallest = options.smallest};
    for (int k = 0;; k++) {
        bw_raster r;
        ck_assert_int_eq(
            bw_raster_make(&r, &d.junction, &cells, &d.arena, NULL), BW_OK);
        if (16 * r.nx * r.ny <= 4 * options.most_cells) {
            ck_assert_int_gt(k, 0);
            ck_assert_uint_eq(r.filled, h->cells[0]);
            break;
        }
        cells.smallest *= 2.0;
        cells.growth = k + 2.0;
    }
    bw_junction_heat_free(h);
    h = NULL;
    options.most_cells = 60;
    ck_assert_int_eq(bw_junction_heat_make(&h, &d.junction, &options, NULL),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(h);
}
END_TEST

SUITE_AROUND("junction_grids", start, end,
             EACH(what_is_told_is_what_the_grids_lead_to, COUNT(cases)),
             EACH(psi_is_what_the_plane_walls_leave, 4),
             FACT(walls_between_rooms_are_no_flanks),
             EACH(flows_are_those_of_the_rooms_wherever_outside_stands, 2),
             FACT(a_drawing_of_many_lines_starts_coarser_or_is_refused))
