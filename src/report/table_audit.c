/* audit.csv: the reviewer's sheet, one row a fact. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "evidence.h"
#include "names.h"
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
            "`identity`, `file`, `air-test`, `test`, `reading`, `limit`, "
            "`member`, `evidence`, `wet-spell`, `unknown`, `as-built`, "
            "`as-built-change`, `as-built-row`, `forecast`, `need`, `open` or "
            "`hold-point`",
            r->part);
    BW_TEXT_IF(c, "item", "which one", true, r->item);
    BW_EITHER(c, "value", "as unit",
              "a text or a number; of an unknown where the verdict flips, of "
              "what is needed the part of the wall, of what is open its id",
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

static void made_rows(bw_cells *c, const char *date, const char *command_line,
                      const bw_profile *profile)
{
    text_row(c, "identity", "program", bw_version(), "", "");
    text_row(c, "identity", "date", date, "", "");
    text_row(c, "identity", "command-line", command_line, "", "");
    text_row(c, "identity", "profile", profile->name, "", profile->title);
}

static void file_rows(bw_cells *c, const bw_input_file *file, size_t count)
{
    for (size_t i = 0; i < count; i++)
        text_row(c, "file", file[i].path, file[i].sha256, "", "SHA-256");
}

static void identity_rows(bw_cells *c, const bw_audit *audit)
{
    const bw_assessment *a = audit->assessment;
    made_rows(c, audit->date, audit->command_line, audit->profile);
    text_row(c, "identity", "verdict", "", bw_verdict_text(a->verdict),
             a->verdict_reason);
    file_rows(c, audit->file, audit->file_count);
}

static const char *with(bw_cells *c, const char *first, const char *rest)
{
    return bw_phrase(&c->page, "%s%s%s", first,
                     first[0] != '\0' && rest[0] != '\0' ? "; " : "", rest);
}

static void test_rows(bw_cells *c, const bw_audit *audit)
{
    const bw_closing_up *up = &c->wall->assembly->closing_up;
    const bool any = audit->air_test != NULL;
    number_row(c, "air-test", any ? audit->air_test->date : "",
               any ? audit->air_test->q50 * 3600.0 : (double)NAN, "m3/(m2.h)",
               audit->air_test_evidenced ? "evidenced" : "not evidenced",
               audit->air_test_text);
    for (size_t i = 0; i < up->air_test_count; i++) {
        const bw_air_test *test = &up->air_test[i];
        number_row(c, "test", test->date, test->q50 * 3600.0, "m3/(m2.h)",
                   test == audit->air_test ? "counts" : "",
                   with(c,
                        bw_phrase(&c->page, "%s; %s", test->stage,
                                  test->leak_search ? "leak search"
                                                    : "no leak search"),
                        bw_air_test_facts(&c->page, test)));
    }
}

static void reading_rows(bw_cells *c, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        const char *counts = e->counts ? "counts"
                                       : "earlier, a later one counts";
        if (e->reading->depth > 0.0)
            counts = bw_phrase(&c->page, "%s; %.3g mm deep", counts,
                               1e3 * e->reading->depth);
        number_row(c, "reading",
                   bw_phrase(&c->page, "%s %s: %s", e->reading->date,
                             e->reading->member, e->reading->place),
                   100.0 * e->reading->moisture, "%",
                   bw_reading_decision_text(e->decision),
                   with(c, counts, bw_reading_facts(&c->page, e->reading)));
    }
}

static void member_rows(bw_cells *c, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->member_count; i++) {
        const bw_member_decision *d = &audit->member[i];
        const char *photographs = bw_photographs_of(&c->page, c->wall->assembly,
                                                    d->member);
        number_row(
            c, "member", d->member,
            d->reading_count > 0 ? 100.0 * d->highest : (double)NAN, "%",
            bw_reading_decision_text(d->decision),
            with(c,
                 bw_phrase(&c->page, "%zu reading%s; 90 %% rule %s",
                           d->reading_count, d->reading_count == 1 ? "" : "s",
                           d->decision == BW_READING_NOT_EVIDENCED
                               ? "not applied"
                           : d->statistical_rule ? "met"
                                                 : "not met"),
                 photographs[0] != '\0'
                     ? bw_phrase(&c->page, "photographs %s", photographs)
                     : ""));
    }
}

static void limit_rows(bw_cells *c)
{
    const bw_closing_up *up = &c->wall->assembly->closing_up;
    for (size_t i = 0; i < up->limit_count; i++) {
        const bw_moisture_limit *l = &up->limit[i];
        const char *detail = bw_phrase(&c->page, "critical %.3g %%",
                                       100.0 * l->critical);
        if (l->part.layer >= 0)
            detail = bw_phrase(&c->page, "%s; part %s", detail, l->part.text);
        number_row(c, "limit", l->member, 100.0 * l->allowed, "%", "",
                   with(c, detail, l->source));
    }
}

static void evidence_rows(bw_cells *c)
{
    const bw_closing_up *up = &c->wall->assembly->closing_up;
    for (size_t i = 0; i < up->evidence_count; i++) {
        const bw_evidence_item *e = &up->evidence[i];
        text_row(c, "evidence", e->kind, e->ref, "",
                 with(c, with(c, e->of, e->part.text), e->date));
    }
    for (size_t i = 0; i < up->wet_spell_count; i++)
        text_row(c, "wet-spell", up->wet_spell[i].from, up->wet_spell[i].to, "",
                 up->wet_spell[i].note);
}

/* ---- as built, and when it is dry ---------------------------------------- */

static const char *drawn_words(bw_cells *c, const bw_criterion *drawn)
{
    if (drawn != NULL && drawn->never)
        return bw_phrase(&c->page, "as drawn: %s, %s",
                         bw_not_within(&c->page, drawn),
                         bw_verdict_text(drawn->verdict));
    return drawn == NULL
               ? "as drawn: not judged"
               : bw_phrase(&c->page, "as drawn: %.6g, %s",
                           drawn->has_value ? drawn->value : (double)NAN,
                           bw_verdict_text(drawn->verdict));
}

static void built_row(bw_cells *c, const bw_as_built_row *r)
{
    const bw_criterion *any = r->drawn != NULL ? r->drawn : r->built;
    number_row(
        c, "as-built-row",
        bw_phrase(&c->page, "%s: %s", any->section, any->criterion),
        r->built != NULL && r->built->has_value ? r->built->value : (double)NAN,
        any->unit,
        r->built != NULL ? bw_verdict_text(r->built->verdict) : "not judged",
        with(c,
             any->has_limit
                 ? bw_phrase(&c->page, "limit %.6g%s%s", any->limit,
                             r->built != NULL && r->built->never ? ", " : "",
                             r->built != NULL && r->built->never
                                 ? bw_not_within(&c->page, r->built)
                                 : "")
                 : "",
             drawn_words(c, r->drawn)));
}

static void built_rows(bw_cells *c, const bw_as_built *built)
{
    if (built->assessment == NULL)
        return;
    text_row(c, "as-built", "all changes", "",
             bw_verdict_text(built->assessment->verdict),
             built->assessment->verdict_reason);
    if (built->deciding != NULL)
        text_row(c, "as-built", "changes that decide", "",
                 bw_verdict_text(built->deciding->verdict),
                 built->deciding->verdict_reason);
    for (size_t i = 0; i < built->change_count; i++)
        text_row(c, "as-built-change", built->change[i].change, "",
                 built->change[i].decides ? "decides" : "shown",
                 built->change[i].why);
    for (size_t i = 0; i < built->row_count; i++)
        built_row(c, &built->row[i]);
}

static const char *in_days(bw_cells *c, double days)
{
    return isfinite(days) ? bw_phrase(&c->page, "%.0f d", days)
                          : "not in a year";
}

static void forecast_row(bw_cells *c, const bw_drying_forecast *f,
                         bw_site_way way)
{
    const bw_drying_range r = bw_drying_range_of(f, way);
    const char *why = f->reason != NULL ? f->reason : f->way_reason[way];
    const char *state = why != NULL        ? "not assessed"
                        : isfinite(r.days) ? "forecast"
                                           : "not in a year";
    number_row(
        c, "forecast",
        bw_phrase(&c->page, "%s: %s", f->member, bw_site_way_text(way)),
        why == NULL && isfinite(r.days) ? r.days : (double)NAN, "d", state,
        why != NULL ? why
                    : bw_phrase(&c->page, "from %s on; earliest %s, latest %s",
                                f->reading->date, in_days(c, r.earliest),
                                in_days(c, r.latest)));
}

static void forecast_rows(bw_cells *c, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->forecast_count; i++) {
        const bw_drying_forecast *f = &audit->forecast[i];
        if (f->dry)
            number_row(c, "forecast", f->member, 0.0, "d", "dry",
                       "below its limit by more than the error of a meter");
        for (int way = 0; !f->dry && way < BW_SITE_WAYS; way++)
            forecast_row(c, f, (bw_site_way)way);
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

static void need_rows(bw_cells *c, const bw_audit *audit)
{
    for (size_t i = 0; i < audit->need_count; i++) {
        const bw_need *need = &audit->need[i];
        text_row(c, "need", bw_need_kind_text(need->kind), need->part.text,
                 need->present    ? "present"
                 : need->required ? "missing"
                                  : "not shown",
                 need->present ? need->what : need->lacks);
    }
}

static void open_rows(bw_cells *c, const bw_open_item *open, size_t count)
{
    for (size_t i = 0; i < count; i++)
        text_row(c, "open", bw_phrase(&c->page, "%zu", i + 1),
                 bw_open_id_text(open[i].id), "open", open[i].text);
}

static void hold_row(bw_cells *c, bool released)
{
    text_row(c, "hold-point", "before closing up", "",
             released ? "released" : "not released", "");
}

/* Of the house what is of no wall, then wall by wall. */
static void house_rows(bw_cells *c)
{
    const bw_house *house = c->results->house;
    c->of = "all";
    made_rows(c, house->date, house->command_line, house->profile);
    hold_row(c, house->released);
    for (size_t i = 0; i < house->wall_count; i++) {
        const bw_house_wall *wall = &house->wall[i];
        c->of = wall->assembly->id;
        text_row(c, "identity", "verdict", "", bw_verdict_text(wall->verdict),
                 wall->verdict_reason);
        file_rows(c, wall->file, wall->file_count);
        open_rows(c, wall->open, wall->open_count);
        hold_row(c, wall->released);
    }
    c->of = NULL;
}

static void audit_rows(bw_cells *c)
{
    const bw_audit *audit = c->results->audit;
    if (audit == NULL) {
        house_rows(c);
        return;
    }
    c->wall = audit->assessment;
    identity_rows(c, audit);
    test_rows(c, audit);
    reading_rows(c, audit);
    limit_rows(c);
    member_rows(c, audit);
    evidence_rows(c);
    unknown_rows(c, audit);
    built_rows(c, &audit->as_built);
    forecast_rows(c, audit);
    need_rows(c, audit);
    open_rows(c, audit->open, audit->open_count);
    if (!audit->plan)
        hold_row(c, audit->released);
}

const bw_table_facts bw_table_audit = {
    "audit.csv",
    "A fact of the reviewer's sheet (`audit`); of the cover sheet of a house "
    "those of its walls, and as assembly `all` those of no wall.",
    fact_columns, audit_rows, BW_BY_RESULTS};
