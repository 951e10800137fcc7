/* Error against time of the hourly method, beside a general-purpose
 * integrator (SUNDIALS CVODE: BDF, Newton, band matrix) on the same cells,
 * the same tables, the same year of sun and rain, in one run on one core.
 *
 *     cmake --build build --target bench_transient &&
 * build/tests/bench_transient
 *
 * Both integrate d(stored)/dt = rates of the same wall. Error: the largest
 * over the year and over the inner faces of brick, sheathing and insulation,
 * against a run at tight tolerance that both approach. Time: CPU time of this
 * process, tables and weather not counted. CVODE is given the
 * analytic Jacobian and run in the two ways a careful user would try (started
 * anew where rain jumps or at each hour); its best counts. A second
 * argument leaves CVODE out. */

#include <stdio.h>
#include <time.h>

#include "suite.h"
#include "transient/boundary.h"
#include "transient/model.h"
#include "transient/solver.h"
#include "transient_case.h"

#ifdef BW_HAVE_CVODE
#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>
#endif

enum { WATCHED = 3 };

typedef struct problem {
    transient_case *wall_case;
    bw_model model;
    bw_year year;
    size_t watched[WATCHED];
    double *v; /* start */
    int first_hour, hours;
} problem;

typedef struct trace {
    double theta[CASE_HOURS][WATCHED], phi[CASE_HOURS][WATCHED];
    double seconds;
    long steps;
} trace;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The brick-clad wall in rain; the same without rain; its frame alone, with
 * the membrane, clad in nothing, without rain. */
typedef enum wall_kind { RAIN_WETTED, PLAIN, MEMBRANE, KINDS } wall_kind;
static const char *const kind_name[KINDS] = {"rain-wetted", "plain",
                                             "membrane"};

static problem *problem_new(wall_kind kind, double refinement)
{
    static problem p;
    bw_transient_options o = {.grid_refinement = refinement};
    bw_error err;
    memset(&p, 0, sizeof p);
    p.wall_case = case_new();
    transient_case *c = p.wall_case;
    size_t slab[WATCHED] = {0, 2, 3};
    if (kind != RAIN_WETTED)
        c->assembly.outdoors.driving_rain = BW_RAIN_NONE;
    if (kind == MEMBRANE) {
        c->section.slab += 2;
        c->section.slab_count -= 2;
        slab[1] = 1;
        slab[2] = 3;
    }
    p.first_hour = 273 * 24;
    p.hours = CASE_HOURS;
    if (bw_year_make(&p.year, &c->assembly, &c->climate, &o, &err) ||
        bw_model_make(&p.model, &c->assembly, &c->section, p.year.pressure, &o,
                      &err)) {
        fprintf(stderr, "%s\n", err.message);
        exit(1);
    }
    const bw_wall *wall = &p.model.wall;
    p.v = calloc(2 * wall->n, sizeof *p.v);
    if (p.v == NULL)
        exit(1);
    for (size_t i = 0; i < wall->n; i++) {
        p.v[2 * i] = 10 + 10.0 * (double)i / (double)wall->n;
        p.v[2 * i + 1] = bw_hygro_z_of_phi(wall->hygro[i], 0.8);
    }
    for (int k = 0; k < WATCHED; k++)
        p.watched[k] = p.model.range[slab[k]].first +
                       p.model.range[slab[k]].count - 1;
    return &p;
}

static void look(const problem *p, const double *v, trace *t, int hour)
{
    for (int k = 0; k < WATCHED; k++) {
        const size_t i = p->watched[k];
        t->theta[hour][k] = v[2 * i];
        t->phi[hour][k] = bw_hygro_phi(p->model.wall.hygro[i], v[2 * i + 1]);
    }
}

static bw_window span_of(const problem *p, int hour)
{
    return bw_window_from(&p->year, (p->first_hour + hour) % CASE_HOURS, 1,
                          3600.0 * hour);
}

static void run_own(const problem *p, double tolerance, trace *t)
{
    bw_arena arena = {0};
    bw_solver s;
    double crossing[BW_X_COUNT] = {0};
    bw_error err;
    const double start = now();
    if (!bw_solver_init(&s, &p->model.wall, &arena))
        exit(1);
    s.tolerance_theta = tolerance;
    s.tolerance_z = tolerance / 20;
    bw_solver_start(&s, p->v, 0);
    for (int hour = 0; hour < p->hours; hour++) {
        const bw_window span = span_of(p, hour);
        if (bw_solver_advance(&s, 3600.0 * (hour + 1), bw_window_edge, &span,
                              crossing, &err)) {
            fprintf(stderr, "%s\n", err.message);
            exit(1);
        }
        look(p, s.v, t, hour);
    }
    t->seconds = now() - start;
    t->steps = (long)s.steps;
    bw_arena_release(&arena);
}

static void compare(const trace *t, const trace *reference, double *theta,
                    double *phi)
{
    *theta = *phi = 0;
    for (int hour = 24; hour < CASE_HOURS; hour++)
        for (int k = 0; k < WATCHED; k++) {
            *theta = fmax(*theta,
                          fabs(t->theta[hour][k] - reference->theta[hour][k]));
            *phi = fmax(*phi, fabs(t->phi[hour][k] - reference->phi[hour][k]));
        }
}

/* The least time with which a ladder met both error limits. */
typedef struct best {
    double seconds;
} best;

static void print_row(const char *what, double tolerance, const trace *t,
                      const trace *reference, best *least)
{
    double theta, phi;
    compare(t, reference, &theta, &phi);
    printf("%-30s %8.1e %9ld %8.3f %10.5f %10.6f\n", what, tolerance, t->steps,
           t->seconds, theta, phi);
    fflush(stdout);
    if (theta < 0.02 && phi < 0.001 && t->seconds < least->seconds)
        least->seconds = t->seconds;
}

#ifdef BW_HAVE_CVODE

typedef struct peer {
    const problem *p;
    bw_window span;
    bw_cells cells;
    bw_arena arena;
    bw_block *block;
    double *rate, *stored;
    double (*slope)[3];
} peer;

/* d(v)/dt of a cell from its rates: the slopes are [m0 m1; 0 m2]. */
static int peer_rates(sunrealtype t, N_Vector y, N_Vector dy, void *payload)
{
    peer *q = payload;
    const bw_wall *wall = &q->p->model.wall;
    const double *v = N_VGetArrayPointer(y);
    double *d = N_VGetArrayPointer(dy);
    double crossing[BW_X_COUNT];
    bw_edge edge;
    for (size_t i = 0; i < 2 * wall->n; i++)
        if (!isfinite(v[i]))
            return 1;
    bw_window_edge(&q->span, t, &edge);
    bw_cells_under(wall, &edge, v, &q->cells, true);
    bw_wall_rates(wall, &edge, v, &q->cells, q->rate, crossing, NULL);
    bw_wall_stored(wall, &q->cells, q->stored, q->slope);
    for (size_t i = 0; i < wall->n; i++) {
        const double *m = q->slope[i];
        d[2 * i + 1] = q->rate[2 * i + 1] / m[2];
        d[2 * i] = (q->rate[2 * i] - m[1] * d[2 * i + 1]) / m[0];
    }
    return 0;
}

/* Given Jacobian: slopes of the rates over the slopes of what is stored
 * (their own change with v left out, as a quasi-Newton method may). */
static int peer_jacobian(sunrealtype t, N_Vector y, N_Vector fy, SUNMatrix J,
                         void *payload, N_Vector a, N_Vector b, N_Vector c)
{
    (void)fy, (void)a, (void)b, (void)c;
    peer *q = payload;
    const bw_wall *wall = &q->p->model.wall;
    const double *v = N_VGetArrayPointer(y);
    double crossing[BW_X_COUNT];
    bw_edge edge;
    bw_window_edge(&q->span, t, &edge);
    bw_cells_under(wall, &edge, v, &q->cells, true);
    bw_wall_rates(wall, &edge, v, &q->cells, q->rate, crossing, q->block);
    bw_wall_stored(wall, &q->cells, q->stored, q->slope);
    for (size_t i = 0; i < wall->n; i++) {
        const double *m = q->slope[i];
        const double *part[3] = {q->block[i].lower, q->block[i].diag,
                                 q->block[i].upper};
        for (int k = 0; k < 3; k++) {
            if ((i == 0 && k == 0) || (i + 1 == wall->n && k == 2))
                continue;
            const long column = 2 * ((long)i + k - 1);
            for (int j = 0; j < 2; j++) {
                const double z = part[k][2 + j] / m[2];
                SM_ELEMENT_B(J, 2 * (long)i + 1, column + j) = z;
                SM_ELEMENT_B(J, 2 * (long)i,
                             column + j) = (part[k][j] - m[1] * z) / m[0];
            }
        }
    }
    return 0;
}

static bool rains(const problem *p, int hour)
{
    return p->year.hour[(p->first_hour + hour) % CASE_HOURS].rain > 0;
}

/* Started anew at every hour, or where rain begins, changes or ends. */
static bool run_peer(const problem *p, double tolerance, bool restart,
                     bool jacobian, trace *t)
{
    const bw_wall *wall = &p->model.wall;
    const long m = 2 * (long)wall->n;
    peer q = {.p = p,
              .span = span_of(p, 0),
              .block = calloc(wall->n, sizeof *q.block),
              .rate = calloc(2 * wall->n, sizeof *q.rate),
              .stored = calloc(2 * wall->n, sizeof *q.stored),
              .slope = calloc(wall->n, sizeof *q.slope)};
    SUNContext context;
    if (!bw_cells_init(&q.cells, wall, &q.arena))
        exit(1);
    if (SUNContext_Create(NULL, &context) != 0)
        exit(1);
    const double start = now();
    N_Vector y = N_VNew_Serial(m, context), atol = N_VClone(y);
    memcpy(N_VGetArrayPointer(y), p->v, (size_t)m * sizeof *p->v);
    for (long i = 0; i < m; i++)
        N_VGetArrayPointer(atol)[i] = i % 2 ? tolerance / 20 : tolerance;
    void *cvode = CVodeCreate(CV_BDF, context);
    CVodeInit(cvode, peer_rates, 0, y);
    CVodeSetErrFile(cvode, NULL);
    CVodeSVtolerances(cvode, 0, atol);
    SUNMatrix J = SUNBandMatrix(m, 3, 3, context);
    SUNLinearSolver solver = SUNLinSol_Band(y, J, context);
    CVodeSetLinearSolver(cvode, solver, J);
    if (jacobian)
        CVodeSetJacFn(cvode, peer_jacobian);
    CVodeSetUserData(cvode, &q);
    CVodeSetMaxNumSteps(cvode, 1000000);
    bool fine = true;
    long before = 0;
    for (int hour = 0; hour < p->hours && fine; hour++) {
        q.span = span_of(p, hour);
        sunrealtype reached;
        if (hour > 0 && (restart || rains(p, hour) || rains(p, hour - 1))) {
            long steps;
            CVodeGetNumSteps(cvode, &steps);
            before += steps;
            CVodeReInit(cvode, 3600.0 * hour, y);
        }
        CVodeSetStopTime(cvode, 3600.0 * (hour + 1));
        fine = CVode(cvode, 3600.0 * (hour + 1), y, &reached, CV_NORMAL) >= 0;
        look(p, N_VGetArrayPointer(y), t, hour);
    }
    t->seconds = now() - start;
    CVodeGetNumSteps(cvode, &t->steps);
    t->steps += before;
    N_VDestroy(y);
    N_VDestroy(atol);
    SUNMatDestroy(J);
    SUNLinSolFree(solver);
    CVodeFree(&cvode);
    SUNContext_Free(&context);
    bw_arena_release(&q.arena);
    free(q.block), free(q.rate), free(q.stored), free(q.slope);
    return fine;
}

static void peers(const problem *p, const trace *reference, best *least)
{
    static const double ladder[] = {0.03, 0.01, 0.006, 0.003};
    static trace t;
    for (int way = 0; way < 2; way++) {
        const bool restart = way == 1, jacobian = true;
        char what[64];
        snprintf(what, sizeof what, "CVODE band%s%s",
                 jacobian ? ", given J" : "", restart ? ", hourly start" : "");
        for (size_t i = 0; i < COUNT(ladder); i++) {
            if (!run_peer(p, ladder[i], restart, jacobian, &t)) {
                printf("%-30s %8.1e  gave up\n", what, ladder[i]);
                continue;
            }
            print_row(what, ladder[i], &t, reference, least);
        }
    }
}
#endif

static void measure(wall_kind kind, double refinement, bool alone)
{
    static const double ladder[] = {1,    0.5,  0.2,  0.15, 0.1,
                                    0.05, 0.02, 0.01, 0.003};
    static trace reference, t;
    const problem *p = problem_new(kind, refinement);
    best own = {HUGE_VAL}, other = {HUGE_VAL};
    printf("%s: one year, hourly, %zu cells; error: largest at three "
           "interfaces\n",
           kind_name[kind], p->model.wall.n);
    printf("%-30s %8s %9s %8s %10s %10s\n", "", "tol K", "steps", "CPU s", "K",
           "RH");
    run_own(p, 2e-4, &reference);
    for (size_t i = 0; i < COUNT(ladder); i++) {
        run_own(p, ladder[i], &t);
        print_row("bothways", ladder[i], &t, &reference, &own);
    }
#ifdef BW_HAVE_CVODE
    if (!alone)
        peers(p, &reference, &other);
#else
    printf("built without SUNDIALS: CVODE is skipped\n");
#endif
    printf("%s, least time with errors below 0.02 K and 0.001 RH: bothways "
           "%.3f s",
           kind_name[kind], own.seconds);
    if (isfinite(other.seconds))
        printf(", CVODE %.3f s, ratio %.1f", other.seconds,
               other.seconds / own.seconds);
    printf("\n\n");
    bw_model_free(&((problem *)p)->model);
    free(p->v);
    free(p->wall_case);
}

int main(int argc, char **argv)
{
    for (int kind = 0; kind < KINDS; kind++)
        measure(kind, argc > 1 ? atof(argv[1]) : 2, argc > 2);
    return 0;
}
