/* A library from directories: every *.xml, in name order. */

#include <assert.h>

#include "fail.h"
#include "folder.h"
#include "library.h"
#include "material_xml.h"

static bw_status read_directory(bw_library *library, const char *path,
                                size_t directory, bw_error *err)
{
    bw_folder_files list;
    BW_TRY(bw_folder_list(&list, bw_library_arena(library), path, "materials",
                          err));
    for (size_t i = 0; i < list.count; i++)
        BW_TRY(bw_material_file_read(library, list.path[i], directory, err));
    return BW_OK;
}

bw_status bw_library_read(bw_library **out, const char *const *paths,
                          size_t count, bw_error *err)
{
    assert(count >= 1);
    bw_library *library = bw_library_new();
    if (library == NULL)
        return bw_fail_memory(err);
    bw_status status = BW_OK;
    for (size_t i = 0; i < count && status == BW_OK; i++)
        status = read_directory(library, paths[i], i, err);
    if (status == BW_OK)
        status = bw_library_seal(library, err);
    if (status != BW_OK) {
        bw_library_free(library);
        return status;
    }
    *out = library;
    return BW_OK;
}
