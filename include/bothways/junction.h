#ifndef BOTHWAYS_JUNCTION_H
#define BOTHWAYS_JUNCTION_H

/** @file
 * Where walls meet: a drawing in two dimensions, its grid, and what heat does
 * in it. x to the right, y upwards, both m; every flow is per metre across the
 * drawing. Plain data, immutable once made.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/assembly.h"
#include "bothways/mould.h"
#include "bothways/transient.h"

BW_BEGIN_C

/* ---- the drawing --------------------------------------------------------- */

/** What lies beyond an edge. Symmetry is no environment: nothing crosses it. */
typedef enum bw_environment_kind {
    BW_ENVIRONMENT_ROOM,
    BW_ENVIRONMENT_OUTSIDE,
    BW_ENVIRONMENT_GROUND,
} bw_environment_kind;

/** A place with one temperature and one vapour pressure at a time. */
typedef struct bw_environment {
    bw_environment_kind kind;
    const char *id;     /**< never NULL */
    bw_indoors indoors; /**< of a room */
    bw_beyond beyond;   /**< of the ground */
    bool has_surface_resistance;
    double surface_resistance; /**< m2 K/W, stated: it counts for everything */
} bw_environment;

/** A material as it fills cells. */
typedef struct bw_drawn_material {
    const char *name;            /**< for reports; never NULL */
    const bw_material *material; /**< with inline values; never NULL */
    bool air;                    /**< a layer of air: the three below are those
                                      across it */
    double conductivity;         /**< W/(m K), > 0 */
    double mu_dry;               /**< -, > 0; that of the wet cup where only it
                                      is known */
    double mu_wet;               /**< -, > 0; that of the dry cup likewise */
} bw_drawn_material;

/** A film between cells, or on a face. */
typedef struct bw_drawn_film {
    const char *name;
    const bw_material *material;
    double sd_dry, sd_wet;    /**< m */
    const bw_curve *sd_curve; /**< NULL, or sd by the mean RH of both faces */
} bw_drawn_film;

typedef struct bw_rectangle {
    double x0, x1, y0, y1; /**< m; x0 < x1, y0 < y1 */
} bw_rectangle;

/** A rectangle filled; a later one that is `over` replaces what is there. */
typedef struct bw_filling {
    bw_rectangle at;
    size_t material; /**< index into junction->material */
    bool over;
    long line; /**< in the file */
} bw_filling;

/** A rectangle of air of an environment (or of soil); `over` as above. */
typedef struct bw_drawn_space {
    bw_rectangle at;
    size_t environment; /**< index into junction->environment */
    bool over;
    long line;
} bw_drawn_space;

/** A film along a straight line: x0 == x1 or y0 == y1. */
typedef struct bw_film_line {
    double x0, x1, y0, y1; /**< m */
    size_t film;           /**< index into junction->film */
    long line;
} bw_film_line;

/** A place whose state is asked for by name: "beam end". */
typedef struct bw_drawn_spot {
    const char *name;
    double x, y; /**< m */
    long line;
} bw_drawn_spot;

/** Rain that gets past the outer face to a place within: a leak that the
 *  junction states at a named place, or a wall's own along the face at which
 *  its file has it. By the hour alone; months know no rain. */
typedef struct bw_drawn_leak {
    const char *name;   /**< of the place; of a wall's own: the wall's id */
    const char *source; /**< as stated; "" of a wall's own */
    bw_rectangle at;    /**< m: what of faces between two materials lies within
                             takes it; of a wall's own a line (x0 == x1 or
                             y0 == y1), and every face on it */
    long wall;          /**< whose own it is; -1: the junction's */
    double fraction;    /**< 0..1 of the driving rain */
    double face;        /**< m, the outer face whose rain comes there; not of a
                             wall's own, each metre of which has its own */
    long line;
} bw_drawn_leak;

/** Room air that a junction states to flow to a named place: past the end of a
 *  joist to its bearing. */
typedef struct bw_drawn_air {
    const char *name;   /**< of the place */
    const char *source; /**< as stated; never "" */
    bw_rectangle at;    /**< m: what of faces between two materials lies within
                             is washed by it */
    size_t environment; /**< the room */
    double flow;        /**< m3/(m s) across the drawing, as warm as the room;
                             all year */
    bool all;           /**< its warmth and what it dries count, too; else only
                             the water that it brings: the safe side */
    long line;
} bw_drawn_air;

/** Sides of the drawing, and of a cell. */
typedef enum bw_cell_side {
    BW_EDGE_LEFT,
    BW_EDGE_RIGHT,
    BW_EDGE_BELOW,
    BW_EDGE_ABOVE,
    BW_EDGES
} bw_cell_side;

typedef struct bw_junction {
    const char *file; /**< never NULL, as are the next four */
    const char *id;
    const char *title;
    const char *remark;
    const char *kind; /**< "outer-corner", ...; "drawing": drawn freely */
    bw_outdoors outdoors;
    size_t environment_count;
    const bw_environment *environment;
    size_t material_count;
    const bw_drawn_material *material;
    size_t film_count;
    const bw_drawn_film *film;
    size_t filling_count;
    const bw_filling *filling; /**< in the order in which they are painted */
    size_t space_count;
    const bw_drawn_space *space;
    size_t film_line_count;
    const bw_film_line *film_line;
    size_t spot_count;
    const bw_drawn_spot *spot;
    size_t leak_count;
    const bw_drawn_leak *leak;
    size_t air_count;
    const bw_drawn_air *air; /**< all of one room */
    bool symmetry[BW_EDGES]; /**< sides of the drawing that are cut there */
    size_t wall_count;       /**< those it is made of; 0: drawn freely */
    const bw_assembly *const *wall;
    size_t note_count;
    const bw_note *note;
} bw_junction;

/**
 * Read and check one junction file; walls it names are read with it.
 *
 * @param[out] out      free with bw_junction_free; borrows materials from
 *                      `library`, which must outlive it
 * @param[out] err      the first fault, as of bw_assembly_read; a drawing that
 *                      is not sound with the place in mm
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY
 */
BW_API bw_status bw_junction_read(bw_junction **out, const char *path,
                                  const bw_library *library, bw_error *err);

/** Frees a junction and its walls; NULL is allowed. */
BW_API void bw_junction_free(bw_junction *junction);

/** Whether rain is stated to leak in, at a place or of a wall's own. */
BW_API bool bw_junction_leaks(const bw_junction *junction);

/** What its environments are like month by month. out: [environment_count *
 *  BW_MONTHS], temperatures degC and vapour pressures Pa; p may be NULL. */
BW_API void bw_junction_months(double *theta, double *p,
                               const bw_junction *junction,
                               const bw_climate *climate);

/* ---- the grid ------------------------------------------------------------ */

enum { BW_NOT_THERE = -1 };

/** A face of a cell against an environment. A face against symmetry is no face:
 *  nothing crosses it. */
typedef struct bw_raster_face {
    size_t cell;  /**< j * nx + i */
    bw_cell_side side; /**< of the cell */
    size_t environment;
    double length; /**< m */
    double x, y;   /**< m, its middle */
    double half;   /**< m, from the middle of the cell to the face */
    int film;      /**< on the face, index into junction->film; BW_NOT_THERE */
} bw_raster_face;

/** Cells i = 0..nx-1 from left to right, j = 0..ny-1 upwards; cell (i, j) is
 *  j * nx + i and lies within x[i]..x[i+1], y[j]..y[j+1]. */
typedef struct bw_raster {
    const bw_junction *junction; /**< borrowed */
    size_t nx, ny;
    const double *x;     /**< m, nx + 1, rising */
    const double *y;     /**< m, ny + 1, rising */
    const int *material; /**< nx * ny, index into junction->material; BW_NOT_THERE
                              where there is none (environment) */
    const int *film_x;   /**< (nx + 1) * ny, film on the face between (i-1, j)
                              and (i, j) at j * (nx + 1) + i; BW_NOT_THERE */
    const int *film_y;   /**< nx * (ny + 1), film on the face between (i, j-1)
                              and (i, j) at j * nx + i; BW_NOT_THERE */
    size_t filled;       /**< cells with a material */
    size_t face_count;
    const bw_raster_face *face; /**< every one against an environment */
} bw_raster;

/* ---- heat ---------------------------------------------------------------- */

/** Surface resistances in rooms. What an environment states counts instead;
 *  outside 0.04 m2 K/W, none against soil. */
typedef enum bw_surfaces {
    BW_SURFACES_MOISTURE, /**< 0.25, the check against mould, ISO 13788 */
    BW_SURFACES_LOWER,    /**< 0.35, lower parts of a room and corners */
    BW_SURFACES_CUPBOARD, /**< 1.0, behind a fitted cupboard */
    BW_SURFACES_FLOW,     /**< 0.13, flows and psi, ISO 6946; for every
                               direction of the flow */
    BW_SURFACES_COUNT
} bw_surfaces;

/** A number found on grids of cells halved in turn, how far it may be off. */
typedef struct bw_found {
    double value;  /**< extrapolated from the last three grids */
    double finest; /**< on the finest */
    double error;  /**< of value, >= 0: as much as the extrapolation moved it */
    double order;  /**< with which the grids were seen to converge; 0: none */
} bw_found;

/** The coldest place of a room's surface. */
typedef struct bw_coldest {
    size_t environment; /**< the room */
    bw_found frsi;      /**< temperature factor with all rooms at one
                             temperature, all else at another */
    double x, y;        /**< m, on the finest grid */
} bw_coldest;

/** A wall that leaves the drawing at a cut, as a plane one. */
typedef struct bw_flank {
    bw_cell_side side;         /**< of the drawing */
    double transmittance; /**< W/(m2 K), with the resistances for flows */
    double inner, outer;  /**< m, along its face to the room, and outside */
} bw_flank;

enum { BW_MOST_GRIDS = 6, BW_MOST_FLANKS = 8 };

typedef struct bw_junction_heat {
    const bw_junction *junction; /**< borrowed */
    size_t grids;                /**< how many, >= 3 */
    size_t cells[BW_MOST_GRIDS]; /**< with a material, of each */
    bw_raster raster;            /**< the finest */
    /** [environment][cell], with the resistances against mould: a cell's
     *  temperature is the sum of weight times the environment's; 0 where no
     *  material is. */
    double *const *weight;
    size_t environment_count;
    /** [(which * environment_count + e) * raster.face_count + face], which up to
     *  BW_SURFACES_FLOW: the same of the surface at a face. */
    const double *face_weight;
    const bw_found *coupling; /**< W/(m K), [i * environment_count + j], i != j:
                                   flow from j to i for 1 K between them, with
                                   the resistances for flows */
    bw_found l2d;             /**< W/(m K), of all rooms to all else */
    size_t coldest_count;     /**< rooms, each with three resistances */
    const bw_coldest *coldest; /**< [room * BW_SURFACES_FLOW + which] */
    size_t flank_count;
    bw_flank flank[BW_MOST_FLANKS];
    bool has_psi;               /**< rooms and outside alone, and a flank */
    double psi_inner, psi_outer; /**< W/(m K), L2D less the plane walls, by
                                      inner and by outer dimensions */
    double balance; /**< sum of all flows over half the sum of their amounts */
    size_t steps;   /**< iterations of all solutions */
} bw_junction_heat;

/** How fine; 0 each: the default. */
typedef struct bw_junction_options {
    double smallest;    /**< m, cells at the lines of the drawing on the first
                             grid; 0.002 */
    size_t most_cells;  /**< no grid has more; 200000 */
    double l2d_error;   /**< relative, at which no further grid is made; 0.001 */
    double frsi_error;  /**< the same; 0.001 */
} bw_junction_options;

/**
 * Steady heat of a junction.
 * @param[out] out      free with bw_junction_heat_free
 * @param[in]  options  NULL: the defaults
 * @return BW_OK; BW_ERR_INPUT: the drawing is not sound, with the place;
 *         BW_ERR_NUMERIC, BW_ERR_MEMORY
 */
BW_API bw_status bw_junction_heat_make(bw_junction_heat **out,
                                       const bw_junction *junction,
                                       const bw_junction_options *options,
                                       bw_error *err);

/** At a place, with the resistances against mould: on a line between cells as
 *  heat flows there. theta: degC of each environment. NAN: no material. */
BW_API double bw_junction_theta_at(const bw_junction_heat *heat,
                                   const double *theta, double x, double y);

/** The material that holds a place, wood before others that meet there; NULL:
 *  none. */
BW_API const bw_material *bw_junction_material_at(const bw_raster *raster,
                                                  double x, double y);

/** Frees it; NULL is allowed. */
BW_API void bw_junction_heat_free(bw_junction_heat *heat);

/* ---- water by months ----------------------------------------------------- */

/** Where water stands within in some month: nodes of the grid that touch. */
typedef struct bw_water_place {
    double x, y;           /**< m, of the most kg/m2 of face */
    double x0, x1, y0, y1; /**< m, how far it reaches */
    const char *beside[2]; /**< names of what touches there; [1] may be NULL */
    bool sheds;            /**< one of them takes up no water */
    int month;             /**< 0..11 in which most stands there */
    double most;           /**< kg/m, all of the place at its end */
    double most_by_area;   /**< kg/m2: of the face at x, y, or of the place by
                                the face that holds most; the larger */
    double most_shed;      /**< kg/m2, most at a face that does not absorb */
    double left;           /**< kg/m after the first year */
    double left_by_area;   /**< kg/m2, as most_by_area */
} bw_water_place;

/** What became of the wetting by one way, or both. */
typedef struct bw_water_drying {
    bool dried;          /**< in all of the drawing, within ten years */
    double months;       /**< until then, if dried */
    bool place_dried;    /**< where it was put */
    double place_months; /**< until then, if place_dried */
    double left;         /**< kg per m2 of the wetted face, if not dried */
} bw_water_drying;

/** The wetting test: water on one face between materials at risk, of all those
 *  the slowest to dry both ways. */
typedef struct bw_water_wetting {
    bool ran;              /**< all below is valid */
    const char *reason;    /**< "" or why not */
    bool nothing_at_risk;  /**< not run: no face where water would harm */
    double x0, x1, y0, y1; /**< m, how far the face reaches */
    const char *beside[2];
    double water;   /**< kg/m2 put there */
    int month;      /**< 0..11, at its start */
    bool elsewhere; /**< meanwhile water stands at other places, too */
    bw_water_drying both, outwards, inwards; /**< inwards: to rooms */
} bw_water_wetting;

/** The monthly method in two dimensions on a coarse grid. */
typedef struct bw_junction_water {
    bool ran;           /**< all below is valid */
    const char *reason; /**< "" or why not */
    size_t nodes;       /**< of vapour */
    bool accumulates, periodic;
    int years;             /**< computed */
    double growth;         /**< kg/(m a), rise of the last year */
    double growth_by_area; /**< kg/(m2 a), over the length of the places */
    size_t place_count;    /**< by most_by_area, the most first */
    const bw_water_place *place;
    bw_water_wetting wetting; /**< where asked for */
    const double *spot_rh;    /**< 0..1, [spot * BW_MONTHS + month] at the start
                                   of each month; of the wood where wood meets
                                   something else; NAN where no material is */
} bw_junction_water;

/* ---- hour by hour -------------------------------------------------------- */

/** By how much figures of a face moved from a grid in which every two cells are
 *  one, both ways, to the one that is told of; each >= 0. Where the error falls
 *  with the cells' width or faster, what is left of it is no more. */
typedef struct bw_place_moved {
    double rh;                /**< -, of the mean of the dampest month */
    double above_95;          /**< h a year */
    double mould, mould_slow; /**< - */
    double free_water;        /**< kg/m2 */
} bw_place_moved;

/** The same of a piece of wood. */
typedef struct bw_wood_moved {
    double highest;          /**< kg/kg */
    double days_above_line;  /**< d */
    double first_dose, dose; /**< d */
} bw_wood_moved;

/** A face between two materials, or of a room, as long as a cell. Of the last
 *  year where nothing else is said. */
typedef struct bw_hour_place {
    double x, y;           /**< m, its middle */
    bool room;             /**< the surface of a room */
    const char *beside[2]; /**< names of what touches there; [1] of a room: its
                                id */
    bw_mould_class mould_class;
    bool at_risk;              /**< wood, a board that feeds mould or insulation
                                    that takes up water touches there */
    double highest_rh;         /**< - */
    double above_80, above_90, above_95; /**< h a year */
    double month_rh[BW_MONTHS];          /**< -, means */
    int dampest;               /**< month 0..11 of the highest mean */
    double mould, mould_slow;  /**< highest index, the last year repeated to its
                                    end, with the decline of the class and with
                                    that of ASHRAE 160 */
    bool settled;              /**< the first of them rises no more */
    double free_water;         /**< kg/m2, the most that stood there, over all
                                    years */
    int free_month;            /**< of it, 0..11; -1: none stood */
    bw_place_moved moved;      /**< of bw_junction_hours.compared */
} bw_hour_place;

/** A piece of wood: cells of one material that touch. Where nothing else is
 *  said, of the wettest 10 mm by 10 mm of each day of the last year. */
typedef struct bw_hour_wood {
    const char *name;
    const bw_material *material;
    bool exposed;          /**< it shows a face to the outside */
    double x, y;           /**< m, where it was wettest */
    double limit;          /**< kg/kg */
    double highest, first_highest; /**< kg/kg, of the last and the first year;
                                not a number: it has no such block */
    int month;             /**< 0..11, of the highest */
    double hours_above;    /**< h above the limit */
    double days_above_line, overshoot; /**< d, -: the line of embedded timber */
    double first_dose, dose; /**< d, decay, of the first and of a later year */
    bw_wood_moved moved;     /**< of bw_junction_hours.compared */
} bw_hour_wood;

/** A place with a name through the last year, in spans as of a wall's
 *  simulation, the first of which begins with October. */
typedef struct bw_hour_spot {
    const char *name;
    double x, y;              /**< m, as drawn */
    size_t place;             /**< the face that is nearest */
    double away;              /**< m, from it */
    double theta[BW_SPANS];   /**< degC, means there */
    double phi[BW_SPANS];     /**< - */
    long wood;                /**< the piece of wood within 20 mm; -1: none */
    double moisture[BW_SPANS]; /**< kg/kg of the wood there, means */
    double moved_phi, moved_moisture; /**< -, kg/kg, the most that any of them
                                  moved; of bw_junction_hours.compared */
} bw_hour_spot;

typedef struct bw_junction_hours {
    bool asked;         /**< else nothing below is valid */
    bool ran;           /**< all below `reason` is valid */
    const char *reason; /**< "" or why not */
    bool synthetic;     /**< hours generated from months */
    size_t cells, steps;
    int years;
    bool periodic;      /**< the last year ended as it began */
    bool drying;        /**< no cell ended it wetter than it began */
    bool rising;        /**< water rose in both of the last two years */
    double yearly_change; /**< kg/m2 of the drawing's face, last year */
    double state_change;  /**< -, the largest change of a cell in it: of
                               humidity, with its water by free saturation */
    double balance;     /**< of water, what is not accounted for by what came in */
    double leaked;      /**< kg/m of leaking rain, of the last year */
    double ran_off;     /**< kg/m of it that found full pores where it gets in */
    double air;         /**< kg/m that stated room air left there, of the last
                             year, net */
    size_t place_count;
    const bw_hour_place *place;
    size_t wood_count;
    const bw_hour_wood *wood;
    size_t spot_count;
    const bw_hour_spot *spot;
    size_t unseen_count; /**< what it does not see of this junction, for which
                              nothing within is said to hold */
    const char *const *unseen;
    bool compared;      /**< with the same years on the grid of bw_place_moved:
                             all that is said to have moved is valid */
    const char *not_compared; /**< "" or why not */
    size_t coarse_cells, coarse_steps;
    bool coarse_rising; /**< `rising` there */
} bw_junction_hours;

/** How it is run; zeros: the defaults. */
typedef struct bw_hour_options {
    int most_years;      /**< 5; ends sooner where a year repeats the last */
    double smallest;     /**< m, cells at the lines of the drawing; 0.002 */
    size_t most_cells;   /**< 1000; made coarser until it is kept */
    bool no_synthetic;   /**< only with a climate that has hours */
    bw_progress *progress; /**< may be NULL */
    void *payload;
} bw_hour_options;

BW_END_C

#endif
