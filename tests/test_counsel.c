/* Advice written a second time, from docs/methods.md ("Advice"): every change
 * is tried here one by one and what is advised compared with what it should
 * be. */

#include <math.h>
#include <stdlib.h>

#include "bothways/bothways.h"
#include "criteria/assessing.h"
#include "criteria/propose.h"
#include "one_case.h"
#include "profile_case.h"
#include "suite.h"

static bw_proposal change[BW_PROPOSALS_MOST];
static size_t count;

/* ---- what each change would do ------------------------------------------ */

typedef struct mark {
    size_t fails, marginal, unknown;
    double margin; /* the worst, as a share of its limit */
    bool gains;    /* a figure that was bad gains something */
} mark;

static void judged(bw_core *core, const bw_assembly *assembly)
{
    const bw_run_effort effort = {.no_bound = false};
    ck_assert_ptr_nonnull(assembly);
    ck_assert_int_eq(
        bw_core_steady(core, assembly, &c.climate, NULL, &effort, NULL), BW_OK);
    ck_assert_int_eq(bw_core_judge(core, false, NULL), BW_OK);
}

/* A margin as a share of its limit; per 0.1 of its unit where that is zero. */
static double share(const bw_criterion *row)
{
    return row->margin / (fabs(row->limit) > 0.0 ? fabs(row->limit) : 0.1);
}

/* "A row that was bad is better only by a number of its own that moved by 5 %
 * of its limit": its verdict after the change. */
static bw_verdict verdict_after(const bw_criterion *was, const bw_criterion *is)
{
    bool number = is != NULL && is->outcome != BW_NOT_ASSESSED;
    if (!number || (!is->decides && is->outcome == BW_FAILS))
        return was->verdict;
    bw_verdict now = is->decides ? is->verdict : BW_HOLDS;
    bool better = was->verdict == BW_FAILS
                      ? now != BW_FAILS
                      : now != BW_FAILS && now != BW_MARGINAL;
    bool moved = !was->has_limit || !is->has_limit ||
                 share(is) - share(was) >= 0.05;
    return better && !moved ? was->verdict : now;
}

static bool bad(const bw_criterion *row)
{
    return row->decides &&
           (row->verdict == BW_FAILS || row->verdict == BW_MARGINAL);
}

/* 2: something that decides fails, 1: is marginal. */
static int badness(const bw_criterion *row)
{
    return !bad(row) ? 0 : row->verdict == BW_FAILS ? 2 : 1;
}

static int worst_of(const bw_rows *rows)
{
    int worst = 0;
    for (size_t i = 0; i < rows->count; i++)
        if (badness(&rows->row[i].row) > worst)
            worst = badness(&rows->row[i].row);
    return worst;
}

/* By the steady methods. The worst margin is that of what fails while something
 * does, then of what is marginal. A limit of zero that holds has no margin. */
static mark marked(const bw_core *before, const bw_assembly *assembly)
{
    bw_core core = {0};
    mark m = {.margin = HUGE_VAL};
    size_t unknown = 0;
    judged(&core, assembly);
    const int worst = worst_of(&core.rows), was_worst = worst_of(&before->rows);
    for (size_t i = 0; i < core.rows.count; i++) {
        const bw_criterion *row = &core.rows.row[i].row;
        const bw_row *old = bw_rows_find(&before->rows, row->section,
                                         core.rows.row[i].id);
        if (!row->decides)
            continue;
        bool fails = row->verdict == BW_FAILS;
        if (old == NULL || !bad(&old->row)) {
            m.fails += fails;
            m.marginal += row->verdict == BW_MARGINAL;
        }
        unknown += row->outcome == BW_NOT_ASSESSED;
        if (badness(row) == worst && row->has_limit &&
            (fails || fabs(row->limit) > 0.0))
            m.margin = fmin(m.margin, share(row));
    }
    for (size_t i = 0; i < before->rows.count; i++) {
        const bw_criterion *was = &before->rows.row[i].row;
        const bw_row *row = bw_rows_find(&core.rows, was->section,
                                         before->rows.row[i].id);
        const bw_criterion *is = row != NULL ? &row->row : NULL;
        if (was->decides && was->outcome == BW_NOT_ASSESSED && unknown > 0)
            unknown--;
        if (!bad(was))
            continue;
        bw_verdict now = verdict_after(was, is);
        m.fails += now == BW_FAILS;
        m.marginal += now == BW_MARGINAL;
        if (badness(was) < was_worst)
            continue; /* nothing is said of it beside what fails */
        m.gains = m.gains || (is != NULL && is->has_value && was->has_value &&
                              ((now != was->verdict && now != BW_FAILS) ||
                               (was->has_limit && is->has_limit &&
                                share(is) - share(was) >= 0.05)));
    }
    m.unknown = unknown;
    bw_core_release(&core);
    return m;
}

static bool better(mark a, mark b)
{
    if (a.fails + a.unknown != b.fails + b.unknown)
        return a.fails + a.unknown < b.fails + b.unknown;
    if (a.fails > 0 && b.fails > 0 && a.margin != b.margin)
        return a.margin > b.margin;
    return a.marginal < b.marginal ||
           (a.marginal == b.marginal && a.margin > b.margin);
}

/* "advised if a figure gains and fewer criteria fail, or, of a wall of which
 * none does, fewer are marginal, or as many and the worst margin gains 5 % of
 * the limit and 10 % of what is missing". */
static bool worth(mark before, mark after)
{
    double gain = after.margin - before.margin;
    size_t open = after.fails + after.unknown;
    if (!after.gains || open > before.fails)
        return false;
    if (open < before.fails)
        return true;
    if (before.fails == 0 && after.marginal != before.marginal)
        return after.marginal < before.marginal;
    return gain > 0.05 && gain > 0.10 * fabs(before.margin);
}

typedef struct
try {
    size_t best; /* of change[]; the first of those as good */
    mark mark;
}
try;

/* The best of each kind that is worth saying, the best first. */
static size_t singles(try to[BW_PROPOSAL_KINDS], const bw_core *wall,
                      mark before)
{
    size_t found = 0;
    for (int kind = 0; kind < BW_PROPOSAL_KINDS; kind++) {
        try best = {count, {0}};
        for (size_t i = 0; i < count; i++) {
            if ((int)change[i].kind != kind)
                continue;
            mark m = marked(wall, bw_change_apply(&c.arena, &c.assembly,
                                                  &change[i].change));
            if (best.best == count || better(m, best.mark))
                best = (try){i, m};
        }
        if (best.best == count || !worth(before, best.mark))
            continue;
        size_t k = found++;
        for (; k > 0 && better(best.mark, to[k - 1].mark); k--)
            to[k] = to[k - 1];
        to[k] = best;
    }
    return found;
}

/* The best two of them together. */
static mark best_pair(const bw_core *wall, const try *single, size_t found)
{
    mark best = {.fails = SIZE_MAX / 2};
    for (size_t i = 0; i < found; i++)
        for (size_t k = 0; k < found; k++) {
            const bw_proposal *first = &change[single[i].best];
            const bw_proposal *second = &change[single[k].best];
            if (first->kind >= second->kind)
                continue; /* the lower kind first */
            mark m = marked(
                wall, bw_change_apply(&c.arena,
                                      bw_change_apply(&c.arena, &c.assembly,
                                                      &first->change),
                                      &second->change));
            if (better(m, best))
                best = m;
        }
    return best;
}

static bool is_pair(const bw_advice *advice)
{
    return strstr(advice->change, ", and ") != NULL;
}

/* What is said, from the `at`th on, against the singles found here. */
static void check_singles(const bw_assessment *a, size_t at, const try *single,
                          size_t found)
{
    size_t expected = found + at < 3 ? found + at : 3;
    ck_assert_uint_eq(a->advice_count, expected);
    for (size_t i = at; i < a->advice_count; i++) {
        const bw_advice *one = &a->advice[i];
        ck_assert(!is_pair(one));
        ck_assert_uint_eq(one->fails_after, single[i - at].mark.fails);
        ck_assert_double_eq_tol(one->worst_margin_after,
                                single[i - at].mark.margin, 1e-9);
        bool said = false;
        for (size_t k = 0; k < found; k++) {
            const char *text = change[single[k].best].text;
            size_t length = strlen(text);
            said = said || (strncmp(one->change, text, length) == 0 &&
                            strcmp(one->change + length, ".") == 0);
        }
        ck_assert_msg(said, "%s", one->change);
    }
}

/* The pair, if it is told: how many. */
static size_t check_pair(const bw_assessment *a, const bw_core *wall,
                         const try *single, size_t found)
{
    if (found < 2 || single[0].mark.fails == 0)
        return 0;
    mark pair = best_pair(wall, single, found);
    if (pair.fails >= single[0].mark.fails)
        return 0;
    ck_assert(is_pair(&a->advice[0]));
    ck_assert_uint_eq(a->advice[0].fails_after, pair.fails);
    ck_assert_double_eq_tol(a->advice[0].worst_margin_after, pair.margin, 1e-9);
    return 1;
}

/* The wall as it is now: is it advised as written at the head? Returns how
 * much advice there is of which nothing but the margin is better. */
static size_t check_wall(void)
{
    const bw_assessment_options options = {.no_transient = true};
    bw_assessment *a = NULL;
    bw_core wall = {0};
    try single[BW_PROPOSAL_KINDS];
    size_t by_margin = 0;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    count = bw_propose(change, &c.rows, &c.assembly);
    if (a->verdict == BW_FAILS || a->verdict == BW_MARGINAL) {
        judged(&wall, &c.assembly);
        mark before = marked(&wall, &c.assembly);
        size_t found = singles(single, &wall, before);
        ck_assert_uint_eq(a->changes_tried, count);
        check_singles(a, check_pair(a, &wall, single, found), single, found);
        for (size_t i = 0; i < a->advice_count; i++) {
            const bw_advice *one = &a->advice[i];
            ck_assert_uint_eq(one->fails_before, before.fails);
            ck_assert_double_eq_tol(one->worst_margin_before, before.margin,
                                    1e-9);
            by_margin += one->fails_after == before.fails;
        }
        bw_core_release(&wall);
    } else {
        ck_assert_uint_eq(a->advice_count, 0);
    }
    bw_assessment_free(a);
    return by_margin;
}

static void make_wall(int humidity_class, double foil, double mu)
{
    case_free(&c);
    case_make(&c);
    c.assembly.indoors.humidity_class = humidity_class;
    c.material[CASE_FOIL].sd = case_value(foil);
    c.material[CASE_SHEATHING].mu_dry = case_value(mu);
    c.material[CASE_SHEATHING].mu_wet = case_value(mu);
}

START_TEST(what_is_advised_is_what_trying_everything_gives)
{
    static const double foil[] = {0.1,  0.3,  0.9,   2.7,   8.1,
                                  24.3, 72.9, 218.7, 656.0, 1968.0};
    const int nth = SANITIZED_FEWER(_i, 7 * _i) %
                    50; /* each class, each foil */
    int humidity_class = 1 + nth / (int)COUNT(foil);
    for (double mu = 5.0; mu < 2e5; mu *= 3.5)
        for (int face = 0; face < 2; face++) {
            make_wall(humidity_class, foil[nth % (int)COUNT(foil)], mu);
            if (face == 1) /* masonry is left alone */
                c.material[CASE_SHEATHING].group = "masonry";
            check_wall();
        }
}
END_TEST

/* Walls whose criteria fail by more or less: what gains about five points of
 * the limit is said, or not. */
START_TEST(five_points_more_are_worth_saying)
{
    size_t by_margin = 0;
    for (double foil = 0.3; foil < 200.0; foil *= 2.0)
        for (double mu = 150.0; mu < 300.0; mu *= 1.1) {
            make_wall(4, foil, mu);
            by_margin += check_wall();
        }
    ck_assert_uint_gt(by_margin, 0);
}
END_TEST

/* ---- where the simulation decides --------------------------------------- */

typedef struct runs {
    double last;
    size_t count;
} runs;

static bool count_runs(void *payload, double fraction_done)
{
    runs *r = payload;
    r->count += r->count == 0 || fraction_done < r->last;
    r->last = fraction_done;
    return true;
}

static bw_material air;
static bw_layer layer[CASE_LAYERS + 1];

/* A wall to which every kind of change applies, beyond the monthly method:
 * panel, still cavity, hygroscopic wool, foil and board; leaky, in the rain. */
static void make_simulated(double foil, double mu, double moisture)
{
    static const double rh[] = {0.5, 0.8}, u[] = {0.06, 0.12};
    air = case_material("air", "air", 0, 0, 1, false);
    c.material[CASE_INSULATION].hygroscopic = true;
    for (size_t i = 0; i < CASE_LAYERS; i++) {
        c.material[i].sorption = (bw_curve){
            .count = 2, .x = rh, .y = u, .source = "test", .note = ""};
        c.material[i].specific_heat = case_value(1600.0);
        c.material[i].free_saturation = case_value(300.0);
        c.layer[i].has_initial_moisture = c.layer[i].initial_is_rh = true;
        c.layer[i].initial_moisture = moisture;
        layer[i == 0 ? 0 : i + 1] = c.layer[i];
    }
    layer[1] = (bw_layer){.id = "gap",
                          .name = "gap",
                          .kind = BW_LAYER_CAVITY,
                          .material = &air,
                          .thickness = 0.03,
                          .evidence = BW_EVIDENCE_TABULATED,
                          .source = ""};
    c.material[CASE_FOIL].sd = case_value(foil);
    c.material[CASE_SHEATHING].mu_dry = case_value(mu);
    c.material[CASE_SHEATHING].mu_wet = case_value(mu);
    c.assembly.layer = layer;
    c.assembly.layer_count = CASE_LAYERS + 1;
    c.assembly.air_leakage = (bw_air_leakage){true, 5.0 / 3600.0, 5.0, false};
    c.assembly.outdoors.has_facing = true;
    c.assembly.outdoors.azimuth = 180.0;
    c.assembly.outdoors.tilt = 90.0;
}

/* "the best change of each of the first four kinds that apply (membrane, outer
 * layer, cavity, rain, air, indoors, insulation) is simulated and judged by
 * that; where none mends the wall, two of them together": no advice of a later
 * kind, and progress told of the wall, of all changes side by side, and of the
 * two. */
START_TEST(four_kinds_are_simulated_and_no_other_is_advised)
{
    static const struct {
        int humidity_class;
        double foil, mu, moisture;
        bw_exposure rain;
    } walls[] = {{5, 1.0, 50.0, 0.90, BW_RAIN_NONE},
                 {4, 1.0, 200.0, 0.95, BW_RAIN_NONE},
                 {4, 1.0, 20.0, 0.90, BW_RAIN_NONE},
                 {4, 1.0, 200.0, 0.95, BW_RAIN_SHELTERED}};
    runs simulated = {0};
    bool mended = false, mends = false;
    bw_assessment *a = NULL;
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .transient = {.max_years = 1,
                      .allow_missing = true,
                      .progress = count_runs,
                      .payload = &simulated}};
    c.assembly.indoors.humidity_class = walls[_i].humidity_class;
    c.assembly.outdoors.driving_rain = walls[_i].rain;
    make_simulated(walls[_i].foil, walls[_i].mu, walls[_i].moisture);
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    ck_assert(a->section[0].has_transient);
    ck_assert_int_eq(a->verdict, BW_FAILS);
    ck_assert_uint_eq(simulated.count, a->pair_tried ? 3 : 2);
    ck_assert_uint_gt(a->advice_count, 0);
    for (size_t i = 0; i < a->advice_count; i++) {
        const char *text = a->advice[i].change;
        ck_assert(!is_pair(&a->advice[i]) || (i == 0 && a->pair_tried));
        mended = mended || a->advice[i].fails_after == 0;
        mends = mends || (a->advice[i].fails_after == 0 &&
                          a->advice[i].not_assessed_after == 0);
        ck_assert_ptr_null(strstr(text, "entilate the room"));
        ck_assert_ptr_null(strstr(text, "Make mineral wool"));
        if (walls[_i].rain != BW_RAIN_NONE) /* the panel keeps it out */
            ck_assert_ptr_null(strstr(text, "Replace panel"));
    }
    if (!is_pair(&a->advice[0])) /* two only where one does not mend it */
        ck_assert(a->pair_tried != mended);
    ck_assert_int_eq(a->advice_mends, mends);
    bw_assessment_free(a);
}
END_TEST

/* Of so damp a room no single change is enough: the best two are computed
 * together, and that is said. */
START_TEST(two_changes_are_simulated_together_where_no_single_one_is_enough)
{
    runs simulated = {0};
    bw_assessment *a = NULL;
    const bw_assessment_options options = {
        .synthetic_hours = true,
        .transient = {.max_years = 1,
                      .allow_missing = true,
                      .progress = count_runs,
                      .payload = &simulated}};
    c.assembly.indoors.humidity_class = 5;
    make_simulated(1.0, 50.0, 0.90);
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    ck_assert_int_eq(a->verdict, BW_FAILS);
    ck_assert(a->pair_tried);
    ck_assert_uint_eq(simulated.count, 3);
    size_t pairs = 0;
    for (size_t i = 0; i < a->advice_count; i++) {
        pairs += is_pair(&a->advice[i]);
        if (!is_pair(&a->advice[i]))
            ck_assert_uint_gt(a->advice[i].fails_after, 0);
        else
            for (size_t k = 0; k < a->advice_count; k++)
                ck_assert(k == i ||
                          a->advice[k].fails_after > a->advice[i].fails_after);
    }
    ck_assert_uint_le(pairs, 1);
    bw_assessment_free(a);
}
END_TEST

/* ---- what is said of a change ------------------------------------------- */

static bw_assessment *assessed(void)
{
    bw_assessment *a = NULL;
    const bw_assessment_options options = {.no_transient = true};
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    return a;
}

/* The slower of two; negative: never within ten years. */
static double slower(double months, const bw_monthly_result *run)
{
    return months < 0.0 || !run->dried ? -1.0
                                       : fmax(months, run->months_to_dry);
}

/* "months, worst section; negative: not in 10 years". */
static void check_against(const bw_advice *advice, const bw_assessment *after)
{
    double both = 0.0, inwards = 0.0, reserve = HUGE_VAL;
    size_t open = 0;
    for (size_t i = 0; i < after->section_count; i++) {
        both = slower(both, &after->section[i].run[BW_RUN_WETTED_BOTH].result);
        inwards = slower(inwards,
                         &after->section[i].run[BW_RUN_WETTED_INWARDS].result);
        reserve = fmin(reserve,
                       after->section[i].run[BW_RUN_DESIGN].result.reserve);
    }
    for (size_t i = 0; i < after->criterion_count; i++) {
        const bw_criterion *row = &after->criterion[i];
        open += row->decides && row->verdict == BW_NOT_ASSESSED &&
                strcmp(row->method, "transient") != 0; /* not looked for */
    }
    ck_assert_double_eq_tol(advice->dry_both_after, both, 1e-9);
    ck_assert_double_eq_tol(advice->dry_inwards_after, inwards, 1e-9);
    ck_assert_double_eq_tol(advice->reserve_after, reserve, 1e-9);
    ck_assert_uint_eq(advice->not_assessed_after, open);
}

/* How many of the changes advised leave a section that never dries, or dries
 * in less than a month. */
static void check_changes(const bw_assessment *a, size_t *never, size_t *soon)
{
    const bw_assessment_options options = {.no_transient = true,
                                           .no_advice = true};
    count = bw_propose(change, &c.rows, &c.assembly);
    for (size_t i = 0; i < a->advice_count; i++)
        for (size_t k = 0; k < count && !is_pair(&a->advice[i]); k++) {
            size_t length = strlen(change[k].text);
            if (strncmp(a->advice[i].change, change[k].text, length) != 0 ||
                strcmp(a->advice[i].change + length, ".") != 0)
                continue;
            bw_assessment *after = NULL;
            ck_assert_int_eq(bw_assess(&after,
                                       bw_change_apply(&c.arena, &c.assembly,
                                                       &change[k].change),
                                       &c.climate, &options, NULL),
                             BW_OK);
            check_against(&a->advice[i], after);
            *never += a->advice[i].dry_inwards_after < 0.0;
            *soon += a->advice[i].dry_both_after > 0.0 &&
                     a->advice[i].dry_both_after < 1.0;
            bw_assessment_free(after);
        }
}

START_TEST(what_is_said_of_a_change_is_what_the_changed_wall_does)
{
    static const double foil[] = {0.1, 1.0, 3.0, 1000.0};
    static const double mu[] = {5.0, 50.0, 200.0, 1000.0};
    size_t never = 0, soon = 0;
    for (size_t i = 0; i < COUNT(foil) * COUNT(mu) * 3; i++) {
        make_wall(3 + (int)(i % 3), foil[i / 3 % 4], mu[i / 12]);
        c.layer[CASE_INSULATION].framing = (bw_framing){
            .present = true, .material = &c.stud, .fraction = 0.1};
        c.assembly.drying_test.wetting = i % 2 == 0 ? 1.0 : 0.05;
        bw_assessment *a = assessed();
        ck_assert_uint_eq(a->section_count, 2);
        check_changes(a, &never, &soon);
        bw_assessment_free(a);
    }
    ck_assert_uint_gt(never, 0);
    ck_assert_uint_gt(soon, 0);
}
END_TEST

/* The row told of a change, as the changed wall itself has it. */
static const bw_criterion *row_told(const bw_assessment *after,
                                    const bw_advice *advice)
{
    for (size_t i = 0; i < after->criterion_count; i++)
        if (strcmp(after->criterion[i].title, advice->criterion) == 0 &&
            strcmp(after->criterion[i].section, advice->section) == 0)
            return &after->criterion[i];
    ck_abort_msg("no row %s of %s", advice->criterion, advice->section);
    return NULL;
}

/* Of a section, or of all. */
static size_t fails_in(const bw_assessment *a, const char *section)
{
    size_t fails = 0;
    for (size_t i = 0; i < a->criterion_count; i++)
        fails += a->criterion[i].decides &&
                 a->criterion[i].verdict == BW_FAILS &&
                 (section == NULL ||
                  strcmp(a->criterion[i].section, section) == 0);
    return fails;
}

/* Simulated, too, in every section, whichever is the worst. */
START_TEST(what_is_simulated_of_a_change_is_what_the_changed_wall_does)
{
    static const struct {
        double foil, mu, air, stud; /* built in with: RH, kg/kg */
        const char *worst;
    } walls[] = {{1.0, 200.0, 0.95, 0.12, "between-studs"},
                 {50.0, 200.0, 0.70, 0.60, "through-stud"}};
    const bw_assessment_options asked = {
        .synthetic_hours = true,
        .transient = {.max_years = 1, .allow_missing = true}};
    bw_assessment_options quiet = asked;
    bw_assessment *a = NULL;
    quiet.no_advice = true;
    c.assembly.indoors.humidity_class = 4;
    make_simulated(walls[_i].foil, walls[_i].mu, walls[_i].air);
    c.stud.sorption = c.material[0].sorption;
    c.stud.specific_heat = case_value(1600.0);
    c.stud.free_saturation = case_value(300.0);
    layer[2].framing = (bw_framing){.present = true,
                                    .material = &c.stud,
                                    .fraction = 0.1,
                                    .has_initial_moisture = true,
                                    .initial_moisture = walls[_i].stud};
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &asked, NULL),
                     BW_OK);
    count = bw_propose(change, &c.rows, &c.assembly);
    ck_assert_uint_gt(fails_in(a, walls[_i].worst),
                      fails_in(a, walls[1 - _i].worst));
    ck_assert_uint_gt(a->advice_count, 1);
    for (size_t i = 0; i < a->advice_count; i++)
        for (size_t k = 0; k < count; k++) {
            const bw_advice *one = &a->advice[i];
            size_t length = strlen(change[k].text);
            if (strncmp(one->change, change[k].text, length) != 0 ||
                strcmp(one->change + length, ".") != 0)
                continue;
            bw_assessment *after = NULL;
            ck_assert_int_eq(bw_assess(&after,
                                       bw_change_apply(&c.arena, &c.assembly,
                                                       &change[k].change),
                                       &c.climate, &quiet, NULL),
                             BW_OK);
            const bw_criterion *row = row_told(after, one);
            ck_assert_double_eq_tol(one->after, row->value, 0.05 * row->limit);
            ck_assert_int_eq(one->verdict_after, row->verdict);
            ck_assert_uint_ge(one->fails_after, fails_in(after, NULL));
            bw_assessment_free(after);
        }
    bw_assessment_free(a);
}
END_TEST

/* Without a drying test there are no months in which anything dries. */
START_TEST(of_a_wall_that_is_not_wetted_no_drying_is_said)
{
    make_wall(4, 1.0, 200.0);
    c.assembly.drying_test.after_layer = 99; /* there is no such layer */
    bw_assessment *a = assessed();
    ck_assert_uint_gt(a->advice_count, 0);
    for (size_t i = 0; i < a->advice_count; i++) {
        ck_assert(!a->advice[i].has_dry_after);
        ck_assert_double_lt(a->advice[i].dry_both_after, 0.0);
        ck_assert_double_lt(a->advice[i].dry_inwards_after, 0.0);
    }
    bw_assessment_free(a);
}
END_TEST

/* A climate of which a month is no number: the period balance, whose climate
 * is its own and which this profile demands, fails and is mended; of a reserve
 * nothing is known. */
START_TEST(without_a_monthly_run_no_reserve_and_no_drying_is_promised)
{
    const bw_assessment_options options = {
        .no_transient = true, .profile = profile_named("de-din4108")};
    bw_assessment *a = NULL;
    make_wall(3, 0.1, 200.0);
    c.climate.month[4].temperature = (double)NAN;
    ck_assert_int_eq(bw_assess(&a, &c.assembly, &c.climate, &options, NULL),
                     BW_OK);
    ck_assert(!a->section[0].run[BW_RUN_DESIGN].ran);
    ck_assert_uint_gt(a->advice_count, 0);
    for (size_t i = 0; i < a->advice_count; i++) {
        ck_assert(!a->advice[i].has_reserve_after);
        ck_assert(!a->advice[i].has_dry_after);
        ck_assert_double_eq(a->advice[i].reserve_after, 0.0);
        ck_assert_double_lt(a->advice[i].dry_both_after, 0.0);
        ck_assert_uint_gt(a->advice[i].not_assessed_after, 0);
        ck_assert(isfinite(a->advice[i].worst_margin_after));
    }
    bw_assessment_free(a);
}
END_TEST

SUITE_AROUND(
    "counsel", setup, teardown,
    EACH(what_is_advised_is_what_trying_everything_gives,
         SANITIZED_FEWER(5 * 10, 10)),
    FACT(five_points_more_are_worth_saying),
    FACT(two_changes_are_simulated_together_where_no_single_one_is_enough),
    EACH(four_kinds_are_simulated_and_no_other_is_advised, 4),
    FACT(what_is_said_of_a_change_is_what_the_changed_wall_does),
    EACH(what_is_simulated_of_a_change_is_what_the_changed_wall_does,
         SANITIZED_FEWER(2, 1)),
    FACT(of_a_wall_that_is_not_wetted_no_drying_is_said),
    FACT(without_a_monthly_run_no_reserve_and_no_drying_is_promised))
