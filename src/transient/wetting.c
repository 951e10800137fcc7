/* The same wall twice from the same state, once wetted at a place, day by day
 * side by side until they differ no more. No rain falls on either: of the same
 * rain the wetted one would take up less, and more rain would look like better
 * drying.
 *
 * Invariant: what was put = excess + what left more than from the dry wall. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/geography.h"
#include "fail.h"
#include "run.h"

static const double SHARE = 0.10;
/* below it no mould grows, Hukka & Viitanen 1999 */
static const double LIMIT_RH = 0.80;
static const double SAME_RH = 0.01; /* estimate: what is no longer told apart */
static const double SAME_WOOD = 0.005; /* kg/kg, estimate */
static const double USUAL = 1.0;       /* kg/m2, what is put unless stated */
static const double GONE = 0.5;        /* that must have left, estimate */
static const double MONTH_DAYS = 365.0 / 12;
enum { YEARS = 2, MOST_YEARS = 10, SURE_DAYS = 7, DAY_HOURS = 24 };
/* Hours that are taken as one. */
enum { WINDOW = 3 };

/* One of the two walls. */
typedef struct half {
    bw_transient_options options;
    bw_transient_result result;
    bw_run run;
    bw_mould_state mould;
    double highest_mould;
    double phi;   /* at the place, mean of the day */
    double *mean; /* of each cell, the same */
} half;

typedef struct study {
    half wet, dry;
    const bw_wetting_options *options;
    bw_wetting_result *out;
    size_t monitor; /* of the place */
    size_t cells;
    double *thin; /* each cell: kg/m3 told from none; HUGE_VAL: no risk */
    int last_wet, last_out; /* days until the last that was */
    int last_damp;          /* the same of any cell */
    double year_ago;        /* what counts of the excess, a year before */
} study;

/* ---- opening ---- */

static bw_status check(const bw_wetting_options *o, bw_error *err)
{
    if (!(o->put.water > 0) || o->month < 0 || o->month >= BW_MONTHS ||
        o->years < 0 || o->years > MOST_YEARS || !(o->share >= 0) ||
        o->share >= 1)
        return bw_fail_domain(
            err, "a wetting takes more than 0 kg/m2 of water, a month 0 to 11, "
                 "a share below 1 and at most 10 years");
    return BW_OK;
}

static bw_status open_half(half *h, const bw_assembly *assembly,
                           const bw_section *section, const bw_climate *climate,
                           const bw_transient_result *base,
                           const bw_wetting_options *o, const bw_year *year,
                           bw_error *err)
{
    h->options = o->run;
    h->options.start_month = o->month;
    h->options.start_month_given = true;
    h->options.state = base->state + 2 * base->cells * (size_t)o->month;
    h->options.state_cells = base->cells;
    h->options.put = o->put;
    h->options.closed = o->closed;
    h->options.max_years = 1;
    h->options.keep_hours = false;
    h->mean = calloc(base->cells, sizeof *h->mean);
    BW_TRY_MEMORY(h->mean != NULL, err);
    BW_TRY(bw_run_open(&h->run, &h->result, assembly, section, climate,
                       &h->options, year, err));
    bw_year_no_rain(h->run.year);
    return BW_OK;
}

/* Fibres that condensate gathers in. */
static bool is_open_fill(const bw_slab *slab)
{
    static const double OPEN_MU = 5.0; /* as of what leaking air passes */
    const bw_material *m = slab->material;
    return slab->kind == BW_LAYER_SOLID && !m->hygroscopic && m->mu_dry.known &&
           m->mu_dry.value <= OPEN_MU;
}

/* Cells of what perishes, of fibres, and of anything else those right beside
 * what perishes: within foam no damp does harm. */
static bw_status find_at_risk(study *s, const bw_assembly *assembly,
                              const bw_section *section, bw_error *err)
{
    s->thin = calloc(s->cells, sizeof *s->thin);
    BW_TRY_MEMORY(s->thin != NULL, err);
    for (size_t k = 0; k < section->slab_count; k++) {
        const bw_slab *slab = &section->slab[k];
        const bw_range r = s->wet.run.model.range[k];
        const bool all = bw_slab_perishes(assembly, slab) || is_open_fill(slab);
        const bool first = k > 0 && bw_slab_perishes(assembly, slab - 1);
        const bool last = k + 1 < section->slab_count &&
                          bw_slab_perishes(assembly, slab + 1);
        for (size_t i = 0; i < r.count; i++) {
            const bool at_risk = all || (i == 0 && first) ||
                                 (i + 1 == r.count && last);
            s->thin[r.first + i] =
                at_risk ? SAME_WOOD * slab->material->density.value : HUGE_VAL;
        }
    }
    return BW_OK;
}

/* ---- days ---- */

static double phi_at(const half *h)
{
    const bw_run *r = &h->run;
    return fmin(bw_cells_phi(&r->solver.cells, r->start.place), 1);
}

static void add_to_means(half *h, size_t cells, double share)
{
    for (size_t i = 0; i < cells; i++)
        h->mean[i] += share * fmin(bw_cells_phi(&h->run.solver.cells, i), 1);
}

static bw_status run_day(half *h, size_t cells, int day, bw_mould_class mould,
                         bw_error *err)
{
    bw_run *r = &h->run;
    const size_t place = r->start.place;
    memset(h->mean, 0, cells * sizeof *h->mean);
    if (day % BW_TRANSIENT_DAYS == 0)
        bw_wood_year(&r->watch.wood);
    h->phi = 0;
    for (int k = 0, hours; k < DAY_HOURS; k += hours) {
        const int most = DAY_HOURS - k < WINDOW ? DAY_HOURS - k : WINDOW;
        const double *theta = &r->solver.v[2 * place];
        const double before = *theta;
        const double phi_before = phi_at(h);
        BW_TRY(bw_run_window(r, DAY_HOURS * day + k, most, false, &hours, err));
        const double phi = 0.5 * (phi_before + phi_at(h));
        bw_mould_step(&h->mould, mould, 0.5 * (before + *theta), phi, hours);
        h->highest_mould = fmax(h->highest_mould, h->mould.index);
        h->phi += phi * hours / DAY_HOURS;
        add_to_means(h, cells, (double)hours / DAY_HOURS);
    }
    return BW_OK;
}

/* Whether a slab of wood is back within its limit. */
static bool wood_within(const study *s, size_t slab, int day)
{
    const bw_slab_moisture *wet = &s->wet.result.slab[slab];
    const bw_slab_moisture *dry = &s->dry.result.slab[slab];
    const int row = day % BW_TRANSIENT_DAYS;
    return !wet->is_wood ||
           wet->last_days[row].moisture <=
               fmax(wet->limit, dry->last_days[row].moisture + SAME_WOOD);
}

static bool place_within(const study *s, int day)
{
    const size_t k = s->monitor; /* between slabs k - 1 and k */
    return s->wet.phi <= fmax(LIMIT_RH, s->dry.phi + SAME_RH) &&
           (k == 0 || wood_within(s, k - 1, day)) &&
           (k == s->wet.result.slab_count || wood_within(s, k, day));
}

/* Whether no cell at risk is damp of the water put: what left the place did not
 * make another one wet. Where the wall is damp without it, humidity alone would
 * hide kilograms, so that the water counts, too. */
static bool all_within(const study *s)
{
    const bw_cells *wet = &s->wet.run.solver.cells;
    const bw_cells *dry = &s->dry.run.solver.cells;
    for (size_t i = 0; i < s->cells; i++)
        if (isfinite(s->thin[i]) && s->wet.mean[i] > LIMIT_RH &&
            (s->wet.mean[i] > s->dry.mean[i] + SAME_RH ||
             bw_cells_water(wet, i) - bw_cells_water(dry, i) > s->thin[i]))
            return false;
    return true;
}

static double water(const half *h)
{
    return bw_water_total(&h->run.model.wall, h->run.solver.v);
}

/* What a slab of solid wood has taken up so thinly, cell by cell, that it is
 * told apart from the wood not wetted nowhere [kg/m2]. Of a lesser wetting less
 * is left out, or a drop would always be dry. */
static double thinly_spread(const study *s, size_t slab)
{
    const bw_model *model = &s->wet.run.model;
    const bw_material *m = model->section->slab[slab].material;
    if (m->wood_kind != BW_SOLID_WOOD)
        return 0;
    const bw_range r = model->range[slab];
    const double thin = SAME_WOOD * m->density.value *
                        fmin(s->options->put.water / USUAL, 1);
    double sum = 0;
    for (size_t i = r.first; i < r.first + r.count; i++) {
        const double more = bw_cells_water(&s->wet.run.solver.cells, i) -
                            bw_cells_water(&s->dry.run.solver.cells, i);
        sum += model->wall.dx[i] * fmin(fmax(more, 0), thin);
    }
    return sum;
}

/* The excess that counts: thick wood takes years to give off the last of what
 * has gone deep into it, and is none the worse for it. Of what nothing leaves
 * no wood is thick enough: so much counts that half must have left the wall. */
static double counts(const study *s, double share)
{
    double thin = 0;
    for (size_t k = 0; k < s->wet.result.slab_count; k++)
        thin += thinly_spread(s, k);
    return fmax(s->out->left - thin,
                s->out->left * fmin(share / (1 - GONE), 1));
}

/* At the end of a year: whether too much is left at the end of the last, every
 * year to come leaving the part that this one did. (The fastest ways of drying
 * come first, so it leaves more.) */
static bool out_of_reach(study *s, double left, int day, int days,
                         double allowed)
{
    if ((day + 1) % BW_TRANSIENT_DAYS != 0)
        return false;
    const double part = left / s->year_ago;
    const int years = (days - day - 1) / BW_TRANSIENT_DAYS;
    s->year_ago = left;
    return left * pow(fmin(part, 1), years) > allowed;
}

static bool is_over(study *s, double left, int day, int days, double allowed)
{
    const int last = s->last_wet > s->last_out ? s->last_wet : s->last_out;
    return day >= last + SURE_DAYS || out_of_reach(s, left, day, days, allowed);
}

static bw_status run_days(study *s, bw_error *err)
{
    const bw_wetting_options *o = s->options;
    const int days = BW_TRANSIENT_DAYS * (o->years > 0 ? o->years : YEARS);
    const double share = o->share > 0 ? o->share : SHARE;
    const double allowed = o->put.water * share;
    const bw_mould_class mould = s->wet.result.monitor[s->monitor].mould_class;
    bw_wetting_result *out = s->out;
    out->excess = calloc((size_t)days, sizeof *out->excess);
    if (out->excess == NULL)
        return bw_fail_memory(err);
    for (int day = 0; day < days; day++) {
        BW_TRY(run_day(&s->wet, s->cells, day, mould, err));
        BW_TRY(run_day(&s->dry, s->cells, day, mould, err));
        out->left = water(&s->wet) - water(&s->dry);
        out->excess[out->day_count++] = out->left;
        const double left = counts(s, share);
        if (left > allowed)
            s->last_wet = day + 1;
        if (!place_within(s, day))
            s->last_out = day + 1;
        if (!all_within(s))
            s->last_damp = day + 1;
        if (is_over(s, left, day, days, allowed))
            break;
        if (o->run.progress != NULL &&
            !o->run.progress(o->run.payload, (day + 1.0) / days))
            return bw_fail(err, BW_ERR_CANCELLED, NULL, 0,
                           "the simulation was stopped");
    }
    return BW_OK;
}

/* ---- what came out ---- */

static double months(const study *s, int last)
{
    return last < (int)s->out->day_count ? last / MONTH_DAYS : -1;
}

static void conclude(study *s)
{
    bw_wetting_result *out = s->out;
    const double *wet = s->wet.run.crossing, *dry = s->dry.run.crossing;
    for (int k = 0; k < BW_X_HEAT_E; k++) {
        const bool inwards = k == BW_X_VAPOUR_I || k == BW_X_LEAK_AIR;
        *(inwards ? &out->left_inwards : &out->left_outwards) -= wet[k] -
                                                                 dry[k];
    }
    out->months = months(s, s->last_wet);
    out->place_months = months(s, s->last_out);
    out->damp_months = months(s, s->last_out > s->last_damp ? s->last_out
                                                            : s->last_damp);
    out->highest_mould = s->wet.highest_mould;
    out->highest_mould_dry = s->dry.highest_mould;
}

static bw_status follow(study *s, const bw_assembly *assembly,
                        const bw_section *section, const bw_climate *climate,
                        const bw_transient_result *base, bw_error *err)
{
    const bw_wetting_options *o = s->options;
    BW_TRY(check(o, err));
    BW_TRY(open_half(&s->wet, assembly, section, climate, base, o, NULL, err));
    BW_TRY(open_half(&s->dry, assembly, section, climate, base, o,
                     s->wet.run.year, err));
    bw_solver_start(&s->dry.run.solver, s->dry.options.state, 0);
    s->monitor = o->put.slab + !o->put.outer_side;
    s->year_ago = o->put.water;
    s->cells = base->cells;
    BW_TRY(find_at_risk(s, assembly, section, err));
    BW_TRY(run_days(s, err));
    conclude(s);
    return BW_OK;
}

bw_status bw_wetting(bw_wetting_result *out, const bw_assembly *assembly,
                     const bw_section *section, const bw_climate *climate,
                     const bw_transient_result *base,
                     const bw_wetting_options *options, bw_error *err)
{
    bw_wetting_result result = {0};
    study s = {.options = options, .out = &result};
    const bw_status status = follow(&s, assembly, section, climate, base, err);
    half *both[] = {&s.wet, &s.dry};
    free(s.thin);
    for (int k = 0; k < 2; k++) {
        bw_run_close(&both[k]->run);
        bw_transient_free(&both[k]->result);
        free(both[k]->mean);
    }
    if (status != BW_OK) {
        bw_wetting_free(&result);
        return status;
    }
    *out = result;
    return BW_OK;
}

void bw_wetting_free(bw_wetting_result *result)
{
    if (result == NULL)
        return;
    free(result->excess);
    result->excess = NULL;
    result->day_count = 0;
}
