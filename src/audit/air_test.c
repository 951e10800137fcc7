#include <math.h>
#include <string.h>

#include "auditing.h"
#include "fail.h"
#include "text.h"

/* The interim air test.
 *
 * Evidence is a test while the membrane is still exposed, with a search for
 * leaks: afterwards nothing behind the lining can be mended. The latest counts,
 * the worst of its day. What it found is known to within its uncertainty u: the
 * wall is computed with q50 (1 + u) where that is more than the file assumes,
 * or where it assumes nothing. */

static const double SAME = 1e-9; /* relative, q50 */

/* Of a test that states none: "in most cases less than 15 %", EN 13829:2000
 * (from memory, medium). Nobody measures better than the least. */
static const double UNCERTAINTY = 0.15, LEAST_UNCERTAINTY = 0.03;

/* m3/(m2 s): less no building is found to leak, and a fan hardly measures
 * (common practice, no source). */
static const double LEAST_Q50 = 0.05 / 3600.0;

static double uncertainty_of(const bw_air_test *test)
{
    return test->has_uncertainty ? fmax(test->uncertainty, LEAST_UNCERTAINTY)
                                 : UNCERTAINTY;
}

double bw_audit_at_most(const bw_air_test *test)
{
    return test->q50 * (1.0 + uncertainty_of(test));
}

static bool is_interim(const bw_air_test *test)
{
    return strcmp(test->stage, "membrane-exposed") == 0;
}

/* The latest, and of one day the worst. */
static const bw_air_test *latest_interim(const bw_audit_core *core)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const bw_air_test *found = NULL;
    for (size_t i = 0; i < up->air_test_count; i++) {
        const bw_air_test *test = &up->air_test[i];
        if (!is_interim(test) || bw_audit_is_ahead(core, test->date))
            continue;
        const int order = found == NULL ? 1 : strcmp(test->date, found->date);
        if (order > 0 || (order == 0 && test->q50 > found->q50))
            found = test;
    }
    return found;
}

static bool was_searched(const bw_audit_core *core, const bw_air_test *test)
{
    return test->leak_search && !bw_audit_is_ahead(core, test->date);
}

static const char *computed_words(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    if (audit->computed_q50 <= 0.0)
        return "";
    return BW_AUDIT_SAY(
        core,
        "; computed with %s m3/(m2.h), the test's value and its "
        "uncertainty of %s %%%s",
        BW_NUMBER_G(audit->computed_q50 * 3600.0, 3),
        BW_NUMBER_G(100.0 * uncertainty_of(audit->air_test), 3),
        audit->air_test->has_uncertainty ? "" : " (none is stated)");
}

static const char *describe(bw_audit_core *core, const bw_air_test *test,
                            bool leakier)
{
    const bw_air_leakage *assumed = &core->assembly->air_leakage;
    const char *q50 = BW_NUMBER_G(test->q50 * 3600.0, 3);
    const char *taken = BW_NUMBER_G(assumed->q50 * 3600.0, 3);
    const char *search = was_searched(core, test)
                             ? "leak search done"
                             : "NO leak search: what leaks is not known";
    const char *computed = computed_words(core);
    if (computed == NULL)
        return NULL;
    if (!assumed->given)
        return BW_AUDIT_SAY(core,
                            "interim test of %s, q50 = %s m3/(m2.h), %s; the "
                            "file assumes no air leakage%s",
                            test->date, q50, search, computed);
    return BW_AUDIT_SAY(core,
                        "interim test of %s, q50 = %s m3/(m2.h), %s; the "
                        "file assumes %s m3/(m2.h)%s%s",
                        test->date, q50, search, taken,
                        leakier ? ": the wall is leakier than assumed" : "",
                        computed);
}

static bool has_finished(const bw_closing_up *up)
{
    for (size_t i = 0; i < up->air_test_count; i++)
        if (is_interim(&up->air_test[i]))
            return false;
    return up->air_test_count > 0;
}

bw_status bw_audit_air_test(bw_audit_core *core, bw_error *err)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const bw_air_leakage *assumed = &core->assembly->air_leakage;
    bw_audit *audit = &core->audit;
    const bw_air_test *test = latest_interim(core);
    audit->air_test = test;
    audit->air_test_evidenced = false;
    audit->computed_q50 = 0.0;
    if (test == NULL) {
        audit->air_test_text =
            has_finished(up)
                ? "not evidenced: the finished building alone was tested, and "
                  "by then no leak behind the lining can be reached"
                : "not evidenced: no air test with the membrane still exposed";
        return BW_OK;
    }
    if (!assumed->given || bw_audit_at_most(test) > assumed->q50 * (1.0 + SAME))
        audit->computed_q50 = bw_audit_at_most(test);
    const bool leakier = assumed->given &&
                         test->q50 > assumed->q50 * (1.0 + SAME);
    audit->air_test_evidenced = was_searched(core, test) && !leakier;
    audit->air_test_text = describe(core, test, leakier);
    return audit->air_test_text != NULL ? BW_OK : bw_fail_memory(err);
}

/* ---- reasons ------------------------------------------------------------- */

static void look_at_one(bw_audit_core *core, const bw_air_test *test)
{
    if (bw_audit_is_ahead(core, test->date))
        bw_keep_closed(core, BW_OPEN_AHEAD,
                       BW_AUDIT_SAY(core,
                                    "air test of %s (line %ld): dated after "
                                    "this sheet",
                                    test->date, test->line));
    if (test->q50 < LEAST_Q50)
        bw_keep_closed(core, BW_OPEN_AIR_IMPOSSIBLE,
                       BW_AUDIT_SAY(core,
                                    "air test of %s: q50 = %s m3/(m2.h) is "
                                    "less than a test can find (0.05)",
                                    test->date,
                                    BW_NUMBER_G(test->q50 * 3600.0, 3)));
    if (is_interim(test) &&
        (!bw_text_given(test->by) || !bw_text_given(test->ref)))
        bw_keep_closed(
            core, BW_OPEN_AIR_UNATTRIBUTED,
            BW_AUDIT_SAY(core,
                         "air test of %s: %s; give by= and ref=", test->date,
                         !bw_text_given(test->by) ? "nobody is named who tested"
                                                  : "no protocol is named"));
}

static bool differ(const bw_air_test *a, const bw_air_test *b)
{
    return fabs(a->q50 - b->q50) > fmax(a->q50, b->q50) * SAME ||
           a->leak_search != b->leak_search;
}

/* One reason a test: another of its day that does not say the same, an earlier
 * one that found less. */
static void look_at_others(bw_audit_core *core, size_t which)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const bw_air_test *test = &up->air_test[which];
    const bw_air_test *same = NULL, *better = NULL;
    for (size_t i = 0; i < up->air_test_count; i++) {
        const bw_air_test *other = &up->air_test[i];
        const int order = strcmp(other->date, test->date);
        if (order == 0 && i < which && differ(other, test))
            same = other;
        if (order < 0 && test->q50 > other->q50 * (1.0 + SAME))
            better = other;
    }
    if (same != NULL)
        bw_keep_closed(core, BW_OPEN_CONTRADICTION,
                       BW_AUDIT_SAY(core,
                                    "two air tests of %s (lines %ld and %ld) "
                                    "do not say the same: the worse counts; "
                                    "which is right?",
                                    test->date, same->line, test->line));
    if (better != NULL)
        bw_keep_closed(core, BW_OPEN_AIR_WORSE,
                       BW_AUDIT_SAY(core,
                                    "the air test of %s found more than that "
                                    "of %s: what was opened in between?",
                                    test->date, better->date));
}

/* What came to the site, or was seen, only after the test was none of it. */
static void look_at_barrier(bw_audit_core *core, bw_wall_part barrier)
{
    const char *date = core->audit.air_test->date;
    for (int photograph = 0; photograph < 2; photograph++) {
        const char *first = bw_audit_first_shown(core, barrier,
                                                 photograph != 0);
        if (first != NULL && strcmp(date, first) < 0)
            bw_keep_closed(
                core, BW_OPEN_CONTRADICTION,
                BW_AUDIT_SAY(core,
                             "the air test of %s is older than what shows the "
                             "%s %s (%s): what was tested?",
                             date,
                             photograph != 0 ? "joints of" : "air barrier",
                             barrier.text, first));
    }
}

static void look_at_order(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    if (audit->air_test == NULL)
        return;
    if (bw_audit_is_before_wetting(core, audit->air_test->date))
        bw_keep_closed(core, BW_OPEN_BEFORE_WETTING,
                       BW_AUDIT_SAY(core,
                                    "air test of %s: from before the wall last "
                                    "got wet",
                                    audit->air_test->date));
    for (size_t i = 0; i < audit->need_count; i++)
        if (audit->need[i].kind == BW_NEED_BARRIER)
            look_at_barrier(core, audit->need[i].part);
}

void bw_hold_air(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    const bw_closing_up *up = &core->assembly->closing_up;
    if (!audit->air_test_evidenced)
        bw_keep_closed(
            core, BW_OPEN_AIR_TEST,
            BW_AUDIT_SAY(core, "air tightness: %s", audit->air_test_text));
    if (audit->air_test != NULL &&
        bw_audit_is_stale(core, audit->air_test->date, BW_TEST_DAYS))
        bw_keep_closed(core, BW_OPEN_STALE,
                       BW_AUDIT_SAY(core,
                                    "air test of %s: older than %d days at the "
                                    "date of this sheet",
                                    audit->air_test->date, BW_TEST_DAYS));
    look_at_order(core);
    for (size_t i = 0; i < up->air_test_count; i++) {
        look_at_one(core, &up->air_test[i]);
        look_at_others(core, i);
    }
}
