/* What the sheets of an audit say of evidence, of what is needed before work
 * starts, and of a house: each line is there for the fact it tells, with the
 * words of that fact, and is not there for its opposite. Everything is made up;
 * every number is its own. */

#include <math.h>
#include <stdio.h>

#include "flat_text.h"
#include "full_audit.h"

static bw_air_test tests[2];
static bw_reading readings[2];
static bw_reading_entry entries[2];
static bw_evidence_item shown[3];
static bw_wet_spell spells[2];
static bw_moisture_limit limits[1];
static bw_need needs[4];
static bw_open_item open_items[2];
static bw_input_file files[2];
static bw_house house;
static bw_house_wall house_walls[2];
static bw_assembly second;

static void fill_evidence(void)
{
    static const bw_wall_part board = {"board", 0, false};
    tests[0] = (bw_air_test){.date = "2031-04-01",
                             .stage = "membrane-exposed",
                             .q50 = 1.5 / 3600.0,
                             .has_uncertainty = true,
                             .uncertainty = 0.07,
                             .leak_search = true,
                             .by = "tester",
                             .ref = "p-17",
                             .source = ""};
    tests[1] = (bw_air_test){.date = "2031-04-09",
                             .stage = "finished",
                             .q50 = 2.25 / 3600.0,
                             .by = "",
                             .ref = "",
                             .source = ""};
    for (size_t i = 0; i < 2; i++) {
        readings[i] = (bw_reading){.date = i == 0 ? "2031-04-02" : "2031-04-12",
                                   .member = "board",
                                   .place = "left",
                                   .moisture = i == 0 ? 0.213 : 0.157,
                                   .shown = 0.15,
                                   .meter = "",
                                   .species = "",
                                   .by = "",
                                   .photograph = i == 0 ? "" : "IMG-4",
                                   .note = "",
                                   .source = ""};
        entries[i] = (bw_reading_entry){.reading = &readings[i],
                                        .counts = i == 1};
        shown[i] = (bw_evidence_item){.kind = "photograph",
                                      .of = "board",
                                      .ref = i == 0 ? "IMG-1" : "IMG-2",
                                      .part = board,
                                      .date = "2031-04-03"};
        spells[i] = (bw_wet_spell){.from = i == 0 ? "2031-03-04" : "2031-03-21",
                                   .to = i == 0 ? "2031-03-06" : "2031-03-22",
                                   .note = i == 0 ? "blown tarpaulin" : ""};
    }
    shown[1].part.framing = true;
    shown[2] = (bw_evidence_item){.kind = "photograph",
                                  .of = "batt",
                                  .ref = "IMG-3",
                                  .part = {"batt", 1, false},
                                  .date = ""};
    limits[0] = (bw_moisture_limit){.member = "board",
                                    .part = board,
                                    .allowed = 0.17,
                                    .critical = 0.19,
                                    .source = "maker"};
    wall.assembly.closing_up = (bw_closing_up){.given = true,
                                               .air_test_count = 2,
                                               .air_test = tests,
                                               .limit_count = 1,
                                               .limit = limits,
                                               .reading_count = 2,
                                               .reading = readings,
                                               .evidence_count = 3,
                                               .evidence = shown,
                                               .wet_spell_count = 2,
                                               .wet_spell = spells};
}

static bw_need need_of(bw_need_kind kind, long layer, bool required)
{
    return (bw_need){.kind = kind,
                     .part = {layer == 0 ? "board" : "", layer, false},
                     .of = layer == 0 ? "the board" : "the wall",
                     .what = "look at it",
                     .where = layer == 0 ? "at its foot" : "",
                     .why = "it may be wet",
                     .form = layer == 0 ? "<reading of=board>" : "<air-test>",
                     .required = required,
                     .lacks = "all of it"};
}

static void sheet_setup(void)
{
    full_setup();
    full_audit();
    fill_evidence();
    needs[0] = need_of(BW_NEED_READINGS, 0, true);
    needs[1] = need_of(BW_NEED_PHOTOGRAPH, 0, true);
    needs[1].lacks = "";
    needs[1].present = true;
    needs[2] = need_of(BW_NEED_AIR_TEST, -1, true);
    needs[3] = need_of(BW_NEED_LIMIT, 0, false);
    open_items[0] = (bw_open_item){BW_OPEN_VERDICT, "it fails so"};
    open_items[1] = (bw_open_item){BW_OPEN_STALE, "it is old"};
    audit.air_test = &tests[0];
    audit.air_test_text = "of 1 April";
    audit.reading_count = 2;
    audit.reading = entries;
    audit.need_count = 4;
    audit.need = needs;
    audit.open_count = 2;
    audit.open = open_items;
}

/* ---- before work starts --------------------------------------------------
 */

START_TEST(what_is_needed_stands_above_what_is_wanted)
{
    sheet_setup();
    audit.plan = true;
    print_flat(&wall.results, BW_DOCUMENT_PLAN, BW_EXTENT_FULL);
    says_if(true, "The board (part=\"board\") [ ] Look at it Where: at its "
                  "foot. Why: it may be wet. place ____");
    says_if(true, "reference ____________________ date __________ The wall [ ] "
                  "Look at it Why: it may be wet. q50 ______");
    const char *wanted = strstr(flat.text, "Wanted: not shown");
    ck_assert_ptr_nonnull(wanted);
    HAS(wanted, "The board (part=\"board\") [ ] Look at it Where: at its foot. "
                "Why: it may be wet. ");
    /* a limit has no line to fill in; each form stands once */
    HAS(wanted, "wet. 3 How the file says it");
    HAS(wanted, "- <reading of=board> - <air-test> Days on which");
    size_t places = 0;
    for (const char *at = flat.text; (at = strstr(at, "place ____")) != NULL;
         at++)
        places++;
    ck_assert_uint_eq(places, BW_PLACES_LEAST);
}
END_TEST

/* ---- the reviewer's sheet -------------------------------------------------
 */

START_TEST(evidence_is_told_as_it_was_given)
{
    sheet_setup();
    print_flat(&wall.results, BW_DOCUMENT_AUDIT, BW_EXTENT_FULL);
    says_if(true, "wet spell 2031-03-04 to 2031-03-06: blown tarpaulin");
    says_if(true, "wet spell 2031-03-21 to 2031-03-22 ");
    says_if(true, "Not sufficient: of 1 April.");
    says_if(true, "NOT released.");
    says_if(true, "open, verdict: it fails so");
    says_if(true, "open, stale: it is old");
    audit.released = audit.air_test_evidenced = true;
    print_flat(&wall.results, BW_DOCUMENT_AUDIT, BW_EXTENT_FULL);
    says_if(false, "NOT released.");
    says_if(true, "Released.");
    says_if(true, "Evidenced: of 1 April.");
}
END_TEST

static const char *const audit_rows[] = {
    "air-test,2031-04-01,1.5,m3/(m2.h),not evidenced,of 1 April",
    ("test,2031-04-01,1.5,m3/(m2.h),counts,membrane-exposed; leak search; q50 "
     "+- 7 %; tested by tester; protocol p-17"),
    "test,2031-04-09,2.25,m3/(m2.h),,finished; no leak search",
    "limit,board,17,%,,critical 19 %; part board; maker",
    "evidence,photograph,IMG-1,,,board; board; 2031-04-03",
    "evidence,photograph,IMG-3,,,batt; batt",
    "wet-spell,2031-03-04,2031-03-06,,,blown tarpaulin",
    "need,readings,board,,missing,all of it",
    "need,photograph,board,,present,look at it",
    "need,limit,board,,not shown,all of it",
    "open,1,verdict,,open,it fails so",
    "open,2,stale,,open,it is old",
    "hold-point,before closing up,,,not released,",
};

/* As a spreadsheet reads it, but for quotes, which no cell here holds. */
static const char *unquoted(void)
{
    char *to = sheet.text;
    for (const char *from = sheet.text; *from != '\0'; from++)
        if (*from != '"')
            *to++ = *from;
    *to = '\0';
    return sheet.text;
}

START_TEST(the_table_has_a_row_of_each_fact)
{
    sheet_setup();
    table_of(BW_TABLE_AUDIT);
    HAS(unquoted(), audit_rows[_i]);
}
END_TEST

START_TEST(a_plan_has_no_hold_point)
{
    sheet_setup();
    audit.plan = true;
    HAS_NOT(table_of(BW_TABLE_AUDIT), "hold-point");
}
END_TEST

/* Of a member what was read of it, and what shows that part of the wall: not
 * its framing, and no other layer. */
START_TEST(photographs_are_those_of_the_member)
{
    static bw_member_decision member;
    sheet_setup();
    member = (bw_member_decision){.member = "board",
                                  .part = {"board", 0, false},
                                  .reading_count = _i == 0 ? 1 : 2,
                                  .highest = 0.157,
                                  .decision = BW_READING_ACCEPT,
                                  .statistical_rule = _i == 0};
    audit.member_count = 1;
    audit.member = &member;
    table_of(BW_TABLE_AUDIT);
    HAS(unquoted(),
        _i == 0 ? "member,board,15.7,%,accept,1 reading; 90 % rule met; "
                  "photographs IMG-4; IMG-1\n"
                : "member,board,15.7,%,accept,2 readings; 90 % rule not met; "
                  "photographs IMG-4; IMG-1\n");
}
END_TEST

/* ---- when it will be dry ----------------------------------------------------
 */

/* Days after 12 April 2031, by the calendar (2032 is a leap year): in days up
 * to a fortnight, in weeks up to a quarter, in months of 365/12 days beyond;
 * where the words change is our own choice (regression values). */
static const struct dry_row {
    double days; /* below 0: not in a year */
    const char *after, *from;
} dry_rows[] = {
    {-1.0, "not in a year", "not in a year"},
    {0.0, "at once", "2031-04-12"},
    {1.0, "1 day", "2031-04-13"},
    {2.0, "2 days", "2031-04-14"},
    {13.0, "13 days", "2031-04-25"},
    {14.0, "2 weeks", "2031-04-26"},
    {21.0, "3 weeks", "2031-05-03"},
    {90.0, "13 weeks", "2031-07-11"},
    {91.0, "3.0 months", "2031-07-12"},
    {146.0, "4.8 months", "2031-09-05"},
    {364.0, "12.0 months", "2032-04-10"},
};

static void forecast_setup(bw_drying_forecast *f)
{
    sheet_setup();
    *f = (bw_drying_forecast){.member = "board",
                              .reading = &readings[1],
                              .moisture = 0.213,
                              .allowed = 0.17,
                              .way_reason = {NULL, NULL, "no hours there"}};
    audit.forecast_count = 1;
    audit.forecast = f;
}

START_TEST(a_member_dries_after_so_many_days)
{
    static bw_drying_forecast f;
    char line[256];
    const struct dry_row *row = &dry_rows[_i];
    forecast_setup(&f);
    f.days[BW_SITE_CLOSED][0] = 0.0;
    f.days[BW_SITE_CLOSED][1] = row->days;
    f.days[BW_SITE_CLOSED][2] = -1.0;
    print_flat(&wall.results, BW_DOCUMENT_AUDIT, BW_EXTENT_FULL);
    says_if(true, "board: 21.3 % read on 2031-04-12, allowed 17 %");
    snprintf(line, sizeof line,
             "closed as drawn %s %s 2031-04-12 not in a year", row->after,
             row->from);
    says_if(true, line);
    says_if(true, "left open, heated not assessed - - - no hours there");
}
END_TEST

/* Of the three runs the earliest and the latest, whichever they are of. */
START_TEST(a_forecast_has_the_ends_of_its_three_runs)
{
    static const struct {
        double days[3];
        const char *says;
    } rows[] = {
        {{5, 6, 7}, "6 days 2031-04-18 2031-04-17 2031-04-19"},
        {{7, 6, 5}, "6 days 2031-04-18 2031-04-17 2031-04-19"},
        {{7, 5, 6}, "5 days 2031-04-17 2031-04-17 2031-04-19"},
        {{5, 7, 6}, "7 days 2031-04-19 2031-04-17 2031-04-19"},
        {{5, -1, -1}, "not in a year not in a year 2031-04-17 not in a year"},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        static bw_drying_forecast f;
        forecast_setup(&f);
        memcpy(f.days[BW_SITE_OPEN], rows[i].days, sizeof rows[i].days);
        print_flat(&wall.results, BW_DOCUMENT_AUDIT, BW_EXTENT_FULL);
        char line[256];
        snprintf(line, sizeof line, "left open, unheated %s", rows[i].says);
        says_if(true, line);
    }
}
END_TEST

/* ---- a house ----------------------------------------------------------------
 */

static const bw_results of_house = {.house = &house};

static void house_setup(void)
{
    sheet_setup();
    second = wall.assembly;
    second.id = "second";
    second.title = "Second wall";
    second.file = "v.xml";
    files[0] = (bw_input_file){.path = "w.xml", .sha256 = "0123"};
    files[1] = (bw_input_file){.path = "v.xml", .sha256 = "4567"};
    house_walls[0] = (bw_house_wall){.assembly = &wall.assembly,
                                     .verdict = BW_FAILS,
                                     .verdict_reason = "too wet",
                                     .open_count = 2,
                                     .open = open_items,
                                     .file_count = 1,
                                     .file = files};
    house_walls[1] = (bw_house_wall){.assembly = &second,
                                     .verdict = BW_HOLDS,
                                     .verdict_reason = "dry enough",
                                     .released = true,
                                     .file_count = 1,
                                     .file = files + 1};
    house = (bw_house){.name = "The house",
                       .command_line = "",
                       .date = "2031-05-10",
                       .profile = &rules,
                       .wall_count = 2,
                       .wall = house_walls,
                       .released_count = 1,
                       .file_count = 2,
                       .file = files};
}

START_TEST(a_house_says_which_wall_is_open_and_why)
{
    house_setup();
    print_flat(&of_house, BW_DOCUMENT_HOUSE, BW_EXTENT_FULL);
    says_if(true, "Audit of a house: The house");
    says_if(true, "Hold point before closing up: NOT released");
    says_if(true, "1 of 2 walls released; the house is when all are");
    says_if(true, "A demo wall w.xml fails NOT released 2 ");
    says_if(true, "Second wall v.xml holds released 0 ");
    says_if(true, "A demo wall (w.xml) - it fails so - it is old");
    says_if(false, "Second wall (v.xml)");
    says_if(true, "Date of this sheet 2031-05-10");
    says_if(true, "Command line none, made by a program");
    says_if(true, "Rule set demo-rules: of nowhere");
    says_if(true, "Designer name ____");
    house.released = true;
    house.released_count = house.wall_count = 1;
    house.wall = house_walls + 1;
    house.date = "";
    house.command_line = "bothways audit";
    print_flat(&of_house, BW_DOCUMENT_HOUSE, BW_EXTENT_FULL);
    says_if(true, "Hold point before closing up: released");
    says_if(true, "1 of 1 wall released");
    says_if(true, "Command line bothways audit");
    says_if(false, "2031-05-10");
}
END_TEST

static const char *const house_rows[] = {
    "all,identity,date,2031-05-10,,,\n",
    "all,hold-point,before closing up,,,not released,\n",
    ("demo,identity,verdict,,,fails,too wet\ndemo,file,w.xml,0123,,,SHA-256\n"
     "demo,open,1,verdict,,open,it fails so\n"
     "demo,open,2,stale,,open,it is old\n"
     "demo,hold-point,before closing up,,,not released,\n"),
    ("second,identity,verdict,,,holds,dry enough\n"
     "second,file,v.xml,4567,,,SHA-256\n"
     "second,hold-point,before closing up,,,released,\n"),
};

START_TEST(the_table_of_a_house_goes_wall_by_wall)
{
    house_setup();
    wall.results = of_house;
    table_of(BW_TABLE_AUDIT);
    HAS(unquoted(), house_rows[_i]);
}
END_TEST

/* ---- several walls ----------------------------------------------------------
 */

START_TEST(each_wall_has_a_line)
{
    static bw_assessment dry;
    const bw_assessment *both[2] = {&wall.assessment, &dry};
    bw_results of = {.wall_count = 2, .wall = both};
    house_setup();
    dry = wall.assessment;
    dry.assembly = &second;
    dry.verdict = BW_HOLDS;
    dry.deciding = NULL;
    wall.assessment.deciding = &wall.criterion[0];
    print_flat(&of, BW_DOCUMENT_WALLS, BW_EXTENT_FULL);
    says_if(true, "2 walls ");
    says_if(
        true,
        "demo: fails; annual balance 0.432 kg/m2, limit: at most 0.1 kg/m2");
    says_if(true, "second: holds ");
    of.of_walls = 7;
    print_flat(&of, BW_DOCUMENT_WALLS, BW_EXTENT_FULL);
    says_if(true, "7 walls ");
    of.goes_on = true;
    print_flat(&of, BW_DOCUMENT_WALLS, BW_EXTENT_FULL);
    says_if(false, " walls ");
    wall.criterion[0].has_limit = false;
    print_flat(&of, BW_DOCUMENT_WALLS, BW_EXTENT_FULL);
    says_if(false, "annual balance");
}
END_TEST

/* A sheet that is sealed ends with its digest and the line's end. */
START_TEST(a_sealed_sheet_ends_with_its_digest)
{
    sheet_setup();
    paper_clear(&sheet);
    ck_assert_int_eq(
        audit_report(BW_FORM_TEXT, &audit, NULL, paper_take, &sheet, NULL),
        BW_OK);
    ck_assert_uint_gt(sheet.used, 65);
    const char *end = sheet.text + sheet.used - 65;
    ck_assert_uint_eq(strspn(end, "0123456789abcdef"), 64);
    ck_assert_int_eq(end[64], '\n');
}
END_TEST

SUITE("told_audit", FACT(what_is_needed_stands_above_what_is_wanted),
      FACT(evidence_is_told_as_it_was_given),
      EACH(the_table_has_a_row_of_each_fact, COUNT(audit_rows)),
      FACT(a_plan_has_no_hold_point),
      EACH(photographs_are_those_of_the_member, 2),
      EACH(a_member_dries_after_so_many_days, COUNT(dry_rows)),
      FACT(a_forecast_has_the_ends_of_its_three_runs),
      FACT(a_house_says_which_wall_is_open_and_why),
      EACH(the_table_of_a_house_goes_wall_by_wall, COUNT(house_rows)),
      FACT(each_wall_has_a_line), FACT(a_sealed_sheet_ends_with_its_digest))
