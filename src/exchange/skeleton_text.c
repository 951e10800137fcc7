#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "number.h"
#include "skeleton.h"
#include "text.h"
#include "utf8.h"

/* A sentence, cut to fit. */
enum { SENTENCE = 512 };

static void add(bw_skeleton_owner *owner, const char **list, size_t *count,
                const char *text)
{
    if (*count == BW_SKELETON_SENTENCES)
        return;
    const char *kept = *count + 1 < BW_SKELETON_SENTENCES ? text : "And more.";
    list[*count] = bw_arena_copy(&owner->arena, kept);
    if (list[*count] == NULL)
        owner->no_memory = true;
    else
        (*count)++;
}

void bw_skeleton_missing(bw_skeleton_owner *owner, const char *format, ...)
{
    char text[SENTENCE];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    add(owner, owner->missing, &owner->skeleton.missing_count, text);
}

void bw_skeleton_note(bw_skeleton_owner *owner, const char *format, ...)
{
    char text[SENTENCE];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    add(owner, owner->note, &owner->skeleton.note_count, text);
}

static void put_bytes(bw_skeleton_owner *owner, const char *bytes,
                      size_t length)
{
    if (owner->no_memory)
        return;
    if (owner->length + length + 1 > owner->room) {
        size_t room = 2 * (owner->length + length) + 1024;
        char *grown = realloc(owner->text, room);
        if (grown == NULL) {
            owner->no_memory = true;
            return;
        }
        owner->text = grown;
        owner->room = room;
    }
    memcpy(owner->text + owner->length, bytes, length);
    owner->length += length;
    owner->text[owner->length] = '\0';
}

void bw_skeleton_put(bw_skeleton_owner *owner, const char *text)
{
    put_bytes(owner, text, strlen(text));
}

/* One character, and how many bytes of the text it was. What is none (a name
 * cut short, a file's name in another encoding) would make the file no XML. */
static size_t put_character(bw_skeleton_owner *owner, const char *text)
{
    size_t count = bw_utf8_valid(text, strnlen(text, 4));
    put_bytes(owner, count > 0 ? text : "?", count > 0 ? count : 1);
    return count > 0 ? count : 1;
}

static void put_value(bw_skeleton_owner *owner, const char *text)
{
    for (size_t count; *text != '\0'; text += count) {
        count = 1;
        switch (*text) {
        case '<':
            bw_skeleton_put(owner, "&lt;");
            break;
        case '>':
            bw_skeleton_put(owner, "&gt;");
            break;
        case '&':
            bw_skeleton_put(owner, "&amp;");
            break;
        case '"':
            bw_skeleton_put(owner, "&quot;");
            break;
        case '\t':
        case '\n':
        case '\r':
            bw_skeleton_put(owner, " ");
            break;
        default:
            count = put_character(owner, text);
        }
    }
}

void bw_skeleton_put_comment(bw_skeleton_owner *owner, const char *text)
{
    for (size_t count; *text != '\0'; text += count) {
        bool pair = *text == '-' && (text[1] == '-' || text[1] == '\0');
        count = put_character(owner, text);
        if (pair)
            put_bytes(owner, " ", 1);
    }
}

void bw_skeleton_put_text(bw_skeleton_owner *owner, const char *name,
                          const char *text)
{
    bw_skeleton_put(owner, " ");
    bw_skeleton_put(owner, name);
    bw_skeleton_put(owner, "=\"");
    put_value(owner, text);
    bw_skeleton_put(owner, "\"");
}

void bw_skeleton_put_quantity(bw_skeleton_owner *owner, const char *name,
                              double value, const char *unit)
{
    char number[64], text[128];
    bw_number_g(number, sizeof number, value, 6);
    snprintf(text, sizeof text, "%s%s%s", number, *unit != '\0' ? " " : "",
             unit);
    bw_skeleton_put_text(owner, name, text);
}

static bool is_word(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
}

const char *bw_skeleton_id(bw_skeleton_owner *owner, const char *name)
{
    char *id = bw_arena_copy(&owner->arena, name);
    if (id == NULL) {
        owner->no_memory = true;
        return "";
    }
    size_t length = 0;
    for (const char *p = id; *p != '\0'; p++) {
        const char c = bw_text_lower(*p);
        if (is_word(c))
            id[length++] = c;
        else if (length > 0 && id[length - 1] != '-')
            id[length++] = '-';
    }
    if (length > 0 && id[length - 1] == '-')
        length--;
    id[length] = '\0';
    return id;
}

const char *bw_skeleton_file(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}
