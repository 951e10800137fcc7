/* The sides of a wall by the hour and by the month at their ends: what is asked
 * for and cannot be had, in whole sentences; rain beside a large leak; the
 * least pressure; rooms that are the same; and what its parts are called.
 * Formulas are those of side_hours.h, ISO 13788 annex A and EN 15026 annex C
 * (from memory, high); sentences are the program's own (regression values as to
 * wording). */

#include "bothways/air.h"
#include "side_hours.h"
#include "suite.h"
#include "transient_case.h"

#include "properties.h"
#include "room.h"
#include "side.h"
#include "vapour.h"

static transient_case *wall;
static bw_year *year;
static bw_error err;

static void setup(void)
{
    wall = case_new();
    year = calloc(1, sizeof *year);
    ck_assert_ptr_nonnull(year);
    err = (bw_error){0};
}

static void teardown(void)
{
    free(year);
    free(wall);
}

static bw_status make(double leak)
{
    return bw_side_hours(year, &wall->assembly, &wall->climate, leak, false,
                         &err);
}

/* ---- what cannot be had ---- */

#define OTHER                                                                  \
    "; bothways climate invented OTHER.csv --output joined.csv takes it from " \
    "another file of hours; or "
#define NO_SUN "leave solar-absorptance= out to have no sun counted"
#define NO_RAIN                                                                \
    "write driving-rain=\"none\" and no <rain-leak> where no rain reaches "    \
    "the "                                                                     \
    "wall"
#define SUN "the wall's solar absorptance is given, but "

typedef enum lack { RADIATION, POSITION, FACING, RAIN, WIND, SHOWER } lack;

static const struct {
    lack lacks;
    bool stated, measured; /* the rain; the climate */
    const char *says;
} lacking[] = {
    {RADIATION, true, true,
     SUN "the climate has no radiation columns" OTHER NO_SUN},
    {RADIATION, true, false,
     SUN "the climate has no radiation columns; give that, or " NO_SUN},
    {POSITION, true, true,
     SUN "the climate has no latitude and longitude; give that, or " NO_SUN},
    {FACING, true, true,
     SUN
     "without a facing (faces=) no sun can be computed; give that, or " NO_SUN},
    {RAIN, true, true,
     "driving rain is asked for, but the climate has no rain column" OTHER
         NO_RAIN},
    {RAIN, false, true,
     "moderate driving rain is taken, since driving-rain= is not given, but "
     "the climate has no rain column" OTHER NO_RAIN},
    {RAIN, false, false,
     "moderate driving rain is taken, since driving-rain= is not given, but "
     "the climate has no rain column; give that, or " NO_RAIN},
    {WIND, true, true,
     "driving rain is asked for, but the climate has no wind speed" OTHER
         NO_RAIN},
    {SHOWER, true, true,
     "driving rain is asked for, but no wall facing (faces=) to drive it "
     "against; give that, or " NO_RAIN},
};

START_TEST(what_cannot_be_had_is_refused_in_this_sentence)
{
    bw_outdoors *out = &wall->assembly.outdoors;
    out->has_driving_rain = lacking[_i].stated;
    wall->climate.kind = lacking[_i].measured ? BW_CLIMATE_HOURLY
                                              : BW_CLIMATE_SYNTHETIC;
    switch (lacking[_i].lacks) {
    case RADIATION:
        wall->climate.columns.solar = false;
        break;
    case POSITION:
        wall->climate.has_position = false;
        break;
    case FACING:
        out->has_facing = false;
        break;
    case RAIN:
        wall->climate.columns.rain = false;
        break;
    case WIND:
        wall->climate.columns.wind = false;
        break;
    case SHOWER:
        out->has_solar_absorptance = out->has_facing = false;
    }
    ck_assert_int_eq(make(0.0), BW_ERR_DOMAIN);
    ck_assert_str_eq(err.message, lacking[_i].says);
    ck_assert_str_eq(err.file, "invented");
    ck_assert_int_eq(err.line, 0);
}
END_TEST

START_TEST(a_year_has_8760_hours)
{
    wall->climate.hour_count = 8759;
    ck_assert_int_eq(make(0.0), BW_ERR_DOMAIN);
    ck_assert_str_eq(err.message,
                     "the hourly calculation needs a climate with 8760 hours; "
                     "this one has 8759: give a whole year");
}
END_TEST

/* ---- rooms that cannot be ---- */

static void months(double p)
{
    bw_indoors *in = &wall->assembly.indoors;
    *in = (bw_indoors){.kind = BW_INDOOR_MONTHS};
    for (int m = 0; m < BW_MONTHS; m++) {
        in->month_temperature[m] = 20.0;
        in->month_vapour_pressure[m] = p;
    }
}

START_TEST(a_room_beyond_saturation_says_how_long)
{
    const double most = bw_saturation_pressure(20.0);
    months(1000.0);
    wall->assembly.indoors.month_vapour_pressure[1] = 1.104 * most;
    ck_assert_int_eq(make(0.0), BW_ERR_DOMAIN);
    ck_assert_str_eq(err.message,
                     "as given, the room would be at up to 110 % RH in 672 "
                     "hours of the year, more than air holds; write "
                     "relative-humidity= or conditions= in <indoors>");
    ck_assert_str_eq(err.file, "case");
    wall->assembly.indoors.month_vapour_pressure[1] = most;
    ck_assert_int_eq(make(0.0), BW_OK);
}
END_TEST

/* The hour of the dampest room, which alone is beyond what its air holds. */
START_TEST(of_a_class_the_class_is_said_and_one_hour_is_one)
{
    bw_indoors *in = &wall->assembly.indoors;
    *in = (bw_indoors){
        .kind = BW_INDOOR_CLASS, .humidity_class = 4, .temperature = 40.0};
    ck_assert_int_eq(make(0.0), BW_OK);
    double most = 0.0, next = 0.0;
    for (int h = 0; h < BW_YEAR_HOURS; h++) {
        const double p = year->hour[h].p_i;
        next = fmax(next, fmin(p, most));
        most = fmax(most, p);
    }
    double low = 0.0, high = 40.0;
    for (int i = 0; i < 60; i++) {
        in->temperature = 0.5 * (low + high);
        if (bw_saturation_pressure(in->temperature) > 0.5 * (most + next))
            high = in->temperature;
        else
            low = in->temperature;
    }
    ck_assert_int_eq(make(0.0), BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message,
                         "degC, the room would be at up to 100 % RH in 1 hour "
                         "of the year, more than air holds; write "
                         "relative-humidity= or conditions= in <indoors>") !=
                      NULL,
                  "%s", err.message);
    char text[200];
    bw_room_reason(text, sizeof text,
                   &(bw_indoors){.kind = BW_INDOOR_CLASS,
                                 .humidity_class = 4,
                                 .temperature = 18.25},
                   1.126, "May");
    ck_assert_str_eq(text, "humidity class 4 at 18.25 degC, the room would be "
                           "at up to 113 % RH in May, more than air holds; "
                           "write relative-humidity= or conditions= in "
                           "<indoors>");
}
END_TEST

/* ---- least and most ---- */

START_TEST(no_side_has_less_than_a_pascal)
{
    months(0.25);
    wall->hour[7].vapour_pressure = 0.5;
    wall->hour[8].vapour_pressure = 1.5;
    wall->hour[9].vapour_pressure = 9000.0;
    ck_assert_int_eq(make(0.0), BW_OK);
    ck_assert_double_eq(year->hour[7].p_e, 1.0);
    ck_assert_double_eq(year->hour[8].p_e, 1.5);
    ck_assert_double_eq(year->hour[9].p_e,
                        bw_saturation_pressure(wall->hour[9].temperature));
    ck_assert_double_eq(year->hour[7].p_i, 1.0);
    months(1.5);
    ck_assert_int_eq(make(0.0), BW_OK);
    ck_assert_double_eq(year->hour[7].p_i, 1.5);
}
END_TEST

/* 2 mm in an hour of 5 m/s straight on, moderate: 0.5 x 0.2 x 5 x 2 = 1 mm. */
static const struct {
    double leak, share, stays; /* share 0: not given, 0.7 */
} showers[] = {
    {0.0, 0.0, 0.7}, {0.25, 0.0, 0.7}, {0.3, 0.0, 0.7}, {0.5, 0.0, 0.5},
    {1.0, 0.0, 0.0}, {0.5, 0.2, 0.2},  {0.9, 0.2, 0.1}, {0.0, 1.0, 1.0},
};

START_TEST(what_leaks_in_does_not_stay_on_the_face)
{
    bw_outdoors *out = &wall->assembly.outdoors;
    out->has_rain_share = showers[_i].share > 0.0;
    out->rain_share = showers[_i].share;
    wall->hour[9].rain = 2.0;
    wall->hour[9].wind = 5.0;
    wall->hour[9].wind_from = 225.0;
    ck_assert_int_eq(make(showers[_i].leak), BW_OK);
    ck_assert_double_eq_tol(3600.0 * year->hour[9].rain, showers[_i].stays,
                            1e-9);
    ck_assert_double_eq_tol(3600.0 * year->hour[9].rain_leak, showers[_i].leak,
                            1e-9);
}
END_TEST

/* Beam alone, diffuse alone, and neither. */
START_TEST(either_part_of_the_sun_is_sun)
{
    const int noon = 24 * 172 + 15; /* south-west, in the afternoon */
    wall->climate.columns.longwave = false;
    const double parts[][2] = {
        {500.0, 0.0}, {0.0, 100.0}, {0.0, 0.0}, {0.5, 0.0}, {0.0, 0.5}};
    for (size_t i = 0; i < COUNT(parts); i++) {
        wall->hour[noon].direct_normal = parts[i][0];
        wall->hour[noon].diffuse_horizontal = parts[i][1];
        ck_assert_int_eq(make(0.0), BW_OK);
        const bw_sun sun = bw_sun_position(53, 0, (noon + 0.5) / 24);
        ck_assert_double_eq_tol(
            year->hour[noon].gain,
            i == 2 ? 0.0
                   : 0.6 * bw_plane_irradiance(sun, parts[i][0], parts[i][1],
                                               225, 90, 0.2),
            1e-9);
        ck_assert(i == 2 || year->hour[noon].gain > 0.1);
    }
}
END_TEST

/* ---- rooms that are the same ---- */

static const struct {
    bw_indoors a, b;
    bool same;
} pairs[] = {
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 20},
     {.kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 20},
     true},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 20},
     {.kind = BW_INDOOR_CLASS, .humidity_class = 2, .temperature = 20},
     false},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 20},
     {.kind = BW_INDOOR_CLASS, .humidity_class = 3, .temperature = 21},
     false},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 3, .margin = true},
     {.kind = BW_INDOOR_CLASS, .humidity_class = 3},
     false},
    /* what does not count with a kind may differ */
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 3, .relative_humidity = 0.5},
     {.kind = BW_INDOOR_CLASS, .humidity_class = 3},
     true},
    {{.kind = BW_INDOOR_CLASS}, {.kind = BW_INDOOR_RH}, false},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.5},
     {.kind = BW_INDOOR_RH, .relative_humidity = 0.6},
     false},
    {{.kind = BW_INDOOR_RH, .temperature = 18},
     {.kind = BW_INDOOR_RH, .temperature = 19},
     false},
    {{.kind = BW_INDOOR_RH, .humidity_class = 2, .en15026_high = true},
     {.kind = BW_INDOOR_RH, .humidity_class = 3},
     true},
    {{.kind = BW_INDOOR_EN15026, .en15026_high = true},
     {.kind = BW_INDOOR_EN15026},
     false},
    {{.kind = BW_INDOOR_EN15026, .temperature = 18, .humidity_class = 2},
     {.kind = BW_INDOOR_EN15026, .temperature = 19, .humidity_class = 3},
     true},
    {{.kind = BW_INDOOR_MONTHS, .month_temperature = {18}},
     {.kind = BW_INDOOR_MONTHS, .month_temperature = {19}},
     false},
    {{.kind = BW_INDOOR_MONTHS, .month_vapour_pressure = {[11] = 900}},
     {.kind = BW_INDOOR_MONTHS, .month_vapour_pressure = {[11] = 901}},
     false},
    {{.kind = BW_INDOOR_MONTHS, .temperature = 18},
     {.kind = BW_INDOOR_MONTHS, .temperature = 19},
     true},
    {{.kind = BW_INDOOR_CLASS, .month_temperature = {18}},
     {.kind = BW_INDOOR_CLASS, .month_temperature = {19}},
     true},
};

START_TEST(rooms_are_the_same_by_what_counts_of_their_kind)
{
    ck_assert_int_eq(bw_room_same_air(&pairs[_i].a, &pairs[_i].b),
                     pairs[_i].same);
    ck_assert_int_eq(bw_room_same_air(&pairs[_i].b, &pairs[_i].a),
                     pairs[_i].same);
}
END_TEST

/* Steps of a class and of ten points, and their last ones. */
static const struct {
    bw_indoors from;
    bool up, moves;
    int to_class;
    double to_rh;
} steps[] = {
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 1}, true, true, 2, 0},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 1}, false, false, 1, 0},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 2}, false, true, 1, 0},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 5}, true, false, 5, 0},
    {{.kind = BW_INDOOR_CLASS, .humidity_class = 5}, false, true, 4, 0},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.89}, true, true, 0, 0.99},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.91}, true, false, 0, 0.91},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.11}, false, true, 0, 0.01},
    {{.kind = BW_INDOOR_RH, .relative_humidity = 0.09}, false, false, 0, 0.09},
    {{.kind = BW_INDOOR_MONTHS}, false, false, 0, 0},
};

START_TEST(a_room_goes_a_step_up_or_down)
{
    bw_indoors in = steps[_i].from;
    ck_assert_int_eq(bw_indoors_step(&in, steps[_i].up), steps[_i].moves);
    ck_assert_int_eq(in.humidity_class, steps[_i].to_class);
    ck_assert_double_eq_tol(in.relative_humidity, steps[_i].to_rh, 1e-12);
}
END_TEST

/* ---- strips, and what parts are called ---- */

/* At most 0.25 m2 K/W each (ISO 13788, from memory, high). */
static const struct {
    double resistance;
    size_t strips;
} strips[] = {{0.0, 1},    {0.25, 1},   {0.2501, 2},       {0.5, 2},
              {0.51, 3},   {1.0, 4},    {4.0, 16},         {99.9, 400},
              {1000, 400}, {99.5, 398}, {0.25000000001, 1}};

START_TEST(a_layer_is_cut_into_strips_of_a_quarter)
{
    const bw_slab slab = {.resistance = strips[_i].resistance};
    ck_assert_uint_eq(bw_slab_strips(&slab), strips[_i].strips);
}
END_TEST

/* 1/sd goes straight from the dry cup to the wet one and stays beyond them. */
START_TEST(sd_lies_between_its_cups)
{
    const bw_slab two = {.sd_dry = 10.0, .sd_wet = 2.0};
    const double middle = 0.5 * (BW_CUP_DRY + BW_CUP_WET);
    ck_assert_double_eq_tol(bw_slab_sd(&two, BW_CUP_DRY, 1e-9), 10.0, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, 0.0, 1e-9), 10.0, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, BW_CUP_WET, 1e-9), 2.0, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, 1.0, 1e-9), 2.0, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, middle, 1e-9),
                            1.0 / (0.5 / 10.0 + 0.5 / 2.0), 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, 0.0, 12.0), 12.0, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&two, 1.0, 3.0), 3.0, 1e-12);
}
END_TEST

/* What rules a slab, and nothing of what ruled it before. */
START_TEST(a_slab_has_the_vapour_of_its_material_alone)
{
    static const double phi[] = {0.3, 0.9}, mu[] = {60.0, 20.0},
                        sd[] = {5.0, 0.5};
    bw_material m = bw_material_unknown();
    bw_slab s = {.material = &m, .kind = BW_LAYER_SOLID, .thickness = 0.02};
    m.mu_dry = case_value(50.0);
    m.mu_wet = case_value(20.0);
    m.mu_curve = (bw_curve){.count = 2, .x = phi, .y = mu};
    bw_slab_set_vapour(&s);
    ck_assert_int_eq(s.vapour, BW_VAPOUR_MU);
    ck_assert_ptr_eq(s.mu_curve, &m.mu_curve);
    ck_assert_ptr_eq(s.dry_from, &m.mu_dry);
    ck_assert_ptr_eq(s.wet_from, &m.mu_wet);
    ck_assert_double_eq_tol(s.sd_dry, 1.0, 1e-12);
    ck_assert_double_eq_tol(s.sd_wet, 0.4, 1e-12);
    ck_assert_double_eq_tol(bw_slab_sd(&s, 0.3, 1e-9), 1.2, 1e-12);
    m.mu_curve.count = 1;
    m.mu_dry.known = false; /* one for both */
    bw_slab_set_vapour(&s);
    ck_assert_ptr_null(s.mu_curve);
    ck_assert_ptr_eq(s.dry_from, &m.mu_wet);
    ck_assert_double_eq_tol(s.sd_dry, 0.4, 1e-12);
    m.sd_curve = (bw_curve){.count = 2, .x = phi, .y = sd};
    bw_slab_set_vapour(&s);
    ck_assert_int_eq(s.vapour, BW_VAPOUR_SD_CURVE);
    ck_assert_ptr_eq(s.sd_curve, &m.sd_curve);
    ck_assert(s.mu_curve == NULL && s.dry_from == NULL && s.wet_from == NULL);
    ck_assert_double_eq_tol(bw_slab_sd(&s, 0.3, 1e-9), 5.0, 1e-9);
    m.sd_curve.count = 1;
    m.sd = case_value(3.0);
    m.mu_wet.known = false;
    bw_slab_set_vapour(&s);
    ck_assert_int_eq(s.vapour, BW_VAPOUR_SD);
    ck_assert(s.sd_curve == NULL && s.dry_from == &m.sd && s.wet_from == &m.sd);
    ck_assert_double_eq(s.sd_wet, 3.0);
    s.kind = BW_LAYER_CAVITY;
    bw_slab_set_vapour(&s);
    ck_assert_int_eq(s.vapour, BW_VAPOUR_AIR);
    ck_assert(s.dry_from == NULL && s.wet_from == NULL);
    ck_assert_double_eq(s.sd_dry, 0.01); /* ISO 13788, from memory, high */
    ck_assert_double_eq(s.sd_wet, 0.01);
}
END_TEST

START_TEST(a_part_of_a_section_is_called_by_what_it_is_of)
{
    bw_sections *sections = NULL;
    bw_material mortar = wall->material[0], stud = wall->material[2];
    mortar.name = "mortar";
    stud.name = "stud";
    wall->layer[1].blocked_with = &mortar;
    wall->layer[1].blocked = 0.2;
    wall->layer[3].framing = (bw_framing){
        .present = true, .material = &stud, .fraction = 0.1, .depth = 0.1};
    ck_assert_int_eq(bw_sections_make(&sections, &wall->assembly, NULL, &err),
                     BW_OK);
    ck_assert_uint_eq(sections->count, 3);
    static const char *const names[] = {"between-studs", "through-stud",
                                        "blocked-cavity"};
    static const double fractions[] = {0.72, 0.1, 0.18};
    for (size_t i = 0; i < 3; i++) {
        ck_assert_str_eq(sections->section[i].name, names[i]);
        ck_assert_double_eq_tol(sections->section[i].fraction, fractions[i],
                                1e-12);
    }
    static const char *const open[] = {"softboard", "fibre", "membrane",
                                       "plasterboard"},
                             *const framed[] = {"softboard", "fibre", "stud",
                                                "membrane", "plasterboard"},
                             *const filled[] = {"brick",     "mortar",
                                                "softboard", "fibre",
                                                "membrane",  "plasterboard"};
    const char *const *label[] = {open, framed, filled};
    static const size_t count[] = {4, 5, 6};
    for (size_t i = 0; i < 3; i++) {
        const bw_section *s = &sections->section[i];
        ck_assert_uint_eq(s->slab_count, count[i]);
        for (size_t k = 0; k < count[i]; k++)
            ck_assert_str_eq(s->slab[k].label, label[i][k]);
    }
    ck_assert_double_eq_tol(sections->section[1].slab[1].thickness, 0.04, 1e-9);
    ck_assert_double_eq_tol(sections->section[1].slab[2].thickness, 0.1, 1e-9);
    ck_assert_int_eq(sections->section[2].slab[1].kind, BW_LAYER_SOLID);
    bw_sections_free(sections);
}
END_TEST

SUITE_AROUND(
    "side_ends", setup, teardown,
    EACH(what_cannot_be_had_is_refused_in_this_sentence, COUNT(lacking)),
    FACT(a_year_has_8760_hours), FACT(a_room_beyond_saturation_says_how_long),
    FACT(of_a_class_the_class_is_said_and_one_hour_is_one),
    FACT(no_side_has_less_than_a_pascal),
    EACH(what_leaks_in_does_not_stay_on_the_face, COUNT(showers)),
    FACT(either_part_of_the_sun_is_sun),
    EACH(rooms_are_the_same_by_what_counts_of_their_kind, COUNT(pairs)),
    EACH(a_room_goes_a_step_up_or_down, COUNT(steps)),
    EACH(a_layer_is_cut_into_strips_of_a_quarter, COUNT(strips)),
    FACT(sd_lies_between_its_cups),
    FACT(a_slab_has_the_vapour_of_its_material_alone),
    FACT(a_part_of_a_section_is_called_by_what_it_is_of))
