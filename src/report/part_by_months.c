/* The monthly figures on the first screen: beside a simulation a cross-check,
 * and whether both agree; without one all there is. */

#include <string.h>

#include "names.h"
#include "part.h"

static bool every_section_ran(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].run[BW_RUN_DESIGN].result.plane_count == 0)
            return false;
    return true;
}

/* All planes together at the end of a month of the first year, the year that
 * the criteria judge. */
static double water_in(const bw_monthly_result *run, int month)
{
    double sum = 0.0;
    for (size_t i = 0; i < run->plane_count; i++)
        sum += run->plane[i].month[month].accumulated;
    return sum;
}

static int wettest_month(const bw_monthly_result *run)
{
    int most = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (water_in(run, m) > water_in(run, most))
            most = m;
    return most;
}

static double most_water(const bw_section_assessment *section)
{
    return water_in(&section->run[BW_RUN_DESIGN].result,
                    wettest_month(&section->run[BW_RUN_DESIGN].result));
}

static void say_condensate(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = bw_worst_section(assessment,
                                                          most_water);
    const bw_monthly_result *run = &worst->run[BW_RUN_DESIGN].result;
    const int month = wettest_month(run);
    const bw_plane *at = run->plane;
    if (most_water(worst) <= 0.0) {
        bw_pair(page, "Condensed water", "%s",
                every_section_ran(assessment) ? "none in any month"
                                              : "not assessed");
        return;
    }
    for (size_t i = 1; i < run->plane_count; i++)
        if (run->plane[i].month[month].accumulated >
            at->month[month].accumulated)
            at = &run->plane[i];
    const char *where = bw_phrase(page, ", most of it %s%s",
                                  bw_plane_text(page, worst->section, at->at),
                                  bw_in_section(page, assessment, worst));
    bw_pair(page, "Condensed water", "%s in %s%s%s",
            bw_amount(page, most_water(worst)), bw_month_name(month),
            bw_is_tight(page) ? "" : where,
            run->accumulates ? bw_phrase(page, "; %s more every year",
                                         bw_amount(page, run->growth))
                             : "");
}

static double lack_of(const bw_section_assessment *section)
{
    return section->run[BW_RUN_DESIGN].result.has_reserve
               ? -section->run[BW_RUN_DESIGN].result.reserve
               : -(double)INFINITY;
}

static void say_reserve(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = bw_worst_section(assessment, lack_of);
    if (worst == NULL) {
        bw_pair(page, "Drying reserve", "not assessed");
        return;
    }
    double reserve = worst->run[BW_RUN_DESIGN].result.reserve;
    bw_pair(page, "Drying reserve", "%s a year%s: %s", bw_amount(page, reserve),
            bw_in_section(page, assessment, worst),
            reserve >= 0.0 ? "room for leaks beyond what condenses"
                           : "less can dry in a year than condenses");
}

/* A section that never dries ranks behind every one that does. */
static double slowness(const bw_section_assessment *section)
{
    const bw_monthly_result *run = &section->run[BW_RUN_WETTED_BOTH].result;
    return run->dried ? run->months_to_dry : 1e6 + run->left;
}

static const char *short_time(bw_page *page, const bw_monthly_result *run)
{
    return run->dried ? bw_phrase(page, "%.1f", run->months_to_dry) : "never";
}

static void say_drying(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = bw_worst_section(assessment, slowness);
    const double water = assessment->assembly->drying_test.wetting;
    if (worst->run[BW_RUN_WETTED_BOTH].result.plane_count == 0) {
        bw_pair(page, "To dry", "not assessed");
        return;
    }
    bw_pair(page, bw_phrase(page, "To dry %.3g kg/m2", water),
            "both ways %s; outwards %s; inwards %s%s",
            bw_drying_time(page, &worst->run[BW_RUN_WETTED_BOTH].result, water),
            short_time(page, &worst->run[BW_RUN_WETTED_OUTWARDS].result),
            short_time(page, &worst->run[BW_RUN_WETTED_INWARDS].result),
            bw_in_section(page, assessment, worst));
    if (worst->run[BW_RUN_WETTED_BOTH].ran &&
        page->options->extent == BW_EXTENT_FULL)
        bw_under(page, "The water was put %s.",
                 bw_plane_text(page, worst->section, worst->wet_plane));
}

/* ---- membranes ---------------------------------------------------------- */

/* By the mean outdoor temperature. */
static int month_at(const bw_section_assessment *part, bool warmest)
{
    int month = 0;
    for (int m = 1; m < BW_MONTHS; m++) {
        const double more = part->boundary[m].theta_e -
                            part->boundary[month].theta_e;
        if (warmest ? more > 0.0 : more < 0.0)
            month = m;
    }
    return month;
}

static void say_membranes(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *part = &assessment->section[0];
    const bw_monthly_result *run = &part->run[BW_RUN_DESIGN].result;
    const int winter = month_at(part, false), summer = month_at(part, true);
    for (size_t k = 0; k < run->slab_count && k < part->section->slab_count;
         k++) {
        const bw_slab *slab = &part->section->slab[k];
        if (slab->sd_curve != NULL && run->layer_sd != NULL)
            bw_pair(page, "Variable membrane",
                    "sd %.2g m in winter (%s), %.2g m in summer (%s)",
                    run->layer_sd[k][winter], bw_month_name(winter),
                    run->layer_sd[k][summer], bw_month_name(summer));
    }
}

/* ---- do they agree ------------------------------------------------------ */

typedef struct findings {
    size_t beyond;     /* figures of the method beyond their limits */
    const char *first; /* the first of them */
    size_t marginal;
} findings;

static findings find(const bw_assessment *assessment, const char *method)
{
    findings f = {0, "", 0};
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        if (!c->has_limit || strcmp(c->method, method) != 0)
            continue;
        f.marginal += c->outcome == BW_MARGINAL;
        if (c->outcome != BW_FAILS)
            continue;
        if (f.beyond++ == 0)
            f.first = c->criterion;
    }
    return f;
}

/* "3 do (annual balance, ...)" */
static const char *which(bw_page *page, const findings *of)
{
    return of->beyond > 1
               ? bw_phrase(page, "%zu do (%s, ...)", of->beyond,
                           bw_plain_id(page, of->first))
               : bw_phrase(page, "%s does", bw_plain_id(page, of->first));
}

static void say_agreement(bw_page *page, const bw_assessment *assessment)
{
    const findings months = find(assessment, "monthly");
    const findings hours = find(assessment, "transient");
    const char *text = "agrees: neither has a figure that fails";
    if (months.beyond == 0 && hours.beyond == 0 && hours.marginal > 0)
        text = "agrees: nothing fails; simulated, some figures are marginal";
    else if (months.beyond > 0 && hours.beyond > 0)
        text = bw_phrase(page, "agrees: both fail; by months %s",
                         which(page, &months));
    else if (months.beyond > 0)
        text = bw_phrase(page, "differs: simulated nothing fails, by months %s",
                         which(page, &months));
    else if (hours.beyond > 0)
        text = bw_phrase(page, "differs: by months nothing fails, simulated %s",
                         which(page, &hours));
    bw_pair(page, "Against the simulation", "%s", text);
}

/* ---- the block ---------------------------------------------------------- */

/* Why the method is a screening: full reports list all its reasons. */
static const char *screening(bw_page *page, const bw_assessment *assessment)
{
    const size_t count = assessment->scope_count;
    return count == 0 ? ""
                      : bw_phrase(page,
                                  ", a screening: beyond the method in %zu "
                                  "way%s",
                                  count, count == 1 ? "" : "s");
}

/* Beside a simulation a monthly row within the limits of its method decides
 * only where a rule set asks for the method. */
static bool is_asked_for(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        if (strcmp(c->method, "monthly") == 0 && c->has_limit && c->decides &&
            !c->cross_check && !c->screening)
            return true;
    }
    return false;
}

static const char *place_beside(const bw_assessment *assessment)
{
    if (!bw_is_simulated(assessment))
        return "no simulation beside them";
    return is_asked_for(assessment) ? "they decide, too, as the rule set asks"
                                    : "cross-check";
}

BW_PART(by_months, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    const bool beside = bw_is_simulated(assessment);
    if (assessment->section_count == 0)
        return;
    bw_lead(page, "By months (Glaser, ISO 13788): %s%s",
            place_beside(assessment), screening(page, assessment));
    say_condensate(page, assessment);
    say_reserve(page, assessment);
    say_drying(page, assessment);
    say_membranes(page, assessment);
    if (beside)
        say_agreement(page, assessment);
}
