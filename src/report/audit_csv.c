/* audit.csv: one row a fact of the reviewer's sheet. Columns are fixed:
 * part    identity, file, air-test, reading, member, unknown, open, hold-point
 * item    which one
 * value   a number or a text, in `unit` where it is a number
 * state   the decision on it, "" where there is none */

#include <math.h>

#include "audit_parts.h"
#include "bothways/bothways.h"

enum { DIGITS = 9 };

static void start_row(bw_page *page, const bw_audit *audit, const char *part,
                      const char *item)
{
    bw_write_field(&page->out, audit->assessment->assembly->id);
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, part);
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, item);
    bw_write_text(&page->out, ",");
}

static void end_row(bw_page *page, const char *unit, const char *state,
                    const char *detail)
{
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, unit);
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, state);
    bw_write_text(&page->out, ",");
    bw_write_field(&page->out, detail);
    bw_write_text(&page->out, "\n");
}

static void text_row(bw_page *page, const bw_audit *audit, const char *part,
                     const char *item, const char *value, const char *state,
                     const char *detail)
{
    start_row(page, audit, part, item);
    bw_write_field(&page->out, value);
    end_row(page, "", state, detail);
}

static void number_row(bw_page *page, const bw_audit *audit, const char *part,
                       const char *item, double value, const char *unit,
                       const char *state, const char *detail)
{
    start_row(page, audit, part, item);
    bw_write_number(&page->out, value, DIGITS);
    end_row(page, unit, state, detail);
}

static void identity_rows(bw_page *page, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    text_row(page, audit, "identity", "program", bw_version(), "", "");
    text_row(page, audit, "identity", "date", audit->date, "", "");
    text_row(page, audit, "identity", "command-line", audit->command_line, "",
             "");
    text_row(page, audit, "identity", "profile", audit->profile->name, "",
             audit->profile->title);
    text_row(page, audit, "identity", "verdict", "",
             bw_verdict_text(a->verdict), a->verdict_reason);
    for (size_t i = 0; i < audit->file_count; i++)
        text_row(page, audit, "file", audit->file[i].path,
                 audit->file[i].sha256, "", "SHA-256");
}

static void evidence_rows(bw_page *page, const bw_audit *audit)
{
    bool any = audit->air_test != NULL;
    number_row(page, audit, "air-test", any ? audit->air_test->date : "",
               any ? audit->air_test->q50 * 3600.0 : (double)NAN, "m3/(m2.h)",
               audit->air_test_evidenced ? "evidenced" : "not evidenced",
               audit->air_test_text);
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        number_row(page, audit, "reading",
                   bw_phrase(page, "%s %s: %s", e->reading->date,
                             e->reading->member, e->reading->place),
                   100.0 * e->reading->moisture, "%",
                   bw_reading_decision_text(e->decision),
                   e->counts ? "counts" : "earlier, a later one counts");
    }
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        number_row(page, audit, "member", d->member,
                   d->reading_count > 0 ? 100.0 * d->highest : (double)NAN, "%",
                   bw_reading_decision_text(d->decision),
                   bw_phrase(page, "%zu reading%s; 90 %% rule %s",
                             d->reading_count, d->reading_count == 1 ? "" : "s",
                             d->decision == BW_READING_NOT_EVIDENCED
                                 ? "not applied"
                             : d->statistical_rule ? "met"
                                                   : "not met"));
    }
}

static void unknown_rows(bw_page *page, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->unknown_count; i++) {
        const bw_audit_unknown *line = &audit->unknown[i];
        const bw_unknown *u = line->unknown;
        number_row(page, audit, "unknown", u->name,
                   u->flips && u->continuous && !u->flips_all ? u->flip_value
                                                              : (double)NAN,
                   u->unit, line->decides ? "verdict flips" : "",
                   bw_phrase(page, "%s%s%s", line->assumed ? "assumed" : "",
                             line->assumed && u->flips ? "; " : "",
                             u->flips ? u->flip_criterion : ""));
    }
}

bw_status bw_report_audit_table(const bw_audit *audit, bw_sink *sink,
                                void *payload, bw_error *err)
{
    bw_page page = {.width = 100};
    bw_writer_start(&page.out, sink, payload);
    bw_write_text(&page.out, "assembly,part,item,value,unit,state,detail\n");
    identity_rows(&page, audit);
    evidence_rows(&page, audit);
    unknown_rows(&page, audit);
    for (size_t i = 0; i < audit->open_count; i++)
        text_row(&page, audit, "open", bw_phrase(&page, "%zu", i + 1), "",
                 "open", audit->open[i].text);
    text_row(&page, audit, "hold-point", "before closing up", "",
             audit->released ? "released" : "not released", "");
    return bw_page_finish(&page, "audit.csv", err);
}
