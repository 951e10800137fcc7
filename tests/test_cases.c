/* The cases of tests/cases, each a file that says a wall, what stands on both
 * sides, and what a source says comes out (README.md there); and that none of
 * them could pass by saying nothing. */

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "case_quantity.h"
#include "measured.h"
#include "suite.h"

enum { FILES_MOST = 500 };

static bw_library *library;

static void read_library(void)
{
    const char *const path[] = {BW_SOURCE_DIR "/materials",
                                BW_SOURCE_DIR "/tests/cases/materials"};
    bw_error err = {0};
    ck_assert_msg(bw_library_read(&library, path, 2, &err) == BW_OK, "%s",
                  err.message);
}

static void free_library(void)
{
    bw_library_free(library);
}

static void check_case(case_report *report, const char *name, char *text)
{
    static case_file file;
    report->files++;
    report->worst = 0;
    if (!case_read(&file, name, text, report))
        return;
    for (size_t i = 0; i < file.block_count; i++) {
        const case_block *block = &file.block[i];
        case_run run;
        if (case_run_make(&run, &file, block, library, report))
            for (size_t k = 0; k < block->row_count; k++)
                case_compare(&run, &block->row[k]);
        case_run_free(&run);
    }
}

static char *contents(const char *path)
{
    FILE *file = fopen(path, "rb");
    char *text = calloc(1, 1 << 20);
    ck_assert_msg(file != NULL && text != NULL, "%s: not to be read", path);
    ck_assert_uint_lt(fread(text, 1, (1 << 20) - 1, file), (1 << 20) - 1);
    fclose(file);
    return text;
}

static int by_name(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

/* Every file of a folder that ends in .case, in the order of their names. */
static void check_folder(case_report *report, const char *folder)
{
    char *name[FILES_MOST], path[1024];
    size_t count = 0;
    DIR *dir = opendir(folder);
    ck_assert_msg(dir != NULL, "%s: not to be read", folder);
    for (struct dirent *e; (e = readdir(dir)) != NULL;) {
        const char *end = strrchr(e->d_name, '.');
        ck_assert_uint_lt(count, FILES_MOST);
        if (end != NULL && strcmp(end, ".case") == 0)
            name[count++] = strdup(e->d_name);
    }
    closedir(dir);
    if (count == 0)
        case_fault(report, folder, 0, "no file *.case in it");
    qsort(name, count, sizeof *name, by_name);
    for (size_t i = 0; i < count; i++) {
        snprintf(path, sizeof path, "%s/%s", folder, name[i]);
        char *text = contents(path);
        check_case(report, name[i], text);
        if (report->worst > 0) {
            name[i][strlen(name[i]) - strlen(".case")] = '\0';
            printf("measured: %s|%.2g|100|%% of its tolerance\n", name[i],
                   100 * report->worst);
        }
        free(text);
        free(name[i]);
    }
}

START_TEST(every_case_comes_out_as_its_source_says)
{
    static case_report report;
    check_folder(&report, BW_SOURCE_DIR "/tests/cases");
    told("cases", (double)report.files, "cases");
    told("cases-values", (double)report.values, "values");
    ck_assert_msg(report.faults == 0, "%zu faults:\n%s", report.faults,
                  report.text);
}
END_TEST

START_TEST(a_folder_without_cases_fails)
{
    static case_report report;
    check_folder(&report, BW_SOURCE_DIR "/tests/data/library");
    ck_assert_uint_eq(report.faults, 1);
    ck_assert_ptr_nonnull(strstr(report.text, "no file *.case"));
}
END_TEST

START_TEST(every_quantity_is_in_the_description)
{
    char *text = contents(BW_SOURCE_DIR "/tests/cases/README.md"), word[80];
    for (size_t i = 0; case_quantity_name(i) != NULL; i++) {
        snprintf(word, sizeof word, "`%s`", case_quantity_name(i));
        ck_assert_msg(strstr(text, word) != NULL, "README.md has no %s", word);
    }
    free(text);
}
END_TEST

/* ---- that it can fail -------------------------------------------------- */

/* A sound case: R = 0.13 + 0.1/0.04 + 0.04 by ISO 6946 [by hand]. In each row
 * below one thing is replaced. */
static const char sound[] =
    /*  1 */ "title: wool alone\n"
             /*  2 */ "source: by hand\n"
             /*  3 */ "mark: derived\n"
             /*  4 */ "\n"
             /*  5 */ "[wall]\n"
             /*  6 */ "<layers listed=\"outside-to-inside\">\n"
             /*  7 */ "<layer id=\"wool\" thickness=\"100 mm\" lambda=\"0.04 "
             "W/(m.K)\" "
             /*  7 */ "mu=\"1\"/>\n"
             /*  8 */ "</layers>\n"
             /*  9 */ "[boundary]\n"
             /* 10 */ "month, outside, vapour, inside, vapour\n"
             /* 11 */ "each, 0 degC, 500 Pa, 20 degC, 1000 Pa\n"
             /* 12 */ "[expected]\n"
             /* 13 */ "quantity, place, when, value, tolerance\n"
             /* 14 */ "resistance, , , 2.67 m2.K/W, 0.001 m2.K/W\n"
             /* 15 */ "temperature, inside, Jan, 18.2079 degC, 0.0001 K, 20 x "
             "2.54/2.79\n"
             /* 16 */ "condenses, , , no,\n";

static void check_changed(case_report *report, const char *from, const char *to)
{
    char text[4096];
    const char *at = strstr(sound, from);
    ck_assert_msg(at != NULL, "the sound case has no %s", from);
    snprintf(text, sizeof text, "%.*s%s%s", (int)(at - sound), sound, to,
             at + strlen(from));
    check_case(report, "changed.case", text);
}

START_TEST(a_sound_case_passes)
{
    static case_report report;
    check_changed(&report, "wool alone", "wool alone");
    ck_assert_msg(report.faults == 0, "%s", report.text);
    ck_assert_uint_eq(report.values, 3);
}
END_TEST

static const struct {
    const char *from, *to;
    long line;
    const char *word;
} faulty[] = {
    /* values */
    {"2.67 m2", "2.672 m2", 14, "resistance is 2.67 m2.K/W, not 2.672"},
    {"2.67 m2", "2.668 m2", 14, "resistance is 2.67 m2.K/W, not 2.668"},
    {"18.2079", "18.2082", 15, "temperature at inside, Jan is 18.2078"},
    {", no,", ", yes,", 16, "condenses is no, not yes"},
    /* rows that say too little, or what cannot be compared */
    {"resistance,", "resistence,", 14, "did you mean 'resistance'?"},
    {"2.67 m2.K/W", "2.67", 14, "not a number with a unit of m2.K/W"},
    {"2.67 m2.K/W", "2.67 Pa", 14, "not a number with a unit of m2.K/W"},
    {"2.67 m2.K/W", "nan m2.K/W", 14, "not a number"},
    {"0.001 m2.K/W", "", 14, "tolerance in its own unit"},
    {"0.001 m2.K/W", "0 m2.K/W", 14, "tolerance above zero"},
    {"0.001 m2.K/W", "-1 m2.K/W", 14, "tolerance above zero"},
    {"0.001 m2.K/W", "3 m2.K/W", 14, "as large as the value"},
    {"0.001 m2.K/W", "100 % of value", 14, "as large as the value"},
    {"0.0001 K", "0.0001 degC", 15, "of temperatures K"},
    {", no,", ", no, 1 -", 16, "has no tolerance"},
    {"inside, Jan", "inside, ", 15, "needs a month"},
    {"inside, Jan", "inside, 7 d", 15, "needs a month"},
    {"inside, Jan", "inside, January", 15, "another time than"},
    {"inside, Jan", ", Jan", 15, "needs a place"},
    {"inside, Jan", "wolle, Jan", 15, "layer that the wall has"},
    {"inside, Jan", "wool 10 m, Jan", 15, "'id 35 mm'"},
    {"inside, Jan", "wool 33 mm, Jan", 15, "has no plane"},
    {"resistance, ,", "resistance, wool,", 14, "has no place"},
    {"condenses, , ,", "condenses, , Jan,", 16, "has no month"},
    {"condenses, , , no,", "condenses, , no", 16, "has 3 cells"},
    {"condenses, , , no,", "water, , 1 h, 1 kg/m2, 0.1 kg/m2", 12, "[hours]"},
    /* nothing asserted */
    {"resistance, , , 2.67 m2.K/W, 0.001 m2.K/W\n"
     "temperature, inside, Jan, 18.2079 degC, 0.0001 K, 20 x 2.54/2.79\n"
     "condenses, , , no,\n",
     "", 12, "nothing is asserted"},
    {"[expected]\n",
     "[expected]\nquantity, place, when, value, tolerance\n"
     "[expected]\n",
     12, "nothing is asserted"},
    {"quantity, place", "place, quantity", 13, "begins with the line"},
    /* the head, sections, what the readers refuse */
    {"title: ", "titel: ", 1, "did you mean 'title'?"},
    {"source: by hand\n", "", 1, "are needed"},
    {"mark: derived", "mark: derive", 1, "did you mean 'derived'?"},
    {"mark: derived", "mark: derived\nmark: derived", 4, "stands twice"},
    {"mark: derived", "mark: derived\nyears: 1.5", 1, "1 to 10"},
    {"[boundary]", "[boundry]", 9, "did you mean 'boundary'?"},
    {"[boundary]", "[wall]", 9, "stands twice"},
    {"[boundary]", "[boundary", 9, "no ']'"},
    {"500 Pa", "500", 11, "[boundary] is the line"},
    {"each, 0", "Jan, 0", 11, "a line for each month"},
    {"[boundary]\nmonth, outside, vapour, inside, vapour\n"
     "each, 0 degC, 500 Pa, 20 degC, 1000 Pa\n",
     "", 12, "needs [boundary]"},
    {"[boundary]\nmonth, outside, vapour, inside, vapour\n"
     "each, 0 degC, 500 Pa, 20 degC, 1000 Pa\n",
     "[climate]\nmonth,temperature_C\n", 6, "needs <indoors>"},
    {"\n\n[wall]\n",
     "\ninner-resistance: 0.2 m2.K/W\n[wall]\n<indoors conditions=\""
     "en15026-normal\"/>",
     6, "at the head may not"},
    {"\n\n[wall]\n", "\nsaturated: brick\n[wall]\n", 12, "no layer brick"},
    {"\n\n[wall]\n", "\nsection: through-stud\n[wall]\n", 12,
     "has no through-stud"},
    {"100 mm", "100", 7, "thickness"},
    {"lambda=", "lambada=", 7, "lambda"},
    {"[expected]", "[expected: wool.lambada = 1 W/(m.K)]", 7, "lambda"},
    {"[expected]", "[expected: wool]", 12, "PLACE.ATTRIBUTE = VALUE"},
};

START_TEST(what_is_wrong_or_says_nothing_is_told_with_its_line)
{
    for (size_t i = 0; i < COUNT(faulty); i++) {
        static case_report report;
        char where[40];
        report = (case_report){0};
        check_changed(&report, faulty[i].from, faulty[i].to);
        snprintf(where, sizeof where, "changed.case:%ld: ", faulty[i].line);
        ck_assert_msg(report.faults > 0, "passed: %s", faulty[i].to);
        ck_assert_msg(strstr(report.text, where) != NULL &&
                          strstr(report.text, faulty[i].word) != NULL,
                      "%s\nfor %s", report.text, faulty[i].to);
    }
}
END_TEST

SUITE_AROUND("cases", read_library, free_library,
             FACT(every_case_comes_out_as_its_source_says),
             FACT(every_quantity_is_in_the_description),
             FACT(a_folder_without_cases_fails), FACT(a_sound_case_passes),
             FACT(what_is_wrong_or_says_nothing_is_told_with_its_line))
