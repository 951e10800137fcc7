/* The hold point's reasons in words, and fingerprints of what is no file. */

#include <math.h>
#include <stdlib.h>

#include "audit/auditing.h"
#include "paper.h"
#include "suite.h"

static bw_audit_core core;
static bw_assembly assembly;
static bw_assessment assessment;
static bw_profile profile;
static bw_profile_rule rule;
static bw_member_decision member;
static bw_margin margin;
static bw_unknown unknown;
static bw_audit_unknown line;

static const bw_layer sheathing = {.id = "sheathing"}; /* the member's */

static void setup(void)
{
    memset(&core, 0, sizeof core);
    assembly = (bw_assembly){.file = "test", .layer = &sheathing};
    assessment = (bw_assessment){.assembly = &assembly,
                                 .verdict = BW_HOLDS,
                                 .verdict_reason = "because"};
    rule = (bw_profile_rule){.criterion = "closing-moisture",
                             .limit = 20.0,
                             .unit = "%",
                             .decides = true,
                             .text = "dry timber",
                             .source = "rule book 2030"};
    profile = (bw_profile){.name = "demo", .rule_count = 1, .rule = &rule};
    member = (bw_member_decision){.member = "stud",
                                  .reading_count = 3,
                                  .has_limit = true,
                                  .allowed = 0.22,
                                  .critical = 0.25,
                                  .highest = 0.16};
    unknown = (bw_unknown){.kind = BW_UNKNOWN_RANGE,
                           .name = "sd of foil",
                           .layer = "foil",
                           .unit = "m",
                           .continuous = true,
                           .as_drawn = 5.0,
                           .seen = true,
                           .flips = true,
                           .flip_value = 1.929,
                           .flip_criterion = "drying-test",
                           .flip_fails = true,
                           .flip_changes_verdict = true};
    margin = (bw_margin){.unknown_count = 1, .unknown = &unknown};
    line = (bw_audit_unknown){&unknown, false, true};
    core.assembly = &assembly;
    core.audit = (bw_audit){.assessment = &assessment,
                            .margin = &margin,
                            .profile = &profile,
                            .date = "2031-05-30",
                            .air_test_evidenced = true,
                            .air_test_text = "no search for leaks",
                            .member_count = 1,
                            .member = &member,
                            .unknown_count = 1,
                            .unknown = &line};
}

static void teardown(void)
{
    bw_arena_release(&core.arena);
}

/* ---- reasons
 * ------------------------------------------------------------------ */

static void nothing(void)
{
}

static void fails(void)
{
    assessment.verdict = BW_FAILS;
}

static void unassessed(void)
{
    assessment.verdict = BW_NOT_ASSESSED;
}

static void marginal(void)
{
    assessment.verdict = BW_MARGINAL;
}

static void no_air_test(void)
{
    core.audit.air_test_evidenced = false;
}

static void no_member(void)
{
    core.audit.member_count = 0;
}

static void no_reading(void)
{
    member.reading_count = 0;
    member.decision = BW_READING_NOT_EVIDENCED;
}

static void no_limit(void)
{
    member.has_limit = false;
    member.decision = BW_READING_NOT_EVIDENCED;
}

static void wet(void)
{
    rule.decides = false;
    member.highest = 0.24;
    member.decision = BW_READING_DRY_AND_READ;
}

static void at_the_rule(void)
{
    member.highest = 0.20;
}

static void over_the_rule(void)
{
    member.highest = 0.21;
}

static void at_a_strict_rule(void)
{
    rule.strict = true;
    member.highest = 0.20;
}

static void a_rule_that_lists(void)
{
    over_the_rule();
    rule.decides = false;
}

static void a_rule_of_something_else(void)
{
    over_the_rule();
    rule.criterion = "cavity-width";
}

static void assumed(void)
{
    line.assumed = true;
}

static void assumed_without_value(void)
{
    assumed();
    unknown.as_drawn = (double)NAN;
}

static void assumed_above(void)
{
    assumed_without_value();
    unknown.flip_above = true;
}

static void assumed_everywhere(void)
{
    assumed_without_value();
    unknown.flips_all = true;
}

static void assumed_number(void)
{
    assumed();
    unknown.unit = "-";
    margin.screening = true;
}

static void assumed_switch(void)
{
    assumed();
    unknown.continuous = false;
    unknown.unit = "";
    unknown.name = "foil: kraft paper";
}

static void assumed_and_harmless(void)
{
    assumed();
    line.decides = false;
}

static void no_margin(void)
{
    core.audit.margin = NULL;
    core.audit.unknown_count = 0;
}

static void no_margin_and_assumed(void)
{
    no_margin();
    assessment.assumed_count = 1;
}

static const struct reason_row {
    void (*change)(void);
    const char *says; /* NULL: released */
} reasons[] = {
    {nothing, NULL},
    {fails, "the verdict is \"fails\": because"},
    {unassessed, "the verdict is \"not assessed\": because"},
    {marginal, NULL},
    {no_air_test, "air tightness: no search for leaks"},
    {no_member, "moisture: not evidenced, no limit and no reading"},
    {no_reading, "moisture of stud: not evidenced, no reading"},
    {no_limit, "moisture of stud: not evidenced, no limit was set"},
    {wet, "moisture of stud: dry and read again (highest reading 24 %, allowed "
          "22 %, critical 25 %)"},
    {at_the_rule, NULL},
    {over_the_rule, "moisture of stud: 21 % is not at most 20 %, as profile "
                    "demo asks (rule book 2030: dry timber)"},
    {at_a_strict_rule, "20 % is not below 20 %"},
    {a_rule_that_lists, NULL},
    {a_rule_of_something_else, NULL},
    {assumed, "layer foil is assumed, or nothing shows it, and the verdict "
              "rests on it: sd of foil at 1.929 m, drying-test fails; look at "
              "it or measure it"},
    {assumed_without_value, "sd of foil below 1.929 m, drying-test fails;"},
    {assumed_above, "sd of foil above 1.929 m, drying-test fails;"},
    {assumed_everywhere, "sd of foil at any value of its range, drying-test"},
    {assumed_number, "sd of foil at 1.929, drying-test fails (by the "
                     "screening);"},
    {assumed_switch, "foil: kraft paper, drying-test fails;"},
    {assumed_and_harmless, NULL},
    {no_margin, NULL},
    {no_margin_and_assumed, "layers are only assumed, and the sensitivity"},
};

START_TEST(each_gap_keeps_it_closed_with_a_reason_of_its_own)
{
    reasons[_i].change();
    ck_assert_int_eq(bw_audit_hold_point(&core, NULL), BW_OK);
    ck_assert_int_eq(core.audit.released, reasons[_i].says == NULL);
    ck_assert_uint_eq(core.audit.open_count, reasons[_i].says != NULL);
    if (reasons[_i].says != NULL)
        HAS(core.audit.open[0].text, reasons[_i].says);
}
END_TEST

/* ---- fingerprints
 * --------------------------------------------------------------- */

static const struct file_row {
    const char *path, *says;
} files[] = {
    {"/", "reading this file for its fingerprint broke off"},
    {"/no/such/file", "cannot read this file for its fingerprint"},
};

START_TEST(what_cannot_be_read_has_no_fingerprint)
{
    bw_error err = {0};
    bw_audit_options options = {.file_count = 1, .file = &files[_i].path};
    ck_assert_int_eq(bw_audit_files(&core, &options, &err), BW_ERR_INPUT);
    HAS(err.message, files[_i].says);
    ck_assert_uint_eq(core.audit.file_count, 0);
}
END_TEST

START_TEST(a_file_named_twice_is_read_once)
{
    static const char *const paths[] = {BW_SOURCE_DIR "/LICENSE", "",
                                        BW_SOURCE_DIR "/LICENSE"};
    bw_audit_options options = {.file_count = 3, .file = paths};
    ck_assert_int_eq(bw_audit_files(&core, &options, NULL), BW_OK);
    ck_assert_uint_eq(core.audit.file_count, 1);
    ck_assert_uint_eq(strlen(core.audit.file[0].sha256), 64);
}
END_TEST

#define ROWS(a) (int)(sizeof(a) / sizeof(a)[0])

SUITE_AROUND("hold_point", setup, teardown,
             EACH(each_gap_keeps_it_closed_with_a_reason_of_its_own,
                  ROWS(reasons)),
             EACH(what_cannot_be_read_has_no_fingerprint, ROWS(files)),
             FACT(a_file_named_twice_is_read_once))
