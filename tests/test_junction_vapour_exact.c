/* Vapour in two dimensions against exact solutions: flow round a corner, past a
 * step, through a checkerboard; a zone of condensation whose edge is a circle;
 * and that a month in one solution is the month in many. */

#include <math.h>

#include "junction/vapour_run.h"
#include "junction_plan.h"
#include "measured.h"
#include "suite.h"

static const double pi = 3.14159265358979323846;
static const double dry_pressure = 100.0; /* Pa; far below saturation */

/* Both sides at 20 degC, 100 Pa between them; returns the flow from the room
 * per metre, for 1 Pa and a permeability of 1. */
static double shape_of(plan *p)
{
    bw_vapour_air air[PLAN_ENVIRONMENTS];
    const bw_vapour_options options = {.start_month = -1};
    for (int m = 0; m < BW_MONTHS; ++m) {
        air[0].theta[m] = air[1].theta[m] = 20.0;
        air[0].p[m] = dry_pressure;
        air[1].p[m] = 2.0 * dry_pressure;
    }
    p->material[0].conductivity = 1.0;
    p->material[0].mu_dry = p->material[0].mu_wet = 1.0;
    plan_make(p);
    const bw_vapour_result r = plan_run(p, air, &options);
    ck_assert(!r.condenses);
    /* January; what comes from the room goes to the outside */
    ck_assert_double_eq_tol(r.flow[0], -r.flow[1], 1e-12 * r.flow[1]);
    return r.flow[1] / (BW_DELTA_0 * dry_pressure * bw_month_seconds(0));
}

/* ---- shapes -------------------------------------------------------------- */

/* A corner of walls a and b thick, n cells to a, legs of 6 a inside. */
static double corner_constant(size_t n, double k)
{
    const size_t across = n, up = (size_t)((double)n / k), legs = 6 * n;
    const double h = 0.25 / (double)n;
    plan p;
    plan_start(&p, across + legs, up + legs);
    for (size_t i = 0; i <= p.nx; ++i)
        p.x[i] = h * (double)i;
    for (size_t j = 0; j <= p.ny; ++j)
        p.y[j] = h * (double)j;
    for (size_t j = up; j < p.ny; ++j)
        for (size_t i = across; i < p.nx; ++i) {
            p.cell[j * p.nx + i] = BW_NOT_THERE;
            p.air[j * p.nx + i] = 1;
        }
    p.rim[BW_EDGE_LEFT] = p.rim[BW_EDGE_BELOW] = 0;
    const double shape = shape_of(&p);
    bw_arena_release(&p.arena);
    return shape - (double)legs / (double)across - (double)legs / (double)up;
}

/* Errors fall as h^(4/3) at a re-entrant corner. */
static double at_no_width(double coarse, double fine)
{
    return fine + (fine - coarse) / (pow(2.0, 4.0 / 3.0) - 1.0);
}

/* The exact corner constants [derived]: 1 - 2 ln 2/pi for equal walls, and
 * k + 1/k - [ln(16/((1 + k^2)(1 + 1/k^2))) + 2k atan k + (2/k) atan(1/k)]/pi.
 */
static const struct {
    double k, exact;
} corners[] = {{1.0, 0.558729}, {2.0, 0.643537}, {4.0, 0.873438}};

START_TEST(vapour_round_a_corner_is_the_exact_constant)
{
    const double k = corners[_i].k, exact = corners[_i].exact;
    const double c8 = corner_constant(8, k), c16 = corner_constant(16, k);
    ck_assert_double_gt(c8, c16); /* from above: Dirichlet's principle */
    ck_assert_double_gt(c16, exact);
    measured("vapour-corner", fabs(at_no_width(c8, c16) - exact), 0.003, "-");
}
END_TEST

/* dS of a step in thickness, thin/thick = 1/2 [derived]. */
static double step_constant(size_t n)
{
    const size_t thin = n, thick = 2 * n, legs = 10 * n;
    const double h = 0.2 / (double)n;
    plan p;
    plan_start(&p, 2 * legs, thick);
    for (size_t i = 0; i <= p.nx; ++i)
        p.x[i] = h * (double)i;
    for (size_t j = 0; j <= p.ny; ++j)
        p.y[j] = h * (double)j;
    for (size_t j = thin; j < thick; ++j)
        for (size_t i = 0; i < legs; ++i) {
            p.cell[j * p.nx + i] = BW_NOT_THERE;
            p.air[j * p.nx + i] = 1;
        }
    p.rim[BW_EDGE_BELOW] = 0;
    p.rim[BW_EDGE_ABOVE] = 1;
    const double shape = shape_of(&p);
    bw_arena_release(&p.arena);
    return shape - (double)legs / (double)thin - (double)legs / (double)thick;
}

START_TEST(vapour_past_a_step_in_thickness_is_the_exact_constant)
{
    const double c5 = step_constant(5), c10 = step_constant(10);
    ck_assert_double_gt(c5, c10);
    measured("vapour-step", fabs(at_no_width(c5, c10) - 0.249833), 0.003, "-");
}
END_TEST

/* Four quadrants crosswise between faces held at their pressures: the
 * permeability is the geometric mean [Keller, Dykhne]. */
START_TEST(vapour_through_a_checkerboard_is_the_geometric_mean)
{
    enum { N = 64 };
    plan p;
    plan_start(&p, N, N);
    for (size_t i = 0; i <= N; ++i)
        p.x[i] = p.y[i] = (double)i / N;
    for (size_t j = 0; j < N; ++j)
        for (size_t i = 0; i < N; ++i)
            p.cell[j * N + i] = (i < N / 2) != (j < N / 2);
    p.material[1] = (bw_drawn_material){
        .conductivity = 1.0, .mu_dry = 0.5, .mu_wet = 0.5};
    p.rim[BW_EDGE_BELOW] = 0;
    p.rim[BW_EDGE_ABOVE] = 1;
    measured("vapour-checkerboard", 100 * fabs(shape_of(&p) / sqrt(2.0) - 1),
             0.2, "%");
    bw_arena_release(&p.arena);
}
END_TEST

/* ---- an obstacle whose contact is known ---------------------------------- */

typedef struct square {
    bw_arena arena;
    size_t n; /* cells a side */
    bw_net net;
    bw_obstacle obstacle;
    double *top;
} square;

static double place_of(const square *s, size_t i)
{
    return 4.0 * (double)i / (double)s->n - 2.0;
}

/* -2..2 both ways, a unit permeability. */
static void make_square(square *s, size_t n)
{
    *s = (square){.n = n};
    bw_net_link *link = BW_NEW(&s->arena, bw_net_link, 2 * (n + 1) * (n + 1));
    double *g = BW_NEW(&s->arena, double, 2 * (n + 1) * (n + 1));
    size_t links = 0, row = n + 1;
    for (size_t j = 0; j <= n; ++j)
        for (size_t i = 0; i <= n; ++i) {
            if (i < n)
                link[links++] = (bw_net_link){.a = j * row + i,
                                              .b = j * row + i + 1,
                                              .shape = j % n ? 1.0 : 0.5};
            if (j < n)
                link[links++] = (bw_net_link){.a = j * row + i,
                                              .b = (j + 1) * row + i,
                                              .shape = i % n ? 1.0 : 0.5};
        }
    for (size_t l = 0; l < links; ++l)
        g[l] = link[l].shape;
    s->top = BW_NEW(&s->arena, double, row *row);
    ck_assert_int_eq(
        bw_net_make(&s->net, &s->arena, row * row, link, links, NULL), BW_OK);
    bw_net_set(&s->net, g);
    ck_assert_int_eq(bw_obstacle_make(&s->obstacle, &s->arena, &s->net, NULL),
                     BW_OK);
}

/* top = 1 + r^2. Below it and harmonic beyond a circle of radius a that it
 * touches within: 1 + r^2 for r < a, 1 + a^2 + 2 a^2 ln(r/a) beyond, with the
 * same slope on both sides; what gathers within is the integral of 4, that is
 * 4 pi a^2 [derived]. */
static const double a = 0.8;

static double touching(double r)
{
    return r < a ? 1.0 + r * r : 1.0 + a * a + 2.0 * a * a * log(r / a);
}

typedef struct errors {
    double field, gathered;
} errors;

static errors circle(size_t n)
{
    square s;
    make_square(&s, n);
    errors e = {0.0, -4.0 * pi * a * a};
    for (size_t j = 0; j <= n; ++j)
        for (size_t i = 0; i <= n; ++i) {
            const size_t at = j * (n + 1) + i;
            const double r = hypot(place_of(&s, i), place_of(&s, j));
            s.top[at] = 1.0 + r * r;
            s.obstacle.pinned[at] = i == 0 || j == 0 || i == n || j == n;
            s.obstacle.p[at] = touching(r);
        }
    ck_assert(bw_obstacle_solve(&s.obstacle, s.top));
    for (size_t at = 0; at < (n + 1) * (n + 1); ++at) {
        const double r = hypot(place_of(&s, at % (n + 1)),
                               place_of(&s, at / (n + 1)));
        e.field = fmax(e.field, fabs(s.obstacle.p[at] - touching(r)));
        if (s.obstacle.wet[at]) {
            e.gathered += bw_net_inflow(&s.net, s.obstacle.p, at);
            ck_assert_double_lt(r, a + 8.0 / (double)n);
        }
    }
    bw_arena_release(&s.arena);
    return e;
}

START_TEST(water_stands_within_the_circle_it_must)
{
    const errors coarse = circle(32), fine = circle(128);
    ck_assert_double_lt(coarse.field, 0.01);
    measured("wet-circle", fine.field, 0.01 / 8, "of the pressure");
    ck_assert_double_lt(fine.field, coarse.field / 8.0); /* order 2: 16 */
    ck_assert_double_lt(fabs(fine.gathered), 0.01 * 4.0 * pi * a * a);
}
END_TEST

/* ---- a month at once ----------------------------------------------------- */

/* Water of odd amounts in a square under a top that is no simple surface. */
static void fill_square(square *s, double *water, unsigned long seed)
{
    for (size_t at = 0; at < s->net.nodes; ++at) {
        const double x = place_of(s, at % (s->n + 1));
        const double y = place_of(s, at / (s->n + 1));
        s->top[at] = 3.0 + sin(2.0 * x) * cos(3.0 * y) + 0.5 * x * x;
        s->obstacle.pinned[at] = at % (s->n + 1) == 0;
        s->obstacle.p[at] = 2.5; /* all along one side */
        s->obstacle.wet[at] = false;
        const double chance = plan_chance(&seed);
        water[at] = chance < 0.4 && !s->obstacle.pinned[at] ? chance : 0.0;
    }
}

/* What is left after `time` in so many equal parts. */
static void dry_square(square *s, double *water, double time, size_t parts)
{
    bw_obstacle *o = &s->obstacle;
    const double t = time / (double)parts;
    for (size_t part = 0; part < parts; ++part) {
        for (size_t at = 0; at < s->net.nodes; ++at)
            o->feed[at] = water[at] / t;
        ck_assert(bw_obstacle_solve(o, s->top));
        for (size_t at = 0; at < s->net.nodes; ++at)
            if (!o->pinned[at])
                water[at] = o->wet[at]
                                ? fmax(0.0,
                                       t * (o->feed[at] +
                                            bw_net_inflow(&s->net, o->p, at)))
                                : 0.0;
    }
}

static const double times[] = {0.01, 0.1, 0.5, 2.0, 10.0};

/* Derived in docs/methods.md. In one dimension the same is seen against the
 * monthly method, which goes from one node's drying to the next. */
START_TEST(month_in_one_solution_is_the_month_in_many)
{
    enum { N = 14, NODES = (N + 1) * (N + 1) };
    for (unsigned long seed = 1; seed <= 10; ++seed) {
        square s;
        double once[NODES], often[NODES];
        make_square(&s, N);
        fill_square(&s, once, seed);
        fill_square(&s, often, seed);
        dry_square(&s, once, times[_i], 1);
        dry_square(&s, often, times[_i], 37);
        for (size_t at = 0; at < NODES; ++at)
            ck_assert_double_eq_tol(once[at], often[at], 1e-11);
        bw_arena_release(&s.arena);
    }
}
END_TEST

SUITE("junction_vapour_exact",
      EACH(vapour_round_a_corner_is_the_exact_constant, COUNT(corners)),
      FACT(vapour_past_a_step_in_thickness_is_the_exact_constant),
      FACT(vapour_through_a_checkerboard_is_the_geometric_mean),
      FACT(water_stands_within_the_circle_it_must),
      EACH(month_in_one_solution_is_the_month_in_many, COUNT(times)))
