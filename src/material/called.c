#include "called.h"

#include <stdio.h>
#include <string.h>

#include "text.h"

/* Words are compared without case, blanks and hyphens.
 *
 * Invariant: two words written as one match where the first begins a word;
 * within a word any part of it matches. */

static bool joins(char c)
{
    return c == '-' || bw_text_blank(c);
}

/* Part of a text. */
typedef struct span {
    const char *at, *end;
} span;

static span whole(const char *text)
{
    return (span){text, text + strlen(text)};
}

static span skip(span s)
{
    while (s.at < s.end && joins(*s.at))
        s.at++;
    return s;
}

/* How much of `text` the word takes from its start on, 0: it does not stand
 * there; *apart tells whether it goes over a blank or hyphen. */
static size_t takes(span text, span word, bool *apart)
{
    const char *start = text.at;
    *apart = false;
    for (word = skip(word); word.at < word.end; word = skip(word)) {
        span next = text.at > start ? skip(text) : text;
        *apart = *apart || next.at > text.at;
        if (next.at == next.end ||
            bw_text_lower(*next.at) != bw_text_lower(*word.at))
            return 0;
        text.at = next.at + 1;
        word.at++;
    }
    return (size_t)(text.at - start);
}

static bool begins(const char *text, const char *at)
{
    return at == text || joins(at[-1]) || at[-1] == ',' || at[-1] == '(';
}

static bool holds(const char *text, span word)
{
    bool apart;
    for (span rest = whole(text); rest.at < rest.end; rest.at++)
        if (takes(rest, word, &apart) > 0 && (!apart || begins(text, rest.at)))
            return true;
    return false;
}

static bool equals(span text, span word)
{
    bool apart;
    text = skip(text);
    size_t taken = takes(text, word, &apart);
    text.at += taken;
    return taken > 0 && skip(text).at == text.end;
}

/* The next item of a list with commas. */
static span item(const char **rest)
{
    span out = {*rest, *rest + strcspn(*rest, ",")};
    *rest = *out.end == ',' ? out.end + 1 : out.end;
    return out;
}

static bool names_hold(const bw_material *m, span word)
{
    return holds(m->id, word) || holds(m->name, word) || holds(m->also, word);
}

/* All of the words, wherever they stand in the text. */
static bool holds_each(const char *text, const char *words)
{
    size_t count = 0;
    for (const char *c = words + strspn(words, " "); *c != '\0';
         c += strspn(c, " ")) {
        span word = {c, c + strcspn(c, " ")};
        if (!holds(text, word))
            return false;
        count++;
        c = word.end;
    }
    return count > 0;
}

/* Words of different fields belong to different things: a breather is open to
 * vapour and a barrier of wind. */
bool bw_material_mentions(const bw_material *m, const char *words)
{
    const char *const field[] = {m->id, m->name, m->also, m->group, m->remark};
    for (size_t i = 0; i < sizeof field / sizeof field[0]; i++)
        if (holds(field[i], whole(words)) || holds_each(field[i], words))
            return true;
    return false;
}

/* ---- what a word may mean ---------------------------------------------- */

static bool is_called(const bw_material *m, const char *word)
{
    const char *rest = m->also;
    bool called = equals(whole(m->id), whole(word)) ||
                  equals(whole(m->name), whole(word));
    while (*rest != '\0' && !called)
        called = equals(item(&rest), whole(word));
    return called;
}

/* wood-fibre-board of wood-fibre-board-180. */
static bool is_begun(const bw_material *m, const char *word)
{
    bool apart;
    return joins(m->id[takes(whole(m->id), whole(word), &apart)]);
}

static bool is_near(const bw_material *m, const char *word)
{
    return names_hold(m, whole(word));
}

/* The letters of a phrase all of whose words begin words of the text; 0: not
 * all do. */
static size_t spoken(const char *text, span phrase)
{
    size_t letters = 0;
    for (phrase = skip(phrase); phrase.at < phrase.end; phrase = skip(phrase)) {
        span word = {phrase.at, phrase.at};
        while (word.end < phrase.end && !joins(*word.end))
            word.end++;
        bool found = false, apart;
        for (span rest = whole(text); rest.at < rest.end && !found; rest.at++)
            found = begins(text, rest.at) && takes(rest, word, &apart) > 0;
        if (!found)
            return 0;
        letters += (size_t)(word.end - word.at);
        phrase.at = word.end;
    }
    return letters;
}

/* membrane-variable: all its words begin words of variable-membrane-broad. */
static bool is_worded(const bw_material *m, const char *word)
{
    return spoken(m->id, whole(word)) > 0;
}

/* Adds those to the `count` of which the answer is yes. */
static size_t add(bool (*asks)(const bw_material *, const char *),
                  const bw_library *library, const char *word,
                  const bw_material **out, size_t count, size_t room)
{
    const size_t before = count;
    for (size_t i = 0; i < bw_library_count(library) && count < room; i++) {
        const bw_material *m = bw_library_at(library, i);
        bool there = !asks(m, word);
        for (size_t k = 0; k < before; k++)
            there = there || out[k] == m;
        if (!there)
            out[count++] = m;
    }
    return count;
}

size_t bw_library_alike(const bw_library *library, const char *word,
                        const bw_material **out, size_t room)
{
    size_t count = add(is_begun, library, word, out, 0, room);
    count = add(is_called, library, word, out, count, room);
    if (count == 0)
        count = add(is_near, library, word, out, 0, room);
    if (count == 0)
        count = add(is_worded, library, word, out, 0, room);
    const char *nearest = bw_library_suggest(library, word);
    if (count == 0 && nearest != NULL)
        out[count++] = bw_library_find(library, nearest);
    return count;
}

bool bw_library_alike_text(char *out, size_t size, const bw_library *library,
                           const char *word)
{
    enum { FEW = 3 };
    const bw_material *few[FEW];
    size_t count = bw_library_alike(library, word, few, FEW), used = 0;
    out[0] = '\0';
    for (size_t i = 0; i < count && used < size; i++) {
        int wrote = snprintf(out + used, size - used, "%s%s",
                             i == 0           ? ""
                             : i + 1 == count ? " or "
                                              : ", ",
                             few[i]->id);
        used += wrote > 0 ? (size_t)wrote : 0;
    }
    return count > 0;
}

/* ---- what a description speaks of -------------------------------------- */

static size_t longest(const char *text, const bw_material *m)
{
    const char *rest = m->name;
    size_t best = spoken(text, item(&rest));
    size_t id = spoken(text, whole(m->id));
    best = id > best ? id : best;
    for (rest = m->also; *rest != '\0';) {
        size_t also = spoken(text, item(&rest));
        best = also > best ? also : best;
    }
    return best;
}

size_t bw_library_spoken_of(const bw_library *library, const char *text,
                            const bw_material **out, size_t room)
{
    size_t count = 0, best = 1;
    for (size_t i = 0; i < bw_library_count(library); i++) {
        size_t length = longest(text, bw_library_at(library, i));
        if (length < best)
            continue;
        count = length > best ? 0 : count;
        best = length;
        if (count < room)
            out[count++] = bw_library_at(library, i);
    }
    return count;
}
