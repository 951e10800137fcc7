/* Materials of the hourly method: what a material file says becomes storage,
 * transport and conductivity. Expected figures are the formulas of storage.h
 * worked here again, or the points given. */

#include "suite.h"
#include "transient/storage.h"
#include "transient_case.h"

/* One slab of 0.1 m: 500 kg/m3, 0.1 W/(m K), mu 10 dry and 5 wet. */
typedef struct sample {
    bw_material material;
    bw_slab slab;
    double x[80], y[80];
} sample;

static sample *sample_new(void)
{
    sample *s = calloc(1, sizeof *s);
    if (s == NULL)
        abort();
    s->material = (bw_material){
        .id = "sample", .name = "sample", .remark = "", .file = "test.xml"};
    s->material.density = case_value(500);
    s->material.specific_heat = case_value(1000);
    s->material.mu_dry = case_value(10);
    s->material.mu_wet = case_value(5);
    s->slab = (bw_slab){.label = "sample",
                        .material = &s->material,
                        .kind = BW_LAYER_SOLID,
                        .thickness = 0.1,
                        .resistance = 1,
                        .sd_dry = 1,
                        .sd_wet = 0.5};
    return s;
}

static void give_points(sample *s, size_t count, const double *x,
                        const double *y)
{
    memcpy(s->x, x, count * sizeof *x);
    memcpy(s->y, y, count * sizeof *y);
    s->material.sorption = (bw_curve){count,  s->x, s->y, BW_BASIS_ESTIMATE,
                                      "test", ""};
    s->material.hygroscopic = true;
}

static bw_storage storage_of(const sample *s)
{
    bw_storage made;
    bw_error err = {0};
    const bw_status status = bw_storage_of_slab(&made, &s->slab, false, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return made;
}

static void refuses(const sample *s, const char *word)
{
    bw_storage made;
    bw_error err = {0};
    ck_assert_int_eq(bw_storage_of_slab(&made, &s->slab, false, &err),
                     BW_ERR_DOMAIN);
    ck_assert_msg(strstr(err.message, word) != NULL, "%s", err.message);
    ck_assert_str_eq(err.file, "test.xml");
}

/* ---- storage ---- */

static const double three_x[] = {0.3, 0.5, 0.8}, three_y[] = {0.03, 0.05, 0.1};

/* Files put dry air in front of the points; it is no third point. */
START_TEST(two_points_give_hendersons_curve_through_both)
{
    for (int dry = 0; dry < 2; dry++) {
        sample *s = sample_new();
        give_points(s, 2 + dry, (double[]){0, 0.5, 0.8} + 1 - dry,
                    (double[]){0, 0.06, 0.11} + 1 - dry);
        const bw_storage made = storage_of(s);
        ck_assert(made.henderson);
        const double a = -log(1 - 0.5), b = -log(1 - 0.8);
        const double n = log(b / a) / log(0.11 / 0.06);
        const double k = a / pow(0.06, n);
        for (double phi = 0.05; phi < 0.96; phi += 0.05)
            ck_assert_double_eq_tol(bw_storage_water(&made, phi),
                                    500 * pow(-log(1 - phi) / k, 1 / n), 1e-9);
        ck_assert_double_eq_tol(bw_storage_water(&made, 0.5), 30, 1e-9);
        ck_assert_double_eq_tol(bw_storage_water(&made, 0.8), 55, 1e-9);
        free(s);
    }
}
END_TEST

/* Where Henderson's form cannot be laid, the points are joined. */
START_TEST(two_points_unfit_for_hendersons_curve_are_joined)
{
    static const double pair[][4] = {
        {0.5, 0.06, 0.9999, 0.3}, /* the second is saturation */
        {0.5, 0.06, 0.9, 0.06},   /* level */
        {0.2, 0, 0.8, 0.06},      /* nothing at the first */
    };
    for (size_t k = 0; k < COUNT(pair); k++) {
        const double *p = pair[k];
        sample *s = sample_new();
        give_points(s, 2, (double[]){p[0], p[2]}, (double[]){p[1], p[3]});
        const bw_storage made = storage_of(s);
        ck_assert(!made.henderson);
        ck_assert_double_eq_tol(bw_storage_water(&made, p[0]), 500 * p[1],
                                1e-9);
        ck_assert_double_eq_tol(bw_storage_water(&made, p[2]), 500 * p[3],
                                500 * p[3] * 0.01);
        free(s);
    }
}
END_TEST

START_TEST(curve_meets_its_points_and_is_level_between_equals)
{
    static const double x[] = {0.2, 0.4, 0.6, 0.8, 0.9};
    static const double y[] = {0.02, 0.05, 0.05, 0.07, 0.12};
    sample *s = sample_new();
    give_points(s, COUNT(x), x, y);
    const bw_storage made = storage_of(s);
    for (size_t k = 0; k < COUNT(x); k++)
        ck_assert_double_eq_tol(bw_storage_water(&made, x[k]), 500 * y[k],
                                1e-9);
    for (double phi = 0.4; phi < 0.61; phi += 0.02)
        ck_assert_double_eq_tol(bw_storage_water(&made, phi), 25, 1e-9);
    for (double phi = 0.01; phi < 0.995; phi += 0.01)
        ck_assert_double_ge(bw_storage_water(&made, phi + 0.01) + 1e-9,
                            bw_storage_water(&made, phi));
    ck_assert_double_eq(bw_storage_water(&made, 0), 0);
    ck_assert_double_eq(bw_storage_water(&made, -0.1), 0);
    free(s);
}
END_TEST

START_TEST(a_point_at_saturation_is_the_free_saturation)
{
    sample *s = sample_new();
    give_points(s, 4, (double[]){0.3, 0.5, 0.8, 0.9996},
                (double[]){0.03, 0.05, 0.1, 0.7});
    const bw_storage made = storage_of(s);
    ck_assert_double_eq(made.free_water, 350);
    ck_assert(!made.estimated_free);
    ck_assert_double_eq_tol(bw_storage_water(&made, 1), 350, 1e-9);
    free(s);
}
END_TEST

/* Points at saturation alone say nothing of vapour. */
START_TEST(points_at_saturation_alone_store_nothing_below)
{
    sample *s = sample_new();
    give_points(s, 2, (double[]){0, 1}, (double[]){0, 0.5});
    const bw_storage made = storage_of(s);
    ck_assert(made.missing_sorption);
    ck_assert_double_eq_tol(bw_storage_water(&made, 0.9), 0.05, 1e-12);
    free(s);
}
END_TEST

/* w_f as given; else 0.9 of the pores; never below what the points hold. */
START_TEST(free_saturation_is_given_or_nine_tenths_of_the_pores)
{
    static const struct {
        double free, porosity, density;
        bw_wood_kind wood;
        double expected;
        bool estimated;
    } row[] = {
        {300, 0, 500, BW_NOT_WOOD, 300, false},
        {20, 0.6, 500, BW_NOT_WOOD, 540, true}, /* below the points */
        /* a thousandth above them is none, either */
        {50.04, 0.6, 500, BW_NOT_WOOD, 540, true},
        {50.06, 0.6, 500, BW_NOT_WOOD, 50.06, false},
        {0, 0.6, 500, BW_NOT_WOOD, 540, true},
        {0, 0, 500, BW_NOT_WOOD, 900 * (1 - 500.0 / 2650), true},
        {0, 0, 300, BW_NOT_WOOD, 900 * (1 - 300.0 / 1500), true}, /* plant */
        {0, 0, 500, BW_WOOD_PANEL, 900 * (1 - 500.0 / 1500), true},
        {0, 0.02, 500, BW_NOT_WOOD, 1.1 * 50, true}, /* pores too few */
    };
    for (size_t k = 0; k < COUNT(row); k++) {
        sample *s = sample_new();
        s->material.density.value = row[k].density;
        s->material.wood_kind = row[k].wood;
        give_points(s, 3, three_x, three_y);
        if (row[k].free > 0)
            s->material.free_saturation = case_value(row[k].free);
        if (row[k].porosity > 0)
            s->material.porosity = case_value(row[k].porosity);
        const bw_storage made = storage_of(s);
        ck_assert_double_eq_tol(made.free_water, row[k].expected, 1e-9);
        ck_assert_int_eq(made.estimated_free, row[k].estimated);
        ck_assert_double_eq_tol(bw_storage_water(&made, 1), row[k].expected,
                                1e-6);
        ck_assert_double_ge(made.full_water, 1.02 * made.free_water - 1e-9);
        free(s);
    }
}
END_TEST

/* The weighted harmonic mean of the slopes beside a point (Fritsch & Butland
 * 1984, from memory, high). By hand: slopes 50 and 83.3 over 0.2 and 0.3,
 * 1.5/(0.8/50 + 0.7/83.3); over 0.3 and 0.2, 50 and 50. */
START_TEST(slopes_at_points_are_harmonic_means)
{
    sample *s = sample_new();
    give_points(s, 3, three_x, three_y);
    const bw_storage made = storage_of(s);
    ck_assert_uint_eq(made.count, 4);
    ck_assert_double_eq_tol(made.slope[1], 50, 1e-9);
    ck_assert_double_eq_tol(made.slope[2], 61.475, 1e-3);
    free(s);
}
END_TEST

/* Where the last slope leads beyond w_f, the way there is straight. */
START_TEST(way_to_a_low_free_saturation_is_straight)
{
    sample *s = sample_new();
    give_points(s, 3, (double[]){0.5, 0.8, 0.9}, (double[]){0.05, 0.1, 0.15});
    s->material.free_saturation = case_value(90); /* slope leads to 100 */
    const bw_storage made = storage_of(s);
    ck_assert_double_eq_tol(bw_storage_water(&made, 0.95), 82.5, 0.01);
    ck_assert_double_eq_tol(bw_storage_water(&made, 1), 90, 1e-9);
    free(s);
}
END_TEST

START_TEST(solid_wood_follows_the_handbook_or_the_users_own_points)
{
    for (int own = 0; own < 3; own++) {
        sample *s = sample_new();
        s->material.wood_kind = BW_SOLID_WOOD;
        if (own > 0)
            give_points(s, 3, three_x, three_y);
        if (own == 2)
            s->material.sorption.basis = BW_BASIS_GIVEN;
        const bw_storage made = storage_of(s);
        const double u = own == 2 ? 0.1 : bw_wood_moisture(20, 0.8);
        ck_assert_double_eq_tol(bw_storage_water(&made, 0.8), 500 * u, 1e-9);
        free(s);
    }
}
END_TEST

START_TEST(what_is_not_hygroscopic_holds_a_film_of_water)
{
    sample *s = sample_new();
    bw_storage made = storage_of(s);
    ck_assert(!made.missing_sorption);
    ck_assert_double_eq_tol(bw_storage_water(&made, 0.9), 0.05, 1e-12);
    s->material.hygroscopic = true;
    refuses(s, "sorption");
    ck_assert_int_eq(bw_storage_of_slab(&made, &s->slab, true, NULL), BW_OK);
    ck_assert(made.missing_sorption);
    ck_assert_double_eq_tol(bw_storage_water(&made, 0.9), 0.05, 1e-12);
    free(s);
}
END_TEST

/* None of them may be lost without a word. */
START_TEST(sixty_three_points_are_taken_and_sixty_four_refused)
{
    sample *s = sample_new();
    double x[65] = {0}, y[65] = {0};
    for (int k = 0; k < 65; k++) {
        x[k] = 0.015 * k;
        y[k] = 0.002 * k;
    }
    give_points(s, 64, x, y); /* with dry air */
    const bw_storage made = storage_of(s);
    ck_assert_double_eq_tol(bw_storage_water(&made, x[63]), 500 * y[63], 1e-9);
    give_points(s, 65, x, y);
    refuses(s, "65 sorption points");
    free(s);
}
END_TEST

START_TEST(density_and_specific_heat_are_needed)
{
    sample *s = sample_new();
    s->material.density.known = false;
    refuses(s, "density");
    s->material.density.known = true;
    s->material.specific_heat.known = false;
    refuses(s, "specific heat");
    free(s);
}
END_TEST

/* ---- transport ---- */

static double openness_at(const bw_storage *made, double phi)
{
    const bw_hygro_law law = bw_storage_law(made);
    return law.openness(law.ctx, phi, 0);
}

static const double open_x[] = {0, 1}, open_y[] = {8, 2};

START_TEST(one_over_mu_is_straight_from_dry_to_wet_cup)
{
    sample *s = sample_new();
    const bw_storage made = storage_of(s);
    ck_assert_double_eq_tol(openness_at(&made, 0.1), 0.1, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 0.25), 0.1, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 0.4825), 0.15, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 0.715), 0.2, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 1), 0.2, 1e-12);
    free(s);
}
END_TEST

/* ln mu is straight: between 8 and 2 lies 4. Where an sd rules, a curve of mu
 * does not. */
START_TEST(mu_curve_is_read_at_the_local_humidity)
{
    sample *s = sample_new();
    s->material.mu_curve = (bw_curve){2,  open_x, open_y, BW_BASIS_ESTIMATE,
                                      "", ""};
    bw_slab_set_vapour(&s->slab);
    bw_storage made = storage_of(s);
    ck_assert_double_eq_tol(openness_at(&made, 0.5), 0.25, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 0), 0.125, 1e-12);
    s->material.sd = case_value(2);
    s->material.sd.basis = BW_BASIS_GIVEN;
    bw_slab_set_vapour(&s->slab);
    made = storage_of(s);
    ck_assert_double_eq_tol(openness_at(&made, 0.25), 0.05, 1e-12);
    free(s);
}
END_TEST

START_TEST(sd_curve_of_a_thick_layer_is_read_at_the_local_humidity)
{
    static const double sd[] = {8, 0.5};
    sample *s = sample_new();
    const bw_curve curve = {2, open_x, sd, BW_BASIS_ESTIMATE, "", ""};
    s->slab.sd_curve = &curve;
    const bw_storage made = storage_of(s);
    ck_assert_double_eq_tol(openness_at(&made, 0.5), 0.1 / 2, 1e-12);
    ck_assert_double_eq_tol(openness_at(&made, 1), 0.1 / 0.5, 1e-12);
    free(s);
}
END_TEST

/* D_w = 3.8 (A_w/w_f)^2 1000^(w/w_f - 1), Kuenzel 1995 [memory, med]. */
START_TEST(liquid_moves_only_where_absorption_is_known)
{
    sample *s = sample_new();
    s->material.free_saturation = case_value(250);
    bw_storage made = storage_of(s);
    ck_assert(bw_storage_law(&made).diffusivity == NULL);
    s->material.water_absorption = case_value(0);
    made = storage_of(s);
    ck_assert(bw_storage_law(&made).diffusivity == NULL);
    s->material.water_absorption = case_value(0.1);
    made = storage_of(s);
    const bw_hygro_law law = bw_storage_law(&made);
    ck_assert(law.diffusivity != NULL);
    const double d = 3.8 * 0.1 * 0.1 / (250.0 * 250.0);
    ck_assert_double_eq_tol(law.diffusivity(law.ctx, 250), d, 1e-12 * d);
    ck_assert_double_eq_tol(law.diffusivity(law.ctx, 300), d, 1e-12 * d);
    ck_assert_double_eq_tol(law.diffusivity(law.ctx, 125), d / sqrt(1000),
                            1e-12 * d);
    free(s);
}
END_TEST

/* ISO 10456 clause 7, from 50 % RH on; at most 0.6 W/(m K) above. */
START_TEST(conductivity_rises_by_its_rule_to_that_of_water)
{
    sample *s = sample_new();
    give_points(s, 3, three_x, three_y);
    bw_storage made = storage_of(s);
    bw_hygro_law law = bw_storage_law(&made);
    ck_assert_double_eq_tol(law.conductivity(law.ctx, 0.8, 50), 0.1, 1e-12);
    s->material.conductivity_factor = case_value(4);
    s->material.conductivity_rule = BW_CONDUCTIVITY_F_U;
    made = storage_of(s);
    law = bw_storage_law(&made);
    ck_assert_double_eq_tol(law.conductivity(law.ctx, 0.5, 25), 0.1, 1e-12);
    ck_assert_double_eq_tol(law.conductivity(law.ctx, 0.8, 50),
                            0.1 * exp(4 * (0.1 - 0.05)), 1e-12);
    ck_assert_double_eq_tol(law.conductivity(law.ctx, 1, 1e6), 0.7, 1e-12);
    s->material.conductivity_rule = BW_CONDUCTIVITY_F_PSI;
    made = storage_of(s);
    law = bw_storage_law(&made);
    ck_assert_double_eq_tol(law.conductivity(law.ctx, 0.8, 50),
                            0.1 * exp(4 * (0.05 - 0.025)), 1e-12);
    s->slab.resistance = 0; /* next to none for heat */
    made = storage_of(s);
    law = bw_storage_law(&made);
    ck_assert_double_le(0.1 / law.conductivity(law.ctx, 0.5, 25), 1e-3);
    free(s);
}
END_TEST

/* ---- the table ---- */

static double given_water(const void *ctx, double phi)
{
    const double *c = ctx;
    return c[0] + phi * (c[1] + phi * c[2]);
}

static double one(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 1;
}

static bw_hygro_law law_of(const double *c)
{
    return (bw_hygro_law){.ctx = c,
                          .water = given_water,
                          .openness = one,
                          .conductivity = one,
                          .heat_capacity = 1e6,
                          .full_water = 1000};
}

START_TEST(storage_that_does_not_rise_from_nothing_is_refused)
{
    static const struct {
        double c[3];
        const char *word;
    } row[] = {
        {{0, 0, 0}, "rise from nothing"},
        {{0, NAN, 0}, "rise from nothing"},
        {{1, 10, 0}, "rise from nothing"},
        {{0, 30, -20}, "must not fall"},
    };
    bw_hygro *table = calloc(1, sizeof *table);
    ck_assert_ptr_nonnull(table);
    for (size_t k = 0; k < COUNT(row); k++) {
        const bw_hygro_law law = law_of(row[k].c);
        bw_error err = {0};
        ck_assert_int_eq(bw_hygro_build(table, &law, &err), BW_ERR_DOMAIN);
        ck_assert_msg(strstr(err.message, row[k].word) != NULL, "%s",
                      err.message);
    }
    free(table);
}
END_TEST

/* z = phi + w/w_f with w = 10 phi + 20 phi^2, w_f 30. */
START_TEST(potential_is_found_from_humidity_and_from_water)
{
    static const double c[] = {0, 10, 20};
    const bw_hygro_law law = law_of(c);
    bw_hygro *table = calloc(1, sizeof *table);
    ck_assert_ptr_nonnull(table);
    ck_assert_int_eq(bw_hygro_build(table, &law, NULL), BW_OK);
    for (double phi = 0.05; phi < 1; phi += 0.05) {
        const double w = given_water(c, phi), z = phi + w / 30;
        ck_assert_double_eq_tol(bw_hygro_z_of_phi(table, phi), z, 1e-4);
        ck_assert_double_eq_tol(bw_hygro_z_of_water(table, w), z, 1e-4);
        ck_assert_double_eq_tol(bw_hygro_water(table, z), w, 1e-2);
    }
    /* below nothing is nothing */
    ck_assert_double_eq(bw_hygro_water(table, -0.5), 0);
    ck_assert_double_eq(bw_hygro_phi(table, -0.5), 0);
    /* full pores */
    ck_assert_double_eq_tol(bw_hygro_water(table, table->full_z), 1000, 0.1);
    ck_assert_double_eq_tol(bw_hygro_z_of_water(table, 1000), table->full_z,
                            1e-3);
    free(table);
}
END_TEST

SUITE("transient_material", FACT(two_points_give_hendersons_curve_through_both),
      FACT(two_points_unfit_for_hendersons_curve_are_joined),
      FACT(curve_meets_its_points_and_is_level_between_equals),
      FACT(a_point_at_saturation_is_the_free_saturation),
      FACT(points_at_saturation_alone_store_nothing_below),
      FACT(slopes_at_points_are_harmonic_means),
      FACT(free_saturation_is_given_or_nine_tenths_of_the_pores),
      FACT(way_to_a_low_free_saturation_is_straight),
      FACT(solid_wood_follows_the_handbook_or_the_users_own_points),
      FACT(what_is_not_hygroscopic_holds_a_film_of_water),
      FACT(sixty_three_points_are_taken_and_sixty_four_refused),
      FACT(density_and_specific_heat_are_needed),
      FACT(one_over_mu_is_straight_from_dry_to_wet_cup),
      FACT(mu_curve_is_read_at_the_local_humidity),
      FACT(sd_curve_of_a_thick_layer_is_read_at_the_local_humidity),
      FACT(liquid_moves_only_where_absorption_is_known),
      FACT(conductivity_rises_by_its_rule_to_that_of_water),
      FACT(storage_that_does_not_rise_from_nothing_is_refused),
      FACT(potential_is_found_from_humidity_and_from_water))
