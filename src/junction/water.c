/* Where water stands within a junction, by the monthly method in two dimensions
 * on a coarse grid.
 *
 * A place is nodes that touch and hold water at some month's end. Its kg/m2 is
 * the larger of that at its fullest node, over the face the node stands for or
 * a hand's width, where corners and ends gather water without limit, and that
 * of all of it over its longer side: of a plane wall the second is what one
 * dimension adds up over its planes [derived].
 *
 * Invariant: what is not computed has a reason; nothing stands at a surface. */

#include "water.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "raster.h"
#include "spots.h"

/* Nodes of a grid that a year, with ten years of every wetting, takes well
 * below 2 s on. */
enum { CELLS_MOST = 1600, COARSER = 5, BESIDE_MOST = 2 };
static const double stands = 1e-6; /* kg/m2, as in one dimension */
static const double hand = 0.1;    /* m, choice of this project */

typedef struct finding {
    bw_arena arena; /* of all that is not kept */
    const bw_junction *junction;
    bw_raster grid;
    bw_vapour vapour;
    bw_vapour_air *air;
    bw_vapour_result year;
    size_t *place; /* [nodes] SIZE_MAX: none */
    size_t *stack;
    bw_net net;
} finding;

/* ---- the year ------------------------------------------------------------ */

static bw_status make_grid(finding *f, bw_error *err)
{
    bw_raster_options options = {.smallest = 0.005, .growth = 2.0};
    for (int k = 0; k < COARSER; k++) {
        BW_TRY(bw_raster_make(&f->grid, f->junction, &options, &f->arena, err));
        if (f->grid.filled <= CELLS_MOST)
            return BW_OK;
        options.smallest *= 2.0;
        options.growth *= 1.5;
    }
    if (f->grid.filled <= (size_t)4 * CELLS_MOST)
        return BW_OK;
    return bw_fail_domain(err,
                          "the drawing has too many lines (%zu cells) for the "
                          "monthly method in two dimensions",
                          f->grid.filled);
}

static bw_status run_year(finding *f, const double *theta, const double *p,
                          bw_mu_choice mu, bw_error *err)
{
    const size_t environments = f->junction->environment_count;
    BW_TRY(make_grid(f, err));
    double *surface = BW_NEW(&f->arena, double, environments);
    f->air = BW_NEW(&f->arena, bw_vapour_air, environments);
    BW_TRY_MEMORY(surface != NULL && f->air != NULL, err);
    for (size_t e = 0; e < environments; e++) {
        surface[e] = bw_surface_of(&f->junction->environment[e],
                                   BW_SURFACES_MOISTURE);
        memcpy(f->air[e].theta, theta + e * BW_MONTHS, sizeof f->air[e].theta);
        memcpy(f->air[e].p, p + e * BW_MONTHS, sizeof f->air[e].p);
    }
    BW_TRY(bw_vapour_make(&f->vapour, &f->arena, &f->grid, surface, err));
    bw_vapour_options options = {.mu = mu, .start_month = -1};
    BW_TRY(bw_water_air(&options, &f->arena, &f->vapour, err));
    BW_TRY(
        bw_vapour_year(&f->year, &f->arena, &f->vapour, f->air, &options, err));
    if (f->year.converged)
        return BW_OK;
    return bw_fail_domain(err, "the humidity-variable films did not settle");
}

/* ---- places -------------------------------------------------------------- */

static bool is_wet(const finding *f, size_t node)
{
    const bw_nodes *nodes = &f->vapour.nodes;
    return nodes->environment[node] == BW_NO_ENVIRONMENT &&
           f->year.peak[node] > stands * f->vapour.face[node];
}

static void spread(finding *f, size_t from, size_t name)
{
    size_t depth = 0;
    f->stack[depth++] = from;
    f->place[from] = name;
    while (depth > 0) {
        const size_t node = f->stack[--depth];
        const size_t end = f->net.start[node] + f->net.count[node];
        for (size_t k = f->net.start[node]; k < end; k++) {
            const size_t other = f->net.other[k];
            if (f->place[other] != SIZE_MAX || !is_wet(f, other))
                continue;
            f->place[other] = name;
            f->stack[depth++] = other;
        }
    }
}

static bw_status find_places(finding *f, size_t *count, bw_error *err)
{
    const bw_nodes *nodes = &f->vapour.nodes;
    f->place = BW_NEW(&f->arena, size_t, nodes->count);
    f->stack = BW_NEW(&f->arena, size_t, nodes->count);
    BW_TRY_MEMORY(f->place != NULL && f->stack != NULL, err);
    BW_TRY(bw_net_make(&f->net, &f->arena, nodes->count, nodes->link,
                       nodes->links, err));
    *count = 0;
    for (size_t n = 0; n < nodes->count; n++)
        f->place[n] = SIZE_MAX;
    for (size_t n = 0; n < nodes->count; n++)
        if (f->place[n] == SIZE_MAX && is_wet(f, n))
            spread(f, n, (*count)++);
    return BW_OK;
}

/* ---- what touches a node ------------------------------------------------- */

typedef struct touching {
    const char *name[BESIDE_MOST];
    size_t names;
    bool sheds;
} touching;

static void touch(touching *t, const char *name, bool absorbs)
{
    t->sheds = t->sheds || !absorbs;
    for (size_t k = 0; k < t->names; k++)
        if (strcmp(t->name[k], name) == 0)
            return;
    if (t->names < BESIDE_MOST)
        t->name[t->names++] = name;
}

static bw_status find_touching(finding *f, touching **out, bw_error *err)
{
    const bw_nodes *nodes = &f->vapour.nodes;
    const bw_raster *g = &f->grid;
    touching *t = BW_NEW(&f->arena, touching, nodes->count);
    BW_TRY_MEMORY(t != NULL, err);
    for (size_t c = 0; c < g->nx * g->ny; c++) {
        if (g->material[c] == BW_NOT_THERE)
            continue;
        const bw_drawn_material *m = &f->junction->material[g->material[c]];
        for (size_t k = 0; k < BW_CORNERS; k++)
            touch(&t[nodes->corner[c * BW_CORNERS + k]], m->name,
                  !m->air && m->material->absorbs_condensate);
    }
    for (size_t i = 0; i < nodes->pairs; i++) {
        const bw_drawn_film *film = &f->junction->film[nodes->pair[i].film];
        const bool absorbs = film->material != NULL &&
                             film->material->absorbs_condensate;
        touch(&t[nodes->pair[i].a], film->name, absorbs);
        touch(&t[nodes->pair[i].b], film->name, absorbs);
    }
    *out = t;
    return BW_OK;
}

/* ---- what stands at a place ---------------------------------------------- */

/* The face between the same two materials, of one place. */
typedef struct face {
    const char *const *name;
    double water, length;  /* kg/m, m */
    double x0, x1, y0, y1; /* m */
} face;

static bool same_face(const char *const *a, const char *const *b)
{
    return (strcmp(a[0], b[0]) == 0 && strcmp(a[1], b[1]) == 0) ||
           (strcmp(a[0], b[1]) == 0 && strcmp(a[1], b[0]) == 0);
}

static void add_node(face *of, const finding *f, size_t n)
{
    of->water += f->year.peak[n];
    of->length += f->vapour.face[n];
    of->x0 = fmin(of->x0, f->vapour.nodes.x[n]);
    of->x1 = fmax(of->x1, f->vapour.nodes.x[n]);
    of->y0 = fmin(of->y0, f->vapour.nodes.y[n]);
    of->y1 = fmax(of->y1, f->vapour.nodes.y[n]);
}

/* m of the face that holds most of a place; straight, from end to end. Within a
 * material, the longer side of the place. */
static double length_of(const finding *f, const bw_water_place *at, size_t name,
                        const touching *t)
{
    enum { FACES = 16 };
    face found[FACES];
    size_t count = 0;
    const face *most = NULL;
    for (size_t n = 0; n < f->vapour.nodes.count; n++) {
        size_t k = 0;
        if (f->place[n] != name || t[n].names < 2)
            continue;
        while (k < count && !same_face(found[k].name, t[n].name))
            k++;
        if (k == FACES)
            continue;
        if (k == count)
            found[count++] = (face){t[n].name, 0.0,      0.0,      HUGE_VAL,
                                    -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
        add_node(&found[k], f, n);
    }
    for (size_t k = 0; k < count; k++)
        if (most == NULL || found[k].water > most->water)
            most = &found[k];
    if (most == NULL)
        return fmax(at->x1 - at->x0, at->y1 - at->y0);
    const double across = most->x1 - most->x0, up = most->y1 - most->y0;
    return fmin(across, up) < 1e-9 ? fmax(across, up) : most->length;
}

static void reach(bw_water_place *at, const bw_nodes *nodes, size_t node)
{
    at->x0 = fmin(at->x0, nodes->x[node]);
    at->x1 = fmax(at->x1, nodes->x[node]);
    at->y0 = fmin(at->y0, nodes->y[node]);
    at->y1 = fmax(at->y1, nodes->y[node]);
}

/* kg/m2 of a field of kg/m at a node: over its face, unless a hand's width
 * around it has less. */
static double gathered(const finding *f, const double *field, size_t node)
{
    const bw_nodes *nodes = &f->vapour.nodes;
    const double own = f->vapour.face[node];
    double sum = 0.0;
    for (size_t n = 0; own < hand && n < nodes->count; n++)
        if (f->place[n] == f->place[node] &&
            fabs(nodes->x[n] - nodes->x[node]) <= 0.5 * hand &&
            fabs(nodes->y[n] - nodes->y[node]) <= 0.5 * hand)
            sum += field[n];
    return own < hand ? fmin(field[node] / own, sum / hand) : field[node] / own;
}

/* A small place is spread over a hand's width, too, if the drawing has one. */
static double least_length(const finding *f)
{
    const bw_raster *g = &f->grid;
    return fmin(hand, fmin(g->x[g->nx] - g->x[0], g->y[g->ny] - g->y[0]));
}

/* Of all the nodes of one place; month[12] is scratch. */
static void measure(const finding *f, bw_water_place *at, size_t name,
                    const touching *t)
{
    const bw_nodes *nodes = &f->vapour.nodes;
    const int last = (f->year.start_month + BW_MONTHS - 1) % BW_MONTHS;
    const double *at_end = f->year.mass + (size_t)last * nodes->count;
    double month[BW_MONTHS] = {0.0}, fullest = 0.0, left = 0.0, widest = 0.0;
    *at = (bw_water_place){
        .x0 = HUGE_VAL, .x1 = -HUGE_VAL, .y0 = HUGE_VAL, .y1 = -HUGE_VAL};
    for (size_t n = 0; n < nodes->count; n++) {
        if (f->place[n] != name)
            continue;
        const double share = gathered(f, f->year.peak, n);
        reach(at, nodes, n);
        widest = fmax(widest, f->vapour.face[n]);
        for (size_t m = 0; m < BW_MONTHS; m++)
            month[m] += f->year.mass[m * nodes->count + n];
        left = fmax(left, gathered(f, at_end, n));
        if (t[n].sheds)
            at->most_shed = fmax(at->most_shed, share);
        at->sheds = at->sheds || t[n].sheds;
        if (share <= fullest)
            continue;
        fullest = share;
        at->x = nodes->x[n];
        at->y = nodes->y[n];
        at->beside[0] = t[n].name[0];
        at->beside[1] = t[n].names > 1 ? t[n].name[1] : NULL;
    }
    for (int m = 0; m < BW_MONTHS; m++)
        if (month[m] > month[at->month])
            at->month = m;
    const double length = fmax(fmax(length_of(f, at, name, t), widest),
                               least_length(f));
    at->most = month[at->month];
    at->left = month[last];
    at->most_by_area = fmax(fullest, at->most / length);
    at->left_by_area = fmax(left, at->left / length);
}

static int by_most(const void *a, const void *b)
{
    const bw_water_place *one = a, *two = b;
    return (one->most_by_area < two->most_by_area) -
           (one->most_by_area > two->most_by_area);
}

static bw_status measure_places(finding *f, bw_junction_water *out,
                                bw_arena *arena, bw_error *err)
{
    touching *t = NULL;
    double length = 0.0;
    BW_TRY(find_places(f, &out->place_count, err));
    BW_TRY(find_touching(f, &t, err));
    bw_water_place *place = BW_NEW(arena, bw_water_place, out->place_count + 1);
    BW_TRY_MEMORY(place != NULL && t != NULL, err);
    for (size_t k = 0; k < out->place_count; k++) {
        measure(f, &place[k], k, t);
        length = fmax(length, place[k].most / place[k].most_by_area);
    }
    qsort(place, out->place_count, sizeof *place, by_most);
    out->place = place;
    out->nodes = f->vapour.nodes.count;
    out->accumulates = f->year.accumulates;
    out->periodic = f->year.periodic;
    out->years = f->year.cycles;
    out->growth = f->year.growth;
    out->growth_by_area = length > 0.0 ? f->year.growth / length
                                       : f->year.growth;
    return BW_OK;
}

/* ---- all of it ----------------------------------------------------------- */

static bw_status find(finding *f, bw_junction_water *out, bw_arena *arena,
                      const double *theta, const double *p, bw_mu_choice mu,
                      bw_error *err)
{
    BW_TRY(run_year(f, theta, p, mu, err));
    double *rh = BW_NEW(arena, double, f->junction->spot_count *BW_MONTHS + 1);
    BW_TRY_MEMORY(rh != NULL, err);
    bw_spots_humidity(rh, &f->vapour, &f->year);
    out->spot_rh = rh;
    return measure_places(f, out, arena, err);
}

bw_status bw_junction_water_find(bw_junction_water *out, bw_arena *arena,
                                 const bw_junction *junction,
                                 const double *theta, const double *p,
                                 bw_mu_choice mu, bool wet, bw_error *err)
{
    finding f = {.junction = junction};
    bw_error fault = {0};
    *out = (bw_junction_water){.reason = "",
                               .wetting = {.reason = "not asked for"}};
    bw_status status = find(&f, out, arena, theta, p, mu, &fault);
    out->ran = status == BW_OK;
    if (out->ran && wet)
        status = bw_water_wet(&out->wetting, arena, &f.vapour, f.air, mu,
                              &fault);
    bw_arena_release(&f.arena);
    if (status == BW_OK)
        return BW_OK;
    if (status == BW_ERR_MEMORY) {
        if (err != NULL)
            *err = fault;
        return status;
    }
    const char *reason = bw_arena_say(arena, "%s", fault.message);
    *out = (bw_junction_water){.reason = reason, .wetting = {.reason = reason}};
    return BW_OK;
}
