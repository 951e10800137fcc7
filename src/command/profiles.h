#ifndef BW_COMMAND_PROFILES_H
#define BW_COMMAND_PROFILES_H

/* The rule set of --profile. */

#include "bothways/profile.h"
#include "settings.h"

/* Reads it from the shipped ones by name, or from its own file; *profile stays
 * NULL for the default. Free *out with bw_profiles_free whatever is
 * returned. */
bw_status profiles_read(bw_profiles **out, const bw_profile **profile,
                        const settings *given, bw_error *err);

/* Prints the shipped rule sets, or the file of --profile, with their rules and
 * sources. */
bw_status profiles_list(const settings *given, bw_error *err);

#endif
