#ifndef BW_PROFILE_TERMS_H
#define BW_PROFILE_TERMS_H

/* What a rule of a profile may limit, and within which bounds: the criteria
 * that say so. */

#include "bothways/profile.h"
#include "criterion.h"

#define BW_STEADY_CRITERION "steady-design-check"
#define BW_STEADY_COLDEST (-60.0) /* degC */
#define BW_STEADY_WARMEST 50.0

/* The criterion of this name that a rule may limit, or NULL. */
const bw_criterion_facts *bw_profile_term(const char *criterion);

/* Their names, in the order of the table; returns how many. */
size_t bw_profile_term_names(const char *names[BW_C_COUNT]);

/* A default criterion, whose limit may only be tightened. */
bool bw_profile_standard(const bw_criterion_facts *term);

/* Is a limit looser than the default that it is to tighten? */
bool bw_profile_loosens(const bw_criterion_facts *term, double limit);

/* "least", "below" or "most": how the limit is written in a file. */
const char *bw_profile_bound(const bw_criterion_facts *term);

#endif
