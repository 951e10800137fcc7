/* As built, in service: which changes are made and why, which of them decide,
 * and what the two runs make of the hold point. */

#include "site_wall.h"

#define WALL                                                                   \
    LAYERS(BOARDS_TO_RETARDER)                                                 \
    "<air-leakage q50=\"1 m3/(m2.h)\" connected-height=\"5 m\"/>"

#define TEST(date, q50, more)                                                  \
    "<air-test date=\"" date "\" stage=\"membrane-exposed\" q50=\"" q50        \
    " m3/(m2.h)\" leak-search=\"yes\" " more "/>"
#define SURE "uncertainty=\"0 %\""
#define CLEAR "<evidence kind=\"photograph\" of=\"cavity\" part=\"cavity\" "

static const bw_assembly *built_of(const char *record)
{
    const bw_assessment_options options = {.no_transient = true};
    char body[4096];
    bw_error err = {0};
    snprintf(body, sizeof body, WALL CLOSING("%s"), record);
    site_read("as-built.xml", body);
    ck_assert_msg(bw_audit_as_built(&core, core.assembly, &options, &err) ==
                      BW_OK,
                  "%s", err.message);
    return core.audit.as_built.assessment->assembly;
}

static const bw_as_built_change *change_of(const char *words)
{
    const bw_as_built *built = &core.audit.as_built;
    for (size_t i = 0; i < built->change_count; i++)
        if (strstr(built->change[i].change, words) != NULL)
            return &built->change[i];
    return NULL;
}

static double q50_of(const bw_assembly *a)
{
    return 3600.0 * a->air_leakage.q50;
}

/* ---- leak -----------------------------------------------------------------
 */

/* The last day's worst, with its uncertainty, 3 % at the least; never less than
 * assumed. */
static const struct {
    const char *record;
    double q50;
} leaks[] = {
    {"", 1.0},
    {TEST("2031-05-02", "3", SURE), 3.09},
    {TEST("2031-05-02", "0.4", SURE), 1.0},
    {TEST("2031-05-02", "0.95", "uncertainty=\"10 %\""), 1.045},
    {TEST("2031-05-02", "3", SURE) TEST("2031-05-02", "2", SURE), 3.09},
    {TEST("2031-05-02", "2", SURE) TEST("2031-05-02", "3", SURE), 3.09},
    {TEST("2031-05-03", "2", SURE) TEST("2031-05-02", "3", SURE), 2.06},
    {TEST("2031-05-02", "3", SURE) TEST("2031-05-03", "2", SURE), 2.06},
};

START_TEST(the_leak_is_as_tested_or_as_assumed_whichever_is_more)
{
    const bw_assembly *a = built_of(leaks[_i].record);
    ck_assert_double_eq_tol(q50_of(a), leaks[_i].q50, 1e-9);
    ck_assert_double_eq_tol(q50_of(wall), 1.0, 1e-9);
    ck_assert_int_eq(change_of("air leakage") != NULL,
                     leaks[_i].q50 > 1.0 + 1e-9);
}
END_TEST

/* ---- wet start ------------------------------------------------------------
 */

#define STUD(allowed) LIMIT("stud", "bay.framing", allowed)

static const struct {
    const char *record, *why;
    double start;
} starts[] = {
    {"", "nothing was read", 0.20},
    {STUD("18"), "allowed moisture of stud", 0.18},
    {STUD("18") READ("05-01", "stud", "12"), "allowed moisture of stud", 0.18},
    {STUD("18") READ("05-01", "stud", "23"), "highest reading", 0.23},
    /* softwood at 80 % RH, Wood Handbook table 4-2 */
    {STUD("14") READ("05-01", "stud", "12"), "", 0.164},
};

START_TEST(the_start_is_as_wet_as_the_hold_point_would_let_it_be)
{
    const bw_layer *layer = built_of(starts[_i].record)->layer;
    ck_assert(layer[2].framing.has_initial_moisture);
    ck_assert_double_eq_tol(layer[2].framing.initial_moisture, starts[_i].start,
                            1e-9);
    ck_assert(!layer[0].has_initial_moisture); /* cladding is weather */
    ck_assert_ptr_nonnull(strstr(change_of("built in")->why, starts[_i].why));
}
END_TEST

/* ---- cavity and room ------------------------------------------------------
 */

START_TEST(a_cavity_that_nothing_shows_clear_decides)
{
    ck_assert_int_eq(built_of("")->layer[1].ventilation, BW_VENT_NONE);
    ck_assert(change_of("blocked")->decides);
    ck_assert(!change_of("indoor")->decides);
    ck_assert_double_eq_tol(
        core.audit.as_built.assessment->assembly->indoors.relative_humidity,
        0.60, 1e-9);
}
END_TEST

START_TEST(a_cavity_shown_clear_is_blocked_and_does_not_decide)
{
    ck_assert_int_eq(built_of(CLEAR "ref=\"p-1\" date=\"2031-05-02\"/>")
                         ->layer[1]
                         .ventilation,
                     BW_VENT_NONE);
    ck_assert(!change_of("blocked")->decides);
    ck_assert_ptr_nonnull(
        strstr(change_of("blocked")->why, "photographed clear"));
}
END_TEST

START_TEST(a_photograph_without_reference_shows_nothing)
{
    built_of(CLEAR "ref=\"\" date=\"2031-05-02\"/>");
    ck_assert(change_of("blocked")->decides);
}
END_TEST

/* ---- the two runs ---------------------------------------------------------
 */

/* Months cannot tell a wall of wood that starts wet: nothing fails and nothing
 * holds, so that it is assessed again without what does not decide. */
START_TEST(what_decides_is_run_alone_where_all_together_do_not_hold)
{
    built_of(CLEAR "ref=\"p-1\" date=\"2031-05-02\"/>");
    const bw_as_built *built = &core.audit.as_built;
    ck_assert_ptr_nonnull(built->deciding);
    ck_assert_int_eq(built->deciding->assembly->layer[1].ventilation,
                     BW_VENT_WELL);
    ck_assert_double_eq_tol(
        built->deciding->assembly->indoors.relative_humidity, 0.50, 1e-9);
    ck_assert(built->deciding->assembly->layer[2].framing.has_initial_moisture);
    const bool bad = built->deciding->verdict == BW_FAILS ||
                     built->deciding->verdict == BW_NOT_ASSESSED;
    ck_assert_int_eq(built->closes != NULL, bad);
    ck_assert_int_eq(built->spares != NULL, !bad);
}
END_TEST

static bool closed_by_it(void)
{
    ck_assert_int_eq(bw_audit_hold_point(&core, NULL), BW_OK);
    for (size_t i = 0; i < core.audit.open_count; i++)
        if (strstr(core.audit.open[i].text, "in service") != NULL)
            return true;
    return false;
}

START_TEST(it_keeps_the_hold_point_closed_of_a_wall_that_holds_as_drawn)
{
    site_read("as-built.xml", WALL);
    drawn.verdict = BW_HOLDS;
    drawn.verdict_reason = "";
    core.audit.as_built.closes = NULL;
    ck_assert(!closed_by_it());
    core.audit.as_built.closes = "as built, in service, it fails";
    ck_assert(closed_by_it());
    drawn.verdict = BW_MARGINAL;
    ck_assert(closed_by_it());
    drawn.verdict = BW_FAILS; /* has said so already */
    ck_assert(!closed_by_it());
    ck_assert(!core.audit.released);
}
END_TEST

/* ---- side by side ---------------------------------------------------------
 */

enum { ROWS = 5 };

/* Of section and name: whatever decides in one of the two, as drawn first; what
 * is judged in service alone stands behind it. */
START_TEST(what_decides_in_either_stands_beside_the_other)
{
    static const char *const section[ROWS] = {"a", "b", "a", "a", "a"};
    static const char *const name[ROWS] = {"x", "x", "y", "z", "w"};
    /* of 2 bits each, as drawn and in service: 0 none, 1 there, 3 decides */
    static const unsigned is[][ROWS] = {{15, 7, 13, 5, 12},
                                        {3, 12, 1, 4, 15},
                                        {12, 12, 3, 15, 7},
                                        {1, 4, 5, 13, 12}};
    for (size_t k = 0; k < COUNT(is); k++) {
        bw_criterion row[2][ROWS];
        bw_assessment made[2] = {{.criterion = row[0]}, {.criterion = row[1]}};
        size_t of[2][ROWS], count = 0;
        for (size_t i = 0; i < ROWS; i++)
            for (unsigned side = 0; side < 2; side++) {
                const unsigned bits = is[k][i] >> (2 * side) & 3;
                of[side][i] = made[side].criterion_count;
                if (bits == 0)
                    continue;
                row[side][made[side].criterion_count++] = (bw_criterion){
                    .section = section[i],
                    .criterion = name[i],
                    .decides = bits == 3};
            }
        bw_arena_release(&core.built);
        core = (bw_audit_core){.assessment = &made[0]};
        core.audit.as_built.assessment = &made[1];
        ck_assert_int_eq(bw_audit_beside(&core, NULL), BW_OK);
        for (int alone = 0; alone < 2; alone++)
            for (size_t i = 0; i < ROWS; i++) {
                const bool a = (is[k][i] & 3) != 0, b = is[k][i] > 3;
                if ((alone == 1) == a ||
                    ((is[k][i] & 3) != 3 && is[k][i] >> 2 != 3))
                    continue;
                ck_assert_uint_lt(count, core.audit.as_built.row_count);
                const bw_as_built_row *r = &core.audit.as_built.row[count++];
                ck_assert_ptr_eq(r->drawn, a ? &row[0][of[0][i]] : NULL);
                ck_assert_ptr_eq(r->built, b ? &row[1][of[1][i]] : NULL);
            }
        ck_assert_uint_eq(core.audit.as_built.row_count, count);
    }
}
END_TEST

SUITE_AROUND("as_built", site_open, site_close,
             EACH(the_leak_is_as_tested_or_as_assumed_whichever_is_more,
                  sizeof leaks / sizeof *leaks),
             EACH(the_start_is_as_wet_as_the_hold_point_would_let_it_be,
                  sizeof starts / sizeof *starts),
             FACT(a_cavity_that_nothing_shows_clear_decides),
             FACT(a_cavity_shown_clear_is_blocked_and_does_not_decide),
             FACT(a_photograph_without_reference_shows_nothing),
             FACT(what_decides_is_run_alone_where_all_together_do_not_hold),
             FACT(it_keeps_the_hold_point_closed_of_a_wall_that_holds_as_drawn),
             FACT(what_decides_in_either_stands_beside_the_other))
