/* A sheet read back: each edit of it is seen, each file it names is the one it
 * was, another, or not there; and what is no sheet is refused with its line.
 * The digests of "abc" and of nothing are those of FIPS 180-4. */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "digests.h"
#include "file.h"
#include "has_words.h"
#include "sha256.h"
#include "suite.h"

#define ABC "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
#define NOTHING                                                                \
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"

enum { MOST = 1 << 21 };

static const char SHEET[] = "./verify-sheet.txt";
static const char FIRST[] = "./verify-first.txt", OTHER[] = "./verify-other";
/* of bytes that are no UTF-8; and the name that codes them */
static const char BYTES[] = "./verify-\xe4\x80.txt";
static const char CODED[] = "./verify-\\xe4\\x80.txt";

static char text[MOST];
static bw_verification *made;
static bw_error err;

static void put(const char *path, const char *bytes, size_t length)
{
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, length, file), length);
    ck_assert_int_eq(fclose(file), 0);
}

static void start(void)
{
    put(FIRST, "abc", 3);
    put(OTHER, "", 0);
}

static void forget(void)
{
    bw_verification_free(made);
    made = NULL;
}

static void end(void)
{
    forget();
    remove(SHEET);
    remove(FIRST);
    remove(OTHER);
    remove(BYTES);
    remove(CODED);
}

static bw_status verify(void)
{
    forget();
    err = (bw_error){0};
    return bw_audit_verify(&made, SHEET, &err);
}

/* The head of the list, and a digest of a file. */
static void begin(const char *above)
{
    snprintf(text, sizeof text, "%s" BW_DIGESTS_BEGIN "%s\n", above,
             bw_version());
}

static void add(const char *digest, const char *path)
{
    snprintf(text + strlen(text), sizeof text - strlen(text), "%s  %s\n",
             digest, path);
}

/* As the writer does: the digest of all above, and the line's end. */
static void seal(void)
{
    char above[BW_SHA256_TEXT];
    bw_sha256 hash;
    bw_sha256_start(&hash);
    bw_sha256_add(&hash, text, strlen(text));
    bw_sha256_finish(&hash, above);
    snprintf(text + strlen(text), sizeof text - strlen(text),
             BW_DIGESTS_ABOVE "%s\n", above);
}

static void make_sheet(void)
{
    begin("Audit of a wall\nis released\n");
    add(ABC, FIRST);
    add(NOTHING, OTHER);
    seal();
}

static bw_status verify_text(void)
{
    put(SHEET, text, strlen(text));
    return verify();
}

/* ---- what is as it was ----------------------------------------------------
 */

START_TEST(a_sheet_and_its_files_are_as_they_were)
{
    make_sheet();
    ck_assert_msg(verify_text() == BW_OK, "%s", err.message);
    ck_assert(!made->edited && !made->is_list && !made->other_program);
    ck_assert_str_eq(made->sheet, SHEET);
    ck_assert_str_eq(made->program, bw_version());
    ck_assert_uint_eq(made->changes, 0);
    ck_assert_uint_eq(made->digest_count, 2);
    ck_assert_str_eq(made->digest[0].path, FIRST);
    ck_assert_str_eq(made->digest[0].sha256, ABC);
    ck_assert_str_eq(made->digest[1].path, OTHER);
    for (size_t i = 0; i < 2; i++) {
        ck_assert_int_eq(made->digest[i].state, BW_DIGEST_SAME);
        ck_assert_str_eq(made->digest[i].why, "");
    }
}
END_TEST

/* A list beside a sheet cannot tell whether it was edited itself. */
START_TEST(a_list_begins_with_its_program)
{
    begin("");
    add(ABC, FIRST);
    ck_assert_msg(verify_text() == BW_OK, "%s", err.message);
    ck_assert(made->is_list && !made->edited);
    ck_assert_uint_eq(made->changes, 0);
    begin("a line above\n");
    add(ABC, FIRST);
    ck_assert_int_eq(verify_text(), BW_ERR_INPUT);
    has(err.message, "digest of itself, is missing");
}
END_TEST

/* ---- what is not ----------------------------------------------------------
 */

/* Every byte of a sheet, one after the other. */
START_TEST(each_byte_of_a_sheet_counts)
{
    static char whole[4096];
    make_sheet();
    const size_t length = strlen(text);
    memcpy(whole, text, length + 1);
    for (size_t i = 0; i < length; i++) {
        text[i] = text[i] == '~' ? '!' : '~';
        const bw_status status = verify_text();
        ck_assert_msg(status == BW_ERR_INPUT ||
                          (status == BW_OK && made->changes > 0),
                      "byte %zu", i);
        text[i] = whole[i];
    }
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert_uint_eq(made->changes, 0);
}
END_TEST

static void without_an_end(void)
{
    text[strlen(text) - 1] = '\0';
}

static void one_more_end(void)
{
    strcat(text, "\n");
}

static void words_behind(void)
{
    strcat(text, "and signed\n");
}

static void a_mark_of_bytes(void)
{
    memmove(text + 3, text, strlen(text) + 1);
    memcpy(text, "\xef\xbb\xbf", 3);
}

static void a_word_above(void)
{
    memcpy(strstr(text, "released"), "Released", 8);
}

static void another_digest_above(void)
{
    char *own = strstr(text, BW_DIGESTS_ABOVE) + strlen(BW_DIGESTS_ABOVE);
    own[63] = own[63] == '0' ? '1' : '0';
}

static void (*const edits[])(void) = {without_an_end, one_more_end,
                                      words_behind,   a_mark_of_bytes,
                                      a_word_above,   another_digest_above};

START_TEST(an_edit_of_the_sheet_is_seen_and_is_one_change)
{
    make_sheet();
    edits[_i]();
    ck_assert_msg(verify_text() == BW_OK, "%s", err.message);
    ck_assert(made->edited);
    ck_assert_uint_eq(made->changes, 1);
    ck_assert_int_eq(made->digest[0].state, BW_DIGEST_SAME);
}
END_TEST

START_TEST(another_program_is_one_change)
{
    snprintf(text, sizeof text, BW_DIGESTS_BEGIN "0.0.0\n");
    add(ABC, FIRST);
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert(made->other_program);
    ck_assert_str_eq(made->program, "0.0.0");
    ck_assert_uint_eq(made->changes, 1);
}
END_TEST

START_TEST(each_file_is_the_same_another_or_not_there)
{
    begin("");
    add(ABC, FIRST);
    add(ABC, OTHER);
    add(ABC, "./verify-none");
    add(ABC, ".");
    add(ABC, "./verify-first.txt/none");
    ck_assert_int_eq(verify_text(), BW_OK);
    static const struct {
        bw_digest_state state;
        const char *why;
    } rows[] = {{BW_DIGEST_SAME, ""},
                {BW_DIGEST_CHANGED, ""},
                {BW_DIGEST_MISSING, "there is no such file"},
                {BW_DIGEST_MISSING, "no regular file stands there"},
                {BW_DIGEST_MISSING, "it cannot be looked at"}};
    ck_assert_uint_eq(made->digest_count, COUNT(rows));
    for (size_t i = 0; i < COUNT(rows); i++) {
        ck_assert_int_eq(made->digest[i].state, rows[i].state);
        ck_assert_str_eq(made->digest[i].why, rows[i].why);
    }
    ck_assert_uint_eq(made->changes, 4);
}
END_TEST

/* The memory of a process, where a machine has it as a file: its first byte is
 * nobody's to read. */
START_TEST(a_file_that_cannot_be_read_is_a_change_and_no_fault)
{
    static const char memory[] = "/proc/self/mem";
    struct stat found;
    if (stat(memory, &found) != 0 || !S_ISREG(found.st_mode))
        return;
    begin("");
    add(ABC, FIRST);
    add(ABC, memory);
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert_int_eq(made->digest[1].state, BW_DIGEST_MISSING);
    ck_assert_str_eq(made->digest[1].why, "it cannot be read");
    ck_assert_uint_eq(made->changes, 1);
}
END_TEST

/* As large as an input may be, and a byte more: a file of holes. */
START_TEST(a_file_larger_than_an_input_is_not_read)
{
    for (int more = 0; more < 2; more++) {
        begin("");
        add(ABC, OTHER);
        ck_assert_int_eq(truncate(OTHER, (off_t)BW_FILE_LIMIT + more), 0);
        ck_assert_int_eq(verify_text(), BW_OK);
        ck_assert_int_eq(made->digest[0].state,
                         more == 0 ? BW_DIGEST_CHANGED : BW_DIGEST_MISSING);
        ck_assert_str_eq(made->digest[0].why,
                         more == 0 ? "" : "it is larger than an input may be");
    }
}
END_TEST

/* A name that is no UTF-8 stands in a sheet by the codes of its bytes; one that
 * is written as it stands there comes first. */
START_TEST(a_name_by_its_codes_is_the_file_of_those_bytes)
{
    put(BYTES, "abc", 3);
    begin("");
    add(ABC, CODED);
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert_int_eq(made->digest[0].state, BW_DIGEST_SAME);
    ck_assert_str_eq(made->digest[0].path, BYTES);
    put(CODED, "", 0);
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert_int_eq(made->digest[0].state, BW_DIGEST_CHANGED);
    ck_assert_str_eq(made->digest[0].path, CODED);
    remove(CODED);
    /* in a list as it is */
    begin("");
    add(ABC, BYTES);
    ck_assert_int_eq(verify_text(), BW_OK);
    ck_assert_int_eq(made->digest[0].state, BW_DIGEST_SAME);
    remove(BYTES);
    /* codes of letters, or of nothing, are no codes */
    static const char *const plain[] = {"./verify-\\x61", "./verify-\\xe",
                                        "./verify-\\xg4", "./verify-\\xe4"};
    for (size_t i = 0; i < COUNT(plain); i++) {
        begin("");
        add(ABC, plain[i]);
        put("./verify-a", "abc", 3);
        ck_assert_int_eq(verify_text(), BW_OK);
        ck_assert_int_eq(made->digest[0].state, BW_DIGEST_MISSING);
        ck_assert_str_eq(made->digest[0].path, plain[i]);
        remove("./verify-a");
    }
}
END_TEST

/* ---- what is no sheet -----------------------------------------------------
 */

static const struct line_row {
    const char *line; /* behind the head and a sound line */
    const char *says; /* NULL: passed over */
    long at;
} lines[] = {
    {"words", NULL, 0},
    {ABC " one blank", NULL, 0},
    {ABC "  ", NULL, 0},
    {ABC, NULL, 0},
    {"BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD  x",
     NULL, 0},
    {"a7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad  x", NULL,
     0},
    {ABC "  ./verify-first.txt", "a second time", 3},
    {ABC "  a\rb", "control character", 3},
    {ABC "  a\x7f", "control character", 3},
    {ABC "  a\xe2\x80\xae"
         "b",
     "control character", 3},
    {ABC "  \xc2\x85", "control character", 3},
    {BW_DIGESTS_BEGIN "1", "a second list of digests begins", 3},
    {BW_DIGESTS_ABOVE ABC "\n" BW_DIGESTS_ABOVE ABC,
     "a second digest of the sheet", 4},
};

START_TEST(a_line_that_no_sheet_has_is_refused_with_its_number)
{
    const struct line_row *row = &lines[_i];
    begin("");
    add(ABC, FIRST);
    strcat(strcat(text, row->line), "\n");
    const bw_status status = verify_text();
    ck_assert_msg((status == BW_OK) == (row->says == NULL), "%s", err.message);
    if (row->says != NULL) {
        has(err.message, row->says);
        ck_assert_int_eq(err.line, row->at);
        ck_assert_str_eq(err.file, SHEET);
    } else {
        ck_assert_uint_eq(made->digest_count, 1);
    }
}
END_TEST

static const char *const none[] = {"", "Audit of a wall\n",
                                   BW_DIGESTS_BEGIN "1\n",
                                   ABC "  "
                                       "./x\n",
                                   "# bothway 1\n" ABC "  ./x\n"};

START_TEST(what_has_no_list_is_no_sheet)
{
    snprintf(text, sizeof text, "%s", none[_i]);
    ck_assert_int_eq(verify_text(), BW_ERR_INPUT);
    ck_assert_ptr_null(made);
    if (text[0] != '\0')
        has(err.message, "no sheet with digests");
}
END_TEST

START_TEST(a_path_has_so_many_bytes_and_a_sheet_so_many_files)
{
    static char path[4200];
    memset(path, 'a', sizeof path - 1);
    for (int more = 0; more < 2; more++) {
        path[4096 + more] = '\0';
        begin("");
        add(ABC, path);
        ck_assert_int_eq(verify_text() == BW_OK, more == 0);
        path[4096 + more] = 'a';
    }
    has(err.message, "longer than 4096 bytes");
    for (int more = 0; more < 2; more++) {
        size_t used;
        begin("");
        used = strlen(text);
        for (int i = 0; i < 10000 + more; i++)
            used += (size_t)snprintf(text + used, sizeof text - used,
                                     ABC "  ./none-%d\n", i);
        ck_assert_int_eq(verify_text() == BW_OK, more == 0);
        if (more == 0)
            ck_assert_uint_eq(made->changes, 10000);
    }
    has(err.message, "more than 10000 files");
    ck_assert_int_eq(err.line, 10002);
}
END_TEST

START_TEST(a_sheet_that_is_not_there_is_refused)
{
    remove(SHEET);
    ck_assert_int_ne(verify(), BW_OK);
    ck_assert_ptr_null(made);
    bw_verification_free(NULL);
}
END_TEST

SUITE_AROUND("verify", start, end, FACT(a_sheet_and_its_files_are_as_they_were),
             FACT(a_list_begins_with_its_program),
             FACT(each_byte_of_a_sheet_counts),
             EACH(an_edit_of_the_sheet_is_seen_and_is_one_change, COUNT(edits)),
             FACT(another_program_is_one_change),
             FACT(each_file_is_the_same_another_or_not_there),
             FACT(a_file_that_cannot_be_read_is_a_change_and_no_fault),
             FACT(a_file_larger_than_an_input_is_not_read),
             FACT(a_name_by_its_codes_is_the_file_of_those_bytes),
             EACH(a_line_that_no_sheet_has_is_refused_with_its_number,
                  COUNT(lines)),
             EACH(what_has_no_list_is_no_sheet, COUNT(none)),
             FACT(a_path_has_so_many_bytes_and_a_sheet_so_many_files),
             FACT(a_sheet_that_is_not_there_is_refused))
