/* A run before its first month: memory, temperatures, saturation pressures,
 * the parts of the wall vapour is followed in, and what is wetted or leaks.
 *
 *   theta_j = (theta_e R_in,j + theta_i R_out,j) / (R_in,j + R_out,j)
 *
 * with the resistances on both sides of node j summed from the surfaces, so
 * that the wall listed the other way has the same bits. */

#include <math.h>

#include "fail.h"
#include "run.h"

static const double least_sd = 1e-6, most_sd = 1e9; /* m */

static bw_status reserve_memory(bw_run *run, bw_arena *arena, bw_error *err)
{
    size_t n = run->grid.nodes, all = n * BW_MONTHS, slabs = run->grid.slabs;
    const struct {
        double **where;
        size_t count;
    } part[] = {
        {&run->theta, all},      {&run->psat, all},
        {&run->first_p, all},    {&run->first_gain, all},
        {&run->first_mass, all}, {&run->first_sd, slabs * BW_MONTHS},
        {&run->sd, slabs},       {&run->segment, n},
        {&run->mass, n},         {&run->p, n},
        {&run->rate, n},
    };
    enum { PARTS = sizeof part / sizeof part[0] };
    size_t total = 0;
    for (size_t i = 0; i < PARTS; ++i)
        total += part[i].count;
    double *pool = BW_NEW(arena, double, total);
    run->may_hold = BW_NEW(arena, bool, n);
    run->stood = BW_NEW(arena, bool, n);
    run->hull = BW_NEW(arena, bw_vertex, n);
    run->first_peak = BW_NEW(arena, bw_water_peak, n);
    run->year_peak = BW_NEW(arena, bw_water_peak, n);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t i = 0; i < PARTS; ++i) {
        *part[i].where = pool;
        pool += part[i].count;
    }
    return BW_OK;
}

static double segment_resistance(const bw_run *run, size_t segment)
{
    const bw_slab *slab = &run->section->slab[run->grid.slab[segment]];
    return slab->resistance * run->grid.share[segment];
}

static void set_temperatures(bw_run *run)
{
    size_t nodes = run->grid.nodes;
    double *inner = run->p; /* scratch until the first profile */
    inner[nodes - 1] = run->section->inner_resistance;
    for (size_t j = nodes - 1; j > 0; --j)
        inner[j - 1] = inner[j] + segment_resistance(run, j - 1);
    double outer = run->section->outer_resistance;
    for (size_t j = 0; j < nodes; ++j) {
        if (j > 0)
            outer += segment_resistance(run, j - 1);
        double total = outer + inner[j];
        for (size_t m = 0; m < BW_MONTHS; ++m) {
            const bw_boundary *b = &run->boundary[m];
            double theta = (b->theta_e * inner[j] + b->theta_i * outer) / total;
            run->theta[m * nodes + j] = theta;
            run->psat[m * nodes + j] = bw_saturation_pressure(theta);
        }
    }
}

/* One without a length is none. */
static void set_domains(bw_run *run, bw_domain a, bw_domain b)
{
    run->domain_count = 0;
    if (a.first < a.last)
        run->domain[run->domain_count++] = a;
    if (b.first < b.last)
        run->domain[run->domain_count++] = b;
    for (size_t j = 0; j < run->grid.nodes; ++j)
        run->may_hold[j] = false;
    for (size_t i = 0; i < run->domain_count; ++i) {
        const bw_domain *d = &run->domain[i];
        for (size_t j = d->first; j <= d->last; ++j)
            run->may_hold[j] = (j > d->first || d->first_closed) &&
                               (j < d->last || d->last_closed);
    }
}

/* ---- the variable layers ------------------------------------------------ */

static double face_mean_rh(const void *ctx, size_t slab)
{
    const bw_run *run = ctx;
    const double *psat = run->psat + (size_t)run->solving * run->grid.nodes;
    size_t a = run->grid.face[slab], b = run->grid.face[slab + 1];
    return 0.5 * (run->p[a] / psat[a] + run->p[b] / psat[b]);
}

static void draw(void *ctx)
{
    bw_run *run = ctx;
    bw_run_set_segments(run);
    bw_profile(run, run->solving, true);
}

void bw_run_variable(bw_run *run, int month)
{
    run->solving = month;
    if (!bw_variable_solve(&run->variable))
        run->converged = false;
}

bw_status bw_run_make(bw_run *run, bw_arena *arena, const bw_section *section,
                      const bw_boundary *boundary,
                      const bw_monthly_options *options, bw_error *err)
{
    *run = (bw_run){
        .section = section,
        .boundary = boundary,
        .middle = BW_NO_NODE,
        .leak = BW_NO_NODE,
        .held = BW_NO_NODE,
        .wet_node = BW_NO_NODE,
        .converged = true,
    };
    bw_plane_at extra[3];
    size_t extras = 0;
    if (options->wetting > 0.0)
        extra[extras++] = options->wet_plane;
    if (options->has_air_flow)
        extra[extras++] = options->leak_plane;
    if (section->slab_count == 1)
        extra[extras++] = bw_critical_plane(section, NULL);
    BW_TRY(bw_grid_make(&run->grid, arena, section, extra, extras, err));
    BW_TRY(reserve_memory(run, arena, err));
    BW_TRY(bw_rates_make(&run->rates, arena, run->grid.nodes, err));
    run->moist = BW_NEW(arena, uint64_t, run->rates.words);
    BW_TRY_MEMORY(run->moist != NULL, err);
    if (section->slab_count == 1)
        run->middle = bw_grid_node(&run->grid, section, extra[extras - 1]);
    for (int m = 0; m < BW_MONTHS; ++m)
        run->seconds[m] = bw_month_seconds(m);
    set_temperatures(run);
    set_domains(run, (bw_domain){.last = run->grid.nodes - 1}, (bw_domain){0});
    run->variable = (bw_variable){.section = section,
                                  .sd = run->sd,
                                  .draw = draw,
                                  .mean_rh = face_mean_rh,
                                  .ctx = run};
    bw_variable_find(&run->variable);
    return BW_OK;
}

static bw_status inside(const bw_run *run, size_t node, const char *what,
                        bw_error *err)
{
    if (node == BW_NO_NODE || !run->may_hold[node])
        return bw_fail_domain(err,
                              "the %s plane does not lie inside the part of "
                              "the wall that is followed",
                              what);
    return BW_OK;
}

static bw_status place_leak(bw_run *run, const bw_monthly_options *options,
                            bw_error *err)
{
    size_t nodes = run->grid.nodes;
    run->leak = bw_grid_node(&run->grid, run->section, options->leak_plane);
    BW_TRY(inside(run, run->leak, "leak", err));
    for (size_t m = 0; m < BW_MONTHS; ++m) {
        const bw_boundary *b = &run->boundary[m];
        size_t at = m * nodes + run->leak;
        double excess = bw_vapour_concentration(b->theta_i, b->p_i) -
                        bw_vapour_concentration(run->theta[at], run->psat[at]);
        run->source[m] = fmax(0.0, options->air_flow[m] * excess);
    }
    return BW_OK;
}

bw_status bw_run_place(bw_run *run, const bw_monthly_options *options,
                       bw_error *err)
{
    size_t end = run->grid.nodes - 1;
    if (options->saturated) {
        const size_t *face = run->grid.face + options->saturated_slab;
        set_domains(run, (bw_domain){.last = face[0]},
                    (bw_domain){.first = face[1], .last = end});
    }
    if (options->wetting > 0.0) {
        size_t node = bw_grid_node(&run->grid, run->section,
                                   options->wet_plane);
        BW_TRY(inside(run, node, "wetted", err));
        run->wet_node = node;
        if (options->ways == BW_DRY_OUTWARDS)
            set_domains(run, (bw_domain){.last = node, .last_closed = true},
                        (bw_domain){0});
        if (options->ways == BW_DRY_INWARDS)
            set_domains(
                run,
                (bw_domain){.first = node, .last = end, .first_closed = true},
                (bw_domain){0});
    }
    return options->has_air_flow ? place_leak(run, options, err) : BW_OK;
}

void bw_run_set_segments(bw_run *run)
{
    for (size_t j = 0; j + 1 < run->grid.nodes; ++j) {
        double sd = run->sd[run->grid.slab[j]];
        /* written so that a NaN becomes the least */
        sd = sd > least_sd ? fmin(sd, most_sd) : least_sd;
        run->segment[j] = sd * run->grid.share[j];
    }
}
