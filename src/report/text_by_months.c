/* The monthly figures on the first screen: beside a simulation a cross-check,
 * and whether both agree; without one all there is. */

#include <string.h>

#include "names.h"
#include "parts.h"

static bool every_section_ran(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].design.plane_count == 0)
            return false;
    return true;
}

static void print_peak(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = bw_worst_peak(assessment);
    const bw_monthly_result *design = &worst->design;
    if (design->peak <= 0.0 || design->peak_plane >= design->plane_count) {
        bw_page_pair(page, "Most condensed water",
                     every_section_ran(assessment) ? "none in any month"
                                                   : "not assessed");
        return;
    }
    bw_plane_at at = design->plane[design->peak_plane].at;
    bw_page_pair(page, "Most condensed water",
                 bw_phrase(page, "%s at the end of %s, %s%s%s",
                           bw_amount(page, design->peak),
                           bw_month_name(design->peak_month),
                           bw_plane_text(page, worst->section, at),
                           bw_in_section(page, assessment, worst),
                           design->accumulates ? "; more every year" : ""));
}

static void print_reserve(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = bw_worst_reserve(assessment);
    if (worst == NULL) {
        bw_page_pair(page, "Drying reserve", "not assessed");
        return;
    }
    double reserve = worst->design.reserve;
    bw_page_pair(page, "Drying reserve",
                 bw_phrase(page, "%s a year%s: %s", bw_amount(page, reserve),
                           bw_in_section(page, assessment, worst),
                           reserve >= 0.0
                               ? "water from leaks that could dry in a year "
                                 "beyond what condenses"
                               : "less can dry in a year than condenses"));
}

/* Beside a simulation both ways alone: it has the ways one by one. */
static void print_drying(bw_page *page, const bw_assessment *assessment,
                         bool beside)
{
    const bw_section_assessment *worst = bw_worst_drying(assessment);
    const bw_drying_test *test = &assessment->assembly->drying_test;
    const char *where = "";
    if (worst->has_dry)
        where = bw_phrase(page, "put %s%s",
                          bw_plane_text(page, worst->section, worst->wet_plane),
                          bw_in_section(page, assessment, worst));
    bw_page_pair(page,
                 bw_phrase(page, "To dry %s kg/m2",
                           bw_significant(page, test->wetting, 3)),
                 where);
    bw_page_pair(page, "    both ways",
                 bw_drying_time(page, &worst->dry_both, test->wetting));
    if (beside)
        return;
    bw_page_pair(page, "    outwards only",
                 bw_drying_time(page, &worst->dry_outwards, test->wetting));
    bw_page_pair(page, "    inwards only",
                 bw_drying_time(page, &worst->dry_inwards, test->wetting));
}

/* ---- do they agree ------------------------------------------------------ */

typedef struct findings {
    size_t beyond;     /* figures of the method beyond their limits */
    const char *first; /* title of the first of them */
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
            f.first = c->title;
    }
    return f;
}

static const char *figures(bw_page *page, size_t count)
{
    return count == 1 ? "one figure is"
                      : bw_phrase(page, "%zu figures are", count);
}

static void print_agreement(bw_page *page, const bw_assessment *assessment)
{
    const findings months = find(assessment, "monthly");
    const findings hours = find(assessment, "transient");
    const char *text;
    if (months.beyond == 0 && hours.beyond == 0)
        text = bw_phrase(
            page, "agrees: neither has a figure that fails%s",
            hours.marginal > 0 ? "; the simulation has marginal ones" : "");
    else if (months.beyond > 0 && hours.beyond > 0)
        text = bw_phrase(page,
                         "agrees: both fail (by months %s beyond the limit, "
                         "first: %s)",
                         figures(page, months.beyond), months.first);
    else if (months.beyond > 0)
        text = bw_phrase(page,
                         "differs: by months %s beyond the limit (first: %s), "
                         "in the simulation none fails",
                         figures(page, months.beyond), months.first);
    else
        text = bw_phrase(page,
                         "differs: every monthly figure is within its limit, "
                         "in the simulation %s beyond (first: %s), and it "
                         "decides",
                         figures(page, hours.beyond), hours.first);
    bw_page_pair(page, "Against the simulation", text);
}

/* ---- the block ---------------------------------------------------------- */

static void print_screening(bw_page *page, const bw_assessment *assessment)
{
    if (assessment->scope_count > 0)
        bw_page_text(
            page, 2, 2,
            bw_phrase(page,
                      "The monthly results are a screening only: this "
                      "wall goes beyond the method in %zu way%s, listed "
                      "under \"What the monthly method cannot see\".",
                      assessment->scope_count,
                      assessment->scope_count == 1 ? "" : "s"));
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
        return "no simulation stands beside them";
    return is_asked_for(assessment) ? "they decide, too, as the rule set asks"
                                    : "cross-check";
}

void bw_print_by_months(bw_page *page, const bw_assessment *assessment)
{
    const bool beside = bw_is_simulated(assessment);
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 bw_phrase(page, "By months (Glaser, ISO 13788): %s",
                           place_beside(assessment)));
    bw_page_bold(page, false);
    print_screening(page, assessment);
    print_peak(page, assessment);
    print_reserve(page, assessment);
    print_drying(page, assessment, beside);
    if (beside)
        print_agreement(page, assessment);
}
