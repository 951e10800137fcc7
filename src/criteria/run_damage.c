/* What the hours of a simulation mean for wood, mould and metal: the index with
 * the last year repeated until it repeats itself, the dose beside it, the
 * wetness of fixings, the criterion line and the decay dose of the wettest 10
 * mm. Results without judgement. */

#include <math.h>
#include <stdlib.h>

#include "bothways/geography.h"
#include "fail.h"
#include "run.h"
#include "scope.h"

/* ---- mould ---- */

/* A winter is one run: the last year twice over. */
enum { DOSE_YEARS = 2 };

static void hours_at(const bw_transient_result *result, size_t monitor,
                     double *theta, double *phi)
{
    for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++) {
        const bw_monitor_hour *row =
            &result->last_hours[h * result->monitor_count + monitor];
        theta[h] = (double)row->theta;
        phi[h] = (double)row->phi;
    }
}

static bw_status mould_at(bw_place_mould *out, const bw_monitor *monitor,
                          const double *theta, const double *phi, bw_error *err)
{
    const bw_mould_class class = monitor->mould_class;
    const bw_mould_rule *rule = bw_mould_rule_ashrae160();
    const bw_mould_rule *other = bw_mould_rule_by_class();
    const bool room = monitor->room_face;
    bw_mould_exposure year = {
        .theta = theta,
        .phi = phi,
        .hours = BW_TRANSIENT_HOURS,
        .start = monitor->mould_end.index,
        .mould_class = class,
        .decline = rule->decline[class],
        .limit = room ? rule->limit_room : rule->limit_hidden,
    };
    BW_TRY(bw_mould_repeat(&out->slow, &year, err));
    year.decline = other->decline[class];
    year.limit = room ? other->limit_room : other->limit_hidden;
    BW_TRY(bw_mould_repeat(&out->by_class, &year, err));
    out->highest = fmax(monitor->highest_mould, out->by_class.highest);
    out->highest_slow = fmax(monitor->highest_mould, out->slow.highest);
    double day_theta[BW_TRANSIENT_DAYS], day_phi[BW_TRANSIENT_DAYS];
    bw_day_means(day_theta, theta, BW_TRANSIENT_DAYS);
    bw_day_means(day_phi, phi, BW_TRANSIENT_DAYS);
    out->dose = bw_mould_dose_highest(day_theta, day_phi, BW_TRANSIENT_DAYS,
                                      DOSE_YEARS);
    out->wetness_hours = bw_wetness_hours(theta, phi, BW_TRANSIENT_HOURS);
    return BW_OK;
}

/* No outdoor air is as damp as this in the mean of a year, and walls behind wet
 * brick that stand sound stay below it; estimate. */
bool bw_is_soaked(const bw_monitor *face)
{
    static const double SOAKED = 0.95; /* RH */
    double mean = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        mean += face->month_rh[m] / BW_MONTHS;
    return !(mean <= SOAKED);
}

bool bw_brings_water(const bw_assembly *assembly)
{
    if (assembly->rain_leak.given && assembly->rain_leak.fraction > 0.0)
        return true;
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (bw_layer_starts_wet(&assembly->layer[i]))
            return true;
    return false;
}

static bw_status run_mould(bw_section_assessment *part,
                           const bw_assembly *assembly, bw_error *err)
{
    const bw_transient_result *result = &part->transient;
    double *theta = malloc((size_t)2 * BW_TRANSIENT_HOURS * sizeof *theta);
    BW_TRY_MEMORY(theta != NULL, err);
    double *phi = theta + BW_TRANSIENT_HOURS;
    bw_status status = BW_OK;
    for (size_t i = 0; status == BW_OK && i < result->monitor_count; i++) {
        hours_at(result, i, theta, phi);
        status = mould_at(&part->mould[i], &result->monitor[i], theta, phi,
                          err);
    }
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->transient_section);
    part->open_to_air = geography.first > 0 && !bw_brings_water(assembly) &&
                        !bw_is_soaked(&result->monitor[geography.first]);
    free(theta);
    return status;
}

/* ---- wood ---- */

enum { DAYS = BW_TRANSIENT_DAYS };

typedef struct wood_year {
    double theta[DAYS], phi[DAYS], moisture[DAYS];
} wood_year;

static void judge_days(wood_year *year, const bw_wood_day *day,
                       bw_timber_line_result *line, double *dose)
{
    for (size_t d = 0; d < DAYS; d++) {
        year->theta[d] = day[d].theta;
        year->phi[d] = day[d].phi;
        year->moisture[d] = day[d].moisture;
    }
    *line = bw_timber_line_year(year->theta, year->phi, DAYS);
    *dose = bw_decay_dose_year(year->moisture, year->theta, DAYS,
                               BW_DECAY_DOSE_CRITICAL)
                .dose;
}

static void run_wood(bw_section_assessment *part)
{
    const bw_transient_result *result = &part->transient;
    for (size_t k = 0; k < result->slab_count; k++) {
        const bw_slab_moisture *slab = &result->slab[k];
        bw_wood_damage *wood = &part->wood[k];
        if (!slab->is_wood)
            continue;
        wood_year year;
        judge_days(&year, slab->first_days, &wood->first_line,
                   &wood->first_dose);
        judge_days(&year, slab->last_days, &wood->line, &wood->dose);
        wood->service_dose = wood->first_dose +
                             (BW_SERVICE_YEARS - 1) * wood->dose;
    }
}

bw_status bw_run_damage(bw_section_assessment *part,
                        const bw_assembly *assembly, bw_error *err)
{
    const bw_transient_result *result = &part->transient;
    part->mould = calloc(result->monitor_count, sizeof *part->mould);
    part->wood = calloc(result->slab_count, sizeof *part->wood);
    BW_TRY_MEMORY(part->mould != NULL && part->wood != NULL, err);
    run_wood(part);
    return run_mould(part, assembly, err);
}
