#include "profile_set.h"

#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "text.h"

/* Invariant: profile[0] is the default; no name stands twice; name[i] is that
 * of profile[i]. */

struct bw_profiles {
    bw_arena arena;
    size_t count, room;
    const bw_profile **profile;
    const char **name;
};

static const bw_profile standard = {
    .name = "default", .title = "the criteria of docs/methods.md alone"};

const bw_profile *bw_profile_default(void)
{
    return &standard;
}

static bool make_room(bw_profiles *set)
{
    size_t room = set->room, same = set->room;
    const bw_profile **profile = bw_arena_more(
        &set->arena, set->profile, set->count, &room, sizeof *profile);
    const char **name = bw_arena_more(&set->arena, set->name, set->count, &same,
                                      sizeof *name);
    if (profile == NULL || name == NULL)
        return false;
    set->profile = profile;
    set->name = name;
    set->room = room;
    return true;
}

static bool append(bw_profiles *set, const bw_profile *profile)
{
    if (!make_room(set))
        return false;
    set->profile[set->count] = profile;
    set->name[set->count++] = profile->name;
    return true;
}

bw_profiles *bw_profiles_new(void)
{
    bw_profiles *set = calloc(1, sizeof *set);
    if (set == NULL || append(set, &standard))
        return set;
    bw_profiles_free(set);
    return NULL;
}

bw_arena *bw_profiles_arena(bw_profiles *profiles)
{
    return &profiles->arena;
}

static bw_status refuse_taken(const bw_profile *taken,
                              const bw_profile *profile, bw_error *err)
{
    if (taken == &standard)
        return bw_fail(err, BW_ERR_INPUT, profile->file, profile->line,
                       "<profile> id=\"%s\" is the name of the built-in rule "
                       "set; give this one another id",
                       profile->name);
    return bw_fail(err, BW_ERR_INPUT, profile->file, profile->line,
                   "<profile> id=\"%s\" is already taken by %s:%ld; give one "
                   "of the two another id",
                   profile->name, taken->file, taken->line);
}

bw_status bw_profiles_add(bw_profiles *profiles, const bw_profile *profile,
                          bw_error *err)
{
    const bw_profile *taken = bw_profiles_find(profiles, profile->name);
    if (taken != NULL)
        return refuse_taken(taken, profile, err);
    bw_profile *copy = BW_NEW(&profiles->arena, bw_profile, 1);
    BW_TRY_MEMORY(copy != NULL, err);
    *copy = *profile;
    return append(profiles, copy) ? BW_OK : bw_fail_memory(err);
}

void bw_profiles_free(bw_profiles *profiles)
{
    if (profiles == NULL)
        return;
    bw_arena_release(&profiles->arena);
    free(profiles);
}

size_t bw_profiles_count(const bw_profiles *profiles)
{
    return profiles->count;
}

const bw_profile *bw_profiles_at(const bw_profiles *profiles, size_t i)
{
    return i < profiles->count ? profiles->profile[i] : NULL;
}

const bw_profile *bw_profiles_find(const bw_profiles *profiles,
                                   const char *name)
{
    if (name == NULL)
        return &standard;
    for (size_t i = 0; i < profiles->count; i++)
        if (strcmp(name, profiles->name[i]) == 0)
            return profiles->profile[i];
    return NULL;
}

const char *bw_profiles_suggest(const bw_profiles *profiles, const char *name)
{
    return bw_text_nearest(name, profiles->name, profiles->count);
}
