/* Cells of a drawing: each holds what is painted last where it lies, its faces
 * lie at its sides, cells are as wide as is said at the lines of the drawing
 * and grow from there. Random drawings; what they hold is painted here a second
 * time. */

#include <math.h>

#include "junction/raster.h"
#include "junction_case.h"
#include "suite.h"

enum { DRAWINGS = 8 };

static drawn d;
static bw_film_line film;
static bw_drawn_film some_film = {.name = "film", .sd_dry = 1, .sd_wet = 1};
static unsigned state;

static double in(double low, double high)
{
    state = state * 1664525u + 1013904223u; /* Numerical Recipes' constants */
    return low + (high - low) * (state >> 8) / 16777216.0;
}

/* A block with pieces of others in it, a step in its upper face, a film along
 * one of its lines; cut on both sides. */
static void draw(unsigned seed)
{
    state = 7919u * seed + 1;
    draw_start(&d);
    const double wide = in(300, 600), high = in(100, 300);
    const double step = in(0.3, 0.7) * wide, up = in(20, 100);
    draw_box(&d, 1.0, 0, wide, 0, high);
    draw_box(&d, 0.5, 0, step, high, high + up);
    for (int k = 0; k < 4; k++) {
        const double x = in(0, 0.7 * wide), y = in(0, 0.6 * high);
        draw_box(&d, 0.1, x, x + in(10, 0.3 * wide), y, y + in(5, 0.4 * high));
    }
    draw_space(&d, 0, 0, wide, -80, 0);
    draw_space(&d, 1, 0, step, high + up, high + up + 60);
    draw_space(&d, 1, step, wide, high, high + up + 60);
    draw_cut(&d, true, true, false, false);
    film = (bw_film_line){1e-3 * step,        1e-3 * step, 1e-3 * high,
                          1e-3 * (high + up), 0,           0};
    if (seed % 2 == 1)
        film = (bw_film_line){0.0, 1e-3 * step, 1e-3 * high, 1e-3 * high, 0, 0};
    d.junction.film = &some_film;
    d.junction.film_count = 1;
    d.junction.film_line = &film;
    d.junction.film_line_count = 1;
}

static bw_raster made(const bw_raster_options *options)
{
    bw_raster r;
    ck_assert_int_eq(bw_raster_make(&r, &d.junction, options, &d.arena, NULL),
                     BW_OK);
    return r;
}

static bool holds(const bw_rectangle *r, double x, double y)
{
    return x > r->x0 && x < r->x1 && y > r->y0 && y < r->y1;
}

/* The material there, or BW_NOT_THERE and its environment (or none, -1). */
static int painted(double x, double y, int *environment)
{
    *environment = -1;
    for (size_t k = d.junction.filling_count; k-- > 0;)
        if (holds(&d.filling[k].at, x, y))
            return (int)d.filling[k].material;
    for (size_t k = d.junction.space_count; k-- > 0;)
        if (*environment < 0 && holds(&d.space[k].at, x, y))
            *environment = (int)d.space[k].environment;
    return BW_NOT_THERE;
}

/* ---- cells and faces ------------------------------------------------------
 */

static void check_face(const bw_raster *r, const bw_raster_face *f)
{
    const size_t i = f->cell % r->nx, j = f->cell / r->nx;
    const double w = r->x[i + 1] - r->x[i], h = r->y[j + 1] - r->y[j];
    const double x = r->x[i] + 0.5 * w, y = r->y[j] + 0.5 * h;
    const double dx = f->side == BW_EDGE_LEFT    ? -0.5 * w
                      : f->side == BW_EDGE_RIGHT ? 0.5 * w
                                                 : 0.0;
    const double dy = f->side == BW_EDGE_BELOW   ? -0.5 * h
                      : f->side == BW_EDGE_ABOVE ? 0.5 * h
                                                 : 0.0;
    int environment;
    ck_assert_double_eq_tol(f->x, x + dx, 1e-12);
    ck_assert_double_eq_tol(f->y, y + dy, 1e-12);
    ck_assert_double_eq_tol(f->half, fabs(dx + dy), 1e-12);
    ck_assert_double_eq_tol(f->length, dx != 0.0 ? h : w, 1e-12);
    const double out = 1.0 + 1e-6 / f->half; /* just beyond it */
    ck_assert_int_eq(painted(x + out * dx, y + out * dy, &environment),
                     BW_NOT_THERE);
    ck_assert_int_eq((int)f->environment, environment);
    const bool on = f->x >= film.x0 - 1e-9 && f->x <= film.x1 + 1e-9 &&
                    f->y >= film.y0 - 1e-9 && f->y <= film.y1 + 1e-9;
    ck_assert_int_eq(f->film, on ? 0 : BW_NOT_THERE);
}

/* Sides of filled cells that look at an environment. */
static size_t count_faces(const bw_raster *r)
{
    size_t count = 0;
    for (size_t j = 0; j < r->ny; j++)
        for (size_t i = 0; i < r->nx; i++)
            for (int side = 0; side < 4; side++) {
                const long ni = (long)i + (side == 0 ? -1 : side == 1),
                           nj = (long)j + (side == 2 ? -1 : side == 3);
                if (r->material[j * r->nx + i] == BW_NOT_THERE || ni < 0 ||
                    nj < 0 || ni >= (long)r->nx || nj >= (long)r->ny)
                    continue;
                count += r->material[nj * (long)r->nx + ni] == BW_NOT_THERE;
            }
    return count;
}

START_TEST(cells_hold_what_is_painted_and_faces_lie_at_their_sides)
{
    const bw_raster_options options = {.smallest = 0.01};
    draw((unsigned)_i);
    const bw_raster r = made(&options);
    size_t filled = 0, films = 0;
    for (size_t c = 0; c < r.nx * r.ny; c++) {
        const size_t i = c % r.nx, j = c / r.nx;
        const double x = 0.5 * (r.x[i] + r.x[i + 1]);
        const double y = 0.5 * (r.y[j] + r.y[j + 1]);
        int environment;
        ck_assert_int_eq(r.material[c], painted(x, y, &environment));
        filled += r.material[c] != BW_NOT_THERE;
        ck_assert_int_eq(bw_raster_cell_at(&r, x, y),
                         r.material[c] != BW_NOT_THERE ? (long)c : -1);
    }
    ck_assert_uint_eq(r.filled, filled);
    ck_assert_uint_eq(r.face_count, count_faces(&r));
    for (size_t f = 0; f < r.face_count; f++)
        check_face(&r, &r.face[f]);
    for (size_t k = 0; k < r.nx * (r.ny + 1); k++) {
        const double x = 0.5 * (r.x[k % r.nx] + r.x[k % r.nx + 1]);
        const bool on = film.y0 == film.y1 &&
                        fabs(r.y[k / r.nx] - film.y0) < 1e-9 && x < film.x1;
        ck_assert_int_eq(r.film_y[k], on ? 0 : BW_NOT_THERE);
        films += on;
    }
    for (size_t k = 0; k < (r.nx + 1) * r.ny; k++) {
        const size_t j = k / (r.nx + 1);
        const double y = 0.5 * (r.y[j] + r.y[j + 1]);
        const bool on = film.x0 == film.x1 &&
                        fabs(r.x[k % (r.nx + 1)] - film.x0) < 1e-9 &&
                        y > film.y0 && y < film.y1;
        ck_assert_int_eq(r.film_x[k], on ? 0 : BW_NOT_THERE);
        films += on;
    }
    ck_assert_uint_gt(films, 0);
    draw_end(&d);
}
END_TEST

/* The block reaches to the sides that are cut; beyond them nothing is. */
START_TEST(no_cell_lies_beyond_the_drawing)
{
    draw(3);
    const bw_raster r = made(NULL);
    const double x[2] = {r.x[0], r.x[r.nx]}, y[2] = {r.y[0], r.y[r.ny]};
    const double px = 0.02, py = 0.01; /* m, in the block */
    ck_assert_int_ge(bw_raster_cell_at(&r, px, py), 0);
    ck_assert_int_ge(bw_raster_cell_at(&r, x[0], py), 0);
    ck_assert_int_ge(bw_raster_cell_at(&r, x[1], py), 0);
    ck_assert_int_eq(bw_raster_cell_at(&r, x[0] - 1e-6, py), -1);
    ck_assert_int_eq(bw_raster_cell_at(&r, x[1] + 1e-6, py), -1);
    ck_assert_int_eq(bw_raster_cell_at(&r, px, y[0] - 1e-6), -1);
    ck_assert_int_eq(bw_raster_cell_at(&r, px, y[1] + 1e-6), -1);
    draw_end(&d);
}
END_TEST

/* ---- how wide -------------------------------------------------------------
 */

static bool is_line(double at, bool across)
{
    bool is = false;
    for (size_t k = 0; k < d.junction.filling_count; k++) {
        const bw_rectangle *r = &d.filling[k].at;
        is = is || fabs(at - (across ? r->x0 : r->y0)) < 1e-9 ||
             fabs(at - (across ? r->x1 : r->y1)) < 1e-9;
    }
    return is;
}

/* Cells at a line are no wider than is said, and grow by no more than the
 * factor from one to the next, but for what scaling to the gap takes. */
static void check_widths(const double *line, size_t cells, bool across,
                         double first, double last, double smallest,
                         double growth)
{
    for (size_t k = 0; k < cells; k++) {
        const double w = line[k + 1] - line[k];
        const bool cut = across &&
                         (line[k] < first + 1e-9 || line[k + 1] > last - 1e-9);
        if (line[k] < first - 1e-9 || line[k + 1] > last + 1e-9)
            continue; /* air alone */
        ck_assert_double_gt(w, 0.0);
        if (!cut && (is_line(line[k], across) || is_line(line[k + 1], across)))
            ck_assert_double_le(w, smallest * (1.0 + 1e-9));
        if (k > 0 && line[k - 1] >= first - 1e-9)
            ck_assert_double_le(w / (line[k] - line[k - 1]),
                                growth * growth + 1e-6);
    }
}

START_TEST(cells_are_as_small_as_is_said_at_lines_and_grow_from_there)
{
    const bw_raster_options options = {.smallest = 0.004, .growth = 1.5};
    draw((unsigned)_i);
    const bw_raster r = made(&options);
    bw_rectangle all = d.filling[0].at;
    all.y1 = d.filling[1].at.y1;
    check_widths(r.x, r.nx, true, all.x0, all.x1, 0.004, 1.5);
    check_widths(r.y, r.ny, false, all.y0, all.y1, 0.004, 1.5);
    /* every line of the drawing is one of the grid */
    for (size_t k = 0; k < d.junction.filling_count; k++) {
        const bw_rectangle *f = &d.filling[k].at;
        const double at[4] = {f->x0, f->x1, f->y0, f->y1};
        for (int e = 0; e < 4; e++) {
            const double *line = e < 2 ? r.x : r.y;
            bool found = false;
            for (size_t n = 0; n <= (e < 2 ? r.nx : r.ny); n++)
                found = found || fabs(line[n] - at[e]) < 1e-9;
            ck_assert(found);
        }
    }
    draw_end(&d);
}
END_TEST

START_TEST(halved_each_cell_is_two_and_none_is_wider_than_said)
{
    bw_raster_options options = {.smallest = 0.01, .widest = 0.02};
    draw((unsigned)_i);
    const bw_raster r = made(&options);
    options.halvings = 1;
    const bw_raster half = made(&options);
    ck_assert_uint_eq(half.nx, 2 * r.nx);
    ck_assert_uint_eq(half.ny, 2 * r.ny);
    for (size_t k = 0; k <= r.nx; k++) {
        ck_assert_double_eq_tol(half.x[2 * k], r.x[k], 1e-12);
        if (k > 0)
            ck_assert_double_eq_tol(half.x[2 * k - 1],
                                    0.5 * (r.x[k - 1] + r.x[k]), 1e-12);
    }
    for (size_t k = 1; k <= r.ny; k++)
        ck_assert_double_eq_tol(half.y[2 * k - 1], 0.5 * (r.y[k - 1] + r.y[k]),
                                1e-12);
    for (size_t k = 0; k < r.nx; k++)
        ck_assert_double_le(r.x[k + 1] - r.x[k], 0.02 + 1e-9);
    draw_end(&d);
}
END_TEST

SUITE("junction_raster",
      EACH(cells_hold_what_is_painted_and_faces_lie_at_their_sides, DRAWINGS),
      FACT(no_cell_lies_beyond_the_drawing),
      EACH(cells_are_as_small_as_is_said_at_lines_and_grow_from_there,
           DRAWINGS),
      EACH(halved_each_cell_is_two_and_none_is_wider_than_said, DRAWINGS))
