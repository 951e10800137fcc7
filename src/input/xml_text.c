/* Names, and the text of an element, without libxml2's buffers: those cut a
 * text short where memory runs out, and do not say so. */

#include <string.h>

#include "fail.h"
#include "text.h"
#include "xml.h"

static const char *text_of(const xmlNode *node)
{
    /* the parser makes text of CDATA (xml_open.c) */
    const bool text = node->type == XML_TEXT_NODE && node->content != NULL;
    return text ? (const char *)node->content : "";
}

char *bw_xml_text(bw_arena *arena, const xmlNode *node)
{
    size_t size = 1, used = 0;
    for (const xmlNode *part = node->children; part != NULL; part = part->next)
        size += strlen(text_of(part));
    char *text = bw_arena_get(arena, size, 1);
    if (text == NULL)
        return NULL;
    for (const xmlNode *part = node->children; part != NULL; part = part->next)
        for (const char *c = text_of(part); *c != '\0'; c++) {
            if (!bw_text_blank(*c))
                text[used++] = *c;
            else if (used > 0 && text[used - 1] != ' ')
                text[used++] = ' ';
        }
    if (used > 0 && text[used - 1] == ' ')
        used--;
    text[used] = '\0';
    return text;
}

bw_status bw_xml_only_text(const char **out, const bw_xml *xml, bw_arena *arena,
                           const xmlNode *node, bw_error *err)
{
    const xmlNode *child = bw_xml_first(node);
    if (child != NULL)
        return bw_xml_fail(xml, child, err,
                           "cannot stand in <%s>, which holds only text",
                           bw_xml_name(node));
    const char *text = bw_xml_text(arena, node);
    BW_TRY_MEMORY(text != NULL, err);
    if (*text == '\0')
        return bw_xml_fail(xml, node, err, "holds no text");
    *out = text;
    return BW_OK;
}

static bool is_id(const char *text)
{
    size_t word = 0;
    for (const char *c = text; *c != '\0'; c++) {
        bool letter = (*c >= 'a' && *c <= 'z') || (*c >= '0' && *c <= '9');
        if (!letter && (*c != '-' || word == 0))
            return false;
        word = letter ? word + 1 : 0;
    }
    return word > 0;
}

bw_status bw_xml_id(const char **id, const bw_xml *xml, const xmlNode *node,
                    const char *example, bw_error *err)
{
    const char *text = NULL;
    BW_TRY(bw_xml_required(&text, xml, node, "id", example, err));
    if (!is_id(text))
        return bw_xml_fail_at(xml, node, "id", err,
                              "is not lower-case words joined by '-', such as "
                              "\"%s\"",
                              example);
    *id = text;
    return BW_OK;
}
