/* Room air that flows past a face, V [m3/(m s)], exchanges with the cells k on
 * both sides of it and leaves, mixed [derived]:
 *
 *   V/(R_v T_i) (p_i - p_n) = sum c_k (p_n - p_k),  c_k = l/(1/beta + r_k)
 *
 * g_k = c_k (p_n - p_k) enters a cell, with beta = 7e-9 h_c, h_c 2.5 W/(m2 K)
 * (as the room's surface, Lewis, derived), r_k the resistance of its half. Of
 * temperatures likewise with rho c V and h_c.
 *
 * Only what wets counts, unless all is asked for: cells from which the air
 * would take water are left out, and with them the warmth of the air, which it
 * may have given away on its way. Invariant: then a stated flow never makes a
 * place drier, and no air brings more than it has.
 *
 * Of a place the flow is shared by length among its faces. */

#include "hour_air.h"

#include <string.h>

#include "fail.h"
#include "hour_leaks.h"

static const double CONVECTION = 2.5; /* W/(m2 K) */
static const double LEWIS = 7e-9;     /* kg K/(J Pa) */

/* A cell as the air meets it: conductance, potential, and slopes by (theta, z).
 */
typedef struct meeting {
    double c, c_by[2], x, x_by[2];
    bool takes;
} meeting;

static meeting meet(double length, double film, double half, double half_t,
                    double half_z)
{
    const double c = 1 / (1 / film + half), by = -length * c * c;
    return (meeting){
        .c = length * c, .c_by = {by * half_t, by * half_z}, .takes = true};
}

static double mix(double rate, double in, const meeting m[2])
{
    double sum = rate * in, all = rate;
    for (size_t k = 0; k < 2; ++k)
        if (m[k].takes) {
            sum += m[k].c * m[k].x;
            all += m[k].c;
        }
    return sum / all;
}

/* Which cells take; the state of the air. */
static double wetting(double rate, double in, meeting m[2])
{
    for (size_t k = 0; k < 2; ++k)
        m[k].takes = m[k].x < in;
    const double x = mix(rate, in, m);
    for (size_t k = 0; k < 2; ++k)
        m[k].takes = m[k].takes && m[k].x < x;
    return mix(rate, in, m);
}

/* What cell k gets, and its slopes by both cells' states. */
static double given(double rate, double x, const meeting m[2], size_t k,
                    double by[2][2])
{
    double all = rate;
    memset(by, 0, 2 * sizeof *by);
    if (!m[k].takes)
        return 0;
    for (size_t j = 0; j < 2; ++j)
        all += m[j].takes ? m[j].c : 0;
    for (size_t j = 0; j < 2; ++j)
        for (size_t s = 0; m[j].takes && s < 2; ++s) {
            const double x_by =
                (m[j].c_by[s] * (m[j].x - x) + m[j].c * m[j].x_by[s]) / all;
            by[j][s] = m[k].c * x_by;
            if (j == k)
                by[j][s] += m[k].c_by[s] * (x - m[k].x) - m[k].c * m[k].x_by[s];
        }
    return m[k].c * (x - m[k].x);
}

static void add_warmth(bw_sheet_past *out, double rate, double in, meeting m[2])
{
    double by[2][2];
    const double x = mix(rate, in, m);
    for (size_t k = 0; k < 2; ++k) {
        out->q[k] += given(rate, x, m, k, by);
        for (size_t j = 0; j < 2; ++j)
            for (size_t s = 0; s < 2; ++s)
                out->slope[k][j][s] += by[j][s];
    }
}

void bw_sheet_air_past(bw_sheet_past *out, const bw_sheet *sheet,
                       const bw_sheet_airflow *air,
                       const bw_sheet_weather *weather, const double *v,
                       const bw_cells *cells, bool slopes)
{
    const bw_sheet_face *f = &sheet->face[air->face];
    const bw_sheet_air *room = &weather->side[air->side];
    const double rate = air->flow / (sheet->r_v * (room->theta + BW_KELVIN));
    const size_t cell[2] = {f->a, f->b};
    const double away[2] = {f->half_a, f->half_b};
    meeting vapour[2], warmth[2];
    memset(out, 0, sizeof *out);
    for (size_t k = 0; k < 2; ++k) {
        const bw_cell c = bw_sheet_half(cells, cell[k], away[k]);
        vapour[k] = meet(f->length, LEWIS * CONVECTION, c.rv,
                         slopes ? c.rv_t : 0, slopes ? c.rv_z : 0);
        vapour[k].x = c.p;
        warmth[k] = meet(f->length, CONVECTION, c.rt, 0, slopes ? c.rt_z : 0);
        warmth[k].x = v[2 * cell[k]];
        warmth[k].x_by[0] = 1;
        if (slopes)
            memcpy(vapour[k].x_by, (double[2]){c.p_t, c.p_z},
                   sizeof vapour[k].x_by);
    }
    out->p = air->all ? mix(rate, room->p, vapour)
                      : wetting(rate, room->p, vapour);
    for (size_t k = 0; k < 2; ++k) {
        double by[2][2];
        const double carried = sheet->latent + BW_WATER_HEAT * v[2 * cell[k]];
        out->g[k] = given(rate, out->p, vapour, k, by);
        out->q[k] = carried * out->g[k];
        for (size_t j = 0; j < 2; ++j)
            for (size_t s = 0; s < 2; ++s) {
                out->slope[k][j][2 + s] = by[j][s];
                out->slope[k][j][s] = carried * by[j][s];
            }
        out->slope[k][k][0] += BW_WATER_HEAT * out->g[k];
    }
    if (air->all)
        add_warmth(out, air->flow * BW_AIR_HEAT, room->theta, warmth);
}

/* ---- where ----------------------------------------------------------------
 */

bw_status bw_hour_air_make(bw_sheet_model *model, bw_arena *arena,
                           const bw_raster *raster, bw_error *err)
{
    const bw_junction *j = raster->junction;
    bw_sheet *s = &model->sheet;
    bw_sheet_airflow *air = BW_NEW(arena, bw_sheet_airflow,
                                   j->air_count * s->face_count + 1);
    size_t count = 0;
    BW_TRY_MEMORY(air != NULL, err);
    for (size_t k = 0; k < j->air_count; ++k) {
        const bw_drawn_air *of = &j->air[k];
        const size_t first = count;
        double sum = 0.0;
        for (size_t f = 0; of->flow > 0.0 && f < s->face_count; ++f) {
            const double length = bw_hour_face_in(model, raster, f, &of->at);
            if (!(length > 0.0))
                continue;
            sum += length;
            air[count++] = (bw_sheet_airflow){f, of->environment,
                                              of->flow * length, of->all};
        }
        if (of->flow > 0.0 && count == first)
            return bw_fail(err, BW_ERR_DOMAIN, j->file, of->line,
                           "the room air at \"%.60s\" finds no face between "
                           "two materials in the drawing",
                           of->name);
        for (size_t i = first; i < count; ++i)
            air[i].flow /= sum;
    }
    s->air = air;
    s->air_count = count;
    return BW_OK;
}
