#ifndef BW_JUNCTION_VAPOUR_YEAR_H
#define BW_JUNCTION_VAPOUR_YEAR_H

/* The monthly method in two dimensions. Water is kg per metre across the
 * drawing at a node; divided by the length of face a node stands for it is
 * kg/m2. */

#include "bothways/glaser.h"
#include "vapour_nodes.h"

/* A raster made ready: its nodes, its temperatures, its members (cells of one
 * material that touch without a film between). */
typedef struct bw_vapour {
    const bw_raster *grid;
    bw_nodes heat, nodes;
    double *weight; /* [environments][heat.count] */
    size_t members;
    size_t *member; /* [cells] */
    double *face;   /* [nodes.count] m of face that a node stands for: of faces
                       between members, films and environments; of a node
                       inside a member its span. Water over it is kg/m2 */
} bw_vapour;

/* surface: m2 K/W of each environment. All memory is the arena's.
 * BW_OK; BW_ERR_DOMAIN: a part touches no environment; BW_ERR_MEMORY */
bw_status bw_vapour_make(bw_vapour *out, bw_arena *arena, const bw_raster *grid,
                         const double *surface, bw_error *err);

/* Does something else than its member lie beyond this side of a filled cell? A
 * side where the drawing is cut is no face. */
bool bw_vapour_has_face(const bw_vapour *vapour, size_t i, size_t j,
                        bw_cell_side side);

/* Part of a line of the grid, seen from one side of it. */
typedef struct bw_vapour_line {
    size_t count;
    size_t *node;   /* each once */
    double *length; /* m of it that a node stands for */
    double total;   /* m */
} bw_vapour_line;

/* Air of an environment in the middle of the months, January first. */
typedef struct bw_vapour_air {
    double theta[BW_MONTHS]; /* degC */
    double p[BW_MONTHS];     /* Pa */
} bw_vapour_air;

typedef struct bw_vapour_options {
    bw_mu_choice mu; /* by member; not those of an inner and an outer part */
    int start_month; /* 0..11; -1: by the standard's rule (drying test: three
                        before the coldest outside) */
    int max_cycles;  /* 0: 10 years */
    double wetting;  /* kg/m2 put on `wet` at the start; 0: no drying test */
    bw_vapour_line wet;
    bw_drying_ways ways; /* inwards: towards rooms; else outside and ground */
    bool has_air_flow;
    double air_flow[BW_MONTHS]; /* m3/(m2 s) of the room's air to `leak` */
    bw_vapour_line leak;
    size_t leaking_room; /* environment */
    bool soaked;         /* the inward run: a member is held at saturation, with
                            what faces it; not with a drying test */
    size_t soaked_member;
    size_t place_count; /* whose reserve is asked for */
    const bw_vapour_line *place;
} bw_vapour_options;

/* All of the arena. Of the first cycle: [12][nodes], calendar order. */
typedef struct bw_vapour_result {
    double *theta, *psat, *p; /* degC, Pa; p at the start of the month */
    double *gain;             /* kg/m in the month, < 0 drying */
    double *mass;             /* kg/m at its end */
    double *film_sd;          /* [12][pairs] m */
    double *flow;             /* [12][environments] kg/m that came from it */
    double *peak;             /* [nodes] kg/m, highest at a month's end */
    bool *followed;           /* [nodes] false: left out of a one-sided test */
    bool *used_wet;           /* [members] the wet cup was chosen */
    bool *film_used_wet;      /* [films] */
    int start_month, cycles;
    bool condenses, periodic, accumulates;
    double residual_first, residual_last; /* kg/m */
    double growth;                        /* kg/(m a), last year's rise */
    double condensed, evaporated; /* kg/(m a), first cycle, net of a month */
    double *reserve;              /* [places] kg/(m2 a) */
    bool dried, wet_line_dried, condensed_elsewhere;
    double months_to_dry, wet_line_months, left; /* as bw_monthly_result */
    bool converged;       /* films with a curve met their tolerance */
    double balance_error; /* kg/m, as bw_monthly_result */
    size_t eliminations;  /* of the network: what it cost */
} bw_vapour_result;

/* air: of each environment.
 * BW_OK; BW_ERR_DOMAIN: a value that is none or out of range, options not
 * possible together, a part cut off from every environment; BW_ERR_MEMORY */
bw_status bw_vapour_year(bw_vapour_result *out, bw_arena *arena,
                         const bw_vapour *vapour, const bw_vapour_air *air,
                         const bw_vapour_options *options, bw_error *err);

#endif
