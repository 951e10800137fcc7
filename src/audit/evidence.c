#include <string.h>

#include "core.h"
#include "fail.h"

/* The interim air test, and which unknowns are only assumed.
 *
 * Evidence is a test while the membrane is still exposed, with a search for
 * leaks: afterwards nothing behind the lining can be mended. Of several the
 * latest counts alone. */

static const double SAME = 1e-9; /* relative, q50 */

static const bw_air_test *latest_interim(const bw_closing_up *up)
{
    const bw_air_test *found = NULL;
    for (size_t i = 0; i < up->air_test_count; i++)
        if (strcmp(up->air_test[i].stage, "membrane-exposed") == 0 &&
            (found == NULL || strcmp(up->air_test[i].date, found->date) >= 0))
            found = &up->air_test[i];
    return found;
}

static const char *describe(bw_audit_core *core, const bw_air_test *test,
                            bool leakier)
{
    const bw_air_leakage *assumed = &core->assembly->air_leakage;
    bw_audit_digits q50 = bw_audit_number(test->q50 * 3600.0, 3);
    bw_audit_digits taken = bw_audit_number(assumed->q50 * 3600.0, 3);
    const char *search = test->leak_search
                             ? "leak search done"
                             : "NO leak search: what leaks is not known";
    if (!assumed->given)
        return BW_AUDIT_SAY(core,
                            "interim test of %s, q50 = %s m3/(m2.h), %s; the "
                            "calculation assumed no air leakage at all",
                            test->date, q50.text, search);
    return BW_AUDIT_SAY(core,
                        "interim test of %s, q50 = %s m3/(m2.h), %s; the "
                        "calculation assumed %s m3/(m2.h)%s",
                        test->date, q50.text, search, taken.text,
                        leakier ? ": the wall is leakier than assumed" : "");
}

bw_status bw_audit_air_test(bw_audit_core *core, bw_error *err)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const bw_air_leakage *assumed = &core->assembly->air_leakage;
    bw_audit *audit = &core->audit;
    const bw_air_test *test = latest_interim(up);
    audit->air_test = test;
    audit->air_test_evidenced = false;
    if (test == NULL) {
        audit->air_test_text =
            up->air_test_count > 0
                ? "not evidenced: only the finished building was tested, and "
                  "by then no leak behind the lining can be reached"
                : "not evidenced: no air test with the membrane still exposed";
        return BW_OK;
    }
    bool leakier = assumed->given && test->q50 > assumed->q50 * (1.0 + SAME);
    audit->air_test_evidenced = test->leak_search && !leakier;
    audit->air_test_text = describe(core, test, leakier);
    return audit->air_test_text != NULL ? BW_OK : bw_fail_memory(err);
}

/* ---- sensitivity -------------------------------------------------------- */

static bool is_assumed(const bw_assembly *assembly, const bw_unknown *unknown)
{
    const long i = bw_assembly_layer(assembly, unknown->layer);
    return i >= 0 && assembly->layer[i].evidence == BW_EVIDENCE_ASSUMED;
}

static int rank(const bw_audit_unknown *u)
{
    if (u->decides)
        return u->assumed ? 0 : 1;
    return u->unknown->flips ? 2 : 3;
}

bw_status bw_audit_unknowns(bw_audit_core *core, bw_error *err)
{
    const bw_margin *margin = core->margin;
    if (margin == NULL)
        return BW_OK;
    bw_audit_unknown *list = BW_NEW(&core->arena, bw_audit_unknown,
                                    margin->unknown_count + 1);
    if (list == NULL)
        return bw_fail_memory(err);
    for (size_t i = 0; i < margin->unknown_count; i++) {
        const bw_unknown *u = &margin->unknown[i];
        bw_audit_unknown one = {.unknown = u,
                                .assumed = is_assumed(core->assembly, u),
                                .decides = u->seen && u->flips &&
                                           u->flip_changes_verdict &&
                                           u->flip_fails};
        size_t k = i;
        for (; k > 0 && rank(&list[k - 1]) > rank(&one); k--)
            list[k] = list[k - 1];
        list[k] = one;
    }
    core->audit.unknown = list;
    core->audit.unknown_count = margin->unknown_count;
    return BW_OK;
}
