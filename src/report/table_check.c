/* Tables of the verdict and of the steady methods. */

#include <string.h>

#include "layers.h"
#include "names.h"
#include "table.h"

/* ---- verdict.csv --------------------------------------------------------- */

/* The notes of the changes, one behind the other. */
static const char *changes(bw_cells *c)
{
    const bw_assembly *assembly = c->wall->assembly;
    const char *all = "";
    for (size_t i = 0; i < assembly->edit_note_count; i++)
        all = bw_phrase(&c->page, "%s%s%s", all, i > 0 ? "; " : "",
                        assembly->note[i].message);
    return all;
}

static void verdict_columns(bw_cells *c, const void *row)
{
    const bw_criterion *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "section", "name of the section; `all`: the whole wall",
            r->section);
    BW_TEXT(c, "criterion", "short name of the criterion; `overall`: the wall",
            r->criterion);
    BW_TEXT(c, "method",
            "what judged it; `(screening)`: outside its limits, it decides "
            "nothing",
            r->screening ? bw_phrase(&c->page, "%s (screening)", r->method)
                         : r->method);
    BW_NUMBER_IF(c, "value", "as unit", "what was found", r->has_value,
                 r->value);
    BW_TEXT_IF(c, "unit", "unit of value, limit and margin", true, r->unit);
    BW_NUMBER_IF(c, "limit", "as unit", "what is allowed", r->has_limit,
                 r->limit);
    BW_NUMBER_IF(c, "margin", "as unit",
                 "distance to the limit, above 0 to spare",
                 r->has_value && r->has_limit, r->margin);
    BW_TEXT(c, "verdict",
            "`holds`, `marginal`, `fails` or `not assessed`; what does not "
            "decide never fails",
            bw_verdict_text(r->verdict));
    BW_TEXT_IF(c, "reason", "layer, month and number, or why not assessed",
               true, r->reason);
    BW_TEXT_IF(c, "source", "the rule and its edition", true, r->rule);
    BW_TEXT_IF(c, "changes",
               "what was changed from outside the file (`--set`); on the row "
               "`overall`",
               true, strcmp(r->criterion, "overall") == 0 ? changes(c) : "");
    BW_TEXT_IF(c, "never", BW_NEVER, true, r->never ? "yes" : "");
}

static void verdict_rows(bw_cells *c)
{
    for (size_t i = 0; i < c->results->wall_count; i++) {
        const bw_assessment *wall = c->wall = c->results->wall[i];
        const bw_criterion overall = {.section = "all",
                                      .criterion = "overall",
                                      .method = "all that decide",
                                      .verdict = wall->verdict,
                                      .reason = wall->verdict_reason};
        bw_row(c, &overall);
        for (size_t k = 0; k < wall->criterion_count; k++)
            bw_row(c, &wall->criterion[k]);
    }
}

const bw_table_facts bw_table_verdict = {
    "verdict.csv", "The wall, then each criterion of each section.",
    verdict_columns, verdict_rows, BW_BY_RESULTS};

/* ---- layers.csv ---------------------------------------------------------- */

typedef struct layer_row {
    const bw_slab *slab;
    bw_slab_values v;
    double sd_so_far;
} layer_row;

static void layer_columns(bw_cells *c, const void *row)
{
    const layer_row *r = row;
    bw_section_columns(c);
    BW_NUMBER(c, "position", "-",
              "place of the layer in the wall, from outside, 1 on",
              (double)r->slab->layer + 1.0);
    BW_TEXT(c, "layer", "id of the layer", r->v.layer->id);
    BW_TEXT(c, "material", "id of the material", r->slab->material->id);
    BW_NUMBER(c, "thickness_m", "m", "thickness", r->slab->thickness);
    BW_NUMBER_IF(c, "lambda_W_mK", "W/(m.K)", "thermal conductivity",
                 r->v.has_lambda, r->v.lambda);
    BW_NUMBER(c, "resistance_m2K_W", "m2.K/W", "thermal resistance",
              r->v.resistance);
    BW_NUMBER_IF(c, "mu", "-", "vapour resistance factor", r->v.has_mu,
                 r->v.mu);
    BW_NUMBER(c, "sd_m", "m",
              "vapour resistance as a thickness of air; of a layer whose sd "
              "follows humidity, dry",
              r->v.sd);
    BW_NUMBER(c, "cumulative_sd_from_outside_m", "m",
              "sum of sd from the outside to this layer's inner face",
              r->sd_so_far);
    BW_TEXT(c, "evidence", "`assumed`, `tabulated`, `declared` or `measured`",
            bw_evidence_text(r->v.layer->evidence));
    BW_TEXT_IF(c, "source", "where its values are from", true,
               bw_slab_sources(&c->page, &r->v, false));
}

static void layer_rows(bw_cells *c)
{
    const bw_section *section = c->part->section;
    layer_row r = {.sd_so_far = 0.0};
    for (size_t k = 0; k < section->slab_count; k++) {
        r.slab = &section->slab[k];
        r.v = bw_slab_look(c->wall->assembly, c->part, k);
        r.sd_so_far += r.v.sd;
        bw_row(c, &r);
    }
}

const bw_table_facts bw_table_layers = {
    "layers.csv",
    "A layer of a section, from outside to inside, as the monthly "
    "method counts it.",
    layer_columns, layer_rows, BW_BY_SECTION};

/* ---- monthly.csv --------------------------------------------------------- */

typedef struct plane_row {
    const bw_monthly_run *run;
    const bw_plane *plane;
    const bw_plane_month *m;
    int month;
} plane_row;

static const char *plane_name(bw_cells *c, bw_plane_at at)
{
    return bw_plane_id(&c->page, c->wall->assembly, c->part->section, at);
}

/* Of the layer on the plane's outer side; NAN: there is none. */
static double outer_sd(const plane_row *r)
{
    size_t slab = 0;
    const bw_monthly_result *result = &r->run->result;
    return bw_plane_slab(r->plane->at, &slab) && slab < result->slab_count
               ? result->layer_sd[slab][r->month]
               : (double)NAN;
}

static void plane_columns(bw_cells *c, const void *row)
{
    const plane_row *r = row;
    bw_section_columns(c);
    BW_TEXT(c, "run",
            "`design`, `bound`, `inward`, `wetted-both-ways`, "
            "`wetted-outwards-only`, `wetted-inwards-only` or "
            "`with-air-leakage`",
            r->run->name);
    BW_NUMBER(c, "month", "-", "calendar month, 1 to 12", r->month + 1.0);
    BW_TEXT(c, "interface", BW_PLACE_MEANING, plane_name(c, r->plane->at));
    BW_NUMBER(c, "sd_from_outside_m", "m", "sd from the outside to there",
              r->m->sd_from_outside);
    BW_NUMBER(c, "temperature_C", "degC", "temperature", r->m->theta);
    BW_NUMBER(c, "saturation_pressure_Pa", "Pa",
              "vapour pressure at saturation", r->m->saturation_pressure);
    BW_NUMBER(c, "vapour_pressure_Pa", "Pa", "vapour pressure",
              r->m->vapour_pressure);
    BW_NUMBER(c, "relative_humidity_pct", "%", "relative humidity",
              r->m->relative_humidity * 100.0);
    BW_NUMBER(c, "condensation_kg_m2", "kg/m2",
              "water that condenses in the month; negative: dries",
              r->m->condensation);
    BW_NUMBER(c, "accumulated_kg_m2", "kg/m2", "water there at its end",
              r->m->accumulated);
    BW_NUMBER_IF(c, "layer_sd_m", "m",
                 "the month's sd of the layer on the outer side", true,
                 outer_sd(r));
}

static void plane_rows(bw_cells *c)
{
    for (int k = 0; k < BW_RUN_COUNT; k++) {
        const bw_monthly_run *run = &c->part->run[k];
        for (int month = 0; run->ran && month < BW_MONTHS; month++)
            for (size_t i = 0; i < run->result.plane_count; i++) {
                const bw_plane *plane = &run->result.plane[i];
                bw_row(c,
                       &(plane_row){run, plane, &plane->month[month], month});
            }
    }
}

const bw_table_facts bw_table_monthly = {
    "monthly.csv", "An interface in a month of a run of the monthly method.",
    plane_columns, plane_rows, BW_BY_SECTION};

/* ---- surface.csv --------------------------------------------------------- */

typedef struct surface_row {
    const char *name;
    const bw_surface_result *surface;
    const bw_surface_month *m;
    int month;
} surface_row;

static void surface_columns(bw_cells *c, const void *row)
{
    const surface_row *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "section",
            "name of the section: its open wall; `section:place`: another "
            "place of it, as `section:corner`",
            r->name);
    BW_NUMBER(c, "month", "-", "calendar month, 1 to 12", r->month + 1.0);
    BW_NUMBER(c, "outdoor_temperature_C", "degC", "temperature outside",
              r->m->theta_e);
    BW_NUMBER(c, "outdoor_vapour_pressure_Pa", "Pa", "vapour pressure outside",
              r->m->p_e);
    BW_NUMBER(c, "indoor_temperature_C", "degC", "temperature of the room",
              r->m->theta_i);
    BW_NUMBER(c, "indoor_vapour_pressure_Pa", "Pa",
              "vapour pressure of the room", r->m->p_i);
    BW_NUMBER(c, "surface_temperature_C", "degC",
              "temperature of the room face", r->m->theta_si);
    BW_NUMBER(c, "surface_relative_humidity_pct", "%",
              "relative humidity at the room face", r->m->rh_si * 100.0);
    BW_NUMBER_IF(c, "frsi_required", "-",
                 "temperature factor that the month asks for; none where the "
                 "room is no more than 1 K warmer than outside",
                 r->m->meaningful, r->m->frsi_required);
    BW_NUMBER(c, "frsi", "-", "temperature factor of the place",
              r->surface->frsi);
}

/* The open wall goes by the section's name alone, so that a reader who looks
 * for a section finds twelve rows; other places add theirs. */
static void surface_rows(bw_cells *c)
{
    for (size_t k = 0; k < c->part->surface_count; k++) {
        const bw_surface_result *surface = &c->part->surface[k];
        const char *section = c->part->section->name;
        const char *name = k == 0 ? section
                                  : bw_phrase(&c->page, "%s:%s", section,
                                              surface->where);
        for (int month = 0; month < BW_MONTHS; month++)
            bw_row(c, &(surface_row){name, surface, &surface->month[month],
                                     month});
    }
}

const bw_table_facts bw_table_surface = {
    "surface.csv", "A place of the room face in a month.", surface_columns,
    surface_rows, BW_BY_SECTION};

/* ---- period.csv ---------------------------------------------------------- */

typedef struct period_row {
    const char *place;
    double sd, condensed, evaporable, reserve; /* NAN: none */
} period_row;

static void period_columns(bw_cells *c, const void *row)
{
    const period_row *r = row;
    bw_section_columns(c);
    BW_TEXT(c, "interface",
            BW_PLACE_MEANING "; `total`, `critical plane` or `not assessed`: "
                             "the section",
            r->place);
    BW_NUMBER_IF(c, "sd_from_outside_m", "m", "sd from the outside to there",
                 true, r->sd);
    BW_NUMBER_IF(c, "condensed_kg_m2", "kg/m2",
                 "water that condenses in the cold period", true, r->condensed);
    BW_NUMBER_IF(c, "evaporable_kg_m2", "kg/m2",
                 "water that could dry in the warm one", true, r->evaporable);
    BW_NUMBER_IF(c, "reserve_kg_m2", "kg/m2", "evaporable less condensed", true,
                 r->reserve);
}

static void period_rows(bw_cells *c)
{
    const bw_period_result *period = &c->part->period;
    const double none = (double)NAN;
    if (!period->assessed) {
        bw_row(c, &(period_row){"not assessed", none, none, none, none});
        return;
    }
    for (size_t k = 0; k < period->plane_count; k++) {
        const bw_period_plane *p = &period->plane[k];
        bw_row(c, &(period_row){plane_name(c, p->at), p->sd_from_outside,
                                p->condensed, p->evaporable,
                                p->evaporable - p->condensed});
    }
    if (period->plane_count != 1)
        bw_row(c, &(period_row){period->plane_count == 0 ? "critical plane"
                                                         : "total",
                                none, period->condensed, period->evaporable,
                                period->reserve});
}

const bw_table_facts bw_table_period = {
    "period.csv",
    "A condensing interface by the period method; of several, their "
    "sum, too.",
    period_columns, period_rows, BW_BY_SECTION};
