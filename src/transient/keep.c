#include "keep.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "boundary.h"

static const double STANDING = 0.01; /* kg/m2, estimate */
/* the most humid point of sorption tests */
static const double SORBED_RH = 0.98;

/* ---- what is laid out ---- */

/* Only pores that draw water in hold on to more than they sorb. */
double bw_bound_water(const bw_slab *slab, const bw_storage *storage)
{
    if (slab->kind == BW_LAYER_SOLID && storage->d_saturated > 0)
        return storage->free_water;
    return bw_storage_water(storage, SORBED_RH);
}

bool bw_keep_init(bw_keep *k, bw_model *model, bw_transient_result *result)
{
    const size_t monitors = result->monitor_count;
    memset(k, 0, sizeof *k);
    k->model = model;
    k->result = result;
    result->last_hours = calloc((size_t)BW_TRANSIENT_HOURS * monitors,
                                sizeof *result->last_hours);
    result->state = calloc((size_t)BW_MONTHS * 2 * model->wall.n,
                           sizeof *result->state);
    k->bound = BW_NEW(&model->arena, double, result->slab_count);
    k->month_80 = BW_NEW(&model->arena, double, monitors *BW_MONTHS);
    k->standing = BW_NEW(&model->arena, double, monitors);
    if (result->last_hours == NULL || result->state == NULL ||
        k->bound == NULL || k->month_80 == NULL || k->standing == NULL)
        return false;
    for (size_t i = 0; i < result->slab_count; i++)
        if (model->range[i].count > 0)
            k->bound[i] = bw_bound_water(&model->section->slab[i],
                                         &model->storage[i]);
    return true;
}

void bw_keep_year(bw_keep *k)
{
    bw_transient_result *r = k->result;
    k->hour = 0;
    memset(k->month_80, 0, BW_MONTHS * r->monitor_count * sizeof *k->month_80);
    memset(r->month_water, 0, sizeof r->month_water);
    for (size_t i = 0; i < r->monitor_count; i++) {
        r->monitor[i].last_year = (bw_humid_hours){.month = -1};
        r->monitor[i].last_free = (bw_free_water){.month = -1, .hour = -1};
    }
}

/* ---- hours ---- */

void bw_keep_monitor(bw_keep *k, size_t monitor, double theta, double phi,
                     int month)
{
    bw_transient_result *r = k->result;
    bw_humid_hours *h = &r->monitor[monitor].last_year;
    h->above_80 += phi > 0.80;
    h->above_90 += phi > 0.90;
    h->above_95 += phi > 0.95;
    k->month_80[monitor * BW_MONTHS + (size_t)month] += phi > 0.80;
    bw_monitor_hour *row = &r->last_hours[k->hour * r->monitor_count + monitor];
    row->theta = (float)theta;
    row->phi = (float)phi;
}

/* Each half of a slab stands at its own face, a cell alone at both. */
static void gather(bw_keep *k, const bw_cells *cells)
{
    const bw_model *model = k->model;
    memset(k->standing, 0, k->result->monitor_count * sizeof *k->standing);
    for (size_t i = 0; i < k->result->slab_count; i++) {
        const bw_range range = model->range[i];
        for (size_t j = 0; j < range.count; j++) {
            const size_t at = range.first + j;
            const double over = bw_cells_water(cells, at) - k->bound[i];
            if (!(over > 0))
                continue;
            const double water = over * model->wall.dx[at];
            if (2 * j < range.count)
                k->standing[i] += water;
            if (2 * j + 2 > range.count)
                k->standing[i + 1] += water;
        }
    }
}

void bw_keep_hour(bw_keep *k, const bw_cells *cells, int hour_of_year)
{
    bw_transient_result *r = k->result;
    const int month = bw_hour_month(hour_of_year);
    gather(k, cells);
    for (size_t i = 0; i < r->monitor_count; i++) {
        bw_free_water *f = &r->monitor[i].last_free;
        const double water = k->standing[i];
        r->last_hours[k->hour * r->monitor_count + i].free_water = (float)water;
        f->hours += water > STANDING;
        if (water > f->largest) {
            f->largest = water;
            f->month = month;
            f->hour = hour_of_year;
        }
    }
    double total = 0;
    for (size_t i = 0; i < k->model->wall.n; i++)
        total += k->model->wall.dx[i] * bw_cells_water(cells, i);
    r->month_water[month] += total;
    k->hour++;
}

void bw_keep_state(bw_keep *k, const double *v, int hour_of_year)
{
    const int month = bw_hour_month(hour_of_year);
    const bool starts = hour_of_year == 0 ||
                        bw_hour_month(hour_of_year - 1) != month;
    const size_t size = 2 * k->model->wall.n;
    if (starts)
        memcpy(k->result->state + (size_t)month * size, v, size * sizeof *v);
}

void bw_keep_end_year(bw_keep *k, const double *seconds)
{
    bw_transient_result *r = k->result;
    for (int m = 0; m < BW_MONTHS; m++)
        r->month_water[m] /= fmax(seconds[m] / 3600, 1);
    for (size_t i = 0; i < r->monitor_count; i++) {
        const double *hours = &k->month_80[i * BW_MONTHS];
        int most = 0;
        for (int m = 1; m < BW_MONTHS; m++)
            if (hours[m] > hours[most])
                most = m;
        r->monitor[i].last_year.month = hours[most] > 0 ? most : -1;
    }
    if (r->years > 0)
        return;
    memcpy(r->first_month_water, r->month_water, sizeof r->month_water);
    for (size_t i = 0; i < r->monitor_count; i++) {
        r->monitor[i].first_year = r->monitor[i].last_year;
        r->monitor[i].first_free = r->monitor[i].last_free;
    }
}
