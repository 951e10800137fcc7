#include "study.h"

#include <math.h>

/* Invariant: a setting is one change of the wall as drawn; what an alternative
 * layer takes the place of is changed no more. */

bool bw_tally_count(bw_tally *tally, bool simulated)
{
    atomic_fetch_add(simulated ? &tally->simulated : &tally->steady, 1);
    return bw_meter_add(&tally->meter, simulated ? BW_TICKS_SIMULATED : 1);
}

double bw_scale_share(bool geometric, double low, double high, double value)
{
    return geometric ? log(value / low) / log(high / low)
                     : (value - low) / (high - low);
}

double bw_scale_value(bool geometric, double low, double high, double share)
{
    if (share <= 0.0)
        return low;
    if (share >= 1.0)
        return high;
    return geometric ? low * pow(high / low, share)
                     : low + (high - low) * share;
}

static bw_change change_of(const bw_source *source, double value)
{
    const bw_unknown *u = &source->shown;
    bw_change change = u->continuous || bw_setting_is_high(u, value)
                           ? source->high
                           : source->low;
    if (u->continuous)
        change.value = value / bw_change_facts_of(&change).per_si;
    return change;
}

/* Is this setting an alternative's own, switched on? */
static bool exchanges(const bw_source *s, const bw_setting *setting)
{
    return s->high.kind == BW_CHANGE_MATERIAL && setting->set &&
           setting->value > 0.5;
}

bool bw_study_replaced(const bw_study *study, const bw_setting *setting,
                       size_t index)
{
    const bw_source *s = &study->source[index];
    const bool alternative = s->high.kind == BW_CHANGE_MATERIAL;
    size_t end = alternative ? index : study->count;
    for (size_t i = 0; bw_change_facts_of(&s->high).of_layer && i < end; i++)
        if (exchanges(&study->source[i], &setting[i]) &&
            study->source[i].high.layer == s->high.layer)
            return true;
    return false;
}

const bw_assembly *bw_study_apply(const bw_study *study, bw_arena *arena,
                                  const bw_setting *setting)
{
    bw_change *change = BW_NEW(arena, bw_change, study->count + 1);
    size_t count = 0;
    for (size_t i = 0; change != NULL && i < study->count; i++)
        if (setting[i].set && !bw_study_replaced(study, setting, i))
            change[count++] = change_of(&study->source[i], setting[i].value);
    return change == NULL
               ? NULL
               : bw_changes_apply(arena, study->assembly, change, count);
}

void bw_study_options(bw_assessment_options *options, const bw_study *study,
                      const bw_setting *setting)
{
    for (size_t i = 0; i < study->count; i++) {
        if (!setting[i].set)
            continue;
        bw_change c = change_of(&study->source[i], setting[i].value);
        if (c.kind == BW_CHANGE_REDISTRIBUTION)
            options->transient.redistribution = c.value > 0.5
                                                    ? BW_REDISTRIBUTION_SUCTION
                                                    : BW_REDISTRIBUTION_RULE;
    }
}

const char *bw_setting_words(const bw_study *study, const bw_source *source,
                             double value)
{
    const bw_unknown *u = &source->shown;
    if (!u->continuous)
        return bw_setting_is_high(u, value) ? u->high_words : u->low_words;
    const bw_change change = change_of(source, value);
    return bw_change_words(study->arena, study->assembly, &change);
}

const char *bw_settings_words(const bw_study *study, const bw_setting *setting)
{
    const char *text = "";
    for (size_t i = 0; i < study->count; i++) {
        if (!setting[i].set || bw_study_replaced(study, setting, i))
            continue;
        text = bw_arena_say(
            study->arena, "%s%s%s", text, text[0] != '\0' ? "; " : "",
            bw_setting_words(study, &study->source[i], setting[i].value));
    }
    return text[0] != '\0' ? text : "as drawn";
}
