/* What is watched at the faces of a drawing, hour by hour: which faces there
 * are, their state from series of resistances, how often they are humid, their
 * mould index, the water that stands there. States are put by hand; what must
 * come of them is written down here a second time. */

#include "bothways/mould.h"
#include "junction_watched.h"
#include "suite.h"

enum { DRAWINGS = 6 };

/* ---- which faces there are ------------------------------------------------
 */

/* A face as it is drawn. */
typedef struct drawn_face {
    int of[2], film; /* materials; the second of a room: NOWHERE */
    double x, y;
} drawn_face;

/* A side to the right of a cell or above it; false: nothing is to be seen. */
static bool inner_face(const plan *p, size_t c, bool up, drawn_face *f)
{
    const size_t i = c % p->nx, j = c / p->nx;
    if (up ? j + 1 == p->ny : i + 1 == p->nx)
        return false;
    const size_t n = up ? c + p->nx : c + 1;
    f->of[0] = p->cell[c];
    f->of[1] = p->cell[n];
    f->film = up ? p->film_y[n] : p->film_x[j * (p->nx + 1) + i + 1];
    f->x = up ? 0.5 * (p->x[i] + p->x[i + 1]) : p->x[i + 1];
    f->y = up ? p->y[j + 1] : 0.5 * (p->y[j] + p->y[j + 1]);
    return f->of[0] != BW_NOT_THERE && f->of[1] != BW_NOT_THERE &&
           (f->of[0] != f->of[1] || f->film != BW_NOT_THERE);
}

/* The one that lies there. */
static const bw_hour_place *place_at(const watched *w, const drawn_face *f)
{
    const bw_hour_place *found = NULL;
    const bool room = f->of[1] == NOWHERE;
    for (size_t k = 0; k < w->out.place_count; k++) {
        const bw_hour_place *p = &w->out.place[k];
        if (hypot(p->x - f->x, p->y - f->y) > 1e-9 || p->room != room)
            continue;
        ck_assert_ptr_null(found);
        found = p;
    }
    ck_assert_msg(found != NULL, "none at %g, %g", f->x, f->y);
    return found;
}

static bw_mould_class class_of(const watched *w, int stuff)
{
    return w->c->material[stuff].mould_class;
}

/* Classes rise with what they resist. */
static bw_mould_class lesser(bw_mould_class a, bw_mould_class b)
{
    return a < b ? a : b;
}

static bool rots(int stuff)
{
    return stuff == TIMBER || stuff == PANEL;
}

static void check_inner(const watched *w, const drawn_face *f)
{
    const bw_hour_place *p = place_at(w, f);
    const char *one = w->c->material[f->of[0]].name;
    const char *two = w->c->material[f->of[1]].name;
    ck_assert((p->beside[0] == one && p->beside[1] == two) ||
              (p->beside[0] == two && p->beside[1] == one));
    bw_mould_class class = lesser(class_of(w, f->of[0]), class_of(w, f->of[1]));
    if (f->film != BW_NOT_THERE)
        class = lesser(class, class_of(w, MEMBRANE));
    ck_assert_int_eq(p->mould_class, class);
    ck_assert_int_eq(p->at_risk, rots(f->of[0]) || rots(f->of[1]));
    ck_assert_int_eq(p->free_month, -1);
}

static size_t check_rooms(const watched *w)
{
    size_t count = 0;
    for (size_t k = 0; k < w->p.raster.face_count; k++) {
        const bw_raster_face *f = &w->p.raster.face[k];
        const int stuff = w->p.cell[f->cell];
        if (f->environment != 1)
            continue;
        const drawn_face at = {{stuff, NOWHERE}, f->film, f->x, f->y};
        const bw_hour_place *p = place_at(w, &at);
        ck_assert_ptr_eq(p->beside[0], w->c->material[stuff].name);
        ck_assert_str_eq(p->beside[1], "room");
        ck_assert_int_eq(
            p->mould_class,
            class_of(w, f->film != BW_NOT_THERE ? MEMBRANE : stuff));
        ck_assert_int_eq(p->free_month, -1);
        count++;
    }
    return count;
}

START_TEST(every_face_of_two_materials_and_of_a_room_is_a_place)
{
    watched *w = watched_any(7, 6, 11 + (unsigned long)_i);
    size_t count = check_rooms(w);
    for (size_t c = 0; c < w->p.nx * w->p.ny; c++)
        for (int up = 0; up < 2; up++) {
            drawn_face f;
            if (!inner_face(&w->p, c, up == 1, &f))
                continue;
            check_inner(w, &f);
            count++;
        }
    ck_assert_uint_eq(w->out.place_count, count);
    watched_end(w);
}
END_TEST

/* ---- the state at a face --------------------------------------------------
 */

/* Half a cell, or the air: conductances of heat and vapour, its state. */
typedef struct half {
    double heat, water, theta, p;
} half;

/* What draws water, too, has it flow by its humidity: p = phi psat. */
static half half_of(const watched *w, size_t cell, double away)
{
    const bw_cell c = bw_cells_get(&w->solver.cells, cell);
    const double psat = c.p / c.phi;
    return (half){1.0 / (c.rt * away), (1.0 / c.rv + c.kphi / psat) / away,
                  w->solver.v[2 * cell], c.p};
}

/* Series of resistances; of both sides of a film the more humid. */
static void state_of(half a, half b, double film, double *theta, double *phi)
{
    const double g = (a.p - b.p) / (1 / a.water + film + 1 / b.water);
    const double p = fmax(a.p - g / a.water, b.p + g / b.water);
    *theta = (a.heat * a.theta + b.heat * b.theta) / (a.heat + b.heat);
    *phi = fmin(p / bw_saturation_pressure(*theta), 1.0);
}

/* Of the membrane, at the mean humidity of both sides: sd over the permeability
 * of air. */
static double film_at(double phi)
{
    return watched_sd_y[0] * pow(watched_sd_y[1] / watched_sd_y[0], phi) /
           BW_DELTA_0;
}

static double expected(const watched *w, size_t place, double *theta)
{
    const bw_sheet *s = &w->model.sheet;
    const bw_hour_face *f = &w->watch.face[place];
    double phi;
    if (f->room) {
        const bw_sheet_edge *e = &s->edge[f->at];
        const bw_sheet_air *air = &w->weather.side[1];
        const double film = film_at(
            0.5 * (bw_cells_phi(&w->solver.cells, e->cell) +
                   fmin(air->p / bw_saturation_pressure(air->theta), 1.0)));
        state_of(half_of(w, e->cell, e->half),
                 (half){air->h, air->beta, air->theta, air->p},
                 e->face.film != NULL ? film : 0.0, theta, &phi);
    } else {
        const bw_sheet_face *e = &s->face[f->at];
        const double film = film_at(0.5 *
                                    (bw_cells_phi(&w->solver.cells, e->a) +
                                     bw_cells_phi(&w->solver.cells, e->b)));
        state_of(half_of(w, e->a, e->half_a), half_of(w, e->b, e->half_b),
                 e->face.film != NULL ? film : 0.0, theta, &phi);
    }
    return phi;
}

START_TEST(face_has_the_state_of_resistances_in_a_row)
{
    watched *w = watched_any(7, 6, 31 + (unsigned long)_i);
    const size_t count = w->out.place_count;
    for (size_t i = 0; i < w->model.sheet.n; i++)
        put_state(w, i, chance_in(w, -5, 25),
                  z_of(w, i, chance_in(w, 0.3, 0.97)));
    states_put(w);
    if (_i % 2 == 1) /* no air is more than humid, whatever it is said to be */
        w->weather.side[1].p = 5000.0;
    bw_hour_watch_year(&w->watch);
    see_hour(w, 0);
    for (size_t k = 0; k < count; k++) {
        double theta;
        const double phi = expected(w, k, &theta);
        ck_assert_double_eq_tol((double)w->watch.theta[k], theta, 1e-5);
        ck_assert_double_eq_tol((double)w->watch.phi[k], phi, 2e-5);
        ck_assert_double_eq_tol(w->out.place[k].highest_rh, phi, 2e-5);
    }
    watched_end(w);
}
END_TEST

/* ---- a year ---------------------------------------------------------------
 */

static const double level[] = {0.5, 0.78, 0.82, 0.84, 0.88, 0.92, 0.94, 0.97};
enum { NO_MORE = 3 }; /* on the right: an index grows there, but slowly */

/* More humid in some months than in others, the most in March. */
static size_t level_at(int hour, bool right)
{
    const size_t of = (size_t)(hour / 730); /* 0..11, nearly months */
    const size_t most = of == 5 ? COUNT(level) : 3 + of % 4;
    const size_t k = ((size_t)hour * 7919u + (size_t)hour / 24) % most;
    return right && k > NO_MORE ? NO_MORE : k;
}

typedef struct told {
    double above_80, above_90, above_95, highest;
    double month[BW_MONTHS], hours[BW_MONTHS];
} told;

static told told_of_year(bool right)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    told t = {0};
    int month = 9, left = 31 * 24;
    for (int h = 0; h < BW_TRANSIENT_HOURS; h++, left--) {
        if (left == 0) {
            month = (month + 1) % BW_MONTHS;
            left = days[month] * 24;
        }
        const double phi = level[level_at(h, right)];
        t.above_80 += phi > 0.8;
        t.above_90 += phi > 0.9;
        t.above_95 += phi > 0.95;
        t.highest = fmax(t.highest, phi);
        t.month[month] += phi;
        t.hours[month]++;
    }
    for (int m = 0; m < BW_MONTHS; m++)
        t.month[m] /= t.hours[m];
    return t;
}

static const double warm = 18.0;

/* Column of the plan at which the right begins. */
enum { ACROSS = 6, RIGHT = 3 };

static bool is_right(const watched *w, size_t cell)
{
    return w->model.raster[cell] % ACROSS >= RIGHT;
}

static void run_year(watched *w)
{
    const size_t n = w->model.sheet.n;
    double *state = BW_NEW(&w->p.arena, double, COUNT(level) * n);
    for (size_t k = 0; k < COUNT(level); k++) {
        put_all(w, warm, level[k]);
        for (size_t i = 0; i < n; i++)
            state[k * n + i] = w->solver.v[2 * i + 1];
    }
    bw_hour_watch_year(&w->watch);
    for (int h = 0; h < BW_TRANSIENT_HOURS; h++) {
        for (size_t i = 0; i < n; i++)
            w->solver.v[2 * i + 1] = state[level_at(h, is_right(w, i)) * n + i];
        states_put(w);
        w->weather.side[1].p = level[level_at(h, false)] *
                               bw_saturation_pressure(warm);
        see_hour(w, h);
    }
    bw_hour_watch_end_year(&w->watch);
    w->out.years++;
}

/* Alone where both sides are alike. */
static bool is_told(const watched *w, size_t place, bool *right)
{
    const bw_hour_face *f = &w->watch.face[place];
    const bw_sheet *s = &w->model.sheet;
    const size_t a = f->room ? s->edge[f->at].cell : s->face[f->at].a;
    const size_t b = f->room ? a : s->face[f->at].b;
    *right = is_right(w, a);
    return is_right(w, a) == is_right(w, b) && !(f->room && *right);
}

static void check_humid(const bw_hour_place *p, const told *t)
{
    int dampest = 0;
    ck_assert_double_eq(p->above_80, t->above_80);
    ck_assert_double_eq(p->above_90, t->above_90);
    ck_assert_double_eq(p->above_95, t->above_95);
    ck_assert_double_eq_tol(p->highest_rh, t->highest, 1e-4);
    for (int m = 0; m < BW_MONTHS; m++) {
        ck_assert_double_eq_tol(p->month_rh[m], t->month[m], 1e-4);
        if (t->month[m] > t->month[dampest])
            dampest = m;
    }
    ck_assert_int_eq(p->dampest, dampest);
}

/* The index of every hour, then of years alike: bw_mould_repeat. */
static void check_mould(const watched *w, const bw_hour_place *p, int years)
{
    static double theta[BW_TRANSIENT_HOURS], phi[BW_TRANSIENT_HOURS];
    const bw_mould_rule *rule[2] = {bw_mould_rule_by_class(),
                                    bw_mould_rule_ashrae160()};
    const size_t at = (size_t)(p - w->out.place), count = w->out.place_count;
    bw_mould_state state = {0};
    bw_mould_outcome out[2];
    double most = 0.0;
    for (int h = 0; h < BW_TRANSIENT_HOURS; h++) {
        theta[h] = (double)w->watch.theta[(size_t)h * count + at];
        phi[h] = (double)w->watch.phi[(size_t)h * count + at];
        ck_assert_double_eq_tol(theta[h], warm, 1e-3);
    }
    for (int h = 0; h < years * BW_TRANSIENT_HOURS; h++) {
        const int k = h % BW_TRANSIENT_HOURS;
        bw_mould_step(&state, p->mould_class, theta[k], phi[k], 1.0);
        most = fmax(most, state.index);
    }
    for (int r = 0; r < 2; r++) {
        const bw_mould_exposure year = {
            .theta = theta,
            .phi = phi,
            .hours = BW_TRANSIENT_HOURS,
            .start = state.index,
            .mould_class = p->mould_class,
            .decline = rule[r]->decline[p->mould_class],
            .limit = 3.0};
        ck_assert_int_eq(bw_mould_repeat(&out[r], &year, NULL), BW_OK);
    }
    ck_assert_double_eq_tol(p->mould, fmax(most, out[0].highest), 1e-3);
    ck_assert_double_eq_tol(p->mould_slow, fmax(most, out[1].highest), 1e-3);
    ck_assert_int_eq(p->settled, out[0].settled);
}

START_TEST(hours_of_a_year_are_counted_and_its_mould_goes_on)
{
    enum { YEARS = 2 }; /* of the last is told */
    watched *w = watched_any(ACROSS, 3, 3);
    const told t[2] = {told_of_year(false), told_of_year(true)};
    size_t seen[2] = {0, 0};
    for (int k = 0; k < YEARS; k++)
        run_year(w);
    ck_assert_int_eq(bw_hour_watch_end(&w->watch, NULL), BW_OK);
    for (size_t k = 0; k < w->out.place_count; k++) {
        bool right;
        check_mould(w, &w->out.place[k], YEARS);
        ck_assert_double_eq(w->out.place[k].free_water, 0.0);
        if (!is_told(w, k, &right))
            continue;
        check_humid(&w->out.place[k], &t[right]);
        seen[right]++;
    }
    ck_assert_uint_gt(seen[0], 5);
    ck_assert_uint_gt(seen[1], 2);
    watched_end(w);
}
END_TEST

/* ---- water that stands ----------------------------------------------------
 */

/* Width of the run of cells of one material from a cell on, away from a face.
 * step: +-1 along x, +-nx along y. */
static double run_from(const plan *p, size_t cell, long step)
{
    const bool across = step == 1 || step == -1;
    double sum = 0.0;
    long i = (long)(cell % p->nx), j = (long)(cell / p->nx);
    const long di = across ? step : 0, dj = across ? 0 : step > 0 ? 1 : -1;
    for (; i >= 0 && i < (long)p->nx && j >= 0 && j < (long)p->ny;
         i += di, j += dj) {
        if (p->cell[j * (long)p->nx + i] != p->cell[cell])
            break;
        sum += across ? p->x[i + 1] - p->x[i] : p->y[j + 1] - p->y[j];
    }
    return sum;
}

/* As deep as counts: 20 mm or half the run, a run of one cell all of it. */
static double depth_of(const watched *w, size_t cell, size_t other)
{
    const plan *p = &w->p;
    const size_t c = w->model.raster[cell], o = w->model.raster[other];
    const long step = (long)c - (long)o;
    const bool across = step == 1 || step == -1;
    const size_t i = c % p->nx, j = c / p->nx;
    const double wide = across ? p->x[i + 1] - p->x[i] : p->y[j + 1] - p->y[j];
    const double run = run_from(p, c, step);
    return run < wide + 1e-9 ? wide : fmin(0.5 * run, 0.02);
}

/* kg/m3 more than is bound: pores that draw water hold what saturates them
 * freely, others what they sorb at 98 %. */
static double free_of(const watched *w, size_t cell)
{
    const int stuff = w->p.cell[w->model.raster[cell]];
    const bw_hygro *h = w->model.sheet.hygro[cell];
    const double bound = stuff == STONE
                             ? 250.0
                             : bw_hygro_water(h, bw_hygro_z_of_phi(h, 0.98));
    return fmax(bw_cells_water(&w->solver.cells, cell) - bound, 0.0);
}

START_TEST(water_that_stands_is_that_of_the_halves_beside_a_face)
{
    watched *w = watched_any(9, 5, 51 + (unsigned long)_i);
    const bw_sheet *s = &w->model.sheet;
    const int stuff = (int)chance_in(w, 0, STUFFS);
    bw_hour_watch_year(&w->watch);
    put_all(w, 10, 0.9);
    see_hour(w, 0); /* nothing stands in October */
    for (size_t i = 0; i < s->n; i++) {
        const bool wet = w->p.cell[w->model.raster[i]] == stuff;
        put_state(w, i, 10, wet ? s->hygro[i]->full_z : z_of(w, i, 0.9));
    }
    states_put(w);
    see_hour(w, 40 * 24);
    put_all(w, 10, 0.9);
    see_hour(w, 80 * 24);
    for (size_t i = 0; i < s->n; i++) {
        const bool wet = w->p.cell[w->model.raster[i]] == stuff;
        put_state(w, i, 10, wet ? s->hygro[i]->full_z : z_of(w, i, 0.9));
    }
    states_put(w);
    for (size_t k = 0; k < w->out.place_count; k++) {
        const bw_hour_place *p = &w->out.place[k];
        const bw_sheet_face *f = &s->face[w->watch.face[k].at];
        const double stands = p->room
                                  ? 0.0
                                  : depth_of(w, f->a, f->b) * free_of(w, f->a) +
                                        depth_of(w, f->b, f->a) *
                                            free_of(w, f->b);
        ck_assert_double_eq_tol(p->free_water, stands, 1e-3 * stands + 1e-9);
        ck_assert_int_eq(p->free_month, stands > 0.0 ? 10 : -1);
    }
    watched_end(w);
}
END_TEST

SUITE("junction_watch",
      EACH(every_face_of_two_materials_and_of_a_room_is_a_place, DRAWINGS),
      EACH(face_has_the_state_of_resistances_in_a_row, DRAWINGS),
      FACT(hours_of_a_year_are_counted_and_its_mould_goes_on),
      EACH(water_that_stands_is_that_of_the_halves_beside_a_face, DRAWINGS))
