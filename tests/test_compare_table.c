/* The table of a comparison, of assessments made by hand at random: which rows
 * there are and in which order, and of each wall the figure of its worst
 * section, or what stands in its place, written down a second time from
 * docs/methods.md, "Comparison", and the fields of bw_compare_row. */

#include <math.h>
#include <string.h>

#include "compare/comparing.h"
#include "criterion.h"
#include "random_wall.h"
#include "suite.h"

enum { WALLS = 3, SECTIONS = 3, CRITERIA = 8 };

static dice die;
static bw_compare_core core;
static bw_assessment assessment[WALLS];
static bw_section named[SECTIONS] = {{.name = "between-studs"},
                                     {.name = "through-stud"},
                                     {.name = "through-rail"}};
static bw_section_assessment sections[WALLS][SECTIONS];
static bw_criterion criteria[WALLS][CRITERIA];
static bw_assembly drawn[WALLS];
static bw_layer unmeasured[1];

static size_t pick(size_t n)
{
    return (size_t)between(&die, 0.0, (double)n - 1e-9);
}

static bool chance(double of)
{
    return uniform(&die) < of;
}

/* ---- results --------------------------------------------------------------
 */

static bw_wetting_result draw_way(void)
{
    return (bw_wetting_result){.months = chance(0.1) ? -1.0 : (double)pick(9),
                               .place_months = chance(0.1) ? -1.0
                                                           : (double)pick(9),
                               .left = 0.125 * (double)pick(8),
                               .day_count = 730};
}

static void draw_section(bw_section_assessment *s, size_t which, double there)
{
    *s = (bw_section_assessment){.section = &named[which],
                                 .has_transient = chance(there)};
    for (int run = 0; run < BW_RUN_COUNT; run++)
        s->run[run] = (bw_monthly_run){
            .ran = chance(there),
            .result = {.peak = 0.5 * (double)pick(4),
                       .reserve = 0.25 * (double)pick(6) - 0.5,
                       .has_reserve = chance(there),
                       .dried = chance(0.8),
                       .months_to_dry = 0.5 * (double)pick(9)}};
    s->wetting_test = (bw_section_wetting){.ran = chance(there),
                                           .nothing_at_risk = chance(0.5),
                                           .place_alone = chance(0.3),
                                           .one_way = chance(0.8),
                                           .both = draw_way(),
                                           .outwards = draw_way(),
                                           .inwards = draw_way()};
}

/* Judged with a limit and without, of months, known alone with and without. */
static const bw_criterion_id ids[] = {BW_C_WOOD_MOISTURE,  BW_C_PANEL_MOISTURE,
                                      BW_C_MOULD_HIDDEN,   BW_C_MOULD_ROOM,
                                      BW_C_STANDING_WATER, BW_C_RESERVE,
                                      BW_C_WETTING,        BW_C_DRYING_OUTWARDS,
                                      BW_C_RUN_OFF,        BW_C_ALONE};

static bw_criterion draw_criterion(size_t *which)
{
    static const bw_verdict verdicts[] = {BW_HOLDS, BW_MARGINAL, BW_FAILS,
                                          BW_NOT_ASSESSED};
    const size_t k = *which = pick(COUNT(ids));
    return (bw_criterion){.criterion = bw_criterion_facts_of(ids[k])->name,
                          .section = named[pick(SECTIONS)].name,
                          .unit = "months",
                          .verdict = verdicts[pick(4)],
                          .outcome = verdicts[pick(4)],
                          .has_value = chance(0.8),
                          .value = 0.5 * (double)pick(8),
                          .has_limit = k % 2 == 0, /* in all sections */
                          .margin = 0.5 * (double)pick(8),
                          .never = chance(0.2)};
}

static void draw_wall(size_t i, double there)
{
    size_t which;
    assessment[i] = (bw_assessment){.section = sections[i],
                                    .section_count = 1 + pick(SECTIONS),
                                    .criterion = criteria[i],
                                    .criterion_count = pick(CRITERIA + 1)};
    for (size_t k = 0; k < SECTIONS; k++)
        draw_section(&sections[i][k], k, there);
    for (size_t k = 0; k < CRITERIA; k++)
        criteria[i][k] = draw_criterion(&which);
    drawn[i] = (bw_assembly){.layer = unmeasured,
                             .layer_count = chance(0.3) ? 1 : 0};
    core.assembly[i] = core.given[i] = &drawn[i];
    core.assessment[i] = &assessment[i];
    core.wall[i] = (bw_compared){
        .label = "wall",
        .transmittance = 0.125 * (double)(1 + pick(8)),
        .total_thickness = 0.25 * (double)(1 + pick(8)),
        .rescaled = chance(0.6),
        .thickness_after = 0.125 * (double)(1 + pick(8)),
        .thickness_to_buy = chance(0.5) ? 0.125 * (double)(1 + pick(8)) : 0.0,
        .transmittance_to_buy = 0.0625 * (double)(1 + pick(8))};
}

static void draw_walls(void)
{
    static const bw_equal equal[] = {BW_EQUAL_AS_DRAWN, BW_EQUAL_U,
                                     BW_EQUAL_THICKNESS};
    const double there = chance(0.5) ? 1.0 : 0.7;
    core = (bw_compare_core){.count = 2 + pick(WALLS - 1)};
    core.options.equal = equal[pick(3)];
    core.comparison.simulated = chance(0.5);
    for (size_t i = 0; i < core.count; i++)
        draw_wall(i, chance(0.2) ? 0.0 : there);
}

/* ---- rows -----------------------------------------------------------------
 */

/* A cell: a value with its section, or words. */
typedef struct cell {
    bool has_value;
    double value;
    const char *section, *instead;
} cell;

static size_t at; /* the next row */

static const bw_compare_row *next(const char *name)
{
    ck_assert_uint_lt(at, core.comparison.row_count);
    const bw_compare_row *row = &core.comparison.row[at++];
    ck_assert_str_eq(row->name, name);
    return row;
}

static void is_cell(const bw_compare_row *row, size_t i, cell want)
{
    ck_assert_msg(row->has_value[i] == want.has_value, "%s", row->name);
    ck_assert_msg(strcmp(row->instead[i], want.instead) == 0, "%s: %s for %s",
                  row->name, row->instead[i], want.instead);
    ck_assert_str_eq(row->section[i], want.section);
    if (want.has_value)
        ck_assert_msg(fabs(row->value[i] - want.value) < 1e-12, "%s",
                      row->name);
}

static cell number(double value, const char *section)
{
    return (cell){true, value, section, ""};
}

static cell words(const char *instead, const char *section)
{
    return (cell){false, 0.0, section, instead};
}

typedef cell cell_of(size_t wall, int which);

static void key_row(const char *name, cell_of *of, int which)
{
    const bw_compare_row *row = next(name);
    ck_assert(!row->is_criterion && row->verdict == NULL &&
              row->criterion == NULL);
    for (size_t i = 0; i < core.count; i++)
        is_cell(row, i, of(i, which));
}

static cell u_value(size_t i, int which)
{
    (void)which;
    return number(core.wall[i].transmittance, "");
}

static cell total(size_t i, int which)
{
    (void)which;
    return drawn[i].layer_count > 0 ? words("not all given", "")
                                    : number(core.wall[i].total_thickness, "");
}

static cell scaled(size_t i, int which)
{
    (void)which;
    return core.wall[i].rescaled ? number(core.wall[i].thickness_after, "")
                                 : words("as drawn", "");
}

/* 1: its U. */
static cell bought(size_t i, int which)
{
    const bw_compared *w = &core.wall[i];
    if (!(w->thickness_to_buy > 0.0))
        return words(w->rescaled ? "none as thick is sold" : "as drawn", "");
    return number(which == 1 ? w->transmittance_to_buy : w->thickness_to_buy,
                  "");
}

/* The first that has most of it. */
static const bw_criterion *worst_of(size_t i, bw_criterion_id id)
{
    static const double bad[] = {[BW_HOLDS] = 0.0,
                                 [BW_MARGINAL] = 1.0,
                                 [BW_NOT_ASSESSED] = 2.0,
                                 [BW_FAILS] = 3.0};
    const bw_criterion *worst = NULL;
    double most = -1e9;
    for (size_t k = 0; k < assessment[i].criterion_count; k++) {
        const bw_criterion *c = &criteria[i][k];
        const double figure = !c->has_value  ? 50.0
                              : c->has_limit ? -c->margin
                                             : c->value;
        const double now = 1e6 * bad[c->verdict] + 1e3 * bad[c->outcome] +
                           figure;
        if (strcmp(c->criterion, bw_criterion_facts_of(id)->name) == 0 &&
            now > most) {
            most = now;
            worst = c;
        }
    }
    return worst;
}

static bool is_simulated(size_t i)
{
    bool any = false;
    for (size_t k = 0; k < assessment[i].section_count; k++)
        any = any || sections[i][k].has_transient;
    return any;
}

/* 0: wood, 1: mould, 2: water. */
static cell highest(size_t i, int which)
{
    static const bw_criterion_id of[][2] = {
        {BW_C_WOOD_MOISTURE, BW_C_PANEL_MOISTURE},
        {BW_C_MOULD_HIDDEN, BW_C_MOULD_ROOM},
        {BW_C_STANDING_WATER, BW_C_STANDING_WATER}};
    cell most = words(is_simulated(i) ? "no such part" : "no simulation", "");
    for (int k = 0; k < 2; k++) {
        const bw_criterion *c = worst_of(i, of[which][k]);
        if (c != NULL && c->has_value &&
            (!most.has_value || c->value > most.value))
            most = number(c->value, c->section);
    }
    return most;
}

/* The slowest; one that never dries before all, one that was not tested before
 * those that were. */
static cell dries(size_t i, int way)
{
    cell slowest = words("nothing at risk", "");
    bool untested = false, alone = false;
    for (size_t k = 0; k < assessment[i].section_count; k++) {
        const bw_section_wetting *t = &sections[i][k].wetting_test;
        const bw_wetting_result *of = way == 0   ? &t->both
                                      : way == 1 ? &t->outwards
                                                 : &t->inwards;
        if (t->ran && t->place_alone && way > 0) {
            alone = true;
            continue;
        }
        if (!t->ran || (way > 0 && !t->one_way)) {
            untested = untested || !t->nothing_at_risk;
            continue;
        }
        const bool never = of->place_months < 0.0 ||
                           (of->months < 0.0 && !t->place_alone);
        const double months = t->place_alone
                                  ? of->place_months
                                  : fmax(of->months, of->place_months);
        if (never) { /* of 730 days, 24 months */
            static char text[64];
            const double grams = 1000.0 * of->left;
            snprintf(text, sizeof text, "not in 24 months: %.0f g/m2 there",
                     grams);
            return words(text, named[k].name);
        }
        if (!slowest.has_value || months > slowest.value)
            slowest = number(months, named[k].name);
    }
    if (untested || (alone && !slowest.has_value))
        return words("not assessed", "");
    return slowest;
}

static cell dries_by_months(size_t i, int way)
{
    cell slowest = words("not assessed", "");
    bool untested = false;
    for (size_t k = 0; k < assessment[i].section_count; k++) {
        const bw_monthly_run *run =
            &sections[i][k].run[BW_RUN_WETTED_BOTH + way];
        if (!run->ran)
            untested = true;
        else if (!run->result.dried)
            return words("not in 10 years", named[k].name);
        else if (!slowest.has_value ||
                 run->result.months_to_dry > slowest.value)
            slowest = number(run->result.months_to_dry, named[k].name);
    }
    return untested ? words("not assessed", "") : slowest;
}

/* 0: the most condensate, 1: the least reserve. */
static cell balance(size_t i, int least)
{
    cell worst = words("not assessed", "");
    for (size_t k = 0; k < assessment[i].section_count; k++) {
        const bw_monthly_run *run = &sections[i][k].run[BW_RUN_DESIGN];
        const double is = least ? run->result.reserve : run->result.peak;
        if (!run->ran || (least && !run->result.has_reserve))
            return words("not assessed", "");
        if (!worst.has_value || (least ? is < worst.value : is > worst.value))
            worst = number(is, named[k].name);
    }
    return worst;
}

/* ---- the table ------------------------------------------------------------
 */

static void criteria_rows(bool by_months)
{
    for (int id = 0; id < BW_C_COUNT; id++) {
        const bw_criterion_facts *facts = bw_criterion_facts_of(
            (bw_criterion_id)id);
        bool any = false;
        for (size_t i = 0; i < core.count; i++)
            any = any || worst_of(i, (bw_criterion_id)id) != NULL;
        if (!any || id == BW_C_DRYING_OUTWARDS || /* a key number already */
            (id == BW_C_RESERVE || id == BW_C_RUN_OFF) != by_months)
            continue;
        const bw_compare_row *row = next(facts->name);
        ck_assert(row->is_criterion);
        ck_assert_int_eq(row->by_months, by_months);
        for (size_t i = 0; i < core.count; i++) {
            const bw_criterion *c = worst_of(i, (bw_criterion_id)id);
            ck_assert_ptr_eq(row->criterion[i], c);
            ck_assert_int_eq(row->verdict[i],
                             c != NULL ? c->verdict : BW_NOT_ASSESSED);
            ck_assert_int_eq(row->has_value[i],
                             c != NULL && c->has_value && !c->never);
            ck_assert_str_eq(row->section[i], c != NULL ? c->section : "");
            ck_assert_int_eq(strncmp(row->instead[i], "not in ", 7) == 0,
                             c != NULL && c->never);
            ck_assert_int_eq(strcmp(row->instead[i], "no such part") == 0,
                             c == NULL);
            if (row->has_value[i])
                ck_assert(fabs(row->value[i] - c->value) < 1e-12);
        }
    }
}

static void look_at_table(void)
{
    bool any = false;
    at = 0;
    for (size_t i = 0; i < core.count; i++)
        any = any || is_simulated(i);
    key_row("u-value", u_value, 0);
    key_row("total-thickness", total, 0);
    if (core.options.equal != BW_EQUAL_AS_DRAWN)
        key_row("scaled-thickness", scaled, 0);
    if (core.options.equal == BW_EQUAL_U) {
        key_row("thickness-to-buy", bought, 0);
        key_row("u-value-to-buy", bought, 1);
    }
    if (any) {
        key_row("wood-moisture-highest", highest, 0);
        key_row("mould-index", highest, 1);
    }
    if (core.comparison.simulated) {
        key_row("standing-water-highest", highest, 2);
        key_row("simulated-months-to-dry", dries, 0);
        key_row("simulated-months-to-dry-outwards", dries, 1);
        key_row("simulated-months-to-dry-inwards", dries, 2);
    }
    criteria_rows(false);
    const size_t first = at;
    key_row("peak-condensate", balance, 0);
    key_row("reserve", balance, 1);
    key_row("months-to-dry", dries_by_months, 0);
    key_row("months-to-dry-outwards", dries_by_months, 1);
    key_row("months-to-dry-inwards", dries_by_months, 2);
    criteria_rows(true);
    ck_assert_uint_eq(at, core.comparison.row_count);
    for (size_t k = 0; k < at; k++)
        ck_assert_int_eq(core.comparison.row[k].by_months, k >= first);
}

START_TEST(each_row_has_the_worst_section_of_each_wall)
{
    die = (dice){.state = 88172645463325252u};
    for (int draws = 0; draws < 1500; draws++) {
        draw_walls();
        ck_assert_int_eq(bw_compare_table(&core, NULL), BW_OK);
        look_at_table();
        bw_arena_release(&core.arena);
    }
}
END_TEST

SUITE("compare_table", FACT(each_row_has_the_worst_section_of_each_wall))
