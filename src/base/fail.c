#include "fail.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "text.h"
#include "utf8.h"

/* Invariant: an error holds whole UTF-8 characters and ends in the room it
 * has. */

const char *bw_status_text(bw_status status)
{
    static const char *const texts[] = {
#define BW_STATUS_SENTENCE(name, text) text,
        BW_STATUS_LIST(BW_STATUS_SENTENCE)
#undef BW_STATUS_SENTENCE
    };
    size_t i = (size_t)status;
    return i < sizeof texts / sizeof texts[0] ? texts[i] : "unknown status";
}

bw_status bw_fail(bw_error *err, bw_status status, const char *file, long line,
                  const char *format, ...)
{
    if (err == NULL)
        return status;
    bw_error fresh = {.status = status, .line = line};
    if (file != NULL)
        snprintf(fresh.file, sizeof fresh.file, "%s", file);
    va_list args;
    va_start(args, format);
    bw_text_print(fresh.message, sizeof fresh.message, format, args);
    va_end(args);
    *err = fresh;
    return status;
}

bw_status bw_explain(bw_error *err, bw_status status, const char *text)
{
    if (err == NULL || status != BW_ERR_INPUT)
        return status;
    size_t used = strlen(err->message);
    size_t room = sizeof err->message - used;
    if (snprintf(err->message + used, room, " (%s)", text) >= (int)room)
        bw_utf8_trim(err->message);
    return status;
}

bw_status bw_fail_memory(bw_error *err)
{
    return bw_fail(err, BW_ERR_MEMORY, NULL, 0, "out of memory");
}
