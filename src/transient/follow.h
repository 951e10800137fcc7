#ifndef BW_TRANSIENT_FOLLOW_H
#define BW_TRANSIENT_FOLLOW_H

/* A wall under air that is told hour by hour on both sides, for as long as it
 * is told: no year, no sun, no sky, no rain. Between two hours temperatures and
 * vapour pressures run straight. */

#include "bothways/transient.h"

/* Where it is looked at, in a section. */
typedef struct bw_follow_place {
    size_t slab;  /* its inner face, or with `outer` its outer face */
    bool outer;   /* at a membrane's face: on the side of the slab named */
    bool within;  /* inside the slab, which is no membrane, */
    double depth; /* so far from its outer face, m */
} bw_follow_place;

typedef struct bw_followed {
    double theta, p; /* degC, Pa */
} bw_followed;

typedef struct bw_follow {
    const bw_boundary *hour; /* the air on both sides at the hours */
    size_t hours;            /* > 1 */
    double h_e, beta_e;      /* W/(m2 K), kg/(m2 s Pa) */
    double h_i, beta_i;
    /* RH at depths from the outer face of the section [m], rising, to start
     * from where the assembly gives no moisture; straight between them */
    size_t starts;
    const double *start_depth, *start_phi;
    size_t places;
    const bw_follow_place *place;
    const bw_transient_options *options; /* cells, tolerances, what may be
                                            missing; progress */
} bw_follow;

/* out[hours][places]. BW_ERR_DOMAIN, BW_ERR_NUMERIC, BW_ERR_MEMORY,
 * BW_ERR_CANCELLED as bw_transient. */
bw_status bw_follow_run(bw_followed *out, const bw_assembly *assembly,
                        const bw_section *section, const bw_follow *follow,
                        bw_error *err);

/* Surface coefficients of outdoor air without sun and wind column, as
 * side_hours.h; of a room, or of a cavity's air. */
void bw_follow_outdoors(bw_follow *follow, const bw_outdoors *outdoors);
void bw_follow_cavity(bw_follow *follow);
void bw_follow_room(bw_follow *follow, const bw_indoors *indoors);

#endif
