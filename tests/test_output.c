/* Files appear whole or not at all; text for machines is quoted. */

#define _XOPEN_SOURCE 700 /* mkdtemp */

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/output.h"
#include "base/writer.h"
#include "suite.h"

static char folder[] = "/tmp/bothways-test-XXXXXX";
static char path[256];
static char name[64];

static void setup(void)
{
    snprintf(name, sizeof name, "%s", folder);
    ck_assert_ptr_nonnull(mkdtemp(name));
    snprintf(path, sizeof path, "%s/report.txt", name);
}

static size_t files_in(const char *where)
{
    size_t count = 0;
    DIR *open_folder = opendir(where);
    ck_assert_ptr_nonnull(open_folder);
    for (struct dirent *entry; (entry = readdir(open_folder)) != NULL;)
        count += entry->d_name[0] != '.' || strlen(entry->d_name) > 2;
    closedir(open_folder);
    return count;
}

static void teardown(void)
{
    unlink(path);
    ck_assert_uint_eq(files_in(name), 0);
    rmdir(name);
}

static void put(const char *text)
{
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
}

static const char *contents(void)
{
    static char text[256];
    FILE *file = fopen(path, "r");
    if (file == NULL)
        return NULL;
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    return text;
}

START_TEST(nothing_appears_before_the_commit)
{
    bw_output output;
    put("old");
    ck_assert_int_eq(bw_output_open(&output, path, NULL), BW_OK);
    ck_assert(bw_output_write(&output, "new text", 8));
    ck_assert_str_eq(contents(), "old");
    ck_assert_int_eq(bw_output_commit(&output, NULL), BW_OK);
    ck_assert_str_eq(contents(), "new text");
    ck_assert_uint_eq(files_in(name), 1);
}
END_TEST

/* The second cannot be put in place: the first stays what it was. */
START_TEST(of_several_all_appear_or_none)
{
    static const char *const second[] = {"second", "/dev/full", "gone/second"};
    for (int i = 0; i < 3; i++) {
        bw_output a, b, none = {.fd = -1};
        bw_output *const all[] = {&a, &none, &b};
        char folder[300], place[300];
        snprintf(folder, sizeof folder, "%s/gone", name);
        snprintf(place, sizeof place, "%s/%s", name, second[i]);
        ck_assert_int_eq(mkdir(folder, 0700), 0);
        put("old");
        ck_assert_int_eq(bw_output_open(&a, path, NULL), BW_OK);
        ck_assert_int_eq(bw_output_open(&b, i == 1 ? second[i] : place, NULL),
                         BW_OK);
        ck_assert(bw_output_write(&a, "new", 3));
        ck_assert(bw_output_write(&b, "new", 3) == (i != 1));
        const bool gone = i == 2 && b.nameless;
        ck_assert_int_eq(rmdir(folder), i == 2 && !gone ? -1 : 0);
        const bw_status status = bw_output_commit_all(all, 3, NULL);
        ck_assert((status == BW_OK) == (i != 1 && !gone));
        ck_assert_str_eq(contents(), status == BW_OK ? "new" : "old");
        ck_assert(a.path == NULL && b.path == NULL);
        unlink(place);
        rmdir(folder);
        ck_assert_uint_eq(files_in(name), 1);
    }
}
END_TEST

START_TEST(a_dropped_file_leaves_nothing)
{
    bw_output output;
    ck_assert_int_eq(bw_output_open(&output, path, NULL), BW_OK);
    ck_assert(bw_output_write(&output, "half", 4));
    bw_output_discard(&output);
    bw_output_discard(&output);
    ck_assert_ptr_null(contents());
    ck_assert_uint_eq(files_in(name), 0);
}
END_TEST

START_TEST(an_existing_file_keeps_its_permissions)
{
    bw_output output;
    struct stat status;
    put("old");
    ck_assert_int_eq(chmod(path, 0640), 0);
    ck_assert_int_eq(bw_output_open(&output, path, NULL), BW_OK);
    ck_assert_int_eq(bw_output_commit(&output, NULL), BW_OK);
    ck_assert_int_eq(stat(path, &status), 0);
    ck_assert_uint_eq(status.st_mode & 0777, 0640);
}
END_TEST

START_TEST(a_link_is_followed_not_replaced)
{
    bw_output output;
    struct stat status;
    char link_path[300];
    put("old");
    snprintf(link_path, sizeof link_path, "%s/link", name);
    ck_assert_int_eq(symlink(path, link_path), 0);
    ck_assert_int_eq(bw_output_open(&output, link_path, NULL), BW_OK);
    ck_assert(bw_output_write(&output, "new", 3));
    ck_assert_int_eq(bw_output_commit(&output, NULL), BW_OK);
    ck_assert_int_eq(lstat(link_path, &status), 0);
    ck_assert(S_ISLNK(status.st_mode));
    ck_assert_str_eq(contents(), "new");
    unlink(link_path);
}
END_TEST

/* Paths a user can mend, relative to the test's folder, and a word of what to
 * do about each; errno as open(2), mkdir(2) and path_resolution(7) name it. */
static const struct path_row {
    const char *below, *hint;
} path_rows[] = {
    {"", "name a file to write"},                  /* EISDIR */
    {"/none/report.txt", "make its folder first"}, /* ENOENT */
    {"/report.txt/more", "a part of its path"},    /* ENOTDIR */
    {"/circle", "in a circle"},                    /* ELOOP */
    {"/circle/report.txt", "in a circle"},         /* ELOOP */
    {NULL, "give it a shorter name"},              /* ENAMETOOLONG */
};

START_TEST(a_path_the_user_can_mend_is_bad_usage)
{
    bw_output output;
    bw_error err = {0};
    char bad[500], circle[100];
    put("old");
    snprintf(circle, sizeof circle, "%s/circle", name);
    ck_assert_int_eq(symlink(circle, circle), 0);
    if (path_rows[_i].below == NULL)
        snprintf(bad, sizeof bad, "%s/%0300d", name, 1);
    else
        snprintf(bad, sizeof bad, "%s%s", name, path_rows[_i].below);
    ck_assert_int_eq(bw_output_open(&output, bad, &err), BW_ERR_USAGE);
    ck_assert_ptr_nonnull(strstr(err.message, path_rows[_i].hint));
    ck_assert_str_eq(contents(), "old");
    ck_assert_uint_eq(files_in(name), 2);
    unlink(circle);
}
END_TEST

START_TEST(a_fault_of_the_machine_is_none_of_the_user)
{
    static const int mend[] = {ENOENT,  EACCES, EPERM,        EROFS,
                               ENOTDIR, EISDIR, ENAMETOOLONG, ELOOP};
    static const int machine[] = {ENOSPC, EIO, EPIPE, EDQUOT, EMFILE, EFBIG};
    bw_error err = {0};
    for (size_t i = 0; i < COUNT(mend); i++)
        ck_assert_int_eq(bw_output_fail(&err, "a", "write", mend[i]),
                         BW_ERR_USAGE);
    for (size_t i = 0; i < COUNT(machine); i++)
        ck_assert_int_eq(bw_output_fail(&err, "a", "write", machine[i]),
                         BW_ERR_IO);
}
END_TEST

START_TEST(a_locked_file_is_left_alone)
{
    bw_output output;
    bw_error err = {0};
    if (geteuid() == 0) {
        fputs("skipped: the superuser may write anywhere\n", stderr);
        return;
    }
    put("old");
    ck_assert_int_eq(chmod(path, 0444), 0);
    ck_assert_int_eq(bw_output_open(&output, path, &err), BW_ERR_USAGE);
    ck_assert_str_eq(contents(), "old");
}
END_TEST

START_TEST(a_full_device_is_noticed)
{
    bw_output output;
    bw_error err = {0};
    if (access("/dev/full", W_OK) != 0) {
        fputs("skipped: no /dev/full here\n", stderr);
        return;
    }
    ck_assert_int_eq(bw_output_open(&output, "/dev/full", NULL), BW_OK);
    ck_assert(!bw_output_write(&output, "text", 4));
    ck_assert_int_eq(bw_output_commit(&output, &err), BW_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "No space left"));
}
END_TEST

typedef struct memory {
    char text[16384];
    size_t used, calls, limit;
} memory;

static bool remember(void *payload, const char *bytes, size_t length)
{
    memory *m = payload;
    if (++m->calls > m->limit)
        return false;
    memcpy(m->text + m->used, bytes, length);
    m->used += length;
    m->text[m->used] = '\0';
    return true;
}

/* RFC 4180, sections 2.5 to 2.7: quote commas, quotes and line breaks, double
 * the quotes; that breaks become blanks is our own choice. */
static const struct field_row {
    const char *text, *want;
} field_rows[] = {
    {"plain", "plain"},
    {"", ""},
    {"a,b", "\"a,b\""},
    {"say \"no\"", "\"say \"\"no\"\"\""},
    {"two\nlines", "\"two lines\""},
    {"bell\a", "bell?"},
    {"rubbed\x7fout", "rubbed?out"},
    {"sd \xc2\xb5", "sd \xc2\xb5"},
    /* no character of UTF-8: its bytes by their codes, our own choice */
    {"wand-\xe4\xff.xml", "wand-\\xe4\\xff.xml"},
    {"\xed\xa0\x80", "\\xed\\xa0\\x80"},
    /* what a spreadsheet would compute (common practice, no source) */
    {"=1+1", "'=1+1"},
    {"+1-555", "'+1-555"},
    {"-cmd", "'-cmd"},
    {"@SUM(A1)", "'@SUM(A1)"},
    {" =1", "' =1"},
    {"=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\""},
    {"'=1", "''=1"},
    {"\t=1", "?=1"},
    {"\r=1", "\"?=1\""},
    /* and what it would not */
    {"-", "-"},
    {"-5.2", "-5.2"},
    {"+1e-3", "+1e-3"},
    {"'quoted'", "'quoted'"},
    {"a=b", "a=b"},
};

START_TEST(fields_are_quoted)
{
    static memory m;
    bw_writer out;
    m = (memory){.limit = 100};
    bw_writer_start(&out, remember, &m);
    bw_write_field(&out, field_rows[_i].text);
    ck_assert(bw_writer_finish(&out));
    ck_assert_str_eq(m.text, field_rows[_i].want);
}
END_TEST

START_TEST(long_text_arrives_whole_and_in_order)
{
    static memory m;
    bw_writer out;
    m = (memory){.limit = 100};
    bw_writer_start(&out, remember, &m);
    for (int i = 0; i < 1000; i++) {
        bw_write_number(&out, i, 9);
        bw_write_text(&out, ";");
    }
    ck_assert(bw_writer_finish(&out));
    /* 10 + 90*2 + 900*3 digits and 1000 marks */
    ck_assert_uint_eq(m.used, 10 + 180 + 2700 + 1000);
    ck_assert_ptr_nonnull(strstr(m.text, ";998;999;"));
}
END_TEST

START_TEST(a_sink_that_refused_is_not_asked_again)
{
    static memory m;
    bw_writer out;
    m = (memory){.limit = 1};
    bw_writer_start(&out, remember, &m);
    bw_write_repeat(&out, 'x', 3 * sizeof out.buffer);
    ck_assert(!bw_writer_finish(&out));
    ck_assert_uint_eq(m.calls, 2);
}
END_TEST

SUITE_AROUND("output", setup, teardown, FACT(nothing_appears_before_the_commit),
             FACT(of_several_all_appear_or_none),
             FACT(a_dropped_file_leaves_nothing),
             FACT(an_existing_file_keeps_its_permissions),
             FACT(a_link_is_followed_not_replaced),
             {a_path_the_user_can_mend_is_bad_usage, COUNT(path_rows)},
             FACT(a_fault_of_the_machine_is_none_of_the_user),
             FACT(a_locked_file_is_left_alone), FACT(a_full_device_is_noticed),
             EACH(fields_are_quoted, COUNT(field_rows)),
             FACT(long_text_arrives_whole_and_in_order),
             FACT(a_sink_that_refused_is_not_asked_again))
