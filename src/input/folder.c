/* The *.xml of a folder, in name order. */

#include "folder.h"

#include <dirent.h>
#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "fail.h"
#include "text.h"

/* Invariant: files are listed in strcmp order of their names. */

/* `all`: *.XML and hidden ones, too. */
static bool is_data_file(const char *name, bool all)
{
    size_t length = strlen(name);
    return length > 4 && strcasecmp(name + length - 4, ".xml") == 0 &&
           (all || (name[0] != '.' && strcmp(name + length - 4, ".xml") == 0));
}

static bool keep(bw_folder_files *list, bw_arena *arena, const char *folder,
                 const char *name)
{
    const char **all = bw_arena_more(arena, list->path, list->count,
                                     &list->room, sizeof *all);
    if (all == NULL)
        return false;
    list->path = all;
    size_t length = strlen(folder);
    const char *slash = length > 0 && folder[length - 1] == '/' ? "" : "/";
    char *path = bw_arena_printf(arena, "%s%s%s", folder, slash, name);
    if (path == NULL)
        return false;
    list->path[list->count++] = path;
    return true;
}

static bw_status read_all(bw_folder_files *list, bw_arena *arena,
                          DIR *directory, const char *folder, bool all,
                          const char *what, bw_error *err)
{
    bool kept = true;
    for (;;) {
        errno = 0;
        const struct dirent *file = readdir(directory);
        if (file == NULL || !kept)
            break;
        if (is_data_file(file->d_name, all))
            kept = keep(list, arena, folder, file->d_name);
    }
    int fault = errno;
    BW_TRY_MEMORY(kept, err);
    if (fault != 0)
        return bw_fail(err, BW_ERR_IO, folder, 0,
                       "reading this directory broke off: %s", strerror(fault));
    if (list->count == 0)
        return bw_fail(err, BW_ERR_INPUT, folder, 0,
                       "this directory of %s holds no *.xml file", what);
    return BW_OK;
}

bw_status bw_folder_list(bw_folder_files *out, bw_arena *arena,
                         const char *folder, bool all, const char *what,
                         bw_error *err)
{
    *out = (bw_folder_files){.count = 0};
    DIR *directory = opendir(folder);
    if (directory == NULL && errno == ENOMEM)
        return bw_fail_memory(err);
    if (directory == NULL)
        return bw_fail(err, BW_ERR_INPUT, folder, 0,
                       "cannot open this directory of %s: %s", what,
                       strerror(errno));
    bw_status status = read_all(out, arena, directory, folder, all, what, err);
    closedir(directory);
    if (status == BW_OK)
        qsort(out->path, out->count, sizeof out->path[0], bw_text_order);
    return status;
}
