#ifndef BW_COMMAND_WALLS_H
#define BW_COMMAND_WALLS_H

/* The assemblies named on the command line, with their materials, climates
 * and rule set. */

#include "bothways/assembly.h"
#include "bothways/edit.h"
#include "bothways/profile.h"
#include "settings.h"

typedef struct walls {
    bw_library *library;
    bw_profiles *profiles;
    const bw_profile *profile; /* of --profile; NULL: the default */
    bw_climate *shared;        /* of --climate; NULL otherwise */
    char *changed;             /* what edit points to */
    bw_edit edit[CHANGES];
    size_t count;
    bw_assembly **assembly;
    bw_climate **own;           /* what the assemblies name */
    const bw_climate **climate; /* of each wall: shared or its own */
} walls;

/* Reads all of them. Every file's first fault is printed but the last, which
 * is returned in err, so that one run shows all. Free with walls_free whatever
 * is returned. */
bw_status walls_read(walls *out, const settings *given, bw_error *err);

void walls_free(walls *all);

#endif
