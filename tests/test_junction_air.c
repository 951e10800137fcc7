/* Room air that flows to a place of a junction: against steady balances of
 * water and heat by hand, by the hour and by months; what is refused; what it
 * takes for a joist end to be seen. */

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MADE "junction-air"
#include "bothways/air.h"
#include "bothways/assessment.h"
#include "junction/hour_air.h"
#include "junction/hour_sides.h"
#include "junction/water.h"
#include "junction_made.h"
#include "junction_plan.h"
#include "suite.h"
#include "transient_case.h"

/* ---- a steady strip -------------------------------------------------------
 */

enum { ROWS = 60, ACROSS = 3 };
static const double column[ACROSS + 1] = {0.0, 0.03, 0.05, 0.1}; /* m */
static const double thickness = 0.12, width = 0.1;
static const double FILM = 7e-9 * 2.5, CONVECTION = 2.5;

typedef struct strip {
    transient_case *c;
    plan p;
    bw_sheet_model drawn;
    bw_sheet_solver s;
    bw_sheet_airflow air[ACROSS];
} strip;

/* Board; air of side 2 past its middle, shared by length. */
static void make_strip(strip *t, double flow, bool all)
{
    t->c = steady_new(20, 0.5, 20, 0.5);
    add_board(t->c, 0.1, 8.0);
    plan_start(&t->p, ACROSS, ROWS);
    memcpy(t->p.x, column, sizeof column);
    for (size_t j = 0; j <= ROWS; j++)
        t->p.y[j] = thickness * (double)j / ROWS;
    t->p.rim[BW_EDGE_BELOW] = 0;
    t->p.rim[BW_EDGE_ABOVE] = 1;
    t->p.material[0] = (bw_drawn_material){.name = "board",
                                           .material = &t->c->material[0],
                                           .conductivity = 0.2,
                                           .mu_dry = 8.0,
                                           .mu_wet = 8.0};
    plan_make(&t->p);
    ck_assert_int_eq(
        bw_sheet_make(&t->drawn, &t->p.arena, &t->p.raster, NULL, 101325, NULL),
        BW_OK);
    bw_sheet *s = &t->drawn.sheet;
    size_t count = 0;
    for (size_t f = 0; f < s->face_count; f++) {
        const size_t a = t->drawn.raster[s->face[f].a];
        const size_t b = t->drawn.raster[s->face[f].b];
        if ((a > b ? a : b) / ACROSS == ROWS / 2 &&
            (a > b ? a - b : b - a) == ACROSS) {
            t->air[count] = (bw_sheet_airflow){
                f, 2, flow * s->face[f].length / width, all};
            count++;
        }
    }
    ck_assert_uint_eq(count, ACROSS);
    s->air = t->air;
    s->air_count = count;
    ck_assert_int_eq(bw_sheet_solver_make(&t->s, s, &t->p.arena, NULL), BW_OK);
}

static void free_strip(strip *t)
{
    bw_arena_release(&t->p.arena);
    free(t->c);
}

/* theta and p of outside, room and air. */
typedef struct still {
    double theta[3], p[3];
} still;

static void at_rest(const void *ctx, double t, bw_sheet_weather *w)
{
    const still *of = ctx;
    (void)t;
    *w = (bw_sheet_weather){.redistributes = true};
    for (size_t k = 0; k < BW_SHEET_SIDES; k++) {
        const size_t i = k < 3 ? k : 0;
        w->side[k] = (bw_sheet_air){
            .theta = of->theta[i], .p = of->p[i], .h = 10, .beta = 1e-7};
    }
}

/* After a very long time: what comes in. */
static bw_sheet_flow settle(strip *t, const still *of)
{
    const bw_sheet *s = &t->drawn.sheet;
    bw_sheet_weather w;
    bw_sheet_flow flow = {.heat = 0};
    double *v = BW_NEW(&t->p.arena, double, 2 * s->n);
    for (size_t i = 0; i < s->n; i++) {
        v[2 * i] = 15;
        v[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], 0.5);
    }
    bw_sheet_start(&t->s, v, 0);
    ck_assert_int_eq(bw_sheet_advance(&t->s, 1e12, at_rest, of, &flow, NULL),
                     BW_OK);
    at_rest(of, 0, &w);
    bw_cells_at(&s->cells, t->s.v, &t->s.cells, false);
    bw_sheet_rates(s, &w, t->s.v, &t->s.cells, t->s.x, &flow, NULL, 0);
    return flow;
}

/* Flow [m3/(m s)], all of it, pressures of outside, room and air [Pa]. */
static const struct {
    double flow;
    bool all;
    double p[3];
} brings[] = {
    {1e-6, false, {800, 1200, 2000}}, {1e-5, false, {800, 1200, 2000}},
    {1e-3, false, {800, 1200, 2000}}, {1e-5, true, {800, 1200, 2000}},
    {1e-5, true, {1500, 1200, 700}},
};

/* p_f = sum G p/sum G of what meets at the face: half of the board with its
 * surface either way, and the air, which brings V/(R_v T) and meets two sides
 * [derived]. */
START_TEST(water_that_air_leaves_is_that_of_a_steady_balance)
{
    strip t;
    const still of = {.theta = {20, 20, 20},
                      .p = {brings[_i].p[0], brings[_i].p[1], brings[_i].p[2]}};
    make_strip(&t, brings[_i].flow, brings[_i].all);
    const bw_sheet_flow flow = settle(&t, &of);
    const double delta = bw_vapour_permeability_of_air(20, 101325) / 8.0;
    const double rate = brings[_i].flow / width / (BW_R_V * 293.15);
    const double g[3] = {1 / (1e7 + 0.5 * thickness / delta),
                         1 / (1e7 + 0.5 * thickness / delta),
                         1 / (1 / rate + 0.5 / FILM)};
    double sum = 0, all = 0;
    for (size_t k = 0; k < 3; k++) {
        sum += g[k] * of.p[k];
        all += g[k];
    }
    const double expected = width * g[2] * (of.p[2] - sum / all);
    ck_assert_double_eq_tol(flow.air, expected, 0.01 * fabs(expected));
    ck_assert_double_eq_tol(flow.vapour[0] + flow.vapour[1], -flow.air,
                            1e-5 * fabs(flow.air));
    /* no more than it has */
    ck_assert_double_le(
        fabs(flow.air),
        width * rate * fmax(fabs(of.p[2] - of.p[0]), fabs(of.p[2] - of.p[1])));
    free_strip(&t);
}
END_TEST

START_TEST(dry_air_takes_nothing_unless_all_counts)
{
    const still of = {.theta = {20, 20, 20}, .p = {1500, 1200, 700}};
    for (int all = 0; all < 2; all++) {
        strip t;
        make_strip(&t, 1e-4, all == 1);
        const bw_sheet_flow flow = settle(&t, &of);
        if (all == 1)
            ck_assert_double_lt(flow.air, -1e-9);
        else
            ck_assert_double_eq_tol(flow.air, 0.0, 1e-20);
        free_strip(&t);
    }
}
END_TEST

/* The same of heat, where it counts; no vapour moves. */
START_TEST(warmth_of_air_is_that_of_a_steady_balance)
{
    const still of = {.theta = {2, 20, 30}, .p = {500, 500, 500}};
    for (int all = 0; all < 2; all++) {
        strip t;
        make_strip(&t, 1e-4, all == 1);
        settle(&t, &of);
        const size_t up = t.drawn.cell[(ROWS / 2) * ACROSS + 1];
        const size_t down = t.drawn.cell[(ROWS / 2 - 1) * ACROSS + 1];
        const double at_face = 0.5 * (t.s.v[2 * up] + t.s.v[2 * down]);
        const double r = 0.1 + 0.5 * thickness / 0.2;
        const double air =
            all == 1 ? 1 / (width / (1210.0 * 1e-4) + 0.5 / CONVECTION) : 0.0;
        const double expected = (2 / r + 20 / r + 30 * air) /
                                (1 / r + 1 / r + air);
        ck_assert_double_eq_tol(at_face, expected, 0.05);
        free_strip(&t);
    }
}
END_TEST

/* ---- by months ------------------------------------------------------------
 */

/* Where water stands at the face all month: what the air brings, less what
 * leaves both ways, stays [derived from the equation of section 3]. */
START_TEST(months_leave_what_the_air_cannot_hold)
{
    plan p;
    bw_vapour_air air[2];
    const bw_drawn_air of = {.name = "face",
                             .at = {0.04, 0.06, 0.15, 0.25},
                             .environment = 1,
                             .flow = 0.05 / 3600.0};
    plan_start(&p, 2, 4);
    for (size_t i = 0; i <= 2; i++)
        p.x[i] = 0.05 * (double)i;
    for (size_t j = 0; j <= 4; j++)
        p.y[j] = 0.1 * (double)j;
    for (size_t c = 4; c < 8; c++)
        p.cell[c] = 1;
    p.rim[BW_EDGE_BELOW] = 0;
    p.rim[BW_EDGE_ABOVE] = 1;
    p.material[0] = (bw_drawn_material){
        .name = "outer", .conductivity = 0.1, .mu_dry = 50, .mu_wet = 50};
    p.material[1] = (bw_drawn_material){
        .name = "inner", .conductivity = 0.1, .mu_dry = 20, .mu_wet = 20};
    plan_make(&p);
    p.junction.air_count = 1;
    p.junction.air = &of;
    for (int m = 0; m < BW_MONTHS; m++) {
        air[0].theta[m] = 0;
        air[0].p[m] = 500;
        air[1].theta[m] = 20;
        air[1].p[m] = 1400;
    }
    ck_assert_int_eq(
        bw_vapour_make(&p.vapour, &p.arena, &p.raster, p.surface, NULL), BW_OK);
    bw_vapour_options o = {.mu = BW_MU_LOCAL, .start_month = 0};
    ck_assert_int_eq(bw_water_air(&o, &p.arena, &p.vapour, NULL), BW_OK);
    ck_assert(o.has_air_flow);
    ck_assert_uint_eq(o.leaking_room, 1);
    ck_assert_double_eq_tol(o.leak.total, of.flow, 1e-15);
    ck_assert_uint_eq(o.leak.count, 1); /* the middle node of three */
    ck_assert_double_eq_tol(p.vapour.nodes.x[o.leak.node[0]], 0.05, 1e-12);
    ck_assert_double_eq_tol(p.vapour.nodes.y[o.leak.node[0]], 0.2, 1e-12);
    bw_vapour_result with, without;
    const bw_vapour_options none = {.mu = BW_MU_LOCAL, .start_month = 0};
    ck_assert_int_eq(bw_vapour_year(&with, &p.arena, &p.vapour, air, &o, NULL),
                     BW_OK);
    ck_assert_int_eq(
        bw_vapour_year(&without, &p.arena, &p.vapour, air, &none, NULL), BW_OK);
    const double theta = with.theta[o.leak.node[0]];
    const double excess = bw_vapour_concentration(20, 1400) -
                          bw_vapour_concentration(
                              theta, bw_saturation_pressure(theta));
    ck_assert_double_gt(excess, 1e-3);
    double brought = 0, stays = 0, left = 0;
    for (size_t m = 0; m < BW_MONTHS; m++) {
        brought += of.flow * excess * bw_month_seconds((int)m);
        for (size_t n = 0; n < p.vapour.nodes.count; n++)
            stays += with.gain[m * p.vapour.nodes.count + n];
        left -= with.flow[2 * m] + with.flow[2 * m + 1];
    }
    ck_assert_double_eq_tol(brought, stays + left, 1e-6 * brought);
    ck_assert_double_gt(with.mass[o.leak.node[0]],
                        without.mass[o.leak.node[0]] + 1e-3);
    bw_arena_release(&p.arena);
}
END_TEST

/* ---- read -----------------------------------------------------------------
 */

#define AIR                                                                    \
    "<room-air at=\"joint\" flow=\"0.1 m3/(m.h)\" over=\"30 mm\" "             \
    "source=\"survey\"/>"
#define SIDES                                                                  \
    "<outdoors climate=\"" BW_SOURCE_DIR "/assemblies/climates/upland.csv\" "  \
    "driving-rain=\"none\"/>"                                                  \
    "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"

/* Two lines, then its own: brick outside, wood within. */
static const char sound[] =
    "<junction xmlns=\"urn:bothways:junction:1\" id=\"test\">\n" SIDES
    "<room id=\"attic\"><indoors temperature=\"16 degC\" "
    "humidity-class=\"3\"/></room><drawing>"
    "<rectangle material=\"brick-old-soft\" x=\"0 mm\" y=\"0 mm\" "
    "width=\"30 mm\" height=\"100 mm\"/>"
    "<rectangle material=\"softwood\" x=\"0 mm\" y=\"100 mm\" "
    "width=\"30 mm\" height=\"100 mm\"/>"
    "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" width=\"30 mm\" "
    "height=\"50 mm\"/>"
    "<space of=\"room\" x=\"0 mm\" y=\"200 mm\" width=\"12 mm\" "
    "height=\"50 mm\"/>"
    "<rectangle material=\"softwood\" x=\"12 mm\" y=\"200 mm\" "
    "width=\"6 mm\" height=\"50 mm\"/>"
    "<space of=\"attic\" x=\"18 mm\" y=\"200 mm\" width=\"12 mm\" "
    "height=\"50 mm\"/><symmetry side=\"above\"/>"
    "<symmetry side=\"left\"/><symmetry side=\"right\"/>"
    "<spot name=\"joint\" x=\"15 mm\" y=\"100 mm\"/>"
    "<spot name=\"middle\" x=\"15 mm\" y=\"50 mm\"/></drawing>\n" AIR
    "</junction>\n";

static const struct {
    const char *from, *to, *says;
} refusals[] = {
    {"at=\"joint\"", "at=\"joit\"", "did you mean joint?"},
    {"at=\"joint\"", "at=\"middle\"", "no two materials meet"},
    {"flow=\"0.1 m3/(m.h)\"", "flow=\"0.1\"", "0.1 m3/(m.h)"},
    {"flow=\"0.1 m3/(m.h)\"", "flow=\"0.1 m3/(m2.h)\"", "air flow per length"},
    {"flow=\"0.1 m3/(m.h)\"", "flow=\"-1 l/(m.s)\"",
     "outside what is possible"},
    {"flow=\"0.1 m3/(m.h)\"", "", "flow="},
    {"source=\"survey\"", "", "source="},
    {"source=\"survey\"", "source=\"s\" of=\"atic\"", "did you mean attic?"},
    {"source=\"survey\"", "source=\"s\" of=\"outside\"",
     "write one of: room, attic"},
    {"source=\"survey\"", "source=\"s\" counts=\"al\"", "did you mean all?"},
    {"source=\"survey\"/>",
     "source=\"s\"/><room-air at=\"joint\" of=\"attic\" flow=\"1 l/(m.s)\" "
     "source=\"s\"/>",
     "air of one room"},
};

START_TEST(air_that_cannot_be_is_refused_with_its_line)
{
    char text[4096];
    replaced(text, sizeof text, sound, "<room-air", refusals[_i].from,
             refusals[_i].to);
    must_refuse(text, 3, refusals[_i].says);
}
END_TEST

START_TEST(air_is_read_as_it_stands)
{
    char text[4096];
    bw_junction *j = read_text(sound);
    ck_assert_uint_eq(j->air_count, 1);
    const bw_drawn_air *air = &j->air[0];
    ck_assert_str_eq(air->name, "joint");
    ck_assert_str_eq(air->source, "survey");
    ck_assert_str_eq(j->environment[air->environment].id, "room");
    ck_assert_double_eq_tol(air->flow, 0.1 / 3600.0, 1e-12);
    ck_assert_double_eq_tol(air->at.x1, 0.03, 1e-12);
    ck_assert(!air->all);
    bw_junction_free(j);
    replaced(text, sizeof text, sound, "<room-air", "source",
             "of=\"attic\" counts=\"all\" source");
    j = read_text(text);
    ck_assert_str_eq(j->environment[j->air[0].environment].id, "attic");
    ck_assert(j->air[0].all);
    bw_junction_free(j);
}
END_TEST

/* ---- what is seen ---------------------------------------------------------
 */

#define JOIST(air)                                                             \
    JUNCTION("joist-end", "<joist material=\"softwood\" height=\"200 mm\" "    \
                          "bearing=\"120 mm\" in=\"brick\"/>" air)
#define TO(place, flow, more)                                                  \
    "<room-air at=\"" place "\" flow=\"" flow "\" source=\"s\"" more "/>"

static const struct {
    const char *junction;
    const char *says, *not ;
} seen[] = {
    {JOIST(""), "past the end in its pocket", "comes as warm"},
    {JOIST(TO("end of the joist", "0.1 m3/(m.h)", "")), NULL, "past the end"},
    {JOIST(TO("end of the joist", "0 m3/(m.h)", "")), "past the end", NULL},
    {JOIST(TO("surface beside it", "0.1 m3/(m.h)", "")), "past the end", NULL},
    {JOIST(TO("end of the joist", "0.1 m3/(m.h)", " counts=\"all\"")),
     "comes as warm", "past the end"},
};

START_TEST(stated_air_at_the_end_is_what_a_joist_end_wants)
{
    const char *unseen[BW_HOUR_UNSEEN];
    write_file(WALL_NAME, WALL(BRICK INSIDE));
    bw_junction *j = read_text(seen[_i].junction);
    const bw_hour_sides sides = {.sheltered = false};
    const bw_raster none = {.junction = j};
    const size_t count = bw_hour_unseen(unseen, &sides, &none);
    bool says = false, not = false;
    for (size_t k = 0; k < count; k++) {
        says = says || (seen[_i].says != NULL &&
                        strstr(unseen[k], seen[_i].says) != NULL);
        not = not || (seen[_i].not != NULL &&
                      strstr(unseen[k], seen[_i].not ) != NULL);
    }
    ck_assert(says == (seen[_i].says != NULL));
    ck_assert(!not );
    bw_junction_free(j);
}
END_TEST

/* ---- a year ---------------------------------------------------------------
 */

static double wettest(const bw_junction_hours *h)
{
    double most = 0.0;
    for (size_t k = 0; k < h->wood_count; k++)
        most = fmax(most, h->wood[k].highest);
    return most;
}

START_TEST(more_air_makes_the_wood_wetter)
{
    static const char *const flow[] = {"0 m3/(m.h)", "0.0005 m3/(m.h)",
                                       "0.1 m3/(m.h)"};
    const bw_hour_options one = {.most_years = 1, .smallest = 0.004};
    bw_climate *months = NULL;
    bw_error err = {0};
    double before = 0.0;
    ck_assert(bw_climate_read(&months,
                              BW_SOURCE_DIR "/assemblies/climates/upland.csv",
                              &err) == BW_OK);
    for (size_t k = 0; k < SANITIZED_FEWER(COUNT(flow), 2); k++) {
        char text[4096];
        replaced(text, sizeof text, sound, "<room-air", "0.1 m3/(m.h)",
                 flow[k]);
        bw_junction *j = read_text(text);
        bw_junction_assessment *a = NULL;
        ck_assert(bw_junction_assess_hours(&a, j, months, NULL, &one, &err) ==
                  BW_OK);
        ck_assert_msg(a->hours.ran, "%s", a->hours.reason);
        ck_assert_double_lt(a->hours.balance, 1e-4);
        ck_assert(k == 0 ? !(a->hours.air > 0.0) : a->hours.air > 1e-6);
        ck_assert_double_gt(wettest(&a->hours), before + 0.001);
        before = wettest(&a->hours);
        bw_junction_assessment_free(a);
        bw_junction_free(j);
    }
    bw_climate_free(months);
}
END_TEST

SUITE_AROUND("junction_air", start, end,
             EACH(water_that_air_leaves_is_that_of_a_steady_balance,
                  COUNT(brings)),
             FACT(dry_air_takes_nothing_unless_all_counts),
             FACT(warmth_of_air_is_that_of_a_steady_balance),
             FACT(months_leave_what_the_air_cannot_hold),
             EACH(air_that_cannot_be_is_refused_with_its_line, COUNT(refusals)),
             FACT(air_is_read_as_it_stands),
             EACH(stated_air_at_the_end_is_what_a_joist_end_wants, COUNT(seen)),
             FACT(more_air_makes_the_wood_wetter))
