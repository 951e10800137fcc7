/* Frost of masonry at the weather: the ice that a humidity leaves, the three
 * counts, and that none of them stands without the bare wall beside it.
 *
 * The freezing humidities are of freezing_threshold.csv (shared_data.h)
 * [derived from reference formulas]; the series are worked by hand. */

#include <stdio.h>

#include "bothways/air.h"
#include "criteria/run.h"
#include "measured.h"
#include "shared_data.h"
#include "storage.h"
#include "suite.h"
#include "transient_run.h"

/* ---- what freezes -------------------------------------------------------- */

START_TEST(the_freezing_humidity_is_that_of_reference_formulas)
{
    static const double rows[][2] = {{-0.5, .9951}, {-1, .9903},  {-2, .9807},
                                     {-5, .9526},   {-10, .9073}, {-20, .8227}};
    double worst = 0;
    for (size_t i = 0; i < COUNT(rows); i++)
        farther(&worst, bw_freezing_humidity(rows[i][0]), rows[i][1]);
    measured("freezing", 100 * worst, 0.22, "% RH");
    ck_assert_double_eq(bw_freezing_humidity(0.0), 1.0);
    ck_assert_double_eq(bw_freezing_humidity(12.0), 1.0);
}
END_TEST

START_TEST(every_freezing_threshold_is_met)
{
    char path[512], line[128];
    if (!shared_file(path, sizeof path, "damage/freezing_threshold.csv"))
        return;
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    int rows = 0;
    while (fgets(line, sizeof line, file) != NULL) {
        double theta, phi;
        if (sscanf(line, "%lf,%lf", &theta, &phi) != 2)
            continue;
        ck_assert_double_eq_tol(bw_freezing_humidity(theta), phi, 0.0022);
        rows++;
    }
    fclose(file);
    ck_assert_int_gt(rows, 5);
}
END_TEST

/* ---- the counts ---------------------------------------------------------- */

/* Two freezes, one of them over the year's end: 0 to -1 and 1 to -3 degC. */
START_TEST(a_cycle_counts_by_its_water_at_the_freezing_moment)
{
    static const double theta[] = {-1, 3, 1, -3, -1, 2};
    static const double water[] = {80, 90, 60, 52, 95, 81};
    static const double ice[] = {10, 0, 0, 30, 25, 0};
    const bw_frost_hours year = {theta, water, ice, 6, 160, 200};
    const bw_frost_counts c = bw_frost_year(&year);
    ck_assert_uint_eq(c.crossings_0, 2);
    ck_assert_uint_eq(c.crossings_2, 1);
    /* 80 and 52 of 160: over 0.30 both (48); of 200: over 0.25 both (50), no
     * more than 0.5 (100) */
    ck_assert_uint_eq(c.wet_cycles[0], 2);
    ck_assert_uint_eq(c.wet_cycles[1], 2);
    ck_assert_uint_eq(c.wet_cycles[2], 0);
    ck_assert_uint_eq(c.wet_cycles[4], 0);
    ck_assert_double_eq_tol(c.wettest, 0.40, 1e-12);
    ck_assert_double_eq_tol(c.ice_index, (10.0 + 30.0) / 200, 1e-12);
}
END_TEST

/* Water on a level is not above it. */
START_TEST(the_levels_are_those_of_the_sources)
{
    static const double share[] = {0.30, 0.25, 0.5, 0.7, 0.9};
    static const double theta[] = {1, -1}, ice[] = {0, 0};
    for (size_t i = 0; i < BW_FROST_LEVELS; i++) {
        const double most = i == 0 ? 100 : 200;
        for (int over = 0; over < 2; over++) {
            const double water[] = {0, share[i] * most + 1e-9 * over};
            const bw_frost_hours year = {theta, water, ice, 2, 100, 200};
            ck_assert_uint_eq(bw_frost_year(&year).wet_cycles[i], over);
        }
    }
}
END_TEST

/* Sum over cycles of highest less lowest, whatever lies between. */
START_TEST(the_ice_index_sums_what_comes_and_goes)
{
    static const double theta[] = {-1, -1, -1, -1, -1, -1};
    static const double water[] = {100, 100, 100, 100, 100, 100};
    static const double ice[] = {20, 50, 35, 60, 60, 10};
    const bw_frost_hours year = {theta, water, ice, 6, 100, 100};
    const bw_frost_counts c = bw_frost_year(&year);
    ck_assert_double_eq_tol(c.ice_index, (50 - 10 + 60 - 35) / 100.0, 1e-12);
    ck_assert_uint_eq(c.crossings_0, 0);
    ck_assert_double_eq(c.wettest, 0.0);
}
END_TEST

/* ---- in a simulation ----------------------------------------------------- */

enum { BRICK, INSULATION, BOARD };

/* Brick, insulation and a board in a winter of years; the brick's groups are
 * what frost is counted by. */
static transient_case *lined_new(double brick)
{
    static const double two[] = {0.5, 0.8}, brick_u[] = {0.0041, 0.0071};
    transient_case *c = case_new();
    c->section.slab_count = c->assembly.layer_count = 0;
    memset(c->layer, 0, sizeof c->layer);
    memset(c->slab, 0, sizeof c->slab);
    case_material(c, BRICK, "brick", 1700, 0.77, 1000, 16, 10);
    case_sorption(c, BRICK, 2, two, brick_u);
    c->material[BRICK].group = "masonry";
    c->material[BRICK].free_saturation = case_value(250);
    c->material[BRICK].water_absorption = case_value(0.1);
    c->material[BRICK].porosity = case_value(0.34);
    case_slab(c, BW_LAYER_SOLID, brick);
    case_material(c, INSULATION, "wool", 50, 0.04, 1000, 1, 1);
    c->material[INSULATION].group = "insulation";
    case_slab(c, BW_LAYER_SOLID, 0.08);
    add_board(c, 0.0125, 10);
    for (int h = 0; h < CASE_HOURS; h++) {
        c->hour[h].vapour_pressure *= 0.6;
        c->hour[h].temperature -= 7;
    }
    return c;
}

static bw_section_assessment assessed(const transient_case *c)
{
    bw_section_assessment part = {.transient_section = &c->section};
    bw_transient_options options = {.max_years = 1};
    bw_error err = {0};
    bw_frost_watch(&options, &c->assembly, &c->section);
    part.transient = run(c, &options);
    const bw_status status = bw_run_frost(&part, &c->assembly, &c->climate,
                                          &options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_uint_eq(part.frost.count,
                      part.frost.ran ? part.transient.depth_count : 0);
    return part;
}

static void same_counts(const bw_frost_counts *a, const bw_frost_counts *b)
{
    ck_assert_uint_eq(a->crossings_0, b->crossings_0);
    ck_assert_uint_eq(a->crossings_2, b->crossings_2);
    for (size_t i = 0; i < BW_FROST_LEVELS; i++)
        ck_assert_uint_eq(a->wet_cycles[i], b->wet_cycles[i]);
    ck_assert_double_eq_tol(a->ice_index, b->ice_index, 1e-9);
    ck_assert_double_eq_tol(a->wettest, b->wettest, 1e-9);
}

/* Ice is what is not bound at the freezing humidity, in every hour. */
START_TEST(ice_is_the_water_that_ice_does_not_leave_in_the_pores)
{
    transient_case *c = lined_new(0.33);
    bw_transient_options options = {.max_years = 1};
    bw_frost_watch(&options, &c->assembly, &c->section);
    bw_transient_result r = run(c, &options);
    ck_assert_uint_eq(r.depth_count, 4);
    bw_storage storage;
    ck_assert_int_eq(bw_storage_of_slab(&storage, &c->slab[BRICK], false, NULL),
                     BW_OK);
    int frozen = 0;
    for (size_t k = 0; k < 4u * BW_TRANSIENT_HOURS; k++) {
        const bw_depth_hour *h = &r.depth_hours[k];
        const double bound = bw_storage_water(
            &storage, bw_freezing_humidity((double)h->theta));
        const double ice = h->theta < 0 ? fmax(0, (double)h->water - bound) : 0;
        ck_assert_double_eq_tol((double)h->ice, ice, 2e-3);
        ck_assert_double_le((double)h->ice, (double)h->water);
        frozen += ice > 1;
    }
    ck_assert_int_gt(frozen, 100);
    ck_assert_double_eq(r.depth[0].free_water, 250);
    ck_assert_double_eq(r.depth[0].full_water, 340);
    ck_assert_double_eq(r.depth[3].depth, 0.05);
    bw_transient_free(&r);
    free(c);
}
END_TEST

/* Beside it stands what a simulation of the brick alone gives. */
START_TEST(the_bare_wall_is_the_masonry_alone)
{
    transient_case *c = lined_new(0.33);
    bw_section_assessment part = assessed(c);
    ck_assert(part.frost.ran && !part.frost.is_bare);
    ck_assert_double_eq_tol(part.frost.bare_thickness, 0.33, 1e-12);
    c->section.slab_count = 1;
    bw_section_assessment alone = assessed(c);
    ck_assert(alone.frost.ran && alone.frost.is_bare);
    bool colder = false;
    for (size_t k = 0; k < 4; k++) {
        same_counts(&part.frost.at[k].bare, &alone.frost.at[k].as_built);
        same_counts(&alone.frost.at[k].bare, &alone.frost.at[k].as_built);
        colder = colder || part.frost.at[k].as_built.crossings_2 >
                               part.frost.at[k].bare.crossings_2;
    }
    ck_assert(colder); /* the room no longer warms the brick */
    bw_transient_free(&part.transient);
    bw_transient_free(&alone.transient);
    free(c);
}
END_TEST

/* It has no leaks: those belong to the lining. */
START_TEST(the_bare_wall_has_no_leaks)
{
    transient_case *c = lined_new(0.33);
    bw_section_assessment tight = assessed(c);
    c->assembly.rain_leak = (bw_rain_leak){true, 0.02, BRICK};
    c->assembly.air_leakage = (bw_air_leakage){true, 3.0 / 3600, 2.5, false};
    bw_section_assessment leaky = assessed(c);
    for (size_t k = 0; k < 4; k++)
        same_counts(&tight.frost.at[k].bare, &leaky.frost.at[k].bare);
    bw_transient_free(&tight.transient);
    bw_transient_free(&leaky.transient);
    free(c);
}
END_TEST

/* ---- which walls --------------------------------------------------------- */

static size_t watched(const transient_case *c)
{
    bw_transient_options options = {.depth_count = 9};
    bw_frost_watch(&options, &c->assembly, &c->section);
    return options.depth_count;
}

START_TEST(frost_is_counted_of_masonry_at_the_weather_alone)
{
    transient_case *c = lined_new(0.33);
    ck_assert_uint_eq(watched(c), 4);
    c->slab[BRICK].thickness = 0.0899; /* no leaf: a facing */
    ck_assert_uint_eq(watched(c), 0);
    c->slab[BRICK].thickness = 0.0901;
    ck_assert_uint_eq(watched(c), 4);
    c->material[BRICK].group = "plaster"; /* a render is no masonry */
    ck_assert_uint_eq(watched(c), 0);
    c->material[BRICK].group = "wood";
    ck_assert_uint_eq(watched(c), 0);
    c->material[BRICK].group = "masonry";
    c->assembly.element = BW_ELEMENT_FLOOR;
    ck_assert_uint_eq(watched(c), 0);
    free(c);
    c = case_new(); /* brick before a well-ventilated cavity */
    c->material[0].group = "masonry";
    ck_assert_uint_eq(watched(c), 0);
    free(c);
}
END_TEST

/* As the simulation of a wall runs it; the search for advice does without. */
START_TEST(frost_is_counted_where_it_is_asked_for)
{
    for (int asked = 0; asked < 2; asked++) {
        transient_case *c = lined_new(0.33);
        bw_section_assessment part = {.transient_section = &c->section};
        bw_arena arena = {0};
        bw_rows rows = {.arena = &arena};
        bw_pool pool;
        bw_error err = {0};
        const bw_run_how how = {
            .options = {.max_years = 1}, .no_wetting = true, .frost = asked};
        bw_pool_open(&pool, 1);
        const bw_status status = bw_run_section(
            &pool, &part, &rows, &c->assembly, &c->climate, &how, &err);
        bw_pool_close(&pool);
        ck_assert_msg(status == BW_OK && part.has_transient, "%s", err.message);
        ck_assert(part.frost.ran == (asked == 1));
        ck_assert_uint_eq(part.transient.depth_count, asked ? 4 : 0);
        bw_run_free_transient(&part);
        ck_assert(!part.frost.ran);
        bw_arena_release(&arena);
        free(c);
    }
}
END_TEST

static bool stop(void *payload, double fraction_done)
{
    (void)fraction_done;
    return ++*(int *)payload < 3;
}

/* The bare wall is stopped, too, when its caller is told to stop. */
START_TEST(the_bare_wall_is_given_up_when_told)
{
    transient_case *c = lined_new(0.33);
    bw_section_assessment part = {.transient_section = &c->section};
    bw_transient_options options = {.max_years = 1};
    bw_error err = {0};
    int told = 0;
    bw_frost_watch(&options, &c->assembly, &c->section);
    part.transient = run(c, &options);
    options.progress = stop;
    options.payload = &told;
    ck_assert_int_eq(
        bw_run_frost(&part, &c->assembly, &c->climate, &options, &err),
        BW_ERR_CANCELLED);
    ck_assert(!part.frost.ran);
    bw_transient_free(&part.transient);
    free(c);
}
END_TEST

/* Two leaves: what lies between goes, the air stays; plaster on lining goes,
 * plaster on masonry stays. */
START_TEST(the_bare_wall_keeps_leaves_air_between_and_plaster_on_them)
{
    static const struct {
        const char *group[7]; /* outside to inside, 100 mm each; "air" */
        double bare;          /* m of masonry and plaster */
    } walls[] = {
        {{"masonry", "air", "insulation", "masonry", "plaster"}, 0.3},
        {{"masonry", "masonry", "plaster", "insulation", "plaster"}, 0.3},
        {{"plaster", "masonry", "air", "board", "plaster"}, 0.2},
        {{"masonry", "insulation", "masonry", "insulation", "board"}, 0.2},
    };
    for (size_t w = 0; w < COUNT(walls); w++) {
        transient_case *c = lined_new(0.1);
        c->section.slab_count = c->assembly.layer_count = 0;
        for (size_t i = 0; i < 7 && walls[w].group[i] != NULL; i++) {
            const char *group = walls[w].group[i];
            const bool air = strcmp(group, "air") == 0;
            c->material[i] = c->material[0];
            c->material[i].group = group;
            c->material[i].thermal_conductivity = case_value(0.5);
            case_slab(c, air ? BW_LAYER_CAVITY : BW_LAYER_SOLID, 0.1);
            if (air) {
                c->slab[i].resistance = 0.18;
                c->slab[i].sd_dry = c->slab[i].sd_wet = 0.01;
            }
        }
        bw_section_assessment part = assessed(c);
        ck_assert_msg(part.frost.ran && !part.frost.is_bare, "wall %zu", w);
        ck_assert_double_eq_tol(part.frost.bare_thickness, walls[w].bare, 1e-9);
        bw_transient_free(&part.transient);
        free(c);
    }
}
END_TEST

/* What stands only by the timber behind it was never a wall by itself; of a
 * wall without masonry there is nothing to say. */
START_TEST(a_facing_has_no_bare_wall_and_so_no_counts)
{
    static const struct {
        double thickness;
        const char *group, *reason;
    } rows[] = {
        {0.102, "masonry", "does not stand alone"},
        {0.050, "masonry", "less than half a brick thick"},
        {0.102, "wood", NULL},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        transient_case *c = lined_new(rows[i].thickness);
        c->material[BRICK].group = rows[i].group;
        bw_section_assessment part = assessed(c);
        ck_assert(!part.frost.ran);
        ck_assert((part.frost.reason == NULL) == (rows[i].reason == NULL));
        if (rows[i].reason != NULL)
            ck_assert_ptr_nonnull(strstr(part.frost.reason, rows[i].reason));
        bw_transient_free(&part.transient);
        free(c);
    }
}
END_TEST

/* Choices of the project: 180 mm of masonry and plaster stand alone, inside it
 * 50 mm are masonry and less is a facing. Of a wall that is bare already
 * nothing is simulated. */
START_TEST(a_wall_stands_alone_from_180_mm_on_facings_left_out)
{
    static const struct {
        double brick, inner; /* m; inner: behind wool, 0: none */
        double bare;
        bool stands;
    } rows[] = {
        {0.1801, 0.0, 0.1801, true},
        {0.1799, 0.0, 0.1799, false},
        {0.1, 0.0501, 0.1501, false},
        {0.1, 0.0499, 0.1, false},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        transient_case *c = lined_new(rows[i].brick);
        bw_transient_options options = {.depth_count = 0};
        bw_error err = {0};
        c->slab[BOARD] = c->slab[BRICK];
        c->slab[BOARD].thickness = rows[i].inner;
        if (rows[i].inner <= 0.0)
            c->section.slab_count = 1;
        bw_frost_watch(&options, &c->assembly, &c->section);
        ck_assert_double_eq(options.depth[0], 0.005);
        ck_assert_double_eq(options.depth[1], 0.010);
        ck_assert_double_eq(options.depth[2], 0.020);
        ck_assert_double_eq(options.depth[3], 0.050);
        bw_section_assessment part = {.transient_section = &c->section};
        bw_depth_hour *hours = calloc(
            (size_t)options.depth_count * BW_TRANSIENT_HOURS, sizeof *hours);
        ck_assert_ptr_nonnull(hours);
        part.transient.depth_count = options.depth_count;
        part.transient.depth_hours = hours;
        ck_assert_int_eq(
            bw_run_frost(&part, &c->assembly, &c->climate, &options, &err),
            BW_OK);
        ck_assert(part.frost.ran == rows[i].stands);
        ck_assert_double_eq_tol(part.frost.bare_thickness, rows[i].bare, 1e-9);
        free(hours);
        free(c);
    }
}
END_TEST

START_TEST(a_depth_outside_the_wall_is_refused)
{
    transient_case *c = lined_new(0.33);
    bw_transient_result r;
    bw_error err = {0};
    static const double bad[] = {-0.01, 0.0, 0.5};
    for (size_t i = 0; i < COUNT(bad); i++) {
        const bw_transient_options options = {
            .max_years = 1, .depth_count = 1, .depth = {bad[i]}};
        ck_assert_int_eq(bw_transient(&r, &c->assembly, &c->section,
                                      &c->climate, &options, &err),
                         BW_ERR_DOMAIN);
    }
    free(c);
}
END_TEST

SUITE("frost", FACT(the_freezing_humidity_is_that_of_reference_formulas),
      FACT(every_freezing_threshold_is_met),
      FACT(a_cycle_counts_by_its_water_at_the_freezing_moment),
      FACT(the_levels_are_those_of_the_sources),
      FACT(the_ice_index_sums_what_comes_and_goes),
      FACT(ice_is_the_water_that_ice_does_not_leave_in_the_pores),
      FACT(the_bare_wall_is_the_masonry_alone),
      FACT(the_bare_wall_has_no_leaks),
      FACT(frost_is_counted_of_masonry_at_the_weather_alone),
      FACT(frost_is_counted_where_it_is_asked_for),
      FACT(the_bare_wall_is_given_up_when_told),
      FACT(the_bare_wall_keeps_leaves_air_between_and_plaster_on_them),
      FACT(a_facing_has_no_bare_wall_and_so_no_counts),
      FACT(a_wall_stands_alone_from_180_mm_on_facings_left_out),
      FACT(a_depth_outside_the_wall_is_refused))
