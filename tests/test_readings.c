/* A simulation that starts from the moisture readings of <closing-up>. */

#define FILE_OF_SUITE "readings.xml"
#include "as_read.h"
#include "input_case.h"
#include "readings.h"
#include "suite.h"

#define FRAMING "<framing material=\"test-timber\""
#define STUD "<framing id=\"stud\" material=\"test-timber\""
#define LIMIT(member)                                                          \
    "<moisture-limit member=\"" member                                         \
    "\" allowed=\"18 %\" critical=\"20 %\"/>\n"
#define READING(date, member, place, moisture, depth)                          \
    "<reading date=\"2031-" date "\" member=\"" member "\" place=\"" place     \
    "\" moisture=\"" moisture " %\" depth=\"" depth " mm\"/>\n"
#define END "<evidence kind"

/* The sound file, its stud named, with more in <closing-up>. */
static bw_assembly *read_with(const char *framing, const char *more)
{
    char text[8192], both[4096];
    const char *first = strstr(sound, FRAMING), *last = strstr(sound, END);
    snprintf(both, sizeof both, "%.*s%s%.*s%s%s", (int)(first - sound), sound,
             framing, (int)(last - first - (long)strlen(FRAMING)),
             first + strlen(FRAMING), more, last);
    const int length = snprintf(text, sizeof text, "%s", both);
    ck_assert_int_gt(length, 0);
    put(file_name, text, (size_t)length);
    bw_assembly *a = NULL;
    bw_error err;
    const bw_status status = bw_assembly_read(&a, file_name, library, &err);
    unlink(file_name);
    ck_assert_msg(status == BW_OK, "%ld: %s", err.line, err.message);
    return a;
}

START_TEST(a_stud_starts_with_its_reading)
{
    bw_assembly *a = read_with(STUD, "");
    ck_assert_str_eq(a->layer[2].framing.id, "stud");
    ck_assert(!a->layer[2].framing.has_initial_moisture);
    ck_assert_int_eq(bw_assembly_start_from_readings(a, NULL), BW_OK);
    const bw_framing *f = &a->layer[2].framing;
    ck_assert(f->has_initial_moisture && !f->initial_is_rh);
    ck_assert_double_eq_tol(f->initial_moisture, 0.165, 1e-12);
    for (size_t i = 0; i < a->layer_count; i++)
        ck_assert(!a->layer[i].has_initial_moisture);
    ck_assert(has_note(a, BW_NOTE_INFO, "starts with stud at 16.5 %"));
    bw_assembly_free(a);
}
END_TEST

/* The highest of what counts: of each place the newest, unless shallower. */
static const struct {
    const char *more;
    double moisture;
} newest[] = {
    {READING("05-09", "stud", "bay 3", "14", "20"), 0.14},
    {READING("05-09", "stud", "bay 3", "14", "10"), 0.165}, /* shallower */
    {READING("05-09", "stud", "bay 4", "14", "20"), 0.165}, /* elsewhere */
    {READING("04-09", "stud", "bay 3", "22", "20"), 0.165}, /* earlier */
    {READING("04-09", "stud", "bay 4", "22", "20"), 0.22},
    {READING("05-09", "stud", "bay 3", "19", "20")
         READING("05-20", "stud", "bay 3", "17", "20"),
     0.17},
};

START_TEST(a_member_starts_with_the_highest_of_its_newest_readings)
{
    bw_assembly *a = read_with(STUD, newest[_i].more);
    ck_assert_int_eq(bw_assembly_start_from_readings(a, NULL), BW_OK);
    ck_assert_double_eq_tol(a->layer[2].framing.initial_moisture,
                            newest[_i].moisture, 1e-12);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_layer_is_a_member_by_its_id)
{
    bw_assembly *a = read_with(
        FRAMING, LIMIT("face") LIMIT("gap")
                     READING("05-01", "face", "foot", "15.25", "0")
                         READING("05-01", "gap", "foot", "15", "0"));
    ck_assert_int_eq(bw_assembly_start_from_readings(a, NULL), BW_OK);
    ck_assert(a->layer[0].has_initial_moisture);
    ck_assert_double_eq_tol(a->layer[0].initial_moisture, 0.1525, 1e-12);
    ck_assert(!a->layer[1].has_initial_moisture);
    ck_assert(!a->layer[2].framing.has_initial_moisture);
    /* who is in no layer is named */
    ck_assert(has_note(a, BW_NOTE_WARNING, "the readings of stud, up to 16.5"));
    ck_assert(has_note(a, BW_NOTE_WARNING, "the readings of gap, up to 15 %"));
    ck_assert(has_note(a, BW_NOTE_INFO, "starts with face at 15.2"));
    bw_assembly_free(a);
}
END_TEST

START_TEST(members_of_one_part_start_it_with_the_highest)
{
    bw_assembly *a = read_with(
        FRAMING, "<moisture-limit member=\"plate\" part=\"bay.framing\" "
                 "allowed=\"18 %\" critical=\"20 %\"/>\n"
                 "<moisture-limit member=\"post\" part=\"bay.framing\" "
                 "allowed=\"18 %\" critical=\"20 %\"/>\n" READING(
                     "05-01", "plate", "foot", "17", "20")
                     READING("05-01", "post", "foot", "16", "20"));
    ck_assert_int_eq(bw_assembly_start_from_readings(a, NULL), BW_OK);
    ck_assert_double_eq_tol(a->layer[2].framing.initial_moisture, 0.17, 1e-12);
    ck_assert(has_note(a, BW_NOTE_INFO, "starts with plate at 17 %"));
    ck_assert(!has_note(a, BW_NOTE_INFO, "starts with post"));
    ck_assert(!has_note(a, BW_NOTE_WARNING, "the readings of post"));
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_start_from_readings_replaces_what_the_file_says)
{
    bw_assembly *a = read_with(STUD " initial-relative-humidity=\"95 %\"", "");
    ck_assert_int_eq(bw_assembly_start_from_readings(a, NULL), BW_OK);
    ck_assert(!a->layer[2].framing.initial_is_rh);
    ck_assert_double_eq_tol(a->layer[2].framing.initial_moisture, 0.165, 1e-12);
    bw_assembly_free(a);
}
END_TEST

static void refused(bw_assembly *a, long line, const char *text)
{
    bw_error err = {0};
    ck_assert_int_eq(bw_assembly_start_from_readings(a, &err), BW_ERR_INPUT);
    ck_assert_str_eq(err.file, file_name);
    ck_assert_int_eq(err.line, line);
    ck_assert_msg(strstr(err.message, text) != NULL, "%s", err.message);
    ck_assert(!a->layer[0].has_initial_moisture);
    bw_assembly_free(a);
}

START_TEST(no_start_without_readings_of_the_wall)
{
    refused(read_changed("<reading date=\"2031-05-01\" member=\"stud\" "
                         "place=\"bay 3\" moisture=\"16.5 %\" depth=\"20 "
                         "mm\"/>\n",
                         ""),
            0, "there is no <reading> in <closing-up>");
    refused(read_with(FRAMING, ""), 22,
            "member='stud': no member that was read is a layer or framing");
    refused(read_with(FRAMING, LIMIT("face")
                                   READING("05-01", "face", "foot", "59", "0")),
            24,
            "of member 'face', 59 %, is more than Test board holds: at "
            "most 58.3 %");
}
END_TEST

/* ---- as shown by a meter --------------------------------------------------
 */

/* The formula of as_read.c worked by hand, to five digits. What counts is never
 * less than shown, as the formula is from memory. */
static const struct {
    const char *more;
    double shown, counts;
} shown[] = {
    {"as-read=\"yes\" wood-temperature=\"5 degC\"", 0.15, 0.170411},
    {"as-read=\"yes\" wood-temperature=\"20 degC\"", 0.12, 0.122499},
    {"as-read=\"yes\" wood-temperature=\"0 degC\"", 0.20, 0.233451},
    {"as-read=\"yes\" wood-temperature=\"35 degC\"", 0.18, 0.18},
    {"as-read=\"yes\" wood-temperature=\"-1 degC\"", 0.15, 0.15},
    {"as-read=\"yes\" wood-temperature=\"51 degC\"", 0.15, 0.15},
    {"as-read=\"yes\"", 0.15, 0.15},
    {"as-read=\"no\" wood-temperature=\"5 degC\"", 0.15, 0.15},
    {"wood-temperature=\"5 degC\"", 0.15, 0.15},
};

START_TEST(a_reading_as_shown_is_put_right_for_cold_wood)
{
    char more[512];
    snprintf(more, sizeof more,
             "<reading date=\"2031-05-01\" member=\"stud\" place=\"bay 9\" "
             "moisture=\"%g %%\" %s/>\n",
             100.0 * shown[_i].shown, shown[_i].more);
    bw_assembly *a = read_with(STUD, more);
    const bw_reading *last =
        &a->closing_up.reading[a->closing_up.reading_count - 1];
    ck_assert_double_eq_tol(last->shown, shown[_i].shown, 1e-12);
    ck_assert_double_eq_tol(last->moisture, shown[_i].counts, 1e-6);
    bw_assembly_free(a);
}
END_TEST

START_TEST(warm_wood_reads_high)
{
    ck_assert_double_eq_tol(bw_moisture_at_temperature(0.18, 35.0), 0.165421,
                            1e-6);
}
END_TEST

/* ---- what a meter shows -----------------------------------------------------
 */

/* (M + 0.567 - 0.0260 t + 0.000051 t2) / (0.881 x 1.0056^t) of docs/audit.md,
 * by hand; from 0 to 50 degC alone, and never drier than shown. */
static const struct shown_row {
    double shown, theta, is; /* %, degC, % */
} shown_rows[] = {
    {20.0, 20.0, 20.371}, {20.0, 5.0, 22.560}, {20.0, 0.0, 23.345},
    {20.0, -0.1, 20.0},   {20.0, 40.0, 20.0},  {30.0, 20.0, 30.522},
    {20.0, 50.1, 20.0},   {20.0, 50.0, 20.0},
};

START_TEST(a_reading_of_cold_wood_is_corrected_to_more)
{
    const struct shown_row *row = &shown_rows[_i];
    bw_reading r = {.as_read = true,
                    .has_wood_temperature = true,
                    .wood_temperature = row->theta,
                    .shown = 0.01 * row->shown};
    ck_assert_double_eq_tol(100.0 * bw_reading_moisture(&r), row->is, 2e-3);
    ck_assert_int_eq(bw_reading_is_correctable(&r),
                     row->theta >= 0.0 && row->theta <= 50.0);
    r.as_read = false; /* the meter has done so */
    ck_assert_double_eq(bw_reading_moisture(&r), r.shown);
    r.as_read = true;
    r.has_wood_temperature = false;
    ck_assert_double_eq(bw_reading_moisture(&r), r.shown);
}
END_TEST

START_TEST(the_ends_of_what_can_be_corrected_are_within_it)
{
    bw_reading r = {.as_read = true, .has_wood_temperature = true};
    ck_assert(bw_reading_is_correctable(&r));
    r.wood_temperature = 50.0;
    ck_assert(bw_reading_is_correctable(&r));
}
END_TEST

/* What part= of a limit says comes first, then the ids of layers and framing.
 */
START_TEST(a_member_is_the_part_that_its_own_limit_names)
{
    const bw_moisture_limit limit[] = {
        {.member = "post", .part = {"bay.framing", 2, true}},
        {.member = "plate", .part = {"face", 0, false}},
        {.member = "lining", .part = {"", -1, false}}};
    const bw_layer layers[] = {
        {.id = "face", .kind = BW_LAYER_SOLID},
        {.id = "gap", .kind = BW_LAYER_CAVITY, .framing = {.id = "batten"}},
        {.id = "bay", .kind = BW_LAYER_SOLID, .framing = {.id = "stud"}},
        {.id = "lining", .kind = BW_LAYER_SOLID}};
    const bw_assembly a = {
        .layer = layers,
        .layer_count = COUNT(layers),
        .closing_up = {.limit = limit, .limit_count = COUNT(limit)}};
    static const struct {
        const char *member;
        long layer;
        bool framing;
    } rows[] = {{"post", 2, true},  {"plate", 0, false}, {"lining", 3, false},
                {"face", 0, false}, {"gap", -1, false},  {"batten", 1, true},
                {"stud", 2, true},  {"bay", 2, false},   {"beam", -1, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        const bw_wall_part part = bw_part_of_member(&a, rows[i].member);
        ck_assert_msg(part.layer == rows[i].layer &&
                          part.framing == rows[i].framing,
                      "%s: %ld", rows[i].member, part.layer);
    }
}
END_TEST

SUITE_AROUND("readings", read_library, free_library,
             EACH(a_reading_as_shown_is_put_right_for_cold_wood, COUNT(shown)),
             EACH(a_reading_of_cold_wood_is_corrected_to_more,
                  COUNT(shown_rows)),
             FACT(the_ends_of_what_can_be_corrected_are_within_it),
             FACT(warm_wood_reads_high), FACT(a_stud_starts_with_its_reading),
             {a_member_starts_with_the_highest_of_its_newest_readings,
              COUNT(newest)},
             FACT(a_layer_is_a_member_by_its_id),
             FACT(members_of_one_part_start_it_with_the_highest),
             FACT(a_start_from_readings_replaces_what_the_file_says),
             FACT(no_start_without_readings_of_the_wall),
             FACT(a_member_is_the_part_that_its_own_limit_names))
