/* Which mu a member and a film have in two dimensions, of how much face a node
 * stands, what a year takes: random rasters, by the rules of vapour_choice.c
 * and vapour_make.c written down a second time. The threshold of 70 % is ISO
 * 10456's [from memory, high]. */

#include <math.h>

#include "bothways/air.h"
#include "junction_case.h"
#include "junction_plan.h"
#include "suite.h"

enum { NX = 6, NY = 5, CELLS = NX * NY, STUFFS = 4, DRAWINGS = 6 };

static plan p;
static unsigned long seed;
static bw_vapour_air air[2];

static double in(double low, double high)
{
    return low + (high - low) * plan_chance(&seed);
}

static void draw(void)
{
    plan_start(&p, NX, NY);
    for (size_t i = 1; i <= NX; i++)
        p.x[i] = p.x[i - 1] + in(0.01, 0.05);
    for (size_t j = 1; j <= NY; j++)
        p.y[j] = p.y[j - 1] + in(0.01, 0.05);
    for (size_t k = 0; k < CELLS; k++) {
        p.cell[k] = (int)in(0, STUFFS);
        if (k >= 2 * NX && in(0, 1) < 0.1) {
            p.cell[k] = BW_NOT_THERE;
            p.air[k] = 1;
        }
        p.film_x[k / NX * (NX + 1) + k % NX] = in(0, 1) < 0.15 ? 0
                                                               : BW_NOT_THERE;
        p.film_y[k] = in(0, 1) < 0.15 ? 1 : BW_NOT_THERE;
    }
    for (size_t k = 0; k < STUFFS; k++)
        p.material[k] = (bw_drawn_material){.name = "m",
                                            .material = &some_material,
                                            .conductivity = in(0.03, 1.0),
                                            .mu_dry = in(5, 50),
                                            .mu_wet = in(2, 5)};
    p.material[3].mu_wet = p.material[3].mu_dry; /* none to choose */
    p.film[0] = (bw_drawn_film){.name = "f", .sd_dry = 1.5, .sd_wet = 0.3};
    p.film[1] = (bw_drawn_film){.name = "f", .sd_dry = 0.8, .sd_wet = 0.2};
    p.rim[BW_EDGE_BELOW] = 0;
    p.rim[BW_EDGE_ABOVE] = 1;
    plan_make(&p);
    for (int m = 0; m < BW_MONTHS; m++) { /* nothing condenses */
        air[0].theta[m] = 12 + 0.3 * m;
        air[1].theta[m] = 20;
        air[0].p[m] = 0.78 * bw_saturation_pressure(air[0].theta[m]);
        air[1].p[m] = 1150 + 10 * m;
    }
}

/* What lies beyond a side of a cell: its cell, or CELLS; film: in between. */
static size_t beyond(size_t k, bw_cell_side side, int *film)
{
    const size_t i = k % NX, j = k / NX;
    switch (side) {
    case BW_EDGE_LEFT:
        *film = p.film_x[j * (NX + 1) + i];
        return i > 0 ? k - 1 : CELLS;
    case BW_EDGE_RIGHT:
        *film = p.film_x[j * (NX + 1) + i + 1];
        return i + 1 < NX ? k + 1 : CELLS;
    case BW_EDGE_BELOW:
        *film = p.film_y[k];
        return j > 0 ? k - NX : CELLS;
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    *film = p.film_y[k + NX];
    return j + 1 < NY ? k + NX : CELLS;
}

/* m of a face there, 0: none. *once: nothing sees it from the other side. */
static double face_at(size_t k, bw_cell_side side, bool *once)
{
    int film;
    const size_t o = beyond(k, side, &film);
    const bool upright = side == BW_EDGE_LEFT || side == BW_EDGE_RIGHT;
    const double length = upright ? p.y[k / NX + 1] - p.y[k / NX]
                                  : p.x[k % NX + 1] - p.x[k % NX];
    *once = o == CELLS || film != BW_NOT_THERE || p.cell[o] == BW_NOT_THERE;
    if (o == CELLS) /* cut on the left and on the right */
        return upright ? 0.0 : length;
    return film != BW_NOT_THERE || p.vapour.member[o] != p.vapour.member[k]
               ? length
               : 0.0;
}

START_TEST(node_stands_for_half_of_each_face_that_ends_there)
{
    double due[4 * CELLS] = {0};
    seed = 21 + (unsigned long)_i;
    draw();
    const bw_nodes *n = &p.vapour.nodes;
    for (size_t k = 0; k < CELLS; k++)
        for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side) {
            bool once;
            size_t end[2];
            if (p.cell[k] == BW_NOT_THERE)
                continue;
            const double length = face_at(k, side, &once);
            bw_nodes_ends(n, k, side, end);
            for (int e = 0; e < 2; e++)
                due[end[e]] += 0.5 * length * (once ? 1.0 : 0.5);
        }
    for (size_t k = 0; k < CELLS * BW_CORNERS; k++) {
        if (p.cell[k / BW_CORNERS] == BW_NOT_THERE)
            continue;
        const size_t node = n->corner[k];
        ck_assert_double_eq_tol(p.vapour.face[node],
                                due[node] > 0.0 ? due[node] : n->span[node],
                                1e-12);
    }
    bw_arena_release(&p.arena);
}
END_TEST

/* Of the year with dry values, in which nothing condenses. */
static double rh_at(const bw_vapour_result *dry, size_t m, size_t node)
{
    const size_t at = m * p.vapour.nodes.count + node;
    return dry->p[at] / dry->psat[at];
}

static double member_rh(const bw_vapour_result *dry, size_t member)
{
    double sum = 0.0, all = 0.0;
    for (size_t k = 0; k < CELLS; k++)
        for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side) {
            bool once;
            size_t end[2];
            if (p.cell[k] == BW_NOT_THERE || p.vapour.member[k] != member)
                continue;
            const double length = face_at(k, side, &once);
            bw_nodes_ends(&p.vapour.nodes, k, side, end);
            for (size_t m = 0; m < BW_MONTHS; m++)
                sum += length * 0.5 *
                       (rh_at(dry, m, end[0]) + rh_at(dry, m, end[1]));
            all += BW_MONTHS * length;
        }
    return all > 0.0 ? sum / all : 0.0;
}

/* Of both sides of a film, by the length of its face between each two nodes. */
static double film_rh(const bw_vapour_result *dry, size_t film)
{
    const bw_nodes *n = &p.vapour.nodes;
    double sum = 0.0, all = 0.0;
    for (size_t i = 0; i < n->pairs; i++) {
        const bw_film_pair *pair = &n->pair[i];
        const double length = n->link[n->material_links + i].shape;
        if (pair->film != film)
            continue;
        for (size_t m = 0; m < BW_MONTHS; m++)
            sum += length * 0.5 *
                   (rh_at(dry, m, pair->a) + rh_at(dry, m, pair->b));
        all += BW_MONTHS * length;
    }
    return all > 0.0 ? sum / all : 0.0;
}

static bool wet_of(bw_mu_choice mu, double rh)
{
    return mu == BW_MU_WET || (mu == BW_MU_LOCAL && rh > 0.7) ||
           (mu == BW_MU_OPPOSITE && rh <= 0.7);
}

START_TEST(member_and_film_take_the_cup_of_their_mean_humidity)
{
    static const bw_mu_choice choices[] = {BW_MU_DRY, BW_MU_WET, BW_MU_LOCAL,
                                           BW_MU_OPPOSITE};
    bw_vapour_options o = {.mu = BW_MU_DRY, .start_month = 0};
    seed = 41 + (unsigned long)_i;
    draw();
    const bw_vapour_result dry = plan_run(&p, air, &o);
    ck_assert(!dry.condenses);
    for (size_t c = 0; c < COUNT(choices); c++) {
        o.mu = choices[c];
        const bw_vapour_result r = plan_run(&p, air, &o);
        for (size_t k = 0; k < CELLS; k++) {
            if (p.cell[k] == BW_NOT_THERE)
                continue;
            const size_t member = p.vapour.member[k];
            const double rh = member_rh(&dry, member);
            ck_assert_double_gt(fabs(rh - 0.7), 1e-6);
            ck_assert_int_eq(r.used_wet[member],
                             p.cell[k] != 3 && wet_of(o.mu, rh));
        }
        for (size_t f = 0; f < 2; f++)
            ck_assert_int_eq(r.film_used_wet[f],
                             wet_of(o.mu, film_rh(&dry, f)));
    }
    bw_arena_release(&p.arena);
}
END_TEST

/* ---- what a year takes ----------------------------------------------------
 */

static bw_vapour_air air_of[2];
static size_t some_node;
static double some_length = 1.0;

static void take(bw_vapour_options *o)
{
    const bw_vapour_line line = {1, &some_node, &some_length, 1.0};
    *o = (bw_vapour_options){.start_month = -1, .leak = line, .wet = line};
}

/* Each is at its end, and just beyond it. */
static const struct {
    int what;
    double last, beyond;
} ends[] = {
    {0, -100.0, -100.1}, {0, 200.0, 200.1}, {1, 0.0, -0.1},  {1, 1e6, 1.1e6},
    {2, -1, -2},         {2, 11, 12},       {3, 1e6, 1.1e6}, {3, 0.0, -0.1},
    {4, 1.0, 1.01},      {4, 0.0, -0.01},   {5, 1, 2},       {6, 1, 0},
    {7, 1, 0},
};

static bw_status with(int what, double value)
{
    bw_vapour_options o;
    bw_vapour_result r;
    take(&o);
    for (int m = 0; m < BW_MONTHS; m++)
        for (size_t e = 0; e < 2; e++) {
            air_of[e].theta[m] = 10;
            air_of[e].p[m] = 600;
        }
    if (what == 0)
        air_of[1].theta[7] = value;
    if (what == 1)
        air_of[0].p[11] = value;
    if (what == 2)
        o.start_month = (int)value;
    if (what == 3)
        o.wetting = value;
    o.has_air_flow = what >= 4 && what <= 6;
    for (int m = 0; m < BW_MONTHS; m++)
        o.air_flow[m] = what == 4 && m == 3 ? value : 0.5;
    if (what == 5)
        o.leaking_room = (size_t)value;
    if (what == 6)
        o.leak.count = (size_t)value;
    if (what == 7) {
        o.wetting = 1.0;
        o.wet.count = (size_t)value;
    }
    return bw_vapour_year(&r, &p.arena, &p.vapour, air_of, &o, NULL);
}

START_TEST(what_is_out_of_range_is_refused_and_the_end_is_not)
{
    seed = 5;
    draw();
    some_node = p.vapour.nodes.corner[(NX + 2) * BW_CORNERS];
    ck_assert_int_eq(p.vapour.nodes.environment[some_node], BW_NO_ENVIRONMENT);
    ck_assert_int_eq(with(ends[_i].what, ends[_i].last), BW_OK);
    ck_assert_int_eq(with(ends[_i].what, ends[_i].beyond), BW_ERR_DOMAIN);
    bw_arena_release(&p.arena);
}
END_TEST

/* What a place could lose is found beside the year, and changes nothing of it.
 */
START_TEST(asking_for_a_reserve_leaves_the_year_as_it_is)
{
    seed = 5;
    draw();
    some_node = p.vapour.nodes.corner[(NX + 2) * BW_CORNERS];
    const bw_vapour_line place = {1, &some_node, &some_length, 1.0};
    bw_vapour_options o = {.mu = BW_MU_DRY, .start_month = -1};
    for (int m = 0; m < BW_MONTHS; m++)
        for (size_t e = 0; e < 2; e++) {
            air_of[e].theta[m] = e == 0 ? -5 + 2 * m : 20;
            air_of[e].p[m] = e == 0 ? 390 : 1700;
        }
    const bw_vapour_result without = plan_run(&p, air_of, &o);
    o.place_count = 1;
    o.place = &place;
    const bw_vapour_result with = plan_run(&p, air_of, &o);
    ck_assert(with.condenses);
    for (size_t k = 0; k < BW_MONTHS * p.vapour.nodes.count; k++) {
        ck_assert_double_eq(with.mass[k], without.mass[k]);
        ck_assert_double_eq(with.gain[k], without.gain[k]);
        ck_assert_double_eq(with.p[k], without.p[k]);
    }
    for (size_t k = 0; k < BW_MONTHS * 2; k++)
        ck_assert_double_eq(with.flow[k], without.flow[k]);
    for (size_t k = 0; k < p.vapour.nodes.count; k++)
        ck_assert_double_eq(with.peak[k], without.peak[k]);
    bw_arena_release(&p.arena);
}
END_TEST

SUITE("junction_mu",
      EACH(node_stands_for_half_of_each_face_that_ends_there, DRAWINGS),
      EACH(member_and_film_take_the_cup_of_their_mean_humidity, DRAWINGS),
      EACH(what_is_out_of_range_is_refused_and_the_end_is_not, COUNT(ends)),
      FACT(asking_for_a_reserve_leaves_the_year_as_it_is))
