/* The other choices of mu beside the design's: of several the one that is
 * furthest from what the design says, be it better or worse. What holds by one
 * and fails by another is marginal; what fails by the design fails, and the
 * better one is told. Limit: 1.0 kg/m2 at faces that absorb [DIN 4108-3, seen
 * in a list]. */

#include "criteria/assessing.h"
#include "criteria_case.h"
#include "has_words.h"
#include "suite.h"

static criteria_case c;
static bw_core core;
static bw_sections sections;
static bw_section_assessment part;
static bw_plane plane[3];
static bw_monthly_result other;

static void setup(void)
{
    case_make(&c);
    c.material[CASE_INSULATION].absorbs_condensate = true;
    sections = (bw_sections){.count = 1, .section = &c.section};
}

static void teardown(void)
{
    case_free(&c);
}

/* Peaks [kg/m2] of the design, of the bound run and of another bound. */
static const bw_criterion *judged(const double peak[3])
{
    core = (bw_core){0};
    part = (bw_section_assessment){.section = &c.section,
                                   .transient_reason = ""};
    bw_run_none(&part, "");
    for (int m = 0; m < BW_MONTHS; m++)
        part.boundary[m] = (bw_boundary){.theta_e = 5, .theta_i = 20};
    part.run[BW_RUN_DESIGN].ran = part.run[BW_RUN_BOUND].ran = true;
    part.run[BW_RUN_DESIGN].result = case_result(&plane[0], peak[0]);
    part.run[BW_RUN_BOUND].result = case_result(&plane[1], peak[1]);
    other = case_result(&plane[2], peak[2]);
    part.other_bound[0] = other;
    part.other_bound_count = 1;
    core.part = &part;
    core.rows.arena = &core.arena;
    core.assessment.assembly = &c.assembly;
    core.assessment.section = &part;
    core.assessment.section_count = 1;
    core.assessment.sections = &sections;
    ck_assert_int_eq(bw_core_judge(&core, false, NULL), BW_OK);
    const bw_row *row = bw_rows_find(&core.rows, "whole", BW_C_CONDENSATE);
    ck_assert_ptr_nonnull(row);
    return &row->row;
}

START_TEST(of_other_choices_of_mu_the_furthest_is_laid_beside)
{
    static const struct {
        double peak[3];
        bw_verdict outcome;
        const char *told; /* of the other choice; NULL: nothing */
    } cases[] = {
        {{0.2, 0.3, 0.4}, BW_HOLDS, NULL},
        {{0.2, 1.5, 0.4}, BW_MARGINAL, "fails (1.500"},
        {{0.2, 0.4, 1.5}, BW_MARGINAL, "fails (1.500"},
        {{0.2, 1.2, 1.5}, BW_MARGINAL, "fails (1.500"},
        {{0.2, 1.5, 1.2}, BW_MARGINAL, "fails (1.500"},
        {{1.5, 1.2, 1.3}, BW_FAILS, NULL},
        {{1.5, 0.4, 1.3}, BW_FAILS, "(0.400"},
        {{1.5, 1.3, 0.4}, BW_FAILS, "(0.400"},
        {{1.5, 0.6, 0.4}, BW_FAILS, "(0.400"},
        {{1.5, 0.4, 0.6}, BW_FAILS, "(0.400"},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        const bw_criterion *row = judged(cases[i].peak);
        ck_assert_double_eq(row->value, cases[i].peak[0]);
        ck_assert_msg(row->outcome == cases[i].outcome, "case %zu", i);
        if (cases[i].told != NULL)
            has(row->reason, cases[i].told);
        else
            ck_assert_ptr_null(strstr(row->reason, "other choice"));
        bw_arena_release(&core.arena);
    }
}
END_TEST

SUITE_AROUND("bounds", setup, teardown,
             FACT(of_other_choices_of_mu_the_furthest_is_laid_beside))
