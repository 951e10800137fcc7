/* The simulation beside the monthly screening. */

#include <math.h>

#include "grid.h"
#include "names.h"
#include "parts.h"

static const bw_grid_column beside_columns[] = {
    {.title = "Question", .wraps = true},
    {.title = "Monthly method", .wraps = true},
    {.title = "Hourly simulation", .wraps = true},
};

static const char *monthly_course(bw_page *page, const bw_monthly_result *run)
{
    if (run->plane_count == 0)
        return "not assessed";
    if (run->accumulates)
        return bw_phrase(page, "rises by %s g/m2 a year",
                         bw_grams(page, run->growth));
    if (run->peak <= 0.0)
        return "no condensate";
    return bw_phrase(page, "up to %s g/m2, %s left after a year",
                     bw_grams(page, run->peak),
                     bw_grams(page, run->residual_first));
}

static const char *simulated_course(bw_page *page,
                                    const bw_transient_result *run)
{
    bool one = run->years == 1, falls = run->yearly_change < 0.0;
    if (run->periodic)
        return bw_phrase(page, "repeats after %d year%s", run->years,
                         one ? "" : "s");
    const char *still = !one && (falls || run->rising) ? "still " : "";
    const char *grams = bw_grams(page, falls ? -run->yearly_change
                                             : run->yearly_change);
    const char *when = one ? "the only year"
                           : bw_phrase(page, "the last of %d years",
                                       run->years);
    return bw_phrase(page, "%s%s by %s g/m2 in %s", still,
                     falls ? "falls" : "rises", grams, when);
}

static const char *highest_monthly(bw_page *page, const bw_section *section,
                                   const bw_monthly_result *run)
{
    double highest = 0.0;
    size_t at = 0;
    int when = 0;
    for (size_t i = 0; i < run->plane_count; i++)
        for (int month = 0; month < BW_MONTHS; month++)
            if (run->plane[i].month[month].relative_humidity > highest) {
                highest = run->plane[i].month[month].relative_humidity;
                at = i;
                when = month;
            }
    if (run->plane_count == 0)
        return "-";
    return bw_phrase(page, "%s %%, %s, %s", bw_fixed(page, highest * 100.0, 0),
                     bw_plane_text(page, section, run->plane[at].at),
                     bw_month_name(when));
}

/* Rain-wet cladding beyond a ventilated cavity says nothing about the wall
 * that the monthly method checks: the places from that cavity inwards. */
static bool checked_place(const bw_section *section, const bw_monitor *monitor)
{
    return !monitor->outer_face && monitor->slab + 1 >= section->dropped_layers;
}

static const char *highest_simulated(bw_page *page, const bw_section *section,
                                     const bw_transient_result *run)
{
    double highest = 0.0;
    size_t at = 0;
    int when = 0;
    for (size_t i = 0; i < run->monitor_count; i++)
        for (int month = 0; month < BW_MONTHS; month++)
            if (checked_place(section, &run->monitor[i]) &&
                run->monitor[i].month_rh[month] > highest) {
                highest = run->monitor[i].month_rh[month];
                at = i;
                when = month;
            }
    if (run->monitor_count == 0)
        return "-";
    return bw_phrase(page, "%s %%, %s, %s", bw_fixed(page, highest * 100.0, 0),
                     bw_monitor_text(page, run, at), bw_month_name(when));
}

static void print_beside(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    bw_grid grid;
    bw_grid_start(&grid, page, beside_columns,
                  sizeof beside_columns / sizeof beside_columns[0]);
    const char **cell = bw_grid_add(&grid);
    cell[0] = "Water over the years";
    cell[1] = monthly_course(page, &section->design);
    cell[2] = simulated_course(page, run);
    cell = bw_grid_add(&grid);
    cell[0] = "Highest monthly mean RH";
    cell[1] = highest_monthly(page, section->section, &section->design);
    cell[2] = highest_simulated(page, section->section, run);
    cell = bw_grid_add(&grid);
    cell[0] = "Left in a year, g/m2";
    cell[1] = "-";
    cell[2] = bw_phrase(page, "outwards %s, inwards %s",
                        bw_grams(page, run->left_outwards),
                        bw_grams(page, run->left_inwards));
    cell = bw_grid_add(&grid);
    cell[0] = "Entered in a year, g/m2";
    cell[1] = "-";
    cell[2] = bw_phrase(page, "rain taken up %s, rain leak %s, air leak %s",
                        bw_grams(page, run->rain_absorbed),
                        bw_grams(page, run->leak_rain),
                        bw_grams(page, run->leak_convective));
    bw_grid_print(&grid);
}

static const bw_grid_column place_columns[] = {
    {.title = "Place", .wraps = true},
    {.title = "highest RH %", .right = true},
    {.title = "hours over 80 %", .right = true},
    {.title = "over 90 %", .right = true},
    {.title = "over 95 %", .right = true},
    {.title = "mould index", .right = true},
    {.title = "by slow decline", .right = true},
    {.title = "standing water g/m2", .right = true},
};

/* With the last year repeated, where that was done. */
static void fill_mould(bw_page *page, const char **cell,
                       const bw_section_assessment *section, size_t i)
{
    const bool repeated = section->mould != NULL;
    cell[0] = bw_fixed(page,
                       repeated ? section->mould[i].highest
                                : section->transient.monitor[i].highest_mould,
                       2);
    cell[1] = repeated ? bw_fixed(page, section->mould[i].highest_slow, 2)
                       : "-";
}

static void print_places(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    bw_grid grid;
    bw_grid_start(&grid, page, place_columns,
                  sizeof place_columns / sizeof place_columns[0]);
    for (size_t i = 0; i < run->monitor_count; i++) {
        const bw_monitor *m = &run->monitor[i];
        const char **cell = bw_grid_add(&grid);
        cell[0] = bw_monitor_text(page, run, i);
        cell[1] = bw_fixed(page, m->highest_rh * 100.0, 0);
        cell[2] = bw_fixed(page, m->hours_above_80, 0);
        cell[3] = bw_fixed(page, m->hours_above_90, 0);
        cell[4] = bw_fixed(page, m->hours_above_95, 0);
        fill_mould(page, &cell[5], section, i);
        cell[7] = bw_grams(page,
                           fmax(m->first_free.largest, m->last_free.largest));
    }
    bw_page_blank(page);
    bw_grid_print(&grid);
    bw_page_text(
        page, 2, 2,
        "RH and hours of the last year; mould with that year repeated, "
        "by the decline of its class and by the slow one of ASHRAE "
        "160; the most water that stood in the first or the last "
        "year.");
}

static void print_wood(bw_page *page, const bw_transient_result *run)
{
    for (size_t i = 0; i < run->slab_count; i++) {
        const bw_slab_moisture *slab = &run->slab[i];
        if (slab->is_wood)
            bw_page_text(
                page, 2, 4,
                bw_phrase(
                    page,
                    "%s: at most %s %% "
                    "by mass (%s), %s hours above its limit in the last "
                    "year.",
                    bw_short_name(page, bw_simulated_slab(run, i)),
                    bw_fixed(page, slab->highest_wood_moisture * 100.0, 1),
                    bw_month_name(slab->highest_month),
                    bw_fixed(page, slab->hours_above_limit, 0)));
    }
}

static const char *drying(bw_page *page, const bw_slab_moisture *slab)
{
    const char *limit = bw_fixed(page, slab->limit * 100.0, 0);
    if (slab->weeks_to_limit < 0.0)
        return bw_phrase(page, "not below %s %% for good", limit);
    if (slab->weeks_to_limit == 0.0)
        return bw_phrase(page, "never above %s %%", limit);
    return bw_phrase(page, "below %s %% for good after %s weeks", limit,
                     bw_fixed(page, ceil(slab->weeks_to_limit), 0));
}

static void print_first_year(bw_page *page, const bw_transient_result *run)
{
    bool any = false;
    for (size_t i = 0; i < run->slab_count; i++) {
        const bw_slab_moisture *slab = &run->slab[i];
        if (!slab->is_wood)
            continue;
        if (!any)
            bw_page_text(page, 2, 2, "First year:");
        any = true;
        bw_page_text(
            page, 2, 4,
            bw_phrase(
                page, "%s: at most %s %% by mass (%s), %s.",
                bw_short_name(page, bw_simulated_slab(run, i)),
                bw_fixed(page, slab->first_highest_wood_moisture * 100.0, 1),
                bw_month_name(slab->first_highest_month), drying(page, slab)));
    }
}

static void print_convergence(bw_page *page, const bw_transient_convergence *c)
{
    bw_page_text(
        page, 2, 2,
        bw_phrase(page,
                  "Convergence, largest change at any hour of a year and any "
                  "interface: with a tenth of the tolerance %s K, %s points of "
                  "RH and %s g/m2 of water at the year's end; with every cell "
                  "halved %s K, %s points and %s g/m2.",
                  bw_significant(page, c->theta_time, 2),
                  bw_significant(page, 100.0 * c->phi_time, 2),
                  bw_grams(page, c->water_time),
                  bw_significant(page, c->theta_grid, 2),
                  bw_significant(page, 100.0 * c->phi_grid, 2),
                  bw_grams(page, c->water_grid)));
}

static void print_section(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    bw_page_subheading(page,
                       bw_phrase(page, "Section %s", section->section->name));
    if (!section->has_transient) {
        bw_page_text(page, 2, 2,
                     bw_phrase(page, "Not simulated: %s.",
                               section->transient_reason != NULL
                                   ? section->transient_reason
                                   : "not asked for"));
        return;
    }
    print_beside(page, section);
    print_places(page, section);
    print_wood(page, run);
    print_first_year(page, run);
    if (run->synthetic_climate)
        bw_page_text(page, 2, 2,
                     "The hours are synthetic, generated from monthly "
                     "means: no weather station measured them.");
    if (run->method != NULL && run->method[0] != '\0')
        bw_page_text(page, 2, 2, run->method);
    for (size_t i = 0; i < run->note_count; i++)
        bw_page_item(page, run->note[i]);
    bw_page_text(page, 2, 2,
                 bw_phrase(page,
                           "Balance errors relative to the throughput: water "
                           "%s, heat %s; %zu steps, %zu cells.",
                           bw_significant(page, run->water_balance_error, 2),
                           bw_significant(page, run->energy_balance_error, 2),
                           run->steps, run->cells));
    if (section->has_convergence)
        print_convergence(page, &section->convergence);
}

void bw_print_transient(bw_page *page, const bw_assessment *assessment)
{
    bool any = false;
    for (size_t i = 0; i < assessment->section_count; i++)
        any = any || assessment->section[i].has_transient ||
              assessment->section[i].transient_reason != NULL;
    if (!any)
        return;
    bw_page_heading(page, "Hourly simulation (EN 15026) beside the monthly "
                          "method");
    for (size_t i = 0; i < assessment->section_count; i++)
        print_section(page, &assessment->section[i]);
}
