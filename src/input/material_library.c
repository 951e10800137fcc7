/* A library from directories: every *.xml, in name order. */

#include <assert.h>
#include <stdlib.h>

#include "fail.h"
#include "file.h"
#include "folder.h"
#include "library.h"
#include "material_pick.h"
#include "material_xml.h"

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
    bw_folder_files list;
    BW_TRY(bw_folder_list(&list, bw_library_arena(library), path, false,
                          "materials", err));
    for (size_t i = 0; i < list.count; i++)
        BW_TRY(read_file(library, list.path[i], directory, quotes, err));
    return BW_OK;
}

/* What a library is read from. */
typedef struct origin {
    const char *const *path;
    size_t count;
    const bw_quotes *quotes; /* NULL: all of the folders is wanted */
    const char *text, *name; /* a file in memory; NULL: none */
} origin;

static bw_status read_library(bw_library **out, const origin *from,
                              bw_error *err)
{
    bw_library *library = bw_library_new();
    BW_TRY_MEMORY(library != NULL, err);
    bw_status status = BW_OK;
    for (size_t i = 0; i < from->count && status == BW_OK; i++)
        status = read_directory(library, from->path[i], i, from->quotes, err);
    if (status == BW_OK && from->text != NULL)
        status = bw_material_file_read(library, from->name, from->text,
                                       from->count, err);
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
    assert(count >= 1);
    const origin from = {.path = paths, .count = count};
    return read_library(out, &from, err);
}

bw_status bw_library_read_text(bw_library **out, const char *const *paths,
                               size_t count, const char *text, const char *name,
                               bw_error *err)
{
    const origin from = {
        .path = paths, .count = count, .text = text, .name = name};
    return read_library(out, &from, err);
}

bw_status bw_library_pick(bw_library **out, const char *path,
                          const bw_quotes *quotes, bw_error *err)
{
    const origin from = {.path = &path, .count = 1, .quotes = quotes};
    return read_library(out, &from, err);
}
