/* A mesh has four corners; where a side has its ends on both sides of the level
 * the isoline crosses it, at the share of its length that a straight line
 * between the ends gives. */

#include "field.h"

#include <math.h>

typedef struct point {
    double x, y, z;
} point;

typedef struct mesh {
    point corner[4]; /* around it */
} mesh;

static point point_of(const bw_chart *chart, const bw_field *f, size_t row,
                      size_t column)
{
    return (point){bw_chart_x(chart, f->x[column]),
                   bw_chart_y(chart, f->y[row]),
                   f->z[row * f->columns + column]};
}

static mesh mesh_at(const bw_chart *chart, const bw_field *f, size_t row,
                    size_t column)
{
    return (mesh){{point_of(chart, f, row, column),
                   point_of(chart, f, row, column + 1),
                   point_of(chart, f, row + 1, column + 1),
                   point_of(chart, f, row + 1, column)}};
}

static bool is_step(const bw_field *f, size_t column)
{
    return !(f->x[column + 1] > f->x[column]);
}

static bool crosses(point a, point b, double level)
{
    return (a.z >= level) != (b.z >= level);
}

static point crossing(point a, point b, double level)
{
    const double share = (level - a.z) / (b.z - a.z);
    return (point){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y), level};
}

/* ---- regions ----------------------------------------------------------- */

static size_t above(const mesh *m, double level)
{
    size_t count = 0;
    for (int i = 0; i < 4; i++)
        count += m->corner[i].z >= level;
    return count;
}

/* What of a mesh is above the level. */
static void cut_mesh(bw_path *path, const mesh *m, double level)
{
    bool begun = false;
    for (int i = 0; i < 4; i++) {
        const point a = m->corner[i], b = m->corner[(i + 1) % 4];
        point out[2];
        size_t count = 0;
        if (a.z >= level)
            out[count++] = a;
        if (crosses(a, b, level))
            out[count++] = crossing(a, b, level);
        for (size_t k = 0; k < count; k++, begun = true)
            (begun ? bw_path_line : bw_path_move)(path, out[k].x, out[k].y);
    }
    bw_path_close(path);
}

/* Meshes that are wholly above it follow each other as one piece. */
static void put_run(bw_path *path, point first, point last)
{
    bw_path_move(path, first.x, first.y);
    bw_path_line(path, last.x, first.y);
    bw_path_line(path, last.x, last.y);
    bw_path_line(path, first.x, last.y);
    bw_path_close(path);
}

static void cut_row(bw_chart *chart, const bw_field *f, size_t row,
                    double level)
{
    bool runs = false;
    point first = {0}, last = {0};
    for (size_t c = 0; c + 1 < f->columns; c++) {
        if (is_step(f, c))
            continue;
        const mesh m = mesh_at(chart, f, row, c);
        const size_t corners = above(&m, level);
        if (runs && corners < 4) {
            put_run(&chart->path, first, last);
            runs = false;
        }
        if (corners == 4) {
            first = runs ? first : m.corner[0];
            last = m.corner[2];
            runs = true;
        } else if (corners > 0) {
            cut_mesh(&chart->path, &m, level);
        }
    }
    if (runs)
        put_run(&chart->path, first, last);
}

void bw_chart_region(bw_chart *chart, const char *class_name,
                     const bw_field *field, double level)
{
    for (size_t row = 0; row + 1 < field->rows; row++)
        cut_row(chart, field, row, level);
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

/* ---- isolines ---------------------------------------------------------- */

/* Up to two pieces of the isoline in a mesh; returns how many. */
static size_t pieces(const mesh *m, double level, point end[4])
{
    size_t count = 0;
    for (int i = 0; i < 4; i++)
        if (crosses(m->corner[i], m->corner[(i + 1) % 4], level))
            end[count++] = crossing(m->corner[i], m->corner[(i + 1) % 4],
                                    level);
    return count / 2;
}

void bw_chart_isoline(bw_chart *chart, const char *class_name,
                      const bw_field *field, double level)
{
    for (size_t row = 0; row + 1 < field->rows; row++)
        for (size_t c = 0; c + 1 < field->columns; c++) {
            const mesh m = mesh_at(chart, field, row, c);
            point end[4];
            const size_t count = is_step(field, c) ? 0 : pieces(&m, level, end);
            for (size_t k = 0; k < count; k++) {
                bw_path_move(&chart->path, end[2 * k].x, end[2 * k].y);
                bw_path_line(&chart->path, end[2 * k + 1].x, end[2 * k + 1].y);
            }
        }
    bw_chart_path(chart, class_name);
    bw_chart_path_end(chart);
}

static const double half_wide = 14.0, high = 12.0; /* of a label */

/* Inside the box, though its isoline is not. */
static double label_x(const bw_chart *chart, double x)
{
    return fmin(fmax(x, chart->left + half_wide), chart->right - half_wide);
}

static bool is_taken(const bw_taken *taken, double x, double y)
{
    for (size_t i = 0; i < taken->count; i++)
        if (fabs(x - taken->x[i]) < 2.0 * half_wide &&
            fabs(y - taken->y[i]) < high)
            return true;
    return false;
}

static double room_at(const bw_chart *chart, const bw_taken *taken, point p)
{
    static const double WIDE = 0.6; /* a label is wider than high */
    double room = fmin(WIDE * fmin(p.x - chart->left, chart->right - p.x),
                       fmin(p.y - chart->top, chart->bottom - p.y));
    for (size_t i = 0; i < taken->uprights; i++)
        room = fmin(room, WIDE * fabs(p.x - taken->upright[i]));
    for (size_t i = 0; i < taken->count; i++)
        room = fmin(room, hypot(WIDE * (p.x - taken->x[i]), p.y - taken->y[i]));
    return room;
}

/* How far away the value has changed by `step`, as it runs across the mesh. */
static double to_next(const mesh *m, double step)
{
    const point *p = m->corner;
    const double by_x = (p[1].z - p[0].z) / (p[1].x - p[0].x);
    const double by_y = (p[3].z - p[0].z) / (p[3].y - p[0].y);
    return step / fmax(hypot(by_x, by_y), 1e-9);
}

void bw_chart_isoline_label(bw_chart *chart, const bw_field *field,
                            double level, double step, bw_taken *taken,
                            const char *text)
{
    point best = {0};
    double most = 0.0;
    for (size_t row = 0; row + 1 < field->rows; row++)
        for (size_t c = 0; c + 1 < field->columns; c++) {
            const mesh m = mesh_at(chart, field, row, c);
            point end[4];
            if (is_step(field, c) || pieces(&m, level, end) == 0)
                continue;
            const double room = fmin(room_at(chart, taken, end[0]),
                                     to_next(&m, step));
            if (room > most &&
                !is_taken(taken, label_x(chart, end[0].x), end[0].y)) {
                most = room;
                best = end[0];
            }
        }
    if (!(most > 0.0) || taken->count == BW_TAKEN)
        return;
    const double x = label_x(chart, best.x);
    bw_chart_text(chart, "halo", x, best.y + 3.5, BW_MIDDLE, text);
    taken->x[taken->count] = x;
    taken->y[taken->count++] = best.y;
}
