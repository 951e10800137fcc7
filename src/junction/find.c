/* Steady heat of a junction on grids whose cells are halved in turn.
 *
 * From three grids (Richardson): p = log2((b - a)/(c - b)), the value is
 * c + (c - b)/(2^p - 1), its error as much as that moved it. At a re-entrant
 * corner of 90 degrees the flow's error falls with h^(4/3), the temperature's
 * with h^(2/3) [theory of corner singularities; from memory, high]; where the
 * grids show no order between a half and two and a half, these are taken.
 *
 * Invariant: no number is given without the grids' own error of it. */

#include <math.h>
#include <stdlib.h>

#include "fail.h"
#include "flanks.h"
#include "heat.h"

static const double corner_flow_order = 4.0 / 3.0;
static const double corner_temperature_order = 2.0 / 3.0;
static const double least_order = 0.5, most_order = 2.5;
static const double smooth_order = 2.0; /* of the method */

enum { LEAST_GRIDS = 3, ROOMS_MOST = 16 };

/* What is followed from grid to grid. */
typedef struct course {
    double value[BW_MOST_GRIDS];
    double corner_order;
} course;

typedef struct owner {
    bw_junction_heat heat; /* first: it is what callers hold */
    bw_arena arena;
} owner;

typedef struct finding {
    bw_junction_heat *out;
    const bw_junction *j;
    bw_junction_options options;
    bw_raster_options cells; /* of the first grid */
    bw_arena *arena;
    bw_error *err;
    double *surface[BW_SURFACES_COUNT]; /* of each environment */
    bw_raster raster[BW_MOST_GRIDS];
    bw_heat heat[BW_SURFACES_COUNT][BW_MOST_GRIDS];
    course *coupling; /* of each pair */
    course l2d;
    course *frsi; /* [room * BW_SURFACES_FLOW + which] */
    bw_found *coupling_found;
    bw_coldest *coldest;
} finding;

/* ---- from grids to a number ------------------------------------------------
 */

static bw_found extrapolate(const course *c, size_t grids)
{
    const double *v = c->value + grids - LEAST_GRIDS;
    const double first = v[1] - v[0], last = v[2] - v[1];
    bw_found found = {.value = v[2], .finest = v[2]};
    if (fabs(last) <= 1e-9 * fabs(v[2]))
        return found; /* rounding */
    double order = c->corner_order;
    if (first / last > 0.0) {
        found.order = log2(first / last);
        if (found.order >= least_order && found.order <= most_order)
            order = fmin(found.order, smooth_order);
    }
    const double moved = last / (exp2(order) - 1.0);
    found.error = fmax(fabs(moved), found.order > 0.0 ? 0.0 : fabs(first));
    if (found.order > 0.0)
        found.value += moved;
    return found;
}

/* ---- one grid ---------------------------------------------------------------
 */

static bool is_room(const finding *f, size_t environment)
{
    return f->j->environment[environment].kind == BW_ENVIRONMENT_ROOM;
}

/* Of a face, with all rooms at 1 and all else at 0. */
static double factor_at(const finding *f, const bw_heat *heat,
                        const bw_raster_face *face)
{
    double sum = 0.0;
    for (size_t e = 0; e < f->j->environment_count; e++)
        if (is_room(f, e))
            sum += bw_heat_face(heat, e, face);
    return sum;
}

static void look_at_surfaces(finding *f, bw_surfaces which, size_t grid)
{
    const bw_heat *heat = &f->heat[which][grid];
    for (size_t r = 0; r < f->out->coldest_count; r++) {
        bw_coldest *c = &f->coldest[r * BW_SURFACES_FLOW + which];
        double *lowest = &f->frsi[r * BW_SURFACES_FLOW + which].value[grid];
        *lowest = HUGE_VAL;
        for (size_t k = 0; k < heat->raster->face_count; k++) {
            const bw_raster_face *face = &heat->raster->face[k];
            if (face->environment != c->environment)
                continue;
            const double here = factor_at(f, heat, face);
            if (here >= *lowest)
                continue;
            *lowest = here;
            c->x = face->x;
            c->y = face->y;
        }
    }
}

static void look_at_flows(finding *f, size_t grid)
{
    const bw_heat *heat = &f->heat[BW_SURFACES_FLOW][grid];
    const size_t m = f->j->environment_count;
    double l2d = 0.0;
    for (size_t i = 0; i < m; i++)
        for (size_t k = 0; k < m; k++) {
            f->coupling[i * m + k].value[grid] = heat->coupling[i * m + k];
            if (i != k && is_room(f, k) && !is_room(f, i))
                l2d += heat->coupling[i * m + k];
        }
    f->l2d.value[grid] = l2d;
    f->out->balance = heat->balance;
}

/* A drawing of very many lines has coarser cells to start with, so that its
 * third grid is still solved in seconds; or there is none. */
static bw_status choose_cells(finding *f)
{
    enum { TRIES = 5, HALVED_TWICE = 16 };
    bw_raster_options *o = &f->cells;
    const size_t most = 4 * f->options.most_cells;
    *o = (bw_raster_options){.smallest = f->options.smallest};
    for (int k = 0; k < TRIES; k++) {
        bw_arena arena = {0};
        bw_raster raster;
        const bw_status status = bw_raster_make(&raster, f->j, o, &arena,
                                                f->err);
        const size_t cells = raster.nx * raster.ny;
        bw_arena_release(&arena);
        BW_TRY(status);
        if (HALVED_TWICE * cells <= most)
            return BW_OK;
        o->growth = (k + 2.0);
        o->smallest = (o->smallest > 0.0 ? o->smallest : 0.002) * 2.0;
    }
    return bw_fail(f->err, BW_ERR_INPUT, f->j->file, 0,
                   "the drawing has so many lines that it cannot be solved on "
                   "grids of at most %zu cells; draw less of it, or leave out "
                   "what is small",
                   most);
}

static bw_status solve_grid(finding *f, size_t grid)
{
    bw_raster_options options = f->cells;
    options.halvings = (int)grid;
    BW_TRY(bw_raster_make(&f->raster[grid], f->j, &options, f->arena, f->err));
    f->out->cells[grid] = f->raster[grid].filled;
    for (int w = 0; w < BW_SURFACES_COUNT; w++) {
        bw_heat *heat = &f->heat[w][grid];
        BW_TRY(bw_heat_solve(heat, &f->raster[grid], f->surface[w],
                             grid > 0 ? &f->heat[w][grid - 1] : NULL, f->arena,
                             f->err));
        f->out->steps += heat->steps;
        if (w != BW_SURFACES_FLOW)
            look_at_surfaces(f, (bw_surfaces)w, grid);
    }
    look_at_flows(f, grid);
    return BW_OK;
}

/* ---- the whole --------------------------------------------------------------
 */

static void tell(finding *f)
{
    const size_t m = f->j->environment_count, grids = f->out->grids;
    f->out->l2d = extrapolate(&f->l2d, grids);
    for (size_t i = 0; i < m * m; i++)
        f->coupling_found[i] = extrapolate(&f->coupling[i], grids);
    for (size_t i = 0; i < f->out->coldest_count * BW_SURFACES_FLOW; i++)
        f->coldest[i].frsi = extrapolate(&f->frsi[i], grids);
}

/* Of the surface at every face of the finest grid. */
static bw_status keep_faces(finding *f)
{
    const bw_raster *raster = &f->out->raster;
    const size_t m = f->j->environment_count, faces = raster->face_count;
    double *w = BW_NEW(f->arena, double, BW_SURFACES_FLOW *m *faces);
    BW_TRY_MEMORY(w != NULL, f->err);
    for (size_t k = 0; k < BW_SURFACES_FLOW * m * faces; k++)
        w[k] = bw_heat_face(&f->heat[k / (m * faces)][f->out->grids - 1],
                            k / faces % m, &raster->face[k % faces]);
    f->out->face_weight = w;
    return BW_OK;
}

static bool good_enough(const finding *f)
{
    const bw_junction_heat *h = f->out;
    if (h->l2d.error > f->options.l2d_error * fabs(h->l2d.value))
        return false;
    for (size_t i = 0; i < h->coldest_count * BW_SURFACES_FLOW; i++)
        if (h->coldest[i].frsi.error > f->options.frsi_error)
            return false;
    return true;
}

static bw_status set_up(finding *f)
{
    const size_t m = f->j->environment_count;
    size_t rooms = 0;
    for (size_t e = 0; e < m; e++)
        rooms += is_room(f, e);
    f->out->environment_count = m;
    f->out->coldest_count = rooms;
    f->coupling = BW_NEW(f->arena, course, m * m);
    f->coupling_found = BW_NEW(f->arena, bw_found, m * m);
    f->frsi = BW_NEW(f->arena, course, rooms * BW_SURFACES_FLOW);
    f->coldest = BW_NEW(f->arena, bw_coldest, rooms * BW_SURFACES_FLOW);
    for (int w = 0; w < BW_SURFACES_COUNT; w++)
        f->surface[w] = BW_NEW(f->arena, double, m);
    BW_TRY_MEMORY(!f->arena->failed, f->err);
    f->out->coupling = f->coupling_found;
    f->out->coldest = f->coldest;
    f->l2d.corner_order = corner_flow_order;
    for (size_t i = 0; i < m * m; i++)
        f->coupling[i].corner_order = corner_flow_order;
    for (int w = 0; w < BW_SURFACES_COUNT; w++)
        for (size_t e = 0; e < m; e++)
            f->surface[w][e] = bw_surface_of(&f->j->environment[e],
                                             (bw_surfaces)w);
    size_t room = 0;
    for (size_t e = 0; e < m; e++)
        for (int w = 0; is_room(f, e) && w < BW_SURFACES_FLOW; w++) {
            f->frsi[room].corner_order = corner_temperature_order;
            f->coldest[room++].environment = e;
        }
    return BW_OK;
}

static bw_status find(finding *f)
{
    bw_junction_heat *h = f->out;
    BW_TRY(set_up(f));
    BW_TRY(choose_cells(f));
    while (h->grids < LEAST_GRIDS ||
           (h->grids < BW_MOST_GRIDS && !good_enough(f) &&
            4 * h->cells[h->grids - 1] <= f->options.most_cells)) {
        BW_TRY(solve_grid(f, h->grids));
        if (++h->grids >= LEAST_GRIDS)
            tell(f);
    }
    h->raster = f->raster[h->grids - 1];
    h->weight = f->heat[BW_SURFACES_MOISTURE][h->grids - 1].weight;
    bw_flanks_find(h, f->surface[BW_SURFACES_FLOW]);
    return keep_faces(f);
}

bw_status bw_junction_heat_make(bw_junction_heat **out,
                                const bw_junction *junction,
                                const bw_junction_options *options,
                                bw_error *err)
{
    *out = NULL;
    owner *made = calloc(1, sizeof *made);
    finding *f = calloc(1, sizeof *f);
    bw_status status = BW_ERR_MEMORY;
    if (made != NULL && f != NULL) {
        made->heat.junction = junction;
        *f = (finding){.out = &made->heat,
                       .j = junction,
                       .arena = &made->arena,
                       .err = err};
        if (options != NULL)
            f->options = *options;
        if (f->options.most_cells == 0)
            f->options.most_cells = 200000;
        if (f->options.l2d_error <= 0.0)
            f->options.l2d_error = 0.001;
        if (f->options.frsi_error <= 0.0)
            f->options.frsi_error = 0.001;
        status = find(f);
    } else {
        bw_fail_memory(err);
    }
    free(f);
    if (status != BW_OK && made != NULL)
        bw_junction_heat_free(&made->heat);
    else
        *out = made != NULL ? &made->heat : NULL;
    return status;
}

void bw_junction_heat_free(bw_junction_heat *heat)
{
    if (heat == NULL)
        return;
    owner *made = (owner *)heat;
    bw_arena_release(&made->arena);
    free(made);
}
