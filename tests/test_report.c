/* The report prints what it is given: a hand-made assessment in, bytes out. */

#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "wall_sheet.h"

static const char *text_of(int width)
{
    return text_with((bw_report_options){.width = width});
}

START_TEST(every_row_has_as_many_fields_as_its_header)
{
    fields_match(table_of((bw_table)_i));
}
END_TEST

START_TEST(verdict_rows_quote_what_needs_quoting)
{
    const char *text = table_of(BW_TABLE_VERDICT);
    HAS(text, "demo,whole,annual-balance,monthly (screening),0.4321,kg/m2,"
              "0.1,-0.3321,fails,\"February, \"\"softboard\"\", inner face\","
              "ISO 13788:2012,,\n");
    HAS(text, "demo,whole,surface-mould,surface,,-,,,not assessed,");
}
END_TEST

START_TEST(monthly_rows_hold_every_run_month_and_plane)
{
    const char *text = table_of(BW_TABLE_MONTHLY);
    /* four runs were made: design and three drying tests */
    ck_assert_uint_eq(count_lines(text), 1 + 4 * BW_MONTHS * WALL_PLANES);
    HAS(text, "demo,whole,design,2,board|batt,0.1,7,801,601,75,0.0123456789,"
              "0.4321,1.01\n");
    HAS(text, "demo,whole,design,1,outside|board,0,5,800,600,75,0,0,\n");
    HAS(text, "demo,whole,wetted-inwards-only,12,film|room,0.3,");
    HAS_NOT(text, "with-air-leakage");
    HAS_NOT(text, "inward,");
}
END_TEST

START_TEST(layer_rows_sum_sd_from_outside)
{
    const char *text = table_of(BW_TABLE_LAYERS);
    HAS(text, "demo,whole,1,board,board,0.012,0.05,0.24,5,0.06,0.06,assumed,");
    HAS(text, "demo,whole,2,batt,batt,0.09,0.04,2.25,2,0.18,0.24,assumed,");
    HAS(text, "demo,whole,3,film,film,0,,0,,5,5.24,assumed,");
}
END_TEST

START_TEST(surface_rows_leave_out_what_has_no_meaning)
{
    const char *text = table_of(BW_TABLE_SURFACE);
    HAS(text, "demo,whole,1,2.5,600,20,1200,18.75,55,0.7125,0.93\n");
    HAS(text, "demo,whole,2,0,0,0,0,0,0,,0.93\n");
}
END_TEST

START_TEST(period_rows_give_the_reserve)
{
    HAS(table_of(BW_TABLE_PERIOD),
        "demo,whole,board|batt,0.06,0.1,0.35,0.25\n");
}
END_TEST

START_TEST(hourly_rows_name_the_hour_and_the_place)
{
    const char *text = table_of(BW_TABLE_HOURLY);
    ck_assert_uint_eq(count_lines(text), 1);
    report_simulate(&wall);
    text = table_of(BW_TABLE_HOURLY);
    ck_assert_uint_eq(count_lines(text), 1 + 2 * 2);
    HAS(text, "demo,whole,10-01 01:00,outer face,1.5,80,40,0.5,3.25\n");
    HAS(text, "demo,whole,10-01 02:00,room face,4.5,80,40,0.5,"
              "3.5\n");
}
END_TEST

static bw_status put_hours(size_t step)
{
    paper_clear(&sheet);
    wall.results.step = step;
    return bw_report_table(&wall.results, BW_TABLE_HOURLY, paper_take, &sheet,
                           NULL);
}

/* Figures chosen in report_wall.h: (1.5 + 3.5) / 2 and (2.5 + 4.5) / 2. */
START_TEST(a_step_of_hours_gives_means_and_the_state_at_its_end)
{
    report_simulate(&wall);
    wall.hour[3].mould = 0.75;
    wall.hour[3].phi = 0.9;
    wall.hour[3].water_content = 50.0;
    ck_assert_int_eq(put_hours(2), BW_OK);
    ck_assert_uint_eq(count_lines(sheet.text), 1 + 2);
    HAS(sheet.text, "demo,whole,10-01 02:00,outer face,2.5,80,40,0.5,3.5\n");
    HAS(sheet.text, "demo,whole,10-01 02:00,room face,3.5,85,45,0.75,3.5\n");
}
END_TEST

START_TEST(a_step_that_is_not_filled_is_the_mean_of_what_there_is)
{
    report_simulate(&wall);
    ck_assert_int_eq(put_hours(24), BW_OK);
    ck_assert_uint_eq(count_lines(sheet.text), 1 + 2);
    HAS(sheet.text, "demo,whole,10-01 02:00,room face,3.5,80,40,0.5,3.5\n");
}
END_TEST

START_TEST(a_step_of_one_hour_is_the_table_itself)
{
    report_simulate(&wall);
    static char hours[4096];
    ck_assert_int_eq(put_hours(1), BW_OK);
    ck_assert_uint_lt(strlen(sheet.text), sizeof hours);
    strcpy(hours, sheet.text);
    ck_assert_int_eq(put_hours(0), BW_OK);
    ck_assert_str_eq(sheet.text, hours);
    ck_assert_int_eq(put_hours(8761), BW_ERR_DOMAIN);
}
END_TEST

START_TEST(period_rows_say_what_was_not_assessed_and_add_up_two_planes)
{
    wall.checked.period.assessed = false;
    HAS(table_of(BW_TABLE_PERIOD), "demo,whole,not assessed,,,,\n");
    wall.checked.period.assessed = true;
    wall.checked.period.plane_count = 0;
    HAS(table_of(BW_TABLE_PERIOD), "demo,whole,critical plane,,0.1,0.35,0.25");
    wall.checked.period.plane_count = 2;
    HAS(table_of(BW_TABLE_PERIOD), "demo,whole,total,,0.1,0.35,0.25\n");
}
END_TEST

START_TEST(a_plane_inside_a_layer_is_named_by_its_depth)
{
    wall.plane[2].at = (bw_plane_at){.slab = 1, .depth = 0.045};
    wall.plane[2].month[3].accumulated = 0.02;
    HAS(table_of(BW_TABLE_MONTHLY), "demo,whole,design,4,batt@0.045,");
    HAS(text_of(100), "inside hemp batt, 45 mm from its outer face");
}
END_TEST

START_TEST(a_value_that_is_no_number_is_an_empty_field)
{
    wall.plane[1].month[1].condensation = NAN;
    wall.plane[1].month[1].accumulated = INFINITY;
    HAS(table_of(BW_TABLE_MONTHLY),
        "demo,whole,design,2,board|batt,0.1,7,801,601,75,,,1.01\n");
}
END_TEST

static const int widths[] = {80, 100, 120};

START_TEST(no_line_is_wider_than_the_page)
{
    report_simulate(&wall);
    text_of(widths[_i]); /* which asks it */
}
END_TEST

START_TEST(colour_adds_emphasis_and_no_meaning)
{
    static char plain[PAPER_SIZE], stripped[PAPER_SIZE];
    snprintf(plain, sizeof plain, "%s", text_of(100));
    HAS_NOT(plain, "\x1b");
    size_t n = 0;
    const char *c = text_with(
        (bw_report_options){.width = 100, .colour = true});
    HAS(c, "\x1b[1m");
    for (; *c != '\0'; c++) {
        if (*c == '\x1b')
            while (*c != 'm')
                c++;
        else
            stripped[n++] = *c;
    }
    stripped[n] = '\0';
    ck_assert_str_eq(stripped, plain);
}
END_TEST

START_TEST(a_title_cannot_steer_the_terminal)
{
    wall.assembly.title = "A \x1b[31mred\x07 wall\xc2\x9b";
    const char *text = text_of(100);
    HAS(text, "A ?[31mred? wall?");
    HAS_NOT(text, "\x1b");
    HAS_NOT(text, "\xc2\x9b");
}
END_TEST

START_TEST(convergence_is_printed_where_it_was_asked_for)
{
    report_simulate(&wall);
    HAS_NOT(table_of(BW_TABLE_CONVERGENCE), "demo");
    wall.checked.has_convergence = true;
    wall.checked.convergence = (bw_transient_convergence){.theta_time = 0.02,
                                                          .phi_time = 0.001,
                                                          .water_time = 0.0005,
                                                          .theta_grid = 0.03,
                                                          .phi_grid = 0.004,
                                                          .water_grid = 0.002,
                                                          .cells = 53,
                                                          .steps = 14000};
    HAS(table_of(BW_TABLE_CONVERGENCE),
        "demo,whole,0.02,0.1,0.0005,0.03,0.4,0.002,53,14000\n");
    HAS(text_of(200), "0.02 K");
}
END_TEST

START_TEST(quiet_is_the_verdict_warnings_and_cautions)
{
    const char *text = text_with(
        (bw_report_options){.width = 100, .extent = BW_EXTENT_LEAST});
    HAS(text, "fails");
    HAS(text, wall.note[0].message);
    HAS_NOT(text, wall.criterion[1].title);
    ck_assert_uint_lt(count_lines(text), 20);
}
END_TEST

START_TEST(notes_of_the_caller_are_printed)
{
    bw_note note = {BW_NOTE_INFO, 0, "own.xml", "overrides hemp-batt"};
    bw_report_options options = {.note_count = 1, .note = &note};
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &options,
                                  paper_take, &sheet, NULL),
                     BW_OK);
    HAS(sheet.text, "- overrides hemp-batt (own.xml)");
}
END_TEST

START_TEST(a_full_disk_is_an_error)
{
    bw_error err = {0};
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, NULL,
                                  paper_refuse, NULL, &err),
                     BW_ERR_IO);
    ck_assert_int_eq(err.status, BW_ERR_IO);
    ck_assert_int_eq(bw_report_table(&wall.results, BW_TABLE_MONTHLY,
                                     paper_refuse, NULL, &err),
                     BW_ERR_IO);
    ck_assert_int_eq(bw_report_table(&wall.results, BW_TABLE_COUNT,
                                     paper_refuse, NULL, &err),
                     BW_ERR_DOMAIN);
}
END_TEST

START_TEST(a_decimal_comma_changes_nothing)
{
    static char before[PAPER_SIZE];
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "de_DE",
                                        "fr_FR.UTF-8", "nl_NL.UTF-8"};
    bool set = false;
    snprintf(before, sizeof before, "%s", text_of(100));
    for (size_t i = 0; i < COUNT(names) && !set; i++)
        set = setlocale(LC_ALL, names[i]) != NULL;
    if (!set)
        fputs("skipped: no locale with a decimal comma here\n", stderr);
    ck_assert_str_eq(text_of(100), before);
    setlocale(LC_ALL, "C");
}
END_TEST

SUITE_AROUND("report", setup, NULL,
             EACH(every_row_has_as_many_fields_as_its_header, BW_TABLE_COUNT),
             FACT(verdict_rows_quote_what_needs_quoting),
             FACT(monthly_rows_hold_every_run_month_and_plane),
             FACT(layer_rows_sum_sd_from_outside),
             FACT(surface_rows_leave_out_what_has_no_meaning),
             FACT(period_rows_give_the_reserve),
             FACT(hourly_rows_name_the_hour_and_the_place),
             FACT(a_step_of_hours_gives_means_and_the_state_at_its_end),
             FACT(a_step_that_is_not_filled_is_the_mean_of_what_there_is),
             FACT(a_step_of_one_hour_is_the_table_itself),
             FACT(period_rows_say_what_was_not_assessed_and_add_up_two_planes),
             FACT(a_plane_inside_a_layer_is_named_by_its_depth),
             FACT(a_value_that_is_no_number_is_an_empty_field),
             EACH(no_line_is_wider_than_the_page, COUNT(widths)),
             FACT(colour_adds_emphasis_and_no_meaning),
             FACT(a_title_cannot_steer_the_terminal),
             FACT(convergence_is_printed_where_it_was_asked_for),
             FACT(quiet_is_the_verdict_warnings_and_cautions),
             FACT(notes_of_the_caller_are_printed),
             FACT(a_full_disk_is_an_error),
             FACT(a_decimal_comma_changes_nothing))
