/* The text of an element, without libxml2's buffers: those cut a text short
 * where memory runs out, and do not say so. */

#include <string.h>

#include "xml.h"

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static const char *text_of(const xmlNode *node)
{
    bool text = node->type == XML_TEXT_NODE ||
                node->type == XML_CDATA_SECTION_NODE;
    return text && node->content != NULL ? (const char *)node->content : "";
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
            if (!is_blank(*c))
                text[used++] = *c;
            else if (used > 0 && text[used - 1] != ' ')
                text[used++] = ' ';
        }
    if (used > 0 && text[used - 1] == ' ')
        used--;
    text[used] = '\0';
    return text;
}
