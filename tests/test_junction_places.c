/* Where water stands round a corner, and what air leaves where faces meet: by
 * the definitions of water.c, water_air.c and vapour_make.c written down a
 * second time, for drawings that are no plane walls. */

#include <math.h>
#include <stdint.h>

#include "bothways/air.h"
#include "junction/raster.h"
#include "junction/water.h"
#include "junction_case.h"
#include "junction_plan.h"
#include "suite.h"

/* ---- round a corner -------------------------------------------------------
 */

enum { STUFFS = 3, NODES_MOST = 4000 };
static const double hand = 0.1; /* m: what stands is spread over no less */

typedef struct corner {
    drawn d;
    bw_material stuff[STUFFS];
    double theta[2 * BW_MONTHS], p[2 * BW_MONTHS];
    bw_raster grid;
    bw_vapour vapour;
    bw_vapour_air air[2];
    bw_vapour_result year;
    size_t place[NODES_MOST], count;
} corner;

static corner c;

/* Tight outside, insulation inside; a stud of wood through that, away from the
 * corner, so that there are faces of three kinds. */
static void draw(double outer, double inner, double stud)
{
    static const char *const name[STUFFS] = {"one", "two", "stud"};
    static const double lambda[STUFFS] = {0.2, 0.04, 0.13};
    static const double mu[STUFFS] = {120, 12, 60};
    const double o = outer, i = inner, l = 500;
    memset(&c, 0, sizeof c);
    draw_start(&c.d);
    draw_box(&c.d, lambda[0], -o - i, l, -o - i, -i);
    draw_box(&c.d, lambda[0], -o - i, -i, -i, l);
    draw_box(&c.d, lambda[1], -i, l, -i, 0);
    draw_box(&c.d, lambda[1], -i, 0, 0, l);
    draw_box(&c.d, lambda[2], stud, stud + 40, -i, 0);
    for (size_t k = 0; k < 5; k++) {
        const size_t of = k / 2;
        c.stuff[of] = (bw_material){.id = name[of],
                                    .name = name[of],
                                    .group = "masonry",
                                    .absorbs_condensate = of == 2};
        c.d.material[k].name = name[of];
        c.d.material[k].material = &c.stuff[of];
        c.d.material[k].mu_dry = c.d.material[k].mu_wet = mu[of];
    }
    draw_space(&c.d, 0, -o - i - 50, -o - i, -o - i - 50, l);
    draw_space(&c.d, 0, -o - i, l, -o - i - 50, -o - i);
    draw_space(&c.d, 1, 0, l, 0, l);
    draw_cut(&c.d, false, true, false, true);
}

static void put_months(int cold)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        const bool is_cold = (m + 1) % BW_MONTHS < cold; /* from December on */
        c.theta[m] = c.air[0].theta[m] = is_cold ? -2.0 : 16.0;
        c.p[m] = c.air[0].p[m] = is_cold ? 420 : 600;
        c.theta[BW_MONTHS + m] = c.air[1].theta[m] = 20.0;
        c.p[BW_MONTHS + m] = c.air[1].p[m] = is_cold ? 1000 : 700;
    }
}

/* The year on the grid that is said: cells of 5 mm at the lines, growing by
 * two. */
static void run_year(void)
{
    static const bw_raster_options options = {.smallest = 0.005, .growth = 2.0};
    static const double surface[] = {0.04, 0.25};
    const bw_vapour_options of = {.mu = BW_MU_DRY, .start_month = -1};
    bw_arena *arena = &c.d.arena;
    ck_assert_int_eq(
        bw_raster_make(&c.grid, &c.d.junction, &options, arena, NULL), BW_OK);
    ck_assert_int_eq(bw_vapour_make(&c.vapour, arena, &c.grid, surface, NULL),
                     BW_OK);
    ck_assert_int_eq(
        bw_vapour_year(&c.year, arena, &c.vapour, c.air, &of, NULL), BW_OK);
}

/* Nodes that hold water and are linked are a place; they are not a surface's.
 */
static void name_places(void)
{
    const bw_nodes *n = &c.vapour.nodes;
    ck_assert_uint_le(n->count, NODES_MOST);
    for (size_t k = 0; k < n->count; k++)
        c.place[k] = SIZE_MAX;
    for (size_t k = 0; k < n->count; k++) {
        const bool wet = n->environment[k] == BW_NO_ENVIRONMENT &&
                         c.year.peak[k] > 1e-6 * c.vapour.face[k];
        if (wet)
            c.place[k] = k;
    }
    for (bool more = true; more;) {
        more = false;
        for (size_t l = 0; l < n->links; l++) {
            size_t *a = &c.place[n->link[l].a], *b = &c.place[n->link[l].b];
            if (*a == SIZE_MAX || *b == SIZE_MAX || *a == *b)
                continue;
            *a = *b = *a < *b ? *a : *b;
            more = true;
        }
    }
    for (size_t k = 0; k < n->count; k++)
        c.count += c.place[k] == k;
}

/* Materials that touch a node, as bits. */
static unsigned touching(size_t node)
{
    unsigned bits = 0;
    for (size_t k = 0; k < c.grid.nx * c.grid.ny * BW_CORNERS; k++)
        if (c.grid.material[k / BW_CORNERS] != BW_NOT_THERE &&
            c.vapour.nodes.corner[k] == node)
            bits |= 1u << (c.grid.material[k / BW_CORNERS] / 2);
    return bits;
}

/* kg/m2 at a node: over its own face, or spread over a hand's width, whichever
 * is less; not where its face is as wide. */
static double share(const double *field, size_t node)
{
    const bw_nodes *n = &c.vapour.nodes;
    const double own = field[node] / c.vapour.face[node];
    double sum = 0.0;
    for (size_t k = 0; k < n->count; k++)
        if (c.place[k] == c.place[node] &&
            fmax(fabs(n->x[k] - n->x[node]), fabs(n->y[k] - n->y[node])) <=
                hand / 2)
            sum += field[k];
    return c.vapour.face[node] >= hand ? own : fmin(own, sum / hand);
}

/* m of the face between two materials that holds most of a place. */
static double face_of(size_t name)
{
    double water[8] = {0}, length[8] = {0}, lo[8][2], hi[8][2];
    size_t most = 0;
    for (size_t k = 0; k < 8; k++) {
        lo[k][0] = lo[k][1] = HUGE_VAL;
        hi[k][0] = hi[k][1] = -HUGE_VAL;
    }
    for (size_t k = 0; k < c.vapour.nodes.count; k++) {
        const double at[2] = {c.vapour.nodes.x[k], c.vapour.nodes.y[k]};
        if (c.place[k] != name)
            continue;
        unsigned of = touching(k);
        if (of == 7) /* where three meet, the two that are drawn first */
            of = 3;
        if (of != 3 && of != 5 && of != 6)
            continue;
        water[of] += c.year.peak[k];
        length[of] += c.vapour.face[k];
        for (int x = 0; x < 2; x++) {
            lo[of][x] = fmin(lo[of][x], at[x]);
            hi[of][x] = fmax(hi[of][x], at[x]);
        }
        most = water[of] > water[most] ? of : most;
    }
    ck_assert_uint_gt(most, 0);
    const double x = hi[most][0] - lo[most][0], y = hi[most][1] - lo[most][1];
    return fmin(x, y) < 1e-9 ? fmax(x, y) : length[most];
}

static const bw_water_place *told_at(const bw_junction_water *out, size_t name)
{
    const bw_nodes *n = &c.vapour.nodes;
    double x0 = HUGE_VAL, x1 = -HUGE_VAL, y0 = HUGE_VAL, y1 = -HUGE_VAL;
    for (size_t k = 0; k < n->count; k++) {
        if (c.place[k] != name)
            continue;
        x0 = fmin(x0, n->x[k]);
        x1 = fmax(x1, n->x[k]);
        y0 = fmin(y0, n->y[k]);
        y1 = fmax(y1, n->y[k]);
    }
    for (size_t k = 0; k < out->place_count; k++) {
        const bw_water_place *p = &out->place[k];
        if (p->x0 == x0 && p->x1 == x1 && p->y0 == y0 && p->y1 == y1)
            return p;
    }
    ck_abort_msg("no place from %g to %g, %g to %g", x0, x1, y0, y1);
}

static void check_place(const bw_junction_water *out, size_t name)
{
    const bw_nodes *n = &c.vapour.nodes;
    const bw_water_place *p = told_at(out, name);
    const size_t end = (size_t)(c.year.start_month + 11) % 12;
    double month[BW_MONTHS] = {0}, fullest = 0, left = 0, shed = 0, widest = 0;
    size_t at = 0;
    int most = 0;
    for (size_t k = 0; k < n->count; k++) {
        if (c.place[k] != name)
            continue;
        const double here = share(c.year.peak, k);
        for (size_t m = 0; m < BW_MONTHS; m++)
            month[m] += c.year.mass[m * n->count + k];
        widest = fmax(widest, c.vapour.face[k]);
        left = fmax(left, share(c.year.mass + end * n->count, k));
        if ((touching(k) & 3u) != 0)
            shed = fmax(shed, here);
        if (here > fullest)
            at = k;
        fullest = fmax(fullest, here);
    }
    for (int m = 0; m < BW_MONTHS; m++)
        most = month[m] > month[most] ? m : most;
    const double length = fmax(fmax(face_of(name), widest), hand);
    ck_assert_int_eq(p->month, most);
    ck_assert_double_eq_tol(p->most, month[most], 1e-9);
    ck_assert_double_eq_tol(p->left, month[end], 1e-9);
    ck_assert_double_eq_tol(p->most_by_area,
                            fmax(fullest, month[most] / length), 1e-9);
    ck_assert_double_eq_tol(p->left_by_area, fmax(left, month[end] / length),
                            1e-9);
    ck_assert_double_eq_tol(p->most_shed, shed, 1e-9);
    ck_assert_double_eq(p->x, n->x[at]);
    ck_assert_double_eq(p->y, n->y[at]);
}

static const struct {
    double outer, inner, stud;
    int cold;
} corners[] = {
    {40, 120, 200, 3}, {30, 80, 300, 5}, {50, 60, 60, 12}, {20, 150, 0, 2}};

START_TEST(water_of_a_place_is_spread_over_its_face_or_a_hands_width)
{
    bw_junction_water out;
    draw(corners[_i].outer, corners[_i].inner, corners[_i].stud);
    put_months(corners[_i].cold);
    run_year();
    name_places();
    ck_assert_int_eq(bw_junction_water_find(&out, &c.d.arena, &c.d.junction,
                                            c.theta, c.p, BW_MU_DRY, false,
                                            NULL),
                     BW_OK);
    ck_assert_uint_eq(out.nodes, c.vapour.nodes.count);
    ck_assert_uint_gt(c.count, 0);
    ck_assert_uint_eq(out.place_count, c.count);
    for (size_t k = 0; k < c.vapour.nodes.count; k++)
        if (c.place[k] == k)
            check_place(&out, k);
    for (size_t k = 1; k < out.place_count; k++)
        ck_assert_double_ge(out.place[k - 1].most_by_area,
                            out.place[k].most_by_area);
    draw_end(&c.d);
}
END_TEST

/* ---- air to a place -------------------------------------------------------
 */

static plan p;
static unsigned long seed;

static void draw_plan(size_t nx, size_t ny, bool films)
{
    plan_start(&p, nx, ny);
    for (size_t i = 1; i <= nx; i++)
        p.x[i] = p.x[i - 1] + 0.01 + 0.02 * plan_chance(&seed);
    for (size_t j = 1; j <= ny; j++)
        p.y[j] = p.y[j - 1] + 0.01 + 0.02 * plan_chance(&seed);
    for (size_t k = 0; k < nx * ny; k++) {
        p.cell[k] = (int)(3 * plan_chance(&seed));
        if (films && plan_chance(&seed) < 0.2)
            p.film_x[k / nx * (nx + 1) + k % nx] = 0;
        if (films && plan_chance(&seed) < 0.2)
            p.film_y[k] = 0;
    }
    for (size_t k = 0; k < 3; k++)
        p.material[k] = (bw_drawn_material){.name = "m",
                                            .material = &some_material,
                                            .conductivity = 0.1,
                                            .mu_dry = 10,
                                            .mu_wet = 10};
    p.film[0] = (bw_drawn_film){.name = "f", .sd_dry = 1, .sd_wet = 1};
    p.rim[BW_EDGE_BELOW] = 0;
    p.rim[BW_EDGE_ABOVE] = 1;
    plan_make(&p);
}

/* Cells of a material that touch without a film are a member; told by colour
 * until none changes. */
static void color_members(size_t *name)
{
    const size_t n = p.nx * p.ny;
    for (size_t k = 0; k < n; k++)
        name[k] = k;
    for (bool more = true; more;) {
        more = false;
        for (size_t k = 0; k < n; k++)
            for (int up = 0; up < 2; up++) {
                const size_t i = k % p.nx, j = k / p.nx;
                if (up ? j + 1 == p.ny : i + 1 == p.nx)
                    continue;
                const size_t o = up ? k + p.nx : k + 1;
                const int film = up ? p.film_y[o]
                                    : p.film_x[j * (p.nx + 1) + i + 1];
                if (p.cell[k] != p.cell[o] || film != BW_NOT_THERE ||
                    name[k] == name[o])
                    continue;
                name[k] = name[o] = name[k] < name[o] ? name[k] : name[o];
                more = true;
            }
    }
}

START_TEST(cells_without_a_film_between_are_a_member)
{
    size_t name[42];
    seed = 61 + (unsigned long)_i;
    draw_plan(7, 6, true);
    color_members(name);
    for (size_t a = 0; a < 42; a++)
        for (size_t b = 0; b < a; b++)
            ck_assert_int_eq(p.vapour.member[a] == p.vapour.member[b],
                             name[a] == name[b]);
    bw_arena_release(&p.arena);
}
END_TEST

/* Where cells of two members meet, or at a film; surfaces get none. */
static bool meets(const size_t *name, size_t node)
{
    size_t first = SIZE_MAX;
    bool two = false;
    for (size_t k = 0; k < p.nx * p.ny * BW_CORNERS; k++) {
        if (p.vapour.nodes.corner[k] != node)
            continue;
        two |= first != SIZE_MAX && first != name[k / BW_CORNERS];
        first = name[k / BW_CORNERS];
    }
    for (size_t k = 0; k < p.vapour.nodes.pairs; k++)
        two |= p.vapour.nodes.pair[k].a == node ||
               p.vapour.nodes.pair[k].b == node;
    return two && p.vapour.nodes.environment[node] == BW_NO_ENVIRONMENT;
}

START_TEST(air_is_shared_by_the_faces_of_its_place)
{
    static const double flow[] = {2e-5, 3e-5, 0.0};
    size_t name[42];
    bw_drawn_air air[3];
    bw_vapour_options o = {.start_month = -1};
    seed = 81 + (unsigned long)_i;
    draw_plan(7, 6, _i % 2 == 1);
    color_members(name);
    for (size_t k = 0; k < 3; k++)
        air[k] = (bw_drawn_air){.name = "a",
                                .at = {p.x[1 + k], p.x[4 + k], p.y[1], p.y[4]},
                                .environment = 1,
                                .flow = flow[k]};
    p.junction.air = air;
    p.junction.air_count = 3;
    ck_assert_int_eq(bw_water_air(&o, &p.arena, &p.vapour, NULL), BW_OK);
    double got[400] = {0}, sum[2] = {0, 0};
    const bw_nodes *n = &p.vapour.nodes;
    for (size_t k = 0; k < o.leak.count; k++)
        got[o.leak.node[k]] += o.leak.length[k];
    for (int round = 0; round < 2; round++)
        for (size_t k = 0; k < n->count; k++) {
            double due = 0.0;
            for (size_t a = 0; a < 2; a++) {
                const bw_rectangle *r = &air[a].at;
                if (!meets(name, k) || n->x[k] < r->x0 - 1e-9 ||
                    n->x[k] > r->x1 + 1e-9 || n->y[k] < r->y0 - 1e-9 ||
                    n->y[k] > r->y1 + 1e-9)
                    continue;
                if (round == 0)
                    sum[a] += p.vapour.face[k];
                else
                    due += flow[a] * p.vapour.face[k] / sum[a];
            }
            if (round == 1)
                ck_assert_double_eq_tol(got[k], due, 1e-15);
        }
    ck_assert_double_eq_tol(o.leak.total, 5e-5, 1e-15);
    ck_assert(o.has_air_flow);
    ck_assert_uint_eq(o.leaking_room, 1);
    for (int m = 0; m < BW_MONTHS; m++)
        ck_assert_double_eq(o.air_flow[m], 1.0);
    air[0].at = (bw_rectangle){-2, -1, -2, -1}; /* no face lies there */
    ck_assert_int_eq(bw_water_air(&o, &p.arena, &p.vapour, NULL),
                     BW_ERR_DOMAIN);
    bw_arena_release(&p.arena);
}
END_TEST

SUITE("junction_places",
      EACH(water_of_a_place_is_spread_over_its_face_or_a_hands_width,
           COUNT(corners)),
      EACH(cells_without_a_film_between_are_a_member, 4),
      EACH(air_is_shared_by_the_faces_of_its_place, 4))
