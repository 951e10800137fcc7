/* What lies just inside is read and what lies just outside is refused or said:
 * rooms of a junction and junctions of a wall by name and number, clocks of a
 * log, rows of published hours with a field too few, and of a build-up the side
 * on which vapour enters more easily. Limits are those of docs/input.md,
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

SUITE_AROUND("input_edges", read_library, free_library,
             EACH(a_room_has_a_name_of_its_own, COUNT(room_rows)),
             EACH(a_wall_names_its_junctions_once, COUNT(names_rows)),
             EACH(a_clock_is_at_most_fourteen_hours_off, COUNT(clocks)),
             EACH(vapour_enters_where_less_sd_lies_inside, COUNT(sd_rows)))
