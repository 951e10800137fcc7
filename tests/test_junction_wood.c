/* Wood in a drawing by the hour, and places with a name: pieces, the wettest 10
 * mm by 10 mm of each day, the hours of a spot. States are put by hand; what
 * must come of them is written down here a second time, from areas that
 * overlap. */

#include "bothways/decay.h"
#include "junction_watched.h"
#include "suite.h"

enum { DRAWINGS = 4, CELLS_MOST = 64, DAYS = BW_TRANSIENT_DAYS };
static const double depth = 0.010; /* m: of wood that is looked at together */

/* ---- pieces ---------------------------------------------------------------
 */

static bool is_wood(int stuff)
{
    return stuff == TIMBER || stuff == PANEL;
}

/* Cells of one wood that touch have one number, from 1; 0: no wood. */
static size_t number_pieces(const plan *p, size_t number[CELLS_MOST])
{
    size_t count = 0;
    memset(number, 0, CELLS_MOST * sizeof *number);
    for (size_t from = 0; from < p->nx * p->ny; from++) {
        if (number[from] != 0 || !is_wood(p->cell[from]))
            continue;
        number[from] = ++count;
        for (bool more = true; more;) {
            more = false;
            for (size_t a = 0; a < p->nx * p->ny; a++)
                for (size_t b = 0; b < p->nx * p->ny; b++) {
                    const bool beside = (b == a + 1 && b % p->nx != 0) ||
                                        (a == b + 1 && a % p->nx != 0) ||
                                        b == a + p->nx || a == b + p->nx;
                    if (!beside || number[a] != count || number[b] != 0 ||
                        p->cell[a] != p->cell[b])
                        continue;
                    number[b] = count;
                    more = true;
                }
        }
    }
    return count;
}

/* The piece told of that holds a cell of the plan. */
static bw_hour_wood *piece_of(const watched *w, size_t cell)
{
    return &w->watch.wood[w->watch.wood_of[w->model.cell[cell]]];
}

START_TEST(cells_of_one_wood_that_touch_are_a_piece)
{
    watched *w = watched_any(8, 7, 91 + (unsigned long)_i);
    const plan *p = &w->p;
    size_t number[CELLS_MOST];
    ck_assert_uint_eq(number_pieces(p, number), w->out.wood_count);
    for (size_t a = 0; a < p->nx * p->ny; a++) {
        if (p->cell[a] == BW_NOT_THERE)
            continue;
        if (number[a] == 0) {
            ck_assert_uint_eq(w->watch.wood_of[w->model.cell[a]], SIZE_MAX);
            continue;
        }
        bool shows = false; /* the outside lies below */
        for (size_t b = 0; b < p->nx * p->ny; b++)
            if (number[b] != 0) {
                ck_assert_int_eq(piece_of(w, a) == piece_of(w, b),
                                 number[a] == number[b]);
                shows |= number[a] == number[b] && b < p->nx;
            }
        const bool panel = p->cell[a] == PANEL;
        ck_assert_ptr_eq(piece_of(w, a)->material, &w->c->material[p->cell[a]]);
        /* DIN 68800-2 [from memory, high] */
        ck_assert_double_eq(piece_of(w, a)->limit, panel ? 0.18 : 0.20);
        ck_assert_int_eq(piece_of(w, a)->exposed, shows);
    }
    watched_end(w);
}
END_TEST

/* ---- days -----------------------------------------------------------------
 */

/* Sums of the hours of a day, of each cell of the plan. */
typedef struct day {
    double water[CELLS_MOST], theta[CELLS_MOST], phi[CELLS_MOST];
} day;

typedef struct square {
    double moisture, theta, phi, x, y;
} square;

/* How far the piece goes on from a cell, `way` along its row or column. */
static double run_of(const plan *p, const size_t *number, size_t cell,
                     bool across, int way)
{
    double sum = 0.0;
    for (long i = (long)(cell % p->nx), j = (long)(cell / p->nx);
         i >= 0 && j >= 0 && i < (long)p->nx && j < (long)p->ny;
         i += across ? way : 0, j += across ? 0 : way) {
        if (number[j * (long)p->nx + i] != number[cell])
            break;
        sum += across ? p->x[i + 1] - p->x[i] : p->y[j + 1] - p->y[j];
    }
    return sum;
}

/* From a side of a cell on, 10 mm or as far as the piece goes; false: it goes
 * on the other way, so that there are 10 mm elsewhere. */
static bool span_of(const plan *p, const size_t *number, size_t cell,
                    bool across, int way, double span[2])
{
    const size_t k = across ? cell % p->nx : cell / p->nx;
    const double *line = across ? p->x : p->y;
    const double run = run_of(p, number, cell, across, way);
    const double wide = fmin(run, depth);
    const double own = line[k + 1] - line[k];
    span[0] = way > 0 ? line[k] : line[k + 1] - wide;
    span[1] = way > 0 ? line[k] + wide : line[k + 1];
    return run > depth - 1e-9 ||
           run_of(p, number, cell, across, -way) < own + 1e-9;
}

static double overlap(const double *line, size_t k, const double span[2])
{
    return fmax(fmin(line[k + 1], span[1]) - fmax(line[k], span[0]), 0.0);
}

/* The wettest square of the piece that holds `of`. */
static square wettest(const watched *w, const size_t *number, size_t of,
                      const day *d)
{
    const plan *p = &w->p;
    const double rho = w->c->material[p->cell[of]].density.value;
    square most = {.moisture = -1.0};
    for (size_t c = 0; c < 4 * p->nx * p->ny; c++) {
        const size_t from = c / 4;
        double x[2], y[2], area = 0.0;
        square s = {0};
        if (number[from] != number[of] ||
            !span_of(p, number, from, true, c % 2 == 0 ? 1 : -1, x) ||
            !span_of(p, number, from, false, c % 4 < 2 ? 1 : -1, y))
            continue;
        for (size_t k = 0; k < p->nx * p->ny; k++) {
            if (number[k] != number[of])
                continue;
            const double by = overlap(p->x, k % p->nx, x) *
                              overlap(p->y, k / p->nx, y) / 24.0;
            area += by * 24.0;
            s.moisture += by * d->water[k] / rho;
            s.theta += by * d->theta[k];
            s.phi += by * d->phi[k];
        }
        if (s.moisture / area <= most.moisture + 1e-12)
            continue;
        const size_t i = from % p->nx, j = from / p->nx;
        most = (square){s.moisture / area, s.theta / area, s.phi / area,
                        0.5 * (p->x[i] + p->x[i + 1]),
                        0.5 * (p->y[j] + p->y[j + 1])};
    }
    return most;
}

static void add_hour(const watched *w, day *d)
{
    for (size_t i = 0; i < w->model.sheet.n; i++) {
        const size_t c = w->model.raster[i];
        d->water[c] += bw_cells_water(&w->solver.cells, i);
        d->theta[c] += w->solver.v[2 * i];
        d->phi[c] += bw_cells_phi(&w->solver.cells, i);
    }
}

/* A year of days at random, hours of the night moister; of each piece and day
 * the wettest square into most. */
static void run_year(watched *w, const size_t *number, size_t pieces,
                     double humid, square *most)
{
    bw_hour_watch_year(&w->watch);
    for (size_t k = 0; k < DAYS; k++) {
        day d = {{0}, {0}, {0}};
        const double theta = chance_in(w, 5, 20);
        for (int h = 0; h < 24; h++) {
            const double more = h < 6 ? 0.03 : 0.0;
            for (size_t i = 0; h % 6 == 0 && i < w->model.sheet.n; i++)
                put_state(w, i, theta + (double)(i % 3),
                          z_of(w, i, more + chance_in(w, 0.6, humid)));
            states_put(w);
            add_hour(w, &d);
            see_hour(w, (int)k * 24 + h);
        }
        for (size_t n = 1; n <= pieces; n++) {
            size_t of = 0;
            while (number[of] != n)
                of++;
            most[(n - 1) * DAYS + k] = wettest(w, number, of, &d);
        }
    }
    bw_hour_watch_end_year(&w->watch);
    w->out.years++;
}

/* Days to the end of each month from October on. */
static int month_of(size_t day_of_run)
{
    static const size_t end[] = {31,  61,  92,  123, 151, 182,
                                 212, 243, 273, 304, 335, 365};
    int m = 0;
    while (day_of_run >= end[m])
        m++;
    return (m + 9) % BW_MONTHS;
}

static double dose_of(const square *most)
{
    double theta[DAYS], u[DAYS];
    for (size_t k = 0; k < DAYS; k++) {
        theta[k] = most[k].theta;
        u[k] = most[k].moisture;
    }
    return bw_decay_dose_year(u, theta, DAYS, BW_DECAY_DOSE_CRITICAL).dose;
}

static void check_piece(const bw_hour_wood *wood, const square *most)
{
    double theta[DAYS], phi[DAYS], hours = 0.0;
    size_t top = 0;
    for (size_t k = 0; k < DAYS; k++) {
        theta[k] = most[k].theta;
        phi[k] = most[k].phi;
        hours += most[k].moisture > wood->limit ? 24.0 : 0.0;
        top = most[k].moisture > most[top].moisture ? k : top;
    }
    const bw_timber_line_result line = bw_timber_line_year(theta, phi, DAYS);
    ck_assert_double_eq_tol(wood->highest, most[top].moisture, 1e-9);
    ck_assert_double_eq_tol(wood->x, most[top].x, 1e-9);
    ck_assert_double_eq_tol(wood->y, most[top].y, 1e-9);
    ck_assert_int_eq(wood->month, month_of(top));
    ck_assert_double_eq(wood->hours_above, hours);
    ck_assert_double_eq(wood->days_above_line, (double)line.days_above);
    ck_assert_double_eq_tol(wood->overshoot, line.overshoot, 1e-6);
    ck_assert_double_eq_tol(wood->dose, dose_of(most), 1e-6);
}

/* The first year wetter than the second. */
START_TEST(wood_is_judged_by_the_wettest_square_of_each_day)
{
    watched *w = watched_any(6, 4, 201 + (unsigned long)_i);
    size_t number[CELLS_MOST];
    const size_t pieces = number_pieces(&w->p, number);
    square *first = bw_arena_get(&w->keep, pieces * DAYS, sizeof *first);
    square *second = bw_arena_get(&w->keep, pieces * DAYS, sizeof *second);
    double dose = 0.0;
    ck_assert_uint_gt(pieces, 0);
    run_year(w, number, pieces, 0.97, first);
    run_year(w, number, pieces, 0.96, second);
    for (size_t n = 1; n <= pieces; n++) {
        size_t of = 0;
        while (number[of] != n)
            of++;
        const bw_hour_wood *wood = piece_of(w, of);
        double top = 0.0;
        for (size_t k = 0; k < DAYS; k++)
            top = fmax(top, first[(n - 1) * DAYS + k].moisture);
        check_piece(wood, second + (n - 1) * DAYS);
        ck_assert_double_eq_tol(wood->first_highest, top, 1e-9);
        ck_assert_double_eq_tol(wood->first_dose,
                                dose_of(first + (n - 1) * DAYS), 1e-6);
        dose += wood->first_dose - wood->dose;
    }
    ck_assert_double_gt(dose, 1.0); /* d, of all pieces */
    watched_end(w);
}
END_TEST

/* ---- places with a name ---------------------------------------------------
 */

/* m from a spot to a cell of the plan. */
static double away_from(const plan *p, size_t c, const bw_hour_spot *s)
{
    const size_t i = c % p->nx, j = c / p->nx;
    const double x = fmin(fmax(s->x, p->x[i]), p->x[i + 1]);
    const double y = fmin(fmax(s->y, p->y[j]), p->y[j + 1]);
    return hypot(s->x - x, s->y - y);
}

static void check_spot(const watched *w, const bw_hour_spot *s)
{
    const plan *p = &w->p;
    double face = HUGE_VAL, wood = HUGE_VAL;
    for (size_t k = 0; k < w->out.place_count; k++)
        face = fmin(face,
                    hypot(w->out.place[k].x - s->x, w->out.place[k].y - s->y));
    for (size_t c = 0; c < p->nx * p->ny; c++)
        if (is_wood(p->cell[c]))
            wood = fmin(wood, away_from(p, c, s));
    const bw_hour_place *at = &w->out.place[s->place];
    ck_assert_double_eq_tol(s->away, face, 1e-12);
    ck_assert_double_eq_tol(hypot(at->x - s->x, at->y - s->y), face, 1e-12);
    ck_assert_int_eq(s->wood >= 0, wood < 0.020); /* m */
    if (s->wood < 0)
        return;
    const size_t cell = w->watch.spot_cell[s - w->out.spot];
    ck_assert_double_eq_tol(away_from(p, w->model.raster[cell], s), wood,
                            1e-12);
    ck_assert_uint_eq(w->watch.wood_of[cell], (size_t)s->wood);
}

static void name_spots(watched *w, double wide, double high)
{
    for (w->spots = 0; w->spots < WATCHED_SPOTS; w->spots++)
        w->spot[w->spots] = (bw_drawn_spot){"a spot", chance_in(w, -0.01, wide),
                                            chance_in(w, -0.01, high), 0};
}

START_TEST(spot_is_the_nearest_face_and_the_wood_within_twenty_millimetres)
{
    watched *w = watched_start(8, 6, 301 + (unsigned long)_i);
    plan *p = &w->p;
    name_spots(w, 0.12, 0.1);
    for (size_t i = 0; i < p->nx; i++)
        p->x[i + 1] = p->x[i] + chance_in(w, 0.008, 0.03);
    for (size_t j = 0; j < p->ny; j++)
        p->y[j + 1] = p->y[j] + chance_in(w, 0.008, 0.03);
    for (size_t c = 0; c < p->nx * p->ny; c++)
        p->cell[c] = chance_in(w, 0, 1) < 0.12 ? TIMBER
                     : c % 2 == 0              ? STONE
                                               : FOAM;
    watched_make(w);
    ck_assert_uint_eq(w->out.spot_count, WATCHED_SPOTS);
    for (size_t k = 0; k < WATCHED_SPOTS; k++)
        check_spot(w, &w->out.spot[k]);
    watched_end(w);
}
END_TEST

START_TEST(spot_has_the_means_of_five_days)
{
    enum { SPANS = 3 };
    watched *w = watched_start(4, 4, 401);
    double theta[SPANS][WATCHED_SPOTS] = {{0}},
           phi[SPANS][WATCHED_SPOTS] = {{0}};
    double u[SPANS][WATCHED_SPOTS] = {{0}};
    name_spots(w, 0.04, 0.04);
    for (size_t i = 0; i < 4; i++)
        w->p.x[i + 1] = w->p.y[i + 1] = 0.01 * (double)(i + 1);
    for (size_t c = 0; c < 16; c++)
        w->p.cell[c] = c % 3 == 0 ? PANEL : TIMBER;
    watched_make(w);
    for (int year = 0; year < 2; year++) { /* of the last is told */
        memset(theta, 0, sizeof theta);
        memset(phi, 0, sizeof phi);
        memset(u, 0, sizeof u);
        bw_hour_watch_year(&w->watch);
        for (int h = 0; h < SPANS * 120; h++) {
            for (size_t i = 0; i < w->model.sheet.n; i++)
                put_state(w, i, chance_in(w, 0, 20),
                          z_of(w, i, chance_in(w, 0.5, 0.95)));
            states_put(w);
            see_hour(w, h);
            for (size_t k = 0; k < WATCHED_SPOTS; k++) {
                const bw_hour_spot *s = &w->out.spot[k];
                const size_t at = (size_t)h * w->out.place_count + s->place;
                const size_t cell = w->watch.spot_cell[k];
                theta[h / 120][k] += (double)w->watch.theta[at] / 120;
                phi[h / 120][k] += (double)w->watch.phi[at] / 120;
                u[h / 120][k] += bw_cells_water(&w->solver.cells, cell) / 120 /
                                 w->out.wood[s->wood].material->density.value;
            }
        }
    }
    for (size_t k = 0; k < WATCHED_SPOTS; k++)
        for (size_t n = 0; n < SPANS; n++) {
            const bw_hour_spot *s = &w->out.spot[k];
            ck_assert_double_eq_tol(s->theta[n], theta[n][k], 1e-9);
            ck_assert_double_eq_tol(s->phi[n], phi[n][k], 1e-9);
            ck_assert_double_eq_tol(s->moisture[n], u[n][k], 1e-9);
        }
    watched_end(w);
}
END_TEST

SUITE("junction_wood", EACH(cells_of_one_wood_that_touch_are_a_piece, DRAWINGS),
      EACH(wood_is_judged_by_the_wettest_square_of_each_day, 2),
      EACH(spot_is_the_nearest_face_and_the_wood_within_twenty_millimetres,
           DRAWINGS),
      FACT(spot_has_the_means_of_five_days))
