/* What would change the verdict: changes that were computed for this wall, each
 * with the figure that gains most. */

#include <string.h>

#include "names.h"
#include "part.h"

static const char *advice_months(bw_page *page, double months)
{
    return months < 0.0 ? "never" : bw_phrase(page, "%.1f months", months);
}

/* Of the months, by which changes are sought. */
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

/* A title is long for a screen: the short name of its criterion. */
static const char *title_of(bw_page *page, const bw_assessment *assessment,
                            const char *title)
{
    for (size_t i = 0; i < assessment->criterion_count; i++)
        if (page->options->extent != BW_EXTENT_FULL &&
            strcmp(assessment->criterion[i].title, title) == 0)
            return bw_plain_id(page, assessment->criterion[i].criterion);
    return title;
}

/* "title from 5.3 to 1.2 kg/m2", of the criterion that gains most. */
static const char *advice_figure(bw_page *page, const bw_assessment *assessment,
                                 const bw_advice *advice)
{
    if (advice->criterion == NULL)
        return "";
    return bw_phrase(page, "%s from %.3g to %s",
                     title_of(page, assessment, advice->criterion),
                     advice->before,
                     bw_with_unit(page, advice->after, 3, advice->unit));
}

static const char *advice_counts(bw_page *page, const bw_advice *advice)
{
    const char *failing = "", *marginal = "", *unknown = "";
    if (advice->fails_before > 0 || advice->fails_after > 0)
        failing = bw_phrase(page, "failing %zu instead of %zu",
                            advice->fails_after, advice->fails_before);
    if (advice->marginal_before > 0 || advice->marginal_after > 0)
        marginal = bw_phrase(page, "%smarginal %zu instead of %zu",
                             failing[0] != '\0' ? ", " : "",
                             advice->marginal_after, advice->marginal_before);
    if (advice->not_assessed_after > 0)
        unknown = bw_phrase(page, ", %zu not assessed",
                            advice->not_assessed_after);
    return bw_phrase(page, "%s%s%s", failing, marginal, unknown);
}

static const char *after(bw_page *page, const char *text)
{
    return text[0] != '\0' ? bw_phrase(page, "; %s", text) : "";
}

static void say_advice(bw_page *page, const bw_assessment *assessment, size_t i)
{
    const bw_advice *advice = &assessment->advice[i];
    const char *change = advice->change;
    size_t length = strlen(change);
    if (length > 0 && change[length - 1] == '.')
        length--;
    const bool full = page->options->extent == BW_EXTENT_FULL;
    const char *gain = bw_phrase(
        page, "%s%s%s", advice_figure(page, assessment, advice),
        after(page, advice_counts(page, advice)),
        full ? after(page, advice_outcome(page, advice)) : "");
    bw_step(page, "%zu. %.*s: %s.", i + 1, (int)length, change,
            gain + (gain[0] == ';' ? 2 : 0));
}

/* The last things to be left out of a screen. */
static size_t how_many(const bw_page *page, size_t count)
{
    const size_t spared = page->cut < BW_ITEMS ? 0 : page->cut - BW_ITEMS + 1;
    const size_t room = spared < BW_CHANGES ? BW_CHANGES - spared : 1;
    return page->options->extent == BW_EXTENT_FULL || count < room ? count
                                                                   : room;
}

BW_PART(advice, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    const size_t tried = assessment->changes_tried;
    const size_t shown = how_many(page, assessment->advice_count);
    const char *pair = assessment->pair_tried ? ", nor the best two together,"
                                              : "";
    if (tried == 0 && assessment->advice_count == 0)
        return;
    if (assessment->advice_count == 0) {
        bw_blank(page);
        bw_plain(page,
                 "What would change it: none of the %zu changes computed for "
                 "this wall%s helps enough to say.",
                 tried, pair);
        return;
    }
    const char *none = assessment->advice_mends
                           ? ""
                           : bw_phrase(page, ": none of %zu%s mends it", tried,
                                       pair[0] != '\0' ? ", nor two together,"
                                                       : "");
    bw_lead(page, "What would change it (computed%s%s)", none,
            shown < assessment->advice_count
                ? bw_phrase(page, "; %zu more with --full",
                            assessment->advice_count - shown)
                : "");
    for (size_t i = 0; i < shown; i++)
        say_advice(page, assessment, i);
}
