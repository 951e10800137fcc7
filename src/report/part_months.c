/* The monthly method: months at the places where water gathers, both vapour
 * directions, surfaces, air leakage. */

#include "grid.h"
#include "names.h"
#include "part.h"

/* A column for each layer whose sd changes. */
static void add_layer_sd(bw_page *page, bw_grid *g, const bw_section *section,
                         const bw_monthly_result *run, int month)
{
    for (size_t i = 0; i < section->slab_count && i < run->slab_count; i++)
        if (section->slab[i].sd_curve != NULL &&
            g->last->cells < BW_GRID_COLUMNS)
            bw_number(g,
                      bw_phrase(page, "sd m of %s",
                                bw_short_name(page, section->slab[i].label)),
                      "%.3g", run->layer_sd[i][month]);
}

static void put_plane(bw_page *page, const bw_section *section,
                      const bw_monthly_result *run, const bw_plane *plane)
{
    bw_grid g = {.page = page};
    for (int month = 0; month < BW_MONTHS; month++) {
        const bw_plane_month *m = &plane->month[month];
        bw_grid_row_start(&g);
        bw_name(&g, "Month", bw_month_name(month));
        bw_number(&g, "theta degC", "%.1f", m->theta);
        bw_number(&g, "p_sat Pa", "%.0f", m->saturation_pressure);
        bw_number(&g, "p Pa", "%.0f", m->vapour_pressure);
        bw_number(&g, "RH %", "%.0f", m->relative_humidity * 100.0);
        bw_number(&g, "condenses g/m2", "%s", bw_grams(page, m->condensation));
        bw_number(&g, "stands g/m2", "%s", bw_grams(page, m->accumulated));
        add_layer_sd(page, &g, section, run, month);
    }
    bw_grid_print(&g);
}

static const char *course(bw_page *page, const bw_monthly_result *run)
{
    if (run->accumulates)
        return bw_phrase(page,
                         "Water gathers year on year: %s g/m2 more each year.",
                         bw_grams(page, run->growth));
    if (run->periodic)
        return bw_phrase(page,
                         "After %d year%s each year repeats the last; %s g/m2 "
                         "stay from year to year.",
                         run->cycles, run->cycles == 1 ? "" : "s",
                         bw_grams(page, run->residual_last));
    return bw_phrase(
        page,
        "After %d years the years do not yet repeat; %s g/m2 stand at the end.",
        run->cycles, bw_grams(page, run->residual_last));
}

/* Every plane that holds water in some month; without one, the critical
 * plane. */
static void put_planes(bw_page *page, const bw_section *section,
                       const char *what, const bw_monthly_result *run)
{
    bool any = false;
    if (run->plane_count == 0) {
        bw_text(page, "%s, %s: not assessed.", section->name, what);
        return;
    }
    for (size_t i = 0; i < run->plane_count; i++)
        any = any || bw_holds_water(&run->plane[i]);
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane *plane = &run->plane[i];
        bool critical = !any && run->has_reserve && i == run->critical_plane;
        if (!bw_holds_water(plane) && !critical)
            continue;
        bw_subheading(page, "%s, %s: %s%s", section->name, what,
                      bw_plane_text(page, section, plane->at),
                      critical ? " (no water; the place most at risk)" : "");
        put_plane(page, section, run, plane);
    }
    bw_text(page, "%s, %s: first year from %s. %s", section->name, what,
            bw_month_name(run->start_month),
            any ? course(page, run) : "No water stands anywhere.");
    if (!run->converged)
        bw_text(page, "The humidity-variable layers did not meet their "
                      "tolerance: read these figures with reserve.");
}

BW_PART(months, "Month by month (ISO 13788)")
{
    bw_text(page,
            "theta: temperature, p: vapour pressure at the start of the month, "
            "p_sat: the most the air there can hold. Condenses below 0: dries. "
            "Stands: water there at the end of the month.");
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *s = &of->wall[0]->section[i];
        put_planes(page, s->section, "as built", &s->run[BW_RUN_DESIGN].result);
        const bw_monthly_run *inward = &s->run[BW_RUN_INWARD];
        if (inward->ran && inward->result.condenses)
            put_planes(page, s->section, "wet outer layer in the sun",
                       &inward->result);
    }
}

/* ---- both directions ---------------------------------------------------- */

static void add_drying(bw_page *page, bw_grid *g, const char *section,
                       const char *way, const bw_monthly_result *run,
                       double wetting)
{
    bw_grid_row_start(g);
    bw_words(g, "Section", section);
    bw_name(g, "Way out", way);
    bw_words(g, "Time", bw_drying_time(page, run, wetting));
    bw_name(g, "Water elsewhere meanwhile",
            run->plane_count == 0      ? "-"
            : run->condensed_elsewhere ? "yes"
                                       : "no");
}

static void put_drying(bw_page *page, const bw_assessment *assessment)
{
    const double water = assessment->assembly->drying_test.wetting;
    bw_grid g = {.page = page};
    bw_subheading(
        page, "Drying test: %.3g kg/m2 of water put at the place most at risk",
        water);
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        add_drying(page, &g, s->section->name, "both ways",
                   &s->run[BW_RUN_WETTED_BOTH].result, water);
        add_drying(page, &g, "", "outwards only",
                   &s->run[BW_RUN_WETTED_OUTWARDS].result, water);
        add_drying(page, &g, "", "inwards only",
                   &s->run[BW_RUN_WETTED_INWARDS].result, water);
    }
    bw_grid_print(&g);
}

static void say_inward(bw_page *page, const bw_section_assessment *section)
{
    const char *name = section->section->name;
    const bw_monthly_result *run = &section->run[BW_RUN_INWARD].result;
    const char *why = section->run[BW_RUN_INWARD].reason;
    const bool said = why != NULL && why[0] != '\0';
    const char *sun = section->has_sun ? " and always in the sun" : "";
    if (!section->run[BW_RUN_INWARD].ran)
        bw_hang(page, "%s: inward run not made%s%s.", name, said ? ": " : "",
                said ? why : "");
    else if (!run->condenses || run->peak_plane >= run->plane_count)
        bw_hang(page,
                "%s: with the outer layer wet%s, vapour driven inwards "
                "condenses nowhere.",
                name, sun);
    else
        bw_hang(page,
                "%s: with the outer layer wet%s, up to %s g/m2 condense %s "
                "(%s).",
                name, sun, bw_grams(page, run->peak),
                bw_plane_text(page, section->section,
                              run->plane[run->peak_plane].at),
                bw_month_name(run->peak_month));
}

static const char *reserve_text(bw_page *page, const bw_monthly_result *run)
{
    return run->has_reserve ? bw_phrase(page, "reserve %s g/m2",
                                        bw_grams(page, run->reserve))
                            : "reserve not assessed";
}

static void say_balance(bw_page *page, const bw_section_assessment *section)
{
    const char *name = section->section->name;
    const bw_monthly_result *design = &section->run[BW_RUN_DESIGN].result;
    const bw_monthly_run *bound = &section->run[BW_RUN_BOUND];
    const bw_monthly_run *leaky = &section->run[BW_RUN_LEAKAGE];
    if (design->plane_count == 0)
        bw_hang(page, "%s: the year was not assessed.", name);
    else
        bw_hang(page,
                "%s: in the first year %s g/m2 condense and %s g/m2 dry; "
                "drying %s.",
                name, bw_grams(page, design->condensed),
                bw_grams(page, design->evaporated), reserve_text(page, design));
    if (bound->ran)
        bw_hang(page, "%s, with the other cup value of mu: peak %s g/m2, %s.",
                name, bw_grams(page, bound->result.peak),
                reserve_text(page, &bound->result));
    if (leaky->ran)
        bw_hang(page,
                "%s, with room air leaking in: peak %s g/m2 instead of %s, %s.",
                name, bw_grams(page, leaky->result.peak),
                bw_grams(page, design->peak),
                reserve_text(page, &leaky->result));
}

static void say_period(bw_page *page, const bw_section_assessment *section)
{
    const bw_period_result *period = &section->period;
    const char *name = section->section->name;
    if (!period->assessed) {
        bw_hang(page, "%s, period balance: not assessed%s%s.", name,
                period->reason[0] != '\0' ? ", " : "", period->reason);
        return;
    }
    bw_hang(page,
            "%s, period balance (DIN 4108-3 block climate): condensed %s, "
            "evaporable %s, reserve %s g/m2.",
            name, bw_grams(page, period->condensed),
            bw_grams(page, period->evaporable),
            bw_grams(page, period->reserve));
}

BW_PART(directions, "Balance, drying and both directions")
{
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        say_balance(page, &of->wall[0]->section[i]);
        say_inward(page, &of->wall[0]->section[i]);
        say_period(page, &of->wall[0]->section[i]);
    }
    put_drying(page, of->wall[0]);
}

/* ---- the room's face ----------------------------------------------------- */

static void add_surface(bw_grid *g, const char *section,
                        const bw_surface_result *surface)
{
    bw_grid_row_start(g);
    bw_words(g, "Section", section);
    bw_words(g, "Where", surface->where);
    bw_number(g, "Rsi m2.K/W", "%.2f", surface->rsi);
    bw_number(g, "fRsi", "%.3f", surface->frsi);
    bw_number(g, "required", "%.3f", surface->frsi_required);
    bw_name(g, "in", bw_month_name(surface->critical_month));
    bw_number(g, "highest RH %", "%.0f", surface->highest_rh * 100.0);
}

BW_PART(surface, "Room-side surface")
{
    bw_grid g = {.page = page};
    if (of->wall[0]->room_reason != NULL)
        return;
    for (size_t i = 0; i < of->wall[0]->section_count; i++) {
        const bw_section_assessment *s = &of->wall[0]->section[i];
        for (size_t k = 0; k < s->surface_count; k++) {
            add_surface(&g, s->section->name, &s->surface[k]);
            if (s->surface[k].rsi_source != NULL && i == 0)
                bw_remark(&g, "Rsi: %s",
                          bw_page_cite(page, s->surface[k].rsi_source));
        }
    }
    bw_grid_print(&g);
}
