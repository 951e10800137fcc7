#include <math.h>
#include <stddef.h>
#include <string.h>

#include "judge.h"

/* What a profile does to the limits of the default criteria.
 *
 * Invariant: limit = the stricter of the default and the rule, so that no
 * profile, whatever it holds, loosens one. */

#define COUNT(array) (sizeof(array) / sizeof(array)[0])
#define FIELD(name) offsetof(bw_limits, name)

/* clang-format off */
static const struct tightened {
    const char *criterion;
    size_t field[2];        /* of bw_limits; twice the same: there is but one */
    bw_criterion_id row[3]; /* judged by it; repeated where there are fewer */
    bool least;
} table[] = {
#define ONE(field) {FIELD(field), FIELD(field)}
    {"condensate-absorbing", ONE(condensate),
     {BW_C_CONDENSATE, BW_C_PERIOD_CONDENSATE, BW_C_BOTH_WET}, false},
    {"condensate-non-absorbing", ONE(non_absorbing),
     {BW_C_CONDENSATE_NON_ABSORBING, BW_C_PERIOD_NON_ABSORBING, BW_C_BOTH_WET},
     false},
    {"drying-reserve", {FIELD(reserve_wall), FIELD(reserve_roof)},
     {BW_C_RESERVE, BW_C_RESERVE, BW_C_PERIOD_RESERVE}, true},
    {"wood-moisture-rise", ONE(wood_rise),
     {BW_C_WOOD_RISE, BW_C_WOOD_RISE, BW_C_PERIOD_WOOD_RISE}, false},
    {"panel-moisture-rise", ONE(panel_rise),
     {BW_C_PANEL_RISE, BW_C_PANEL_RISE, BW_C_PERIOD_PANEL_RISE}, false},
#define ROW(id) {id, id, id}
    {"inward-condensation", ONE(inward), ROW(BW_C_INWARD), false},
    {"drying-test", ONE(drying_months), ROW(BW_C_DRYING), false},
    {"standing-water", ONE(standing_water), ROW(BW_C_STANDING_WATER), false},
    {"hours-above-95", ONE(humid_hours), ROW(BW_C_HUMID_HOURS), false},
    {"covering-humidity", ONE(covering_hours), ROW(BW_C_COVERING), false},
    {"wood-moisture", ONE(wood_moisture), ROW(BW_C_WOOD_MOISTURE), false},
    {"panel-moisture", ONE(panel_moisture), ROW(BW_C_PANEL_MOISTURE), false},
    {"decay-dose", ONE(decay_dose), ROW(BW_C_DECAY), false},
    {"first-year-drying", ONE(first_year_weeks), ROW(BW_C_FIRST_YEAR), false},
    {"mould-index-hidden", ONE(mould_hidden), ROW(BW_C_MOULD_HIDDEN), false},
    {"mould-index-room", ONE(mould_room), ROW(BW_C_MOULD_ROOM), false},
    {"wetting-test", ONE(wetting_months), ROW(BW_C_WETTING), false},
#undef ONE
#undef ROW
};
/* clang-format on */

static const struct tightened *tightened_by(const bw_profile_rule *rule)
{
    for (size_t i = 0; i < COUNT(table); i++)
        if (strcmp(rule->criterion, table[i].criterion) == 0)
            return &table[i];
    return NULL;
}

static void tighten(bw_limits *limits, const bw_profile_rule *rule)
{
    const struct tightened *entry = tightened_by(rule);
    for (size_t k = 0; entry != NULL && k < COUNT(entry->field); k++) {
        double *limit = (double *)(void *)((char *)limits + entry->field[k]);
        *limit = entry->least ? fmax(*limit, rule->limit)
                              : fmin(*limit, rule->limit);
    }
}

bw_limits bw_limits_under(const bw_profile *profile)
{
    bw_limits limits = *bw_limits_default();
    limits.profile = profile;
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++) {
        const bw_profile_rule *rule = &profile->rule[i];
        tighten(&limits, rule);
        limits.months_decide |= rule->demands == BW_DEMANDS_MONTHLY;
        limits.block_climate_decides |= rule->demands == BW_DEMANDS_PERIOD;
    }
    return limits;
}

/* A roof's reserve may be asked for by the default more than by the rule. */
static void cite(bw_rows *rows, bw_row *row, const bw_profile_rule *rule)
{
    bool its_limit = row->row.has_limit && !(row->row.limit < rule->limit) &&
                     !(row->row.limit > rule->limit);
    if (its_limit)
        row->row.rule = bw_say(rows, "%s: %s %s, in place of the default: %s",
                               rule->source, rule->text, rule->mark,
                               row->row.rule);
}

static bool is_judged_by(const bw_row *row, const struct tightened *entry)
{
    return row->id == entry->row[0] || row->id == entry->row[1] ||
           row->id == entry->row[2];
}

void bw_profile_cite(bw_rows *rows)
{
    const bw_profile *profile = rows->limits->profile;
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++) {
        const struct tightened *entry = tightened_by(&profile->rule[i]);
        for (size_t k = 0; entry != NULL && k < rows->count; k++)
            if (is_judged_by(&rows->row[k], entry))
                cite(rows, &rows->row[k], &profile->rule[i]);
    }
}
