#ifndef BW_ASSEMBLY_READINGS_H
#define BW_ASSEMBLY_READINGS_H

/* Which readings of a log count. */

#include "bothways/assembly.h"

/* Below this, moistures [kg/kg] and depths [m] are the same. */
#define BW_MOISTURE_SAME 1e-9

/* Whether a reading is not superseded: by a later one of the same member and
 * place, at least as deep (the core dries last). */
bool bw_reading_counts(const bw_closing_up *up, size_t index);

#endif
