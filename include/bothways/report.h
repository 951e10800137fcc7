#ifndef BOTHWAYS_REPORT_H
#define BOTHWAYS_REPORT_H

/** @file Reports: they print results, they compute none. */

#include "bothways/assessment.h"
#include "bothways/replay.h"
#include "bothways/sink.h"

BW_BEGIN_C

/** How much of a document. */
typedef enum bw_extent {
    BW_EXTENT_FULL,   /**< all there is */
    BW_EXTENT_SCREEN, /**< what fits a screen: a check in at most 45 lines of
                           100 columns; an audit and a comparison whole */
    BW_EXTENT_LEAST,  /**< the verdict, warnings and cautions */
} bw_extent;

typedef struct bw_report_options {
    int width;       /**< columns, 0: 100; held within 60..200 */
    bool colour;     /**< ANSI emphasis; state is in words too */
    bw_extent extent;
    size_t note_count;   /**< further notes to print, e.g. of the library */
    const bw_note *note; /**< borrowed during the call; may be NULL if 0 */
    const char *date;    /**< at the foot of a page; NULL: none. A sheet of an
                              audit has its own */
    size_t digest_count; /**< of the walls in their order; 0: none */
    const char *const *digest; /**< SHA-256 of the file of each, at the foot of a
                                    page; NULL: not known */
} bw_report_options;

/** The result tables of the contract; docs/tables.md has every column. */
typedef enum bw_table {
    /* of walls */
    BW_TABLE_VERDICT, BW_TABLE_LAYERS, BW_TABLE_MONTHLY, BW_TABLE_SURFACE,
    BW_TABLE_PERIOD, BW_TABLE_CONVERGENCE, BW_TABLE_WETTING, BW_TABLE_DAMAGE,
    BW_TABLE_FROST, BW_TABLE_HOURLY,
    /* of a comparison, an audit, a margin, a material library */
    BW_TABLE_COMPARE, BW_TABLE_STRESSES, BW_TABLE_AUDIT, BW_TABLE_MARGIN, BW_TABLE_MARGIN_SAMPLES,
    BW_TABLE_SD_MAP, BW_TABLE_MARGIN_SUMMARY, BW_TABLE_MARGIN_CASES,
    BW_TABLE_CHOOSE, BW_TABLE_CHOOSE_FINDINGS, BW_TABLE_CHOOSE_SUMMARY,
    BW_TABLE_MATERIALS,
    /* of a junction */
    BW_TABLE_JUNCTION, BW_TABLE_JUNCTION_HEAT, BW_TABLE_JUNCTION_FIELD,
    BW_TABLE_JUNCTION_WATER, BW_TABLE_JUNCTION_FACES, BW_TABLE_JUNCTION_YEAR,
    BW_TABLE_JUNCTION_SPOTS,
    /* of a replay */
    BW_TABLE_REPLAY, BW_TABLE_REPLAY_INPUTS, BW_TABLE_REPLAY_DOUBTS,
    BW_TABLE_REPLAY_HOURS,
    BW_TABLE_COUNT,
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
    size_t of_walls; /**< how many walls BW_DOCUMENT_WALLS is of, if not of
                          these alone; 0: of these */
    bool goes_on;    /**< what is written stands behind what was written of the
                          walls before: no header row, no count */
    size_t step; /**< 1..8760 h, a row of hourly.csv: means of temperature,
                      relative humidity and water content over the step, mould
                      index and total water as they stand at its end; a last
                      step that the simulation does not fill is the mean of the
                      hours there are. 0: every hour, and none in JSON */
    const struct bw_comparison *comparison; /**< of the same walls */
    const struct bw_margin *margin;
    const struct bw_chosen *chosen;
    const struct bw_audit *audit;
    const struct bw_house *house;
    size_t material_count;
    const bw_material *const *material;
    const bw_junction_assessment *junction;
    const bw_replay *replay;
} bw_results;

/** Whether these results have rows for a table, or could have; the convergence
 *  only where it was asked for. */
BW_API bool bw_results_have(const bw_results *results, bw_table table);

/** The verdict on all walls: the worst, where BW_NOT_ASSESSED is worse than
 *  BW_MARGINAL and better than BW_FAILS. */
BW_API bw_verdict bw_results_verdict(const bw_results *results);

/** The worse of two verdicts, in that order. */
BW_API bw_verdict bw_verdict_worse(bw_verdict a, bw_verdict b);

/** The documents. */
typedef enum bw_document {
    BW_DOCUMENT_CHECK,   /**< of wall[0] */
    BW_DOCUMENT_WALLS,   /**< of every wall a line with its verdict */
    BW_DOCUMENT_AUDIT,   /**< of audit; its assessment is wall[0], and its
                              margin, if it has one, margin. The last line of
                              its text is a digest of the lines above */
    BW_DOCUMENT_PLAN,    /**< of the audit's list of what evidence is needed */
    BW_DOCUMENT_HOUSE,   /**< of house: a cover sheet, sealed in the same way */
    BW_DOCUMENT_COMPARE, /**< of comparison */
    BW_DOCUMENT_MARGIN,  /**< of margin; its assessment is wall[0] */
    BW_DOCUMENT_CHOOSE,  /**< of chosen; its assessment is wall[0] */
    BW_DOCUMENT_JUNCTION, /**< of junction */
    BW_DOCUMENT_REPLAY,  /**< of replay */
    BW_DOCUMENT_COUNT,
} bw_document;

/** Their forms hold the same; the tables of the contract are a third. */
typedef enum bw_form {
    BW_FORM_TEXT,
    BW_FORM_PAGE, /**< one HTML page that needs no other file and no script,
                       with charts between the parts; hours are charted when
                       the simulation kept them (keep_hours). `width` and
                       `colour` mean nothing here */
} bw_form;

/** One document in one form.
 *  @param options NULL: none
 *  @return BW_OK; BW_ERR_DOMAIN: the results do not hold what it is of;
 *  BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_report(const bw_results *results, bw_document document,
                           bw_form form, const bw_report_options *options,
                           bw_sink *sink, void *payload, bw_error *err);

/** The digests of an audit, or of a house, as a list that `sha256sum -c` takes: every input,
 *  then the sheet.
 *  @param sheet   the path of the sheet  @param sha256 its 64 digits
 *  @return BW_OK; BW_ERR_DOMAIN: neither; BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_report_digests(const bw_results *results,
                                   const char *sheet, const char *sha256,
                                   bw_sink *sink, void *payload,
                                   bw_error *err);

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

/** A part of that document, for walls that come a few at a time. */
typedef bw_status bw_json_part(void *payload, bw_table table, bw_sink *sink,
                               void *to, bw_error *err);

/** What such parts are: the rows of one table, or of BW_TABLE_COUNT the walls
 *  with their verdicts; of results that go on behind a comma.
 *  @return as bw_report_table */
BW_API bw_status bw_report_json_part(const bw_results *results, bw_table table,
                                     bw_sink *sink, void *payload,
                                     bw_error *err);

/** The same document as bw_report_json, put together of parts.
 *  @param verdict   on all walls  @param have whether it holds a table
 *  @param part  writes all of one table, or of BW_TABLE_COUNT the walls, to
 *  the sink that it is given */
BW_API bw_status bw_report_json_parts(bw_verdict verdict,
                                      const bool have[BW_TABLE_COUNT],
                                      bw_json_part *part, void *of,
                                      bw_sink *sink, void *payload,
                                      bw_error *err);

/** Whether that document holds a table of these results: hours are many, and
 *  there only by a step (those of a replay as they are). */
BW_API bool bw_report_json_has(const bw_results *results, bw_table table);

BW_END_C

#endif
