#include "assembly_reader.h"

#include <stdarg.h>
#include <string.h>

#include "called.h"
#include "fail.h"
#include "text.h"

/* What every part of the assembly reader does alike.
 *
 * Invariant: a text or note that memory has no room for is remembered in
 * out_of_memory, which the end of the file answers for. */

const char *bw_keep(bw_reader *r, const char *text)
{
    if (text == NULL || *text == '\0')
        return "";
    const char *copy = bw_arena_copy(r->arena, text);
    r->out_of_memory |= copy == NULL;
    return copy != NULL ? copy : "";
}

void bw_add_note(bw_reader *r, bw_note_kind kind, const xmlNode *node,
                 const char *format, ...)
{
    char text[600];
    va_list args;
    va_start(args, format);
    bw_text_print(text, sizeof text, format, args);
    va_end(args);
    bw_note *all = bw_arena_more(r->arena, r->note, r->note_count,
                                 &r->note_room, sizeof *all);
    if (all == NULL) {
        r->out_of_memory = true;
        return;
    }
    r->note = all;
    r->note[r->note_count++] = (bw_note){
        .kind = kind,
        .line = node != NULL ? bw_xml_line(node) : 0,
        .file = r->assembly->file,
        .message = bw_keep(r, text)};
}

/* ---- faults ------------------------------------------------------------ */

bool bw_any_fault(const bw_reader *r)
{
    return r->faults != NULL && r->faults->count > 0;
}

/* By line; of those of one line the one found first stands first. */
static void add_fault(bw_faults *faults, const bw_error *fault)
{
    if (faults->count == BW_MOST_FAULTS) {
        faults->more++;
        return;
    }
    size_t i = faults->count++;
    for (; i > 0 && faults->fault[i - 1].line > fault->line; i--)
        faults->fault[i] = faults->fault[i - 1];
    faults->fault[i] = *fault;
}

bw_status bw_read_part(bw_reader *r, bw_part_reader *read, const xmlNode *node)
{
    bw_status status = BW_OK;
    /* A wall of slips must not be read for ever. */
    for (int round = 0; round <= BW_MOST_FAULTS; round++) {
        r->slipped = false;
        status = read(r, node);
        bool slipped = r->slipped;
        r->slipped = false;
        if (r->faults == NULL || status != BW_ERR_INPUT)
            return status;
        /* After a slip the other checks looked at a value that stands in. */
        if (slipped || round == 0)
            add_fault(r->faults, r->err);
        if (!slipped)
            return BW_OK;
    }
    return BW_OK;
}

bw_status bw_read_child(bw_reader *r, const char *name, bool required,
                        bw_part_reader *read)
{
    xmlNode *child = NULL;
    bw_status status = bw_xml_child(&child, &r->xml, r->xml.root, name,
                                    required, r->err);
    if (status == BW_OK)
        return child != NULL ? bw_read_part(r, read, child) : BW_OK;
    if (r->faults == NULL || status != BW_ERR_INPUT)
        return status;
    add_fault(r->faults, r->err);
    return BW_OK;
}

/* ---- words ------------------------------------------------------------- */

bw_status bw_read_yes_no(bw_reader *r, bool *value, bool *given,
                         const xmlNode *node, const char *name)
{
    static const char *const words[] = {"no", "yes"};
    int index = *value;
    BW_TRY(bw_xml_word(&index, given, &r->xml, node, name, words, 2, r->err));
    *value = index == 1;
    return BW_OK;
}

bw_status bw_read_evidence(bw_reader *r, bw_evidence *evidence, bool *given,
                           const xmlNode *node)
{
    /* In the order of bw_evidence. */
    static const char *const words[] = {"assumed", "tabulated", "declared",
                                        "measured"};
    int index = (int)*evidence;
    BW_TRY(bw_explain(
        r->err,
        bw_xml_word(&index, given, &r->xml, node, "evidence", words, 4, r->err),
        bw_evidence_meaning()));
    *evidence = (bw_evidence)index;
    return BW_OK;
}

bw_status bw_read_own_id(bw_reader *r, const char **id, const xmlNode *node)
{
    const char *text = bw_xml_value(node, "id");
    *id = bw_keep(r, text);
    return text == NULL || text[strspn(text, " \t\r\n")] != '\0'
               ? BW_OK
               : bw_refuse_at(r, node, "id",
                              "is empty; give it a name, or leave id= out");
}

bw_status bw_read_material(bw_reader *r, const bw_material **material,
                           const xmlNode *node, const char *name)
{
    const char *id;
    BW_TRY(bw_read_required(r, &id, node, name, "hemp-batt"));
    *material = bw_library_find(r->library, id);
    if (*material == NULL && bw_xml_slipped(node, name))
        *material = bw_library_at(r->library, 0);
    if (*material != NULL)
        return BW_OK;
    char near[BW_ALIKE_TEXT];
    bool any = bw_library_alike_text(near, sizeof near, r->library, id);
    return bw_xml_slip(
        &r->xml, node, name,
        bw_refuse_at(r, node, name,
                     "is not in the material library%s%s%s; the command "
                     "\"bothways materials\" lists all",
                     any ? " (did you mean " : "", near, any ? "?)" : ""));
}
