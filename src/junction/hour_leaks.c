/* Rain that gets past the outer face into a drawing.
 *
 *   of a wall     g = f r             along the face where its file has it
 *   of a place    g = f r h/l         along the faces there, l long in all
 *
 * g [kg/(m2 s)] of face within, f the fraction, r [kg/(m2 s)] the driving rain
 * on the wall (side_hours.h), h [m] of outer face whose rain comes there. Of
 * the two cells at a face the one that stores more takes it, as in one
 * dimension (model.c of the folder transient).
 *
 * Invariant: what leaks in is all put somewhere, or nothing is simulated. */

#include <math.h>

#include "bothways/transient.h"
#include "fail.h"
#include "hour_leaks.h"

/* A face of cells: one of those is none (SIZE_MAX) at the rim. */
typedef struct seam {
    size_t a, b; /* cells of the sheet */
    double x0, x1, y0, y1;
} seam;

static seam seam_of(const bw_sheet_model *m, const bw_raster *r, size_t face)
{
    const bw_sheet_face *f = &m->sheet.face[face];
    const size_t a = m->raster[f->a], b = m->raster[f->b];
    const size_t later = a > b ? a : b, i = later % r->nx, j = later / r->nx;
    const bool upright = later - (a > b ? b : a) == 1;
    return (seam){f->a,    f->b,
                  r->x[i], upright ? r->x[i] : r->x[i + 1],
                  r->y[j], upright ? r->y[j + 1] : r->y[j]};
}

static seam rim_of(const bw_sheet_model *m, const bw_raster *r, size_t edge)
{
    const bw_raster_face *f = &r->face[edge];
    const bool upright = f->side == BW_EDGE_LEFT || f->side == BW_EDGE_RIGHT;
    const double half = 0.5 * f->length;
    return (seam){m->sheet.edge[edge].cell,     SIZE_MAX,
                  upright ? f->x : f->x - half, upright ? f->x : f->x + half,
                  upright ? f->y - half : f->y, upright ? f->y + half : f->y};
}

/* m of it that lie in the rectangle, or on the line. */
static double length_in(const seam *s, const bw_rectangle *at)
{
    static const double NEAR = 1e-7; /* m */
    const double x0 = fmax(s->x0, at->x0), x1 = fmin(s->x1, at->x1);
    const double y0 = fmax(s->y0, at->y0), y1 = fmin(s->y1, at->y1);
    if (x1 - x0 < -NEAR || y1 - y0 < -NEAR)
        return 0.0;
    return s->x1 > s->x0 ? fmax(x1 - x0, 0.0) : fmax(y1 - y0, 0.0);
}

static bool between(const bw_sheet_face *f)
{
    return !f->face.same || f->face.film != NULL;
}

double bw_hour_face_in(const bw_sheet_model *model, const bw_raster *raster,
                       size_t face, const bw_rectangle *at)
{
    const seam s = seam_of(model, raster, face);
    return between(&model->sheet.face[face]) ? length_in(&s, at) : 0.0;
}

static size_t thirstier(const bw_sheet *sheet, const seam *s)
{
    static const double RH = 0.8; /* likewise */
    if (s->b == SIZE_MAX)
        return s->a;
    return bw_hygro_water(sheet->hygro[s->b], RH) >
                   bw_hygro_water(sheet->hygro[s->a], RH)
               ? s->b
               : s->a;
}

typedef struct placing {
    bw_sheet_model *model;
    const bw_raster *raster;
    bw_sheet_leak *leak;
    size_t count;
    double length; /* m, of the place at hand */
} placing;

static void take(placing *p, const bw_drawn_leak *leak, const seam *s)
{
    const double length = length_in(s, &leak->at);
    if (!(length > 0.0))
        return;
    p->length += length;
    p->leak[p->count++] = (bw_sheet_leak){
        .cell = thirstier(&p->model->sheet, s),
        .rain = leak->wall >= 0 ? (size_t)leak->wall : BW_SHEET_RAINS - 1,
        .by = leak->fraction * length};
}

/* A place takes water between two materials; a wall's line wherever it is. */
static void place(placing *p, const bw_drawn_leak *leak)
{
    const bw_sheet *s = &p->model->sheet;
    const size_t first = p->count;
    p->length = 0.0;
    for (size_t f = 0; f < s->face_count; ++f) {
        const seam at = seam_of(p->model, p->raster, f);
        if (leak->wall >= 0 || between(&s->face[f]))
            take(p, leak, &at);
    }
    for (size_t e = 0; leak->wall >= 0 && e < s->edge_count; ++e) {
        const seam at = rim_of(p->model, p->raster, e);
        take(p, leak, &at);
    }
    for (size_t k = first; leak->wall < 0 && k < p->count; ++k)
        p->leak[k].by *= leak->face / p->length;
}

/* The rain that strikes the outer face of a wall: all of it, as if it leaked.
 */
static bw_status find_rain(const double **out, bw_arena *arena,
                           const bw_junction *j, size_t rain,
                           const bw_climate *climate, bw_error *err)
{
    const bw_transient_options all = {.max_years = 1, .rain_leak = 1.0};
    bw_assembly wall = {.file = j->file,
                        .id = j->id,
                        .title = j->title,
                        .remark = j->remark,
                        .outdoors = j->outdoors};
    for (size_t e = 0; e < j->environment_count; ++e)
        if (j->environment[e].kind == BW_ENVIRONMENT_ROOM)
            wall.indoors = j->environment[e].indoors;
    if (rain < j->wall_count)
        wall.outdoors = j->wall[rain]->outdoors;
    bw_year *year = BW_NEW(arena, bw_year, 1);
    double *hour = BW_NEW(arena, double, BW_YEAR_HOURS);
    BW_TRY_MEMORY(year != NULL && hour != NULL, err);
    BW_TRY(bw_year_make(year, &wall, climate, &all, err));
    for (size_t h = 0; h < BW_YEAR_HOURS; ++h)
        hour[h] = year->hour[h].rain_leak;
    *out = hour;
    return BW_OK;
}

bw_status bw_hour_leaks_make(bw_hour_leaks *out, bw_sheet_model *model,
                             bw_arena *arena, const bw_raster *raster,
                             const bw_climate *climate, bw_error *err)
{
    const bw_junction *j = raster->junction;
    bw_sheet *s = &model->sheet;
    const size_t most = j->leak_count * (s->face_count + s->edge_count);
    placing p = {.model = model,
                 .raster = raster,
                 .leak = BW_NEW(arena, bw_sheet_leak, most + 1)};
    *out = (bw_hour_leaks){{NULL}};
    BW_TRY_MEMORY(p.leak != NULL, err);
    for (size_t k = 0; k < j->leak_count; ++k) {
        const bw_drawn_leak *leak = &j->leak[k];
        if (!(leak->fraction > 0.0))
            continue;
        place(&p, leak);
        if (!(p.length > 0.0))
            return bw_fail(err, BW_ERR_DOMAIN, j->file, leak->line,
                           "the rain leak of \"%.60s\" finds no face between "
                           "two materials in the drawing",
                           leak->name);
        const size_t rain = leak->wall >= 0 ? (size_t)leak->wall
                                            : BW_SHEET_RAINS - 1;
        if (out->rain[rain] == NULL)
            BW_TRY(find_rain(&out->rain[rain], arena, j, rain, climate, err));
    }
    s->leak = p.leak;
    s->leak_count = p.count;
    return BW_OK;
}

bool bw_hour_leak_outside(const bw_junction *j, size_t wall)
{
    for (size_t k = 0; k < j->leak_count; ++k)
        if (j->leak[k].wall == (long)wall)
            return false;
    return j->wall[wall]->rain_leak.given &&
           j->wall[wall]->rain_leak.fraction > 0.0;
}
