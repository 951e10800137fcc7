#include "run.h"

#include <math.h>
#include <stdio.h>

#include "beyond.h"
#include "bothways/thermal.h"
#include "fail.h"

/* The steady runs of one section: docs/methods.md, sections 3, 4 and
 * "Criteria and verdict". */

typedef struct job {
    bw_section_assessment *part;
    bw_rows *rows;
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_error *err;
    bw_run_sun *sun;
    bw_geography geography;
    bw_plane_at *place; /* where water would do harm */
    size_t place_count;
} job;

/* A run that could not be done is a reason, not a failure, unless the machine
 * failed. */
static bool survivable(bw_status status)
{
    return status == BW_ERR_DOMAIN || status == BW_ERR_NUMERIC;
}

/* One monthly run into *out. */
static bw_status run(job *j, bw_monthly_run *out,
                     const bw_boundary boundary[BW_MONTHS],
                     const bw_monthly_options *options)
{
    bw_error fault = {0};
    bw_monthly_options named = *options;
    named.run = out->name;
    bw_status status = bw_monthly(&out->result, j->part->section, boundary,
                                  &named, &fault);
    out->ran = status == BW_OK;
    out->reason = out->ran ? "" : bw_say(j->rows, "%s", fault.message);
    if (status == BW_OK || survivable(status))
        return BW_OK;
    if (j->err != NULL)
        *j->err = fault;
    return status;
}

/* Sun position and sky of a year take longer than a run of the wall. */
static bool find_sun(job *j)
{
    const bw_outdoors *out = &j->assembly->outdoors;
    bw_run_sun *sun = j->sun;
    if (sun->found && sun->azimuth == out->azimuth && sun->tilt == out->tilt)
        return sun->known;
    double mean[BW_MONTHS];
    sun->found = true;
    sun->azimuth = out->azimuth;
    sun->tilt = out->tilt;
    sun->known = bw_climate_irradiance(j->climate, out->azimuth, out->tilt,
                                       mean);
    if (!sun->known || bw_climate_sunny(j->climate, out->azimuth, out->tilt,
                                        mean, sun->irradiance, sun->share))
        return sun->known;
    for (int m = 0; m < BW_MONTHS; m++) {
        sun->irradiance[m] = mean[m];
        sun->share[m] = 1.0;
    }
    return true;
}

/* Sol-air: T_e + a I / h_o, h_o = 1/Rse, while the sun is on the face: the mean
 * of all hours hides what drives vapour inwards. Returns NULL, or what is
 * missing. */
static const char *set_sun(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_outdoors *out = &j->assembly->outdoors;
    if (part->section->dropped_layers > 0)
        return NULL; /* shaded by the cladding: no sun, but nothing missing */
    if (!out->has_facing)
        return "the facing is not given, so neither is the sun";
    if (!out->has_solar_absorptance)
        return "the solar absorptance is not given";
    if (!find_sun(j))
        return "the climate has no irradiance for this facing";
    for (int m = 0; m < BW_MONTHS; m++) {
        part->sun_share[m] = j->sun->share[m];
        part->sun_boundary[m] = part->boundary[m];
        part->sun_boundary[m].theta_e += out->solar_absorptance *
                                         j->sun->irradiance[m] *
                                         part->section->outer_resistance;
    }
    part->has_sun = true;
    return NULL;
}

static bw_status run_inward(job *j)
{
    bw_section_assessment *part = j->part;
    const char *dry = "", *missing = set_sun(j);
    part->inward_slab = bw_rain_wetted_slab(&dry, &j->geography, part->section);
    if (j->assembly->beyond.kind != NULL)
        missing = bw_say(j->rows,
                         "the face lies against %s: no rain wets it, no sun "
                         "warms it",
                         bw_beyond_against(j->assembly));
    else if (dry[0] != '\0')
        missing = dry;
    else if (missing == NULL &&
             part->inward_slab + 1 == part->section->slab_count)
        missing = "no layer lies inside the one that rain wets";
    if (missing != NULL) {
        part->run[BW_RUN_INWARD].reason = missing;
        return BW_OK;
    }
    bw_monthly_options options = {.start_month = -1,
                                  .saturated = true,
                                  .saturated_slab = part->inward_slab};
    return run(j, &part->run[BW_RUN_INWARD],
               part->has_sun ? part->sun_boundary : part->boundary, &options);
}

static bool mu_differs(const bw_section *section)
{
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        if (slab->sd_curve == NULL && fabs(slab->sd_dry - slab->sd_wet) > 1e-12)
            return true;
    }
    return false;
}

static int coldest_month(const bw_boundary boundary[BW_MONTHS])
{
    int coldest = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (boundary[m].theta_e < boundary[coldest].theta_e)
            coldest = m;
    return coldest;
}

/* None of the wetted runs ran. */
static void no_drying(bw_section_assessment *part, const char *reason)
{
    for (int k = BW_RUN_WETTED_BOTH; k <= BW_RUN_WETTED_INWARDS; k++) {
        part->run[k].ran = false;
        part->run[k].reason = reason;
    }
}

/* Where the drying test's water may go: the inner face of the layer named, or
 * every place at risk. Returns how many; 0: no_drying says why. */
static size_t wet_places(job *j, const bw_plane_at **place, bw_plane_at *named)
{
    const bw_section *section = j->part->section;
    long after = j->assembly->drying_test.after_layer;
    *place = after < 0 ? j->place : named;
    j->part->dry_needless = after < 0 && j->place_count == 0;
    if (j->part->dry_needless)
        no_drying(j->part, "no face inside the weather line is of wood, of a "
                           "panel or of insulation that water harms");
    if (after < 0)
        return j->place_count;
    for (size_t i = section->slab_count; i > 0; i--)
        if (section->slab[i - 1].layer == (size_t)after) {
            *named = (bw_plane_at){i - 1, section->slab[i - 1].thickness, true};
            return 1;
        }
    no_drying(j->part, "the wetted layer lies outside the calculation");
    return 0;
}

static bool slower(const bw_monthly_result *a, const bw_monthly_result *b)
{
    static const double SAME = 1e-9; /* months, kg/m2: the outermost stays */
    if (a->dried != b->dried)
        return b->dried;
    return a->dried ? a->months_to_dry > b->months_to_dry + SAME
                    : a->left > b->left + SAME;
}

/* One drying run at part->wet_plane. */
static bw_status run_wetted(job *j, bw_monthly_run *out, bw_drying_ways ways)
{
    bw_section_assessment *part = j->part;
    bw_monthly_options options = {.wetting = part->wetting,
                                  .wet_plane = part->wet_plane,
                                  .ways = ways,
                                  .start_month = part->dry_start};
    return run(j, out, part->boundary, &options);
}

/* The slowest of all places, drying both ways. */
static bw_status run_slowest(job *j, const bw_plane_at *place, size_t count)
{
    bw_section_assessment *part = j->part;
    bw_monthly_run *kept = &part->run[BW_RUN_WETTED_BOTH];
    bw_plane_at slowest = place[0];
    for (size_t i = 0; i < count && (i == 0 || kept->ran); i++) {
        bw_monthly_run at = {.name = kept->name};
        part->wet_plane = place[i];
        BW_TRY(run_wetted(j, &at, BW_DRY_BOTH));
        if (i > 0 && at.ran && !slower(&at.result, &kept->result)) {
            bw_monthly_free(&at.result);
            continue;
        }
        bw_monthly_free(&kept->result);
        *kept = at;
        slowest = place[i];
    }
    part->wet_plane = slowest;
    return BW_OK;
}

static bw_status run_drying(job *j)
{
    bw_section_assessment *part = j->part;
    bw_monthly_run *both = &part->run[BW_RUN_WETTED_BOTH];
    bw_monthly_run *out = &part->run[BW_RUN_WETTED_OUTWARDS];
    bw_monthly_run *in = &part->run[BW_RUN_WETTED_INWARDS];
    const bw_drying_test *test = &j->assembly->drying_test;
    const bw_plane_at *place;
    bw_plane_at named;
    part->wetting = test->wetting > 0.0 ? test->wetting : 1.0;
    part->dry_start = test->start_month >= 0
                          ? test->start_month
                          : (coldest_month(part->boundary) + 9) % BW_MONTHS;
    size_t count = wet_places(j, &place, &named);
    if (count == 0)
        return BW_OK;
    BW_TRY(run_slowest(j, place, count));
    if (both->ran)
        BW_TRY(run_wetted(j, out, BW_DRY_OUTWARDS));
    if (out->ran)
        BW_TRY(run_wetted(j, in, BW_DRY_INWARDS));
    if (!in->ran)
        no_drying(part, !both->ran  ? both->reason
                        : !out->ran ? out->reason
                                    : in->reason);
    return BW_OK;
}

/* Where leaking air leaves its water; it leaves none at the outer surface. */
static bw_plane_at leak_plane(const job *j)
{
    const bw_section *section = j->part->section;
    size_t leak = j->geography.leak;
    if (leak == 0)
        return bw_critical_plane(section, &j->part->run[BW_RUN_DESIGN].result);
    return (bw_plane_at){leak - 1, section->slab[leak - 1].thickness, true};
}

static bw_status run_leakage(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_air_leakage *leakage = &j->assembly->air_leakage;
    if (!leakage->given) {
        part->run[BW_RUN_LEAKAGE].reason =
            "air leakage is not given; the limit of the drying reserve is "
            "meant to cover it";
        return BW_OK;
    }
    bw_monthly_options options = {.start_month = -1, .has_air_flow = true};
    options.leak_plane = leak_plane(j);
    for (int m = 0; m < BW_MONTHS; m++)
        options.air_flow[m] = bw_leakage_air_flow(
            leakage->q50, leakage->connected_height, part->boundary[m].theta_e,
            part->boundary[m].theta_i);
    return run(j, &part->run[BW_RUN_LEAKAGE], part->boundary, &options);
}

static void run_surfaces(job *j)
{
    static const struct {
        const char *where;
        double rsi; /* m2 K/W */
        const char *source;
    } surfaces[] = {
        {"open-wall", 0.25, "ISO 13788, opaque surfaces (from memory, high)"},
        {"corner", 0.35,
         "ISO 10211-1:1995, lower half of a room (from memory, medium)"},
        {"behind-cupboard", 1.00,
         "DIN technical report 4108-8, fitted cupboard (from memory, low)"},
    };
    bw_section_assessment *part = j->part;
    double resistance = 0.0;
    for (size_t i = 0; i < part->section->slab_count; i++)
        resistance += part->section->slab[i].resistance;
    for (size_t i = 0; i < 3; i++)
        bw_surface(&part->surface[i], surfaces[i].where, resistance,
                   part->section->outer_resistance, surfaces[i].rsi,
                   surfaces[i].source, BW_SURFACE_RH / 100.0, part->boundary);
    part->surface_count = 3;
    part->frsi = part->surface[0].frsi;
}

static bw_status run_period(job *j)
{
    if (j->assembly->beyond.kind != NULL) {
        j->part->period = (bw_period_result){0};
        snprintf(j->part->period.reason, sizeof j->part->period.reason,
                 "the period balance has the climate of outdoor air; this "
                 "face lies against %s",
                 bw_beyond_against(j->assembly));
        return BW_OK;
    }
    bw_period_climate blocks = bw_period_climate_din4108(j->assembly->element);
    return bw_period_balance(&j->part->period, j->part->section, &blocks,
                             BW_MU_LOCAL, j->err);
}

static bw_status find_places(job *j)
{
    const bw_section *section = j->part->section;
    if (section->slab_count == 0)
        return BW_OK;
    bw_geography_find(&j->geography, j->assembly, section);
    j->place = BW_NEW(j->rows->arena, bw_plane_at, section->slab_count);
    BW_TRY_MEMORY(j->place != NULL, j->err);
    j->place_count = bw_places_at_risk(j->place, &j->geography, section);
    return BW_OK;
}

/* More water stands, or as much and less could dry. */
static bool more_water(const bw_monthly_result *a, const bw_monthly_result *b)
{
    if (a->accumulates != b->accumulates)
        return a->accumulates;
    if (fabs(a->peak - b->peak) > 1e-9)
        return a->peak > b->peak;
    return a->has_reserve && b->has_reserve && a->reserve < b->reserve;
}

static void keep_bound(bw_section_assessment *part, bw_monthly_run made)
{
    bw_monthly_run *most = &part->run[BW_RUN_BOUND];
    if (most->ran) {
        bool more = more_water(&made.result, &most->result);
        part->other_bound[part->other_bound_count++] = more ? most->result
                                                            : made.result;
        if (!more)
            return;
    }
    *most = made;
}

/* No layer's mu is known to lie at one end: the opposite of the design's, and
 * the ends that let most in and least out, in winter and in summer. */
static bw_status run_bounds(job *j, bw_monthly_options options)
{
    static const bw_mu_choice ends[] = {
        BW_MU_OPPOSITE, BW_MU_OUTER_DRY_INNER_WET, BW_MU_OUTER_WET_INNER_DRY};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        bw_monthly_run made = {.name = bw_monthly_run_name(BW_RUN_BOUND)};
        options.mu = ends[i];
        BW_TRY(run(j, &made, j->part->boundary, &options));
        if (made.ran)
            keep_bound(j->part, made);
    }
    return BW_OK;
}

const char *bw_monthly_run_name(bw_monthly_run_id run)
{
    static const char *const names[BW_RUN_COUNT] = {
        [BW_RUN_DESIGN] = "design",
        [BW_RUN_BOUND] = "bound",
        [BW_RUN_INWARD] = "inward",
        [BW_RUN_WETTED_BOTH] = "wetted-both-ways",
        [BW_RUN_WETTED_OUTWARDS] = "wetted-outwards-only",
        [BW_RUN_WETTED_INWARDS] = "wetted-inwards-only",
        [BW_RUN_LEAKAGE] = "with-air-leakage",
    };
    return names[run];
}

void bw_run_none(bw_section_assessment *part, const char *reason)
{
    for (int k = 0; k < BW_RUN_COUNT; k++)
        part->run[k] = (bw_monthly_run){
            .name = bw_monthly_run_name((bw_monthly_run_id)k),
            .reason = reason};
}

bw_status bw_run_steady(bw_section_assessment *part, bw_rows *rows,
                        const bw_assembly *assembly, const bw_climate *climate,
                        const bw_run_effort *effort, bw_run_sun *sun,
                        bw_error *err)
{
    job j = {.part = part,
             .rows = rows,
             .assembly = assembly,
             .climate = climate,
             .err = err,
             .sun = sun};
    BW_TRY(find_places(&j));
    run_surfaces(&j);
    BW_TRY(run_period(&j));
    bw_monthly_options options = {
        .start_month = -1, .place_count = j.place_count, .place = j.place};
    bw_monthly_run *design = &part->run[BW_RUN_DESIGN];
    BW_TRY(run(&j, design, part->boundary, &options));
    if (!design->ran) {
        bw_run_none(part, design->reason);
        return BW_OK;
    }
    if (!effort->no_bound && mu_differs(part->section))
        BW_TRY(run_bounds(&j, options));
    BW_TRY(run_inward(&j));
    BW_TRY(run_drying(&j));
    return run_leakage(&j);
}

void bw_run_free(bw_section_assessment *part)
{
    bw_run_free_transient(part);
    for (int k = 0; k < BW_RUN_COUNT; k++)
        bw_monthly_free(&part->run[k].result);
    for (size_t i = 0; i < part->other_bound_count; i++)
        bw_monthly_free(&part->other_bound[i]);
}
