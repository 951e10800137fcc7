/* Invariant: a span has 120 hours, all of one year; a year has 73 spans. */

#include "course.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void lay_cells(bw_transient_result *result, const bw_model *model)
{
    double outer = 0;
    for (size_t k = 0; k < result->slab_count; k++) {
        double at = outer;
        const bw_range range = model->range[k];
        for (size_t i = range.first; i < range.first + range.count; i++) {
            const double width = model->wall.dx[i];
            result->cell[i] = (bw_cell_year){
                .slab = k, .middle = at + 0.5 * width, .width = width};
            at += width;
        }
        outer += model->section->slab[k].thickness;
    }
}

bool bw_course_init(bw_course *c, bw_model *model, bw_transient_result *result)
{
    const size_t spans = (size_t)BW_MOST_YEARS * BW_SPANS;
    *c = (bw_course){.result = result};
    c->pressure = BW_NEW(&model->arena, double, result->monitor_count);
    result->cell = calloc(model->wall.n, sizeof *result->cell);
    result->mould_course = calloc(spans * result->monitor_count,
                                  sizeof *result->mould_course);
    if (c->pressure == NULL || result->cell == NULL ||
        result->mould_course == NULL)
        return false;
    lay_cells(result, model);
    return true;
}

void bw_course_year(bw_course *c)
{
    bw_transient_result *r = c->result;
    c->hour = 0;
    for (size_t i = 0; i < r->cells; i++)
        memset(r->cell[i].phi, 0, sizeof r->cell[i].phi);
    for (size_t k = 0; k < r->slab_count; k++) {
        memset(r->slab[k].inward, 0, sizeof r->slab[k].inward);
        memset(r->slab[k].inward_in_sun, 0, sizeof r->slab[k].inward_in_sun);
    }
}

void bw_course_mould(bw_course *c, int year, size_t hour, size_t monitor,
                     double index)
{
    const size_t span = (size_t)year * BW_SPANS + hour / BW_SPAN_HOURS;
    if ((hour + 1) % BW_SPAN_HOURS == 0)
        c->result->mould_course[span * c->result->monitor_count + monitor] =
            index;
}

void bw_course_hour(bw_course *c, const bw_cells *cells, bool sun,
                    const bw_mould_state *mould)
{
    bw_transient_result *r = c->result;
    const size_t span = c->hour / BW_SPAN_HOURS;
    for (size_t i = 0; i < r->cells; i++)
        r->cell[i].phi[span] += bw_cells_phi(cells, i);
    for (size_t k = 0; k < r->slab_count; k++) {
        const double drive = fmax(c->pressure[k] - c->pressure[k + 1], 0) /
                             BW_SPAN_HOURS;
        r->slab[k].inward[span] += drive;
        r->slab[k].inward_in_sun[span] += sun ? drive : 0;
    }
    for (size_t k = 0; k < r->monitor_count; k++)
        bw_course_mould(c, r->years, c->hour, k, mould[k].index);
    c->hour++;
}

void bw_course_end_year(bw_course *c)
{
    for (size_t i = 0; i < c->result->cells; i++)
        for (size_t s = 0; s < BW_SPANS; s++)
            c->result->cell[i].phi[s] /= BW_SPAN_HOURS;
}

void bw_course_repeat(bw_course *c, int year, size_t monitor)
{
    const size_t row = c->result->monitor_count;
    double *to = c->result->mould_course + (size_t)year * BW_SPANS * row;
    for (size_t s = 0; s < BW_SPANS; s++, to += row)
        to[monitor] = *(to - BW_SPANS * row + monitor);
}
