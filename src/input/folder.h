#ifndef BW_INPUT_FOLDER_H
#define BW_INPUT_FOLDER_H

/* The files of a folder that hold one kind of data. */

#include <stdbool.h>
#include <stddef.h>

#include "arena.h"
#include "bothways/error.h"

typedef struct bw_folder_files {
    size_t count, room;
    const char **path; /* in the arena */
} bw_folder_files;

/* Every *.xml of a folder that does not start with a point, by name: a message
 * about the first fault does not depend on the file system. An empty folder is
 * refused.
 *
 * all   *.XML and those that start with a point, too
 *
 * what  "materials": for messages
 * BW_OK, BW_ERR_INPUT, BW_ERR_IO, BW_ERR_MEMORY */
bw_status bw_folder_list(bw_folder_files *out, bw_arena *arena,
                         const char *folder, bool all, const char *what,
                         bw_error *err);

#endif
