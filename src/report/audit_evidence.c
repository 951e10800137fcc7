/* Sensitivity, evidence, readings, hold point, signatures. */

#include <math.h>
#include <string.h>

#include "audit_parts.h"
#include "grid.h"
#include "study_parts.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static const char *percent(bw_page *page, double share)
{
    return bw_significant(page, 100.0 * share, 3);
}

/* ---- sensitivity -------------------------------------------------------- */

static const bw_grid_column unknown_columns[] = {
    {.title = "Input", .wraps = true},
    {.title = "Known"},
    {.title = "As drawn", .right = true},
    {.title = "From to"},
    {.title = "Unit"},
    {.title = "Flips at", .right = true},
    {.title = "What flips", .wraps = true},
};

static const char *known_words(const bw_audit_unknown *u)
{
    if (u->unknown->kind == BW_UNKNOWN_STANDARD)
        return u->assumed ? "assumed" : "standard case";
    return u->assumed ? "assumed" : "unsure";
}

static void add_unknown(bw_page *page, bw_grid *grid,
                        const bw_audit_unknown *line)
{
    const bw_unknown *u = line->unknown;
    bool number = u->unit[0] != '\0';
    const char **cell = bw_grid_add(grid);
    cell[0] = u->name;
    cell[1] = known_words(line);
    cell[2] = number && !isnan(u->as_drawn)
                  ? bw_significant(page, u->as_drawn, 4)
                  : "-";
    cell[3] = number
                  ? bw_phrase(page, "%s to %s", bw_significant(page, u->low, 4),
                              bw_significant(page, u->high, 4))
                  : "off / on";
    cell[4] = u->unit;
    if (!u->seen) {
        cell[5] = "-";
        cell[6] = "not seen by the methods used";
    } else if (!u->flips) {
        cell[5] = "-";
        cell[6] = "nothing";
    } else {
        cell[5] = u->flips_all ? "any value"
                  : number     ? bw_significant(page, u->flip_value, 4)
                               : "on";
        cell[6] = bw_phrase(page, "%s %s%s", u->flip_criterion,
                            u->flip_fails ? "fails" : "no longer fails",
                            u->flip_changes_verdict ? ", and the verdict" : "");
    }
    if (line->assumed && line->decides)
        bw_grid_note(grid, "The verdict rests on this, and nobody has looked.");
    if (u->note[0] != '\0')
        bw_grid_note(grid, bw_phrase(page, "Note: %s.", u->note));
}

void bw_print_audit_sensitivity(bw_page *page, const bw_audit *audit)
{
    const bw_margin *m = audit->margin;
    bw_page_heading(page,
                    "Sensitivity, what decides and is only assumed first");
    if (m == NULL) {
        bw_page_text(page, 2, 2, "Not computed.");
        return;
    }
    bw_page_text(page, 2, 2,
                 "Each input alone over its range, with the steady methods; "
                 "bothways margin shows more.");
    if (m->screening)
        bw_page_text(page, 2, 2,
                     "The monthly method is outside its limits for this wall: "
                     "these flips are of the screening and prove nothing.");
    bw_grid grid;
    bw_grid_start(&grid, page, unknown_columns, COUNT(unknown_columns));
    for (size_t i = 0; i < audit->unknown_count; i++)
        add_unknown(page, &grid, &audit->unknown[i]);
    bw_grid_print(&grid);
    bw_page_text(page, 2, 2,
                 bw_phrase(page, "Worst combination: %s. There %s.",
                           m->worst_combination_text, bw_worst_words(page, m)));
}

/* ---- air tests ---------------------------------------------------------- */

static const bw_grid_column test_columns[] = {
    {.title = "Date"},
    {.title = "Stage"},
    {.title = "q50 m3/(m2.h)", .right = true},
    {.title = "Leak search"},
    {.title = "Line", .right = true},
    {.title = "", .wraps = true},
};

void bw_print_audit_air_test(bw_page *page, const bw_audit *audit)
{
    const bw_closing_up *up = &audit->assessment->assembly->closing_up;
    bw_page_heading(page, "Air tightness evidence");
    bw_page_text(
        page, 2, 2,
        bw_phrase(page, "%s: %s.",
                  audit->air_test_evidenced ? "Evidenced" : "Not sufficient",
                  audit->air_test_text));
    if (up->air_test_count > 0) {
        bw_grid grid;
        bw_grid_start(&grid, page, test_columns, COUNT(test_columns));
        for (size_t i = 0; i < up->air_test_count; i++) {
            const bw_air_test *test = &up->air_test[i];
            const char **cell = bw_grid_add(&grid);
            cell[0] = test->date;
            cell[1] = test->stage;
            cell[2] = bw_significant(page, test->q50 * 3600.0, 3);
            cell[3] = test->leak_search ? "yes" : "no";
            cell[4] = bw_phrase(page, "%ld", test->line);
            cell[5] = test == audit->air_test ? "counts" : "";
        }
        bw_grid_print(&grid);
    }
    bw_page_text(page, 2, 2,
                 "What counts is the latest test with the membrane exposed; it "
                 "must include a search for leaks and find no more than the "
                 "calculation assumed.");
    if (up->evidence_count == 0)
        bw_page_text(page, 2, 2, "No photographs or other evidence listed.");
    for (size_t i = 0; i < up->evidence_count; i++)
        bw_page_item(page, bw_phrase(page, "%s of %s: %s", up->evidence[i].kind,
                                     up->evidence[i].of,
                                     up->evidence[i].ref[0] != '\0'
                                         ? up->evidence[i].ref
                                         : "no reference"));
}

/* ---- readings ----------------------------------------------------------- */

static const bw_grid_column reading_columns[] = {
    {.title = "Date"},
    {.title = "Member", .wraps = true},
    {.title = "Place", .wraps = true},
    {.title = "Depth mm", .right = true},
    {.title = "Moisture %", .right = true},
    {.title = "By itself", .wraps = true},
    {.title = "Interim test", .wraps = true},
    {.title = "Counts"},
};

const char *bw_reading_when_text(bw_reading_when when)
{
    switch (when) {
    case BW_READ_NO_TEST:
        break;
    case BW_READ_BEFORE_TEST:
        return "before it";
    case BW_READ_SAME_DAY:
        return "same day";
    case BW_READ_AFTER_TEST:
        return "after it";
    }
    return "there is none";
}

static void print_log(bw_page *page, const bw_audit *audit)
{
    bw_grid grid;
    bw_grid_start(&grid, page, reading_columns, COUNT(reading_columns));
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        const char **cell = bw_grid_add(&grid);
        cell[0] = e->reading->date;
        cell[1] = e->reading->member;
        cell[2] = e->reading->place;
        cell[3] = e->reading->depth > 0.0
                      ? bw_significant(page, e->reading->depth * 1e3, 3)
                      : "-";
        cell[4] = percent(page, e->reading->moisture);
        cell[5] = bw_reading_decision_text(e->decision);
        cell[6] = bw_reading_when_text(e->when);
        cell[7] = e->counts ? "yes" : "earlier";
    }
    bw_grid_print(&grid);
    bw_page_text(page, 2, 2,
                 "\"earlier\": the same place was read again later, as deep or "
                 "deeper; the latest reading counts and the earlier one stays "
                 "in the log.");
}

/* Dry again does not mean undamaged. */
static void print_once_wet(bw_page *page, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (!e->counts && e->decision == BW_READING_INSPECT)
            bw_page_item(page,
                         bw_phrase(page,
                                   "%s, %s was above critical on %s: see for "
                                   "yourself that damage was looked for; this "
                                   "sheet cannot",
                                   e->reading->member, e->reading->place,
                                   e->reading->date));
    }
}

static const bw_grid_column member_columns[] = {
    {.title = "Member", .wraps = true},
    {.title = "Readings", .right = true},
    {.title = "Highest %", .right = true},
    {.title = "Allowed %", .right = true},
    {.title = "Critical %", .right = true},
    {.title = "Within %", .right = true},
    {.title = "90 % rule"},
    {.title = "Decision", .wraps = true},
};

static void print_members(bw_page *page, const bw_audit *audit)
{
    bw_grid grid;
    bw_grid_start(&grid, page, member_columns, COUNT(member_columns));
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        bool read = d->reading_count > 0;
        const char **cell = bw_grid_add(&grid);
        cell[0] = d->member;
        cell[1] = bw_phrase(page, "%zu", d->reading_count);
        cell[2] = read ? percent(page, d->highest) : "-";
        cell[3] = d->has_limit ? percent(page, d->allowed) : "-";
        cell[4] = d->has_limit ? percent(page, d->critical) : "-";
        cell[5] = read && d->has_limit
                      ? bw_fixed(page, 100.0 * d->share_within, 0)
                      : "-";
        cell[6] = !read || !d->has_limit ? "-"
                  : d->statistical_rule  ? "met"
                                         : "not met";
        cell[7] = bw_reading_decision_text(d->decision);
    }
    bw_page_blank(page);
    bw_grid_print(&grid);
}

void bw_print_audit_readings(bw_page *page, const bw_audit *audit)
{
    bw_page_heading(page, "Moisture readings");
    if (audit->member_count == 0) {
        bw_page_text(page, 2, 2, "Not evidenced: no limit and no reading.");
        return;
    }
    if (audit->reading_count > 0)
        print_log(page, audit);
    print_once_wet(page, audit);
    print_members(page, audit);
    bw_page_text(page, 2, 2,
                 "At or below allowed: accept. Up to critical: dry and read "
                 "again. Above: inspect for damage, remedy, read again (after "
                 "Svenskt Trae 10.3.2 [S]). The 90 % rule (90 % of the "
                 "readings within allowed, the rest within 2 points more, "
                 "after AS 2589 [S]) is shown beside and releases nothing.");
}

/* ---- hold point --------------------------------------------------------- */

static void print_signature(bw_page *page, const char *who)
{
    bw_page_blank(page);
    bw_page_pair(page, who,
                 "name ____________________  date __________  signature "
                 "____________________");
}

void bw_print_audit_hold_point(bw_page *page, const bw_audit *audit)
{
    bw_page_heading(page, "Hold point before closing up");
    bw_page_bold(page, true);
    bw_page_text(page, 2, 2, audit->released ? "Released." : "NOT released.");
    bw_page_bold(page, false);
    for (size_t i = 0; i < audit->open_count; i++)
        bw_page_item(page, bw_phrase(page, "open: %s", audit->open[i].text));
    if (audit->released)
        bw_page_text(page, 2, 2,
                     "Every reason to keep it closed that this sheet knows is "
                     "answered by what the file says. Whether the file says "
                     "what the wall is, those who sign below answer for.");
    print_signature(page, "Designer");
    print_signature(page, "Site");
    print_signature(page, "Reviewer");
}
