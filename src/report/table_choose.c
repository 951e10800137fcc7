/* The tables of a choice. */

#include "bothways/choose.h"
#include "table.h"

static const bw_chosen *begin(bw_cells *c)
{
    c->wall = c->results->chosen->assessment;
    return c->results->chosen;
}

/* ---- choose.csv ---------------------------------------------------------- */

/* Its place on the front from 1; 0: it is not there. */
static size_t place_of(const bw_chosen *c, const bw_design *d)
{
    for (size_t i = 0; i < c->front_count; i++)
        if (&c->design[c->front[i]] == d)
            return i + 1;
    return 0;
}

/* Goals that rest on what is assumed, blanks between. */
static const char *assumed(bw_cells *c, const bw_design *d)
{
    const char *text = "";
    for (int g = 0; g < BW_GOAL_COUNT; g++)
        if (d->assumed[g] && !isnan(d->goal[g]))
            text = bw_phrase(&c->page, "%s%s%s", text,
                             text[0] != '\0' ? " " : "",
                             bw_goal_name((bw_goal)g));
    return text;
}

static void goal_columns(bw_cells *c, const bw_design *d)
{
    BW_NUMBER(c, "u_W_m2K", "W/(m2.K)", "transmittance, ISO 6946",
              d->goal[BW_GOAL_U]);
    BW_NUMBER(c, "thickness_m", "m", "of all layers",
              d->goal[BW_GOAL_THICKNESS]);
    BW_NUMBER_IF(c, "price_per_m2", "/m2",
                 "of the chosen layers, in the currency of "
                 "`choose-summary.csv`",
                 true, d->goal[BW_GOAL_PRICE]);
    BW_NUMBER_IF(c, "carbon_kg_m2", "kg/m2",
                 "CO2 equivalent of the chosen layers", true,
                 d->goal[BW_GOAL_CARBON]);
    BW_NUMBER_IF(c, "reserve_p10_kg_m2a", "kg/(m2 a)",
                 "drying reserve, 10th percentile of the drawn cases", true,
                 d->goal[BW_GOAL_RESERVE]);
    BW_NUMBER_IF(c, "mould_p90", "-",
                 "mould index at hidden faces, 90th percentile", true,
                 d->goal[BW_GOAL_MOULD]);
    BW_NUMBER_IF(c, "wood_p90_pct", "%",
                 "wood moisture as a share of its limit, 90th percentile", true,
                 d->goal[BW_GOAL_WOOD]);
    BW_NUMBER_IF(c, "reserve_as_drawn_kg_m2a", "kg/(m2 a)", "the same as drawn",
                 true, d->drawn_goal[BW_GOAL_RESERVE]);
    BW_NUMBER_IF(c, "mould_as_drawn", "-", "the same as drawn", true,
                 d->drawn_goal[BW_GOAL_MOULD]);
    BW_NUMBER_IF(c, "wood_as_drawn_pct", "%", "the same as drawn", true,
                 d->drawn_goal[BW_GOAL_WOOD]);
    BW_TEXT_IF(c, "assumed", "goals that rest on what is assumed", true,
               assumed(c, d));
}

static void proof_columns(bw_cells *c, const bw_design *d)
{
    BW_NUMBER_IF(c, "drawn", "-", "cases drawn", d->standing != BW_OUT,
                 (double)d->drawn);
    BW_NUMBER_IF(c, "failed", "-", "of them", d->standing != BW_OUT,
                 (double)d->failed);
    BW_NUMBER_IF(c, "not_assessed", "-",
                 "of them; they count as failed in the bound",
                 d->standing != BW_OUT, (double)d->unassessed);
    BW_NUMBER_IF(c, "failed_by_numbers", "-",
                 "of them, where a screening decides nothing",
                 d->standing != BW_OUT, (double)d->failed_numbers);
    BW_NUMBER_IF(c, "bound", "-",
                 "of the share that does not hold, one-sided, 95 %",
                 d->standing != BW_OUT, d->bound);
    BW_TEXT_IF(c, "breaks", "the finding that breaks it", true, d->breaks);
    BW_TEXT_IF(c, "breaks_criterion", "by which criterion",
               d->breaks[0] != '\0' && bw_has_figure(&d->breaks_figure),
               d->breaks_figure.criterion);
    BW_TEXT_IF(c, "worst", "the worst drawn case", true, d->worst);
    BW_TEXT_IF(c, "decides", "the unknown that decides that case", true,
               d->decides);
    BW_NUMBER_IF(c, "tie", "-",
                 "those of one number cannot be told apart by any goal",
                 d->tie > 0, (double)d->tie);
    BW_NUMBER_IF(c, "score", "-", "by the weights of the file, 0 best", true,
                 d->score);
}

static void design_columns(bw_cells *c, const void *row)
{
    const bw_design *d = row;
    bw_assembly_column(c);
    BW_NUMBER(c, "design", "-", "its number in the order of the file, from 1",
              (double)(d - c->results->chosen->design) + 1.0);
    BW_TEXT(c, "name", "its options", d->name);
    BW_TEXT(c, "standing",
            "`holds` in all that was tried, `breaks`, `not assessed` or "
            "`dropped`",
            bw_standing_text(d->standing));
    BW_TEXT(c, "marginally", "`yes`: it holds, in some case only marginally",
            bw_yes_no(d->marginally));
    BW_NUMBER_IF(c, "front", "-", "its place on the front, from 1", d->on_front,
                 (double)place_of(c->results->chosen, d));
    BW_TEXT_IF(c, "dropped", "why", true, d->dropped);
    goal_columns(c, d);
    proof_columns(c, d);
}

static void design_rows(bw_cells *c)
{
    const bw_chosen *all = begin(c);
    for (size_t i = 0; i < all->design_count; i++)
        bw_row(c, &all->design[i]);
}

const bw_table_facts bw_table_choose = {
    "choose.csv", "A design of `<choices>` (`choose`).", design_columns,
    design_rows, BW_BY_RESULTS};

/* ---- choose-findings.csv ------------------------------------------------- */

typedef struct found_row {
    const bw_design *d;
    size_t finding;
} found_row;

static const bw_found_alone *alone(const found_row *row)
{
    return &row->d->found[row->finding];
}

static void found_columns(bw_cells *c, const void *row)
{
    const found_row *r = row;
    bw_assembly_column(c);
    BW_NUMBER(c, "design", "-", "as in `choose.csv`",
              (double)(r->d - c->results->chosen->design) + 1.0);
    BW_TEXT(c, "finding", "the unknown",
            c->results->chosen->finding[r->finding].name);
    BW_TEXT(c, "applies", "`no`: the design has no such thing",
            bw_yes_no(alone(r)->applies));
    BW_TEXT_IF(c, "setting", "its worse end", alone(r)->computed,
               alone(r)->setting);
    BW_TEXT_IF(c, "verdict", "with it alone", alone(r)->computed,
               bw_verdict_text(alone(r)->verdict));
    BW_TEXT_IF(c, "by_numbers", "the same by the numbers alone",
               alone(r)->computed, bw_verdict_text(alone(r)->numbers));
    BW_TEXT_IF(c, "simulated", "hour by hour", alone(r)->computed,
               bw_yes_no(alone(r)->simulated));
    BW_FIGURE(c, "", "that decides",
              alone(r)->computed && bw_has_figure(&alone(r)->figure),
              alone(r)->computed, alone(r)->figure);
}

static void found_rows(bw_cells *c)
{
    const bw_chosen *all = begin(c);
    for (size_t i = 0; i < all->front_count; i++)
        for (size_t f = 0; f < all->finding_count; f++) {
            const found_row row = {&all->design[all->front[i]], f};
            bw_row(c, &row);
        }
}

const bw_table_facts bw_table_choose_findings = {
    "choose-findings.csv", "A finding alone in a design of the front.",
    found_columns, found_rows, BW_BY_RESULTS};

/* ---- choose-summary.csv -------------------------------------------------- */

static void summary_columns(bw_cells *c, const void *row)
{
    const bw_chosen *all = row;
    bw_assembly_column(c);
    BW_NUMBER(c, "designs", "-", "that the choices make",
              (double)all->design_count);
    BW_NUMBER(c, "over_limit", "-", "dropped: over a limit of the file",
              (double)all->over_limit);
    BW_NUMBER(c, "beaten", "-", "dropped: beaten in everything",
              (double)all->beaten);
    BW_NUMBER(c, "not_good_as_drawn", "-",
              "dropped: fail as drawn, or cannot be assessed so",
              (double)all->as_drawn_failing);
    BW_NUMBER(c, "front", "-", "left", (double)all->front_count);
    BW_NUMBER(c, "holding", "-", "of these hold in all that was tried",
              (double)all->holding);
    BW_TEXT(c, "method", "`simulation` or `steady`",
            all->simulated ? "simulation" : "steady");
    BW_NUMBER(c, "findings", "-", "unknowns", (double)all->finding_count);
    BW_NUMBER(c, "held_fixed", "-", "unknowns of `margin` not varied",
              (double)all->fixed_count);
    BW_NUMBER(c, "seed", "-", "of the cases", (double)all->seed);
    BW_NUMBER(c, "race", "-", "most cases by months of a design",
              (double)all->race_cases);
    BW_NUMBER(c, "drawn", "-", "cases drawn of a design",
              (double)all->drawn_cases);
    BW_NUMBER_IF(c, "joint_bound", "-",
                 "as `bound`, of the first of the front, for all designs drawn "
                 "for at once",
                 true, all->joint_bound);
    BW_NUMBER(c, "assessments", "-", "by months", (double)all->steady_count);
    BW_NUMBER(c, "simulations", "-", "walls simulated",
              (double)all->simulation_count);
    BW_TEXT_IF(c, "currency", "of the prices", true, all->choices->currency);
}

static void summary_rows(bw_cells *c)
{
    bw_row(c, begin(c));
}

const bw_table_facts bw_table_choose_summary = {
    "choose-summary.csv", "A choice (`choose`).", summary_columns, summary_rows,
    BW_BY_RESULTS};
