/* The simulation beside the monthly screening. */

#include <math.h>

#include "grid.h"
#include "names.h"
#include "part.h"

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

/* The highest monthly mean so far. */
typedef struct highest {
    double rh;
    size_t place;
    int month;
} highest;

static void look(highest *so_far, double rh, size_t place, int month)
{
    if (rh > so_far->rh)
        *so_far = (highest){rh, place, month};
}

static const char *highest_monthly(bw_page *page, const bw_section *section,
                                   const bw_monthly_result *run)
{
    highest h = {0.0, 0, 0};
    for (size_t i = 0; i < run->plane_count; i++)
        for (int m = 0; m < BW_MONTHS; m++)
            look(&h, run->plane[i].month[m].relative_humidity, i, m);
    if (run->plane_count == 0)
        return "-";
    return bw_phrase(page, "%.0f %%, %s, %s", h.rh * 100.0,
                     bw_plane_text(page, section, run->plane[h.place].at),
                     bw_month_name(h.month));
}

/* Rain-wet cladding beyond a ventilated cavity says nothing about the wall
 * that the monthly method checks: the places from that cavity inwards. */
static const char *highest_simulated(bw_page *page, const bw_section *section,
                                     const bw_transient_result *run)
{
    highest h = {0.0, 0, 0};
    for (size_t i = 0; i < run->monitor_count; i++)
        for (int m = 0; m < BW_MONTHS; m++)
            if (!run->monitor[i].outer_face &&
                run->monitor[i].slab + 1 >= section->dropped_layers)
                look(&h, run->monitor[i].month_rh[m], i, m);
    if (run->monitor_count == 0)
        return "-";
    return bw_phrase(page, "%.0f %%, %s, %s", h.rh * 100.0,
                     bw_monitor_text(page, run, h.place),
                     bw_month_name(h.month));
}

static void add_question(bw_grid *g, const char *question, const char *months,
                         const char *hours)
{
    bw_grid_row_start(g);
    bw_words(g, "Question", question);
    bw_words(g, "Monthly method", months);
    bw_words(g, "Hourly simulation", hours);
}

static void put_beside(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    bw_grid g = {.page = page};
    add_question(&g, "Water over the years",
                 monthly_course(page, &section->run[BW_RUN_DESIGN].result),
                 simulated_course(page, run));
    add_question(&g, "Highest monthly mean RH",
                 highest_monthly(page, section->section,
                                 &section->run[BW_RUN_DESIGN].result),
                 highest_simulated(page, section->section, run));
    add_question(&g, "Left in a year, g/m2", "-",
                 bw_phrase(page, "outwards %s, inwards %s",
                           bw_grams(page, run->left_outwards),
                           bw_grams(page, run->left_inwards)));
    add_question(&g, "Entered in a year, g/m2", "-",
                 bw_phrase(page, "rain taken up %s, rain leak %s, air leak %s",
                           bw_grams(page, run->rain_absorbed),
                           bw_grams(page, run->leak_rain),
                           bw_grams(page, run->leak_convective)));
    bw_grid_print(&g);
}

/* Mould with the last year repeated, where that was done. */
static void put_places(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    const bool repeated = section->mould != NULL;
    bw_grid g = {.page = page};
    for (size_t i = 0; i < run->monitor_count; i++) {
        const bw_monitor *m = &run->monitor[i];
        bw_grid_row_start(&g);
        bw_words(&g, "Place", bw_monitor_text(page, run, i));
        bw_number(&g, "highest RH %", "%.0f", m->highest_rh * 100.0);
        bw_number(&g, "hours over 80 %", "%.0f", m->hours_above_80);
        bw_number(&g, "over 90 %", "%.0f", m->hours_above_90);
        bw_number(&g, "over 95 %", "%.0f", m->hours_above_95);
        bw_number(&g, "mould index", "%.2f",
                  repeated ? section->mould[i].highest : m->highest_mould);
        bw_number(&g, "by slow decline", "%.2f",
                  repeated ? section->mould[i].highest_slow : (double)NAN);
        bw_number(
            &g, "standing water g/m2", "%s",
            bw_grams(page, fmax(m->first_free.largest, m->last_free.largest)));
    }
    bw_blank(page);
    bw_grid_print(&g);
    bw_text(page,
            "RH and hours of the last year; mould with that year repeated, by "
            "the decline of its class and by the slow one of ASHRAE 160; the "
            "most water that stood in the first or the last year.");
}

static void say_wood(bw_page *page, const bw_transient_result *run)
{
    for (size_t i = 0; i < run->slab_count; i++) {
        const bw_slab_moisture *slab = &run->slab[i];
        if (slab->is_wood)
            bw_hang(page,
                    "%s: at most %.1f %% by mass (%s), %.0f hours above its "
                    "limit in the last year.",
                    bw_short_name(page, bw_simulated_slab(run, i)),
                    slab->highest_wood_moisture * 100.0,
                    bw_month_name(slab->highest_month),
                    slab->hours_above_limit);
    }
}

static void say_first_year(bw_page *page, const bw_transient_result *run)
{
    bool any = false;
    for (size_t i = 0; i < run->slab_count; i++) {
        const bw_slab_moisture *slab = &run->slab[i];
        if (!slab->is_wood)
            continue;
        if (!any)
            bw_text(page, "First year:");
        any = true;
        bw_hang(page, "%s: at most %.1f %% by mass (%s), %s.",
                bw_short_name(page, bw_simulated_slab(run, i)),
                slab->first_highest_wood_moisture * 100.0,
                bw_month_name(slab->first_highest_month),
                bw_wood_drying(page, slab));
    }
}

static void say_convergence(bw_page *page, const bw_transient_convergence *c)
{
    bw_text(
        page,
        "Convergence, largest change at any hour of a year and any "
        "interface: with a tenth of the tolerance %.2g K, %.2g points of RH "
        "and %s g/m2 of water at the year's end; with every cell halved "
        "%.2g K, %.2g points and %s g/m2.",
        c->theta_time, 100.0 * c->phi_time, bw_grams(page, c->water_time),
        c->theta_grid, 100.0 * c->phi_grid, bw_grams(page, c->water_grid));
}

static void put_section(bw_page *page, const bw_section_assessment *section)
{
    const bw_transient_result *run = &section->transient;
    bw_subheading(page, "Section %s", section->section->name);
    if (!section->has_transient) {
        bw_text(page, "Not simulated: %s.",
                section->transient_reason != NULL ? section->transient_reason
                                                  : "not asked for");
        return;
    }
    put_beside(page, section);
    put_places(page, section);
    say_wood(page, run);
    say_first_year(page, run);
    if (run->synthetic_climate)
        bw_text(page, "The hours are synthetic, generated from monthly means: "
                      "no weather station measured them.");
    if (run->method != NULL && run->method[0] != '\0')
        bw_text(page, "%s", run->method);
    for (size_t i = 0; i < run->note_count; i++)
        bw_item(page, "%s", run->note[i]);
    bw_text(page,
            "Balance errors relative to the throughput: water %.2g, heat %.2g; "
            "%zu steps, %zu cells.",
            run->water_balance_error, run->energy_balance_error, run->steps,
            run->cells);
    if (section->has_convergence)
        say_convergence(page, &section->convergence);
}

/* Of a section, or a reason why not is told. */
static bool is_known(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient ||
            assessment->section[i].transient_reason != NULL)
            return true;
    return false;
}

BW_PART(transient, "Hourly simulation (EN 15026) beside the monthly method")
{
    const bw_assessment *assessment = of->wall[0];
    for (size_t i = 0; is_known(assessment) && i < assessment->section_count;
         i++)
        put_section(page, &assessment->section[i]);
}
