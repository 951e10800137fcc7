/* Painting a drawing: spaces first, then fillings in their order (but under a
 * space over="yes" of a later line), on the rectangles between all its lines.
 *
 * Invariant of a drawing that passes: every edge of a material lies against
 * another, against an environment or on a side that is cut at a symmetry plane,
 * from every material an environment can be reached, no room lies open to other
 * air, and every film lies on a material. */

#include "patches.h"

#include <math.h>
#include <stdlib.h>

#include "fail.h"

/* ---- lines ----------------------------------------------------------------
 */

static int by_value(const void *a, const void *b)
{
    const double *x = a, *y = b;
    return (*x > *y) - (*x < *y);
}

/* Sorts and leaves one of those that are the same. */
static size_t settle(double *line, size_t count)
{
    size_t kept = 0;
    qsort(line, count, sizeof *line, by_value);
    for (size_t i = 0; i < count; i++)
        if (kept == 0 || line[i] - line[kept - 1] > BW_ONE_LINE)
            line[kept++] = line[i];
    return kept;
}

size_t bw_line_at(const double *line, size_t count, double value)
{
    for (size_t i = 0; i < count; i++)
        if (fabs(line[i] - value) <= BW_ONE_LINE)
            return i;
    return count;
}

typedef struct lines {
    double *x, *y;
    size_t count;
} lines;

static void add(lines *all, double x0, double x1, double y0, double y1)
{
    all->x[all->count] = x0;
    all->y[all->count++] = y0;
    all->x[all->count] = x1;
    all->y[all->count++] = y1;
}

/* A line more, within the drawing. */
static void add_within(double *line, size_t count, size_t *more, double at)
{
    double least = HUGE_VAL, most = -HUGE_VAL;
    for (size_t i = 0; i < count; i++) {
        least = fmin(least, line[i]);
        most = fmax(most, line[i]);
    }
    if (at > least && at < most)
        line[count + (*more)++] = at;
}

static void add_place(lines *all, const bw_rectangle *r, size_t *nx, size_t *ny)
{
    add_within(all->x, all->count, nx, r->x0);
    add_within(all->x, all->count, nx, r->x1);
    add_within(all->y, all->count, ny, r->y0);
    add_within(all->y, all->count, ny, r->y1);
}

/* Where a place of a leak or of air ends, cells do. */
static void add_places(lines *all, const bw_junction *j, size_t *nx, size_t *ny)
{
    *nx = *ny = 0;
    for (size_t i = 0; i < j->leak_count; i++)
        if (j->leak[i].wall < 0)
            add_place(all, &j->leak[i].at, nx, ny);
    for (size_t i = 0; i < j->air_count; i++)
        add_place(all, &j->air[i].at, nx, ny);
    *nx += all->count;
    *ny += all->count;
}

static bw_status find_lines(bw_patches *p, const bw_junction *j,
                            bw_arena *arena, bw_error *err)
{
    const size_t most = 2 * (j->filling_count + j->space_count +
                             j->film_line_count + j->leak_count + j->air_count);
    lines all = {BW_NEW(arena, double, most), BW_NEW(arena, double, most), 0};
    BW_TRY_MEMORY(all.x != NULL && all.y != NULL, err);
    for (size_t i = 0; i < j->filling_count; i++) {
        const bw_rectangle *r = &j->filling[i].at;
        add(&all, r->x0, r->x1, r->y0, r->y1);
    }
    for (size_t i = 0; i < j->space_count; i++) {
        const bw_rectangle *r = &j->space[i].at;
        add(&all, r->x0, r->x1, r->y0, r->y1);
    }
    for (size_t i = 0; i < j->film_line_count; i++) {
        const bw_film_line *f = &j->film_line[i];
        add(&all, f->x0, f->x1, f->y0, f->y1);
    }
    p->x = all.x;
    p->y = all.y;
    size_t nx, ny;
    add_places(&all, j, &nx, &ny);
    nx = settle(p->x, nx);
    ny = settle(p->y, ny);
    if (j->filling_count == 0 || nx < 2 || ny < 2)
        return bw_fail(err, BW_ERR_INPUT, j->file, 0,
                       "the drawing holds no material");
    p->nx = nx - 1;
    p->ny = ny - 1;
    return BW_OK;
}

/* ---- painting --------------------------------------------------------------
 */

typedef struct painting {
    bw_patches *p;
    const bw_junction *j;
    bw_arena *arena;
    bw_error *err;
} painting;

typedef struct range {
    size_t i0, i1, j0, j1;
} range;

static range range_of(const bw_patches *p, const bw_rectangle *r)
{
    return (range){
        bw_line_at(p->x, p->nx + 1, r->x0), bw_line_at(p->x, p->nx + 1, r->x1),
        bw_line_at(p->y, p->ny + 1, r->y0), bw_line_at(p->y, p->ny + 1, r->y1)};
}

/* "x 0 to 80 mm, y 330 mm" */
static const char *place(const painting *w, double x0, double x1, double y0,
                         double y1)
{
    const char *x = x1 > x0 ? bw_arena_say(w->arena, "x %.6g to %.6g mm",
                                           1e3 * x0, 1e3 * x1)
                            : bw_arena_say(w->arena, "x %.6g mm", 1e3 * x0);
    const char *y = y1 > y0 ? bw_arena_say(w->arena, "y %.6g to %.6g mm",
                                           1e3 * y0, 1e3 * y1)
                            : bw_arena_say(w->arena, "y %.6g mm", 1e3 * y0);
    return bw_arena_say(w->arena, "%s, %s", x, y);
}

static const char *place_of(const painting *w, size_t i, size_t j)
{
    const bw_patches *p = w->p;
    return place(w, p->x[i], p->x[i + 1], p->y[j], p->y[j + 1]);
}

static const char *name_of(const painting *w, int filling)
{
    return w->j->material[w->j->filling[filling].material].name;
}

static const char *space_name(const painting *w, int space)
{
    return w->j->environment[w->j->space[space].environment].id;
}

static bw_status paint_spaces(painting *w)
{
    bw_patches *p = w->p;
    for (size_t s = 0; s < w->j->space_count; s++) {
        range r = range_of(p, &w->j->space[s].at);
        for (size_t j = r.j0; j < r.j1; j++)
            for (size_t i = r.i0; i < r.i1; i++) {
                int *here = &p->space[j * p->nx + i];
                if (*here != BW_NOT_THERE && !w->j->space[s].over &&
                    w->j->space[*here].environment !=
                        w->j->space[s].environment)
                    return bw_fail(
                        w->err, BW_ERR_INPUT, w->j->file, w->j->space[s].line,
                        "the space of \"%.60s\" overlaps that of \"%.60s\" "
                        "(line %ld) at %s; a place has one air (over=\"yes\" "
                        "takes its place)",
                        space_name(w, (int)s), space_name(w, *here),
                        w->j->space[*here].line, place_of(w, i, j));
                *here = (int)s;
            }
    }
    return BW_OK;
}

static bw_status paint_one(painting *w, size_t f, size_t i, size_t j)
{
    bw_patches *p = w->p;
    const bw_filling *filling = &w->j->filling[f];
    int *here = &p->filling[j * p->nx + i];
    int *space = &p->space[j * p->nx + i];
    /* a niche: drawn later than what it takes the place of */
    if (*space != BW_NOT_THERE && w->j->space[*space].over &&
        w->j->space[*space].line > filling->line)
        return BW_OK;
    if (*here != BW_NOT_THERE && !filling->over)
        return bw_fail(w->err, BW_ERR_INPUT, w->j->file, filling->line,
                       "\"%.60s\" overlaps \"%.60s\" (line %ld) at %s; if it "
                       "is meant to take its place, say over=\"yes\"",
                       name_of(w, (int)f), name_of(w, *here),
                       w->j->filling[*here].line, place_of(w, i, j));
    if (*space != BW_NOT_THERE && !filling->over)
        return bw_fail(w->err, BW_ERR_INPUT, w->j->file, filling->line,
                       "\"%.60s\" overlaps the space of \"%.60s\" (line %ld) "
                       "at %s: a room inside a wall; if the material is meant "
                       "to stand in it, say over=\"yes\"",
                       name_of(w, (int)f), space_name(w, *space),
                       w->j->space[*space].line, place_of(w, i, j));
    *here = (int)f;
    *space = BW_NOT_THERE;
    return BW_OK;
}

static bw_status paint_fillings(painting *w)
{
    for (size_t f = 0; f < w->j->filling_count; f++) {
        range r = range_of(w->p, &w->j->filling[f].at);
        for (size_t j = r.j0; j < r.j1; j++)
            for (size_t i = r.i0; i < r.i1; i++)
                BW_TRY(paint_one(w, f, i, j));
    }
    return BW_OK;
}

static bw_status check_hidden(painting *w)
{
    const size_t count = w->p->nx * w->p->ny;
    for (size_t f = 0; f < w->j->filling_count; f++) {
        bool seen = false;
        for (size_t c = 0; c < count && !seen; c++)
            seen = w->p->filling[c] == (int)f;
        if (!seen)
            return bw_fail(w->err, BW_ERR_INPUT, w->j->file,
                           w->j->filling[f].line,
                           "\"%.60s\" lies wholly below others that are drawn "
                           "over it, and is nowhere",
                           name_of(w, (int)f));
    }
    return BW_OK;
}

/* ---- edges -----------------------------------------------------------------
 */

static const char *name_of_edge(bw_cell_side edge)
{
    switch (edge) {
    case BW_EDGE_LEFT:
        return "left";
    case BW_EDGE_RIGHT:
        return "right";
    case BW_EDGE_BELOW:
        return "below";
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    return "above";
}

/* Where the neighbour beyond an edge of a patch is; false: beyond the drawing.
 */
static bool beyond(const bw_patches *p, size_t i, size_t j, bw_cell_side edge,
                   size_t *c)
{
    const size_t here = j * p->nx + i;
    switch (edge) {
    case BW_EDGE_LEFT:
        *c = here - 1;
        return i > 0;
    case BW_EDGE_RIGHT:
        *c = here + 1;
        return i + 1 < p->nx;
    case BW_EDGE_BELOW:
        *c = here - p->nx;
        return j > 0;
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    *c = here + p->nx;
    return j + 1 < p->ny;
}

static const char *place_of_edge(const painting *w, size_t i, size_t j,
                                 bw_cell_side edge)
{
    const bw_patches *p = w->p;
    double x0 = p->x[i], x1 = p->x[i + 1], y0 = p->y[j], y1 = p->y[j + 1];
    switch (edge) {
    case BW_EDGE_LEFT:
        return place(w, x0, x0, y0, y1);
    case BW_EDGE_RIGHT:
        return place(w, x1, x1, y0, y1);
    case BW_EDGE_BELOW:
        return place(w, x0, x1, y0, y0);
    case BW_EDGE_ABOVE:
    case BW_EDGES:
        break;
    }
    return place(w, x0, x1, y1, y1);
}

static bw_status check_edge(painting *w, size_t i, size_t j, bw_cell_side edge)
{
    const bw_patches *p = w->p;
    const int filling = p->filling[j * p->nx + i];
    const long line = w->j->filling[filling].line;
    size_t c;
    if (!beyond(p, i, j, edge, &c)) {
        if (w->j->symmetry[edge])
            return BW_OK;
        return bw_fail(w->err, BW_ERR_INPUT, w->j->file, line,
                       "\"%.60s\" has an edge to nothing at %s, the side of "
                       "the drawing called %s; draw the space beyond it, or "
                       "say <symmetry side=\"%s\"/> where it goes on the same",
                       name_of(w, filling), place_of_edge(w, i, j, edge),
                       name_of_edge(edge), name_of_edge(edge));
    }
    if (p->filling[c] == BW_NOT_THERE && p->space[c] == BW_NOT_THERE)
        return bw_fail(w->err, BW_ERR_INPUT, w->j->file, line,
                       "\"%.60s\" has an edge to nothing at %s: a gap; fill it "
                       "with a material, or draw a space of a room or of "
                       "outside there",
                       name_of(w, filling), place_of_edge(w, i, j, edge));
    return BW_OK;
}

/* ---- what lies open, or on nothing -----------------------------------------
 */

static bw_environment_kind kind_of(const painting *w, int space)
{
    return w->j->environment[w->j->space[space].environment].kind;
}

/* A room against other air: what would stand between them is not drawn, and
 * its surface would be missed. */
static bw_status check_open(painting *w, size_t i, size_t j, bw_cell_side edge)
{
    const bw_patches *p = w->p;
    const int here = p->space[j * p->nx + i];
    size_t c;
    if (here == BW_NOT_THERE || !beyond(p, i, j, edge, &c))
        return BW_OK;
    const int there = p->space[c];
    if (there == BW_NOT_THERE ||
        w->j->space[here].environment == w->j->space[there].environment ||
        (kind_of(w, here) != BW_ENVIRONMENT_ROOM &&
         kind_of(w, there) != BW_ENVIRONMENT_ROOM))
        return BW_OK;
    return bw_fail(w->err, BW_ERR_INPUT, w->j->file,
                   w->j->space[here > there ? here : there].line,
                   "the spaces of \"%.60s\" and \"%.60s\" lie open to each "
                   "other at %s; draw what stands between them",
                   space_name(w, here), space_name(w, there),
                   place_of_edge(w, i, j, edge));
}

static bool is_filled(const bw_patches *p, size_t i, size_t j)
{
    return i < p->nx && j < p->ny && p->filling[j * p->nx + i] != BW_NOT_THERE;
}

/* A film in the air, or beyond the drawing, stops nothing. */
static bw_status check_films(painting *w)
{
    const bw_patches *p = w->p;
    for (size_t f = 0; f < w->j->film_line_count; f++) {
        const bw_film_line *line = &w->j->film_line[f];
        const bw_rectangle at = {line->x0, line->x1, line->y0, line->y1};
        const range r = range_of(p, &at);
        const bool upright = r.i0 == r.i1;
        bool lies = false; /* i0 - 1 of 0 is past the last */
        for (size_t j = r.j0; upright && j < r.j1; j++)
            lies |= is_filled(p, r.i0 - 1, j) || is_filled(p, r.i0, j);
        for (size_t i = r.i0; !upright && i < r.i1; i++)
            lies |= is_filled(p, i, r.j0 - 1) || is_filled(p, i, r.j0);
        if (!lies)
            return bw_fail(w->err, BW_ERR_INPUT, w->j->file, line->line,
                           "the film \"%.60s\" at %s lies on no material",
                           w->j->film[line->film].name,
                           place(w, line->x0, line->x1, line->y0, line->y1));
    }
    return BW_OK;
}

/* ---- reach -----------------------------------------------------------------
 */

typedef struct reach {
    bool *seen;   /* patches */
    size_t *wait; /* patches whose neighbours are to be looked at */
    size_t waiting;
    bool *touched; /* environments */
} reach;

static bool look_around(const painting *w, reach *r, size_t c)
{
    const bw_patches *p = w->p;
    bool touches = false;
    for (int e = 0; e < BW_EDGES; e++) {
        size_t n;
        if (!beyond(p, c % p->nx, c / p->nx, (bw_cell_side)e, &n))
            continue;
        if (p->space[n] != BW_NOT_THERE) {
            r->touched[w->j->space[p->space[n]].environment] = true;
            touches = true;
        } else if (p->filling[n] != BW_NOT_THERE && !r->seen[n]) {
            r->seen[n] = true;
            r->wait[r->waiting++] = n;
        }
    }
    return touches;
}

static bw_status check_touched(painting *w, const reach *r)
{
    size_t touched = 0;
    for (size_t e = 0; e < w->j->environment_count; e++) {
        if (!r->touched[e])
            return bw_fail(w->err, BW_ERR_INPUT, w->j->file, 0,
                           "\"%.60s\" touches no material of the drawing",
                           w->j->environment[e].id);
        touched++;
    }
    if (touched < 2)
        return bw_fail(w->err, BW_ERR_INPUT, w->j->file, 0,
                       "the drawing lies against one environment alone; "
                       "nothing flows through it");
    return BW_OK;
}

static bw_status check_reach(painting *w)
{
    const bw_patches *p = w->p;
    const size_t count = p->nx * p->ny;
    reach r = {.seen = BW_NEW(w->arena, bool, count),
               .wait = BW_NEW(w->arena, size_t, count),
               .touched = BW_NEW(w->arena, bool, w->j->environment_count)};
    BW_TRY_MEMORY(!w->arena->failed, w->err);
    for (size_t c = 0; c < count; c++) {
        if (p->filling[c] == BW_NOT_THERE || r.seen[c])
            continue;
        bool touches = false;
        r.seen[c] = true;
        r.wait[r.waiting++] = c;
        while (r.waiting > 0)
            touches |= look_around(w, &r, r.wait[--r.waiting]);
        if (!touches)
            return bw_fail(w->err, BW_ERR_INPUT, w->j->file,
                           w->j->filling[p->filling[c]].line,
                           "\"%.60s\" at %s touches no room, outside or "
                           "ground, nor does what it touches",
                           name_of(w, p->filling[c]),
                           place_of(w, c % p->nx, c / p->nx));
    }
    return check_touched(w, &r);
}

bw_status bw_patches_make(bw_patches *out, const bw_junction *junction,
                          bw_arena *arena, bw_error *err)
{
    painting w = {out, junction, arena, err};
    *out = (bw_patches){0};
    BW_TRY(find_lines(out, junction, arena, err));
    const size_t count = out->nx * out->ny;
    out->filling = BW_NEW(arena, int, count);
    out->space = BW_NEW(arena, int, count);
    BW_TRY_MEMORY(out->filling != NULL && out->space != NULL, err);
    for (size_t c = 0; c < count; c++)
        out->filling[c] = out->space[c] = BW_NOT_THERE;
    BW_TRY(paint_spaces(&w));
    BW_TRY(paint_fillings(&w));
    BW_TRY(check_hidden(&w));
    for (size_t c = 0; c < count; c++)
        for (int e = 0; e < BW_EDGES && out->filling[c] != BW_NOT_THERE; e++)
            BW_TRY(check_edge(&w, c % out->nx, c / out->nx, (bw_cell_side)e));
    BW_TRY(check_reach(&w));
    for (size_t c = 0; c < count; c++)
        for (int e = 0; e < BW_EDGES; e++)
            BW_TRY(check_open(&w, c % out->nx, c / out->nx, (bw_cell_side)e));
    return check_films(&w);
}
