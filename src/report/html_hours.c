/* The simulation's last year: humidity as a band from the least to the most
 * of each day, mould index, moisture of wood. Without hours kept, the monthly
 * means stand for the days. */

#include <math.h>
#include <string.h>

#include "html.h"
#include "html_plot.h"
#include "names.h"

/* With more places than this a column holds two days, so that the page stays
 * small. */
enum { DAYS = 365, HOURS = 8760, MOULD_LINES = 8, MANY_PLACES = 16 };

static const double LABEL = 11.0; /* from one label of a line to the next */

typedef struct days {
    size_t each; /* days a column */
    size_t count;
    double hour[HOURS];
    double x[DAYS], low[DAYS], high[DAYS], mean[DAYS];
} days;

static bool has_hours(const bw_transient_result *run)
{
    return run->hour != NULL && run->hour_count >= DAYS;
}

static int first_month(const bw_transient_result *run)
{
    return has_hours(run) && run->first_month >= 0 ? run->first_month % 12 : 0;
}

/* Months are not equally long; the axis is by months, so days are placed by
 * the seconds of theirs. */
static double month_place(int first, double share_of_year)
{
    double year = 0.0;
    for (int m = 0; m < BW_MONTHS; m++)
        year += bw_month_seconds(m);
    double left = share_of_year * year;
    for (int k = 0; k < BW_MONTHS; k++) {
        double length = bw_month_seconds((first + k) % BW_MONTHS);
        if (left <= length)
            return k + left / length;
        left -= length;
    }
    return BW_MONTHS;
}

static void place_days(days *out, int first)
{
    out->count = DAYS / out->each;
    double count = (double)out->count;
    for (size_t i = 0; i < out->count; i++)
        out->x[i] = month_place(first, ((double)i + 0.5) / count);
}

typedef enum field { HUMIDITY, MOULD } field;

static void fill_days(days *out, const bw_transient_result *run, size_t monitor,
                      field which)
{
    size_t count = run->hour_count < HOURS ? run->hour_count : HOURS;
    for (size_t h = 0; h < count; h++) {
        const bw_hour_row *row = &run->hour[h * run->monitor_count + monitor];
        out->hour[h] = which == HUMIDITY ? row->phi : row->mould;
    }
    bw_columns_of(out->hour, 1, count, out->count, out->low, out->high,
                  out->mean);
}

/* ---- humidity ---------------------------------------------------------- */

static void month_steps(const bw_transient_result *run, size_t monitor,
                        days *out)
{
    out->count = 2 * (size_t)BW_MONTHS;
    for (size_t m = 0; m < BW_MONTHS; m++) {
        out->x[2 * m] = (double)m;
        out->x[2 * m + 1] = (double)m + 1.0;
        out->mean[2 * m] = out->mean[2 * m + 1] =
            run->monitor[monitor].month_rh[m];
    }
}

static void percent(double *value, size_t count)
{
    for (size_t i = 0; i < count; i++)
        value[i] *= 100.0;
}

static const char *capital(bw_page *page, const char *text)
{
    bool lower = text[0] >= 'a' && text[0] <= 'z';
    return lower ? bw_phrase(page, "%c%s", text[0] - 'a' + 'A', text + 1)
                 : text;
}

static void draw_humidity(bw_html *html, const bw_section_assessment *s,
                          size_t monitor, days *d)
{
    bw_page *page = &html->page;
    const bw_transient_result *run = &s->transient;
    const bw_monitor *m = &run->monitor[monitor];
    bool hours = has_hours(run);
    double most = 0.0, least = 1.0;
    if (hours) {
        fill_days(d, run, monitor, HUMIDITY);
        for (size_t i = 0; i < d->count; i++) {
            most = fmax(most, d->high[i]);
            least = fmin(least, d->low[i]);
        }
        percent(d->low, d->count);
        percent(d->high, d->count);
    } else {
        month_steps(run, monitor, d);
        for (size_t i = 0; i < d->count; i++) {
            most = fmax(most, d->mean[i]);
            least = fmin(least, d->mean[i]);
        }
    }
    percent(d->mean, d->count);
    const char *place = bw_monitor_text(page, run, monitor);
    bw_chart c;
    bw_html_figure(html, "humidity", s->section->name, "transient");
    bw_tag_set(&html->out, "data-position", place);
    bw_tag_set_number(&html->out, "data-lowest", 100.0 * least, 9);
    bw_tag_set_number(&html->out, "data-highest", 100.0 * most, 9);
    bw_chart_start(&c, &html->out, 360, 128,
                   bw_phrase(page, "Relative humidity, %s", place),
                   bw_phrase(page,
                             "Over the last simulated year, between %s and %s "
                             "percent; %s hours over 80 percent.",
                             bw_fixed(page, 100.0 * least, 0),
                             bw_fixed(page, 100.0 * most, 0),
                             bw_fixed(page, m->hours_above_80, 0)));
    double low = fmin(60.0, 20.0 * floor(5.0 * least));
    bw_chart_box(&c, 38.0, 20.0, 352.0, 108.0);
    bw_chart_range_x(&c, 0.0, BW_MONTHS);
    bw_chart_range_y(&c, low, 100.0);
    bw_ticks y = bw_ticks_make(low, 100.0, 5);
    bw_chart_axis_y(&c, &y, "RH %");
    bw_chart_rules_y(&c, &y);
    bw_month_axis(&c, first_month(run));
    if (hours)
        bw_chart_band(&c, "band", d->x, d->low, d->high, d->count);
    bw_chart_line(&c, "mean", d->x, d->mean, d->count);
    bw_chart_stroke(&c, "limit", c.left, bw_chart_y(&c, 80.0), c.right,
                    bw_chart_y(&c, 80.0));
    bw_chart_end(&c);
    bw_html_figure_end(html, capital(page, place));
}

/* ---- mould ------------------------------------------------------------- */

/* The monitors with the highest index, in falling order; returns how many
 * have any to show. */
static size_t mouldiest(const bw_transient_result *run,
                        size_t order[MOULD_LINES])
{
    size_t count = 0;
    for (size_t i = 0; i < run->monitor_count; i++) {
        double own = run->monitor[i].highest_mould;
        if (own < 0.05)
            continue;
        size_t at = count < MOULD_LINES ? count++ : MOULD_LINES;
        for (; at > 0 && run->monitor[order[at - 1]].highest_mould < own; at--)
            if (at < MOULD_LINES)
                order[at] = order[at - 1];
        if (at < MOULD_LINES)
            order[at] = i;
    }
    return count;
}

static void draw_mould(bw_html *html, const bw_section_assessment *s, days *d)
{
    bw_page *page = &html->page;
    const bw_transient_result *run = &s->transient;
    size_t order[MOULD_LINES] = {0};
    size_t count = mouldiest(run, order);
    double end[MOULD_LINES] = {0}, peak[MOULD_LINES] = {0}, top = 1.0;
    if (count == 0) {
        bw_page_text(page, 2, 2,
                     "The mould index stays below 0.05 everywhere: not drawn.");
        return;
    }
    for (size_t i = 0; i < count; i++) {
        fill_days(d, run, order[i], MOULD);
        for (size_t k = 0; k < d->count; k++)
            peak[i] = fmax(peak[i], d->high[k]);
        top = fmax(top, peak[i]);
    }
    double zero = 0.0;
    bw_round_range(&zero, &top, 4);
    bw_chart c;
    bw_html_figure(html, "mould", s->section->name, "transient");
    bw_tag_set_numbers(&html->out, "data-highest", peak, count);
    bw_chart_start(&c, &html->out, 360, 200, "Mould index",
                   bw_phrase(page,
                             "Over the last simulated year on a scale from 0 "
                             "to 6; highest %s, %s.",
                             bw_fixed(page, peak[0], 2),
                             bw_monitor_text(page, run, order[0])));
    bw_chart_box(&c, 38.0, 20.0, 336.0, 176.0);
    bw_chart_range_x(&c, 0.0, BW_MONTHS);
    bw_chart_range_y(&c, 0.0, top);
    bw_ticks y = bw_ticks_make(0.0, top, 4);
    bw_chart_axis_y(&c, &y, "index");
    bw_chart_rules_y(&c, &y);
    bw_month_axis(&c, first_month(run));
    for (size_t i = 0; i < count; i++) {
        fill_days(d, run, order[i], MOULD);
        bw_chart_line(&c,
                      i % 3 == 0   ? "main"
                      : i % 3 == 1 ? "wetdash"
                                   : "dots",
                      d->x, d->mean, d->count);
        end[i] = bw_chart_y(&c, d->mean[d->count - 1]);
    }
    /* Labels want rising places, inside of the drawing: y grows downwards, the
     * highest index first. */
    for (size_t i = 1; i < count; i++)
        end[i] = fmax(end[i], end[i - 1] + LABEL);
    end[count - 1] = fmin(end[count - 1], c.bottom);
    for (size_t i = count - 1; i-- > 0;)
        end[i] = fmin(end[i], end[i + 1] - LABEL);
    for (size_t i = 0; i < count; i++)
        bw_chart_text(&c, "num", c.right + 5.0, end[i] + 3.5, BW_START,
                      bw_phrase(page, "%c", (char)('a' + (int)i)));
    bw_chart_end(&c);
    const char *caption = bw_phrase(
        page, "%s: mould index. ",
        bw_html_section_name(html, s->section->name));
    for (size_t i = 0; i < count; i++)
        caption = bw_phrase(page, "%s%s%c %s", caption, i > 0 ? "; " : "",
                            (char)('a' + (int)i),
                            bw_monitor_text(page, run, order[i]));
    bw_html_figure_end(html, bw_phrase(page, "%s.", caption));
}

/* ---- wood -------------------------------------------------------------- */

static bool wood_content(const bw_section_assessment *s, size_t slab,
                         double out[BW_MONTHS])
{
    const bw_slab *layer = &s->transient_section->slab[slab];
    const bw_slab_moisture *moisture = &s->transient.slab[slab];
    double mass = layer->material->density.value * layer->thickness;
    if (!moisture->is_wood || !layer->material->density.known || !(mass > 0.0))
        return false;
    for (int m = 0; m < BW_MONTHS; m++)
        out[m] = 100.0 * moisture->month_mean[m] / mass;
    return true;
}

/* As it is judged by, which a rule set may have tightened. */
static double wood_limit(const bw_assessment *assessment,
                         const bw_section_assessment *s, bool panel)
{
    const char *name = panel ? "panel-moisture" : "wood-moisture";
    for (size_t i = 0; i < assessment->criterion_count; i++) {
        const bw_criterion *c = &assessment->criterion[i];
        if (c->has_limit && strcmp(c->criterion, name) == 0 &&
            strcmp(c->section, s->section->name) == 0)
            return c->limit;
    }
    return panel ? 18.0 : 20.0;
}

static void draw_wood(bw_html *html, const bw_assessment *assessment,
                      const bw_section_assessment *s, size_t slab)
{
    bw_page *page = &html->page;
    double content[BW_MONTHS], high = 25.0, low = 0.0;
    if (!wood_content(s, slab, content))
        return;
    const bw_slab *layer = &s->transient_section->slab[slab];
    bool panel = layer->material->wood_kind != BW_SOLID_WOOD;
    double limit = wood_limit(assessment, s, panel);
    int first = first_month(&s->transient);
    double x[2 * BW_MONTHS], y[2 * BW_MONTHS];
    for (size_t k = 0; k < BW_MONTHS; k++) {
        x[2 * k] = (double)k;
        x[2 * k + 1] = (double)k + 1.0;
        y[2 * k] = y[2 * k + 1] = content[((size_t)first + k) % BW_MONTHS];
        high = fmax(high, content[k]);
    }
    bw_round_range(&low, &high, 5);
    bw_chart c;
    bw_html_figure(html, "wood", s->section->name, "transient");
    bw_tag_set_numbers(&html->out, "data-moisture", content, BW_MONTHS);
    bw_chart_start(&c, &html->out, 360, 128,
                   bw_phrase(page, "Moisture of %s", layer->label),
                   bw_phrase(page,
                             "Monthly means in percent by mass over the last "
                             "simulated year; the line is at %s percent.",
                             bw_significant(page, limit, 3)));
    bw_chart_box(&c, 38.0, 20.0, 352.0, 108.0);
    bw_chart_range_x(&c, 0.0, BW_MONTHS);
    bw_chart_range_y(&c, 0.0, high);
    bw_ticks ticks = bw_ticks_make(0.0, high, 4);
    bw_chart_axis_y(&c, &ticks, "% by mass");
    bw_chart_rules_y(&c, &ticks);
    bw_month_axis(&c, first);
    bw_chart_line(&c, "wet", x, y, sizeof x / sizeof x[0]);
    bw_chart_stroke(&c, "limit", c.left, bw_chart_y(&c, limit), c.right,
                    bw_chart_y(&c, limit));
    bw_chart_end(&c);
    bw_html_figure_end(
        html, bw_phrase(page, "%s, mean of the whole layer", layer->label));
}

static void draw_section(bw_html *html, const bw_assessment *assessment,
                         const bw_section_assessment *s, days *d)
{
    bw_page *page = &html->page;
    const bw_transient_result *run = &s->transient;
    const char *name = bw_html_section_name(html, s->section->name);
    if (run->monitor_count == 0)
        return;
    place_days(d, first_month(run));
    bw_page_subheading(page, name);
    bw_page_text(page, 2, 2,
                 has_hours(run)
                     ? bw_phrase(page,
                                 "The last simulated year. Band: from the "
                                 "least to the most of each %s; line in it: "
                                 "their mean; broken line: 80 %% relative "
                                 "humidity, or the limit of wood.",
                                 d->each == 1 ? "day" : "two days")
                     : "Monthly means of the last simulated year.");
    bw_html_plates(html, "plates");
    if (has_hours(run))
        draw_mould(html, s, d);
    for (size_t i = 0; i < run->slab_count; i++)
        if (s->transient_section != NULL &&
            i < s->transient_section->slab_count)
            draw_wood(html, assessment, s, i);
    for (size_t i = 0; i < run->monitor_count; i++)
        draw_humidity(html, s, i, d);
    bw_html_plates_end(html);
}

void bw_html_hours(bw_html *html, const bw_assessment *assessment)
{
    days *d = BW_NEW(&html->page.arena, days, 1);
    if (d == NULL) {
        html->page.no_memory = true;
        return;
    }
    size_t places = 0;
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient)
            places += assessment->section[i].transient.monitor_count;
    d->each = places > MANY_PLACES ? 2 : 1;
    if (places > 0)
        bw_page_heading(&html->page, "The simulated year, drawn");
    for (size_t i = 0; i < assessment->section_count; i++)
        if (assessment->section[i].has_transient)
            draw_section(html, assessment, &assessment->section[i], d);
}
