#ifndef BW_BASE_OUTPUT_H
#define BW_BASE_OUTPUT_H

/* A file that appears whole or not at all. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
#include "writer.h"

/* Zero-initialise; used by one writer at a time. */
typedef struct bw_output {
    char *path;    /* where it shall appear, symbolic links followed */
    bool nameless; /* the unfinished file has no name before the commit */
    char *beside;  /* else its name in the same folder; with neither, the
                      target is a device or pipe and is written directly */
    int fd;
    int fault; /* errno of the first failed write */
} bw_output;

/* Starts a file beside `path`. An existing file keeps its permissions and,
 * until the commit, its contents.
 * Returns BW_OK, BW_ERR_MEMORY, or as bw_output_fail. */
bw_status bw_output_open(bw_output *output, const char *path, bw_error *err);

/* Starts writing to a descriptor that stays the caller's, such as standard
 * output; `name` is for messages. */
bw_status bw_output_descriptor(bw_output *output, int fd, const char *name,
                               bw_error *err);

/* A file that nobody else sees, to keep what goes out later (bw_output_copy):
 * in the folder of `beside`, NULL or where that cannot be in that of temporary
 * files, else in memory. It is discarded, never committed. */
bw_status bw_output_spool(bw_output *spool, const char *beside, bw_error *err);

/* All that was written to a spool, to a sink (as bw_output_write). */
bw_status bw_output_copy(bw_output *spool, bw_write_bytes *sink, void *payload,
                         bw_error *err);

/* A sink; payload is the bw_output. */
bool bw_output_write(void *payload, const char *bytes, size_t length);

/* Makes the file durable (fsync) and puts it in its place (rename).
 * On failure nothing is left behind. */
bw_status bw_output_commit(bw_output *output, bw_error *err);

/* Several, all or none: each is durable and has its name beside its place
 * before the first is moved there, in their order; those that were not opened
 * are passed over. Only where a folder refuses to move a file after it has
 * moved another do the first stay. */
bw_status bw_output_commit_all(bw_output *const *all, size_t count,
                               bw_error *err);

/* "cannot WHAT: ..." for an errno. A path that the user can mend (it does not
 * exist, is a directory, is locked, ...) is BW_ERR_USAGE and the message says
 * how; a fault of the machine (full, broken) is BW_ERR_IO. */
bw_status bw_output_fail(bw_error *err, const char *path, const char *what,
                         int fault);

/* Drops an unfinished file; does nothing after a commit. */
void bw_output_discard(bw_output *output);

#endif
