/* What is made of the hours and days of a simulation: mould to its end at each
 * monitor by both pairs of rules, the excuse of a cavity's air, wood over fifty
 * years. The hours are invented. */

#include <math.h>
#include <stdlib.h>

#include "bothways/decay.h"
#include "criteria/run.h"
#include "simulated_case.h"
#include "suite.h"

static criteria_case c;
static simulated_case sim;
static bw_monitor_hour *hours;
static bw_wood_day first[BW_TRANSIENT_DAYS], last[BW_TRANSIENT_DAYS];

static void setup(void)
{
    case_make(&c);
    simulated_make(&sim, &c);
    sim.part.mould = NULL;
    sim.part.wood = NULL;
    hours = calloc((size_t)BW_TRANSIENT_HOURS * SIM_FACES, sizeof *hours);
    ck_assert_ptr_nonnull(hours);
    sim.part.transient.last_hours = hours;
    memset(first, 0, sizeof first);
    memset(last, 0, sizeof last);
    for (size_t k = 0; k < CASE_LAYERS; k++)
        if (sim.slab[k].is_wood) {
            sim.slab[k].first_days = first;
            sim.slab[k].last_days = last;
        }
}

static void teardown(void)
{
    free(sim.part.mould);
    free(sim.part.wood);
    free(hours);
    case_free(&c);
}

static void damage(void)
{
    bw_error err = {0};
    free(sim.part.mould);
    free(sim.part.wood);
    bw_status status = bw_run_damage(&sim.part, &c.assembly, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
}

/* `wet` hours of every week at theta and phi, the rest at 20 degC and 40 %. */
static void weeks(size_t monitor, int wet, double theta, double phi)
{
    for (int h = 0; h < BW_TRANSIENT_HOURS; h++) {
        bw_monitor_hour *row = &hours[(size_t)h * SIM_FACES + monitor];
        const bool now = h % 168 < wet;
        row->theta = (float)(now ? theta : 20.0);
        row->phi = (float)(now ? phi : 0.40);
    }
}

static void damp_months(size_t monitor, double rh)
{
    for (int m = 0; m < BW_MONTHS; m++)
        sim.monitor[monitor].month_rh[m] = rh;
}

/* ---- mould --------------------------------------------------------------- */

START_TEST(each_monitor_is_read_in_its_own_hours)
{
    for (size_t i = 0; i < SIM_FACES; i++)
        weeks(i, 0, 0.0, 0.0);
    weeks(2, 168, 20.0, 0.97);
    damage();
    for (size_t i = 0; i < SIM_FACES; i++) {
        const double index = sim.part.mould[i].highest;
        if (i == 2)
            ck_assert_double_gt(index, 3.0); /* wood at 97 % and 20 degC */
        else
            ck_assert_double_eq(index, 0.0);
    }
}
END_TEST

/* After one year the index is below 3; the same year again and again takes it
 * beyond. */
START_TEST(mould_is_read_to_its_own_end)
{
    weeks(2, 168, 4.0, 0.95);
    damage();
    const bw_place_mould *mould = &sim.part.mould[2];
    double theta[BW_TRANSIENT_HOURS], phi[BW_TRANSIENT_HOURS];
    bw_mould_state one = {0};
    for (int h = 0; h < BW_TRANSIENT_HOURS; h++) {
        theta[h] = hours[(size_t)h * SIM_FACES + 2].theta;
        phi[h] = hours[(size_t)h * SIM_FACES + 2].phi;
        bw_mould_step(&one, BW_MOULD_SENSITIVE, theta[h], phi[h], 1.0);
    }
    ck_assert_int_gt(mould->by_class.years, 1);
    ck_assert_double_gt(mould->highest, one.index + 0.05);
    ck_assert_double_ge(mould->highest, mould->by_class.peak);
}
END_TEST

/* The index starts where the simulation left it, and none of its years is
 * forgotten. */
START_TEST(the_years_simulated_count)
{
    sim.monitor[2].mould_end.index = 2.0;
    sim.monitor[2].highest_mould = 2.5;
    weeks(2, 0, 0.0, 0.0); /* dry for good */
    damage();
    ck_assert_double_eq(sim.part.mould[2].highest, 2.5);
    ck_assert_double_eq(sim.part.mould[2].highest_slow, 2.5);
    ck_assert_double_le(sim.part.mould[2].by_class.peak, 2.0);
    sim.monitor[2].highest_mould = 1.0; /* less than it starts with */
    damage();
    ck_assert_double_eq(sim.part.mould[2].highest, 2.0);
}
END_TEST

/* A resistant face declines by a tenth under both rules, one of pine by 1
 * under its own and by 0.1 under the other. */
START_TEST(the_slower_decline_never_gives_less)
{
    for (int class = 0; class < 4; class ++) {
        sim.monitor[2].mould_class = (bw_mould_class) class;
        weeks(2, 16, 20.0, 0.97);
        damage();
        const bw_place_mould *mould = &sim.part.mould[2];
        ck_assert_double_ge(mould->highest_slow, mould->highest);
        if (class == BW_MOULD_VERY_SENSITIVE)
            ck_assert_double_gt(mould->highest_slow, mould->highest + 0.5);
    }
}
END_TEST

/* The limit of the room face is that of the room. */
START_TEST(the_room_face_passes_its_own_limit)
{
    sim.monitor[2].room_face = true;
    sim.monitor[3] = sim.monitor[2];
    sim.monitor[3].room_face = false;
    weeks(2, 168, 20.0, 0.85); /* ends between 1 and 3 */
    weeks(3, 168, 20.0, 0.85);
    damage();
    ck_assert_double_gt(sim.part.mould[2].highest, 1.0);
    ck_assert_double_lt(sim.part.mould[2].highest, 3.0);
    ck_assert_int_ge(sim.part.mould[2].by_class.passed_year, 1);
    ck_assert_int_ge(sim.part.mould[2].slow.passed_year, 1);
    ck_assert_int_eq(sim.part.mould[3].by_class.passed_year, -1);
    ck_assert_int_eq(sim.part.mould[3].slow.passed_year, -1);
}
END_TEST

/* ---- the air of a cavity --------------------------------------------------
 */

static void make_cavity(bw_ventilation ventilation)
{
    c.slab[CASE_SHEATHING + 1].kind = BW_LAYER_CAVITY;
    c.layer[CASE_SHEATHING + 1].kind = BW_LAYER_CAVITY;
    c.layer[CASE_SHEATHING + 1].ventilation = ventilation;
}

START_TEST(only_a_well_ventilated_cavity_opens_a_wall_to_the_air)
{
    make_cavity(BW_VENT_SLIGHT);
    damage();
    ck_assert(!sim.part.open_to_air);
    make_cavity(BW_VENT_WELL);
    damp_months(2, 0.94);
    damage();
    ck_assert(sim.part.open_to_air);
}
END_TEST

/* Water that the file states is neither the room's nor the air's. */
START_TEST(a_wet_start_or_a_rain_leak_is_no_outdoor_air)
{
    make_cavity(BW_VENT_WELL);
    c.layer[CASE_SHEATHING].has_initial_moisture = true;
    c.layer[CASE_SHEATHING].initial_moisture = 0.19;
    damage();
    ck_assert(sim.part.open_to_air);
    c.layer[CASE_SHEATHING].initial_moisture = 0.21;
    damage();
    ck_assert(!sim.part.open_to_air);
    c.layer[CASE_SHEATHING].has_initial_moisture = false;
    c.assembly.rain_leak = (bw_rain_leak){.given = true, .fraction = 0.0};
    damage();
    ck_assert(sim.part.open_to_air);
    c.assembly.rain_leak.fraction = 0.01;
    damage();
    ck_assert(!sim.part.open_to_air);
}
END_TEST

/* Behind a cladding that keeps it near saturation all year the air excuses
 * nothing: no outdoor air is like that. */
START_TEST(a_soaked_cavity_excuses_no_mould)
{
    static const struct {
        double mean;
        bool excuses;
    } cases[] = {{0.949, true}, {0.951, false}, {1.0, false}};
    make_cavity(BW_VENT_WELL);
    for (size_t i = 0; i < COUNT(cases); i++) {
        weeks(2, 168, 15.0, 0.95);
        damp_months(2, cases[i].mean);
        damage();
        ck_assert_int_eq(sim.part.open_to_air, cases[i].excuses);
        bw_judge_transient(&c.rows, &c.assembly, &sim.part);
        ck_assert_int_eq(case_row(&c, BW_C_MOULD_HIDDEN)->outcome,
                         cases[i].excuses ? BW_MARGINAL : BW_FAILS);
        c.rows.count = 0;
    }
}
END_TEST

/* ---- beside the index ---------------------------------------------------- */

/* Wet for 16 hours of a week: 16/168 of the hours, of which 8760 are 52 weeks
 * and a day, wet to its 16th hour. Dry days take back 0.5, so the most is that
 * of two wet days running: the last of the year and the first of the next. */
START_TEST(dose_and_wetness_are_of_the_hours_of_the_place)
{
    weeks(2, 16, 20.0, 0.95);
    weeks(1, 168, -1.0, 0.99);
    damage();
    ck_assert_uint_eq(sim.part.mould[2].wetness_hours, 53 * 16);
    ck_assert_uint_eq(sim.part.mould[1].wetness_hours, 0);
    ck_assert_double_eq(sim.part.mould[1].dose, 0.0);
    const double day = bw_mould_dose_of_day(20.0, (16 * .95 + 8 * .40) / 24);
    ck_assert_double_gt(day, 0.0);
    ck_assert_double_eq_tol(sim.part.mould[2].dose, 2 * day, 1e-6);
}
END_TEST

/* Damp without a break: the last year twice over. */
START_TEST(a_dose_that_never_falls_is_of_two_years)
{
    weeks(2, 168, 20.0, 0.90);
    damage();
    ck_assert_double_eq_tol(sim.part.mould[2].dose, 2 * 365, 0.01);
}
END_TEST

/* ---- wood -----------------------------------------------------------------
 */

static void days_at(bw_wood_day *day, int count, double u, double theta)
{
    for (int d = 0; d < BW_TRANSIENT_DAYS; d++)
        day[d] = d < count ? (bw_wood_day){u, theta, 0.99}
                           : (bw_wood_day){0.12, theta, 0.60};
}

/* 100 days at 30 % and 20 degC once, or every year for fifty years. */
START_TEST(the_dose_of_the_first_year_counts_once_that_of_the_last_for_49_more)
{
    const double day = bw_decay_dose_of_day(0.30, 20.0);
    ck_assert_double_gt(day, 0.1);
    static const struct {
        int first, last;
        double days;
    } cases[] = {{100, 0, 100.0},
                 {0, 0, 0.0},
                 {100, 10, 590.0},
                 {10, 10, 500.0},
                 {0, 10, 490.0}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        days_at(first, cases[i].first, 0.30, 20.0);
        days_at(last, cases[i].last, 0.30, 20.0);
        damage();
        const bw_wood_damage *wood = &sim.part.wood[CASE_SHEATHING];
        ck_assert_double_eq_tol(wood->service_dose, cases[i].days * day, 1e-6);
        ck_assert_uint_eq(wood->first_line.days_above, (size_t)cases[i].first);
        ck_assert_uint_eq(wood->line.days_above, (size_t)cases[i].last);
    }
}
END_TEST

/* Below 25 % nothing decays, nor in the frost. */
START_TEST(damp_or_frozen_wood_gets_no_dose)
{
    days_at(first, 365, 0.24, 20.0);
    days_at(last, 365, 0.50, -1.0);
    damage();
    ck_assert_double_eq(sim.part.wood[CASE_SHEATHING].service_dose, 0.0);
    ck_assert_uint_eq(sim.part.wood[CASE_SHEATHING].first_line.days_above, 365);
}
END_TEST

START_TEST(what_is_not_wood_gets_nothing)
{
    days_at(last, 365, 0.30, 20.0);
    sim.slab[CASE_SHEATHING].is_wood = false;
    damage();
    for (size_t k = 0; k < CASE_LAYERS; k++) {
        ck_assert_double_eq(sim.part.wood[k].service_dose, 0.0);
        ck_assert_uint_eq(sim.part.wood[k].line.days_above, 0);
    }
}
END_TEST

/* The mean humidity of the twelve months says so, and no temperature. */
START_TEST(the_months_alone_say_that_a_face_is_soaked)
{
    static const double degrees[] = {-40.0, 0.0, 40.0};
    for (size_t i = 0; i < COUNT(degrees); i++) {
        bw_monitor face = {0};
        for (int m = 0; m < BW_MONTHS; m++) {
            face.month_rh[m] = m % 2 == 0 ? 0.90 : 0.99; /* 0.945 */
            face.month_theta[m] = degrees[i];
        }
        ck_assert(!bw_is_soaked(&face));
        for (int m = 0; m < BW_MONTHS; m++)
            face.month_rh[m] += 0.01;
        ck_assert(bw_is_soaked(&face));
    }
}
END_TEST

SUITE_AROUND(
    "run_damage", setup, teardown, FACT(each_monitor_is_read_in_its_own_hours),
    FACT(mould_is_read_to_its_own_end), FACT(the_years_simulated_count),
    FACT(the_slower_decline_never_gives_less),
    FACT(the_room_face_passes_its_own_limit),
    FACT(dose_and_wetness_are_of_the_hours_of_the_place),
    FACT(a_dose_that_never_falls_is_of_two_years),
    FACT(only_a_well_ventilated_cavity_opens_a_wall_to_the_air),
    FACT(a_wet_start_or_a_rain_leak_is_no_outdoor_air),
    FACT(a_soaked_cavity_excuses_no_mould),
    FACT(the_months_alone_say_that_a_face_is_soaked),
    FACT(the_dose_of_the_first_year_counts_once_that_of_the_last_for_49_more),
    FACT(damp_or_frozen_wood_gets_no_dose), FACT(what_is_not_wood_gets_nothing))
