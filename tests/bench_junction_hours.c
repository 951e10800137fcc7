/* What the hours of a drawing cost: a junction file on its grid, so many days
 * from October on, on one core: time, steps, iterations, matrices, and the cost
 * of a cell and step.
 *
 *     bench_junction_hours MATERIALS JUNCTION.xml [DAYS [SMALLEST_MM [GROWTH
 *         [THETA Z]]]]
 *
 * With a seventh number: the same at a hundredth of the tolerances beside it,
 * and the largest difference of any hour at any cell. */

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

static double run(problem *p, bw_sheet_solver *s, int days, double theta,
                  double z, float *trace, const float *beside, double worst[2])
{
    enum { OCTOBER = 273 * 24, SKIP = 24 };
    bw_sheet_flow flow = {.heat = 0};
    bw_error err;
    const size_t n = p->model.sheet.n;
    must(bw_sheet_solver_make(s, &p->model.sheet, &p->arena, &err), &err);
    s->tolerance_theta = theta;
    s->tolerance_z = z;
    bw_sheet_start(s, p->start, 0);
    const double began = now();
    for (int h = 0; h < 24 * days; h++) {
        bw_sheet_hour hour = {.sides = p->junction->environment_count,
                              .hour = (OCTOBER + h) % 8760,
                              .from = 3600.0 * h};
        for (size_t e = 0; e < hour.sides; e++) {
            hour.year[e] = &p->year[e];
            hour.room[e] = p->room[e];
        }
        must(bw_sheet_advance(s, 3600.0 * (h + 1), bw_sheet_hour_at, &hour,
                              &flow, &err),
             &err);
        for (size_t i = 0; trace != NULL && i < n; i++) {
            const double phi = bw_cells_phi(&s->cells, i);
            float *t = &trace[((size_t)h * n + i) * 2];
            t[0] = (float)s->v[2 * i];
            t[1] = (float)phi;
            if (beside == NULL || h < SKIP)
                continue;
            const float *b = &beside[((size_t)h * n + i) * 2];
            worst[0] = fmax(worst[0], fabs((double)(t[0] - b[0])));
            worst[1] = fmax(worst[1], fabs((double)(t[1] - b[1])));
        }
    }
    return now() - began;
}

int main(int argc, char **argv)
{
    static problem p;
    bw_sheet_solver s;
    if (argc < 3)
        return 2;
    const int days = argc > 3 ? atoi(argv[3]) : 10;
    const bw_raster_options grid = {.smallest = argc > 4 ? 1e-3 * atof(argv[4])
                                                         : 0,
                                    .growth = argc > 5 ? atof(argv[5]) : 0};
    const double theta = argc > 6 ? atof(argv[6]) : 0.1;
    const double z = argc > 7 ? atof(argv[7]) : 0.005;
    open_problem(&p, argv[1], argv[2], &grid);
    const size_t n = p.model.sheet.n;
    const size_t room = argc > 8 ? 48 * (size_t)days * n : 0;
    float *fine = room > 0 ? malloc(room * sizeof *fine) : NULL;
    float *trace = room > 0 ? malloc(room * sizeof *trace) : NULL;
    double worst[2] = {0, 0};
    if (fine != NULL)
        run(&p, &s, days, theta / atof(argv[8]), z / atof(argv[8]), fine, NULL,
            worst);
    const double seconds = run(&p, &s, days, theta, z, trace, fine, worst);
    struct rusage used;
    getrusage(RUSAGE_SELF, &used);
    printf("%zu cells, %zu x %zu, %d days: %.2f s, %.1f s a year, %.0f ns a "
           "cell and step\n",
           n, p.raster.nx, p.raster.ny, days, seconds, seconds * 365 / days,
           1e9 * seconds / (double)(s.steps * n));
    printf("%zu steps (%.2f an hour), %zu rejected, %.2f iterations a step, "
           "%zu matrices, %.0f MB at most\n",
           s.steps, (double)s.steps / (24.0 * days), s.rejected,
           (double)s.iterations / (double)s.steps, s.matrices,
           (double)used.ru_maxrss / 1024);
    if (fine != NULL)
        printf("beside %s of the tolerances: %.4f K, %.5f RH\n", argv[8],
               worst[0], worst[1]);
    free(fine);
    free(trace);
    bw_arena_release(&p.arena);
    bw_climate_free(p.climate);
    bw_junction_free(p.junction);
    bw_library_free(p.library);
    return 0;
}
