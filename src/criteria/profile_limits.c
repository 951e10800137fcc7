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

static const struct tightened {
    const char *criterion;
    size_t field[2]; /* of bw_limits; twice the same where there is but one */
    bw_criterion_id row[2];
    bool least;
} table[] = {
    {"condensate-absorbing",
     {FIELD(condensate), FIELD(condensate)},
     {BW_C_CONDENSATE, BW_C_PERIOD_CONDENSATE},
     false},
    {"condensate-non-absorbing",
     {FIELD(non_absorbing), FIELD(non_absorbing)},
     {BW_C_CONDENSATE_NON_ABSORBING, BW_C_PERIOD_NON_ABSORBING},
     false},
    {"drying-reserve",
     {FIELD(reserve_wall), FIELD(reserve_roof)},
     {BW_C_RESERVE, BW_C_PERIOD_RESERVE},
     true},
    {"wood-moisture-rise",
     {FIELD(wood_rise), FIELD(wood_rise)},
     {BW_C_WOOD_RISE, BW_C_PERIOD_WOOD_RISE},
     false},
    {"panel-moisture-rise",
     {FIELD(panel_rise), FIELD(panel_rise)},
     {BW_C_PANEL_RISE, BW_C_PERIOD_PANEL_RISE},
     false},
#define ONE(name, field, id)                                                   \
    {                                                                          \
        name, {FIELD(field), FIELD(field)}, {id, id}, false                    \
    }
    ONE("inward-condensation", inward, BW_C_INWARD),
    ONE("drying-test", drying_months, BW_C_DRYING),
    ONE("standing-water", standing_water, BW_C_STANDING_WATER),
    ONE("hours-above-95", humid_hours, BW_C_HUMID_HOURS),
    ONE("wood-moisture", wood_moisture, BW_C_WOOD_MOISTURE),
    ONE("panel-moisture", panel_moisture, BW_C_PANEL_MOISTURE),
    ONE("decay-dose", decay_dose, BW_C_DECAY),
    ONE("first-year-drying", first_year_weeks, BW_C_FIRST_YEAR),
    ONE("mould-index-hidden", mould_hidden, BW_C_MOULD_HIDDEN),
    ONE("mould-index-room", mould_room, BW_C_MOULD_ROOM),
    ONE("wetting-test", wetting_months, BW_C_WETTING),
#undef ONE
};

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

void bw_profile_cite(bw_rows *rows)
{
    const bw_profile *profile = rows->limits->profile;
    for (size_t i = 0; profile != NULL && i < profile->rule_count; i++) {
        const struct tightened *entry = tightened_by(&profile->rule[i]);
        for (size_t k = 0; entry != NULL && k < rows->count; k++)
            if (rows->row[k].id == entry->row[0] ||
                rows->row[k].id == entry->row[1])
                cite(rows, &rows->row[k], &profile->rule[i]);
    }
}
