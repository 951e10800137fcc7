/* Pieces of wood, cells of one material that touch: day by day the wettest 10
 * mm by 10 mm of each, its line of embedded timber and its decay dose. In a
 * plane wall that is the wettest 10 mm of one dimension (wood.c of the folder
 * transient).
 *
 * Invariant: a block lies within its piece and is 10 mm deep both ways, or as
 * deep as the piece is. */

#include <math.h>
#include <stdint.h>

#include "bothways/decay.h"
#include "fail.h"
#include "hour_wood.h"

static const double WOOD_DEPTH = 0.010; /* m, as in one dimension */
static const double WOOD_LIMIT = 0.20;  /* kg/kg, DIN 68800-2 */
static const double PANEL_LIMIT = 0.18; /* kg/kg */
enum { DAYS = BW_TRANSIENT_DAYS, QUADRANTS = 4, DAY = 24 };

/* ---- pieces ---------------------------------------------------------------
 */

static const bw_drawn_material *drawn_at(const bw_hour_watch *w, size_t cell)
{
    const bw_raster *r = w->raster;
    return &r->junction->material[r->material[w->model->raster[cell]]];
}

static bool is_wood(const bw_hour_watch *w, size_t cell)
{
    const bw_drawn_material *m = drawn_at(w, cell);
    return !m->air && m->material->wood_kind != BW_NOT_WOOD;
}

/* Each cell the lowest number of those that it touches, until none changes. */
static void spread(const bw_hour_watch *w)
{
    const bw_sheet *s = &w->model->sheet;
    bool changed = true;
    while (changed) {
        changed = false;
        for (size_t f = 0; f < s->face_count; ++f) {
            size_t *a = &w->wood_of[s->face[f].a];
            size_t *b = &w->wood_of[s->face[f].b];
            if (*a == SIZE_MAX || *b == SIZE_MAX || *a == *b ||
                drawn_at(w, s->face[f].a) != drawn_at(w, s->face[f].b))
                continue;
            *a = *b = *a < *b ? *a : *b;
            changed = true;
        }
    }
}

static void add_piece(bw_hour_watch *w, size_t cell)
{
    const bw_drawn_material *m = drawn_at(w, cell);
    w->wood[w->out->wood_count++] = (bw_hour_wood){
        .name = m->name,
        .material = m->material,
        .limit = m->material->wood_kind == BW_WOOD_PANEL ? PANEL_LIMIT
                                                         : WOOD_LIMIT};
}

static bw_status find_pieces(bw_hour_watch *w, bw_error *err)
{
    const bw_sheet *s = &w->model->sheet;
    size_t pieces = 0;
    w->wood_of = BW_NEW(w->arena, size_t, s->n);
    size_t *number = BW_NEW(w->arena, size_t, s->n);
    BW_TRY_MEMORY(w->wood_of != NULL && number != NULL, err);
    for (size_t c = 0; c < s->n; ++c)
        w->wood_of[c] = is_wood(w, c) ? c : SIZE_MAX;
    spread(w);
    for (size_t c = 0; c < s->n; ++c)
        if (w->wood_of[c] == c)
            number[c] = pieces++;
    w->wood = BW_NEW(w->keep, bw_hour_wood, pieces + 1);
    w->last = BW_NEW(w->arena, bw_hour_wood_day, (pieces + 1) * DAYS);
    w->day = BW_NEW(w->arena, bw_hour_day, s->n);
    BW_TRY_MEMORY(!w->arena->failed && !w->keep->failed, err);
    w->out->wood = w->wood;
    for (size_t c = 0; c < s->n; ++c) {
        if (w->wood_of[c] == SIZE_MAX)
            continue;
        if (w->wood_of[c] == c)
            add_piece(w, c);
        w->wood_of[c] = number[w->wood_of[c]];
    }
    for (size_t e = 0; e < s->edge_count; ++e) {
        const size_t piece = w->wood_of[s->edge[e].cell];
        const size_t at = w->raster->face[e].environment;
        if (!w->sheltered && piece != SIZE_MAX &&
            w->raster->junction->environment[at].kind == BW_ENVIRONMENT_OUTSIDE)
            w->wood[piece].exposed = true;
    }
    return BW_OK;
}

/* ---- blocks ---------------------------------------------------------------
 */

/* The sheet's cell of a raster's, if it is of that piece. */
static bool of_piece(const bw_hour_watch *w, size_t i, size_t j, size_t piece)
{
    const bw_raster *r = w->raster;
    if (i >= r->nx || j >= r->ny)
        return false;
    const size_t cell = w->model->cell[j * r->nx + i];
    return cell != SIZE_MAX && w->wood_of[cell] == piece;
}

/* How many cells from (i, j) on one way make up the depth; 0: the piece ends
 * before and goes on the other way. */
static size_t cells_deep(const bw_hour_watch *w, size_t i, size_t j, bool x,
                         bool up, size_t piece)
{
    const double *line = x ? w->raster->x : w->raster->y;
    double depth = 0.0;
    size_t count = 0;
    for (size_t a = i, b = j;
         depth < WOOD_DEPTH - 1e-9 && of_piece(w, a, b, piece); ++count) {
        const size_t at = x ? a : b;
        depth += line[at + 1] - line[at];
        if (x)
            a = up ? a + 1 : a - 1;
        else
            b = up ? b + 1 : b - 1;
    }
    const bool more = x ? of_piece(w, up ? i - 1 : i + 1, j, piece)
                        : of_piece(w, i, up ? j - 1 : j + 1, piece);
    return depth < WOOD_DEPTH - 1e-9 && more ? 0 : count;
}

static bool add_block(bw_hour_watch *w, size_t cell, size_t quadrant)
{
    const bw_raster *r = w->raster;
    const size_t piece = w->wood_of[cell], at = w->model->raster[cell];
    const size_t i = at % r->nx, j = at / r->nx;
    const bool right = quadrant % 2 == 0, up = quadrant / 2 == 0;
    const size_t wide = cells_deep(w, i, j, true, right, piece);
    const size_t high = cells_deep(w, i, j, false, up, piece);
    if (wide == 0 || high == 0)
        return true;
    bw_hour_block block = {.from = w->blocks.count, .wood = piece};
    double dy = WOOD_DEPTH;
    for (size_t b = 0; b < high; ++b) {
        const size_t jj = up ? j + b : j - b;
        const double y = fmin(dy, r->y[jj + 1] - r->y[jj]);
        double dx = WOOD_DEPTH;
        dy -= y;
        for (size_t a = 0; a < wide; ++a) {
            const size_t ii = right ? i + a : i - a;
            const double x = fmin(dx, r->x[ii + 1] - r->x[ii]);
            dx -= x;
            if (of_piece(w, ii, jj, piece) &&
                !bw_hour_part_add(&w->blocks, w->arena,
                                  w->model->cell[jj * r->nx + ii], x * y))
                return false;
        }
    }
    block.to = w->blocks.count;
    w->block = bw_arena_more(w->arena, w->block, w->block_count, &w->block_room,
                             sizeof *w->block);
    if (w->block == NULL)
        return false;
    w->block[w->block_count++] = block;
    return true;
}

bw_status bw_hour_wood_make(bw_hour_watch *w, bw_error *err)
{
    enum { FIRST = 64 };
    BW_TRY(find_pieces(w, err));
    w->block_room = FIRST;
    w->block = BW_NEW(w->arena, bw_hour_block, FIRST);
    BW_TRY_MEMORY(w->block != NULL, err);
    for (size_t c = 0; c < w->model->sheet.n; ++c)
        for (size_t q = 0; w->wood_of[c] != SIZE_MAX && q < QUADRANTS; ++q)
            BW_TRY_MEMORY(add_block(w, c, q), err);
    return BW_OK;
}

/* ---- days -----------------------------------------------------------------
 */

void bw_hour_wood_year(bw_hour_watch *w)
{
    for (size_t k = 0; k < w->out->wood_count; ++k)
        w->wood[k].highest = w->wood[k].hours_above = 0.0;
    bw_hour_day *day = w->day;
    for (size_t c = 0; c < w->model->sheet.n; ++c)
        day[c] = (bw_hour_day){0};
}

static bw_hour_wood_day mean_of(const bw_hour_watch *w,
                                const bw_hour_block *block)
{
    bw_hour_wood_day mean = {0};
    double area = 0.0;
    for (size_t i = block->from; i < block->to; ++i) {
        const bw_hour_part *part = &w->blocks.part[i];
        const bw_hour_day *day = &w->day[part->cell];
        area += part->by;
        mean.moisture += part->by * day->water;
        mean.theta += part->by * day->theta;
        mean.phi += part->by * day->phi;
    }
    const double all = DAY * area;
    const double rho = w->wood[block->wood].material->density.value;
    mean.moisture /= all * rho;
    mean.theta /= all;
    mean.phi /= all;
    bw_hour_middle(w, w->blocks.part[block->from].cell, &mean.x, &mean.y);
    return mean;
}

static void end_day(bw_hour_watch *w, size_t day, int month)
{
    for (size_t k = 0; k < w->out->wood_count; ++k)
        w->last[k * DAYS + day].moisture = -1.0;
    for (size_t b = 0; b < w->block_count; ++b) {
        const bw_hour_wood_day mean = mean_of(w, &w->block[b]);
        bw_hour_wood_day *most = &w->last[w->block[b].wood * DAYS + day];
        if (mean.moisture > most->moisture)
            *most = mean;
    }
    for (size_t k = 0; k < w->out->wood_count; ++k) {
        const bw_hour_wood_day *most = &w->last[k * DAYS + day];
        bw_hour_wood *wood = &w->wood[k];
        wood->hours_above += most->moisture > wood->limit ? DAY : 0;
        if (most->moisture <= wood->highest)
            continue;
        wood->highest = most->moisture;
        wood->month = month;
        wood->x = most->x;
        wood->y = most->y;
    }
    for (size_t c = 0; c < w->model->sheet.n; ++c)
        w->day[c] = (bw_hour_day){0};
}

void bw_hour_wood_hour(bw_hour_watch *w, const bw_sheet_solver *s, int month)
{
    for (size_t c = 0; c < w->model->sheet.n; ++c) {
        if (w->wood_of[c] == SIZE_MAX)
            continue;
        w->day[c].water += bw_cells_water(&s->cells, c);
        w->day[c].theta += s->v[2 * c];
        w->day[c].phi += bw_cells_phi(&s->cells, c);
    }
    if ((w->hour + 1) % DAY == 0)
        end_day(w, (size_t)(w->hour / DAY), month);
}

void bw_hour_wood_end_year(bw_hour_watch *w)
{
    double theta[DAYS], phi[DAYS], moisture[DAYS];
    for (size_t k = 0; k < w->out->wood_count; ++k) {
        bw_hour_wood *wood = &w->wood[k];
        if (!(wood->highest > 0.0)) { /* no block is deep enough */
            wood->highest = (double)NAN;
            continue;
        }
        for (size_t d = 0; d < DAYS; ++d) {
            const bw_hour_wood_day *day = &w->last[k * DAYS + d];
            theta[d] = day->theta;
            phi[d] = day->phi;
            moisture[d] = day->moisture;
        }
        const bw_timber_line_result line = bw_timber_line_year(theta, phi,
                                                               DAYS);
        wood->days_above_line = (double)line.days_above;
        wood->overshoot = line.overshoot;
        wood->dose = bw_decay_dose_year(moisture, theta, DAYS,
                                        BW_DECAY_DOSE_CRITICAL)
                         .dose;
        if (w->out->years == 0) {
            wood->first_dose = wood->dose;
            wood->first_highest = wood->highest;
        }
    }
}
