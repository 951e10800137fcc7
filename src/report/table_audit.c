/* audit.csv: the reviewer's sheet, one row a fact. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "table.h"

typedef struct fact {
    const char *part, *item;
    const char *text; /* NULL: the number is the value */
    double number;    /* NAN: none */
    const char *unit, *state, *detail;
} fact;

static void fact_columns(bw_cells *c, const void *row)
{
    const fact *r = row;
    bw_assembly_column(c);
    BW_TEXT(c, "part",
            "`identity`, `file`, `air-test`, `reading`, `member`, `unknown`, "
            "`open` or `hold-point`",
            r->part);
    BW_TEXT_IF(c, "item", "which one", true, r->item);
    BW_EITHER(c, "value", "as unit",
              "a text or a number; of an unknown where the verdict flips",
              r->text, r->number);
    BW_TEXT_IF(c, "unit", "unit of a number", true, r->unit);
    BW_TEXT_IF(c, "state", "the decision on it, if there is one", true,
               r->state);
    BW_TEXT_IF(c, "detail", "what belongs to it", true, r->detail);
}

static void text_row(bw_cells *c, const char *part, const char *item,
                     const char *text, const char *state, const char *detail)
{
    bw_row(c, &(fact){part, item, text, 0.0, "", state, detail});
}

static void number_row(bw_cells *c, const char *part, const char *item,
                       double number, const char *unit, const char *state,
                       const char *detail)
{
    bw_row(c, &(fact){part, item, NULL, number, unit, state, detail});
}

static void identity_rows(bw_cells *c, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    text_row(c, "identity", "program", bw_version(), "", "");
    text_row(c, "identity", "date", audit->date, "", "");
    text_row(c, "identity", "command-line", audit->command_line, "", "");
    text_row(c, "identity", "profile", audit->profile->name, "",
             audit->profile->title);
    text_row(c, "identity", "verdict", "", bw_verdict_text(a->verdict),
             a->verdict_reason);
    for (size_t i = 0; i < audit->file_count; i++)
        text_row(c, "file", audit->file[i].path, audit->file[i].sha256, "",
                 "SHA-256");
}

static void evidence_rows(bw_cells *c, const bw_audit *audit)
{
    bool any = audit->air_test != NULL;
    number_row(c, "air-test", any ? audit->air_test->date : "",
               any ? audit->air_test->q50 * 3600.0 : (double)NAN, "m3/(m2.h)",
               audit->air_test_evidenced ? "evidenced" : "not evidenced",
               audit->air_test_text);
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        number_row(c, "reading",
                   bw_phrase(&c->page, "%s %s: %s", e->reading->date,
                             e->reading->member, e->reading->place),
                   100.0 * e->reading->moisture, "%",
                   bw_reading_decision_text(e->decision),
                   e->counts ? "counts" : "earlier, a later one counts");
    }
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        number_row(c, "member", d->member,
                   d->reading_count > 0 ? 100.0 * d->highest : (double)NAN, "%",
                   bw_reading_decision_text(d->decision),
                   bw_phrase(&c->page, "%zu reading%s; 90 %% rule %s",
                             d->reading_count, d->reading_count == 1 ? "" : "s",
                             d->decision == BW_READING_NOT_EVIDENCED
                                 ? "not applied"
                             : d->statistical_rule ? "met"
                                                   : "not met"));
    }
}

static void unknown_rows(bw_cells *c, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->unknown_count; i++) {
        const bw_audit_unknown *line = &audit->unknown[i];
        const bw_unknown *u = line->unknown;
        number_row(c, "unknown", u->name,
                   u->flips && u->continuous && !u->flips_all ? u->flip_value
                                                              : (double)NAN,
                   u->unit, line->decides ? "verdict flips" : "",
                   bw_phrase(&c->page, "%s%s%s", line->assumed ? "assumed" : "",
                             line->assumed && u->flips ? "; " : "",
                             u->flips ? u->flip_criterion : ""));
    }
}

static void audit_rows(bw_cells *c)
{
    const bw_audit *audit = c->results->audit;
    c->wall = audit->assessment;
    identity_rows(c, audit);
    evidence_rows(c, audit);
    unknown_rows(c, audit);
    for (size_t i = 0; i < audit->open_count; i++)
        text_row(c, "open", bw_phrase(&c->page, "%zu", i + 1), "", "open",
                 audit->open[i].text);
    text_row(c, "hold-point", "before closing up", "",
             audit->released ? "released" : "not released", "");
}

const bw_table_facts bw_table_audit = {
    "audit.csv", "A fact of the reviewer's sheet (`audit`).", fact_columns,
    audit_rows, BW_BY_RESULTS};
