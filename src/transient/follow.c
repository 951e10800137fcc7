#include "follow.h"

#include <math.h>
#include <string.h>

#include "bothways/glaser.h"
#include "exposure.h"
#include "fail.h"
#include "run.h"

/* The equations, cells and steps are those of every run (wall.h, solver.h);
 * the edge between the hours k and k+1 is straight in theta and p. Invariant:
 * nothing but the air on both sides acts on the wall. */

static const double HOUR = 3600.0;
static const double STEFAN_BOLTZMANN = 5.670374419e-8;
static const double CALM = 2.0; /* m/s, as side_hours.c without a wind column */
static const double EMISSIVITY = 0.9;
static const double MEAN = 283.15; /* K, of the radiation between surfaces */
static const double LEWIS = 7e-9, CONVECTION = 2.5; /* as side_hours.c */
static const double SURFACE = 0.13; /* m2 K/W, of a room and of a ventilated
                                       cavity, ISO 6946 */

void bw_follow_outdoors(bw_follow *follow, const bw_outdoors *outdoors)
{
    const double eps = outdoors->emissivity > 0 ? outdoors->emissivity
                                                : EMISSIVITY;
    follow->h_e = outdoors->has_surface_resistance
                      ? 1 / outdoors->surface_resistance
                      : 4 + 4 * CALM +
                            4 * eps * STEFAN_BOLTZMANN * MEAN * MEAN * MEAN;
    follow->beta_e = BW_DELTA_0 * (67 + 90 * CALM);
}

void bw_follow_cavity(bw_follow *follow)
{
    follow->h_e = 1 / SURFACE;
    follow->beta_e = LEWIS * CONVECTION;
}

void bw_follow_room(bw_follow *follow, const bw_indoors *indoors)
{
    follow->h_i = indoors->has_surface_resistance
                      ? 1 / indoors->surface_resistance
                      : 1 / SURFACE;
    follow->beta_i = LEWIS * CONVECTION;
}

/* ---- the edge ------------------------------------------------------------ */

typedef struct span {
    const bw_follow *follow;
    const bw_boundary *a, *b;
    double from;    /* s */
    double flow[2]; /* m3/(m2 s) of room air at both */
} span;

static double straight(double a, double b, double f)
{
    return a + f * (b - a);
}

static void edge_at(const void *ctx, double t, bw_edge *edge)
{
    const span *s = ctx;
    const double f = (t - s->from) / HOUR;
    *edge = (bw_edge){
        .theta_e = straight(s->a->theta_e, s->b->theta_e, f),
        .p_e = straight(s->a->p_e, s->b->p_e, f),
        .theta_i = straight(s->a->theta_i, s->b->theta_i, f),
        .p_i = straight(s->a->p_i, s->b->p_i, f),
        .air_flow = straight(s->flow[0], s->flow[1], f),
        .h_e = s->follow->h_e,
        .beta_e = s->follow->beta_e,
        .h_i = s->follow->h_i,
        .beta_i = s->follow->beta_i,
        .redistributes = true,
    };
}

static double air_flow(const bw_assembly *assembly, const bw_follow *follow,
                       const bw_boundary *now)
{
    const bw_air_leakage *leak = &assembly->air_leakage;
    if (!leak->given || follow->options->no_air_leakage)
        return 0;
    return bw_leakage_air_flow(leak->q50, leak->connected_height, now->theta_e,
                               now->theta_i);
}

/* ---- the start ----------------------------------------------------------- */

static double start_phi(const bw_follow *f, double depth)
{
    size_t i = 0;
    if (f->starts == 0)
        return BW_START_RH;
    while (i < f->starts && f->start_depth[i] < depth)
        i++;
    if (i == 0 || i == f->starts)
        return f->start_phi[i == 0 ? 0 : f->starts - 1];
    const double a = f->start_depth[i - 1], b = f->start_depth[i];
    return straight(f->start_phi[i - 1], f->start_phi[i],
                    b > a ? (depth - a) / (b - a) : 1);
}

static bool start(double *v, bw_model *model, const bw_assembly *assembly,
                  const bw_follow *follow)
{
    double depth = 0;
    for (size_t k = 0; k < model->section->slab_count; k++) {
        const bw_range range = model->range[k];
        double given = 0;
        const bool is_given = range.count > 0 &&
                              bw_start_given(&given, model, assembly, k);
        for (size_t i = range.first; i < range.first + range.count; i++) {
            const double middle = depth + 0.5 * model->wall.dx[i];
            v[2 * i + 1] = is_given
                               ? given
                               : bw_hygro_z_of_phi(&model->hygro[k],
                                                   start_phi(follow, middle));
            depth += model->wall.dx[i];
        }
    }
    return bw_start_straight(
        v, model,
        &(bw_start_sides){follow->hour[0].theta_e, follow->h_e,
                          follow->hour[0].theta_i, follow->h_i});
}

/* ---- what is seen -------------------------------------------------------- */

/* Straight between the middles of the cells and the faces of the slab. */
static bw_followed inside(const bw_model *model, const bw_solver *s,
                          const bw_edge *edge, const bw_follow_place *place)
{
    const bw_range r = model->range[place->slab];
    double theta[2], p[2], content[2];
    bw_watch_face(s, edge, r.first, theta, p, content);
    double at = 0, edge_of = 0;
    bw_followed last = {theta[1], p[1]};
    for (size_t i = r.first; i < r.first + r.count; i++) {
        const double middle = edge_of + 0.5 * model->wall.dx[i];
        const bw_followed next = {s->v[2 * i], bw_cells_get(&s->cells, i).p};
        if (place->depth <= middle) {
            const double f = (place->depth - at) / (middle - at);
            return (bw_followed){straight(last.theta, next.theta, f),
                                 straight(last.p, next.p, f)};
        }
        last = next;
        at = middle;
        edge_of += model->wall.dx[i];
    }
    bw_watch_face(s, edge, r.first + r.count, theta, p, content);
    const double f = fmin((place->depth - at) / (edge_of - at), 1);
    return (bw_followed){straight(last.theta, theta[0], f),
                         straight(last.p, p[0], f)};
}

static bw_followed look(const bw_model *model, const bw_solver *s,
                        const bw_edge *edge, const bw_follow_place *place)
{
    if (place->within)
        return inside(model, s, edge, place);
    const bw_range r = model->range[place->slab];
    double theta[2], p[2], content[2];
    bw_watch_face(s, edge, place->outer ? r.first : r.first + r.count, theta, p,
                  content);
    /* a slab lies on the inner side of its outer face; a film has both of its
     * sides in one face */
    const int side = (r.count == 0) != place->outer;
    return (bw_followed){theta[side], p[side]};
}

/* ---- the whole ----------------------------------------------------------- */

static bw_status check(const bw_model *model, const bw_follow *follow,
                       bw_error *err)
{
    for (size_t k = 0; k < follow->places; k++) {
        const bw_follow_place *place = &follow->place[k];
        if (place->slab >= model->section->slab_count ||
            (place->within && model->range[place->slab].count == 0))
            return bw_fail_domain(err,
                                  "a place that is followed lies in no slab");
    }
    return BW_OK;
}

static bw_status run(bw_followed *out, bw_model *model,
                     const bw_assembly *assembly, const bw_follow *follow,
                     bw_error *err)
{
    enum { TOLD = 73 };
    bw_solver solver = {0};
    double *v = BW_NEW(&model->arena, double, 2 * model->wall.n);
    BW_TRY_MEMORY(v != NULL &&
                      bw_solver_init(&solver, &model->wall, &model->arena) &&
                      start(v, model, assembly, follow),
                  err);
    bw_run_tolerances(&solver, follow->options);
    bw_solver_start(&solver, v, 0);
    const bw_transient_options *o = follow->options;
    double crossing[BW_X_COUNT] = {0};
    for (size_t k = 0; k < follow->hours; k++) {
        const size_t from = k > 0 ? k - 1 : 0;
        const bw_boundary *a = &follow->hour[from], *b = &follow->hour[k];
        const span now = {
            follow,
            a,
            b,
            HOUR * (double)from,
            {air_flow(assembly, follow, a), air_flow(assembly, follow, b)}};
        if (k > 0)
            BW_TRY(bw_solver_advance(&solver, HOUR * (double)k, edge_at, &now,
                                     crossing, err));
        bw_edge edge;
        edge_at(&now, HOUR * (double)k, &edge);
        for (size_t p = 0; p < follow->places; p++)
            out[k * follow->places + p] = look(model, &solver, &edge,
                                               &follow->place[p]);
        if (k % TOLD == 0 && o->progress != NULL &&
            !o->progress(o->payload, (double)k / (double)follow->hours))
            return bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                           "the simulation was stopped");
    }
    return BW_OK;
}

bw_status bw_follow_run(bw_followed *out, const bw_assembly *assembly,
                        const bw_section *section, const bw_follow *follow,
                        bw_error *err)
{
    bw_model model;
    bw_status status = bw_model_make(
        &model, assembly, section, BW_STANDARD_PRESSURE, follow->options, err);
    if (status == BW_OK)
        status = check(&model, follow, err);
    if (status == BW_OK)
        status = run(out, &model, assembly, follow, err);
    bw_model_free(&model);
    return status;
}
