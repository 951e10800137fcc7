#include <math.h>

#include "study.h"

/* One more unknown in the list, in words, and which of its two settings one is.
 *
 * Invariant: every text of an unknown is one, "" where memory ran out. */

/* NULL, or why the steady methods cannot tell. */
static const char *unseen(const bw_change *change)
{
    switch (change->kind) {
    case BW_CHANGE_PROPERTY:
        return change->property == BW_VARIED_SPECIFIC_HEAT
                   ? "the steady methods do not know heat storage"
                   : NULL;
    case BW_CHANGE_RAIN_LEAK:
        return "the steady methods know no rain";
    case BW_CHANGE_BUILT_IN:
        return "the steady methods know no water built in";
    case BW_CHANGE_ABSORPTION:
    case BW_CHANGE_SORPTION:
    case BW_CHANGE_SATURATION:
    case BW_CHANGE_AIR_CHANGE:
    case BW_CHANGE_DRIVING_RAIN:
    case BW_CHANGE_WIND:
    case BW_CHANGE_START:
    case BW_CHANGE_REDISTRIBUTION:
        return "the steady methods know nothing of it";
    default:
        return NULL;
    }
}

bw_source *bw_study_switch(bw_study *study, bw_change low, bw_change high)
{
    const bw_assembly *of = study->assembly;
    const char *note = study->options.no_transient ? unseen(&high) : NULL;
    const bool two = low.kind != BW_CHANGE_NOTHING;
    bw_source *s = &study->source[study->count++];
    *s = (bw_source){.low = low, .high = high};
    s->shown = (bw_unknown){
        .kind = BW_UNKNOWN_STANDARD,
        .name = two ? bw_change_subject(study->arena, of, &high)
                    : bw_change_words(study->arena, of, &high),
        .layer = bw_change_facts_of(&high).of_layer ? of->layer[high.layer].id
                                                    : "",
        .unit = "",
        .two_ended = two,
        .as_drawn = two ? (double)NAN : 0.0,
        .high = 1.0,
        .low_words = bw_change_words(study->arena, of, &low),
        .high_words = bw_change_words(study->arena, of, &high),
        .seen = note == NULL,
        .note = note != NULL ? note : "",
        .flip_criterion = "",
        .swing_criterion = ""};
    return s;
}

bw_source *bw_study_ends(bw_study *study, bw_change change, double low,
                         double high, double as_drawn)
{
    const bw_change_facts facts = bw_change_facts_of(&change);
    const double per_si = facts.per_si;
    bw_change other = change;
    change.value = low;
    other.value = high;
    bw_source *s = bw_study_switch(study, change, other);
    s->shown.unit = facts.unit;
    s->shown.low = low * per_si;
    s->shown.high = high * per_si;
    s->shown.as_drawn = as_drawn * per_si;
    return s;
}

bw_unknown *bw_study_range(bw_study *study, bw_change change, double low,
                           double high, double as_drawn)
{
    bw_unknown *u = &bw_study_ends(study, change, low, high, as_drawn)->shown;
    u->continuous = true;
    u->two_ended = false;
    u->low_words = u->high_words = "";
    return u;
}

bool bw_layer_unsure(const bw_layer *layer, bw_varied property)
{
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        bw_varied named = bw_varied_of(layer->uncertain[i].property);
        if (named == property ||
            (named <= BW_VARIED_SD && property <= BW_VARIED_SD))
            return true;
    }
    return false;
}

bool bw_any_layer(const bw_assembly *assembly, bool has(const bw_layer *layer))
{
    for (size_t i = 0; i < assembly->layer_count; i++)
        if (has(&assembly->layer[i]))
            return true;
    return false;
}

bool bw_setting_is_high(const bw_unknown *u, double value)
{
    return fabs(value - u->high) < fabs(value - u->low);
}

size_t bw_source_ends(const bw_source *source, bw_setting end[2])
{
    const bw_unknown *u = &source->shown;
    size_t count = 0;
    if (!u->continuous && !u->two_ended) {
        end[0] = (bw_setting){true, u->high};
        return 1;
    }
    const double ends[] = {u->low, u->high};
    for (size_t i = 0; i < 2; i++)
        if (isnan(u->as_drawn) ||
            fabs(ends[i] - u->as_drawn) > 1e-9 * fabs(u->as_drawn))
            end[count++] = (bw_setting){true, ends[i]};
    return count;
}
