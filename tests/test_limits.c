/* What a file may ask: limits of docs/input.md (our own choice, no source), and
 * that reading twice as much asks for twice the memory. Work that is no memory
 * is counted by tests/linear.sh. */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "suite.h"
#include "xml.h"
#include "xml_limit.h"

enum { ROOM = 6 * 1024 * 1024 };

static char *text;
static size_t used;

static void setup(void)
{
    text = malloc(ROOM);
    ck_assert_ptr_nonnull(text);
    text[0] = '\0';
    used = 0;
}

static void teardown(void)
{
    free(text);
}

static void put(const char *what, size_t times)
{
    const size_t length = strlen(what);
    ck_assert_uint_lt(used + times * length, (size_t)ROOM);
    for (size_t i = 0; i < times; i++, used += length)
        memcpy(text + used, what, length + 1);
}

/* An element of `count` of them: exactly as many as are allowed, and one more.
 */
static const struct limit_row {
    const char *before, *each, *after;
    size_t most;
    const char *says;
} limit_rows[] = {
    {"<a", " b='1'", "/>", BW_XML_ATTRIBUTES, "more than 128 attributes"},
    {"<a", " b\n=\n\"<>\"", ">", BW_XML_ATTRIBUTES, "more than 128 attributes"},
    {"<a>", "<b/>", "</a>", BW_XML_PARTS - 1, "more than 400000 elements"},
    {"<a b='", "x", "'/>", BW_XML_TEXT, "an attribute is longer than 65536"},
    {"<a b=\"", "'", "\"/>", BW_XML_TEXT, "an attribute is longer than 65536"},
    {"<a>  ", "x", "\n\n</a>", BW_XML_TEXT, "a text of more than 65536 bytes"},
};

START_TEST(as_much_as_is_allowed_is_read_and_not_one_more)
{
    const struct limit_row *row = &limit_rows[_i];
    bw_error err;
    for (size_t more = 0; more < 2; more++) {
        used = 0;
        put("<?xml version='1.0'?>\n", 1);
        put(row->before, 1);
        put(row->each, row->most + more);
        put(row->after, 1);
        const bw_status status = bw_xml_within(text, used, "a.xml", "wall",
                                               &err);
        ck_assert_int_eq(status, more == 0 ? BW_OK : BW_ERR_INPUT);
        if (more > 0)
            ck_assert_msg(strstr(err.message, row->says) != NULL, "%s",
                          err.message);
    }
}
END_TEST

/* None of these is an element, an attribute or a text of the file. */
static const char *const nothing[] = {"<!-- a='1' <b/> -->", "<?a b='1' <b/>?>",
                                      "                    ", "</a b='1'  >\n",
                                      /* what ends it in part does not end it */
                                      "<!-- - -- -> <b a='1' c='2'/>-->",
                                      "<!-- --- > <b a='1' c='2'/>-->",
                                      "<?a ? > <b a='1' c='2'/> ?? ?>"};

START_TEST(what_says_nothing_is_not_counted)
{
    bw_error err;
    put("<a>", 1);
    put(nothing[_i], 150000);
    ck_assert_int_eq(bw_xml_within(text, used, "a.xml", "wall", &err), BW_OK);
}
END_TEST

static const struct encoding_row {
    const char *head;
    bool read;
} encodings[] = {
    {"<?xml version='1.0' encoding='UTF-8'?><a/>", true},
    {"<?xml version='1.0' encoding=\"utf-8\"?><a/>", true},
    {"<?xml version='1.0' encoding = 'ISO-8859-1'?><a/>", true},
    {"<?xml version='1.0' encoding='UTF-7'?><a/>", false},
    {"<?xml version='1.0' encoding='UTF-16'?><a/>", false},
    {"<?xml version='1.0' encoding='IBM037'?><a/>", false},
};

START_TEST(an_encoding_that_hides_what_is_there_is_refused)
{
    bw_error err;
    const bw_status status = bw_xml_within(
        encodings[_i].head, strlen(encodings[_i].head), "a.xml", "wall", &err);
    ck_assert_int_eq(status, encodings[_i].read ? BW_OK : BW_ERR_INPUT);
}
END_TEST

/* Texts of a header are joined with a blank, whatever their number. */
START_TEST(a_header_of_many_remarks_is_joined)
{
    bw_error err;
    bw_climate *climate = NULL;
    put("# remark: ab\n", 20000);
    put("month,temperature_C,relative_humidity_pct\n", 1);
    for (int month = 1; month <= 12; month++) {
        char row[32];
        snprintf(row, sizeof row, "%d,5,80\n", month);
        put(row, 1);
    }
    /* 10,000 lines are a header, and 65,536 bytes a text */
    ck_assert_int_eq(bw_climate_read_text(&climate, text, "c.csv", &err),
                     BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 10001);
    char *table = text + (size_t)13 * 11000; /* 9,000 are left */
    ck_assert_int_eq(bw_climate_read_text(&climate, table, "c.csv", &err),
                     BW_OK);
    ck_assert_uint_eq(strlen(climate->remark), 9000 * 3 - 1);
    ck_assert(strncmp(climate->remark, "ab ab ab", 8) == 0);
    bw_climate_free(climate);
}
END_TEST

static bw_status open_far(bw_xml *xml, const char *tail, bw_error *err)
{
    used = 0;
    put("<a xmlns='urn:x:1'>", 1);
    put("\n", 70000);
    put(tail, 1);
    return bw_xml_open(xml, "far.xml", text, "far", "a", "urn:x:1", err);
}

START_TEST(a_line_beyond_what_sixteen_bits_hold_is_told)
{
    bw_error err;
    bw_xml xml;
    ck_assert_int_eq(open_far(&xml, "<b/></a>", &err), BW_OK);
    ck_assert_int_eq(bw_xml_line(xml.root), 1);
    ck_assert_int_eq(bw_xml_line(bw_xml_first(xml.root)), 70001);
    bw_xml_close(&xml);
    ck_assert_int_eq(open_far(&xml, "<b></c></a>", &err), BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 70001);
}
END_TEST

#define ROWS(rows) ((int)(sizeof(rows) / sizeof(rows)[0]))

SUITE_AROUND("limits", setup, teardown,
             EACH(as_much_as_is_allowed_is_read_and_not_one_more,
                  ROWS(limit_rows)),
             EACH(what_says_nothing_is_not_counted, ROWS(nothing)),
             EACH(an_encoding_that_hides_what_is_there_is_refused,
                  ROWS(encodings)),
             FACT(a_header_of_many_remarks_is_joined),
             FACT(a_line_beyond_what_sixteen_bits_hold_is_told))
