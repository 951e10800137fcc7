/* A file of a rule set: refused well, or every rule one to judge by. */

#include <math.h>
#include <string.h>

#include "criteria/rows.h"
#include "fuzz.h"

static void check_rule(const bw_profile_rule *rule)
{
    FUZZ_REQUIRE(rule->text != NULL && rule->text[0] != '\0');
    FUZZ_REQUIRE(rule->source != NULL && rule->source[0] != '\0');
    FUZZ_REQUIRE(rule->edition != NULL && rule->line > 0);
    FUZZ_REQUIRE(strlen(rule->mark) == 3 && isfinite(rule->limit));
    FUZZ_REQUIRE(!rule->decides || strcmp(rule->mark, "[S]") == 0);
}

/* Whatever it asks, no default limit is looser under it. */
static void check_limits(const bw_profile *profile)
{
    for (int i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_id id = (bw_criterion_id)i;
        const bw_criterion_facts *facts = bw_criterion_facts_of(id);
        for (size_t k = 0; k < facts->limit_count; k++) {
            const double limit = bw_limit_under(profile, id, k);
            FUZZ_REQUIRE(bw_bound_least(facts->bound)
                             ? limit >= facts->limit[k].value
                             : limit <= facts->limit[k].value);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_error err = {0};
    bw_profiles *set = NULL;
    bw_status status = bw_profiles_read_file(&set, fuzz_file(data, size), &err);
    if (status != BW_OK) {
        fuzz_check_refusal(status, &err);
        return 0;
    }
    FUZZ_REQUIRE(bw_profiles_count(set) == 2);
    const bw_profile *profile = bw_profiles_at(set, 1);
    FUZZ_REQUIRE(profile->name[0] != '\0' && profile->title[0] != '\0');
    FUZZ_REQUIRE(bw_profiles_find(set, profile->name) == profile);
    FUZZ_REQUIRE(profile->rule_count > 0);
    FUZZ_REQUIRE(bw_profile_check(profile, &err) == BW_OK);
    for (size_t i = 0; i < profile->rule_count; i++)
        check_rule(&profile->rule[i]);
    check_limits(profile);
    bw_profiles_free(set);
    return 0;
}
