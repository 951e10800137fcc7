#ifndef BW_CRITERIA_JUNCTION_SPOTS_H
#define BW_CRITERIA_JUNCTION_SPOTS_H

#include "arena.h"
#include "bothways/assessment.h"

enum { BW_SPOT_ENVIRONMENTS = 16 }; /* more than any drawing has */

/* Once heat and water are there. false: out of memory. */
bool bw_junction_spots_find(bw_junction_assessment *a, bw_arena *arena);

#endif
