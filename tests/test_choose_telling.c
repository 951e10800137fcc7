/* What is said of designs whose cases are made by hand at
 * random, written down a second time: how many drawn cases fail, the worst,
 * what decides it, each finding alone, what breaks a design, who holds, holds
 * marginally and is dropped. The rules are those of docs/methods.md and of the
 * fields in include/bothways/choose.h. */

#include "choice_made.h"

static bw_race race;
static double fixed[DESIGNS][BW_GOAL_COUNT];
static double value[DESIGNS][DRAWN][BW_GOAL_COUNT];
static double tail[DESIGNS][BW_RACE_SETS][BW_GOAL_COUNT];
static bool alive[DESIGNS];
static long beaten_by[DESIGNS];
static size_t beaten_after[DESIGNS];

/* Of some designs every case was drawn, of others none, or some of them. */
static void draw(double good)
{
    draw_choice(1 + pick(DESIGNS), good);
    drawn_wall = (bw_assembly){.junction_count = chance(0.1) ? 1 : 0};
    choices = (bw_choices){.has_price = chance(0.5)};
    c.statement = &race;
    race = (bw_race){.count = c.count,
                     .cap = DRAWN,
                     .fixed = fixed[0],
                     .value = value[0][0],
                     .tail = tail[0][0],
                     .alive = alive,
                     .beaten_by = beaten_by,
                     .beaten_after = beaten_after};
    for (size_t i = 0; i < c.count; i++) {
        const double computed = chance(0.6) ? 1.0 : chance(0.5) ? 0.5 : 0.0;
        alive[i] = !candidate[i].judged_out;
        design[i].as_drawn = draw_case(0.9, 0.2).said;
        for (size_t k = 0; k < DRAWN; k++) {
            bw_judged *j =
                &judged[i][c.chosen.simulated][bw_slot_drawn(&c.slots, k)];
            j->done = chance(computed);
            if (chance(0.2))
                j->margin = (double)NAN;
            for (int g = 0; g < BW_GOAL_COUNT; g++)
                value[i][k][g] = between(&die, 0.0, 3.0);
        }
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            fixed[i][g] = g == BW_GOAL_U || g == BW_GOAL_THICKNESS
                              ? design[i].goal[g]
                              : (double)NAN;
        for (size_t u = 0; u < candidate[i].study.count; u++)
            judged[i][c.chosen.simulated][bw_slot_reset(&c.slots, u)].done =
                chance(0.7);
    }
    c.chosen.drawn_designs = 1 + pick(4);
}

static void tell(void)
{
    bw_error err = {0};
    ck_assert(bw_choice_tell(&c, &err) == BW_OK);
}

static bool same(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) <= 1e-12;
}

/* ---- the drawn cases -------------------------------------------------------
 */

/* The first of the worst: by what is said, by its numbers, by what is left to
 * the limit, which counts for most where none is known. DRAWN: none. */
static size_t worst_of(size_t i)
{
    size_t worst = DRAWN;
    double most = -1e9;
    for (size_t k = 0; k < DRAWN; k++) {
        const bw_judged *j = case_of(i, bw_slot_drawn(&c.slots, k));
        const double bad = 1e4 * is_bad(j->said) + 100.0 * is_bad(j->numbers) -
                           (isnan(j->margin) ? 10.0 : j->margin);
        if (j->done && bad > most) {
            most = bad;
            worst = k;
        }
    }
    return worst;
}

/* As drawn again it gains most: by its numbers, then by its margin. */
static const char *decides(size_t i)
{
    const char *name = "";
    double least = 1e9;
    for (size_t u = 0; u < candidate[i].study.count; u++) {
        const bw_judged *j = case_of(i, bw_slot_reset(&c.slots, u));
        const double bad = 100.0 * is_bad(j->numbers) - j->margin;
        if (j->done && bad < least) {
            least = bad;
            name = finding[finding_of[i][u]].name;
        }
    }
    return name;
}

static int by_value(const void *a, const void *b)
{
    return *(const double *)a < *(const double *)b ? -1 : 1;
}

/* 90 of 100 are not worse. */
static double tail_of(size_t i, bw_goal goal, size_t count)
{
    double sorted[DRAWN];
    const size_t rank = (size_t)ceil(0.9 * (double)count - 1e-9);
    for (size_t k = 0; k < count; k++)
        sorted[k] = value[i][k][goal];
    qsort(sorted, count, sizeof *sorted, by_value);
    return goal == BW_GOAL_RESERVE ? sorted[count - rank] : sorted[rank - 1];
}

static void look_at_cases(size_t i, size_t *bad)
{
    const bw_design *d = &design[i];
    size_t drawn = 0, failed = 0, unassessed = 0, numbers = 0;
    for (size_t k = 0; k < DRAWN; k++) {
        const bw_judged *j = case_of(i, bw_slot_drawn(&c.slots, k));
        drawn += j->done;
        failed += j->done && j->said == BW_FAILS;
        unassessed += j->done && j->said == BW_NOT_ASSESSED;
        numbers += j->done && j->numbers == BW_FAILS;
    }
    *bad = failed + unassessed;
    ck_assert_uint_eq(d->drawn, drawn);
    ck_assert_uint_eq(d->failed, failed);
    ck_assert_uint_eq(d->unassessed, unassessed);
    ck_assert_uint_eq(d->failed_numbers, numbers);
    ck_assert(same(d->bound, drawn == 0 ? (double)NAN
                                        : bw_share_bound(*bad, drawn, 0.95)));
    ck_assert(same(d->goal[BW_GOAL_FAILING],
                   drawn == 0 ? (double)NAN : (double)numbers / (double)drawn));
    for (int g = BW_GOAL_RESERVE; g <= BW_GOAL_WOOD; g++)
        ck_assert(same(d->goal[g], drawn == 0 ? (double)NAN
                                              : tail_of(i, (bw_goal)g, drawn)));
    const size_t worst = worst_of(i);
    if (worst == DRAWN) {
        ck_assert_str_eq(d->worst, "");
        ck_assert_str_eq(d->decides, "");
        return;
    }
    const bw_judged *j = case_of(i, bw_slot_drawn(&c.slots, worst));
    ck_assert_int_eq(d->worst_verdict, j->said);
    ck_assert_int_eq(d->worst_numbers, j->numbers);
    ck_assert(same(d->worst_figure.margin, j->margin));
    ck_assert(same(d->worst_figure.value, j->value));
    ck_assert(same(d->worst_figure.limit, j->limit));
    ck_assert_str_ne(d->worst, "");
    ck_assert_str_eq(d->decides, decides(i));
}

/* ---- one finding alone -----------------------------------------------------
 */

/* The worst end of all its unknowns, the first of those alike; NULL: none. */
static const bw_judged *alone(size_t i, size_t f, const char **words)
{
    const bw_judged *worst = NULL;
    double most = -1e9;
    for (size_t u = 0; u < candidate[i].study.count; u++)
        for (size_t end = 0; finding_of[i][u] == f && end < 2; end++) {
            const bw_unknown *shown = &source[i][u].shown;
            const bw_judged *j = case_of(i, bw_slot_end(u, end));
            const double bad = 1e4 * is_bad(j->said) +
                               100.0 * is_bad(j->numbers) - j->margin;
            if (!j->done || bad <= most + 1e-9)
                continue;
            most = bad;
            worst = j;
            *words = end == 1 || !shown->two_ended ? shown->high_words
                                                   : shown->low_words;
        }
    return finding[f].settled ? NULL : worst;
}

static bool applies(size_t i, size_t f)
{
    bool any = false;
    for (size_t u = 0; u < candidate[i].study.count; u++)
        any = any || finding_of[i][u] == f;
    return any && !finding[f].settled;
}

static void look_at_findings(size_t i)
{
    for (size_t f = 0; f < FINDINGS; f++) {
        const bw_found_alone *found = &design[i].found[f];
        const char *words = "";
        const bw_judged *j = alone(i, f, &words);
        ck_assert_int_eq(found->applies, applies(i, f));
        ck_assert_int_eq(found->computed, j != NULL);
        if (j == NULL)
            continue;
        ck_assert_int_eq(found->simulated, j->simulated);
        ck_assert_int_eq(found->verdict, j->said);
        ck_assert_int_eq(found->numbers, j->numbers);
        ck_assert_str_eq(found->setting, words);
        ck_assert(same(found->figure.margin, j->margin));
        ck_assert(same(found->figure.value, j->value));
    }
}

/* ---- what is said of it ----------------------------------------------------
 */

/* The finding that alone makes it fail by most; FINDINGS: none does. */
static size_t breaks_alone(size_t i, bool numbers)
{
    size_t worst = FINDINGS;
    double least = 1e9;
    for (size_t f = 0; f < FINDINGS; f++) {
        const bw_found_alone *found = &design[i].found[f];
        if (found->computed &&
            (numbers ? found->numbers : found->verdict) == BW_FAILS &&
            found->figure.margin < least) {
            least = found->figure.margin;
            worst = f;
        }
    }
    return worst;
}

static void look_at_what_breaks(size_t i, bool numbers)
{
    const bw_design *d = &design[i];
    const size_t f = breaks_alone(i, numbers);
    const bw_verdict worst = numbers ? d->worst_numbers : d->worst_verdict;
    const bool drawn = d->drawn > 0 && worst == BW_FAILS;
    ck_assert_str_eq(d->breaks, f < FINDINGS ? d->found[f].setting
                                : drawn      ? d->worst
                                             : "");
    if (f < FINDINGS || drawn)
        ck_assert(same(d->breaks_figure.margin, f < FINDINGS
                                                    ? d->found[f].figure.margin
                                                    : d->worst_figure.margin));
}

static bw_standing standing_of(size_t i, size_t bad, bool *marginally)
{
    const bw_design *d = &design[i];
    bool good = drawn_wall.junction_count == 0 && d->drawn == DRAWN &&
                bad == 0 && is_bad(d->as_drawn) < 2;
    bool marginal = d->as_drawn == BW_MARGINAL;
    *marginally = false;
    if (breaks_alone(i, false) < FINDINGS ||
        (d->drawn > 0 && d->worst_verdict == BW_FAILS))
        return BW_BREAKS;
    for (size_t f = 0; f < FINDINGS; f++) {
        const bw_found_alone *found = &d->found[f];
        good = good && (!found->applies ||
                        (found->computed && is_bad(found->verdict) < 2));
        marginal = marginal ||
                   (found->computed && found->verdict == BW_MARGINAL);
    }
    for (size_t k = 0; k < DRAWN; k++) {
        const bw_judged *j = case_of(i, bw_slot_drawn(&c.slots, k));
        marginal = marginal || (j->done && j->said == BW_MARGINAL);
    }
    *marginally = good && marginal;
    return good ? BW_STANDS : BW_UNDECIDED;
}

/* No worse in U and thickness, by what tells two apart (race.c). */
static bool no_worse(size_t a, size_t b)
{
    return fixed[a][BW_GOAL_U] < fixed[b][BW_GOAL_U] + 1e-4 &&
           fixed[a][BW_GOAL_THICKNESS] < fixed[b][BW_GOAL_THICKNESS] + 1e-4;
}

static size_t tallies[5]; /* how often each came up, so that none is vacuous */

static void look_at_all(const bool *out_before)
{
    bw_standing standing[DESIGNS];
    size_t dropped = 0;
    for (size_t i = 0; i < c.count; i++) {
        size_t bad = 0;
        bool marginally = false;
        standing[i] = BW_OUT;
        if (out_before[i])
            continue;
        look_at_cases(i, &bad);
        look_at_findings(i);
        standing[i] = standing_of(i, bad, &marginally);
        look_at_what_breaks(i, standing[i] != BW_BREAKS);
        ck_assert_int_eq(design[i].marginally, marginally);
        tallies[standing[i]]++;
    }
    for (size_t b = 0; b < c.count; b++) {
        long by = -1;
        for (size_t a = 0; a < c.count && by < 0; a++)
            if (standing[b] == BW_BREAKS && standing[a] == BW_STANDS &&
                no_worse(a, b))
                by = (long)a;
        if (out_before[b])
            continue;
        dropped += by >= 0;
        ck_assert_int_eq(design[b].standing, by >= 0 ? BW_OUT : standing[b]);
        ck_assert_int_eq(candidate[b].judged_out, by >= 0);
        ck_assert_int_eq(design[b].beaten_by, by);
        if (by < 0)
            continue;
        ck_assert_ptr_nonnull(strstr(design[b].dropped, design[by].name));
        ck_assert_ptr_nonnull(strstr(design[b].dropped, design[b].breaks));
        ck_assert_int_eq(strstr(design[b].dropped, "cost") != NULL,
                         choices.has_price);
    }
    tallies[4] += dropped;
    ck_assert_uint_eq(c.chosen.broken, dropped);
}

/* A finding was asked of so many designs, and breaks so many of them. */
static void look_at_sums(const bool *out_before)
{
    size_t holding = 0;
    for (size_t f = 0; f < FINDINGS; f++) {
        size_t asked = 0, broken = 0;
        for (size_t i = 0; i < c.count; i++) {
            if (out_before[i])
                continue;
            asked += design[i].found[f].computed;
            broken += design[i].found[f].computed &&
                      design[i].found[f].verdict == BW_FAILS;
        }
        ck_assert_uint_eq(finding[f].asked, asked);
        ck_assert_uint_eq(finding[f].broken, broken);
    }
    for (size_t i = 0; i < c.count; i++)
        holding += !candidate[i].judged_out && design[i].standing == BW_STANDS;
    ck_assert_uint_eq(c.chosen.holding, holding);
    const bw_design *first = c.chosen.front_count == 0
                                 ? NULL
                                 : &design[c.chosen.front[0]];
    ck_assert(same(
        c.chosen.joint_bound,
        first == NULL || first->drawn == 0
            ? (double)NAN
            : bw_share_bound(first->failed + first->unassessed, first->drawn,
                             1.0 - 0.05 / (double)c.chosen.drawn_designs)));
}

START_TEST(a_design_is_said_to_be_what_its_cases_were)
{
    die = (dice){.state = 88172645463325252u};
    memset(tallies, 0, sizeof tallies);
    for (int draws = 0; draws < 600; draws++) {
        bool out_before[DESIGNS];
        draw(draws % 3 == 0 ? 0.8 : draws % 3 == 1 ? 0.99 : 1.0);
        for (size_t i = 0; i < c.count; i++)
            out_before[i] = candidate[i].judged_out;
        tell();
        look_at_all(out_before);
        look_at_sums(out_before);
        forget_choice();
    }
    for (size_t k = 0; k < COUNT(tallies); k++)
        ck_assert_msg(k == BW_OUT || tallies[k] > 30, "%zu: %zu", k,
                      tallies[k]);
}
END_TEST

SUITE("choose_telling", FACT(a_design_is_said_to_be_what_its_cases_were))
