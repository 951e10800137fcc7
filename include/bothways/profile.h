#ifndef BOTHWAYS_PROFILE_H
#define BOTHWAYS_PROFILE_H

/** @file
 * National rule sets. A profile adds its rules to the default criteria and
 * takes none away. Each rule says whose it is and how sure that is; a rule
 * whose text was not seen, or only in a weak source, is listed and decides
 * nothing.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/export.h"

BW_BEGIN_C

/** Which walls a rule is for. */
typedef enum bw_profile_case {
    BW_FOR_ALL,
    BW_FOR_CLASS_1_TO_3, /**< indoor humidity classes of ISO 13788 */
    BW_FOR_CLASS_4_TO_5,
    BW_FOR_MASONRY_FACE, /**< the outermost layer is masonry */
    BW_FOR_OTHER_FACE,
    BW_FOR_WALLS,
    BW_FOR_ROOFS,
} bw_profile_case;

/** One rule. Strings are static and never NULL. */
typedef struct bw_profile_rule {
    const char *criterion; /**< the row it makes, "closing-moisture" for
                                moisture readings (audit), or "": listed only */
    bw_profile_case applies;
    double limit;          /**< in `unit`; of no meaning if listed only */
    const char *unit;
    bool strict;           /**< at the limit it is not met */
    bool decides;
    const char *text;      /**< what it asks */
    const char *source;    /**< rule and edition */
    const char *mark;      /**< "[S]" seen, "[W]" seen in a weak source, "[K]"
                                background knowledge */
} bw_profile_rule;

/** A rule set. */
typedef struct bw_profile {
    const char *name;  /**< as --profile takes it */
    const char *title;
    size_t rule_count;
    const bw_profile_rule *rule;
} bw_profile;

/** How many there are; at least one, the default. */
BW_API size_t bw_profile_count(void);

/** The i-th, or NULL. The first is "default". */
BW_API const bw_profile *bw_profile_at(size_t i);

/** The profile of that name (NULL: the default), or NULL. */
BW_API const bw_profile *bw_profile_find(const char *name);

/** The name nearest to a misspelt one, or NULL if none is near. */
BW_API const char *bw_profile_suggest(const char *name);

BW_END_C

#endif
