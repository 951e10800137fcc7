/* What a profile means for the water, remembered.
 *
 * With every sd constant, rates follow from the month and from which nodes are
 * wet, and the years of a run meet few such sets: each is drawn once.
 *
 * Invariant: what is remembered has the bits of what would be drawn. */

#include "fail.h"
#include "run.h"

enum { KNOWN_MOST = 256 };

/* Rates to be kept, for each node there is; seldom are more than a few nodes
 * wet. */
static const size_t kept_per_node = 32;

bw_status bw_rates_make(bw_rates *rates, bw_arena *arena, size_t nodes,
                        bw_error *err)
{
    rates->words = (nodes + BW_WORD - 1) / BW_WORD;
    rates->room = (kept_per_node + 1) * nodes;
    rates->kept = bw_arena_raw(arena, rates->room, sizeof *rates->kept);
    rates->wet = bw_arena_raw(arena, (KNOWN_MOST + 1) * rates->words,
                              sizeof *rates->wet);
    rates->known = bw_arena_raw(arena, KNOWN_MOST, sizeof *rates->known);
    if (rates->kept == NULL || rates->wet == NULL || rates->known == NULL)
        return bw_fail_memory(err);
    return BW_OK;
}

/* Which nodes are wet, behind the last set that is kept; is one? */
static bool note_wet(const bw_run *run, uint64_t *wet)
{
    uint64_t any = 0;
    for (size_t w = 0; w < run->rates.words; ++w)
        wet[w] = run->moist[w];
    if (run->held != BW_NO_NODE)
        wet[run->held / BW_WORD] |= (uint64_t)1 << run->held % BW_WORD;
    for (size_t w = 0; w < run->rates.words; ++w)
        any |= wet[w];
    return any != 0;
}

static bool is_same(const uint64_t *a, const uint64_t *b, size_t words)
{
    uint64_t other = 0;
    for (size_t w = 0; w < words; ++w)
        other |= a[w] ^ b[w];
    return other == 0;
}

static const bw_known *find(const bw_rates *rates, int month,
                            const uint64_t *wet)
{
    for (size_t i = rates->latest[month]; i > 0;) {
        const bw_known *known = &rates->known[i - 1];
        if (is_same(rates->wet + (i - 1) * rates->words, wet, rates->words))
            return known;
        i = known->before;
    }
    return NULL;
}

/* The rates of the profile drawn last, kept if there is room. */
static void keep(bw_run *run, int month, bool known)
{
    bw_rates *r = &run->rates;
    r->count = 0;
    r->flow = r->kept + r->used;
    for (size_t j = 0; j < run->grid.nodes; ++j)
        if (run->rate[j] != 0.0)
            r->kept[r->used + r->count++] = (bw_flow){j, run->rate[j]};
    if (!known || r->known_count == KNOWN_MOST ||
        r->used + r->count + run->grid.nodes > r->room)
        return;
    r->known[r->known_count++] = (bw_known){.flow = r->used,
                                            .count = r->count,
                                            .before = r->latest[month],
                                            .inflow = run->inflow};
    r->latest[month] = r->known_count;
    r->used += r->count;
}

bool bw_rates_find(bw_run *run, int month, bool fill)
{
    bw_rates *r = &run->rates;
    const bool constant = run->variable.count == 0;
    uint64_t *wet = r->wet + r->known_count * r->words;
    if (constant && (!note_wet(run, wet) || !fill)) {
        const bw_known *known = find(r, month, wet);
        if (known != NULL) {
            r->flow = r->kept + known->flow;
            r->count = known->count;
            run->inflow = known->inflow;
            return false;
        }
    }
    bw_profile(run, month, fill);
    keep(run, month, constant);
    return true;
}
