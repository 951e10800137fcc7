/* The system of a drawing, and the few unknowns beside it, on small random
 * grids: what both are to compute is written down here a second time, cell by
 * cell. Figures are algebra; none has a source but the equations of solve.h
 * and coarse.h. */

#include <math.h>
#include <stdlib.h>

#include "coarse.h"
#include "random_wall.h"
#include "suite.h"

enum { CELLS_MOST = 64 };

static bw_arena arena;
static dice die;
static bw_five_point system_of;

static void start(void)
{
    arena = (bw_arena){0};
    die = (dice){.state = 88172645463325252u};
}

static void end(void)
{
    bw_arena_release(&arena);
}

static void make(size_t nx, size_t ny)
{
    bw_error err = {0};
    ck_assert_uint_le(nx * ny, CELLS_MOST);
    ck_assert(bw_five_point_make(&system_of, nx, ny, &arena, &err) == BW_OK);
}

/* To the cell at the right, or above. */
static void link_cells(size_t c, bool north, double link)
{
    const size_t other = c + (north ? system_of.nx : 1);
    (north ? system_of.north : system_of.east)[c] = link;
    system_of.diagonal[c] += link;
    system_of.diagonal[other] += link;
}

static bool has_neighbour(size_t c, bool north)
{
    return north ? c / system_of.nx + 1 < system_of.ny
                 : c % system_of.nx + 1 < system_of.nx;
}

static bool is_linked(size_t c)
{
    const size_t nx = system_of.nx;
    return system_of.east[c] > 0.0 || system_of.north[c] > 0.0 ||
           (c % nx > 0 && system_of.east[c - 1] > 0.0) ||
           (c >= nx && system_of.north[c - nx] > 0.0);
}

/* Each cell to something outside; those without links: diagonal 1. */
static void let_out(void)
{
    for (size_t c = 0; c < system_of.nx * system_of.ny; c++)
        system_of.diagonal[c] = is_linked(c) ? system_of.diagonal[c] +
                                                   between(&die, 0.01, 1.0)
                                             : 1.0;
}

static void make_random(size_t nx, size_t ny, double share)
{
    make(nx, ny);
    for (size_t c = 0; c < nx * ny; c++)
        for (int north = 0; north < 2; north++)
            if (has_neighbour(c, north == 1) && uniform(&die) < share)
                link_cells(c, north == 1, decades(&die, -2.0, 2.0));
    let_out();
}

/* Row c of A times x. */
static double row_of(const double *x, size_t c)
{
    const size_t nx = system_of.nx, ny = system_of.ny;
    double sum = system_of.diagonal[c] * x[c];
    if (c % nx > 0)
        sum -= system_of.east[c - 1] * x[c - 1];
    if (c % nx + 1 < nx)
        sum -= system_of.east[c] * x[c + 1];
    if (c / nx > 0)
        sum -= system_of.north[c - nx] * x[c - nx];
    if (c / nx + 1 < ny)
        sum -= system_of.north[c] * x[c + nx];
    return sum;
}

static bw_coarse *coarse_of(const bw_blocks *blocks)
{
    bw_coarse *out = NULL;
    bw_error err = {0};
    ck_assert(bw_coarse_make(&out, &system_of, blocks, &arena, &err) == BW_OK);
    return out;
}

/* `each` cells to a block, along both. */
static bw_blocks blocks_of(size_t each)
{
    const size_t nx = system_of.nx, ny = system_of.ny;
    bw_blocks b = {.x_count = (nx + each - 1) / each,
                   .y_count = (ny + each - 1) / each,
                   .column = BW_NEW(&arena, size_t, nx),
                   .row = BW_NEW(&arena, size_t, ny)};
    ck_assert(!arena.failed);
    for (size_t i = 0; i < nx; i++)
        b.column[i] = i / each;
    for (size_t j = 0; j < ny; j++)
        b.row[j] = j / each;
    return b;
}

static void fill(double *r, size_t n)
{
    for (size_t c = 0; c < n; c++)
        r[c] = between(&die, -1.0, 1.0);
}

/* ---- a block for each cell ------------------------------------------------
 */

/* Then Q is the inverse of A in the cells that have links, and leaves the
 * others alone. */
static void check_inverse(void)
{
    const size_t n = system_of.nx * system_of.ny;
    const bw_blocks each = blocks_of(1);
    const bw_coarse *q = coarse_of(&each);
    double x[CELLS_MOST], was[CELLS_MOST], by[CELLS_MOST], r[CELLS_MOST];
    ck_assert_ptr_nonnull(q);
    fill(r, n);
    fill(was, n);
    for (size_t c = 0; c < n; c++)
        x[c] = was[c];
    bw_coarse_add(q, x, r, n);
    for (size_t c = 0; c < n; c++)
        by[c] = x[c] - was[c];
    for (size_t c = 0; c < n; c++)
        if (is_linked(c))
            ck_assert_double_eq_tol(row_of(by, c), r[c], 1e-9);
        else
            ck_assert_double_eq(x[c], was[c]);
}

static const struct grid_row {
    size_t nx, ny;
} grids[] = {{2, 2}, {4, 2}, {2, 4}, {3, 5}, {5, 3}, {1, 6}, {6, 1}, {8, 8}};

START_TEST(cells_with_one_neighbour_whichever_are_of_the_system)
{
    const struct grid_row *g = &grids[_i];
    size_t links = 0;
    for (size_t c = 0; c < g->nx * g->ny; c++)
        for (int north = 0; north < 2; north++) {
            make(g->nx, g->ny);
            if (!has_neighbour(c, north == 1))
                continue;
            link_cells(c, north == 1, 3.0);
            let_out();
            check_inverse();
            links++;
        }
    ck_assert_uint_eq(links, 2 * g->nx * g->ny - g->nx - g->ny);
}
END_TEST

START_TEST(a_block_for_each_cell_solves_all)
{
    for (int draw = 0; draw < 40; draw++) {
        make_random(grids[_i].nx, grids[_i].ny, between(&die, 0.2, 1.0));
        check_inverse();
    }
}
END_TEST

/* ---- blocks of several ----------------------------------------------------
 */

/* Z' (r - A Q r) = 0: of the cells with links of each block the errors add up
 * to nothing. */
START_TEST(what_the_cells_of_a_block_lack_together_is_taken_out)
{
    for (int draw = 0; draw < 40; draw++) {
        double x[CELLS_MOST] = {0}, r[CELLS_MOST], left[CELLS_MOST] = {0};
        bool any[CELLS_MOST] = {false};
        make_random(grids[_i].nx, grids[_i].ny, between(&die, 0.3, 1.0));
        const size_t n = system_of.nx * system_of.ny;
        const bw_blocks b = blocks_of(2 + (size_t)draw % 2);
        const bw_coarse *q = coarse_of(&b);
        fill(r, n);
        bw_coarse_add(q, x, r, n);
        for (size_t c = 0; c < n; c++) {
            const size_t block = b.row[c / system_of.nx] * b.x_count +
                                 b.column[c % system_of.nx];
            if (!is_linked(c))
                continue;
            left[block] += r[c] - row_of(x, c);
            any[block] = true;
        }
        for (size_t k = 0; k < b.x_count * b.y_count; k++)
            ck_assert_msg(!any[k] || fabs(left[k]) < 1e-9, "block %zu: %g", k,
                          left[k]);
        for (size_t c = 0; c < n; c++)
            if (!is_linked(c))
                ck_assert_double_eq(x[c], 0.0);
    }
}
END_TEST

/* Work of the factor is as the unknowns times their band squared: 3e7 at most
 * (regression value, our own choice), along whichever side is longer. */
START_TEST(too_many_blocks_are_not_made)
{
    static const struct {
        size_t x, y;
        bool made;
    } rows[] = {{10, 30000, true},
                {10, 30001, false},
                {30000, 10, true},
                {30001, 10, false}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        size_t at[2] = {0, 0};
        const bw_blocks b = {rows[i].x, rows[i].y, at, at};
        make(2, 1);
        link_cells(0, false, 1.0);
        let_out();
        ck_assert_msg((coarse_of(&b) != NULL) == rows[i].made, "row %zu", i);
    }
    ck_assert_ptr_null(coarse_of(NULL));
}
END_TEST

/* ---- all of it ------------------------------------------------------------
 */

static size_t solve(double *x, const double *b, double tolerance)
{
    size_t steps = 0;
    bw_error err = {0};
    bw_five_point_prepare(&system_of);
    ck_assert_msg(bw_five_point_solve(&system_of, x, b, tolerance, &steps, NULL,
                                      &err) == BW_OK,
                  "%s", err.message);
    return steps;
}

static void is_solved(const double *x, const double *b, double tolerance)
{
    double off = 0.0, all = 0.0;
    for (size_t c = 0; c < system_of.nx * system_of.ny; c++) {
        off += fabs(b[c] - row_of(x, c));
        all += fabs(b[c]);
    }
    ck_assert_double_le(off, 1.001 * tolerance * all);
}

START_TEST(a_system_is_solved_to_its_tolerance_with_blocks_and_without)
{
    for (int draw = 0; draw < 40; draw++) {
        double x[CELLS_MOST], b[CELLS_MOST];
        make_random(grids[_i].nx, grids[_i].ny, between(&die, 0.2, 1.0));
        const size_t n = system_of.nx * system_of.ny;
        const bw_blocks several = blocks_of(2);
        for (int k = 0; k < 2; k++) {
            fill(b, n);
            fill(x, n);
            system_of.coarse = k == 0 ? NULL : coarse_of(&several);
            solve(x, b, 1e-10);
            is_solved(x, b, 1e-10);
        }
    }
}
END_TEST

/* The factorisation leaves nothing out where no cell has neighbours both
 * beside and above it, and blocks of one cell leave nothing to find but what
 * has no links, which is found at once. */
START_TEST(what_is_factorised_whole_is_found_in_one_step)
{
    static const struct grid_row chains[] = {{12, 1}, {1, 12}};
    for (int draw = 0; draw < 20; draw++) {
        double x[CELLS_MOST] = {0}, b[CELLS_MOST];
        const struct grid_row *g = &chains[draw % 2];
        make_random(g->nx, g->ny, 0.8);
        fill(b, g->nx * g->ny);
        ck_assert_uint_le(solve(x, b, 1e-9), 1);
        make_random(4, 5, 0.8);
        const bw_blocks each = blocks_of(1);
        system_of.coarse = coarse_of(&each);
        fill(b, 20);
        ck_assert_uint_le(solve(x, b, 1e-9), 1);
    }
}
END_TEST

SUITE_AROUND("junction_solve", start, end,
             EACH(cells_with_one_neighbour_whichever_are_of_the_system,
                  COUNT(grids)),
             EACH(a_block_for_each_cell_solves_all, COUNT(grids)),
             EACH(what_the_cells_of_a_block_lack_together_is_taken_out,
                  COUNT(grids)),
             FACT(too_many_blocks_are_not_made),
             EACH(a_system_is_solved_to_its_tolerance_with_blocks_and_without,
                  COUNT(grids)),
             FACT(what_is_factorised_whole_is_found_in_one_step))
