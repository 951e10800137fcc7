/* What stands beside the verdict: the year simulated, and assumptions. */

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "report/names.h"
#include "wall_sheet.h"

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
    setup();
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

START_TEST(warnings_and_assumptions_of_the_simulation_stand_in_the_summary_once)
{
    setup();
    report_simulate(&wall);
    wall.note[0].kind = BW_NOTE_WARNING;
    wall.note[0].message = "a warning of the file";
    bw_transient_result *run = &wall.checked.transient;
    run->note_count = 2;
    for (size_t i = 0; i < 2; i++)
        snprintf(run->note[i], sizeof run->note[i], "an assumption");
    const char *text = text_with(
        (bw_report_options){.extent = BW_EXTENT_SCREEN, .width = 100});
    ck_assert_ptr_nonnull(strstr(text, "- Warning: a warning of the file\n"));
    const char *first = strstr(text, "- an assumption\n");
    ck_assert_ptr_nonnull(first);
    ck_assert_ptr_null(strstr(first + 1, "- an assumption\n"));
    text = text_with((bw_report_options){.extent = BW_EXTENT_LEAST});
    ck_assert_ptr_nonnull(strstr(text, "- Warning: a warning of the file\n"));
    ck_assert_ptr_null(strstr(text, "an assumption"));
}
END_TEST

SUITE(
    "mind", FACT(a_climate_says_what_year_its_hours_are_or_it_is_not_stated),
    FACT(an_unknown_kind_of_year_is_refused),
    FACT(a_simulated_year_that_is_not_measured_has_its_caution),
    FACT(warnings_and_assumptions_of_the_simulation_stand_in_the_summary_once))
