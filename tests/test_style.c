/* The foot of a printed sheet stands in the style sheet of its page as a string
 * of CSS, whatever characters a title has: read back as CSS Syntax Level 3 says
 * (4.3.5 and 4.3.7, strings and escaped code points; from memory, high) it is
 * the title, and nothing in it ends the string, the style or the page. */

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>

#include "paper.h"
#include "report/html.h"
#include "suite.h"

static paper page_of;

static const char *style_of(const char *foot)
{
    bw_markup out;
    paper_clear(&page_of);
    bw_markup_start(&out, paper_take, &page_of);
    bw_html_style(&out, foot);
    ck_assert(bw_markup_finish(&out));
    return page_of.text;
}

/* One code point as UTF-8. */
static size_t put_code(char *to, unsigned long code)
{
    if (code < 0x80) {
        to[0] = (char)code;
        return 1;
    }
    const size_t more = code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
    static const unsigned lead[] = {0, 0xc0, 0xe0, 0xf0};
    to[0] = (char)(lead[more] | (code >> (6 * more)));
    for (size_t i = 1; i <= more; i++)
        to[i] = (char)(0x80 | ((code >> (6 * (more - i))) & 0x3f));
    return more + 1;
}

/* What the string that begins at `at` holds; returns what is behind it. */
static const char *read_string(const char *at, char *to)
{
    ck_assert_int_eq(*at++, '"');
    while (*at != '"') {
        ck_assert_msg(*at != '\0' && *at != '\n', "the string has no end");
        if (*at != '\\') {
            *to++ = *at++;
            continue;
        }
        char digits[8] = "";
        at++;
        for (size_t n = 0; n < 6 && isxdigit((unsigned char)*at); n++)
            digits[n] = *at++;
        ck_assert_msg(digits[0] != '\0', "no code: %.10s", at);
        at += *at == ' ';
        to += put_code(to, strtoul(digits, NULL, 16));
    }
    *to = '\0';
    return at + 1;
}

static const char *foot_of(const char *foot)
{
    static char text[1024];
    const char *at = strstr(style_of(foot), "width:80%;content:");
    ck_assert_ptr_nonnull(at);
    at = read_string(strchr(at, '"'), text);
    ck_assert_int_eq(*at, '}');
    return text;
}

#define NONE "\xef\xbf\xbd" /* U+FFFD, in the place of what is no character */

static const struct foot_row {
    const char *foot, *read;
} feet[] = {
    {"", ""},
    {"Moisture check 2", "Moisture check 2"},
    {"a1 b2", "a1 b2"}, /* a digit behind a code is none of the code */
    {"\"quoted\" and 'so'", "\"quoted\" and 'so'"},
    {"back\\slash", "back\\slash"},
    {"</style><script>", "</style><script>"},
    {"}*/ /*{", "}*/ /*{"},
    {"\xc3\xa4\xc3\xb6\xc3\xbc \xc3\x9f", "\xc3\xa4\xc3\xb6\xc3\xbc \xc3\x9f"},
    {"\xe6\x9c\xa8", "\xe6\x9c\xa8"}, /* of three bytes */
    {"\xf0\x9f\x8c\xb2"
     "1",
     "\xf0\x9f\x8c\xb2"
     "1"},                      /* of four */
    {"\xff", NONE},             /* the start of none */
    {"a\x80z", "a" NONE "z"},   /* the middle of none */
    {"\xe6\x9c", NONE NONE},    /* cut short */
    {"\xc3(", NONE "("},        /* broken off */
    {"\xed\xa0\x80", NONE},     /* half of a surrogate pair */
    {"\xef\xbf\xbe", NONE},     /* U+FFFE */
    {"\xf4\x90\x80\x80", NONE}, /* beyond the last */
    {"\xc2\x85", NONE},         /* a C1 control */
    {"a\nb\tc\x7f", "a" NONE "b" NONE "c" NONE},
    {"\xe2\x80\xae"
     "b",
     NONE "b"},             /* would turn what follows */
    {"\xe2\x80\xa8", NONE}, /* would end the line */
};

START_TEST(a_foot_reads_as_its_title)
{
    ck_assert_str_eq(foot_of(feet[_i].foot), feet[_i].read);
}
END_TEST

/* Every byte before every other: letters and digits as they are, and nothing
 * else, so that neither CSS nor the page around it sees a sign of its own. */
START_TEST(nothing_but_letters_stands_there_as_it_is)
{
    for (unsigned a = 1; a < 256; a++) {
        const char foot[] = {(char)a, 'f', (char)a, '\0'};
        const char *at = strstr(style_of(foot), "width:80%;content:\"");
        ck_assert_ptr_nonnull(at);
        at += strlen("width:80%;content:\"");
        for (; *at != '"'; at++)
            ck_assert_msg(isalnum((unsigned char)*at) || *at == '\\' ||
                              *at == ' ',
                          "byte %u: %.20s", a, at);
        if (a < 0x80) {
            char want[32];
            snprintf(want, sizeof want, "%s", isprint((int)a) ? foot : "");
            if (want[0] != '\0')
                ck_assert_str_eq(foot_of(foot), want);
        }
    }
}
END_TEST

/* All of the sheet stands there, each rule ended: of nothing that opens fewer
 * close. */
START_TEST(the_style_is_whole)
{
    const char *text = strstr(style_of("foot"), "<style>");
    ck_assert_ptr_nonnull(text);
    long depth = 0;
    for (const char *c = text; *c != '\0'; c++) {
        depth += (*c == '{') - (*c == '}');
        ck_assert_int_ge(depth, 0);
    }
    ck_assert_int_eq(depth, 0);
    HAS(text, ":root{");
    HAS(text, "max-width:34rem");
    HAS(text, "counter(pages)}}\n</style>");
}
END_TEST

SUITE("style", EACH(a_foot_reads_as_its_title, COUNT(feet)),
      FACT(nothing_but_letters_stands_there_as_it_is), FACT(the_style_is_whole))
