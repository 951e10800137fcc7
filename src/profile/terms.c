/* What a rule may limit.
 *
 * Invariant: of a criterion that is judged by default the loose end of what a
 * rule may say is its default limit (test_profile compares them), so what lies
 * within only tightens. The other ends are of what is possible at all: a slip
 * of unit falls out. */

#include "terms.h"

#include <string.h>

#include "fail.h"
#include "text.h"

static bool is_term(const bw_criterion_facts *facts)
{
    return facts->may_be[1] > 0.0;
}

const bw_criterion_facts *bw_profile_term(const char *criterion)
{
    const bw_criterion_facts *facts = bw_criteria_find(criterion);
    return facts != NULL && is_term(facts) ? facts : NULL;
}

size_t bw_profile_term_names(const char *names[BW_C_COUNT])
{
    size_t count = 0;
    for (size_t i = 0; i < BW_C_COUNT; i++)
        if (is_term(bw_criteria_at(i)))
            names[count++] = bw_criteria_at(i)->name;
    return count;
}

bool bw_profile_standard(const bw_criterion_facts *term)
{
    return term->limit_count > 0;
}

bool bw_profile_loosens(const bw_criterion_facts *term, double limit)
{
    const double loosest = bw_criterion_loosest(term);
    return bw_profile_standard(term) &&
           (bw_bound_least(term->bound) ? limit < loosest : limit > loosest);
}

static bool steady_sound(const bw_profile_steady *at)
{
    return at->theta_i >= BW_STEADY_COLDEST &&
           at->theta_i <= BW_STEADY_WARMEST &&
           at->theta_e >= BW_STEADY_COLDEST &&
           at->theta_e <= BW_STEADY_WARMEST && at->phi_i > 0.0 &&
           at->phi_i <= 1.0 && at->phi_e >= 0.0 && at->phi_e <= 1.0;
}

const char *bw_profile_bound(const bw_criterion_facts *term)
{
    if (bw_bound_least(term->bound))
        return "least";
    return bw_bound_strict(term->bound) ? "below" : "most";
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
    const char *names[BW_C_COUNT];
    const char *near = bw_text_nearest(rule->criterion, names,
                                       bw_profile_term_names(names));
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
    const bw_criterion_facts *term = bw_profile_term(rule->criterion);
    if (term == NULL)
        return refuse_unknown(profile, rule, err);
    if (strcmp(rule->unit, term->unit) != 0)
        return refuse(profile, rule, "its limit is in another unit", err);
    if (term->bound != BW_BELOW_OR_AT_MOST &&
        rule->strict != bw_bound_strict(term->bound))
        return refuse(profile, rule, "at its limit it is judged otherwise",
                      err);
    if (bw_profile_loosens(term, rule->limit))
        return refuse(profile, rule, "it loosens the default limit", err);
    if (!(rule->limit >= term->may_be[0] && rule->limit <= term->may_be[1]))
        return refuse(profile, rule, "there can be no such limit", err);
    if (strcmp(rule->criterion, BW_STEADY_CRITERION) == 0 &&
        !steady_sound(&rule->steady))
        return refuse(profile, rule, "no steady check can be made at that",
                      err);
    if (bw_profile_standard(term) &&
        (!rule->decides || rule->applies != BW_FOR_ALL))
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
