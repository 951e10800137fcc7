/* The tables of a junction: its rows, its flows, its field, its water, its
 * named places.
 *
 * Invariant: the temperatures of the field are those of the month in which it
 * is coldest outside. */

#include "bothways/assessment.h"
#include "coldest.h"
#include "table.h"

static const bw_junction *drawn(const bw_cells *c)
{
    return c->results->junction->junction;
}

/* ---- rows -------------------------------------------------------------------
 */

static void row_columns(bw_cells *c, const void *row)
{
    const bw_criterion *r = row;
    BW_TEXT(c, "junction", "id of the junction", drawn(c)->id);
    BW_TEXT(c, "place", "id of the room, or `junction`", r->section);
    BW_TEXT(c, "criterion", "its name (`docs/criteria.md`)", r->criterion);
    BW_TEXT(c, "verdict", "`holds`, `marginal`, `fails`, `not assessed`",
            bw_verdict_text(r->verdict));
    BW_TEXT(c, "decides", "`yes`: it counts for the verdict; `no`",
            r->decides ? "yes" : "no");
    BW_NUMBER_IF(c, "value", "as unit", "what was found", r->has_value,
                 r->value);
    BW_NUMBER_IF(c, "limit", "as unit", "what it is held against", r->has_limit,
                 r->limit);
    BW_NUMBER_IF(c, "margin", "as unit", "to spare; below 0 beyond the limit",
                 r->has_value && r->has_limit, r->margin);
    BW_TEXT(c, "unit", "of the three", r->unit);
    BW_TEXT(c, "reason", "where and when, or why not", r->reason);
    BW_TEXT(c, "rule", "whose rule it is", r->rule);
}

static void rows(bw_cells *c)
{
    const bw_junction_assessment *a = c->results->junction;
    for (size_t i = 0; i < a->criterion_count; i++)
        bw_row(c, &a->criterion[i]);
}

const bw_table_facts bw_table_junction = {
    "junction.csv", "A criterion on a room of a junction (`junction`).",
    row_columns, rows, BW_BY_RESULTS};

/* ---- flows ------------------------------------------------------------------
 */

typedef struct quantity {
    const char *name, *from, *to, *unit;
    bw_found found;
    bool exact; /* no error of its own is stated */
} quantity;

static void heat_columns(bw_cells *c, const void *row)
{
    const quantity *q = row;
    BW_TEXT(c, "junction", "id of the junction", drawn(c)->id);
    BW_TEXT(c, "quantity",
            "`L2D`: flow for 1 K of rooms to all else; `coupling`: the same "
            "between two places; `psi-inner`, `psi-outer`: L2D less the plane "
            "walls by inner or outer dimensions; `frsi-0.25`, `-0.35`, `-1.0`: "
            "lowest temperature factor of a room with that Rsi [m2.K/W]",
            q->name);
    BW_TEXT_IF(c, "from", "place", true, q->from);
    BW_TEXT_IF(c, "to", "place", true, q->to);
    BW_NUMBER(c, "value", "as unit", "extrapolated from three grids",
              q->found.value);
    BW_NUMBER_IF(c, "error", "as unit", "how far it may be off", !q->exact,
                 q->found.error);
    BW_NUMBER_IF(c, "finest", "as unit", "on the finest grid", !q->exact,
                 q->found.finest);
    BW_TEXT(c, "unit", "of the three", q->unit);
}

static void heat_rows(bw_cells *c)
{
    static const char *const frsi[] = {"frsi-0.25", "frsi-0.35", "frsi-1.0"};
    const bw_junction_heat *h = c->results->junction->heat;
    const bw_environment *e = drawn(c)->environment;
    const size_t m = h->environment_count;
    quantity q = {"L2D", "", "", "W/(m.K)", h->l2d, false};
    bw_row(c, &q);
    for (size_t i = 0; i < m; i++)
        for (size_t k = 0; k < i; k++) {
            q = (quantity){
                "coupling", e[k].id, e[i].id, "W/(m.K)", h->coupling[i * m + k],
                false};
            bw_row(c, &q);
        }
    if (h->has_psi) {
        q = (quantity){"psi-inner", "", "", "W/(m.K)", {.value = h->psi_inner},
                       true};
        bw_row(c, &q);
        q.name = "psi-outer";
        q.found.value = h->psi_outer;
        bw_row(c, &q);
    }
    for (size_t i = 0; i < h->coldest_count * BW_SURFACES_FLOW; i++) {
        q = (quantity){frsi[i % BW_SURFACES_FLOW],
                       e[h->coldest[i].environment].id,
                       "",
                       "-",
                       h->coldest[i].frsi,
                       false};
        bw_row(c, &q);
    }
}

const bw_table_facts bw_table_junction_heat = {
    "junction-heat.csv", "A flow or factor of a junction (`junction`).",
    heat_columns, heat_rows, BW_BY_RESULTS};

/* ---- the field --------------------------------------------------------------
 */

typedef struct field_cell {
    const bw_raster *raster;
    size_t i, j;
    double theta;
    int month;
} field_cell;

static void field_columns(bw_cells *c, const void *row)
{
    const field_cell *r = row;
    BW_NUMBER(c, "x0_m", "m", "left edge of the cell", r->raster->x[r->i]);
    BW_NUMBER(c, "x1_m", "m", "right edge", r->raster->x[r->i + 1]);
    BW_NUMBER(c, "y0_m", "m", "lower edge", r->raster->y[r->j]);
    BW_NUMBER(c, "y1_m", "m", "upper edge", r->raster->y[r->j + 1]);
    BW_TEXT(c, "material", "id of the material",
            r->raster->junction
                ->material[r->raster->material[r->j * r->raster->nx + r->i]]
                .material->id);
    BW_NUMBER(c, "month", "-", "1 to 12, the coldest outside", r->month + 1.0);
    BW_NUMBER(c, "temperature_degC", "degC",
              "of the cell in that month, with the surface resistances "
              "against mould",
              r->theta);
}

static void field_rows(bw_cells *c)
{
    const bw_junction_assessment *a = c->results->junction;
    const bw_raster *raster = &a->heat->raster;
    const int month = bw_junction_coldest(a);
    for (size_t k = 0; k < raster->nx * raster->ny; k++) {
        if (raster->material[k] == BW_NOT_THERE)
            continue;
        const field_cell cell = {raster, k % raster->nx, k / raster->nx,
                                 bw_junction_theta(a, k, month), month};
        bw_row(c, &cell);
    }
}

const bw_table_facts bw_table_junction_field = {
    "junction-field.csv",
    "A cell of the finest grid of a junction (`junction`).", field_columns,
    field_rows, BW_BY_RESULTS};

/* ---- water ------------------------------------------------------------------
 */

static void water_columns(bw_cells *c, const void *row)
{
    const bw_water_place *r = row;
    BW_TEXT(c, "junction", "id of the junction", drawn(c)->id);
    BW_NUMBER(c, "x_m", "m", "where most of it stands", r->x);
    BW_NUMBER(c, "y_m", "m", "likewise", r->y);
    BW_NUMBER(c, "x0_m", "m", "how far the place reaches: its left", r->x0);
    BW_NUMBER(c, "x1_m", "m", "its right", r->x1);
    BW_NUMBER(c, "y0_m", "m", "its lower end", r->y0);
    BW_NUMBER(c, "y1_m", "m", "its upper end", r->y1);
    BW_TEXT(c, "beside", "what touches at x, y", r->beside[0]);
    BW_TEXT_IF(c, "and", "what else does, if anything", true, r->beside[1]);
    BW_NUMBER(c, "month", "-", "1 to 12, in which most stands there",
              r->month + 1.0);
    BW_NUMBER(c, "most_kg_m", "kg/m", "all of the place at its end", r->most);
    BW_NUMBER(c, "most_kg_m2", "kg/m2",
              "at x, y over its face, or all of the place over the "
              "face that holds most, whichever is more",
              r->most_by_area);
    BW_NUMBER(c, "left_kg_m", "kg/m", "after the first year", r->left);
    BW_NUMBER(c, "left_kg_m2", "kg/m2", "the same as `most_kg_m2`",
              r->left_by_area);
}

static void water_rows(bw_cells *c)
{
    const bw_junction_water *water = &c->results->junction->water;
    for (size_t k = 0; k < water->place_count; k++)
        bw_row(c, &water->place[k]);
}

const bw_table_facts bw_table_junction_water = {
    "junction-water.csv",
    "A place within a junction where water stands by the monthly method "
    "(`junction`).",
    water_columns, water_rows, BW_BY_RESULTS};

/* ---- named places -----------------------------------------------------------
 */

typedef struct spot_month {
    const bw_junction_spot *spot;
    size_t month;
} spot_month;

static void spot_columns(bw_cells *c, const void *row)
{
    const spot_month *r = row;
    BW_TEXT(c, "junction", "id of the junction", drawn(c)->id);
    BW_TEXT(c, "spot", "its name", r->spot->spot->name);
    BW_NUMBER(c, "x_m", "m", "place", r->spot->spot->x);
    BW_NUMBER(c, "y_m", "m", "place", r->spot->spot->y);
    BW_TEXT_IF(c, "material", "id; wood before others that meet there",
               r->spot->material != NULL, r->spot->material->id);
    BW_NUMBER(c, "month", "-", "1 to 12", (double)r->month + 1.0);
    BW_NUMBER_IF(c, "temperature_degC", "degC",
                 "in that month, with the surface resistances against mould",
                 r->spot->material != NULL, r->spot->theta[r->month]);
    BW_NUMBER_IF(c, "relative_humidity_pct", "%", "at its start, steady",
                 r->spot->has_rh, 100.0 * r->spot->rh[r->month]);
    BW_NUMBER_IF(c, "wood_moisture_pct", "%",
                 "mass of water in balance with it, without storage; where "
                 "water stands it is more",
                 r->spot->has_moisture, 100.0 * r->spot->moisture[r->month]);
}

static void spot_rows(bw_cells *c)
{
    const bw_junction_assessment *a = c->results->junction;
    for (size_t k = 0; k < a->spot_count; k++)
        for (size_t m = 0; m < BW_MONTHS; m++) {
            const spot_month row = {&a->spot[k], m};
            bw_row(c, &row);
        }
}

const bw_table_facts bw_table_junction_spots = {
    "junction-spots.csv",
    "A month at a named place of a junction (`junction`).", spot_columns,
    spot_rows, BW_BY_RESULTS};
