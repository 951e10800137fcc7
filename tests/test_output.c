/* Files appear whole or not at all; text for machines is quoted. */

#define _XOPEN_SOURCE 700 /* mkdtemp */

#include <check.h>
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
    for (size_t i = 0; i < sizeof mend / sizeof mend[0]; i++)
        ck_assert_int_eq(bw_output_fail(&err, "a", "write", mend[i]),
                         BW_ERR_USAGE);
    for (size_t i = 0; i < sizeof machine / sizeof machine[0]; i++)
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

int main(void)
{
    Suite *suite = suite_create("output");
    TCase *files = tcase_create("files");
    tcase_add_checked_fixture(files, setup, teardown);
    tcase_add_test(files, nothing_appears_before_the_commit);
    tcase_add_test(files, a_dropped_file_leaves_nothing);
    tcase_add_test(files, an_existing_file_keeps_its_permissions);
    tcase_add_test(files, a_link_is_followed_not_replaced);
    tcase_add_loop_test(files, a_path_the_user_can_mend_is_bad_usage, 0,
                        (int)(sizeof path_rows / sizeof path_rows[0]));
    tcase_add_test(files, a_fault_of_the_machine_is_none_of_the_user);
    tcase_add_test(files, a_locked_file_is_left_alone);
    tcase_add_test(files, a_full_device_is_noticed);
    suite_add_tcase(suite, files);
    TCase *writer = tcase_create("writer");
    tcase_add_loop_test(writer, fields_are_quoted, 0,
                        (int)(sizeof field_rows / sizeof field_rows[0]));
    tcase_add_test(writer, long_text_arrives_whole_and_in_order);
    tcase_add_test(writer, a_sink_that_refused_is_not_asked_again);
    suite_add_tcase(suite, writer);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
