/* The figures that decide, on the first screen: of a simulated wall its
 * wettest wood, its highest mould index, the most water that stands, and how
 * it dries. Of the sections the worst is named. */

#include <math.h>
#include <string.h>

#include "bothways/geography.h"
#include "names.h"
#include "parts.h"

#define NO_WATER 5e-5 /* kg/m2: prints as 0.0 g/m2 */

/* What lies outside the weather line is weathered anyway. */
static size_t weather_line(const bw_assessment *assessment,
                           const bw_section_assessment *part)
{
    bw_geography geography;
    bw_geography_find(&geography, assessment->assembly,
                      part->transient_section);
    return geography.first;
}

/* ---- wood -------------------------------------------------------------- */

typedef struct wettest {
    const bw_section_assessment *part;
    const bw_slab_moisture *slab;
    size_t index;
    double moisture; /* kg/kg */
    int month;
    bool first_year;
} wettest;

static void look_at_wood(wettest *worst, const bw_section_assessment *part,
                         size_t from)
{
    const bw_transient_result *run = &part->transient;
    for (size_t k = from; k < run->slab_count; k++) {
        const bw_slab_moisture *slab = &run->slab[k];
        const double last = slab->highest_wood_moisture;
        const bool first = slab->first_highest_wood_moisture > last;
        const double most = first ? slab->first_highest_wood_moisture : last;
        if (slab->is_wood && (worst->slab == NULL || most > worst->moisture))
            *worst = (wettest){
                part,
                slab,
                k,
                most,
                first ? slab->first_highest_month : slab->highest_month,
                first};
    }
}

static void print_wood(bw_page *page, const bw_assessment *assessment)
{
    wettest worst = {.slab = NULL};
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (part->has_transient)
            look_at_wood(&worst, part, weather_line(assessment, part));
    }
    if (worst.slab == NULL) {
        bw_page_pair(page, "Wettest wood", "no wood inside the weather line");
        return;
    }
    const char *later =
        worst.first_year
            ? bw_phrase(
                  page, "; %s %% in the last year",
                  bw_fixed(page, 100.0 * worst.slab->highest_wood_moisture, 1))
            : "";
    bw_page_pair(
        page, "Wettest wood",
        bw_phrase(page, "%s %% by mass, %s, in %s of the %s year%s%s",
                  bw_fixed(page, 100.0 * worst.moisture, 1),
                  bw_short_name(page, bw_simulated_slab(&worst.part->transient,
                                                        worst.index)),
                  bw_month_name(worst.month),
                  worst.first_year ? "first" : "last", later,
                  bw_in_section(page, assessment, worst.part)));
}

/* ---- mould and water at a place ----------------------------------------- */

/* A place of one section. */
typedef struct spot {
    const bw_section_assessment *part;
    size_t monitor;
    double value;
} spot;

static double mould_of(const bw_section_assessment *part, size_t monitor)
{
    return part->mould != NULL ? part->mould[monitor].highest
                               : part->transient.monitor[monitor].highest_mould;
}

static double water_of(const bw_section_assessment *part, size_t monitor)
{
    const bw_monitor *m = &part->transient.monitor[monitor];
    return fmax(m->first_free.largest, m->last_free.largest);
}

static spot highest(const bw_assessment *assessment, bool room_face,
                    double (*value)(const bw_section_assessment *, size_t))
{
    spot worst = {.part = NULL};
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (!part->has_transient)
            continue;
        /* what stands in a ventilated cavity runs off */
        const size_t first = weather_line(assessment, part) +
                             (value == water_of);
        for (size_t k = 0; k < part->transient.monitor_count; k++) {
            const bw_monitor *m = &part->transient.monitor[k];
            if (m->outer_face || m->slab + 1 < first ||
                (m->room_face && !room_face))
                continue;
            if (worst.part == NULL || value(part, k) > worst.value)
                worst = (spot){part, k, value(part, k)};
        }
    }
    return worst;
}

static void print_mould(bw_page *page, const bw_assessment *assessment)
{
    const spot worst = highest(assessment, true, mould_of);
    if (worst.part == NULL) {
        bw_page_pair(page, "Highest mould index", "no place watched");
        return;
    }
    const bw_place_mould *both = worst.part->mould != NULL
                                     ? &worst.part->mould[worst.monitor]
                                     : NULL;
    const char *slow = both != NULL && both->highest_slow > both->highest
                           ? bw_phrase(page,
                                       "; %s with the decline of ASHRAE 160",
                                       bw_fixed(page, both->highest_slow, 2))
                           : "";
    bw_page_pair(
        page, "Highest mould index",
        bw_phrase(page, "%s of 6, %s%s%s", bw_fixed(page, worst.value, 2),
                  bw_monitor_text(page, &worst.part->transient, worst.monitor),
                  slow, bw_in_section(page, assessment, worst.part)));
}

static void print_water(bw_page *page, const bw_assessment *assessment)
{
    const spot worst = highest(assessment, false, water_of);
    if (worst.part == NULL || worst.value < NO_WATER) {
        bw_page_pair(page, "Most standing water",
                     worst.part == NULL ? "no place watched" : "none");
        return;
    }
    const bw_monitor *m = &worst.part->transient.monitor[worst.monitor];
    const bool first = m->first_free.largest > m->last_free.largest;
    const int month = first ? m->first_free.month : m->last_free.month;
    bw_page_pair(
        page, "Most standing water",
        bw_phrase(page, "%s in %s of the %s year, %s%s",
                  bw_amount(page, worst.value), bw_month_name(month),
                  first ? "first" : "last",
                  bw_monitor_text(page, &worst.part->transient, worst.monitor),
                  bw_in_section(page, assessment, worst.part)));
}

/* ---- drying ------------------------------------------------------------ */

static double slowness(const bw_section_wetting *test)
{
    const double months = bw_wetting_test_months(test, &test->both);
    return months >= 0.0 ? months : 1e6 + test->both.left;
}

/* NULL where the test ran nowhere. */
static const bw_section_assessment *
slowest_wetting(const bw_assessment *assessment)
{
    const bw_section_assessment *worst = NULL;
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (part->has_transient && part->wetting_test.ran &&
            (worst == NULL ||
             slowness(&part->wetting_test) > slowness(&worst->wetting_test)))
            worst = part;
    }
    return worst;
}

/* By more than what is printed. */
static bool is_sooner(const bw_section_wetting *test,
                      const bw_wetting_result *way)
{
    const double both = bw_wetting_test_months(test, &test->both);
    const double alone = bw_wetting_test_months(test, way);
    return alone >= 0.0 && (both < 0.0 || alone < both - 0.1);
}

static void print_ways(bw_page *page, const bw_section_wetting *test)
{
    bw_page_pair(page, "    both ways",
                 bw_wetting_time(page, test, &test->both));
    if (!test->one_way)
        return;
    bw_page_pair(page, "    outwards only",
                 bw_wetting_time(page, test, &test->outwards));
    bw_page_pair(page, "    inwards only",
                 bw_wetting_time(page, test, &test->inwards));
    if (is_sooner(test, &test->outwards) || is_sooner(test, &test->inwards))
        bw_page_text(page, 4, 4,
                     "One way is sooner than both: the face that is closed "
                     "keeps out the vapour of its side, too.");
}

static void print_wetting(bw_page *page, const bw_assessment *assessment)
{
    const bw_section_assessment *worst = slowest_wetting(assessment);
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        if (part->has_transient && !part->wetting_test.ran &&
            part->wetting_test.reason[0] != '\0')
            bw_page_pair(page, "To dry after a wetting",
                         bw_phrase(page, "not tested%s: %s",
                                   bw_in_section(page, assessment, part),
                                   part->wetting_test.reason));
    }
    if (worst == NULL)
        return;
    const bw_section_wetting *test = &worst->wetting_test;
    bw_page_pair(
        page,
        bw_phrase(page, "To dry %s kg/m2",
                  bw_significant(page, test->water, 3)),
        bw_phrase(page, "simulated, put in %s %s%s", bw_month_name(test->month),
                  bw_plane_text(page, worst->transient_section, test->place),
                  bw_in_section(page, assessment, worst)));
    print_ways(page, test);
}

bool bw_is_simulated(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient)
            return true;
    return false;
}

void bw_print_simulated(bw_page *page, const bw_assessment *assessment)
{
    if (!bw_is_simulated(assessment))
        return;
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2, "Simulated hour by hour (EN 15026): what decides");
    bw_page_bold(page, false);
    print_wood(page, assessment);
    print_mould(page, assessment);
    print_water(page, assessment);
    print_wetting(page, assessment);
}

static void print_reasons(bw_page *page, const bw_assessment *assessment,
                          bool some)
{
    const char *last = "";
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *part = &assessment->section[i];
        const char *reason = part->transient_reason;
        if (part->has_transient || reason == NULL || reason[0] == '\0' ||
            strcmp(reason, last) == 0 ||
            strstr(assessment->verdict_reason, reason) != NULL)
            continue; /* said already */
        last = reason;
        bw_page_text(
            page, 2, 2,
            bw_phrase(page, "Not simulated%s: %s.",
                      some ? bw_in_section(page, assessment, part) : "",
                      reason));
    }
}

void bw_print_not_simulated(bw_page *page, const bw_assessment *assessment)
{
    const bool some = bw_is_simulated(assessment);
    if (assessment->room_reason != NULL || assessment->section_count == 0)
        return;
    print_reasons(page, assessment, some);
    if (!some)
        bw_page_text(page, 2, 2,
                     "Without a simulation the monthly method decides alone. "
                     "It knows no rain, no liquid water moving in the layers, "
                     "no storage of vapour, no hours.");
}
