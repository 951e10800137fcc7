#include "watch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* w = sum of w_i dx_i over the cells [kg/m2]. What is kept of an hour: of
 * faces their mean theta and phi, of wood the wettest 10 mm, of the section
 * its water.
 *
 * Invariant: watching changes nothing that is simulated. */

static const double HOURS = 3600.0;

double bw_water_slab(const bw_model *model, size_t slab, const double *v)
{
    const bw_wall *wall = &model->wall;
    const bw_range r = model->range[slab];
    double sum = 0;
    for (size_t i = r.first; i < r.first + r.count; i++)
        sum += wall->dx[i] * bw_hygro_water(wall->hygro[i], v[2 * i + 1]);
    return sum;
}

double bw_water_total(const bw_wall *wall, const double *v)
{
    double sum = 0;
    for (size_t i = 0; i < wall->n; i++)
        sum += wall->dx[i] * bw_hygro_water(wall->hygro[i], v[2 * i + 1]);
    return sum;
}

static void lay_monitors(bw_watch *w)
{
    const bw_section *section = w->model->section;
    bw_monitor *m = w->result->monitor;
    const size_t n = section->slab_count;
    m[0].outer_face = true;
    m[0].label = section->slab[0].label;
    m[0].mould_class =
        bw_mould_class_between(NULL, &section->slab[0]).mould_class;
    for (size_t k = 0; k < n; k++) {
        const bw_slab *slab = &section->slab[k];
        m[k + 1].slab = k;
        m[k + 1].label = slab->label;
        m[k + 1].room_face = k + 1 == n;
        m[k + 1].mould_class = bw_mould_class_between(slab, k + 1 < n ? slab + 1
                                                                      : NULL)
                                   .mould_class;
        w->result->slab[k].is_wood = slab->material->wood_kind != BW_NOT_WOOD &&
                                     slab->kind == BW_LAYER_SOLID &&
                                     w->model->range[k].count > 0;
    }
}

bool bw_watch_init(bw_watch *w, bw_model *model, bw_transient_result *result)
{
    const size_t slabs = model->section->slab_count;
    memset(w, 0, sizeof *w);
    w->model = model;
    w->result = result;
    result->monitor_count = slabs + 1;
    result->slab_count = slabs;
    result->cells = model->wall.n;
    result->monitor = calloc(slabs + 1, sizeof *result->monitor);
    result->slab = calloc(slabs, sizeof *result->slab);
    w->mould = BW_NEW(&model->arena, bw_mould_state, slabs + 1);
    w->seconds = BW_NEW(&model->arena, double, BW_MONTHS);
    if (result->monitor == NULL || result->slab == NULL || w->mould == NULL ||
        w->seconds == NULL)
        return false;
    lay_monitors(w);
    return bw_keep_init(&w->keep, model, result) &&
           bw_course_init(&w->course, model, result) &&
           bw_wood_init(&w->wood, model, result);
}

void bw_watch_year(bw_watch *w)
{
    bw_transient_result *r = w->result;
    w->hour = 0;
    memset(w->seconds, 0, BW_MONTHS * sizeof *w->seconds);
    for (size_t k = 0; k < r->monitor_count; k++) {
        bw_monitor *m = &r->monitor[k];
        m->hours_above_80 = m->hours_above_90 = m->hours_above_95 = 0;
        m->highest_rh = 0;
        memset(m->month_rh, 0, sizeof m->month_rh);
        memset(m->month_theta, 0, sizeof m->month_theta);
    }
    for (size_t k = 0; k < r->slab_count; k++) {
        bw_slab_moisture *s = &r->slab[k];
        s->lowest = HUGE_VAL;
        s->highest = 0;
        memset(s->month_mean, 0, sizeof s->month_mean);
    }
    bw_keep_year(&w->keep);
    bw_course_year(&w->course);
    bw_wood_year(&w->wood);
    bw_depths_year(&w->depths);
}

/* ---- the state at a face ---- */

typedef struct half {
    double theta, p, heat, water; /* conductances of the half cell */
    double content;
} half;

static half half_cell(const bw_solver *s, size_t i)
{
    const bw_cell c = bw_cells_get(&s->cells, i);
    double water = 1 / c.rv;
    if (c.kphi > 0)
        water += c.kphi * c.phi / (c.p * 0.5 * s->wall->dx[i]);
    return (half){s->v[2 * i], c.p, 1 / c.rt, water, c.water};
}

/* Surfaces are halves with the surface coefficients. */
void bw_watch_face(const bw_solver *s, const bw_edge *edge, size_t f,
                   double theta[2], double p[2], double content[2])
{
    const size_t n = s->wall->n;
    half l, r;
    if (f > 0)
        l = half_cell(s, f - 1);
    else
        l = (half){edge->theta_e + edge->gain / edge->h_e, edge->p_e, edge->h_e,
                   edge->beta_e, 0};
    if (f < n)
        r = half_cell(s, f);
    else
        r = (half){edge->theta_i, edge->p_i, edge->h_i, edge->beta_i, 0};
    const bw_face *face = &s->wall->face[f];
    double film = 0;
    if (face->film != NULL) {
        const double phi_l = f > 0 ? bw_cells_phi(&s->cells, f - 1)
                                   : edge->p_e /
                                         bw_saturation_pressure(edge->theta_e);
        const double phi_r = f < n ? bw_cells_phi(&s->cells, f)
                                   : edge->p_i /
                                         bw_saturation_pressure(edge->theta_i);
        const double x = fmin(fmax(0.5 * (phi_l + phi_r), 0), 1) * BW_FILM_ROWS;
        const int i = (int)x;
        film = face->film->resistance[i] +
               (x - i) *
                   (face->film->resistance[i + 1] - face->film->resistance[i]);
    }
    const double q = (l.theta - r.theta) /
                     (1 / l.heat + face->heat_resistance + 1 / r.heat);
    const double g = (l.p - r.p) / (1 / l.water + film + 1 / r.water);
    theta[0] = l.theta - q / l.heat;
    theta[1] = r.theta + q / r.heat;
    p[0] = l.p - g / l.water;
    p[1] = r.p + g / r.water;
    content[0] = l.content;
    content[1] = r.content;
}

static void see(bw_watch *w, size_t k, double theta, double p, double content,
                int month, bool keep)
{
    bw_monitor *m = &w->result->monitor[k];
    const double phi = fmin(fmax(p / bw_saturation_pressure(theta), 0), 1);
    m->hours_above_80 += phi > 0.80;
    m->hours_above_90 += phi > 0.90;
    m->hours_above_95 += phi > 0.95;
    m->highest_rh = fmax(m->highest_rh, phi);
    m->month_rh[month] += phi;
    m->month_theta[month] += theta;
    bw_keep_monitor(&w->keep, k, theta, phi, month);
    w->course.pressure[k] = p;
    bw_mould_step(&w->mould[k], m->mould_class, theta, phi, 1);
    m->final_mould = w->mould[k].index;
    m->mould_end = w->mould[k];
    m->highest_mould = fmax(m->highest_mould, w->mould[k].index);
    if (keep)
        w->result->hour[w->hour * w->result->monitor_count + k] = (bw_hour_row){
            theta, phi, content, w->mould[k].index};
}

static void see_monitors(bw_watch *w, const bw_solver *s, const bw_edge *edge,
                         int month, bool keep)
{
    const bw_model *model = w->model;
    double theta[2], p[2], content[2];
    bw_watch_face(s, edge, 0, theta, p, content);
    see(w, 0, theta[0], p[0], content[1], month, keep);
    for (size_t k = 0; k < w->result->slab_count; k++) {
        const bw_range r = model->range[k];
        /* the inner face of a slab with cells is the outer side of what lies
         * in the face, that of a membrane the inner side */
        const int side = r.count == 0;
        bw_watch_face(s, edge, r.first + r.count, theta, p, content);
        see(w, k + 1, theta[side], p[side],
            content[side] > 0 ? content[side] : content[1 - side], month, keep);
    }
}

/* ---- the water in slabs ---- */

static void see_slabs(bw_watch *w, const bw_solver *s, int hour_of_year)
{
    const int month = bw_hour_month(hour_of_year);
    for (size_t k = 0; k < w->result->slab_count; k++) {
        const bw_range r = w->model->range[k];
        bw_slab_moisture *m = &w->result->slab[k];
        double water = 0;
        for (size_t i = r.first; i < r.first + r.count; i++)
            water += s->wall->dx[i] * bw_cells_water(&s->cells, i);
        m->lowest = fmin(m->lowest, water);
        if (water > m->highest && !m->is_wood)
            m->highest_month = month;
        m->highest = fmax(m->highest, water);
        m->month_mean[month] += water;
    }
    bw_wood_hour(&w->wood, s, month);
    bw_keep_hour(&w->keep, &s->cells, hour_of_year);
    bw_depths_hour(&w->depths, s);
}

void bw_watch_hour(bw_watch *w, const bw_solver *s, const bw_edge *edge,
                   int hour_of_year, bool keep)
{
    const int month = bw_hour_month(hour_of_year);
    w->seconds[month] += HOURS;
    see_monitors(w, s, edge, month, keep);
    see_slabs(w, s, hour_of_year);
    bw_course_hour(&w->course, &s->cells, edge->gain > 0, w->mould);
    if (keep) {
        double total = 0;
        for (size_t i = 0; i < s->wall->n; i++)
            total += s->wall->dx[i] * bw_cells_water(&s->cells, i);
        w->result->hour_total_water[w->hour] = total;
        w->hour++;
    }
}

void bw_watch_end_year(bw_watch *w)
{
    bw_transient_result *r = w->result;
    for (int m = 0; m < BW_MONTHS; m++) {
        const double hours = fmax(w->seconds[m] / HOURS, 1);
        for (size_t k = 0; k < r->monitor_count; k++) {
            r->monitor[k].month_rh[m] /= hours;
            r->monitor[k].month_theta[m] /= hours;
        }
        for (size_t k = 0; k < r->slab_count; k++)
            r->slab[k].month_mean[m] /= hours;
    }
    bw_keep_end_year(&w->keep, w->seconds);
    bw_course_end_year(&w->course);
    bw_wood_end_year(&w->wood);
}

/* ---- years that nobody saw ---- */

static void repeat_mould(bw_watch *w, int year, size_t monitor)
{
    const bw_transient_result *r = w->result;
    bw_monitor *m = &w->result->monitor[monitor];
    bw_mould_state *state = &w->mould[monitor];
    for (size_t h = 0; h < BW_TRANSIENT_HOURS; h++) {
        const bw_monitor_hour *row =
            &r->last_hours[h * r->monitor_count + monitor];
        bw_mould_step(state, m->mould_class, (double)row->theta,
                      (double)row->phi, 1);
        m->highest_mould = fmax(m->highest_mould, state->index);
        bw_course_mould(&w->course, year, h, monitor, state->index);
    }
    m->final_mould = state->index;
    m->mould_end = *state;
}

void bw_watch_carry(bw_watch *w, int years)
{
    for (size_t k = 0; k < w->result->monitor_count; k++) {
        double before = -1;
        for (int n = 0; n < years; n++) {
            const int year = w->result->years + n;
            if (w->mould[k].index == before) {
                bw_course_repeat(&w->course, year, k);
                continue;
            }
            before = w->mould[k].index;
            repeat_mould(w, year, k);
        }
    }
    bw_wood_carry(&w->wood, years);
}
