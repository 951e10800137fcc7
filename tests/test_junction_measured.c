/* A measured stud in two dimensions: the wall of assemblies/measured, drawn as
 * a junction of the kind `stud`, between the measured air of room and cavity,
 * hour by hour, beside the sensors where insulation and wind board touch: one
 * in the middle of the bay, one on a stud. Library values, nothing tuned; the
 * database gives no size of the studs (48 mm at 600 mm taken). The record of
 * the stud is no part of the project: shared_data.h. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "junction/hour_sheet.h"
#include "junction/raster.h"
#include "measured.h"
#include "shared_data.h"
#include "suite.h"

/* Those of the middle of the bay in one dimension (test_replay_measured.c); by
 * how much a month's stud is warmer than its bay: a choice, a plane wall would
 * miss the measured by up to 3 K. */
static const double THETA_BIAS = 1.0, RH_RMS = 0.04, STUD_LESS_BAY = 0.75;

enum { MONTHS = 6 };
enum { ROOM, CAVITY, BAY, STUD, CHANNELS, MOST = 4000, RUN_IN = 48 };

/* degC and Pa by the hour. */
typedef struct air_log {
    double theta[CHANNELS][MOST], p[CHANNELS][MOST];
    size_t count;
} air_log;

static air_log record;

static bool read_record(void)
{
    static const int column[CHANNELS] = {4, 7, 10, 13}; /* theta, RH, e */
    char path[512], line[1024];
    if (!shared_file(path, sizeof path, "measured-wall/hourly.csv"))
        return false;
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    ck_assert_ptr_nonnull(fgets(line, sizeof line, file));
    ck_assert_ptr_nonnull(strstr(line, "stud_windboard_top_right_T_C"));
    record.count = 0;
    while (fgets(line, sizeof line, file) != NULL && record.count < MOST) {
        const char *at = line;
        double v[22] = {0};
        for (int k = 0; k < 22 && at != NULL; k++) {
            v[k] = strtod(at, NULL);
            at = strchr(at, ',');
            at = at != NULL ? at + 1 : NULL;
        }
        for (size_t c = 0; c < CHANNELS; c++) {
            record.theta[c][record.count] = v[column[c]];
            record.p[c][record.count] = v[column[c] + 2];
        }
        record.count++;
    }
    fclose(file);
    ck_assert_uint_gt(record.count, 3500);
    return true;
}

typedef struct problem {
    bw_arena arena;
    bw_library *library;
    bw_junction *junction;
    bw_raster raster;
    bw_sheet_model model;
    bw_sheet_solver solver;
    size_t hour; /* that is run */
} problem;

/* Both sides along a straight line from one hour's means to the next's. */
static void air_at(const void *ctx, double t, bw_sheet_weather *w)
{
    static const double H = 1.0 / 0.13, BETA = 2.5e-8; /* W/(m2 K), s/m */
    const problem *p = ctx;
    const double on = t / 3600.0 - (double)p->hour;
    *w = (bw_sheet_weather){.redistributes = true};
    for (size_t k = 0; k < BW_SHEET_SIDES; k++)
        w->side[k] = (bw_sheet_air){.h = 1.0, .beta = 1.0};
    for (size_t e = 0; e < p->junction->environment_count; e++) {
        const bool room = p->junction->environment[e].kind ==
                          BW_ENVIRONMENT_ROOM;
        const double *theta = record.theta[room ? ROOM : CAVITY] + p->hour;
        const double *vapour = record.p[room ? ROOM : CAVITY] + p->hour;
        w->side[e] = (bw_sheet_air){
            .theta = theta[0] + on * (theta[1] - theta[0]),
            .p = vapour[0] + on * (vapour[1] - vapour[0]),
            .h = H,
            .beta = BETA};
    }
}

static void open_problem(problem *p)
{
    static const char file[] = "./junction-measured-test.xml";
    const char *const path[] = {BW_SOURCE_DIR "/materials"};
    const bw_raster_options grid = {.smallest = 0.002, .growth = 2.0};
    bw_error err = {0};
    FILE *out = fopen(file, "w");
    ck_assert_ptr_nonnull(out);
    fputs("<junction xmlns=\"urn:bothways:junction:1\" id=\"stud\" "
          "kind=\"stud\"><wall file=\"" BW_SOURCE_DIR
          "/assemblies/measured/north-wall.xml\"/></junction>",
          out);
    ck_assert_int_eq(fclose(out), 0);
    ck_assert(bw_library_read(&p->library, path, 1, &err) == BW_OK);
    ck_assert_msg(bw_junction_read(&p->junction, file, p->library, &err) ==
                      BW_OK,
                  "%s", err.message);
    remove(file);
    ck_assert(bw_raster_make(&p->raster, p->junction, &grid, &p->arena, &err) ==
              BW_OK);
    ck_assert(bw_sheet_make(&p->model, &p->arena, &p->raster, NULL, 101325,
                            &err) == BW_OK);
    const bw_sheet *s = &p->model.sheet;
    double *v = BW_NEW(&p->arena, double, 2 * s->n);
    ck_assert_ptr_nonnull(v);
    for (size_t i = 0; i < s->n; i++) {
        v[2 * i] = 0.5 * (record.theta[ROOM][0] + record.theta[CAVITY][0]);
        v[2 * i + 1] = bw_hygro_z_of_phi(s->hygro[i], 0.6);
    }
    ck_assert(bw_sheet_solver_make(&p->solver, s, &p->arena, &err) == BW_OK);
    p->solver.tolerance_theta = 0.1;
    p->solver.tolerance_z = 0.005;
    bw_sheet_start(&p->solver, v, 0.0);
}

static void close_problem(problem *p)
{
    bw_arena_release(&p->arena);
    bw_junction_free(p->junction);
    bw_library_free(p->library);
}

/* Either side of the inner face of the wind board, 50 mm from outside: computed
 * less measured, sums over the hours. */
typedef struct place {
    size_t cell[2];
    double theta, phi, phi_square;
    double month_theta[MONTHS]; /* computed, less the measured */
} place;

static place place_at(const problem *p, double x)
{
    place at = {.theta = 0};
    for (size_t k = 0; k < 2; k++) {
        const long c = bw_raster_cell_at(&p->raster, x,
                                         k == 0 ? 0.0499 : 0.0501);
        ck_assert_int_ge(c, 0);
        at.cell[k] = p->model.cell[(size_t)c];
    }
    return at;
}

/* From 18 December, 13 h, on. */
static size_t month_of(size_t hour)
{
    static const size_t ends[MONTHS - 1] = {323, 1067, 1739, 2483, 3203};
    size_t m = 0;
    while (m + 1 < MONTHS && hour >= ends[m])
        m++;
    return m;
}

static void look(place *at, const problem *p, size_t channel, size_t hour)
{
    double theta = 0, phi = 0;
    for (size_t k = 0; k < 2; k++) {
        theta += 0.5 * p->solver.v[2 * at->cell[k]];
        phi += 0.5 * bw_cells_phi(&p->solver.cells, at->cell[k]);
    }
    const double is = record.theta[channel][hour];
    const double rh = phi -
                      record.p[channel][hour] / bw_saturation_pressure(is);
    at->theta += theta - is;
    at->month_theta[month_of(hour)] += theta - is;
    at->phi += rh;
    at->phi_square += rh * rh;
}

START_TEST(measured_stud_and_bay_between_the_measured_air)
{
    problem p = {.hour = 0};
    bw_sheet_flow flow = {.heat = 0};
    bw_error err = {0};
    if (!read_record())
        return;
    open_problem(&p);
    place bay = place_at(&p, 0.29), stud = place_at(&p, 0.001);
    const double n = (double)(record.count - 1 - RUN_IN);
    double hours[MONTHS] = {0}, worst = 0;
    for (p.hour = 0; p.hour + 1 < record.count; p.hour++) {
        ck_assert_msg(bw_sheet_advance(&p.solver, 3600.0 * (double)(p.hour + 1),
                                       air_at, &p, &flow, &err) == BW_OK,
                      "hour %zu: %s", p.hour, err.message);
        if (p.hour < RUN_IN)
            continue;
        hours[month_of(p.hour + 1)]++;
        look(&bay, &p, BAY, p.hour + 1);
        look(&stud, &p, STUD, p.hour + 1);
    }
    for (size_t m = 0; m < MONTHS; m++)
        farther(&worst, stud.month_theta[m] / hours[m],
                bay.month_theta[m] / hours[m]);
    measured("measured-stud-temperature", stud.theta / n, THETA_BIAS, "K");
    measured("measured-stud-humidity", 100 * sqrt(stud.phi_square / n),
             100 * RH_RMS, "% RH rms");
    measured("measured-stud-less-bay", worst, STUD_LESS_BAY, "K");
    measured("measured-bay-temperature", bay.theta / n, THETA_BIAS, "K");
    measured("measured-bay-humidity", 100 * sqrt(bay.phi_square / n),
             100 * RH_RMS, "% RH rms");
    close_problem(&p);
}
END_TEST

SUITE("junction_measured", FACT(measured_stud_and_bay_between_the_measured_air))
