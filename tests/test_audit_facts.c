/* Every number of an audit: each fact of audit.csv is its field in its unit,
 * and so is each figure of the sheet and its page. The record of closing up is
 * made by hand of random numbers; one is changed, and what changes is compared
 * with it. */

#include <math.h>

#include "bothways/audit.h"
#include "bothways/report.h"
#include "said_case.h"

enum { READINGS = 2 };

static bw_air_test test[2];
static bw_reading reading[READINGS];
static bw_reading_entry entry[READINGS];
static bw_moisture_limit limit[1];
static bw_member_decision member[1];
static bw_drying_forecast forecast[1];
static bw_criterion built_row;
static bw_as_built_row row[1];
static bw_assessment built;
static bw_audit_unknown line[1];
static bw_audit audit;

static words before, after;
static paper document;

#define DAYS(way, which) forecast[0].days[BW_SITE_##way][which]

/* What is changed, the row of the table that has it, and how it is told. */
static const struct fact {
    const char *part, *item;
    double *at;
    double low, high, factor;
    const char *unit;
    double sheet; /* factor of the sheet's unit; 0: it does not say it */
} facts[] = {
    {"air-test", "2031-05-20", &test[1].q50, 1e-4, 9e-4, 3600.0, "m3/(m2.h)",
     3600.0},
    {"test", "2031-05-10", &test[0].q50, 1e-4, 9e-4, 3600.0, "m3/(m2.h)",
     3600.0},
    {"reading", "2031-05-11 stud: bay 1", &reading[0].moisture, 0.1, 0.3, 100.0,
     "%", 100.0},
    {"reading", "2031-05-12 stud: bay 2", &reading[1].moisture, 0.1, 0.3, 100.0,
     "%", 100.0},
    {"limit", "stud", &limit[0].allowed, 0.1, 0.3, 100.0, "%", 0.0},
    {"member", "stud", &member[0].highest, 0.1, 0.3, 100.0, "%", 100.0},
    {"unknown", "mu of board", &full_unknown[0].flip_value, 0.1, 0.9, 1.0, "-",
     1.0},
    {"as-built-row", "whole: annual-balance", &built_row.value, 0.1, 0.9, 1.0,
     "kg/m2", 1e3},
    /* below a quarter of a year in weeks */
    {"forecast", "stud: closed as drawn", &DAYS(CLOSED, 1), 30.0, 60.0, 1.0,
     "d", 1.0 / 7.0},
};

static void record(void)
{
    for (size_t i = 0; i < READINGS; i++) {
        reading[i] = (bw_reading){.date = i == 0 ? "2031-05-11" : "2031-05-12",
                                  .member = "stud",
                                  .place = i == 0 ? "bay 1" : "bay 2",
                                  .meter = "",
                                  .species = "",
                                  .by = "",
                                  .photograph = "",
                                  .note = "",
                                  .source = ""};
        entry[i] = (bw_reading_entry){.reading = &reading[i], .counts = true};
        test[i] = (bw_air_test){.date = i == 0 ? "2031-05-10" : "2031-05-20",
                                .stage = "membrane-exposed",
                                .by = "",
                                .ref = "",
                                .source = ""};
    }
    limit[0] = (bw_moisture_limit){
        .member = "stud", .part = {"", -1, false}, .source = ""};
    member[0] = (bw_member_decision){.member = "stud",
                                     .part = {"", -1, false},
                                     .reading_count = READINGS,
                                     .has_limit = true,
                                     .allowed = 0.18,
                                     .critical = 0.2};
    forecast[0] = (bw_drying_forecast){
        .member = "stud", .part = {"", -1, false}, .reading = &reading[0]};
    for (int way = 0; way < BW_SITE_WAYS; way++) {
        forecast[0].days[way][0] = 20.0;
        forecast[0].days[way][1] = 45.0;
        forecast[0].days[way][2] = 70.0;
    }
}

static void facts_setup(void)
{
    full_setup();
    record();
    built = wall.assessment;
    built_row = wall.criterion[0];
    row[0] = (bw_as_built_row){.drawn = &wall.criterion[0],
                               .built = &built_row};
    line[0] = (bw_audit_unknown){.unknown = &full_unknown[0], .decides = true};
    wall.assembly.closing_up = (bw_closing_up){.air_test_count = 2,
                                               .air_test = test,
                                               .limit_count = 1,
                                               .limit = limit,
                                               .reading_count = READINGS,
                                               .reading = reading};
    audit = (bw_audit){.assessment = &wall.assessment,
                       .margin = &full_margin,
                       .profile = bw_profile_default(),
                       .command_line = "",
                       .date = "",
                       .air_test = &test[1],
                       .air_test_text = "",
                       .member_count = 1,
                       .member = member,
                       .reading_count = READINGS,
                       .reading = entry,
                       .unknown_count = 1,
                       .unknown = line,
                       .forecast_count = 1,
                       .forecast = forecast};
    audit.as_built.assessment = &built;
    audit.as_built.row_count = 1;
    audit.as_built.row = row;
    wall.results.audit = &audit;
    for (size_t i = 0; i < COUNT(facts); i++)
        *facts[i].at = between(&full_die, facts[i].low, facts[i].high);
}

/* Another number, that is printed as another. */
static double change(const struct fact *f)
{
    double value;
    do
        value = between(&full_die, f->low, f->high);
    while (fabs(value - *f->at) < 0.1 * (f->high - f->low));
    return *f->at = value;
}

/* "demo,PART,ITEM," and what follows it, where the field changes alone. */
START_TEST(a_fact_is_its_field_in_its_unit)
{
    const struct fact *f = &facts[_i];
    char begins[128], ends[32];
    facts_setup();
    const double value = change(f);
    const char *text = table_of(BW_TABLE_AUDIT);
    snprintf(begins, sizeof begins, "\ndemo,%s,%s,", f->part, f->item);
    const char *at = strstr(text, begins);
    ck_assert_msg(at != NULL, "no '%s' in\n%s", begins + 1, text);
    char *unit;
    const double is = strtod(at + strlen(begins), &unit);
    ck_assert_msg(fabs(is - f->factor * value) <=
                      1.01e-8 * fabs(f->factor * value),
                  "%.9g is not %.9g", is, f->factor * value);
    snprintf(ends, sizeof ends, ",%s,", f->unit);
    ck_assert_msg(strncmp(unit, ends, strlen(ends)) == 0, "%.20s", unit);
}
END_TEST

static void read_sheet(words *to, bw_form form)
{
    paper_clear(&document);
    ck_assert_int_eq(
        audit_report(form, &audit, NULL, paper_take, &document, NULL), BW_OK);
    split(to, document.text);
}

/* Hexadecimal: the digest of the sheet, which changes with all of it. */
static bool is_digest(const char *word)
{
    return strlen(word) > 12 &&
           strspn(word, "0123456789abcdef") == strlen(word);
}

/* So many days after the reading of 11 May, as its day in May, June or July. */
static bool is_day_after(const char *word, double days)
{
    static const int before_month[] = {0, 31, 61};
    int month, day;
    if (sscanf(word, "2031-%d-%d", &month, &day) != 2 || month < 5 || month > 7)
        return false;
    return before_month[month - 5] + day == 11 + (int)days;
}

static void check_form(const struct fact *f, bw_form form)
{
    read_sheet(&before, form);
    const double value = change(f);
    read_sheet(&after, form);
    size_t own = 0;
    for (size_t i = 0; i < after.count && before.count != after.count; i++)
        ck_assert_msg(strcmp(before.word[i], after.word[i]) == 0,
                      "'%s %s' became '%s %s'", before.word[i],
                      before.word[i + 1], after.word[i], after.word[i + 1]);
    for (size_t i = 0; i < after.count; i++) {
        if (strcmp(before.word[i], after.word[i]) == 0 ||
            is_digest(after.word[i]) || is_day_after(after.word[i], value))
            continue;
        ck_assert_msg(prints(after.word[i], f->sheet * value),
                      "%s: '%s' behind '%s' is not %g", f->part, after.word[i],
                      after.word[i > 0 ? i - 1 : 0], f->sheet * value);
        own++;
    }
    ck_assert_msg((own > 0) == (f->sheet > 0.0), "%s: %zu times on the sheet",
                  f->part, own);
}

START_TEST(a_figure_of_the_sheet_is_that_of_the_record)
{
    facts_setup();
    for (int draw = 0; draw < 3; draw++)
        check_form(&facts[_i], BW_FORM_TEXT);
}
END_TEST

START_TEST(a_figure_of_its_page_is_that_of_the_record)
{
    facts_setup();
    for (int draw = 0; draw < 3; draw++)
        check_form(&facts[_i], BW_FORM_PAGE);
}
END_TEST

SUITE_AROUND("audit_facts", full_setup, NULL,
             EACH(a_fact_is_its_field_in_its_unit, COUNT(facts)),
             EACH(a_figure_of_the_sheet_is_that_of_the_record, COUNT(facts)),
             EACH(a_figure_of_its_page_is_that_of_the_record, COUNT(facts)))
