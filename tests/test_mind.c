/* What stands beside the verdict: the year simulated, and assumptions. */

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "report/parts.h"
#include "report_wall.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static const char months[] = "month,temperature_C,relative_humidity_pct\n"
                             "1,5,80\n2,5,80\n3,5,80\n4,5,80\n5,5,80\n6,5,80\n"
                             "7,5,80\n8,5,80\n9,5,80\n10,5,80\n11,5,80\n"
                             "12,5,80\n";

static bw_status read_headed(bw_climate **out, const char *header,
                             bw_error *err)
{
    static const char path[] = "./mind-test.csv";
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fprintf(file, "%s%s", header, months);
    ck_assert_int_eq(fclose(file), 0);
    bw_status status = bw_climate_read(out, path, err);
    unlink(path);
    return status;
}

START_TEST(a_climate_says_what_year_its_hours_are_or_it_is_not_stated)
{
    static const struct {
        const char *header;
        bw_year_kind kind;
    } rows[] = {
        {"", BW_YEAR_NOT_STATED},
        {"# wind: measured at 10 m\n", BW_YEAR_NOT_STATED},
        {"# kind: typical-year\n", BW_YEAR_TYPICAL},
        {"# kind: measured-year\n", BW_YEAR_MEASURED},
        {"# source: TMY of some service\n", BW_YEAR_TYPICAL},
        {"# remark: a Typical year\n", BW_YEAR_TYPICAL},
        {"# source: no typical year\n# kind: measured-year\n",
         BW_YEAR_MEASURED},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_climate *climate = NULL;
        ck_assert_int_eq(read_headed(&climate, rows[i].header, NULL), BW_OK);
        ck_assert_msg(climate->year_kind == rows[i].kind, "%s", rows[i].header);
        bw_climate_free(climate);
    }
}
END_TEST

START_TEST(an_unknown_kind_of_year_is_refused)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    ck_assert_int_eq(read_headed(&climate, "# kind: cold-year\n", &err),
                     BW_ERR_INPUT);
    ck_assert_ptr_nonnull(
        strstr(err.message, "neither typical-year nor measured-year"));
}
END_TEST

START_TEST(a_simulated_year_that_is_not_measured_has_its_caution)
{
    static const struct {
        bw_year_kind kind;
        bool synthetic;
        const char *says;
    } rows[] = {
        {BW_YEAR_TYPICAL, false, "unsuitable for extremes of moisture"},
        {BW_YEAR_NOT_STATED, false, "is not stated"},
        {BW_YEAR_NOT_STATED, true, "generated from monthly means"},
        {BW_YEAR_MEASURED, false, NULL},
    };
    report_wall wall;
    report_wall_make(&wall);
    ck_assert_ptr_null(bw_year_caution(&wall.assessment));
    report_simulate(&wall);
    for (size_t i = 0; i < COUNT(rows); i++) {
        wall.climate.year_kind = rows[i].kind;
        wall.checked.transient.synthetic_climate = rows[i].synthetic;
        const char *says = bw_year_caution(&wall.assessment);
        if (rows[i].says == NULL)
            ck_assert_ptr_null(says);
        else
            ck_assert_ptr_nonnull(strstr(says, rows[i].says));
    }
}
END_TEST

static char text[40000];
static size_t used;

static bool collect(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    ck_assert_uint_lt(used + length, sizeof text);
    memcpy(text + used, bytes, length);
    used += length;
    text[used] = '\0';
    return true;
}

START_TEST(warnings_and_assumptions_of_the_simulation_stand_in_the_summary_once)
{
    report_wall wall;
    report_wall_make(&wall);
    report_simulate(&wall);
    wall.note[0].kind = BW_NOTE_WARNING;
    wall.note[0].message = "a warning of the file";
    bw_transient_result *run = &wall.checked.transient;
    run->note_count = 2;
    for (size_t i = 0; i < 2; i++)
        snprintf(run->note[i], sizeof run->note[i], "an assumption");
    const bw_report_options quiet = {.quiet = true, .width = 100};
    ck_assert_int_eq(
        bw_report_text(&wall.assessment, &quiet, collect, NULL, NULL), BW_OK);
    ck_assert_ptr_nonnull(strstr(text, "- a warning of the file\n"));
    const char *first = strstr(text, "- an assumption\n");
    ck_assert_ptr_nonnull(first);
    ck_assert_ptr_null(strstr(first + 1, "- an assumption\n"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("mind");
    TCase *tcase = tcase_create("mind");
    tcase_add_test(tcase,
                   a_climate_says_what_year_its_hours_are_or_it_is_not_stated);
    tcase_add_test(tcase, an_unknown_kind_of_year_is_refused);
    tcase_add_test(tcase,
                   a_simulated_year_that_is_not_measured_has_its_caution);
    tcase_add_test(
        tcase,
        warnings_and_assumptions_of_the_simulation_stand_in_the_summary_once);
    suite_add_tcase(suite, tcase);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
