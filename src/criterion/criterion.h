#ifndef BW_CRITERION_CRITERION_H
#define BW_CRITERION_CRITERION_H

/* The ids of the criteria, in the order of the table. */

#include "bothways/criterion.h"

#define CRITERION(id, ...) id,
typedef enum bw_criterion_id {
#include "every_criterion.h"
    BW_C_COUNT
} bw_criterion_id;
#undef CRITERION

/* Surface humidity against mould [%]: ISO 13788 [M-hi]. */
#define BW_SURFACE_RH 80

/* id < BW_C_COUNT; never NULL. */
const bw_criterion_facts *bw_criterion_facts_of(bw_criterion_id id);

/* By its name, which must be one. */
bw_criterion_id bw_criterion_named(const char *name);

/* At the limit it fails. */
bool bw_bound_strict(bw_criterion_bound bound);

/* The limit is a least value, else a most. */
bool bw_bound_least(bw_criterion_bound bound);

/* Of what a rule set may limit it to the end that is the loosest [its unit]. */
double bw_criterion_loosest(const bw_criterion_facts *facts);

#endif
