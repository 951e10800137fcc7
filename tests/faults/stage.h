#ifndef FAULT_STAGE_H
#define FAULT_STAGE_H

/* What each stage of fault_allocation runs, and on what. */

#include <stdint.h>

#include "bothways/bothways.h"

enum { WALLS = 10 };

/* Read and computed once, undisturbed; the stages borrow it. */
typedef struct held {
    const char *source; /* the source folder */
    bw_library *library;
    bw_profiles *profiles;
    bw_climate *climate; /* monthly */
    bw_climate *year;    /* hours generated from it */
    bw_assembly *wall[WALLS];
    bw_assessment *steady; /* of the first wall */
    bw_assessment *hourly; /* the same with a simulation, hours kept */
    bw_comparison *comparison;
    bw_margin *margin;
    bw_audit *audit;
    bw_sections *sections; /* of the first wall, every layer */
} held;

/* Fills *out. Frees nothing on failure: the program ends then. */
bw_status held_make(held *out, const char *source, bw_error *err);
void held_free(held *h);

/* Files that held_make writes: hours with a gap, and the public form. */
#define HELD_HOURS "fault-hours.csv"
#define HELD_PUBLIC "fault-public.csv"
/* A list of digests, of one file that is as it was, by another version. */
#define HELD_LIST "fault-list.sha256"

/* Puts SOURCE/name into path, and returns it. */
enum { PATH_ROOM = 1024 };
const char *held_path(char path[PATH_ROOM], const held *h, const char *name);

/* One stage. A run frees all that it makes; what it prints goes to
 * stage_take. It returns BW_OK where it was told to stop and did. */
typedef bw_status stage_run(const held *h, bw_error *err);

typedef struct stage {
    const char *name;
    long most; /* allocations made to fail in the short run; 0: every one */
    stage_run *run;
} stage;

extern const stage input_stages[];
extern const size_t input_stage_count;
extern const stage method_stages[];
extern const size_t method_stage_count;
extern const stage report_stages[];
extern const size_t report_stage_count;

/* All that a run printed, as length and checksum. */
typedef struct printed {
    size_t length;
    uint64_t sum;
} printed;

/* A sink; payload is not looked at. */
bool stage_take(void *payload, const char *bytes, size_t length);

#endif
