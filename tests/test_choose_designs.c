/* The designs that choices make of a wall built by hand: which options, what
 * they measure and cost by sums of their layers, what of it is assumed, which
 * limit drops them; and which unknowns of two designs are the same finding. */

#include <math.h>
#include <string.h>

#include "choose/choosing.h"
#include "criteria_case.h"
#include "suite.h"

enum { WOOLS = 3, FOILS = 2, DESIGNS = WOOLS * FOILS };

static criteria_case drawn;
static bw_choosing c;
static bw_layer wool[WOOLS], foil;
static bw_material other;
static bw_uncertain panel_mu, wool_lambda[WOOLS], foil_sd;
static bw_option wools[WOOLS], foils[FOILS];
static bw_choice choice[2];

static bw_option option_of(const char *name, const bw_layer *layer,
                           double price, double carbon)
{
    return (bw_option){.name = name,
                       .layer = layer,
                       .price = price,
                       .carbon = carbon,
                       .price_source = "",
                       .carbon_source = ""};
}

/* Insulation of 100, 200 and 250 mm, the last of another lambda; a foil as it
 * is drawn, or none. */
static void setup(void)
{
    static const double thick[WOOLS] = {0.100, 0.200, 0.250};
    static const char *const names[WOOLS] = {"thin", "thick", "other"};
    case_make(&drawn);
    memset(&c, 0, sizeof c);
    other = drawn.material[CASE_INSULATION];
    other.thermal_conductivity = case_value(0.05);
    panel_mu = (bw_uncertain){"mu", 10.0, 200.0};
    foil_sd = (bw_uncertain){"sd", 1.0, 5.0};
    drawn.layer[CASE_SHEATHING].uncertain = &panel_mu;
    drawn.layer[CASE_SHEATHING].uncertain_count = 1;
    drawn.layer[CASE_FOIL].uncertain = &foil_sd;
    drawn.layer[CASE_FOIL].uncertain_count = 1;
    for (size_t i = 0; i < WOOLS; i++) {
        wool_lambda[i] = (bw_uncertain){"lambda", 0.03, 0.06};
        wool[i] = drawn.layer[CASE_INSULATION];
        wool[i].thickness = thick[i];
        wool[i].material = i == 2 ? &other : &drawn.material[CASE_INSULATION];
        wool[i].uncertain = &wool_lambda[i];
        wool[i].uncertain_count = 1;
        wools[i] = option_of(names[i], &wool[i], 10.0 * (double)(i + 1),
                             -1.5 * (double)i);
    }
    foil = drawn.layer[CASE_FOIL];
    foils[0] = option_of("foil", &foil, 2.5, 0.25);
    foils[0].as_drawn = true;
    foils[1] = option_of("none", NULL, (double)NAN, (double)NAN);
    choice[0] = (bw_choice){.layer = CASE_INSULATION,
                            .name = "wool",
                            .option_count = WOOLS,
                            .option = wools};
    choice[1] = (bw_choice){.layer = CASE_FOIL,
                            .name = "foil",
                            .option_count = FOILS,
                            .option = foils};
    drawn.assembly.choices = (bw_choices){.choice_count = 2,
                                          .choice = choice,
                                          .has_price = true,
                                          .has_carbon = true,
                                          .currency = "EUR"};
    c.chosen.assembly = &drawn.assembly;
    c.chosen.climate = &drawn.climate;
    c.chosen.choices = &drawn.assembly.choices;
    c.options.assessment.no_transient = true;
}

static void teardown(void)
{
    bw_arena_release(&c.arena);
    case_free(&drawn);
}

static void make(void)
{
    bw_error err = {0};
    ck_assert_msg(bw_designs_make(&c, &err) == BW_OK, "%s", err.message);
    ck_assert_uint_eq(c.count, DESIGNS);
}

/* The last choice changes first; surfaces, panel and board are the same of
 * all, so that 1/U differs by what is chosen alone. */
START_TEST(a_design_measures_and_costs_what_its_layers_do)
{
    static const double resistance[WOOLS] = {0.1 / 0.035, 0.2 / 0.035,
                                             0.25 / 0.05};
    make();
    for (size_t d = 0; d < DESIGNS; d++) {
        const bw_design *is = &c.design[d];
        const size_t w = d / FOILS, f = d % FOILS;
        char name[32];
        snprintf(name, sizeof name, "%s, %s", wools[w].name, foils[f].name);
        ck_assert_str_eq(is->name, name);
        ck_assert_uint_eq(is->option[0], w);
        ck_assert_uint_eq(is->option[1], f);
        ck_assert_uint_eq(c.candidate[d].assembly->layer_count,
                          CASE_LAYERS - f);
        ck_assert_double_eq_tol(1.0 / is->goal[BW_GOAL_U] -
                                    1.0 / c.design[0].goal[BW_GOAL_U],
                                resistance[w] - resistance[0], 1e-9);
        ck_assert_double_eq_tol(is->goal[BW_GOAL_THICKNESS],
                                0.009 + 0.0125 + wool[w].thickness, 1e-12);
        ck_assert_double_eq_tol(is->goal[BW_GOAL_PRICE],
                                10.0 * (double)(w + 1) + (f == 0 ? 2.5 : 0.0),
                                1e-12);
        ck_assert_double_eq_tol(is->goal[BW_GOAL_CARBON],
                                -1.5 * (double)w + (f == 0 ? 0.25 : 0.0),
                                1e-12);
        ck_assert(isnan(is->goal[BW_GOAL_MOULD]) &&
                  isnan(is->drawn_goal[BW_GOAL_U]));
        ck_assert_int_eq(is->standing == BW_OUT, 0);
    }
}
END_TEST

/* What rests on an assumed layer is assumed, but no sum of prices or sizes; a
 * price that is assumed is so of the designs that have it. */
START_TEST(what_rests_on_what_is_assumed_is_assumed)
{
    wool[1].evidence = BW_EVIDENCE_ASSUMED;
    drawn.layer[CASE_LINING].evidence = BW_EVIDENCE_ASSUMED;
    foils[1].price_evidence = foils[1].carbon_evidence = BW_EVIDENCE_ASSUMED;
    for (size_t i = 0; i < WOOLS; i++) {
        wools[i].price_evidence = i == 2 ? BW_EVIDENCE_ASSUMED
                                         : BW_EVIDENCE_TABULATED;
        wools[i].carbon_evidence = i == 0 ? BW_EVIDENCE_ASSUMED
                                          : BW_EVIDENCE_TABULATED;
    }
    foils[0].price_evidence = foils[0].carbon_evidence = BW_EVIDENCE_TABULATED;
    for (int lining = 1; lining >= 0; lining--) {
        drawn.layer[CASE_LINING].evidence = lining ? BW_EVIDENCE_ASSUMED
                                                   : BW_EVIDENCE_TABULATED;
        make();
        for (size_t d = 0; d < DESIGNS; d++) {
            const bw_design *is = &c.design[d];
            const size_t w = d / FOILS;
            ck_assert_str_eq(is->assumed_layers,
                             w == 1   ? (lining ? "mineral wool, plasterboard"
                                                : "mineral wool")
                             : lining ? "plasterboard"
                                      : "");
            for (int g = 0; g < BW_GOAL_COUNT; g++)
                ck_assert_int_eq(is->assumed[g], g == BW_GOAL_PRICE    ? w == 2
                                                 : g == BW_GOAL_CARBON ? w == 0
                                                 : g == BW_GOAL_THICKNESS
                                                     ? 0
                                                     : lining || w == 1);
        }
    }
}
END_TEST

/* At it, and a little less. */
START_TEST(each_limit_drops_what_is_over_it)
{
    static const struct {
        bw_goal goal;
        const char *says;
    } goals[] = {{BW_GOAL_U, "U "},
                 {BW_GOAL_THICKNESS, "mm thick"},
                 {BW_GOAL_PRICE, "EUR/m2"},
                 {BW_GOAL_CARBON, "carbon "}};
    foils[0].carbon = 9.0; /* 9 - 1.5 w: above nought */
    for (size_t k = 0; k < COUNT(goals); k++)
        for (int less = 0; less < 2; less++) {
            const bw_goal goal = goals[k].goal;
            double *most = drawn.assembly.choices.most;
            memset(most, 0, BW_GOAL_COUNT * sizeof *most);
            c.chosen.over_limit = 0;
            make();
            const double limit = c.design[2].goal[goal] * (less ? 0.999 : 1.0);
            most[goal] = limit;
            make();
            size_t over = 0;
            for (size_t d = 0; d < DESIGNS; d++) {
                const bool is = c.design[d].goal[goal] > limit * (1.0 + 1e-6);
                over += is;
                ck_assert_int_eq(c.design[d].standing == BW_OUT, is);
                ck_assert_int_eq(c.candidate[d].judged_out, is);
                ck_assert_int_eq(
                    strstr(c.design[d].dropped, goals[k].says) != NULL, is);
            }
            ck_assert(less == 0 || c.candidate[2].judged_out);
            ck_assert_uint_eq(c.chosen.over_limit, over);
        }
}
END_TEST

/* ---- findings -------------------------------------------------------------
 */

static size_t finding_named(const char *name)
{
    for (size_t f = 0; f < c.finding_count; f++)
        if (strcmp(c.finding[f].name, name) == 0)
            return f;
    ck_abort_msg("no finding %s", name);
}

static bool has(size_t design, size_t finding)
{
    for (size_t i = 0; i < c.candidate[design].study.count; i++)
        if (c.candidate[design].finding[i] == finding)
            return true;
    return false;
}

/* The panel is of every design, the foil of those that have it; how well an
 * insulation insulates is one, whichever it is. */
START_TEST(the_same_of_two_designs_is_one_finding)
{
    bw_error err = {0};
    make();
    ck_assert_msg(bw_findings_find(&c, &err) == BW_OK, "%s", err.message);
    const size_t lambda = finding_named("lambda of the wool");
    const size_t sd = finding_named("vapour resistance of the foil");
    size_t panel = c.finding_count;
    for (size_t f = 0; f < c.finding_count; f++)
        if (strstr(c.finding[f].name, "panel") != NULL)
            panel = f;
    ck_assert_uint_lt(panel, c.finding_count);
    ck_assert(c.finding[lambda].of_choice && c.finding[sd].of_choice &&
              !c.finding[panel].of_choice);
    ck_assert_str_eq(c.finding[lambda].low, "least of each");
    ck_assert_str_eq(c.finding[sd].high, "most of each");
    ck_assert_ptr_nonnull(strstr(c.finding[panel].low, "10"));
    ck_assert_ptr_nonnull(strstr(c.finding[panel].high, "200"));
    size_t most = 0;
    for (size_t d = 0; d < DESIGNS; d++) {
        const size_t count = c.candidate[d].study.count;
        ck_assert(has(d, panel) && has(d, lambda));
        ck_assert_int_eq(has(d, sd), d % FOILS == 0);
        most = count > most ? count : most;
    }
    ck_assert_uint_eq(c.slots.unknowns, most);
}
END_TEST

/* By words that one name alone has: no method sees it then. */
START_TEST(what_is_settled_is_one_finding_and_is_not_seen)
{
    static const char *const words[] = {"lambda of the wool", "of the", "gold"};
    const char *one[1];
    for (size_t k = 0; k < 3; k++) {
        bw_error err = {0};
        c.finding_count = 0;
        c.chosen.fixed_count = 0;
        one[0] = words[k];
        c.options.settled_count = 1;
        c.options.settled = one;
        make();
        ck_assert_int_eq(bw_findings_find(&c, &err),
                         k == 0 ? BW_OK : BW_ERR_USAGE);
        if (k > 0) {
            ck_assert_ptr_nonnull(strstr(
                err.message, k == 1 ? "several findings" : "no finding"));
            continue;
        }
        const size_t lambda = finding_named(words[0]);
        for (size_t f = 0; f < c.finding_count; f++)
            ck_assert_int_eq(c.finding[f].settled, f == lambda);
        for (size_t d = 0; d < DESIGNS; d++)
            for (size_t i = 0; i < c.candidate[d].study.count; i++)
                ck_assert(c.candidate[d].finding[i] != lambda ||
                          !c.candidate[d].study.source[i].shown.seen);
    }
}
END_TEST

static bw_study unknowns_of(bool wide)
{
    bw_study study = {.assembly = &drawn.assembly,
                      .climate = &drawn.climate,
                      .options = c.options.assessment,
                      .arena = &c.arena,
                      .wide = wide};
    ck_assert(bw_unknowns_find(&study, NULL) == BW_OK);
    return study;
}

/* What a margin varies of the wall, and this does not: named; of a wide choice
 * nothing. */
START_TEST(what_a_margin_varies_besides_is_named)
{
    for (int wide = 0; wide < 2; wide++) {
        const bw_study few = unknowns_of(false), all = unknowns_of(true);
        size_t at = 0;
        bw_error err = {0};
        c.options.wide = wide == 1;
        c.finding_count = c.chosen.fixed_count = 0;
        make();
        ck_assert_int_eq(bw_findings_find(&c, &err), BW_OK);
        for (size_t i = 0; wide == 0 && i < all.count; i++) {
            const char *name = all.source[i].shown.name;
            bool varied = false;
            for (size_t k = 0; k < few.count; k++)
                varied = varied || strcmp(few.source[k].shown.name, name) == 0;
            if (!varied) {
                ck_assert_uint_lt(at, c.chosen.fixed_count);
                ck_assert_str_eq(c.chosen.fixed[at++], name);
            }
        }
        ck_assert_uint_eq(c.chosen.fixed_count, at);
        ck_assert(wide == 1 || (at > 0 && few.count > 0));
    }
}
END_TEST

SUITE_AROUND("choose_designs", setup, teardown,
             FACT(a_design_measures_and_costs_what_its_layers_do),
             FACT(what_rests_on_what_is_assumed_is_assumed),
             FACT(each_limit_drops_what_is_over_it),
             FACT(the_same_of_two_designs_is_one_finding),
             FACT(what_is_settled_is_one_finding_and_is_not_seen),
             FACT(what_a_margin_varies_besides_is_named))
