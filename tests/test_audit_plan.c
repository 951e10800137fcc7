/* An audit by months of a small wall, as a plan and as a sheet: with which leak
 * it is computed, what evidence is asked of which part, which files and limits
 * it names. What is asked of a wall is docs/audit.md, "The evidence a wall
 * needs". */

#include "site_wall.h"

/* Boards outside of a cavity, studs in wool, a retarder, a lining of boards. */
#define WALL(leak)                                                             \
    LAYERS(BOARDS_TO_RETARDER                                                  \
           "<layer id=\"lining\" material=\"softwood\" thickness=\"15 mm\"/>") \
    leak
#define LEAK(q50)                                                              \
    "<air-leakage q50=\"" q50 " m3/(m2.h)\" connected-height=\"5 m\"/>"
#define TESTED(q50)                                                            \
    CLOSING("<air-test date=\"2031-05-02\" stage=\"membrane-exposed\" "        \
            "q50=\"" q50 " m3/(m2.h)\" leak-search=\"yes\" by=\"T. K.\" "      \
            "ref=\"p-1\" uncertainty=\"10 %\"/>")

static bw_audit *audit;

static void make(const char *body, bool plan)
{
    static const char *const none[] = {""};
    const bw_audit_options options = {
        .assessment = {.no_transient = true, .no_advice = true, .threads = 1},
        .file = none,
        .date = "2031-05-10",
        .no_margin = true,
        .plan = plan};
    bw_error err = {0};
    site_read("audit-plan.xml", body);
    bw_audit_free(audit);
    audit = NULL;
    ck_assert_msg(bw_audit_make(&audit, wall, &climate, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
}

static void forget(void)
{
    bw_audit_free(audit);
    audit = NULL;
    site_close();
}

/* ---- the leak -------------------------------------------------------------
 */

/* The test's value and its uncertainty of 10 %, where that is more than the
 * file's; over 10 m, where the file says nothing of a leak or that there is
 * none (common practice, no source). */
static const struct leak_row {
    const char *body;
    double q50, height; /* m3/(m2 h), m; 0: no leak */
} leaks[] = {
    {WALL(""), 0.0, 0.0},
    {WALL(LEAK("2")), 2.0, 5.0},
    {WALL("") TESTED("1"), 1.1, 10.0},
    {WALL(LEAK("0")) TESTED("1"), 1.1, 10.0},
    {WALL(LEAK("0.5")) TESTED("1"), 1.1, 5.0},
    {WALL(LEAK("1.09")) TESTED("1"), 1.1, 5.0},
    {WALL(LEAK("1.11")) TESTED("1"), 1.11, 5.0},
};

START_TEST(it_is_computed_as_leaky_as_its_test_may_mean)
{
    const struct leak_row *row = &leaks[_i];
    make(row->body, true);
    const bw_air_leakage *leak = &audit->assessment->assembly->air_leakage;
    ck_assert_int_eq(leak->given, row->q50 > 0.0);
    ck_assert_double_eq_tol(3600.0 * leak->q50, row->q50, 1e-9);
    if (row->q50 > 0.0)
        ck_assert_double_eq_tol(leak->connected_height, row->height, 1e-9);
}
END_TEST

/* ---- what is asked for ----------------------------------------------------
 */

static const struct need_row {
    bw_need_kind kind;
    const char *part;
    bool required;
} needs[] = {
    {BW_NEED_LIMIT, "bay.framing", true},
    {BW_NEED_READINGS, "bay.framing", true},
    {BW_NEED_PHOTOGRAPH, "bay.framing", true},
    {BW_NEED_LIMIT, "lining", true},
    {BW_NEED_READINGS, "lining", true},
    {BW_NEED_PHOTOGRAPH, "lining", true},
    {BW_NEED_AIR_TEST, "retarder", true},
    {BW_NEED_BARRIER, "retarder", true},
    {BW_NEED_CAVITY, "cavity", true},
    {BW_NEED_LAYER, "bay", false},
    {BW_NEED_LAYER, "retarder", false},
    {BW_NEED_LAYER, "lining", false},
};

/* Wood inside the weather line is read, what is tight is tested and shown, a
 * cavity is shown, any layer inside of it may be; of wood outside nothing. A
 * plan has the list and no hold point; a sheet has both. */
START_TEST(a_wall_asks_for_the_evidence_of_its_parts)
{
    for (int plan = 0; plan < 2; plan++) {
        make(WALL(""), plan == 1);
        ck_assert_uint_eq(audit->need_count, COUNT(needs));
        for (size_t i = 0; i < COUNT(needs); i++) {
            const bw_need *need = &audit->need[i];
            ck_assert_int_eq(need->kind, needs[i].kind);
            ck_assert_str_eq(need->part.text, needs[i].part);
            ck_assert_int_eq(need->required, needs[i].required);
            ck_assert(!need->present);
        }
        ck_assert_int_eq(audit->plan, plan);
        ck_assert_int_eq(audit->open_count == 0, plan);
        ck_assert_int_eq(audit->as_built.assessment == NULL, plan);
        ck_assert(!audit->released);
        ck_assert_uint_eq(audit->file_count, 0);
        ck_assert_ptr_eq(audit->profile, bw_profile_default());
        bw_assembly_free(wall);
        wall = NULL;
    }
}
END_TEST

/* ---- what is there --------------------------------------------------------
 */

#define STUD LIMIT("stud", "bay.framing", "18")
#define LINING LIMIT("lining", "lining", "18")
#define OF(date, member, place, moisture, depth, more)                         \
    "<reading date=\"2031-" date "\" member=\"" member "\" place=\"" place     \
    "\" moisture=\"" moisture " %\" depth=\"" depth " mm\" meter=\"pins\" "    \
    "by=\"M. R.\" " more "/>"
#define AT(date, place, depth) OF(date, "stud", place, "16", depth, "")
#define SHOWN(kind, part, date)                                                \
    "<evidence kind=\"" kind "\" of=\"it\" part=\"" part "\" ref=\"n-1\" "     \
    "date=\"2031-" date "\"/>"
#define PICTURE "photograph=\"img-1\""

/* The needs above that are met, by their number; the stud's are 0 to 2, an
 * inspection of it would stand behind them. Three places, 13.5 mm deep or
 * deeper (0.3 of 45 mm, EN 13183-2 from memory), within 14 days. */
static const struct met_row {
    const char *record;
    unsigned met;
    int inspected; /* -1: not asked for */
} met_rows[] = {
    {"", 0, -1},
    {STUD, 1, -1},
    {LINING, 1 << 3, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14") AT("05-05", "c", "14"),
     3, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14"), 1, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14") AT("05-05", "B ", "14"),
     1, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14") AT("05-05", "c", "13"),
     1, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14") AT("04-20", "c", "14"),
     1, -1},
    {STUD AT("05-05", "a", "14") AT("05-05", "b", "14")
         LINING OF("05-05", "lining", "c", "16", "5", ""),
     9, -1},
    {STUD OF("05-05", "stud", "a", "16", "14", PICTURE), 5, -1},
    {STUD OF("04-20", "stud", "a", "16", "14", PICTURE), 1, -1},
    {LINING OF("05-05", "lining", "a", "16", "5", PICTURE), 40, -1},
    {SHOWN("photograph", "bay.framing", "05-05"), 1 << 2, -1},
    {SHOWN("label", "bay.framing", "05-05"), 0, -1},
    {SHOWN("photograph", "retarder", "05-05"), 1 << 7, -1},
    {SHOWN("label", "retarder", "05-05"), 1 << 10, -1},
    {SHOWN("photograph", "cavity", "05-05"), 1 << 8, -1},
    {SHOWN("label", "cavity", "05-05"), 0, -1},
    {SHOWN("label", "bay", "05-05"), 1 << 9, -1},
    {SHOWN("data sheet", "lining", "05-05"), 1 << 11, -1},
    {STUD OF("05-05", "stud", "a", "20", "14", ""), 1, -1},
    {STUD OF("05-05", "stud", "a", "20.1", "14", ""), 1, 0},
    {STUD OF("05-03", "stud", "a", "20.1", "14", "")
         SHOWN("photograph", "bay.framing", "05-04"),
     5, 1},
    {STUD OF("05-05", "stud", "a", "20.1", "14", "")
         OF("05-03", "stud", "b", "20.1", "14", "")
             SHOWN("photograph", "bay.framing", "05-04"),
     5, 0},
};

START_TEST(each_need_is_met_by_its_own_evidence)
{
    const struct met_row *row = &met_rows[_i];
    char body[4096];
    snprintf(body, sizeof body, WALL("") CLOSING("%s"), row->record);
    make(body, true);
    const size_t more = row->inspected >= 0 ? 1 : 0;
    ck_assert_uint_eq(audit->need_count, COUNT(needs) + more);
    for (size_t i = 0; i < COUNT(needs); i++) {
        const bw_need *need = &audit->need[i + (i > 2 ? more : 0)];
        ck_assert_int_eq(need->kind, needs[i].kind);
        ck_assert_msg(need->present == (row->met >> i & 1), "need %zu of %s", i,
                      row->record);
    }
    if (more > 0) {
        ck_assert_int_eq(audit->need[3].kind, BW_NEED_INSPECTION);
        ck_assert_int_eq(audit->need[3].present, row->inspected);
        ck_assert_ptr_nonnull(strstr(audit->need[3].why, "2031-05-0"));
    }
    ck_assert_ptr_nonnull(strstr(audit->need[1].what, ", 14 mm deep"));
    ck_assert_ptr_null(strstr(audit->need[4 + more].what, "mm deep"));
}
END_TEST

SUITE_AROUND("audit_plan", site_open, forget,
             EACH(it_is_computed_as_leaky_as_its_test_may_mean, COUNT(leaks)),
             FACT(a_wall_asks_for_the_evidence_of_its_parts),
             EACH(each_need_is_met_by_its_own_evidence, COUNT(met_rows)))
