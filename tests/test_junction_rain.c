/* Rain that leaks into a drawing by the hour: which cells take it, how much of
 * it, by lengths of faces added up here; what pores that are nearly full take,
 * and what room air brings past a face. */

#include "hour_air.h"
#include "hour_leaks.h"
#include "junction_watched.h"
#include "suite.h"

enum { DRAWINGS = 6, NX = 7, NY = 6, CELLS_MOST = NX * NY };

static watched *w;

static void name_walls(void)
{
    static const bw_assembly *walls[2];
    bw_junction *j = &w->p.junction;
    walls[0] = walls[1] = &w->c->assembly;
    j->id = j->title = j->remark = "";
    j->outdoors = w->c->assembly.outdoors;
    j->wall = walls;
    j->wall_count = 2;
    w->p.environment[1].indoors = w->c->assembly.indoors;
}

static void draw(int k)
{
    w = watched_any(NX, NY, 501 + (unsigned long)k);
    name_walls();
}

static double within(double a0, double a1, double b0, double b1)
{
    return fmax(fmin(a1, b1) - fmax(a0, b0), 0.0);
}

/* m of a side of a cell in a place: the right one, or that above; on its edge,
 * too. */
static double length_in(size_t c, bool up, const bw_rectangle *at)
{
    const plan *p = &w->p;
    const size_t i = c % NX, j = c / NX;
    const double across = up ? p->y[j + 1] : p->x[i + 1];
    const double low = up ? at->y0 : at->x0, high = up ? at->y1 : at->x1;
    if (across < low - 1e-7 || across > high + 1e-7)
        return 0.0;
    return up ? within(p->x[i], p->x[i + 1], at->x0, at->x1)
              : within(p->y[j], p->y[j + 1], at->y0, at->y1);
}

static size_t other_of(size_t c, bool up)
{
    if (up)
        return c / NX + 1 < NY ? c + NX : SIZE_MAX;
    return c % NX + 1 < NX ? c + 1 : SIZE_MAX;
}

/* At 80 % RH it holds more: a cell of the plan takes what leaks in. */
static size_t taker(size_t a, size_t b)
{
    const size_t at[2] = {w->model.cell[a], w->model.cell[b]};
    double holds[2];
    for (int k = 0; k < 2;
         k++) /* water of z = 0.8: not above the hygroscopic */
        holds[k] = bw_hygro_water(w->model.sheet.hygro[at[k]], 0.8);
    return holds[1] > holds[0] ? b : a;
}

/* Of each cell by the place alone: m that lie in it. all: of one material
 * and at the room, too. */
static double share_out(double got[CELLS_MOST], const bw_rectangle *at,
                        bool all)
{
    double sum = 0.0;
    memset(got, 0, CELLS_MOST * sizeof *got);
    for (size_t c = 0; c < CELLS_MOST; c++)
        for (int up = 0; up < 2; up++) {
            const size_t o = other_of(c, up == 1);
            if (o == SIZE_MAX)
                continue;
            const bool one = w->p.cell[c] != BW_NOT_THERE;
            const bool two = w->p.cell[o] != BW_NOT_THERE;
            if (one != two && all) /* the air of the room takes none */
                got[one ? c : o] += length_in(c, up == 1, at);
            if (!one || !two)
                continue;
            const int film = up ? w->p.film_y[o]
                                : w->p.film_x[c / NX * (NX + 1) + c % NX + 1];
            const double length = length_in(c, up == 1, at);
            if (!all && film == BW_NOT_THERE && w->p.cell[c] == w->p.cell[o])
                continue;
            got[taker(c, o)] += length;
            sum += length;
        }
    return sum;
}

static void check_leaks(size_t rain, const double *got, double factor)
{
    double told[CELLS_MOST] = {0};
    const bw_sheet *s = &w->model.sheet;
    for (size_t k = 0; k < s->leak_count; k++)
        if (s->leak[k].rain == rain)
            told[w->model.raster[s->leak[k].cell]] += s->leak[k].by;
    for (size_t c = 0; c < CELLS_MOST; c++)
        ck_assert_double_eq_tol(told[c], got[c] * factor, 1e-12);
}

static bw_status make(bw_hour_leaks *out)
{
    return bw_hour_leaks_make(out, &w->model, &w->p.arena, &w->p.raster,
                              &w->c->climate, NULL);
}

static void take_in(bw_hour_leaks *out, const bw_drawn_leak *leak, size_t count)
{
    w->p.junction.leak = leak;
    w->p.junction.leak_count = count;
    ck_assert_int_eq(make(out), BW_OK);
}

static void end_leaks(void)
{
    w->p.junction.leak = NULL;
    w->p.junction.leak_count = 0;
    watched_end(w);
}

/* A place takes water between two materials, as much as of the face it is said
 * to have; a wall's line wherever it is, each metre by itself. */
START_TEST(cells_take_the_rain_of_their_length_of_a_place)
{
    bw_hour_leaks out;
    double got[CELLS_MOST];
    draw(_i);
    const plan *p = &w->p;
    const bw_rectangle place = {p->x[1] + 1e-3, p->x[5] - 5e-4, p->y[1],
                                p->y[4]};
    const bw_rectangle line = {p->x[1] + 1e-3, p->x[6], p->y[3], p->y[3]};
    const bw_drawn_leak leak[] = {
        {.name = "a", .at = place, .wall = -1, .fraction = 0.02, .face = 0.7},
        {.name = "b", .at = line, .wall = 1, .fraction = 0.01},
        {.name = "c", .at = line, .wall = 0, .fraction = 0.0}};
    take_in(&out, leak, 3);
    const double sum = share_out(got, &place, false);
    check_leaks(2, got, 0.02 * 0.7 / sum);
    share_out(got, &line, true);
    check_leaks(1, got, 0.01);
    memset(got, 0, sizeof got);
    check_leaks(0, got, 1.0);
    ck_assert_ptr_null(out.rain[0]);
    double rain = 0.0;
    for (size_t h = 0; h < BW_YEAR_HOURS; h++)
        rain += out.rain[1][h];
    ck_assert_double_gt(rain, 0.0);
    end_leaks();
}
END_TEST

/* Along a rim of the drawing the cells there take it, whatever they are. */
START_TEST(line_on_the_rim_wets_the_cells_there)
{
    bw_hour_leaks out;
    double got[CELLS_MOST] = {0};
    draw(_i);
    const plan *p = &w->p;
    const bw_rectangle line = {p->x[0], p->x[4] + 1e-3, 0.0, 0.0};
    const bw_drawn_leak leak = {
        .name = "a", .at = line, .wall = 0, .fraction = 0.5};
    take_in(&out, &leak, 1);
    for (size_t i = 0; i < NX; i++)
        if (p->cell[i] != BW_NOT_THERE)
            got[i] = within(p->x[i], p->x[i + 1], line.x0, line.x1);
    check_leaks(0, got, 0.5);
    end_leaks();
}
END_TEST

START_TEST(line_on_an_upright_rim_does_so_too)
{
    bw_hour_leaks out;
    double got[CELLS_MOST] = {0};
    w = watched_start(NX, NY, 601 + (unsigned long)_i);
    plan *p = &w->p;
    const bw_cell_side side = _i == 0 ? BW_EDGE_LEFT : BW_EDGE_RIGHT;
    for (size_t i = 1; i <= NX; i++)
        p->x[i] = 0.01 * (double)i;
    for (size_t j = 1; j <= NY; j++)
        p->y[j] = p->y[j - 1] + chance_in(w, 0.002, 0.012);
    p->rim[BW_EDGE_BELOW] = p->rim[BW_EDGE_ABOVE] = NOWHERE;
    p->rim[side] = 0;
    p->rim[_i == 0 ? BW_EDGE_RIGHT : BW_EDGE_LEFT] = 1;
    watched_make(w);
    name_walls();
    const double x = _i == 0 ? 0.0 : p->x[NX];
    const bw_rectangle line = {x, x, p->y[1] - 1e-3, p->y[4] + 1e-3};
    const bw_drawn_leak leak = {
        .name = "a", .at = line, .wall = 0, .fraction = 0.5};
    take_in(&out, &leak, 1);
    for (size_t j = 0; j < NY; j++)
        got[j * NX + (_i == 0 ? 0 : NX - 1)] = within(p->y[j], p->y[j + 1],
                                                      line.y0, line.y1);
    check_leaks(0, got, 0.5);
    end_leaks();
}
END_TEST

/* All of it, or none where the pores are full; within 0.05 of z of that as much
 * as is left of these. */
START_TEST(pores_that_are_nearly_full_take_part_of_a_leak)
{
    static const double below[] = {0.2, 0.05, 0.04, 0.01, 0.0, -0.01};
    draw(3);
    bw_sheet *s = &w->model.sheet;
    double *rate[2] = {BW_NEW(&w->p.arena, double, 2 * s->n + 8),
                       BW_NEW(&w->p.arena, double, 2 * s->n + 8)};
    for (size_t cell = 0; cell < s->n; cell += 3)
        for (size_t k = 0; k < COUNT(below); k++) {
            const bw_sheet_leak leak = {cell, 1, 2.0};
            bw_sheet_flow flow;
            put_all(w, 15, 0.8);
            put_state(w, cell, 15, s->hygro[cell]->full_z - below[k]);
            states_put(w);
            w->weather.leak[1] = 3e-6;
            w->weather.leak_theta = 8;
            s->leak = &leak;
            for (size_t with = 0; with < 2; with++) {
                s->leak_count = with;
                bw_sheet_rates(s, &w->weather, w->solver.v, &w->solver.cells,
                               rate[with], &flow, NULL, 0);
            }
            const double share = fmin(fmax(below[k] / 0.05, 0.0), 1.0);
            ck_assert_double_eq_tol(flow.leak, 6e-6 * share, 1e-15);
            ck_assert_double_eq_tol(flow.ran_off, 6e-6 * (1 - share), 1e-15);
            for (size_t i = 0; i < 2 * s->n; i++) {
                const double due = i == 2 * cell ? 8 * BW_WATER_HEAT : 1.0;
                ck_assert_double_eq_tol(rate[1][i] - rate[0][i],
                                        i / 2 == cell ? 6e-6 * share * due
                                                      : 0.0,
                                        1e-9 * fabs(rate[0][i]) + 1e-13);
            }
        }
    s->leak_count = 0;
    watched_end(w);
}
END_TEST

/* A face takes no more rain than half its cell draws from free water: the flow
 * potential there less its own, over the half. */
START_TEST(face_takes_no_more_rain_than_its_cell_draws)
{
    static const double z[] = {0.5, 0.9, 0.97, 0.999, 1.2};
    draw(0);
    bw_sheet *s = &w->model.sheet;
    double *rate = BW_NEW(&w->p.arena, double, 2 * s->n + 8);
    size_t limited = 0;
    for (size_t k = 0; k < COUNT(z); k++)
        for (int slow = 0; slow < 2; slow++) {
            bw_sheet_flow flow;
            double due = 0.0;
            w->weather.redistributes = slow == 1;
            for (size_t i = 0; i < s->n; i++)
                put_state(w, i, 15, z[k] * s->hygro[i]->free_z);
            const bw_edge edge = {.redistributes = slow == 1};
            bw_cells_under(&s->cells, &edge, w->solver.v, &w->solver.cells,
                           false);
            w->weather.side[0].rain = 2e-3;
            bw_sheet_rates(s, &w->weather, w->solver.v, &w->solver.cells, rate,
                           &flow, NULL, 0);
            for (size_t e = 0; e < s->edge_count; e++) {
                const bw_sheet_edge *at = &s->edge[e];
                const bw_hygro *of = s->hygro[at->cell];
                if (at->side != 0 || !at->face.liquid)
                    continue;
                const double own =
                    bw_cells_get(&w->solver.cells, at->cell).flow;
                const double most =
                    ((slow ? of->free_slow : of->free_flow) - own) / at->half;
                due += at->length * fmin(fmax(most, 0.0), 2e-3);
                limited += most > 0.0 && most < 2e-3;
            }
            ck_assert_double_eq_tol(flow.rain[0], due, 1e-12);
        }
    ck_assert_uint_gt(limited, 0);
    watched_end(w);
}
END_TEST

/* Of each place by the length of faces between two materials; environment and
 * what counts are the place's. */
START_TEST(air_to_a_place_is_shared_by_length)
{
    double due[4 * CELLS_MOST] = {0}, sum = 0.0;
    draw(_i);
    const plan *p = &w->p;
    const bw_drawn_air air[] = {
        {.name = "none", .at = {0, 1, 0, 1}, .environment = 1},
        {.name = "a",
         .at = {p->x[1] + 1e-3, p->x[5], p->y[1], p->y[4] - 5e-4},
         .environment = 1,
         .flow = 2e-5,
         .all = _i % 2 == 1}};
    bw_sheet *s = &w->model.sheet;
    w->p.junction.air = air;
    w->p.junction.air_count = 2;
    ck_assert_int_eq(bw_hour_air_make(&w->model, &w->p.arena, &p->raster, NULL),
                     BW_OK);
    for (size_t f = 0; f < s->face_count; f++) {
        const size_t a = w->model.raster[s->face[f].a];
        const size_t b = w->model.raster[s->face[f].b];
        const bool up = b != a + 1;
        if (p->cell[a] == p->cell[b] && s->face[f].face.film == NULL)
            continue;
        due[f] = length_in(a, up, &air[1].at);
        sum += due[f];
    }
    for (size_t k = 0; k < s->air_count; k++) {
        ck_assert_double_eq_tol(s->air[k].flow,
                                2e-5 * due[s->air[k].face] / sum, 1e-15);
        ck_assert_uint_eq(s->air[k].side, 1);
        ck_assert_int_eq(s->air[k].all, _i % 2 == 1);
        due[s->air[k].face] = 0.0;
    }
    for (size_t f = 0; f < s->face_count; f++)
        ck_assert_double_eq(due[f], 0.0);
    const bw_drawn_air off = {
        .name = "off", .at = {-2, -1, -2, -1}, .environment = 1, .flow = 1e-5};
    w->p.junction.air = &off;
    w->p.junction.air_count = 1;
    ck_assert_int_eq(bw_hour_air_make(&w->model, &w->p.arena, &p->raster, NULL),
                     BW_ERR_DOMAIN);
    watched_end(w);
}
END_TEST

SUITE("junction_rain",
      EACH(cells_take_the_rain_of_their_length_of_a_place, DRAWINGS),
      EACH(line_on_the_rim_wets_the_cells_there, DRAWINGS),
      EACH(line_on_an_upright_rim_does_so_too, 2),
      FACT(pores_that_are_nearly_full_take_part_of_a_leak),
      FACT(face_takes_no_more_rain_than_its_cell_draws),
      EACH(air_to_a_place_is_shared_by_length, DRAWINGS))
