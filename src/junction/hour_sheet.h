#ifndef BW_JUNCTION_HOUR_SHEET_H
#define BW_JUNCTION_HOUR_SHEET_H

/* Heat and moisture in the cells of a drawing: the equations of wall.h, per
 * metre across it. State: v[2i] = theta [degC], v[2i+1] = z of cell i. */

#include "arena.h"
#include "bothways/junction.h"
#include "boundary.h"
#include "wall.h"
#include "wide.h"

enum { BW_SHEET_SIDES = 12 }; /* most kinds of surface: environment, facing */
enum {
    BW_SHEET_RAINS = 3
}; /* rain that leaks in: of two walls, of the
      junction */

typedef struct bw_sheet_face {
    size_t a, b;           /* cells */
    double half_a, half_b; /* m, from their middles */
    double length;         /* m */
    bw_face face;
} bw_sheet_face;

typedef struct bw_sheet_edge {
    size_t cell, side; /* side: which conditions it has */
    double half, length;
    bw_face face; /* liquid: it takes up rain */
} bw_sheet_edge;

/* Four faces at once: a + k to b + k, within one material or two that draw no
 * water; one that is not there has the length 0. */
typedef struct bw_sheet_four {
    size_t a, b;
    bw_four half_a, half_b, length;
    bw_four per; /* of liquid: length by distance; 0: none passes */
} bw_sheet_four;

/* Rain past the face into a cell. */
typedef struct bw_sheet_leak {
    size_t cell, rain; /* of which of the rains */
    double by;         /* m of outer face whose rain comes there */
} bw_sheet_leak;

/* Room air past a face: it exchanges with the cells on both sides and leaves.
 */
typedef struct bw_sheet_airflow {
    size_t face, side; /* side: whose air it is */
    double flow;       /* m3/(m s) */
    bool all;          /* its warmth and what it dries count, too */
} bw_sheet_airflow;

/* Everything is borrowed. */
typedef struct bw_sheet {
    size_t n;
    const double *area; /* m2 */
    const bw_hygro *const *hygro;
    size_t face_count, edge_count;
    const bw_sheet_face *face;
    const bw_sheet_edge *edge;
    size_t leak_count;
    const bw_sheet_leak *leak;
    size_t air_count;
    const bw_sheet_airflow *air;
    const bw_humid *humid;
    double latent, r_v;
    bw_wall cells; /* what the tables of cells are asked with */
    size_t four_count, single_count;
    bw_sheet_four *four;
    size_t *single; /* the other faces */
    double *flat;   /* work: values of the cells, and what enters them */
} bw_sheet;

/* Conditions at a kind of surface; all as in bw_edge. */
typedef struct bw_sheet_air {
    double theta, p, h, beta, gain;
    double rain; /* kg/(m2 s) */
} bw_sheet_air;

typedef struct bw_sheet_weather {
    bw_sheet_air side[BW_SHEET_SIDES];
    bool redistributes;          /* no rain anywhere */
    double leak[BW_SHEET_RAINS]; /* kg/(m2 s) of outer face */
    double leak_theta;           /* degC */
} bw_sheet_weather;

/* What came in, kg/(m s) and W/m, or summed. */
typedef struct bw_sheet_flow {
    double vapour[BW_SHEET_SIDES], rain[BW_SHEET_SIDES];
    double leak, air;
    double ran_off; /* of leaking rain, what found full pores; not in `leak` */
    double heat;    /* all of it */
} bw_sheet_flow;

/* A banded matrix without exchange of rows. Row i holds column j at lead + j -
 * i: `window` of them before the diagonal and behind. */
typedef struct bw_band {
    size_t n, w;         /* rows; columns that are used on either side */
    size_t window, rows; /* more than w and n, by whole registers */
    size_t lead, width;
    float *a; /* [rows][width] */
    float *x; /* work */
} bw_band;

bw_status bw_band_make(bw_band *band, bw_arena *arena, size_t n, size_t w,
                       bw_error *err);
void bw_band_clear(bw_band *band);
static inline float *bw_band_at(const bw_band *b, size_t row, size_t column)
{
    return b->a + row * b->width + (b->lead + column - row);
}
bool bw_band_factor(bw_band *band); /* false: singular */
void bw_band_solve(const bw_band *band, double *x);

/* Fills sheet->cells from the rest. */
bw_status bw_sheet_prepare(bw_sheet *sheet, bw_arena *arena, bw_error *err);

/* rate[2n]: what enters the cells through the faces that go four at once. */
void bw_sheet_pass_fours(const bw_sheet *sheet, const bw_cells *cells,
                         double *rate);

/* The largest distance of two cells that exchange. */
size_t bw_sheet_reach(const bw_sheet *sheet);

/* Half of a cell towards a face. */
static inline bw_cell bw_sheet_half(const bw_cells *cells, size_t i,
                                    double half)
{
    const bw_quad *q = &cells->quad[i / 4];
    const size_t k = i % 4;
    return (bw_cell){.phi = q->phi[k],
                     .phi_z = q->phi_z[k],
                     .phi_t = q->phi_t[k],
                     .p = q->p[k],
                     .p_z = q->p_z[k],
                     .p_t = q->p_t[k],
                     .rt = half * q->rt[k],
                     .rt_z = half * q->rt_z[k],
                     .rv = half * q->rv[k],
                     .rv_z = half * q->rv_z[k],
                     .rv_t = half * q->rv_t[k],
                     .flow = q->flow[k],
                     .flow_z = q->flow_z[k],
                     .kphi = q->kphi[k],
                     .kphi_z = q->kphi_z[k]};
}

/* Net inflow per cell, rate[2n], at the cells' values; matrix: less `a` times
 * its slopes is added; NULL: none, cells without slopes. */
void bw_sheet_rates(const bw_sheet *sheet, const bw_sheet_weather *weather,
                    const double *v, const bw_cells *cells, double *rate,
                    bw_sheet_flow *flow, bw_band *matrix, double a);

/* ---- of a drawing -------------------------------------------------------- */

/* A raster as cells: everything it owns is the arena's. */
typedef struct bw_sheet_model {
    bw_sheet sheet;
    size_t *cell;   /* [raster cells] cell of the sheet; SIZE_MAX: none */
    size_t *raster; /* [sheet.n] the other way */
    double *bound;  /* [materials] kg/m3, more stands free: keep.h */
} bw_sheet_model;

/* A metre of a material, and a film, as the tables of one dimension know them.
 */
bw_slab bw_sheet_slab(const bw_drawn_material *drawn);
bw_slab bw_sheet_film_slab(const bw_drawn_film *drawn);

/* side: of each face of the raster which conditions it has; NULL: its
 * environment's number. pressure: Pa.
 * BW_OK; BW_ERR_DOMAIN: a material that cannot be simulated, or more kinds of
 * surface than BW_SHEET_SIDES; BW_ERR_MEMORY */
bw_status bw_sheet_make(bw_sheet_model *out, bw_arena *arena,
                        const bw_raster *raster, const size_t *side,
                        double pressure, bw_error *err);

/* An hour of the year: side k has the outdoor state of year[k], or the room's.
 * Every year is of the same hours. */
typedef struct bw_sheet_hour {
    size_t sides;
    const bw_year *year[BW_SHEET_SIDES];
    bool room[BW_SHEET_SIDES];
    /* kg/(m2 s) of every hour of the year; NULL: none. As warm as side 0 */
    const double *leak[BW_SHEET_RAINS];
    int hour;
    double from; /* s, when the hour begins */
} bw_sheet_hour;

void bw_sheet_hour_at(const void *hour, double t, bw_sheet_weather *weather);

/* ---- in time ------------------------------------------------------------- */

/* Conditions at t [s], smooth between two calls of bw_sheet_advance. */
typedef void bw_sheet_at(const void *ctx, double t, bw_sheet_weather *weather);

/* TR-BDF2 as in solver.h, its matrix kept from step to step while it serves. */
typedef struct bw_sheet_solver {
    const bw_sheet *sheet;
    double tolerance_theta, tolerance_z; /* local error of a step */
    double extent; /* m along the drawing over which errors are summed */
    double t, h;
    double *v, *stored; /* 2n */
    double *v0, *v1, *rate0, *rate1, *rate2, *target, *held, *x;
    double *last;  /* of an iteration: the last step of each value */
    double *slope; /* dv/dt with which the last step ended: a guess */
    double (*slopes)[3];
    bw_cells cells;
    bw_band matrix;
    double matrix_a; /* that it was made for; 0: none */
    size_t steps, rejected, matrices, iterations;
} bw_sheet_solver;

bw_status bw_sheet_solver_make(bw_sheet_solver *s, const bw_sheet *sheet,
                               bw_arena *arena, bw_error *err);
void bw_sheet_start(bw_sheet_solver *s, const double *v, double t);

/* Steps to `end` exactly; flow gains what came in. BW_ERR_NUMERIC */
bw_status bw_sheet_advance(bw_sheet_solver *s, double end, bw_sheet_at *at,
                           const void *ctx, bw_sheet_flow *flow, bw_error *err);

#endif
