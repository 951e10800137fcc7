#ifndef BW_TESTS_JUNCTION_WATCHED_H
#define BW_TESTS_JUNCTION_WATCHED_H

/* Drawings whose hours are watched; their states are put there by hand, so that
 * what is told of them can be said beforehand. Cells of five materials at
 * random, air of the room among them; outside below, the room above. */

#include <math.h>

#include "bothways/air.h"
#include "hour_sheet.h"
#include "hour_watch.h"
#include "junction_plan.h"
#include "transient_case.h"

enum { STONE, TIMBER, PANEL, FOAM, PAPER, STUFFS, MEMBRANE = STUFFS };
enum { WATCHED_FIRST = 273 * 24 }; /* October: with it a year begins */
enum { WATCHED_SPOTS = 8 };

typedef struct watched {
    transient_case *c;
    plan p;
    bw_sheet_model model;
    bw_sheet_solver solver;
    bw_arena keep;
    bw_junction_hours out;
    bw_hour_watch watch;
    bw_sheet_weather weather;
    bw_drawn_spot spot[WATCHED_SPOTS];
    size_t spots;
    unsigned long seed;
} watched;

static inline double chance_in(watched *w, double low, double high)
{
    return low + (high - low) * plan_chance(&w->seed);
}

/* sd by humidity: its logarithm is straight. */
static const double watched_sd_x[] = {0.0, 1.0}, watched_sd_y[] = {9.0, 0.3};
static const bw_curve watched_sd = {
    .count = 2, .x = watched_sd_x, .y = watched_sd_y};

/* Figures of the size of the library's; each class of mould but one is there
 * once. */
static inline void watched_materials(watched *w)
{
    static const double phi[] = {0.5, 0.8, 0.95};
    static const double panel[] = {0.08, 0.13, 0.19};
    static const double paper[] = {0.004, 0.009, 0.018};
    transient_case *c = w->c;
    case_material(c, STONE, "stone", 1700, 0.77, 1000, 10, 10);
    case_sorption(c, STONE, 2, phi, (double[]){0.0041, 0.0071});
    c->material[STONE].free_saturation = case_value(250);
    c->material[STONE].water_absorption = case_value(0.1);
    c->material[STONE].mould_class = BW_MOULD_RESISTANT;
    case_material(c, TIMBER, "timber", 450, 0.13, 1600, 40, 40);
    c->material[TIMBER].wood_kind = BW_SOLID_WOOD;
    c->material[TIMBER].mould_class = BW_MOULD_VERY_SENSITIVE;
    case_material(c, PANEL, "panel", 600, 0.15, 1600, 50, 50);
    case_sorption(c, PANEL, 3, phi, panel);
    c->material[PANEL].wood_kind = BW_WOOD_PANEL;
    case_material(c, FOAM, "foam", 30, 0.035, 1450, 60, 60);
    c->material[FOAM].mould_class = BW_MOULD_RESISTANT;
    case_material(c, PAPER, "paper", 700, 0.21, 1000, 8, 8);
    case_sorption(c, PAPER, 3, phi, paper);
    c->material[PAPER].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    case_material(c, MEMBRANE, "membrane", 500, 0.2, 1000, 0, 0);
    c->material[MEMBRANE].mould_class = BW_MOULD_SENSITIVE;
    for (size_t k = 0; k < STUFFS; k++) {
        const bw_material *m = &c->material[k];
        w->p.material[k] = (bw_drawn_material){
            .name = m->name,
            .material = m,
            .conductivity = m->thermal_conductivity.value,
            .mu_dry = m->mu_dry.value,
            .mu_wet = m->mu_wet.value};
    }
    w->p.film[0] = (bw_drawn_film){.name = "membrane",
                                   .material = &c->material[MEMBRANE],
                                   .sd_curve = &watched_sd};
}

/* The plan is there: what is watched of it. */
static inline void watched_make(watched *w)
{
    static const bw_sheet_air air = {
        .theta = 20, .p = 1200, .h = 4, .beta = 3e-8};
    plan_make(&w->p);
    w->p.junction.spot = w->spot;
    w->p.junction.spot_count = w->spots;
    ck_assert_int_eq(
        bw_sheet_make(&w->model, &w->p.arena, &w->p.raster, NULL, 101325, NULL),
        BW_OK);
    ck_assert_int_eq(
        bw_sheet_solver_make(&w->solver, &w->model.sheet, &w->p.arena, NULL),
        BW_OK);
    w->watch = (bw_hour_watch){.raster = &w->p.raster,
                               .model = &w->model,
                               .keep = &w->keep,
                               .arena = &w->p.arena,
                               .out = &w->out};
    ck_assert_int_eq(bw_hour_watch_make(&w->watch, NULL), BW_OK);
    for (size_t k = 0; k < BW_SHEET_SIDES; k++)
        w->weather.side[k] = air;
}

static inline watched *watched_start(size_t nx, size_t ny, unsigned long seed)
{
    watched *w = calloc(1, sizeof *w);
    ck_assert_ptr_nonnull(w);
    w->c = case_new();
    w->seed = seed;
    plan_start(&w->p, nx, ny);
    watched_materials(w);
    w->p.rim[BW_EDGE_BELOW] = 0;
    w->p.rim[BW_EDGE_ABOVE] = 1;
    return w;
}

/* Lines at random, and in one cell of four another material than in the last,
 * air of the room or a film. */
static inline watched *watched_any(size_t nx, size_t ny, unsigned long seed)
{
    watched *w = watched_start(nx, ny, seed);
    plan *p = &w->p;
    int stuff = TIMBER;
    for (size_t i = 0; i < nx; i++)
        p->x[i + 1] = p->x[i] + chance_in(w, 0.002, 0.012);
    for (size_t j = 0; j < ny; j++)
        p->y[j + 1] = p->y[j] + chance_in(w, 0.002, 0.012);
    for (size_t c = 0; c < nx * ny; c++) {
        if (chance_in(w, 0, 1) < 0.4)
            stuff = (int)chance_in(w, 0, STUFFS);
        p->cell[c] = stuff;
        if (chance_in(w, 0, 1) < 0.06) {
            p->cell[c] = BW_NOT_THERE;
            p->air[c] = 1;
        }
        if (chance_in(w, 0, 1) < 0.1)
            p->film_x[c / nx * (nx + 1) + c % nx] = 0;
        if (chance_in(w, 0, 1) < 0.1)
            p->film_y[c] = 0;
    }
    watched_make(w);
    return w;
}

static inline void watched_end(watched *w)
{
    bw_arena_release(&w->p.arena);
    bw_arena_release(&w->keep);
    free(w->c);
    free(w);
}

/* A cell of the sheet gets a state. */
static inline void put_state(watched *w, size_t cell, double theta, double z)
{
    w->solver.v[2 * cell] = theta;
    w->solver.v[2 * cell + 1] = z;
}

static inline double z_of(const watched *w, size_t cell, double phi)
{
    return bw_hygro_z_of_phi(w->model.sheet.hygro[cell], phi);
}

static inline void states_put(watched *w)
{
    bw_cells_at(&w->model.sheet.cells, w->solver.v, &w->solver.cells, false);
}

/* All alike, the air, too. */
static inline void put_all(watched *w, double theta, double phi)
{
    for (size_t i = 0; i < w->model.sheet.n; i++)
        put_state(w, i, theta, z_of(w, i, phi));
    states_put(w);
    for (size_t k = 0; k < BW_SHEET_SIDES; k++) {
        w->weather.side[k].theta = theta;
        w->weather.side[k].p = phi * bw_saturation_pressure(theta);
    }
}

static inline void see_hour(watched *w, int hour)
{
    bw_hour_watch_hour(&w->watch, &w->solver, &w->weather,
                       (WATCHED_FIRST + hour) % BW_TRANSIENT_HOURS);
}

#endif
