#ifndef BW_TRANSIENT_MESH_H
#define BW_TRANSIENT_MESH_H

/* Cells of one layer: finest at its faces, growing by at most half towards
 * its middle, each half by itself. */

#include <stddef.h>

enum { BW_MESH_MOST = 400 }; /* cells of one layer */

#define BW_MESH_GROWTH 1.5

/* Cells for `thickness` [m] with face cells of about `outer` and `inner` [m],
 * those of the outer half growing by `growth`, if so many may be; each then cut
 * into `parts`. Returns their number; dx may be NULL to count. */
size_t bw_mesh_layer(double thickness, double outer, double inner,
                     double growth, int parts, double *dx);

#endif
