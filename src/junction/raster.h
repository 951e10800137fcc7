#ifndef BW_JUNCTION_RASTER_H
#define BW_JUNCTION_RASTER_H

/* Cells of a drawing, and what passes between them. */

#include "arena.h"
#include "bothways/junction.h"

/* How fine. */
typedef struct bw_raster_options {
    double smallest; /* m, cells at every edge of the drawing; 0: 1/12 of the
                        nearest rectangle's side, at most 5 mm */
    double growth;   /* of neighbouring cells, above 1; 0: 1.3 */
    double widest;   /* m; 0: no limit */
    int halvings;    /* each cell cut in two by two so often */
    bool joined;     /* two cells each are one, from both ends of what lies
                        between two lines of the drawing; every line of this
                        grid is one of the grid that is not */
} bw_raster_options;

/* A grid whose lines hold every edge of the drawing, graded from them. All it
 * owns is the arena's. options NULL: as drawn.
 * BW_OK; BW_ERR_INPUT: the drawing is not sound (a gap, an overlap not meant,
 * an edge to nothing, ...), with the place; BW_ERR_MEMORY */
bw_status bw_raster_make(bw_raster *out, const bw_junction *junction,
                         const bw_raster_options *options, bw_arena *arena,
                         bw_error *err);

/* The cell that holds a point, the one to the right or above on a line; -1
 * where there is no material. */
long bw_raster_cell_at(const bw_raster *grid, double x, double y);

/* What passes per metre between neighbours for one unit of difference, in the
 * unit of k: k[material] conductivity (lambda, or 1/mu), r[film] resistance of
 * a film (R, or sd; NULL: films resist nothing). 0 where one is no material. x:
 * between (i-1, j) and (i, j), 0 < i < nx; y: between (i, j-1) and (i, j). */
double bw_raster_across_x(const bw_raster *grid, const double *k,
                          const double *r, size_t i, size_t j);
double bw_raster_across_y(const bw_raster *grid, const double *k,
                          const double *r, size_t i, size_t j);

/* The same from the middle of its cell through a face to the environment, whose
 * surface resistance is in the unit of r (0: the face has the environment's
 * state). */
double bw_raster_across_face(const bw_raster *grid, const double *k,
                             const double *r, const bw_raster_face *face,
                             double surface);

/* The surface resistance [m2 K/W] of an environment. */
double bw_surface_of(const bw_environment *environment, bw_surfaces which);

#endif
