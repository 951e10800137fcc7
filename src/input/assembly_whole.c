/* An assembly with the junctions it names.
 *
 * Invariant: nothing that is read for a junction comes back here. */

#include "assembly_reader.h"
#include "fail.h"
#include "owner.h"

static bw_status read_from(bw_assembly **out, const bw_wall_origin *from,
                           const bw_library *library, bw_error *err)
{
    bw_assembly *wall = NULL;
    BW_TRY(bw_wall_read(&wall, from, library, err));
    const bw_status status = bw_read_junctions((bw_assembly_owner *)wall, from,
                                               library, err);
    if (status == BW_OK)
        *out = wall;
    else
        bw_assembly_free(wall);
    return status;
}

bw_status bw_assembly_read(bw_assembly **out, const char *path,
                           const bw_library *library, bw_error *err)
{
    const bw_wall_origin from = {.name = path};
    return read_from(out, &from, library, err);
}

bw_status bw_assembly_read_edited(bw_assembly **out, const char *path,
                                  const bw_library *library,
                                  const bw_edit *edit, size_t count,
                                  bw_error *err)
{
    const bw_wall_origin from = {
        .name = path, .edit = edit, .edit_count = count};
    return read_from(out, &from, library, err);
}

bw_status bw_assembly_read_faults(bw_assembly **out, const char *path,
                                  const bw_library *library,
                                  const bw_edit *edit, size_t count,
                                  bw_faults *faults, bw_error *err)
{
    const bw_wall_origin from = {
        .name = path, .edit = edit, .edit_count = count, .faults = faults};
    bw_error first = {0};
    faults->count = faults->more = 0;
    bw_status status = read_from(out, &from, library, &first);
    if (first.status != BW_ERR_INPUT)
        faults->count = faults->more = 0; /* the machine's, not the file's */
    if (status != BW_OK && faults->count == 0)
        faults->fault[faults->count++] = first;
    if (err != NULL && status != BW_OK)
        *err = first;
    return status;
}

bw_status bw_assembly_read_text(bw_assembly **out, const char *text,
                                const char *name, const bw_library *library,
                                const bw_edit *edit, size_t count,
                                bw_error *err)
{
    const bw_wall_origin from = {
        .name = name, .text = text, .edit = edit, .edit_count = count};
    return read_from(out, &from, library, err);
}
