#include "run.h"

#include <math.h>

#include "bothways/thermal.h"
#include "fail.h"

/* The steady runs of one section: docs/methods.md, sections 3, 4 and
 * "Criteria and verdict". */

/* A roof under open sky is colder than the air by this (ISO 13788:2012, light
 * roofs [M-med]). */
static const double SKY_LOSS = 2.0; /* K */

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

static const char *why(job *j, const bw_error *fault)
{
    return bw_say(j->rows, "%s", fault->message);
}

/* One monthly run; *done tells whether it gave a result. */
static bw_status run(job *j, bw_monthly_result *out,
                     const bw_boundary boundary[BW_MONTHS],
                     const bw_monthly_options *options, bool *done,
                     const char **reason)
{
    bw_error fault = {0};
    bw_status status = bw_monthly(out, j->part->section, boundary, options,
                                  &fault);
    *done = status == BW_OK;
    *reason = *done ? "" : why(j, &fault);
    if (status == BW_OK || survivable(status))
        return BW_OK;
    if (j->err != NULL)
        *j->err = fault;
    return status;
}

void bw_run_boundaries(bw_section_assessment *part, const bw_assembly *assembly,
                       const bw_climate *climate)
{
    bool sky = assembly->outdoors.open_sky &&
               part->section->dropped_layers == 0;
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &climate->month[m];
        bw_boundary *b = &part->boundary[m];
        b->theta_e = month->temperature - (sky ? SKY_LOSS : 0.0);
        b->p_e = month->vapour_pressure;
        bw_indoor_state(&assembly->indoors, m, month->temperature, b->p_e,
                        &b->theta_i, &b->p_i);
    }
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
    if (dry[0] != '\0')
        missing = dry;
    else if (missing == NULL &&
             part->inward_slab + 1 == part->section->slab_count)
        missing = "no layer lies inside the one that rain wets";
    part->inward_reason = missing != NULL ? missing : "";
    if (missing != NULL)
        return BW_OK;
    bw_monthly_options options = {.run = "inward",
                                  .start_month = -1,
                                  .saturated = true,
                                  .saturated_slab = part->inward_slab};
    return run(j, &part->inward,
               part->has_sun ? part->sun_boundary : part->boundary, &options,
               &part->has_inward, &part->inward_reason);
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

/* Where the drying test's water may go: the inner face of the layer named, or
 * every place at risk. Returns how many; 0: why in dry_reason. */
static size_t wet_places(job *j, const bw_plane_at **place, bw_plane_at *named)
{
    const bw_section *section = j->part->section;
    long after = j->assembly->drying_test.after_layer;
    *place = after < 0 ? j->place : named;
    j->part->dry_needless = after < 0 && j->place_count == 0;
    if (j->part->dry_needless)
        j->part->dry_reason = "no face inside the weather line is of wood, of "
                              "a panel or of insulation that water harms";
    if (after < 0)
        return j->place_count;
    for (size_t i = section->slab_count; i > 0; i--)
        if (section->slab[i - 1].layer == (size_t)after) {
            *named = (bw_plane_at){i - 1, section->slab[i - 1].thickness, true};
            return 1;
        }
    j->part->dry_reason = "the wetted layer lies outside the calculation";
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
static bw_status run_wetted(job *j, bw_monthly_result *out, const char *name,
                            bw_drying_ways ways, bool *done)
{
    bw_section_assessment *part = j->part;
    bw_monthly_options options = {.run = name,
                                  .wetting = part->wetting,
                                  .wet_plane = part->wet_plane,
                                  .ways = ways,
                                  .start_month = part->dry_start};
    return run(j, out, part->boundary, &options, done, &part->dry_reason);
}

/* The slowest of all places, drying both ways. */
static bw_status run_slowest(job *j, const bw_plane_at *place, size_t count,
                             bool *done)
{
    bw_section_assessment *part = j->part;
    bw_plane_at slowest = place[0];
    *done = true;
    for (size_t i = 0; i < count && *done; i++) {
        bw_monthly_result at;
        part->wet_plane = place[i];
        BW_TRY(run_wetted(j, &at, "wetted-both-ways", BW_DRY_BOTH, done));
        if (!*done)
            break;
        if (i == 0 || slower(&at, &part->dry_both)) {
            bw_monthly_free(&part->dry_both);
            part->dry_both = at;
            slowest = place[i];
        } else {
            bw_monthly_free(&at);
        }
    }
    part->wet_plane = slowest;
    return BW_OK;
}

static bw_status run_drying(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_drying_test *test = &j->assembly->drying_test;
    const bw_plane_at *place;
    bw_plane_at named;
    bool done;
    part->dry_reason = "";
    part->wetting = test->wetting > 0.0 ? test->wetting : 1.0;
    part->dry_start = test->start_month >= 0
                          ? test->start_month
                          : (coldest_month(part->boundary) + 9) % BW_MONTHS;
    size_t count = wet_places(j, &place, &named);
    if (count == 0)
        return BW_OK;
    BW_TRY(run_slowest(j, place, count, &done));
    if (done)
        BW_TRY(run_wetted(j, &part->dry_outwards, "wetted-outwards",
                          BW_DRY_OUTWARDS, &done));
    if (done)
        BW_TRY(run_wetted(j, &part->dry_inwards, "wetted-inwards",
                          BW_DRY_INWARDS, &done));
    part->has_dry = done;
    return BW_OK;
}

/* Where leaking air leaves its water; it leaves none at the outer surface. */
static bw_plane_at leak_plane(const job *j)
{
    const bw_section *section = j->part->section;
    size_t leak = j->geography.leak;
    if (leak == 0)
        return bw_critical_plane(section, &j->part->design);
    return (bw_plane_at){leak - 1, section->slab[leak - 1].thickness, true};
}

static bw_status run_leaky(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_air_leakage *leakage = &j->assembly->air_leakage;
    if (!leakage->given)
        return BW_OK;
    bw_monthly_options options = {
        .run = "leaky", .start_month = -1, .has_air_flow = true};
    options.leak_plane = leak_plane(j);
    for (int m = 0; m < BW_MONTHS; m++)
        options.air_flow[m] = bw_leakage_air_flow(
            leakage->q50, leakage->connected_height, part->boundary[m].theta_e,
            part->boundary[m].theta_i);
    const char *reason;
    return run(j, &part->leaky, part->boundary, &options, &part->has_leaky,
               &reason);
}

static void run_surfaces(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_limits *limits = j->rows->limits;
    double resistance = 0.0;
    for (size_t i = 0; i < part->section->slab_count; i++)
        resistance += part->section->slab[i].resistance;
    const struct {
        const char *where;
        double rsi;
        const char *source;
    } surfaces[] = {
        {"open-wall", limits->rsi_open, limits->rsi_open_source},
        {"corner", limits->rsi_corner, limits->rsi_corner_source},
        {"behind-cupboard", limits->rsi_cupboard, limits->rsi_cupboard_source},
    };
    for (size_t i = 0; i < 3; i++)
        bw_surface(&part->surface[i], surfaces[i].where, resistance,
                   part->section->outer_resistance, surfaces[i].rsi,
                   surfaces[i].source, limits->mould_rh, part->boundary);
    part->surface_count = 3;
    part->frsi = part->surface[0].frsi;
}

static bw_status run_period(job *j)
{
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
    if (j->place == NULL)
        return bw_fail_memory(j->err);
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

static void keep_bound(bw_section_assessment *part, bw_monthly_result made)
{
    if (part->has_bound) {
        bool more = more_water(&made, &part->bound);
        part->other_bound[part->other_bound_count++] = more ? part->bound
                                                            : made;
        if (!more)
            return;
    }
    part->has_bound = true;
    part->bound = made;
}

/* No layer's mu is known to lie at one end: the opposite of the design's, and
 * the ends that let most in and least out, in winter and in summer. */
static bw_status run_bounds(job *j, bw_monthly_options options)
{
    static const bw_mu_choice ends[] = {
        BW_MU_OPPOSITE, BW_MU_OUTER_DRY_INNER_WET, BW_MU_OUTER_WET_INNER_DRY};
    options.run = "bound";
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        bw_monthly_result made;
        bool done;
        const char *ignored;
        options.mu = ends[i];
        BW_TRY(run(j, &made, j->part->boundary, &options, &done, &ignored));
        if (done)
            keep_bound(j->part, made);
    }
    return BW_OK;
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
    bw_monthly_options options = {.run = "design",
                                  .start_month = -1,
                                  .place_count = j.place_count,
                                  .place = j.place};
    BW_TRY(run(&j, &part->design, part->boundary, &options, &part->has_design,
               &part->design_reason));
    if (!part->has_design) {
        part->inward_reason = part->dry_reason = part->design_reason;
        return BW_OK;
    }
    if (!effort->no_bound && mu_differs(part->section))
        BW_TRY(run_bounds(&j, options));
    BW_TRY(run_inward(&j));
    BW_TRY(run_drying(&j));
    return run_leaky(&j);
}

void bw_run_free(bw_section_assessment *part)
{
    bw_run_free_transient(part);
    bw_monthly_free(&part->design);
    bw_monthly_free(&part->bound);
    for (size_t i = 0; i < part->other_bound_count; i++)
        bw_monthly_free(&part->other_bound[i]);
    bw_monthly_free(&part->inward);
    bw_monthly_free(&part->dry_both);
    bw_monthly_free(&part->dry_outwards);
    bw_monthly_free(&part->dry_inwards);
    bw_monthly_free(&part->leaky);
}
