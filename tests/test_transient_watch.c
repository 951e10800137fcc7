/* What is seen of a run, from states set by hand: the climate at faces, hours
 * and months, the water of slabs, the moisture of wood. */

#include "suite.h"
#include "transient/storage.h"
#include "transient/watch.h"
#include "transient_case.h"

/* A wall watched without a run: the state is what a test says. */
typedef struct scene {
    transient_case *c;
    bw_model model;
    bw_solver solver;
    bw_watch watch;
    bw_transient_result r;
    bw_edge edge;
} scene;

static scene *scene_new(transient_case *c)
{
    static const bw_transient_options o = {.fixed_permeability = true};
    scene *s = calloc(1, sizeof *s);
    if (s == NULL)
        abort();
    s->c = c;
    ck_assert_int_eq(
        bw_model_make(&s->model, &c->assembly, &c->section, 101325, &o, NULL),
        BW_OK);
    ck_assert(bw_solver_init(&s->solver, &s->model.wall, &s->model.arena) &&
              bw_watch_init(&s->watch, &s->model, &s->r));
    s->r.hour = calloc(CASE_HOURS * s->r.monitor_count, sizeof *s->r.hour);
    s->r.hour_total_water = calloc(CASE_HOURS, sizeof(double));
    ck_assert(s->r.hour != NULL && s->r.hour_total_water != NULL);
    bw_watch_year(&s->watch);
    return s;
}

static void scene_free(scene *s)
{
    bw_transient_free(&s->r);
    bw_model_free(&s->model);
    free(s->c);
    free(s);
}

static void set_cell(scene *s, size_t i, double theta, double z)
{
    s->solver.v[2 * i] = theta;
    s->solver.v[2 * i + 1] = z;
}

static void set_slab(scene *s, size_t k, double theta, double phi)
{
    const bw_range r = s->model.range[k];
    for (size_t i = r.first; i < r.first + r.count; i++)
        set_cell(s, i, theta, bw_hygro_z_of_phi(&s->model.hygro[k], phi));
}

static void watch_hour(scene *s, int hour)
{
    bw_cells_at(&s->model.wall, s->solver.v, &s->solver.cells, false);
    bw_watch_hour(&s->watch, &s->solver, &s->edge, hour, true);
}

/* Everything at one climate: faces and the air on both sides. */
static void all_at(scene *s, double theta, double phi)
{
    const double p = phi * bw_saturation_pressure(theta);
    for (size_t k = 0; k < s->r.slab_count; k++)
        set_slab(s, k, theta, phi);
    s->edge = (bw_edge){.theta_e = theta,
                        .p_e = p,
                        .h_e = 25,
                        .beta_e = 2e-8,
                        .theta_i = theta,
                        .p_i = p,
                        .h_i = 7.7,
                        .beta_i = 1.75e-8};
}

/* ---- the climate at a face ---- */

/* What lies beside a face: its values, its resistances to heat and vapour. */
typedef struct side {
    double theta, phi, heat, vapour;
} side;

/* Both sides of a coat of 1/sd straight from 1/4 m at 25 % to 1/0.5 m at
 * 71.5 %: heat and vapour pass half cell, coat and half cell in series. */
static void check_coat(const bw_hour_row row[2], side l, side r)
{
    const double t = fmin(fmax((0.5 * (l.phi + r.phi) - 0.25) / 0.465, 0), 1);
    const double coat = 1 / (0.25 + t * 1.75) / 2e-10;
    const double p_l = l.phi * bw_saturation_pressure(l.theta);
    const double p_r = r.phi * bw_saturation_pressure(r.theta);
    const double q = (l.theta - r.theta) / (l.heat + r.heat);
    const double g = (p_l - p_r) / (l.vapour + coat + r.vapour);
    const double theta = l.theta - q * l.heat;
    const double saturated = bw_saturation_pressure(theta);
    ck_assert_double_eq_tol(row[0].theta, theta, 1e-6);
    ck_assert_double_eq_tol(row[1].theta, theta, 1e-6);
    ck_assert_double_eq_tol(row[0].phi,
                            fmin((p_l - g * l.vapour) / saturated, 1), 1e-4);
    ck_assert_double_eq_tol(row[1].phi,
                            fmin((p_r + g * r.vapour) / saturated, 1), 1e-4);
}

/* Coats on the outer face, between two boards, on the room face. The boards
 * resist vapour about as much as the coats, so that each part counts. */
START_TEST(both_sides_of_a_coat_are_those_of_resistances_in_series)
{
    static const double phi[][4] = {{0.3, 0.45, 0.6, 0.5},
                                    {0.9, 0.52, 0.38, 0.333},
                                    {0.6, 0.9, 0.4, 0.7},
                                    {0.99, 0.94, 0.93, 0.9}};
    for (size_t k = 0; k < COUNT(phi); k++) {
        transient_case *c = steady_new(3, 0.8, 20, 0.5);
        for (int slab = 0; slab < 5; slab++)
            if (slab % 2)
                add_board(c, 0.02, slab == 1 ? 3000 : 1200);
            else {
                add_foil(c, 4);
                c->slab[slab].sd_wet = 0.5;
            }
        scene *s = scene_new(c);
        all_at(s, 3, phi[k][0]);
        set_slab(s, 1, 7, phi[k][1]);
        set_slab(s, 3, 14, phi[k][2]);
        s->edge.theta_i = 21;
        s->edge.p_i = phi[k][3] * bw_saturation_pressure(21);
        s->edge.beta_e = 2e-10;
        s->edge.beta_i = 4e-10;
        watch_hour(s, 0);
        const double half = 0.5 * s->model.wall.dx[0];
        const side a = {3, phi[k][0], 1 / 25.0, 1 / 2e-10};
        const side b = {7, phi[k][1], half / 0.2, half * 3000 / 2e-10};
        const side d = {14, phi[k][2], half / 0.2, half * 1200 / 2e-10};
        const side e = {21, phi[k][3], 1 / 7.7, 1 / 4e-10};
        check_coat(&s->r.hour[0], a, b);
        check_coat(&s->r.hour[2], b, d);
        check_coat(&s->r.hour[4], d, e);
        scene_free(s);
    }
}
END_TEST

/* The sun warms the face by gain/h_e as seen from an insulated wall. */
START_TEST(sun_warms_the_outer_face_and_dries_the_air_at_it)
{
    transient_case *c = steady_new(10, 0.8, 20, 0.5);
    add_board(c, 0.02, 50);
    scene *s = scene_new(c);
    all_at(s, 10, 0.8);
    s->edge.gain = 250;
    watch_hour(s, 0);
    const double half = 0.5 * s->model.wall.dx[0] / 0.2;
    const double theta = 20 - 10 * 0.04 / (0.04 + half);
    ck_assert_double_eq_tol(s->r.hour[0].theta, theta, 1e-6);
    ck_assert_double_eq_tol(
        s->r.hour[0].phi,
        0.8 * bw_saturation_pressure(10) / bw_saturation_pressure(theta), 1e-6);
    scene_free(s);
}
END_TEST

/* Two materials that draw water, one temperature: what comes to the face in
 * vapour and water leaves it so. */
START_TEST(humidity_is_one_on_both_sides_where_water_passes)
{
    static const double mu[] = {10, 30}, a_w[] = {0.1, 0.02};
    static const double phi[] = {0.96, 0.85};
    transient_case *c = steady_new(20, 0.8, 20, 0.5);
    bw_storage store[2];
    double conducts[2];
    for (size_t k = 0; k < 2; k++) {
        add_board(c, 0.02, mu[k]);
        c->material[k].free_saturation = case_value(300);
        c->material[k].water_absorption = case_value(a_w[k]);
        ck_assert_int_eq(
            bw_storage_of_slab(&store[k], &c->slab[k], false, NULL), BW_OK);
    }
    scene *s = scene_new(c);
    all_at(s, 20, 0.9);
    const double saturated = bw_saturation_pressure(20);
    for (size_t k = 0; k < 2; k++) {
        set_slab(s, k, 20, phi[k]);
        const double w = bw_storage_water(&store[k], phi[k]);
        const double rise = (bw_storage_water(&store[k], phi[k] + 1e-5) -
                             bw_storage_water(&store[k], phi[k] - 1e-5)) /
                            2e-5;
        const double d_w = 3.8 * pow(a_w[k] / 300, 2) * pow(1000, w / 300 - 1);
        const size_t last = s->model.range[0].count - 1;
        conducts[k] = (d_w * rise + 2e-10 / mu[k] * saturated) /
                      (0.5 * s->model.wall.dx[last + k]);
    }
    watch_hour(s, 0);
    ck_assert_double_eq_tol(s->r.hour[1].phi,
                            (conducts[0] * phi[0] + conducts[1] * phi[1]) /
                                (conducts[0] + conducts[1]),
                            1e-4);
    scene_free(s);
}
END_TEST

/* ---- hours and months ---- */

/* Two years at one climate a spell: the first damp, the second drier. Hours
 * and means are those of the second; mould remembers the first. */
START_TEST(hours_and_months_are_those_of_the_last_year_mould_of_all)
{
    static const struct {
        int hours;
        double theta, phi;
    } spell[2][4] = {
        {{1000, 20, 0.97}, {2000, 22, 0.96}, {3000, 18, 0.93}, {2760, 5, 0.6}},
        {{700, 2, 0.96}, {300, 5, 0.92}, {100, 8, 0.85}, {7660, 15, 0.5}},
    };
    transient_case *c = steady_new(20, 0.8, 20, 0.5);
    add_board(c, 0.02, 50);
    scene *s = scene_new(c);
    bw_mould_state mould = {0};
    double most = 0;
    for (int year = 0; year < 2; year++) {
        bw_watch_year(&s->watch);
        int hour = 0;
        for (size_t k = 0; k < COUNT(spell[0]); k++) {
            all_at(s, spell[year][k].theta, spell[year][k].phi);
            for (int n = 0; n < spell[year][k].hours; n++) {
                watch_hour(s, hour++);
                bw_mould_step(&mould, BW_MOULD_SENSITIVE, spell[year][k].theta,
                              spell[year][k].phi, 1);
                most = fmax(most, mould.index);
            }
        }
        bw_watch_end_year(&s->watch);
    }
    ck_assert_double_gt(most, mould.index + 0.1);
    for (size_t k = 0; k < 2; k++) {
        const bw_monitor *m = &s->r.monitor[k];
        ck_assert_double_eq(m->hours_above_80, 1100);
        ck_assert_double_eq(m->hours_above_90, 1000);
        ck_assert_double_eq(m->hours_above_95, 700);
        ck_assert_double_eq_tol(m->highest_rh, 0.96, 1e-6);
        ck_assert_double_eq_tol(m->highest_mould, most, 1e-6);
        ck_assert_double_eq_tol(m->final_mould, mould.index, 1e-6);
        /* January has 744 hours: 700 and 44 */
        ck_assert_double_eq_tol(m->month_rh[0], (700 * 0.96 + 44 * 0.92) / 744,
                                1e-6);
        ck_assert_double_eq_tol(m->month_theta[0], (700 * 2 + 44 * 5) / 744.0,
                                1e-6);
        ck_assert_double_eq_tol(m->month_rh[11], 0.5, 1e-6);
        /* the hours kept are rows of all places, one after the other */
        const bw_hour_row *row = &s->r.hour[CASE_HOURS * 2 - 2 + k];
        ck_assert_double_eq_tol(row->theta, 15, 1e-6);
        ck_assert_double_eq_tol(row->phi, 0.5, 1e-6);
    }
    scene_free(s);
}
END_TEST

/* ---- the water of a slab ---- */

static void set_water(scene *s, size_t k, double water)
{
    const bw_range r = s->model.range[k];
    for (size_t i = r.first; i < r.first + r.count; i++)
        set_cell(s, i, 20, bw_hygro_z_of_water(&s->model.hygro[k], water));
}

/* The outer face, then what ends each slab; the water content is that of the
 * cell a face belongs to: of a slab the last one, of a membrane the one behind
 * it, where there is none the other. */
START_TEST(places_are_named_by_the_slab_they_end_and_hold_its_water)
{
    static const char *const label[] = {"paint", "first", "second", "foil"};
    static const double water[] = {20, 20, 20, 40, 40};
    transient_case *c = steady_new(20, 0.8, 20, 0.5);
    add_foil(c, 1);
    add_board(c, 0.01, 10);
    add_board(c, 0.02, 10);
    add_foil(c, 1);
    for (size_t k = 0; k < COUNT(label); k++)
        c->slab[k].label = label[k];
    scene *s = scene_new(c);
    all_at(s, 20, 0.8);
    set_water(s, 1, 20);
    set_water(s, 2, 40);
    watch_hour(s, 0);
    ck_assert_uint_eq(s->r.monitor_count, COUNT(label) + 1);
    ck_assert_uint_eq(s->r.slab_count, COUNT(label));
    ck_assert_uint_eq(s->r.cells, s->model.wall.n);
    for (size_t k = 0; k <= COUNT(label); k++) {
        const bw_monitor *m = &s->r.monitor[k];
        const size_t slab = k > 0 ? k - 1 : 0;
        ck_assert_str_eq(m->label, label[slab]);
        ck_assert_uint_eq(m->slab, slab);
        ck_assert_int_eq(m->outer_face, k == 0);
        ck_assert_int_eq(m->room_face, k == COUNT(label));
        ck_assert_double_eq_tol(s->r.hour[k].water_content, water[k], 1e-6);
    }
    scene_free(s);
}
END_TEST

/* Two slabs, one content a month, the slabs out of step; besides one wet and
 * one dry hour. A slab that is not wood is wettest in the month of the hour. */
START_TEST(slab_has_the_lowest_and_highest_hour_and_the_mean_of_months)
{
    static const double thickness[] = {0.01, 0.03};
    transient_case *c = steady_new(20, 0.8, 20, 0.5);
    add_board(c, thickness[0], 10);
    add_board(c, thickness[1], 10);
    scene *s = scene_new(c);
    all_at(s, 20, 0.8);
    for (int year = 0; year < 2; year++) {
        bw_watch_year(&s->watch);
        for (int hour = 0; hour < CASE_HOURS; hour++) {
            const int month = bw_hour_month(hour);
            double water[2] = {20 + month, 50 - month};
            if (hour == 4000) { /* in June */
                water[0] = year == 0 ? 90 : 60;
                water[1] = year == 0 ? 10 : 30;
            }
            set_water(s, 0, water[0]);
            set_water(s, 1, water[1]);
            watch_hour(s, hour);
            ck_assert_double_eq_tol(s->r.hour_total_water[hour],
                                    water[0] * 0.01 + water[1] * 0.03, 1e-8);
        }
        bw_watch_end_year(&s->watch);
    }
    const bw_slab_moisture *m = s->r.slab;
    ck_assert_double_eq_tol(m[0].lowest, 0.2, 1e-8);
    ck_assert_double_eq_tol(m[0].highest, 0.6, 1e-8);
    ck_assert_int_eq(m[0].highest_month, 5);
    ck_assert_double_eq_tol(m[1].lowest, 0.9, 1e-8);
    ck_assert_double_eq_tol(m[1].highest, 1.5, 1e-8);
    ck_assert_int_eq(m[1].highest_month, 0);
    for (int k = 0; k < BW_MONTHS; k++) {
        const double june = k == 5 ? (60 - 25) / 720.0 : 0;
        ck_assert_double_eq_tol(m[0].month_mean[k], 0.01 * (20 + k + june),
                                1e-8);
    }
    scene_free(s);
}
END_TEST

/* The mean of the wettest 10 mm wherever it begins: by steps of 0.01 mm
 * through cells of one content each. */
static double wettest_10_mm(const double *dx, const double *water, size_t n)
{
    enum { STEPS = 1000 }; /* of 0.01 mm */
    static double at[20 * STEPS];
    size_t count = 0, cell = 0;
    double edge = dx[0], sum = 0, most = 0;
    for (double x = 5e-6; cell < n; x += 1e-5) {
        while (cell < n && x > edge)
            edge += ++cell < n ? dx[cell] : 1;
        if (cell < n)
            at[count++] = water[cell];
    }
    for (size_t i = 0; i < count; i++) {
        sum += at[i] - (i >= STEPS ? at[i - STEPS] : 0);
        if (i + 1 >= STEPS || i + 1 == count)
            most = fmax(most, sum / (double)(i + 1 < STEPS ? count : STEPS));
    }
    return most;
}

/* Wet at the outer face, the inner one, in the middle, throughout. */
START_TEST(wood_moisture_is_that_of_the_wettest_10_mm_on_either_side)
{
    static const double thickness[] = {0.004, 0.012, 0.018, 0.06};
    for (size_t t = 0; t < COUNT(thickness); t++)
        for (int where = 0; where < 4; where++) {
            transient_case *c = steady_new(20, 0.8, 20, 0.5);
            add_board(c, 0.02, 10);
            add_board(c, thickness[t], 10);
            c->material[1].wood_kind = BW_WOOD_PANEL;
            scene *s = scene_new(c);
            all_at(s, 20, 0.99);
            const bw_range r = s->model.range[1];
            const double *dx = s->model.wall.dx + r.first;
            double water[100], x = 0;
            ck_assert_uint_le(r.count, COUNT(water));
            for (size_t i = 0; i < r.count; i++) {
                const double centre = (x + 0.5 * dx[i]) / thickness[t];
                static const double from[] = {0, 1, 0.4};
                water[i] = where == 3
                               ? 70
                               : 120 * exp(-3 * fabs(centre - from[where]));
                set_cell(s, r.first + i, 20,
                         bw_hygro_z_of_water(&s->model.hygro[1], water[i]));
                x += dx[i];
            }
            for (int hour = 0; hour < 24; hour++)
                watch_hour(s, hour);
            const double u = wettest_10_mm(dx, water, r.count) / 600;
            ck_assert_double_eq_tol(s->r.slab[1].highest_wood_moisture, u,
                                    2e-3 * u);
            ck_assert_double_eq(s->r.slab[0].highest_wood_moisture, 0);
            scene_free(s);
        }
}
END_TEST

/* Days of 12 wet and 12 dry hours count by their mean: 22 % and 16 % is 19 %,
 * over the limit of a panel, not over that of solid wood. */
START_TEST(wood_moisture_and_hours_over_its_limit_are_by_means_of_a_day)
{
    static const struct {
        bw_wood_kind kind;
        double wet, dry, hours;
    } row[] = {
        {BW_SOLID_WOOD, 0.22, 0.16, 0},   {BW_WOOD_PANEL, 0.22, 0.16, 744},
        {BW_SOLID_WOOD, 0.23, 0.18, 744}, {BW_WOOD_PANEL, 0.20, 0.15, 0},
        {BW_SOLID_WOOD, 0.20, 0.199, 0},  {BW_SOLID_WOOD, 0.201, 0.201, 744},
        {BW_WOOD_PANEL, 0.18, 0.179, 0},  {BW_WOOD_PANEL, 0.181, 0.181, 744},
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        transient_case *c = steady_new(20, 0.8, 20, 0.5);
        add_board(c, 0.02, 10);
        c->material[0].wood_kind = row[k].kind;
        case_sorption(c, 0, 4, board_phi, (double[]){0.05, 0.08, 0.15, 0.25});
        scene *s = scene_new(c);
        all_at(s, 20, 0.8);
        for (int hour = 300 * 24; hour < CASE_HOURS; hour++) {
            /* December is damp, the days before at 8 % */
            const double u = hour < CASE_HOURS - 744 ? 0.08
                             : hour % 24 < 12        ? row[k].wet
                                                     : row[k].dry;
            set_water(s, 0, 600 * u);
            watch_hour(s, hour);
        }
        const bw_slab_moisture *m = &s->r.slab[0];
        const double mean = 0.5 * (row[k].wet + row[k].dry);
        ck_assert_double_eq_tol(m->highest_wood_moisture, mean, 1e-9);
        ck_assert_double_eq(m->hours_above_limit, row[k].hours);
        ck_assert_int_eq(m->highest_month, 11);
        ck_assert_double_eq_tol(m->highest, 0.02 * 600 * row[k].wet, 1e-8);
        bw_watch_year(&s->watch); /* a year is forgotten by the next */
        ck_assert_double_eq(m->highest_wood_moisture, 0);
        ck_assert_double_eq(m->hours_above_limit, 0);
        scene_free(s);
    }
}
END_TEST

SUITE("transient_watch",
      FACT(both_sides_of_a_coat_are_those_of_resistances_in_series),
      FACT(sun_warms_the_outer_face_and_dries_the_air_at_it),
      FACT(humidity_is_one_on_both_sides_where_water_passes),
      FACT(hours_and_months_are_those_of_the_last_year_mould_of_all),
      FACT(places_are_named_by_the_slab_they_end_and_hold_its_water),
      FACT(slab_has_the_lowest_and_highest_hour_and_the_mean_of_months),
      FACT(wood_moisture_is_that_of_the_wettest_10_mm_on_either_side),
      FACT(wood_moisture_and_hours_over_its_limit_are_by_means_of_a_day))
