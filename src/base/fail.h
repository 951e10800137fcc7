#ifndef BW_BASE_FAIL_H
#define BW_BASE_FAIL_H

/* The one funnel through which every error passes. */

#include "bothways/error.h"

/* Fills *err (if not NULL) and returns status, so that callers can write
 * `return bw_fail(...)`. file may be NULL. The message is cut to fit. */
bw_status bw_fail(bw_error *err, bw_status status, const char *file, long line,
                  const char *format, ...) BW_PRINTF(5, 6);

/* The same of what has no file and no line: a call or a command line, and an
 * argument outside its range. */
#define bw_fail_usage(err, ...)                                                \
    bw_fail((err), BW_ERR_USAGE, NULL, 0, __VA_ARGS__)
#define bw_fail_domain(err, ...)                                               \
    bw_fail((err), BW_ERR_DOMAIN, NULL, 0, __VA_ARGS__)

/* The fault "out of memory". */
bw_status bw_fail_memory(bw_error *err);

/* Adds " (text)" to a refusal of input; returns status, whatever it is. */
bw_status bw_explain(bw_error *err, bw_status status, const char *text);

/* Passes a failure on. */
#define BW_TRY(call)                                                           \
    do {                                                                       \
        bw_status bw_try_status = (call);                                      \
        if (bw_try_status != BW_OK)                                            \
            return bw_try_status;                                              \
    } while (0)

/* Passes on that there was no memory, unless what was asked for was got. */
#define BW_TRY_MEMORY(got, err)                                                \
    do {                                                                       \
        if (!(got))                                                            \
            return bw_fail_memory(err);                                        \
    } while (0)

#endif
