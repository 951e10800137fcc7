#ifndef BW_COMMAND_EMIT_H
#define BW_COMMAND_EMIT_H

/* Results on their way out: one report, or all tables, of several walls. */

#include "bothways/report.h"
#include "output.h"
#include "settings.h"

/* Refuses --output and --tables that could not be written, so that nobody
 * waits for a result that has no place to go and nothing is half-written. */
bw_status emit_probe(const settings *given, bw_error *err);

/* Refuses --output and --tables where they would replace this file, which is
 * read. */
bw_status emit_spare(const settings *given, const char *input, bw_error *err);

/* Opens --output, or standard output. */
bw_status emit_open(bw_output *output, const settings *given, bw_error *err);

/* Ends what emit_open began, whether that went well or not. Only if status, of
 * the writing, is BW_OK does the output take its place; a write that failed
 * says why. */
bw_status emit_close(bw_output *output, bw_status status, bw_error *err);

/* One table of several walls under one header row. */
bw_status emit_table(bw_output *output, const bw_assessment *const *walls,
                     size_t count, bw_table table, bw_error *err);

/* The text reports one below the other. */
bw_status emit_text(bw_output *output, const bw_assessment *const *walls,
                    size_t count, const bw_report_options *options,
                    bw_error *err);

/* Prints some result as CSV to a sink. */
typedef bw_status emit_writer(const void *result, bw_sink *sink, void *payload,
                              bw_error *err);

/* A table beside those of the walls. */
typedef struct emit_extra {
    const char *file; /* its name, without a folder */
    emit_writer *write;
    const void *result;
} emit_extra;

enum { EMIT_EXTRA_MOST = 8 };

/* Every table as a file of its own in `folder`, which is made if need be.
 * All are written beside first; then each takes its place.
 * step: hours a row of hourly.csv; extra: at most EMIT_EXTRA_MOST, or NULL */
bw_status emit_tables(const char *folder, const bw_assessment *const *walls,
                      size_t count, size_t step, const emit_extra *extra,
                      size_t extra_count, bw_error *err);

#endif
