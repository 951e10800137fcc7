/* How far the hours of a drawing hang on its cells: what is told of two grids,
 * one with every line of the other, is compared place by place. All figures are
 * put by hand. */

#include "hour_moved.h"
#include "junction_watched.h"
#include "suite.h"

enum { COARSE_X = 4, COARSE_Y = 3, DRAWINGS = 4 };

/* ---- two grids ------------------------------------------------------------
 */

typedef struct pair {
    watched *fine, *coarse;
} pair;

/* Each cell of the coarse grid is four of the fine, of unlike widths; films lie
 * on lines of both. */
static pair two_grids(unsigned long seed)
{
    pair two = {watched_start(2 * COARSE_X, 2 * COARSE_Y, seed),
                watched_start(COARSE_X, COARSE_Y, seed)};
    watched *w = two.fine;
    plan *f = &w->p, *c = &two.coarse->p;
    for (size_t i = 1; i <= f->nx; i++)
        f->x[i] = f->x[i - 1] + chance_in(w, 0.002, 0.012);
    for (size_t j = 1; j <= f->ny; j++)
        f->y[j] = f->y[j - 1] + chance_in(w, 0.002, 0.012);
    for (size_t i = 0; i <= c->nx; i++)
        c->x[i] = f->x[2 * i];
    for (size_t j = 0; j <= c->ny; j++)
        c->y[j] = f->y[2 * j];
    for (size_t k = 0; k < c->nx * c->ny; k++) {
        c->cell[k] = k == 0 ? TIMBER : (int)chance_in(w, 0, STUFFS);
        if (k > 0 && chance_in(w, 0, 1) < 0.15) {
            c->cell[k] = BW_NOT_THERE;
            c->air[k] = 1;
        }
        c->film_y[k] = chance_in(w, 0, 1) < 0.2 ? 0 : BW_NOT_THERE;
    }
    for (size_t k = 0; k < f->nx * f->ny; k++) {
        const size_t i = k % f->nx, j = k / f->nx, of = j / 2 * c->nx + i / 2;
        f->cell[k] = c->cell[of];
        f->air[k] = c->air[of];
        f->film_y[k] = j % 2 == 0 ? c->film_y[of] : BW_NOT_THERE;
    }
    for (w->spots = 0; w->spots < WATCHED_SPOTS; w->spots++)
        w->spot[w->spots] = (bw_drawn_spot){"a spot",
                                            f->x[1 + 2 * (w->spots % COARSE_X)],
                                            f->y[w->spots / COARSE_X], 0};
    memcpy(two.coarse->spot, w->spot, sizeof w->spot);
    two.coarse->spots = w->spots;
    watched_make(two.fine);
    watched_make(two.coarse);
    return two;
}

static void end_pair(pair *two)
{
    watched_end(two->fine);
    watched_end(two->coarse);
}

/* ---- figures --------------------------------------------------------------
 */

static void put_figures(watched *w)
{
    const size_t places = w->out.place_count;
    for (size_t k = 0; k < places; k++) {
        bw_hour_place *p = &w->watch.place[k];
        for (int m = 0; m < BW_MONTHS; m++)
            p->month_rh[m] = chance_in(w, 0, 1);
        p->dampest = (int)chance_in(w, 0, BW_MONTHS);
        p->above_95 = chance_in(w, 0, 100);
        p->mould = chance_in(w, 0, 6);
        p->mould_slow = chance_in(w, 0, 6);
        p->free_water = chance_in(w, 0, 1);
    }
    for (size_t k = 0; k < w->out.wood_count; k++) {
        bw_hour_wood *a = &w->watch.wood[k];
        a->highest = chance_in(w, 0, 1);
        a->days_above_line = chance_in(w, 0, 365);
        a->first_dose = chance_in(w, 0, 300);
        a->dose = chance_in(w, 0, 300);
    }
    for (size_t k = 0; k < w->out.spot_count; k++)
        for (size_t n = 0; n < BW_SPANS; n++) {
            w->watch.spot[k].phi[n] = chance_in(w, 0, 1);
            w->watch.spot[k].moisture[n] = chance_in(w, 0, 1);
        }
    /* hours of a span are alike but for the last */
    for (size_t h = 0; h < BW_HOUR_YEAR; h++)
        for (size_t k = 0; k < places; k++)
            w->watch.phi[h * places + k] = (float)(h / 120 * 7 % 10) * 0.1F +
                                           (h % 120 == 119 ? 0.03F : 0.0F) +
                                           (float)k * 1e-3F;
}

static double span_phi(size_t span, size_t place)
{
    return (double)(span * 7 % 10) * 0.1 + 0.03 / 120 + (double)place * 1e-3;
}

/* ---- what is alike --------------------------------------------------------
 */

/* Number of the stretch of lines that a value lies in. */
static size_t stretch(const double *line, size_t count, double at)
{
    size_t k = 0;
    while (k + 1 < count && at > line[k + 1])
        k++;
    return k;
}

static bool on_line(const double *line, size_t count, double at)
{
    for (size_t k = 0; k <= count; k++)
        if (fabs(line[k] - at) < 1e-12)
            return true;
    return false;
}

/* The place of the coarse grid whose face holds that of the fine: its middle is
 * that of the coarse cells there. */
static size_t like(const pair *two, size_t fine)
{
    const bw_hour_place *p = &two->fine->out.place[fine];
    const plan *f = &two->fine->p, *c = &two->coarse->p;
    double x = p->x, y = p->y;
    if (on_line(f->x, f->nx, x)) {
        const size_t j = stretch(c->y, c->ny, y);
        y = 0.5 * (c->y[j] + c->y[j + 1]);
    } else {
        const size_t i = stretch(c->x, c->nx, x);
        x = 0.5 * (c->x[i] + c->x[i + 1]);
    }
    for (size_t k = 0; k < two->coarse->out.place_count; k++) {
        const bw_hour_place *q = &two->coarse->out.place[k];
        if (q->room == p->room && hypot(q->x - x, q->y - y) < 1e-9)
            return k;
    }
    ck_abort_msg("none is like that at %g, %g", p->x, p->y);
}

static void check_places(const pair *two)
{
    for (size_t k = 0; k < two->fine->out.place_count; k++) {
        const bw_hour_place *p = &two->fine->out.place[k];
        const bw_hour_place *q = &two->coarse->out.place[like(two, k)];
        ck_assert_double_eq(p->moved.rh, fabs(p->month_rh[p->dampest] -
                                              q->month_rh[q->dampest]));
        ck_assert_double_eq(p->moved.above_95, fabs(p->above_95 - q->above_95));
        ck_assert_double_eq(p->moved.mould, fabs(p->mould - q->mould));
        ck_assert_double_eq(p->moved.mould_slow,
                            fabs(p->mould_slow - q->mould_slow));
        ck_assert_double_eq(p->moved.free_water,
                            fabs(p->free_water - q->free_water));
    }
}

static void check_wood(const pair *two)
{
    const bw_hour_watch *f = &two->fine->watch, *c = &two->coarse->watch;
    for (size_t n = 0; n < two->coarse->model.sheet.n; n++) {
        const size_t at = two->coarse->model.raster[n];
        const size_t own = at / COARSE_X * 4 * COARSE_X + at % COARSE_X * 2;
        if (c->wood_of[n] == SIZE_MAX)
            continue;
        const size_t cell = two->fine->model.cell[own];
        const bw_hour_wood *a = &f->wood[f->wood_of[cell]];
        const bw_hour_wood *b = &c->wood[c->wood_of[n]];
        ck_assert_double_eq(a->moved.highest, fabs(a->highest - b->highest));
        ck_assert_double_eq(a->moved.days_above_line,
                            fabs(a->days_above_line - b->days_above_line));
        ck_assert_double_eq(a->moved.first_dose,
                            fabs(a->first_dose - b->first_dose));
        ck_assert_double_eq(a->moved.dose, fabs(a->dose - b->dose));
    }
}

static void check_spots(const pair *two)
{
    for (size_t k = 0; k < WATCHED_SPOTS; k++) {
        const bw_hour_spot *a = &two->fine->out.spot[k];
        const bw_hour_spot *b = &two->coarse->out.spot[k];
        const size_t at = like(two, a->place);
        double phi = 0.0, moisture = 0.0;
        for (size_t n = 0; n < BW_SPANS; n++) {
            phi = fmax(phi, fabs(a->phi[n] - span_phi(n, at)));
            moisture = fmax(moisture, fabs(a->moisture[n] - b->moisture[n]));
        }
        ck_assert_double_eq_tol(a->moved_phi, phi, 1e-6);
        ck_assert_double_eq(a->moved_moisture, moisture);
    }
}

/* The dampest month is that of the fine grid for both. */
START_TEST(each_figure_moved_by_its_difference_from_its_like)
{
    pair two = two_grids(17 + (unsigned long)_i);
    ck_assert_uint_gt(two.fine->out.place_count, two.coarse->out.place_count);
    put_figures(two.fine);
    put_figures(two.coarse);
    for (size_t k = 0; k < two.fine->out.place_count; k++)
        two.fine->watch.place[k].dampest = 4;
    for (size_t k = 0; k < two.coarse->out.place_count; k++)
        two.coarse->watch.place[k].dampest = 4;
    ck_assert_int_eq(bw_hour_moved(&two.fine->watch, &two.coarse->watch, NULL),
                     BW_OK);
    check_places(&two);
    check_wood(&two);
    check_spots(&two);
    end_pair(&two);
}
END_TEST

/* ---- grids that do not match ----------------------------------------------
 */

static bw_status compared(const pair *two)
{
    bw_error err = {0};
    return bw_hour_moved(&two->fine->watch, &two->coarse->watch, &err);
}

/* A line of the coarse grid that the fine one has not, along x or y: no face
 * is said to lie where it does not. */
START_TEST(grids_whose_lines_are_not_the_others_do_not_match)
{
    pair two = two_grids(17);
    bw_junction_hours *out = &two.coarse->out;
    double *line = _i == 0 ? &two.coarse->p.x[1] : &two.coarse->p.y[1];
    ck_assert_int_eq(compared(&two), BW_OK);
    *line += 1e-4;
    for (size_t k = 0; k < out->place_count; k++) {
        bw_hour_place *p = &two.coarse->watch.place[k];
        double *at = _i == 0 ? &p->x : &p->y;
        if (fabs(*at + 1e-4 - *line) < 1e-9)
            *at = *line;
    }
    ck_assert_int_eq(compared(&two), BW_ERR_NUMERIC);
    end_pair(&two);
}
END_TEST

START_TEST(grids_of_other_wood_or_other_spots_do_not_match)
{
    pair two = two_grids(17);
    bw_hour_watch *w = &two.coarse->watch;
    w->out->spot_count--;
    ck_assert_int_eq(compared(&two), BW_ERR_NUMERIC);
    w->out->spot_count++;
    w->out->wood_count++;
    ck_assert_int_eq(compared(&two), BW_ERR_NUMERIC);
    w->out->wood_count--;
    ck_assert_int_eq(compared(&two), BW_OK);
    const long of = w->spot[0].wood; /* wood at a spot of one grid alone */
    w->spot[0].wood = of < 0 ? 0 : -1;
    ck_assert_int_eq(compared(&two), BW_ERR_NUMERIC);
    w->spot[0].wood = of;
    for (size_t c = 0; c < w->model->sheet.n; c++)
        w->wood_of[c] = SIZE_MAX;
    ck_assert_int_eq(compared(&two), BW_ERR_NUMERIC);
    end_pair(&two);
}
END_TEST

SUITE("junction_moved",
      EACH(each_figure_moved_by_its_difference_from_its_like, DRAWINGS),
      EACH(grids_whose_lines_are_not_the_others_do_not_match, 2),
      FACT(grids_of_other_wood_or_other_spots_do_not_match))
