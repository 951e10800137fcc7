/* What the hours of a drawing cost: a junction file on its grid, so many days
 * from October on, on one core: time, steps, iterations, matrices, and the cost
 * of a cell and step.
 *
 *     bench_junction_hours MATERIALS JUNCTION.xml [DAYS [SMALLEST_MM [GROWTH
 *         [beside]]]]
 *
 * beside: a ladder of tolerances, and of those of a general-purpose integrator
 * (SUNDIALS CVODE: BDF, Newton; band matrix given the analytic Jacobian, or
 * SPGMR with the blocks of each cell of it as preconditioner) on the same
 * cells, tables and weather. Error: the largest of any hour after the first
 * day, at any cell, against a run at a fiftieth of the tolerances. */

#include <bothways/bothways.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "arena.h"
#include "junction/hour_sheet.h"
#include "junction/raster.h"
#include "transient/boundary.h"

#ifdef BW_HAVE_CVODE
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunlinsol/sunlinsol_spgmr.h>
#include <sunmatrix/sunmatrix_band.h>
#endif

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void must(bw_status status, const bw_error *err)
{
    if (status == BW_OK)
        return;
    fprintf(stderr, "%s\n", err->message);
    exit(1);
}

typedef struct problem {
    bw_arena arena;
    bw_library *library;
    bw_junction *junction;
    bw_climate *climate;
    bw_raster raster;
    bw_sheet_model model;
    bw_year year[BW_SHEET_SIDES];
    bool room[BW_SHEET_SIDES];
    double *start;
} problem;

static void open_problem(problem *p, const char *materials, const char *file,
                         const bw_raster_options *grid)
{
    bw_error err;
    bw_climate *monthly;
    must(bw_library_read(&p->library, &materials, 1, &err), &err);
    must(bw_junction_read(&p->junction, file, p->library, &err), &err);
    must(bw_climate_read(&monthly, p->junction->outdoors.climate_path, &err),
         &err);
    must(bw_climate_generate(&p->climate, monthly, &err), &err);
    must(bw_raster_make(&p->raster, p->junction, grid, &p->arena, &err), &err);
    const bw_transient_options options = {.allow_missing = true};
    for (size_t e = 0; e < p->junction->environment_count; e++) {
        const bw_environment *at = &p->junction->environment[e];
        bw_assembly wall = {.file = file,
                            .id = "",
                            .title = "",
                            .remark = "",
                            .outdoors = p->junction->outdoors,
                            .beyond = at->beyond,
                            .indoors = at->kind == BW_ENVIRONMENT_ROOM
                                           ? at->indoors
                                           : p->junction->wall[0]->indoors};
        must(bw_year_make(&p->year[e], &wall, p->climate, &options, &err),
             &err);
        p->room[e] = at->kind == BW_ENVIRONMENT_ROOM;
    }
    must(bw_sheet_make(&p->model, &p->arena, &p->raster, NULL,
                       p->year[0].pressure, &err),
         &err);
    const bw_sheet *s = &p->model.sheet;
    p->start = BW_NEW(&p->arena, double, 2 * s->n);
    for (size_t i = 0; i < s->n; i++) {
        p->start[2 * i] = 12;
        p->start[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], 0.8);
    }
    bw_climate_free(monthly);
}

enum { OCTOBER = 273 * 24, SKIP = 24 };

/* Of every hour and cell theta and humidity. */
typedef struct trace {
    float *value;
    const float *beside; /* NULL: nothing to compare with */
    double worst[2];
} trace;

static void look(const problem *p, trace *t, const bw_cells *cells,
                 const double *v, int hour)
{
    const size_t n = p->model.sheet.n;
    for (size_t i = 0; t->value != NULL && i < n; i++) {
        const size_t at = ((size_t)hour * n + i) * 2;
        t->value[at] = (float)v[2 * i];
        t->value[at + 1] = (float)bw_cells_phi(cells, i);
        for (size_t k = 0; t->beside != NULL && hour >= SKIP && k < 2; k++)
            t->worst[k] = fmax(t->worst[k], fabs((double)(t->value[at + k] -
                                                          t->beside[at + k])));
    }
}

static bw_sheet_hour hour_of(const problem *p, int h)
{
    bw_sheet_hour hour = {.sides = p->junction->environment_count,
                          .hour = (OCTOBER + h) % 8760,
                          .from = 3600.0 * h};
    for (size_t e = 0; e < hour.sides; e++) {
        hour.year[e] = &p->year[e];
        hour.room[e] = p->room[e];
    }
    return hour;
}

static double run(problem *p, bw_sheet_solver *s, int days, double tolerance,
                  trace *t)
{
    bw_sheet_flow flow = {.heat = 0};
    bw_error err;
    must(bw_sheet_solver_make(s, &p->model.sheet, &p->arena, &err), &err);
    s->tolerance_theta = tolerance;
    s->tolerance_z = tolerance / 20;
    bw_sheet_start(s, p->start, 0);
    const double began = now();
    t->worst[0] = t->worst[1] = 0;
    for (int h = 0; h < 24 * days; h++) {
        const bw_sheet_hour hour = hour_of(p, h);
        must(bw_sheet_advance(s, 3600.0 * (h + 1), bw_sheet_hour_at, &hour,
                              &flow, &err),
             &err);
        look(p, t, &s->cells, s->v, h);
    }
    return now() - began;
}

#ifdef BW_HAVE_CVODE
typedef struct peer {
    const problem *p;
    bw_sheet_hour hour;
    bw_sheet_weather weather;
    bw_cells cells;
    bw_band band;
    double *rate, *stored;
    double (*slope)[3];
    double (*block)[4];   /* of the Jacobian, theta and z of a cell */
    double (*inverse)[4]; /* of 1 - gamma times it */
} peer;

static void flows(peer *q, double t, const double *v, bw_band *band)
{
    const bw_sheet *s = &q->p->model.sheet;
    bw_sheet_flow flow;
    bw_sheet_hour_at(&q->hour, t, &q->weather);
    const bw_edge edge = {.redistributes = q->weather.redistributes};
    bw_cells_under(&s->cells, &edge, v, &q->cells, true);
    bw_sheet_rates(s, &q->weather, v, &q->cells, q->rate, &flow, band, -1.0);
    bw_wall_stored(&s->cells, &q->cells, q->stored, q->slope);
}

static int peer_rates(sunrealtype t, N_Vector y, N_Vector ydot, void *user)
{
    peer *q = user;
    double *d = N_VGetArrayPointer(ydot);
    flows(q, t, N_VGetArrayPointer(y), NULL);
    for (size_t i = 0; i < q->p->model.sheet.n; i++) {
        const double *m = q->slope[i];
        d[2 * i + 1] = q->rate[2 * i + 1] / m[2];
        d[2 * i] = (q->rate[2 * i] - m[1] * d[2 * i + 1]) / m[0];
    }
    return 0;
}

static int peer_jacobian(sunrealtype t, N_Vector y, N_Vector fy, SUNMatrix J,
                         void *user, N_Vector a, N_Vector b, N_Vector c)
{
    peer *q = user;
    (void)fy, (void)a, (void)b, (void)c;
    bw_band_clear(&q->band);
    flows(q, t, N_VGetArrayPointer(y), &q->band);
    const long m = (long)q->band.n, w = (long)q->band.w;
    for (long row = 0; row < m; row += 2) {
        const double *slope = q->slope[row / 2];
        const long first = row > w ? row + 1 - w : 0;
        const long last = row + w < m ? row + w : m - 1;
        for (long column = first; column <= last; column++) {
            const size_t i = (size_t)row, k = (size_t)column;
            const double z = (double)*bw_band_at(&q->band, i + 1, k) / slope[2];
            SM_ELEMENT_B(J, row + 1, column) = z;
            SM_ELEMENT_B(J, row, column) =
                ((double)*bw_band_at(&q->band, i, k) - slope[1] * z) / slope[0];
        }
    }
    return 0;
}

static double jacobian_at(peer *q, size_t row, size_t column)
{
    const double *slope = q->slope[row / 2];
    const size_t i = row - row % 2;
    const double z = (double)*bw_band_at(&q->band, i + 1, column) / slope[2];
    return row % 2 == 1
               ? z
               : ((double)*bw_band_at(&q->band, i, column) - slope[1] * z) /
                     slope[0];
}

static int peer_blocks(sunrealtype t, N_Vector y, N_Vector fy,
                       sunbooleantype jok, sunbooleantype *current,
                       sunrealtype gamma, void *user)
{
    peer *q = user;
    (void)fy;
    *current = !jok;
    if (!jok) {
        bw_band_clear(&q->band);
        flows(q, t, N_VGetArrayPointer(y), &q->band);
    }
    for (size_t c = 0; c < q->p->model.sheet.n; c++) {
        double *b = q->block[c], *p = q->inverse[c];
        for (size_t k = 0; !jok && k < 4; k++)
            b[k] = jacobian_at(q, 2 * c + k / 2, 2 * c + k % 2);
        const double a = 1 - gamma * b[0], d = 1 - gamma * b[3];
        const double e = -gamma * b[1], f = -gamma * b[2];
        const double by = 1 / (a * d - e * f);
        p[0] = by * d, p[1] = -by * e, p[2] = -by * f, p[3] = by * a;
    }
    return 0;
}

static int peer_precondition(sunrealtype t, N_Vector y, N_Vector fy, N_Vector r,
                             N_Vector z, sunrealtype gamma, sunrealtype delta,
                             int side, void *user)
{
    peer *q = user;
    const double *from = N_VGetArrayPointer(r);
    double *to = N_VGetArrayPointer(z);
    (void)t, (void)y, (void)fy, (void)gamma, (void)delta, (void)side;
    for (size_t c = 0; c < q->p->model.sheet.n; c++) {
        const double *p = q->inverse[c], *v = from + 2 * c;
        to[2 * c] = p[0] * v[0] + p[1] * v[1];
        to[2 * c + 1] = p[2] * v[0] + p[3] * v[1];
    }
    return 0;
}

/* Which linear solver, and whether it begins anew at every hour. */
typedef struct peer_way {
    const char *name;
    bool restart, krylov;
    double tolerance[5]; /* K */
} peer_way;

static SUNLinearSolver set_solver(void *cvode, SUNMatrix *J, N_Vector y, long w,
                                  const peer_way *way, SUNContext context)
{
    if (way->krylov) {
        SUNLinearSolver s = SUNLinSol_SPGMR(y, SUN_PREC_LEFT, 20, context);
        CVodeSetLinearSolver(cvode, s, NULL);
        CVodeSetPreconditioner(cvode, peer_blocks, peer_precondition);
        return s;
    }
    *J = SUNBandMatrix(N_VGetLength(y), w, w, context);
    SUNLinearSolver s = SUNLinSol_Band(y, *J, context);
    CVodeSetLinearSolver(cvode, s, *J);
    CVodeSetJacFn(cvode, peer_jacobian);
    return s;
}

/* Started anew at every hour, or where rain begins, changes or ends. */
static double run_peer(problem *p, int days, double tolerance,
                       const peer_way *way, trace *t, long *steps)
{
    const bw_sheet *s = &p->model.sheet;
    const long m = 2 * (long)s->n;
    peer q = {.p = p, .hour = hour_of(p, 0)};
    SUNContext context;
    bw_error err;
    q.rate = BW_NEW(&p->arena, double, 2 * s->n + 8);
    q.stored = BW_NEW(&p->arena, double, 2 * s->n + 8);
    q.slope = bw_arena_get(&p->arena, s->n, sizeof *q.slope);
    q.block = bw_arena_get(&p->arena, s->n, sizeof *q.block);
    q.inverse = bw_arena_get(&p->arena, s->n, sizeof *q.inverse);
    const size_t w = 2 * bw_sheet_reach(s) + 1;
    must(bw_band_make(&q.band, &p->arena, 2 * s->n, w, &err), &err);
    if (!bw_cells_init(&q.cells, &s->cells, &p->arena) ||
        SUNContext_Create(NULL, &context) != 0)
        exit(1);
    const double began = now();
    N_Vector y = N_VNew_Serial(m, context), atol = N_VClone(y);
    memcpy(N_VGetArrayPointer(y), p->start, (size_t)m * sizeof(double));
    for (long i = 0; i < m; i++)
        N_VGetArrayPointer(atol)[i] = i % 2 ? tolerance / 20 : tolerance;
    void *cvode = CVodeCreate(CV_BDF, context);
    CVodeInit(cvode, peer_rates, 0, y);
    CVodeSetErrFile(cvode, NULL);
    CVodeSVtolerances(cvode, 0, atol);
    SUNMatrix J = NULL;
    CVodeSetUserData(cvode, &q);
    SUNLinearSolver solver = set_solver(cvode, &J, y, (long)w, way, context);
    CVodeSetMaxNumSteps(cvode, 1000000);
    bool fine = true;
    t->worst[0] = t->worst[1] = 0;
    *steps = 0;
    for (int h = 0; h < 24 * days && fine; h++) {
        const int at = (OCTOBER + h) % 8760;
        sunrealtype reached;
        q.hour = hour_of(p, h);
        bool rains = false;
        for (size_t e = 0; e < q.hour.sides; e++)
            rains = rains || q.hour.year[e]->hour[at].rain > 0 ||
                    q.hour.year[e]->hour[(at + 8759) % 8760].rain > 0;
        if (h > 0 && (way->restart || rains)) {
            long so_far;
            CVodeGetNumSteps(cvode, &so_far);
            *steps += so_far;
            CVodeReInit(cvode, 3600.0 * h, y);
        }
        CVodeSetStopTime(cvode, 3600.0 * (h + 1));
        fine = CVode(cvode, 3600.0 * (h + 1), y, &reached, CV_NORMAL) >= 0;
        flows(&q, 3600.0 * (h + 1), N_VGetArrayPointer(y), NULL);
        look(p, t, &q.cells, N_VGetArrayPointer(y), h);
    }
    long so_far;
    CVodeGetNumSteps(cvode, &so_far);
    *steps += so_far;
    const double seconds = now() - began;
    N_VDestroy(y);
    N_VDestroy(atol);
    if (J != NULL)
        SUNMatDestroy(J);
    SUNLinSolFree(solver);
    CVodeFree(&cvode);
    SUNContext_Free(&context);
    return fine ? seconds : HUGE_VAL;
}
#endif

static double print_row(const char *who, double tolerance, double seconds,
                        size_t steps, const trace *t)
{
    const bool good = t->worst[0] < 0.05 && t->worst[1] < 0.002;
    printf("%-22s %7.3f K %7zu steps %8.2f s  %.4f K %.5f RH\n", who, tolerance,
           steps, seconds, t->worst[0], t->worst[1]);
    fflush(stdout);
    return good ? seconds : HUGE_VAL;
}

static void ladders(problem *p, int days)
{
    static const double own[] = {0.4, 0.2, 0.1, 0.05, 0.02};
    const size_t room = 48 * (size_t)days * p->model.sheet.n;
    bw_sheet_solver s;
    trace fine = {.value = malloc(room * sizeof(float))};
    trace t = {.value = malloc(room * sizeof(float)), .beside = fine.value};
    double least[3] = {HUGE_VAL, HUGE_VAL, HUGE_VAL};
    run(p, &s, days, 0.002, &fine);
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
        const double seconds = run(p, &s, days, own[i], &t);
        least[0] = fmin(least[0],
                        print_row("bothways", own[i], seconds, s.steps, &t));
    }
#ifdef BW_HAVE_CVODE
    static const peer_way way[] = {
        {"CVODE band", false, false, {0.05, 0.02, 0.01, 0.003}},
        {"CVODE band, hourly", true, false, {0.05, 0.02, 0.01, 0.003}},
        {"CVODE SPGMR", false, true, {0.02, 0.01, 0.003, 0.001}},
        {"CVODE SPGMR, hourly", true, true, {0.05, 0.02, 0.01, 0.003}},
    };
    for (size_t k = 0; k < sizeof way / sizeof *way; k++)
        for (size_t i = 0; way[k].tolerance[i] > 0; i++) {
            long steps = 0;
            const double at = way[k].tolerance[i];
            const double seconds = run_peer(p, days, at, &way[k], &t, &steps);
            double *to = &least[way[k].krylov ? 2 : 1];
            *to = fmin(*to,
                       print_row(way[k].name, at, seconds, (size_t)steps, &t));
        }
#endif
    printf(
        "least time with errors below 0.05 K and 0.002 RH at every cell: "
        "bothways %.2f s, CVODE band %.2f s, ratio %.1f, CVODE SPGMR %.2f s, "
        "ratio %.1f\n",
        least[0], least[1], least[1] / least[0], least[2], least[2] / least[0]);
    free(fine.value);
    free(t.value);
}

int main(int argc, char **argv)
{
    static problem p;
    bw_sheet_solver s;
    trace none = {.value = NULL};
    if (argc < 3)
        return 2;
    const int days = argc > 3 ? atoi(argv[3]) : 10;
    const bw_raster_options grid = {.smallest = argc > 4 ? 1e-3 * atof(argv[4])
                                                         : 0,
                                    .growth = argc > 5 ? atof(argv[5]) : 0};
    open_problem(&p, argv[1], argv[2], &grid);
    const size_t n = p.model.sheet.n;
    if (argc > 6) {
        printf("%zu cells, %zu x %zu, %d days\n", n, p.raster.nx, p.raster.ny,
               days);
        ladders(&p, days);
    } else {
        const double seconds = run(&p, &s, days, 0.1, &none);
        struct rusage used;
        getrusage(RUSAGE_SELF, &used);
        printf("%zu cells, %zu x %zu, %d days: %.2f s, %.1f s a year, %.0f ns "
               "a cell and step\n",
               n, p.raster.nx, p.raster.ny, days, seconds, seconds * 365 / days,
               1e9 * seconds / (double)(s.steps * n));
        printf("%zu steps (%.2f an hour), %zu rejected, %.2f iterations a "
               "step, %zu matrices, %.0f MB at most\n",
               s.steps, (double)s.steps / (24.0 * days), s.rejected,
               (double)s.iterations / (double)s.steps, s.matrices,
               (double)used.ru_maxrss / 1024);
    }
    bw_arena_release(&p.arena);
    bw_climate_free(p.climate);
    bw_junction_free(p.junction);
    bw_library_free(p.library);
    return 0;
}
