#include "utf8.h"

#include <string.h>

/* Widths after Unicode, UAX #11 (East Asian width) and the general categories
 * Mn, Me, Cf; from memory, high confidence. Marks of the scripts of Europe and
 * the Near East are known; those of others count a column each. */

typedef struct span {
    unsigned first, last;
} span;

static const span over[] = {
    {0x0300, 0x036f}, {0x0483, 0x0489}, {0x0591, 0x05bd}, {0x05bf, 0x05bf},
    {0x05c1, 0x05c2}, {0x05c4, 0x05c5}, {0x05c7, 0x05c7}, {0x0610, 0x061a},
    {0x064b, 0x065f}, {0x0670, 0x0670}, {0x06d6, 0x06dc}, {0x1ab0, 0x1aff},
    {0x1dc0, 0x1dff}, {0x200b, 0x200f}, {0x2060, 0x2064}, {0x20d0, 0x20f0},
    {0xfe00, 0xfe0f}, {0xfe20, 0xfe2f}, {0xfeff, 0xfeff},
};

static const span wide[] = {
    {0x1100, 0x115f},   {0x2e80, 0x303e},   {0x3041, 0xa4cf},
    {0xac00, 0xd7a3},   {0xf900, 0xfaff},   {0xfe30, 0xfe6f},
    {0xff00, 0xff60},   {0xffe0, 0xffe6},   {0x1f300, 0x1f64f},
    {0x1f900, 0x1f9ff}, {0x20000, 0x3fffd},
};

static const span turns[] = {
    {0x00, 0x1f},     {0x7f, 0x9f},     {0x2028, 0x2029},
    {0x202a, 0x202e}, {0x2066, 0x2069},
};

#define HAS(spans, code) in((spans), sizeof(spans) / sizeof *(spans), (code))

static bool in(const span *spans, size_t count, unsigned code)
{
    for (size_t i = 0; i < count; i++)
        if (code >= spans[i].first && code <= spans[i].last)
            return true;
    return false;
}

size_t bw_utf8_next(const char *bytes, size_t length, unsigned *code)
{
    unsigned char c = (unsigned char)bytes[0];
    size_t count = c >= 0xf0 ? 4 : c >= 0xe0 ? 3 : c >= 0xc2 ? 2 : 1;
    *code = c;
    if (count == 1 || c >= 0xf5 || count > length)
        return 1;
    unsigned all = c & (0xffU >> (count + 1));
    for (size_t i = 1; i < count; i++) {
        if (((unsigned char)bytes[i] & 0xc0) != 0x80)
            return 1;
        all = all << 6 | ((unsigned char)bytes[i] & 0x3fU);
    }
    *code = all;
    return count;
}

bool bw_utf8_broken(const char *bytes, size_t count)
{
    unsigned code;
    bw_utf8_next(bytes, count, &code);
    const bool control = count == 2 && code >= 0x80 && code < 0xa0;
    return count == 1 ? code >= 0x80
                      : !control && bw_utf8_valid(bytes, count) == 0;
}

void bw_utf8_escape(char text[5], char byte)
{
    static const char digits[] = "0123456789abcdef";
    text[0] = '\\';
    text[1] = 'x';
    text[2] = digits[(unsigned char)byte >> 4];
    text[3] = digits[(unsigned char)byte & 0xf];
    text[4] = '\0';
}

void bw_utf8_trim(char *text)
{
    size_t length = strlen(text), tail = 0;
    while (tail < 3 && tail < length &&
           ((unsigned char)text[length - 1 - tail] & 0xc0) == 0x80)
        tail++;
    if (tail == length)
        return;
    unsigned char lead = (unsigned char)text[length - 1 - tail];
    size_t needs = lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : lead >= 0xc2 ? 1 : 0;
    if (tail < needs)
        text[length - 1 - tail] = '\0';
}

size_t bw_utf8_valid(const char *text, size_t length)
{
    static const unsigned least[] = {0, 0, 0xa0, 0x800, 0x10000};
    unsigned code;
    size_t count = bw_utf8_next(text, length, &code);
    if (count == 1)
        return code >= ' ' && code < 0x7f ? 1 : 0;
    bool surrogate = code >= 0xd800 && code < 0xe000;
    bool none = code > 0x10ffff || (code & 0xfffe) == 0xfffe;
    return code < least[count] || surrogate || none ? 0 : count;
}

bool bw_utf8_steers(unsigned code)
{
    return HAS(turns, code);
}

size_t bw_utf8_columns(unsigned code)
{
    if (code < 0x300)
        return 1;
    return HAS(over, code) ? 0 : HAS(wide, code) ? 2 : 1;
}
