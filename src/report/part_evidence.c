/* Of the reviewer's sheet: what decides and is only assumed, air tests,
 * readings of moisture. */

#include <string.h>

#include "bothways/audit.h"
#include "evidence.h"
#include "grid.h"
#include "part.h"
#include "text.h"
#include "unknown.h"

/* ---- sensitivity -------------------------------------------------------- */

static const char *known_words(const bw_audit_unknown *u)
{
    if (u->unknown->kind == BW_UNKNOWN_LIBRARY)
        return "not shown";
    if (u->unknown->kind == BW_UNKNOWN_STANDARD)
        return u->assumed ? "assumed" : "standard case";
    return u->assumed ? "assumed" : "unsure";
}

static const char *flip_words(bw_page *page, const bw_unknown *u)
{
    if (!u->seen)
        return "not seen by the methods used";
    if (!u->flips)
        return "nothing";
    return bw_phrase(page, "%s %s%s", u->flip_criterion,
                     u->flip_fails ? "fails" : "no longer fails",
                     u->flip_changes_verdict ? ", and the verdict" : "");
}

static void add_unknown(bw_page *page, bw_grid *g, const bw_audit_unknown *line)
{
    const bw_unknown *u = line->unknown;
    const bool flips = u->seen && u->flips;
    bw_grid_row_start(g);
    bw_words(g, "Input", u->name);
    bw_name(g, "Known", known_words(line));
    bw_range_cells(page, g, u);
    if (flips && (u->flips_all || u->unit[0] == '\0'))
        bw_number(g, "Flips at", "%s", u->flips_all ? "any value" : "on");
    else
        bw_number(g, "Flips at", "%.4g", bw_if(flips, u->flip_value));
    bw_words(g, "What flips", flip_words(page, u));
    if (line->assumed && line->decides)
        bw_remark(g, "The verdict rests on this, and nobody has looked.");
    if (u->note[0] != '\0')
        bw_remark(g, "Note: %s.", u->note);
}

BW_PART(sensitivity, "Sensitivity, what decides and is only assumed first")
{
    const bw_audit *audit = of->audit;
    const bw_margin *m = audit->margin;
    bw_grid grid = {.page = page};
    if (m == NULL) {
        bw_text(page, "Not computed.");
        return;
    }
    bw_text(page, "Each input alone over its range, with the steady methods; "
                  "bothways margin shows more.");
    if (m->screening)
        bw_text(page, "The monthly method is outside its limits for this wall: "
                      "these flips are of the screening and prove nothing.");
    for (size_t i = 0; i < audit->unknown_count; i++)
        add_unknown(page, &grid, &audit->unknown[i]);
    bw_grid_print(&grid);
    bw_text(page, "Worst combination: %s. There %s.", m->worst_combination_text,
            bw_worst_words(page, m));
}

static const char *words_or_dash(const char *text)
{
    return text != NULL && text[0] != '\0' ? text : "-";
}

/* ---- air tests ---------------------------------------------------------- */

static void add_air_test(bw_page *page, bw_grid *g, const bw_air_test *test,
                         bool counts)
{
    bw_grid_row_start(g);
    bw_name(g, "Date", test->date);
    bw_name(g, "Stage", test->stage);
    bw_number(g, "q50 m3/(m2.h)", "%.3g", test->q50 * 3600.0);
    bw_name(g, "Leak search", test->leak_search ? "yes" : "no");
    bw_number(g, "Line", "%ld", test->line);
    bw_words(g, "", counts ? "counts" : "");
    bw_remark(g, "%s", bw_air_test_facts(page, test));
}

static void put_evidence(bw_page *page, const bw_closing_up *up)
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < up->evidence_count; i++) {
        const bw_evidence_item *e = &up->evidence[i];
        bw_grid_row_start(&g);
        bw_words(&g, "Evidence", e->kind);
        bw_words(&g, "Of", e->of);
        bw_words(&g, "Part of the wall", words_or_dash(e->part.text));
        bw_name(&g, "Date", words_or_dash(e->date));
        bw_words(&g, "Reference", e->ref[0] != '\0' ? e->ref : "no reference");
    }
    bw_blank(page);
    bw_grid_print(&g);
    for (size_t i = 0; i < up->wet_spell_count; i++)
        bw_item(page, "wet spell %s to %s%s%s", up->wet_spell[i].from,
                up->wet_spell[i].to,
                up->wet_spell[i].note[0] != '\0' ? ": " : "",
                up->wet_spell[i].note);
}

BW_PART(air_test, "Air tightness evidence")
{
    const bw_audit *audit = of->audit;
    const bw_closing_up *up = &audit->assessment->assembly->closing_up;
    bw_grid grid = {.page = page};
    bw_text(page, "%s: %s.",
            audit->air_test_evidenced ? "Evidenced" : "Not sufficient",
            audit->air_test_text);
    for (size_t i = 0; i < up->air_test_count; i++)
        add_air_test(page, &grid, &up->air_test[i],
                     &up->air_test[i] == audit->air_test);
    bw_grid_print(&grid);
    bw_text(page,
            "What counts is the latest test with the membrane exposed, the "
            "worst of its day; it must include a search for leaks and find no "
            "more than the "
            "calculation assumed.");
    if (up->evidence_count == 0)
        bw_text(page, "No photographs or other evidence listed.");
    put_evidence(page, up);
}

/* ---- readings ----------------------------------------------------------- */

static const char *when_text(bw_reading_when when)
{
    static const char *const words[] = {[BW_READ_NO_TEST] = "there is none",
                                        [BW_READ_BEFORE_TEST] = "before it",
                                        [BW_READ_SAME_DAY] = "same day",
                                        [BW_READ_AFTER_TEST] = "after it"};
    return BW_WORD(words, when, "there is none");
}

static void put_log(bw_page *page, const bw_audit *audit)
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        bw_grid_row_start(&g);
        bw_name(&g, "Date", e->reading->date);
        bw_words(&g, "Member", e->reading->member);
        bw_words(&g, "Place", e->reading->place);
        bw_number(&g, "Depth mm", "%.3g",
                  bw_if(e->reading->depth > 0.0, e->reading->depth * 1e3));
        bw_number(&g, "Moisture %", "%.3g", 100.0 * e->reading->moisture);
        bw_words(&g, "By itself", bw_reading_decision_text(e->decision));
        bw_words(&g, "Interim test", when_text(e->when));
        bw_name(&g, "Counts", e->counts ? "yes" : "earlier");
        bw_remark(&g, "%s", bw_reading_facts(page, e->reading));
    }
    bw_grid_print(&g);
    bw_text(page,
            "\"earlier\": the same place was read again later, as deep or "
            "deeper; the latest reading counts and the earlier one stays "
            "in the log.");
}

/* Dry again does not mean undamaged. */
static void say_once_wet(bw_page *page, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (!e->counts && e->decision == BW_READING_INSPECT)
            bw_item(page,
                    "%s, %s was above critical on %s: see for yourself that "
                    "damage was looked for; this sheet cannot",
                    e->reading->member, e->reading->place, e->reading->date);
    }
}

/* Where its limits are from, and what shows it. */
static void remark_member(bw_page *page, bw_grid *g, const bw_assembly *a,
                          const char *member)
{
    const bw_closing_up *up = &a->closing_up;
    const char *photographs = bw_photographs_of(page, a, member);
    for (size_t i = 0; i < up->limit_count; i++) {
        const bw_moisture_limit *limit = &up->limit[i];
        if (strcmp(limit->member, member) != 0)
            continue;
        if (limit->part.layer >= 0)
            bw_remark(g, "Part of the wall: %s.", limit->part.text);
        bw_remark(g, "%s%s", limit->source[0] != '\0' ? "Limits: " : "",
                  limit->source);
    }
    bw_remark(g, "%s%s", photographs[0] != '\0' ? "Photographs: " : "",
              photographs);
}

static void put_members(bw_page *page, const bw_audit *audit)
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        const bool read = d->reading_count > 0, limited = d->has_limit;
        bw_grid_row_start(&g);
        bw_words(&g, "Member", d->member);
        bw_number(&g, "Readings", "%zu", d->reading_count);
        bw_number(&g, "Highest %", "%.3g", bw_if(read, 100.0 * d->highest));
        bw_number(&g, "Allowed %", "%.3g", bw_if(limited, 100.0 * d->allowed));
        bw_number(&g, "Critical %", "%.3g",
                  bw_if(limited, 100.0 * d->critical));
        bw_number(&g, "Within %", "%.0f",
                  bw_if(read && limited, 100.0 * d->share_within));
        bw_name(&g, "90 % rule",
                !read || !limited     ? "-"
                : d->statistical_rule ? "met"
                                      : "not met");
        bw_words(&g, "Decision", bw_reading_decision_text(d->decision));
        remark_member(page, &g, audit->assessment->assembly, d->member);
    }
    bw_blank(page);
    bw_grid_print(&g);
}

/* ---- over time ---------------------------------------------------------- */

enum { BAR = 31 }; /* 0 to 30 %, a sign a point */

static size_t column_of(double moisture)
{
    const double at = 100.0 * moisture + 0.5;
    return at < (double)(BAR - 1) ? (size_t)at : BAR - 1;
}

/* The least to the most of a day; a: allowed, c: critical. */
static const char *day_bar(bw_page *page, const bw_member_decision *d,
                           double low, double high)
{
    char bar[BAR + 1];
    memset(bar, '.', BAR);
    bar[BAR] = '\0';
    if (d->has_limit) {
        bar[column_of(d->allowed)] = 'a';
        bar[column_of(d->critical)] = 'c';
    }
    for (size_t i = column_of(low); i <= column_of(high); i++)
        bar[i] = '#';
    return bw_phrase(page, "%s", bar);
}

/* One row, of the day of reading `first`; nothing if an earlier reading of the
 * member was of that day. */
static void add_day(bw_page *page, bw_grid *g, const bw_audit *audit,
                    const bw_member_decision *d, size_t first)
{
    const bw_reading *r = audit->reading[first].reading;
    double low = r->moisture, high = low;
    size_t count = 0;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading *other = audit->reading[i].reading;
        if (strcmp(other->member, r->member) != 0 ||
            strcmp(other->date, r->date) != 0)
            continue;
        if (i < first)
            return;
        const double moisture = other->moisture;
        low = moisture < low ? moisture : low;
        high = moisture > high ? moisture : high;
        count++;
    }
    bw_grid_row_start(g);
    bw_words(g, "Member", d->member);
    bw_name(g, "Date", r->date);
    bw_number(g, "Readings", "%zu", count);
    bw_number(g, "Lowest %", "%.3g", 100.0 * low);
    bw_number(g, "Highest %", "%.3g", 100.0 * high);
    bw_words(g, "Interim test", when_text(audit->reading[first].when));
    bw_bar(g, "Drawn", day_bar(page, d, low, high));
}

static void put_days(bw_page *page, const bw_audit *audit)
{
    bw_grid g = {.page = page};
    g.bars = "Bar: a sign a point from nought on; # from the lowest to the "
             "highest of the day, a: allowed, c: critical.";
    for (size_t k = 0; k < audit->member_count; k++)
        for (size_t i = 0; i < audit->reading_count; i++)
            if (strcmp(audit->reading[i].reading->member,
                       audit->member[k].member) == 0)
                add_day(page, &g, audit, &audit->member[k], i);
    if (g.first == NULL)
        return;
    bw_subheading(page, "Day by day");
    bw_grid_print(&g);
}

BW_PART(readings, "Moisture readings")
{
    const bw_audit *audit = of->audit;
    if (audit->member_count == 0) {
        bw_text(page, "Not evidenced: no limit and no reading.");
        return;
    }
    if (audit->reading_count > 0)
        put_log(page, audit);
    say_once_wet(page, audit);
    put_members(page, audit);
    bw_text(page, "At or below allowed: accept. Up to critical: dry and read "
                  "again. Above: inspect for damage, remedy, read again (after "
                  "Svenskt Trae 10.3.2 [S]). The 90 %% rule (90 %% of the "
                  "readings within allowed, the rest within 2 points more, "
                  "after AS 2589 [S]) is shown beside and releases nothing.");
    put_days(page, audit);
}
