/* Drawings made up: what must hold of vapour in every one, whatever stands in
 * it. */

#include <math.h>

#include "junction_plan.h"
#include "suite.h"

enum { BLOCKS = 4, PER_BLOCK = 3, SIDE = BLOCKS * PER_BLOCK, DRAWINGS = 50 };

/* A drawing as figures, so that it can be drawn the other way too. */
typedef struct sketch {
    double x[SIDE + 1], y[SIDE + 1];
    int cell[SIDE][SIDE]; /* [j][i] */
    int film_x[SIDE][SIDE + 1], film_y[SIDE + 1][SIDE];
    bool room_in_it;
    double mu[PLAN_KINDS], sd[PLAN_KINDS], lambda[PLAN_KINDS];
    bool variable; /* film 0 */
    bw_vapour_air air[PLAN_ENVIRONMENTS];
} sketch;

static const double rh_of[] = {0.0, 0.4, 0.7, 1.0};
static const double sd_of[] = {5.0, 4.0, 1.0, 0.1};
static const bw_curve curve = {.count = 4, .x = rh_of, .y = sd_of};

static void sketch_lines(double *line, unsigned long *state)
{
    line[0] = 0.0;
    for (size_t b = 0; b < BLOCKS; ++b) {
        const double width = 0.02 + 0.2 * plan_chance(state);
        for (size_t k = 1; k <= PER_BLOCK; ++k)
            line[b * PER_BLOCK + k] = line[b * PER_BLOCK] +
                                      width * (double)k / PER_BLOCK;
    }
}

static void sketch_films(sketch *s, unsigned long *state)
{
    for (size_t b = 0; b <= BLOCKS; ++b)
        for (size_t k = 0; k < BLOCKS; ++k) {
            const int x = plan_chance(state) < 0.2
                              ? (int)(2.0 * plan_chance(state))
                              : BW_NOT_THERE;
            const int y = plan_chance(state) < 0.2
                              ? (int)(2.0 * plan_chance(state))
                              : BW_NOT_THERE;
            for (size_t c = 0; c < PER_BLOCK; ++c) {
                s->film_x[k * PER_BLOCK + c][b * PER_BLOCK] = x;
                s->film_y[b * PER_BLOCK][k * PER_BLOCK + c] = y;
            }
        }
}

static void sketch_year(sketch *s, unsigned long *state)
{
    const double mean = 5.0 + 8.0 * plan_chance(state);
    const double swing = 12.0 * plan_chance(state);
    const double moist = 0.5 + 0.3 * plan_chance(state);
    for (int m = 0; m < BW_MONTHS; ++m) {
        const double te = mean - swing * cos(m * 0.5235987755982988);
        s->air[0].theta[m] = te;
        s->air[0].p[m] = 0.85 * bw_saturation_pressure(te);
        s->air[1].theta[m] = 20.0;
        s->air[1].p[m] = moist * bw_saturation_pressure(20.0);
    }
}

static void make_up(sketch *s, unsigned long seed)
{
    unsigned long state = seed * 2654435761UL;
    memset(s, 0, sizeof *s);
    memset(s->film_x, 0xff, sizeof s->film_x); /* BW_NOT_THERE */
    memset(s->film_y, 0xff, sizeof s->film_y);
    sketch_lines(s->x, &state);
    sketch_lines(s->y, &state);
    for (size_t k = 0; k < PLAN_KINDS; ++k) {
        s->mu[k] = pow(10.0, 4.0 * plan_chance(&state));
        s->lambda[k] = pow(10.0, 2.5 * plan_chance(&state) - 1.6);
        s->sd[k] = pow(10.0, 3.0 * plan_chance(&state) - 2.0);
    }
    for (size_t j = 0; j < SIDE; j += PER_BLOCK)
        for (size_t i = 0; i < SIDE; i += PER_BLOCK) {
            const int kind = (int)(PLAN_KINDS * plan_chance(&state));
            for (size_t c = 0; c < PER_BLOCK * PER_BLOCK; ++c)
                s->cell[j + c / PER_BLOCK][i + c % PER_BLOCK] = kind;
        }
    sketch_films(s, &state);
    sketch_year(s, &state);
    s->room_in_it = seed % 2 == 0;
    s->variable = seed % 3 == 0;
}

/* ---- drawn, any way round ------------------------------------------------ */

typedef enum turn { AS_IT_IS, MIRRORED, TURNED } turn;

/* Where cell (i, j) of the sketch comes to lie. */
static size_t drawn_cell(turn way, size_t i, size_t j)
{
    if (way == MIRRORED)
        return j * SIDE + (SIDE - 1 - i);
    return way == TURNED ? i * SIDE + j : j * SIDE + i;
}

static void draw_lines(plan *p, const sketch *s, turn way)
{
    for (size_t k = 0; k <= SIDE; ++k) {
        p->x[k] = way == MIRRORED ? s->x[SIDE] - s->x[SIDE - k]
                  : way == TURNED ? s->y[k]
                                  : s->x[k];
        p->y[k] = way == TURNED ? s->x[k] : s->y[k];
    }
}

static void draw_films(plan *p, const sketch *s, turn way)
{
    for (size_t k = 0; k < SIDE; ++k)
        for (size_t n = 0; n <= SIDE; ++n) {
            const size_t across = way == MIRRORED ? SIDE - n : n;
            const size_t along = way == MIRRORED ? SIDE - 1 - k : k;
            if (way == TURNED) {
                p->film_y[n * SIDE + k] = s->film_x[k][n];
                p->film_x[k * (SIDE + 1) + n] = s->film_y[n][k];
            } else {
                p->film_x[k * (SIDE + 1) + across] = s->film_x[k][n];
                p->film_y[n * SIDE + along] = s->film_y[n][k];
            }
        }
}

static void draw(plan *p, const sketch *s, turn way)
{
    plan_start(p, SIDE, SIDE);
    draw_lines(p, s, way);
    draw_films(p, s, way);
    for (size_t j = 0; j < SIDE; ++j)
        for (size_t i = 0; i < SIDE; ++i) {
            const size_t at = drawn_cell(way, i, j);
            const bool room = s->room_in_it && i < PER_BLOCK &&
                              j >= 2 * PER_BLOCK;
            p->cell[at] = room ? BW_NOT_THERE : s->cell[j][i];
            p->air[at] = room ? 1 : NOWHERE;
        }
    /* outside below, the room above */
    p->rim[way == TURNED ? BW_EDGE_LEFT : BW_EDGE_BELOW] = 0;
    p->rim[way == TURNED ? BW_EDGE_RIGHT : BW_EDGE_ABOVE] = 1;
    for (size_t k = 0; k < PLAN_KINDS; ++k) {
        p->material[k] = (bw_drawn_material){.conductivity = s->lambda[k],
                                             .mu_dry = s->mu[k],
                                             .mu_wet = s->mu[k]};
        p->film[k] = (bw_drawn_film){.sd_dry = s->sd[k], .sd_wet = s->sd[k]};
    }
    p->film[0].sd_curve = s->variable ? &curve : NULL;
    plan_make(p);
}

static const bw_vapour_options from_october = {.start_month = 9};

/* The seed of a drawing of one of the runs. */
static unsigned long seed_of(int run, size_t drawing)
{
    return 1UL + (unsigned long)run * DRAWINGS + drawing;
}

/* ---- facts --------------------------------------------------------------- */

static double total(const double *field, size_t count)
{
    double sum = 0.0;
    for (size_t n = 0; n < count; ++n)
        sum += field[n];
    return sum;
}

static void check_month(const plan *p, const bw_vapour_air *air,
                        const bw_vapour_result *r, size_t m, double before)
{
    const size_t n = p->vapour.nodes.count;
    const double water = total(r->mass + m * n, n);
    const double came = r->flow[2 * m] + r->flow[2 * m + 1];
    ck_assert_double_eq_tol(came, water - before, 1e-11);
    ck_assert_double_eq_tol(total(r->gain + m * n, n), water - before, 1e-11);
    const double cold = fmin(air[0].theta[m], 20.0) - 1e-9;
    const double warm = fmax(air[0].theta[m], 20.0) + 1e-9;
    size_t sound =
        0; /* an assertion for each would take longer than the rest */
    for (size_t k = m * n; k < (m + 1) * n; ++k)
        sound += r->p[k] <= r->psat[k] && r->p[k] > 0.0 && r->mass[k] >= 0.0 &&
                 r->theta[k] >= cold && r->theta[k] <= warm;
    ck_assert_uint_eq(sound, n);
}

START_TEST(water_is_what_came_less_what_went_and_no_air_is_oversaturated)
{
    size_t condense = 0;
    for (size_t d = 0; d < DRAWINGS; ++d) {
        sketch s;
        plan p;
        make_up(&s, seed_of(_i, d));
        draw(&p, &s, AS_IT_IS);
        const bw_vapour_result r = plan_run(&p, s.air, &from_october);
        ck_assert(r.converged);
        ck_assert_double_lt(r.balance_error, 1e-9);
        double before = 0.0;
        for (size_t i = 0; i < BW_MONTHS; ++i) {
            const size_t m = (9 + i) % BW_MONTHS, n = p.vapour.nodes.count;
            check_month(&p, s.air, &r, m, before);
            before = total(r.mass + m * n, n);
        }
        condense += r.condenses;
        bw_arena_release(&p.arena);
    }
    ck_assert_uint_ge(condense, DRAWINGS / 2); /* else little is seen */
}
END_TEST

/* Infinite where one is no number. */
static double apart(const double *a, size_t i, const double *b, size_t j)
{
    const double d = fabs(a[i] - b[j]);
    return isfinite(d) ? d : (double)INFINITY;
}

static void compare_ways(const plan *a, const bw_vapour_result *one,
                         const plan *b, const bw_vapour_result *two, turn way)
{
    /* corners of a cell, mirrored and turned */
    static const unsigned char corner[][4] = {
        [AS_IT_IS] = {0, 1, 2, 3},
        [MIRRORED] = {1, 0, 3, 2},
        [TURNED] = {0, 3, 2, 1},
    };
    const size_t na = a->vapour.nodes.count, nb = b->vapour.nodes.count;
    struct {
        double theta, p, mass;
    } off = {0.0, 0.0, 0.0};
    ck_assert_uint_eq(na, nb);
    for (size_t m = 0; m < BW_MONTHS; ++m)
        for (size_t c = 0; c < 4UL * SIDE * SIDE; ++c) {
            const size_t cell = c / 4, i = cell % SIDE, j = cell / SIDE;
            if (a->cell[cell] == BW_NOT_THERE)
                continue;
            const size_t other = drawn_cell(way, i, j) * 4 + corner[way][c % 4];
            const size_t at = m * na + a->vapour.nodes.corner[c];
            const size_t there = m * nb + b->vapour.nodes.corner[other];
            off.theta = fmax(off.theta,
                             apart(one->theta, at, two->theta, there));
            off.p = fmax(off.p, apart(one->p, at, two->p, there));
            off.mass = fmax(off.mass, apart(one->mass, at, two->mass, there));
            off.mass = fmax(off.mass, apart(one->gain, at, two->gain, there));
        }
    ck_assert_double_lt(off.theta, 1e-9);
    ck_assert_double_lt(off.p, 1e-5);
    ck_assert_double_lt(off.mass, 1e-9);
}

START_TEST(drawing_mirrored_or_turned_gives_the_same)
{
    for (size_t d = 0; d < DRAWINGS / 2; ++d) {
        sketch s;
        plan p, q;
        const turn way = d % 2 == 0 ? MIRRORED : TURNED;
        make_up(&s, seed_of(_i, d));
        draw(&p, &s, AS_IT_IS);
        draw(&q, &s, way);
        const bw_vapour_result one = plan_run(&p, s.air, &from_october);
        const bw_vapour_result two = plan_run(&q, s.air, &from_october);
        compare_ways(&p, &one, &q, &two, way);
        bw_arena_release(&p.arena);
        bw_arena_release(&q.arena);
    }
}
END_TEST

/* Comparison principle of obstacle problems; with films that change sd it need
 * not hold. */
START_TEST(moister_room_leaves_no_place_with_less_water)
{
    for (size_t d = 0; d < DRAWINGS; ++d) {
        sketch s;
        plan p;
        make_up(&s, seed_of(_i, d));
        s.variable = false;
        draw(&p, &s, AS_IT_IS);
        const bw_vapour_result one = plan_run(&p, s.air, &from_october);
        for (int m = 0; m < BW_MONTHS; ++m)
            s.air[1].p[m] += 150.0;
        const bw_vapour_result two = plan_run(&p, s.air, &from_october);
        size_t moister = 0;
        const size_t all = BW_MONTHS * p.vapour.nodes.count;
        for (size_t k = 0; k < all; ++k)
            moister += two.mass[k] >= one.mass[k] - 1e-11 &&
                       two.p[k] >= one.p[k] - 1e-6;
        ck_assert_uint_eq(moister, all);
        bw_arena_release(&p.arena);
    }
}
END_TEST

enum { RUNS = 4 };

SUITE("junction_vapour_random",
      EACH(water_is_what_came_less_what_went_and_no_air_is_oversaturated, RUNS),
      EACH(drawing_mirrored_or_turned_gives_the_same, RUNS),
      EACH(moister_room_leaves_no_place_with_less_water, RUNS))
