#ifndef BW_INPUT_PROFILE_READER_H
#define BW_INPUT_PROFILE_READER_H

/* What the parts of the profile reader share. */

#include "bothways/profile.h"
#include "profile_set.h"
#include "terms.h"
#include "xml.h"

typedef struct bw_profile_reader {
    bw_profiles *set;
    bw_arena *arena;
    bw_xml xml;
    bw_error *err;
} bw_profile_reader;

/* least=, most= or below= of a rule on the criterion of `term`: limit, unit
 * and strictness. */
bw_status bw_profile_limit(bw_profile_rule *rule, const bw_profile_reader *r,
                           const xmlNode *node, const bw_criterion_facts *term);

#endif
