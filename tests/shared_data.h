#ifndef BW_TESTS_SHARED_DATA_H
#define BW_TESTS_SHARED_DATA_H

/* Data of others, which are no part of the project: in the folder that
 * BOTHWAYS_SHARED_DATA names, else in ../shared/data beside the project. */

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

/* Its path; or false, and a line that says so. */
static inline bool shared_file(char *path, size_t size, const char *name)
{
    const char *folder = getenv("BOTHWAYS_SHARED_DATA");
    if (folder != NULL)
        snprintf(path, size, "%s/%s", folder, name);
    else
        snprintf(path, size, "%s/../shared/data/%s", BW_SOURCE_DIR, name);
    if (access(path, R_OK) == 0)
        return true;
    printf("skipped: no %s\n", path);
    return false;
}

#endif
