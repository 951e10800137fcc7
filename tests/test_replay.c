/* A record against a wall: figures by hand, what is left out, where places
 * are. */

#include "has_words.h"
#include "replay_case.h"

/* R 2.5 and 0.5 m2 K/W, sd 0.1 and 1 m; nothing is stored for long. */
#define OUTER                                                                  \
    "<layer id=\"outer\" name=\"o\" kind=\"mineral-wool\" thickness=\"100 "    \
    "mm\" "                                                                    \
    "lambda=\"0.04 W/(m.K)\" mu=\"1\" density=\"20 kg/m3\" "                   \
    "specific-heat=\"1000 J/(kg.K)\"/>"
#define INNER                                                                  \
    "<layer id=\"inner\" name=\"i\" kind=\"mineral-wool\" thickness=\"50 "     \
    "mm\" "                                                                    \
    "lambda=\"0.1 W/(m.K)\" mu=\"20\" density=\"20 kg/m3\" "                   \
    "specific-heat=\"1000 J/(kg.K)\"/>"
#define FOIL "<membrane id=\"foil\" name=\"f\" sd=\"10 m\"/>"
#define GAP                                                                    \
    "<layer id=\"face\" name=\"c\" kind=\"mineral-wool\" thickness=\"20 mm\" " \
    "lambda=\"0.1 W/(m.K)\" mu=\"20\" density=\"20 kg/m3\" "                   \
    "specific-heat=\"1000 J/(kg.K)\"/>"                                        \
    "<cavity id=\"gap\" thickness=\"30 mm\" ventilation=\"well\"/>"

static const bw_replay_options still = {.run_in = -1, .no_trials = true};

/* 20 degC, 50 % inside, 0 degC, 80 % outside, and what a test says within. */
typedef struct steady {
    double inside, outside, theta, rh; /* NAN: not measured */
    int from, to;                      /* hours without the air outside */
} steady;

static double steady_value(int hour, int column, void *of)
{
    const steady *s = of;
    if (hour >= s->from && hour < s->to)
        return NAN;
    switch (column) {
    case 0:
        return s->inside;
    case 1:
        return 50.0;
    case 2:
        return s->outside;
    case 3:
        return 80.0;
    case 4:
        return s->theta;
    default:
        return s->rh;
    }
}

static void run_steady(const char *layers, const char *columns, steady s,
                       int first, int hours)
{
    read_wall(layers, NULL, 0);
    write_log("", columns, first, hours, steady_value, &s);
    run_replay(&still);
}

/* ---- figures --------------------------------------------------------------
 */

/* (0.13 + 0.5) / (0.13 + 0.5 + 2.5 + 0.04) of 20 K below the room. */
static const double SHARE = 0.63 / 3.17;

START_TEST(still_air_gives_the_shares_of_the_resistances)
{
    const double theta = 20.0 * (1.0 - SHARE);
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, theta + 0.7, 40.0, 0, 0}, 0, 240);
    const bw_replay_figures *f = &replay->place[0].all;
    ck_assert_uint_eq(f->theta_hours, 240 - 48);
    /* vapour carries 0.01 W/m2 of heat beside 6.3 */
    ck_assert_double_eq_tol(f->theta_bias, -0.7, 4e-3);
    ck_assert_double_eq_tol(f->theta_rms, 0.7, 4e-3);
    ck_assert_double_eq_tol(f->theta_drop, 20.0, 1e-9);
    ck_assert_double_eq_tol(f->theta_share_computed, SHARE, 2e-4);
    ck_assert_double_eq_tol(f->theta_share_measured, SHARE - 0.7 / 20.0, 1e-6);
    /* of vapour by sd: (d/beta_i + 1) / (d/beta_i + 1.1 + d/beta_e) with
     * d/beta_i = 2e-10/1.75e-8 = 0.011 m, d/beta_e = 1/(67 + 90 2) = 0.004 m */
    ck_assert_double_eq_tol(f->pressure_share_computed, 1.011 / 1.115, 0.01);
    ck_assert_double_eq_tol(replay->place[0].depth, 0.1, 1e-12);
}
END_TEST

/* A layer by its values alone, of no kind: it has no sorption curve, and is
 * taken as storing nothing. */
START_TEST(a_layer_that_stores_no_vapour_is_replayed)
{
    run_steady("<layer id=\"outer\" name=\"o\" thickness=\"100 mm\" "
               "lambda=\"0.04 W/(m.K)\" mu=\"1\" density=\"20 kg/m3\" "
               "specific-heat=\"1000 J/(kg.K)\"/>" INNER,
               ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 16.0, 40.0, 0, 0}, 0, 240);
    const bw_replay_figures *f = &replay->place[0].all;
    ck_assert_double_eq_tol(f->theta_share_computed, SHARE, 2e-4);
    ck_assert_double_eq_tol(f->pressure_share_computed, 1.011 / 1.115, 0.01);
}
END_TEST

/* 0.7 K over 0.5 K, and nothing else measured. */
START_TEST(the_misfit_is_the_difference_over_what_loggers_tell)
{
    const double theta = 20.0 * (1.0 - SHARE);
    run_steady(OUTER INNER, ROOM "," OUTDOOR ",place:outer|inner_temperature_C",
               (steady){20.0, 0.0, theta + 0.7, NAN, 0, 0}, 0, 240);
    ck_assert_double_eq_tol(replay->misfit, 1.4, 8e-3);
    ck_assert(isnan(replay->place[0].all.rh_bias));
    ck_assert_uint_eq(replay->place[0].all.rh_hours, 0);
}
END_TEST

START_TEST(months_are_those_of_the_calendar)
{
    /* 60 hours of January, 60 of February */
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 0, 0}, 31 * 24 - 60, 120);
    const bw_replay_place *p = &replay->place[0];
    ck_assert_uint_eq(p->month_count, 2);
    ck_assert_int_eq(p->month[0].month, 0);
    ck_assert_int_eq(p->month[1].month, 1);
    ck_assert_int_eq(p->month[1].year, 2031);
    ck_assert_uint_eq(p->month[0].theta_hours, 12);
    ck_assert_uint_eq(p->month[1].theta_hours, 60);
    ck_assert(isnan(p->month[0].theta_bias)); /* less than a day */
    ck_assert(!isnan(p->month[1].theta_bias));
}
END_TEST

/* January is over in the run-in; February is in that behind a gap. */
START_TEST(a_month_in_which_nothing_is_compared_is_left_out)
{
    const int end = 31 * 24;
    for (int last = 0; last < 2; last++) {
        const int first = last ? end - 160 : end - 40;
        run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
                   (steady){20.0, 0.0, 15.0, 40.0, last ? end - 14 : 0,
                            last ? end - 4 : 0},
                   first, last ? 190 : 120);
        const bw_replay_place *p = &replay->place[0];
        ck_assert_uint_eq(p->month_count, 1);
        ck_assert_int_eq(p->month[0].month, last ? 0 : 1);
        ck_assert_uint_eq(p->month[0].theta_hours, last ? 98 : 72);
    }
}
END_TEST

/* ---- what is left out ------------------------------------------------------
 */

START_TEST(a_gap_is_left_out_with_a_run_in_behind_it)
{
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 100, 110}, 0, 240);
    ck_assert_uint_eq(replay->hour_count, 240);
    ck_assert_uint_eq(replay->compared, 240 - 48 - 10 - 48);
    ck_assert_uint_eq(doubts_of(BW_DOUBT_GAP), 1);
    for (size_t i = 0; i < replay->doubt_count; i++)
        if (replay->doubt[i].kind == BW_DOUBT_GAP) /* header, 100 rows */
            ck_assert_int_eq(replay->doubt[i].line, 102);
    ck_assert(!isnan(replay->place[0].hour[105].theta_computed));
    ck_assert(isnan(replay->place[0].hour[105].theta));
}
END_TEST

START_TEST(a_short_gap_is_bridged)
{
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 100, 105}, 0, 240);
    ck_assert_uint_eq(replay->compared, 240 - 48);
    ck_assert_uint_eq(replay->place[0].all.theta_hours, 240 - 48 - 5);
    ck_assert_uint_eq(doubts_of(BW_DOUBT_GAP), 0);
}
END_TEST

START_TEST(what_proves_nothing_is_not_assessed)
{
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 0, 0}, 0, 60);
    ck_assert(!replay->assessed && replay->not_assessed[0] != '\0');
    ck_assert(isnan(replay->place[0].all.theta_bias) && isnan(replay->misfit));
    run_steady(OUTER INNER, ROOM "," OUTDOOR, (steady){20.0, 0.0, 0, 0, 0, 0},
               0, 240);
    ck_assert(!replay->assessed);
    has(replay->not_assessed, "no place");
}
END_TEST

START_TEST(air_that_is_the_same_on_both_sides_proves_no_wall)
{
    static const struct {
        double inside, outside; /* 50 % and 80 % RH */
        const char *columns;
        bool tells;
    } rows[] = {
        {20.0, 20.0, "place:outer|inner_temperature_C", false},
        {20.0, 19.2, "place:outer|inner_temperature_C", false},
        {20.0, 18.5, "place:outer|inner_temperature_C", true},
        {20.0, 20.0, AT("place:outer|inner"), true},
    };
    char columns[256];
    for (size_t i = 0; i < COUNT(rows); i++) {
        snprintf(columns, sizeof columns, "%s,%s,%s", ROOM, OUTDOOR,
                 rows[i].columns);
        run_steady(OUTER INNER, columns,
                   (steady){rows[i].inside, rows[i].outside, 19.5, 50.0, 0, 0},
                   0, 240);
        ck_assert_msg(replay->assessed == rows[i].tells, "row %zu", i);
        ck_assert(isnan(replay->misfit) == !rows[i].tells);
    }
}
END_TEST

/* The room's own sensor, named as a place at the room's face. */
START_TEST(a_place_that_reads_the_air_of_a_side_proves_no_wall)
{
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:inner|room"),
               (steady){20.0, 0.0, 20.0, 50.0, 0, 0}, 0, 240);
    ck_assert(!replay->assessed && isnan(replay->misfit));
    has(replay->not_assessed, "reads the air of a side");
    ck_assert_uint_eq(doubts_of(BW_DOUBT_COPY), 1);
    for (size_t i = 0; i < replay->doubt_count; i++)
        if (replay->doubt[i].kind == BW_DOUBT_COPY)
            has(replay->doubt[i].message, "reads what room reads");
    ck_assert(isnan(replay->place[0].all.theta_bias));
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:inner|room"),
               (steady){20.0, 0.0, 19.9, 50.0, 0, 0}, 0, 240);
    ck_assert(replay->assessed);
}
END_TEST

START_TEST(no_share_of_a_drop_that_is_none)
{
    run_steady(OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|inner"),
               (steady){15.0, 10.5, 14.0, 50.0, 0, 0}, 0, 240);
    const bw_replay_figures *f = &replay->place[0].all;
    ck_assert(isnan(f->theta_share_measured));
    ck_assert(isnan(f->theta_share_computed));
    ck_assert(isnan(f->pressure_share_measured));
    ck_assert(!isnan(f->theta_bias) && !isnan(f->rh_bias));
}
END_TEST

/* ---- how the record drives ------------------------------------------------
 */

START_TEST(a_cavity_that_was_measured_is_the_outer_side)
{
    run_steady(GAP OUTER INNER, ROOM "," CAVITY "," AT("place:outer|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 0, 0}, 0, 240);
    ck_assert(replay->cavity);
    ck_assert_uint_eq(replay->left_out, 2);
    /* 0.13 m2 K/W on both sides */
    ck_assert_double_eq_tol(replay->place[0].all.theta_share_computed,
                            0.63 / 3.26, 2e-4);
}
END_TEST

/* 60 % over ice at -10 degC: 0.6 259.9 Pa (over ice; over water 286.3, IAPWS).
 */
START_TEST(humidity_is_over_water_unless_ice_is_stated)
{
    steady s = {20.0, -10.0, 15.0, 40.0, 0, 0};
    read_wall(OUTER INNER, NULL, 0);
    write_log("", ROOM "," OUTDOOR, 0, 240, steady_value, &s);
    run_replay(&still);
    ck_assert_double_eq_tol(replay->boundary[100].p_e, 0.8 * 286.3, 1.0);
    write_log("# humidity-reference: ice\n", ROOM "," OUTDOOR, 0, 240,
              steady_value, &s);
    run_replay(&still);
    ck_assert_double_eq_tol(replay->boundary[100].p_e, 0.8 * 259.9, 1.0);
}
END_TEST

static bool notes(const char *words)
{
    bool any = false;
    for (size_t i = 0; i < replay->note_count; i++)
        any = any || strstr(replay->note[i], words) != NULL;
    return any;
}

/* Over what humidity is taken, and which weather does not act: none behind a
 * cavity that was measured; a roof is colder under open sky. */
START_TEST(what_is_taken_of_the_air_is_noted)
{
    static const bw_edit roof = {"outdoors.tilt", "45 deg"};
    for (int row = 0; row < 8; row++) {
        const bool ice = row % 2 == 1, cavity = row / 2 % 2 == 1;
        const bool tilted = row / 4 == 1;
        steady s = {20.0, 5.0, 15.0, 40.0, 0, 0};
        read_wall(GAP OUTER INNER, &roof, tilted ? 1 : 0);
        write_log(ice ? "# humidity-reference: ice\n" : "",
                  cavity ? ROOM "," CAVITY : ROOM "," OUTDOOR, 0, 120,
                  steady_value, &s);
        run_replay(&still);
        ck_assert_int_eq(notes("over ice, as the log states"), ice);
        ck_assert_int_eq(notes("over liquid water, as most"), !ice);
        ck_assert_int_eq(notes("outdoor air is the outer side"), !cavity);
        ck_assert_int_eq(notes("under open sky"), tilted && !cavity);
    }
}
END_TEST

/* Readings a quarter of an hour apart count with their mean around the hour. */
START_TEST(dense_readings_are_averaged_about_the_hour)
{
    size_t used = (size_t)snprintf(log_text, sizeof log_text,
                                   "time_utc," ROOM "," OUTDOOR "\n");
    for (int q = 0; q < 4 * 48; q++)
        used += (size_t)snprintf(log_text + used, sizeof log_text - used,
                                 "2031-01-0%dT%02d:%02d,%d,50,%d,80\n",
                                 1 + q / 96, q / 4 % 24, 15 * (q % 4),
                                 20 + (q % 4 == 0), q / 4);
    read_wall(OUTER INNER, NULL, 0);
    run_replay(&still);
    /* (a half of -30', -15', the hour, 15', a half of 30') over 4 */
    ck_assert_double_eq_tol(replay->boundary[10].theta_i, 20.25, 1e-9);
    ck_assert_double_eq_tol(replay->boundary[10].theta_e, 9.625, 1e-9);
}
END_TEST

/* A wall of wood fibre begins between what is measured on both sides, 80 % and
 * 50 %, where a place tells its temperature alone. */
START_TEST(a_place_without_humidity_starts_nothing)
{
    run_steady("<layer id=\"outer\" material=\"wood-fibre-board-140\" "
               "thickness=\"80 mm\"/><layer id=\"inner\" "
               "material=\"wood-fibre-board-140\" thickness=\"80 mm\"/>",
               ROOM "," OUTDOOR ",place:outer|inner_temperature_C",
               (steady){20.0, 0.0, 10.0, NAN, 0, 0}, 0, 120);
    const double rh = replay->place[0].hour[0].rh_computed;
    ck_assert_msg(rh > 0.5 && rh < 0.8, "%g", rh);
}
END_TEST

/* 50 % at a place, but for an hour. */
static double but_for_an_hour(int hour, int column, void *of)
{
    const steady s = {20.0, 0.0, 10.0, 50.0, 0, 0};
    return column == 5 && hour == *(int *)of
               ? 98.0
               : steady_value(hour, column, (void *)&s);
}

/* The mean of the first day compared, and of no hour before or behind it, is
 * where a wall of wood fibre begins. */
START_TEST(the_first_day_compared_is_where_a_wall_starts)
{
    static const struct {
        int hour;
        bool counts;
    } rows[] = {{-1, false}, {47, false}, {48, true}, {71, true}, {72, false}};
    double first = 0.0;
    for (size_t i = 0; i < COUNT(rows); i++) {
        int hour = rows[i].hour;
        read_wall("<layer id=\"outer\" material=\"wood-fibre-board-140\" "
                  "thickness=\"80 mm\"/><layer id=\"inner\" "
                  "material=\"wood-fibre-board-140\" thickness=\"80 mm\"/>",
                  NULL, 0);
        write_log("", ROOM "," OUTDOOR "," AT("place:outer|inner"), 0, 120,
                  but_for_an_hour, &hour);
        run_replay(&still);
        const double rh = replay->place[0].hour[0].rh_computed;
        first = i == 0 ? rh : first;
        /* 48 % more in one of 24 hours is 2 % in the mean */
        ck_assert_double_eq_tol(rh - first, rows[i].counts ? 0.02 : 0.0,
                                rows[i].counts ? 0.004 : 1e-9);
    }
}
END_TEST

/* ---- places ----------------------------------------------------------------
 */

typedef struct where {
    const char *columns;
    double depth;
    double theta; /* by the resistances from the room, of 3.17 and 20 K */
} where;

static const where places[] = {
    {AT("place:outer|inner"), 0.1, 20.0 * (1.0 - 0.63 / 3.17)},
    {AT("place:inner|outer"), 0.1, 20.0 * (1.0 - 0.63 / 3.17)},
    {AT("place:outside|outer"), 0.0, 20.0 * (1.0 - 3.13 / 3.17)},
    {AT("place:inner|room"), 0.15, 20.0 * (1.0 - 0.13 / 3.17)},
    {AT("place:outer@60mm"), 0.06, 20.0 * (1.0 - 1.63 / 3.17)},
    {AT("place:outer@0.06m"), 0.06, 20.0 * (1.0 - 1.63 / 3.17)},
    {AT("place:inner@1mm"), 0.101, 20.0 * (1.0 - 0.62 / 3.17)},
};

START_TEST(a_place_is_two_layers_or_a_distance)
{
    char columns[512];
    snprintf(columns, sizeof columns, ROOM "," OUTDOOR ",%s",
             places[_i].columns);
    run_steady(OUTER INNER, columns, (steady){20.0, 0.0, 10.0, 40.0, 0, 0}, 0,
               120);
    ck_assert_double_eq_tol(replay->place[0].depth, places[_i].depth, 1e-12);
    ck_assert_double_eq_tol(replay->place[0].hour[119].theta_computed,
                            places[_i].theta, 5e-3);
}
END_TEST

/* sd 0.1 outside and 10 + 1 inside of it: nearly all drops across the foil. */
START_TEST(a_membrane_has_two_sides)
{
    run_steady(OUTER FOIL INNER,
               ROOM "," OUTDOOR
                    "," AT("place:outer|foil") "," AT("place:foil|inner"),
               (steady){20.0, 0.0, 15.0, 40.0, 0, 0}, 0, 240);
    const double outer = replay->place[0].all.pressure_share_computed;
    const double inner = replay->place[1].all.pressure_share_computed;
    ck_assert_double_eq_tol(inner, 1.011 / 11.115, 0.01);
    ck_assert_double_eq_tol(outer, 11.011 / 11.115, 0.01);
    ck_assert_double_eq_tol(replay->place[0].all.theta_share_computed,
                            replay->place[1].all.theta_share_computed, 1e-6);
}
END_TEST

static const struct wrong {
    const char *layers, *columns, *fragment;
} wrong[] = {
    {OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer|nowhere"), "no two"},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer"), "two layer ids"},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer@20"), "unit"},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("place:outer@200mm"), "so thick"},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("place:nowhere@20mm"), "no layer"},
    {OUTER INNER, ROOM "," OUTDOOR "," AT("stud:outer|inner"), "framing"},
    {GAP OUTER INNER, ROOM "," CAVITY "," AT("place:face|gap"), "inside"},
    {"<cavity id=\"gap\" thickness=\"30 mm\" ventilation=\"well\"/>" OUTER
         INNER,
     ROOM "," CAVITY "," AT("place:outer|nowhere"), "inside"},
    {OUTER FOIL "<membrane id=\"film\" name=\"f\" sd=\"1 m\"/>" INNER,
     ROOM "," OUTDOOR "," AT("place:foil|film"), "two membranes"},
    {OUTER INNER, ROOM "," CAVITY, "no cavity"},
    {GAP OUTER INNER, ROOM "," AT("cavity:other"), "'other'"},
    {OUTER INNER, OUTDOOR, "room_temperature_C"},
    {OUTER INNER, ROOM, "outdoor_temperature_C"},
    {OUTER INNER, ROOM ",outdoor_temperature_C", "outdoor_temperature_C"},
};

START_TEST(what_is_not_in_the_wall_is_refused_with_the_line)
{
    steady s = {20.0, 0.0, 15.0, 40.0, 0, 0};
    bw_error err = {0};
    read_wall(wrong[_i].layers, NULL, 0);
    write_log("# remark: invented\n", wrong[_i].columns, 0, 120, steady_value,
              &s);
    ck_assert_int_eq(try_replay(&still, NULL, &err), BW_ERR_INPUT);
    ck_assert_ptr_null(replay);
    ck_assert_int_eq(err.line, 2);
    has(err.message, wrong[_i].fragment);
}
END_TEST

SUITE_AROUND("replay", open_library, close_library,
             FACT(still_air_gives_the_shares_of_the_resistances),
             FACT(a_layer_that_stores_no_vapour_is_replayed),
             FACT(the_misfit_is_the_difference_over_what_loggers_tell),
             FACT(months_are_those_of_the_calendar),
             FACT(a_month_in_which_nothing_is_compared_is_left_out),
             FACT(a_gap_is_left_out_with_a_run_in_behind_it),
             FACT(a_short_gap_is_bridged),
             FACT(what_proves_nothing_is_not_assessed),
             FACT(a_place_that_reads_the_air_of_a_side_proves_no_wall),
             FACT(air_that_is_the_same_on_both_sides_proves_no_wall),
             FACT(no_share_of_a_drop_that_is_none),
             FACT(a_cavity_that_was_measured_is_the_outer_side),
             FACT(humidity_is_over_water_unless_ice_is_stated),
             FACT(what_is_taken_of_the_air_is_noted),
             FACT(dense_readings_are_averaged_about_the_hour),
             FACT(a_place_without_humidity_starts_nothing),
             FACT(the_first_day_compared_is_where_a_wall_starts),
             EACH(a_place_is_two_layers_or_a_distance, COUNT(places)),
             FACT(a_membrane_has_two_sides),
             EACH(what_is_not_in_the_wall_is_refused_with_the_line,
                  COUNT(wrong)))
