#ifndef BW_JUNCTION_VAPOUR_RUN_H
#define BW_JUNCTION_VAPOUR_RUN_H

/* One run of the two-dimensional monthly method while it is computed. */

#include "vapour_year.h"

/* More water than this stands; less is rounding [kg/m]. */
#define BW_LINE_STANDS 1e-9

/* The greatest field that is nowhere above `top` and rises from what is fed. */
typedef struct bw_obstacle {
    bw_stars stars;
    bool *pinned; /* [nodes] p is given there */
    bool *wet;    /* [nodes] a guess, then where it is at the top */
    bool *held;   /* [nodes] scratch */
    double *feed; /* [nodes] kg/(m s) that arrives there by itself */
    double *p;    /* [nodes] Pa */
} bw_obstacle;

bw_status bw_obstacle_make(bw_obstacle *o, bw_arena *arena, const bw_net *net,
                           bw_error *err);

/* False: a part touches nothing that is held. */
bool bw_obstacle_solve(bw_obstacle *o, const double *top);

typedef struct bw_vapour_run {
    const bw_vapour *vapour;
    const bw_vapour_air *air;
    const bw_vapour_options *options;
    size_t nodes;
    bw_net net;
    bw_obstacle obstacle;
    double seconds[BW_MONTHS];
    bool *surface;           /* [nodes] has the state of an environment */
    bool *open;              /* [environments] vapour passes to them */
    bool *left_out, *wetted; /* [nodes] */
    bool *kept_wet;          /* [nodes] at saturation whatever happens */
    double *source;          /* [12][nodes] kg/(m s) of a leak */
    bool *guess; /* [12][nodes] where water stood at the month's end */

    double *permeability; /* [members] kg/(m s Pa) */
    double *film_sd;      /* [pairs] m, in use */
    double *g;            /* [links] */
    size_t variables;     /* pairs with a curve */
    size_t *variable;     /* which */
    double *films;        /* scratch of vapour_film.c */
    bool sound;           /* every part touches an environment */

    double *mass;             /* [nodes] kg/m */
    double *before, *scratch; /* [nodes] scratch */
    double months, condensed, evaporated, entered, kept_gain;
    int start;
    bool condenses_from_dry[BW_MONTHS];
    bw_vapour_result *out;
} bw_vapour_run;

/* vapour_setup.c */
bw_status bw_vapour_run_make(bw_vapour_run *run, bw_arena *arena,
                             bw_error *err);
bw_status bw_vapour_run_place(bw_vapour_run *run, bw_arena *arena,
                              bw_error *err);
void bw_vapour_conduct(bw_vapour_run *run); /* the network for what is in use */

/* vapour_film.c. The mean profile of so many seconds from the start of the
 * month; 0: that of its start, with the water that stands. False: not sound. */
bool bw_vapour_solve(bw_vapour_run *run, int month, double seconds);
/* steps remembered; doubles of scratch for each pair with a curve */
enum { BW_FILM_MEMORY = 6, BW_FILM_ROOM = 5 + 3 * BW_FILM_MEMORY };
/* The profile of the start of the month together with the films' sd. */
void bw_vapour_profile(bw_vapour_run *run, int month);

/* vapour_choice.c */
bw_status bw_vapour_choose(bw_vapour_run *run, bw_arena *arena, bw_error *err);

/* vapour_month.c */
double bw_vapour_water(const bw_vapour_run *run); /* kg/m in all */
void bw_vapour_dry_months(bw_vapour_run *run);
void bw_vapour_month(bw_vapour_run *run, int month, bool first);

#endif
