/* Attempts to have the hold point opened by knowing less, or by writing what
 * nobody has seen: each an edit of the demo wall that is released, each refused
 * for a reason that has a name. The reasons are the issue's own; none of the
 * figures is a measurement. */

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "bothways/bothways.h"
#include "suite.h"

#define WALLS BW_SOURCE_DIR "/assemblies/"
#define DAY "2024-05-10"

static char released_text[16384];
static bw_library *library;

/* The text with every `from` replaced, or where `to` is NULL every element that
 * begins so taken out. */
static void edit(char *text, size_t size, const char *from, const char *to)
{
    char out[16384];
    size_t used = 0, found = 0;
    for (const char *at = text; *at != '\0';) {
        if (strncmp(at, from, strlen(from)) != 0) {
            out[used++] = *at++;
            continue;
        }
        found++;
        ck_assert_uint_lt(used + 1024, sizeof out);
        if (to != NULL) {
            used += (size_t)sprintf(out + used, "%s", to);
            at += strlen(from);
        } else {
            at = strstr(at, "/>") + 2;
        }
    }
    out[used] = '\0';
    ck_assert_msg(found > 0, "'%s' is not in the wall", from);
    ck_assert_uint_lt(used, size);
    strcpy(text, out);
}

static void read_released(void)
{
    static const char *const folders[] = {BW_SOURCE_DIR "/materials"};
    FILE *file = fopen(WALLS "upland-closing-released.xml", "r");
    ck_assert_ptr_nonnull(file);
    const size_t length = fread(released_text, 1, sizeof released_text - 1,
                                file);
    fclose(file);
    released_text[length] = '\0';
    edit(released_text, sizeof released_text, "climates/upland.csv",
         WALLS "climates/upland.csv");
    ck_assert_int_eq(bw_library_read(&library, folders, 1, NULL), BW_OK);
}

static void free_released(void)
{
    bw_library_free(library);
}

typedef struct sheet {
    bw_assembly *assembly;
    bw_climate *climate;
    bw_audit *audit;
} sheet;

static const char file_name[] = "./cheats-test.xml";

static void put(const char *text)
{
    FILE *file = fopen(file_name, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
}

static void audit_text(sheet *s, const char *text, const char *date,
                       bool simulate)
{
    bw_error err = {0};
    put(text);
    bw_status status = bw_assembly_read(&s->assembly, file_name, library, &err);
    ck_assert_msg(status == BW_OK, "%ld: %s", err.line, err.message);
    ck_assert_int_eq(
        bw_climate_read(&s->climate, s->assembly->outdoors.climate_path, &err),
        BW_OK);
    const bw_audit_options options = {.assessment = {.synthetic_hours = true,
                                                     .no_advice = true,
                                                     .no_transient = !simulate},
                                      .date = date};
    status = bw_audit_make(&s->audit, s->assembly, s->climate, &options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    unlink(file_name);
}

static void free_sheet(sheet *s)
{
    bw_audit_free(s->audit);
    bw_climate_free(s->climate);
    bw_assembly_free(s->assembly);
}

/* Reasons besides that nothing was simulated, so that nothing is assessed. */
static size_t reasons(const bw_audit *audit)
{
    size_t count = 0;
    for (size_t i = 0; i < audit->open_count; i++)
        count += audit->open[i].id != BW_OPEN_NOT_SIMULATED &&
                 audit->open[i].id != BW_OPEN_VERDICT;
    return count;
}

static bool has_reason(const bw_audit *audit, bw_open_id id)
{
    for (size_t i = 0; i < audit->open_count; i++)
        if (audit->open[i].id == id)
            return true;
    return false;
}

/* A sheet takes a dozen simulations; under a sanitizer the suite `audit` makes
 * one, and the cheats that only a simulation sees are read and judged by
 * months. */
static const bool simulates = SANITIZED_FEWER(true, false);

START_TEST(the_wall_that_is_edited_is_released_as_it_stands)
{
    sheet s;
    audit_text(&s, released_text, DAY, simulates);
    for (size_t i = 0; simulates && i < s.audit->open_count; i++)
        ck_abort_msg("%s", s.audit->open[i].text);
    ck_assert_uint_eq(reasons(s.audit), 0);
    ck_assert_int_eq(s.audit->released, simulates);
    free_sheet(&s);
}
END_TEST

START_TEST(without_a_simulation_it_is_not)
{
    sheet s;
    audit_text(&s, released_text, DAY, false);
    ck_assert(!s.audit->released);
    ck_assert(has_reason(s.audit, BW_OPEN_NOT_SIMULATED));
    ck_assert_uint_eq(reasons(s.audit), 0);
    free_sheet(&s);
}
END_TEST

#define END "  </closing-up>"
#define MORE(element) END, element "\n" END
#define TEST(day, stage, q50)                                                  \
    "<air-test date=\"2024-" day "\" stage=\"" stage "\" q50=\"" q50           \
    " m3/(m2.h)\" leak-search=\"yes\" by=\"T. K.\" ref=\"invented-9\"/>"
#define PINS                                                                   \
    "meter=\"pins\" wood-temperature=\"9 degC\" species=\"spruce\" "           \
    "by=\"M. R.\"/>"
#define READ(day, member, place, moisture)                                     \
    "<reading date=\"2024-" day "\" member=\"" member "\" place=\"" place      \
    "\" moisture=\"" moisture " %\" depth=\"20 mm\" " PINS
#define CAVITY "of=\"cavity clear at foot and head\" part=\"cavity\" "
#define EDGE "member=\"sheathing\" place=\"west bay 6, edge at the foot\" "

static const struct cheat {
    const char *name;
    struct {
        const char *from, *to; /* to NULL: the element goes */
    } edit[4];
    bw_open_id id;
    bool simulate;
    const char *date; /* NULL: DAY */
} cheats[] = {
    /* air */
    {"the assumed leakage deleted, and a test of 50",
     {{"<air-leakage", NULL}, {"q50=\"0.7 ", "q50=\"50 "}},
     BW_OPEN_VERDICT,
     true,
     NULL},
    {"the assumed leakage raised above a test of 50",
     {{"q50=\"1 m3", "q50=\"60 m3"}, {"q50=\"0.7 ", "q50=\"50 "}},
     BW_OPEN_VERDICT,
     true,
     NULL},
    {"a test leakier than assumed",
     {{"q50=\"0.7 ", "q50=\"1.1 "}},
     BW_OPEN_AIR_TEST,
     false,
     NULL},
    {"no search for leaks",
     {{"leak-search=\"yes\"", ""}},
     BW_OPEN_AIR_TEST,
     false,
     NULL},
    {"the finished building tested instead",
     {{"membrane-exposed", "finished"}},
     BW_OPEN_AIR_TEST,
     false,
     NULL},
    {"no test at all", {{"<air-test", NULL}}, BW_OPEN_AIR_TEST, false, NULL},
    {"a test that found nothing",
     {{"q50=\"0.7 ", "q50=\"0 "}},
     BW_OPEN_AIR_IMPOSSIBLE,
     false,
     NULL},
    {"a test without protocol",
     {{"ref=\"invented-protocol-7\"", ""}},
     BW_OPEN_AIR_UNATTRIBUTED,
     false,
     NULL},
    {"a test that nobody made",
     {{"by=\"T. K., tester\"", ""}},
     BW_OPEN_AIR_UNATTRIBUTED,
     false,
     NULL},
    {"a later test worse than an earlier one",
     {{MORE(TEST("05-08", "membrane-exposed", "0.9"))}},
     BW_OPEN_AIR_WORSE,
     false,
     NULL},
    {"a later test of the finished building, worse",
     {{MORE(TEST("05-08", "finished", "0.9"))}},
     BW_OPEN_AIR_WORSE,
     false,
     NULL},
    {"two tests on one day, the good one last in the file",
     {{"    <air-test", TEST("05-06", "membrane-exposed", "3") "<air-test"}},
     BW_OPEN_AIR_TEST,
     false,
     NULL},
    {"two tests on one day that do not say the same",
     {{MORE(TEST("05-06", "membrane-exposed", "0.8"))}},
     BW_OPEN_CONTRADICTION,
     false,
     NULL},
    {"a test of next month",
     {{"<air-test date=\"2024-05-06\"", "<air-test date=\"2024-06-06\""}},
     BW_OPEN_AHEAD,
     false,
     NULL},
    {"a test of 1901",
     {{"<air-test date=\"2024-05-06\"", "<air-test date=\"1901-05-06\""}},
     BW_OPEN_STALE,
     false,
     NULL},
    {"the leakage called measured, and no test",
     {{"evidence=\"declared\"", "evidence=\"measured\""}, {"<air-test", NULL}},
     BW_OPEN_MEASURED,
     false,
     NULL},
    /* layers */
    {"a layer called measured, without source",
     {{"id=\"sheathing\"", "id=\"sheathing\" evidence=\"measured\""}},
     BW_OPEN_MEASURED,
     false,
     NULL},
    {"an assumed layer whose range was deleted",
     {{"id=\"sheathing\"", "id=\"sheathing\" evidence=\"assumed\""},
      {"<evidence kind=\"delivery note\" of=\"sheathing board\"", NULL}},
     BW_OPEN_UNKNOWN,
     false,
     NULL},
    {"a value of one's own, and nothing that shows it",
     {{"material=\"membrane-sd-5m\"", "material=\"membrane-sd-5m\" sd=\"6 m\" "
                                      "evidence=\"declared\" source=\"sheet\""},
      {"<evidence kind=\"label\"", NULL}},
     BW_OPEN_UNKNOWN,
     false,
     NULL},
    {"a value of one's own in a range of nothing",
     {{"material=\"membrane-sd-5m\"/>",
       "material=\"membrane-sd-5m\" sd=\"6 m\" evidence=\"declared\" "
       "source=\"sheet\"><uncertain property=\"sd\" low=\"5.9 m\" "
       "high=\"6.1 m\"/></membrane>"},
      {"<evidence kind=\"label\"", NULL}},
     BW_OPEN_UNKNOWN,
     false,
     NULL},
    {"a conductivity of one's own, and nothing that shows it",
     {{"material=\"stone-wool-batt\"",
       "material=\"stone-wool-batt\" lambda=\"0.036 W/(m.K)\" "
       "evidence=\"declared\" source=\"sheet\""},
      {"<evidence kind=\"delivery note\" of=\"stone wool\"", NULL}},
     BW_OPEN_UNKNOWN,
     false,
     NULL},
    {"a tighter board within its range, and nothing that shows which",
     {{"material=\"mdf-vapour-open\"", "material=\"osb-sheathing\""},
      {"<evidence kind=\"delivery note\" of=\"sheathing board\"", NULL}},
     BW_OPEN_ASSUMED,
     false,
     NULL},
    {"a cavity that is none",
     {{"ventilation=\"well\" air-change=\"100 1/h\"", "ventilation=\"none\""}},
     BW_OPEN_VERDICT,
     true,
     NULL},
    /* time */
    {"readings of next month",
     {{"<reading date=\"2024-05-07\"", "<reading date=\"2024-06-07\""}},
     BW_OPEN_AHEAD,
     false,
     NULL},
    {"readings of 1901",
     {{"<reading date=\"2024-05-07\"", "<reading date=\"1901-05-07\""}},
     BW_OPEN_STALE,
     false,
     NULL},
    {"readings fifteen days old",
     {{"", ""}},
     BW_OPEN_STALE,
     false,
     "2024-05-22"},
    {"a test ninety-one days old",
     {{"", ""}},
     BW_OPEN_STALE,
     false,
     "2024-08-05"},
    {"the wall wet again after its readings",
     {{MORE("<wet-spell from=\"2024-05-08\" to=\"2024-05-09\"/>")}},
     BW_OPEN_BEFORE_WETTING,
     false,
     NULL},
    {"a wet spell that is not over",
     {{MORE("<wet-spell from=\"2024-05-08\" to=\"2024-05-12\"/>")}},
     BW_OPEN_AHEAD,
     false,
     NULL},
    {"a photograph of next month",
     {{CAVITY "date=\"2024-05-06\"", CAVITY "date=\"2024-06-06\""}},
     BW_OPEN_AHEAD,
     false,
     NULL},
    {"a sheet without a date", {{"", ""}}, BW_OPEN_NO_DATE, false, ""},
    {"wet again after the test",
     {{MORE("<wet-spell from=\"2024-05-06\" to=\"2024-05-06\"/>")}},
     BW_OPEN_BEFORE_WETTING,
     false,
     NULL},
    {"wet again after the photograph of the cavity",
     {{MORE("<wet-spell from=\"2024-05-06\" to=\"2024-05-06\"/>")}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"a delivery note of twenty years ago",
     {{"2024-03-18\" ref=\"invented-n-12", "2004-03-18\" ref=\"invented-n-12"}},
     BW_OPEN_STALE,
     false,
     NULL},
    {"a membrane that came after its test",
     {{"part=\"retarder\" date=\"2024-05-02\"",
       "part=\"retarder\" date=\"2024-05-08\""}},
     BW_OPEN_CONTRADICTION,
     false,
     NULL},
    {"joints photographed after the test only",
     {{"part=\"retarder\" date=\"2024-05-06\"",
       "part=\"retarder\" date=\"2024-05-08\""}},
     BW_OPEN_CONTRADICTION,
     false,
     NULL},
    /* limits */
    {"limits of 90 and 99 %",
     {{"allowed=\"18 %\" critical=\"20 %\"",
       "allowed=\"90 %\" critical=\"99 %\""}},
     BW_OPEN_LIMIT_LOOSER,
     false,
     NULL},
    {"limits of 100 and 100 %",
     {{"allowed=\"18 %\" critical=\"20 %\"",
       "allowed=\"100 %\" critical=\"100 %\""}},
     BW_OPEN_LIMIT_LOOSER,
     false,
     NULL},
    {"limits raised above a wet stud",
     {{"allowed=\"18 %\" critical=\"20 %\"",
       "allowed=\"25 %\" critical=\"30 %\""},
      {"moisture=\"15.5 %\"", "moisture=\"24 %\""}},
     BW_OPEN_INSPECT,
     false,
     NULL},
    {"a limit deleted together with its readings",
     {{"<moisture-limit member=\"sheathing\"", NULL},
      {"sheathing\" place=\"west bay 6", "stud\" place=\"s6"},
      {"sheathing\" place=\"west bay 2", "stud\" place=\"s2"},
      {"sheathing\" place=\"north", "stud\" place=\"n"}},
     BW_OPEN_NEED_LIMIT,
     false,
     NULL},
    {"a member called a part that has no limit of its own",
     {{"member=\"sole plate\" part=\"stud-bay.framing\" allowed=\"18 %\" "
       "critical=\"20 %\"",
       "member=\"sole plate\" part=\"lining\" allowed=\"90 %\" critical=\"99 "
       "%\""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    /* members */
    {"one invented member as the only one",
     {{"<moisture-limit", NULL},
      {"<reading", NULL},
      {MORE("<moisture-limit member=\"shed\" allowed=\"18 %\" critical=\"20 "
            "%\"/>" READ("05-07", "shed", "door", "12"))}},
     BW_OPEN_MEMBER,
     false,
     NULL},
    {"members that are no layer and no framing",
     {{" part=\"stud-bay.framing\" allowed", " allowed"}},
     BW_OPEN_MEMBER,
     false,
     NULL},
    {"nothing read at all",
     {{"<moisture-limit", NULL}, {"<reading", NULL}},
     BW_OPEN_NO_MEMBER,
     false,
     NULL},
    {"readings deleted",
     {{"<reading", NULL}},
     BW_OPEN_NOT_EVIDENCED,
     false,
     NULL},
    {"a wet stud called the filling between the studs",
     {{MORE("<moisture-limit member=\"bay\" part=\"stud-bay\" allowed=\"24 "
            "%\" critical=\"24 %\"/>" READ("05-07", "bay", "west", "24"))}},
     BW_OPEN_MEMBER,
     false,
     NULL},
    {"limits of the filling between the studs, which was read as wood",
     {{MORE("<moisture-limit member=\"bay\" part=\"stud-bay\" allowed=\"24 "
            "%\" critical=\"24 %\"/>" READ("05-07", "bay", "west", "24"))}},
     BW_OPEN_INSPECT,
     false,
     NULL},
    {"wood read as the plasterboard",
     {{MORE("<moisture-limit member=\"bay\" part=\"lining\" allowed=\"24 "
            "%\" critical=\"24 %\"/>" READ("05-07", "bay", "west", "24"))}},
     BW_OPEN_INSPECT,
     false,
     NULL},
    /* readings */
    {"a reading of 0 %",
     {{"moisture=\"17.0 %\"", "moisture=\"0 %\""}},
     BW_OPEN_READING_IMPOSSIBLE,
     false,
     NULL},
    {"a reading drier than a meter tells",
     {{"moisture=\"17.0 %\"", "moisture=\"5.9 %\""}},
     BW_OPEN_READING_IMPOSSIBLE,
     false,
     NULL},
    {"a depth of 1 m in a 45 mm stud",
     {{"depth=\"20 mm\"", "depth=\"1 m\""}},
     BW_OPEN_DEPTH,
     false,
     NULL},
    {"a depth just beyond a 45 mm stud",
     {{"depth=\"20 mm\"", "depth=\"46 mm\""}},
     BW_OPEN_DEPTH,
     false,
     NULL},
    {"the skin read instead of the core",
     {{"depth=\"20 mm\"", "depth=\"13 mm\""},
      {"depth=\"25 mm\"", "depth=\"13 mm\""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    {"readings without a depth",
     {{"depth=\"20 mm\"", ""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    {"a wet plate read again less deep",
     {{"depth=\"25 mm\"", "depth=\"15 mm\""}},
     BW_OPEN_INSPECT,
     false,
     NULL},
    {"a wet plate read again somewhere else",
     {{"place=\"west bay 6\" moisture=\"17.0 %\"",
       "place=\"west bay 7\" moisture=\"17.0 %\""}},
     BW_OPEN_INSPECT,
     false,
     NULL},
    {"no meter",
     {{"meter=\"pins, set to spruce\"", ""}},
     BW_OPEN_UNATTRIBUTED,
     false,
     NULL},
    {"nobody who read",
     {{"by=\"M. R., site\"", ""}},
     BW_OPEN_UNATTRIBUTED,
     false,
     NULL},
    {"what the meter showed, and nothing to correct it by",
     {{"wood-temperature=\"14 degC\"", "as-read=\"yes\""}},
     BW_OPEN_RAW,
     false,
     NULL},
    {"35 % one day and 9 % the next",
     {{MORE(READ("05-08", "stud", "west bay 9, foot", "35")
                READ("05-09", "stud", "west bay 9, foot", "9"))}},
     BW_OPEN_JUMP,
     false,
     NULL},
    {"two readings of one place and day",
     {{MORE(READ("05-07", "stud", "west bay 6, foot", "9"))}},
     BW_OPEN_CONTRADICTION,
     false,
     NULL},
    {"the wet one of a day listed first",
     {{MORE(READ("05-09", "stud", "west bay 6, foot", "19")
                READ("05-09", "stud", "west bay 6, foot", "12"))}},
     BW_OPEN_WET,
     false,
     NULL},
    {"two places for three",
     {{"    <reading date=\"2024-05-07\" " EDGE, NULL}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    {"one place read three times",
     {{"place=\"west bay 6, edge at the foot\"", "place=\"door\""},
      {"place=\"west bay 2, joint\"", "place=\"door\""},
      {"place=\"north bay 3, below the window\"", "place=\"door\""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    /* what shows it */
    {"no photograph of the air barrier's joints",
     {{"<evidence kind=\"photograph\" of=\"taped", NULL}},
     BW_OPEN_NEED_BARRIER,
     false,
     NULL},
    {"no photograph of the cavity",
     {{"<evidence kind=\"photograph\" " CAVITY, NULL}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"no photograph of a member that was read",
     {{"photograph=\"invented-044\"", ""},
      {"photograph=\"invented-045\"", ""},
      {"photograph=\"invented-046\"", ""}},
     BW_OPEN_NEED_PHOTOGRAPH,
     false,
     NULL},
    {"no look at what was too wet",
     {{"<evidence kind=\"photograph\" of=\"sole plate", NULL}},
     BW_OPEN_NEED_INSPECTION,
     false,
     NULL},
    {"damage looked for before the plate was wet",
     {{"part=\"stud-bay.framing\" date=\"2024-05-07\"",
       "part=\"stud-bay.framing\" date=\"2024-04-10\""}},
     BW_OPEN_NEED_INSPECTION,
     false,
     NULL},
    {"an empty reference",
     {{"ref=\"invented-054\"", "ref=\"\""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"one photograph for two things",
     {{"ref=\"invented-054\"", "ref=\"invented-053\""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"the photograph of a reading shown for the cavity",
     {{"ref=\"invented-054\"", "ref=\"invented-041\""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"a photograph without a day",
     {{CAVITY "date=\"2024-05-06\" ", CAVITY}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"somebody's word for the cavity",
     {{"kind=\"photograph\" " CAVITY, "kind=\"word\" " CAVITY}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"a photograph of nothing in particular",
     {{CAVITY, "of=\"cavity clear\" "}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"a kind that is no photograph",
     {{"kind=\"photograph\" " CAVITY, "kind=\"photographs missing\" " CAVITY}},
     BW_OPEN_NEED_CAVITY,
     false,
     NULL},
    {"a kind that shows no layer, of a board that the next site had",
     {{"material=\"mdf-vapour-open\"", "material=\"osb-sheathing\""},
      {"kind=\"delivery note\" of=\"sheathing board\"",
       "kind=\"no delivery note\" of=\"sheathing board\""}},
     BW_OPEN_ASSUMED,
     false,
     NULL},
    {"a reference of blanks that no one sees",
     {{"ref=\"invented-054\"", "ref=\"\xc2\xa0\xe2\x80\x8b \""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"a reader called tbd",
     {{"by=\"M. R., site\"", "by=\" TBD \""}},
     BW_OPEN_UNATTRIBUTED,
     false,
     NULL},
    {"a protocol called n/a",
     {{"ref=\"invented-protocol-7\"", "ref=\"N/A\""}},
     BW_OPEN_AIR_UNATTRIBUTED,
     false,
     NULL},
    {"one place in three spellings",
     {{"place=\"west bay 6, edge at the foot\"", "place=\"Door\""},
      {"place=\"west bay 2, joint\"", "place=\" door\xc2\xa0\""},
      {"place=\"north bay 3, below the window\"", "place=\"do\xe2\x80\x8b"
                                                  "or\""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    {"one place under the names of two members",
     {{"member=\"sole plate\" place=\"west bay 6\"",
       "member=\"sole plate\" place=\"West bay 6,  foot\""}},
     BW_OPEN_NEED_READINGS,
     false,
     NULL},
    {"one photograph in two spellings",
     {{"ref=\"invented-054\"", "ref=\"Invented-053 \""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"the protocol of the air test shown for the cavity",
     {{"ref=\"invented-054\"", "ref=\"invented-protocol-7\""}},
     BW_OPEN_REFERENCE,
     false,
     NULL},
    {"no record at all",
     {{"<closing-up>", "<closing-up/><!--"}, {"</closing-up>", "-->"}},
     BW_OPEN_NO_MEMBER,
     false,
     NULL},
};

START_TEST(each_attempt_is_refused_by_name)
{
    const struct cheat *c = &cheats[_i];
    char text[sizeof released_text];
    sheet s;
    strcpy(text, released_text);
    for (size_t i = 0; i < 4 && c->edit[i].from != NULL; i++)
        if (c->edit[i].from[0] != '\0')
            edit(text, sizeof text, c->edit[i].from, c->edit[i].to);
    audit_text(&s, text, c->date != NULL ? c->date : DAY,
               c->simulate && simulates);
    ck_assert_msg(!s.audit->released, "%s", c->name);
    if (!has_reason(s.audit, c->id)) {
        for (size_t i = 0; i < s.audit->open_count; i++)
            printf("%s: %s\n", bw_open_id_text(s.audit->open[i].id),
                   s.audit->open[i].text);
        ck_abort_msg("%s: not for %s", c->name, bw_open_id_text(c->id));
    }
    free_sheet(&s);
}
END_TEST

/* Every id read a second time, from another folder of the list. */
START_TEST(a_material_in_the_place_of_a_shipped_one_is_named)
{
    static const char *const folders[] = {BW_SOURCE_DIR "/materials",
                                          BW_SOURCE_DIR "/materials"};
    bw_library *const shipped = library;
    sheet s;
    ck_assert_int_eq(bw_library_read(&library, folders, 2, NULL), BW_OK);
    audit_text(&s, released_text, DAY, false);
    ck_assert(has_reason(s.audit, BW_OPEN_CHANGED));
    free_sheet(&s);
    bw_library_free(library);
    library = shipped;
}
END_TEST

/* What may go, and why it may: all else of the record keeps it shut. */
static bool may_go(const char *element)
{
    static const char *const words[] = {
        "delivery note", "label", /* then the library's range is taken */
        "<wet-spell",             /* who leaves it out says it did not rain */
        "date=\"2024-04-11\"",    /* an old reading, superseded */
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strstr(element, words[i]) != NULL)
            return true;
    return false;
}

/* Whether the wall of that text is refused, as it is read or by its sheet. */
static bool is_refused(const char *text)
{
    bw_assembly *assembly = NULL;
    sheet s;
    put(text);
    const bw_status status = bw_assembly_read(&assembly, file_name, library,
                                              NULL);
    bw_assembly_free(assembly);
    if (status != BW_OK)
        return true;
    audit_text(&s, text, DAY, false);
    const bool refused = reasons(s.audit) > 0;
    free_sheet(&s);
    return refused;
}

START_TEST(each_element_of_the_record_is_needed_or_known_to_be_spare)
{
    const char *at = strstr(released_text, "<closing-up>");
    size_t count = 0;
    for (at = strchr(at + 1, '<'); at[1] != '/'; at = strchr(at + 1, '<')) {
        char text[sizeof released_text], element[1024];
        const char *end = strstr(at, "/>") + 2;
        snprintf(element, sizeof element, "%.*s", (int)(end - at), at);
        snprintf(text, sizeof text, "%.*s%s", (int)(at - released_text),
                 released_text, end);
        ck_assert_msg(is_refused(text) != may_go(element), "%s", element);
        count++;
    }
    ck_assert_uint_ge(count, 20);
    unlink(file_name);
}
END_TEST

START_TEST(every_id_has_a_word_of_its_own)
{
    for (int i = 0; i < BW_OPEN_COUNT; i++) {
        const char *word = bw_open_id_text((bw_open_id)i);
        ck_assert_str_ne(word, "");
        for (int k = 0; k < i; k++)
            ck_assert_str_ne(word, bw_open_id_text((bw_open_id)k));
    }
    ck_assert_str_eq(bw_open_id_text(BW_OPEN_COUNT), "");
}
END_TEST

/* ---- the leak that is computed ------------------------------------------- */

START_TEST(a_test_is_computed_with_its_uncertainty_where_that_is_more)
{
    static const struct {
        const char *from, *to;
        double q50; /* m3/(m2 h) that is computed with; worked by hand */
        bool by_test;
    } rows[] = {
        {"q50=\"1 m3", "q50=\"1 m3", 1.0, false},
        {"q50=\"1 m3", "q50=\"0.75 m3", 0.7 * 1.12, true},
        {"<air-leakage", NULL, 0.7 * 1.12, true},
        {" uncertainty=\"12 %\"", "", 1.0, false},
        {"uncertainty=\"12 %\"", "uncertainty=\"50 %\"", 0.7 * 1.5, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char text[sizeof released_text];
        sheet s;
        strcpy(text, released_text);
        edit(text, sizeof text, rows[i].from, rows[i].to);
        audit_text(&s, text, DAY, false);
        const bw_air_leakage *air = &s.audit->assessment->assembly->air_leakage;
        ck_assert(air->given);
        ck_assert_double_eq_tol(air->q50 * 3600.0, rows[i].q50, 1e-9);
        ck_assert_double_eq_tol(
            air->connected_height,
            strcmp(rows[i].from, "<air-leakage") == 0 ? 10.0 : 5.0, 1e-12);
        ck_assert_int_eq(s.audit->computed_q50 > 0.0, rows[i].by_test);
        ck_assert_int_eq(strstr(s.audit->air_test_text, "; computed with ") !=
                             NULL,
                         rows[i].by_test);
        ck_assert_uint_eq(reasons(s.audit), 0);
        free_sheet(&s);
    }
}
END_TEST

/* ---- what is needed ------------------------------------------------------ */

START_TEST(a_date_that_is_no_day_is_refused)
{
    sheet s;
    bw_audit *audit = NULL;
    bw_error err = {0};
    const bw_audit_options options = {.date = "2024-02-30"};
    audit_text(&s, released_text, DAY, false);
    ck_assert_int_eq(
        bw_audit_make(&audit, s.assembly, s.climate, &options, &err),
        BW_ERR_INPUT);
    ck_assert_ptr_nonnull(strstr(err.message, "\"2024-02-30\", is no day"));
    free_sheet(&s);
}
END_TEST

START_TEST(a_plan_needs_no_evidence_and_lists_what_the_hold_point_asks)
{
    sheet before, after;
    char text[sizeof released_text];
    strcpy(text, released_text);
    edit(text, sizeof text, "<closing-up>", "<!--");
    edit(text, sizeof text, "</closing-up>", "-->");
    audit_text(&before, text, DAY, false);
    audit_text(&after, released_text, DAY, false);
    /* of what was found wet there is one more */
    ck_assert_uint_eq(before.audit->need_count + 1, after.audit->need_count);
    for (size_t i = 0; i < before.audit->need_count; i++)
        ck_assert(!before.audit->need[i].present &&
                  before.audit->need[i].lacks[0] != '\0');
    for (size_t i = 0; i < after.audit->need_count; i++)
        ck_assert(after.audit->need[i].present);
    free_sheet(&before);
    free_sheet(&after);
}
END_TEST

SUITE_AROUND("cheats", read_released, free_released,
             FACT(the_wall_that_is_edited_is_released_as_it_stands),
             FACT(without_a_simulation_it_is_not),
             EACH(each_attempt_is_refused_by_name,
                  sizeof cheats / sizeof cheats[0]),
             FACT(a_material_in_the_place_of_a_shipped_one_is_named),
             FACT(each_element_of_the_record_is_needed_or_known_to_be_spare),
             FACT(every_id_has_a_word_of_its_own),
             FACT(a_test_is_computed_with_its_uncertainty_where_that_is_more),
             FACT(a_date_that_is_no_day_is_refused),
             FACT(a_plan_needs_no_evidence_and_lists_what_the_hold_point_asks))
