/* The wall as built, in service, beside the wall as drawn; and when what was
 * read too wet will be dry. */

#include <math.h>

#include "bothways/audit.h"
#include "day.h"
#include "evidence.h"
#include "grid.h"
#include "names.h"
#include "part.h"

/* ---- as built, in service ----------------------------------------------- */

static void put_changes(bw_page *page, const bw_as_built *built)
{
    bw_grid g = {.page = page};
    for (size_t i = 0; i < built->change_count; i++) {
        const bw_as_built_change *c = &built->change[i];
        bw_grid_row_start(&g);
        bw_words(&g, "Changed", c->change);
        bw_words(&g, "Why", c->why);
        bw_words(&g, "At the hold point",
                 c->decides ? "decides" : "shown only");
    }
    bw_grid_print(&g);
}

static bool tells(const bw_criterion *row)
{
    return row == NULL || (row->decides && row->verdict != BW_HOLDS);
}

static const char *value_of(bw_page *page, const bw_criterion *row)
{
    if (row == NULL)
        return "-";
    return bw_phrase(
        page, "%s%s", row->never ? ">" : "",
        bw_shown_value(page, bw_if(row->has_value, row->value), row->unit));
}

static const char *verdict_of(bw_page *page, const bw_criterion *row)
{
    return row != NULL ? bw_criterion_verdict(page, row) : "not judged";
}

/* What does not simply hold in both; returns how many do. */
static size_t put_rows(bw_page *page, const bw_as_built *built)
{
    size_t hold = 0;
    bw_grid g = {.page = page};
    for (size_t i = 0; i < built->row_count; i++) {
        const bw_as_built_row *r = &built->row[i];
        const bw_criterion *any = r->drawn != NULL ? r->drawn : r->built;
        if (!tells(r->drawn) && !tells(r->built)) {
            hold++;
            continue;
        }
        bw_grid_row_start(&g);
        bw_words(&g, "Criterion", any->title);
        bw_words(&g, "Section", bw_plain_id(page, any->section));
        bw_number(
            &g, "Limit", "%s",
            bw_shown_value(page, bw_if(any->has_limit, any->limit), any->unit));
        bw_name(&g, "Unit", bw_shown_unit(any->unit));
        bw_number(&g, "As drawn", "%s", value_of(page, r->drawn));
        bw_words(&g, "Verdict", verdict_of(page, r->drawn));
        bw_number(&g, "In service", "%s", value_of(page, r->built));
        bw_words(&g, "Verdict there", verdict_of(page, r->built));
    }
    bw_blank(page);
    bw_grid_print(&g);
    return hold;
}

BW_PART(as_built, "As built, in service, beside as drawn")
{
    const bw_as_built *built = &of->audit->as_built;
    if (built->assessment == NULL) {
        bw_text(page, "Not run.");
        return;
    }
    bw_pair(page, "As drawn", "%s",
            bw_verdict_text(of->audit->assessment->verdict));
    bw_pair(page, "As built, in service", "%s: %s",
            bw_verdict_text(built->assessment->verdict),
            built->assessment->verdict_reason);
    if (built->deciding != NULL)
        bw_pair(page, "With what decides alone", "%s: %s",
                bw_verdict_text(built->deciding->verdict),
                built->deciding->verdict_reason);
    bw_text(page, "The same wall with these changes at once; BS 5250:2021 asks "
                  "to look at conditions in service (by public summaries, its "
                  "text was not seen). What decides keeps the hold point "
                  "closed where the wall then fails.");
    put_changes(page, built);
    const bw_air_leakage *air = &built->assessment->assembly->air_leakage;
    bw_text(page, "Air leakage in service: %s.",
            air->given
                ? bw_phrase(page, "q50 %.3g m3/(m2.h)", 3600.0 * air->q50)
                : "none is given");
    const size_t hold = put_rows(page, built);
    bw_text(page, "%zu other criteria that decide hold%s in both.", hold,
            hold == 1 ? "s" : "");
    if (built->closes != NULL)
        bw_strong(page, "Keeps the hold point closed.");
    if (built->spares != NULL)
        bw_text(page, "%s", built->spares);
}

/* ---- drying forecast ----------------------------------------------------- */

static const char *date_of(bw_page *page, const bw_drying_forecast *f,
                           double days)
{
    char text[BW_DAY_TEXT];
    long day;
    if (!isfinite(days) || !bw_day_number(f->reading->date, &day))
        return "not in a year";
    return bw_phrase(page, "%s", bw_day_text(text, day + (long)days));
}

static const char *after(bw_page *page, double days)
{
    if (!isfinite(days))
        return "not in a year";
    if (days < 1.0)
        return "at once";
    if (days < 14.0)
        return bw_phrase(page, "%.0f day%s", days, days < 1.5 ? "" : "s");
    return days < 91.0 ? bw_phrase(page, "%.0f weeks", days / 7.0)
                       : bw_phrase(page, "%.1f months", days / (365.0 / 12.0));
}

static void put_ways(bw_page *page, const bw_drying_forecast *f)
{
    bw_grid g = {.page = page};
    for (int way = 0; way < BW_SITE_WAYS; way++) {
        const bool ran = f->way_reason[way] == NULL;
        bw_drying_range r = bw_drying_range_of(f, (bw_site_way)way);
        bw_grid_row_start(&g);
        bw_words(&g, "Left", bw_site_way_text((bw_site_way)way));
        bw_words(&g, "Dry after", ran ? after(page, r.days) : "not assessed");
        bw_words(&g, "From", ran ? date_of(page, f, r.days) : "-");
        bw_words(&g, "Earliest", ran ? date_of(page, f, r.earliest) : "-");
        bw_words(&g, "Latest", ran ? date_of(page, f, r.latest) : "-");
        bw_remark(&g, "%s", ran ? "" : f->way_reason[way]);
    }
    bw_grid_print(&g);
}

static void put_member(bw_page *page, const bw_drying_forecast *f)
{
    bw_subheading(page, "%s: %.3g %% read on %s, allowed %.3g %%", f->member,
                  100.0 * f->moisture, f->reading->date, 100.0 * f->allowed);
    if (f->dry)
        bw_text(page, "Below its limit by more than the error of a meter: "
                      "nothing to forecast.");
    else if (f->reason != NULL)
        bw_text(page, "Not assessed: %s.", f->reason);
    else
        put_ways(page, f);
}

BW_PART(forecast, "When it will be dry")
{
    const bw_audit *audit = of->audit;
    if (audit->forecast_count == 0) {
        bw_text(page, "Not assessed: no member has a limit and a reading.");
        return;
    }
    bw_text(page,
            "Simulated for a year from the month nearest to the reading, every "
            "member that was read at its highest moisture. Dry: the first day "
            "of a week on which the wettest 10 mm are at or below what is "
            "allowed. Earliest, latest: had the meter shown 2 points less, 2 "
            "more (its error; common practice, no source). Closed: the room in "
            "use. Open: without the layers on the room side; unheated: in air "
            "as outside in the mean of the month, rain kept off. A stud is "
            "taken as a slab as thick as it is wide. The next reading decides, "
            "not this.");
    for (size_t i = 0; i < audit->forecast_count; i++)
        put_member(page, &audit->forecast[i]);
}
