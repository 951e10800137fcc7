/* What a reader must know, on the first screen: the verdict and why, the
 * figures of the method that decides, those of the months beside it, what it
 * rests on, and what would change it. */

#include <string.h>

#include "names.h"
#include "parts.h"

static void print_title(bw_page *page, const bw_assessment *assessment)
{
    const bw_assembly *assembly = assessment->assembly;
    const bw_climate *climate = assessment->climate;
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 assembly->title[0] != '\0' ? assembly->title : assembly->id);
    bw_page_bold(page, false);
    bw_page_text(
        page, 0, 2,
        bw_phrase(page, "%s in %s; climate: %s", assembly->id, assembly->file,
                  climate->place[0] != '\0' ? climate->place : climate->file));
    bw_page_blank(page);
}

static void print_verdict(bw_page *page, const bw_assessment *assessment)
{
    bw_page_bold(page, true);
    bw_page_text(
        page, 0, 2,
        bw_phrase(page, "Verdict: %s", bw_verdict_text(assessment->verdict)));
    bw_page_bold(page, false);
    bw_page_text(page, 2, 2, assessment->verdict_reason);
    bw_print_not_simulated(page, assessment);
    const char *year = bw_year_caution(assessment);
    if (year != NULL)
        bw_page_text(page, 2, 2, year);
    bw_page_blank(page);
}

static const char *advice_months(bw_page *page, double months)
{
    return months < 0.0
               ? "not in 10 years"
               : bw_phrase(page, "%s months", bw_fixed(page, months, 1));
}

static const char *advice_outcome(bw_page *page, const bw_advice *advice)
{
    const char *reserve = advice->has_reserve_after
                              ? bw_phrase(
                                    page, "by months reserve %s a year",
                                    bw_amount(page, advice->reserve_after))
                              : "by months reserve not assessed";
    if (!advice->has_dry_after)
        return bw_phrase(page, "%s; time to dry not assessed", reserve);
    return bw_phrase(page, "%s; time to dry both ways %s, inwards only %s",
                     reserve, advice_months(page, advice->dry_both_after),
                     advice_months(page, advice->dry_inwards_after));
}

/* "; title from 5.30 to 1.20 kg/m2", of the criterion that gains most. */
static const char *advice_figure(bw_page *page, const bw_advice *advice)
{
    if (advice->criterion == NULL)
        return "";
    const bool plain = strcmp(advice->unit, "-") == 0;
    return bw_phrase(page, "%s from %s to %s%s%s; ", advice->criterion,
                     bw_significant(page, advice->before, 3),
                     bw_significant(page, advice->after, 3), plain ? "" : " ",
                     plain ? "" : advice->unit);
}

static void print_one_advice(bw_page *page, size_t number,
                             const bw_advice *advice)
{
    const char *change = advice->change;
    size_t length = strlen(change);
    if (length > 0 && change[length - 1] == '.')
        length--;
    const char *marginal = "";
    if (advice->marginal_before > 0 || advice->marginal_after > 0)
        marginal = bw_phrase(page, ", marginal %zu instead of %zu",
                             advice->marginal_after, advice->marginal_before);
    const char *unknown = advice->not_assessed_after > 0
                              ? bw_phrase(page, ", %zu not assessed",
                                          advice->not_assessed_after)
                              : "";
    bw_page_text(
        page, 2, 5,
        bw_phrase(page,
                  "%zu. %.*s: %scriteria that fail %zu instead of %zu%s%s; %s.",
                  number, (int)length, change, advice_figure(page, advice),
                  advice->fails_after, advice->fails_before, marginal, unknown,
                  advice_outcome(page, advice)));
}

static void print_advice(bw_page *page, const bw_assessment *assessment)
{
    const size_t tried = assessment->changes_tried;
    const char *pair = assessment->pair_tried ? ", nor the best two together,"
                                              : "";
    if (tried == 0 && assessment->advice_count == 0)
        return;
    bw_page_blank(page);
    if (assessment->advice_count == 0) {
        bw_page_text(page, 0, 2,
                     bw_phrase(page,
                               "What would change it: none of the %zu changes "
                               "computed for this wall%s helps enough to say.",
                               tried, pair));
        return;
    }
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 "What would change it (each computed for this wall)");
    bw_page_bold(page, false);
    if (!assessment->advice_mends)
        bw_page_text(page, 2, 2,
                     bw_phrase(page,
                               "None of the %zu changes computed for this "
                               "wall%s mends it; what helps most:",
                               tried, pair));
    for (size_t i = 0; i < assessment->advice_count; i++)
        print_one_advice(page, i + 1, &assessment->advice[i]);
}

void bw_print_summary(bw_page *page, const bw_assessment *assessment,
                      const bw_report_options *options)
{
    print_title(page, assessment);
    print_verdict(page, assessment);
    if (assessment->section_count > 0) {
        bw_print_simulated(page, assessment);
        if (bw_is_simulated(assessment))
            bw_page_blank(page);
        bw_print_by_months(page, assessment);
    }
    bw_print_mind(page, assessment, options);
    print_advice(page, assessment);
}
