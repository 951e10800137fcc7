/* <junctions>: the names of the junctions of a wall. Invariant: each once. */

#include <string.h>

#include "assembly_reader.h"
#include "fail.h"

enum { MOST_JUNCTIONS = 40 };

static bw_status read_name(bw_reader *r, bw_named_junction *out,
                           const xmlNode *node)
{
    const char *path;
    BW_TRY(bw_read_childless(r, node, "file"));
    BW_TRY(bw_read_required(r, &path, node, "file", "corner.xml"));
    *out = (bw_named_junction){.file = bw_resolve(r, path),
                               .line = bw_xml_line(node)};
    return BW_OK;
}

bw_status bw_read_junction_names(bw_reader *r, const xmlNode *node)
{
    size_t count = 0;
    BW_TRY(bw_xml_attributes(&r->xml, node, NULL, 0, r->err));
    BW_TRY(bw_read_children(r, node, "junction"));
    for (const xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c))
        count++;
    if (count == 0 || count > MOST_JUNCTIONS)
        return bw_refuse(r, node,
                         "names %zu junctions; 1 to %d are accepted: <junction "
                         "file=\"corner.xml\"/>",
                         count, MOST_JUNCTIONS);
    bw_named_junction *name = BW_NEW(r->arena, bw_named_junction, count);
    BW_TRY_MEMORY(name != NULL, r->err);
    count = 0;
    for (const xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        BW_TRY(read_name(r, &name[count], c));
        for (size_t i = 0; i < count; i++)
            if (strcmp(name[i].file, name[count].file) == 0)
                return bw_refuse_at(r, c, "file", "stands twice");
        count++;
    }
    r->assembly->junction = name;
    r->assembly->junction_count = count;
    return BW_OK;
}
