/* How a fuzzer changes a file of ours without breaking its form each time: a
 * value takes another number, the value of another attribute, or bytes of its
 * own; an attribute goes, or comes from elsewhere in the file; a line goes,
 * comes twice, or moves. Every other time the bytes are changed as libFuzzer
 * does. */

#include <string.h>

#include "fuzz.h"

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t most);
size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most,
                               unsigned seed);

enum { ATTRIBUTES = 400, PIECE = 512 };

typedef struct span {
    size_t at, length;
} span;

typedef struct found {
    span whole[ATTRIBUTES]; /* name="value" */
    span value[ATTRIBUTES];
    size_t count;
} found;

static unsigned draw(unsigned *state, size_t below)
{
    *state = *state * 1664525u + 1013904223u; /* Numerical Recipes, LCG */
    return below > 0 ? (unsigned)((*state >> 8) % below) : 0;
}

static bool in_name(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-';
}

static void find(found *f, const char *text, size_t size)
{
    f->count = 0;
    for (size_t i = 1; i + 1 < size && f->count < ATTRIBUTES; i++) {
        if (text[i] != '=' || text[i + 1] != '"' || !in_name(text[i - 1]))
            continue;
        size_t begin = i;
        while (begin > 0 && in_name(text[begin - 1]))
            begin--;
        const char *end = memchr(text + i + 2, '"', size - i - 2);
        if (end == NULL)
            return;
        const size_t close = (size_t)(end - text);
        f->whole[f->count] = (span){begin, close + 1 - begin};
        f->value[f->count++] = (span){i + 2, close - i - 2};
        i = close;
    }
}

/* Puts other bytes in the place of a span; the size as it is then. */
static size_t replace(uint8_t *data, size_t size, size_t most, span old,
                      const char *bytes, size_t length)
{
    if (size - old.length + length > most)
        return size;
    memmove(data + old.at + length, data + old.at + old.length,
            size - old.at - old.length);
    memcpy(data + old.at, bytes, length);
    return size - old.length + length;
}

static size_t another_number(uint8_t *data, size_t size, size_t most,
                             span value, unsigned *state)
{
    static const char *const numbers[] = {
        "0",    "-1",  "1",   "1e-9", "1e9",  "0.001", "1000", "100",
        "99.9", "0.5", "12",  "13",   "-40",  "1e308", "2",    "6",
        "60",   "200", "2.5", "1e-3", "8760", "-0",    "4e-7", "100.1"};
    const char *at = (const char *)data + value.at;
    size_t before = 0, length = 0;
    while (before < value.length && strchr("0123456789", at[before]) == NULL)
        before++;
    while (before + length < value.length &&
           strchr("0123456789.", at[before + length]) != NULL)
        length++;
    const char *number = numbers[draw(state, sizeof numbers / sizeof *numbers)];
    return replace(data, size, most, (span){value.at + before, length}, number,
                   strlen(number));
}

static size_t own_bytes(uint8_t *data, size_t size, size_t most, span value)
{
    uint8_t piece[PIECE];
    const size_t length = value.length < PIECE / 2 ? value.length : PIECE / 2;
    memcpy(piece, data + value.at, length);
    const size_t made = LLVMFuzzerMutate(piece, length, PIECE);
    for (size_t i = 0; i < made; i++)
        if (piece[i] == '"' || piece[i] == '<' || piece[i] < ' ')
            piece[i] = '_';
    return replace(data, size, most, value, (const char *)piece, made);
}

static span line_of(const uint8_t *data, size_t size, size_t at)
{
    size_t begin = at, end = at;
    while (begin > 0 && data[begin - 1] != '\n')
        begin--;
    while (end < size && data[end] != '\n')
        end++;
    return (span){begin, end - begin + (end < size)};
}

static size_t move_line(uint8_t *data, size_t size, size_t most,
                        unsigned *state)
{
    char piece[PIECE];
    const span from = line_of(data, size, draw(state, size));
    const unsigned how = draw(state, 3);
    if (from.length == 0 || from.length > PIECE)
        return size;
    memcpy(piece, data + from.at, from.length);
    if (how > 0) /* gone, or moved */
        size = replace(data, size, most, from, "", 0);
    if (how == 1 || size == 0)
        return size;
    const span to = line_of(data, size, draw(state, size));
    return replace(data, size, most, (span){to.at, 0}, piece, from.length);
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t most,
                               unsigned seed)
{
    static found f;
    unsigned state = seed;
    char piece[PIECE];
    find(&f, (const char *)data, size);
    if (f.count == 0 || draw(&state, 2) == 0)
        return LLVMFuzzerMutate(data, size, most);
    const size_t i = draw(&state, f.count), k = draw(&state, f.count);
    const unsigned what = draw(&state, 10);
    const span taken = what == 4 ? f.whole[k] : f.value[k];
    const size_t length = taken.length < PIECE - 1 ? taken.length : PIECE - 2;
    memcpy(piece + 1, data + taken.at, length);
    piece[0] = ' ';
    if (what < 3)
        return another_number(data, size, most, f.value[i], &state);
    if (what == 3)
        return replace(data, size, most, f.value[i], piece + 1, length);
    if (what == 4)
        return replace(data, size, most,
                       (span){f.whole[i].at + f.whole[i].length, 0}, piece,
                       length + 1);
    if (what == 5)
        return replace(data, size, most, f.whole[i], "", 0);
    if (what < 8)
        return own_bytes(data, size, most, f.value[i]);
    return move_line(data, size, most, &state);
}
