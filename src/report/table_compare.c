/* The common table of a comparison, and its stresses. */

#include "bothways/compare.h"
#include "table.h"

/* A row of the table for one wall; `of` NULL: the verdict on the wall. */
typedef struct compared_row {
    const bw_compared *wall;
    const bw_compare_row *of;
    const bw_criterion *criterion; /* NULL: none */
    size_t i;
} compared_row;

static const char *verdict_of(const compared_row *r)
{
    if (r->of == NULL)
        return bw_verdict_text(r->wall->verdict);
    return r->criterion != NULL ? bw_verdict_text(r->criterion->verdict) : NULL;
}

static void compare_columns(bw_cells *c, const void *row)
{
    const compared_row *r = row;
    BW_TEXT(c, "criterion",
            "short name of the criterion or of the key number; `overall`: the "
            "wall",
            r->of != NULL ? r->of->name : "overall");
    BW_TEXT(c, "kind", "`verdict`, `criterion` or `key-number`",
            r->of == NULL         ? "verdict"
            : r->of->is_criterion ? "criterion"
                                  : "key-number");
    BW_TEXT(c, "assembly", "id of the wall, numbered where two share it",
            r->wall->label);
    BW_TEXT_IF(c, "section", "the section the value is from, the worst",
               r->of != NULL, r->of->section[r->i]);
    BW_NUMBER_IF(c, "value", "as unit", "what was found",
                 r->of != NULL && r->of->has_value[r->i], r->of->value[r->i]);
    BW_TEXT_IF(c, "unit", "unit of value, limit and margin", r->of != NULL,
               r->of->unit);
    BW_NUMBER_IF(c, "limit", "as unit", "what is allowed",
                 r->criterion != NULL && r->criterion->has_limit,
                 r->criterion->limit);
    BW_NUMBER_IF(c, "margin", "as unit",
                 "distance to the limit, above 0 to spare",
                 r->criterion != NULL && r->criterion->has_limit &&
                     r->criterion->has_value,
                 r->criterion->margin);
    BW_TEXT_IF(c, "verdict",
               "`holds`, `marginal`, `fails` or `not assessed`; none of a key "
               "number",
               true, verdict_of(r));
    BW_TEXT_IF(c, "instead", "what stands for a missing value", r->of != NULL,
               r->of->instead[r->i]);
}

static void compare_rows(bw_cells *c)
{
    const bw_comparison *all = c->results->comparison;
    for (size_t i = 0; i < all->wall_count; i++)
        bw_row(c, &(compared_row){.wall = &all->wall[i]});
    for (size_t k = 0; k < all->row_count; k++)
        for (size_t i = 0; i < all->wall_count; i++) {
            const bw_compare_row *of = &all->row[k];
            bw_row(c, &(compared_row){
                          &all->wall[i], of,
                          of->is_criterion ? of->criterion[i] : NULL, i});
        }
}

const bw_table_facts bw_table_compare = {
    "compare.csv",
    "A wall's verdict, then a row of the common table for a wall "
    "(`compare`).",
    compare_columns, compare_rows, BW_BY_RESULTS};

/* ---- stresses.csv -------------------------------------------------------- */

typedef struct stress_row {
    const char *stress, *label;
    const bw_stressed *of;
} stress_row;

static void stress_columns(bw_cells *c, const void *row)
{
    const stress_row *r = row;
    BW_TEXT(c, "stress",
            "`air-leak`, `rain-leak`, `damp-room` or `blocked-cavity`: the "
            "same for every wall",
            r->stress);
    BW_TEXT(c, "assembly", "id of the wall, numbered where two share it",
            r->label);
    BW_TEXT_IF(c, "setting",
               "the stress in words; none: it is none to this "
               "wall",
               true, r->of->setting);
    BW_TEXT_IF(c, "verdict",
               "`holds`, `marginal`, `fails` or `not assessed`, of the wall "
               "under this stress alone; none: it is none to this wall",
               r->of->applies, bw_verdict_text(r->of->verdict));
    BW_FIGURE(c, "", "the criterion that decides",
              bw_has_figure(&r->of->figure), bw_has_figure(&r->of->figure),
              r->of->figure);
    BW_NUMBER_IF(c, "relative_margin", "-",
                 "lowest margin to a limit that fails a wall, in shares of "
                 "that limit, held within -1 to 1",
                 true, r->of->worst_margin);
    BW_TEXT_IF(c, "reason", "why it was not assessed, or is none to this wall",
               true, r->of->reason);
}

static void stress_rows(bw_cells *c)
{
    const bw_comparison *all = c->results->comparison;
    for (size_t k = 0; k < all->stress_count; k++)
        for (size_t i = 0; i < all->wall_count; i++)
            bw_row(c, &(stress_row){all->stress[k].name, all->wall[i].label,
                                    &all->stress[k].wall[i]});
}

const bw_table_facts bw_table_stresses = {
    "stresses.csv", "A wall under one of the same stresses (`compare`).",
    stress_columns, stress_rows, BW_BY_RESULTS};
