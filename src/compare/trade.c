/* A trade-off: in what one of the walls that are not told apart is better, and
 * another in what else. As drawn by the criteria that both have, and under each
 * stress by what is left to the nearest limit.
 *
 *   apart = m_best - m_worst,  m = margin / |limit| within -1..1
 *
 * Invariant: less than BW_COMPARE_DIFFERENCE is no difference; a time that was
 * not reached is as far from its limit as can be. */

#include <math.h>
#include <string.h>

#include "case.h"
#include "comparing.h"
#include "fail.h"

/* What the better wall does, in words of the trade. */
static const struct trait_words {
    const char *name, *words;
} traits[] = {
    {"wetting-test", "dries faster after a wetting"},
    {"drying-test", "dries faster after a wetting"},
    {"standing-water", "lets less water stand"},
    {"wood-moisture", "keeps its timber drier"},
    {"panel-moisture", "keeps its boards drier"},
    {"mould-index-hidden", "has less mould to fear within"},
    {"mould-index-room", "has less mould to fear at the room face"},
    {"decay-dose", "is further from decay"},
    {"hours-above-95", "is near saturation for fewer hours"},
    {"covering-humidity", "is drier under its inner covering"},
    {"condensate-absorbing", "takes up less condensate"},
    {"condensate-non-absorbing", "lets less condensate stand"},
    {"condensate-confirmed", "lets less condensate form"},
    {"drying-reserve", "has more drying reserve"},
    {"surface-mould", "has the warmer inner face"},
    {"air-leak", "stands leaking room air better"},
    {"rain-leak", "stands a rain leak better"},
    {"damp-room", "stands a damper room better"},
    {"blocked-cavity", "stands a blocked cavity better"},
};

static const char *words_of(const char *name)
{
    for (size_t i = 0; i < sizeof traits / sizeof *traits; i++)
        if (strcmp(traits[i].name, name) == 0)
            return traits[i].words;
    return NULL;
}

/* Of the limit, what one wall has to spare as drawn; NAN: not compared. */
static double of_row(const bw_compare_row *row, size_t wall)
{
    const bw_criterion *c = row->criterion[wall];
    if (c == NULL || !c->has_value || !c->has_limit || fabs(c->limit) <= 0.0)
        return (double)NAN;
    return c->never ? -1.0 : bw_margin_held(c->margin / fabs(c->limit));
}

static double of_stress(const bw_stress *stress, size_t wall)
{
    const bw_stressed *s = &stress->wall[wall];
    return s->applies ? s->worst_margin : (double)NAN;
}

/* Ordered in, if it is one: what differs most first. */
static void add(bw_compare_core *core, bw_trait *list, bw_trait trait)
{
    bw_comparison *c = &core->comparison;
    double least = (double)INFINITY, most = -(double)INFINITY;
    trait.words = words_of(trait.name);
    for (size_t k = 0; trait.words != NULL && k < c->best_count; k++) {
        const size_t wall = c->order[k];
        const double left = trait.row != NULL ? of_row(trait.row, wall)
                                              : of_stress(trait.stress, wall);
        if (left < least) {
            least = left;
            trait.worst = wall;
        }
        if (left > most) {
            most = left;
            trait.best = wall;
        }
    }
    trait.apart = most - least;
    if (!(trait.apart >= BW_COMPARE_DIFFERENCE))
        return;
    size_t at = c->trait_count++;
    for (; at > 0 && list[at - 1].apart < trait.apart; at--)
        list[at] = list[at - 1];
    list[at] = trait;
}

bw_status bw_compare_traits(bw_compare_core *core, bw_error *err)
{
    bw_comparison *c = &core->comparison;
    bw_trait *list = BW_NEW(&core->arena, bw_trait,
                            c->row_count + c->stress_count + 1);
    BW_TRY_MEMORY(list != NULL, err);
    c->trait = list;
    for (size_t i = 0; i < c->row_count; i++)
        if (c->row[i].is_criterion && !(c->simulated && c->row[i].by_months))
            add(core, list,
                (bw_trait){.name = c->row[i].name, .row = &c->row[i]});
    for (size_t i = 0; i < c->stress_count; i++)
        add(core, list,
            (bw_trait){.name = c->stress[i].name, .stress = &c->stress[i]});
    return BW_OK;
}
