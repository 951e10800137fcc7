#ifndef BW_ASSEMBLY_READINGS_H
#define BW_ASSEMBLY_READINGS_H

/* Which readings of a log count. */

#include "bothways/assembly.h"

/* Below this, moistures [kg/kg] and depths [m] are the same. */
#define BW_MOISTURE_SAME 1e-9

/* Whether a reading is not superseded: by a later one of the same member and
 * place, at least as deep (the core dries last). */
bool bw_reading_counts(const bw_closing_up *up, size_t index);

/* What of the wall a member is: the part of its limit or, where that has none,
 * the layer or framing of that id. Of neither its layer is -1 and its text the
 * member. */
bw_wall_part bw_part_of_member(const bw_assembly *assembly, const char *member);

#endif
