#include "material_reader.h"

#include <stdio.h>
#include <string.h>

#include "fail.h"
#include "text.h"

/* Where a value is from: keys of sources, spelt out.
 *
 * Invariant: a source that was read is text a reader can follow up, never a
 * bare key and never empty. */

/* Each is compared with the others, and sought for each value. */
enum { SOURCES_MOST = 1000 };

bw_status bw_material_text(const char **out, const bw_material_reader *r,
                           const xmlNode *node)
{
    return bw_xml_only_text(out, &r->xml, r->arena, node, r->err);
}

static bw_status read_source(bw_material_reader *r, const xmlNode *node)
{
    const char *key, *text = NULL;
    BW_TRY(bw_read_attributes(r, node, "key"));
    BW_TRY(bw_read_required(r, &key, node, "key", "data-sheet"));
    BW_TRY(bw_material_text(&text, r, node));
    if (strpbrk(key, " \t\r\n") != NULL)
        return bw_refuse_at(
            r, node, "key",
            "holds a blank; write one word such as \"data-sheet\"");
    for (size_t i = 0; i < r->source_count; i++)
        if (strcmp(r->key[i], key) == 0)
            return bw_refuse_at(r, node, "key",
                                "is declared twice in this file");
    r->key[r->source_count] = key;
    r->text[r->source_count++] = text;
    return BW_OK;
}

bw_status bw_material_sources(bw_material_reader *r)
{
    size_t count = 0;
    for (xmlNode *n = bw_xml_first(r->xml.root); n != NULL; n = bw_xml_next(n))
        count += bw_xml_is(n, "source");
    if (count > SOURCES_MOST)
        return bw_refuse(r, r->xml.root,
                         "holds %zu <source>; at most %d a file are accepted",
                         count, SOURCES_MOST);
    r->key = BW_NEW(r->arena, const char *, count);
    r->text = BW_NEW(r->arena, const char *, count);
    BW_TRY_MEMORY(r->key != NULL && r->text != NULL, r->err);
    for (xmlNode *n = bw_xml_first(r->xml.root); n != NULL; n = bw_xml_next(n))
        if (bw_xml_is(n, "source"))
            BW_TRY(read_source(r, n));
    return BW_OK;
}

/* "one; other", into the arena; NULL: out of memory. */
static const char *join(bw_arena *arena, const char *one, const char *other)
{
    size_t first = strlen(one), second = strlen(other);
    char *text = bw_arena_get(arena, first + second + 3, 1);
    if (text == NULL)
        return NULL;
    memcpy(text, one, first + 1);
    text[first] = ';';
    text[first + 1] = ' ';
    memcpy(text + first + 2, other, second + 1);
    return text;
}

/* The text of the source key that starts at `word`, or NULL. */
static const char *find_source(const bw_material_reader *r, const char *word,
                               size_t length)
{
    for (size_t i = 0; i < r->source_count; i++)
        if (strlen(r->key[i]) == length &&
            strncmp(r->key[i], word, length) == 0)
            return r->text[i];
    return NULL;
}

bw_status bw_material_source(const char **out, const bw_material_reader *r,
                             const xmlNode *node)
{
    static const char blanks[] = " \t\r\n";
    const char *keys;
    BW_TRY(bw_read_required(r, &keys, node, "source", "data-sheet"));
    const char *joined = NULL;
    for (const char *c = keys + strspn(keys, blanks); *c != '\0';) {
        size_t length = strcspn(c, blanks);
        const char *text = find_source(r, c, length);
        if (text == NULL) {
            char word[64];
            snprintf(word, sizeof word, "%.*s", (int)length, c);
            return bw_refuse_at(
                r, node, "source",
                "names no source of this file: \"%s\"%s; declare <source "
                "key=\"%s\">what it is</source> at its top",
                word,
                bw_text_meant((char[BW_MEANT]){0}, word, r->key,
                              r->source_count),
                word);
        }
        joined = joined == NULL ? text : join(r->arena, joined, text);
        BW_TRY_MEMORY(joined != NULL, r->err);
        c += length;
        c += strspn(c, blanks);
    }
    *out = joined;
    return BW_OK;
}

bw_status bw_material_origin(bw_basis *basis, const char **source,
                             const char **note, const bw_material_reader *r,
                             const xmlNode *node)
{
    static const char *const words[] = {
        [BW_BASIS_ESTIMATE] = "estimate",
        [BW_BASIS_DERIVED] = "derived",
        [BW_BASIS_FROM_MEMORY] = "from-memory",
        [BW_BASIS_OPENED] = "opened",
        [BW_BASIS_GIVEN] = "given",
    };
    int index;
    BW_TRY(bw_xml_word(&index, NULL, &r->xml, node, "basis", words,
                       BW_COUNT(words), r->err));
    BW_TRY(bw_material_source(source, r, node));
    const char *text = bw_xml_value(node, "note");
    *basis = (bw_basis)index;
    *note = bw_arena_copy(r->arena, text != NULL ? text : "");
    return *note != NULL ? BW_OK : bw_fail_memory(r->err);
}
