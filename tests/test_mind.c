/* What stands beside the verdict: the year simulated, and assumptions. */

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#define BW_NO_FENCE /* it prints one document many times over */

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

/* ---- what fits a screen ---------------------------------------------------
 */

enum {
    NOTES = 24,
    CHANGES = 6,
    MOST_NOTES = 12,
    MOST_CHANGES = 3,
    TALL_MOST = 140
};

static bw_note notes[NOTES];
static bw_advice changes[CHANGES];
static char said[NOTES + CHANGES][48];

static size_t lines_printed(int width)
{
    const char *text = text_with(
        (bw_report_options){.extent = BW_EXTENT_SCREEN, .width = width});
    return count_lines(text);
}

/* Warnings of a line each, changes of some; and a reason so many lines of 50
 * columns long, which stands whatever is left out. */
static void make_long(size_t warnings, size_t advised, size_t tall)
{
    static const char line[] =
        "It is said with care, and then is said once more. ";
    static char reason[sizeof line * TALL_MOST];
    setup();
    reason[0] = '\0';
    for (size_t i = 0; i < tall; i++)
        strcat(reason, line);
    wall.assessment.verdict_reason = reason;
    wall.assembly.air_leakage.given = true;
    wall.note[0].kind = BW_NOTE_INFO;
    for (size_t i = 0; i < warnings; i++) {
        snprintf(said[i], sizeof said[i], "warning %zu of many", i);
        notes[i] = (bw_note){BW_NOTE_WARNING, 3, "w.xml", said[i]};
    }
    wall.assembly.note = notes;
    wall.assembly.note_count = warnings;
    for (size_t i = 0; i < advised; i++) {
        char *text = said[NOTES + i];
        snprintf(text, sizeof said[0], "Do thing %zu.", i);
        changes[i] = wall.advice[0];
        changes[i].change = text;
    }
    wall.assessment.advice = changes;
    wall.assessment.advice_count = advised;
}

static size_t shown(const char *format, size_t count)
{
    size_t n = 0;
    for (size_t i = 0; i < count; i++) {
        char text[64];
        snprintf(text, sizeof text, format, i);
        n += strstr(sheet.text, text) != NULL;
    }
    return n;
}

/* What is left out is counted beside the title of its list, wherever that is
 * broken. */
static void counts_the_rest(const char *lead, size_t rest, size_t told)
{
    char title[160], more[64];
    const char *at = strstr(sheet.text, lead);
    ck_assert_ptr_nonnull(at);
    size_t used = 0;
    for (; used + 1 < sizeof title && strncmp(at, "\n  - ", 5) != 0 &&
           strncmp(at, "\n  1.", 5) != 0 && *at != '\0';
         at++)
        if (*at != ' ' && *at != '\n')
            title[used++] = *at;
    title[used] = '\0';
    snprintf(more, sizeof more, "%zu%swith--full)", rest,
             told > 0 ? "more" : "");
    ck_assert_msg(rest > 0 ? strstr(title, more) != NULL
                           : strstr(title, "--full") == NULL,
                  "not %zu left out: %s", rest, title);
}

/* As many stand there as there is room for: of warnings at most twelve, of
 * changes three. First warnings go, to the last; then changes, to the last. */
static void fits(int width, size_t most_lines, size_t warnings, size_t advised)
{
    const size_t lines = lines_printed(width);
    const size_t told = shown("Warning: warning %zu of", warnings);
    const size_t done = shown("Do thing %zu", advised);
    const size_t most = warnings < MOST_NOTES ? warnings : MOST_NOTES;
    const size_t most_done = advised < MOST_CHANGES ? advised : MOST_CHANGES;
    ck_assert_uint_le(told, most);
    ck_assert_uint_le(done, most_done);
    ck_assert(told > 0 || warnings == 0);
    ck_assert(done > 0 || advised == 0);
    if (told > 1 || done > 1)
        ck_assert_msg(lines <= most_lines, "%zu lines", lines);
    if (told > 1)
        ck_assert_uint_eq(done, most_done);
    if (told < most && told > 1) /* one more is one line */
        ck_assert_uint_eq(lines, most_lines);
    if (done < most_done && done > 1) /* one more is some */
        ck_assert_uint_gt(lines + 4, most_lines);
    if (warnings > 0)
        counts_the_rest("Beside the verdict", warnings - told, told);
    if (advised > 0)
        counts_the_rest("What would change it", advised - done, done);
}

static const struct screen_of {
    int width;
    size_t lines;
} screens[] = {{60, 75}, {75, 60}, {90, 50}, {100, 45}, {140, 45}};

/* On a narrow page lines are shorter: as many more of them are a screen. */
START_TEST(a_screen_holds_as_much_as_fits)
{
    const struct screen_of *s = &screens[_i];
    size_t all = 0, cut = 0, changes_cut = 0;
    for (size_t tall = 0; tall <= TALL_MOST; tall += 3)
        for (size_t warnings = 0; warnings <= NOTES; warnings += 8) {
            const size_t advised = (tall + warnings / 8) % (CHANGES + 1);
            make_long(warnings, advised, tall);
            fits(s->width, s->lines, warnings, advised);
            const size_t told = shown("Warning: warning %zu of", warnings);
            all += told == warnings;
            cut += told > 1 && told < MOST_NOTES && told < warnings;
            changes_cut += shown("Do thing %zu", advised) == 2 && advised > 2;
        }
    ck_assert_uint_gt(all, 0);
    ck_assert_uint_gt(cut, 0);
    ck_assert_uint_gt(changes_cut, 0);
}
END_TEST

/* Where nothing more can be left out a warning stands, an assumption does
 * not. */
START_TEST(an_assumption_gives_way_before_a_warning)
{
    for (size_t warnings = 0; warnings < 3; warnings++)
        for (size_t tall = 0; tall <= TALL_MOST; tall += TALL_MOST) {
            make_long(warnings, 1, tall);
            wall.assembly.air_leakage.given = false;
            lines_printed(100);
            const bool fit = tall == 0;
            ck_assert_uint_eq(shown("Warning: warning %zu of", warnings),
                              fit            ? warnings
                              : warnings > 0 ? 1
                                             : 0);
            ck_assert((strstr(sheet.text, "- no air leakage given") != NULL) ==
                      fit);
            counts_the_rest("Beside the verdict",
                            fit            ? 0
                            : warnings > 0 ? warnings
                                           : 1,
                            fit ? 1 : warnings);
        }
}
END_TEST

/* What is asked for in full is there in full. */
START_TEST(in_full_nothing_is_left_out)
{
    make_long(NOTES, CHANGES, TALL_MOST);
    text_with((bw_report_options){.extent = BW_EXTENT_FULL});
    ck_assert_uint_eq(shown("Warning: warning %zu of", NOTES), NOTES);
    ck_assert_uint_eq(shown("Do thing %zu", CHANGES), CHANGES);
    HAS_NOT(sheet.text, "with --full");
    text_with((bw_report_options){.extent = BW_EXTENT_LEAST});
    ck_assert_uint_eq(shown("Warning: warning %zu of", NOTES), NOTES);
}
END_TEST

SUITE(
    "mind", FACT(a_climate_says_what_year_its_hours_are_or_it_is_not_stated),
    FACT(an_unknown_kind_of_year_is_refused),
    FACT(a_simulated_year_that_is_not_measured_has_its_caution),
    FACT(warnings_and_assumptions_of_the_simulation_stand_in_the_summary_once),
    EACH(a_screen_holds_as_much_as_fits, COUNT(screens)),
    FACT(an_assumption_gives_way_before_a_warning),
    FACT(in_full_nothing_is_left_out))
