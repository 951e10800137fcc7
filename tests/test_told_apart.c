/* What stands on both sides of a condition: sections of which the summary
 * tells, shares of a hundred, hours of a day, each as its datum says. */

#include <math.h>
#include <stdio.h>

#include "day.h"
#include "flat_text.h"
#include "full_replay.h"
#include "full_result.h"
#include "report/chosen.h"

/* ---- sections --------------------------------------------------------------
 */

/* Of several sections each but the one that the verdict names; where the months
 * alone, beyond their limits, could say that it holds, none. */
static const struct told_row {
    bool simulated, screening;
    const char *named; /* section of the row that decides; NULL: none */
    bool tells;
} told_rows[] = {
    {true, false, "whole", true},  {true, true, "whole", true},
    {false, false, "whole", true}, {false, true, "whole", false},
    {true, false, "stud", false},  {true, true, NULL, true},
    {false, false, NULL, true},
};

START_TEST(a_section_is_told_where_it_was_judged)
{
    static bw_section_assessment part[2];
    static bw_section stud;
    static bw_criterion rows[2];
    static bw_scope_item faults[1];
    const struct told_row *row = &told_rows[_i];
    full_setup();
    part[0] = part[1] = wall.checked;
    stud = wall.section;
    stud.name = "stud";
    part[1].section = &stud;
    part[1].has_transient = row->simulated;
    rows[0] = rows[1] = wall.criterion[0];
    rows[0].section = row->named != NULL ? row->named : "whole";
    rows[1].section = "stud";
    rows[1].decides = rows[1].has_value = rows[1].has_limit = true;
    rows[1].value = 0.777;
    rows[1].limit = 0.888;
    rows[1].verdict = rows[1].outcome = BW_HOLDS;
    wall.assessment.section = part;
    wall.assessment.section_count = 2;
    wall.assessment.criterion = rows;
    wall.assessment.criterion_count = 2;
    wall.assessment.deciding = row->named != NULL ? &rows[0] : NULL;
    faults[0] = wall.assessment.scope_count > 0 ? wall.assessment.scope[0]
                                                : faults[0];
    wall.assessment.scope = faults;
    wall.assessment.scope_count = row->screening ? 1 : 0;
    print_flat(&wall.results, BW_DOCUMENT_CHECK, BW_EXTENT_SCREEN);
    says_if(row->tells, "Stud holds: annual balance 777 g/m2, limit 888 g/m2");
}
END_TEST

/* ---- shares ---------------------------------------------------------------
 */

/* To a tenth of a hundredth below one of a hundred (regression value). */
START_TEST(a_small_share_has_a_digit_more)
{
    static const struct {
        double share;
        const char *words;
    } rows[] = {{1.0, "100.0 %"},   {0.0894, "8.9 %"},  {0.0101, "1.0 %"},
                {0.01, "1.0 %"},    {0.0099, "0.99 %"}, {0.0012, "0.12 %"},
                {0.00001, "0.00 %"}};
    bw_page page;
    paper_clear(&flat);
    bw_text_start(&page, 100, false, paper_take, &flat);
    for (size_t i = 0; i < COUNT(rows); i++)
        ck_assert_str_eq(bw_share_words(&page, rows[i].share), rows[i].words);
    ck_assert_int_eq(bw_page_finish(&page, "it", NULL), BW_OK);
}
END_TEST

/* ---- hours ----------------------------------------------------------------
 */

/* Each hour of a record by its day and hour, across the end of a year. */
START_TEST(an_hour_of_a_record_has_its_day_and_hour)
{
    enum { HOURS = 60 };
    static bw_replay_hour hours[HOURS];
    static paper table;
    const bw_results of = {.replay = &logged.replay};
    const long first = bw_day_of("2031-12-30");
    full_replay_make(&logged);
    for (size_t p = 0; p < logged.replay.place_count; p++)
        logged.place[p].hour = hours;
    logged.replay.start = 86400.0 * (double)first + 5.0 * 3600.0;
    logged.replay.hour_count = HOURS;
    for (size_t h = 0; h < HOURS; h++)
        hours[h] = (bw_replay_hour){.theta = (double)h, .compared = h % 2 == 0};
    paper_clear(&table);
    ck_assert_int_eq(
        bw_report_table(&of, BW_TABLE_REPLAY_HOURS, paper_take, &table, NULL),
        BW_OK);
    const char *at = table.text;
    for (size_t h = 0; h < HOURS; h++) {
        char moment[64], day[BW_DAY_TEXT];
        snprintf(moment, sizeof moment, "\n%sT%02zu:00Z,",
                 bw_day_text(day, first + (long)((h + 5) / 24)), (h + 5) % 24);
        at = strstr(at, moment);
        ck_assert_msg(at != NULL, "no %s in its order", moment);
        const char *end = strchr(at + 1, '\n');
        ck_assert_ptr_nonnull(end);
        ck_assert_int_eq(strncmp(end - 2, h % 2 == 0 ? "es" : "no", 2), 0);
    }
}
END_TEST

SUITE("told_apart",
      EACH(a_section_is_told_where_it_was_judged, COUNT(told_rows)),
      FACT(a_small_share_has_a_digit_more),
      FACT(an_hour_of_a_record_has_its_day_and_hour))
