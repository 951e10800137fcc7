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

/* Whether the hours of a simulation are to be kept for a table. */
bool emit_keeps_hours(const settings *given);

/* The results for programs: one table as CSV, or all as JSON. */
bw_status emit_data(bw_output *output, const settings *given,
                    const bw_results *results, bw_table table, bw_error *err);

/* The text reports one below the other. */
bw_status emit_text(bw_output *output, const bw_assessment *const *walls,
                    size_t count, const bw_report_options *options,
                    bw_error *err);

/* With --tables every table of the results as a file of its own in that
 * folder, which is made if need be. All are written beside first; then each
 * takes its place. */
bw_status emit_tables(const settings *given, const bw_results *results,
                      bw_error *err);

/* The exit status of a verdict. */
int emit_verdict(bw_verdict verdict);

#endif
