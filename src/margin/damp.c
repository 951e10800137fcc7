#include <math.h>

#include "fail.h"
#include "steps.h"
#include "verdict.h"

/* The dampest room the wall stands: whole percents of a constant RH, or
 * humidity classes, between one that holds and the next, which does not. That
 * it holds below one at which it holds is taken, not computed.
 *
 * A simulation costs some hundred steady assessments. So the steady methods are
 * asked first, and the simulation begins where they end: what it finds there
 * says which way to go on, in steps that double, until there is one that holds
 * and one that does not; then between them, by turns where their margins point
 * to and in the middle. */

/* Nobody lives outside of these [% RH]. */
enum { DRIEST = 20, DAMPEST = 95, CLASSES = 5 };

typedef struct search {
    const bw_study *study;
    const bw_known_room *known;
    bw_damp_limit *out;
    int first;        /* level to begin with */
    int step, turns;  /* the next step away; rounds between two */
    double good, bad; /* least margins at `holds` and at `beyond` */
    bw_case beyond;   /* the case there */
} search;

static void note(search *s, int level, const bw_case *at)
{
    bw_damp_limit *out = s->out;
    if (bw_verdict_good(at->verdict)) {
        out->holds = level;
        out->verdict = at->verdict;
        s->good = at->worst;
        return;
    }
    out->beyond = level;
    s->bad = at->worst;
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

static bool is_that_room(const bw_known_room *known, const bw_indoors *room)
{
    const bw_indoors *k = &known->room;
    return known->set && k->kind == room->kind && k->margin == room->margin &&
           k->humidity_class == room->humidity_class &&
           fabs(k->relative_humidity - room->relative_humidity) < 1e-9 &&
           fabs(k->temperature - room->temperature) < 1e-9;
}

static bw_status try_level(search *s, int level, bw_error *err)
{
    bw_case at;
    const bw_assembly *changed = room_at(s, level);
    BW_TRY_MEMORY(changed != NULL, err);
    if (is_that_room(s->known, &changed->indoors)) {
        at = s->known->at;
    } else {
        BW_TRY(bw_case_assess(&at, s->study, changed, err));
        s->out->cases++;
    }
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

/* Between one that holds and one that does not. */
static int between(search *s)
{
    const int low = s->out->holds, high = s->out->beyond;
    const bool point = s->turns++ % 2 == 0 && s->good > 0 && s->bad < 0;
    const double share = point ? s->good / (s->good - s->bad) : 0.5;
    const int level = low + (int)(share * (high - low));
    return level <= low ? low + 1 : level >= high ? high - 1 : level;
}

static int away(search *s)
{
    const int step = s->step;
    s->step *= 2;
    return step;
}

/* The next level to look at; 0 where all is known. */
static int next_level(search *s)
{
    const bw_damp_limit *out = s->out;
    const bool holds = out->holds >= out->least;
    const bool ends = out->beyond <= out->most;
    if (out->beyond - out->holds <= 1)
        return 0;
    if (holds && ends)
        return between(s);
    if (s->first > out->holds && s->first < out->beyond)
        return s->first;
    const int level = holds ? out->holds + away(s) : out->beyond - away(s);
    return level < out->least  ? out->least
           : level > out->most ? out->most
                               : level;
}

static void begin(search *s, bool by_class)
{
    bw_damp_limit *out = s->out;
    out->by_class = by_class;
    out->least = by_class ? 1 : DRIEST;
    out->most = by_class ? CLASSES : DAMPEST;
    out->holds = out->least - 1;
    out->beyond = out->most + 1;
    s->step = 1;
    s->good = s->bad = 0;
}

static bw_status narrow(search *s, bw_error *err)
{
    for (int level; (level = next_level(s)) > 0;)
        BW_TRY(try_level(s, level, err));
    return BW_OK;
}

/* Where the steady methods end. */
static bw_status ask_steady(search *s, bw_error *err)
{
    bw_study study = *s->study;
    bw_damp_limit out = {.cases = 0};
    const bw_known_room none = {.set = false};
    search steady = {.study = &study, .known = &none, .out = &out};
    study.options.no_transient = true;
    begin(&steady, s->out->by_class);
    steady.first = (out.least + out.most) / 2;
    BW_TRY(narrow(&steady, err));
    s->first = out.holds < out.least ? out.least : out.holds;
    return BW_OK;
}

bw_status bw_damp_search(bw_margin *out, const bw_study *study,
                         const bw_case *as_drawn, const bw_known_room *known,
                         bw_error *err)
{
    const bw_indoors *room = &study->assembly->indoors;
    search s = {.study = study, .known = known, .out = &out->damp};
    out->damp = (bw_damp_limit){
        .replaced = room->kind != BW_INDOOR_CLASS && room->kind != BW_INDOOR_RH,
        .simulated = !study->options.no_transient && as_drawn->simulated};
    begin(&s, room->kind == BW_INDOOR_CLASS);
    const bw_assembly *driest = room_at(&s, out->damp.least);
    BW_TRY_MEMORY(driest != NULL, err);
    out->damp.temperature = driest->indoors.temperature;
    if (!out->damp.replaced)
        start(&s, as_drawn);
    if (!study->options.no_transient)
        BW_TRY(ask_steady(&s, err));
    else
        s.first = out->damp.beyond > out->damp.most ? out->damp.most
                                                    : out->damp.least;
    BW_TRY(narrow(&s, err));
    out->damp.figure = (bw_figure){.criterion = "", .unit = ""};
    if (out->damp.beyond <= out->damp.most)
        out->damp.figure = bw_case_figure(study->arena, &s.beyond);
    return out->damp.figure.criterion != NULL ? BW_OK : bw_fail_memory(err);
}
