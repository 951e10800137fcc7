/* The whole way: bytes are a wall, a room and weather, judged by the months
 * and by a simulation, with advice; or its margin, its comparison with another
 * wall, its audit or plan, or what is chosen of a few designs. What comes of it
 * is written in every form, and every form is held against the others
 * (outputs.c). Simulations are short: one year, a day without rain as one step,
 * a loose tolerance. */

#include <string.h>

#include "bothways/bothways.h"
#include "bothways/edit.h"
#include "common.h"
#include "fuzz.h"
#include "invariants.h"
#include "made_wall.h"
#include "outputs.h"

enum { STEP = 730 }; /* hours: twelve rows a year */

static bw_assembly *make_wall(choices *c, const char *name, bool choose)
{
    static text layer[FUZZ_LAYERS], file, leaks, closing;
    file.used = leaks.used = closing.used = 0;
    leaks.at[0] = closing.at[0] = '\0';
    fuzz_add_around(&file, c);
    fuzz_add_leaks(&leaks, c);
    const size_t most = fuzz_choose(c, 4) == 0 ? 8 : 4;
    const bool outwards = fuzz_choose(c, 2) == 0;
    const size_t count = fuzz_make_layers(layer, c, most);
    fuzz_add_list(&file, layer, count, outwards);
    if (choose)
        fuzz_add_choices(&closing, c, count);
    else if (fuzz_choose(c, 2) == 0)
        fuzz_add_closing_up(&closing, c, count);
    fuzz_add(&file, "%s%s</assembly>\n", leaks.at, closing.at);
    if (getenv("FUZZ_SHOW") != NULL)
        fprintf(stderr, "%s", file.at);
    bw_assembly *assembly = NULL;
    bw_error err = {0};
    const bw_status status = bw_assembly_read_text(
        &assembly, file.at, name, fuzz_library(), NULL, 0, &err);
    if (status != BW_OK) /* readings that contradict each other */
        fuzz_check_refusal(status, &err);
    FUZZ_REQUIRE(status == BW_OK || closing.used > 0);
    return assembly;
}

static const bw_profile *pick_profile(choices *c)
{
    static bw_profiles *set; /* reachable at exit */
    bw_error err = {0};
    if (set == NULL)
        FUZZ_REQUIRE(bw_profiles_read(&set,
                                      BW_SOURCE_DIR "/assemblies/profiles",
                                      &err) == BW_OK);
    const size_t k = fuzz_choose(c, 24);
    return k < bw_profiles_count(set) ? bw_profiles_at(set, k) : NULL;
}

static bw_assessment_options make_options(choices *c)
{
    const unsigned how = fuzz_choose(c, 16);
    bw_assessment_options options = {
        .no_transient = how >= 6,
        .no_advice = (how & 1) != 0,
        .synthetic_hours = fuzz_choose(c, 16) != 15,
        .converge = how == 5,
        .no_one_way = how != 0,
        .threads = 1,
        .profile = pick_profile(c),
        .transient = {.max_years = 1,
                      .hours_as_one = 24,
                      .temperature_tolerance = 1.0,
                      .humidity_tolerance = 0.05},
    };
    if (how == 2)
        options.transient.max_years = 4;
    if (how == 3) {
        options.transient.keep_hours = true;
        options.transient.hours_as_one = 1;
    }
    return options;
}

/* ---- what is asked ------------------------------------------------------ */

/* Of a wall that has none it is refused. */
static void start_from_readings(bw_assembly *wall)
{
    bw_error err = {0};
    const bw_status status = bw_assembly_start_from_readings(wall, &err);
    if (status != BW_OK)
        fuzz_check_refusal(status, &err);
}

static void check(const bw_assembly *wall, const bw_climate *climate,
                  const bw_assessment_options *options)
{
    bw_assessment *made = NULL;
    bw_error err = {0};
    FUZZ_REQUIRE(bw_assess(&made, wall, climate, options, &err) == BW_OK);
    fuzz_check_assessment(made);
    const bw_assessment *one = made;
    const bw_results of = {.wall_count = 1,
                           .wall = &one,
                           .step = options->transient.keep_hours ? STEP : 0};
    fuzz_check_figures(&of, BW_DOCUMENT_CHECK);
    bw_assessment_free(made);
}

static void margin(choices *c, const bw_assembly *wall,
                   const bw_climate *climate,
                   const bw_assessment_options *options)
{
    bw_margin_options how = {.assessment = *options,
                             .simulations = options->no_transient ? 0 : 1,
                             .wide = fuzz_choose(c, 2) == 0,
                             .ensemble = fuzz_choose(c, 8)};
    bw_margin *made = NULL;
    bw_error err = {0};
    const bw_status status = bw_margin_make(&made, wall, climate, &how, &err);
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    FUZZ_REQUIRE(made->ensemble_holds <= made->ensemble_count);
    const bw_results of = {
        .wall_count = 1, .wall = &made->assessment, .margin = made};
    fuzz_check_assessment(made->assessment);
    fuzz_check_figures(&of, BW_DOCUMENT_MARGIN);
    bw_margin_free(made);
}

static void compare(choices *c, const bw_assembly *wall,
                    const bw_climate *climate,
                    const bw_assessment_options *options)
{
    bw_assembly *other = make_wall(c, "other.xml", false);
    if (other == NULL)
        return;
    const bw_assembly *walls[] = {wall, other, wall};
    const bw_climate *weather[] = {climate, climate, climate};
    bw_compare_options how = {.equal = (bw_equal)fuzz_choose(c, 3),
                              .conditions_may_differ = fuzz_choose(c, 4) > 0,
                              .scale_framing = fuzz_choose(c, 2) == 0,
                              .assessment = *options};
    bw_comparison *made = NULL;
    bw_error err = {0};
    const bw_status status = bw_compare(&made, walls, weather,
                                        2 + fuzz_choose(c, 2), &how, &err);
    if (status == BW_OK) {
        const bw_results of = {.comparison = made, .wall_count = 0};
        for (size_t i = 0; i < made->wall_count; i++)
            fuzz_check_assessment(made->wall[i].assessment);
        FUZZ_REQUIRE(made->best_count <= made->wall_count);
        fuzz_check_figures(&of, BW_DOCUMENT_COMPARE);
    } else {
        fuzz_check_machine(status, &err);
    }
    bw_comparison_free(made);
    bw_assembly_free(other);
}

static void audit(choices *c, const bw_assembly *wall,
                  const bw_climate *climate,
                  const bw_assessment_options *options)
{
    static const char *const none[] = {BW_SOURCE_DIR "/LICENSE"};
    bw_audit_options how = {.assessment = *options,
                            .command_line = "bothways audit made.xml",
                            .date = fuzz_choose(c, 4) > 0 ? "2031-05-05" : NULL,
                            .file_count = 1,
                            .file = none,
                            .no_margin = fuzz_choose(c, 2) == 0,
                            .plan = fuzz_choose(c, 6) == 0};
    bw_audit *made = NULL;
    bw_error err = {0};
    const bw_status status = bw_audit_make(&made, wall, climate, &how, &err);
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    FUZZ_REQUIRE(
        !made->released ||
        (made->open_count == 0 && (made->assessment->verdict == BW_HOLDS ||
                                   made->assessment->verdict == BW_MARGINAL)));
    const bw_results of = {.wall_count = 1,
                           .wall = &made->assessment,
                           .audit = made,
                           .margin = made->margin};
    fuzz_check_assessment(made->assessment);
    fuzz_check_figures(&of, made->plan ? BW_DOCUMENT_PLAN : BW_DOCUMENT_AUDIT);
    bw_audit_free(made);
}

/* By months, as few cases as may be. */
static void choose(choices *c, const bw_assembly *wall,
                   const bw_climate *climate,
                   const bw_assessment_options *options)
{
    bw_choose_options how = {.assessment = *options,
                             .seed = 1 + fuzz_choose(c, 9),
                             .race_cases = 8,
                             .drawn_cases = 8,
                             .wide = fuzz_choose(c, 2) == 0};
    how.assessment.no_transient = true;
    bw_chosen *made = NULL;
    bw_error err = {0};
    const bw_status status = bw_choose_make(&made, wall, climate, &how, &err);
    if (status != BW_OK) {
        fuzz_check_machine(status, &err);
        return;
    }
    FUZZ_REQUIRE(made->front_count <= made->design_count);
    FUZZ_REQUIRE(made->holding <= made->front_count);
    for (size_t i = 0; i < made->design_count; i++) {
        const bw_design *d = &made->design[i];
        FUZZ_REQUIRE(d->standing != BW_STANDS ||
                     (d->failed == 0 && d->unassessed == 0));
        FUZZ_REQUIRE((d->standing == BW_OUT) == (d->dropped[0] != '\0'));
    }
    const bw_results of = {
        .wall_count = 1, .wall = &made->assessment, .chosen = made};
    fuzz_check_forms(&of, BW_DOCUMENT_CHOOSE);
    bw_chosen_free(made);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    choices c = {data, size, 0};
    const unsigned what = fuzz_choose(&c, 8);
    const bw_assessment_options options = make_options(&c);
    bw_climate *climate = fuzz_make_climate(&c);
    bw_assembly *wall = make_wall(&c, "made.xml", what == 7);
    if (wall != NULL) {
        if (what == 3)
            start_from_readings(wall);
        if (what < 4)
            check(wall, climate, &options);
        else if (what == 4)
            margin(&c, wall, climate, &options);
        else if (what == 5)
            compare(&c, wall, climate, &options);
        else if (what == 7)
            choose(&c, wall, climate, &options);
        else
            audit(&c, wall, climate, &options);
    }
    bw_assembly_free(wall);
    bw_climate_free(climate);
    return 0;
}
