#ifndef BW_COMMAND_LIBRARY_H
#define BW_COMMAND_LIBRARY_H

/* Where the shipped materials are, and reading them with the user's own. */

#include "bothways/material.h"
#include "settings.h"

/* Reads the shipped materials and those of every --materials. The shipped
 * ones are sought in $BOTHWAYS_DATA/materials, else beside the executable
 * (../share/bothways/materials of an installation or a build). */
bw_status library_read(bw_library **out, const settings *given, bw_error *err);

/* Reads of the shipped materials those that the walls' files quote: material_
 * pick.h. *out NULL: only the whole will do, for the materials that are the
 * user's own, whose every fault is told, or for the files that --output must
 * spare. */
bw_status library_pick(bw_library **out, const settings *given, bw_error *err);

#endif
