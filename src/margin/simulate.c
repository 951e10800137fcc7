#include <math.h>

#include "fail.h"
#include "steps.h"

/* The simulation decides: the wall as drawn is simulated, as `check` does it,
 * and then the cases that tell most, both ends of an unknown, until the budget
 * is used; at last all unknowns so simulated at their worse ends together. What
 * tells most is asked of the steady methods (the swing of alone.c) and, for
 * what these cannot see, of a fixed order. The two lists take turns. */

/* Which of the unknowns that the steady methods cannot see to simulate first:
 * as often as they have ruined walls, by judgement (estimate). */
enum { LAST = 99 };

static int urgency(bw_change_kind kind)
{
    static const bw_change_kind order[] = {
        BW_CHANGE_RAIN_LEAK,      BW_CHANGE_DRIVING_RAIN, BW_CHANGE_ABSORPTION,
        BW_CHANGE_REDISTRIBUTION, BW_CHANGE_START,        BW_CHANGE_AIR_CHANGE,
        BW_CHANGE_SORPTION,       BW_CHANGE_WIND,         BW_CHANGE_SATURATION,
        BW_CHANGE_BUILT_IN,
    };
    int i = 0;
    while (i < (int)(sizeof order / sizeof *order) && order[i] != kind)
        i++;
    return i;
}

typedef struct picked {
    size_t unknown;
    bw_setting setting;
    bw_case result;
} picked;

typedef struct plan {
    const bw_study *study;
    size_t *seen, *unseen; /* unknowns, the most telling first */
    size_t seen_count, unseen_count;
    picked *pick;
    size_t count, most;
} plan;

/* Water is taken up at the face first: further in it comes last. */
static int urgency_of(const bw_source *source)
{
    bool inside = source->high.kind == BW_CHANGE_ABSORPTION &&
                  source->high.layer > 0;
    return inside ? LAST : urgency(source->high.kind);
}

static bool sooner(const bw_source *a, const bw_source *b)
{
    const bool named = a->high.kind == BW_CHANGE_MATERIAL; /* by the file */
    if (named != (b->high.kind == BW_CHANGE_MATERIAL))
        return named;
    if (!a->shown.seen)
        return urgency_of(a) < urgency_of(b);
    if (a->shown.flip_changes_verdict != b->shown.flip_changes_verdict)
        return a->shown.flip_changes_verdict;
    return a->shown.swing > b->shown.swing;
}

static void enter(const plan *p, size_t *list, size_t *count, size_t unknown)
{
    const bw_source *source = p->study->source;
    size_t k = (*count)++;
    for (; k > 0 && sooner(&source[unknown], &source[list[k - 1]]); k--)
        list[k] = list[k - 1];
    list[k] = unknown;
}

/* False: the budget has no room for all ends of it. */
static bool pick(plan *p, size_t unknown)
{
    bw_setting end[2];
    size_t count = bw_source_ends(&p->study->source[unknown], end);
    if (p->count + count > p->most)
        return false;
    for (size_t i = 0; i < count; i++)
        p->pick[p->count++] = (picked){.unknown = unknown, .setting = end[i]};
    return true;
}

/* Turn by turn; returns how many unknowns were left out. */
static size_t choose(plan *p)
{
    size_t s = 0, u = 0, left_out = 0;
    while (s < p->seen_count || u < p->unseen_count) {
        if (u < p->unseen_count)
            left_out += !pick(p, p->unseen[u++]);
        if (s < p->seen_count)
            left_out += !pick(p, p->seen[s++]);
    }
    return left_out;
}

static bw_status run_settings(const plan *p, const bw_setting *setting,
                              bw_case *out, bw_error *err)
{
    return bw_case_run(out, p->study, setting, err);
}

static bw_status run_pick(void *payload, size_t index, bw_error *err)
{
    const plan *p = payload;
    bw_arena scratch = {0};
    bw_setting *setting = BW_NEW(&scratch, bw_setting, p->study->count + 1);
    BW_TRY_MEMORY(setting != NULL, err);
    setting[p->pick[index].unknown] = p->pick[index].setting;
    bw_status status = run_settings(p, setting, &p->pick[index].result, err);
    bw_arena_release(&scratch);
    return status;
}

/* Each unknown's worse end, where that is worse than as drawn; how many. */
static size_t worse_ends(const plan *p, const bw_case *as_drawn,
                         bw_setting *setting)
{
    size_t count = 0;
    for (size_t i = 0; i < p->count; i++) {
        const picked *a = &p->pick[i];
        const bw_case *now = as_drawn;
        for (size_t k = 0; k < i; k++)
            if (p->pick[k].unknown == a->unknown && setting[a->unknown].set)
                now = &p->pick[k].result;
        if (!a->result.simulated || !bw_case_worse(&a->result, now))
            continue;
        count += !setting[a->unknown].set;
        setting[a->unknown] = a->setting;
    }
    return count;
}

static bool fill(bw_simulated *out, bw_arena *arena, const bw_case *of,
                 size_t drawn, const char *setting, const char *unknown)
{
    *out = (bw_simulated){.setting = setting,
                          .unknown = unknown,
                          .simulated = of->simulated,
                          .verdict = of->verdict,
                          .fails = of->fails,
                          .figure = bw_case_figure(arena, of),
                          .margin_as_drawn = drawn < BW_CASE_KEYS
                                                 ? of->margin[drawn]
                                                 : (double)NAN};
    return !arena->failed;
}

static bw_status together(const plan *p, const bw_case *as_drawn,
                          bw_simulated *out, size_t *count, bw_error *err)
{
    bw_arena *arena = p->study->arena;
    bw_setting *setting = BW_NEW(arena, bw_setting, p->study->count + 1);
    BW_TRY_MEMORY(setting != NULL, err);
    if (worse_ends(p, as_drawn, setting) < 2)
        return BW_OK;
    bw_case worst;
    BW_TRY(run_settings(p, setting, &worst, err));
    const char *words = bw_arena_say(arena, "together: %s",
                                     bw_settings_words(p->study, setting));
    return fill(&out[(*count)++], arena, &worst, bw_case_deciding_key(as_drawn),
                words, "")
               ? BW_OK
               : bw_fail_memory(err);
}

static bw_status show(const plan *p, const bw_case *as_drawn, bw_margin *out,
                      bw_error *err)
{
    bw_arena *arena = p->study->arena;
    bw_simulated *list = BW_NEW(arena, bw_simulated, p->count + 2);
    BW_TRY_MEMORY(list != NULL, err);
    size_t count = 0, drawn = bw_case_deciding_key(as_drawn);
    BW_TRY_MEMORY(fill(&list[count++], arena, as_drawn, drawn, "as drawn", ""),
                  err);
    for (size_t i = 0; i < p->count; i++) {
        const bw_source *source = &p->study->source[p->pick[i].unknown];
        const char *words = bw_setting_words(p->study, source,
                                             p->pick[i].setting.value);
        BW_TRY_MEMORY(fill(&list[count++], arena, &p->pick[i].result, drawn,
                           words, source->shown.name),
                      err);
    }
    BW_TRY(together(p, as_drawn, list, &count, err));
    out->simulated = list;
    out->simulated_count = count;
    return BW_OK;
}

/* The other room, for whoever looks for the dampest. */
static void find_room(const plan *p, bw_known_room *room)
{
    for (size_t i = 0; i < p->count; i++) {
        if (p->study->source[p->pick[i].unknown].high.kind !=
            BW_CHANGE_HUMIDITY)
            continue;
        room->room = p->study->assembly->indoors;
        room->set = bw_indoors_step(&room->room, p->pick[i].setting.value > 0);
        room->at = p->pick[i].result;
    }
}

bw_status bw_simulate_cases(bw_margin *out, const bw_study *study,
                            const bw_case *as_drawn, size_t budget,
                            bw_known_room *room, bw_error *err)
{
    bw_arena *arena = study->arena;
    plan p = {.study = study,
              .seen = BW_NEW(arena, size_t, study->count + 1),
              .unseen = BW_NEW(arena, size_t, study->count + 1),
              .pick = BW_NEW(arena, picked, budget + 1),
              .most = budget};
    BW_TRY_MEMORY(p.seen != NULL && p.unseen != NULL && p.pick != NULL, err);
    for (size_t i = 0; i < study->count; i++)
        if (study->source[i].shown.seen)
            enter(&p, p.seen, &p.seen_count, i);
        else
            enter(&p, p.unseen, &p.unseen_count, i);
    out->not_simulated = choose(&p);
    BW_TRY(bw_pool_run(study->pool, p.count, run_pick, &p, err));
    find_room(&p, room);
    return show(&p, as_drawn, out, err);
}
