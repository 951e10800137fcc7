#ifndef BW_JUNCTION_VAPOUR_NODES_H
#define BW_JUNCTION_VAPOUR_NODES_H

/* Nodes where the lines of a grid cross, one on each side of a film. */

#include "bothways/junction.h"
#include "vapour_net.h"

/* Corners of a cell, anticlockwise. */
enum { BW_CORNERS = 4, BW_NO_ENVIRONMENT = -1 };

typedef struct bw_film_pair {
    size_t a, b; /* nodes on its two sides */
    size_t film; /* index into junction->film */
} bw_film_pair;

/* Nodes of one quantity on one grid. */
typedef struct bw_nodes {
    const bw_raster *grid;
    size_t count;
    size_t *corner;   /* [4 * cells] node of a filled cell's corner: left below,
                         right below, right above, left above */
    double *x, *y;    /* [count] m */
    double *span;     /* [count] m, the longer side of what is nearest to it */
    int *environment; /* [count] at whose state its surface is, or none */
    int *environment2; /* where a second one meets it */
    size_t *twin; /* [count] a node of the other quantity at the same point */
    size_t pairs;
    bw_film_pair *pair; /* of both sides of films */
    size_t links;
    bw_net_link *link; /* a material's first: of = its cell; then the films':
                          of = its pair, or the surfaces': of = environment */
    size_t material_links;
} bw_nodes;

/* Nodes of vapour: films part them; a face has the state of its environment,
 * beyond the film if one is on it. twin: nodes of heat. */
bw_status bw_nodes_of_vapour(bw_nodes *nodes, bw_arena *arena,
                             const bw_raster *grid, const bw_nodes *heat,
                             bw_error *err);

/* Nodes of heat: films resist nothing, and behind the surface resistance of
 * each half face is a node of its environment. */
bw_status bw_nodes_of_heat(bw_nodes *nodes, bw_arena *arena,
                           const bw_raster *grid, bw_error *err);

/* The two nodes at the ends of a side of a filled cell. */
void bw_nodes_ends(const bw_nodes *nodes, size_t cell, bw_cell_side side,
                   size_t end[2]);

/* weight [environments][heat->count]: of each environment in a temperature.
 * surface: [environments] m2 K/W. */
bw_status bw_nodes_weights(double *weight, bw_arena *arena,
                           const bw_nodes *heat, const double *surface,
                           bw_error *err);

#endif
