#include <string.h>

#include "comparing.h"
#include "criterion.h"
#include "fail.h"

/* The common table: key numbers first, then every criterion that at least one
 * of the walls has, in the order of the criteria; then the same of the monthly
 * and period methods. Of a wall's sections the worst one stands for it.
 *
 * Invariant: the arrays of a row have one entry a wall. */

/* A row under construction. */
typedef struct row {
    bool *has_value;
    double *value;
    bw_verdict *verdict;
    const char **section;
    const bw_criterion **criterion;
    const char **instead;
} row;

typedef struct table {
    bw_compare_core *core;
    bw_compare_row *rows;
    size_t count;
    bool by_months; /* of the rows being added */
    bool no_memory;
} table;

static row start_row(table *t, const char *name, const char *title,
                     const char *unit, bool is_criterion)
{
    size_t n = t->core->count;
    bw_arena *arena = &t->core->arena;
    row r = {BW_NEW(arena, bool, n),
             BW_NEW(arena, double, n),
             BW_NEW(arena, bw_verdict, n),
             BW_NEW(arena, const char *, n),
             BW_NEW(arena, const bw_criterion *, n),
             BW_NEW(arena, const char *, n)};
    if (r.has_value == NULL || r.value == NULL || r.verdict == NULL ||
        r.section == NULL || r.criterion == NULL || r.instead == NULL) {
        t->no_memory = true;
        return r;
    }
    for (size_t i = 0; i < n; i++) {
        r.section[i] = r.instead[i] = "";
        r.verdict[i] = BW_NOT_ASSESSED;
    }
    t->rows[t->count++] = (bw_compare_row){
        .name = name,
        .title = title,
        .unit = unit,
        .is_criterion = is_criterion,
        .by_months = t->by_months,
        .has_value = r.has_value,
        .value = r.value,
        .verdict = is_criterion ? r.verdict : NULL,
        .section = r.section,
        .criterion = is_criterion ? r.criterion : NULL,
        .instead = r.instead,
    };
    return r;
}

/* ---- criteria ---------------------------------------------------------- */

/* The worse, the higher. A number alone says it where nothing decides. */
static int badness(bw_verdict verdict)
{
    switch (verdict) {
    case BW_FAILS:
        return 3;
    case BW_NOT_ASSESSED:
        return 2;
    case BW_MARGINAL:
        return 1;
    case BW_HOLDS:
        break;
    }
    return 0;
}

static bool worse(const bw_criterion *a, const bw_criterion *b)
{
    if (badness(a->verdict) != badness(b->verdict))
        return badness(a->verdict) > badness(b->verdict);
    if (badness(a->outcome) != badness(b->outcome))
        return badness(a->outcome) > badness(b->outcome);
    if (a->has_value != b->has_value)
        return !a->has_value;
    if (!a->has_value)
        return false;
    /* In all sections the limit is on the same side. */
    return a->has_limit && b->has_limit ? a->margin < b->margin
                                        : a->value > b->value;
}

static const bw_criterion *worst_of(const bw_assessment *assessment,
                                    const char *name)
{
    const bw_criterion *worst = NULL;
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        if (strcmp(c->criterion, name) == 0 &&
            (worst == NULL || worse(c, worst)))
            worst = c;
    }
    return worst;
}

static void add_criterion(table *t, const bw_criterion_facts *facts)
{
    bw_compare_core *core = t->core;
    const bw_criterion *worst[BW_COMPARE_MOST] = {NULL};
    bool any = false;
    for (size_t i = 0; i < core->count; i++) {
        worst[i] = worst_of(core->assessment[i], facts->name);
        any = any || worst[i] != NULL;
    }
    if (!any)
        return;
    row r = start_row(t, facts->name, facts->title, facts->unit, true);
    for (size_t i = 0; !t->no_memory && i < core->count; i++) {
        const bw_criterion *c = worst[i];
        r.criterion[i] = c;
        r.instead[i] = c == NULL ? "no such part" : "";
        if (c == NULL)
            continue;
        r.verdict[i] = c->verdict;
        r.section[i] = c->section;
        r.has_value[i] = c->has_value && !c->never;
        r.value[i] = c->value;
        if (c->never)
            r.instead[i] = bw_arena_not_within(&core->arena, c->value, c->unit);
    }
}

/* ---- key numbers ------------------------------------------------------- */

/* A row that judges nothing: one line of `key_numbers`. */
typedef struct key_number {
    const char *name, *title, *unit;
    /* Whether the walls have it at all; NULL: always. */
    bool (*shown)(const bw_compare_core *core);
    void (*fill)(const struct key_number *key, bw_compare_core *core, row *r,
                 size_t wall);
    bool least; /* of a balance: of the reserve; of what to buy: its U */
    bw_drying_ways ways;        /* of a drying time */
    bw_criterion_id one, other; /* of a highest value */
} key_number;

static void set(row *r, size_t wall, double value, const char *section)
{
    r->has_value[wall] = true;
    r->value[wall] = value;
    r->section[wall] = section;
    r->instead[wall] = "";
}

/* No value, but words; they are of this section, "" of the whole wall. */
static void set_words(row *r, size_t wall, const char *words,
                      const char *section)
{
    r->has_value[wall] = false;
    r->section[wall] = section;
    r->instead[wall] = words;
}

static void u_value(const key_number *key, bw_compare_core *core, row *r,
                    size_t wall)
{
    (void)key;
    set(r, wall, core->wall[wall].transmittance, "");
}

static void thickness(const key_number *key, bw_compare_core *core, row *r,
                      size_t wall)
{
    (void)key;
    if (bw_compare_unmeasured(core->assembly[wall]) == NULL)
        set(r, wall, core->wall[wall].total_thickness, "");
    else
        r->instead[wall] = "not all given";
}

static bool are_same_u(const bw_compare_core *core)
{
    return core->options.equal == BW_EQUAL_U;
}

static bool are_rescaled(const bw_compare_core *core)
{
    return core->options.equal != BW_EQUAL_AS_DRAWN;
}

static void scaled(const key_number *key, bw_compare_core *core, row *r,
                   size_t wall)
{
    const bw_compared *w = &core->wall[wall];
    (void)key;
    if (w->rescaled)
        set(r, wall, w->thickness_after, "");
    else
        r->instead[wall] = "as drawn";
}

/* key->least: its U. */
static void to_buy(const key_number *key, bw_compare_core *core, row *r,
                   size_t wall)
{
    const bw_compared *w = &core->wall[wall];
    if (w->thickness_to_buy > 0.0)
        set(r, wall, key->least ? w->transmittance_to_buy : w->thickness_to_buy,
            "");
    else
        r->instead[wall] = w->rescaled ? "none as thick is sold" : "as drawn";
}

/* The most condensate or, key->least, the least reserve. Where a section was
 * not assessed, nothing is said of the whole wall. */
static void balance(const key_number *key, bw_compare_core *core, row *r,
                    size_t wall)
{
    const bw_assessment *a = core->assessment[wall];
    r->instead[wall] = "not assessed";
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_monthly_run *design = &a->section[k].run[BW_RUN_DESIGN];
        const bw_monthly_result *run = &design->result;
        const double value = key->least ? run->reserve : run->peak;
        const double before = r->value[wall];
        if (!design->ran || (key->least && !run->has_reserve)) {
            set_words(r, wall, "not assessed", "");
            return;
        }
        if (k == 0 || (key->least ? value < before : value > before))
            set(r, wall, value, a->section[k].section->name);
    }
}

/* The slowest section; one that does not dry is slower than any that does, and
 * where one was not tested, the slowest of the others is not known to be it. */
static void slowest(const key_number *key, bw_compare_core *core, row *r,
                    size_t wall)
{
    const bw_assessment *a = core->assessment[wall];
    bool untested = false;
    r->instead[wall] = "not assessed";
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_section_assessment *s = &a->section[k];
        const bw_monthly_run *test =
            &s->run[BW_RUN_WETTED_BOTH + (int)key->ways];
        const bw_monthly_result *run = &test->result;
        untested = untested || !test->ran;
        if (test->ran && !run->dried) {
            set_words(r, wall, "not in 10 years", s->section->name);
            return;
        }
        if (test->ran &&
            (!r->has_value[wall] || run->months_to_dry > r->value[wall]))
            set(r, wall, run->months_to_dry, s->section->name);
    }
    if (untested)
        set_words(r, wall, "not assessed", "");
}

static const bw_wetting_result *way_of(const bw_section_wetting *test,
                                       bw_drying_ways ways)
{
    if (ways == BW_DRY_OUTWARDS)
        return &test->outwards;
    return ways == BW_DRY_INWARDS ? &test->inwards : &test->both;
}

static const char *never(bw_compare_core *core, const bw_wetting_result *way)
{
    return bw_compare_say(
        core, "not in %s months: %s g/m2 there",
        bw_compare_number(core, bw_wetting_months_followed(way), 0),
        bw_compare_grams(core, way->left));
}

/* As `slowest`, of the simulated wetting test. A section where nothing is at
 * risk needs none; through a stud, which dries sideways, one way alone is not
 * asked. */
static void slowest_wetting(const key_number *key, bw_compare_core *core,
                            row *r, size_t wall)
{
    const bw_assessment *a = core->assessment[wall];
    const char *untested = NULL;
    r->instead[wall] = "nothing at risk";
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_section_assessment *s = &a->section[k];
        const bw_section_wetting *test = &s->wetting_test;
        const bw_wetting_result *way = way_of(test, key->ways);
        if (test->ran && test->place_alone && key->ways != BW_DRY_BOTH) {
            r->instead[wall] = r->has_value[wall] ? "" : "not assessed";
            continue;
        }
        if (!test->ran || (key->ways != BW_DRY_BOTH && !test->one_way)) {
            untested = test->nothing_at_risk ? untested : "not assessed";
            continue;
        }
        const double months = bw_wetting_test_months(test, way);
        if (months < 0.0) {
            set_words(r, wall, never(core, way), s->section->name);
            return;
        }
        if (!r->has_value[wall] || months > r->value[wall])
            set(r, wall, months, s->section->name);
    }
    if (untested != NULL)
        set_words(r, wall, untested, "");
}

static bool all_simulated(const bw_compare_core *core)
{
    return core->comparison.simulated;
}

/* The highest of two criteria's values, where a simulation gave one. */
static void highest(const key_number *key, bw_compare_core *core, row *r,
                    size_t wall)
{
    const bw_assessment *a = core->assessment[wall];
    const bw_criterion_id from[] = {key->one, key->other};
    r->instead[wall] = bw_compare_has_simulation(a) ? "no such part"
                                                    : "no simulation";
    for (size_t k = 0; k < 2; k++) {
        const bw_criterion *c = worst_of(a,
                                         bw_criterion_facts_of(from[k])->name);
        if (c != NULL && c->has_value &&
            (!r->has_value[wall] || c->value > r->value[wall]))
            set(r, wall, c->value, c->section);
    }
}

static const key_number first_rows[] = {
    {"u-value", "U-value", "W/(m2.K)", NULL, u_value, .least = false},
    {"total-thickness", "Total thickness", "m", NULL, thickness,
     .least = false},
    {"scaled-thickness", "Thickness of the layer made to fit", "m",
     are_rescaled, scaled, .least = false},
    {"thickness-to-buy", "The same, to buy", "m", are_same_u, to_buy,
     .least = false},
    {"u-value-to-buy", "U-value with what is to buy", "W/(m2.K)", are_same_u,
     to_buy, .least = true},
    {"wood-moisture-highest", "Highest moisture of wood", "%",
     bw_compare_any_simulated, highest, .one = BW_C_WOOD_MOISTURE,
     .other = BW_C_PANEL_MOISTURE},
    {"mould-index", "Highest mould index", "-", bw_compare_any_simulated,
     highest, .one = BW_C_MOULD_HIDDEN, .other = BW_C_MOULD_ROOM},
    {"standing-water-highest", "Most standing water", "kg/m2", all_simulated,
     highest, .one = BW_C_STANDING_WATER, .other = BW_C_STANDING_WATER},
    {"simulated-months-to-dry", "To dry after a wetting, both ways (simulated)",
     "months", all_simulated, slowest_wetting, .ways = BW_DRY_BOTH},
    {"simulated-months-to-dry-outwards", "To dry, outwards only (simulated)",
     "months", all_simulated, slowest_wetting, .ways = BW_DRY_OUTWARDS},
    {"simulated-months-to-dry-inwards", "To dry, inwards only (simulated)",
     "months", all_simulated, slowest_wetting, .ways = BW_DRY_INWARDS},
};

static const key_number month_rows[] = {
    {"peak-condensate", "Most condensed water", "kg/m2", NULL, balance,
     .least = false},
    {"reserve", "Drying reserve", "kg/(m2 a)", NULL, balance, .least = true},
    {"months-to-dry", "To dry after a wetting, both ways", "months", NULL,
     slowest, .ways = BW_DRY_BOTH},
    {"months-to-dry-outwards", "To dry, outwards only", "months", NULL, slowest,
     .ways = BW_DRY_OUTWARDS},
    {"months-to-dry-inwards", "To dry, inwards only", "months", NULL, slowest,
     .ways = BW_DRY_INWARDS},
};

static void add_key_numbers(table *t, const key_number *key, size_t count)
{
    for (; count > 0; key++, count--) {
        if (key->shown != NULL && !key->shown(t->core))
            continue;
        row r = start_row(t, key->name, key->title, key->unit, false);
        for (size_t i = 0; !t->no_memory && i < t->core->count; i++)
            key->fill(key, t->core, &r, i);
    }
}

/* These are key numbers already, and judge nothing. */
/* The drying times each way are key numbers already. */
static bool is_key_number(const bw_criterion_facts *facts)
{
    return facts->informative && facts->bound == BW_NO_LIMIT;
}

static void add_criteria(table *t)
{
    for (int i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_facts *facts = bw_criterion_facts_of(
            (bw_criterion_id)i);
        const bool monthly = facts->role != BW_JUDGES;
        if (!is_key_number(facts) && monthly == t->by_months)
            add_criterion(t, facts);
    }
}

bw_status bw_compare_table(bw_compare_core *core, bw_error *err)
{
    table t = {.core = core,
               .rows = BW_NEW(&core->arena, bw_compare_row,
                              BW_COUNT(first_rows) + BW_COUNT(month_rows) +
                                  BW_C_COUNT)};
    BW_TRY_MEMORY(t.rows != NULL, err);
    add_key_numbers(&t, first_rows, BW_COUNT(first_rows));
    add_criteria(&t);
    t.by_months = true;
    add_key_numbers(&t, month_rows, BW_COUNT(month_rows));
    add_criteria(&t);
    core->comparison.row = t.rows;
    core->comparison.row_count = t.count;
    return t.no_memory ? bw_fail_memory(err) : BW_OK;
}
