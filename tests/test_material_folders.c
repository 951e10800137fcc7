/* Folders of material files: which files are read, in which order, what a later
 * folder overrides, and what is found in the whole. */

#include "material_case.h"
#include "suite.h"

/* Only *.xml that is not hidden; what an editor leaves beside is no fault. */
START_TEST(files_of_another_name_in_the_folder_are_passed_over)
{
    static const char *const others[] = {".a.xml", ".xml",     "b.xml~",
                                         "xml",    "read.txt", "b.XML"};
    folder f;
    char path[128];
    make_folder(&f, HEAD "<material id=\"b\" name=\"B\">" MU TAIL);
    for (size_t i = 0; i < COUNT(others); i++) {
        snprintf(path, sizeof path, "%s/%s", f.path, others[i]);
        FILE *out = fopen(path, "w");
        ck_assert_ptr_nonnull(out);
        fputs("no material", out);
        fclose(out);
    }
    const char *folder_path = f.path;
    bw_library *library = NULL;
    bw_error err = {0};
    bw_status status = bw_library_read(&library, &folder_path, 1, &err);
    for (size_t i = 0; i < COUNT(others); i++) {
        snprintf(path, sizeof path, "%s/%s", f.path, others[i]);
        unlink(path);
    }
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s: %s", err.file, err.message);
    ck_assert_uint_eq(bw_library_count(library), 1);
    bw_library_free(library);
}
END_TEST

/* The fault told is that of the first file by name, on any file system. */
START_TEST(a_folder_of_many_files_is_read_in_the_order_of_their_names)
{
    enum { MANY = 40 };
    folder f;
    char path[128];
    bw_library *library = NULL;
    bw_error err = {0};
    make_folder(&f, NULL);
    for (int faulty = 0; faulty < 2; faulty++) {
        for (int i = MANY; i > 0; i--) {
            snprintf(path, sizeof path, "%s/m%02d.xml", f.path, i);
            FILE *out = fopen(path, "w");
            ck_assert_ptr_nonnull(out);
            fprintf(out, HEAD "<material id=\"b-%d\" name=\"%s\">" MU TAIL, i,
                    faulty != 0 && i >= 20 ? "" : "B");
            fclose(out);
        }
        const char *const paths[] = {f.path, "no-such-folder"};
        bw_status status = bw_library_read(&library, paths, 1 + (size_t)faulty,
                                           &err);
        ck_assert_int_eq(status, faulty == 0 ? BW_OK : BW_ERR_INPUT);
        if (faulty == 0)
            ck_assert_uint_eq(bw_library_count(library), MANY);
    }
    for (int i = MANY; i > 0; i--) {
        snprintf(path, sizeof path, "%s/m%02d.xml", f.path, i);
        unlink(path);
    }
    drop_folder(&f);
    ck_assert_ptr_nonnull(strstr(err.file, "/m20.xml"));
    bw_library_free(library);
}
END_TEST

START_TEST(a_later_directory_adds_and_overrides_and_says_so)
{
    folder f;
    make_folder(&f, HEAD
                "<material id=\"osb\" name=\"Our board\">" MU FLAGS
                "</material>\n<material id=\"new-one\" name=\"New\">" MU TAIL);
    const char *const paths[] = {shipped_path, f.path};
    bw_library *library;
    bw_error err;
    bw_status status = bw_library_read(&library, paths, 2, &err);
    drop_folder(&f);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    ck_assert_uint_eq(bw_library_count(library), bw_library_count(shipped) + 1);
    ck_assert_str_eq(bw_library_find(library, "osb")->name, "Our board");
    ck_assert_double_eq(bw_library_find(library, "osb")->mu_dry.value, 5);
    ck_assert_ptr_nonnull(bw_library_find(library, "new-one"));
    size_t count;
    const bw_note *note = bw_library_notes(library, &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(note->kind, BW_NOTE_INFO);
    ck_assert_str_eq(note->file, f.file);
    ck_assert_int_eq(note->line, 3);
    ck_assert_ptr_nonnull(strstr(note->message, "\"osb\""));
    ck_assert_ptr_nonnull(strstr(note->message, "boards.xml:"));
    bw_library_free(library);
}
END_TEST

START_TEST(many_overrides_are_all_noted)
{
    const char *const paths[] = {shipped_path, shipped_path};
    bw_library *library;
    bw_error err;
    ck_assert_int_eq(bw_library_read(&library, paths, 2, &err), BW_OK);
    size_t count;
    const bw_note *note = bw_library_notes(library, &count);
    ck_assert_uint_eq(count, bw_library_count(shipped));
    ck_assert_uint_eq(bw_library_count(library), count);
    for (size_t i = 0; i < count; i++)
        ck_assert_ptr_nonnull(strstr(note[i].message, "replaces"));
    bw_library_free(library);
}
END_TEST

START_TEST(ids_are_unique_across_the_files_of_a_directory)
{
    folder f;
    make_folder(&f, HEAD "<material id=\"b\" name=\"B\">" MU TAIL);
    char second[96];
    snprintf(second, sizeof second, "%s/b.xml", f.path);
    ck_assert_int_eq(link(f.file, second), 0);
    const char *path = f.path;
    bw_library *library;
    bw_error err = {0};
    bw_status status = bw_library_read(&library, &path, 1, &err);
    unlink(second);
    drop_folder(&f);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_str_eq(err.file, second);
    ck_assert_ptr_nonnull(strstr(err.message, "a.xml:3"));
}
END_TEST

START_TEST(a_directory_that_cannot_serve_is_refused)
{
    folder f;
    make_folder(&f, NULL);
    const char *empty = f.path, *missing = f.file;
    bw_library *library;
    bw_error err = {0};
    ck_assert_int_eq(bw_library_read(&library, &missing, 1, &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot open"));
    bw_status status = bw_library_read(&library, &empty, 1, &err);
    drop_folder(&f);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "no *.xml"));
    ck_assert_str_eq(err.file, empty);
}
END_TEST

START_TEST(lookup_finds_suggests_and_knows_its_ends)
{
    ck_assert_ptr_null(bw_library_find(shipped, "hemp-bat"));
    ck_assert_str_eq(bw_library_suggest(shipped, "hemp-bat"), "hemp-batt");
    ck_assert_str_eq(bw_library_suggest(shipped, "bitumen-softbord"),
                     "bitumen-softboard");
    ck_assert_ptr_null(bw_library_suggest(shipped, "zzzzzz"));
    ck_assert_ptr_null(bw_library_at(shipped, bw_library_count(shipped)));
    bw_library_free(NULL);
}
END_TEST

START_TEST(a_file_in_memory_adds_and_overrides_as_a_last_folder_does)
{
    static const char text[] = HEAD "<material id=\"b\" name=\"Mine\">" MU FLAGS
                                    "</material>"
                                    "<material id=\"c\" name=\"New\">" MU TAIL;
    folder f;
    bw_library *library = NULL;
    bw_error err = {0};
    make_folder(&f, HEAD "<material id=\"b\" name=\"B\">" MU TAIL);
    const char *path = f.path;
    ck_assert_msg(
        bw_library_read_text(&library, &path, 1, text, "typed", &err) == BW_OK,
        "%s", err.message);
    ck_assert_uint_eq(bw_library_count(library), 2);
    ck_assert_str_eq(bw_library_find(library, "b")->name, "Mine");
    ck_assert_str_eq(bw_library_find(library, "b")->file, "typed");
    bw_library_free(library);
    library = NULL;
    ck_assert_int_eq(
        bw_library_read_text(&library, NULL, 0, text, "typed", NULL), BW_OK);
    ck_assert_uint_eq(bw_library_count(library), 2);
    bw_library_free(library);
    library = NULL;
    ck_assert_int_eq(
        bw_library_read_text(&library, &path, 1, "<a/>", "typed", &err),
        BW_ERR_INPUT);
    drop_folder(&f);
    ck_assert_str_eq(err.file, "typed");
    ck_assert_ptr_null(library);
}
END_TEST

SUITE_AROUND("material_folders", open_shipped, close_shipped,
             FACT(files_of_another_name_in_the_folder_are_passed_over),
             FACT(a_folder_of_many_files_is_read_in_the_order_of_their_names),
             FACT(a_later_directory_adds_and_overrides_and_says_so),
             FACT(many_overrides_are_all_noted),
             FACT(ids_are_unique_across_the_files_of_a_directory),
             FACT(a_directory_that_cannot_serve_is_refused),
             FACT(a_file_in_memory_adds_and_overrides_as_a_last_folder_does),
             FACT(lookup_finds_suggests_and_knows_its_ends))
