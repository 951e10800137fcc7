/* What the check report says of walls that are not the usual one: nothing
 * computed, nothing known, one year, one word, names of every script. A
 * hand-made assessment in, sentences out. */

#include <math.h>
#include <stdlib.h>

#include "wall_sheet.h"

static const char *text_of(int width)
{
    return text_with((bw_report_options){.width = width});
}

/* ---- one sentence each ------------------------------------------------- */

static void fails_within_its_limit(void)
{
    wall.criterion[0].verdict = wall.assessment.verdict = BW_FAILS;
    wall.criterion[0].title = "Inward";
    wall.criterion[0].section = "whole";
    wall.criterion[0].unit = "kg/m2";
    wall.criterion[0].has_value = wall.criterion[0].has_limit = true;
    wall.criterion[0].value = 0.0433;
    wall.criterion[0].limit = 0.2;
    wall.criterion[0].margin = 0.1567;
    wall.criterion[0].reason = "it has not left by the end of the year";
    wall.assessment.deciding = &wall.criterion[0];
}

static void no_title(void)
{
    wall.assembly.title = "";
}

static void no_place(void)
{
    wall.climate.place = wall.climate.source = wall.climate.remark = "";
}

static void no_reserve(void)
{
    wall.checked.run[BW_RUN_DESIGN].result.has_reserve = false;
}

static void two_reserves_missing(void)
{
    wall.checked.run[BW_RUN_BOUND].ran = wall.checked.run[BW_RUN_LEAKAGE].ran =
        true;
    wall.checked.run[BW_RUN_BOUND].result =
        wall.checked.run[BW_RUN_LEAKAGE].result =
            wall.checked.run[BW_RUN_DESIGN].result;
    wall.checked.run[BW_RUN_BOUND].result.has_reserve =
        wall.checked.run[BW_RUN_LEAKAGE].result.has_reserve = false;
}

static void surplus(void)
{
    wall.checked.run[BW_RUN_DESIGN].result.reserve = 0.25;
}

static void inward_not_run(void)
{
    wall.checked.run[BW_RUN_INWARD].reason =
        "the facing is not given, so neither is the "
        "sun";
}

static void inward_dry(void)
{
    wall.checked.run[BW_RUN_INWARD].ran = true;
    wall.checked.run[BW_RUN_INWARD].result =
        wall.checked.run[BW_RUN_DESIGN].result;
    wall.checked.run[BW_RUN_INWARD].result.condenses = false;
}

static void inward_wet(void)
{
    wall.checked.run[BW_RUN_INWARD].ran = true;
    wall.checked.run[BW_RUN_INWARD].result =
        wall.checked.run[BW_RUN_DESIGN].result;
}

static void more_than_was_put_in(void)
{
    wall.checked.run[BW_RUN_WETTED_INWARDS].result.left = 3.11;
}

static void water_elsewhere(void)
{
    wall.checked.run[BW_RUN_WETTED_INWARDS].result.condensed_elsewhere = true;
}

static void settles_in_years(void)
{
    wall.checked.run[BW_RUN_DESIGN].result.cycles = 3;
    wall.checked.run[BW_RUN_DESIGN].result.residual_last = 0.05;
}

static void never_settles(void)
{
    wall.checked.run[BW_RUN_DESIGN].result.cycles = 10;
    wall.checked.run[BW_RUN_DESIGN].result.periodic = false;
    wall.checked.run[BW_RUN_DESIGN].result.residual_last = 0.4;
}

static void dry_everywhere(void)
{
    wall.plane[1].month[1].accumulated = 0.0;
}

static void no_period(void)
{
    wall.checked.period.assessed = false;
    wall.checked.period.reason[0] = '\0';
}

static void no_advice(void)
{
    wall.assessment.advice_count = 0;
    wall.assessment.changes_tried = 12;
}

static void advice_with_unknowns(void)
{
    wall.advice[0].not_assessed_after = 2;
    wall.advice[0].change = "Ventilate";
}

static void advice_that_mends_nothing(void)
{
    wall.assessment.changes_tried = 12;
    wall.assessment.advice_mends = false;
    wall.advice[0].marginal_before = 3;
    wall.advice[0].marginal_after = 2;
}

static void advice_not_assessed(void)
{
    wall.advice[0].has_reserve_after = wall.advice[0].has_dry_after = false;
}

static void two_ways_beyond(void)
{
    static const bw_scope_item two[] = {{"rain", "rain"}, {"sun", "sun"}};
    wall.assessment.scope_count = 2;
    wall.assessment.scope = two;
}

static void other_rules(void)
{
    wall.assessment.profile = "uk-nhbc";
}

static void default_rules(void)
{
    wall.assessment.profile = "default";
}

static void tested_air(void)
{
    wall.assembly.air_leakage = (bw_air_leakage){.given = true,
                                                 .q50 = 1.5 / 3600.0,
                                                 .connected_height = 5.0,
                                                 .tested = true};
}

static void note_without_a_line(void)
{
    wall.note[0].line = 0;
}

static void note_without_a_file(void)
{
    wall.note[0].file = "";
}

static void no_safety_margin(void)
{
    wall.assembly.indoors.margin = false;
}

static void several_assumed(void)
{
    wall.assessment.assumed_count = 3;
}

static void paths_too_far_apart(void)
{
    bw_thermal_result *t = &wall.assessment.thermal;
    t->section_count = 2;
    t->section_resistance[0] = 4.0;
    t->section_resistance[1] = 1.0;
    t->section_fraction[0] = 0.9;
    t->section_fraction[1] = 0.1;
    t->lower_limit = 2.0;
    t->upper_limit = 3.5;
    t->error = 0.27;
}

static void paths_alike(void)
{
    paths_too_far_apart();
    wall.assessment.thermal.applicable = true;
}

static void not_converged(void)
{
    wall.checked.run[BW_RUN_DESIGN].result.converged = false;
}

static void wood_dries(void)
{
    report_simulate(&wall);
}

static void wood_never_wet(void)
{
    report_simulate(&wall);
    wall.moisture[0].weeks_to_limit = 0;
}

static void wood_stays_wet(void)
{
    report_simulate(&wall);
    wall.moisture[0].weeks_to_limit = -1;
}

static void given_months(void)
{
    wall.assembly.indoors.kind = BW_INDOOR_MONTHS;
}

static const struct sentence_row {
    void (*change)(void);
    const char *says, *says_not;
} sentences[] = {
    {no_title, "demo\nw.xml; climate: Estuary\n", "A demo wall"},
    {no_place, "climate: c.csv\n", "climate: \n"},
    {no_place, "Climate: c.csv; source: not stated.\n", "not stated. \n"},
    {no_reserve, "g/m2 dry; drying reserve not assessed.",
     "not assessed: g/m2"},
    {two_reserves_missing,
     "other cup value of mu: peak 432 g/m2, reserve not assessed.",
     "reserve - g/m2"},
    {surplus, "room for leaks beyond what condenses", "less can dry in a year"},
    {no_title, "less can dry in a year than condenses", "beyond what"},
    {inward_not_run, "whole: inward run not made: the facing is not given",
     "inwards condenses nowhere"},
    {no_title, "whole: inward run not made.", "not made: ."},
    {inward_dry, "vapour driven inwards condenses nowhere.", "in the sun,"},
    {inward_wet,
     "with the outer layer wet, up to 432 g/m2 condense between "
     "softboard and hemp batt (Feb).",
     "and always in the sun"},
    {inward_wet, "whole, wet outer layer in the sun: between", "nowhere"},
    {more_than_was_put_in,
     "never: 3110 g/m2 there after 10 years, it keeps "
     "getting wetter",
     "3110 g/m2 left"},
    {water_elsewhere, "never: 310 g/m2 left after 10 years  yes",
     "310 g/m2 left after 10 years  no"},
    {settles_in_years, "After 3 years each year repeats the last; 50 g/m2",
     "3 year each"},
    {no_title, "After 1 year each year repeats the last; 0 g/m2", "1 years"},
    {never_settles, "After 10 years the years do not yet repeat; 400 g/m2",
     "repeats the last"},
    {dry_everywhere, "(no water; the place most at risk)", "After 1 year"},
    {dry_everywhere, "No water stands anywhere.", "Water gathers"},
    {no_period, "period balance: not assessed.", "not assessed, ."},
    {no_advice, "none of the 12 changes computed for this wall helps",
     "What would change it (computed"},
    {advice_with_unknowns,
     "1. Ventilate: Drying reserve from 0.05 to 0.2 kg/(m2 a); failing 0 "
     "instead of 1, 2 not assessed;",
     "Use a variable film"},
    {advice_that_mends_nothing, ": none of 12 mends it", "helps enough to say"},
    {advice_that_mends_nothing,
     "failing 0 instead of 1, marginal 2 instead of 3;", "not assessed;"},
    {default_rules, "1. Use a variable film inside: Drying reserve from",
     "mends it"},
    {advice_not_assessed, "reserve not assessed; time to dry not assessed.",
     "both ways 3.0 months"},
    {two_ways_beyond, "a screening: beyond the method in 2 ways", "2 way "},
    {other_rules, "Rule set uk-nhbc: its rules are added", "Rule set default"},
    {default_rules, "Criteria --", "Rule set"},
    {tested_air, "q50 = 1.5 m3/(m2.h) over 5.0 m of connected height, tested.",
     "not shown by a test"},
    {note_without_a_line, "Warning: looks reversed (w.xml)\n", "(w.xml:0)"},
    {note_without_a_file, "Warning: looks reversed\n", "()"},
    {no_safety_margin, "20 degC, humidity class 3 of ISO 13788.",
     "safety margin"},
    {not_converged, "did not meet their tolerance", "(null)"},
    {wood_dries, "(Nov), below 18 % for good after 15 weeks.", "never above"},
    {wood_never_wet, "(Nov), never above 18 %.", "weeks"},
    {wood_stays_wet, "(Nov), not below 18 % for good.", "weeks"},
    {given_months, "twelve months given in the file", "humidity class"},
    {several_assumed, "3 layers are only assumed", "3 layer is"},
    {fails_within_its_limit, "it has not left by the end of the year",
     "0.0433 kg/m2, limit: at most"},
    {no_title, "1 layer is only assumed", "1 layers"},
    {paths_too_far_apart, "the method does not apply, calculate this wall",
     "(null)"},
    {paths_alike, "Path 2: R = 1.000 m2.K/W on 10.0 % of the area",
     "does not apply"},
};

START_TEST(the_report_says_what_is_so_and_not_its_opposite)
{
    const struct sentence_row *row = &sentences[_i];
    row->change();
    const char *text = text_of(200);
    HAS(text, row->says);
    HAS_NOT(text, row->says_not);
}
END_TEST

/* ---- nothing computed -------------------------------------------------- */

START_TEST(what_was_not_computed_is_never_called_dry)
{
    bw_section_assessment *c = &wall.checked;
    c->run[BW_RUN_DESIGN].result = c->run[BW_RUN_WETTED_BOTH].result =
        c->run[BW_RUN_WETTED_OUTWARDS].result =
            c->run[BW_RUN_WETTED_INWARDS].result = (bw_monthly_result){0};
    c->run[BW_RUN_INWARD].reason = "Jan: a temperature is no number";
    report_simulate(&wall);
    const char *text = text_of(200);
    HAS(text, "Condensed water           not assessed\n");
    HAS(text, "Drying reserve            not assessed\n");
    HAS(text, "To dry                    not assessed\n");
    HAS(text, "whole, as built: not assessed.");
    HAS(text, "whole: the year was not assessed.");
    HAS(text, "whole: inward run not made: Jan: a temperature is no number.");
    HAS(text, "both ways      not assessed  -\n");
    HAS(text, "Water over the years     not assessed");
    HAS_NOT(text, "none in any month");
    HAS_NOT(text, "No water stands");
    HAS_NOT(text, "no condensate");
    HAS_NOT(text, "in the first year");
}
END_TEST

START_TEST(a_wall_without_any_section_still_has_a_report)
{
    wall.assessment.section_count = 0;
    const char *text = text_of(100);
    HAS(text, "Verdict: fails");
    HAS_NOT(text, "Most condensed water");
}
END_TEST

/* ---- a simulation beside ------------------------------------------------ */

static const struct course_row {
    int years;
    bool periodic, rising;
    double change;
    const char *says;
} courses[] = {
    {3, true, false, 0.001, "repeats after 3 years"},
    {1, true, false, 0.0, "repeats after 1 year\n"},
    {3, false, true, 0.3, "still rises by 300 g/m2 in the last of 3 years"},
    {3, false, false, -0.3, "still falls by 300 g/m2 in the last of 3 years"},
    /* more in the last year, less in the one before: no fall */
    {3, false, false, 0.3, "  rises by 300 g/m2 in the last of 3 years"},
    {1, false, false, 0.3, "  rises by 300 g/m2 in the only year"},
    {1, false, false, -0.3, "  falls by 300 g/m2 in the only year"},
};

START_TEST(water_rises_or_falls_as_its_last_year_did)
{
    const struct course_row *row = &courses[_i];
    report_simulate(&wall);
    bw_transient_result *run = &wall.checked.transient;
    run->years = row->years;
    run->periodic = row->periodic;
    run->rising = row->rising;
    run->yearly_change = row->change;
    HAS(text_of(200), row->says);
}
END_TEST

static const struct monthly_row {
    bool accumulates;
    double peak;
    const char *says;
} monthly[] = {
    {true, 0.4, "Water over the years     rises by 111 g/m2 a year"},
    {false, 0.0, "Water over the years     no condensate"},
    {false, 0.4,
     "Water over the years     up to 400 g/m2, 50 left after a year"},
};

START_TEST(the_monthly_course_stands_beside_the_hourly_one)
{
    report_simulate(&wall);
    wall.checked.run[BW_RUN_DESIGN].result.accumulates =
        monthly[_i].accumulates;
    wall.checked.run[BW_RUN_DESIGN].result.growth = 0.111;
    wall.checked.run[BW_RUN_DESIGN].result.peak = monthly[_i].peak;
    wall.checked.run[BW_RUN_DESIGN].result.residual_first = 0.05;
    HAS(text_of(200), monthly[_i].says);
}
END_TEST

START_TEST(a_simulation_that_watched_nothing_says_nothing_of_places)
{
    report_simulate(&wall);
    wall.checked.transient.monitor_count = 0;
    wall.checked.transient.synthetic_climate = false;
    wall.checked.transient.method = "";
    const char *text = text_of(200);
    HAS(text, "a layer: at most 21.3 % by mass (Mar)");
    HAS(text, "75 %, outer surface, Jan");
    HAS_NOT(text, "room face");
    HAS_NOT(text, "The hours are synthetic");
}
END_TEST

START_TEST(a_place_between_two_layers_is_named_by_both)
{
    bw_monitor places[] = {
        {.label = "softboard", .slab = 0, .month_rh = {0.5}},
        {.label = "hemp batt, dense", .slab = 1, .month_rh = {0.4}},
        {.label = "film", .slab = 2, .room_face = true}};
    report_simulate(&wall);
    wall.checked.transient.monitor = places;
    wall.checked.transient.monitor_count = 3;
    wall.checked.transient.hour_count = 0;
    HAS(text_of(200), "50 %, between softboard and hemp batt, Jan");
    wall.checked.transient.monitor_count = 2; /* one inside of it unseen */
    HAS(text_of(200), "  room face ");
    places[1].month_rh[0] = 0.9;
    wall.checked.transient.monitor_count = 3;
    places[2].slab = 7;
    HAS(text_of(200), "90 %, between hemp batt and a layer, Jan");
}
END_TEST

/* ---- places of the monthly method --------------------------------------- */

static const struct place_row {
    bw_plane_at at;
    size_t dropped;
    const char *says;
} places[] = {
    {{.slab = 0, .layer_face = true}, 0, "between softboard and hemp batt"},
    {{.slab = 1, .depth = 0.045},
     0,
     "inside hemp batt, 45 mm from its outer face"},
    {{.slab = 2, .layer_face = true}, 0, "room-side surface"},
    {{.slab = 0}, 0, "outer surface"},
    {{.slab = 0}, 1, "face towards the ventilated cavity"},
    {{.slab = 1}, 0, "between softboard and hemp batt"},
};

START_TEST(places_are_named_by_what_lies_on_both_sides)
{
    wall.plane[1].at = places[_i].at;
    wall.section.dropped_layers = places[_i].dropped;
    HAS(text_of(200), places[_i].says);
}
END_TEST

/* ---- names of every kind ------------------------------------------------ */

static const char *const names[] = {
    "Holzfaserunterdeckplattenverklebungsmassenkartusche",
    "panneau de fibres de bois haute densite\xcc\x81, ignifuge\xcc\x81, avec "
    "parement en papier kraft et rainure sur les quatre cote\xcc\x81s",
    "\xe6\x9c\xa8\xe6\x9d\x90\xe7\xb9\x8a\xe7\xb6\xad\xe6\x9d\xbf\xe6\x9c\xa8"
    "\xe6\x9d\x90\xe7\xb9\x8a\xe7\xb6\xad\xe6\x9d\xbf\xe6\x9c\xa8\xe6\x9d\x90",
    "board\xe2\x80\xae sdloh :tcidrev",
    "\xd7\x9c\xd7\x95\xd7\x97\xe2\x80\x8f",
    "two\nlines\tand a tab\xc2\x85",
    ", (nothing before the comma)",
    "",
};
static const int page_widths[] = {100, 140, 200};

START_TEST(names_of_every_script_keep_within_the_page)
{
    const char *name = names[_i];
    wall.layer[0].name = wall.slab[0].label = wall.material[0].name = name;
    wall.assembly.title = wall.climate.place = wall.assembly.remark = name;
    report_simulate(&wall);
    wall.monitor[1].label = name;
    for (size_t i = 0; i < COUNT(page_widths); i++) {
        const char *text = text_of(page_widths[i]);
        HAS_NOT(text, "\xe2\x80\xae");
        HAS_NOT(text, "\t");
    }
}
END_TEST

static const struct page_row {
    int asked;
    size_t given;
} pages[] = {{-5, 60}, {1, 60}, {60, 60}, {0, 100}, {200, 200}, {9999, 200}};

START_TEST(a_page_is_held_between_its_narrowest_and_widest)
{
    bw_report_options options = {.width = pages[_i].asked,
                                 .extent = BW_EXTENT_LEAST};
    wall.assessment.verdict_reason =
        "one two three four five six seven eight nine ten eleven twelve "
        "thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty "
        "and once more one two three four five six seven eight nine ten eleven "
        "twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen";
    paper_clear(&sheet);
    ck_assert_int_eq(check_report(BW_FORM_TEXT, &wall.assessment, &options,
                                  paper_take, &sheet, NULL),
                     BW_OK);
    size_t longest = 0;
    for (const char *c = sheet.text; *c != '\0'; c += strcspn(c, "\n") + 1)
        if (strcspn(c, "\n") > longest)
            longest = strcspn(c, "\n");
    ck_assert_uint_le(longest, pages[_i].given);
    ck_assert_uint_gt(longest, pages[_i].given - 12);
}
END_TEST

SUITE_AROUND(
    "report_words", setup, NULL,
    EACH(the_report_says_what_is_so_and_not_its_opposite, COUNT(sentences)),
    FACT(what_was_not_computed_is_never_called_dry),
    FACT(a_wall_without_any_section_still_has_a_report),
    EACH(water_rises_or_falls_as_its_last_year_did, COUNT(courses)),
    EACH(the_monthly_course_stands_beside_the_hourly_one, COUNT(monthly)),
    FACT(a_simulation_that_watched_nothing_says_nothing_of_places),
    FACT(a_place_between_two_layers_is_named_by_both),
    EACH(places_are_named_by_what_lies_on_both_sides, COUNT(places)),
    EACH(names_of_every_script_keep_within_the_page, COUNT(names)),
    EACH(a_page_is_held_between_its_narrowest_and_widest, COUNT(pages)))
