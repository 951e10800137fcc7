#ifndef BW_COMMAND_OPERANDS_H
#define BW_COMMAND_OPERANDS_H

/* Files named on the command line, and in a list on standard input where "-"
 * stands among them. */

#include "arena.h"
#include "settings.h"

/* Puts the files of the list in the place of "-": one a line, as it stands
 * there; empty lines and lines that begin with '#' are passed over. The list
 * and its strings live in the arena.
 * BW_OK, BW_ERR_USAGE ("-" twice, an empty list), BW_ERR_IO, BW_ERR_MEMORY */
bw_status operands_read(settings *given, bw_arena *arena, bw_error *err);

/* Puts the walls of a folder, by name, in its place. Several files, or a
 * folder, are a house: *house is what it is called, else NULL.
 * BW_OK, BW_ERR_USAGE (none), BW_ERR_INPUT (a folder without any), BW_ERR_IO,
 * BW_ERR_MEMORY */
bw_status operands_walls(settings *given, const char **house, bw_arena *arena,
                         bw_error *err);

#endif
