/* What lies just inside is read and what lies just outside is refused or said:
 * leaks of a junction, as many pieces of evidence as are read, rooms of a
 * junction and junctions of a wall by name and number, clocks of a log, rows of
 * published hours with a field too few, and of a build-up the side on which
 * vapour enters more easily. Limits are those of docs/input.md,
 * docs/junctions.md and docs/climate.md; where they state none they are
 * regression values. */

#define FILE_OF_SUITE "./input-edges-test.xml"
#define MADE "input-edges"
#include "input_case.h"
#include "suite.h"

#include "bothways/bothways.h"

static bool is_there(const char *text, const char *words)
{
    return strstr(text, words) != NULL;
}

/* ---- rooms of a junction ---------------------------------------------------
 */

#define ROOM(id)                                                               \
    "<room id=\"" id "\"><indoors temperature=\"15 degC\" "                    \
    "humidity-class=\"2\"/></room>\n"

static bw_status read_junction(const char *rooms, bw_error *err)
{
    char text[8192];
    bw_junction *j = NULL;
    snprintf(text, sizeof text,
             "<junction xmlns=\"urn:bothways:junction:1\" id=\"test\">\n"
             "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>\n"
             "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>\n"
             "%s"
             "<drawing>\n"
             "<rectangle material=\"test-timber\" x=\"0 mm\" y=\"0 mm\" "
             "width=\"600 mm\" height=\"100 mm\"/>\n"
             "<space of=\"outside\" x=\"0 mm\" y=\"-50 mm\" width=\"600 mm\" "
             "height=\"50 mm\"/>\n"
             "<space of=\"room\" x=\"0 mm\" y=\"100 mm\" width=\"300 mm\" "
             "height=\"50 mm\"/>\n"
             "<space of=\"%s\" x=\"300 mm\" y=\"100 mm\" width=\"300 mm\" "
             "height=\"50 mm\" over=\"yes\"/>\n"
             "<symmetry side=\"left\"/>\n<symmetry side=\"right\"/>\n"
             "</drawing>\n</junction>\n",
             rooms, is_there(rooms, "bath") ? "bath" : "room");
    put(file_name, text, strlen(text));
    const bw_status status = bw_junction_read(&j, file_name, library, err);
    unlink(file_name);
    if (status == BW_OK)
        bw_junction_free(j);
    return status;
}

static const struct room_row {
    const char *rooms;
    const char *says; /* of its refusal; NULL: it is no fault of the rooms */
} room_rows[] = {
    {"", NULL},
    {ROOM("outside"),
     "called \"outside\", which is the name of the outdoor air"},
    {ROOM("ground"), "called \"ground\", which is the name of the soil"},
    {ROOM("room"), "called \"room\", which is the name of the room of the"},
    {ROOM("outsider"), NULL},
    {ROOM("bath") ROOM("bath"), "id=\"bath\" stands twice"},
    {ROOM("bath") ROOM("attic"), NULL},
    {ROOM("a") ROOM("b") ROOM("c") ROOM("d") ROOM("e") ROOM("f"), NULL},
    {ROOM("a") ROOM("b") ROOM("c") ROOM("d") ROOM("e") ROOM("f") ROOM("g"),
     "is one environment too many; 8 are accepted"},
};

START_TEST(a_room_has_a_name_of_its_own)
{
    static const char *const faults[] = {"which is the name of", "stands twice",
                                         "too many"};
    const struct room_row *row = &room_rows[_i];
    bw_error err = {0};
    const bw_status status = read_junction(row->rooms, &err);
    if (row->says == NULL) {
        for (size_t i = 0; i < COUNT(faults); i++)
            ck_assert_msg(!is_there(err.message, faults[i]), "%s", err.message);
        return;
    }
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_msg(is_there(err.message, row->says), "%s", err.message);
    ck_assert_int_ge(err.line, 4);
}
END_TEST

/* ---- junctions that a wall names -------------------------------------------
 */

static void name_junctions(char *text, size_t size, size_t count, size_t equal)
{
    size_t used = (size_t)snprintf(text, size, "<junctions>");
    for (size_t i = 0; i < count; i++)
        used += (size_t)snprintf(text + used, size - used,
                                 "<junction file=\"j%zu.xml\"/>",
                                 i == count - 1 ? i - equal : i);
    snprintf(text + used, size - used, "</junctions>\n</assembly>");
}

static const struct names_row {
    size_t count, equal;
    const char *says;
} names_rows[] = {
    {0, 0, "names 0 junctions; 1 to 40 are accepted"},
    {1, 0, "is not there"}, /* read, and then not found */
    {40, 0, "is not there"},
    {41, 0, "names 41 junctions; 1 to 40 are accepted"},
    {2, 1, "stands twice"},
    {9, 8, "stands twice"},
};

START_TEST(a_wall_names_its_junctions_once)
{
    char text[4096];
    bw_assembly *a = NULL;
    bw_error err = {0};
    name_junctions(text, sizeof text, names_rows[_i].count,
                   names_rows[_i].equal);
    put_changed("</assembly>", text);
    ck_assert_int_eq(bw_assembly_read(&a, file_name, library, &err),
                     BW_ERR_INPUT);
    unlink(file_name);
    ck_assert_msg(is_there(err.message, names_rows[_i].says), "%s",
                  err.message);
    ck_assert_int_eq(err.line, 25);
}
END_TEST

/* ---- clocks of a log -------------------------------------------------------
 */

static const struct clock_row {
    const char *written;
    bool sound;
    double east; /* h */
} clocks[] = {
    {"Z", true, 0.0},
    {"+00:00", true, 0.0},
    {"+14:00", true, 14.0},
    {"-14:00", true, -14.0},
    {"+15:00", false, 0.0},
    {"-15:00", false, 0.0},
    {"+05:59", true, 5.9833333333333},
    {"+05:60", false, 0.0},
    {"-0530", true, -5.5},
    {"+0530", true, 5.5},
    {"+05.30", false, 0.0},
    {"+05-30", false, 0.0},
    {"+0a:30", false, 0.0},
    {"+05:3b", false, 0.0},
    {"+5:30", false, 0.0},
};

START_TEST(a_clock_is_at_most_fourteen_hours_off)
{
    const struct clock_row *row = &clocks[_i];
    char text[4096];
    size_t used = (size_t)snprintf(text, sizeof text,
                                   "time,room_temperature_C\n");
    for (int h = 0; h < 30; h++)
        used += (size_t)snprintf(text + used, sizeof text - used,
                                 "2031-03-0%dT%02d:00%s,20\n", 1 + h / 24,
                                 h % 24, row->written);
    bw_log *log = NULL;
    bw_error err = {0};
    const bw_status status = bw_log_read_text(&log, text, "log.csv", NULL,
                                              &err);
    ck_assert_msg((status == BW_OK) == row->sound, "%s: %s", row->written,
                  err.message);
    if (status == BW_OK) /* 22339 days from 1970 to 1 March 2031 */
        ck_assert_double_eq_tol(log->time[0],
                                22339.0 * 86400.0 - 3600.0 * row->east, 1e-3);
    else
        ck_assert_int_eq(err.line, 2);
    bw_log_free(log);
}
END_TEST

/* ---- where vapour enters ---------------------------------------------------
 */

static const struct sd_row {
    const char *outer, *own, *inner; /* m: outside, the insulation, inside */
    bool easily, tight;
} sd_rows[] = {
    {"1", "5", "2", false, false},       {"2", "5", "1", true, false},
    {"1", "9", "1", false, false},       {"1.001", "0.1", "1", true, false},
    {"1", "0.1", "1.001", false, false}, {"10", "0.1", "10", false, true},
    {"9.99", "0.1", "10", false, false}, {"10", "0.1", "9.99", true, false},
    {"5", "20", "5", false, false},      {"0.1", "50", "20", false, false},
    {"20", "50", "0.1", true, false},
};

static bool noted(const bw_assembly *a, const char *words)
{
    bool found = false;
    for (size_t i = 0; i < a->note_count; i++)
        found |= a->note[i].kind == BW_NOTE_WARNING &&
                 is_there(a->note[i].message, words);
    return found;
}

/* The insulation itself lies on neither side. */
START_TEST(vapour_enters_where_less_sd_lies_inside)
{
    const struct sd_row *row = &sd_rows[_i];
    char text[2048];
    bw_assembly *a = NULL;
    bw_error err = {0};
    snprintf(text, sizeof text,
             "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\">"
             "<outdoors climate=\"c.csv\" driving-rain=\"none\"/>"
             "<indoors temperature=\"20 degC\" humidity-class=\"3\"/>"
             "<layers listed=\"outside-to-inside\">"
             "<membrane id=\"outer\" sd=\"%s m\"/>"
             "<layer id=\"batt\" thickness=\"100 mm\" "
             "lambda=\"0.04 W/(m.K)\" sd=\"%s m\" kind=\"mineral\"/>"
             "<membrane id=\"inner\" sd=\"%s m\"/>"
             "</layers></assembly>",
             row->outer, row->own, row->inner);
    put(file_name, text, strlen(text));
    ck_assert_msg(bw_assembly_read(&a, file_name, library, &err) == BW_OK, "%s",
                  err.message);
    unlink(file_name);
    ck_assert_int_eq(noted(a, "vapour enters more easily"), row->easily);
    ck_assert_int_eq(noted(a, "tight on both sides"), row->tight);
    bw_assembly_free(a);
}
END_TEST

/* ---- where water or air of a room gets in ----------------------------------
 */

/* A board over the left half of a timber, a batt over the right one: faces at y
 * 100 mm (from x 0 to 600 mm), and at x 300 mm (from y 100 to 200 mm); a foil
 * in the timber at y 50 mm (from x 0 to 200 mm). The bay beside it is a room.
 */
static const char two_rooms[] =
    "<junction xmlns='urn:bothways:junction:1' id='test'>\n"
    "<outdoors climate='c.csv' driving-rain='none'/>\n"
    "<indoors temperature='20 degC' humidity-class='3'/>\n"
    "<room id='bath'>"
    "<indoors temperature='15 degC' humidity-class='2'/></room>\n"
    "<drawing>"
    "<rectangle material='test-timber' x='0 mm' y='0 mm' width='600 mm' "
    "height='100 mm'/>"
    "<rectangle material='test-board' x='0 mm' y='100 mm' width='300 mm' "
    "height='100 mm'/>"
    "<rectangle material='test-batt' x='300 mm' y='100 mm' width='300 mm' "
    "height='100 mm'/>"
    "<rectangle material='test-timber' x='290 mm' y='200 mm' width='20 mm' "
    "height='50 mm'/>"
    "<film material='test-foil' x='0 mm' y='50 mm' width='200 mm'/>"
    "<space of='outside' x='0 mm' y='-50 mm' width='600 mm' height='50 mm'/>"
    "<space of='room' x='0 mm' y='200 mm' width='290 mm' height='50 mm'/>"
    "<space of='bath' x='310 mm' y='200 mm' width='290 mm' height='50 mm'/>"
    "<symmetry side='left'/><symmetry side='right'/><symmetry side='above'/>";

static bw_junction *read_leaks(const char *spot, const char *leaks,
                               bw_error *err)
{
    char text[8192];
    bw_junction *j = NULL;
    snprintf(text, sizeof text,
             "%s<spot name=\"here\" %s/></drawing>\n%s</junction>\n", two_rooms,
             spot, leaks);
    put(file_name, text, strlen(text));
    const bw_status status = bw_junction_read(&j, file_name, library, err);
    unlink(file_name);
    ck_assert(status == BW_OK || status == BW_ERR_INPUT);
    return j;
}

#define RAIN(more)                                                             \
    "<rain-leak at=\"here\" fraction=\"1 %\" face=\"1 m\" source=\"s\" " more  \
    "/>\n"
#define AIR(more)                                                              \
    "<room-air at=\"here\" flow=\"1 m3/(m.h)\" source=\"s\" " more "/>\n"

/* So many mm on each side of its spot count: 20 unless over= says more. */
static const struct meet_row {
    const char *spot, *more;
    bool meet;
} meet_rows[] = {
    {"x=\"500 mm\" y=\"119 mm\"", "", true},
    {"x=\"500 mm\" y=\"121 mm\"", "", false},
    {"x=\"500 mm\" y=\"81 mm\"", "", true},
    {"x=\"500 mm\" y=\"79 mm\"", "", false},
    {"x=\"500 mm\" y=\"79 mm\"", "over=\"44 mm\"", true},
    {"x=\"319 mm\" y=\"150 mm\"", "", true},
    {"x=\"321 mm\" y=\"150 mm\"", "", false},
    {"x=\"281 mm\" y=\"150 mm\"", "", true},
    {"x=\"279 mm\" y=\"150 mm\"", "", false},
    /* a face that ends before it, or at it */
    {"x=\"300 mm\" y=\"79 mm\"", "", false},
    {"x=\"300 mm\" y=\"50 mm\"", "", false},
    {"x=\"100 mm\" y=\"69 mm\"", "", true},
    {"x=\"100 mm\" y=\"31 mm\"", "", true},
    {"x=\"100 mm\" y=\"29 mm\"", "", false},
    {"x=\"219 mm\" y=\"50 mm\"", "", true},
    {"x=\"220 mm\" y=\"50 mm\"", "", false},
};

START_TEST(what_gets_in_arrives_where_two_materials_meet)
{
    const struct meet_row *row = &meet_rows[_i];
    char leak[512];
    for (int air = 0; air < 2; air++) {
        bw_error err = {0};
        snprintf(leak, sizeof leak, "<%s at=\"here\" source=\"s\" %s/>\n",
                 air ? "room-air flow=\"1 m3/(m.h)\""
                     : "rain-leak fraction=\"1 %\" face=\"1 m\"",
                 row->more);
        bw_junction *j = read_leaks(row->spot, leak, &err);
        ck_assert_msg((j != NULL) == row->meet, "%s: %s", row->spot,
                      err.message);
        if (j == NULL) {
            ck_assert_msg(is_there(err.message, "where no two materials meet"),
                          "%s", err.message);
            ck_assert_int_eq(err.line, 6);
        }
        bw_junction_free(j);
    }
}
END_TEST

static const struct leak_row {
    const char *leaks, *says; /* says NULL: read */
} leak_rows[] = {
    {RAIN(""), NULL},
    {RAIN("over=\"4.9 mm\""), "over="},
    {RAIN("over=\"5 mm\""), NULL},
    {RAIN("over=\"1 m\""), NULL},
    {RAIN("over=\"1.01 m\""), "over="},
    {"<rain-leak at=\"here\" fraction=\"0 %\" face=\"0.01 m\" source=\"s\"/>",
     NULL},
    {"<rain-leak at=\"here\" fraction=\"100 %\" face=\"100 m\" "
     "source=\"s\"/>",
     NULL},
    {"<rain-leak at=\"here\" fraction=\"101 %\" face=\"1 m\" source=\"s\"/>",
     "fraction="},
    {"<rain-leak at=\"here\" fraction=\"1 %\" face=\"9 mm\" source=\"s\"/>",
     "face="},
    {"<rain-leak at=\"here\" fraction=\"1 %\" face=\"101 m\" source=\"s\"/>",
     "face="},
    {"<rain-leak at=\"her\" fraction=\"1 %\" face=\"1 m\" source=\"s\"/>",
     "did you mean here?"},
    {"<room-air at=\"here\" flow=\"0 m3/(m.h)\" source=\"s\"/>", NULL},
    {"<room-air at=\"here\" flow=\"50 m3/(m.h)\" source=\"s\"/>", NULL},
    {"<room-air at=\"here\" flow=\"51 m3/(m.h)\" source=\"s\"/>", "flow="},
    {AIR("") AIR("of=\"room\""), NULL},
    {AIR("of=\"bath\"") AIR("of=\"bath\""), NULL},
    {AIR("of=\"bath\"") AIR(""), "is air of \"room\" beside air of \"bath\""},
    {AIR("of=\"bat\""), "did you mean bath?"},
};

START_TEST(a_leak_is_within_its_bounds_and_air_is_of_one_room)
{
    const struct leak_row *row = &leak_rows[_i];
    bw_error err = {0};
    bw_junction *j = read_leaks("x=\"500 mm\" y=\"100 mm\"", row->leaks, &err);
    if (row->says == NULL)
        ck_assert_msg(j != NULL, "%s", err.message);
    else
        ck_assert_msg(j == NULL && is_there(err.message, row->says), "%s",
                      err.message);
    bw_junction_free(j);
}
END_TEST

START_TEST(a_leak_is_kept_as_it_is_written)
{
    bw_error err = {0};
    bw_junction *j = read_leaks(
        "x=\"500 mm\" y=\"100 mm\"",
        RAIN("") AIR("of=\"bath\" counts=\"all\" over=\"10 mm\"")
            AIR("of=\"bath\" counts=\"wetting\"") AIR("of=\"bath\""),
        &err);
    ck_assert_msg(j != NULL, "%s", err.message);
    const bw_drawn_leak *rain = &j->leak[0];
    ck_assert_double_eq_tol(rain->fraction, 0.01, 1e-12);
    ck_assert_double_eq_tol(rain->face, 1.0, 1e-12);
    ck_assert_double_eq_tol(rain->at.x0, 0.48, 1e-12);
    ck_assert_double_eq_tol(rain->at.x1, 0.52, 1e-12);
    ck_assert_double_eq_tol(rain->at.y0, 0.08, 1e-12);
    ck_assert_double_eq_tol(rain->at.y1, 0.12, 1e-12);
    ck_assert_uint_eq(j->air_count, 3);
    ck_assert_double_eq_tol(j->air[0].at.x0, 0.495, 1e-12);
    ck_assert_double_eq_tol(j->air[0].at.y1, 0.105, 1e-12);
    ck_assert_double_eq_tol(j->air[0].flow, 1.0 / 3600.0, 1e-12);
    ck_assert_str_eq(j->environment[j->air[0].environment].id, "bath");
    ck_assert(j->air[0].all && !j->air[1].all && !j->air[2].all);
    bw_junction_free(j);
}
END_TEST

START_TEST(eight_leaks_of_a_kind_are_read_and_a_ninth_is_not)
{
    char text[4096] = "";
    for (int air = 0; air < 2; air++)
        for (int count = 8; count <= 9; count++) {
            bw_error err = {0};
            size_t used = 0;
            for (int i = 0; i < count; i++)
                used += (size_t)snprintf(text + used, sizeof text - used, "%s",
                                         air ? AIR("") : RAIN(""));
            bw_junction *j = read_leaks("x=\"500 mm\" y=\"100 mm\"", text,
                                        &err);
            ck_assert_msg((j != NULL) == (count == 8), "%s", err.message);
            ck_assert(j != NULL ||
                      is_there(err.message, "is one too many; 8 are accepted"));
            bw_junction_free(j);
        }
}
END_TEST

/* ---- as many as are read ---------------------------------------------------
 */

/* BW_MOST_EVIDENCE; docs/input.md. */
START_TEST(a_thousand_pieces_of_evidence_are_read_and_one_more_is_not)
{
    enum { MOST = 1000 };
    static char text[MOST * 64 + 8192];
    static const char piece[] = "<evidence kind=\"photograph\" of=\"x\"/>";
    for (size_t count = MOST; count <= MOST + 1; count++) {
        bw_assembly *a = NULL;
        bw_error err = {0};
        const char *at = strstr(sound, "<closing-up>");
        size_t used = (size_t)snprintf(text, sizeof text, "%.*s<closing-up>",
                                       (int)(at - sound), sound);
        for (size_t i = 0; i < count; i++)
            used += (size_t)snprintf(text + used, sizeof text - used, "%s",
                                     piece);
        snprintf(text + used, sizeof text - used, "</closing-up></assembly>");
        const bw_status status = bw_assembly_read_text(&a, text, "w.xml",
                                                       library, NULL, 0, &err);
        ck_assert_msg((status == BW_OK) == (count == MOST), "%s", err.message);
        ck_assert(status == BW_OK ||
                  is_there(err.message,
                           "holds 1001 elements; at most 1000 are accepted"));
        bw_assembly_free(a);
    }
}
END_TEST

/* The outermost layer, too, may be one of which no moisture is read. */
START_TEST(a_moisture_limit_is_of_no_membrane_wherever_it_lies)
{
    static const char *const part[] = {"face", "foil", "lining"};
    for (size_t i = 0; i < COUNT(part); i++) {
        char text[8192];
        bw_assembly *a = NULL;
        bw_error err = {0};
        const char *face = strstr(sound, "<layer id=\"face\"");
        const char *gap = strstr(sound, "<cavity id=\"gap\"");
        const char *limit = strstr(sound, "member=\"stud\" allowed");
        snprintf(text, sizeof text,
                 "%.*s<membrane id=\"face\" sd=\"1 m\"/>%.*spart=\"%s\" %s",
                 (int)(face - sound), sound, (int)(limit - gap), gap, part[i],
                 limit);
        const bw_status status = bw_assembly_read_text(&a, text, "w.xml",
                                                       library, NULL, 0, &err);
        ck_assert_msg((status == BW_OK) == (i == 2), "%s: %s", part[i],
                      err.message);
        ck_assert(i == 2 || is_there(err.message, "is a membrane, of which"));
        bw_assembly_free(a);
    }
}
END_TEST

/* Studs 60 mm deep stand in an option of 60 mm, and in none of 59. */
START_TEST(an_option_is_as_thick_as_the_studs_that_stand_in_it_are_deep)
{
    for (int mm = 59; mm <= 60; mm++) {
        char text[8192], option[512];
        bw_assembly *a = NULL;
        bw_error err = {0};
        const char *width = strstr(sound, "width=\"45 mm\"");
        snprintf(option, sizeof option,
                 "<choices><choice layer=\"bay\"><option><layer "
                 "material=\"test-batt\" thickness=\"%d mm\"/></option>"
                 "</choice></choices></assembly>",
                 mm);
        const char *end = strstr(sound, "</assembly>");
        snprintf(text, sizeof text, "%.*sdepth=\"60 mm\" %.*s%s",
                 (int)(width - sound), sound, (int)(end - width), width,
                 option);
        const bw_status status = bw_assembly_read_text(&a, text, "w.xml",
                                                       library, NULL, 0, &err);
        ck_assert_msg((status == BW_OK) == (mm == 60), "%s", err.message);
        bw_assembly_free(a);
    }
}
END_TEST

/* Most of the steps of a log are at most an hour and a minute. */
START_TEST(readings_lie_an_hour_and_a_minute_apart_at_most)
{
    for (int more = 0; more < 2; more++) {
        char text[4096];
        bw_log *log = NULL;
        bw_error err = {0};
        size_t used = (size_t)snprintf(text, sizeof text,
                                       "time_utc,room_temperature_C\n");
        for (int i = 0; i < 40; i++) {
            const int at = i * (3660 + more);
            used += (size_t)snprintf(text + used, sizeof text - used,
                                     "2031-03-%02dT%02d:%02d:%02d,20\n",
                                     1 + at / 86400, at / 3600 % 24,
                                     at / 60 % 60, at % 60);
        }
        const bw_status status = bw_log_read_text(&log, text, "log.csv", NULL,
                                                  &err);
        ck_assert_msg((status == BW_OK) == (more == 0), "%s", err.message);
        ck_assert(more == 0 ||
                  is_there(err.message, "more than an hour apart"));
        bw_log_free(log);
    }
}
END_TEST

SUITE_AROUND("input_edges", read_library, free_library,
             EACH(a_room_has_a_name_of_its_own, COUNT(room_rows)),
             EACH(a_wall_names_its_junctions_once, COUNT(names_rows)),
             EACH(what_gets_in_arrives_where_two_materials_meet,
                  COUNT(meet_rows)),
             EACH(a_leak_is_within_its_bounds_and_air_is_of_one_room,
                  COUNT(leak_rows)),
             FACT(a_leak_is_kept_as_it_is_written),
             FACT(eight_leaks_of_a_kind_are_read_and_a_ninth_is_not),
             FACT(a_thousand_pieces_of_evidence_are_read_and_one_more_is_not),
             FACT(a_moisture_limit_is_of_no_membrane_wherever_it_lies),
             FACT(an_option_is_as_thick_as_the_studs_that_stand_in_it_are_deep),
             FACT(readings_lie_an_hour_and_a_minute_apart_at_most),
             EACH(a_clock_is_at_most_fourteen_hours_off, COUNT(clocks)),
             EACH(vapour_enters_where_less_sd_lies_inside, COUNT(sd_rows)))
