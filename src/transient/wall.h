#ifndef BW_TRANSIENT_WALL_H
#define BW_TRANSIENT_WALL_H

/* Heat and moisture in a row of cells, after the equations of EN 15026 (from
 * memory, hi):
 *
 *   d/dt w            = -d/dx (g_v + g_l)
 *   d/dt H            = -d/dx (-lambda(w) dtheta/dx + h_e g_v + c_w theta g)
 *   H   = (rho c + c_w w) theta,   g = g_v + g_l
 *   g_v = -(delta(T)/mu) dp/dx,    g_l = -D_w dw/dx
 *
 * in conservative finite volumes. Heat carried by moving water, c_w theta g,
 * is kept so that H is conserved exactly; EN 15026 leaves it out and takes
 * (rho c + c_w w) dT/dt, which differs by c_w g dtheta/dx only.
 *
 * State: v[2i] = theta [degC], v[2i+1] = z (hygro.h) of cell i, outside first.
 * Faces: face i lies on the outer side of cell i; face n is the room surface.
 * Fluxes count positive from outside to inside. All per m2 of wall. */

#include <stdbool.h>
#include <stddef.h>

#include "humid.h"
#include "hygro.h"
#include "joint.h"
#include "wide.h"

#define BW_WATER_HEAT 4187.0 /* c_w, J/(kg K) */
#define BW_AIR_HEAT 1210.0   /* rho c_p of air at 20 degC, J/(m3 K) */

/* Resistance [m2 s Pa/kg] of what lies in a face without thickness, by mean
 * RH of its two sides: straight between equidistant points. */
enum { BW_FILM_ROWS = 200 };
typedef struct bw_film {
    double resistance[BW_FILM_ROWS + 2];
} bw_film;

typedef struct bw_face {
    double heat_resistance; /* m2 K/W */
    const bw_film *film;    /* NULL: none */
    bool liquid;            /* liquid water may pass */
    bool same;              /* same material on both sides */
    double per;             /* then 1/(distance of the two centres), 1/m */
    /* where liquid passes between two materials: while rain is on the face,
     * and while none is */
    const bw_joint *joint[2];
} bw_face;

/* A cell that outdoor air passes through. */
typedef struct bw_vent {
    size_t cell;
    double flow; /* m3/(m2 s) of outdoor air */
} bw_vent;

/* The wall. Everything is borrowed; const while a run lasts. */
typedef struct bw_wall {
    size_t n;                     /* cells, >= 2 */
    const double *dx;             /* m */
    const double *per_half;       /* 2/dx */
    const bw_hygro *const *hygro; /* per cell */
    const bw_face *face;          /* n + 1 */
    size_t vent_count;
    const bw_vent *vent;
    long leak_cell; /* gets the convective source; -1: none */
    long rain_cell; /* gets rain past the face; -1: none */
    const bw_humid *humid;
    double latent; /* h_e, J/kg */
    double r_v;    /* J/(kg K) */
} bw_wall;

/* Conditions on both sides at an instant. */
typedef struct bw_edge {
    double theta_e, p_e;
    double h_e;       /* W/(m2 K), whole outer surface coefficient */
    double gain;      /* W/m2, absorbed sun and sky radiation beyond h_e */
    double beta_e;    /* kg/(m2 s Pa) */
    double rain;      /* kg/(m2 s) on the outer face */
    double rain_leak; /* kg/(m2 s) to rain_cell */
    double air_flow;  /* m3/(m2 s) of room air to leak_cell */
    double theta_i, p_i, h_i, beta_i;
    bool redistributes; /* no rain: water spreads by the slower diffusivity */
} bw_edge;

/* What crossed the boundary, rates or sums over time; positive into the wall.
 * [kg/(m2 s)], [W/m2] or, summed, [kg/m2], [J/m2]. */
typedef enum bw_crossing {
    BW_X_VAPOUR_E,
    BW_X_RAIN,
    BW_X_VAPOUR_I,
    BW_X_VENT,
    BW_X_LEAK_AIR,
    BW_X_LEAK_RAIN,
    BW_X_HEAT_E,
    BW_X_HEAT_I,
    BW_X_HEAT_VENT,
    BW_X_HEAT_LEAK,
    BW_X_COUNT
} bw_crossing;

/* What enters a cell from without: through a surface, as rain, by a leak, with
 * the air of a cavity. */
typedef struct bw_entry {
    size_t cell;
    bw_crossing heat, water; /* what it counts as */
    double q, g;             /* W/m2, kg/(m2 s) */
    double slope[4];         /* by theta and z of the cell: as in a block */
} bw_entry;

enum { BW_MOST_ENTRIES = 5 }; /* besides one per vent */
typedef struct bw_entries {
    size_t count;
    bw_entry *entry;
} bw_entries;

/* A cell at its state: values and slopes (_z, _t for theta). */
typedef struct bw_cell {
    double phi, phi_z, phi_t;
    double p, p_z, p_t;
    double water, water_z;
    double rt, rt_z;       /* thermal resistance of half the cell, m2 K/W */
    double rv, rv_z, rv_t; /* vapour resistance of half the cell */
    double flow, flow_z;   /* liquid flow potential, kg/(m s) */
    double kphi, kphi_z;   /* liquid conductivity to phi */
} bw_cell;

/* A 2x2 block row of the Jacobian, row-major; rows heat, water. */
typedef struct bw_block {
    double lower[4], diag[4], upper[4];
} bw_block;

/* The rows of the tables that four cells lie in, by their columns: a state
 * seldom moves far between two look-ups. Invariant: what the rows `store` and
 * `air` hold; of the flow of redistribution if `slow`. */
typedef struct bw_known_rows {
    bw_index store, air; /* -1: nothing yet */
    bool slow;
    bw_sixteen phi, water, flow, kphi, pass; /* bw_hygro_row */
    bw_sixteen psat, delta;                  /* bw_humid_row */
} bw_known_rows;

/* Four cells: the same, each value of the four side by side. */
typedef struct bw_quad {
    bw_four theta;
    bw_four phi, p, water, rt, rv, flow, kphi;
    bw_four phi_z, phi_t, p_z, p_t, water_z, rt_z, rv_z, rv_t, flow_z, kphi_z;
    bw_four delta;        /* of air, kg/(m s Pa) */
    bw_four per_half, dx; /* of the wall, as are */
    bw_four capacity;     /* J/(m3 K), dry */
    bw_four dry;          /* water in the cell at 50 % RH, kg/m2 */
    /* slopes of what is stored at the last bw_wall_stored with slopes: of heat
     * by theta and z, of water by z */
    bw_four heat_t, heat_z, held_z;
    bw_four per; /* face.per of the outer faces of the cells */
    const bw_hygro *hygro[4];
    bw_four per_z;        /* of these */
    bool liquid, suction; /* of any of these */
    bw_known_rows found;
} bw_quad;

/* The row of cells, and what flows through its faces. */
typedef struct bw_cells {
    size_t n;
    bw_quad *quad;
    double *q, *g;         /* through face i */
    double (*by_outer)[4]; /* slopes of q and g of face i by theta and z of */
    double (*by_inner)[4]; /* the cell before it and behind it, row-major */
    size_t *special;       /* faces that are not plain */
    size_t special_count;
    size_t *near; /* of every face the row of its joint, for bw_joint_find */
} bw_cells;

/* Room for the cells of a wall; false when out of memory. */
bool bw_cells_init(bw_cells *cells, const bw_wall *wall, bw_arena *arena);

/* To be called again where faces of a wall have changed since. */
void bw_cells_faces(bw_cells *cells, const bw_wall *wall);

/* One of them, without its slopes. */
static inline bw_cell bw_cells_get(const bw_cells *cells, size_t i)
{
    const bw_quad *q = &cells->quad[i / 4];
    const size_t k = i % 4;
    return (bw_cell){.phi = q->phi[k],
                     .p = q->p[k],
                     .water = q->water[k],
                     .rt = q->rt[k],
                     .rv = q->rv[k],
                     .flow = q->flow[k],
                     .kphi = q->kphi[k]};
}

static inline double bw_cells_phi(const bw_cells *cells, size_t i)
{
    return cells->quad[i / 4].phi[i % 4];
}

static inline double bw_cells_water(const bw_cells *cells, size_t i)
{
    return cells->quad[i / 4].water[i % 4];
}

/* Fills the cells from the state: values; slopes only if asked for. */
void bw_cells_at(const bw_wall *wall, const double *v, bw_cells *cells,
                 bool slopes);

/* The same under the conditions of an edge. */
void bw_cells_under(const bw_wall *wall, const bw_edge *edge, const double *v,
                    bw_cells *cells, bool slopes);

/* Net inflow of heat and water per cell, rate[2n]; crossings; and, if
 * jacobian is not NULL, d(rate)/d(v). cells hold the values at v, for a
 * Jacobian with slopes. */
void bw_wall_rates(const bw_wall *wall, const bw_edge *edge, const double *v,
                   const bw_cells *cells, double *rate,
                   double crossing[BW_X_COUNT], bw_block *jacobian);

/* The same; with a Jacobian, the slopes of the crossings, too, where entries
 * is not NULL. */
void bw_wall_linear(const bw_wall *wall, const bw_edge *edge, const double *v,
                    const bw_cells *cells, double *rate,
                    double crossing[BW_X_COUNT], bw_block *jacobian,
                    bw_entries *entries);

/* Heat H dx and water w dx per cell, stored[2n], J/m2 and kg/m2; and, if
 * slope is not NULL, d(stored)/d(v): heat by theta, heat by z, water by z. */
void bw_wall_stored(const bw_wall *wall, bw_cells *cells, double *stored,
                    double (*slope)[3]);

#endif
