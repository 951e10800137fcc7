/* What the reviewer's sheet says of audits made by hand: every state of the
 * evidence, every kind of value, and what it does not know. */

#include <math.h>
#include <stdlib.h>

#include "bothways/audit.h"
#include "one_document.h"
#include "paper.h"
#include "report_wall.h"
#include "suite.h"

static report_wall wall;
static bw_audit audit;
static bw_margin margin;
static bw_unknown unknown;
static bw_audit_unknown line;
static bw_profile profile;
static bw_profile_rule rules[2];
static bw_air_test tests[2];
static bw_evidence_item evidence[2];
static bw_reading reading[2];
static bw_reading_entry entry[2];
static bw_member_decision member;
static bw_uncertain unsure;
static bw_alternative other;
static bw_input_file file;
static paper sheet;

static void make_evidence(void)
{
    tests[0] = (bw_air_test){.date = "2031-05-02",
                             .stage = "membrane-exposed",
                             .q50 = 0.8 / 3600.0,
                             .leak_search = true,
                             .line = 11};
    tests[1] = tests[0];
    tests[1].date = "2031-04-01";
    tests[1].leak_search = false;
    evidence[0] = (bw_evidence_item){.kind = "photo",
                                     .of = "the membrane",
                                     .ref = "p-1.jpg",
                                     .part = {"film", 2, false},
                                     .date = "2031-05-01",
                                     .line = 5};
    evidence[1] = (bw_evidence_item){.kind = "photo",
                                     .of = "the sill",
                                     .ref = "",
                                     .part = {"", -1, false},
                                     .date = "",
                                     .line = 6};
    reading[0] = (bw_reading){.date = "2031-05-01",
                              .member = "stud",
                              .place = "bay 1",
                              .moisture = 0.24,
                              .depth = 0.0,
                              .line = 3};
    reading[1] = (bw_reading){.date = "2031-05-09",
                              .member = "stud",
                              .place = "bay 1",
                              .moisture = 0.16,
                              .depth = 0.02,
                              .line = 4};
    for (int i = 0; i < 2; i++)
        entry[i] = (bw_reading_entry){.reading = &reading[i],
                                      .counts = i == 1,
                                      .when = BW_READ_BEFORE_TEST};
    entry[0].decision = BW_READING_INSPECT;
    member = (bw_member_decision){.member = "stud",
                                  .reading_count = 1,
                                  .has_limit = true,
                                  .allowed = 0.18,
                                  .critical = 0.20,
                                  .highest = 0.16,
                                  .share_within = 1.0,
                                  .statistical_rule = true};
}

static void setup(void)
{
    report_wall_make(&wall);
    make_evidence();
    wall.assembly.closing_up = (bw_closing_up){.given = true,
                                               .air_test_count = 2,
                                               .air_test = tests,
                                               .evidence_count = 2,
                                               .evidence = evidence};
    for (size_t i = 0; i < WALL_SLABS; i++) {
        wall.material[i].sorption.source = wall.material[i].mu_curve.source =
            "";
        wall.material[i].water_absorption.source = "";
    }
    rules[0] = (bw_profile_rule){.criterion = "",
                                 .text = "a gap behind cladding",
                                 .source = "rule book 2030",
                                 .mark = "[K]"};
    rules[1] = rules[0];
    rules[1].decides = true;
    rules[1].text = "a rule that decides";
    profile = (bw_profile){.name = "demo-rules",
                           .title = "rules of nowhere",
                           .rule_count = 2,
                           .rule = rules};
    unknown = report_unknown();
    line = (bw_audit_unknown){&unknown, true, true};
    margin = (bw_margin){.assessment = &wall.assessment,
                         .map_note = "no layer can be replaced",
                         .worst_combination = BW_FAILS,
                         .worst_combination_text = "mu of board 60",
                         .worst_combination_reason = "annual-balance",
                         .worst_combination_fails = 1};
    file = (bw_input_file){.path = "w.xml", .sha256 = "abc123"};
    audit = (bw_audit){.assessment = &wall.assessment,
                       .margin = &margin,
                       .profile = &profile,
                       .command_line = "bothways audit w.xml",
                       .date = "2031-05-10",
                       .file_count = 1,
                       .file = &file,
                       .air_test = &tests[0],
                       .air_test_evidenced = true,
                       .air_test_text = "0.8 m3/(m2.h) with leak search",
                       .member_count = 1,
                       .member = &member,
                       .reading_count = 2,
                       .reading = entry,
                       .unknown_count = 1,
                       .unknown = &line};
}

static const char *text_of(int width)
{
    bw_report_options options = {.width = width};
    paper_clear(&sheet);
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, &audit, &options, paper_take, &sheet, NULL),
        BW_OK);
    return sheet.text;
}

/* The sheet with one blank for many: how far apart columns stand is not what
 * these tests are about. */
static const char *squeezed(void)
{
    char *to = sheet.text;
    for (const char *c = sheet.text; *c != '\0'; c++)
        if (c[0] != ' ' || c[1] != ' ')
            *to++ = *c;
    *to = '\0';
    return sheet.text;
}

static const bw_results results = {.audit = &audit};

static const char *table_of(void)
{
    paper_clear(&sheet);
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_AUDIT, paper_take, &sheet, NULL),
        BW_OK);
    return sheet.text;
}

/* ---- the sheet ------------------------------------------------------------
 */

static void nothing(void)
{
}

static void released(void)
{
    audit.released = true;
}

static void held(void)
{
    static const bw_open_item item = {BW_OPEN_AIR_TEST,
                                      "air tightness: no test"};
    audit.open = &item;
    audit.open_count = 1;
}

static void blank_sheet(void)
{
    audit.date = audit.command_line = "";
    wall.assembly.title = "";
}

static void facing(void)
{
    wall.assembly.outdoors.has_facing = true;
    wall.assembly.outdoors.azimuth = 225.0;
    wall.assembly.outdoors.tilt = 45.0;
}

static void simulated(void)
{
    report_simulate(&wall);
}

static void inside_the_method(void)
{
    wall.assessment.scope_count = 0;
}

static void climate_unknown(void)
{
    wall.climate.place = wall.climate.source = "";
}

static void climate_known(void)
{
    wall.climate.has_altitude = true;
    wall.climate.altitude = 640.0;
    wall.climate.humidity_reference = BW_OVER_ICE;
}

static void climate_over_water(void)
{
    wall.climate.humidity_reference = BW_OVER_WATER;
}

static void climate_of_hours(void)
{
    wall.climate.kind = BW_CLIMATE_HOURLY;
}

static void climate_generated(void)
{
    wall.climate.kind = BW_CLIMATE_SYNTHETIC;
}

static void wet_at_the_start(void)
{
    wall.layer[0].has_initial_moisture = true;
    wall.layer[0].initial_moisture = 0.22;
    wall.layer[1].has_initial_moisture = true;
    wall.layer[1].initial_moisture = 0.8;
    wall.layer[1].initial_is_rh = true;
}

static void leaks(void)
{
    wall.assembly.air_leakage = (bw_air_leakage){
        .given = true, .q50 = 2.0 / 3600.0, .connected_height = 5.0};
    wall.assembly.rain_leak = (bw_rain_leak){.given = true, .fraction = 0.015};
}

static void air_measured(void)
{
    leaks();
    wall.assembly.air_leakage.tested = true;
}

static void undesigned(void)
{
    wall.checked.run[BW_RUN_DESIGN].ran = false;
}

static void in_the_sun(void)
{
    wall.checked.has_sun = true;
    wall.checked.sun_boundary[0].theta_e = 31.5;
}

static void unsure_values(void)
{
    unsure = (bw_uncertain){"thickness", 0.02, 0.06};
    other = (bw_alternative){&wall.material[1], 0.02};
    wall.layer[0].uncertain = &unsure;
    wall.layer[0].uncertain_count = 1;
    wall.layer[0].alternative = &other;
    wall.layer[0].alternative_count = 1;
}

static void framed(void)
{
    wall.layer[1].framing = (bw_framing){
        .present = true, .fraction = 0.075, .material = &wall.material[0]};
}

static void layer_with_source(void)
{
    wall.layer[0].source = "leaflet of the board";
}

static void of_no_thickness(void)
{
    wall.layer[1].thickness = 0.0;
}

static void not_computed(void)
{
    audit.margin = NULL;
}

static void screening(void)
{
    margin.screening = true;
}

static void marginal_together(void)
{
    margin.worst_combination = BW_MARGINAL;
    margin.worst_combination_fails = 0;
    margin.worst_combination_reason = "";
}

static void unsure_only(void)
{
    line.assumed = line.decides = false;
    unknown.flip_fails = unknown.flip_changes_verdict = false;
}

static void unseen(void)
{
    unknown.seen = unknown.flips = false;
    unknown.note = "the steady methods know no rain";
}

static void flips_nothing(void)
{
    unknown.flips = false;
}

static void standard_case(void)
{
    unknown.kind = BW_UNKNOWN_STANDARD;
    line.assumed = false;
}

static void assumed_standard(void)
{
    unknown.kind = BW_UNKNOWN_STANDARD;
}

static void a_switch(void)
{
    unknown.continuous = false;
    unknown.unit = "";
    unknown.name = "cavity blocked";
}

static void a_switch_of_values(void)
{
    unknown.continuous = false;
    unknown.as_drawn = (double)NAN;
    unknown.flip_value = 60.0;
}

static void everywhere(void)
{
    unknown.as_drawn = (double)NAN;
    unknown.flips_all = true;
}

static void air_lacking(void)
{
    audit.air_test_evidenced = false;
    audit.air_test = NULL;
    audit.air_test_text = "no test with the membrane exposed";
    wall.assembly.closing_up.air_test_count = 0;
    wall.assembly.closing_up.evidence_count = 0;
}

static void no_members(void)
{
    audit.member_count = audit.reading_count = 0;
}

static void no_readings(void)
{
    audit.reading_count = member.reading_count = 0;
    member.decision = BW_READING_NOT_EVIDENCED;
}

static void no_limit(void)
{
    member.has_limit = false;
    member.decision = BW_READING_NOT_EVIDENCED;
}

static void rule_missed(void)
{
    member.statistical_rule = false;
    member.share_within = 0.5;
    member.decision = BW_READING_DRY_AND_READ;
}

static void on_the_day(void)
{
    entry[0].when = BW_READ_SAME_DAY;
    entry[1].when = BW_READ_AFTER_TEST;
}

static void without_test(void)
{
    entry[0].when = entry[1].when = BW_READ_NO_TEST;
}

/* ---- as read, as built, when dry ---- */

static void as_read(void)
{
    reading[1].as_read = reading[1].has_wood_temperature = true;
    reading[1].wood_temperature = 5.0;
    reading[1].shown = 0.15;
    reading[1].moisture = 0.170411;
    reading[1].meter = "pins";
    reading[1].by = "A. N. Other";
}

static void as_read_of_warm_wood(void)
{
    as_read();
    reading[1].wood_temperature = 35.0;
    reading[1].shown = reading[1].moisture = 0.18;
}

static void as_read_alone(void)
{
    as_read();
    reading[1].has_wood_temperature = false;
}

static void as_read_in_frost(void)
{
    as_read();
    reading[1].wood_temperature = -3.0;
}

static bw_as_built_change service_change;
static bw_as_built_row service_row;
static bw_criterion service_criterion;

static void in_service(void)
{
    service_change = (bw_as_built_change){"cavity blocked", "dirt", false};
    service_criterion = wall.assessment.criterion[0];
    service_criterion.has_value = true;
    service_criterion.value = 8.5;
    service_row = (bw_as_built_row){NULL, &service_criterion};
    audit.as_built = (bw_as_built){.change_count = 1,
                                   .change = &service_change,
                                   .assessment = &wall.assessment,
                                   .deciding = &wall.assessment,
                                   .row_count = 1,
                                   .row = &service_row};
}

/* In both; what does not decide fails. */
static void holds_in_service(bool decides)
{
    in_service();
    service_criterion.title = "Lone criterion";
    service_criterion.decides = decides;
    service_criterion.verdict = decides ? BW_HOLDS : BW_FAILS;
    service_row.drawn = &service_criterion;
}

static void holds_and_decides(void)
{
    holds_in_service(true);
}

static void fails_and_decides_nothing(void)
{
    holds_in_service(false);
}

static bw_drying_forecast drying;

static void wet_still(void)
{
    drying = (bw_drying_forecast){.member = "stud",
                                  .reading = &reading[1],
                                  .moisture = 0.19,
                                  .allowed = 0.18,
                                  .way_reason = {NULL, NULL, "no hours"},
                                  .days = {{3, 30, 62}, {0, 120, -1}}};
    audit.forecast = &drying;
    audit.forecast_count = 1;
}

static void dry_already(void)
{
    wet_still();
    drying.dry = true;
}

static void not_of_the_wall(void)
{
    wet_still();
    drying.reason = "it is no layer";
}

static const struct sentence_row {
    void (*change)(void);
    const char *says, *says_not;
} sentences[] = {
    {nothing, "Hold point before closing up: NOT released", "Released."},
    {released, "Hold point before closing up: released\n", "NOT released"},
    {released, "those who sign below", "- open,"},
    {held, "- open, air-test: air tightness: no test", "Released."},
    {nothing, "A demo wall (demo), a wall, in w.xml", "without title"},
    {blank_sheet, "Assembly without title (demo), a wall, in w.xml",
     "A demo wall"},
    {blank_sheet, "Command line none, made by a program",
     "audit"
     " w"},
    {blank_sheet, "Date of this sheet ____", "2031-05-10"},
    {nothing, "Facing not given\n", "north"},
    {facing, "225 degrees from north, clockwise; tilt 45 degrees",
     "Facing not given"},
    {nothing, "hour by hour (EN 15026:2007): not run for this wall",
     "run for this wall\n- "},
    {simulated, "hour by hour, which decides: the equations of EN 15026:2007, ",
     "not run"},
    {nothing, "This wall is OUTSIDE the limits of the monthly method",
     "inside the limits"},
    {inside_the_method, "This wall is inside the limits of the monthly",
     "OUTSIDE"},
    {nothing,
     "not counted for the verdict: a gap behind cladding (rule book 2030 [K])",
     "a rule that decides"},
    {climate_unknown, "Place not stated\n", "Estuary"},
    {climate_unknown, "Source and years not stated\n", "(null)"},
    {nothing, "Altitude not stated\n", "640"},
    {nothing, "monthly means", "hours of a year"},
    {climate_known, "Altitude 640 m\n", "not stated"},
    {climate_known, "Humidity below 0 degC over ice\n", "liquid water\n"},
    {climate_over_water, "Humidity below 0 degC over liquid water\n",
     "over ice\n"},
    {climate_of_hours, "measured or typical is not", "generated"},
    {climate_generated, "nobody measured them", "hours of a year"},
    {nothing, "Moisture at the start not given: the monthly method", "% RH\n"},
    {wet_at_the_start, "softboard: 22 % by mass", "not given: the monthly"},
    {wet_at_the_start, "hemp batt: 80 % RH", "(null)"},
    {nothing, "Air leakage none counted", "q50 ="},
    {leaks, "q50 = 2 m3/(m2.h), 5 m of connected height, not shown by a test",
     "measured\n"},
    {leaks, "Rain leak 1.5 % of the rain on the wall", "(null)"},
    {air_measured, "5 m of connected height, measured", "by a test\n  Driving"},
    {undesigned, "Drying test puts in 1 kg/m2", "Starting month"},
    {nothing, "Starting month Oct (whole)", "(null)"},
    {in_the_sun, "31.5\n", "(null)"},
    {unsure_values, "softboard: thickness is unsure, from 0.02 to 0.06 m\n",
     "(null)"},
    {unsure_values, "softboard: it may really be hemp batt", "(null)"},
    {framed, "7.5 % of area", "(null)"},
    {layer_with_source, "leaflet of the board", "(null)"},
    {of_no_thickness, "hemp batt", "90 mm"},
    {nothing, "sd by RH", "mu by RH"},
    {not_computed, "Not computed.", "Worst combination"},
    {nothing,
     "Worst combination: mu of board 60. There the wall would fail, 1 "
     "criterion fails; worst is annual-balance.",
     "criteria fail"},
    {screening, "There the wall would fail, 1 criterion fails;",
     "wall fails, 1"},
    {screening, "these flips are of the screening and prove nothing.",
     "(null)"},
    {marginal_together,
     "There the wall would hold, marginally, 0 criteria fail; closest is none "
     "with "
     "a number.",
     "; ."},
    {nothing, "The verdict rests on this, and nobody has looked.", "unsure "},
    {nothing, "annual-balance fails, and the verdict", "no longer"},
    {unsure_only, "annual-balance no longer fails\n", "nobody has looked."},
    {unseen, "not seen by the methods used", "nothing\n"},
    {unseen, "Note: the steady methods know no rain.", "23.5"},
    {flips_nothing, "nothing\n", "23.5"},
    {standard_case, "standard case", "nobody has looked."},
    {assumed_standard, "mu of board assumed", "standard case"},
    {a_switch, "off / on", "23.5"},
    {a_switch_of_values, "5 to 60 - 60 annual-balance fails", " on  annual"},
    {everywhere, "any value annual-balance fails", "23.5"},
    {nothing, "Evidenced: 0.8 m3/(m2.h) with leak search.", "Not sufficient"},
    {nothing, "2031-04-01 membrane-exposed 0.8 no 11",
     "2031-04-01 membrane-exposed 0.8 yes"},
    {nothing, "photo the membrane film 2031-05-01 p-1.jpg", "No photographs"},
    {nothing, "photo the sill - - no reference", "sill: \n"},
    {air_lacking, "Not sufficient: no test with the membrane exposed.",
     "Evidenced:"},
    {air_lacking, "No photographs or other evidence listed.", "p-1"},
    {no_members, "Not evidenced: no limit and no reading.", "90 % rule ("},
    {nothing, "stud, bay 1 was above critical on 2031-05-01: see", "(null)"},
    {as_read,
     "the meter showed 15 %; 17 % for the wood's temperature (Pfaff and "
     "Garrahan 1986, from memory); species not taken into account; meter: ",
     "NOT corrected"},
    {as_read_of_warm_wood,
     "the meter showed 18 %, which counts, though the wood's temperature makes "
     "it 16.5 %",
     "NOT corrected"},
    {as_read_alone,
     "15 % as the meter showed it, NOT corrected: the wood's temperature is "
     "not given",
     "Garrahan"},
    {as_read_in_frost, "NOT corrected: the formula is for wood of 0 to 50 degC",
     "Garrahan"},
    {nothing, "Not run.", "cavity blocked dirt"},
    {in_service, "cavity blocked dirt shown only", "Not run."},
    {in_service, "not judged 8500", "Keeps the hold point closed."},
    {holds_and_decides, "1 other criteria that decide holds in both.",
     "Lone criterion"},
    {fails_and_decides_nothing, "1 other criteria that decide holds in both.",
     "Lone criterion"},
    {nothing, "no member has a limit and a reading", "closed as drawn"},
    {wet_still, "stud: 19 % read on 2031-05-09, allowed 18 %", "nothing to "},
    {wet_still, "closed as drawn 4 weeks 2031-06-08 2031-05-12 2031-07-10",
     "nothing to"},
    {wet_still,
     "left open, unheated 3.9 months 2031-09-06 2031-05-09 not in a year",
     "nothing to"},
    {wet_still, "left open, heated not assessed - - -", "nothing to"},
    {dry_already, "nothing to forecast", "closed as drawn"},
    {not_of_the_wall, "Not assessed: it is no layer.", "closed as drawn"},
    {nothing, "before it", "after it"},
    {on_the_day, " same day earlier\n", " before it earlier"},
    {on_the_day, "after it", "there is none"},
    {without_test, "there is none", "after it"},
    {nothing, "16 18 20 100 met", "not met"},
    {no_readings, "0 - 18 20 - -", "0 100"},
    {no_limit, "16 - - - -", " met "},
    {rule_missed, "20 50 not met dry and read again", "  met  "},
};

START_TEST(the_sheet_says_what_is_so_and_not_its_opposite)
{
    const struct sentence_row *row = &sentences[_i];
    row->change();
    paper_fits(text_of(160), 160);
    const char *text = squeezed();
    HAS(text, row->says);
    HAS_NOT(text, row->says_not);
}
END_TEST

static const int widths[] = {-1, 0, 100, 200, 4000};

START_TEST(the_sheet_keeps_within_its_page)
{
    unsure_values();
    framed();
    facing();
    held();
    paper_fits(text_of(widths[_i]), widths[_i] > 100 ? 200 : 100);
}
END_TEST

START_TEST(quiet_is_what_is_signed_for)
{
    bw_report_options options = {.extent = BW_EXTENT_LEAST};
    paper_clear(&sheet);
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, &audit, &options, paper_take, &sheet, NULL),
        BW_OK);
    HAS(sheet.text, "NOT released");
    HAS_NOT(sheet.text, "Identity");
}
END_TEST

/* ---- the table ------------------------------------------------------------
 */

static const struct table_row {
    void (*change)(void);
    const char *line;
} rows[] = {
    {nothing, "\ndemo,member,stud,16,%,accept,1 reading; 90 % rule met\n"},
    {rule_missed, "\ndemo,member,stud,16,%,dry and read again,1 reading; 90 % "
                  "rule not met\n"},
    {no_readings,
     "\ndemo,member,stud,,%,not evidenced,0 readings; 90 % rule not applied\n"},
    {no_limit, "\ndemo,member,stud,16,%,not evidenced,1 reading; 90 % rule not "
               "applied\n"},
    {nothing, "\ndemo,reading,2031-05-01 stud: bay 1,24,%,\"inspect for damage,"
              " remedy, read again\",\"earlier, a later one counts\"\n"},
    {nothing, "\ndemo,air-test,2031-05-02,0.8,m3/(m2.h),evidenced,"},
    {air_lacking, "\ndemo,air-test,,,m3/(m2.h),not evidenced,no test"},
    {nothing, "\ndemo,unknown,mu of board,23.5,-,verdict flips,assumed; "
              "annual-balance\n"},
    {unsure_only, "\ndemo,unknown,mu of board,23.5,-,,annual-balance\n"},
    {flips_nothing, "\ndemo,unknown,mu of board,,-,verdict flips,assumed\n"},
    {everywhere, "\ndemo,unknown,mu of board,,-,verdict flips,assumed; "},
    {a_switch, "\ndemo,unknown,cavity blocked,,,verdict flips,assumed; "},
    {nothing, "\ndemo,test,2031-04-01,0.8,m3/(m2.h),,membrane-exposed; no leak "
              "search\n"},
    {nothing, "\ndemo,evidence,photo,p-1.jpg,,,the membrane; film; 2031-05-01"},
    {as_read, "counts; 20 mm deep; the meter showed 15 %; 17 %"},
    {in_service, "\ndemo,as-built-change,cavity blocked,,,shown,dirt\n"},
    {in_service, "\ndemo,as-built,changes that decide,,,"},
    {in_service, ",8.5,"},
    {wet_still, "\ndemo,forecast,stud: closed as drawn,30,d,forecast,\"from "
                "2031-05-09 on; earliest 3 d, latest 62 d\"\n"},
    {wet_still, "\ndemo,forecast,\"stud: left open, heated\",,d,not assessed,"
                "no hours\n"},
    {dry_already, "\ndemo,forecast,stud,0,d,dry,"},
    {released, "\ndemo,hold-point,before closing up,,,released,\n"},
    {held, "\ndemo,open,1,air-test,,open,air tightness: no test\n"},
};

START_TEST(the_table_has_the_same_facts)
{
    rows[_i].change();
    HAS(table_of(), rows[_i].line);
    paper_fits(sheet.text, 400);
}
END_TEST

START_TEST(what_cannot_be_written_is_an_error)
{
    bw_error err = {0};
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, &audit, NULL, paper_refuse, NULL, &err),
        BW_ERR_IO);
    HAS(err.message, "audit sheet");
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_AUDIT, paper_refuse, NULL, &err),
        BW_ERR_IO);
    HAS(err.message, "audit.csv");
}
END_TEST

SUITE_AROUND("audit_words", setup, NULL,
             EACH(the_sheet_says_what_is_so_and_not_its_opposite,
                  COUNT(sentences)),
             EACH(the_sheet_keeps_within_its_page, COUNT(widths)),
             FACT(quiet_is_what_is_signed_for),
             EACH(the_table_has_the_same_facts, COUNT(rows)),
             FACT(what_cannot_be_written_is_an_error))
