/* Which two of the changes simulated are put together: every pair, the best
 * first. */
#include "best_two.h"

static bool apart(const bw_proposal *a, const bw_proposal *b)
{
    return a->kind != b->kind && (!bw_change_facts_of(&a->change).of_layer ||
                                  !bw_change_facts_of(&b->change).of_layer ||
                                  a->change.layer != b->change.layer);
}

static bool is_before(const bw_tried *a, const bw_tried *b)
{
    if (a->used != b->used)
        return a->used;
    return a->used && bw_score_better(&a->score, &b->score);
}

bool bw_best_two(size_t two[2], const bw_proposal *change,
                 const bw_tried *result, const size_t *chosen, size_t count)
{
    size_t order[BW_TWO_OF_MOST];
    for (size_t n = 0; n < count; n++) {
        size_t at = n;
        for (; at > 0 && is_before(&result[chosen[n]], &result[order[at - 1]]);
             at--)
            order[at] = order[at - 1];
        order[at] = chosen[n];
    }
    for (size_t n = 1; n < count; n++)
        for (size_t m = 0; m < n; m++) {
            const bw_proposal *a = &change[order[m]], *b = &change[order[n]];
            if (!apart(a, b))
                continue;
            two[0] = order[a->kind < b->kind ? m : n];
            two[1] = order[a->kind < b->kind ? n : m];
            return true;
        }
    return false;
}
