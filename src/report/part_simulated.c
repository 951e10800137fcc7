/* How a wetted wall dries in the simulation, both ways and each way alone. */

#include <math.h>

#include "names.h"
#include "part.h"

/* Both ways; one that never dries is slower than any that does. */
static double slowness(const bw_section_assessment *part)
{
    const bw_section_wetting *test = &part->wetting_test;
    if (!part->has_transient || !test->ran)
        return -(double)INFINITY;
    const double months = bw_wetting_test_months(test, &test->both);
    return months >= 0.0 ? months : 1e6 + test->both.left;
}

static double slowness_by_ways(const bw_section_assessment *part)
{
    return part->wetting_test.one_way ? slowness(part) : -(double)INFINITY;
}

/* By more than what is printed. */
static bool is_sooner(const bw_section_wetting *test,
                      const bw_wetting_result *way)
{
    const double both = bw_wetting_test_months(test, &test->both);
    const double alone = bw_wetting_test_months(test, way);
    return alone >= 0.0 && (both < 0.0 || alone < both - 0.1);
}

static const char *answer(const bw_section_wetting *test)
{
    const bool both = bw_wetting_test_months(test, &test->both) >= 0.0;
    if (!test->one_way)
        return both ? "it dries" : "it does not dry";
    const bool out = bw_wetting_test_months(test, &test->outwards) >= 0.0;
    const bool in = bw_wetting_test_months(test, &test->inwards) >= 0.0;
    if (out && in)
        return "outwards and inwards, it dries both ways";
    if (out)
        return "outwards, not inwards";
    if (in)
        return "inwards, not outwards";
    return both ? "only with both ways open" : "neither way, it does not dry";
}

static void say_way(bw_page *page, const char *name,
                    const bw_section_wetting *test,
                    const bw_wetting_result *way)
{
    bw_pair(page, bw_phrase(page, "    %s", name), "%s",
            bw_wetting_time(page, test, way));
}

static void say_not_tested(bw_page *page, const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (part->has_transient && !part->wetting_test.ran &&
            part->wetting_test.reason[0] != '\0')
            bw_text(page, "Not tested%s: %s.",
                    bw_in_section(page, assessment, part),
                    part->wetting_test.reason);
    }
}

static void say_test(bw_page *page, const bw_assessment *assessment,
                     const bw_section_assessment *part)
{
    const bw_section_wetting *test = &part->wetting_test;
    bw_text(page, "%.3g kg/m2 of water put %s%s in %s:", test->water,
            bw_plane_text(page, part->transient_section, test->place),
            bw_in_section(page, assessment, part), bw_month_name(test->month));
    say_way(page, "both ways", test, &test->both);
    if (!test->one_way)
        return;
    say_way(page, "outwards only", test, &test->outwards);
    say_way(page, "inwards only", test, &test->inwards);
    if (is_sooner(test, &test->outwards) || is_sooner(test, &test->inwards))
        bw_under(page, "One way is sooner than both: the face that is closed "
                       "keeps out the vapour of its side, too.");
}

/* The slowest, if it never dries: nothing else counts then. Else of those
 * followed each way alone, as a stud is not. */
static const bw_section_assessment *choose(const bw_assessment *assessment,
                                           const bw_section_assessment *slowest)
{
    const bw_section_assessment *told = bw_worst_section(assessment,
                                                         slowness_by_ways);
    return told == NULL || slowness(slowest) >= 1e6 ? slowest : told;
}

BW_PART(simulated, NULL)
{
    const bw_assessment *assessment = of->wall[0];
    const bw_section_assessment *slowest = bw_worst_section(assessment,
                                                            slowness);
    if (!bw_is_simulated(assessment))
        return;
    const bw_section_assessment *told = slowest != NULL
                                            ? choose(assessment, slowest)
                                            : NULL;
    bw_lead(page, "How it dries: %s (simulated hour by hour, EN 15026)",
            told != NULL ? answer(&told->wetting_test) : "not tested");
    say_not_tested(page, assessment);
    if (told == NULL)
        return;
    say_test(page, assessment, told);
    if (told != slowest)
        bw_text(page, "Slower%s, both ways: %s.",
                bw_in_section(page, assessment, slowest),
                bw_wetting_time(page, &slowest->wetting_test,
                                &slowest->wetting_test.both));
}
