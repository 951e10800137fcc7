#include "wood.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* m, what the limits on moisture look at */
static const double WOOD_DEPTH = 0.010;
static const double WOOD_LIMIT = 0.20;  /* kg/kg, DIN 68800-2 */
static const double PANEL_LIMIT = 0.18; /* kg/kg */

bool bw_wood_init(bw_wood *w, bw_model *model, bw_transient_result *result)
{
    memset(w, 0, sizeof *w);
    w->model = model;
    w->result = result;
    w->day = BW_NEW(&model->arena, bw_cell_day, model->wall.n);
    w->last_above = BW_NEW(&model->arena, double, result->slab_count);
    if (w->day == NULL || w->last_above == NULL)
        return false;
    for (size_t k = 0; k < result->slab_count; k++) {
        bw_slab_moisture *s = &result->slab[k];
        if (!s->is_wood)
            continue;
        const bw_wood_kind kind = model->section->slab[k].material->wood_kind;
        s->limit = kind == BW_SOLID_WOOD ? WOOD_LIMIT : PANEL_LIMIT;
        s->first_days = calloc(BW_TRANSIENT_DAYS, sizeof *s->first_days);
        s->last_days = calloc(BW_TRANSIENT_DAYS, sizeof *s->last_days);
        if (s->first_days == NULL || s->last_days == NULL)
            return false;
    }
    return true;
}

void bw_wood_year(bw_wood *w)
{
    w->day_of_year = 0;
    for (size_t k = 0; k < w->result->slab_count; k++) {
        bw_slab_moisture *s = &w->result->slab[k];
        s->highest_wood_moisture = s->hours_above_limit = 0;
    }
}

/* ---- the wettest 10 mm ---- */

/* Means of the day over the 10 mm from cell i on, inwards (step 1) or outwards
 * (-1) to the slab's face; moisture -1 where less is left of a thicker slab. */
static bw_wood_day mean_from(const bw_wood *w, size_t slab, size_t i, long step)
{
    const bw_range r = w->model->range[slab];
    const double *dx = w->model->wall.dx;
    const long first = (long)r.first, end = first + (long)r.count;
    double depth = 0;
    bw_cell_day sum = {0};
    for (long j = (long)i; j >= first && j < end && depth < WOOD_DEPTH;
         j += step) {
        const double part = fmin(dx[j], WOOD_DEPTH - depth);
        depth += part;
        sum.water += part * w->day[j].water;
        sum.theta += part * w->day[j].theta;
        sum.phi += part * w->day[j].phi;
    }
    const bool whole = i == r.first && step > 0;
    if (!(depth > 0.999 * WOOD_DEPTH || whole))
        return (bw_wood_day){.moisture = -1};
    const double all = depth * w->day_hours;
    const double rho = w->model->section->slab[slab].material->density.value;
    return (bw_wood_day){sum.water / all / rho, sum.theta / all, sum.phi / all};
}

/* Of cells of one content each the wettest 10 mm begins or ends where a cell
 * does. */
static bw_wood_day wettest(const bw_wood *w, size_t slab)
{
    const bw_range r = w->model->range[slab];
    bw_wood_day most = {.moisture = -1};
    for (size_t i = r.first; i < r.first + r.count; i++)
        for (long step = 1; step >= -1; step -= 2) {
            const bw_wood_day day = mean_from(w, slab, i, step);
            if (day.moisture > most.moisture)
                most = day;
        }
    return most;
}

/* ---- days ---- */

static void end_day(bw_wood *w, int month)
{
    w->day_of_run++;
    for (size_t k = 0; k < w->result->slab_count; k++) {
        bw_slab_moisture *s = &w->result->slab[k];
        if (!s->is_wood)
            continue;
        const bw_wood_day day = wettest(w, k);
        s->last_days[w->day_of_year] = day;
        if (day.moisture > s->limit) {
            s->hours_above_limit += w->day_hours;
            w->last_above[k] = (double)w->day_of_run;
        }
        if (day.moisture > s->highest_wood_moisture) {
            s->highest_wood_moisture = day.moisture;
            s->highest_month = month;
        }
    }
    memset(w->day, 0, w->model->wall.n * sizeof *w->day);
    w->day_hours = 0;
    w->day_of_year++;
}

void bw_wood_hour(bw_wood *w, const bw_solver *solver, int month)
{
    for (size_t k = 0; k < w->result->slab_count; k++) {
        const bw_range r = w->model->range[k];
        const size_t end = w->result->slab[k].is_wood ? r.first + r.count : 0;
        for (size_t i = r.first; i < end; i++) {
            w->day[i].water += bw_cells_water(&solver->cells, i);
            w->day[i].theta += solver->v[2 * i];
            w->day[i].phi += bw_cells_phi(&solver->cells, i);
        }
    }
    if (++w->day_hours == 24)
        end_day(w, month);
}

/* Above in the last year would be above again in the next. */
static double weeks(const bw_wood *w, size_t slab)
{
    const double last = w->last_above[slab];
    const double end = (double)w->day_of_run;
    const bool first = w->result->years == 0;
    if (first ? last >= end : last > end - BW_TRANSIENT_DAYS)
        return -1;
    return last / 7;
}

void bw_wood_first(bw_wood *w)
{
    for (size_t k = 0; k < w->result->slab_count; k++) {
        const bw_slab_moisture *s = &w->result->slab[k];
        if (s->is_wood)
            memcpy(s->first_days, s->last_days,
                   BW_TRANSIENT_DAYS * sizeof *s->first_days);
    }
}

void bw_wood_end_year(bw_wood *w)
{
    if (w->result->years == 0)
        bw_wood_first(w);
    for (size_t k = 0; k < w->result->slab_count; k++) {
        bw_slab_moisture *s = &w->result->slab[k];
        if (!s->is_wood)
            continue;
        s->weeks_to_limit = weeks(w, k);
        if (w->result->years > 0)
            continue;
        s->first_highest_wood_moisture = s->highest_wood_moisture;
        s->first_highest_month = s->highest_month;
        s->first_hours_above_limit = s->hours_above_limit;
    }
}

void bw_wood_carry(bw_wood *w, int years)
{
    const size_t days = (size_t)years * BW_TRANSIENT_DAYS;
    const double year = (double)w->day_of_run - BW_TRANSIENT_DAYS;
    w->day_of_run += days;
    for (size_t k = 0; k < w->result->slab_count; k++)
        if (w->last_above[k] > year)
            w->last_above[k] = (double)w->day_of_run;
}
