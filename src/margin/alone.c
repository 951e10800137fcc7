#include <math.h>
#include <string.h>

#include "fail.h"
#include "steps.h"

/* One unknown, all others as drawn. A range is computed at some points and as
 * drawn; between neighbours where a criterion flips the place is halved down
 * to a stated share of the whole range. Invariant: seen from the end of a
 * bracket that is nearer to as drawn, a criterion flips at its other end, so
 * that computing both ends again shows the flip. */

enum { SAMPLES = BW_POINTS_MOST + 1, FLIPS_A_GAP = 4 };
enum { FLIPS = BW_POINTS_MOST * FLIPS_A_GAP };

/* Which criterion a flip is of, and whether the wall fails on its sides. */
typedef struct found {
    size_t key;
    bool fails_below, fails_above;
} found;

typedef struct variation {
    const bw_study *study;
    size_t index;
    const bw_case *as_drawn;
    bw_arena *arena;
    bw_error *err;
    bw_setting *setting; /* one for each unknown, all but `index` unset */
    bw_unknown *u;
    double low, high; /* with as drawn, if that lies outside */
    size_t count;
    double x[SAMPLES];
    bw_case at[SAMPLES];
    size_t drawn; /* index of as drawn; SAMPLES: no single number */
    bw_flip *flip;
    found found[FLIPS]; /* beside each flip */
    size_t flips;
} variation;

static bw_status run(variation *v, double x, bw_case *out)
{
    v->setting[v->index] = (bw_setting){true, x};
    return bw_case_run(out, v->study, v->setting, v->err);
}

static double share(const variation *v, double x)
{
    return bw_scale_share(v->u->geometric, v->low, v->high, x);
}

/* Nine values, and as drawn in its place among them. */
static void choose_samples(variation *v)
{
    const bw_unknown *u = v->u;
    double drawn = u->as_drawn;
    v->low = isnan(drawn) ? u->low : fmin(u->low, drawn);
    v->high = isnan(drawn) ? u->high : fmax(u->high, drawn);
    v->drawn = SAMPLES;
    for (int i = 0; i < v->study->points; i++) {
        double x = bw_scale_value(u->geometric, u->low, u->high,
                                  i / (v->study->points - 1.0));
        bool same = fabs(x - drawn) <= 1e-9 * fabs(drawn);
        if (v->drawn == SAMPLES && !isnan(drawn) && (same || drawn < x)) {
            v->drawn = v->count;
            v->x[v->count++] = drawn;
        }
        if (!same)
            v->x[v->count++] = x;
    }
    if (v->drawn == SAMPLES && !isnan(drawn)) {
        v->drawn = v->count;
        v->x[v->count++] = drawn;
    }
}

static bw_status run_samples(variation *v)
{
    for (size_t i = 0; i < v->count; i++) {
        if (i == v->drawn)
            v->at[i] = *v->as_drawn;
        else
            BW_TRY(run(v, v->x[i], &v->at[i]));
    }
    return BW_OK;
}

/* Halves between `from` and `to` until they are close; `from` keeps what
 * fails at its start. */
static bw_status halve(variation *v, double *from, bw_case *near, double *to,
                       bw_case *far)
{
    double a = share(v, *from), b = share(v, *to);
    while (fabs(b - a) > 2.0 * v->study->tolerance) {
        double t = 0.5 * (a + b);
        double x = bw_scale_value(v->u->geometric, v->low, v->high, t);
        bw_case middle;
        BW_TRY(run(v, x, &middle));
        if (bw_case_flip(near, &middle, NULL) == BW_CASE_KEYS) {
            a = t;
            *from = x;
            *near = middle;
        } else {
            b = t;
            *to = x;
            *far = middle;
        }
    }
    return BW_OK;
}

static void keep_flip(variation *v, double a, const bw_case *at_a, double b,
                      const bw_case *at_b)
{
    bool rising = a < b;
    const bw_case *above = rising ? at_b : at_a, *below = rising ? at_a : at_b;
    size_t count, key = bw_case_flip(at_a, at_b, &count);
    double low = rising ? a : b, high = rising ? b : a;
    bw_flip made = {.below = low,
                    .above = high,
                    .value = 0.5 * (low + high),
                    .criterion = bw_key_criterion(key),
                    .section = bw_key_section(key),
                    .others = count - 1,
                    .fails_above = bw_case_key_fails(above, key),
                    .changes_verdict = (at_a->fails == 0) !=
                                       (at_b->fails == 0)};
    size_t k = v->flips++;
    for (; k > 0 && v->flip[k - 1].value > made.value; k--) {
        v->flip[k] = v->flip[k - 1];
        v->found[k] = v->found[k - 1];
    }
    v->flip[k] = made;
    v->found[k] = (found){key, below->fails > 0, above->fails > 0};
}

/* All flips between samples i and i + 1, from the one nearer to as drawn. */
static bw_status search_gap(variation *v, size_t i)
{
    bool falling = v->drawn < SAMPLES && i < v->drawn;
    size_t start = falling ? i + 1 : i, end = falling ? i : i + 1;
    double from = v->x[start];
    bw_case near = v->at[start];
    for (int n = 0; n < FLIPS_A_GAP &&
                    bw_case_flip(&near, &v->at[end], NULL) < BW_CASE_KEYS;
         n++) {
        double to = v->x[end];
        bw_case far = v->at[end];
        BW_TRY(halve(v, &from, &near, &to, &far));
        keep_flip(v, from, &near, to, &far);
        from = to;
        near = far;
    }
    return BW_OK;
}

static bw_status search(variation *v)
{
    v->flip = BW_NEW(v->arena, bw_flip, FLIPS);
    BW_TRY_MEMORY(v->flip != NULL, v->err);
    for (size_t i = 0; i + 1 < v->count; i++)
        BW_TRY(search_gap(v, i));
    v->u->flip = v->flip;
    v->u->flip_count = v->flips;
    return BW_OK;
}

/* The flip nearest to as drawn, which is a number. */
static size_t first_flip(const variation *v)
{
    double drawn = share(v, v->u->as_drawn);
    size_t first = 0;
    for (size_t i = 1; i < v->flips; i++)
        if (fabs(share(v, v->flip[i].value) - drawn) <
            fabs(share(v, v->flip[first].value) - drawn))
            first = i;
    return first;
}

static bw_status name_flip(variation *v, size_t key)
{
    v->u->flips = true;
    v->u->flip_criterion = bw_key_words(v->arena, key);
    return v->u->flip_criterion != NULL ? BW_OK : bw_fail_memory(v->err);
}

/* Where no number stands for as drawn, there is no way from it: a flip is seen
 * from the case as drawn, on the side of its place that differs from it. */
static void look_beside(const variation *v, size_t i, bw_unknown *to)
{
    const bw_flip *flip = &v->flip[i];
    to->flip_fails = !bw_case_key_fails(v->as_drawn, v->found[i].key);
    to->flip_above = to->flip_fails == flip->fails_above;
    bool fails = to->flip_above ? v->found[i].fails_above
                                : v->found[i].fails_below;
    to->flip_changes_verdict = fails != (v->as_drawn->fails > 0);
    to->flip_value = flip->value;
    to->flip_bracket = 0.5 * (flip->above - flip->below);
}

/* The wall's own verdict first, and of several places the one where it turns.
 */
static size_t first_beside(const variation *v)
{
    size_t first = 0;
    int most = -1;
    for (size_t i = 0; i < v->flips; i++) {
        bw_unknown seen = {.low = 0.0};
        look_beside(v, i, &seen);
        int rank = seen.flip_changes_verdict ? 1 + v->flip[i].changes_verdict
                                             : 0;
        if (rank > most)
            first = i;
        most = rank > most ? rank : most;
    }
    return first;
}

/* The first criterion that every value computed flips; BW_CASE_KEYS: none. */
static size_t flipped_by_all(const variation *v, bool *changes)
{
    for (size_t key = 0; key < BW_CASE_KEYS; key++) {
        size_t n = 0, other = 0;
        for (size_t i = 0; i < v->count; i++) {
            n += bw_case_key_flips(v->as_drawn, &v->at[i], key);
            other += (v->at[i].fails == 0) != (v->as_drawn->fails == 0);
        }
        *changes = other == v->count;
        if (n == v->count)
            return key;
    }
    return BW_CASE_KEYS;
}

static bw_status name_beside(variation *v, size_t *key)
{
    bw_unknown *u = v->u;
    bool changes;
    size_t all = flipped_by_all(v, &changes), i = first_beside(v);
    if (all == BW_CASE_KEYS && v->flips == 0)
        return BW_OK;
    u->flip_share = 1.0;
    if (v->flips > 0)
        look_beside(v, i, u);
    if (all == BW_CASE_KEYS || (u->flip_changes_verdict && !changes)) {
        *key = v->found[i].key;
        return name_flip(v, *key);
    }
    *key = all;
    u->flips_all = true;
    u->flip_value = u->low;
    u->flip_bracket = 0.0;
    u->flip_fails = !bw_case_key_fails(v->as_drawn, all);
    u->flip_changes_verdict = changes;
    return name_flip(v, all);
}

/* Fills what flips first, and *key with its criterion if one does. */
static bw_status name_first(variation *v, size_t *key)
{
    bw_unknown *u = v->u;
    if (v->drawn == SAMPLES)
        return name_beside(v, key);
    if (v->flips == 0)
        return BW_OK;
    size_t i = first_flip(v);
    const bw_flip *flip = &v->flip[i];
    double way = share(v, flip->value) - share(v, u->as_drawn);
    u->flip_value = flip->value;
    u->flip_bracket = 0.5 * (flip->above - flip->below);
    u->flip_fails = (way >= 0.0) == flip->fails_above;
    u->flip_above = way >= 0.0;
    u->flip_changes_verdict = flip->changes_verdict;
    u->flip_share = fmin(fabs(way), 1.0);
    *key = v->found[i].key;
    return name_flip(v, *key);
}

/* The criterion whose margin moves most over the cases, held within -1..1. */
static size_t moves_most(const bw_case *at, size_t count, double *swing)
{
    size_t most = BW_CASE_KEYS;
    *swing = 0.0;
    for (size_t key = 0; key < BW_CASE_KEYS; key++) {
        double low = (double)NAN, high = (double)NAN;
        for (size_t i = 0; i < count; i++) {
            double m = bw_margin_held(at[i].margin[key]);
            low = isnan(low) ? m : fmin(low, m); /* fmin passes NAN by */
            high = isnan(high) ? m : fmax(high, m);
        }
        if (high - low > *swing + 1e-9) {
            *swing = high - low;
            most = key;
        }
    }
    return most;
}

static bw_status weigh(bw_unknown *u, const bw_case *at, size_t count,
                       const bw_case *as_drawn, size_t *key, bw_arena *arena,
                       bw_error *err)
{
    *key = moves_most(at, count, &u->swing);
    u->worst_margin = as_drawn->worst;
    for (size_t i = 0; i < count; i++)
        u->worst_margin = fmin(u->worst_margin, at[i].worst);
    if (*key == BW_CASE_KEYS)
        return BW_OK;
    u->swing_criterion = bw_key_words(arena, *key);
    u->swing_as_drawn = bw_margin_held(as_drawn->margin[*key]);
    u->swing_lowest = 1.0;
    u->swing_highest = -1.0;
    for (size_t i = 0; i < count; i++) {
        double m = bw_margin_held(at[i].margin[*key]);
        u->swing_lowest = fmin(u->swing_lowest, m);
        u->swing_highest = fmax(u->swing_highest, m);
    }
    return u->swing_criterion != NULL ? BW_OK : bw_fail_memory(err);
}

/* One way only, within the noise of the methods; and failing on one side. */
static bool one_way(const variation *v, size_t key)
{
    double up = 0.0, down = 0.0, last = (double)NAN;
    int turns = 0;
    if (key == BW_CASE_KEYS)
        return true;
    for (size_t i = 0; i < v->count; i++) {
        double m = v->at[i].margin[key];
        if (i > 0)
            turns += bw_case_key_fails(&v->at[i], key) !=
                     bw_case_key_fails(&v->at[i - 1], key);
        if (isnan(m))
            continue;
        if (!isnan(last)) {
            up = fmax(up, m - last);
            down = fmax(down, last - m);
        }
        last = m;
    }
    return turns < 2 && fmin(up, down) <= 1e-6 * fmax(up, down) + 1e-9;
}

static bw_status keep_samples(variation *v, size_t key)
{
    double *x = BW_NEW(v->arena, double, 2 * v->count);
    bw_verdict *verdict = BW_NEW(v->arena, bw_verdict, v->count);
    BW_TRY_MEMORY(x != NULL && verdict != NULL, v->err);
    for (size_t i = 0; i < v->count; i++) {
        x[i] = v->x[i];
        verdict[i] = v->at[i].verdict;
        x[v->count + i] = key < BW_CASE_KEYS ? v->at[i].margin[key]
                                             : (double)NAN;
    }
    v->u->sample_count = v->count;
    v->u->sample = x;
    v->u->sample_margin = x + v->count;
    v->u->sample_verdict = verdict;
    return BW_OK;
}

/* The cases at both ends. */
static bw_status show_ends(const variation *v, const bw_case *low,
                           const bw_case *high)
{
    bw_unknown *u = v->u;
    u->verdict_low = low->verdict;
    u->verdict_high = high->verdict;
    u->figure_low = bw_case_figure(v->arena, low);
    u->figure_high = bw_case_figure(v->arena, high);
    return u->figure_low.criterion != NULL && u->figure_high.criterion != NULL
               ? BW_OK
               : bw_fail_memory(v->err);
}

static bw_status keep_ends(const variation *v, bw_ends *ends)
{
    const bw_case *worst = v->as_drawn, *low = v->as_drawn, *high = low;
    const bw_unknown *u = v->u;
    ends->low = (bw_setting){true, u->low};
    ends->high = (bw_setting){true, u->high};
    for (size_t i = 0; i < v->count; i++) {
        if (v->x[i] <= u->low)
            low = &v->at[i];
        if (v->x[i] <= u->high)
            high = &v->at[i];
        bool inside = v->x[i] >= u->low && v->x[i] <= u->high;
        if (inside && i != v->drawn && bw_case_worse(&v->at[i], worst)) {
            worst = &v->at[i];
            ends->worst = (bw_setting){true, v->x[i]};
        }
    }
    if (ends->worst.set && ends->worst.value > u->low &&
        ends->worst.value < u->high)
        ends->inner = ends->worst;
    return show_ends(v, low, high);
}

static bw_status vary_range(variation *v, bw_ends *ends)
{
    size_t key, first = BW_CASE_KEYS;
    choose_samples(v);
    BW_TRY(run_samples(v));
    BW_TRY(search(v));
    BW_TRY(name_first(v, &first));
    BW_TRY(weigh(v->u, v->at, v->count, v->as_drawn, &key, v->arena, v->err));
    v->u->monotone = one_way(v, v->u->flips ? first : key);
    BW_TRY(keep_ends(v, ends));
    return keep_samples(v, key);
}

static bw_status note_switch(variation *v, double setting, const bw_case *to)
{
    bw_unknown *u = v->u;
    size_t key = bw_case_flip(v->as_drawn, to, NULL);
    if (key == BW_CASE_KEYS || (u->flips && !bw_case_key_fails(to, key)))
        return BW_OK;
    u->flip_share = 1.0;
    u->flip_value = setting;
    u->flip_fails = bw_case_key_fails(to, key);
    u->flip_changes_verdict = (to->fails == 0) != (v->as_drawn->fails == 0);
    return name_flip(v, key);
}

static bw_status vary_switch(variation *v, bw_ends *ends, bool two)
{
    bw_unknown *u = v->u;
    size_t key;
    v->at[0] = *v->as_drawn;
    BW_TRY(run(v, u->high, &v->at[1]));
    v->count = 2;
    if (two)
        BW_TRY(run(v, u->low, &v->at[v->count++]));
    u->monotone = true;
    BW_TRY(show_ends(v, &v->at[two ? 2 : 0], &v->at[1]));
    ends->high = (bw_setting){true, u->high};
    ends->low = (bw_setting){two, u->low};
    for (size_t i = 1; i < v->count; i++)
        BW_TRY(note_switch(v, i == 1 ? u->high : u->low, &v->at[i]));
    if (bw_case_worse(&v->at[1], v->as_drawn))
        ends->worst = ends->high;
    if (two && bw_case_worse(&v->at[2], v->as_drawn) &&
        (!ends->worst.set || bw_case_worse(&v->at[2], &v->at[1])))
        ends->worst = ends->low;
    return weigh(u, v->at, v->count, v->as_drawn, &key, v->arena, v->err);
}

bw_status bw_vary_alone(bw_ends *ends, const bw_study *study, size_t index,
                        const bw_case *as_drawn, bw_arena *arena, bw_error *err)
{
    bw_source *source = &study->source[index];
    bw_arena scratch = {0};
    variation *v = BW_NEW(&scratch, variation, 1);
    bw_setting *setting = BW_NEW(&scratch, bw_setting, study->count);
    *ends = (bw_ends){.low = {false, 0.0}};
    source->shown.verdict_as_drawn = as_drawn->verdict;
    bw_status status = BW_OK;
    if (v == NULL || setting == NULL) {
        status = bw_fail_memory(err);
    } else if (source->shown.seen) {
        *v = (variation){.study = study,
                         .index = index,
                         .as_drawn = as_drawn,
                         .arena = arena,
                         .err = err,
                         .setting = setting,
                         .u = &source->shown};
        status = source->shown.continuous
                     ? vary_range(v, ends)
                     : vary_switch(v, ends, source->shown.two_ended);
    }
    bw_arena_release(&scratch);
    return status;
}
