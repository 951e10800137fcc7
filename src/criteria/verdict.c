#include "verdict.h"

#include <assert.h>
#include <string.h>

/* Invariants: a row that does not decide, or is a cross-check, never reads
 * `fails`; a screening row never reads `holds` or `marginal`; the overall
 * verdict follows from the rows that decide alone. So "every assessed criterion
 * holds" and "at least one fails" can be read off the rows. */

void bw_verdict_bound(bw_rows *rows, const bw_rows *bound)
{
    for (size_t i = 0; i < bound->count; i++) {
        const bw_row *other = &bound->row[i];
        bw_row *row = bw_rows_find(rows, other->row.section, other->id);
        if (row == NULL || !other->row.has_value)
            continue;
        const double value = other->row.value;
        if (bw_verdict_good(row->row.outcome) &&
            other->row.outcome == BW_FAILS) {
            row->row.outcome = BW_MARGINAL;
            row->row.reason = bw_say(
                rows,
                "holds with mu by local humidity, fails (%.3f %s) with the "
                "other choice of dry-cup and wet-cup mu; %s",
                value, row->row.unit, row->row.reason);
        } else if (row->row.outcome == BW_FAILS &&
                   bw_verdict_good(other->row.outcome)) {
            row->row.reason = bw_say(
                rows,
                "%s (%.3f %s, within the limit, with the other choice of "
                "dry-cup and wet-cup mu)",
                row->row.reason, value, row->row.unit);
        }
    }
}

/* Of a row that has a number. */
static const char *outcome_words(bw_verdict outcome)
{
    assert(outcome != BW_NOT_ASSESSED);
    if (outcome == BW_FAILS)
        return "would fail";
    return outcome == BW_MARGINAL ? "would hold, marginally" : "would hold";
}

/* Beyond the limits of the method: shown; without a simulation it may fail
 * the wall and never hold it. */
static void screen(bw_rows *rows, bw_row *row, bool has_transient)
{
    bw_criterion *c = &row->row;
    c->screening = true;
    if (has_transient)
        c->decides = false;
    if (!c->has_limit)
        return;
    const char *words = outcome_words(c->outcome);
    if (has_transient)
        c->reason = bw_say(rows, "screening, the simulation decides: %s; %s",
                           words, c->reason);
    else if (c->outcome == BW_FAILS)
        c->reason = bw_say(rows,
                           "%s (screening; a simulation could overturn "
                           "it)",
                           c->reason);
    else
        c->reason = bw_say(rows, "screening, no proof: %s; %s", words,
                           c->reason);
}

/* Within the limits of the method, beside a simulation: what it fails makes
 * the wall marginal, what it holds proves nothing more, and what it cannot
 * tell the simulation does. */
static void cross_check(bw_rows *rows, bw_row *row)
{
    bw_criterion *c = &row->row;
    if (row->informative)
        return;
    c->decides = c->outcome == BW_FAILS;
    if (!c->has_limit)
        return;
    c->cross_check = true;
    if (c->decides)
        c->reason = bw_say(rows,
                           "cross-check by the %s method, which fails "
                           "it: %s",
                           c->method, c->reason);
}

void bw_verdict_screen(bw_rows *rows, bool beyond, bool has_transient)
{
    const bool months = bw_demanded(rows->profile, BW_DEMANDS_MONTHLY);
    const bool blocks = bw_demanded(rows->profile, BW_DEMANDS_PERIOD);
    for (size_t i = 0; i < rows->count; i++) {
        bw_row *row = &rows->row[i];
        const bw_criterion_role role = bw_criterion_facts_of(row->id)->role;
        if (role == BW_JUDGES)
            continue;
        const bool demanded = role == BW_BY_BLOCKS ? blocks : months;
        if (role == BW_BY_BLOCKS && !demanded)
            row->informative = true;
        if (beyond)
            screen(rows, row, has_transient);
        else if (has_transient && !demanded)
            cross_check(rows, row);
    }
}

void bw_verdict_settle(bw_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++) {
        bw_criterion *c = &rows->row[i].row;
        if (rows->row[i].informative)
            c->decides = false;
        c->verdict = c->outcome;
        if (c->cross_check && c->outcome == BW_FAILS)
            c->verdict = BW_MARGINAL;
        if (!c->decides && c->outcome == BW_FAILS)
            c->verdict = BW_NOT_ASSESSED;
        if (c->screening && bw_verdict_good(c->outcome))
            c->verdict = BW_NOT_ASSESSED;
    }
}

void bw_verdict_sort(bw_rows *rows)
{
    for (size_t i = 1; i < rows->count; i++) {
        bw_row row = rows->row[i];
        size_t k = i;
        for (; k > 0 && rows->row[k - 1].id > row.id; k--)
            rows->row[k] = rows->row[k - 1];
        rows->row[k] = row;
    }
}

static size_t count(const bw_rows *rows, bw_verdict verdict)
{
    size_t n = 0;
    for (size_t i = 0; i < rows->count; i++)
        n += rows->row[i].row.decides && rows->row[i].row.verdict == verdict;
    return n;
}

bw_verdict bw_verdict_overall(const bw_rows *rows)
{
    if (count(rows, BW_FAILS) > 0)
        return BW_FAILS;
    if (count(rows, BW_NOT_ASSESSED) > 0)
        return BW_NOT_ASSESSED;
    if (count(rows, BW_MARGINAL) > 0)
        return BW_MARGINAL;
    return count(rows, BW_HOLDS) > 0 ? BW_HOLDS : BW_NOT_ASSESSED;
}

/* How far beyond its limit, as a share of it; of hours of a year as a share of
 * those that are left of it, since nine times a limit of hours says less than
 * twice one of mould. */
static double beyond(const bw_row *row)
{
    static const double YEAR = 8760.0; /* h */
    if (!row->row.has_limit)
        return 0.0;
    if (row->id == BW_C_HUMID_HOURS || row->id == BW_C_COVERING)
        return -row->row.margin / (YEAR - row->row.limit);
    return -bw_row_relative_margin(row);
}

/* A count of days or weeks whose limit is zero, or whose figure is as long as
 * what was simulated: no share of it compares with that of another row. */
static bool has_no_scale(const bw_row *row)
{
    return row->id == BW_C_TIMBER_LINE || row->id == BW_C_FIRST_YEAR;
}

/* 2: a simulation's row, 1: one of those that count without a scale, 0: of
 * another method. */
static int telling(const bw_row *row)
{
    if (row->id < BW_C_TRANSIENT)
        return 0;
    return has_no_scale(row) ? 1 : 2;
}

/* The row to name: of those that fail the one furthest beyond its limit; of
 * those with another verdict the same, the most telling first. Of equals the
 * first in the order of the criteria. */
static const bw_row *worst_row(const bw_rows *rows, bw_verdict verdict)
{
    const bw_row *worst = NULL;
    for (size_t i = 0; i < rows->count; i++) {
        const bw_row *row = &rows->row[i];
        if (!row->row.decides || row->row.verdict != verdict)
            continue;
        if (worst == NULL ||
            (verdict == BW_FAILS || telling(row) == telling(worst)
                 ? beyond(row) > beyond(worst)
                 : telling(row) > telling(worst)))
            worst = row;
    }
    return worst;
}

/* Condensation on a surface that its mould row watches already, at 80 % RH: 100
 * % as its limit is always near and tells nobody anything. */
static bool said_by_mould(const bw_rows *rows, const bw_row *row)
{
    if (row->id != BW_C_SURFACE_CONDENSATION)
        return false;
    const bw_row *mould = bw_rows_find(rows, row->row.section,
                                       BW_C_SURFACE_MOULD);
    return mould != NULL && mould->row.decides && mould->row.has_value;
}

/* The row that holds by least, as a share of its limit. */
static const bw_row *closest(const bw_rows *rows)
{
    const bw_row *least = NULL;
    for (size_t i = 0; i < rows->count; i++) {
        const bw_row *row = &rows->row[i];
        if (row->row.decides && row->row.has_limit &&
            !said_by_mould(rows, row) &&
            (row->row.limit > 0.0 || row->row.limit < 0.0) &&
            (least == NULL ||
             bw_row_relative_margin(row) < bw_row_relative_margin(least)))
            least = row;
    }
    return least;
}

static const char *place(const bw_row *row)
{
    static const struct {
        const char *section, *words;
    } places[] = {
        {"whole", ""},
        {"between-studs", " (between studs)"},
        {"through-stud", " (through a stud)"},
        {"open-cavity", " (where the cavity is open)"},
        {"blocked-cavity", " (where the cavity is blocked)"},
    };
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++)
        if (strcmp(places[i].section, row->row.section) == 0)
            return places[i].words;
    return "";
}

static const char *state_words(bw_verdict verdict, size_t number)
{
    bool one = number == 1;
    assert(verdict != BW_HOLDS);
    if (verdict == BW_FAILS)
        return one ? "fails" : "fail";
    if (verdict == BW_MARGINAL)
        return one ? "is marginal" : "are marginal";
    return one ? "is not assessed" : "are not assessed";
}

/* Without a simulation nothing is proven: why, and what it leaves. */
static const char *not_simulated(bw_rows *rows, const bw_row *row,
                                 const bw_scope_item *scope, size_t scope_count)
{
    const char *why = row->id == BW_C_TRANSIENT
                          ? row->row.reason
                          : "the simulation was switched off "
                            "(--monthly-only); leave that out";
    if (scope_count == 0)
        return bw_say(rows,
                      "Not simulated: %s. The monthly method, within its "
                      "limits here, finds nothing that fails; --monthly-only "
                      "lets it decide.",
                      why);
    return bw_say(rows,
                  "Not simulated: %s. Nothing fails, but the monthly method is "
                  "outside its limits here (%s%s) and cannot say that the wall "
                  "holds.",
                  why, scope[0].what, scope_count > 1 ? " and more" : "");
}

/* Of a wall that fails though nothing was simulated. */
static const char *without_simulation(bw_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        if (rows->row[i].id == BW_C_TRANSIENT)
            return bw_say(rows, " Not simulated: %s.", rows->row[i].row.reason);
    return "";
}

/* Of a marginal wall: what the simulation says and what the months say, if
 * they disagree. */
static const bw_row *failed_check(const bw_rows *rows)
{
    const bw_row *worst = NULL;
    for (size_t i = 0; i < rows->count; i++) {
        const bw_row *row = &rows->row[i];
        if (row->row.cross_check && row->row.decides &&
            (worst == NULL || beyond(row) > beyond(worst)))
            worst = row;
    }
    return worst;
}

static const char *and_others(bw_rows *rows, bw_verdict verdict)
{
    const size_t others = count(rows, verdict) - 1;
    if (others == 0)
        return "";
    if (others == 1)
        return bw_say(rows, " One more criterion %s.", state_words(verdict, 1));
    return bw_say(rows, " %zu more criteria %s.", others,
                  state_words(verdict, others));
}

const bw_row *bw_verdict_row(const bw_rows *rows)
{
    const bw_verdict verdict = bw_verdict_overall(rows);
    return verdict == BW_HOLDS ? closest(rows) : worst_row(rows, verdict);
}

const char *bw_verdict_reason(bw_rows *rows, const bw_scope_item *scope,
                              size_t scope_count)
{
    const bw_verdict verdict = bw_verdict_overall(rows);
    const bw_row *row = bw_verdict_row(rows);
    if (row == NULL)
        return verdict == BW_HOLDS ? "Every criterion that decides holds."
                                   : "No criterion that decides was assessed.";
    const char *where = place(row);
    if (verdict == BW_HOLDS)
        return bw_say(rows,
                      "Every criterion that decides holds. Closest to its "
                      "limit: %s%s: %s.",
                      row->row.title, where, row->row.reason);
    if (verdict == BW_NOT_ASSESSED &&
        (row->row.screening || row->id == BW_C_TRANSIENT))
        return not_simulated(rows, row, scope, scope_count);
    const bw_row *check = verdict == BW_MARGINAL ? failed_check(rows) : NULL;
    const char *first = "", *also = without_simulation(rows);
    if (check != NULL && check == row)
        first = "The simulation finds nothing that fails, another method "
                "within its limits does. ";
    else if (check != NULL)
        also = bw_say(rows, " The %s method, within its limits, fails: %s.",
                      check->row.method, check->row.title);
    return bw_say(rows, "%s%s%s: %s.%s%s", first, row->row.title, where,
                  row->row.reason, also, and_others(rows, verdict));
}
