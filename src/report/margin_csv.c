/* The tables of a margin; rules as in csv.c. */

#include <math.h>

#include "bothways/margin.h"
#include "fail.h"
#include "page.h"

enum { DIGITS = 9 };

static void text_field(bw_page *page, const char *text)
{
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, text);
}

static void number_field(bw_page *page, double value)
{
    bw_write_text(&page->out, ",");
    bw_write_number(&page->out, value, DIGITS);
}

static void number_if(bw_page *page, bool known, double value)
{
    number_field(page, known ? value : (double)NAN);
}

/* A verdict is the simulation's; the steady methods say what would be. */
static const char *verdict_word(const bw_margin *margin, bw_verdict verdict)
{
    static const char *const would[] = {
        [BW_HOLDS] = "would hold",
        [BW_MARGINAL] = "would be marginal",
        [BW_FAILS] = "would fail",
        [BW_NOT_ASSESSED] = "not assessed",
    };
    return margin->transient ? bw_verdict_text(verdict) : would[verdict];
}

static void verdict_field(bw_page *page, const bw_margin *margin, bool known,
                          bw_verdict verdict)
{
    text_field(page, known ? verdict_word(margin, verdict) : "");
}

static void start_row(bw_page *page, const bw_margin *margin)
{
    bw_write_field(&page->out, margin->assessment->assembly->id);
}

static void end_row(bw_page *page)
{
    bw_write_text(&page->out, "\n");
}

static const char *kind_word(bw_unknown_kind kind)
{
    switch (kind) {
    case BW_UNKNOWN_RANGE:
        return "range";
    case BW_UNKNOWN_ALTERNATIVE:
        return "alternative";
    case BW_UNKNOWN_STANDARD:
        break;
    }
    return "standard";
}

static void figure_fields(bw_page *page, const bw_figure *f, bool known)
{
    known = known && f->criterion != NULL && f->criterion[0] != '\0';
    text_field(page, known ? f->criterion : "");
    number_if(page, known, f->value);
    number_if(page, known, f->limit);
    text_field(page, known ? f->unit : "");
}

static void unknown_row(bw_page *page, const bw_margin *margin,
                        const bw_unknown *u, size_t rank)
{
    start_row(page, margin);
    number_field(page, (double)rank);
    text_field(page, u->name);
    text_field(page, kind_word(u->kind));
    text_field(page, u->layer);
    text_field(page, u->unit);
    bool number = u->unit[0] != '\0';
    number_if(page, number, u->as_drawn);
    number_if(page, number, u->low);
    number_if(page, number, u->high);
    verdict_field(page, margin, u->seen, u->verdict_as_drawn);
    verdict_field(page, margin, u->seen, u->verdict_low);
    verdict_field(page, margin, u->seen, u->verdict_high);
    text_field(page, !u->seen ? "" : u->flips ? "yes" : "no");
    text_field(page, !u->flips       ? ""
                     : u->flip_fails ? "fails"
                                     : "stops failing");
    text_field(page, u->flip_criterion);
    bool found = u->flips && u->continuous && !u->flips_all;
    number_if(page, found, u->flip_value);
    number_if(page, found, u->flip_bracket);
    number_if(page, u->flips, u->flip_share);
    text_field(page, !u->flips ? "" : u->flip_changes_verdict ? "yes" : "no");
    text_field(page, !u->seen ? "" : u->monotone ? "yes" : "no");
    text_field(page, u->swing_criterion);
    number_if(page, u->seen, u->swing);
    number_if(page, u->seen, u->worst_margin);
    text_field(page, u->note);
    text_field(page, !u->seen            ? ""
                     : margin->transient ? "simulation"
                                         : "steady");
    figure_fields(page, &u->figure_low, u->seen);
    figure_fields(page, &u->figure_high, u->seen);
    end_row(page);
}

static void unknown_rows(bw_page *page, const bw_margin *margin)
{
    for (size_t i = 0; i < margin->unknown_count; i++)
        unknown_row(page, margin, &margin->unknown[i], i + 1);
}

static void sample_rows(bw_page *page, const bw_margin *margin)
{
    for (size_t i = 0; i < margin->unknown_count; i++) {
        const bw_unknown *u = &margin->unknown[i];
        for (size_t k = 0; k < u->sample_count; k++) {
            start_row(page, margin);
            text_field(page, u->name);
            text_field(page, u->unit);
            number_field(page, u->sample[k]);
            text_field(page, verdict_word(margin, u->sample_verdict[k]));
            text_field(page, u->swing_criterion);
            number_field(page, u->sample_margin[k]);
            end_row(page);
        }
    }
}

static void map_rows(bw_page *page, const bw_margin *margin)
{
    for (size_t o = 0; o < margin->outer_count; o++)
        for (size_t i = 0; i < margin->inner_count; i++) {
            const bw_sd_cell *c = &margin->map[o * margin->inner_count + i];
            start_row(page, margin);
            text_field(page, margin->map_section);
            text_field(page, margin->map_inner);
            text_field(page, margin->map_outer);
            number_field(page, margin->inner_sd[i]);
            number_field(page, margin->outer_sd[o]);
            number_field(page, c->condensed);
            number_field(page, c->evaporable);
            number_field(page, c->reserve);
            end_row(page);
        }
}

static void case_rows(bw_page *page, const bw_margin *margin)
{
    for (size_t i = 0; i < margin->simulated_count; i++) {
        const bw_simulated *s = &margin->simulated[i];
        start_row(page, margin);
        text_field(page, s->unknown);
        text_field(page, s->setting);
        text_field(page, s->simulated ? "simulation" : "steady");
        text_field(page,
                   s->simulated ? bw_verdict_text(s->verdict) : "not assessed");
        number_if(page, s->simulated, (double)s->fails);
        figure_fields(page, &s->figure, s->simulated);
        number_if(page, s->simulated, s->figure.margin);
        number_if(page, s->simulated, s->margin_as_drawn);
        end_row(page);
    }
}

/* The dampest room: cases, the level, what it is in. */
static void damp_row(bw_page *page, const bw_margin *margin)
{
    const bw_damp_limit *d = &margin->damp;
    if (d->most <= d->least)
        return;
    start_row(page, margin);
    text_field(page, "dampest-room");
    number_field(page, (double)d->cases);
    number_if(page, d->holds >= d->least, (double)d->holds);
    number_if(page, d->beyond <= d->most, (double)d->beyond);
    bw_write_text(&page->out, ",");
    text_field(page, d->beyond > d->most ? ""
                     : d->simulated      ? bw_verdict_text(d->verdict_beyond)
                                         : "would not hold");
    text_field(page, d->beyond > d->most ? "" : d->figure.criterion);
    bw_write_text(&page->out, d->by_class ? ",humidity class" : ",% RH");
    bw_write_text(&page->out, d->simulated ? " by simulation" : " screened");
    end_row(page);
}

static void summary_rows(bw_page *page, const bw_margin *margin)
{
    start_row(page, margin);
    text_field(page, "worst-combination");
    bw_write_text(&page->out, ",,");
    number_field(page, (double)margin->worst_combination_fails);
    bw_write_text(&page->out, ",");
    text_field(page, verdict_word(margin, margin->worst_combination));
    text_field(page, margin->worst_combination_reason);
    text_field(page, margin->worst_combination_text);
    end_row(page);
    damp_row(page, margin);
    if (margin->ensemble_count == 0)
        return;
    start_row(page, margin);
    text_field(page, "ensemble");
    number_field(page, (double)margin->ensemble_count);
    number_field(page, (double)margin->ensemble_holds);
    number_field(page,
                 (double)(margin->ensemble_count - margin->ensemble_holds));
    number_field(page, margin->ensemble_share);
    bw_write_text(&page->out, ",,");
    bw_write_text(&page->out, ",standard error ");
    bw_write_number(&page->out, margin->ensemble_error, DIGITS);
    end_row(page);
}

static const struct table {
    const char *file, *header;
    void (*rows)(bw_page *page, const bw_margin *margin);
} tables[BW_MARGIN_TABLE_COUNT] = {
    [BW_MARGIN_TABLE_UNKNOWNS] =
        {"margin.csv",
         "assembly,rank,unknown,kind,layer,unit,as_drawn,low,high,"
         "verdict_as_drawn,verdict_low,verdict_high,flips,flip,"
         "flip_criterion,flip_value,flip_half_width,flip_share,"
         "flip_changes_verdict,monotone,swing_criterion,swing,"
         "worst_relative_margin,note,method,criterion_low,value_low,limit_low,"
         "unit_low,criterion_high,value_high,limit_high,unit_high",
         unknown_rows},
    [BW_MARGIN_TABLE_SAMPLES] = {"margin-samples.csv",
                                 "assembly,unknown,unit,value,verdict,"
                                 "criterion,relative_margin",
                                 sample_rows},
    [BW_MARGIN_TABLE_SD_MAP] = {"sd-map.csv",
                                "assembly,section,inner_layer,outer_layer,"
                                "inner_sd_m,outer_sd_m,condensed_kg_m2,"
                                "evaporable_kg_m2,reserve_kg_m2",
                                map_rows},
    [BW_MARGIN_TABLE_SUMMARY] = {"margin-summary.csv",
                                 "assembly,what,cases,holds,fails,share,"
                                 "verdict,reason,note",
                                 summary_rows},
    [BW_MARGIN_TABLE_CASES] = {"margin-cases.csv",
                               "assembly,unknown,setting,method,verdict,fails,"
                               "criterion,value,limit,unit,relative_margin,"
                               "relative_margin_of_first_criterion",
                               case_rows},
};

const char *bw_margin_table_file(bw_margin_table table)
{
    size_t i = (size_t)table;
    return i < BW_MARGIN_TABLE_COUNT ? tables[i].file : "";
}

bw_status bw_report_margin_table(const bw_margin *margin, bw_margin_table table,
                                 bw_sink *sink, void *payload, bw_error *err)
{
    size_t i = (size_t)table;
    if (i >= BW_MARGIN_TABLE_COUNT)
        return bw_fail(err, BW_ERR_DOMAIN, NULL, 0, "there is no table %d",
                       (int)table);
    bw_page page = {.width = 100};
    bw_writer_start(&page.out, sink, payload);
    bw_write_text(&page.out, tables[i].header);
    bw_write_text(&page.out, "\n");
    tables[i].rows(&page, margin);
    return bw_page_finish(&page, tables[i].file, err);
}
