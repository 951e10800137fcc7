#ifndef BW_GLASER_VARIABLE_H
#define BW_GLASER_VARIABLE_H

/* The sd of humidity-variable layers, and which cup of all others: for a
 * method that can draw a profile for given sd. */

#include "bothways/glaser.h"

enum { BW_VARIABLE_MOST = 3 };

/* The variable layers of a section and the profile they are found with. */
typedef struct bw_variable {
    const bw_section *section;
    double *sd; /* [slabs] m, in use */
    size_t count;
    size_t slab[BW_VARIABLE_MOST];
    void (*draw)(void *ctx); /* the profile for sd as it stands */
    double (*mean_rh)(const void *ctx, size_t slab); /* of its two faces */
    void *ctx;
} bw_variable;

/* Fills count and slab. */
void bw_variable_find(bw_variable *v);

/* sd and the profile together, as drawn last; with no variable layer nothing
 * is drawn. False: not every layer is on its curve. With more than
 * BW_VARIABLE_MOST they are held in the middle of the humidity range. */
bool bw_variable_solve(const bw_variable *v);

/* Does the choice ask for the mean RH of the slabs? */
bool bw_mu_by_humidity(const bw_section *section, bw_mu_choice choice);

/* Which slabs take the wet-cup value, and sd [m] so chosen; a variable layer
 * keeps its own. `mean_rh` NULL: not asked for. */
void bw_mu_choose(bool *wet, double *sd, const bw_section *section,
                  bw_mu_choice choice, const double *mean_rh);

#endif
