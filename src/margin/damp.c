#include <math.h>

#include "fail.h"
#include "steps.h"
#include "verdict.h"

/* The dampest room the wall stands: whole percents of a constant RH, or
 * humidity classes, halved between one that holds and one that does not. That
 * it holds below one at which it holds is taken, not computed. */

/* Nobody lives outside of these [% RH]. */
enum { DRIEST = 20, DAMPEST = 95, CLASSES = 5 };

typedef struct search {
    const bw_study *study;
    bw_damp_limit *out;
    bw_case beyond; /* the case there */
} search;

static void note(search *s, int level, const bw_case *at)
{
    bw_damp_limit *out = s->out;
    if (bw_verdict_good(at->verdict)) {
        out->holds = level;
        out->verdict = at->verdict;
        return;
    }
    out->beyond = level;
    out->verdict_beyond = at->verdict;
    s->beyond = *at;
}

/* The wall in such a room; NULL: out of memory. */
static const bw_assembly *room_at(const search *s, int level)
{
    const bw_change change = s->out->by_class
                                 ? bw_change_to(BW_CHANGE_CLASS, 0, level)
                                 : bw_change_to(BW_CHANGE_ROOM, 0,
                                                0.01 * level);
    return bw_change_apply(s->study->arena, s->study->assembly, &change);
}

static bw_status try_level(search *s, int level, bw_error *err)
{
    bw_case at;
    const bw_assembly *changed = room_at(s, level);
    BW_TRY_MEMORY(changed != NULL, err);
    BW_TRY(bw_case_assess(&at, s->study, changed, err));
    s->out->cases++;
    s->out->simulated = s->out->simulated && at.simulated;
    note(s, level, &at);
    return BW_OK;
}

/* As drawn is one end: rounded towards where it is as good or as bad. */
static void start(search *s, const bw_case *as_drawn)
{
    const bw_indoors *room = &s->study->assembly->indoors;
    double now = s->out->by_class ? room->humidity_class
                                  : 100.0 * room->relative_humidity;
    int level = (int)(bw_verdict_good(as_drawn->verdict) ? floor(now + 1e-9)
                                                         : ceil(now - 1e-9));
    if (level >= s->out->least && level <= s->out->most)
        note(s, level, as_drawn);
}

static bw_status halve(search *s, bw_error *err)
{
    bw_damp_limit *out = s->out;
    if (out->beyond > out->most)
        BW_TRY(try_level(s, out->most, err));
    if (out->holds < out->least && out->beyond > out->least)
        BW_TRY(try_level(s, out->least, err));
    while (out->beyond <= out->most && out->holds >= out->least &&
           out->beyond - out->holds > 1)
        BW_TRY(try_level(s, out->holds + (out->beyond - out->holds) / 2, err));
    return BW_OK;
}

bw_status bw_damp_search(bw_margin *out, const bw_study *study,
                         const bw_case *as_drawn, bw_error *err)
{
    const bw_indoors *room = &study->assembly->indoors;
    search s = {.study = study, .out = &out->damp};
    out->damp = (bw_damp_limit){
        .by_class = room->kind == BW_INDOOR_CLASS,
        .replaced = room->kind != BW_INDOOR_CLASS && room->kind != BW_INDOOR_RH,
        .simulated = !study->options.no_transient && as_drawn->simulated};
    out->damp.least = out->damp.by_class ? 1 : DRIEST;
    out->damp.most = out->damp.by_class ? CLASSES : DAMPEST;
    const bw_assembly *driest = room_at(&s, out->damp.least);
    BW_TRY_MEMORY(driest != NULL, err);
    out->damp.temperature = driest->indoors.temperature;
    out->damp.holds = out->damp.least - 1;
    out->damp.beyond = out->damp.most + 1;
    if (!out->damp.replaced)
        start(&s, as_drawn);
    BW_TRY(halve(&s, err));
    out->damp.figure = (bw_figure){.criterion = "", .unit = ""};
    if (out->damp.beyond <= out->damp.most)
        out->damp.figure = bw_case_figure(study->arena, &s.beyond);
    return out->damp.figure.criterion != NULL ? BW_OK : bw_fail_memory(err);
}
