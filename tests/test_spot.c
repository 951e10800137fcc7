/* The place a reader is to look at first is the place where the row was judged
 * that decides, or comes nearest to doing so: found here a second time, of
 * random simulations with four faces and three slabs. Its season: spans of five
 * days in which more than half of the hours, or the mean of wood, lie beyond
 * the limit. */

#include <math.h>

#include "bothways/bothways.h"
#include "random_wall.h"
#include "report/spot.h"
#include "suite.h"

enum { FACES = 4, SLABS = 3, DRAWS = 40, HOURS = BW_SPANS * BW_SPAN_HOURS };

static dice die;
static bw_slab slab[SLABS];
static bw_section section;
static bw_monitor monitor[FACES];
static bw_slab_moisture moisture[SLABS];
static bw_monitor_hour hours[HOURS * FACES];
static bw_wood_day days[SLABS][BW_SPANS * BW_SPAN_HOURS / 24];
static bw_place_mould mould[FACES];
static bw_wood_damage wood[SLABS];
static bw_section_assessment part;
static bw_criterion row;
static bw_assessment assessment;

static void make(int seed)
{
    die = (dice){.state = 0x9e3779b97f4a7c15u * (uint64_t)(seed + 1)};
    section = (bw_section){
        .name = "whole", .fraction = 1.0, .slab_count = SLABS, .slab = slab};
    for (size_t i = 0; i < FACES; i++) {
        monitor[i] = (bw_monitor){.label = "a face",
                                  .outer_face = i == 0,
                                  .room_face = i == FACES - 1,
                                  .highest_mould = between(&die, 0.0, 6.0)};
        monitor[i].first_free.largest = between(&die, 0.0, 1.0);
        monitor[i].last_free.largest = between(&die, 0.0, 1.0);
        monitor[i].last_year.above_95 = between(&die, 0.0, 8760.0);
        mould[i].highest = between(&die, 0.0, 6.0);
        for (int m = 0; m < BW_MONTHS; m++)
            monitor[i].month_rh[m] = between(&die, 0.3, 0.9);
    }
    for (size_t i = 0; i < SLABS; i++) {
        slab[i] = (bw_slab){.label = "a slab", .thickness = 0.01 + 0.1 * i};
        moisture[i] = (bw_slab_moisture){
            .is_wood = i != 1,
            .highest_wood_moisture = between(&die, 0.1, 0.4),
            .limit = 0.2,
            .last_days = days[i]};
        wood[i].service_dose = between(&die, 1.0, 300.0);
        for (size_t d = 0; d < COUNT(days[i]); d++)
            days[i][d].moisture = between(&die, 0.15, 0.25);
    }
    for (size_t i = 0; i < COUNT(hours); i++)
        hours[i] = (bw_monitor_hour){
            .phi = (float)between(&die, i % 7 < 4 ? 0.6 : 0.9, 1.0),
            .free_water = (float)between(&die, 0.0, 0.02)};
    part = (bw_section_assessment){.section = &section,
                                   .has_transient = true,
                                   .transient_section = &section,
                                   .transient = {.monitor_count = FACES,
                                                 .monitor = monitor,
                                                 .slab_count = SLABS,
                                                 .slab = moisture,
                                                 .last_hours = hours}};
    row = (bw_criterion){.section = "whole",
                         .has_value = true,
                         .has_limit = true,
                         .decides = true,
                         .outcome = BW_FAILS,
                         .verdict = BW_FAILS,
                         .limit = 1.0,
                         .margin = -0.5};
    assessment = (bw_assessment){.section_count = 1,
                                 .section = &part,
                                 .criterion_count = 1,
                                 .criterion = &row};
}

/* ---- the place of a row ----------------------------------------------------
 */

typedef enum what {
    WATER,
    NEAR_SATURATION,
    HIDDEN,
    ROOM,
    DOSE,
    WOOD,
    PANEL,
    WHATS
} what;

static const char *const criteria[WHATS] = {
    "standing-water",   "hours-above-95", "mould-index-hidden",
    "mould-index-room", "decay-dose",     "wood-moisture",
    "panel-moisture"};

static double figure(what of, size_t i)
{
    switch (of) {
    case WATER:
        return fmax(monitor[i].first_free.largest,
                    monitor[i].last_free.largest);
    case NEAR_SATURATION:
        return monitor[i].last_year.above_95;
    case HIDDEN:
    case ROOM:
        return part.mould != NULL ? mould[i].highest : monitor[i].highest_mould;
    case DOSE:
        return wood[i].service_dose;
    default:
        return 100.0 * moisture[i].highest_wood_moisture;
    }
}

static double mean_of_year(size_t face)
{
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += monitor[face].month_rh[m];
    return sum / BW_MONTHS;
}

/* Where the value is the number of a place to more than nine digits. */
START_TEST(a_row_stands_where_its_number_is)
{
    for (int draw = 0; draw < DRAWS; draw++) {
        make(draw * WHATS + _i);
        const what of = (what)_i;
        const bool of_wood = of >= DOSE;
        part.mould = draw % 2 == 0 ? mould : NULL;
        part.wood = wood;
        row.criterion = criteria[of];
        for (size_t i = 0; i < (of_wood ? SLABS : FACES); i++) {
            const bool eligible = of_wood      ? i != 1
                                  : of == ROOM ? i == FACES - 1
                                               : i > 0 && i < FACES - 1;
            bw_spot spot;
            row.value = figure(of, i);
            ck_assert(bw_spot_of_row(&spot, &part, &row) == eligible);
            if (!eligible)
                continue;
            ck_assert_ptr_eq(spot.part, &part);
            ck_assert_ptr_eq(spot.criterion, &row);
            if (of_wood) {
                ck_assert_uint_eq(spot.slab, i);
                ck_assert_uint_eq(
                    spot.monitor,
                    mean_of_year(i) > mean_of_year(i + 1) ? i : i + 1);
            } else {
                ck_assert_uint_eq(spot.slab, BW_NO_SLAB);
                ck_assert_uint_eq(spot.monitor, i);
            }
            row.value = figure(of, i) * (1.0 + 1e-8);
            ck_assert(!bw_spot_of_row(&spot, &part, &row));
            row.value = figure(of, i) * (1.0 - 1e-8);
            ck_assert(!bw_spot_of_row(&spot, &part, &row));
        }
    }
    bw_spot spot;
    row.criterion = "annual-balance"; /* of the months */
    ck_assert(!bw_spot_of_row(&spot, &part, &row));
    if (_i == DOSE) { /* not computed */
        part.wood = NULL;
        row.criterion = criteria[DOSE];
        row.value = figure(DOSE, 0);
        ck_assert(!bw_spot_of_row(&spot, &part, &row));
    }
}
END_TEST

/* ---- its season ------------------------------------------------------------
 */

static bool is_bad(what of, const bw_monitor_hour *hour)
{
    return of == WATER             ? (double)hour->free_water > 0.01
           : of == NEAR_SATURATION ? hour->phi > 0.95F
                                   : hour->phi > 0.80F;
}

static bool season(what of, size_t i, size_t span)
{
    if (of >= DOSE) {
        double sum = 0.0;
        for (size_t d = 0; d < 5; d++)
            sum += days[i][5 * span + d].moisture;
        return sum / 5.0 > moisture[i].limit;
    }
    size_t bad = 0;
    for (size_t h = 0; h < 120; h++)
        bad += is_bad(of, &hours[(120 * span + h) * FACES + i]);
    return bad > 60;
}

START_TEST(the_season_is_when_more_than_half_is_beyond)
{
    static const char *const words[WHATS] = {"with water standing",
                                             "above 95 % RH",
                                             "above 80 % RH",
                                             "above 80 % RH",
                                             "with wood above its limit",
                                             "with wood above its limit",
                                             "with wood above its limit"};
    const what of = (what)_i;
    const size_t at = of == ROOM ? FACES - 1 : of >= DOSE ? 2 : 1;
    size_t bad = 0;
    make(_i);
    part.wood = wood;
    row.criterion = criteria[of];
    row.value = figure(of, at);
    /* one span of exactly half, one with an hour more */
    for (size_t h = 0; h < 240 && of < DOSE; h++)
        hours[h * FACES + at] = h % 120 < 60 || h == 239
                                    ? (bw_monitor_hour){.phi = 1.0F,
                                                        .free_water = 1.0F}
                                    : (bw_monitor_hour){.phi = 0.1F};
    bw_spot spot;
    ck_assert(bw_spot_find(&spot, &assessment));
    ck_assert_str_eq(spot.season, words[of]);
    for (size_t k = 0; k < BW_SPANS; k++) {
        ck_assert_msg(spot.bad[k] == season(of, at, k), "span %zu", k);
        bad += spot.bad[k];
    }
    ck_assert_uint_gt(bad, 0);
    ck_assert_uint_lt(bad, BW_SPANS);
    if (of < DOSE) {
        ck_assert(!spot.bad[0]);
        ck_assert(spot.bad[1]);
    }
}
END_TEST

/* ---- which row -------------------------------------------------------------
 */

/* Fails and decides before marginal before the rest; then what is further
 * beyond its limit, as a share of it. */
static const struct worse {
    bool decides;
    bw_verdict verdict;
    double limit, margin;
} ranks[] = {
    {true, BW_FAILS, 1.0, -0.5},    {true, BW_FAILS, 1.0, -0.1},
    {true, BW_FAILS, 4.0, -0.3},    {true, BW_FAILS, 0.0, -9.0},
    {true, BW_MARGINAL, 1.0, 0.05}, {true, BW_MARGINAL, 1.0, 0.06},
    {false, BW_FAILS, 1.0, -0.5},   {false, BW_FAILS, 2.0, -0.5},
    {true, BW_HOLDS, 2.0, 0.2},     {true, BW_HOLDS, 1.0, 0.2},
    {true, BW_HOLDS, 1.0, 0.9},     {true, BW_HOLDS, 0.0, 0.0},
};

START_TEST(what_fails_is_worse_than_what_comes_near)
{
    double last = HUGE_VAL;
    for (size_t i = 0; i < COUNT(ranks); i++) {
        const bw_criterion is = {.decides = ranks[i].decides,
                                 .verdict = ranks[i].verdict,
                                 .outcome = ranks[i].verdict,
                                 .limit = ranks[i].limit,
                                 .margin = ranks[i].margin};
        const double badness = bw_row_badness(&is);
        ck_assert_msg(badness < last, "%zu: %g after %g", i, badness, last);
        last = badness;
    }
}
END_TEST

START_TEST(the_worst_row_of_its_section_is_found)
{
    make(_i);
    static const bw_verdict of[3] = {BW_HOLDS, BW_FAILS, BW_MARGINAL};
    bw_criterion rows[3];
    for (size_t i = 0; i < 3; i++) {
        rows[i] = row;
        rows[i].criterion = criteria[i];
        rows[i].value = figure((what)i, i == 0 ? 2 : 1);
        rows[i].verdict = rows[i].outcome = of[(i + (size_t)_i) % 3];
        rows[i].margin = rows[i].verdict == BW_FAILS ? -0.5 : 0.5;
    }
    assessment.criterion = rows;
    assessment.criterion_count = 3;
    bw_spot spot;
    ck_assert(bw_spot_find(&spot, &assessment));
    ck_assert_int_eq(spot.criterion->verdict, BW_FAILS);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_ptr_eq(bw_row_of(&assessment, &part, criteria[i]), &rows[i]);
        if (rows[i].verdict == BW_FAILS)
            ck_assert_uint_eq(spot.monitor, i == 0 ? 2 : 1);
    }
    /* none without a value, without a limit, of another section */
    bw_criterion *fails = (bw_criterion *)spot.criterion;
    const bw_criterion was = *fails;
    fails->has_value = false;
    ck_assert(bw_spot_find(&spot, &assessment));
    ck_assert_int_eq(spot.criterion->verdict, BW_MARGINAL);
    *fails = was;
    fails->has_limit = false;
    ck_assert(bw_spot_find(&spot, &assessment));
    ck_assert_int_eq(spot.criterion->verdict, BW_MARGINAL);
    ck_assert_ptr_null(bw_row_of(&assessment, &part, was.criterion));
    *fails = was;
    fails->section = "another";
    ck_assert(bw_spot_find(&spot, &assessment));
    ck_assert_int_eq(spot.criterion->verdict, BW_MARGINAL);
    *fails = was;
    part.has_transient = false;
    ck_assert(!bw_spot_find(&spot, &assessment));
}
END_TEST

/* Without a row the face inside that is most humid over the year. */
START_TEST(without_a_row_the_most_humid_face_is_found)
{
    for (int draw = 0; draw < DRAWS; draw++) {
        make(draw);
        assessment.criterion_count = 0;
        size_t most = 1;
        for (size_t i = 1; i < FACES; i++)
            if (mean_of_year(i) > mean_of_year(most))
                most = i;
        bw_spot spot;
        ck_assert(bw_spot_find(&spot, &assessment));
        ck_assert_uint_eq(spot.monitor, most);
        ck_assert_ptr_null(spot.criterion);
        ck_assert_uint_eq(spot.slab, BW_NO_SLAB);
    }
}
END_TEST

START_TEST(a_face_lies_behind_the_slabs_outside_of_it)
{
    make(0);
    ck_assert_double_eq_tol(bw_monitor_depth(&part, 0), 0.0, 1e-12);
    ck_assert_double_eq_tol(bw_monitor_depth(&part, 1), 0.01, 1e-12);
    ck_assert_double_eq_tol(bw_monitor_depth(&part, 2), 0.12, 1e-12);
    ck_assert_double_eq_tol(bw_monitor_depth(&part, 3), 0.33, 1e-12);
}
END_TEST

/* Vapour is driven into the insulation; where the wall has none, into what is
 * innermost. */
START_TEST(what_drives_inwards_is_that_of_the_insulation)
{
    static bw_material material[SLABS];
    bw_layer layer[SLABS] = {{0}};
    const bw_assembly assembly = {.layer_count = SLABS, .layer = layer};
    make(_i);
    for (size_t i = 0; i < SLABS; i++) {
        material[i] = (bw_material){.group = "board"};
        material[i].thermal_conductivity.known = true;
        material[i].thermal_conductivity.value = 1.0;
        layer[i] = (bw_layer){.id = "a",
                              .name = "a",
                              .material = &material[i],
                              .thickness = slab[i].thickness};
        slab[i].layer = i;
        slab[i].material = &material[i];
        slab[i].resistance = slab[i].thickness;
        for (size_t k = 0; k < BW_SPANS; k++) {
            moisture[i].inward[k] = between(&die, 1.0, 900.0);
            moisture[i].inward_in_sun[k] = between(&die, 1.0, 900.0);
        }
    }
    if (_i < SLABS) {
        material[_i].group = "insulation";
        material[_i].thermal_conductivity.value = 0.04;
        slab[_i].resistance = slab[_i].thickness / 0.04;
    }
    const size_t into = _i < SLABS ? (size_t)_i : SLABS - 1;
    part.transient.first_month = 9;
    const bw_drive drive = bw_drive_of(&assembly, &part);
    size_t most = 0, sunny = 0;
    for (size_t k = 0; k < BW_SPANS; k++) {
        if (moisture[into].inward[k] > moisture[into].inward[most])
            most = k;
        if (moisture[into].inward_in_sun[k] >
            moisture[into].inward_in_sun[sunny])
            sunny = k;
    }
    ck_assert_uint_eq(drive.slab, into);
    ck_assert_double_eq(drive.most, moisture[into].inward[most]);
    ck_assert_double_eq(drive.sunny, moisture[into].inward_in_sun[sunny]);
    /* of 73 spans from October on the one whose middle is in the month */
    ck_assert_int_eq(drive.month, (9 + (12 * (2 * (int)most + 1)) / 146) % 12);
    ck_assert_int_eq(drive.sunny_month,
                     (9 + (12 * (2 * (int)sunny + 1)) / 146) % 12);
}
END_TEST

SUITE("spot", EACH(a_row_stands_where_its_number_is, WHATS),
      EACH(the_season_is_when_more_than_half_is_beyond, WHATS),
      FACT(what_fails_is_worse_than_what_comes_near),
      EACH(the_worst_row_of_its_section_is_found, 3),
      FACT(without_a_row_the_most_humid_face_is_found),
      FACT(a_face_lies_behind_the_slabs_outside_of_it),
      EACH(what_drives_inwards_is_that_of_the_insulation, SLABS + 1))
