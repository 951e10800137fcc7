/* What a comparison says is not the same for all, and that any number of walls
 * fits the page. The walls are plain data. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/compare.h"
#include "criteria_case.h"
#include "one_document.h"
#include "paper.h"

static criteria_case first, second;
static bw_climate other;
static bw_climate_hour hours[2][2];
static paper sheet;

static void setup(void)
{
    case_make(&first);
    case_make(&second);
    second.assembly.id = "other";
    other = first.climate;
    memset(hours, 0, sizeof hours);
}

static void teardown(void)
{
    case_free(&first);
    case_free(&second);
}

static bw_comparison *compare(bool may_differ, bw_error *err)
{
    const bw_assembly *walls[] = {&first.assembly, &second.assembly};
    const bw_climate *climates[] = {&first.climate, &other};
    bw_comparison *c = NULL;
    bw_compare_options options = {
        .conditions_may_differ = may_differ,
        .assessment = {.no_transient = true, .no_advice = true, .threads = 1}};
    bw_status status = bw_compare(&c, walls, climates, 2, &options, err);
    ck_assert_msg(status == BW_OK || err != NULL, "not compared");
    return c;
}

static const char *text_of(const bw_comparison *c, int width)
{
    bw_report_options options = {.width = width};
    paper_clear(&sheet);
    ck_assert_int_eq(
        compare_report(BW_FORM_TEXT, c, &options, paper_take, &sheet, NULL),
        BW_OK);
    return sheet.text;
}

/* ---- what is not the same ------------------------------------------------ */

static bw_outdoors *out(void)
{
    return &second.assembly.outdoors;
}

static void nothing(void)
{
}

static void figures_of_one_place(void)
{
    other.file = "other.csv";
    other.month[3].vapour_pressure += 1.0;
}

static void no_place(void)
{
    figures_of_one_place();
    other.place = first.climate.place = "";
}

static void other_kind(void)
{
    other.place = "hourly";
    other.kind = BW_CLIMATE_HOURLY;
}

static void sun_known(void)
{
    other.place = "sunny";
    other.month[0].has_global = true;
}

static void wind_known(void)
{
    other.place = "windy";
    other.month[11].has_wind = true;
}

static void rain_known(void)
{
    other.place = "rainy";
    other.month[5].has_rain = true;
}

static void side_known(void)
{
    other.place = "sides";
    other.month[5].has_vertical[2] = true;
}

static void more_sun(void)
{
    other.place = "bright";
    other.month[0].has_global = first.climate.month[0].has_global = true;
    other.month[0].global_horizontal = 7.0;
}

static void other_hours(void)
{
    other.place = "gusty";
    other.hour_count = first.climate.hour_count = 2;
    first.climate.hour = hours[0];
    other.hour = hours[1];
    hours[1][1].wind = 3.0;
}

static void same_hours(void)
{
    other_hours();
    hours[1][1].wind = 0.0;
}

static void number_of_hours(void)
{
    same_hours();
    other.hour_count = 1;
}

static void turned(double azimuth)
{
    first.assembly.outdoors.has_facing = out()->has_facing = true;
    first.assembly.outdoors.tilt = out()->tilt = 90.0;
    out()->azimuth = azimuth;
}

static void to_the_north_west(void)
{
    turned(315.0);
}

static void by_half_a_degree(void)
{
    turned(0.5);
}

static void facing_unknown(void)
{
    turned(0.0);
    out()->has_facing = false;
}

static void tilted(void)
{
    turned(0.0);
    out()->tilt = 45.0;
}

static void tilted_unknown(void)
{
    tilted();
    out()->has_facing = first.assembly.outdoors.has_facing = false;
}

static void in_less_rain(void)
{
    out()->has_rain_share = true;
    out()->rain_share = 0.5;
}

static void in_a_town(void)
{
    out()->has_terrain = true;
    out()->terrain = BW_TERRAIN_URBAN;
}

static void high_up(void)
{
    out()->has_height = true;
    out()->height = 40;
}

static void in_the_rain(void)
{
    out()->driving_rain = BW_RAIN_SEVERE;
}

static void a_roof(void)
{
    second.assembly.element = BW_ELEMENT_ROOF;
}

static void wetted_more(void)
{
    second.assembly.drying_test.wetting = 1.004;
}

static void wetted_in_may(void)
{
    second.assembly.drying_test.start_month = 4;
}

static void wetted_elsewhere(void)
{
    second.assembly.drying_test.after_layer = CASE_SHEATHING;
}

static void wetted_at_one_layer(void)
{
    wetted_elsewhere();
    first.assembly.drying_test.after_layer = CASE_SHEATHING;
}

static bw_indoors *rooms(bw_indoor_kind kind)
{
    first.assembly.indoors.kind = second.assembly.indoors.kind = kind;
    return &second.assembly.indoors;
}

static void one_class_up(void)
{
    rooms(BW_INDOOR_CLASS)->humidity_class = 4;
}

static void a_little_warmer(void)
{
    rooms(BW_INDOOR_CLASS)->temperature = 20.04;
}

static void without_margin(void)
{
    rooms(BW_INDOOR_CLASS)->margin = false;
}

static void damper(void)
{
    first.assembly.indoors.relative_humidity = 0.5;
    rooms(BW_INDOOR_RH)->relative_humidity = 0.504;
}

static void as_damp(void)
{
    first.assembly.indoors.relative_humidity = 0.5;
    rooms(BW_INDOOR_RH)->relative_humidity = 0.5;
}

static void warmer_and_as_damp(void)
{
    as_damp();
    second.assembly.indoors.temperature = 22.0;
}

static void as_damp_without_margin(void)
{
    as_damp();
    second.assembly.indoors.margin = false;
}

static void fuller(void)
{
    rooms(BW_INDOOR_EN15026)->en15026_high = true;
}

static void as_full(void)
{
    rooms(BW_INDOOR_EN15026);
}

static void months(void)
{
    rooms(BW_INDOOR_MONTHS);
    for (int m = 0; m < BW_MONTHS; m++) {
        bw_indoors *a = &first.assembly.indoors, *b = &second.assembly.indoors;
        a->month_temperature[m] = b->month_temperature[m] = 20.0;
        a->month_vapour_pressure[m] = b->month_vapour_pressure[m] = 1000.0;
    }
}

static void a_damper_december(void)
{
    months();
    second.assembly.indoors.month_vapour_pressure[11] = 1100.0;
}

static void a_colder_july(void)
{
    months();
    second.assembly.indoors.month_temperature[6] = 19.0;
}

static void other_kind_of_room(void)
{
    as_full();
    first.assembly.indoors.kind = BW_INDOOR_CLASS;
}

static void still_air_at_the_wall(void)
{
    second.assembly.indoors.has_surface_resistance = true;
    second.assembly.indoors.surface_resistance = 0.125;
}

static void under_open_sky(void)
{
    second.assembly.outdoors.open_sky = true;
}

static void outer_surface(void)
{
    second.assembly.outdoors.has_surface_resistance = true;
    second.assembly.outdoors.surface_resistance = 0.08;
}

static void darker(void)
{
    second.assembly.outdoors.has_solar_absorptance = true;
    second.assembly.outdoors.solar_absorptance = 0.9;
}

static void shinier(void)
{
    second.assembly.outdoors.emissivity = 0.2;
}

static void over_a_cellar(void)
{
    second.assembly.outdoors.below = BW_BELOW_SPACE;
}

static const struct condition_row {
    void (*change)(void);
    const char *says; /* "": all the same */
} conditions[] = {
    {nothing, ""},
    {figures_of_one_place,
     "climates differ: case: invented (test); other: invented (other.csv)."},
    {no_place, "climates differ: case: test; other: other.csv."},
    {other_kind, "climates differ: case: invented; other: hourly."},
    {sun_known, "other: sunny"},
    {wind_known, "other: windy"},
    {rain_known, "other: rainy"},
    {side_known, "other: sides"},
    {more_sun, "other: bright"},
    {other_hours, "other: gusty"},
    {same_hours, ""},
    {number_of_hours, "other: gusty"},
    {to_the_north_west, "face different ways: case: N; other: NW."},
    {by_half_a_degree, "case: N; other: 0.5 degrees from north."},
    {facing_unknown, "case: N; other: no direction given."},
    {tilted, "case: N; other: N, tilt 45 degrees."},
    {tilted_unknown, "case: no direction given; other: no direction given, "
                     "tilt 45 degrees."},
    {in_the_rain, "Driving rain differs: case: "},
    {in_less_rain, "50 % of it stays"},
    {in_a_town, "urban terrain"},
    {high_up, "40 m above ground"},
    {a_roof, "the same kind of element: case: wall; other: roof."},
    {wetted_more,
     "case: 1 kg/m2 three months before the coldest at the place most at "
     "risk; other: 1.004 kg/m2 three"},
    {wetted_in_may, "other: 1 kg/m2 in May at the place most at risk."},
    {wetted_elsewhere, "the place most at risk; other: 1 kg/m2 three months "
                       "before the coldest at the inner face of panel."},
    {wetted_at_one_layer, ""},
    {under_open_sky, "outer face differ: case: emissivity 0; other: "
                     "emissivity 0, a light roof under open sky."},
    {outer_surface, "other: emissivity 0, surface resistance 0.08 m2.K/W."},
    {darker, "other: emissivity 0, solar absorptance 0.9."},
    {shinier, "other: emissivity 0.2."},
    {over_a_cellar, "lies outside differs: case: outdoor air; other: a space "
                    "whose own climate is given."},
    {one_class_up,
     "rooms differ: case: 20 degC, humidity class 3 of ISO 13788 with its "
     "safety margin; other: 20 degC, humidity class 4 of ISO 13788"},
    {a_little_warmer, "margin; other: 20.04 degC, "},
    {without_margin, "other: 20 degC, humidity class 3 of ISO 13788."},
    {damper, "case: 20 degC, 50 % relative humidity plus 5 points of safety "
             "margin; other: 20 degC, 50.4 % relative humidity plus"},
    {as_damp, ""},
    {warmer_and_as_damp, "margin; other: 22 degC, 50 % relative humidity"},
    {as_damp_without_margin, "other: 20 degC, 50 % relative humidity."},
    {fuller, "by EN 15026, normal occupancy; other: temperature and humidity "
             "from the outdoor temperature by EN 15026, high occupancy."},
    {as_full, ""},
    {months, ""},
    {a_damper_december,
     "case: twelve months given in the file, means 20 degC and 1000 Pa; other: "
     "twelve months given in the file, means 20 degC and 1008.33 Pa."},
    {a_colder_july, "in the file, means 19.9167 degC and"},
    {other_kind_of_room, "margin; other: temperature and humidity from the "
                         "outdoor temperature by EN 15026, normal"},
    {still_air_at_the_wall, "margin, surface resistance 0.125 m2.K/W."},
};

START_TEST(what_differs_is_said_so_that_it_can_be_told_apart)
{
    const char *says = conditions[_i].says;
    conditions[_i].change();
    bw_comparison *c = compare(true, NULL);
    ck_assert_uint_eq(c->difference_count, says[0] != '\0');
    const char *text = text_of(c, 200);
    paper_fits(text, 200);
    if (says[0] != '\0')
        HAS(c->difference[0], says);
    ck_assert_int_eq(strstr(text, "The same climate for all: ") != NULL,
                     !c->climates_differ);
    ck_assert_int_eq(strstr(text, "The same room for all.") != NULL,
                     !c->indoors_differ);
    bw_comparison_free(c);
}
END_TEST

static const struct refused_row {
    void (*change)(void);
    const char *says;
} refused[] = {
    {figures_of_one_place, "walls in different climates are not compared "
                           "unawares: give all the same climate with "
                           "--climate FILE"},
    {one_class_up, "walls in different rooms are not compared unawares: give "
                   "all the same <indoors>"},
};

START_TEST(other_climates_and_rooms_must_be_meant)
{
    bw_error err = {0};
    refused[_i].change();
    ck_assert_ptr_null(compare(false, &err));
    ck_assert_int_eq(err.status, BW_ERR_DOMAIN);
    HAS(err.message, refused[_i].says);
}
END_TEST

/* ---- the table ----------------------------------------------------------- */

static bw_comparison *many(size_t count, const char *name)
{
    static bw_assembly walls[BW_COMPARE_MOST];
    const bw_assembly *wall[BW_COMPARE_MOST];
    const bw_climate *climate[BW_COMPARE_MOST];
    bw_comparison *c = NULL;
    bw_compare_options options = {
        .assessment = {.no_transient = true, .no_advice = true, .threads = 1}};
    for (size_t i = 0; i < count; i++) {
        walls[i] = first.assembly;
        walls[i].id = name;
        wall[i] = &walls[i];
        climate[i] = &first.climate;
    }
    ck_assert_int_eq(bw_compare(&c, wall, climate, count, &options, NULL),
                     BW_OK);
    return c;
}

static size_t times(const char *text, const char *part)
{
    size_t n = 0;
    for (; (text = strstr(text, part)) != NULL; text += strlen(part))
        n++;
    return n;
}

START_TEST(any_number_of_walls_fits_the_page)
{
    static const char *const names[] = {
        "a", "estuary-mineral-variable",
        "a-wall-whose-name-somebody-made-as-long-as-a-short-story-of-walls"};
    size_t count = (size_t)_i;
    for (size_t n = 0; n < COUNT(names); n++)
        for (int width = 100; width <= 200; width += 50) {
            bw_comparison *c = many(count, names[n]);
            const char *text = text_of(c, width);
            paper_fits(text, (size_t)width);
            /* each wall's U stands in one of the brief tables and one of the
             * full ones */
            char u[32];
            snprintf(u, sizeof u, "%.3f", c->wall[0].transmittance);
            ck_assert_uint_eq(times(text, u), 2 * count);
            bw_comparison_free(c);
        }
}
END_TEST

START_TEST(a_row_that_decides_nothing_says_so)
{
    bw_comparison *c = compare(true, NULL);
    const char *text = text_of(c, 200);
    size_t shown = 0;
    for (size_t k = 0; k < c->row_count; k++) {
        const bw_compare_row *row = &c->row[k];
        char title[160];
        snprintf(title, sizeof title, "\n  %s (shown only)  ", row->title);
        bool only = row->is_criterion && !row->criterion[0]->decides &&
                    !row->criterion[1]->decides;
        shown += only;
        ck_assert_msg((strstr(text, title) != NULL) == only, "%s", row->title);
    }
    ck_assert_uint_gt(shown, 0);
    bw_comparison_free(c);
}
END_TEST

START_TEST(a_wall_of_unknown_thickness_has_no_total)
{
    second.layer[CASE_SHEATHING].thickness = 0.0;
    second.layer[CASE_SHEATHING].resistance = case_value(0.07);
    second.material[CASE_SHEATHING].sd = case_value(0.45);
    second.material[CASE_SHEATHING].mu_dry.known = false;
    second.material[CASE_SHEATHING].mu_wet.known = false;
    bw_comparison *c = compare(true, NULL);
    const bw_compare_row *row = NULL;
    for (size_t k = 0; k < c->row_count; k++)
        if (strcmp(c->row[k].name, "total-thickness") == 0)
            row = &c->row[k];
    ck_assert(row != NULL && row->has_value[0] && !row->has_value[1]);
    HAS(text_of(c, 200), "not all given");
    bw_comparison_free(c);
}
END_TEST

START_TEST(a_wall_without_title_is_said_to_have_none)
{
    second.assembly.title = "";
    bw_comparison *c = compare(true, NULL);
    HAS(text_of(c, 100), "other: without title (test)");
    bw_comparison_free(c);
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

int main(void)
{
    Suite *suite = suite_create("compare_words");
    TCase *tc = tcase_create("words");
    tcase_add_checked_fixture(tc, setup, teardown);
    tcase_add_loop_test(tc, what_differs_is_said_so_that_it_can_be_told_apart,
                        0, ROWS(conditions));
    tcase_add_loop_test(tc, other_climates_and_rooms_must_be_meant, 0,
                        ROWS(refused));
    tcase_add_loop_test(tc, any_number_of_walls_fits_the_page,
                        BW_COMPARE_FEWEST, BW_COMPARE_MOST + 1);
    tcase_add_test(tc, a_row_that_decides_nothing_says_so);
    tcase_add_test(tc, a_wall_of_unknown_thickness_has_no_total);
    tcase_add_test(tc, a_wall_without_title_is_said_to_have_none);
    suite_add_tcase(suite, tc);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
