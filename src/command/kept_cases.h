#ifndef BW_COMMAND_KEPT_CASES_H
#define BW_COMMAND_KEPT_CASES_H

/* The cases that a choice has judged, in a file, so that another run goes on
 * from there: of the same wall and options, which a digest tells. */

#include <time.h>

#include "arena.h"
#include "bothways/choose.h"
#include "sha256.h"
#include "walls.h"

typedef struct kept_cases {
    const char *path;            /* written; NULL: kept nowhere */
    char digest[BW_SHA256_TEXT]; /* of wall, climate, materials, options */
    bw_arena arena;              /* of `known` */
    bw_judged_at *known;
    size_t count, room;
    time_t written; /* when; 0: not yet */
} kept_cases;

/* What the result rests on: kept_digest.c. */
bw_status kept_digest(char digest[BW_SHA256_TEXT], const walls *all,
                      const settings *given, bw_error *err);

/* Reads the files of --resume; the first may be missing. */
bw_status kept_read(kept_cases *kept, const walls *all, const settings *given,
                    bw_error *err);

/* bw_choose_options.keep, whose keeper is a kept_cases. */
bw_status kept_write(void *keeper, const bw_judged_at *all, size_t count,
                     bool last, bw_error *err);

void kept_free(kept_cases *kept);

#endif
