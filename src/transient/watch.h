#ifndef BW_TRANSIENT_WATCH_H
#define BW_TRANSIENT_WATCH_H

/* What is seen of a run: places between slabs, and the water in each slab.
 *
 * The state at a face comes from the halves of the cells beside it: theta
 * from the heat conductances; p from the conductances for vapour and liquid
 * together, so that phi is continuous where liquid passes. A membrane has two
 * faces, one for each slab it ends. */

#include "boundary.h"
#include "course.h"
#include "depth.h"
#include "keep.h"
#include "model.h"
#include "solver.h"
#include "wood.h"

typedef struct bw_watch {
    const bw_model *model;
    bw_transient_result *result;
    bw_mould_state *mould; /* per monitor */
    double *seconds;       /* per month, of the running year */
    bw_keep keep;
    bw_course course;
    bw_wood wood;
    bw_depths depths; /* laid out apart: bw_depths_init */
    size_t hour;      /* kept rows */
} bw_watch;

/* Lays out monitors and slabs of the result. False: out of memory. */
bool bw_watch_init(bw_watch *watch, bw_model *model,
                   bw_transient_result *result);

/* Forgets the year before: maxima and means start anew. */
void bw_watch_year(bw_watch *watch);

/* Takes in the state at the end of an hour. keep: its row is kept. */
void bw_watch_hour(bw_watch *watch, const bw_solver *solver,
                   const bw_edge *edge, int hour_of_year, bool keep);

/* Finishes the means of the year. */
void bw_watch_end_year(bw_watch *watch);

/* Years carried forward (carry.h) that nobody saw: the mould index gets the
 * hours of the last one each year, and wood that was above its limit in that
 * one stays above it. A wall that dries was wetter then; of one that gets
 * wetter the year that follows is wetter. */
void bw_watch_carry(bw_watch *watch, int years);

/* theta [degC] and p [Pa] on the outer (0) and the inner side of what lies in
 * face f, and the water [kg/m3] in the cells beside it, at the solver's state.
 */
void bw_watch_face(const bw_solver *solver, const bw_edge *edge, size_t face,
                   double theta[2], double p[2], double content[2]);

/* Total water and that of one slab [kg/m2] at the solver's state. */
double bw_water_total(const bw_wall *wall, const double *v);
double bw_water_slab(const bw_model *model, size_t slab, const double *v);

#endif
