#ifndef BW_PROFILE_SET_H
#define BW_PROFILE_SET_H

/* Filling a set of profiles: make one, add to it; then it is immutable. */

#include "arena.h"
#include "bothways/profile.h"

/* A set that holds the default alone, or NULL when out of memory. */
bw_profiles *bw_profiles_new(void);

/* Where the strings and rules of its profiles live. */
bw_arena *bw_profiles_arena(bw_profiles *profiles);

/* Adds a copy of a profile whose strings and rules live in the arena. A name
 * that is taken is refused at profile->file, profile->line.
 * BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY */
bw_status bw_profiles_add(bw_profiles *profiles, const bw_profile *profile,
                          bw_error *err);

#endif
