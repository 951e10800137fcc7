#include <math.h>
#include <string.h>

#include "core.h"
#include "fail.h"
#include "rules.h"

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

enum { KEY_ROWS_MOST = 12 };

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

static void add_criterion(table *t, bw_criterion_id id)
{
    bw_compare_core *core = t->core;
    const bw_criterion_facts *facts = bw_criterion_facts_of(id);
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
        r.has_value[i] = c->has_value;
        r.value[i] = c->value;
    }
}

/* ---- key numbers ------------------------------------------------------- */

static void set(row *r, size_t wall, double value, const char *section)
{
    r->has_value[wall] = true;
    r->value[wall] = value;
    r->section[wall] = section;
    r->instead[wall] = "";
}

static void add_whole_wall(table *t)
{
    row u = start_row(t, "u-value", "U-value", "W/(m2.K)", false);
    row d = start_row(t, "total-thickness", "Total thickness", "m", false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        set(&u, i, t->core->wall[i].transmittance, "");
        if (bw_compare_unmeasured(t->core->assembly[i]) == NULL)
            set(&d, i, t->core->wall[i].total_thickness, "");
        else
            d.instead[i] = "not all given";
    }
}

/* Where a section was not assessed, nothing is said of the whole wall. */
static bool assessed(const bw_assessment *a, bool reserve)
{
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_section_assessment *s = &a->section[k];
        if (!s->has_design || (reserve && !s->design.has_reserve))
            return false;
    }
    return true;
}

static void add_peak(table *t)
{
    row r = start_row(t, "peak-condensate", "Most condensed water", "kg/m2",
                      false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        const bw_assessment *a = t->core->assessment[i];
        r.instead[i] = "not assessed";
        for (size_t k = 0; assessed(a, false) && k < a->section_count; k++) {
            const bw_section_assessment *s = &a->section[k];
            if (!r.has_value[i] || s->design.peak > r.value[i])
                set(&r, i, s->design.peak, s->section->name);
        }
    }
}

static void add_reserve(table *t)
{
    row r = start_row(t, "reserve", "Drying reserve", "kg/(m2 a)", false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        const bw_assessment *a = t->core->assessment[i];
        r.instead[i] = "not assessed";
        for (size_t k = 0; assessed(a, true) && k < a->section_count; k++) {
            const bw_section_assessment *s = &a->section[k];
            if (!r.has_value[i] || s->design.reserve < r.value[i])
                set(&r, i, s->design.reserve, s->section->name);
        }
    }
}

static const bw_monthly_result *drying_run(const bw_section_assessment *section,
                                           bw_drying_ways ways)
{
    if (ways == BW_DRY_OUTWARDS)
        return &section->dry_outwards;
    return ways == BW_DRY_INWARDS ? &section->dry_inwards : &section->dry_both;
}

/* The slowest section; one that does not dry is slower than any that does, and
 * where one was not tested, the slowest of the others is not known to be it. */
static void slowest(row *r, size_t wall, const bw_assessment *a,
                    bw_drying_ways ways)
{
    bool untested = false;
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_section_assessment *s = &a->section[k];
        const bw_monthly_result *run = drying_run(s, ways);
        untested = untested || !s->has_dry;
        if (s->has_dry && !run->dried) {
            r->has_value[wall] = false;
            r->section[wall] = s->section->name;
            r->instead[wall] = "not in 10 years";
            return;
        }
        if (s->has_dry &&
            (!r->has_value[wall] || run->months_to_dry > r->value[wall]))
            set(r, wall, run->months_to_dry, s->section->name);
    }
    if (untested) {
        r->has_value[wall] = false;
        r->section[wall] = "";
        r->instead[wall] = "not assessed";
    }
}

static void add_drying(table *t, bw_drying_ways ways, const char *name,
                       const char *title)
{
    row r = start_row(t, name, title, "months", false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        r.instead[i] = "not assessed";
        slowest(&r, i, t->core->assessment[i], ways);
    }
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

/* As `slowest`, of the simulated wetting test; a section where nothing is at
 * risk needs none. */
static void slowest_wetting(bw_compare_core *core, row *r, size_t wall,
                            bw_drying_ways ways)
{
    const bw_assessment *a = core->assessment[wall];
    const char *untested = NULL;
    r->instead[wall] = "nothing at risk";
    for (size_t k = 0; k < a->section_count; k++) {
        const bw_section_assessment *s = &a->section[k];
        const bw_section_wetting *test = &s->wetting_test;
        const bw_wetting_result *way = way_of(test, ways);
        if (!test->ran || (ways != BW_DRY_BOTH && !test->one_way)) {
            untested = test->nothing_at_risk ? untested : "not assessed";
            continue;
        }
        const double months = bw_wetting_test_months(test, way);
        if (months < 0.0) {
            r->has_value[wall] = false;
            r->section[wall] = s->section->name;
            r->instead[wall] = never(core, way);
            return;
        }
        if (!r->has_value[wall] || months > r->value[wall])
            set(r, wall, months, s->section->name);
    }
    if (untested == NULL)
        return;
    r->has_value[wall] = false;
    r->section[wall] = "";
    r->instead[wall] = untested;
}

static void add_wetting(table *t, bw_drying_ways ways, const char *name,
                        const char *title)
{
    if (!t->core->comparison.simulated)
        return;
    row r = start_row(t, name, title, "months", false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++)
        slowest_wetting(t->core, &r, i, ways);
}

static void add_standing(table *t)
{
    if (!t->core->comparison.simulated)
        return;
    const char *criterion = bw_criterion_facts_of(BW_C_STANDING_WATER)->name;
    row r = start_row(t, "standing-water-highest", "Most standing water",
                      "kg/m2", false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        const bw_criterion *c = worst_of(t->core->assessment[i], criterion);
        r.instead[i] = "no such part";
        if (c != NULL && c->has_value)
            set(&r, i, c->value, c->section);
    }
}

/* The highest of two criteria's values, where a simulation gave one. */
static void add_highest(table *t, const char *name, const char *title,
                        const char *unit, bw_criterion_id one,
                        bw_criterion_id two)
{
    const char *const from[] = {bw_criterion_facts_of(one)->name,
                                bw_criterion_facts_of(two)->name};
    bool any = false;
    for (size_t i = 0; i < t->core->count; i++)
        for (size_t k = 0; k < t->core->assessment[i]->section_count; k++)
            any = any || t->core->assessment[i]->section[k].has_transient;
    if (!any)
        return;
    row r = start_row(t, name, title, unit, false);
    for (size_t i = 0; !t->no_memory && i < t->core->count; i++) {
        const bw_assessment *a = t->core->assessment[i];
        r.instead[i] = "no simulation";
        for (size_t k = 0; k < a->section_count; k++)
            if (a->section[k].has_transient)
                r.instead[i] = "no such part";
        for (size_t k = 0; k < 2; k++) {
            const bw_criterion *c = worst_of(a, from[k]);
            if (c != NULL && c->has_value &&
                (!r.has_value[i] || c->value > r.value[i]))
                set(&r, i, c->value, c->section);
        }
    }
}

static void add_simulated(table *t)
{
    add_highest(t, "wood-moisture-highest", "Highest moisture of wood", "%",
                BW_C_WOOD_MOISTURE, BW_C_PANEL_MOISTURE);
    add_highest(t, "mould-index", "Highest mould index", "-", BW_C_MOULD_HIDDEN,
                BW_C_MOULD_ROOM);
    add_standing(t);
    add_wetting(t, BW_DRY_BOTH, "simulated-months-to-dry",
                "To dry after a wetting, both ways (simulated)");
    add_wetting(t, BW_DRY_OUTWARDS, "simulated-months-to-dry-outwards",
                "To dry, outwards only (simulated)");
    add_wetting(t, BW_DRY_INWARDS, "simulated-months-to-dry-inwards",
                "To dry, inwards only (simulated)");
}

static void add_monthly(table *t)
{
    add_peak(t);
    add_reserve(t);
    add_drying(t, BW_DRY_BOTH, "months-to-dry",
               "To dry after a wetting, both ways");
    add_drying(t, BW_DRY_OUTWARDS, "months-to-dry-outwards",
               "To dry, outwards only");
    add_drying(t, BW_DRY_INWARDS, "months-to-dry-inwards",
               "To dry, inwards only");
}

/* These are key numbers already, and judge nothing. */
static bool is_key_number(bw_criterion_id id)
{
    return id == BW_C_DRYING_OUTWARDS || id == BW_C_DRYING_INWARDS ||
           id == BW_C_WETTING_OUTWARDS || id == BW_C_WETTING_INWARDS;
}

static void add_criteria(table *t)
{
    for (int i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_id id = (bw_criterion_id)i;
        const bool monthly = bw_criterion_facts_of(id)->role != BW_JUDGES;
        if (!is_key_number(id) && monthly == t->by_months)
            add_criterion(t, id);
    }
}

bw_status bw_compare_table(bw_compare_core *core, bw_error *err)
{
    table t = {.core = core,
               .rows = BW_NEW(&core->arena, bw_compare_row,
                              KEY_ROWS_MOST + BW_C_COUNT)};
    if (t.rows == NULL)
        return bw_fail_memory(err);
    add_whole_wall(&t);
    add_simulated(&t);
    add_criteria(&t);
    t.by_months = true;
    add_monthly(&t);
    add_criteria(&t);
    core->comparison.row = t.rows;
    core->comparison.row_count = t.count;
    return t.no_memory ? bw_fail_memory(err) : BW_OK;
}
