#include "score.h"

#include <math.h>
#include <string.h>

/* A figure moves beyond noise by this much of its limit; where no row gets
 * another verdict the worst of them must, too, and by this share of what is
 * missing (estimates). */
static const double NOISE = 0.05, WORTH_SHARE = 0.10;

/* How bad a row is: 2 fails, 1 marginal. */
static int badness(const bw_row *row)
{
    if (!row->row.decides)
        return 0;
    return row->row.verdict == BW_FAILS      ? 2
           : row->row.verdict == BW_MARGINAL ? 1
                                             : 0;
}

static bool within(bw_score_scope scope, const bw_row *row)
{
    return (scope.section == NULL ||
            strcmp(scope.section, row->row.section) == 0) &&
           !(scope.no_wetting && row->id == BW_C_WETTING);
}

/* The same criterion in the same section, else (a change may merge sections)
 * in any. */
static const bw_row *same_row(const bw_rows *rows, const bw_row *wanted)
{
    const bw_row *same = bw_rows_find(rows, wanted->row.section, wanted->id);
    for (size_t i = 0; same == NULL && i < rows->count; i++)
        if (rows->row[i].id == wanted->id)
            same = &rows->row[i];
    return same;
}

static double gain(const bw_row *before, const bw_row *after)
{
    return bw_row_relative_margin(after) - bw_row_relative_margin(before);
}

static bool both_have_limits(const bw_row *a, const bw_row *b)
{
    return a->row.has_limit && b->row.has_limit;
}

/* How bad it is after the change, of a row that was bad before it. */
static int left_of(const bw_row *before, const bw_row *after)
{
    const int was = badness(before);
    if (after == NULL || after->row.outcome == BW_NOT_ASSESSED)
        return was;
    if (!after->row.decides)
        return after->row.outcome == BW_FAILS ? was : 0;
    const int is = badness(after);
    const bool moved = !both_have_limits(before, after) ||
                       gain(before, after) >= NOISE;
    return is < was && !moved ? was : is;
}

static void count_bad(bw_score *s, int bad)
{
    s->fails += bad == 2;
    s->marginal += bad == 1;
}

/* The row that gains: of more steps of its verdict, then the one that was
 * furthest beyond its limit. While a row fails, of those that fail: a row that
 * asks for an inspection is no reason for a change beside one that fails. */
typedef struct best {
    int steps;
    double margin;
} best;

static void keep_best(bw_score *s, best *so_far, const bw_row *before,
                      const bw_row *after, int steps)
{
    if (after == NULL || !after->row.has_value || !before->row.has_value)
        return;
    const bool limits = both_have_limits(before, after);
    if (steps <= 0 && (!limits || gain(before, after) < NOISE))
        return;
    const best here = {steps, limits ? bw_row_relative_margin(before) : 0.0};
    if (s->gains != NULL &&
        (here.steps < so_far->steps ||
         (here.steps == so_far->steps && here.margin >= so_far->margin)))
        return;
    *so_far = here;
    s->gains = before;
    s->value = after->row.value;
    s->verdict = after->row.verdict;
}

/* The worst that a row within the scope is. */
static int worst_of(const bw_rows *rows, bw_score_scope scope)
{
    int worst = 0;
    for (size_t i = 0; i < rows->count; i++)
        if (within(scope, &rows->row[i]) && badness(&rows->row[i]) > worst)
            worst = badness(&rows->row[i]);
    return worst;
}

static void score_old(bw_score *s, const bw_rows *before, const bw_rows *after,
                      bw_score_scope scope)
{
    const int worst = worst_of(before, scope);
    best so_far = {0, 0.0};
    for (size_t i = 0; i < before->count; i++) {
        const bw_row *row = &before->row[i];
        const int was = badness(row);
        if (was == 0 || !within(scope, row))
            continue;
        const bw_row *same = same_row(after, row);
        const int left = left_of(row, same);
        count_bad(s, left);
        if (was == worst)
            keep_best(s, &so_far, row, same, was - left);
    }
}

/* Rows that were not bad before, and what all of them say; the worst margin is
 * of those that are as bad as any: of failing ones while one fails. */
static void score_new(bw_score *s, const bw_rows *before, const bw_rows *after,
                      bw_score_scope scope)
{
    const int worst = worst_of(after, scope);
    for (size_t i = 0; i < after->count; i++) {
        const bw_row *row = &after->row[i];
        if (!row->row.decides || !within(scope, row))
            continue;
        const bw_row *old = bw_rows_find(before, row->row.section, row->id);
        if (old == NULL || badness(old) == 0)
            count_bad(s, badness(row));
        s->not_assessed += row->row.verdict == BW_NOT_ASSESSED;
        /* a limit of zero that holds has no margin to speak of */
        if (badness(row) == worst && row->row.has_limit &&
            (badness(row) == 2 || fabs(row->row.limit) > 0.0))
            s->worst_margin = fmin(s->worst_margin,
                                   bw_row_relative_margin(row));
    }
}

/* Rows without a number: what a screening would say is one. */
static size_t numberless(const bw_rows *rows, bw_score_scope scope)
{
    size_t n = 0;
    for (size_t i = 0; i < rows->count; i++)
        n += rows->row[i].row.decides && within(scope, &rows->row[i]) &&
             rows->row[i].row.outcome == BW_NOT_ASSESSED;
    return n;
}

bw_score bw_score_of(const bw_rows *before, const bw_rows *after,
                     bw_score_scope scope)
{
    bw_score s = {.worst_margin = HUGE_VAL};
    score_old(&s, before, after, scope);
    score_new(&s, before, after, scope);
    const size_t were = numberless(before, scope);
    const size_t are = numberless(after, scope);
    s.unknown = are > were ? are - were : 0;
    if (!isfinite(s.worst_margin))
        s.worst_margin = 0.0;
    return s;
}

static size_t open(const bw_score *s)
{
    return s->fails + s->unknown;
}

/* Equal ones are told apart by the worst margin first while something fails:
 * what marginal rows say comes after it. */
bool bw_score_better(const bw_score *a, const bw_score *b)
{
    if (open(a) != open(b))
        return open(a) < open(b);
    if (a->fails > 0 && b->fails > 0 && a->worst_margin != b->worst_margin)
        return a->worst_margin > b->worst_margin;
    if (a->marginal != b->marginal)
        return a->marginal < b->marginal;
    return a->worst_margin > b->worst_margin;
}

bool bw_score_worth(const bw_score *before, const bw_score *after)
{
    if (after->gains == NULL) /* no figure gained anything */
        return false;
    if (open(after) != open(before))
        return open(after) < open(before);
    if (before->fails == 0 && after->marginal != before->marginal)
        return after->marginal < before->marginal;
    const double margin = before->worst_margin;
    return after->worst_margin >
           margin + fmax(NOISE, WORTH_SHARE * fabs(margin));
}
