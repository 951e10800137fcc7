#ifndef BW_REPORT_TABLE_H
#define BW_REPORT_TABLE_H

/* A result table is described once: what a row is, and one line a column with
 * its name, unit, meaning and value. The CSV files, the JSON document, its
 * schema and docs/tables.md all come from that line. */

#include <math.h>

#include "bothways/margin.h"
#include "bothways/report.h"
#include "page.h"

/* Where the values of a row go. */
typedef struct bw_cells {
    bw_page page;
    const struct bw_table_facts *table;
    const bw_results *results;
    const char *of; /* NULL: rows of wall, else of what has this id */
    const bw_assessment *wall;         /* whose rows are printed, */
    const bw_section_assessment *part; /* and which of its sections */
    bw_column *listed; /* not NULL: columns are told, values are not wanted */
    bw_column column;  /* the one that is printed */
    size_t count;      /* of columns so far */
    bool json;
    bool more; /* than one row in this table */
} bw_cells;

/* What `rows` is called for: each section, c->part, or once for c->results. */
typedef enum bw_table_of { BW_BY_SECTION, BW_BY_RESULTS } bw_table_of;

typedef struct bw_table_facts {
    const char *file, *row; /* "verdict.csv"; what one of its rows is */
    /* Every column in its order. `row` is what bw_row was given. */
    void (*columns)(bw_cells *c, const void *row);
    void (*rows)(bw_cells *c); /* calls bw_row for each */
    bw_table_of of;
} bw_table_facts;

/* One row of the table. */
void bw_row(bw_cells *c, const void *row);

/* A column "never", beside a value. */
#define BW_NEVER                                                               \
    "`yes`: a time that was not reached; its value is how long it was waited " \
    "for"

/* Columns. `value` is an expression that is only looked at when a row is
 * printed, and with `known` only if that is true; else, as for a number that is
 * not finite and a text that is NULL or "", the field stays empty. Units as in
 * the files of input; "-" for a number without one, "as unit" where a column of
 * that name says it. */
#define BW_TEXT(c, name, meaning, value)                                       \
    BW_CELL(c, text, name, "", meaning, BW_COLUMN_TEXT, false, value)
#define BW_TEXT_IF(c, name, meaning, known, value)                             \
    BW_CELL(c, text, name, "", meaning, BW_COLUMN_TEXT, true,                  \
            (known) ? (value) : NULL)
#define BW_NUMBER(c, name, unit, meaning, value)                               \
    BW_CELL(c, number, name, unit, meaning, BW_COLUMN_NUMBER, false, value)
#define BW_NUMBER_IF(c, name, unit, meaning, known, value)                     \
    BW_CELL(c, number, name, unit, meaning, BW_COLUMN_NUMBER, true,            \
            (known) ? (value) : (double)NAN)
/* A text if there is one, else a number. */
#define BW_EITHER(c, name, unit, meaning, words, value)                        \
    do {                                                                       \
        if (!bw_column_next((c), (bw_column){(name), (unit), (meaning),        \
                                             BW_COLUMN_EITHER, true}))         \
            break;                                                             \
        if ((words) != NULL)                                                   \
            bw_put_text((c), (words));                                         \
        else                                                                   \
            bw_put_number((c), (value));                                       \
    } while (false)

#define BW_CELL(c, what, name, unit, meaning, kind, may_be_absent, value)      \
    do {                                                                       \
        if (bw_column_next((c), (bw_column){(name), (unit), (meaning), (kind), \
                                            (may_be_absent)}))                 \
            bw_put_##what((c), (value));                                       \
    } while (false)

/* Those of the figure that decides, `end` behind their names; `named` and
 * `known` tell of its criterion and of the others. */
#define BW_FIGURE(c, end, meaning, named, known, figure)                       \
    do {                                                                       \
        BW_TEXT_IF(c, "criterion" end, meaning, named, (figure).criterion);    \
        BW_NUMBER_IF(c, "value" end, "as unit" end, "its value", known,        \
                     (figure).value);                                          \
        BW_NUMBER_IF(c, "limit" end, "as unit" end, "its limit", known,        \
                     (figure).limit);                                          \
        BW_TEXT_IF(c, "unit" end, "unit of both", known, (figure).unit);       \
        BW_TEXT_IF(c, "never" end, BW_NEVER, known,                            \
                   (figure).never ? "yes" : "");                               \
    } while (false)

/* Whether there is one. */
static inline bool bw_has_figure(const bw_figure *figure)
{
    return figure->criterion != NULL && figure->criterion[0] != '\0';
}

static inline const char *bw_yes_no(bool yes)
{
    return yes ? "yes" : "no";
}

/* False: its value is not wanted. */
bool bw_column_next(bw_cells *c, bw_column column);
void bw_put_text(bw_cells *c, const char *text);
void bw_put_number(bw_cells *c, double value);

/* The column every table of walls begins with, and the section after it. */
void bw_assembly_column(bw_cells *c);
void bw_section_columns(bw_cells *c);

/* The writing itself, for both forms: where to, then the rows of a table. */
void bw_cells_start(bw_cells *c, const bw_results *results, bool json,
                    bw_sink *sink, void *payload);
void bw_cells_rows(bw_cells *c, bw_table table);
bw_status bw_check_step(const bw_results *results, bw_error *err);

/* Writes a string of JSON in its quotes. */
void bw_json_text(bw_writer *out, const char *text);

/* What a place is called by a program; the same in every table. */
#define BW_PLACE_MEANING                                                       \
    "`outer-layer|inner-layer` by layer id, `outside|...` and `...|room` at "  \
    "the surfaces, `layer@0.045` inside a layer [m from its outer face]"

/* clang-format off */

/* A row each: its id in bw_table, bw_table_NAME of a table_*.c, and what the
 * results must hold. */
#define BW_EVERY_TABLE(TABLE) \
    TABLE(VERDICT, verdict, results->wall_count > 0) \
    TABLE(LAYERS, layers, results->wall_count > 0) \
    TABLE(MONTHLY, monthly, results->wall_count > 0) \
    TABLE(SURFACE, surface, results->wall_count > 0) \
    TABLE(PERIOD, period, results->wall_count > 0) \
    TABLE(CONVERGENCE, convergence, converged(results)) \
    TABLE(WETTING, wetting, results->wall_count > 0) \
    TABLE(DAMAGE, damage, results->wall_count > 0) \
    TABLE(FROST, frost, results->wall_count > 0) \
    TABLE(HOURLY, hourly, results->wall_count > 0) \
    TABLE(COMPARE, compare, results->comparison) \
    TABLE(STRESSES, stresses, results->comparison) \
    TABLE(AUDIT, audit, results->audit || results->house) \
    TABLE(MARGIN, margin, results->margin) \
    TABLE(MARGIN_SAMPLES, margin_samples, results->margin) \
    TABLE(SD_MAP, sd_map, results->margin) \
    TABLE(MARGIN_SUMMARY, margin_summary, results->margin) \
    TABLE(MARGIN_CASES, margin_cases, results->margin) \
    TABLE(CHOOSE, choose, results->chosen) \
    TABLE(CHOOSE_FINDINGS, choose_findings, results->chosen) \
    TABLE(CHOOSE_SUMMARY, choose_summary, results->chosen) \
    TABLE(MATERIALS, materials, results->material) \
    TABLE(JUNCTION, junction, results->junction) \
    TABLE(JUNCTION_HEAT, junction_heat, results->junction) \
    TABLE(JUNCTION_FIELD, junction_field, results->junction) \
    TABLE(JUNCTION_WATER, junction_water, results->junction) \
    TABLE(REPLAY, replay, results->replay) \
    TABLE(REPLAY_INPUTS, replay_inputs, results->replay) \
    TABLE(REPLAY_DOUBTS, replay_doubts, results->replay) \
    TABLE(REPLAY_HOURS, replay_hours, results->replay) \
    TABLE(JUNCTION_FACES, junction_faces, results->junction) \
    TABLE(JUNCTION_YEAR, junction_year, results->junction) \
    TABLE(JUNCTION_SPOTS, junction_spots, results->junction)

/* clang-format on */

#define BW_DECLARED(id, name, held) extern const bw_table_facts bw_table_##name;
BW_EVERY_TABLE(BW_DECLARED)

#endif
