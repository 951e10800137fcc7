#ifndef BOTHWAYS_PROFILE_H
#define BOTHWAYS_PROFILE_H

/** @file
 * National rule sets, as data: one file each, which a national body could
 * write and a user add. A profile adds its rules to the default criteria or
 * tightens their limits; it takes none away and loosens none. Each rule says
 * whose it is, in which edition, and how sure that is; a rule whose text was
 * not seen, or only in a weak source, is listed and decides nothing.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
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

/** A method that a rule wants to decide beside a simulation. */
typedef enum bw_profile_demand {
    BW_DEMANDS_NOTHING = 0,
    BW_DEMANDS_MONTHLY, /**< within its limits its criteria decide, too */
    BW_DEMANDS_PERIOD,  /**< the block climate: its criteria decide, which
                             decide nothing without this */
} bw_profile_demand;

/** What the steady check is made at. */
typedef struct bw_profile_steady {
    double theta_i, phi_i; /**< degC; relative humidity, above 0 to 1 */
    double theta_e;        /**< degC */
    double phi_e;          /**< 0: the rule names none; 0.95 is taken */
} bw_profile_steady;

/** One rule. Strings are never NULL. */
typedef struct bw_profile_rule {
    const char *criterion; /**< the row it makes or whose limit it tightens,
                                "closing-moisture" for moisture readings
                                (audit), or "": listed only, or a demand */
    bw_profile_demand demands; /**< of a rule without criterion */
    bw_profile_case applies;
    double limit;          /**< in `unit`; of no meaning if listed only */
    const char *unit;
    bw_profile_steady steady; /**< of "steady-design-check" alone */
    bool strict;           /**< at the limit it is not met */
    bool decides;
    const char *text;      /**< what it asks */
    const char *source;    /**< rule and edition, as printed */
    const char *edition;   /**< "" if the source has none */
    const char *mark;      /**< "[S]" seen, "[W]" seen in a weak source, "[K]"
                                background knowledge */
    long line;             /**< in the file of the profile; 0: unknown */
} bw_profile_rule;

/** A rule set. */
typedef struct bw_profile {
    const char *name;  /**< as --profile takes it */
    const char *title;
    size_t rule_count;
    const bw_profile_rule *rule;
    const char *file;  /**< where it was read; NULL or "": built in */
    long line;
} bw_profile;

/** The criteria of docs/methods.md alone: no rules. */
BW_API const bw_profile *bw_profile_default(void);

/** Is it one that can be judged by: every criterion known, every limit in its
 *  unit and possible, none looser than the default? A profile that was read
 *  is; bw_assess asks this of any.
 *  @return BW_OK, BW_ERR_INPUT */
BW_API bw_status bw_profile_check(const bw_profile *profile, bw_error *err);

/** Profiles that were read, after the default. Opaque, immutable. */
typedef struct bw_profiles bw_profiles;

/**
 * Read every *.xml of a folder, in name order.
 *
 * @param[out] out    the profiles; free with bw_profiles_free, after all that
 *                    was made by one of them
 * @param[in]  folder
 * @param[out] err    the first fault, with file and line
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_IO, BW_ERR_MEMORY
 */
BW_API bw_status bw_profiles_read(bw_profiles **out, const char *folder,
                                  bw_error *err);

/** The same of one file: the profile is bw_profiles_at(*out, 1). */
BW_API bw_status bw_profiles_read_file(bw_profiles **out, const char *file,
                                       bw_error *err);

/** The same of one that stands in memory: the whole file, UTF-8, ended by a NUL;
 *  `name` is what messages and results call it. */
BW_API bw_status bw_profiles_read_text(bw_profiles **out, const char *text,
                                       const char *name, bw_error *err);

/** Frees them; NULL is allowed. */
BW_API void bw_profiles_free(bw_profiles *profiles);

/** How many there are; at least one, the default. */
BW_API size_t bw_profiles_count(const bw_profiles *profiles);

/** The i-th, or NULL. The first is the default. Borrowed. */
BW_API const bw_profile *bw_profiles_at(const bw_profiles *profiles, size_t i);

/** The profile of that name (NULL: the default), or NULL. Borrowed. */
BW_API const bw_profile *bw_profiles_find(const bw_profiles *profiles,
                                          const char *name);

/** The name nearest to a misspelt one, or NULL if none is near. Borrowed. */
BW_API const char *bw_profiles_suggest(const bw_profiles *profiles,
                                       const char *name);

BW_END_C

#endif
