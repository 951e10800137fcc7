#ifndef BW_COMMAND_LIBRARY_H
#define BW_COMMAND_LIBRARY_H

/* Where the shipped data are, and reading materials with the user's own. */

#include "bothways/material.h"
#include "settings.h"

enum { DATA_PATH = 8192 };

/* A folder of the shipped data: below $BOTHWAYS_DATA, else beside the
 * executable (../share/bothways of an installation or a build).
 * what: "materials", for messages. BW_OK, BW_ERR_USAGE */
bw_status data_folder(char *path, size_t size, const char *folder,
                      const char *what, bw_error *err);

/* Reads the shipped materials and those of every --materials. */
bw_status library_read(bw_library **out, const settings *given, bw_error *err);

/* Reads of the shipped materials those that the walls' files quote: material_
 * pick.h. *out NULL: only the whole will do, for the materials that are the
 * user's own, whose every fault is told. */
bw_status library_pick(bw_library **out, const settings *given, bw_error *err);

#endif
