/* The hours of a junction: every face that was watched, and the places with a
 * name through the year. */

#include "bothways/assessment.h"
#include "table.h"

static const bw_junction_hours *hours_of(const bw_cells *c)
{
    return &c->results->junction->hours;
}

static const char *id_of(const bw_cells *c)
{
    return c->results->junction->junction->id;
}

/* ---- faces ----------------------------------------------------------------
 */

static void face_columns(bw_cells *c, const void *row)
{
    const bw_hour_place *r = row;
    BW_TEXT(c, "junction", "id of the junction", id_of(c));
    BW_NUMBER(c, "x_m", "m", "middle of the face", r->x);
    BW_NUMBER(c, "y_m", "m", "likewise", r->y);
    BW_TEXT(c, "beside", "what touches there", r->beside[0]);
    BW_TEXT(c, "and", "what else does; of a surface the id of its room",
            r->beside[1]);
    BW_TEXT(c, "kind", "`within`, `surface`", r->room ? "surface" : "within");
    BW_NUMBER(c, "highest_rh_pct", "%", "of the last year",
              100.0 * r->highest_rh);
    BW_NUMBER(c, "hours_above_80", "h/a", "of the last year", r->above_80);
    BW_NUMBER(c, "hours_above_90", "h/a", "likewise", r->above_90);
    BW_NUMBER(c, "hours_above_95", "h/a", "likewise", r->above_95);
    BW_NUMBER(c, "dampest_month", "-", "1 to 12, by its mean",
              r->dampest + 1.0);
    BW_NUMBER(c, "dampest_rh_pct", "%", "that mean",
              100.0 * r->month_rh[r->dampest]);
    BW_NUMBER(c, "mould_index", "-",
              "highest, the last year repeated, decline by class", r->mould);
    BW_NUMBER(c, "mould_index_slow", "-",
              "the same with the decline of ASHRAE 160", r->mould_slow);
    BW_NUMBER(c, "free_water_kg_m2", "kg/m2",
              "the most that stood there in any year", r->free_water);
    BW_NUMBER_IF(c, "moved_rh_pct", "%",
                 "by how much `dampest_rh_pct` moved from a grid of two cells "
                 "each joined in one, both ways; so the next four",
                 hours_of(c)->compared, 100.0 * r->moved.rh);
    BW_NUMBER_IF(c, "moved_hours_above_95", "h/a", "of `hours_above_95`",
                 hours_of(c)->compared, r->moved.above_95);
    BW_NUMBER_IF(c, "moved_mould_index", "-", "of `mould_index`",
                 hours_of(c)->compared, r->moved.mould);
    BW_NUMBER_IF(c, "moved_mould_index_slow", "-", "of `mould_index_slow`",
                 hours_of(c)->compared, r->moved.mould_slow);
    BW_NUMBER_IF(c, "moved_free_water_kg_m2", "kg/m2", "of `free_water_kg_m2`",
                 hours_of(c)->compared, r->moved.free_water);
}

static void face_rows(bw_cells *c)
{
    const bw_junction_hours *h = hours_of(c);
    for (size_t k = 0; h->ran && k < h->place_count; k++)
        bw_row(c, &h->place[k]);
}

const bw_table_facts bw_table_junction_faces = {
    "junction-faces.csv",
    "A face between two materials, or of a room, simulated hour by hour "
    "(`junction --simulate`).",
    face_columns, face_rows, BW_BY_RESULTS};

/* ---- the year -------------------------------------------------------------
 */

typedef struct span {
    const bw_hour_spot *spot;
    size_t at;
} span;

static void year_columns(bw_cells *c, const void *row)
{
    enum { SPAN_DAYS = BW_SPAN_HOURS / 24 };
    const span *r = row;
    BW_TEXT(c, "junction", "id of the junction", id_of(c));
    BW_TEXT(c, "place", "its name in the drawing", r->spot->name);
    BW_NUMBER(c, "from_day", "d",
              "from 1 October, 0 to 360, of the five days of the means",
              (double)(r->at * SPAN_DAYS));
    BW_NUMBER(c, "temperature_degC", "degC", "at the nearest face",
              r->spot->theta[r->at]);
    BW_NUMBER(c, "relative_humidity_pct", "%", "there",
              100.0 * r->spot->phi[r->at]);
    BW_NUMBER_IF(c, "wood_moisture_pct", "%",
                 "by mass, of wood within 20 mm; empty: there is none",
                 r->spot->wood >= 0, 100.0 * r->spot->moisture[r->at]);
}

static void year_rows(bw_cells *c)
{
    const bw_junction_hours *h = hours_of(c);
    for (size_t k = 0; h->ran && k < h->spot_count; k++)
        for (size_t i = 0; i < BW_SPANS; i++) {
            const span row = {&h->spot[k], i};
            bw_row(c, &row);
        }
}

const bw_table_facts bw_table_junction_year = {
    "junction-year.csv",
    "Five days of the last simulated year at a named place of a junction "
    "(`junction --simulate`).",
    year_columns, year_rows, BW_BY_RESULTS};
