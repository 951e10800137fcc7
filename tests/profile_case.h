#ifndef BW_TESTS_PROFILE_CASE_H
#define BW_TESTS_PROFILE_CASE_H

/* The shipped rule sets, read once by the suite that asks for one. */

#include <check.h>

#include "bothways/profile.h"
#include "criterion/criterion.h"

#define SHIPPED_PROFILES BW_SOURCE_DIR "/assemblies/profiles"

static inline const bw_profiles *shipped_profiles(void)
{
    static bw_profiles *all;
    bw_error err;
    if (all == NULL)
        ck_assert_msg(bw_profiles_read(&all, SHIPPED_PROFILES, &err) == BW_OK,
                      "%s:%ld %s", err.file, err.line, err.message);
    return all;
}

static inline const bw_profile *profile_named(const char *name)
{
    const bw_profile *found = bw_profiles_find(shipped_profiles(), name);
    ck_assert_ptr_nonnull(found);
    return found;
}

#endif
