/* The monthly method: months at the places where water gathers, both vapour
 * directions, surfaces, air leakage. */

#include "grid.h"
#include "names.h"
#include "parts.h"

enum { FIXED_COLUMNS = 7, VARIABLE_LAYERS = 4 };

static const char *header[FIXED_COLUMNS] = {
    "Month", "theta degC",     "p_sat Pa",   "p Pa",
    "RH %",  "condenses g/m2", "stands g/m2"};

/* Which slabs of a section change their sd; returns how many are shown. */
static size_t variable_slabs(const bw_section *section,
                             size_t slabs[VARIABLE_LAYERS])
{
    size_t count = 0;
    for (size_t i = 0; i < section->slab_count && count < VARIABLE_LAYERS; i++)
        if (section->slab[i].sd_curve != NULL)
            slabs[count++] = i;
    return count;
}

static void print_plane(bw_page *page, const bw_section *section,
                        const bw_monthly_result *run, size_t index)
{
    const bw_plane *plane = &run->plane[index];
    bw_grid_column columns[FIXED_COLUMNS + VARIABLE_LAYERS] = {{0}};
    size_t slabs[VARIABLE_LAYERS];
    size_t variable = variable_slabs(section, slabs);
    for (size_t c = 0; c < FIXED_COLUMNS; c++)
        columns[c] = (bw_grid_column){.title = header[c], .right = c > 0};
    for (size_t v = 0; v < variable; v++)
        columns[FIXED_COLUMNS + v] = (bw_grid_column){
            .title = bw_phrase(
                page, "sd m of %s",
                bw_short_name(page, section->slab[slabs[v]].label)),
            .right = true};
    bw_grid grid;
    bw_grid_start(&grid, page, columns, FIXED_COLUMNS + variable);
    for (int month = 0; month < BW_MONTHS; month++) {
        const bw_plane_month *m = &plane->month[month];
        const char **cell = bw_grid_add(&grid);
        cell[0] = bw_month_name(month);
        cell[1] = bw_fixed(page, m->theta, 1);
        cell[2] = bw_fixed(page, m->saturation_pressure, 0);
        cell[3] = bw_fixed(page, m->vapour_pressure, 0);
        cell[4] = bw_fixed(page, m->relative_humidity * 100.0, 0);
        cell[5] = bw_grams(page, m->condensation);
        cell[6] = bw_grams(page, m->accumulated);
        for (size_t v = 0; v < variable; v++)
            if (slabs[v] < run->slab_count)
                cell[FIXED_COLUMNS + v] = bw_significant(
                    page, run->layer_sd[slabs[v]][month], 3);
    }
    bw_grid_print(&grid);
}

/* Printed: every plane that holds water in some month; without one, the
 * critical plane. */
static bool holds_water(const bw_plane *plane)
{
    for (int month = 0; month < BW_MONTHS; month++)
        if (plane->month[month].accumulated > 0.0)
            return true;
    return false;
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
    return bw_phrase(page,
                     "After %d years the years do not yet repeat; %s g/m2 "
                     "stand at the end.",
                     run->cycles, bw_grams(page, run->residual_last));
}

static void print_planes(bw_page *page, const bw_section *section,
                         const char *what, const bw_monthly_result *run)
{
    bool any = false;
    if (run->plane_count == 0) {
        bw_page_text(
            page, 2, 2,
            bw_phrase(page, "%s, %s: not assessed.", section->name, what));
        return;
    }
    for (size_t i = 0; i < run->plane_count; i++)
        any = any || holds_water(&run->plane[i]);
    for (size_t i = 0; i < run->plane_count; i++) {
        bool critical = !any && run->has_reserve && i == run->critical_plane;
        if (!holds_water(&run->plane[i]) && !critical)
            continue;
        bw_page_subheading(
            page,
            bw_phrase(page, "%s, %s: %s%s", section->name, what,
                      bw_plane_text(page, section, run->plane[i].at),
                      critical ? " (no water; the place most at risk)" : ""));
        print_plane(page, section, run, i);
    }
    bw_page_text(
        page, 2, 2,
        bw_phrase(page, "%s, %s: first year from %s. %s", section->name, what,
                  bw_month_name(run->start_month),
                  any ? course(page, run) : "No water stands anywhere."));
    if (!run->converged)
        bw_page_text(page, 2, 2,
                     "The humidity-variable layers did not meet their "
                     "tolerance: read these figures with reserve.");
}

void bw_print_months(bw_page *page, const bw_assessment *assessment)
{
    bw_page_heading(page, "Month by month (ISO 13788)");
    bw_page_text(page, 2, 2,
                 "theta: temperature, p: vapour pressure at the start of the "
                 "month, p_sat: the most the air there can hold. Condenses "
                 "below 0: dries. Stands: water there at the end of the "
                 "month.");
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        print_planes(page, s->section, "as built", &s->design);
        if (s->has_inward && s->inward.condenses)
            print_planes(page, s->section, "wet outer layer in the sun",
                         &s->inward);
    }
}

static const bw_grid_column drying_columns[] = {
    {.title = "Section", .wraps = true},
    {.title = "Way out"},
    {.title = "Time", .wraps = true},
    {.title = "Water elsewhere meanwhile"},
};

static void add_drying(bw_page *page, bw_grid *grid, const char *section,
                       const char *way, const bw_monthly_result *run,
                       double wetting)
{
    const char **cell = bw_grid_add(grid);
    cell[0] = section;
    cell[1] = way;
    cell[2] = bw_drying_time(page, run, wetting);
    cell[3] = run->plane_count == 0      ? "-"
              : run->condensed_elsewhere ? "yes"
                                         : "no";
}

static void print_drying(bw_page *page, const bw_assessment *assessment)
{
    const bw_drying_test *test = &assessment->assembly->drying_test;
    bw_grid grid;
    bw_page_subheading(
        page, bw_phrase(page,
                        "Drying test: %s kg/m2 of water put at the place "
                        "most at risk",
                        bw_significant(page, test->wetting, 3)));
    bw_grid_start(&grid, page, drying_columns,
                  sizeof drying_columns / sizeof drying_columns[0]);
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        add_drying(page, &grid, s->section->name, "both ways", &s->dry_both,
                   test->wetting);
        add_drying(page, &grid, "", "outwards only", &s->dry_outwards,
                   test->wetting);
        add_drying(page, &grid, "", "inwards only", &s->dry_inwards,
                   test->wetting);
    }
    bw_grid_print(&grid);
}

static void print_inward(bw_page *page, const bw_section_assessment *section)
{
    const char *name = section->section->name;
    const bw_monthly_result *run = &section->inward;
    if (!section->has_inward) {
        const char *why = section->inward_reason;
        bool said = why != NULL && why[0] != '\0';
        bw_page_text(page, 2, 4,
                     bw_phrase(page, "%s: inward run not made%s%s.", name,
                               said ? ": " : "", said ? why : ""));
        return;
    }
    if (!run->condenses || run->peak_plane >= run->plane_count) {
        bw_page_text(
            page, 2, 4,
            bw_phrase(page,
                      "%s: with the outer layer wet%s, vapour driven "
                      "inwards condenses nowhere.",
                      name, section->has_sun ? " and always in the sun" : ""));
        return;
    }
    bw_page_text(
        page, 2, 4,
        bw_phrase(page,
                  "%s: with the outer layer wet%s, up to %s g/m2 condense %s "
                  "(%s).",
                  name, section->has_sun ? " and always in the sun" : "",
                  bw_grams(page, run->peak),
                  bw_plane_text(page, section->section,
                                run->plane[run->peak_plane].at),
                  bw_month_name(run->peak_month)));
}

static const char *reserve_text(bw_page *page, const bw_monthly_result *run)
{
    return run->has_reserve ? bw_phrase(page, "reserve %s g/m2",
                                        bw_grams(page, run->reserve))
                            : "reserve not assessed";
}

static void print_balance(bw_page *page, const bw_section_assessment *section)
{
    const char *name = section->section->name;
    const bw_monthly_result *design = &section->design;
    if (design->plane_count == 0)
        bw_page_text(page, 2, 4,
                     bw_phrase(page, "%s: the year was not assessed.", name));
    else
        bw_page_text(page, 2, 4,
                     bw_phrase(page,
                               "%s: in the first year %s g/m2 condense and %s "
                               "g/m2 dry; drying %s.",
                               name, bw_grams(page, design->condensed),
                               bw_grams(page, design->evaporated),
                               reserve_text(page, design)));
    if (section->has_bound)
        bw_page_text(page, 2, 4,
                     bw_phrase(page,
                               "%s, with the other cup value of mu: peak %s "
                               "g/m2, %s.",
                               name, bw_grams(page, section->bound.peak),
                               reserve_text(page, &section->bound)));
    if (section->has_leaky)
        bw_page_text(page, 2, 4,
                     bw_phrase(page,
                               "%s, with room air leaking in: peak %s g/m2 "
                               "instead of %s, %s.",
                               name, bw_grams(page, section->leaky.peak),
                               bw_grams(page, design->peak),
                               reserve_text(page, &section->leaky)));
}

static void print_period(bw_page *page, const bw_section_assessment *section)
{
    const bw_period_result *period = &section->period;
    const char *name = section->section->name;
    if (!period->assessed) {
        bw_page_text(page, 2, 4,
                     bw_phrase(page, "%s, period balance: not assessed%s%s.",
                               name, period->reason[0] != '\0' ? ", " : "",
                               period->reason));
        return;
    }
    bw_page_text(page, 2, 4,
                 bw_phrase(page,
                           "%s, period balance (DIN 4108-3 block climate): "
                           "condensed %s, evaporable %s, reserve %s g/m2.",
                           name, bw_grams(page, period->condensed),
                           bw_grams(page, period->evaporable),
                           bw_grams(page, period->reserve)));
}

void bw_print_directions(bw_page *page, const bw_assessment *assessment)
{
    bw_page_heading(page, "Balance, drying and both directions");
    for (size_t i = 0; i < assessment->section_count; i++) {
        print_balance(page, &assessment->section[i]);
        print_inward(page, &assessment->section[i]);
        print_period(page, &assessment->section[i]);
    }
    print_drying(page, assessment);
}

static const bw_grid_column surface_columns[] = {
    {.title = "Section", .wraps = true},      {.title = "Where", .wraps = true},
    {.title = "Rsi m2.K/W", .right = true},   {.title = "fRsi", .right = true},
    {.title = "required", .right = true},     {.title = "in"},
    {.title = "highest RH %", .right = true},
};

void bw_print_surface(bw_page *page, const bw_assessment *assessment)
{
    bw_grid grid;
    if (assessment->room_reason != NULL)
        return;
    bw_page_heading(page, "Room-side surface");
    bw_grid_start(&grid, page, surface_columns,
                  sizeof surface_columns / sizeof surface_columns[0]);
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_assessment *s = &assessment->section[i];
        for (size_t k = 0; k < s->surface_count; k++) {
            const bw_surface_result *surface = &s->surface[k];
            const char **cell = bw_grid_add(&grid);
            cell[0] = s->section->name;
            cell[1] = surface->where;
            cell[2] = bw_fixed(page, surface->rsi, 2);
            cell[3] = bw_fixed(page, surface->frsi, 3);
            cell[4] = bw_fixed(page, surface->frsi_required, 3);
            cell[5] = bw_month_name(surface->critical_month);
            cell[6] = bw_fixed(page, surface->highest_rh * 100.0, 0);
            if (surface->rsi_source != NULL && i == 0)
                bw_grid_note(
                    &grid, bw_phrase(page, "Rsi: %s",
                                     bw_page_cite(page, surface->rsi_source)));
        }
    }
    bw_grid_print(&grid);
}
