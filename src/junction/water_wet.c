/* The wetting test of a junction: 1 kg/m2 on each face between materials, one
 * of which is wood, a board that mould takes or insulation that holds water; of
 * all faces the slowest is kept, as in one dimension.
 *
 * Invariant: a face is that between two members, or of a member against a film;
 * none of its nodes has the state of an environment. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "properties.h"
#include "water.h"

enum { FACES_MOST = 24 };
static const double water = 1.0;          /* kg/m2 */
static const double same = 1e-9;          /* months, kg/m2 */
static const double passes_vapour = 10.0; /* mu of insulation that air enters */

typedef struct face {
    size_t of[2]; /* members, or after them films */
    bw_vapour_line line;
    size_t room[2];
    const char *beside[2];
} face;

typedef struct wetting {
    const bw_vapour *vapour;
    const bw_vapour_air *air;
    bw_mu_choice mu;
    bw_arena arena;
    size_t *group; /* [members], after them films: the layer it is of */
    face face[FACES_MOST];
    size_t faces;
    bool too_many;
} wetting;

static bool harmed(const bw_drawn_material *m)
{
    if (m->air || m->material == NULL || m->material->group == NULL)
        return false;
    if (bw_is_timber(m->material))
        return true;
    if (strcmp(m->material->group, "board") == 0)
        return m->material->mould_class <= BW_MOULD_SENSITIVE;
    return bw_is_insulation(m->material) &&
           (m->material->absorbs_condensate || m->material->hygroscopic ||
            m->mu_dry < passes_vapour);
}

/* Members that touch and are called the same are one layer, of two walls; films
 * likewise. */
static void join(wetting *w, size_t cell, size_t next)
{
    const bw_raster *g = w->vapour->grid;
    const bw_junction *d = g->junction;
    if (g->material[cell] == BW_NOT_THERE ||
        g->material[next] == BW_NOT_THERE ||
        strcmp(d->material[g->material[cell]].name,
               d->material[g->material[next]].name) != 0)
        return;
    const size_t a = w->group[w->vapour->member[cell]];
    const size_t b = w->group[w->vapour->member[next]];
    for (size_t k = 0; a != b && k < w->vapour->members; k++)
        if (w->group[k] == b)
            w->group[k] = a;
}

static bw_status find_groups(wetting *w, bw_error *err)
{
    const bw_raster *g = w->vapour->grid;
    const bw_junction *d = g->junction;
    const size_t members = w->vapour->members;
    w->group = BW_NEW(&w->arena, size_t, members + d->film_count + 1);
    BW_TRY_MEMORY(w->group != NULL, err);
    for (size_t k = 0; k < members; k++)
        w->group[k] = k;
    for (size_t j = 0; j < g->ny; j++)
        for (size_t i = 0; i < g->nx; i++) {
            const size_t cell = j * g->nx + i;
            if (i + 1 < g->nx &&
                g->film_x[j * (g->nx + 1) + i + 1] == BW_NOT_THERE)
                join(w, cell, cell + 1);
            if (j + 1 < g->ny && g->film_y[cell + g->nx] == BW_NOT_THERE)
                join(w, cell, cell + g->nx);
        }
    for (size_t k = 0; k < d->film_count; k++) {
        size_t first = 0;
        while (strcmp(d->film[first].name, d->film[k].name) != 0)
            first++;
        w->group[members + k] = members + first;
    }
    return BW_OK;
}

static face *face_of(wetting *w, size_t a, size_t b)
{
    for (size_t k = 0; k < w->faces; k++)
        if (w->face[k].of[0] == a && w->face[k].of[1] == b)
            return &w->face[k];
    if (w->faces == FACES_MOST) {
        w->too_many = true;
        return NULL;
    }
    w->face[w->faces].of[0] = a;
    w->face[w->faces].of[1] = b;
    return &w->face[w->faces++];
}

static void add(wetting *w, face *f, size_t node, double length)
{
    bw_vapour_line *line = &f->line;
    if (w->vapour->nodes.environment[node] != BW_NO_ENVIRONMENT)
        return;
    size_t i = 0;
    while (i < line->count && line->node[i] != node)
        i++;
    if (i == line->count) {
        size_t *n = bw_arena_more(&w->arena, line->node, i, &f->room[0],
                                  sizeof *n);
        double *l = bw_arena_more(&w->arena, line->length, i, &f->room[1],
                                  sizeof *l);
        if (n == NULL || l == NULL)
            return; /* the arena remembers */
        n[i] = node;
        l[i] = 0.0;
        line->node = n;
        line->length = l;
        line->count++;
    }
    line->length[i] += length;
    line->total += length;
}

/* The side of a cell to the right of it or above, or, of a film, any. */
static void add_side(wetting *w, size_t i, size_t j, bw_cell_side side)
{
    const bw_raster *g = w->vapour->grid;
    const bw_junction *d = g->junction;
    const size_t cell = j * g->nx + i;
    size_t own = w->vapour->member[cell];
    const bool level = side == BW_EDGE_BELOW || side == BW_EDGE_ABOVE;
    const int film =
        level
            ? g->film_y[(side == BW_EDGE_ABOVE ? cell + g->nx : cell)]
            : g->film_x[j * (g->nx + 1) + (side == BW_EDGE_RIGHT ? i + 1 : i)];
    const bool first = side == BW_EDGE_RIGHT || side == BW_EDGE_ABOVE;
    const bool rim = (side == BW_EDGE_RIGHT && i + 1 == g->nx) ||
                     (side == BW_EDGE_ABOVE && j + 1 == g->ny);
    const bw_drawn_material *m = &d->material[g->material[cell]];
    const char *beside = NULL;
    bool risk = harmed(m);
    size_t other = 0;
    if (film != BW_NOT_THERE) {
        other = w->vapour->members + (size_t)film;
        beside = d->film[film].name;
    } else if (first && !rim) {
        const size_t next = side == BW_EDGE_RIGHT ? cell + 1 : cell + g->nx;
        if (g->material[next] == BW_NOT_THERE)
            return;
        other = w->vapour->member[next];
        beside = d->material[g->material[next]].name;
        risk = risk || harmed(&d->material[g->material[next]]);
    }
    own = w->group[own];
    other = w->group[other];
    if (beside == NULL || !risk || other == own)
        return;
    face *f = face_of(w, own < other ? own : other, own < other ? other : own);
    if (f == NULL)
        return;
    size_t end[2];
    f->beside[0] = m->name;
    f->beside[1] = beside;
    bw_nodes_ends(&w->vapour->nodes, cell, side, end);
    const double length = level ? g->x[i + 1] - g->x[i] : g->y[j + 1] - g->y[j];
    for (int e = 0; e < 2; e++)
        add(w, f, end[e], 0.5 * length);
}

static bw_status find_faces(wetting *w, bw_error *err)
{
    const bw_raster *g = w->vapour->grid;
    for (size_t j = 0; j < g->ny; j++)
        for (size_t i = 0; i < g->nx; i++)
            for (bw_cell_side side = BW_EDGE_LEFT; side < BW_EDGES; ++side)
                if (g->material[j * g->nx + i] != BW_NOT_THERE)
                    add_side(w, i, j, side);
    return w->arena.failed ? bw_fail_memory(err) : BW_OK;
}

static bw_status dry(wetting *w, bw_water_drying *out, bw_water_wetting *of,
                     const face *f, bw_drying_ways ways, bw_error *err)
{
    bw_arena arena = {0};
    bw_vapour_result r;
    const bw_vapour_options options = {.mu = w->mu,
                                       .start_month = -1,
                                       .wetting = water,
                                       .wet = f->line,
                                       .ways = ways};
    const bw_status status = bw_vapour_year(&r, &arena, w->vapour, w->air,
                                            &options, err);
    if (status == BW_OK) {
        *out = (bw_water_drying){r.dried, r.months_to_dry, r.wet_line_dried,
                                 r.wet_line_months, r.left / f->line.total};
        of->month = r.start_month;
        if (ways == BW_DRY_BOTH)
            of->elsewhere = r.condensed_elsewhere;
    }
    bw_arena_release(&arena);
    return status;
}

static bool slower(const bw_water_drying *a, const bw_water_drying *b)
{
    if (a->dried != b->dried)
        return b->dried;
    return a->dried ? a->months > b->months + same : a->left > b->left + same;
}

static void describe(bw_water_wetting *out, const bw_nodes *nodes,
                     const face *f)
{
    out->x0 = out->y0 = HUGE_VAL;
    out->x1 = out->y1 = -HUGE_VAL;
    for (size_t i = 0; i < f->line.count; i++) {
        const size_t n = f->line.node[i];
        out->x0 = fmin(out->x0, nodes->x[n]);
        out->x1 = fmax(out->x1, nodes->x[n]);
        out->y0 = fmin(out->y0, nodes->y[n]);
        out->y1 = fmax(out->y1, nodes->y[n]);
    }
    out->beside[0] = f->beside[0];
    out->beside[1] = f->beside[1];
}

static bw_status wet(wetting *w, bw_water_wetting *out, bw_error *err)
{
    const face *slowest = NULL;
    BW_TRY(find_groups(w, err));
    BW_TRY(find_faces(w, err));
    if (w->too_many)
        return bw_fail_domain(err, "more than %d faces to wet in turn",
                              FACES_MOST);
    for (size_t k = 0; k < w->faces; k++) {
        bw_water_wetting one = {.reason = "", .water = water};
        if (w->face[k].line.count == 0)
            continue;
        BW_TRY(dry(w, &one.both, &one, &w->face[k], BW_DRY_BOTH, err));
        if (slowest != NULL && !slower(&one.both, &out->both))
            continue;
        slowest = &w->face[k];
        *out = one;
    }
    out->nothing_at_risk = slowest == NULL;
    if (slowest == NULL)
        return bw_fail_domain(err, "no face within is of wood, of a board or "
                                   "of insulation that water harms");
    describe(out, &w->vapour->nodes, slowest);
    BW_TRY(dry(w, &out->outwards, out, slowest, BW_DRY_OUTWARDS, err));
    return dry(w, &out->inwards, out, slowest, BW_DRY_INWARDS, err);
}

bw_status bw_water_wet(bw_water_wetting *out, bw_arena *arena,
                       const bw_vapour *vapour, const bw_vapour_air *air,
                       bw_mu_choice mu, bw_error *err)
{
    wetting w = {.vapour = vapour, .air = air, .mu = mu};
    bw_error fault = {0};
    *out = (bw_water_wetting){.reason = ""};
    const bw_status status = wet(&w, out, &fault);
    out->ran = status == BW_OK;
    bw_arena_release(&w.arena);
    if (status == BW_ERR_MEMORY && err != NULL)
        *err = fault;
    if (status == BW_OK || status == BW_ERR_MEMORY)
        return status;
    out->reason = bw_arena_say(arena, "%s", fault.message);
    return BW_OK;
}
