#include "invariants.h"

#include <math.h>
#include <string.h>

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

/* Water neither made nor lost, every humidity one, nothing below nought. */
static void check_simulated(const bw_transient_result *t)
{
    FUZZ_REQUIRE(t->years >= 1 && t->years <= BW_MOST_YEARS);
    FUZZ_REQUIRE(t->water_balance_error <= 1e-3);
    FUZZ_REQUIRE(t->initial_water >= 0 && isfinite(t->heat_loss));
    for (int y = 0; y < t->years; y++)
        FUZZ_REQUIRE(t->year_end_water[y] >= 0 &&
                     isfinite(t->year_end_water[y]));
    for (size_t i = 0; i < t->monitor_count; i++) {
        const bw_monitor *m = &t->monitor[i];
        FUZZ_REQUIRE(m->highest_rh >= 0 && m->highest_rh <= 1 + 1e-9);
        FUZZ_REQUIRE(m->highest_mould >= 0 && m->highest_mould <= 6);
        for (int k = 0; k < BW_MONTHS; k++)
            FUZZ_REQUIRE(m->month_rh[k] >= 0 && m->month_rh[k] <= 1 + 1e-9 &&
                         isfinite(m->month_theta[k]));
    }
    for (size_t i = 0; i < t->slab_count; i++)
        FUZZ_REQUIRE(t->slab[i].lowest >= 0 &&
                     t->slab[i].highest >= t->slab[i].lowest &&
                     isfinite(t->slab[i].highest));
    for (size_t i = 0; i < t->hour_count * t->monitor_count; i++)
        FUZZ_REQUIRE(t->hour[i].phi >= 0 && t->hour[i].phi <= 1 + 1e-9 &&
                     isfinite(t->hour[i].theta));
}

static void check_section(const bw_section_assessment *s)
{
    FUZZ_REQUIRE(one_line(s->run[BW_RUN_DESIGN].reason));
    FUZZ_REQUIRE(s->has_transient || one_line(s->transient_reason));
    if (s->has_transient)
        check_simulated(&s->transient);
    if (!s->run[BW_RUN_DESIGN].ran)
        return;
    fuzz_check_monthly(&s->run[BW_RUN_DESIGN].result);
    if (s->run[BW_RUN_BOUND].ran)
        fuzz_check_monthly(&s->run[BW_RUN_BOUND].result);
    if (s->run[BW_RUN_INWARD].ran)
        fuzz_check_monthly(&s->run[BW_RUN_INWARD].result);
    if (s->run[BW_RUN_LEAKAGE].ran)
        fuzz_check_monthly(&s->run[BW_RUN_LEAKAGE].result);
    if (s->run[BW_RUN_WETTED_BOTH].ran) {
        fuzz_check_monthly(&s->run[BW_RUN_WETTED_BOTH].result);
        fuzz_check_monthly(&s->run[BW_RUN_WETTED_OUTWARDS].result);
        fuzz_check_monthly(&s->run[BW_RUN_WETTED_INWARDS].result);
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
        FUZZ_REQUIRE(!row->screening || row->verdict != BW_HOLDS);
        FUZZ_REQUIRE(row->decides || row->verdict != BW_FAILS);
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
