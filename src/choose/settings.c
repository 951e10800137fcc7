#include <math.h>

#include "choosing.h"
#include "sobol.h"

/* What each case sets. To race, a case is a point of one of eight scramblings
 * of a Sobol sequence; for the statement it is drawn at random and
 * independently of all others, which is what an exact binomial bound asks for.
 *
 * Invariant: a case puts every design at the same place of its ranges. */

enum { RACE_SEED = 1, DRAWN_SEED = 2 };

static int badness(const bw_judged *j)
{
    static const int of[] = {[BW_HOLDS] = 0,
                             [BW_MARGINAL] = 1,
                             [BW_NOT_ASSESSED] = 2,
                             [BW_FAILS] = 3};
    return of[j->said] * 4 + of[j->numbers];
}

size_t bw_worst_drawn(const bw_choosing *c, size_t design)
{
    size_t worst = c->slots.drawn;
    const bw_judged *now = NULL;
    for (size_t i = 0; i < c->slots.drawn; i++) {
        const bw_judged *j = bw_judged_of(
            c, design, bw_slot_drawn(&c->slots, i), c->chosen.simulated);
        if (!j->done)
            continue;
        if (now == NULL || badness(j) > badness(now) ||
            (badness(j) == badness(now) &&
             (j->margin < now->margin ||
              (isnan(now->margin) && !isnan(j->margin))))) {
            worst = i;
            now = j;
        }
    }
    return worst;
}

static double place_of(const bw_choosing *c, size_t slot, size_t finding)
{
    const uint64_t seed = c->options.seed;
    const size_t race = bw_slot_race(&c->slots, 0);
    const size_t drawn = bw_slot_drawn(&c->slots, 0);
    if (slot >= drawn)
        return bw_random(bw_seed_of(seed, DRAWN_SEED), slot - drawn, finding);
    const size_t i = slot - race;
    const uint64_t set = bw_seed_of(bw_seed_of(seed, RACE_SEED),
                                    i % BW_RACE_SETS);
    return bw_sobol_scrambled(set, i / BW_RACE_SETS, finding);
}

void bw_settings_of(const bw_choosing *c, size_t design, size_t slot,
                    bw_setting *setting)
{
    const bw_candidate *of = &c->candidate[design];
    const bw_slots *s = &c->slots;
    bool reset = slot >= bw_slot_reset(s, 0);
    const size_t again = reset ? slot - bw_slot_reset(s, 0) : s->unknowns;
    if (reset)
        slot = bw_slot_drawn(s, bw_worst_drawn(c, design));
    for (size_t i = 0; i < of->study.count; i++) {
        bw_setting end[2];
        setting[i] = (bw_setting){false, 0.0};
        if (slot >= bw_slot_race(s, 0))
            setting[i] = bw_setting_draw(&of->study.source[i],
                                         place_of(c, slot, of->finding[i]));
        else if (slot >= bw_slot_end(i, 0) && slot <= bw_slot_end(i, 1) &&
                 bw_source_ends(&of->study.source[i], end) >
                     slot - bw_slot_end(i, 0))
            setting[i] = end[slot - bw_slot_end(i, 0)];
        /* all that is the same finding, as the alternatives of a layer */
        if (reset && of->finding[i] == of->finding[again])
            setting[i].set = false;
    }
}
