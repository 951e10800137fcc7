#ifndef BW_REPORT_SPOT_H
#define BW_REPORT_SPOT_H

/* The place of a simulated wall that a reader should look at first: where the
 * row stands that decides the verdict, or comes nearest to doing so. */

#include "bothways/assessment.h"

/* Where it is the wood of a slab, not a face: else this. */
#define BW_NO_SLAB ((size_t)-1)

typedef struct bw_spot {
    const bw_section_assessment *part;
    const bw_criterion *criterion; /* NULL: none names a place */
    size_t monitor;                /* of part->transient */
    size_t slab;                   /* of wood, or BW_NO_SLAB */
    bool bad[BW_SPANS];            /* the season */
    const char *season;            /* what it is of: "above 80 % RH" */
} bw_spot;

/* False: nothing was simulated, or no place watched. */
bool bw_spot_find(bw_spot *out, const bw_assessment *assessment);

/* The place where a row of a section was judged, without its season; false: it
 * has none that is known. */
bool bw_spot_of_row(bw_spot *out, const bw_section_assessment *part,
                    const bw_criterion *row);

/* The row of a section, or NULL: none with a limit. */
const bw_criterion *bw_row_of(const bw_assessment *assessment,
                              const bw_section_assessment *part,
                              const char *criterion);

/* How vapour is driven inwards through the main insulation of a simulated
 * section. */
typedef struct bw_drive {
    size_t slab;  /* that insulation */
    double most;  /* Pa, the highest mean of five days, ... */
    int month;    /* ... and when it is */
    double sunny; /* Pa, the highest of the part with the sun on the wall */
    int sunny_month;
} bw_drive;

bw_drive bw_drive_of(const bw_assembly *assembly,
                     const bw_section_assessment *part);

/* Metres from the outer face to a monitor. */
double bw_monitor_depth(const bw_section_assessment *part, size_t monitor);

/* Decides, fails, and comes nearest: higher is worse. */
double bw_row_badness(const bw_criterion *row);

#endif
