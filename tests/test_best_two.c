/* Which two changes are simulated together (head of src/criteria/best_two.h),
 * written a second time: of random changes every pair is looked at. */

#include <string.h>

#include "criteria/best_two.h"
#include "random_wall.h"
#include "suite.h"

enum { CHANGES = 8, DRAWS = 400 };

static dice die;
static bw_proposal change[CHANGES];
static bw_tried result[CHANGES];
static size_t chosen[BW_TWO_OF_MOST];

static size_t whole(size_t below)
{
    return (size_t)between(&die, 0.0, (double)below);
}

/* Changes of one layer or of none, of few kinds and layers, so that many clash;
 * scores of which many are equal. */
static void make(size_t count)
{
    static const bw_change_kind kinds[] = {
        BW_CHANGE_PROPERTY, BW_CHANGE_MATERIAL, BW_CHANGE_RAIN_LEAK};
    for (size_t i = 0; i < CHANGES; i++) {
        change[i] = (bw_proposal){
            .kind = (bw_proposal_kind)whole(4),
            .change = {.kind = kinds[whole(3)], .layer = whole(3)},
            .text = "a change"};
        result[i] = (bw_tried){.used = whole(3) > 0};
        result[i].score = (bw_score){.fails = whole(2),
                                     .marginal = whole(2),
                                     .worst_margin = 0.25 * (double)whole(3)};
    }
    for (size_t n = 0; n < count; n++)
        chosen[n] = (whole(2) + 2 * n) % CHANGES;
}

static bool of_layer(const bw_proposal *p)
{
    return p->change.kind != BW_CHANGE_RAIN_LEAK;
}

static bool together(const bw_proposal *a, const bw_proposal *b)
{
    if (a->kind == b->kind)
        return false;
    return !(of_layer(a) && of_layer(b) && a->change.layer == b->change.layer);
}

/* By the words of the header. */
static bool is_better(size_t n, size_t m)
{
    const bw_tried *a = &result[chosen[n]], *b = &result[chosen[m]];
    if (a->used && !b->used)
        return true;
    if (!a->used && b->used)
        return false;
    if (a->used && bw_score_better(&a->score, &b->score))
        return true;
    if (a->used && bw_score_better(&b->score, &a->score))
        return false;
    return n < m;
}

static size_t rank(size_t n, size_t count)
{
    size_t before = 0;
    for (size_t m = 0; m < count; m++)
        before += m != n && is_better(m, n);
    return before;
}

/* The pair whose worse one is best, and then whose better one is. */
static bool best(size_t two[2], size_t count)
{
    size_t least = 1000;
    for (size_t n = 0; n < count; n++)
        for (size_t m = 0; m < count; m++) {
            const size_t a = rank(n, count), b = rank(m, count);
            if (a >= b || 100 * b + a >= least ||
                !together(&change[chosen[n]], &change[chosen[m]]))
                continue;
            least = 100 * b + a;
            const bool first = change[chosen[n]].kind < change[chosen[m]].kind;
            two[0] = chosen[first ? n : m];
            two[1] = chosen[first ? m : n];
        }
    return least < 1000;
}

START_TEST(the_best_two_that_go_together_are_found)
{
    const size_t count = (size_t)_i;
    size_t found = 0;
    die = (dice){.state = 0x9e3779b97f4a7c15u * (uint64_t)(_i + 1)};
    for (int draw = 0; draw < DRAWS; draw++) {
        size_t is[2] = {99, 99}, should[2] = {99, 99};
        make(count);
        const bool any = best(should, count);
        ck_assert(bw_best_two(is, change, result, chosen, count) == any);
        ck_assert_uint_eq(is[0], should[0]);
        ck_assert_uint_eq(is[1], should[1]);
        found += any;
    }
    if (count < 2)
        ck_assert_uint_eq(found, 0);
    else {
        ck_assert_uint_gt(found, DRAWS / 4);
        ck_assert_uint_lt(found, DRAWS);
    }
}
END_TEST

SUITE("best_two", {the_best_two_that_go_together_are_found, BW_TWO_OF_MOST + 1})
