#define _XOPEN_SOURCE 700 /* realpath */

#include "targets.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "arena.h"
#include "bothways/report.h"
#include "fail.h"
#include "folder.h"

/* Invariant: a file is told by device and number, so that no other name of it,
 * link or path can hide that it is the same; where a file will be put, by the
 * folder it is put into and its name there, be it there yet or not. */

char *path_in(const char *folder, const char *file)
{
    size_t size = strlen(folder) + strlen(file) + 2;
    char *path = malloc(size);
    if (path != NULL)
        snprintf(path, size, "%s/%s", folder, file);
    return path;
}

char *path_beside(const char *sheet)
{
    static const char end[] = ".sha256";
    size_t size = strlen(sheet) + sizeof end;
    char *path = malloc(size);
    if (path != NULL)
        snprintf(path, size, "%s%s", sheet, end);
    return path;
}

static bool find_file(struct stat *out, const char *path)
{
    return stat(path, out) == 0 && S_ISREG(out->st_mode);
}

/* Standard output may be a file: of a list that is appended to, or the place
 * of another output. */
static bool find_standard(struct stat *out)
{
    return fstat(STDOUT_FILENO, out) == 0 && S_ISREG(out->st_mode);
}

/* Where an output goes. */
typedef struct place {
    char *path; /* links followed; of a file not there yet, as it was given */
    struct stat folder;
    const char *name; /* in `path` */
} place;

static bw_status find_place(place *out, const char *path, bw_error *err)
{
    *out = (place){.path = realpath(path, NULL)};
    if (out->path == NULL)
        out->path = strdup(path);
    BW_TRY_MEMORY(out->path != NULL, err);
    for (size_t n = strlen(out->path); n > 1 && out->path[n - 1] == '/'; n--)
        out->path[n - 1] = '\0';
    char *slash = strrchr(out->path, '/');
    out->name = slash != NULL ? slash + 1 : out->path;
    char *folder = strdup(out->path);
    BW_TRY_MEMORY(folder != NULL, err);
    if (slash != NULL)
        folder[slash - out->path + 1] = '\0';
    if (stat(slash != NULL ? folder : ".", &out->folder) != 0)
        out->name = NULL; /* nowhere: refused when it is opened */
    free(folder);
    return BW_OK;
}

static bool same_place(const place *a, const place *b)
{
    struct stat is;
    return a->name != NULL && b->name != NULL &&
           a->folder.st_dev == b->folder.st_dev &&
           a->folder.st_ino == b->folder.st_ino &&
           strcmp(a->name, b->name) == 0 &&
           /* a device or a pipe takes what one writer after another sends */
           (stat(a->path, &is) != 0 || S_ISREG(is.st_mode) ||
            S_ISDIR(is.st_mode));
}

/* What a run writes: --output, the list beside it, the cases kept (--resume),
 * --tables and each table. */
enum { OUTPUT, LISTED, KEPT, FOLDER, TABLES, PLACES = TABLES + BW_TABLE_COUNT };

static bw_status find_places(place all[PLACES], const settings *given,
                             bw_error *err)
{
    if (given->output != NULL)
        BW_TRY(find_place(&all[OUTPUT], given->output, err));
    if (given->listed && given->output != NULL) {
        char *list = path_beside(given->output);
        BW_TRY_MEMORY(list != NULL, err);
        const bw_status status = find_place(&all[LISTED], list, err);
        free(list);
        BW_TRY(status);
    }
    if (given->resume.count > 0)
        BW_TRY(find_place(&all[KEPT], given->resume.text[0], err));
    if (given->tables == NULL)
        return BW_OK;
    BW_TRY(find_place(&all[FOLDER], given->tables, err));
    for (int i = 0; i < BW_TABLE_COUNT; i++) {
        char *path = path_in(given->tables, bw_table_file((bw_table)i));
        BW_TRY_MEMORY(path != NULL, err);
        const bw_status status = find_place(&all[TABLES + i], path, err);
        free(path);
        BW_TRY(status);
    }
    return BW_OK;
}

static bw_status refuse_place(const place *one, const place *other, bool table,
                              const settings *given, bw_error *err)
{
    if (table)
        return bw_fail(err, BW_ERR_USAGE, given->output, 0,
                       "this would be one of the tables, too; give --output "
                       "another name or folder");
    return bw_fail(err, BW_ERR_USAGE, one->path, 0,
                   "two results of this run would be written there (%s); give "
                   "each a place of its own",
                   other->path);
}

/* No output takes the place of another of the same run. */
static bw_status refuse_twice(const place all[PLACES], const settings *given,
                              bw_error *err)
{
    struct stat standard, is;
    for (int i = 0; i < PLACES; i++)
        for (int k = i + 1; k < PLACES; k++)
            if (all[i].path != NULL && all[k].path != NULL &&
                same_place(&all[i], &all[k]))
                return refuse_place(&all[i], &all[k],
                                    i == OUTPUT && k >= TABLES, given, err);
    for (int i = 0;
         given->output == NULL && find_standard(&standard) && i < PLACES; i++)
        if (all[i].path != NULL && stat(all[i].path, &is) == 0 &&
            is.st_dev == standard.st_dev && is.st_ino == standard.st_ino)
            return bw_fail(err, BW_ERR_USAGE, all[i].path, 0,
                           "this is standard output and another result of "
                           "this run, too; write elsewhere");
    return BW_OK;
}

/* Remembers what is there and would be replaced, or written to. */
static void keep_all(settings *given, const place all[PLACES])
{
    struct stat found;
    for (int i = 0; i < PLACES; i++)
        if (all[i].path != NULL && find_file(&found, all[i].path))
            given->target[given->target_count++] = (target){found.st_dev,
                                                            found.st_ino};
    if (find_standard(&found))
        given->target[given->target_count++] = (target){found.st_dev,
                                                        found.st_ino};
}

bw_status targets_find(settings *given, bw_error *err)
{
    place all[PLACES] = {{0}};
    bw_status status = find_places(all, given, err);
    if (status == BW_OK)
        status = refuse_twice(all, given, err);
    if (status == BW_OK)
        keep_all(given, all);
    for (int i = 0; i < PLACES; i++)
        free(all[i].path);
    return status;
}

bw_status targets_spare(const settings *given, const char *input, bw_error *err)
{
    struct stat found;
    if (given->target_count == 0 || !find_file(&found, input))
        return BW_OK;
    for (size_t i = 0; i < given->target_count; i++)
        if (given->target[i].device == found.st_dev &&
            given->target[i].number == found.st_ino)
            return bw_fail(err, BW_ERR_USAGE, input, 0,
                           "this file is read and would be replaced; write "
                           "elsewhere");
    return BW_OK;
}

bw_status targets_spare_folder(const settings *given, const char *folder,
                               bw_error *err)
{
    bw_arena arena = {0};
    bw_folder_files files;
    if (given->target_count == 0)
        return BW_OK;
    bw_status status = bw_folder_list(&files, &arena, folder, false,
                                      "materials", err);
    const size_t count = status == BW_OK ? files.count : 0;
    if (status != BW_ERR_MEMORY)
        status = BW_OK; /* whoever reads it says in his words what is wrong */
    for (size_t i = 0; status == BW_OK && i < count; i++)
        status = targets_spare(given, files.path[i], err);
    bw_arena_release(&arena);
    return status;
}
