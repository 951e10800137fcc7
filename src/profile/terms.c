/* What a rule may limit.
 *
 * Invariant: the loose end of a standard term is the default limit of
 * criteria/rules.c (test_profile compares them), so what lies between low and
 * high only tightens. The other bounds are of what is possible at all: a slip
 * of unit falls out. */

#include "terms.h"

#include <string.h>

#include "fail.h"
#include "text.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

/* clang-format off */
#define LEAST true, false, false
#define MOST false, false, false
#define BELOW false, true, false
#define BELOW_OR_MOST false, true, true
static const bw_profile_term terms[] = {
    /* rows of profiles alone */
    {BW_STEADY_CRITERION, "%", BELOW, false, 50.0, 100.0},
    {"inner-sd", "m", LEAST, false, 0.01, 1e4},
    {"sd-ratio", "-", LEAST, false, 0.1, 1e3},
    {"breather-sd", "m", BELOW, false, 1e-3, 100.0},
    {"cavity-width", "mm", LEAST, false, 1.0, 1e3},
    {"frsi-least", "-", LEAST, false, 0.1, 0.99},
    {"closing-moisture", "%", BELOW_OR_MOST, false, 5.0, 60.0},
    /* default criteria, tightened */
    {"condensate-absorbing", "kg/m2", MOST, true, 1e-3, 1.0},
    {"condensate-non-absorbing", "kg/m2", MOST, true, 1e-3, 0.5},
    {"drying-reserve", "kg/(m2 a)", LEAST, true, 0.1, 10.0},
    {"wood-moisture-rise", "%", MOST, true, 0.1, 5.0},
    {"panel-moisture-rise", "%", MOST, true, 0.1, 3.0},
    {"inward-condensation", "kg/m2", MOST, true, 1e-3, 0.2},
    {"drying-test", "months", MOST, true, 1.0, 12.0},
    {"standing-water", "kg/m2", MOST, true, 1e-3, 0.2},
    {"hours-above-95", "h/a", MOST, true, 1.0, 720.0},
    {"covering-humidity", "h/a", MOST, true, 1.0, 720.0},
    {"wood-moisture", "%", BELOW, true, 5.0, 20.0},
    {"panel-moisture", "%", BELOW, true, 5.0, 18.0},
    {"decay-dose", "d", BELOW, true, 1.0, 325.0},
    {"first-year-drying", "weeks", MOST, true, 1.0, 13.0},
    {"mould-index-hidden", "-", BELOW, true, 0.1, 3.0},
    {"mould-index-room", "-", BELOW, true, 0.1, 1.0},
    {"wetting-test", "months", BELOW, true, 1.0, 12.0},
};
/* clang-format on */

size_t bw_profile_term_count(void)
{
    return COUNT(terms);
}

const bw_profile_term *bw_profile_term_at(size_t i)
{
    return &terms[i];
}

const bw_profile_term *bw_profile_term_of(const char *criterion)
{
    for (size_t i = 0; i < COUNT(terms); i++)
        if (strcmp(criterion, terms[i].criterion) == 0)
            return &terms[i];
    return NULL;
}

double bw_profile_loosest(const bw_profile_term *term)
{
    return term->least ? term->low : term->high;
}

bool bw_profile_loosens(const bw_profile_term *term, double limit)
{
    double loosest = bw_profile_loosest(term);
    return term->standard && (term->least ? limit < loosest : limit > loosest);
}

bool bw_profile_steady_sound(const bw_profile_steady *at)
{
    return at->theta_i >= BW_STEADY_COLDEST &&
           at->theta_i <= BW_STEADY_WARMEST &&
           at->theta_e >= BW_STEADY_COLDEST &&
           at->theta_e <= BW_STEADY_WARMEST && at->phi_i > 0.0 &&
           at->phi_i <= 1.0 && at->phi_e >= 0.0 && at->phi_e <= 1.0;
}

const char *bw_profile_bound(const bw_profile_term *term)
{
    if (term->least)
        return "least";
    return term->strict ? "below" : "most";
}

/* ---- a whole profile --------------------------------------------------- */

static bw_status refuse(const bw_profile *profile, const bw_profile_rule *rule,
                        const char *why, bw_error *err)
{
    return bw_fail(err, BW_ERR_INPUT, profile->file, rule->line,
                   "profile %s, rule on '%s' (%s): %s", profile->name,
                   rule->criterion, rule->text, why);
}

static bw_status refuse_unknown(const bw_profile *profile,
                                const bw_profile_rule *rule, bw_error *err)
{
    const char *names[COUNT(terms)];
    for (size_t i = 0; i < COUNT(terms); i++)
        names[i] = terms[i].criterion;
    const char *near = bw_text_nearest(rule->criterion, names, COUNT(names));
    return bw_fail(err, BW_ERR_INPUT, profile->file, rule->line,
                   "profile %s: no rule can be on the criterion '%s'%s%s%s",
                   profile->name, rule->criterion,
                   near != NULL ? "; did you mean " : "",
                   near != NULL ? near : "", near != NULL ? "?" : "");
}

static bw_status check_rule(const bw_profile *profile,
                            const bw_profile_rule *rule, bw_error *err)
{
    bool seen = strcmp(rule->mark, "[S]") == 0;
    if (rule->decides && !seen)
        return refuse(profile, rule, "what was not seen decides nothing", err);
    if (rule->criterion[0] == '\0')
        return BW_OK;
    const bw_profile_term *term = bw_profile_term_of(rule->criterion);
    if (term == NULL)
        return refuse_unknown(profile, rule, err);
    if (strcmp(rule->unit, term->unit) != 0)
        return refuse(profile, rule, "its limit is in another unit", err);
    if (!term->either && rule->strict != term->strict)
        return refuse(profile, rule, "at its limit it is judged otherwise",
                      err);
    if (bw_profile_loosens(term, rule->limit))
        return refuse(profile, rule, "it loosens the default limit", err);
    if (!(rule->limit >= term->low && rule->limit <= term->high))
        return refuse(profile, rule, "there can be no such limit", err);
    if (strcmp(rule->criterion, BW_STEADY_CRITERION) == 0 &&
        !bw_profile_steady_sound(&rule->steady))
        return refuse(profile, rule, "no steady check can be made at that",
                      err);
    if (term->standard && (!rule->decides || rule->applies != BW_FOR_ALL))
        return refuse(profile, rule,
                      "a default limit is tightened for every wall, and "
                      "decides",
                      err);
    return BW_OK;
}

bw_status bw_profile_check(const bw_profile *profile, bw_error *err)
{
    for (size_t i = 0; i < profile->rule_count; i++)
        BW_TRY(check_rule(profile, &profile->rule[i], err));
    return BW_OK;
}
