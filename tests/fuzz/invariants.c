#include "invariants.h"

#include <math.h>
#include <string.h>

#include "bothways/report.h"
#include "fuzz.h"

static bool one_line(const char *text)
{
    return text != NULL && strchr(text, '\n') == NULL;
}

void fuzz_check_monthly(const bw_monthly_result *r)
{
    double scale = fmax(1.0, fmax(r->condensed, r->residual_last));
    FUZZ_REQUIRE(r->balance_error <= 1e-9 * scale);
    FUZZ_REQUIRE(isfinite(r->peak) && r->peak >= 0);
    FUZZ_REQUIRE(isfinite(r->growth) && isfinite(r->left));
    FUZZ_REQUIRE(isfinite(r->condensed) && r->condensed >= 0);
    FUZZ_REQUIRE(isfinite(r->evaporated) && r->evaporated >= 0);
    FUZZ_REQUIRE(isfinite(r->residual_last) && r->residual_last >= 0);
    FUZZ_REQUIRE(!r->has_reserve || isfinite(r->reserve));
    FUZZ_REQUIRE(!r->dried ||
                 (isfinite(r->months_to_dry) && r->months_to_dry >= 0));
    FUZZ_REQUIRE(r->start_month >= 0 && r->start_month < BW_MONTHS);
    for (size_t i = 0; i < r->plane_count; i++) {
        FUZZ_REQUIRE(r->plane[i].residual >= 0);
        for (int m = 0; m < BW_MONTHS; m++) {
            const bw_plane_month *x = &r->plane[i].month[m];
            FUZZ_REQUIRE(isfinite(x->theta) && isfinite(x->condensation));
            FUZZ_REQUIRE(isfinite(x->sd_from_outside));
            FUZZ_REQUIRE(x->accumulated >= 0 && isfinite(x->accumulated));
            FUZZ_REQUIRE(x->vapour_pressure >= 0);
            FUZZ_REQUIRE(x->vapour_pressure <=
                         x->saturation_pressure * (1 + 1e-9));
        }
    }
}

static void check_section(const bw_section_assessment *s)
{
    FUZZ_REQUIRE(one_line(s->design_reason));
    if (!s->has_design)
        return;
    fuzz_check_monthly(&s->design);
    if (s->has_bound)
        fuzz_check_monthly(&s->bound);
    if (s->has_inward)
        fuzz_check_monthly(&s->inward);
    if (s->has_leaky)
        fuzz_check_monthly(&s->leaky);
    if (s->has_dry) {
        fuzz_check_monthly(&s->dry_both);
        fuzz_check_monthly(&s->dry_outwards);
        fuzz_check_monthly(&s->dry_inwards);
    }
    if (s->period.assessed)
        FUZZ_REQUIRE(isfinite(s->period.reserve));
    for (size_t i = 0; i < s->surface_count; i++)
        for (int m = 0; m < BW_MONTHS; m++)
            FUZZ_REQUIRE(isfinite(s->surface[i].month[m].rh_si) &&
                         isfinite(s->surface[i].month[m].theta_si));
}

void fuzz_check_assessment(const bw_assessment *a)
{
    for (size_t i = 0; i < a->section_count; i++)
        check_section(&a->section[i]);
    size_t fails = 0, not_assessed = 0, marginal = 0;
    for (size_t i = 0; i < a->criterion_count; i++) {
        const bw_criterion *row = &a->criterion[i];
        FUZZ_REQUIRE(row->verdict <= BW_NOT_ASSESSED);
        FUZZ_REQUIRE(row->outcome <= BW_NOT_ASSESSED);
        FUZZ_REQUIRE(!row->has_value || isfinite(row->value));
        FUZZ_REQUIRE(!row->has_limit || isfinite(row->limit));
        FUZZ_REQUIRE(!(row->has_value && row->has_limit) ||
                     isfinite(row->margin));
        FUZZ_REQUIRE(one_line(row->reason) && one_line(row->rule));
        FUZZ_REQUIRE(one_line(row->title) && one_line(row->criterion));
        FUZZ_REQUIRE(row->decides || row->verdict != BW_FAILS);
        FUZZ_REQUIRE(!row->screening || row->verdict != BW_HOLDS);
        FUZZ_REQUIRE(row->rule[0] != '\0');
        fails += row->decides && row->verdict == BW_FAILS;
        not_assessed += row->decides && row->verdict == BW_NOT_ASSESSED;
        marginal += row->decides && row->verdict == BW_MARGINAL;
    }
    bw_verdict due = fails > 0          ? BW_FAILS
                     : not_assessed > 0 ? BW_NOT_ASSESSED
                     : marginal > 0     ? BW_MARGINAL
                                        : BW_HOLDS;
    FUZZ_REQUIRE(a->criterion_count > 0);
    FUZZ_REQUIRE(a->verdict == due);
    FUZZ_REQUIRE(one_line(a->verdict_reason));
}

/* ---- reports --------------------------------------------------------------
 */

struct text {
    char *at;
    size_t used, room;
};

static bool take(void *payload, const char *bytes, size_t length)
{
    struct text *text = payload;
    if (text->room - text->used <= length) {
        text->room = 2 * text->room + length + 1;
        text->at = realloc(text->at, text->room);
        FUZZ_REQUIRE(text->at != NULL);
    }
    memcpy(text->at + text->used, bytes, length);
    text->used += length;
    text->at[text->used] = '\0';
    return true;
}

/* Reads a CSV field at *c, past its comma; false at the end of the row. */
static bool next_field(const char **c, char *field, size_t size)
{
    size_t n = 0;
    bool quoted = **c == '"';
    *c += quoted;
    for (; **c != '\0'; (*c)++) {
        if (quoted && (*c)[0] == '"' && (*c)[1] == '"')
            (*c)++;
        else if (quoted ? **c == '"' : strchr(",\n", **c) != NULL)
            break;
        if (n + 1 < size)
            field[n++] = **c;
    }
    field[n] = '\0';
    *c += quoted && **c == '"';
    FUZZ_REQUIRE(**c == ',' || **c == '\n');
    return *(*c)++ == ',';
}

static bool is_verdict(const char *word)
{
    for (int v = BW_HOLDS; v <= BW_NOT_ASSESSED; v++)
        if (strcmp(word, bw_verdict_text((bw_verdict)v)) == 0)
            return true;
    return false;
}

static void check_table(const char *c)
{
    size_t columns = 0, verdict = 0, rows = 0;
    while (*c != '\0') {
        size_t n = 0;
        char field[4096];
        for (bool more = true; more; n++) {
            more = next_field(&c, field, sizeof field);
            FUZZ_REQUIRE(
                strcmp(field, "nan") != 0 && strcmp(field, "-nan") != 0 &&
                strcmp(field, "inf") != 0 && strcmp(field, "-inf") != 0);
            if (rows == 0 && strcmp(field, "verdict") == 0)
                verdict = n;
            FUZZ_REQUIRE(rows == 0 || verdict == 0 || n != verdict ||
                         is_verdict(field));
        }
        FUZZ_REQUIRE(rows == 0 || n == columns);
        columns = n;
        rows++;
    }
    FUZZ_REQUIRE(rows > 0);
}

void fuzz_check_reports(const bw_assessment *a)
{
    struct text text = {NULL, 0, 0};
    bw_error err = {0};
    const bw_results results = {.wall_count = 1, .wall = &a};
    for (bw_table t = BW_TABLE_VERDICT; t < BW_TABLE_COUNT; t++) {
        text.used = 0;
        FUZZ_REQUIRE(bw_report_table(&results, t, take, &text, &err) == BW_OK);
        FUZZ_REQUIRE(text.used > 0);
        check_table(text.at);
    }
    text.used = 0;
    FUZZ_REQUIRE(bw_report_text(a, NULL, take, &text, &err) == BW_OK);
    FUZZ_REQUIRE(text.used > 0);
    FUZZ_REQUIRE(bw_report_json(&results, take, &text, &err) == BW_OK);
    for (size_t i = 0; i < text.used; i++)
        FUZZ_REQUIRE(text.at[i] == '\n' || (unsigned char)text.at[i] >= ' ');
    free(text.at);
}
