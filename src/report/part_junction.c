/* A junction: the verdict, the coldest place of each room, the flow of heat.
 *
 * Invariant: every number of two dimensions stands with its own error. */

#include <math.h>
#include <string.h>

#include "bothways/assessment.h"
#include "coldest.h"
#include "gets_in.h"
#include "grid.h"
#include "names.h"
#include "part.h"

static const bw_junction *drawn(const bw_results *of)
{
    return of->junction->junction;
}

BW_PART(junction_title, NULL)
{
    const bw_junction *j = drawn(of);
    const char *rules = of->junction->profile;
    const bool own = strcmp(rules, "default") != 0;
    bw_lead(page, "%s", j->title);
    bw_plain(page, "%s; %s; climate: %s%s%s", j->file,
             bw_plain_id(page, j->kind), bw_climate_name(of->junction->climate),
             own ? "; rule set: " : "", own ? rules : "");
}

BW_PART(junction_verdict, NULL)
{
    bw_lead(page, "Verdict: %s", bw_verdict_text(of->junction->verdict));
    bw_text(page, "%s", of->junction->verdict_reason);
}

/* ---- surfaces
 * ----------------------------------------------------------------- */

BW_PART(junction_surface, "Where mould is found first")
{
    static const char *const what[BW_SURFACES_FLOW] = {
        "open", "lower part, corner", "behind a fitted cupboard"};
    const bw_junction_assessment *a = of->junction;
    bw_grid grid = {.page = page};
    for (size_t r = 0; r < a->room_count; r++)
        for (size_t w = 0; w < BW_SURFACES_FLOW; w++) {
            const bw_surface_result *s = &a->room[r].surface[w];
            const bw_coldest *c = &a->heat->coldest[r * BW_SURFACES_FLOW + w];
            const bw_surface_month *m = &s->month[s->critical_month];
            if (a->room[r].room_reason != NULL)
                continue;
            bw_grid_row_start(&grid);
            bw_name(&grid, "Room", drawn(of)->environment[c->environment].id);
            bw_name(&grid, "Surface", what[w]);
            bw_number(&grid, "Rsi m2K/W", "%.2f", s->rsi);
            bw_number(&grid, "Factor", "%.3f", s->frsi);
            bw_number(&grid, "within", "%.3f", c->frsi.error);
            bw_number(&grid, "needed", "%s",
                      s->frsi_required > 0.0
                          ? bw_phrase(page, "%.3f", s->frsi_required)
                          : "none");
            bw_name(&grid, "Month", bw_month_name(s->critical_month));
            bw_number(&grid, "degC", "%.1f", m->theta_si);
            bw_number(&grid, "RH %", "%s",
                      m->rh_si > 1.0
                          ? "wet"
                          : bw_phrase(page, "%.0f", 100.0 * m->rh_si));
            bw_number(&grid, "x mm", "%.0f", 1e3 * c->x);
            bw_number(&grid, "y mm", "%.0f", 1e3 * c->y);
        }
    bw_grid_print(&grid);
    for (size_t r = 0; r < a->room_count; r++)
        if (a->room[r].room_reason != NULL)
            bw_text(page, "%s", a->room[r].room_reason);
}

/* ---- water
 * ----------------------------------------------------------------------- */

BW_PART(junction_water, "Where water stands by months")
{
    enum { SHOWN = 4 };
    const bw_junction_water *water = &of->junction->water;
    if (!water->ran && water->reason != NULL)
        bw_text(page, "Not computed: %s.", water->reason);
    else if (water->ran && water->place_count == 0)
        bw_text(page, "Nowhere within, which is no proof that it stays dry.");
    for (size_t k = 0; k < water->place_count && k < SHOWN; k++) {
        const bw_water_place *at = &water->place[k];
        bw_item(page,
                "%s%s%s at x %.0f mm, y %.0f mm: most in %s, %.3f kg/m2 "
                "(%.3f kg/m in all); %.3f kg/m2 left after a year",
                at->beside[0], at->beside[1] != NULL ? " and " : "",
                at->beside[1] != NULL ? at->beside[1] : "", 1e3 * at->x,
                1e3 * at->y, bw_month_name(at->month), at->most_by_area,
                at->most, at->left_by_area);
    }
    if (water->place_count > SHOWN)
        bw_text(page, "%zu more, with less (table junction-water.csv).",
                water->place_count - SHOWN);
    if (water->accumulates)
        bw_text(page, "It grows year by year.");
}

/* ---- rain that leaks in
 * ----------------------------------------------------------------------- */

BW_PART(junction_air, "Room air that is stated to flow")
{
    const bw_junction *j = drawn(of);
    const bw_junction_hours *h = &of->junction->hours;
    for (size_t k = 0; k < j->air_count; k++)
        bw_item(page, "%s", bw_air_said(page, j, &j->air[k]));
    if (j->air_count == 0)
        return;
    bw_text(page, "By months what it cannot hold there stays there%s.",
            h->asked && h->ran
                ? bw_phrase(page,
                            "; hour by hour it leaves %.3g kg a year and "
                            "metre of the junction",
                            h->air)
                : "");
}

BW_PART(junction_leaks, "Rain that leaks in")
{
    const bw_junction *j = drawn(of);
    const bw_junction_hours *h = &of->junction->hours;
    for (size_t k = 0; k < j->leak_count; k++)
        if (!bw_leak_is_told(j, k))
            bw_item(page, "%s", bw_leak_said(page, &j->leak[k]));
    if (j->leak_count == 0)
        return;
    if (!h->asked || !h->ran)
        bw_text(page, "Months know no rain: with --simulate it is put there "
                      "hour by hour.");
    else
        bw_text(page,
                "%.3g kg a year and metre of the junction, %.3g kg of "
                "which found full pores and ran on.",
                h->leaked, h->ran_off);
}

/* ---- heat
 * ----------------------------------------------------------------------- */

/* "Rsi 0.13, Rse 0.04": what the flow was computed with. */
static const char *surfaces(bw_page *page, const bw_junction_heat *h)
{
    double r[2] = {0.04, 0.13}; /* of all else, of rooms */
    bool stated = false;
    for (size_t k = 0; k < h->environment_count; k++) {
        const bw_environment *e = &h->junction->environment[k];
        stated |= e->has_surface_resistance;
        if (e->has_surface_resistance)
            r[e->kind == BW_ENVIRONMENT_ROOM] = e->surface_resistance;
    }
    if (stated && h->environment_count > 2)
        return "Rsi 0.13, Rse 0.04 unless stated";
    return bw_phrase(page, "Rsi %.2f, Rse %.2f", r[1], r[0]);
}

static void put_flanks(bw_page *page, const bw_junction_heat *h)
{
    static const char *const side[BW_EDGES] = {"left", "right", "below",
                                               "above"};
    for (size_t k = 0; k < h->flank_count; k++)
        bw_pair(page, bw_phrase(page, "Wall cut %s", side[h->flank[k].side]),
                "U %.3f W/(m2 K), %.3f m by inner and %.3f m by outer "
                "dimensions",
                h->flank[k].transmittance, h->flank[k].inner,
                h->flank[k].outer);
}

BW_PART(junction_heat, "Heat")
{
    const bw_junction_heat *h = of->junction->heat;
    const bw_environment *e = drawn(of)->environment;
    const size_t m = h->environment_count;
    bw_pair(page, "L2D", "%.4f W/(m K), within %.4f (%s)", h->l2d.value,
            h->l2d.error, surfaces(page, h));
    for (size_t i = 0; m > 2 && i < m; i++)
        for (size_t k = 0; k < i; k++)
            bw_pair(page, bw_phrase(page, "%s to %s", e[k].id, e[i].id),
                    "%.4f W/(m K), within %.4f", h->coupling[i * m + k].value,
                    h->coupling[i * m + k].error);
    if (h->has_psi)
        bw_pair(page, "psi",
                "%.3f W/(m K) by inner dimensions, %.3f by outer ones",
                h->psi_inner, h->psi_outer);
    put_flanks(page, h);
    bw_pair(page, "Grid",
            "%zu, %zu and %zu cells; seen order %.2f; flows sum to zero within "
            "%.1g of the flow",
            h->cells[h->grids - 3], h->cells[h->grids - 2],
            h->cells[h->grids - 1], h->l2d.order,
            pow(10.0, ceil(log10(fmax(h->balance, 1e-10)))));
}

/* ---- spots
 * ------------------------------------------------------------------------ */

static int most_of(const double *value)
{
    int most = 0;
    for (int m = 1; m < BW_MONTHS; m++)
        if (value[m] > value[most])
            most = m;
    return most;
}

BW_PART(junction_spots, "Named places")
{
    const bw_junction_assessment *a = of->junction;
    const int month = bw_junction_coldest(a);
    bool wood = false;
    bw_grid grid = {.page = page};
    for (size_t k = 0; k < a->spot_count; k++) {
        const bw_junction_spot *s = &a->spot[k];
        const int damp = most_of(s->rh);
        if (s->material == NULL)
            continue;
        wood = wood || s->has_moisture;
        bw_grid_row_start(&grid);
        bw_words(&grid, "Place", bw_capital(page, s->spot->name));
        bw_number(&grid, "x mm", "%.0f", 1e3 * s->spot->x);
        bw_number(&grid, "y mm", "%.0f", 1e3 * s->spot->y);
        bw_number(&grid, bw_phrase(page, "%s degC", bw_month_name(month)),
                  "%.1f", s->theta[month]);
        bw_number(&grid, "most RH %", "%s",
                  s->has_rh ? bw_phrase(page, "%.0f", 100.0 * s->rh[damp])
                            : "");
        bw_name(&grid, "in", s->has_rh ? bw_month_name(damp) : "");
        bw_number(&grid, "wood %", "%s%s",
                  s->has_moisture && s->rh[damp] >= 1.0 ? ">" : "",
                  s->has_moisture
                      ? bw_phrase(page, "%.0f", 100.0 * s->moisture[damp])
                      : "");
    }
    bw_grid_print(&grid);
    if (wood)
        bw_text(page, "Wood: in balance with it, by months; not judged. Each "
                      "month: table junction-spots.csv.");
}

/* ---- all there is
 * ------------------------------------------------------------------ */

BW_PART(junction_materials, "What is drawn")
{
    const bw_junction *j = drawn(of);
    bw_grid grid = {.page = page};
    for (size_t k = 0; k < j->filling_count; k++) {
        const bw_filling *f = &j->filling[k];
        const bw_drawn_material *m = &j->material[f->material];
        bw_grid_row_start(&grid);
        bw_words(&grid, "Material", m->name);
        bw_number(&grid, "lambda W/(m K)", "%.3g", m->conductivity);
        bw_number(&grid, "x mm from", "%.1f", 1e3 * f->at.x0);
        bw_number(&grid, "to", "%.1f", 1e3 * f->at.x1);
        bw_number(&grid, "y mm from", "%.1f", 1e3 * f->at.y0);
        bw_number(&grid, "to", "%.1f", 1e3 * f->at.y1);
    }
    bw_grid_print(&grid);
    bw_text(page, "Painted in this order: a later one takes the place of an "
                  "earlier one.");
}

/* What the verdict means to who builds, and what helps. */
BW_PART(junction_sense, NULL)
{
    const bw_junction_assessment *a = of->junction;
    const bool rain = bw_junction_leaks(drawn(of));
    if (rain && a->verdict == BW_FAILS && a->hours.ran)
        bw_text(page, "What to do: stop the rain that leaks in, or lead it out "
                      "before it reaches wood; then check again.");
    if (a->surface_verdict == BW_FAILS)
        bw_text(page, "What to do: insulate over the coldest place (line the "
                      "reveal), or keep the room drier.");
    else if (a->verdict == BW_FAILS && !(rain && a->hours.ran))
        bw_text(page, "What to do: keep the room's vapour out of the place "
                      "where water stands (a tight layer joined there), or let "
                      "it dry outwards; then check again.");
    else if (a->verdict == BW_NOT_ASSESSED && rain && !a->hours.ran)
        bw_text(page, "Months know no rain: what the leak does that is stated "
                      "here, --simulate alone can tell. Until then it speaks "
                      "against the junction.");
    else if (a->verdict == BW_NOT_ASSESSED)
        bw_text(page,
                "%sWhat is left to you: seal the air joint, keep rain "
                "off, measure the wood.",
                a->hours.ran ? ""
                             : "Months alone may fail a junction and never "
                               "hold one: nothing speaks against it so far. ");
}

BW_PART(junction_criteria, "Criteria")
{
    const bw_junction_assessment *a = of->junction;
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *c = &a->criterion[i];
        bw_hang(page, "%s (%s): %s%s", c->title, c->section,
                bw_verdict_text(c->verdict),
                c->decides ? "" : ", for information");
        bw_deep(page, "%s", c->reason);
        bw_deep(page, "%s", c->rule);
    }
}

BW_PART(junction_mind, "Warnings and assumptions")
{
    const bw_junction *j = drawn(of);
    for (int kind = BW_NOTE_WARNING; kind >= BW_NOTE_INFO; kind--)
        for (size_t k = 0; k < j->note_count; k++)
            if ((int)j->note[k].kind == kind)
                bw_item(page, "%s%s",
                        kind == BW_NOTE_WARNING ? "Warning: " : "",
                        j->note[k].message);
    bw_item(page,
            "Steady heat and vapour by monthly means: colder days, sun, wind, "
            "rain, storage, capillary flow, %sleaking air and what runs along "
            "the junction are not seen. kg/m2 are over 100 mm at corners and "
            "ends, a choice without a source.",
            j->air_count > 0 ? "other " : "");
}
