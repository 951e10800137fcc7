#include "study.h"

#include <math.h>

#include "bothways/geography.h"
#include "number.h"

static const double RAIN_LEAK = 0.01; /* of the driving rain */
static const double BUILT_IN = 0.20;  /* kg/kg */
static const double AN_HOUR = 3600.0;

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

/* Where leaking rain comes to lie: inside the innermost ventilated cavity,
 * else inside the outermost layer. */
static long rain_layer(const bw_assembly *assembly)
{
    size_t outside = bw_layers_outside(assembly, BW_VENT_SLIGHT);
    return outside > 0 ? (long)outside - 1 : 0;
}

static void leak_rain(bw_assembly *to)
{
    if (!to->rain_leak.given)
        to->rain_leak.after_layer = rain_layer(to);
    to->rain_leak.given = true;
    to->rain_leak.fraction = RAIN_LEAK;
}

/* mu of the framing in every layer that has some. */
static void hold_framing(bw_variant *v, bool wet)
{
    for (size_t i = 0; i < v->assembly->layer_count; i++)
        if (v->layer[i].framing.present)
            bw_variant_hold_mu(v, i, true, wet);
}

bool bw_setting_is_high(const bw_unknown *u, double value)
{
    return fabs(value - u->high) < fabs(value - u->low);
}

static void apply(bw_variant *v, const bw_source *s, double value)
{
    bool high = bw_setting_is_high(&s->shown, value);
    bool wet = high != s->dry_high;
    switch (s->input) {
    case BW_INPUT_RANGE:
        bw_variant_set(v, s->layer, s->property, value);
        break;
    case BW_INPUT_ALTERNATIVE:
        bw_variant_exchange(v, s->layer, s->alternative->material,
                            s->alternative->thickness);
        break;
    case BW_INPUT_HUMIDITY:
        bw_indoors_step_up(&v->assembly->indoors);
        break;
    case BW_INPUT_BLOCKED:
        bw_variant_ventilate(v, s->layer, BW_VENT_NONE);
        break;
    case BW_INPUT_CURVE:
        bw_variant_hold_curve(v, s->layer, !high);
        break;
    case BW_INPUT_MU:
        bw_variant_hold_mu(v, s->layer, false, wet);
        break;
    case BW_INPUT_FRAMING_MU:
        hold_framing(v, wet);
        break;
    case BW_INPUT_AIR:
        v->assembly->air_leakage.q50 = value / AN_HOUR;
        break;
    case BW_INPUT_RAIN:
        leak_rain(v->assembly);
        break;
    case BW_INPUT_BUILT_IN:
        bw_variant_built_in(v, BUILT_IN);
        break;
    case BW_INPUT_ABSORPTION:
    case BW_INPUT_SORPTION:
    case BW_INPUT_SATURATION:
    case BW_INPUT_AIR_CHANGE:
    case BW_INPUT_EXPOSURE:
    case BW_INPUT_WIND:
    case BW_INPUT_SHADE:
    case BW_INPUT_START:
    case BW_INPUT_LEAK:
        bw_wide_apply(v, s, value);
        break;
    case BW_INPUT_REDISTRIBUTION:
        break; /* bw_wide_options */
    }
}

/* Is this setting an alternative's own, switched on? */
static bool exchanges(const bw_source *s, const bw_setting *setting)
{
    return s->input == BW_INPUT_ALTERNATIVE && setting->set &&
           setting->value > 0.5;
}

static bool about_layer(const bw_source *s)
{
    return s->input == BW_INPUT_RANGE || s->input == BW_INPUT_ALTERNATIVE ||
           s->input == BW_INPUT_CURVE || s->input == BW_INPUT_MU ||
           s->input == BW_INPUT_ABSORPTION;
}

bool bw_study_replaced(const bw_study *study, const bw_setting *setting,
                       size_t index)
{
    const bw_source *s = &study->source[index];
    size_t end = s->input == BW_INPUT_ALTERNATIVE ? index : study->count;
    for (size_t i = 0; about_layer(s) && i < end; i++)
        if (exchanges(&study->source[i], &setting[i]) &&
            study->source[i].layer == s->layer)
            return true;
    return false;
}

const bw_assembly *bw_study_apply(const bw_study *study, bw_arena *arena,
                                  const bw_setting *setting)
{
    bw_variant v;
    bw_variant_start(&v, arena, study->assembly);
    for (size_t i = 0; i < study->count && !v.no_memory; i++) {
        const bw_source *s = &study->source[i];
        bool one_way = !s->shown.continuous && !s->two_settings;
        if (!setting[i].set || (one_way && setting[i].value < 0.5) ||
            bw_study_replaced(study, setting, i))
            continue;
        apply(&v, s, setting[i].value);
    }
    return bw_variant_done(&v);
}

const char *bw_setting_words(bw_arena *arena, const bw_source *source,
                             double value)
{
    const bw_unknown *u = &source->shown;
    char number[32];
    if (!u->continuous)
        return bw_setting_is_high(u, value) ? u->high_words : u->low_words;
    bool none = u->unit[0] == '-' && u->unit[1] == '\0';
    return bw_arena_printf(arena, "%s %s%s%s", u->name,
                           bw_number_g(number, sizeof number, value, 6),
                           none ? "" : " ", none ? "" : u->unit);
}

const char *bw_settings_words(const bw_study *study, const bw_setting *setting)
{
    bw_arena *arena = study->arena;
    const char *text = NULL;
    for (size_t i = 0; i < study->count; i++) {
        if (!setting[i].set || bw_study_replaced(study, setting, i))
            continue;
        const char *words = bw_setting_words(arena, &study->source[i],
                                             setting[i].value);
        if (words == NULL)
            return NULL;
        text = text == NULL ? words
                            : bw_arena_printf(arena, "%s; %s", text, words);
        if (text == NULL)
            return NULL;
    }
    return text != NULL ? text : "as drawn";
}
