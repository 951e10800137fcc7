/* Heat and moisture by the hour in a drawing: drying of a beam from all sides
 * against the product of two series (Newman 1931). */

#include <math.h>

#include "junction/hour_sheet.h"
#include "measured.h"
#include "suite.h"
#include "transient_core.h"

#define DAY 86400.0

static double beam_lambda(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return 0.1;
}

enum { BEAM_X = 40, BEAM_Y = 80 };
static const double beam_x = 0.05, beam_y = 0.1; /* m, a quarter of it */
static const double beam_d = 1e-10;              /* m2/s */
static const double beam_start = 0.8; /* RH, where the law is straight */

static double linear_water(const void *ctx, double phi)
{
    (void)ctx;
    return 50 * phi;
}

/* 1/mu that gives the diffusivity at 20 degC: D = delta psat/(mu 50). */
static double linear_open(const void *ctx, double phi, double w)
{
    (void)ctx;
    (void)phi;
    (void)w;
    return beam_d * 50 / (annex_delta(20, 0) * bw_saturation_pressure(20));
}

static const bw_hygro_law linear_law = {.water = linear_water,
                                        .openness = linear_open,
                                        .conductivity = beam_lambda,
                                        .heat_capacity = 1e6,
                                        .full_water = 60};

static void bone_dry(const void *ctx, double t, bw_sheet_weather *w)
{
    (void)ctx;
    (void)t;
    memset(w, 0, sizeof *w);
    for (size_t k = 0; k < BW_SHEET_SIDES; k++)
        w->side[k] = (bw_sheet_air){.theta = 20, .h = 1000, .beta = 1};
}

static void make_beam(lab *l, bw_sheet *s, bw_arena *arena)
{
    const double dx = beam_x / BEAM_X, dy = beam_y / BEAM_Y;
    *s = (bw_sheet){.n = BEAM_X * BEAM_Y, .humid = &l->humid, .r_v = ANNEX_RV};
    double *area = BW_NEW(arena, double, s->n);
    const bw_hygro **hygro = bw_arena_get(arena, s->n, sizeof *hygro);
    bw_sheet_face *face = BW_NEW(arena, bw_sheet_face, 2 * s->n);
    bw_sheet_edge *edge = BW_NEW(arena, bw_sheet_edge, 2 * (BEAM_X + BEAM_Y));
    ck_assert_int_eq(bw_hygro_build(&l->hygro[0], &linear_law, NULL), BW_OK);
    for (size_t c = 0; c < s->n; c++) {
        const size_t i = c % BEAM_X, j = c / BEAM_X;
        area[c] = dx * dy;
        hygro[c] = &l->hygro[0];
        if (i > 0)
            face[s->face_count++] = (bw_sheet_face){
                c - 1, c, dx / 2, dx / 2, dy, {.same = true, .per = 1 / dx}};
        if (j > 0)
            face[s->face_count++] = (bw_sheet_face){
                c - BEAM_X, c,  dy / 2,
                dy / 2,     dx, {.same = true, .per = 1 / dy}};
        if (i == 0)
            edge[s->edge_count++] = (bw_sheet_edge){
                .cell = c, .half = dx / 2, .length = dy};
        if (j == 0)
            edge[s->edge_count++] = (bw_sheet_edge){
                .cell = c, .side = 1, .half = dy / 2, .length = dx};
    }
    s->area = area;
    s->hygro = hygro;
    s->face = face;
    s->edge = edge;
    ck_assert_int_eq(bw_sheet_prepare(s, arena, NULL), BW_OK);
}

/* Content at a crossing of cells, of what it was. */
static double content(const bw_sheet_solver *s, double x, double y)
{
    const size_t i = (size_t)(x / beam_x * BEAM_X + 0.5);
    const size_t j = (size_t)(y / beam_y * BEAM_Y + 0.5);
    double sum = 0;
    for (size_t k = 0; k < 4; k++) {
        const size_t a = i - k % 2, b = j - k / 2;
        const size_t c = (b < BEAM_Y ? b : BEAM_Y - 1) * BEAM_X +
                         (a < BEAM_X ? a : BEAM_X - 1);
        sum += bw_hygro_water(s->sheet->hygro[c], s->v[2 * c + 1]) /
               (4 * 50 * beam_start);
    }
    return sum;
}

/* D 1e-10 m2/s, 100 x 200 mm, all faces dry from the first moment: the product
 * of the series of two plates (Newman 1931; reference figures computed from
 * these series by others). */
static const struct {
    double days, centre, near_corner, near_face, mean;
} newman[] = {{30, 0.943799, 0.528976, 0.726797, 0.521010},
              {90, 0.577347, 0.198181, 0.408833, 0.257929},
              {180, 0.234312, 0.066809, 0.165684, 0.096952},
              {365, 0.033103, 0.008978, 0.023407, 0.013428}};

START_TEST(beam_dries_as_the_product_of_two_plates)
{
    lab *l = lab_new(annex_delta);
    bw_arena arena = {0};
    bw_sheet sheet;
    bw_sheet_solver s;
    bw_sheet_flow flow = {.heat = 0};
    static double v[2 * BEAM_X * BEAM_Y];
    make_beam(l, &sheet, &arena);
    ck_assert_int_eq(bw_sheet_solver_make(&s, &sheet, &arena, NULL), BW_OK);
    for (size_t c = 0; c < sheet.n; c++) {
        v[2 * c] = 20;
        v[2 * c + 1] = bw_hygro_z_of_phi(&l->hygro[0], beam_start);
    }
    s.tolerance_z = 2e-4;
    bw_sheet_start(&s, v, 0);
    double worst = 0;
    for (size_t k = 0; k < COUNT(newman); k++) {
        ck_assert_int_eq(bw_sheet_advance(&s, newman[k].days * DAY, bone_dry,
                                          NULL, &flow, NULL),
                         BW_OK);
        double mean = 0;
        for (size_t c = 0; c < sheet.n; c++)
            mean += bw_hygro_water(&l->hygro[0], s.v[2 * c + 1]) /
                    (50 * beam_start * (double)sheet.n);
        farther(&worst, content(&s, 0.05, 0.1), newman[k].centre);
        farther(&worst, content(&s, 0.025, 0.025), newman[k].near_corner);
        farther(&worst, content(&s, 0.025, 0.1), newman[k].near_face);
        farther(&worst, mean, newman[k].mean);
    }
    measured("beam-drying", worst, 0.001, "of the start");
    bw_arena_release(&arena);
    lab_free(l);
}
END_TEST

SUITE("junction_hours_beam", FACT(beam_dries_as_the_product_of_two_plates))
