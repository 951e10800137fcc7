#include <stdio.h>
#include <string.h>

#include "choosing.h"
#include "fail.h"

/* The unknowns are those of a margin, found of each design (unknowns.c). What
 * is the same thing of two designs is one finding: by what is changed, of which
 * layer; how vapour passes a layer is one, however its material says it. Every
 * finding has a coordinate of its own, so that a case puts each design at the
 * same place of its range: common random numbers.
 */

static bw_finding_key key_of(const bw_assembly *of, const bw_source *s)
{
    const bw_change *change = &s->high;
    bw_finding_key key = {.kind = change->kind,
                          .property = change->property,
                          .layer = s->shown.layer,
                          .library = change->whence != NULL};
    const bool vapour = change->kind == BW_CHANGE_CURVE ||
                        change->kind == BW_CHANGE_MU ||
                        (change->kind == BW_CHANGE_PROPERTY &&
                         change->property <= BW_VARIED_SD);
    if (bw_change_facts_of(change).of_layer || vapour)
        key.layer = of->layer[change->layer].id;
    if (vapour) {
        key.kind = BW_CHANGE_PROPERTY;
        key.property = BW_VARIED_MU;
    }
    return key;
}

static bool same(const bw_finding_key *a, const bw_finding_key *b)
{
    return a->kind == b->kind && a->property == b->property &&
           a->library == b->library && strcmp(a->layer, b->layer) == 0;
}

static const bw_choice *choice_of(const bw_choosing *c, const char *layer)
{
    const bw_choices *all = c->chosen.choices;
    for (size_t k = 0; layer[0] != '\0' && k < all->choice_count; k++)
        if (strcmp(c->chosen.assembly->layer[all->choice[k].layer].id, layer) ==
            0)
            return &all->choice[k];
    return NULL;
}

static bw_finding describe(bw_choosing *c, const bw_study *study,
                           const bw_source *s, const bw_finding_key *key)
{
    const bw_choice *choice = choice_of(c, key->layer);
    const bw_unknown *u = &s->shown;
    bw_finding f = {.name = u->name, .low = "", .high = u->high_words};
    if (choice != NULL && key->kind == BW_CHANGE_PROPERTY) {
        const char *what = key->property == BW_VARIED_MU
                               ? "vapour resistance"
                               : bw_varied_word(key->property);
        f.name = bw_arena_say(&c->arena, "%s of the %s%s", what, choice->name,
                              key->library ? " in the library" : "");
        f.low = "least of each";
        f.high = "most of each";
        f.of_choice = true;
    } else if (u->continuous) {
        f.low = bw_setting_words(study, s, u->low);
        f.high = bw_setting_words(study, s, u->high);
    } else if (u->two_ended) {
        f.low = u->low_words;
    }
    return f;
}

static bw_status number(bw_choosing *c, bw_candidate *of, bw_finding *list,
                        size_t most, bw_error *err)
{
    of->finding = BW_NEW(&c->arena, size_t, of->study.count + 1);
    BW_TRY_MEMORY(of->finding != NULL, err);
    for (size_t i = 0; i < of->study.count; i++) {
        const bw_finding_key key = key_of(of->assembly, &of->study.source[i]);
        size_t f = 0;
        while (f < c->finding_count && !same(&c->key[f], &key))
            f++;
        of->finding[i] = f;
        if (f < c->finding_count || f == most)
            continue;
        c->key[f] = key;
        list[f] = describe(c, &of->study, &of->study.source[i], &key);
        c->finding_count++;
    }
    if (of->study.count > c->slots.unknowns)
        c->slots.unknowns = of->study.count;
    return BW_OK;
}

static bw_status fail_settled(const bw_choosing *c, const char *words,
                              size_t count, bw_error *err)
{
    char list[400] = "";
    for (size_t f = 0, used = 0; f < c->finding_count && used < 300; f++)
        used += (size_t)snprintf(list + used, sizeof list - used, "%s\"%.60s\"",
                                 f > 0 ? ", " : "", c->finding[f].name);
    return bw_fail_usage(err,
                         "'%s' is in the name of %s; settled is one by words "
                         "that it alone has: %s",
                         words, count == 0 ? "no finding" : "several findings",
                         list);
}

/* What is settled is seen by no method, and stays as drawn. */
static bw_status settle(bw_choosing *c, bw_error *err)
{
    for (size_t i = 0; i < c->options.settled_count; i++) {
        const char *words = c->options.settled[i];
        size_t count = 0;
        for (size_t f = 0; f < c->finding_count; f++)
            if (strstr(c->finding[f].name, words) != NULL) {
                c->finding[f].settled = true;
                count++;
            }
        if (count != 1)
            return fail_settled(c, words, count, err);
    }
    for (size_t d = 0; d < c->count; d++)
        for (size_t i = 0; i < c->candidate[d].study.count; i++)
            if (c->finding[c->candidate[d].finding[i]].settled)
                c->candidate[d].study.source[i].shown.seen = false;
    return BW_OK;
}

/* What a margin varies of the wall as drawn, and this does not. */
static bw_status find_fixed(bw_choosing *c, bw_study study, bw_error *err)
{
    study.assembly = c->chosen.assembly;
    study.count = 0;
    BW_TRY(bw_unknowns_find(&study, err));
    const size_t narrow = study.count;
    const bw_source *of = study.source;
    study.count = 0;
    study.wide = true;
    BW_TRY(bw_unknowns_find(&study, err));
    const char **fixed = BW_NEW(&c->arena, const char *, study.count + 1);
    BW_TRY_MEMORY(fixed != NULL, err);
    for (size_t i = 0; i < study.count; i++) {
        const char *name = study.source[i].shown.name;
        bool varied = c->options.wide;
        for (size_t k = 0; k < narrow; k++)
            varied = varied || strcmp(of[k].shown.name, name) == 0;
        if (!varied)
            fixed[c->chosen.fixed_count++] = name;
    }
    c->chosen.fixed = fixed;
    return BW_OK;
}

bw_status bw_findings_find(bw_choosing *c, bw_error *err)
{
    const bw_study like = {.climate = c->chosen.climate,
                           .options = c->options.assessment,
                           .arena = &c->arena,
                           .pool = &c->pool,
                           .tally = &c->tally,
                           .wide = c->options.wide};
    size_t most = 0;
    for (size_t i = 0; i < c->count; i++) {
        bw_candidate *of = &c->candidate[i];
        if (of->judged_out)
            continue;
        of->study = like;
        of->study.assembly = of->assembly;
        BW_TRY(bw_unknowns_find(&of->study, err));
        most += of->study.count;
    }
    bw_finding *list = BW_NEW(&c->arena, bw_finding, most + 1);
    c->key = BW_NEW(&c->arena, bw_finding_key, most + 1);
    BW_TRY_MEMORY(list != NULL && c->key != NULL, err);
    for (size_t i = 0; i < c->count; i++)
        if (!c->candidate[i].judged_out)
            BW_TRY(number(c, &c->candidate[i], list, most, err));
    c->chosen.finding_count = c->finding_count;
    c->chosen.finding = c->finding = list;
    BW_TRY(settle(c, err));
    return find_fixed(c, like, err);
}
