#include <math.h>

#include "fail.h"
#include "steps.h"

/* The dampest room the wall stands: whole percents of a constant RH, or
 * humidity classes, halved between one that holds and one that does not. That
 * it holds below one at which it holds is taken, not computed. */

/* Nobody lives outside of these [% RH]; a room without a number has 20 degC. */
enum { DRIEST = 20, DAMPEST = 95, CLASSES = 5 };
static const double USUAL = 20.0;

typedef struct search {
    const bw_study *study;
    bw_indoors room; /* as drawn, or what replaces it */
    bw_damp_limit *out;
    bw_case beyond; /* the case there */
} search;

static double mean(const double month[BW_MONTHS])
{
    double sum = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        sum += month[m];
    return sum / BW_MONTHS;
}

static void replace(search *s)
{
    s->out->replaced = true;
    s->room.temperature = s->room.kind == BW_INDOOR_MONTHS
                              ? mean(s->room.month_temperature)
                              : USUAL;
    s->room.kind = BW_INDOOR_RH;
    s->room.margin = false;
}

static bool good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

static void note(search *s, int level, const bw_case *at)
{
    bw_damp_limit *out = s->out;
    if (good(at->verdict)) {
        out->holds = level;
        out->verdict = at->verdict;
        return;
    }
    out->beyond = level;
    out->verdict_beyond = at->verdict;
    s->beyond = *at;
}

static bw_status try_level(search *s, int level, bw_error *err)
{
    bw_assembly changed = *s->study->assembly;
    bw_case at;
    changed.indoors = s->room;
    if (s->out->by_class)
        changed.indoors.humidity_class = level;
    else
        changed.indoors.relative_humidity = 0.01 * level;
    BW_TRY(bw_case_assess(&at, s->study, &changed, err));
    s->out->cases++;
    s->out->simulated = s->out->simulated && at.simulated;
    note(s, level, &at);
    return BW_OK;
}

/* As drawn is one end: rounded towards where it is as good or as bad. */
static void start(search *s, const bw_case *as_drawn)
{
    double now = s->out->by_class ? s->room.humidity_class
                                  : 100.0 * s->room.relative_humidity;
    int level = (int)(good(as_drawn->verdict) ? floor(now + 1e-9)
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
    search s = {
        .study = study, .room = study->assembly->indoors, .out = &out->damp};
    out->damp = (bw_damp_limit){.by_class = s.room.kind == BW_INDOOR_CLASS,
                                .simulated = !study->options.no_transient &&
                                             as_drawn->simulated};
    if (s.room.kind != BW_INDOOR_CLASS && s.room.kind != BW_INDOOR_RH)
        replace(&s);
    out->damp.temperature = s.room.temperature;
    out->damp.least = out->damp.by_class ? 1 : DRIEST;
    out->damp.most = out->damp.by_class ? CLASSES : DAMPEST;
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
