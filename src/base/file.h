#ifndef BW_BASE_FILE_H
#define BW_BASE_FILE_H

/* Whole files in memory, refused early when they cannot be text. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"

/* The largest input file read; a longer one is refused. */
#define BW_FILE_LIMIT ((size_t)32 * 1024 * 1024)

/* Reads a text file. *text is NUL-terminated, free() it. Refused with one
 * clear sentence naming `what` ("assembly", "climate", ...): a directory, an
 * unreadable, empty, compressed or binary file (NUL bytes), one over
 * BW_FILE_LIMIT. A UTF-8 byte order mark is skipped.
 * Returns BW_OK, BW_ERR_INPUT, BW_ERR_IO (reading broke off), BW_ERR_MEMORY */
bw_status bw_file_read(char **text, size_t *length, const char *path,
                       const char *what, bw_error *err);

/* An errno that is no fault of the path given. */
bool bw_fault_of_machine(int fault);

bool bw_file_there(const char *path);

/* Do both paths lead to one file that is there? */
bool bw_file_same(const char *a, const char *b);

#endif
