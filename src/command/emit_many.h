#ifndef BW_COMMAND_EMIT_MANY_H
#define BW_COMMAND_EMIT_MANY_H

/* Results of many walls on their way out, a few at a time, in order. */

#include "bothways/report.h"
#include "output.h"
#include "settings.h"

typedef struct emit_many {
    const settings *given;
    bw_report_options options;
    size_t walls;       /* in all */
    bool begun;         /* some were taken */
    bw_verdict verdict; /* the worst of those */
    bw_output result;   /* --output, or standard output */
    bw_output held;     /* it, until the tables are in their place */
    bw_output table[BW_TABLE_COUNT];    /* of --tables */
    bw_output part[BW_TABLE_COUNT + 1]; /* of JSON; the last: the list of walls,
                                           also of the text */
} emit_many;

/* Opens what --tables, --format and --output ask for. To be closed whatever is
 * returned. */
bw_status emit_many_open(emit_many *out, const settings *given, size_t walls,
                         const bw_library *library, bw_error *err);

/* The next of the walls. */
bw_status emit_many_take(emit_many *out, const bw_assessment *const *made,
                         size_t count, bw_error *err);

/* Ends it, whether that went well or not; only if status, of all before, is
 * BW_OK does anything take its place: the tables, then the result. What went to
 * a pipe, a device or a terminal without --tables has gone there already. */
bw_status emit_many_close(emit_many *out, bw_status status, bw_error *err);

#endif
