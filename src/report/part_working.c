/* The working of the monthly method: its formulas with their constants, every
 * figure that goes in, and one month of each section followed through, so that
 * the figures of the sheet can be had again without the program.
 *
 * Invariant: what is printed is enough; tests/recompute.py has only this. */

#include <math.h>

#include "beyond.h"
#include "bothways/air.h"
#include "bothways/geography.h"
#include "grid.h"
#include "layers.h"
#include "names.h"
#include "part.h"

/* ---- the formulas -------------------------------------------------------- */

static void put_formulas(bw_page *page)
{
    bw_item(page, "p_sat = 610.5 exp(17.269 theta / (237.3 + theta)) Pa from 0 "
                  "degC on, 610.5 exp(21.875 theta / (265.5 + theta)) below; "
                  "theta of a vapour pressure by the same, turned round");
    bw_item(page, "theta = theta_e + (theta_i - theta_e) x R from outside / R "
                  "in all, Rse and Rsi counted");
    bw_item(page, "planes: the faces of the layers, and within a layer with R "
                  "above 0.25 m2.K/W those of the fewest equal strips of at "
                  "most that; a section of one layer has its middle, too");
    bw_item(page, "sd = mu x d. Dry cup, or wet cup for a layer whose mean RH, "
                  "of its two faces and the twelve months, with dry cups and "
                  "no water standing, is above 70 %%. By a curve: sd at the "
                  "mean RH of its two faces at the month's start, ln sd "
                  "straight between the points and level beyond them");
    bw_item(page, "p over sd: from p_e to p_i, at most p_sat at the surfaces; "
                  "p_sat at a plane where water stands; elsewhere the taut "
                  "string that is nowhere above p_sat");
    bw_item(page, "g = delta_0 x s x [(p_in - p) / (sd_in - sd) - (p - p_out) "
                  "/ (sd - sd_out)] at a plane on p_sat, its neighbours on it "
                  "on both sides or the surfaces; below 0 it dries, and when "
                  "it is dry the month goes on without it. delta_0 = 2.0e-10 "
                  "kg/(m.s.Pa)");
    bw_item(page, "the first month: from January back to the first of the "
                  "months in a row that condense, or on to the next that does");
    bw_item(page, "reserve: what a plane kept wet all year would lose, less "
                  "what other planes hold at its end");
    bw_item(page, "fRsi = (Rse + R) / (Rse + R + Rsi); asked for: p_sat(theta) "
                  "= p_i / 0.8, (theta - theta_e) / (theta_i - theta_e), the "
                  "highest of the months with more than 1 K between");
}

static void put_block(bw_page *page, const bw_assembly *assembly)
{
    const bw_period_climate b = bw_period_climate_din4108(assembly->element);
    if (assembly->beyond.kind != NULL)
        return;
    bw_item(page,
            "period balance: no strips, cups and curves by its own winter; "
            "outside %.7g degC %.7g Pa, inside %.7g "
            "degC %.7g Pa for %.7g s, then %.7g Pa on both sides of a plane at "
            "%.7g Pa for %.7g s",
            b.condensation.theta_e, b.condensation.p_e, b.condensation.theta_i,
            b.condensation.p_i, b.condensation_seconds, b.evaporation_pressure,
            b.evaporation_saturation, b.evaporation_seconds);
}

static void put_leak(bw_page *page, const bw_air_leakage *air)
{
    if (!air->given)
        return;
    bw_item(page,
            "room air leaking in: V = (0.0025 + 0.0015 q50) x dp m3/(m2.h), dp "
            "= (rho_e - rho_i) x 9.81 x h / 2, rho = 101325 / (287.05 T), T = "
            "theta + 273.15; it leaves V (v_i - v_sat) where it is stopped, if "
            "more than 0, v = p / (462 T). q50 = %.7g m3/(m2.h), h = %.7g m",
            air->q50 * 3600.0, air->connected_height);
}

static void put_room(bw_page *page, const bw_assembly *assembly)
{
    const bw_indoors *indoors = &assembly->indoors;
    const char *air =
        assembly->beyond.kind != NULL
            ? bw_phrase(page,
                        ", theta_e and p_e those of the outdoor air, not of "
                        "the %s",
                        bw_beyond_against(assembly))
            : "";
    bw_indoors bare = *indoors;
    double theta = 0.0, excess = 0.0;
    bare.margin = false;
    bw_indoor_state(&bare, 0, 0.0, 0.0, &theta, &excess);
    if (indoors->kind == BW_INDOOR_CLASS)
        bw_item(page,
                "humidity class %d: p_i = p_e + %s x dp, dp = %.7g Pa up to "
                "theta_e = 0 degC, from there straight to 0 at 20 degC%s",
                indoors->humidity_class, indoors->margin ? "1.10" : "1.00",
                excess, air);
    else if (indoors->kind == BW_INDOOR_RH)
        bw_item(page, "room: p_i = p_sat(theta_i) x (%.7g %% RH%s)",
                100.0 * indoors->relative_humidity,
                indoors->margin ? " and 5 points more" : "");
    else if (indoors->kind == BW_INDOOR_EN15026)
        bw_item(page,
                "room: theta_i 20 degC up to theta_e = 10 degC, 25 from 20 "
                "on; RH 30 %% up to -10 degC, 60 %% from 20 on, straight "
                "between%s%s",
                indoors->en15026_high ? ", 10 points more" : "",
                indoors->margin ? ", 5 points more" : "");
}

static void put_months(bw_page *page, const bw_boundary *boundary)
{
    bw_grid g = {.page = page};
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_boundary *b = &boundary[m];
        bw_grid_row_start(&g);
        bw_name(&g, "Month", bw_month_name(m));
        bw_number(&g, "s", "%.7g", bw_month_seconds(m));
        bw_number(&g, "theta_e degC", "%.7g", b->theta_e);
        bw_number(&g, "p_e Pa", "%.7g", b->p_e);
        bw_number(&g, "theta_i degC", "%.7g", b->theta_i);
        bw_number(&g, "p_i Pa", "%.7g", b->p_i);
    }
    bw_grid_print(&g);
}

/* ---- what goes in ---------------------------------------------------------
 */

static const char *taken(const bw_slab *slab, bool wet)
{
    if (slab->sd_curve != NULL)
        return "curve";
    return slab->sd_dry == slab->sd_wet ? "one" : wet ? "wet" : "dry";
}

static void put_curve(bw_page *page, size_t number, const char *what,
                      const bw_curve *curve, const char *unit)
{
    const char *text = "";
    for (size_t i = 0; i < curve->count; i++)
        text = bw_phrase(page, "%s%s %.7g %% %.7g %s", text, i > 0 ? ";" : "",
                         100.0 * curve->x[i], curve->y[i], unit);
    if (curve->count > 0)
        bw_hang(page, "%s of No. %zu by RH:%s.", what, number, text);
}

static void put_slabs(bw_page *page, const bw_assembly *assembly,
                      const bw_section_assessment *part)
{
    const bw_section *section = part->section;
    const bw_monthly_result *design = &part->run[BW_RUN_DESIGN].result;
    bw_grid g = {.page = page};
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        const bool fixed = slab->sd_curve == NULL,
                   thick = slab->thickness > 0.0,
                   mu = thick && slab->vapour == BW_VAPOUR_MU;
        const bw_slab_values v = bw_slab_look(assembly, part, i);
        bw_grid_row_start(&g);
        bw_number(&g, "No.", "%zu", slab->layer + 1);
        bw_number(&g, "d mm", "%.7g", bw_if(thick, 1e3 * slab->thickness));
        bw_number(&g, "lambda W/(m.K)", "%.7g", bw_if(v.has_lambda, v.lambda));
        bw_number(&g, "R m2.K/W", "%.7g", slab->resistance);
        bw_number(&g, "mu dry", "%.7g",
                  bw_if(mu, slab->sd_dry / slab->thickness));
        bw_number(&g, "mu wet", "%.7g",
                  bw_if(mu, slab->sd_wet / slab->thickness));
        bw_number(&g, "sd dry m", "%.7g", bw_if(fixed, slab->sd_dry));
        bw_number(&g, "sd wet m", "%.7g", bw_if(fixed, slab->sd_wet));
        bw_name(&g, "takes",
                taken(slab, design->used_wet != NULL && design->used_wet[i]));
        bw_words(&g, "Layer", bw_short_name(page, slab->label));
    }
    bw_grid_print(&g);
    bw_text(page, "Rse = %.7g, Rsi = %.7g m2.K/W.", section->outer_resistance,
            section->inner_resistance);
    for (size_t i = 0; i < section->slab_count; i++) {
        const bw_slab *slab = &section->slab[i];
        if (slab->sd_curve != NULL)
            put_curve(page, slab->layer + 1, "sd", slab->sd_curve, "m");
        if (slab->kind == BW_LAYER_SOLID)
            put_curve(page, slab->layer + 1, "Sorption, which no month counts,",
                      &slab->material->sorption, "kg/kg");
    }
}

/* ---- one month ------------------------------------------------------------
 */

/* "3": the inner face of No. 3, "0": the outer surface, "5+120": 120 mm into
 * No. 5 from its outer face. */
static const char *plane_number(bw_page *page, const bw_section *section,
                                bw_plane_at at)
{
    size_t slab;
    if (!bw_plane_slab(at, &slab))
        return "0";
    const size_t number = section->slab[slab].layer + 1;
    return at.layer_face ? bw_phrase(page, "%zu", number)
                         : bw_phrase(page, "%zu+%.7g", number, 1e3 * at.depth);
}

/* The plane and the month to follow: of most water, its month of most
 * condensate; without water the place most at risk in its dampest month. */
static size_t plane_to_follow(const bw_monthly_result *run, size_t *month)
{
    size_t at = run->critical_plane;
    for (size_t i = 0; run->condenses && i < run->plane_count; i++)
        if (run->plane[i].peak > run->plane[at].peak)
            at = i;
    *month = 0;
    for (size_t m = 1; m < BW_MONTHS; m++) {
        const bw_plane_month *a = &run->plane[at].month[m],
                             *b = &run->plane[at].month[*month];
        if (run->condenses ? a->condensation > b->condensation
                           : a->relative_humidity > b->relative_humidity)
            *month = m;
    }
    return at;
}

/* The next plane on p_sat, or the surface, in steps of +1 or -1. */
static const bw_plane_month *neighbour(const bw_monthly_result *run, size_t at,
                                       size_t month, size_t step)
{
    static const double ON = 1e-9; /* relative */
    const bw_plane_month *m;
    do {
        at += step;
        m = &run->plane[at].month[month];
    } while (at > 0 && at + 1 < run->plane_count &&
             m->vapour_pressure < m->saturation_pressure * (1.0 - ON));
    return m;
}

static void follow_water(bw_page *page, const bw_monthly_result *run, size_t at,
                         size_t month)
{
    const bw_plane_month *m = &run->plane[at].month[month],
                         *out = neighbour(run, at, month, (size_t)-1),
                         *in = neighbour(run, at, month, 1);
    const double seconds = bw_month_seconds((int)month);
    const double inner = (in->vapour_pressure - m->vapour_pressure) /
                         (in->sd_from_outside - m->sd_from_outside);
    const double outer = (m->vapour_pressure - out->vapour_pressure) /
                         (m->sd_from_outside - out->sd_from_outside);
    const double gain = BW_DELTA_0 * seconds * (inner - outer);
    bw_text(page,
            "It is on p_sat: g = 2.0e-10 x %.7g x [(%.7g - %.7g) / (%.5g - "
            "%.5g) - (%.7g - %.7g) / (%.5g - %.5g)] = %.4g kg/m2.%s",
            seconds, in->vapour_pressure, m->vapour_pressure,
            in->sd_from_outside, m->sd_from_outside, m->vapour_pressure,
            out->vapour_pressure, m->sd_from_outside, out->sd_from_outside,
            gain,
            fabs(gain - m->condensation) > 1e-6
                ? " In the month it is not that, as a plane runs dry in it."
                : "");
}

static void follow_dry(bw_page *page, const bw_monthly_result *run, size_t at,
                       size_t month, const bw_boundary *b)
{
    const bw_plane_month *m = &run->plane[at].month[month];
    const double sd =
        run->plane[run->plane_count - 1].month[month].sd_from_outside;
    bw_text(page,
            "It is below p_sat, as every other: p = %.7g + (%.7g - %.7g) x "
            "%.5g / %.5g = %.6g Pa, %.4g %% RH.",
            b->p_e, b->p_i, b->p_e, m->sd_from_outside, sd, m->vapour_pressure,
            100.0 * m->relative_humidity);
}

static void put_planes(bw_page *page, const bw_section *section,
                       const bw_monthly_result *run, size_t month)
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < run->plane_count; i++) {
        const bw_plane_month *m = &run->plane[i].month[month];
        bw_grid_row_start(&g);
        bw_name(&g, "Plane", plane_number(page, section, run->plane[i].at));
        bw_number(&g, "sd m", "%.6g", m->sd_from_outside);
        bw_number(&g, "theta degC", "%.3f", m->theta);
        bw_number(&g, "p_sat Pa", "%.2f", m->saturation_pressure);
        bw_number(&g, "p Pa", "%.2f", m->vapour_pressure);
        bw_number(&g, "condenses g/m2", "%.3f", 1e3 * m->condensation);
        bw_words(&g, "Where", bw_plane_text(page, section, run->plane[i].at));
    }
    bw_grid_print(&g);
}

static void put_section(bw_page *page, const bw_assembly *assembly,
                        const bw_section_assessment *part)
{
    const bw_section *section = part->section;
    const bw_monthly_result *run = &part->run[BW_RUN_DESIGN].result;
    const bw_monthly_run *leaky = &part->run[BW_RUN_LEAKAGE];
    size_t month, at = plane_to_follow(run, &month);
    const bw_boundary *b = &part->boundary[month];
    bw_subheading(page, "Section %s, what goes in", section->name);
    put_slabs(page, assembly, part);
    bw_subheading(page, "Section %s, %s: plane %s followed", section->name,
                  bw_month_name((int)month),
                  plane_number(page, section, run->plane[at].at));
    put_planes(page, section, run, month);
    bw_text(page, "Plane 3: the inner face of No. 3; 0: the outer surface.");
    if (at == 0 || at + 1 == run->plane_count)
        bw_text(page, "It is a surface.");
    else if (run->condenses)
        follow_water(page, run, at, month);
    else
        follow_dry(page, run, at, month, b);
    if (run->has_reserve)
        bw_text(
            page, "Reserve of plane %s.",
            plane_number(page, section, run->plane[run->critical_plane].at));
    if (leaky->ran)
        bw_text(
            page, "Leaking air is stopped at plane %s.",
            plane_number(page, section,
                         leaky->result.plane[leaky->result.critical_plane].at));
}

static bool worked(const bw_section_assessment *part)
{
    return part->run[BW_RUN_DESIGN].ran &&
           part->run[BW_RUN_DESIGN].result.plane_count > 1;
}

BW_PART(working, "Working of the monthly method")
{
    const bw_assessment *a = of->wall[0];
    bool any = false;
    for (size_t i = 0; i < a->section_count; i++)
        any = any || worked(&a->section[i]);
    if (!any)
        return;
    bw_text(page, "ISO 13788 and DIN 4108-3, as in the methods above: with "
                  "these figures and a pocket calculator the rows by months, "
                  "by period and of the surface can be had again.");
    put_formulas(page);
    put_block(page, a->assembly);
    put_leak(page, &a->assembly->air_leakage);
    put_room(page, a->assembly);
    bw_subheading(page, "Both sides of the wall");
    put_months(page, a->section[0].boundary);
    for (size_t i = 0; i < a->section_count; i++)
        if (worked(&a->section[i]))
            put_section(page, a->assembly, &a->section[i]);
}
