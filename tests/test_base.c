/* Memory, numbers as text, near misses, files. */

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/arena.h"
#include "base/day.h"
#include "base/fail.h"
#include "base/file.h"
#include "base/number.h"
#include "base/text.h"
#include "base/utf8.h"
#include "suite.h"

/* ---- arena ------------------------------------------------------------- */

START_TEST(arena_memory_is_zeroed_aligned_and_apart)
{
    bw_arena arena = {0};
    unsigned char *last = NULL;
    for (size_t size = 0; size < 40000; size += 977) {
        unsigned char *memory = bw_arena_get(&arena, 1, size);
        ck_assert_ptr_nonnull(memory);
        ck_assert_uint_eq((uintptr_t)memory % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++)
            ck_assert_uint_eq(memory[i], 0);
        memset(memory, 0xff, size);
        ck_assert_ptr_ne(memory, last);
        last = memory;
    }
    bw_arena_release(&arena);
    ck_assert_ptr_null(arena.first);
    bw_arena_release(&arena);
}
END_TEST

START_TEST(arena_refuses_a_product_that_overflows)
{
    bw_arena arena = {0};
    ck_assert_ptr_null(bw_arena_get(&arena, SIZE_MAX / 2, 3));
    ck_assert_ptr_null(bw_arena_get(&arena, SIZE_MAX, SIZE_MAX));
    bw_arena_release(&arena);
}
END_TEST

START_TEST(an_array_in_an_arena_grows_and_keeps_what_it_holds)
{
    bw_arena arena = {0};
    size_t *all = NULL, room = 0;
    for (size_t i = 0; i < 1000; i++) {
        size_t *more = bw_arena_more(&arena, all, i, &room, sizeof *more);
        ck_assert_ptr_nonnull(more);
        ck_assert_uint_gt(room, i);
        all = more;
        all[i] = i;
    }
    for (size_t i = 0; i < 1000; i++)
        ck_assert_uint_eq(all[i], i);
    const size_t before = room = 8; /* full, and doubled no number fits */
    ck_assert_ptr_null(bw_arena_more(&arena, all, 8, &room, SIZE_MAX / 4));
    ck_assert_uint_eq(room, before);
    bw_arena_release(&arena);
}
END_TEST

START_TEST(arena_copies_and_formats_strings)
{
    bw_arena arena = {0};
    char text[] = "hemp";
    char *copy = bw_arena_copy(&arena, text);
    text[0] = 'x';
    ck_assert_str_eq(copy, "hemp");
    ck_assert_str_eq(bw_arena_printf(&arena, "%s-%d", copy, 7), "hemp-7");
    bw_arena_release(&arena);
}
END_TEST

/* ---- numbers ----------------------------------------------------------- */

typedef struct read_row {
    const char *text;
    double value;
    const char *rest;
} read_row;

static const read_row reads[] = {
    {"0", 0.0, ""},
    {"-12.5", -12.5, ""},
    {"+3", 3.0, ""},
    {".5", 0.5, ""},
    {"5.", 5.0, ""},
    {"3e-10 m", 3e-10, " m"},
    {"2E5", 2e5, ""},
    {"1e", 1.0, "e"}, /* no exponent follows: a number, then a letter */
    {"1.2.3", 1.2, ".3"},
    {"0x10", 0.0, "x10"},
    {"0,5", 0.0, ",5"},
    {"0.1", 0.1, ""},
    {"123456789012345678", 123456789012345678.0, ""},
    {"0.30000000000000004", 0.30000000000000004, ""},
    {"2.2250738585072014e-308", DBL_MIN, ""},
    {"1.7976931348623157e308", DBL_MAX, ""},
    {"9007199254740993", 9007199254740992.0, ""}, /* 2^53 + 1: ties to even */
    {"1e-400", 0.0, ""},
    {"1e-99999", 0.0, ""},
    {"-123456789012345678", -123456789012345678.0, ""},
    {"+0.30000000000000004", 0.30000000000000004, ""},
    {"1234567890123456789e-5 m", 12345678901234.567890, " m"},
    {"1234567890123456789E-99999", 0.0, ""},
    {"-.00012345678901234567", -.00012345678901234567, ""},
};

static void check_reads(void)
{
    for (size_t i = 0; i < COUNT(reads); i++) {
        double value = NAN;
        const char *end = NULL;
        ck_assert_msg(bw_number_read(reads[i].text, &value, &end), "%s",
                      reads[i].text);
        ck_assert_msg(value == reads[i].value, "%s", reads[i].text);
        ck_assert_str_eq(end, reads[i].rest);
    }
}

/* Powers of ten up to 1e22 are doubles, and 7 of them, too, below 2^53; beside
 * the C library, which reads them right. */
START_TEST(every_power_of_ten_is_read_to_the_last_bit)
{
    for (int e = -30; e <= 30; e++)
        for (int mantissa = 1; mantissa <= 7; mantissa += 6) {
            char text[16];
            double value = NAN;
            const char *end = NULL;
            snprintf(text, sizeof text, "%de%d", mantissa, e);
            ck_assert(bw_number_read(text, &value, &end));
            ck_assert_msg(value == strtod(text, NULL), "%s", text);
        }
}
END_TEST

START_TEST(numbers_are_read_to_the_last_bit)
{
    check_reads();
}
END_TEST

START_TEST(what_is_no_number_is_refused)
{
    static const char *const texts[] = {"",
                                        " 1",
                                        "nan",
                                        "inf",
                                        "-inf",
                                        "NaN",
                                        "-",
                                        "+",
                                        ".",
                                        "e5",
                                        "abc",
                                        "1e9999",
                                        "-1e400",
                                        ",5",
                                        "--1",
                                        "+-1",
                                        "-.",
                                        "1234567890123456789e99999",
                                        "1e99999999999999999999"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        double value = 42.0;
        ck_assert_msg(!bw_number_read(texts[i], &value, NULL), "%s", texts[i]);
        ck_assert_msg(value == 42.0, "%s: touched", texts[i]);
    }
}
END_TEST

static void check_writes(void)
{
    char text[32];
    ck_assert_str_eq(bw_number_f(text, sizeof text, 1234.5678, 2), "1234.57");
    ck_assert_str_eq(bw_number_f(text, sizeof text, -0.0001, 2), "0.00");
    ck_assert_str_eq(bw_number_g(text, sizeof text, 0.00012, 6), "0.00012");
    ck_assert_str_eq(bw_number_g(text, sizeof text, -0.0, 6), "0");
    ck_assert_str_eq(bw_number_g(text, sizeof text, 1e-10, 3), "1e-10");
    ck_assert_str_eq(bw_number_g(text, sizeof text, -2.5, 3), "-2.5");
}

START_TEST(numbers_are_written_with_a_point)
{
    check_writes();
}
END_TEST

START_TEST(seventeen_digits_come_back_as_they_were)
{
    char text[32];
    uint64_t state = 88172645463325252u; /* xorshift64, Marsaglia 2003 */
    for (int i = 0; i < 20000; i++) {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        double value, back;
        memcpy(&value, &state, sizeof value);
        if (!isfinite(value) || fabs(value) < DBL_MIN)
            continue;
        bw_number_g(text, sizeof text, value, 17);
        ck_assert_msg(bw_number_read(text, &back, NULL), "%s", text);
        ck_assert_msg(back == value, "%s", text);
    }
}
END_TEST

/* What C17 7.21.6.1 says of %g and %f, by the printf of this machine: over all
 * magnitudes, ties, and the numbers beside the powers of ten. */
static void writes_as_printf(double value, int digits)
{
    char ours[400], theirs[400];
    for (int way = 0; way < 2; way++) {
        if (way == 0) {
            bw_number_g(ours, sizeof ours, value, digits);
            snprintf(theirs, sizeof theirs, "%.*g", digits, value);
        } else {
            bw_number_f(ours, sizeof ours, value, digits);
            snprintf(theirs, sizeof theirs, "%.*f", digits, value);
        }
        const bool nought = strspn(theirs, "-0.") == strlen(theirs);
        ck_assert_msg(strcmp(ours, theirs + (nought && theirs[0] == '-')) == 0,
                      "%a to %d digits: '%s' instead of '%s'", value, digits,
                      ours, theirs);
    }
}

START_TEST(numbers_are_written_as_printf_writes_them)
{
    static const double odd[] = {0.0,
                                 0.5,
                                 1.5,
                                 2.5,
                                 0.125,
                                 0.375,
                                 2.675,
                                 9.5,
                                 99.95,
                                 999.5,
                                 0.00095,
                                 1e22,
                                 1e23,
                                 1e-4,
                                 9.9999e-5,
                                 99999.95,
                                 5e-324,
                                 1e308,
                                 1e15,
                                 123456789.5,
                                 0.1,
                                 1e-20,
                                 1e20,
                                 12345.5,
                                 65.0,
                                 75.0,
                                 1250.0,
                                 8.5e9,
                                 4503599627370497.5};
    uint64_t state = 88172645463325252u; /* xorshift64, Marsaglia 2003 */
    for (size_t i = 0; i < COUNT(odd); i++)
        for (int digits = 0; digits < 19; digits++) {
            writes_as_printf(odd[i], digits);
            writes_as_printf(-odd[i], digits);
            writes_as_printf(nextafter(odd[i], -HUGE_VAL), digits);
            writes_as_printf(nextafter(odd[i], HUGE_VAL), digits);
        }
    for (int i = 0; i < 40000; i++) {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        const double part = (double)(state >> 11) * 0x1p-53;
        const double rough = (double)(int)(part * 2000.0) / 8.0; /* ties */
        writes_as_printf(rough, (int)(state & 15));
        writes_as_printf((part - 0.5) * pow(10.0, (int)(state % 61) - 30),
                         (int)((state >> 8) & 15));
    }
}
END_TEST

/* Builds a locale with a decimal comma in the current directory if the
 * machine has none. False: cannot be had. */
static bool take_comma_locale(void)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8",
                                        "fr_FR.UTF-8", "nl_NL.UTF-8"};
    for (size_t i = 0; i < COUNT(names); i++)
        if (setlocale(LC_ALL, names[i]) != NULL)
            return true;
    char here[1024];
    if (getcwd(here, sizeof here) == NULL)
        return false;
    mkdir("base-locale", 0777);
    if (system("localedef -i de_DE -f UTF-8 base-locale/de_DE.UTF-8 "
               ">base-locale/log 2>&1") != 0)
        return false;
    char path[1100];
    snprintf(path, sizeof path, "%s/base-locale", here);
    setenv("LOCPATH", path, 1);
    return setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
}

START_TEST(a_locale_with_decimal_comma_changes_nothing)
{
    if (!take_comma_locale()) {
        fprintf(stderr, "SKIPPED: no locale with a decimal comma here, and "
                        "localedef cannot make one\n");
        return;
    }
    ck_assert_str_eq(localeconv()->decimal_point, ",");
    check_reads();
    check_writes();
    ck_assert_int_eq(system("rm -rf base-locale"), 0);
}
END_TEST

/* ---- characters -------------------------------------------------------- */

/* The ranges of RFC 3629, section 3, and what XML 1.0 leaves out of them. */
static const struct {
    const char *text;
    size_t bytes;
} characters[] = {
    {"a", 1},
    {" ", 1},
    {"~", 1},
    {"\t", 0},
    {"\x1f", 0},
    {"\x7f", 0},
    {"\x80", 0},     /* goes on what has not begun */
    {"\xc1\xbf", 0}, /* two bytes for what needs one */
    {"\xc2\x9f", 0}, /* a control character */
    {"\xc2\xa0", 2},
    {"\xdf\xbf", 2},
    {"\xc3", 0}, /* cut */
    {"\xc3x", 0},
    {"\xe0\x9f\xbf", 0}, /* three bytes for what needs two */
    {"\xe0\xa0\x80", 3},
    {"\xe2\x82", 0}, /* cut */
    {"\xe2\x82\xac!", 3},
    {"\xed\x9f\xbf", 3},
    {"\xed\xa0\x80", 0}, /* half a pair of UTF-16 */
    {"\xed\xbf\xbf", 0},
    {"\xee\x80\x80", 3},
    {"\xef\xbf\xbd", 3},
    {"\xef\xbf\xbe", 0}, /* no character by definition */
    {"\xef\xbf\xbf", 0},
    {"\xf0\x8f\xbf\xbf", 0}, /* four bytes for what needs three */
    {"\xf0\x90\x80\x80", 4},
    {"\xf0\x9f\x8f", 0}, /* cut */
    {"\xf4\x8f\xbf\xbd", 4},
    {"\xf4\x90\x80\x80", 0}, /* beyond the last one */
    {"\xf5\x80\x80\x80", 0},
    {"\xff", 0},
};

START_TEST(only_whole_characters_of_utf_8_count)
{
    const char *text = characters[_i].text;
    ck_assert_uint_eq(bw_utf8_valid(text, strlen(text)), characters[_i].bytes);
}
END_TEST

/* ---- near misses ------------------------------------------------------- */

START_TEST(the_nearest_word_is_found_and_far_ones_are_not)
{
    static const char *const words[] = {"thickness", "material", "mu", "sd"};
    ck_assert_str_eq(bw_text_nearest("thicknes", words, 4), "thickness");
    ck_assert_str_eq(bw_text_nearest("thikcness", words, 4), "thickness");
    ck_assert_str_eq(bw_text_nearest("MATERIAL", words, 4), "material");
    ck_assert_str_eq(bw_text_nearest("m", words, 4), "mu");
    ck_assert_ptr_null(bw_text_nearest("ventilation", words, 4));
    ck_assert_ptr_null(bw_text_nearest("x", words, 0));
}
END_TEST

START_TEST(overlong_words_are_compared_without_harm)
{
    char longest[300];
    memset(longest, 'a', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    const char *const words[] = {"a", longest};
    bw_text_nearest(longest, words, 2);
    bw_text_nearest("a", words, 2);
}
END_TEST

/* ---- errors ------------------------------------------------------------ */

START_TEST(an_error_is_cut_and_cleared_of_control_characters)
{
    bw_error err;
    char longest[2000];
    memset(longest, 'a', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    ck_assert_int_eq(bw_fail(&err, BW_ERR_INPUT, longest, 3, "%s", longest),
                     BW_ERR_INPUT);
    ck_assert_uint_eq(strlen(err.message), sizeof err.message - 1);
    ck_assert_uint_eq(strlen(err.file), sizeof err.file - 1);
    bw_fail(&err, BW_ERR_IO, NULL, 0, "a\nb\x1b[31m\x7f");
    ck_assert_str_eq(err.message, "a?b?[31m?");
    ck_assert_str_eq(err.file, "");
    ck_assert_int_eq(bw_fail(NULL, BW_ERR_IO, NULL, 0, "x"), BW_ERR_IO);
    for (int s = BW_OK; s <= BW_ERR_CANCELLED; s++)
        ck_assert_str_ne(bw_status_text((bw_status)s), "unknown status");
    ck_assert_str_eq(bw_status_text((bw_status)99), "unknown status");
}
END_TEST

/* ---- files ------------------------------------------------------------- */

static void put(const char *path, const void *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

static void expect_refusal(const char *path, const char *fragment, long line)
{
    bw_error err = {0};
    char *text = NULL;
    size_t length;
    ck_assert_int_eq(bw_file_read(&text, &length, path, "climate", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_null(text);
    ck_assert_str_eq(err.file, path);
    ck_assert_int_eq(err.line, line);
    ck_assert_msg(strstr(err.message, fragment) != NULL, "%s", err.message);
}

typedef struct junk_row {
    const char *bytes;
    size_t length;
    const char *fragment;
    long line;
} junk_row;

static const junk_row junk[] = {
    {"", 0, "this climate file is empty", 0},
    {"\x1f\x8b\x08\x00\x00", 5, "compressed", 0},
    {"BZh91AY", 7, "compressed", 0},
    {"PK\x03\x04", 4, "compressed", 0},
    {"\xfd"
     "7zXZ",
     5, "compressed", 0},
    {"BZ", 2, "compressed", 0},
    {"B\0", 2, "not a text file", 1}, /* begins like one, and is none */
    {"P\0", 2, "not a text file", 1},
    {"\x1f\0", 2, "not a text file", 1},
    {"\xfd\0", 2, "not a text file", 1},
    {"\0", 1, "not a text file", 1},
    {"a\nb\n\0c", 6, "not a text file", 3},
    {"\xff\xfe<\0a\0", 6, "not a text file", 1},
};

START_TEST(a_file_that_cannot_be_text_is_refused)
{
    put("base-junk", junk[_i].bytes, junk[_i].length);
    expect_refusal("base-junk", junk[_i].fragment, junk[_i].line);
    unlink("base-junk");
}
END_TEST

START_TEST(what_is_no_regular_file_is_refused)
{
    expect_refusal("base-no-such-file", "cannot open this climate file", 0);
    mkdir("base-directory", 0777);
    expect_refusal("base-directory", "this is a directory", 0);
    rmdir("base-directory");
    unlink("base-pipe");
    if (mkfifo("base-pipe", 0666) == 0)
        expect_refusal("base-pipe", "not a regular file", 0);
    unlink("base-pipe");
}
END_TEST

START_TEST(a_file_over_the_limit_is_refused_unread)
{
    FILE *file = fopen("base-large", "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_int_eq(fseek(file, (long)BW_FILE_LIMIT, SEEK_SET), 0);
    ck_assert_int_eq(fputc('x', file), 'x'); /* a sparse file */
    fclose(file);
    expect_refusal("base-large", "larger than 32 MiB", 0);
    unlink("base-large");
}
END_TEST

START_TEST(an_unreadable_file_is_refused)
{
    if (geteuid() == 0) {
        fprintf(stderr, "SKIPPED: root can read every file\n");
        return;
    }
    put("base-secret", "x", 1);
    chmod("base-secret", 0);
    expect_refusal("base-secret", "cannot open", 0);
    unlink("base-secret");
}
END_TEST

START_TEST(a_byte_order_mark_is_skipped)
{
    char *text;
    size_t length;
    put("base-bom", "\xef\xbb\xbfmonth", 8);
    ck_assert_int_eq(bw_file_read(&text, &length, "base-bom", "climate", NULL),
                     BW_OK);
    ck_assert_str_eq(text, "month");
    ck_assert_uint_eq(length, 5);
    free(text);
    unlink("base-bom");
}
END_TEST

/* ---- days ---------------------------------------------------------------- */

/* Days apart as `date -u +%s` of GNU coreutils counts them. */
static const struct {
    const char *from, *to;
    long days;
} apart[] = {
    {"1970-01-01", "2000-02-29", 11016}, {"2000-02-29", "2000-03-01", 1},
    {"1970-01-01", "2031-05-02", 22401}, {"2031-05-02", "2032-12-31", 609},
    {"1999-12-31", "2100-03-01", 36585},
};

START_TEST(days_are_counted_and_named_again)
{
    char text[BW_DAY_TEXT];
    long from = 0, to = 0;
    ck_assert(bw_day_number(apart[_i].from, &from));
    ck_assert(bw_day_number(apart[_i].to, &to));
    ck_assert_int_eq(to - from, apart[_i].days);
    ck_assert_str_eq(bw_day_text(text, from + apart[_i].days), apart[_i].to);
    ck_assert_str_eq(bw_day_text(text, to - apart[_i].days), apart[_i].from);
}
END_TEST

START_TEST(days_beyond_the_calendar_have_no_name)
{
    char text[BW_DAY_TEXT];
    long last = 0;
    ck_assert(bw_day_number("9999-12-31", &last));
    ck_assert_str_eq(bw_day_text(text, last), "9999-12-31");
    ck_assert_str_eq(bw_day_text(text, last + 90), "");
    ck_assert_str_eq(bw_day_text(text, -800000), "");
}
END_TEST

/* As Python's datetime counts them; 1970-01-01 to 2000-03-01 is 11017 days, the
 * well-known 946684800 s of 2000-01-01 and 60 days more. */
static const struct {
    const char *from, *to;
    long days;
} spans[] = {
    {"2024-02-28", "2024-03-01", 2},     {"1900-02-28", "1900-03-01", 1},
    {"2000-02-28", "2000-03-01", 2},     {"2023-12-31", "2024-01-01", 1},
    {"1970-01-01", "2000-03-01", 11017}, {"2000-01-01", "2024-05-10", 8896},
    {"1900-02-28", "2000-03-01", 36526}, {"0000-01-01", "0000-03-01", 60},
};

START_TEST(days_between_two_are_counted)
{
    long from = 0, to = 0;
    ck_assert(bw_day_number(spans[_i].from, &from));
    ck_assert(bw_day_number(spans[_i].to, &to));
    ck_assert_int_eq(to - from, spans[_i].days);
}
END_TEST

static const char *const no_days[] = {"",           "2024-02-30",  "2023-02-29",
                                      "2024-13-01", "2024-00-10",  "2024-04-31",
                                      "2024-1-1",   "2024-01-01 ", "2024/01/01",
                                      "x024-01-01", "2024-01-00"};

START_TEST(what_is_no_day_is_told)
{
    long day = 7;
    ck_assert(!bw_day_number(no_days[_i], &day));
    ck_assert_int_eq(day, 7);
}
END_TEST

SUITE("base", EACH(days_are_counted_and_named_again, COUNT(apart)),
      FACT(days_beyond_the_calendar_have_no_name),
      EACH(days_between_two_are_counted, COUNT(spans)),
      EACH(what_is_no_day_is_told, COUNT(no_days)),
      FACT(arena_memory_is_zeroed_aligned_and_apart),
      FACT(arena_refuses_a_product_that_overflows),
      FACT(an_array_in_an_arena_grows_and_keeps_what_it_holds),
      FACT(arena_copies_and_formats_strings),
      FACT(numbers_are_read_to_the_last_bit),
      FACT(every_power_of_ten_is_read_to_the_last_bit),
      FACT(what_is_no_number_is_refused),
      FACT(numbers_are_written_with_a_point),
      EACH(only_whole_characters_of_utf_8_count, COUNT(characters)),
      FACT(seventeen_digits_come_back_as_they_were),
      FACT(numbers_are_written_as_printf_writes_them),
      FACT(a_locale_with_decimal_comma_changes_nothing),
      FACT(the_nearest_word_is_found_and_far_ones_are_not),
      FACT(overlong_words_are_compared_without_harm),
      FACT(an_error_is_cut_and_cleared_of_control_characters),
      EACH(a_file_that_cannot_be_text_is_refused, COUNT(junk)),
      FACT(what_is_no_regular_file_is_refused),
      FACT(a_file_over_the_limit_is_refused_unread),
      FACT(an_unreadable_file_is_refused), FACT(a_byte_order_mark_is_skipped))
