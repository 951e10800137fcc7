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

/** The result tables of the contract. */
typedef enum bw_table {
    BW_TABLE_VERDICT, BW_TABLE_LAYERS, BW_TABLE_MONTHLY, BW_TABLE_SURFACE,
    BW_TABLE_PERIOD, BW_TABLE_CONVERGENCE, BW_TABLE_WETTING, BW_TABLE_DAMAGE,
    BW_TABLE_HOURLY, BW_TABLE_COUNT,
} bw_table;

/** "verdict.csv" and so on. */
BW_API const char *bw_table_file(bw_table table);

/** One table as CSV: one header row, '.' decimal, UTF-8, '\n' line ends. */
BW_API bw_status bw_report_table(const bw_assessment *assessment,
                                 bw_table table, bw_sink *sink, void *payload,
                                 bw_error *err);

/** hourly.csv with one row for every `step` hours, named by its end: means of temperature, relative humidity and water content over the step,
 *  mould index and total water as they stand at its end. A last step that the
 *  simulation does not fill is the mean of the hours there are.
 *  @param step 1..8760 h; 1 gives what bw_report_table gives
 *  @return BW_OK; BW_ERR_DOMAIN: step out of range; BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_report_hours(const bw_assessment *assessment, size_t step,
                                 bw_sink *sink, void *payload, bw_error *err);

BW_END_C

#endif
