/* A library from directories: every *.xml, in name order. */

#include <assert.h>
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "file.h"
#include "library.h"
#include "material_pick.h"
#include "material_xml.h"

/* Invariant: files are read in strcmp order of their names, so that a message
 * about the first fault does not depend on the file system. */

typedef struct names {
    const char **name;
    size_t count, room;
} names;

static bool is_material_file(const char *name)
{
    size_t length = strlen(name);
    return length > 4 && name[0] != '.' &&
           strcmp(name + length - 4, ".xml") == 0;
}

static bool keep(names *list, bw_arena *arena, const char *name)
{
    if (list->count == list->room) {
        size_t room = list->room > 0 ? 2 * list->room : 16;
        const char **bigger = BW_NEW(arena, const char *, room);
        if (bigger == NULL)
            return false;
        if (list->count > 0)
            memcpy(bigger, list->name, list->count * sizeof *bigger);
        list->name = bigger;
        list->room = room;
    }
    char *copy = bw_arena_copy(arena, name);
    if (copy == NULL)
        return false;
    list->name[list->count++] = copy;
    return true;
}

static int by_name(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

static bw_status list_files(names *list, bw_arena *arena, const char *path,
                            bw_error *err)
{
    DIR *directory = opendir(path);
    if (directory == NULL && errno == ENOMEM)
        return bw_fail_memory(err);
    if (directory == NULL)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "cannot open this directory of materials: %s",
                       strerror(errno));
    bool kept = true;
    for (;;) {
        errno = 0;
        const struct dirent *file = readdir(directory);
        if (file == NULL || !kept)
            break;
        if (is_material_file(file->d_name))
            kept = keep(list, arena, file->d_name);
    }
    int fault = errno;
    closedir(directory);
    if (!kept)
        return bw_fail_memory(err);
    if (fault != 0)
        return bw_fail(err, BW_ERR_IO, path, 0,
                       "reading this directory broke off: %s", strerror(fault));
    if (list->count == 0)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this directory of materials holds no *.xml file");
    qsort(list->name, list->count, sizeof list->name[0], by_name);
    return BW_OK;
}

/* What is quoted of a file; NULL: all. */
static bw_status read_file(bw_library *library, const char *path,
                           size_t directory, const bw_quotes *quotes,
                           bw_error *err)
{
    char *text;
    size_t length;
    if (quotes == NULL)
        return bw_material_file_read(library, path, NULL, directory, err);
    BW_TRY(bw_file_read(&text, &length, path, "material", err));
    bw_status status = BW_OK;
    if (bw_material_thin(text, quotes))
        status = bw_material_file_read(library, path, text, directory, err);
    free(text);
    return status;
}

static bw_status read_directory(bw_library *library, const char *path,
                                size_t directory, const bw_quotes *quotes,
                                bw_error *err)
{
    bw_arena *arena = bw_library_arena(library);
    names list = {NULL, 0, 0};
    BW_TRY(list_files(&list, arena, path, err));
    size_t length = strlen(path);
    const char *slash = length > 0 && path[length - 1] == '/' ? "" : "/";
    for (size_t i = 0; i < list.count; i++) {
        char *file = bw_arena_printf(arena, "%s%s%s", path, slash,
                                     list.name[i]);
        if (file == NULL)
            return bw_fail_memory(err);
        BW_TRY(read_file(library, file, directory, quotes, err));
    }
    return BW_OK;
}

static bw_status read_directories(bw_library **out, const char *const *paths,
                                  size_t count, const bw_quotes *quotes,
                                  bw_error *err)
{
    assert(count >= 1);
    bw_library *library = bw_library_new();
    if (library == NULL)
        return bw_fail_memory(err);
    bw_status status = BW_OK;
    for (size_t i = 0; i < count && status == BW_OK; i++)
        status = read_directory(library, paths[i], i, quotes, err);
    if (status == BW_OK)
        status = bw_library_seal(library, err);
    if (status != BW_OK) {
        bw_library_free(library);
        return status;
    }
    *out = library;
    return BW_OK;
}

bw_status bw_library_read(bw_library **out, const char *const *paths,
                          size_t count, bw_error *err)
{
    return read_directories(out, paths, count, NULL, err);
}

bw_status bw_library_pick(bw_library **out, const char *path,
                          const bw_quotes *quotes, bw_error *err)
{
    return read_directories(out, &path, 1, quotes, err);
}
