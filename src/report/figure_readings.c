/* Readings of moisture over time, a chart a member: allowed and critical as
 * lines across, the day of the interim air test as one upright. */

#include <math.h>
#include <string.h>

#include "bothways/audit.h"
#include "day.h"
#include "part.h"
#include "plot.h"

enum { WIDTH = 360, HEIGHT = 190, LEAST_DAYS = 7 };

typedef struct span {
    long first, last;
} span;

/* Of all that has a day, the same for every member. */
static span days_of(const bw_audit *audit)
{
    span s = {bw_day_of(audit->reading[0].reading->date), 0};
    s.last = s.first;
    for (size_t i = 0; i <= audit->reading_count; i++) {
        const bool test = i == audit->reading_count;
        if (test && audit->air_test == NULL)
            break;
        const long day = bw_day_of(test ? audit->air_test->date
                                        : audit->reading[i].reading->date);
        s.first = day < s.first ? day : s.first;
        s.last = day > s.last ? day : s.last;
    }
    if (s.last - s.first < LEAST_DAYS)
        s.last = s.first + LEAST_DAYS;
    return s;
}

static bool is_of(const bw_reading_entry *e, const bw_member_decision *d)
{
    return strcmp(e->reading->member, d->member) == 0;
}

static double most_of(const bw_audit *audit, const bw_member_decision *d)
{
    double most = d->has_limit ? d->critical : 0.0;
    for (size_t i = 0; i < audit->reading_count; i++)
        if (is_of(&audit->reading[i], d))
            most = fmax(most, audit->reading[i].reading->moisture);
    return 100.0 * most;
}

static void mark_readings(bw_chart *c, const bw_audit *audit,
                          const bw_member_decision *d)
{
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (is_of(e, d))
            bw_chart_mark(c, e->counts ? BW_SHAPE_DOT : BW_SHAPE_RING,
                          e->counts ? "ink" : "ring",
                          (double)bw_day_of(e->reading->date),
                          100.0 * e->reading->moisture);
    }
}

static void mark_days(bw_chart *c, const bw_audit *audit, span s)
{
    char first[BW_DAY_TEXT], last[BW_DAY_TEXT];
    bw_chart_stroke(c, "axis", c->left, c->bottom, c->right, c->bottom);
    bw_chart_text(c, "num", c->left, c->bottom + 13.0, BW_START,
                  bw_day_text(first, s.first));
    bw_chart_text(c, "num", c->right, c->bottom + 13.0, BW_END,
                  bw_day_text(last, s.last));
    if (audit->air_test == NULL)
        return;
    const double x = bw_chart_x(c, (double)bw_day_of(audit->air_test->date));
    const bool left = x < 0.5 * (c->left + c->right);
    bw_chart_stroke(c, "dash", x, c->top, x, c->bottom);
    bw_chart_text(c, "num halo", x + (left ? 4.0 : -4.0), c->top + 9.0,
                  left ? BW_START : BW_END, "air test");
}

static void draw_member(bw_page *page, const bw_audit *audit,
                        const bw_member_decision *d, span s)
{
    double low = 0.0, high = most_of(audit, d);
    bw_chart c;
    bw_round_range(&low, &high, 5);
    bw_figure_start(page, "readings", "", "");
    bw_figure_chart(page, &c, WIDTH, HEIGHT,
                    bw_phrase(page, "Moisture read of %s", d->member),
                    "Readings that count: %zu, the highest %.3g percent; "
                    "earlier ones: %zu.",
                    d->reading_count, 100.0 * d->highest, d->earlier_count);
    bw_chart_box(&c, 38.0, 20.0, 300.0, 170.0);
    bw_chart_range_x(&c, (double)s.first - 1.0, (double)s.last + 1.0);
    bw_upright_axis(&c, low, high, 5, "% by mass");
    if (d->has_limit) {
        bw_limit_line(&c, 100.0 * d->allowed,
                      bw_phrase(page, "allowed %.3g", 100.0 * d->allowed));
        bw_limit_line(&c, 100.0 * d->critical,
                      bw_phrase(page, "critical %.3g", 100.0 * d->critical));
    }
    mark_days(&c, audit, s);
    mark_readings(&c, audit, d);
    bw_chart_end(&c);
    bw_figure_end(page, "%s. Full: counts; ring: earlier.", d->member);
}

BW_DRAWN(readings_drawn, NULL)
{
    const bw_audit *audit = of->audit;
    if (audit->reading_count == 0)
        return;
    const span s = days_of(audit);
    bw_plates(page, "plates");
    for (size_t i = 0; i < audit->member_count; i++)
        if (audit->member[i].reading_count > 0)
            draw_member(page, audit, &audit->member[i], s);
    bw_plates_end(page);
}
