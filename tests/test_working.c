/* The working of the monthly method, as a reviewer has it: every figure of its
 * tables is that of the result, the plane and month followed are found a second
 * time, and the sum on the sheet gives what it says it gives. Results are made
 * by hand of random numbers. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_audit.h"
#include "full_result.h"
#include "printed.h"

enum { DRAWS = 20 };

static const char *cursor; /* what of the sheet is read next */

static void working_setup(void)
{
    full_setup();
    full_audit();
    for (int m = 0; m < BW_MONTHS; m++)
        wall.checked.boundary[m] = (bw_boundary){
            .theta_e = between(&full_die, -9.0, 19.0),
            .p_e = between(&full_die, 300.0, 900.0),
            .theta_i = between(&full_die, 18.0, 24.0),
            .p_i = between(&full_die, 950.0, 1900.0)};
}

static bool print_working(void)
{
    print_flat(&wall.results, BW_DOCUMENT_AUDIT, BW_EXTENT_SCREEN);
    cursor = strstr(flat.text, "Working of the monthly method");
    return cursor != NULL;
}

/* ---- what stands there, word by word --------------------------------------
 */

static void seek(const char *text)
{
    const char *found = strstr(cursor, text);
    ck_assert_msg(found != NULL, "no '%s' in: %.1500s", text, cursor);
    cursor = found + strlen(text);
}

/* Up to the next blank, without brackets and stops around it. */
static const char *next(void)
{
    static char word[64];
    size_t used = 0;
    cursor += strspn(cursor, " [(");
    const size_t length = strcspn(cursor, " ");
    for (size_t i = 0; i < length && used + 1 < sizeof word; i++)
        word[used++] = cursor[i];
    while (used > 0 && strchr(")];:,.", word[used - 1]) != NULL)
        used--;
    word[used] = '\0';
    cursor += length;
    return word;
}

static void word(const char *wanted)
{
    const char *from = cursor;
    const char *is = next();
    ck_assert_msg(strcmp(is, wanted) == 0, "'%s' is not '%s' of %.120s", is,
                  wanted, from);
}

/* Not a number: a dash. */
static void number(double wanted)
{
    const char *from = cursor;
    const char *is = next();
    ck_assert_msg(isnan(wanted) ? strcmp(is, "-") == 0 : prints(is, wanted),
                  "'%s' is not %.9g in: %.120s", is, wanted, from);
}

static void ends_before(const char *text)
{
    const char *from = cursor;
    cursor += strspn(cursor, " -");
    ck_assert_msg(strncmp(cursor, text, strlen(text)) == 0,
                  "not '%s' but: %.120s", text, from);
}

/* ---- both sides -----------------------------------------------------------
 */

static const char *const months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
static const double days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

START_TEST(both_sides_are_those_of_every_month)
{
    working_setup();
    ck_assert(print_working());
    seek("Both sides of the wall");
    seek("----");
    cursor += strspn(cursor, "-");
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &wall.checked.boundary[m];
        word(months[m]);
        number(86400.0 * days[m]);
        number(b->theta_e);
        number(b->p_e);
        number(b->theta_i);
        number(b->p_i);
    }
    ends_before("Section whole, what goes in");
}
END_TEST

/* ---- what goes in ---------------------------------------------------------
 */

static void row_of(size_t i, const char *takes)
{
    const bw_slab *s = &wall.slab[i];
    const bool mu = s->thickness > 0.0 && s->vapour == BW_VAPOUR_MU;
    const bool fixed = s->sd_curve == NULL;
    const double none = (double)NAN;
    const bool lambda = s->kind == BW_LAYER_SOLID &&
                        wall.material[i].thermal_conductivity.known;
    number((double)s->layer + 1.0);
    number(s->thickness > 0.0 ? 1e3 * s->thickness : none);
    number(lambda ? wall.material[i].thermal_conductivity.value : none);
    number(s->resistance);
    number(mu ? s->sd_dry / s->thickness : none);
    number(mu ? s->sd_wet / s->thickness : none);
    number(fixed ? s->sd_dry : none);
    number(fixed ? s->sd_wet : none);
    word(takes);
    seek(s->label);
}

static void seek_slabs(void)
{
    ck_assert(print_working());
    seek("Section whole, what goes in");
    seek("----");
    cursor += strspn(cursor, "-");
}

/* Which cup a slab takes: by what the design run used. */
START_TEST(what_goes_in_is_what_the_slabs_have)
{
    working_setup();
    for (int draw = 0; draw < DRAWS; draw++) {
        for (size_t i = 0; i < WALL_SLABS; i++) {
            bw_slab *s = &wall.slab[i];
            s->thickness = uniform(&full_die) < 0.3
                               ? 0.0
                               : between(&full_die, 0.01, 0.3);
            s->resistance = between(&full_die, 0.01, 3.0);
            s->sd_dry = between(&full_die, 0.5, 9.0);
            s->sd_wet = uniform(&full_die) < 0.3 ? s->sd_dry
                                                 : between(&full_die, 0.1, 0.5);
            s->vapour = uniform(&full_die) < 0.5 ? BW_VAPOUR_MU : BW_VAPOUR_SD;
            s->sd_curve = uniform(&full_die) < 0.3 ? &wall.material[2].sd_curve
                                                   : NULL;
            wall.used_wet[i] = uniform(&full_die) < 0.5;
        }
        wall.section.outer_resistance = between(&full_die, 0.04, 0.13);
        wall.section.inner_resistance = between(&full_die, 0.1, 0.25);
        seek_slabs();
        for (size_t i = 0; i < WALL_SLABS; i++) {
            const bw_slab *s = &wall.slab[i];
            row_of(i, s->sd_curve != NULL      ? "curve"
                      : s->sd_dry == s->sd_wet ? "one"
                      : wall.used_wet[i]       ? "wet"
                                               : "dry");
        }
        ends_before("Rse =");
        seek("Rse =");
        number(wall.section.outer_resistance);
        seek("Rsi =");
        number(wall.section.inner_resistance);
        for (size_t i = 0; i < WALL_SLABS; i++) {
            char text[32];
            snprintf(text, sizeof text, "sd of No. %zu by RH:", i + 1);
            says_if(wall.slab[i].sd_curve != NULL, text);
        }
    }
}
END_TEST

/* Every point of a curve; sorption of solid layers that have one. */
START_TEST(curves_are_told_point_by_point)
{
    static const double x[] = {0.125, 0.5, 0.875}, y[] = {0.0625, 0.25, 0.75};
    working_setup();
    ck_assert(print_working());
    seek("sd of No. 3 by RH:");
    for (size_t i = 0; i < 2; i++) {
        number(100.0 * variable_x[i]);
        word("%");
        number(variable_y[i]);
        word("m");
    }
    says_if(false, "Sorption, which");
    for (size_t i = 0; i < WALL_SLABS; i++) /* of a membrane it is not told */
        wall.material[i].sorption = (bw_curve){
            .count = 3 - i, .x = x, .y = y, .source = "", .note = ""};
    ck_assert(print_working());
    for (size_t i = 0; i < WALL_SLABS; i++) {
        char text[64];
        const bool told = wall.slab[i].kind == BW_LAYER_SOLID;
        snprintf(text, sizeof text,
                 "Sorption, which no month counts, of No. %zu by RH:", i + 1);
        says_if(told, text);
        if (!told)
            continue;
        seek(text);
        for (size_t k = 0; k < 3 - i; k++) {
            number(100.0 * x[k]);
            word("%");
            number(y[k]);
            word("kg/kg");
        }
    }
}
END_TEST

/* ---- the month followed ---------------------------------------------------
 */

/* Planes of random numbers; those on the saturation curve are by chance. */
static void make_planes(bool condenses)
{
    double sd = 0.0;
    bw_monthly_result *run = &wall.checked.run[BW_RUN_DESIGN].result;
    run->condenses = condenses;
    run->critical_plane = 1 + (size_t)between(&full_die, 0.0, 1.999);
    for (size_t i = 0; i < WALL_PLANES; i++) {
        /* no water gathers on a surface */
        const bool inside = i > 0 && i + 1 < WALL_PLANES;
        wall.plane[i].peak = inside ? between(&full_die, 0.0, 1.0) : 0.0;
        sd += between(&full_die, 0.1, 2.0);
        for (int m = 0; m < BW_MONTHS; m++) {
            bw_plane_month *at = &wall.plane[i].month[m];
            at->theta = between(&full_die, -5.0, 20.0);
            at->sd_from_outside = sd;
            at->saturation_pressure = between(&full_die, 800.0, 2000.0);
            at->vapour_pressure = condenses && uniform(&full_die) < 0.5
                                      ? at->saturation_pressure
                                      : between(&full_die, 300.0, 799.0);
            at->relative_humidity = between(&full_die, 0.2, 0.99);
            at->condensation = inside ? between(&full_die, 0.0, 1.0) : 0.0;
        }
    }
}

static double follow_by(const bw_plane_month *m, bool condenses)
{
    return condenses ? m->condensation : m->relative_humidity;
}

/* Of water the plane of most, in the month most condenses; of none the place
 * most at risk, in the month it is dampest. */
static size_t followed(bool condenses, size_t *month)
{
    size_t at = wall.checked.run[BW_RUN_DESIGN].result.critical_plane;
    if (condenses)
        at = wall.plane[1].peak > wall.plane[2].peak ? 1 : 2;
    double most = -1.0;
    for (size_t m = 0; m < BW_MONTHS; m++)
        most = fmax(most, follow_by(&wall.plane[at].month[m], condenses));
    for (*month = 0;
         follow_by(&wall.plane[at].month[*month], condenses) < most;)
        ++*month;
    return at;
}

/* Planes are numbered by the slab whose inner face they are. */
static void seek_planes(size_t at, size_t month)
{
    char text[64];
    ck_assert(print_working());
    snprintf(text, sizeof text, "Section whole, %s: plane %zu followed",
             months[month], at);
    seek(text);
    seek("----");
    cursor += strspn(cursor, "-");
    for (size_t i = 0; i < WALL_PLANES; i++) {
        const bw_plane_month *m = &wall.plane[i].month[month];
        number((double)i);
        number(m->sd_from_outside);
        number(m->theta);
        number(m->saturation_pressure);
        number(m->vapour_pressure);
        number(1e3 * m->condensation);
        seek(i == 0                 ? "outer surface"
             : i + 1 == WALL_PLANES ? "room-side surface"
             : i == 1               ? "between softboard and hemp batt"
                                    : "between hemp batt and variable film");
    }
    ends_before("Plane 3: the inner face");
}

/* The neighbour is the next on the saturation curve, or the surface. */
static size_t neighbour_of(size_t at, size_t month, int step)
{
    size_t i = at;
    do
        i = step > 0 ? i + 1 : i - 1;
    while (i > 0 && i + 1 < WALL_PLANES &&
           wall.plane[i].month[month].vapour_pressure <
               wall.plane[i].month[month].saturation_pressure);
    return i;
}

/* g = delta_0 s [(a - b) / (c - d) - (b - e) / (d - f)] */
static double sum_of(const bw_plane_month *out, const bw_plane_month *m,
                     const bw_plane_month *in, double seconds)
{
    return 2.0e-10 * seconds *
           ((in->vapour_pressure - m->vapour_pressure) /
                (in->sd_from_outside - m->sd_from_outside) -
            (m->vapour_pressure - out->vapour_pressure) /
                (m->sd_from_outside - out->sd_from_outside));
}

static void read_difference(double a, double b)
{
    number(a);
    word("-");
    number(b);
}

START_TEST(where_water_gathers_the_sum_gives_what_it_says)
{
    static const char other[] = "In the month it is not that";
    working_setup();
    for (int draw = 0; draw < DRAWS; draw++) {
        size_t month;
        make_planes(true);
        const size_t at = followed(true, &month);
        bw_plane_month *m = &wall.plane[at].month[month];
        m->vapour_pressure = m->saturation_pressure;
        const bw_plane_month
            *out = &wall.plane[neighbour_of(at, month, -1)].month[month],
            *in = &wall.plane[neighbour_of(at, month, 1)].month[month];
        const double seconds = 86400.0 * days[month];
        const double gain = sum_of(out, m, in, seconds);
        seek_planes(at, month);
        says_if(fabs(gain - m->condensation) > 1e-6, other);
        says_if(false, "It is below p_sat");
        seek("It is on p_sat: g = 2.0e-10 x");
        number(seconds);
        word("x");
        read_difference(in->vapour_pressure, m->vapour_pressure);
        word("/");
        read_difference(in->sd_from_outside, m->sd_from_outside);
        word("-");
        read_difference(m->vapour_pressure, out->vapour_pressure);
        word("/");
        read_difference(m->sd_from_outside, out->sd_from_outside);
        word("=");
        number(gain);
        word("kg/m2");
    }
}
END_TEST

/* Equal to a milligram: nothing ran dry in it. */
START_TEST(a_sum_that_is_not_the_months_says_why)
{
    static const char other[] = "In the month it is not that";
    size_t month;
    working_setup();
    make_planes(true);
    const size_t at = followed(true, &month);
    bw_plane_month *m = &wall.plane[at].month[month];
    m->vapour_pressure = m->saturation_pressure;
    /* its neighbours are the surfaces, so that the sum is what is wanted */
    const size_t beside = at == 1 ? 2 : 1;
    wall.plane[beside].month[month].vapour_pressure = 100.0;
    bw_plane_month *out = &wall.plane[0].month[month];
    const bw_plane_month *in = &wall.plane[WALL_PLANES - 1].month[month];
    const double seconds = 86400.0 * days[month];
    out->vapour_pressure = 0.0;
    const double least = sum_of(out, m, in, seconds);
    const double per_pascal = 2.0e-10 * seconds /
                              (m->sd_from_outside - out->sd_from_outside);
    static const struct {
        double off;
        bool says;
    } rows[] = {{0.0, false},
                {0.9e-6, false},
                {-0.9e-6, false},
                {1.1e-6, true},
                {-1.1e-6, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        out->vapour_pressure = (m->condensation + rows[i].off - least) /
                               per_pascal;
        ck_assert(print_working());
        says_if(rows[i].says, other);
        seek("It is on p_sat");
        seek("] =");
        number(m->condensation + rows[i].off);
    }
}
END_TEST

START_TEST(without_water_the_line_is_followed)
{
    working_setup();
    for (int draw = 0; draw < DRAWS; draw++) {
        size_t month;
        make_planes(false);
        const size_t at = followed(false, &month);
        const bw_plane_month *m = &wall.plane[at].month[month];
        const bw_boundary *b = &wall.checked.boundary[month];
        seek_planes(at, month);
        says_if(false, "It is on p_sat");
        seek("It is below p_sat, as every other: p =");
        number(b->p_e);
        word("+");
        read_difference(b->p_i, b->p_e);
        word("x");
        number(m->sd_from_outside);
        word("/");
        number(wall.plane[WALL_PLANES - 1].month[month].sd_from_outside);
        word("=");
        number(m->vapour_pressure);
        word("Pa");
        number(100.0 * m->relative_humidity);
        word("%");
    }
}
END_TEST

START_TEST(a_surface_is_not_followed_further)
{
    bw_monthly_result *run = &wall.checked.run[BW_RUN_DESIGN].result;
    working_setup();
    make_planes(false);
    run->critical_plane = (size_t)_i;
    const bool surface = _i == 0 || _i + 1 == WALL_PLANES;
    ck_assert(print_working());
    says_if(surface, "It is a surface.");
    says_if(!surface, "It is below p_sat");
}
END_TEST

/* 0: the outer surface; 3: the inner face of No. 3; 2+45: 45 mm into No. 2. */
START_TEST(a_plane_has_the_number_of_its_slab)
{
    static const struct {
        bw_plane_at at;
        const char *is;
    } rows[] = {{{0, 0.0, false}, "0"},
                {{0, 0.0, true}, "1"},
                {{2, 0.0, true}, "3"},
                {{1, 0.045, false}, "2+45"}};
    working_setup();
    make_planes(false);
    for (int k = 0; k < BW_RUN_COUNT; k++)
        wall.checked.run[k].result.critical_plane = 1;
    wall.checked.run[BW_RUN_LEAKAGE] = wall.checked.run[BW_RUN_DESIGN];
    for (size_t i = 0; i < COUNT(rows); i++) {
        char text[64];
        wall.plane[1].at = rows[i].at;
        for (int k = 0; k < 4; k++) {
            wall.checked.run[BW_RUN_DESIGN].result.has_reserve = k % 2 == 1;
            wall.checked.run[BW_RUN_LEAKAGE].ran = k / 2 == 1;
            ck_assert(print_working());
            snprintf(text, sizeof text, ": plane %s followed", rows[i].is);
            says_if(true, text);
            snprintf(text, sizeof text, "Reserve of plane %s.", rows[i].is);
            says_if(k % 2 == 1, text);
            snprintf(text, sizeof text, "Leaking air is stopped at plane %s.",
                     rows[i].is);
            says_if(k / 2 == 1, text);
        }
    }
}
END_TEST

/* ---- the formulas and their constants -------------------------------------
 */

START_TEST(the_block_of_the_period_is_that_of_the_method)
{
    working_setup();
    for (int roof = 0; roof < 2; roof++) {
        wall.assembly.element = roof ? BW_ELEMENT_ROOF : BW_ELEMENT_WALL;
        const bw_period_climate b = bw_period_climate_din4108(
            wall.assembly.element);
        ck_assert(print_working());
        seek("period balance: no strips, cups and curves by its own winter; "
             "outside");
        number(b.condensation.theta_e);
        word("degC");
        number(b.condensation.p_e);
        seek("inside");
        number(b.condensation.theta_i);
        word("degC");
        number(b.condensation.p_i);
        seek("Pa for");
        number(b.condensation_seconds);
        seek("then");
        number(b.evaporation_pressure);
        seek("a plane at");
        number(b.evaporation_saturation);
        seek("Pa for");
        number(b.evaporation_seconds);
    }
}
END_TEST

START_TEST(leaking_air_is_told_where_it_is_stated)
{
    working_setup();
    ck_assert(print_working());
    says_if(false, "room air leaking in:");
    wall.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 2.75 / 3600.0, .connected_height = 5.25};
    ck_assert(print_working());
    seek("room air leaking in:");
    seek("q50 =");
    number(2.75);
    seek("h =");
    number(5.25);
}
END_TEST

/* dp of a class up to 0 degC: DIN EN ISO 13788, annex A, 270 Pa a class. */
START_TEST(the_room_is_told_by_its_kind)
{
    working_setup();
    bw_indoors *room = &wall.assembly.indoors;
    for (int margin = 0; margin < 2; margin++) {
        *room = (bw_indoors){.temperature = 20.0, .margin = margin == 1};
        for (room->humidity_class = 1; room->humidity_class <= 3;
             room->humidity_class++) {
            room->kind = BW_INDOOR_CLASS;
            ck_assert(print_working());
            seek("humidity class");
            number(room->humidity_class);
            seek("p_i = p_e +");
            number(margin ? 1.1 : 1.0);
            seek("dp =");
            number(270.0 * room->humidity_class);
            says_if(false, "theta_e and p_e those of the outdoor air");
            says_if(false, "room: ");
        }
        room->kind = BW_INDOOR_RH;
        room->relative_humidity = 0.53125;
        ck_assert(print_working());
        seek("room: p_i = p_sat(theta_i) x");
        number(53.125);
        says_if(margin == 1, "53.125 % RH and 5 points more)");
        says_if(false, "p_i = p_e +");
        room->kind = BW_INDOOR_EN15026;
        for (int high = 0; high < 2; high++) {
            room->en15026_high = high == 1;
            ck_assert(print_working());
            seek("room: theta_i 20 degC up to theta_e = 10 degC");
            says_if(high == 1, "between, 10 points more");
            says_if(margin == 1, ", 5 points more");
            says_if(false, "p_i = p_e +");
        }
    }
}
END_TEST

/* ---- whether it is there --------------------------------------------------
 */

START_TEST(there_is_a_working_where_months_were_run)
{
    static bw_section_assessment two[2];
    static bw_section second;
    working_setup();
    second = wall.section;
    second.name = "second";
    two[0] = two[1] = wall.checked;
    two[1].section = &second;
    wall.assessment.section = two;
    wall.assessment.section_count = 2;
    for (int k = 0; k < 9; k++) {
        const int first = k % 3, last = k / 3; /* ran, did not, has no planes */
        two[0].run[BW_RUN_DESIGN].ran = first != 1;
        two[0].run[BW_RUN_DESIGN].result.plane_count = first == 2 ? 1 : 2;
        two[1].run[BW_RUN_DESIGN].ran = last != 1;
        two[1].run[BW_RUN_DESIGN].result.plane_count = last == 2 ? 1 : 2;
        ck_assert(print_working() == (first == 0 || last == 0));
        says_if(first == 0, "Section whole, what goes in");
        says_if(last == 0, "Section second, what goes in");
    }
}
END_TEST

SUITE("working", FACT(both_sides_are_those_of_every_month),
      FACT(what_goes_in_is_what_the_slabs_have),
      FACT(curves_are_told_point_by_point),
      FACT(where_water_gathers_the_sum_gives_what_it_says),
      FACT(a_sum_that_is_not_the_months_says_why),
      FACT(without_water_the_line_is_followed),
      EACH(a_surface_is_not_followed_further, WALL_PLANES),
      FACT(a_plane_has_the_number_of_its_slab),
      FACT(the_block_of_the_period_is_that_of_the_method),
      FACT(leaking_air_is_told_where_it_is_stated),
      FACT(the_room_is_told_by_its_kind),
      FACT(there_is_a_working_where_months_were_run))
