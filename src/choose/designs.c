#include <math.h>

#include "bothways/thermal.h"
#include "choosing.h"
#include "fail.h"

/* A design is one option of each choice: layers exchanged, or left out from the
 * inside outwards, so that no index moves before it is used. Price and carbon
 * are those of the layers chosen alone.
 *
 * Invariant: design n has the options that n spells in the mixed base of their
 * numbers, the last choice changing first. */

static const char *const goal_names[BW_GOAL_COUNT] = {
    [BW_GOAL_FAILING] = "failing",     [BW_GOAL_U] = "u",
    [BW_GOAL_THICKNESS] = "thickness", [BW_GOAL_RESERVE] = "reserve",
    [BW_GOAL_MOULD] = "mould",         [BW_GOAL_WOOD] = "wood",
    [BW_GOAL_PRICE] = "price",         [BW_GOAL_CARBON] = "carbon"};

const char *bw_goal_name(bw_goal goal)
{
    return goal_names[goal];
}

static void spell(size_t *option, const bw_choices *all, size_t number)
{
    for (size_t c = all->choice_count; c-- > 0;) {
        option[c] = number % all->choice[c].option_count;
        number /= all->choice[c].option_count;
    }
}

static const bw_option *option_of(const bw_choices *all, const size_t *option,
                                  size_t choice)
{
    return &all->choice[choice].option[option[choice]];
}

/* NULL: out of memory. */
static const bw_assembly *build(bw_choosing *c, const size_t *option)
{
    const bw_assembly *drawn = c->chosen.assembly;
    const bw_choices *all = &drawn->choices;
    bw_change change[BW_CHOICES_MOST];
    size_t count = 0;
    for (size_t layer = drawn->layer_count; layer-- > 0;)
        for (size_t k = 0; k < all->choice_count; k++) {
            const bw_option *o = option_of(all, option, k);
            if (all->choice[k].layer != layer || o->as_drawn)
                continue;
            change[count++] = (bw_change){
                .kind = o->layer != NULL ? BW_CHANGE_LAYER : BW_CHANGE_REMOVED,
                .layer = layer,
                .made = o->layer};
        }
    return bw_changes_apply(&c->arena, drawn, change, count);
}

static void name(bw_choosing *c, bw_design *d)
{
    const bw_choices *all = c->chosen.choices;
    d->name = "";
    for (size_t k = 0; k < all->choice_count; k++)
        d->name = bw_arena_say(&c->arena, "%s%s%s", d->name, k > 0 ? ", " : "",
                               option_of(all, d->option, k)->name);
}

static void cost(const bw_choosing *c, bw_design *d)
{
    const bw_choices *all = c->chosen.choices;
    double price = 0.0, carbon = 0.0;
    for (size_t k = 0; k < all->choice_count; k++) {
        const bw_option *o = option_of(all, d->option, k);
        price += isnan(o->price) ? 0.0 : o->price;
        carbon += isnan(o->carbon) ? 0.0 : o->carbon;
        if (!isnan(o->price) && o->price_evidence == BW_EVIDENCE_ASSUMED)
            d->assumed[BW_GOAL_PRICE] = true;
        if (!isnan(o->carbon) && o->carbon_evidence == BW_EVIDENCE_ASSUMED)
            d->assumed[BW_GOAL_CARBON] = true;
    }
    d->goal[BW_GOAL_PRICE] = all->has_price ? price : (double)NAN;
    d->goal[BW_GOAL_CARBON] = all->has_carbon ? carbon : (double)NAN;
}

/* What is computed of a wall with an assumed layer is assumed, too. */
static void grade(bw_choosing *c, bw_design *d, const bw_assembly *of)
{
    d->assumed_layers = "";
    for (size_t i = 0; i < of->layer_count; i++) {
        if (of->layer[i].evidence != BW_EVIDENCE_ASSUMED)
            continue;
        d->assumed_layers = bw_arena_say(
            &c->arena, "%s%s%s", d->assumed_layers,
            d->assumed_layers[0] != '\0' ? ", " : "", of->layer[i].id);
        for (int g = 0; g < BW_GOAL_COUNT; g++)
            if (g != BW_GOAL_PRICE && g != BW_GOAL_CARBON &&
                g != BW_GOAL_THICKNESS)
                d->assumed[g] = true;
    }
}

static bw_status measure(bw_choosing *c, size_t i, bw_error *err)
{
    bw_design *d = &c->design[i];
    bw_candidate *made = &c->candidate[i];
    bw_thermal_result thermal;
    BW_TRY(bw_thermal(&thermal, made->assembly, err));
    made->u = thermal.transmittance;
    for (size_t k = 0; k < made->assembly->layer_count; k++)
        made->thickness += made->assembly->layer[k].thickness;
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        d->goal[g] = d->drawn_goal[g] = (double)NAN;
    d->goal[BW_GOAL_U] = made->u;
    d->goal[BW_GOAL_THICKNESS] = made->thickness;
    cost(c, d);
    grade(c, d, made->assembly);
    return BW_OK;
}

/* ---- limits -------------------------------------------------------------- */

static const char *over(bw_choosing *c, const bw_design *d, bw_goal goal)
{
    const double most = c->chosen.choices->most[goal], is = d->goal[goal];
    bw_arena *arena = &c->arena;
    if (!(most > 0.0) || !(is > most * (1.0 + 1e-9)))
        return NULL;
    switch (goal) {
    case BW_GOAL_U:
        return bw_arena_say(arena, "U %.3g, more than %.3g W/(m2 K)", is, most);
    case BW_GOAL_THICKNESS:
        return bw_arena_say(arena, "%.4g mm thick, more than %.4g mm", 1e3 * is,
                            1e3 * most);
    case BW_GOAL_PRICE:
        return bw_arena_say(arena, "price %.4g, more than %.4g %s/m2", is, most,
                            c->chosen.choices->currency);
    default:
        return bw_arena_say(arena, "carbon %.3g, more than %.3g kg/m2", is,
                            most);
    }
}

static void limit(bw_choosing *c, size_t i)
{
    bw_design *d = &c->design[i];
    for (int g = 0; g < BW_GOAL_COUNT; g++) {
        const char *why = over(c, d, (bw_goal)g);
        if (why == NULL)
            continue;
        d->standing = BW_OUT;
        d->dropped = why;
        c->candidate[i].judged_out = true;
        c->chosen.over_limit++;
        return;
    }
}

/* ---- all ----------------------------------------------------------------- */

bw_status bw_designs_make(bw_choosing *c, bw_error *err)
{
    const bw_choices *all = c->chosen.choices;
    c->count = 1;
    for (size_t k = 0; k < all->choice_count; k++)
        c->count *= all->choice[k].option_count;
    c->design = BW_NEW(&c->arena, bw_design, c->count);
    c->candidate = BW_NEW(&c->arena, bw_candidate, c->count);
    BW_TRY_MEMORY(c->design != NULL && c->candidate != NULL, err);
    for (size_t i = 0; i < c->count; i++) {
        size_t *option = BW_NEW(&c->arena, size_t, all->choice_count);
        BW_TRY_MEMORY(option != NULL, err);
        spell(option, all, i);
        c->design[i] = (bw_design){.option = option,
                                   .dropped = "",
                                   .beaten_by = -1,
                                   .as_drawn = BW_NOT_ASSESSED,
                                   .breaks = "",
                                   .central = "",
                                   .worst = "",
                                   .decides = "",
                                   .bound = (double)NAN,
                                   .score = (double)NAN};
        c->candidate[i].assembly = build(c, option);
        BW_TRY_MEMORY(c->candidate[i].assembly != NULL, err);
        name(c, &c->design[i]);
        BW_TRY(measure(c, i, err));
        limit(c, i);
    }
    c->chosen.design_count = c->count;
    c->chosen.design = c->design;
    return c->arena.failed ? bw_fail_memory(err) : BW_OK;
}
