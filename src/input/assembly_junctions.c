/* <junctions>: where the wall meets others, each a file of its own, read with
 * the wall and judged with it.
 *
 * Invariant: a wall that is read for a junction reads no junctions, so that
 * files that name each other come to an end. */

#include <string.h>

#include "fail.h"
#include "file.h"
#include "junction_reader.h"
#include "owner.h"

enum { MOST_JUNCTIONS = 40 };

static bw_status read_name(bw_reader *r, bw_named_junction *out,
                           const xmlNode *node)
{
    static const char *const allowed[] = {"file"};
    const char *path;
    BW_TRY(bw_xml_attributes(&r->xml, node, allowed, 1, r->err));
    BW_TRY(bw_xml_children(&r->xml, node, NULL, 0, r->err));
    BW_TRY(bw_xml_required(&path, &r->xml, node, "file", "corner.xml", r->err));
    *out = (bw_named_junction){.file = bw_resolve(r, path),
                               .line = bw_xml_line(node)};
    return BW_OK;
}

bw_status bw_read_junction_names(bw_reader *r, const xmlNode *node)
{
    static const char *const parts[] = {"junction"};
    size_t count = 0;
    BW_TRY(bw_xml_attributes(&r->xml, node, NULL, 0, r->err));
    BW_TRY(bw_xml_children(&r->xml, node, parts, 1, r->err));
    for (const xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        count++;
    if (count == 0 || count > MOST_JUNCTIONS)
        return bw_xml_fail(&r->xml, node, r->err,
                           "names %zu junctions; 1 to %d are accepted: "
                           "<junction file=\"corner.xml\"/>",
                           count, MOST_JUNCTIONS);
    bw_named_junction *name = BW_NEW(r->arena, bw_named_junction, count);
    if (name == NULL)
        return bw_fail_memory(r->err);
    count = 0;
    for (const xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        BW_TRY(read_name(r, &name[count], c));
        for (size_t i = 0; i < count; i++)
            if (strcmp(name[i].file, name[count].file) == 0)
                return bw_xml_fail_at(&r->xml, c, "file", r->err,
                                      "stands twice");
        count++;
    }
    r->assembly->junction = name;
    r->assembly->junction_count = count;
    return BW_OK;
}

/* A junction made of walls is of this one, too; drawn freely it is in the same
 * climate. */
static bw_status check(const bw_assembly *wall, const bw_named_junction *name,
                       bw_error *err)
{
    const bw_junction *j = name->junction;
    bool its = j->wall_count == 0;
    for (size_t i = 0; i < j->wall_count; i++)
        its = its || strcmp(j->wall[i]->file, wall->file) == 0 ||
              bw_file_same(j->wall[i]->file, wall->file);
    if (!its)
        return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                       "<junction file=\"%.200s\"> is made of \"%.60s\", not "
                       "of this wall; name it there",
                       name->file, j->wall[0]->id);
    const char *mine = wall->outdoors.climate_path;
    const char *other = j->outdoors.climate_path;
    if (*mine == '\0' || *other == '\0' || strcmp(mine, other) == 0 ||
        bw_file_same(mine, other))
        return BW_OK;
    return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                   "<junction file=\"%.200s\"> is in another climate "
                   "(%.200s) than this wall, beside which it is judged",
                   name->file, other);
}

bw_status bw_read_junctions(bw_assembly_owner *owner,
                            const bw_wall_origin *from,
                            const bw_library *library, bw_error *err)
{
    bw_assembly *wall = &owner->assembly;
    owner->free_junction = bw_junction_free;
    for (size_t i = 0; i < wall->junction_count; i++) {
        bw_named_junction *name = (bw_named_junction *)&wall->junction[i];
        bw_junction *made = NULL;
        if (!bw_file_there(name->file))
            return bw_fail(err, BW_ERR_INPUT, wall->file, name->line,
                           "<junction file=\"%.300s\"> is not there",
                           name->file);
        BW_TRY(bw_junction_read_of(&made, name->file, from, library, err));
        name->junction = made;
        BW_TRY(check(wall, name, err));
    }
    return BW_OK;
}
