/* The tables of a margin. */

#include "bothways/margin.h"
#include "names.h"
#include "number.h"
#include "table.h"
#include "text.h"

/* A verdict is the simulation's; the steady methods say what would be. */
static const char *verdict_word(const bw_cells *c, bw_verdict verdict)
{
    return c->results->margin->transient ? bw_verdict_text(verdict)
                                         : bw_would_be(verdict);
}

/* The margin whose rows these are. */
static const bw_margin *begin(bw_cells *c)
{
    c->wall = c->results->margin->assessment;
    return c->results->margin;
}

/* ---- margin.csv ---------------------------------------------------------- */

static const char *kind_word(bw_unknown_kind kind)
{
    static const char *const words[] = {
        [BW_UNKNOWN_RANGE] = "range",
        [BW_UNKNOWN_ALTERNATIVE] = "alternative",
        [BW_UNKNOWN_STANDARD] = "standard",
        [BW_UNKNOWN_LIBRARY] = "library"};
    return BW_WORD(words, kind, "standard");
}

static bool is_number(const bw_unknown *u)
{
    return u->unit[0] != '\0';
}

static bool is_found(const bw_unknown *u)
{
    return u->flips && u->continuous && !u->flips_all;
}

static void range_columns(bw_cells *c, const bw_unknown *u)
{
    BW_TEXT(c, "unknown", "what is varied", u->name);
    BW_TEXT(c, "kind",
            "`range` or `alternative` of the file, `library`: its range there "
            "(`audit`), or `standard`: varied in every wall",
            kind_word(u->kind));
    BW_TEXT_IF(c, "layer", "id of the layer", true, u->layer);
    BW_TEXT_IF(c, "unit", "unit of its values; none of a switch", true,
               u->unit);
    BW_NUMBER_IF(c, "as_drawn", "as unit", "as the file has it", is_number(u),
                 u->as_drawn);
    BW_NUMBER_IF(c, "low", "as unit", "lowest", is_number(u), u->low);
    BW_NUMBER_IF(c, "high", "as unit", "highest", is_number(u), u->high);
    BW_TEXT_IF(c, "verdict_as_drawn",
               "a verdict of the simulation, or what `would` be by the steady "
               "methods; none where they know nothing of it",
               u->seen, verdict_word(c, u->verdict_as_drawn));
    BW_TEXT_IF(c, "verdict_low", "at its lowest", u->seen,
               verdict_word(c, u->verdict_low));
    BW_TEXT_IF(c, "verdict_high", "at its highest", u->seen,
               verdict_word(c, u->verdict_high));
}

static void flip_columns(bw_cells *c, const bw_unknown *u)
{
    BW_TEXT_IF(c, "flips", "`yes`: a criterion changes within the range",
               u->seen, bw_yes_no(u->flips));
    BW_TEXT_IF(c, "flip", "`fails` or `stops failing`, away from as drawn",
               u->flips, u->flip_fails ? "fails" : "stops failing");
    BW_TEXT_IF(c, "flip_criterion", "which criterion, in which section", true,
               u->flip_criterion);
    BW_NUMBER_IF(c, "flip_value", "as unit", "where it does", is_found(u),
                 u->flip_value);
    BW_NUMBER_IF(c, "flip_half_width", "as unit",
                 "uncertainty of that, plus or minus", is_found(u),
                 u->flip_bracket);
    BW_NUMBER_IF(c, "flip_share", "-",
                 "part of the range between as drawn and there", u->flips,
                 u->flip_share);
    BW_TEXT_IF(c, "flip_changes_verdict",
               "`yes`: the wall goes from failing to not, or back", u->flips,
               bw_yes_no(u->flip_changes_verdict));
    BW_TEXT_IF(c, "monotone", "`yes`: what decides moved one way", u->seen,
               bw_yes_no(u->monotone));
    BW_TEXT_IF(c, "swing_criterion", "the criterion that moves most", true,
               u->swing_criterion);
    BW_NUMBER_IF(c, "swing", "-",
                 "its change over the range, in shares of its limit", u->seen,
                 u->swing);
    BW_NUMBER_IF(c, "worst_relative_margin", "-",
                 "lowest margin over the range, in shares of the limit",
                 u->seen, u->worst_margin);
    BW_TEXT_IF(c, "note", "what must be known of it", true, u->note);
    BW_TEXT_IF(c, "method", "`simulation` or `steady`", u->seen,
               c->results->margin->transient ? "simulation" : "steady");
}

static bool has_end(const bw_unknown *u, const bw_figure *figure)
{
    return u->seen && bw_has_figure(figure);
}

static void end_columns(bw_cells *c, const bw_unknown *u)
{
    const bool low = u != NULL && has_end(u, &u->figure_low);
    const bool high = u != NULL && has_end(u, &u->figure_high);
    BW_FIGURE(c, "_low", "the criterion that decides at the lowest", low, low,
              u->figure_low);
    BW_FIGURE(c, "_high", "the criterion that decides at the highest", high,
              high, u->figure_high);
}

static void unknown_columns(bw_cells *c, const void *row)
{
    const bw_unknown *u = row;
    bw_assembly_column(c);
    BW_NUMBER(c, "rank", "-", "1: the one that moves a criterion most",
              (double)(u - c->results->margin->unknown) + 1.0);
    range_columns(c, u);
    flip_columns(c, u);
    end_columns(c, u);
}

static void unknown_rows(bw_cells *c)
{
    const bw_margin *margin = begin(c);
    for (size_t i = 0; i < margin->unknown_count; i++)
        bw_row(c, &margin->unknown[i]);
}

const bw_table_facts bw_table_margin = {
    "margin.csv", "An unknown, varied alone (`margin`, `audit`).",
    unknown_columns, unknown_rows, BW_BY_RESULTS};

/* ---- margin-samples.csv -------------------------------------------------- */

typedef struct sample_row {
    const bw_unknown *u;
    size_t k;
} sample_row;

static void sample_columns(bw_cells *c, const void *row)
{
    const sample_row *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "unknown", "what is varied", r->u->name);
    BW_TEXT_IF(c, "unit", "unit of the value", true, r->u->unit);
    BW_NUMBER(c, "value", "as unit", "the value", r->u->sample[r->k]);
    BW_TEXT(c, "verdict", "as in `margin.csv`",
            verdict_word(c, r->u->sample_verdict[r->k]));
    BW_TEXT_IF(c, "criterion", "the criterion that moves most", true,
               r->u->swing_criterion);
    BW_NUMBER_IF(c, "relative_margin", "-",
                 "its margin, in shares of the limit", true,
                 r->u->sample_margin[r->k]);
}

static void sample_rows(bw_cells *c)
{
    const bw_margin *margin = begin(c);
    for (size_t i = 0; i < margin->unknown_count; i++)
        for (size_t k = 0; k < margin->unknown[i].sample_count; k++)
            bw_row(c, &(sample_row){&margin->unknown[i], k});
}

const bw_table_facts bw_table_margin_samples = {
    "margin-samples.csv",
    "A value of an unknown that was computed (`margin`, `audit`).",
    sample_columns, sample_rows, BW_BY_RESULTS};

/* ---- sd-map.csv ---------------------------------------------------------- */

typedef struct map_row {
    const bw_margin *margin;
    double inner, outer;
    const bw_sd_cell *cell;
} map_row;

static void map_columns(bw_cells *c, const void *row)
{
    const map_row *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "section", "name of the section", r->margin->map_section);
    BW_TEXT(c, "inner_layer", "what is replaced inside", r->margin->map_inner);
    BW_TEXT(c, "outer_layer", "what is replaced outside", r->margin->map_outer);
    BW_NUMBER(c, "inner_sd_m", "m", "its sd inside", r->inner);
    BW_NUMBER(c, "outer_sd_m", "m", "its sd outside", r->outer);
    BW_NUMBER_IF(c, "condensed_kg_m2", "kg/m2",
                 "water that condenses by the period method; none: more than "
                 "it assesses",
                 true, r->cell->condensed);
    BW_NUMBER_IF(c, "evaporable_kg_m2", "kg/m2",
                 "water that could dry in the warm period", true,
                 r->cell->evaporable);
    BW_NUMBER_IF(c, "reserve_kg_m2", "kg/m2", "evaporable less condensed", true,
                 r->cell->reserve);
}

static void map_rows(bw_cells *c)
{
    const bw_margin *margin = begin(c);
    for (size_t o = 0; o < margin->outer_count; o++)
        for (size_t i = 0; i < margin->inner_count; i++)
            bw_row(c,
                   &(map_row){margin, margin->inner_sd[i], margin->outer_sd[o],
                              &margin->map[o * margin->inner_count + i]});
}

const bw_table_facts bw_table_sd_map = {
    "sd-map.csv",
    "A pair of sd of the layers inside and outside of the insulation "
    "(`margin`, `audit`).",
    map_columns, map_rows, BW_BY_RESULTS};

/* ---- margin-cases.csv ---------------------------------------------------- */

static bool shows_figure(const bw_simulated *r)
{
    return r->simulated && bw_has_figure(&r->figure);
}

static void case_columns(bw_cells *c, const void *row)
{
    const bw_simulated *r = row;
    bw_assembly_column(c);
    BW_TEXT_IF(c, "unknown", "what is varied; none: as drawn, or all at once",
               true, r->unknown);
    BW_TEXT(c, "setting", "how, in words", r->setting);
    BW_TEXT(c, "method", "`simulation`, or `steady` where it gave no result",
            r->simulated ? "simulation" : "steady");
    BW_TEXT(c, "verdict", "as `check` gives it",
            r->simulated ? bw_verdict_text(r->verdict) : "not assessed");
    BW_NUMBER_IF(c, "fails", "-", "criteria that fail", r->simulated,
                 (double)r->fails);
    BW_FIGURE(c, "", "the criterion that decides", shows_figure(r),
              shows_figure(r), r->figure);
    BW_NUMBER_IF(c, "relative_margin", "-",
                 "its margin, in shares of the limit", r->simulated,
                 r->figure.margin);
    BW_NUMBER_IF(c, "relative_margin_of_first_criterion", "-",
                 "the same of the criterion that decides as drawn",
                 r->simulated, r->margin_as_drawn);
}

static void case_rows(bw_cells *c)
{
    const bw_margin *margin = begin(c);
    for (size_t i = 0; i < margin->simulated_count; i++)
        bw_row(c, &margin->simulated[i]);
}

const bw_table_facts bw_table_margin_cases = {
    "margin-cases.csv",
    "A case that was simulated: the wall as drawn, an unknown at one of "
    "its ends, all at their worst (`margin`).",
    case_columns, case_rows, BW_BY_RESULTS};

/* ---- margin-summary.csv -------------------------------------------------- */

typedef struct summary_row {
    const char *what;
    double cases, holds, fails, share; /* NAN: none */
    const char *verdict, *reason, *note;
} summary_row;

static void summary_columns(bw_cells *c, const void *row)
{
    const summary_row *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "what", "`worst-combination`, `dampest-room` or `ensemble`",
            r->what);
    BW_NUMBER_IF(c, "cases", "-", "cases that were computed", true, r->cases);
    BW_NUMBER_IF(c, "holds", "-",
                 "of the ensemble, how many have no failing criterion; of the "
                 "room, the highest humidity (`note`) at which the wall does "
                 "not fail",
                 true, r->holds);
    BW_NUMBER_IF(c, "fails", "-",
                 "of the ensemble, how many have one; of the room, the next "
                 "humidity above; of the combination, criteria that fail",
                 true, r->fails);
    BW_NUMBER_IF(c, "share", "-", "of the ensemble, holds in cases", true,
                 r->share);
    BW_TEXT_IF(c, "verdict",
               "of the combination; of the room, at the humidity above", true,
               r->verdict);
    BW_TEXT_IF(c, "reason", "what fails, or is closest", true, r->reason);
    BW_TEXT_IF(c, "note",
               "the settings; what the humidity is and by what; the standard "
               "error of the share",
               true, r->note);
}

/* The dampest room: cases, the level, what it is in. */
static void damp_row(bw_cells *c, const bw_damp_limit *d)
{
    const bool ends = d->beyond <= d->most;
    if (d->most <= d->least)
        return;
    bw_row(c, &(summary_row){
                  "dampest-room", (double)d->cases,
                  d->holds >= d->least ? (double)d->holds : (double)NAN,
                  ends ? (double)d->beyond : (double)NAN, (double)NAN,
                  !ends          ? ""
                  : d->simulated ? bw_verdict_text(d->verdict_beyond)
                                 : "would not hold",
                  ends ? d->figure.criterion : "",
                  bw_phrase(&c->page, "%s %s",
                            d->by_class ? "humidity class" : "% RH",
                            d->simulated ? "by simulation" : "screened")});
}

static void summary_rows(bw_cells *c)
{
    const double none = (double)NAN;
    const bw_margin *m = begin(c);
    bw_row(c, &(summary_row){"worst-combination", none, none,
                             (double)m->worst_combination_fails, none,
                             verdict_word(c, m->worst_combination),
                             m->worst_combination_reason,
                             m->worst_combination_text});
    damp_row(c, &m->damp);
    if (m->ensemble_count == 0)
        return;
    const char *error = BW_NUMBER_G(m->ensemble_error, 9);
    bw_row(c, &(summary_row){"ensemble", (double)m->ensemble_count,
                             (double)m->ensemble_holds,
                             (double)(m->ensemble_count - m->ensemble_holds),
                             m->ensemble_share, "", "",
                             bw_phrase(&c->page, "standard error %s", error)});
}

const bw_table_facts bw_table_margin_summary = {
    "margin-summary.csv",
    "The worst combination of all unknowns, the dampest room, the "
    "ensemble (`margin`, `audit`).",
    summary_columns, summary_rows, BW_BY_RESULTS};
