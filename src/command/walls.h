#ifndef BW_COMMAND_WALLS_H
#define BW_COMMAND_WALLS_H

/* The assemblies named on the command line, with their materials, climates
 * and rule set. */

#include "bothways/assembly.h"
#include "bothways/assessment.h"
#include "bothways/edit.h"
#include "bothways/profile.h"
#include "settings.h"
#include "terminal.h"

typedef struct walls {
    bw_library *library;
    bw_profiles *profiles;
    const bw_profile *profile; /* of --profile; NULL: the default */
    bw_climate *shared;        /* of --climate; NULL otherwise */
    char *changed;             /* what edit points to */
    bw_edit edit[CHANGES];
    size_t count;
    bool passing;               /* none is kept: read again by their number */
    bool spare_climate;         /* one that names none has none: NULL */
    bw_assembly **assembly;     /* [count] if kept */
    const bw_climate **climate; /* of each: shared or one of those kept */
    bw_climate **kept;
    size_t kept_count;
    bool whole;       /* all of the library: every fault is told */
    bw_faults faults; /* of the wall being read */
} walls;

/* What a verb refuses before it reads a wall, and what it does with the walls;
 * *code is its exit status. */
typedef bw_status walls_check(const settings *given, bw_error *err);
typedef bw_status walls_work(int *code, const walls *all, const settings *given,
                             bw_error *err);

typedef enum walls_how {
    WALLS_KEPT,
    WALLS_ANYWHERE, /* they need no climate */
    WALLS_PASSING,  /* there may be many: every one is read, so that a fault of
                       one is told before anything is written, and given back;
                       the work reads each again */
} walls_how;

/* A verb on walls from its options to its exit status. */
bw_status walls_run(int *code, const settings *given, walls_how how,
                    walls_check *check, walls_work *work, bw_error *err);

/* Wall i of many; by any thread. Both are given back by walls_leave. */
bw_status walls_read_again(const walls *all, size_t i, const settings *given,
                           bw_assembly **assembly, bw_climate **climate,
                           bw_error *err);
void walls_leave(const walls *all, bw_assembly *assembly, bw_climate *climate);

/* The check that one assembly file is given. */
bw_status walls_one(const settings *given, const char *name, bw_error *err);

/* How they are assessed, by the options given; bar NULL: without progress. */
bw_assessment_options walls_options(const walls *all, const settings *given,
                                    progress_bar *bar);

#endif
