#ifndef INPUT_CASE_H
#define INPUT_CASE_H

/* One sound assembly file, in which the tests of the reader change one thing
 * each, and the small library that it names. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "bothways/assembly.h"

static bw_library *library;

static inline void read_library(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/tests/data/library"};
    bw_error err;
    ck_assert_msg(bw_library_read(&library, path, 1, &err) == BW_OK,
                  "%s:%ld %s", err.file, err.line, err.message);
}

static void free_library(void)
{
    bw_library_free(library);
}

/* A sound file; the tests change one thing in it. The line is in front. */
static const char sound[] =
    /*  1 */
    "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\">\n"
    /*  2 */ "<outdoors climate=\"weather/here.csv\" faces=\"SW\"\n"
    /*  3 */ "  solar-absorptance=\"0.6\" driving-rain=\"sheltered\"/>\n"
    /*  4 */ "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>\n"
    /*  5 */ "<layers listed=\"outside-to-inside\">\n"
    /*  6 */ "<layer id=\"face\" material=\"test-board\" thickness=\"20 "
    "mm\"/>\n"
    /*  7 */ "<cavity id=\"gap\" thickness=\"50 mm\" ventilation=\"none\"/>\n"
    /*  8 */ "<layer id=\"bay\" material=\"test-batt\" thickness=\"90 mm\">\n"
    /*  9 */ "<framing material=\"test-timber\" width=\"45 mm\""
    /*  9 */ " spacing=\"600 mm\"/>\n"
    /* 10 */ "<uncertain property=\"mu\" low=\"1\" high=\"3\"/>\n"
    /* 11 */ "<alternative material=\"test-board\" thickness=\"9 mm\"/>\n"
    /* 12 */ "</layer>\n"
    /* 13 */ "<membrane id=\"foil\" material=\"test-foil\"/>\n"
    /* 14 */ "<layer id=\"lining\" material=\"gypsum-test\""
    /* 14 */ " thickness=\"12.5 mm\"/>\n"
    /* 15 */ "</layers>\n"
    /* 16 */ "<air-leakage q50=\"3 m3/(m2.h)\" connected-height=\"5 m\"/>\n"
    /* 17 */ "<drying-test wetting=\"0.5 kg/m2\" after-layer=\"bay\""
    /* 17 */ " start-month=\"10\"/>\n"
    /* 18 */ "<rain-leak fraction=\"1 %\" after-layer=\"gap\"/>\n"
    /* 19 */ "<closing-up>\n"
    /* 20 */ "<air-test date=\"2031-05-02\" stage=\"membrane-exposed\""
    /* 20 */ " q50=\"0.8 m3/(m2.h)\" leak-search=\"yes\"/>\n"
    /* 21 */ "<moisture-limit member=\"stud\" allowed=\"18 %\""
    /* 21 */ " critical=\"20 %\"/>\n"
    /* 22 */ "<reading date=\"2031-05-01\" member=\"stud\" place=\"bay 3\""
    /* 22 */ " moisture=\"16.5 %\" depth=\"20 mm\"/>\n"
    /* 23 */ "<evidence kind=\"photograph\" of=\"clear cavity\" ref=\"7\"/>\n"
    /* 24 */ "</closing-up>\n"
    /* 25 */ "</assembly>\n";

/* Each suite names a file of its own: suites run at the same time. */
static const char file_name[] = FILE_OF_SUITE;

static void put(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

/* Writes the sound file with the first `from` replaced by `to`. */
static void put_changed(const char *from, const char *to)
{
    char text[8192];
    const char *at = strstr(sound, from);
    ck_assert_msg(at != NULL, "the test's own file has no %s", from);
    int length = snprintf(text, sizeof text, "%.*s%s%s", (int)(at - sound),
                          sound, to, at + strlen(from));
    ck_assert(length > 0 && (size_t)length < sizeof text);
    put(file_name, text, (size_t)length);
}

/* One change that makes the file faulty. */
typedef struct refusal {
    const char *from, *to;
    long line;
    const char *fragment;
} refusal;

static inline void refuse_changed(bw_error *err, const refusal *row)
{
    bw_assembly *a = NULL;
    put_changed(row->from, row->to);
    bw_status status = bw_assembly_read(&a, file_name, library, err);
    unlink(file_name);
    ck_assert_msg(status == BW_ERR_INPUT, "accepted: %s", row->to);
    ck_assert_ptr_null(a);
    ck_assert_str_eq(err->file, file_name);
}

static inline void expect_refusal(const refusal *row)
{
    bw_error err = {0};
    refuse_changed(&err, row);
    ck_assert_msg(strstr(err.message, row->fragment) != NULL, "%ld: %s",
                  err.line, err.message);
    ck_assert_msg(err.line == row->line, "line %ld, not %ld: %s", err.line,
                  row->line, err.message);
}

/* One change, and the whole sentence that refuses it. */
static inline void expect_sentence(const refusal *row)
{
    bw_error err = {0};
    refuse_changed(&err, row);
    ck_assert_str_eq(err.message, row->fragment);
    ck_assert_int_eq(err.line, row->line);
}

/* The sound file with one change, which is to be read. */
static inline bw_assembly *read_changed(const char *from, const char *to)
{
    bw_assembly *a = NULL;
    bw_error err;
    put_changed(from, to);
    bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_msg(status == BW_OK, "%s:%ld: %s", err.file, err.line,
                  err.message);
    return a;
}

static inline bool has_note(const bw_assembly *a, bw_note_kind kind,
                            const char *fragment)
{
    for (size_t i = 0; i < a->note_count; i++)
        if (a->note[i].kind == kind &&
            strstr(a->note[i].message, fragment) != NULL)
            return true;
    return false;
}

/* Is there that note, word for word, of that line (0: any)? */
static inline bool says(const bw_assembly *a, bw_note_kind kind, long line,
                        const char *sentence)
{
    for (size_t i = 0; i < a->note_count; i++)
        if (a->note[i].kind == kind && (line == 0 || a->note[i].line == line) &&
            strcmp(a->note[i].message, sentence) == 0)
            return true;
    return false;
}

#endif
