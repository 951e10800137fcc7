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

/* Sol-air: T_e + a I / h_o, h_o = 1/Rse. Returns NULL, or what is missing. */
static const char *set_sun(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_outdoors *out = &j->assembly->outdoors;
    double irradiance[BW_MONTHS];
    if (part->section->dropped_layers > 0)
        return NULL; /* shaded by the cladding: no sun, but nothing missing */
    if (!out->has_facing)
        return "the facing is not given, so neither is the sun";
    if (!out->has_solar_absorptance)
        return "the solar absorptance is not given";
    if (!bw_climate_irradiance(j->climate, out->azimuth, out->tilt, irradiance))
        return "the climate has no irradiance for this facing";
    for (int m = 0; m < BW_MONTHS; m++) {
        part->sun_boundary[m] = part->boundary[m];
        part->sun_boundary[m].theta_e += out->solar_absorptance *
                                         irradiance[m] *
                                         part->section->outer_resistance;
    }
    part->has_sun = true;
    return NULL;
}

size_t bw_main_insulation(const bw_section *section)
{
    size_t found = 0;
    for (size_t i = 1; i < section->slab_count; i++)
        if (section->slab[i].resistance > section->slab[found].resistance)
            found = i;
    return found;
}

/* The outermost layer that absorbs water outside the main insulation, else
 * the outermost solid one; slab_count if there is none. */
static size_t wetted_slab(const bw_section *section)
{
    size_t insulation = bw_main_insulation(section);
    size_t solid = section->slab_count;
    for (size_t i = section->slab_count; i > 0; i--)
        if (section->slab[i - 1].kind == BW_LAYER_SOLID)
            solid = i - 1;
    for (size_t i = 0; i < insulation; i++)
        if (section->slab[i].kind == BW_LAYER_SOLID &&
            section->slab[i].material->absorbs_condensate)
            return i;
    return solid;
}

static bw_status run_inward(job *j)
{
    bw_section_assessment *part = j->part;
    const char *missing = set_sun(j);
    part->inward_slab = wetted_slab(part->section);
    if (missing == NULL && part->inward_slab + 1 >= part->section->slab_count)
        missing = "no layer lies inside the outermost solid one";
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

/* Where the drying test's water goes; false if its layer is not there. */
static bool find_wet_plane(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_drying_test *test = &j->assembly->drying_test;
    const bw_section *section = part->section;
    if (test->after_layer < 0) {
        part->wet_plane = bw_critical_plane(section, &part->design);
        return true;
    }
    for (size_t i = section->slab_count; i > 0; i--)
        if (section->slab[i - 1].layer == (size_t)test->after_layer) {
            part->wet_plane = (bw_plane_at){
                i - 1, section->slab[i - 1].thickness, true};
            return true;
        }
    return false;
}

static bw_status run_drying(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_drying_test *test = &j->assembly->drying_test;
    part->dry_reason = "";
    if (!find_wet_plane(j)) {
        part->dry_reason = "the wetted layer lies outside the calculation";
        return BW_OK;
    }
    part->wetting = test->wetting > 0.0 ? test->wetting : 1.0;
    part->dry_start = test->start_month >= 0
                          ? test->start_month
                          : (coldest_month(part->boundary) + 9) % BW_MONTHS;
    const struct {
        const char *name;
        bw_drying_ways ways;
        bw_monthly_result *out;
    } runs[] = {
        {"wetted-both-ways", BW_DRY_BOTH, &part->dry_both},
        {"wetted-outwards", BW_DRY_OUTWARDS, &part->dry_outwards},
        {"wetted-inwards", BW_DRY_INWARDS, &part->dry_inwards},
    };
    for (size_t i = 0; i < sizeof runs / sizeof runs[0]; i++) {
        bw_monthly_options options = {.run = runs[i].name,
                                      .wetting = part->wetting,
                                      .wet_plane = part->wet_plane,
                                      .ways = runs[i].ways,
                                      .start_month = part->dry_start};
        bool done = false;
        BW_TRY(run(j, runs[i].out, part->boundary, &options, &done,
                   &part->dry_reason));
        if (!done)
            return BW_OK;
    }
    part->has_dry = true;
    return BW_OK;
}

static bw_status run_leaky(job *j)
{
    bw_section_assessment *part = j->part;
    const bw_air_leakage *leakage = &j->assembly->air_leakage;
    if (!leakage->given)
        return BW_OK;
    bw_monthly_options options = {
        .run = "leaky", .start_month = -1, .has_air_flow = true};
    options.leak_plane = bw_critical_plane(part->section, &part->design);
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

bw_status bw_run_steady(bw_section_assessment *part, bw_rows *rows,
                        const bw_assembly *assembly, const bw_climate *climate,
                        const bw_run_effort *effort, bw_error *err)
{
    job j = {part, rows, assembly, climate, err};
    run_surfaces(&j);
    BW_TRY(run_period(&j));
    bw_monthly_options options = {.run = "design", .start_month = -1};
    BW_TRY(run(&j, &part->design, part->boundary, &options, &part->has_design,
               &part->design_reason));
    if (!part->has_design) {
        part->inward_reason = part->dry_reason = part->design_reason;
        return BW_OK;
    }
    const char *ignored;
    if (!effort->no_bound && mu_differs(part->section)) {
        options.run = "bound";
        options.mu = BW_MU_OPPOSITE;
        BW_TRY(run(&j, &part->bound, part->boundary, &options, &part->has_bound,
                   &ignored));
    }
    BW_TRY(run_inward(&j));
    BW_TRY(run_drying(&j));
    return run_leaky(&j);
}

void bw_run_free(bw_section_assessment *part)
{
    bw_run_free_transient(part);
    bw_monthly_free(&part->design);
    bw_monthly_free(&part->bound);
    bw_monthly_free(&part->inward);
    bw_monthly_free(&part->dry_both);
    bw_monthly_free(&part->dry_outwards);
    bw_monthly_free(&part->dry_inwards);
    bw_monthly_free(&part->leaky);
}
