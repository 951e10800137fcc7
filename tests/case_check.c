/* Expected against computed: |computed - expected| <= tolerance, both in the
 * unit the file gives; a word must be the same word. */

#include "case_quantity.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *word_of(char number[24], const case_quantity *is,
                           const void *at)
{
    static const char *const cases[] = {"none", "one-plane", "two-planes",
                                        "zone"};
    if (is->as == YES_NO)
        return *(const bool *)at ? "yes" : "no";
    if (is->as == COUNTED || is->as == WHOLE) {
        snprintf(number, 24, "%zu",
                 is->as == WHOLE ? (size_t) * (const int *)at
                                 : *(const size_t *)at);
        return number;
    }
    if (is->as == MONTH) {
        const int month = *(const int *)at;
        return month >= 0 && month < BW_MONTHS ? bw_month_name(month) : "none";
    }
    return cases[*(const bw_period_case *)at];
}

static bool compare_word(const case_request *q, const void *at)
{
    char number[24];
    const char *is = word_of(number, q->quantity, at);
    if (*q->row->tolerance != '\0')
        return case_request_fault(q,
                                  "is a word or a count and has no tolerance");
    return strcmp(is, q->row->value) == 0 ||
           case_fault(q->run->report, q->run->file->name, q->row->line,
                      "%s is %s, not %s", q->row->quantity, is, q->row->value);
}

static bool read_tolerance(double *out, const case_request *q, double value)
{
    const char *text = q->row->tolerance;
    const case_unit *unit;
    char *end;
    *out = strtod(text, &end);
    if (strcmp(end, " % of value") == 0)
        *out *= 0.01 * fabs(value);
    else if (strcmp(q->quantity->kind, "degC") == 0 && strcmp(end, " K") == 0)
        *out *= 1;
    else if (case_number(out, &unit, text, q->quantity->kind) &&
             strcmp(unit->kind, "degC") != 0)
        *out *= unit->factor;
    else
        return case_request_fault(
            q, "has a tolerance in its own unit (of temperatures K), "
               "or '0.5 % of value'");
    if (!(*out > 0))
        return case_request_fault(q, "needs a tolerance above zero");
    return *out < fabs(value) || value == 0.0 ||
           strcmp(q->quantity->kind, "degC") == 0 ||
           case_request_fault(q, "has a tolerance as large as the value");
}

static bool compare_number(const case_request *q, const void *at)
{
    const case_row *row = q->row;
    const case_unit *unit;
    double value, tolerance;
    if (!case_number(&value, &unit, row->value, q->quantity->kind)) {
        char what[120];
        snprintf(what, sizeof what, "is '%s': not a number with a unit of %s",
                 row->value, q->quantity->kind);
        return case_request_fault(q, what);
    }
    value = (value - unit->zero) * unit->factor;
    const double is = *(const double *)at;
    if (!read_tolerance(&tolerance, q, value))
        return false;
    q->run->report->worst = fmax(q->run->report->worst,
                                 fabs(is - value) / tolerance);
    return fabs(is - value) <= tolerance ||
           case_fault(q->run->report, q->run->file->name, row->line,
                      "%s%s%s%s%s is %.9g %s, not %s within %s", row->quantity,
                      *row->place != '\0' ? " at " : "", row->place,
                      *row->when != '\0' ? ", " : "", row->when,
                      is / unit->factor + unit->zero, unit->name, row->value,
                      row->tolerance);
}

static bool compare_once(case_request *q)
{
    const void *at = case_value(q);
    if (at == NULL)
        return false;
    q->run->report->values++;
    return q->quantity->as == NUMBER ? compare_number(q, at)
                                     : compare_word(q, at);
}

bool case_compare(case_run *run, const case_row *row)
{
    case_request q = {
        .run = run, .row = row, .quantity = case_find_quantity(run, row)};
    if (q.quantity == NULL || !case_request_read(&q))
        return false;
    if (strcmp(row->when, "each") != 0)
        return compare_once(&q);
    for (q.month = 0; q.month < BW_MONTHS; q.month++)
        if (!compare_once(&q))
            return false;
    return true;
}
