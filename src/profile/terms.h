#ifndef BW_PROFILE_TERMS_H
#define BW_PROFILE_TERMS_H

/* What a rule of a profile may limit, and within which bounds. */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/profile.h"

#define BW_STEADY_CRITERION "steady-design-check"
#define BW_STEADY_COLDEST (-60.0) /* degC */
#define BW_STEADY_WARMEST 50.0

typedef struct bw_profile_term {
    const char *criterion;
    const char *unit; /* of the criterion's row */
    bool least;       /* the limit is a least value, else a most */
    bool strict;      /* at the limit it is not met */
    bool either;      /* strict or not, as the rule says */
    bool standard;    /* a default criterion, whose limit may only be
                         tightened: one of the bounds is the default limit */
    double low, high; /* what a limit may be, in `unit` */
} bw_profile_term;

size_t bw_profile_term_count(void);

/* i < bw_profile_term_count(). */
const bw_profile_term *bw_profile_term_at(size_t i);

/* The term of a criterion, or NULL. */
const bw_profile_term *bw_profile_term_of(const char *criterion);

/* Is a limit looser than the default that it is to tighten? */
bool bw_profile_loosens(const bw_profile_term *term, double limit);

/* The default limit of a standard term. */
double bw_profile_loosest(const bw_profile_term *term);

/* Can the steady check be made at this? */
bool bw_profile_steady_sound(const bw_profile_steady *at);

/* "least", "below" or "most": how the limit is written in a file. */
const char *bw_profile_bound(const bw_profile_term *term);

#endif
