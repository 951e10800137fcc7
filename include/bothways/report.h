#ifndef BOTHWAYS_REPORT_H
#define BOTHWAYS_REPORT_H

/** @file Reports: they print results, they compute none. */

#include "bothways/assessment.h"

BW_BEGIN_C

/** Receives bytes of a report; return false to stop (disk full). */
typedef bool bw_sink(void *payload, const char *bytes, size_t length);

typedef struct bw_report_options {
    int width;       /**< columns, 0: 100; held within 60..200; a table
                          of figures that needs more runs over it */
    bool colour;     /**< ANSI emphasis; state is in words too */
    bool quiet;      /**< the summary alone */
    size_t note_count;   /**< further notes to print, e.g. of the library */
    const bw_note *note; /**< borrowed during the call; may be NULL if 0 */
} bw_report_options;

/** The check report as text. */
BW_API bw_status bw_report_text(const bw_assessment *assessment,
                                const bw_report_options *options,
                                bw_sink *sink, void *payload, bw_error *err);

/** The check report as one HTML page that needs no other file and no script:
 *  the same parts with charts between them. Hours are charted when the
 *  simulation kept them (keep_hours). `width` and `colour` mean nothing here.
 */
BW_API bw_status bw_report_html(const bw_assessment *assessment,
                                const bw_report_options *options,
                                bw_sink *sink, void *payload, bw_error *err);

/** The result tables of the contract; docs/tables.md has every column. */
typedef enum bw_table {
    /* of walls */
    BW_TABLE_VERDICT, BW_TABLE_LAYERS, BW_TABLE_MONTHLY, BW_TABLE_SURFACE,
    BW_TABLE_PERIOD, BW_TABLE_CONVERGENCE, BW_TABLE_WETTING, BW_TABLE_DAMAGE,
    BW_TABLE_HOURLY,
    /* of a comparison, an audit, a margin, a material library */
    BW_TABLE_COMPARE, BW_TABLE_AUDIT, BW_TABLE_MARGIN, BW_TABLE_MARGIN_SAMPLES,
    BW_TABLE_SD_MAP, BW_TABLE_MARGIN_SUMMARY, BW_TABLE_MARGIN_CASES,
    BW_TABLE_MATERIALS, BW_TABLE_COUNT,
} bw_table;

/** What a value of a column is. */
typedef enum bw_column_kind {
    BW_COLUMN_TEXT, BW_COLUMN_NUMBER,
    BW_COLUMN_EITHER, /**< a number in some rows, a text in others */
} bw_column_kind;

/** One column of a result table. */
typedef struct bw_column {
    const char *name;    /**< in the header row, and in JSON */
    const char *unit;    /**< "" of a text, "-" of a number without one,
                              "as unit": the column of that name says it */
    const char *meaning; /**< in Markdown */
    bw_column_kind kind;
    bool may_be_absent;  /**< an empty field in CSV, null in JSON */
} bw_column;

/** Most columns of a table. */
enum { BW_COLUMNS_MOST = 48 };

/** "verdict.csv" and so on; "" if there is no such table. */
BW_API const char *bw_table_file(bw_table table);

/** What one of its rows is, in Markdown. */
BW_API const char *bw_table_row(bw_table table);

/** Its columns, in their order; returns how many. */
BW_API size_t bw_table_columns(bw_column column[BW_COLUMNS_MOST],
                               bw_table table);

/** What tables are made of. All is borrowed during a call; what a verb has not
 *  stays NULL. */
typedef struct bw_results {
    size_t wall_count;
    const bw_assessment *const *wall;
    size_t step; /**< 1..8760 h, a row of hourly.csv: means of temperature,
                      relative humidity and water content over the step, mould
                      index and total water as they stand at its end; a last
                      step that the simulation does not fill is the mean of the
                      hours there are. 0: every hour, and none in JSON */
    const struct bw_comparison *comparison; /**< of the same walls */
    const struct bw_margin *margin;
    const struct bw_audit *audit;
    size_t material_count;
    const bw_material *const *material;
} bw_results;

/** Whether these results have rows for a table, or could have; the convergence
 *  only where it was asked for. */
BW_API bool bw_results_have(const bw_results *results, bw_table table);

/** The verdict on all walls: the worst, where BW_NOT_ASSESSED is worse than
 *  BW_MARGINAL and better than BW_FAILS. */
BW_API bw_verdict bw_results_verdict(const bw_results *results);

/** One table as CSV: one header row, '.' decimal, UTF-8, '\n' line ends; the
 *  walls one after the other.
 *  @return BW_OK; BW_ERR_DOMAIN: no such table, or step out of range;
 *  BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_report_table(const bw_results *results, bw_table table,
                                 bw_sink *sink, void *payload, bw_error *err);

/** Every table of the results as one JSON document by
 *  docs/results.schema.json: the walls with their verdicts, and an array a
 *  table of objects by column; null for what is not there.
 *  @return as bw_report_table */
BW_API bw_status bw_report_json(const bw_results *results, bw_sink *sink,
                                void *payload, bw_error *err);

BW_END_C

#endif
