#ifndef BW_COMMAND_EMIT_H
#define BW_COMMAND_EMIT_H

/* Results on their way out: one report, or all tables, of several walls. */

#include "bothways/material.h"
#include "bothways/report.h"
#include "output.h"
#include "settings.h"

/* Refuses --output and --tables that could not be written, so that nobody
 * waits for a result that has no place to go and nothing is half-written. */
bw_status emit_probe(const settings *given, bw_error *err);

/* Opens --output, or standard output. */
bw_status emit_open(bw_output *output, const settings *given, bw_error *err);

/* Ends what emit_open began, whether that went well or not. Only if status, of
 * the writing, is BW_OK does the output take its place; a write that failed
 * says why. */
bw_status emit_close(bw_output *output, bw_status status, bw_error *err);

/* Whether the hours of a simulation are to be kept for a table. */
bool emit_keeps_hours(const settings *given);

/* The results for programs: one table as CSV, or all as JSON. */
bw_status emit_data(bw_sink *sink, void *payload, const settings *given,
                    const bw_results *results, bw_table table, bw_error *err);

/* All that --tables, --format and --output ask for. With --tables every table
 * of the results as a file of its own in that folder, which is made if need be:
 * all are written beside first, then each takes its place. Then the document,
 * or `table` as CSV, or all as JSON; beside a sheet the list of its digests
 * (given->listed), both or none. `library` tells its notes; it may be NULL.
 * A check of several walls: emit_many.h. */
bw_status emit_results(const settings *given, const bw_results *results,
                       bw_document document, bw_table table,
                       const bw_library *library, bw_error *err);

/* ---- what emit_many.c uses, too ------------------------------------------ */

/* How documents are printed; of a library its notes. */
bw_report_options emit_options(const settings *given,
                               const bw_library *library);

/* A failed write says why: the descriptor knows, the report does not. */
bw_status emit_explain(const bw_output *output, bw_status status,
                       bw_error *err);

/* Whether it is or will be a file; NULL, a device and a pipe are not. */
bool emit_is_beside(const char *path);

bw_status emit_make_folder(const char *folder, bw_error *err);
bw_status emit_open_in(bw_output *output, const char *folder, const char *file,
                       bw_error *err);

/* The exit status of a verdict. */
int emit_verdict(bw_verdict verdict);

#endif
