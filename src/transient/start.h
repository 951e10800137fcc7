#ifndef BW_TRANSIENT_START_H
#define BW_TRANSIENT_START_H

/* What a run starts from: the moisture of layers and framing as given and else
 * 80 % RH, or a state of an earlier run; and water put at a face on top. */

#include "boundary.h"
#include "model.h"

/* Practice with EN 15026, which leaves the start to the user: in October, in
 * balance with 80 % RH (guideline WTA 6-2, from memory, med). */
#define BW_START_RH 0.80

typedef struct bw_start {
    double *v;       /* 2n, the state */
    bool by_rule;    /* something starts at BW_START_RH */
    bw_range wetted; /* cells; none: count 0 */
    size_t place;    /* of these the one at the face */
} bw_start;

/* z of a slab's moisture as the assembly gives it; false: it does not. */
bool bw_start_given(double *z, const bw_model *model,
                    const bw_assembly *assembly, size_t slab);

/* Air [degC] and heat surface coefficients [W/(m2 K)] on both sides. */
typedef struct bw_start_sides {
    double theta_e, h_e, theta_i, h_i;
} bw_start_sides;

/* Temperatures of a state whose moisture is there, straight over resistance.
 * False: out of memory. */
bool bw_start_straight(double *v, bw_model *model, const bw_start_sides *sides);

/* Fills start->v, from the arena of the model, for the instant `now`. Where the
 * options close a side, model->wall gets other faces. BW_ERR_DOMAIN: a state of
 * another wall; water that is put nowhere, or more than there is room for;
 * closed with no water put. */
bw_status bw_start_make(bw_start *start, bw_model *model,
                        const bw_assembly *assembly, const bw_year *year,
                        const bw_hourly *now,
                        const bw_transient_options *options, bw_error *err);

#endif
