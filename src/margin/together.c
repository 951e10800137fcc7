
#include "fail.h"
#include "steps.h"

/* The worst combination: every unknown at the end that is worst alone. Then
 * every other setting of every single unknown is tried from there; the worst
 * of them is taken, and again, until none is worse or the rounds are used up (a
 * descent by coordinates: no proof that there is nothing worse). Worse: more
 * criteria fail, else a lower sum of m / (1 + |m|) over their relative margins
 * m. */

enum { CHOICES = 4 };

typedef struct search {
    const bw_study *study;
    const bw_ends *ends;
    bw_setting *now;
    bw_case *tried; /* [unknown][choice] */
    bool *valid;
} search;

static bw_setting choice(const bw_ends *ends, size_t which)
{
    const bw_setting all[CHOICES] = {
        {false, 0.0}, ends->low, ends->high, ends->inner};
    return all[which];
}

static bool same(bw_setting a, bw_setting b)
{
    return a.set == b.set &&
           (!a.set || !(a.value < b.value || b.value < a.value));
}

static bw_status try_one(void *payload, size_t index, bw_error *err)
{
    search *s = payload;
    size_t unknown = index / CHOICES;
    bw_setting other = choice(&s->ends[unknown], index % CHOICES);
    bool as_drawn = index % CHOICES == 0;
    s->valid[index] = s->study->source[unknown].shown.seen &&
                      (as_drawn || other.set) && !same(other, s->now[unknown]);
    if (!s->valid[index])
        return BW_OK;
    bw_arena scratch = {0};
    bw_setting *setting = BW_NEW(&scratch, bw_setting, s->study->count);
    BW_TRY_MEMORY(setting != NULL, err);
    for (size_t i = 0; i < s->study->count; i++)
        setting[i] = s->now[i];
    setting[unknown] = other;
    bw_status status = bw_case_run(&s->tried[index], s->study, setting, err);
    bw_arena_release(&scratch);
    return status;
}

/* One round; *moved tells whether something was worse. */
static bw_status round_about(search *s, bw_case *worst, bool *moved,
                             bw_error *err)
{
    size_t count = s->study->count * CHOICES, found = count;
    BW_TRY(bw_pool_run(s->study->pool, count, try_one, s, err));
    for (size_t i = 0; i < count; i++)
        if (s->valid[i] && bw_case_worse(&s->tried[i], worst)) {
            *worst = s->tried[i];
            found = i;
        }
    *moved = found < count;
    if (*moved)
        s->now[found / CHOICES] = choice(&s->ends[found / CHOICES],
                                         found % CHOICES);
    return BW_OK;
}

static size_t reason_key(const bw_case *c)
{
    size_t key = BW_CASE_KEYS;
    for (size_t i = 0; i < BW_CASE_KEYS; i++)
        if (bw_case_key_fails(c, i) &&
            (key == BW_CASE_KEYS || c->margin[i] < c->margin[key]))
            key = i;
    return key < BW_CASE_KEYS ? key : bw_case_worst_key(c);
}

static bw_status descend(search *s, bw_margin *out, const bw_case *as_drawn,
                         bw_error *err)
{
    bw_case worst = *as_drawn;
    bool any = false, moved = true;
    for (size_t i = 0; i < s->study->count; i++) {
        s->now[i] = s->ends[i].worst;
        any = any || s->now[i].set;
    }
    if (any)
        BW_TRY(bw_case_run(&worst, s->study, s->now, err));
    for (int n = 0; n < s->study->rounds && moved; n++) {
        BW_TRY(round_about(s, &worst, &moved, err));
        out->worst_combination_moved = out->worst_combination_moved || moved;
    }
    bw_arena *arena = s->study->arena;
    out->worst_combination = worst.verdict;
    out->worst_combination_margin = worst.worst;
    out->worst_combination_fails = worst.fails;
    out->worst_combination_reason = bw_key_words(arena, reason_key(&worst));
    out->worst_combination_text = bw_settings_words(s->study, s->now);
    return arena->failed ? bw_fail_memory(err) : BW_OK;
}

bw_status bw_vary_together(bw_margin *out, const bw_study *study,
                           const bw_ends *ends, const bw_case *as_drawn,
                           bw_error *err)
{
    bw_arena scratch = {0};
    size_t count = study->count * CHOICES;
    search s = {.study = study,
                .ends = ends,
                .now = BW_NEW(&scratch, bw_setting, study->count + 1),
                .tried = BW_NEW(&scratch, bw_case, count + 1),
                .valid = BW_NEW(&scratch, bool, count + 1)};
    bw_status status = s.now == NULL || s.tried == NULL || s.valid == NULL
                           ? bw_fail_memory(err)
                           : descend(&s, out, as_drawn, err);
    bw_arena_release(&scratch);
    return status;
}
