#ifndef BW_JUNCTION_VAPOUR_NET_H
#define BW_JUNCTION_VAPOUR_NET_H

/* A network of conductances, and its solution with some nodes held. */

#include "arena.h"
#include "bothways/error.h"

typedef struct bw_net_link {
    size_t a, b;
    double shape; /* m/m (a material's), or m (a film's) */
    size_t of;    /* whose it is: the maker's business */
} bw_net_link;

/* The links of each node in a row; what several links share is added. */
typedef struct bw_net {
    size_t nodes, links;
    const bw_net_link *link;
    size_t *start; /* [nodes + 1] of the room of a node's row */
    size_t *count; /* [nodes] neighbours */
    size_t *other; /* the neighbour */
    double *g;     /* >= 0, flow for one unit of difference */
    size_t *at_a;  /* [links] where a link counts in the row of a, of b */
    size_t *at_b;
    size_t *order;  /* [nodes] from which few are reached at a time */
    unsigned stamp; /* changes with g */
} bw_net;

bw_status bw_net_make(bw_net *net, bw_arena *arena, size_t nodes,
                      const bw_net_link *link, size_t links, bw_error *err);

/* g [links] of every link. */
void bw_net_set(bw_net *net, const double *g);

/* What flows into a node at given values of all. */
double bw_net_inflow(const bw_net *net, const double *value, size_t node);

/* ---- solution ------------------------------------------------------------ */

/* The free nodes eliminated one after another. */
typedef struct bw_stars {
    const bw_net *net;
    size_t rows;
    size_t *row;         /* [nodes] of a free node; SIZE_MAX: held */
    size_t *node;        /* [rows] */
    size_t *last;        /* [rows] the last row it is linked to */
    size_t *start;       /* [rows] of its links, to row + 1 .. last */
    double *g;           /* links when it is eliminated */
    double *held;        /* [rows] conductance to held nodes */
    double *inverse;     /* [rows] of all its conductances */
    double *value;       /* [rows] scratch */
    bool *was_held;      /* [nodes] of the latest elimination */
    unsigned stamp;      /* of the net then; 0: none yet */
    size_t eliminations; /* made so far: what a run costs */
} bw_stars;

bw_status bw_stars_make(bw_stars *stars, bw_arena *arena, const bw_net *net,
                        bw_error *err);

/* Eliminates all that are not held. False: a part touches no held node. */
bool bw_stars_eliminate(bw_stars *stars, const bool *held);

/* value: of held nodes given, of all others found for what is fed into them
 * (NULL: nothing), in the unit of g times value. */
void bw_stars_solve(bw_stars *stars, double *value, const double *feed);

#endif
