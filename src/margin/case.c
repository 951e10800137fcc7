#include "case.h"

#include <math.h>
#include <string.h>

#include "fail.h"
#include "verdict.h"

/* Relative margin: margin over limit; where the limit is zero over 0.1 of the
 * criterion's unit, as in the advice. A criterion at a limit of zero with
 * nothing to show for it (no water left) has no distance and no margin. */

static const char *const sections[BW_CASE_SECTIONS] = {
    "whole", "between-studs", "through-stud", "open-cavity", "blocked-cavity"};

static size_t section_of(const char *name)
{
    for (size_t i = 0; i < BW_CASE_SECTIONS; i++)
        if (strcmp(sections[i], name) == 0)
            return i;
    return 0;
}

static size_t key_of(const bw_criterion *row)
{
    size_t id = 0;
    while (id < BW_C_COUNT &&
           strcmp(bw_criterion_facts_of((bw_criterion_id)id)->name,
                  row->criterion) != 0)
        id++;
    return id < BW_C_COUNT ? section_of(row->section) * BW_C_COUNT + id
                           : BW_CASE_KEYS;
}

static double relative(const bw_criterion *row)
{
    if (!row->has_value || !row->has_limit)
        return (double)NAN;
    double limit = fabs(row->limit);
    if (limit > 0.0)
        return row->margin / limit;
    return fabs(row->margin) > 0.0 ? row->margin / 0.1 : (double)NAN;
}

/* Where the months alone cannot say that a wall holds their numbers are still
 * what they would say: a screening. */
static bool is_alone(size_t key)
{
    return key % BW_C_COUNT == BW_C_ALONE;
}

static bool counts(const bw_criterion *row, size_t key)
{
    return key < BW_CASE_KEYS && row->decides && !is_alone(key) &&
           !(key % BW_C_COUNT == BW_C_TRANSIENT &&
             row->outcome == BW_NOT_ASSESSED);
}

/* 3: fails, 2: not assessed, 1: marginal, 0: holds; -1: no such row. */
static int badness(int outcome)
{
    return outcome == BW_FAILS ? 3 : outcome == BW_NOT_ASSESSED ? 2 : outcome;
}

/* Of several rows of one key (a wall's junctions) the worst stands for it. */
static void take(bw_case *out, const bw_criterion *row, size_t key)
{
    double m = relative(row);
    bw_verdict outcome = row->cross_check ? row->verdict : row->outcome;
    const int by = badness((int)outcome) - badness(out->outcome[key]);
    if (by < 0 || (by == 0 && !(m < out->margin[key])))
        return;
    out->fails -= out->outcome[key] == BW_FAILS;
    out->outcome[key] = (signed char)outcome;
    out->margin[key] = m;
    out->value[key] = row->has_value ? row->value : (double)NAN;
    out->limit[key] = row->has_limit ? row->limit : (double)NAN;
    out->never[key] = row->never;
    out->screening = out->screening || row->screening;
    out->fails += outcome == BW_FAILS;
    if (isnan(m))
        return;
    out->worst = isnan(out->worst) ? m : fmin(out->worst, m);
    out->score += m / (1.0 + fabs(m));
}

static bw_verdict overall(const bw_case *c)
{
    bool seen[BW_NOT_ASSESSED + 1] = {false};
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (c->outcome[i] >= 0)
            seen[(size_t)c->outcome[i]] = true;
    if (seen[BW_FAILS])
        return BW_FAILS;
    if (seen[BW_NOT_ASSESSED] || !(seen[BW_HOLDS] || seen[BW_MARGINAL]))
        return BW_NOT_ASSESSED;
    return seen[BW_MARGINAL] ? BW_MARGINAL : BW_HOLDS;
}

static bool simulated(const bw_assessment *assessment)
{
    for (size_t i = 0; i < assessment->section_count; i++)
        if (!assessment->section[i].has_transient)
            return false;
    return assessment->section_count > 0;
}

void bw_case_of(bw_case *out, const bw_assessment *assessment)
{
    *out = (bw_case){.worst = (double)NAN};
    for (size_t i = 0; i < BW_CASE_KEYS; i++) {
        out->outcome[i] = -1;
        out->margin[i] = out->value[i] = out->limit[i] = (double)NAN;
    }
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *row = &assessment->criterion[i];
        size_t key = key_of(row);
        out->screening = out->screening || is_alone(key);
        if (counts(row, key))
            take(out, row, key);
    }
    out->said = assessment->verdict;
    out->simulated = simulated(assessment);
    out->verdict = out->simulated ? out->said : overall(out);
}

/* A changed wall is judged without the junctions that the wall names. */
static void leave_open(bw_case *out)
{
    out->junctions_unseen = bw_verdict_good(out->verdict) ||
                            bw_verdict_good(out->said);
    out->outcome[BW_C_JUNCTION] = BW_NOT_ASSESSED;
    if (bw_verdict_good(out->verdict))
        out->verdict = BW_NOT_ASSESSED;
    if (bw_verdict_good(out->said))
        out->said = BW_NOT_ASSESSED;
}

static bw_status assess(bw_case *out, const bw_study *study,
                        const bw_assembly *assembly, bw_case_look *look,
                        void *payload, bw_error *err)
{
    bw_assessment *assessment = NULL;
    bw_status status = bw_assess_on(study->pool, &assessment, assembly,
                                    study->climate, &study->options, err);
    if (status == BW_OK)
        bw_case_of(out, assessment);
    if (status == BW_OK && look != NULL)
        look(payload, assessment);
    /* a simulation that gave no answer is none by months either */
    if (status == BW_OK && !study->options.no_transient)
        out->verdict = out->said;
    if (status == BW_OK && assembly->junction_count == 0 &&
        study->assembly->junction_count > 0)
        leave_open(out);
    bw_assessment_free(assessment);
    if (!bw_tally_count(study->tally, !study->options.no_transient) &&
        status == BW_OK)
        status = bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                         "stopped before every case was computed");
    return status;
}

bw_status bw_case_assess(bw_case *out, const bw_study *study,
                         const bw_assembly *assembly, bw_error *err)
{
    return assess(out, study, assembly, NULL, NULL, err);
}

bw_status bw_case_run_seen(bw_case *out, const bw_study *study,
                           const bw_setting *setting, bw_case_look *look,
                           void *payload, bw_error *err)
{
    bw_arena arena = {0};
    const bw_assembly *changed = bw_study_apply(study, &arena, setting);
    bw_study with = *study;
    bw_study_options(&with.options, study, setting);
    bw_status status = changed == NULL
                           ? bw_fail_memory(err)
                           : assess(out, &with, changed, look, payload, err);
    bw_arena_release(&arena);
    return status;
}

bw_status bw_case_run(bw_case *out, const bw_study *study,
                      const bw_setting *setting, bw_error *err)
{
    return bw_case_run_seen(out, study, setting, NULL, NULL, err);
}

bool bw_case_key_fails(const bw_case *c, size_t key)
{
    return c->outcome[key] == BW_FAILS;
}

bool bw_case_key_flips(const bw_case *from, const bw_case *to, size_t key)
{
    if (!bw_case_key_fails(from, key))
        return bw_case_key_fails(to, key);
    return to->outcome[key] == BW_HOLDS || to->outcome[key] == BW_MARGINAL;
}

size_t bw_case_flip(const bw_case *from, const bw_case *to, size_t *count)
{
    size_t first = BW_CASE_KEYS, n = 0;
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (bw_case_key_flips(from, to, i) && n++ == 0)
            first = i;
    if (count != NULL)
        *count = n;
    return first;
}

size_t bw_case_worst_key(const bw_case *c)
{
    size_t worst = BW_CASE_KEYS;
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (!isnan(c->margin[i]) &&
            (worst == BW_CASE_KEYS || c->margin[i] < c->margin[worst]))
            worst = i;
    return worst;
}

/* Would it be the one to name before another? A margin counts before none. */
static bool less(double a, double b)
{
    return !isnan(a) && (isnan(b) || a < b);
}

size_t bw_case_deciding_key(const bw_case *c)
{
    size_t found = BW_CASE_KEYS;
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (c->outcome[i] == (signed char)c->verdict &&
            (found == BW_CASE_KEYS || less(c->margin[i], c->margin[found])))
            found = i;
    return found;
}

const char *bw_key_criterion(size_t key)
{
    return bw_criterion_facts_of((bw_criterion_id)(key % BW_C_COUNT))->name;
}

const char *bw_key_section(size_t key)
{
    return sections[key / BW_C_COUNT];
}

const char *bw_key_words(bw_arena *arena, size_t key)
{
    if (key >= BW_CASE_KEYS)
        return "";
    if (key < BW_C_COUNT)
        return bw_key_criterion(key);
    return bw_arena_printf(arena, "%s (%s)", bw_key_criterion(key),
                           bw_key_section(key));
}

bool bw_case_worse(const bw_case *a, const bw_case *b)
{
    if (a->fails != b->fails)
        return a->fails > b->fails;
    return a->score < b->score - 1e-12;
}

double bw_margin_held(double margin)
{
    return isnan(margin) ? margin : fmin(fmax(margin, -1.0), 1.0);
}

bw_figure bw_key_figure(bw_arena *arena, size_t key, double value, double limit,
                        double margin, bool never)
{
    const bool none = key >= BW_CASE_KEYS;
    const bw_criterion_id id = (bw_criterion_id)(key % BW_C_COUNT);
    return (bw_figure){.criterion = bw_key_words(arena, key),
                       .value = value,
                       .limit = limit,
                       .never = never,
                       .margin = margin,
                       .unit = none ? "" : bw_criterion_facts_of(id)->unit};
}

bw_figure bw_case_figure(bw_arena *arena, const bw_case *c)
{
    const size_t key = bw_case_deciding_key(c);
    if (key == BW_CASE_KEYS)
        return bw_key_figure(arena, key, (double)NAN, (double)NAN, (double)NAN,
                             false);
    return bw_key_figure(arena, key, c->value[key], c->limit[key],
                         c->margin[key], c->never[key]);
}
