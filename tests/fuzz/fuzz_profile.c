/* A file of a rule set: refused well, or every rule one to judge by. */

#include <math.h>
#include <string.h>

#include "criteria/rules.h"
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
    const bw_limits *d = bw_limits_default();
    const bw_limits under = bw_limits_under(profile);
    FUZZ_REQUIRE(under.condensate <= d->condensate);
    FUZZ_REQUIRE(under.non_absorbing <= d->non_absorbing);
    FUZZ_REQUIRE(under.reserve_wall >= d->reserve_wall);
    FUZZ_REQUIRE(under.reserve_roof >= d->reserve_roof);
    FUZZ_REQUIRE(under.wood_moisture <= d->wood_moisture);
    FUZZ_REQUIRE(under.mould_hidden <= d->mould_hidden);
    FUZZ_REQUIRE(under.decay_dose <= d->decay_dose);
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
