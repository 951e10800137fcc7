/* Soil against a face: the temperature in it beside conduction solved step by
 * step, a wall in it by hand, what is refused, and what must never hold. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "beyond.h"
#include "bothways/bothways.h"
#include "side.h"
#include "suite.h"
#include "transient/boundary.h"

static const double PI = 3.14159265358979323846;

static bw_library *library;
static bw_climate *upland;

static void setup(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    bw_error err = {0};
    ck_assert_int_eq(bw_library_read(&library, path, 1, &err), BW_OK);
    ck_assert_int_eq(
        bw_climate_read(&upland,
                        BW_SOURCE_DIR "/assemblies/climates/upland.csv", &err),
        BW_OK);
}

static void teardown(void)
{
    bw_climate_free(upland);
    bw_library_free(library);
}

/* A year of one cosine: 10 degC, coldest at its start by 8 K. */
static bw_climate cosine(void)
{
    bw_climate c = {.file = "test", .place = "", .source = "", .remark = ""};
    for (int m = 0; m < BW_MONTHS; m++) {
        c.month[m].temperature = 10 - 8 * cos(2 * PI * (m + 0.5) / 12);
        c.month[m].vapour_pressure = 800;
    }
    return c;
}

static bw_beyond in_soil(int soil, double depth)
{
    return (bw_beyond){&bw_beyond_ground, {depth, soil, 1.0, -1.0}};
}

/* degC at a part of the year. */
static double soil_at(const bw_beyond *beyond, const bw_climate *climate,
                      double part)
{
    bw_boundary b = {0};
    const bw_moments one = {&b, 0, 1, 1, part};
    bw_beyond_ground.moments(&one, beyond, climate);
    return b.theta_e;
}

/* ISO 13370: the swing of 8 K falls to 1/e in 2.2 m in clay, 3.2 m in sand, 4.2
 * m in rock [from memory, high confidence]. Of a cosine, its height from two
 * moments a quarter of the year apart. */
START_TEST(the_swing_reaches_as_deep_as_the_standard_says)
{
    static const double depth[] = {2.2, 3.2, 4.2};
    const bw_climate c = cosine();
    for (int soil = 0; soil < 3; soil++) {
        const bw_beyond at = in_soil(soil, depth[soil]);
        const double swing = hypot(soil_at(&at, &c, 0.0) - 10,
                                   soil_at(&at, &c, 0.25) - 10);
        ck_assert_double_eq_tol(depth[soil] / log(8 / swing), depth[soil],
                                0.05);
    }
}
END_TEST

/* Carslaw and Jaeger 2.6: at depth delta, sqrt(3.15e7 1.5/(pi 3.0e6)) m in
 * clay, the swing is 1/e and comes one radian of the year late; at the surface
 * it is the air's. */
START_TEST(the_swing_falls_and_comes_late_as_in_a_half_space)
{
    const bw_climate c = cosine();
    const bw_beyond top = in_soil(0, 0);
    const bw_beyond deep = in_soil(0, sqrt(3.15e7 * 1.5 / (PI * 3.0e6)));
    for (double t = 0; t < 1; t += 0.01) {
        ck_assert_double_eq_tol(soil_at(&top, &c, t), 10 - 8 * cos(2 * PI * t),
                                1e-9);
        ck_assert_double_eq_tol(soil_at(&deep, &c, t),
                                10 - 8 / exp(1) * cos(2 * PI * t - 1), 1e-9);
    }
}
END_TEST

/* The heat equation in clay, 1.5 W/(m K) and 3.0 MJ/(m3 K), by explicit steps
 * of 0.1 m and an hour and a half, 20 m deep, through ten years: an answer of
 * its own for 1.3 m, to 0.05 K. */
START_TEST(the_swing_is_that_of_the_heat_equation_solved_in_steps)
{
    enum { NODES = 200, STEPS = 16 * 365 };
    const double dx = 0.1, dt = 3.15e7 / STEPS;
    const double fourier = 1.5 / 3.0e6 * dt / (dx * dx);
    double theta[NODES + 1];
    ck_assert_double_lt(fourier, 0.5);
    for (int i = 0; i <= NODES; i++)
        theta[i] = 10;
    const bw_climate c = cosine();
    const bw_beyond at = in_soil(0, 1.3);
    for (int k = 0; k < 10 * STEPS; k++) {
        double old = theta[0], part = (double)(k % STEPS + 1) / STEPS;
        theta[0] = 10 - 8 * cos(2 * PI * part);
        for (int i = 1; i < NODES; i++) {
            const double here = theta[i];
            theta[i] += fourier * (old - 2 * here + theta[i + 1]);
            old = here;
        }
        if (k >= 9 * STEPS)
            ck_assert_double_eq_tol(theta[13], soil_at(&at, &c, part), 0.05);
    }
}
END_TEST

START_TEST(the_column_of_a_climate_stands_for_the_rule)
{
    bw_climate c = cosine();
    for (int m = 0; m < BW_MONTHS; m++) {
        c.month[m].has_ground = true;
        c.month[m].ground_temperature = 5 + m;
    }
    const bw_beyond at = in_soil(0, 1.3);
    ck_assert_double_eq_tol(soil_at(&at, &c, 0.5 / 12), 5, 1e-9);
    ck_assert_double_eq_tol(soil_at(&at, &c, 1.25 / 12), 5.75, 1e-9);
    /* from December back to January */
    ck_assert_double_eq_tol(soil_at(&at, &c, 0), 10.5, 1e-9);
    ck_assert_double_eq_tol(soil_at(&at, &c, 1), 10.5, 1e-9);
}
END_TEST

START_TEST(the_column_is_read_from_the_file)
{
    char text[2000] = "month,temperature_C,relative_humidity_pct,"
                      "ground_temperature_C\n";
    for (int m = 1; m <= BW_MONTHS; m++)
        snprintf(text + strlen(text), 64, "%d,10,80,%d.5\n", m, m);
    bw_climate *c;
    bw_error err = {0};
    ck_assert_int_eq(bw_climate_read_text(&c, text, "t.csv", &err), BW_OK);
    ck_assert(c->month[4].has_ground);
    ck_assert_double_eq(c->month[4].ground_temperature, 5.5);
    bw_climate_free(c);
    memcpy(strstr(text, "ground"), "grount", 6);
    ck_assert_int_eq(bw_climate_read_text(&c, text, "t.csv", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(
        strstr(err.message, "did you mean 'ground_temperature_C'?"));
}
END_TEST

/* ---- a wall in it ------------------------------------------------------ */

static const char wall[] =
    "<assembly xmlns='urn:bothways:assembly:1' id='cellar'>\n"
    "<outdoors climate='c.csv'/>\n"
    "<ground depth='1.3 m' soil='clay' waterproofing='tanking'/>\n"
    "<indoors temperature='18 degC' relative-humidity='50 %'/>\n"
    "<layers listed='outside-to-inside'>\n"
    "<layer id='perimeter' material='xps' lambda='0.034 W/(m.K)'"
    " thickness='100 mm'/>\n"
    "<membrane id='tanking' material='bitumen-sheet'/>\n"
    "<layer id='concrete' material='reinforced-concrete'"
    " lambda='2.3 W/(m.K)' thickness='240 mm'/>\n"
    "<layer id='finish' material='lime-render' lambda='0.8 W/(m.K)'"
    " thickness='10 mm'/>\n"
    "</layers></assembly>\n";

static bw_status read_changed(bw_assembly **out, const char *from,
                              const char *to, bw_error *err)
{
    char text[3000];
    const char *at = strstr(wall, from);
    ck_assert_ptr_nonnull(at);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - wall), wall, to,
             at + strlen(from));
    *err = (bw_error){0};
    return bw_assembly_read_text(out, text, "cellar.xml", library, NULL, 0,
                                 err);
}

static bw_assembly *changed(const char *from, const char *to)
{
    bw_assembly *a;
    bw_error err;
    ck_assert_msg(read_changed(&a, from, to, &err) == BW_OK, "%s", err.message);
    return a;
}

/* By hand: delta 2.239 m, 1.3/2.239 = 0.5806, e^-0.5806 = 0.5596; mid-January
 * 2 pi/24 = 0.2618; theta = 10 - 4.476 cos(0.2618 - 0.5806) = 5.749 degC.
 * R = 0.1/0.034 + 0.24/2.3 + 0.01/0.8 = 3.058 and Rsi 0.25, no Rse: the inner
 * face 18 - 12.251 x 0.25/3.308 = 17.074 degC. U: 1/(3.058 + 0.13). */
START_TEST(a_month_and_its_inner_face_are_those_worked_by_hand)
{
    const bw_climate c = cosine();
    bw_assembly *a = changed("", "");
    bw_sections *s;
    bw_boundary month[BW_MONTHS];
    bw_monthly_result r;
    bw_thermal_result u;
    bw_error err = {0};
    ck_assert_int_eq(bw_sections_make(&s, a, NULL, &err), BW_OK);
    bw_side_months(month, a, &s->section[0], &c);
    ck_assert_double_eq_tol(month[0].theta_e, 5.749, 1e-3);
    ck_assert_double_eq(month[0].p_e, bw_saturation_pressure(month[0].theta_e));
    ck_assert_int_eq(bw_monthly(&r, &s->section[0], month, NULL, &err), BW_OK);
    const bw_plane *inner = &r.plane[r.plane_count - 1];
    ck_assert_double_eq_tol(inner->month[0].theta, 17.074, 1e-3);
    ck_assert_double_eq(r.plane[0].month[0].theta, month[0].theta_e);
    ck_assert_int_eq(bw_thermal(&u, a, &err), BW_OK);
    ck_assert_double_eq_tol(u.transmittance, 1 / (3.0580 + 0.13), 1e-4);
    bw_monthly_free(&r);
    bw_sections_free(s);
    bw_assembly_free(a);
}
END_TEST

/* The hours: the same soil, saturated, nothing of the open air, and a room that
 * goes on following the air: here of 10 degC and 800 Pa all year, class 2
 * (ISO 13788: 540 Pa, half of it at 10 degC, and 10 %). */
START_TEST(hours_have_the_soil_outside_and_the_air_for_the_room)
{
    bw_climate c = cosine();
    bw_climate_hour *hour = calloc(BW_YEAR_HOURS, sizeof *hour);
    bw_year *year = calloc(1, sizeof *year);
    ck_assert(hour != NULL && year != NULL);
    for (int i = 0; i < BW_YEAR_HOURS; i++)
        hour[i] = (bw_climate_hour){.temperature = 10,
                                    .vapour_pressure = 800,
                                    .direct_normal = 500,
                                    .wind = 5,
                                    .rain = 1};
    c.hour = hour;
    c.hour_count = BW_YEAR_HOURS;
    c.has_position = true;
    c.columns = (bw_hourly_columns){true, true, true, false, true, false};
    bw_assembly *a = changed("relative-humidity='50 %'", "humidity-class='2'");
    const bw_transient_options none = {0};
    bw_error err = {0};
    ck_assert_msg(bw_year_make(year, a, &c, &none, &err) == BW_OK, "%s",
                  err.message);
    for (int i = 0; i < BW_YEAR_HOURS; i += 97) {
        const bw_hourly *h = &year->hour[i];
        const double t = (double)i / BW_YEAR_HOURS;
        ck_assert_double_eq_tol(h->theta_e,
                                10 - 4.4765 * cos(2 * PI * t - 0.58060), 1e-3);
        ck_assert_double_eq(h->p_e, bw_saturation_pressure(h->theta_e));
        ck_assert_double_eq(h->gain, 0);
        ck_assert_double_eq(h->rain + h->rain_leak, 0);
        ck_assert_double_ge(h->h_e, 1e3);
        ck_assert_double_eq_tol(h->p_i, 800 + 1.1 * 270, 1e-6);
    }
    bw_assembly_free(a);
    free(year);
    free(hour);
}
END_TEST

/* ---- what is refused --------------------------------------------------- */

static const struct refusal {
    const char *from, *to;
    long line;
    const char *says;
} refusals[] = {
    {"depth='1.3 m'", "", 3, "<ground> has no depth="},
    {"depth='1.3 m'", "depth='1.3'", 3, "has no unit"},
    {"depth='1.3 m'", "depth='-1 m'", 3, "outside what is possible here"},
    {"depth=", "dept=", 3, "did you mean depth?"},
    {"soil='clay'", "", 3, "<ground> has no soil="},
    {"soil='clay'", "soil='clya'", 3, "did you mean clay?"},
    {"soil='clay'", "soil='clay' relative-humidity='20 %'", 3,
     "outside what is possible here"},
    {"waterproofing='tanking'", "waterproofing='tankin'", 3,
     "did you mean tanking?"},
    {"waterproofing='tanking'", "waterproofing='concrete'", 3,
     "does not keep water out: it takes it up"},
    {"waterproofing='tanking'", "waterproofing='finish'", 3,
     "is the innermost layer"},
    {"waterproofing='tanking'", "waterproofing='perimeter'", 3,
     "is no sheet and no coat"},
    {"waterproofing='tanking'/>\n<indoors temperature='18 degC' "
     "relative-humidity='50 %'/>\n<layers listed='outside-to-inside'>",
     "waterproofing='paint'/>\n<indoors temperature='18 degC' "
     "relative-humidity='50 %'/>\n<layers listed='outside-to-inside'><membrane "
     "id='paint' material='breather-membrane'/>",
     3, "its sd is below 20 m"},
    {"material='bitumen-sheet'", "material='kraft-facing'", 3,
     "is of paper or felt"},
    {"material='bitumen-sheet'", "material='bitumen-sheet' sd='19.9 m'", 3,
     "its sd is below 20 m"},
    {"depth='1.3 m'", "depth='50.1 m'", 3, "outside what is possible here"},
    {"depth='1.3 m'", "depth='-0.1 m'", 3, "outside what is possible here"},
    {"soil='clay'", "soil='clay' relative-humidity='49.9 %'", 3,
     "outside what is possible here"},
    {"soil='clay'", "soil='clay' relative-humidity='100.1 %'", 3,
     "outside what is possible here"},
    {"climate='c.csv'", "climate='c.csv' faces='N'", 2,
     "counts at no face against soil"},
    {"climate='c.csv'", "climate='c.csv' driving-rain='none'", 2,
     "counts at no face against soil"},
    {"climate='c.csv'", "climate='c.csv' surface-resistance='0.04 m2.K/W'", 2,
     "counts at no face against soil"},
    {"</layers>", "</layers><rain-leak fraction='1 %' after-layer='tanking'/>",
     10, "falls on no face against soil"},
    {"id='cellar'", "id='cellar' element='roof'", 3,
     "a roof under soil is not computed"},
    {"<ground ", "<ground colour='red' ", 3, "is not an attribute of <ground>"},
    {"<ground ", "<grount ", 3, "did you mean ground?"},
};

START_TEST(a_fault_is_refused_with_its_line)
{
    const struct refusal *row = &refusals[_i];
    bw_assembly *a;
    bw_error err;
    ck_assert_int_eq(read_changed(&a, row->from, row->to, &err), BW_ERR_INPUT);
    ck_assert_msg(strstr(err.message, row->says) != NULL, "%s", err.message);
    ck_assert_int_eq(err.line, row->line);
}
END_TEST

static const char *const within[][2] = {
    {"material='bitumen-sheet'", "material='bitumen-sheet' sd='20 m'"},
    {"depth='1.3 m'", "depth='50 m'"},
    {"depth='1.3 m'", "depth='0 m'"},
    {"soil='clay'", "soil='clay' relative-humidity='50 %'"},
    {"soil='clay'", "soil='clay' relative-humidity='100 %'"},
};

START_TEST(the_ends_of_what_is_possible_are_read)
{
    bw_assembly *a = NULL;
    bw_error err;
    ck_assert_msg(read_changed(&a, within[_i][0], within[_i][1], &err) == BW_OK,
                  "%s", err.message);
    bw_assembly_free(a);
}
END_TEST

/* ---- what it may say --------------------------------------------------- */

static const bw_criterion *row_of(const bw_assessment *a, const char *name)
{
    for (size_t i = 0; i < a->criterion_count; i++)
        if (strcmp(a->criterion[i].criterion, name) == 0)
            return &a->criterion[i];
    return NULL;
}

static bw_verdict verdict_of(const char *from, const char *to, bool simulate,
                             const char *says)
{
    bw_assessment *made;
    const bw_assessment_options options = {.no_transient = !simulate,
                                           .synthetic_hours = simulate,
                                           .no_advice = true};
    bw_error err = {0};
    bw_assembly *a = changed(from, to);
    ck_assert_msg(bw_assess(&made, a, upland, &options, &err) == BW_OK, "%s",
                  err.message);
    const bw_verdict verdict = made->verdict;
    const bw_criterion *soil = row_of(made, "soil-water");
    ck_assert_int_eq(row_of(made, "period-balance")->verdict, BW_NOT_ASSESSED);
    ck_assert((soil == NULL) == (says == NULL));
    if (says != NULL)
        ck_assert_msg(strstr(soil->reason, says) != NULL, "%s", soil->reason);
    bw_assessment_free(made);
    bw_assembly_free(a);
    return verdict;
}

static const char tanking[] = " waterproofing='tanking'";

START_TEST(a_tanked_and_insulated_wall_holds)
{
    ck_assert_int_eq(verdict_of("", "", true, NULL), BW_HOLDS);
    ck_assert_int_eq(verdict_of("", "", false, NULL), BW_HOLDS);
}
END_TEST

/* Over a year that repeats, heat is as good as steady, so the mean temperature
 * behind the sheet is straight between the soil's and the room's: soil at the
 * mean of the air's months, R = 0.1/0.034 outside it, 0.24/2.3 + 0.01/0.8 +
 * 0.13 (ISO 6946) inside. Moist concrete conducts a little better: 0.1 K. */
START_TEST(the_simulated_year_has_the_mean_of_a_steady_wall)
{
    bw_assessment *made;
    const bw_assessment_options options = {.synthetic_hours = true,
                                           .no_advice = true};
    bw_error err = {0};
    bw_assembly *a = changed("", "");
    ck_assert_msg(bw_assess(&made, a, upland, &options, &err) == BW_OK, "%s",
                  err.message);
    const bw_transient_result *r = &made->section[0].transient;
    double soil = 0, mean = 0;
    const double outside = 0.1 / 0.034, inside = 0.24 / 2.3 + 0.0125 + 0.13;
    size_t place = 0;
    while (place < r->monitor_count && r->monitor[place].slab != 1)
        place++;
    ck_assert_uint_lt(place, r->monitor_count);
    for (int m = 0; m < BW_MONTHS; m++) {
        soil += upland->month[m].temperature / 12;
        mean += r->monitor[place].month_theta[m] / 12;
    }
    ck_assert_double_eq_tol(
        mean, soil + (18 - soil) * outside / (outside + inside), 0.1);
    bw_assessment_free(made);
    bw_assembly_free(a);
}
END_TEST

/* Soil below a room that freezes heaves (common practice, no source): a room
 * of constant temperature, and one of which a single month is below 0 degC. */
START_TEST(below_a_freezing_room_nothing_holds)
{
    static const char room[] = "temperature='18 degC' relative-humidity='50 %'";
    static const char frost[] = "temperature='-0.1 degC' "
                                "relative-humidity='50 %'";
    static const char thaw[] = "temperature='0.1 degC' "
                               "relative-humidity='50 %'";
    ck_assert_int_ne(verdict_of(room, frost, false, "heaves"), BW_HOLDS);
    verdict_of(room, thaw, false, NULL);
    bw_arena arena = {0};
    bw_assembly *a = changed("", "");
    a->indoors.kind = BW_INDOOR_MONTHS;
    for (int m = 0; m < BW_MONTHS; m++)
        a->indoors.month_temperature[m] = m == 6 ? -1.0 : 5.0;
    ck_assert_ptr_nonnull(bw_beyond_ground.why_unjudged(&arena, a, 0));
    ck_assert_ptr_null(bw_beyond_ground.why_unjudged(&arena, a, 1));
    a->indoors.month_temperature[6] = 0.0;
    ck_assert_ptr_null(bw_beyond_ground.why_unjudged(&arena, a, 0));
    bw_assembly_free(a);
    bw_arena_release(&arena);
}
END_TEST

/* Nothing says that the sheet is there to keep water out. */
START_TEST(without_stated_waterproofing_nothing_holds)
{
    ck_assert_int_eq(verdict_of(tanking, "", true, "nothing is stated"),
                     BW_NOT_ASSESSED);
    ck_assert_int_eq(verdict_of(tanking, "", false, "nothing is stated"),
                     BW_NOT_ASSESSED);
}
END_TEST

START_TEST(a_ventilated_cavity_in_soil_is_not_assessed)
{
    static const char cavity[] =
        "<cavity id='gap' thickness='40 mm' ventilation='slight'/>"
        "<membrane id='tanking'";
    ck_assert_int_eq(
        verdict_of("<membrane id='tanking'", cavity, true, "is ventilated"),
        BW_NOT_ASSESSED);
}
END_TEST

/* Wood outside the waterproofing stands in saturated air all year. */
START_TEST(wood_in_the_wet_soil_fails)
{
    ck_assert_int_eq(verdict_of("material='xps' lambda='0.034 W/(m.K)'",
                                "material='osb'", true, NULL),
                     BW_FAILS);
}
END_TEST

/* An uninsulated wall in a room of class 4: cold all summer. */
START_TEST(a_cold_wall_of_a_humid_room_fails)
{
    bw_assessment *made;
    const bw_assessment_options options = {.no_transient = true,
                                           .no_advice = true};
    bw_error err = {0};
    bw_assembly *a = changed("thickness='100 mm'", "thickness='1 mm'");
    a->indoors.kind = BW_INDOOR_RH;
    a->indoors.relative_humidity = 0.75;
    ck_assert_int_eq(bw_assess(&made, a, upland, &options, &err), BW_OK);
    ck_assert_int_eq(row_of(made, "surface-mould")->verdict, BW_FAILS);
    bw_assessment_free(made);
    bw_assembly_free(a);
}
END_TEST

SUITE_AROUND("ground", setup, teardown,
             FACT(the_swing_reaches_as_deep_as_the_standard_says),
             FACT(the_swing_falls_and_comes_late_as_in_a_half_space),
             FACT(the_swing_is_that_of_the_heat_equation_solved_in_steps),
             FACT(the_column_of_a_climate_stands_for_the_rule),
             FACT(the_column_is_read_from_the_file),
             FACT(a_month_and_its_inner_face_are_those_worked_by_hand),
             FACT(hours_have_the_soil_outside_and_the_air_for_the_room),
             EACH(the_ends_of_what_is_possible_are_read, COUNT(within)),
             EACH(a_fault_is_refused_with_its_line, COUNT(refusals)),
             FACT(a_tanked_and_insulated_wall_holds),
             FACT(the_simulated_year_has_the_mean_of_a_steady_wall),
             FACT(below_a_freezing_room_nothing_holds),
             FACT(without_stated_waterproofing_nothing_holds),
             FACT(a_ventilated_cavity_in_soil_is_not_assessed),
             FACT(wood_in_the_wet_soil_fails),
             FACT(a_cold_wall_of_a_humid_room_fails))
