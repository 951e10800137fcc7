/* National rule sets: every threshold from both sides, and what a rule set
 * may and may not do to a verdict. The thresholds are those of the sources
 * named in assemblies/profiles; the walls are made by hand. */

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/profile.h"
#include "criteria/verdict.h"
#include "criteria_case.h"
#include "has_words.h"
#include "profile/terms.h"
#include "profile_case.h"
#include "suite.h"

static criteria_case wall;
static bw_section_assessment part;

/* The case's wall with a stud, a breather outside, brick and a cavity. */
static bw_material brick, air;
static bw_layer layers[CASE_LAYERS + 2];

static void setup(void)
{
    case_make(&wall);
    brick = case_material("brick", "masonry", 1800, 0.8, 10, true);
    air = case_material("air", "air", 0, 0, 1, false);
    layers[0] = (bw_layer){
        .id = "brick", .name = "brick", .material = &brick, .thickness = 0.1};
    layers[1] = (bw_layer){.id = "cavity",
                           .name = "cavity",
                           .kind = BW_LAYER_CAVITY,
                           .ventilation = BW_VENT_WELL,
                           .material = &air,
                           .thickness = 0.05};
    for (size_t i = 0; i < CASE_LAYERS; i++)
        layers[i + 2] = wall.layer[i];
    layers[2 + CASE_INSULATION].framing = (bw_framing){
        .present = true, .material = &wall.stud, .fraction = 0.1};
    wall.assembly.layer = layers;
    wall.assembly.layer_count = CASE_LAYERS + 2;
    memset(&part, 0, sizeof part);
    part.section = &wall.section;
    part.frsi = 0.9;
}

static void teardown(void)
{
    case_free(&wall);
}

/* Judges anew by a profile; returns the row or NULL. */
static const bw_criterion *judged(const char *profile, bw_criterion_id id)
{
    wall.rows.count = 0;
    wall.rows.profile = profile_named(profile);
    bw_judge_profile(&wall.rows, &wall.assembly, &part);
    bw_verdict_settle(&wall.rows);
    return case_row(&wall, id);
}

static bw_verdict outcome(const char *profile, bw_criterion_id id)
{
    const bw_criterion *row = judged(profile, id);
    ck_assert_ptr_nonnull(row);
    return row->outcome;
}

static void set_sd(size_t slab, double sd)
{
    wall.slab[slab].sd_dry = wall.slab[slab].sd_wet = sd;
}

/* What the reader takes as a rule's limit, against the criteria themselves. */
START_TEST(what_a_rule_may_limit_is_a_criterion_as_it_is_judged)
{
    size_t terms = 0;
    for (size_t i = 0; i < bw_criteria_count(); i++) {
        const bw_criterion_facts *f = bw_criteria_at(i);
        const bool own = (i >= BW_C_STEADY_CHECK && i <= BW_C_FRSI_LEAST) ||
                         i == BW_C_CLOSING;
        for (size_t k = 0; k < f->limit_count; k++)
            ck_assert_msg(f->limit[k].set_by[0] == '\0' ||
                              bw_profile_term(f->limit[k].set_by) != NULL,
                          "%s", f->name);
        if (bw_profile_term(f->name) == NULL)
            continue;
        terms++;
        ck_assert_msg(f->may_be[0] < f->may_be[1], "%s", f->name);
        ck_assert_msg(!f->informative, "%s", f->name);
        ck_assert_msg(own == !bw_profile_standard(f), "%s", f->name);
        ck_assert_msg(own || strcmp(f->limit[0].set_by, f->name) == 0, "%s",
                      f->name);
        ck_assert_msg(own || f->limit[0].value == bw_criterion_loosest(f), "%s",
                      f->name);
    }
    ck_assert_uint_ge(terms, 24);
}
END_TEST

START_TEST(a_shipped_profile_stands_in_the_file_of_its_name)
{
    ck_assert_uint_gt(bw_profiles_count(shipped_profiles()), 5);
    for (size_t i = 1; i < bw_profiles_count(shipped_profiles()); i++) {
        const bw_profile *p = bw_profiles_at(shipped_profiles(), i);
        char file[256];
        snprintf(file, sizeof file, SHIPPED_PROFILES "/%s.xml", p->name);
        ck_assert_str_eq(p->file, file);
        for (size_t k = 0; k < p->rule_count; k++) {
            const bw_profile_rule *rule = &p->rule[k];
            ck_assert_uint_gt(strlen(rule->source), 3);
            ck_assert_int_eq(rule->mark[0], '[');
            ck_assert_int_gt(rule->line, p->line);
        }
    }
}
END_TEST

START_TEST(what_was_not_seen_in_a_good_source_decides_nothing)
{
    for (size_t i = 0; i < bw_profiles_count(shipped_profiles()); i++) {
        const bw_profile *p = bw_profiles_at(shipped_profiles(), i);
        for (size_t k = 0; k < p->rule_count; k++) {
            const bw_profile_rule *rule = &p->rule[k];
            bool judges = rule->criterion[0] != '\0' ||
                          rule->demands != BW_DEMANDS_NOTHING;
            if (strcmp(rule->mark, "[S]") != 0 || !judges)
                ck_assert_msg(!rule->decides, "%s", rule->text);
        }
    }
}
END_TEST

START_TEST(a_misspelt_profile_has_a_near_miss)
{
    const bw_profiles *all = shipped_profiles();
    ck_assert_ptr_null(bw_profiles_find(all, "uk-nbhc"));
    ck_assert_str_eq(bw_profiles_suggest(all, "uk-nbhc"), "uk-nhbc");
    ck_assert_ptr_null(bw_profiles_suggest(all, "atlantis-and-more"));
    ck_assert_ptr_eq(bw_profiles_find(all, NULL), bw_profile_default());
    ck_assert_ptr_eq(bw_profiles_find(all, "default"), bw_profile_default());
    ck_assert_ptr_null(bw_profiles_at(all, bw_profiles_count(all)));
}
END_TEST

/* ---- profiles made by hand ---------------------------------------------- */

static bw_profile_rule own_rule;
static const bw_profile own = {
    .name = "own", .title = "made here", .rule_count = 1, .rule = &own_rule};

static void make_rule(const char *criterion, double limit, const char *unit,
                      bool strict)
{
    own_rule = (bw_profile_rule){.criterion = criterion,
                                 .limit = limit,
                                 .unit = unit,
                                 .strict = strict,
                                 .decides = true,
                                 .text = "as asked",
                                 .source = "a body",
                                 .edition = "2031",
                                 .mark = "[S]"};
}

static const struct unsound {
    const char *criterion;
    double limit;
    const char *unit;
    bool strict;
    const char *says;
} unsound[] = {
    {"inner-ds", 10.0, "m", false, "did you mean inner-sd?"},
    {"annual-balance", 0.0, "kg/m2", false, "no rule can be on"},
    {"inner-sd", 10.0, "mm", false, "in another unit"},
    {"inner-sd", 10.0, "m", true, "judged otherwise"},
    {"inner-sd", 0.0, "m", false, "no such limit"},
    {"inner-sd", (double)NAN, "m", false, "no such limit"},
    {"steady-design-check", 100.0, "%", true, "no steady check"},
    {"wood-moisture", 20.5, "%", true, "loosens"},
    {"drying-reserve", 0.05, "kg/(m2 a)", false, "loosens"},
};

START_TEST(an_unsound_profile_is_refused_before_anything_is_judged)
{
    const struct unsound *t = &unsound[_i];
    const bw_assessment_options options = {.profile = &own,
                                           .no_transient = true};
    bw_assessment *a = NULL;
    bw_error err = {0};
    make_rule(t->criterion, t->limit, t->unit, t->strict);
    ck_assert_int_eq(
        bw_assess(&a, &wall.assembly, &wall.climate, &options, &err),
        BW_ERR_INPUT);
    ck_assert_ptr_null(a);
    ck_assert_msg(strstr(err.message, t->says) != NULL, "%s", err.message);
}
END_TEST

START_TEST(a_default_limit_is_tightened_for_all_and_decides)
{
    bw_error err;
    make_rule("wood-moisture", 18.0, "%", true);
    ck_assert_int_eq(bw_profile_check(&own, &err), BW_OK);
    own_rule.decides = false;
    ck_assert_int_eq(bw_profile_check(&own, &err), BW_ERR_INPUT);
    own_rule.decides = true;
    own_rule.applies = BW_FOR_ROOFS;
    ck_assert_int_eq(bw_profile_check(&own, &err), BW_ERR_INPUT);
    own_rule.applies = BW_FOR_ALL;
    own_rule.mark = "[W]";
    ck_assert_int_eq(bw_profile_check(&own, &err), BW_ERR_INPUT);
}
END_TEST

static bool as_default(const bw_profile *profile)
{
    bool same = true;
    for (int id = 0; id < BW_C_COUNT; id++)
        for (size_t k = 0; k < bw_criteria_at((size_t)id)->limit_count; k++)
            same = same && bw_limit_under(profile, (bw_criterion_id)id, k) ==
                               bw_limit_under(NULL, (bw_criterion_id)id, k);
    return same;
}

/* Each default limit that a rule can tighten: the loosest that a file may ask
 * for changes nothing, a stricter one something, and looser than the default
 * nothing again. */
START_TEST(no_rule_loosens_a_limit)
{
    size_t tightened = 0;
    for (size_t i = 0; i < bw_criteria_count(); i++) {
        const bw_criterion_facts *term = bw_criteria_at(i);
        if (bw_profile_term(term->name) == NULL || !bw_profile_standard(term))
            continue;
        const double loosest = bw_criterion_loosest(term);
        const double step = 0.01 * (term->may_be[1] - term->may_be[0]) *
                            (bw_bound_least(term->bound) ? 1 : -1);
        tightened++;
        make_rule(term->name, loosest, term->unit,
                  bw_bound_strict(term->bound));
        ck_assert_msg(as_default(&own), "%s", term->name);
        own_rule.limit = loosest + step;
        ck_assert_msg(!as_default(&own), "%s", term->name);
        own_rule.limit = loosest - step;
        ck_assert_msg(as_default(&own), "%s", term->name);
    }
    ck_assert_uint_ge(tightened, 17);
}
END_TEST

static const bw_criterion *assessed_row(bw_assessment **a, const char *name)
{
    const bw_assessment_options options = {
        .profile = &own, .no_advice = true, .no_transient = true};
    bw_error err = {0};
    bw_status status = bw_assess(a, &wall.assembly, &wall.climate, &options,
                                 &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    for (size_t i = 0; i < (*a)->criterion_count; i++)
        if (strcmp((*a)->criterion[i].criterion, name) == 0)
            return &(*a)->criterion[i];
    ck_abort_msg("no row %s", name);
}

START_TEST(a_tightened_limit_judges_and_its_row_names_both_rules)
{
    bw_assessment *a = NULL;
    make_rule("drying-reserve", 9.5, "kg/(m2 a)", false);
    const bw_criterion *row = assessed_row(&a, "drying-reserve");
    ck_assert_double_eq(row->limit, 9.5);
    ck_assert_int_eq(row->outcome, BW_FAILS);
    ck_assert_ptr_nonnull(strstr(row->rule, "a body: as asked [S]"));
    ck_assert_ptr_nonnull(strstr(row->rule, "DIN 68800-2"));
    bw_assessment_free(a);
}
END_TEST

/* 0.5 kg/m2 is the default's limit at faces that do not absorb. */
START_TEST(a_rule_is_named_by_the_rows_it_limits_and_by_no_other)
{
    bw_assessment *a = NULL;
    size_t named = 0, as_low = 0;
    make_rule("condensate-absorbing", 0.5, "kg/m2", false);
    assessed_row(&a, "condensate-absorbing");
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *row = &a->criterion[i];
        const bool its = strcmp(row->criterion, "condensate-absorbing") == 0 ||
                         strcmp(row->criterion, "period-condensate") == 0;
        ck_assert_msg((strstr(row->rule, "a body: as asked") != NULL) == its,
                      "%s", row->criterion);
        named += its;
        as_low += row->has_limit && row->limit == 0.5;
    }
    ck_assert_uint_gt(named, 0);
    ck_assert_uint_gt(as_low, named);
    bw_assessment_free(a);
}
END_TEST

/* The default asks 0.250 kg/(m2 a) of a roof, more than this rule does. */
START_TEST(a_rule_that_the_default_outdoes_is_not_named)
{
    bw_assessment *a = NULL;
    wall.assembly.element = BW_ELEMENT_ROOF;
    make_rule("drying-reserve", 0.150, "kg/(m2 a)", false);
    const bw_criterion *row = assessed_row(&a, "drying-reserve");
    ck_assert_double_eq(row->limit, 0.250);
    ck_assert_ptr_null(strstr(row->rule, "a body"));
    bw_assessment_free(a);
}
END_TEST

START_TEST(an_assessment_names_its_profile_and_has_its_rows)
{
    bw_assessment *a = NULL;
    bw_assessment_options options = {.profile = profile_named("no"),
                                     .no_advice = true,
                                     .no_transient = true};
    size_t rows = 0;
    ck_assert_int_eq(
        bw_assess(&a, &wall.assembly, &wall.climate, &options, NULL), BW_OK);
    ck_assert_str_eq(a->profile, "no");
    for (size_t i = 0; i < a->criterion_count; i++)
        rows += strcmp(a->criterion[i].criterion, "inner-sd") == 0;
    ck_assert_uint_eq(rows, a->section_count);
    ck_assert_int_eq(a->verdict, BW_FAILS); /* a foil of sd 2 m */
    bw_assessment_free(a);
}
END_TEST

START_TEST(the_default_adds_no_row)
{
    ck_assert_ptr_null(judged(NULL, BW_C_SD_RATIO));
    ck_assert_uint_eq(wall.rows.count, 0);
}
END_TEST

static const struct least_inner {
    const char *profile;
    double sd;
} least_inner[] = {
    {"no", 10.0}, {"fr-2011", 18.0}, {"ca-obc", 2.0e-10 / 60e-12}};

START_TEST(inner_sd_fails_just_below_its_limit)
{
    const struct least_inner *t = &least_inner[_i];
    set_sd(CASE_FOIL, t->sd * 0.999);
    ck_assert_int_eq(outcome(t->profile, BW_C_INNER_SD), BW_FAILS);
    set_sd(CASE_FOIL, t->sd * 1.0001);
    ck_assert_int_eq(outcome(t->profile, BW_C_INNER_SD), BW_MARGINAL);
    set_sd(CASE_FOIL, t->sd * 1.2);
    ck_assert_int_eq(outcome(t->profile, BW_C_INNER_SD), BW_HOLDS);
}
END_TEST

START_TEST(two_layers_inside_do_not_make_one_barrier)
{
    set_sd(CASE_FOIL, 6.0);
    set_sd(CASE_LINING, 6.0);
    ck_assert_int_eq(outcome("no", BW_C_INNER_SD), BW_FAILS);
}
END_TEST

/* Nor does what lies outside, or the insulation itself. */
START_TEST(a_tight_layer_outside_is_no_barrier_inside)
{
    set_sd(CASE_SHEATHING, 100.0);
    set_sd(CASE_INSULATION, 100.0);
    set_sd(CASE_FOIL, 6.0);
    ck_assert_double_eq(judged("no", BW_C_INNER_SD)->value, 6.0);
    wall.section.slab_count = CASE_FOIL; /* nothing inside the insulation */
    ck_assert_double_eq(judged("no", BW_C_INNER_SD)->value, 0.0);
    wall.section.slab_count = CASE_LAYERS;
}
END_TEST

/* Outer sd 0.5 m; inner: foil and lining. */
static void set_ratio(double ratio)
{
    set_sd(CASE_SHEATHING, 0.5);
    set_sd(CASE_FOIL, 0.5 * ratio - 0.1);
    set_sd(CASE_LINING, 0.1);
}

START_TEST(the_ratio_fails_just_below_its_limit)
{
    static const struct {
        const char *profile;
        int humidity_class;
        double limit;
    } cases[] = {
        {"fr-2019", 3, 5.0}, {"dk", 1, 5.0},  {"dk", 3, 5.0},
        {"dk", 4, 10.0},     {"dk", 5, 10.0},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        wall.assembly.indoors.humidity_class = cases[i].humidity_class;
        set_ratio(cases[i].limit * 0.999);
        ck_assert_int_eq(outcome(cases[i].profile, BW_C_SD_RATIO), BW_FAILS);
        set_ratio(cases[i].limit * 1.001);
        ck_assert_int_eq(outcome(cases[i].profile, BW_C_SD_RATIO), BW_MARGINAL);
        set_ratio(cases[i].limit * 1.2);
        ck_assert_int_eq(outcome(cases[i].profile, BW_C_SD_RATIO), BW_HOLDS);
    }
}
END_TEST

START_TEST(a_rule_by_class_without_a_class_is_not_assessed_once)
{
    wall.assembly.indoors.kind = BW_INDOOR_RH;
    const bw_criterion *row = judged("dk", BW_C_SD_RATIO);
    ck_assert_ptr_nonnull(row);
    ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
    ck_assert(row->decides);
    ck_assert_uint_eq(wall.rows.count, 1);
}
END_TEST

START_TEST(rules_of_timber_construction_leave_masonry_alone)
{
    layers[2 + CASE_INSULATION].framing.present = false;
    const bw_criterion *row = judged("no", BW_C_INNER_SD);
    ck_assert_ptr_nonnull(row);
    ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
    ck_assert(!row->decides);
}
END_TEST

START_TEST(a_weak_rule_is_shown_and_never_fails)
{
    set_ratio(1.0);
    const bw_criterion *row = judged("se", BW_C_SD_RATIO);
    ck_assert_ptr_nonnull(row);
    ck_assert(!row->decides);
    ck_assert_int_eq(row->outcome, BW_FAILS);
    ck_assert_int_eq(row->verdict, BW_NOT_ASSESSED);
    ck_assert_ptr_nonnull(strstr(row->rule, "[W]"));
    ck_assert_double_eq(row->limit, 5.0);
    wall.assembly.element = BW_ELEMENT_ROOF;
    ck_assert_double_eq(judged("se", BW_C_SD_RATIO)->limit, 10.0);
}
END_TEST

/* A membrane outside the insulation: the sheathing slab made one. */
START_TEST(a_breather_must_be_below_its_limit)
{
    const bw_criterion *none = judged("uk-nhbc", BW_C_BREATHER_SD);
    ck_assert_ptr_nonnull(none);
    ck_assert_int_eq(none->verdict, BW_NOT_ASSESSED);
    ck_assert(none->decides);
    wall.slab[CASE_SHEATHING].kind = BW_LAYER_MEMBRANE;
    set_sd(CASE_SHEATHING, 0.12); /* 0.6 MN.s/g */
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_BREATHER_SD), BW_FAILS);
    set_sd(CASE_SHEATHING, 0.119);
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_BREATHER_SD), BW_MARGINAL);
    set_sd(CASE_SHEATHING, 0.05);
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_BREATHER_SD), BW_HOLDS);
}
END_TEST

START_TEST(a_cavity_of_exactly_its_width_holds)
{
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_CAVITY_WIDTH), BW_HOLDS);
    layers[1].thickness = 0.049;
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_CAVITY_WIDTH), BW_FAILS);
    brick.group = "wood";
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_CAVITY_WIDTH), BW_HOLDS);
    layers[1].thickness = 0.024;
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_CAVITY_WIDTH), BW_FAILS);
    layers[1].thickness = 0.1;
    layers[1].ventilation = BW_VENT_NONE;
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_CAVITY_WIDTH), BW_FAILS);
    wall.assembly.element = BW_ELEMENT_ROOF;
    ck_assert_ptr_null(judged("uk-nhbc", BW_C_CAVITY_WIDTH));
}
END_TEST

START_TEST(the_temperature_factor_has_a_least_value)
{
    part.frsi = 0.699;
    ck_assert_int_eq(outcome("de-din4108", BW_C_FRSI_LEAST), BW_FAILS);
    part.frsi = 0.701;
    ck_assert_int_eq(outcome("de-din4108", BW_C_FRSI_LEAST), BW_MARGINAL);
    part.frsi = 0.74;
    ck_assert_int_eq(outcome("de-din4108", BW_C_FRSI_LEAST), BW_HOLDS);
    ck_assert(!judged("uk-nhbc", BW_C_FRSI_LEAST)->decides);
}
END_TEST

/* By hand: the plane between sheathing and wool meets saturation when
 * sd_total = (p_i - p_e) sd_sheathing / (psat(theta) - p_e). */
START_TEST(the_steady_check_fails_where_the_plane_meets_saturation)
{
    double r_total = 0.04 + 0.25, others = 0.0;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        r_total += wall.slab[i].resistance;
        others += i == CASE_FOIL ? 0.0 : wall.slab[i].sd_dry;
    }
    double theta = -2.0 + 23.0 * (0.04 + wall.slab[CASE_SHEATHING].resistance) /
                              r_total;
    double p_i = 0.60 * bw_saturation_pressure(21.0);
    double p_e = 0.95 * bw_saturation_pressure(-2.0);
    double total = (p_i - p_e) * wall.slab[CASE_SHEATHING].sd_dry /
                   (bw_saturation_pressure(theta) - p_e);
    ck_assert_double_gt(total, others);
    set_sd(CASE_FOIL, (total - others) * 0.999);
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_STEADY_CHECK), BW_FAILS);
    set_sd(CASE_FOIL, (total - others) * 1.001);
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_STEADY_CHECK), BW_MARGINAL);
    set_sd(CASE_FOIL, (total - others) * 2.0);
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_STEADY_CHECK), BW_HOLDS);
    /* inside, the wet-cup value counts when it is the lower */
    wall.slab[CASE_FOIL].sd_wet = (total - others) * 0.9;
    ck_assert_int_eq(outcome("uk-nhbc", BW_C_STEADY_CHECK), BW_FAILS);
}
END_TEST

/* The steady check written a second time: NHBC's climate, -2 degC and 95 % RH
 * outside, 21 degC and 60 % inside; layers cut into strips of at most
 * 0.25 m2 K/W; the insulation and what lies inside it by the lower of its two
 * sd values, what lies outside by the higher. Surfaces are no planes. */
typedef struct dampest {
    double rh;
    size_t slab;
    double share; /* of the slab's thickness */
} dampest;

static dampest dampest_plane(size_t insulation)
{
    double r = 0.04, sd = 0.0, r_total = 0.04 + 0.25, sd_total = 0.0;
    double part_sd[CASE_LAYERS];
    for (size_t i = 0; i < wall.section.slab_count; i++) {
        const bw_slab *s = &wall.section.slab[i];
        part_sd[i] = i < insulation ? fmax(s->sd_dry, s->sd_wet)
                                    : fmin(s->sd_dry, s->sd_wet);
        r_total += s->resistance;
        sd_total += part_sd[i];
    }
    double p_e = 0.95 * bw_saturation_pressure(-2.0);
    double p_i = 0.60 * bw_saturation_pressure(21.0);
    dampest found = {0};
    for (size_t i = 0; i < wall.section.slab_count; i++) {
        double own = wall.section.slab[i].resistance;
        int strips = own > 0.25 ? (int)ceil(own / 0.25) : 1;
        for (int k = 1; k <= strips; k++) {
            double share = k / (double)strips;
            double theta = -2.0 + 23.0 * (r + share * own) / r_total;
            double p = p_e + (p_i - p_e) * (sd + share * part_sd[i]) / sd_total;
            double rh = 100.0 * p / bw_saturation_pressure(theta);
            bool surface = k == strips && i + 1 == wall.section.slab_count;
            if (!surface && rh > found.rh)
                found = (dampest){rh, i, share};
        }
        r += own;
        sd += part_sd[i];
    }
    return found;
}

static void is_as_computed_here(size_t insulation)
{
    const bw_criterion *row = judged("uk-nhbc", BW_C_STEADY_CHECK);
    dampest is = dampest_plane(insulation);
    ck_assert_double_eq_tol(row->value, is.rh, 1e-9);
    bw_plane_at at = {is.slab, is.share * wall.section.slab[is.slab].thickness,
                      is.share == 1.0};
    char label[128];
    bw_plane_label(label, sizeof label, &wall.section, at);
    ck_assert_msg(strstr(row->reason, label) != NULL, "'%s' in: %s", label,
                  row->reason);
    NAMES(row->reason, "95 %");
}

START_TEST(the_steady_check_takes_the_cautious_sd_of_each_layer)
{
    is_as_computed_here(CASE_INSULATION);
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        double sd = wall.slab[i].sd_dry;
        wall.slab[i].sd_wet = 0.3 * sd;
        is_as_computed_here(CASE_INSULATION);
        wall.slab[i].sd_wet = 3.0 * sd;
        is_as_computed_here(CASE_INSULATION);
        wall.slab[i].sd_wet = sd;
    }
}
END_TEST

/* Solid walls of one layer: the dampest plane lies inside it. */
START_TEST(the_steady_check_sees_inside_a_layer)
{
    static const double resistance[] = {0.26, 0.51, 1.0, 2.6, 4.0, 7.3};
    wall.section.slab = &wall.slab[CASE_INSULATION];
    wall.section.slab_count = 1;
    for (size_t i = 0; i < COUNT(resistance); i++) {
        wall.slab[CASE_INSULATION].resistance = resistance[i];
        is_as_computed_here(0);
    }
}
END_TEST

/* By hand, at other climates: between wool and foil, all vapour resistance in
 * the foil inside, the vapour pressure is that of outdoors. */
START_TEST(the_steady_check_is_made_at_the_climates_of_its_rule)
{
    static const struct {
        bw_profile_steady at;
        double phi_e;
        bool said;
    } cases[] = {
        {{21.0, 0.60, -2.0, 0.0}, 0.95, true},
        {{24.0, 0.40, -10.0, 0.80}, 0.80, false},
        {{20.0, 0.50, 5.0, 1.00}, 1.00, false},
    };
    wall.section.slab = &wall.slab[CASE_INSULATION];
    wall.section.slab_count = 2; /* wool and foil */
    set_sd(CASE_INSULATION, 0.0);
    wall.slab[CASE_FOIL].resistance = 0.0;
    wall.slab[CASE_INSULATION].resistance = 0.2; /* one strip */
    for (size_t i = 0; i < COUNT(cases); i++) {
        const bw_profile_steady *at = &cases[i].at;
        make_rule("steady-design-check", 100.0, "%", true);
        own_rule.steady = *at;
        wall.rows.count = 0;
        wall.rows.profile = &own;
        bw_judge_profile(&wall.rows, &wall.assembly, &part);
        const bw_criterion *row = case_row(&wall, BW_C_STEADY_CHECK);
        double theta = at->theta_e + (at->theta_i - at->theta_e) *
                                         (0.04 + 0.2) / (0.04 + 0.2 + 0.25);
        double p = cases[i].phi_e * bw_saturation_pressure(at->theta_e);
        ck_assert_double_eq_tol(
            row->value, 100.0 * p / bw_saturation_pressure(theta), 1e-9);
        ck_assert_int_eq(strstr(row->reason, "95 %") != NULL, cases[i].said);
    }
}
END_TEST

START_TEST(without_a_ventilated_cavity_its_width_is_none)
{
    layers[1].ventilation = BW_VENT_NONE;
    const bw_criterion *row = judged("uk-nhbc", BW_C_CAVITY_WIDTH);
    ck_assert_double_eq(row->value, 0.0);
    ck_assert_double_eq(row->margin, -50.0);
    ck_assert_int_eq(row->outcome, BW_FAILS);
}
END_TEST

START_TEST(a_section_without_layers_meets_no_rule)
{
    wall.section.slab_count = 0;
    for (size_t i = 0; i < bw_profiles_count(shipped_profiles()); i++) {
        judged(bw_profiles_at(shipped_profiles(), i)->name, BW_C_INNER_SD);
        ck_assert_uint_eq(wall.rows.count, 0);
    }
}
END_TEST

SUITE_AROUND("profile", setup, teardown,
             FACT(what_a_rule_may_limit_is_a_criterion_as_it_is_judged),
             FACT(a_shipped_profile_stands_in_the_file_of_its_name),
             FACT(what_was_not_seen_in_a_good_source_decides_nothing),
             FACT(a_misspelt_profile_has_a_near_miss),
             EACH(an_unsound_profile_is_refused_before_anything_is_judged,
                  COUNT(unsound)),
             FACT(a_default_limit_is_tightened_for_all_and_decides),
             FACT(no_rule_loosens_a_limit),
             FACT(a_tightened_limit_judges_and_its_row_names_both_rules),
             FACT(a_rule_is_named_by_the_rows_it_limits_and_by_no_other),
             FACT(a_rule_that_the_default_outdoes_is_not_named),
             FACT(an_assessment_names_its_profile_and_has_its_rows),
             FACT(the_default_adds_no_row),
             EACH(inner_sd_fails_just_below_its_limit, COUNT(least_inner)),
             FACT(two_layers_inside_do_not_make_one_barrier),
             FACT(a_tight_layer_outside_is_no_barrier_inside),
             FACT(the_ratio_fails_just_below_its_limit),
             FACT(a_rule_by_class_without_a_class_is_not_assessed_once),
             FACT(rules_of_timber_construction_leave_masonry_alone),
             FACT(a_weak_rule_is_shown_and_never_fails),
             FACT(a_breather_must_be_below_its_limit),
             FACT(a_cavity_of_exactly_its_width_holds),
             FACT(the_temperature_factor_has_a_least_value),
             FACT(the_steady_check_fails_where_the_plane_meets_saturation),
             FACT(the_steady_check_takes_the_cautious_sd_of_each_layer),
             FACT(the_steady_check_sees_inside_a_layer),
             FACT(the_steady_check_is_made_at_the_climates_of_its_rule),
             FACT(without_a_ventilated_cavity_its_width_is_none),
             FACT(a_section_without_layers_meets_no_rule))
