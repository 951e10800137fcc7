#ifndef BW_TESTS_JUNCTION_PLANE_H
#define BW_TESTS_JUNCTION_PLANE_H

/* Plane walls as drawings, whichever way they lie, for the monthly method, and
 * what EN ISO 13788 has by hand of them, at one face [from memory, high]:
 *
 *   g = delta_0 ((p_i - psat)/sd_i - (psat - p_e)/sd_e) */

#include <math.h>

#include "bothways/air.h"
#include "junction/water.h"
#include "junction_case.h"
#include "random_wall.h"

/* ---- a wall ---------------------------------------------------------------
 */

enum { LAYERS_MOST = 3, WAYS = 4 };

typedef struct plane {
    drawn d;
    bw_material stuff[LAYERS_MOST];
    size_t layers;
    double thick[LAYERS_MOST], sd[LAYERS_MOST]; /* m, outside to inside */
    double lambda[LAYERS_MOST];
    double width;
    int way; /* quarters that the drawing is turned */
    bw_drawn_film film;
    bw_film_line line;
    double theta[2 * BW_MONTHS], p[2 * BW_MONTHS]; /* outside, room */
    bw_junction_water out;
} plane;

static plane w;
static dice die;

/* Turned by quarters to the left about the origin. */
static inline bw_rectangle turned(bw_rectangle r, int way)
{
    for (int k = 0; k < way; k++)
        r = (bw_rectangle){-r.y1, -r.y0, r.x0, r.x1};
    return r;
}

static inline void start(void)
{
    static const char *const name[LAYERS_MOST] = {"one", "two", "three"};
    die = (dice){.state = 88172645463325252u};
    memset(&w, 0, sizeof w);
    draw_start(&w.d);
    w.layers = 2;
    w.width = 0.5;
    for (size_t k = 0; k < LAYERS_MOST; k++)
        w.stuff[k] = (bw_material){.id = name[k],
                                   .name = name[k],
                                   .group = "masonry",
                                   .mould_class = BW_MOULD_RESISTANT,
                                   .absorbs_condensate = true};
}

static inline void end(void)
{
    draw_end(&w.d);
}

/* Tight outside, of insulation inside: that is where it is wet. */
static inline void any_layers(void)
{
    w.thick[0] = between(&die, 0.02, 0.05);
    w.lambda[0] = between(&die, 0.1, 0.3);
    w.sd[0] = between(&die, 3.0, 6.0);
    w.thick[1] = between(&die, 0.1, 0.2);
    w.lambda[1] = between(&die, 0.03, 0.05);
    w.sd[1] = between(&die, 1.0, 2.0);
    w.thick[2] = between(&die, 0.01, 0.03);
    w.lambda[2] = between(&die, 0.1, 0.3);
    w.sd[2] = between(&die, 0.1, 0.5);
}

static inline double face_after(size_t layer)
{
    double y = 0.0;
    for (size_t k = 0; k <= layer; k++)
        y += w.thick[k];
    return y;
}

/* Of the layers that are there, with a film of sd between the first two. */
static inline void draw(double film_sd)
{
    static const bool cut[WAYS][BW_EDGES] = {
        [0] = {[BW_EDGE_LEFT] = true, [BW_EDGE_RIGHT] = true},
        [1] = {[BW_EDGE_BELOW] = true, [BW_EDGE_ABOVE] = true},
        [2] = {[BW_EDGE_LEFT] = true, [BW_EDGE_RIGHT] = true},
        [3] = {[BW_EDGE_BELOW] = true, [BW_EDGE_ABOVE] = true}};
    const double high = face_after(w.layers - 1), wide = w.width;
    double y = 0.0;
    for (size_t k = 0; k < w.layers; k++) {
        draw_box(&w.d, w.lambda[k], 0, 1, 0, 1);
        w.d.filling[k].at = turned((bw_rectangle){0, wide, y, y + w.thick[k]},
                                   w.way);
        bw_drawn_material *m = &w.d.material[k];
        m->name = w.stuff[k].name;
        m->material = &w.stuff[k];
        m->mu_dry = m->mu_wet = w.sd[k] / w.thick[k];
        y += w.thick[k];
    }
    draw_space(&w.d, 0, 0, 1, 0, 1);
    draw_space(&w.d, 1, 0, 1, 0, 1);
    w.d.space[0].at = turned((bw_rectangle){0, wide, -0.1, 0}, w.way);
    w.d.space[1].at = turned((bw_rectangle){0, wide, high, high + 0.1}, w.way);
    memcpy(w.d.junction.symmetry, cut[w.way], sizeof cut[w.way]);
    if (film_sd <= 0.0)
        return;
    const bw_rectangle at = turned(
        (bw_rectangle){0, wide, w.thick[0], w.thick[0]}, w.way);
    w.film = (bw_drawn_film){
        .name = "film", .sd_dry = film_sd, .sd_wet = film_sd};
    w.line = (bw_film_line){at.x0, at.x1, at.y0, at.y1, 0, 0};
    w.d.junction.film = &w.film;
    w.d.junction.film_count = 1;
    w.d.junction.film_line = &w.line;
    w.d.junction.film_line_count = 1;
}

static inline void put_month(int m, double theta_e, double p_e, double p_i)
{
    w.theta[m] = theta_e;
    w.p[m] = p_e;
    w.theta[BW_MONTHS + m] = 20.0;
    w.p[BW_MONTHS + m] = p_i;
}

static inline void find_water(bool wet)
{
    bw_error err = {0};
    ck_assert_int_eq(bw_junction_water_find(&w.out, &w.d.arena, &w.d.junction,
                                            w.theta, w.p, BW_MU_DRY, wet, &err),
                     BW_OK);
    ck_assert_msg(w.out.ran, "%s", w.out.reason);
}

/* At a depth from outside, with 0.04 and 0.25 m2 K/W at the surfaces. */
static inline double theta_at(double depth, int month)
{
    double all = 0.04 + 0.25, until = 0.04, y = 0.0;
    for (size_t k = 0; k < w.layers; k++) {
        until += fmin(fmax(depth - y, 0.0), w.thick[k]) / w.lambda[k];
        all += w.thick[k] / w.lambda[k];
        y += w.thick[k];
    }
    const double e = w.theta[month], i = w.theta[BW_MONTHS + month];
    return e + (i - e) * until / all;
}

/* kg/(m2 s) to a wet face, with so much sd on each side of it. */
static inline double to_face(double depth, double sd_e, double sd_i, int month)
{
    const double psat = bw_saturation_pressure(theta_at(depth, month));
    const double in = (w.p[BW_MONTHS + month] - psat) / sd_i;
    const double out = (psat - w.p[month]) / sd_e;
    return BW_DELTA_0 * ((sd_i > 0 ? in : 0) - (sd_e > 0 ? out : 0));
}

static inline void check_extent(double depth, double x0, double x1, double y0,
                                double y1)
{
    const bw_rectangle at = turned((bw_rectangle){0, w.width, depth, depth},
                                   w.way);
    ck_assert_double_eq_tol(x0, at.x0, 1e-9);
    ck_assert_double_eq_tol(x1, at.x1, 1e-9);
    ck_assert_double_eq_tol(y0, at.y0, 1e-9);
    ck_assert_double_eq_tol(y1, at.y1, 1e-9);
}

static inline void are_names(const char *const beside[2], const char *a,
                             const char *b)
{
    ck_assert_msg((strcmp(beside[0], a) == 0 && strcmp(beside[1], b) == 0) ||
                      (strcmp(beside[0], b) == 0 && strcmp(beside[1], a) == 0),
                  "%s, %s", beside[0], beside[1]);
}

#endif
