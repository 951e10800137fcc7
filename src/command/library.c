#define _XOPEN_SOURCE 700 /* realpath */

#include "library.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/auxv.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fail.h"
#include "material_pick.h"
#include "targets.h"

/* No folder is compiled in: an installation may be moved, and a build tree
 * holds a link to the materials at the same place relative to the program. */
#ifndef BW_DATA_FROM_PROGRAM
#define BW_DATA_FROM_PROGRAM "../share/bothways"
#endif

enum { PATH_SIZE = 4096 };

static bool find_below(char *path, size_t size, const char *folder,
                       const char *below)
{
    struct stat status;
    int need = snprintf(path, size, "%s/%s", folder, below);
    return need > 0 && (size_t)need < size && stat(path, &status) == 0 &&
           S_ISDIR(status.st_mode);
}

static bool find_program(char program[PATH_SIZE])
{
    ssize_t length = readlink("/proc/self/exe", program, PATH_SIZE - 1);
    if (length > 0) {
        program[length] = '\0';
        return true;
    }
    /* No /proc, as in a bare chroot: the path it was started by. The kernel
     * hands that address over as a number. */
    /* NOLINTNEXTLINE(performance-no-int-to-ptr) */
    const char *started = (const char *)getauxval(AT_EXECFN);
    char *whole = started != NULL ? realpath(started, NULL) : NULL;
    bool fits = whole != NULL && strlen(whole) < PATH_SIZE;
    if (fits)
        memcpy(program, whole, strlen(whole) + 1);
    free(whole);
    return fits;
}

static bool beside_program(char *path, size_t size, const char *folder)
{
    char program[PATH_SIZE];
    if (!find_program(program))
        return false;
    char *slash = strrchr(program, '/');
    if (slash == NULL)
        return false;
    *slash = '\0';
    char data[PATH_SIZE + sizeof BW_DATA_FROM_PROGRAM];
    snprintf(data, sizeof data, "%s/" BW_DATA_FROM_PROGRAM, program);
    return find_below(path, size, data, folder);
}

bw_status data_folder(char *path, size_t size, const char *folder,
                      const char *what, bw_error *err)
{
    const char *data = getenv("BOTHWAYS_DATA");
    if (data != NULL && data[0] != '\0') {
        if (find_below(path, size, data, folder))
            return BW_OK;
        return bw_fail_usage(err,
                             "BOTHWAYS_DATA is '%s', which has no folder '%s'",
                             data, folder);
    }
    if (beside_program(path, size, folder))
        return BW_OK;
    return bw_fail_usage(err,
                         "the shipped %s were not found beside the program; "
                         "set BOTHWAYS_DATA to the folder that holds '%s'",
                         what, folder);
}

bw_status library_read(bw_library **out, const settings *given, bw_error *err)
{
    char shipped[DATA_PATH];
    const char *paths[MATERIAL_DIRS + 1];
    BW_TRY(data_folder(shipped, sizeof shipped, "materials", "materials", err));
    paths[0] = shipped;
    for (size_t i = 0; i < given->materials.count; i++)
        paths[i + 1] = given->materials.text[i];
    for (size_t i = 0; i <= given->materials.count; i++)
        BW_TRY(targets_spare_folder(given, paths[i], err));
    return bw_library_read(out, paths, given->materials.count + 1, err);
}

bw_status library_pick(bw_library **out, const settings *given, bw_error *err)
{
    char shipped[DATA_PATH];
    bw_quotes quotes = {.count = 0};
    *out = NULL;
    if (given->materials.count > 0)
        return BW_OK;
    bw_status status = data_folder(shipped, sizeof shipped, "materials",
                                   "materials", err);
    if (status == BW_OK)
        status = targets_spare_folder(given, shipped, err);
    for (size_t i = 0; i < given->operand_count && status == BW_OK; i++)
        status = bw_quotes_read(&quotes, given->operand[i], err);
    bw_quotes_close(&quotes);
    if (status == BW_OK)
        status = bw_library_pick(out, shipped, &quotes, err);
    bw_quotes_free(&quotes);
    return status;
}
