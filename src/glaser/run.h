#ifndef BW_GLASER_RUN_H
#define BW_GLASER_RUN_H

/* One monthly run while it is computed: nodes, temperatures, water. The
 * functions below do the steps of docs/methods.md section 3, one file each. */

#include <stdint.h>

#include "arena.h"
#include "taut.h"
#include "variable.h"

#define BW_NO_NODE SIZE_MAX

/* More water than this stands; less is rounding [kg/m2]. */
#define BW_STANDS 1e-9

/* The section cut into segments between nodes, outside to inside. */
typedef struct bw_grid {
    size_t nodes, slabs;
    size_t *face;  /* [slabs + 1] node of each slab's outer face, then the
                      inner surface */
    size_t *slab;  /* [nodes - 1] the slab a segment lies in */
    double *share; /* [nodes - 1] the part of its slab it is, 0..1 */
    double *depth; /* [nodes] depth in the slab on its outer side, part of its
                      thickness; 0 at the outer surface */
} bw_grid;

/* Part of the wall vapour is followed in. Its ends are held at a pressure, or
 * closed: no vapour passes, and the node there can hold water. */
typedef struct bw_domain {
    size_t first, last;
    bool first_closed, last_closed;
} bw_domain;

typedef struct bw_water_peak {
    double mass; /* kg/m2 */
    int month;
} bw_water_peak;

/* What condenses at a node, or dries. */
typedef struct bw_flow {
    size_t node;
    double rate; /* kg/(m2 s), > 0 condensing */
} bw_flow;

/* The rates of a month for a set of wet nodes. */
typedef struct bw_known {
    size_t flow, count; /* where in `kept`, how many */
    size_t before;      /* 1 + the one of that month before it; 0: none */
    double inflow;      /* kg/(m2 s) */
} bw_known;

typedef struct bw_rates {
    const bw_flow *flow; /* [count] of the profile found last: the nodes whose
                            rate is not 0, outside to inside */
    size_t count;
    bw_flow *kept;
    size_t used, room;
    size_t words;  /* of a set of nodes, a bit each */
    uint64_t *wet; /* [known_count + 1][words] */
    bw_known *known;
    size_t known_count, latest[BW_MONTHS]; /* 1 + index; 0: none */
} bw_rates;

typedef struct bw_run {
    const bw_section *section;
    const bw_boundary *boundary;
    double seconds[BW_MONTHS];
    bw_grid grid;
    size_t domain_count;
    bw_domain domain[2];
    bool *may_hold; /* [nodes] water may stand here */
    double *theta;  /* [12][nodes] degC */
    double *psat;   /* [12][nodes] Pa */

    double *sd;      /* [slabs] m, in use */
    double *segment; /* [nodes - 1] m, from sd */
    bw_variable variable;
    int solving;    /* month the variable layers are found for */
    bool converged; /* in all months so far */

    size_t middle; /* node shown in a section of one slab, or BW_NO_NODE */
    size_t leak;   /* node, or BW_NO_NODE */
    double source[BW_MONTHS]; /* kg/(m2 s) of vapour arriving there */
    size_t held;      /* node kept wet whatever happens, or BW_NO_NODE */
    double held_gain; /* kg/m2 that went there */

    double *mass;    /* [nodes] kg/m2 of water; set by bw_run_put alone */
    uint64_t *moist; /* [rates.words] a bit each node: is there any? */
    double *p;       /* [nodes] Pa, of the last profile that was filled */
    double *rate;    /* [nodes] kg/(m2 s), > 0 condensing */
    bw_rates rates;
    double inflow;   /* kg/(m2 s) into the domains, source included */
    bw_vertex *hull; /* [nodes] scratch */

    int start;
    double months;                         /* since the start */
    double condensed, evaporated, entered; /* kg/m2 since the start */

    /* of the first cycle, [12][nodes] and [12][slabs] */
    double *first_p, *first_gain, *first_mass, *first_sd;
    bool condenses_from_dry[BW_MONTHS];
    bw_water_peak *first_peak; /* [nodes] */
    bw_water_peak *year_peak;  /* [nodes] of the latest year */
    bool *stood;               /* [nodes] water stood in any year */

    size_t wet_node; /* of a drying test, or BW_NO_NODE */
    bool dried, wet_plane_dried, condensed_elsewhere;
    double months_to_dry, wet_plane_months;
} bw_run;

enum { BW_WORD = 64 }; /* nodes in a word of a set */

static inline void bw_run_put(bw_run *run, size_t node, double mass)
{
    uint64_t *word = &run->moist[node / BW_WORD];
    const uint64_t bit = (uint64_t)1 << node % BW_WORD;
    run->mass[node] = mass;
    *word = mass > 0.0 ? *word | bit : *word & ~bit;
}

/* grid.c. `extra` planes get a node of their own. */
bw_status bw_grid_make(bw_grid *grid, bw_arena *arena,
                       const bw_section *section, const bw_plane_at *extra,
                       size_t extra_count, bw_error *err);
size_t bw_grid_node(const bw_grid *grid, const bw_section *section,
                    bw_plane_at at); /* BW_NO_NODE if none is there */
bw_plane_at bw_grid_at(const bw_grid *grid, const bw_section *section,
                       size_t node);

/* setup.c */
bw_status bw_run_make(bw_run *run, bw_arena *arena, const bw_section *section,
                      const bw_boundary *boundary,
                      const bw_monthly_options *options, bw_error *err);
bw_status bw_run_place(bw_run *run, const bw_monthly_options *options,
                       bw_error *err);
void bw_run_set_segments(bw_run *run);

/* profile.c: rates at all nodes and inflow; pressures too if `fill`. */
void bw_profile(bw_run *run, int month, bool fill);

/* rates.c: the same rates, drawn or remembered, into run->rates and inflow,
 * once domains, leak and constant sd are final. False: remembered; run->p, rate
 * and the segments are then of another profile. With `fill` that is so only
 * where no node is wet. */
bw_status bw_rates_make(bw_rates *rates, bw_arena *arena, size_t nodes,
                        bw_error *err);
bool bw_rates_find(bw_run *run, int month, bool fill);

/* setup.c: sd of the variable layers for the month and the water that stands
 * now; leaves run->sd, segment, p and rate as solved. */
void bw_run_variable(bw_run *run, int month);

/* choice.c: sets run->sd by the rule for mu and says which were wet. */
bw_status bw_run_choose_mu(bw_run *run, bw_arena *arena, bw_mu_choice choice,
                           bool *used_wet, bw_error *err);

/* year.c */
void bw_dry_months(bw_run *run); /* first_p, first_sd, condenses_from_dry */
void bw_month_step(bw_run *run, int month, bool first);
double bw_water(const bw_run *run); /* kg/m2 in all */
bool bw_is_dry(const bw_run *run);  /* no water anywhere */
double bw_reserve(bw_run *run, size_t node);

/* result.c */
bw_status bw_result_fill(bw_monthly_result *out, const bw_run *run,
                         const bool *used_wet, bw_error *err);
size_t bw_result_plane(const bw_monthly_result *result,
                       bw_plane_at at); /* a plane it reports */

#endif
