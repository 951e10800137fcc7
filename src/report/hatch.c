/* Layers as a draughtsman draws them, a few plain lines for each kind of
 * material: a printed pattern would be drawn over and over (fifteen megabytes
 * of paper). No line leaves its layer. */

#include <math.h>
#include <string.h>

#include "figure.h"

static const double gap = 5.0, thinnest = 1.2;

typedef struct box {
    double left, top, right, bottom;
} box;

typedef void draw_lines(bw_path *path, const box *b);

/* How many steps of `step` fit below `length`. */
static int steps(double length, double step)
{
    return length > 0.0 ? (int)ceil(length / step) : 0;
}

static void level_lines(bw_path *path, const box *b)
{
    const double step = 0.7 * gap, first = b->top + 0.5 * gap;
    const int count = steps(b->bottom - first, step);
    for (int i = 0; i < count; i++) {
        bw_path_move(path, b->left + 0.6, first + i * step);
        bw_path_line(path, b->right - 0.6, first + i * step);
    }
}

/* Rising at 45 degrees: x + y = sum, within the box. */
static void rising_lines(bw_path *path, const box *b)
{
    const double first = b->left + b->top + gap;
    const int count = steps(b->right + b->bottom - first, gap);
    for (int i = 0; i < count; i++) {
        const double sum = first + i * gap;
        const double x1 = fmax(b->left, sum - b->bottom);
        const double x2 = fmin(b->right, sum - b->top);
        bw_path_move(path, x1, sum - x1);
        bw_path_line(path, x2, sum - x2);
    }
}

/* Falling: y - x = d. */
static void falling_lines(bw_path *path, const box *b)
{
    const double first = b->top - b->right + gap;
    const int count = steps(b->bottom - b->left - first, gap);
    for (int i = 0; i < count; i++) {
        const double d = first + i * gap;
        const double x1 = fmax(b->left, b->top - d);
        const double x2 = fmin(b->right, b->bottom - d);
        bw_path_move(path, x1, x1 + d);
        bw_path_line(path, x2, x2 + d);
    }
}

/* Folds, side by side where the layer is thick. */
static void folds(bw_path *path, const box *b)
{
    static const double WIDE = 18.0, STEP = 4.0;
    const int count = 1 +
                      (int)fmax(0.0, floor((b->right - b->left) / WIDE) - 1.0);
    const int turns = (int)floor((b->bottom - b->top) / STEP);
    const double width = (b->right - b->left) / count;
    for (int k = 0; k < count; k++) {
        const double from = b->left + (k + 0.1) * width;
        const double to = b->left + (k + 0.9) * width;
        bw_path_move(path, from, b->top);
        for (int i = 1; i <= turns; i++)
            bw_path_line(path, i % 2 == 1 ? to : from, b->top + i * STEP);
    }
}

static void no_lines(bw_path *path, const box *b)
{
    (void)path;
    (void)b;
}

static const struct hatch {
    const char *name, *lines; /* their class */
    draw_lines *draw;
} hatches[] = {
    {"hatch-insulation", "h", folds},
    {"hatch-wood", "h", level_lines},
    {"hatch-panel", "h dashes", level_lines},
    {"hatch-masonry", "h", rising_lines},
    {"hatch-plaster", "h points", level_lines},
    {"hatch-board", "h", falling_lines},
    {"hatch-membrane", "h", no_lines},
    {"hatch-air", "h", no_lines},
};

static const struct hatch *hatch_of(const bw_material *material)
{
    const size_t count = sizeof hatches / sizeof hatches[0];
    if (material == NULL)
        return &hatches[count - 1];
    if (material->wood_kind != BW_NOT_WOOD)
        return &hatches[material->wood_kind == BW_SOLID_WOOD ? 1 : 2];
    for (size_t i = 0; i < count; i++)
        if (strcmp(material->group, hatches[i].name + strlen("hatch-")) == 0)
            return &hatches[i];
    return &hatches[5];
}

void bw_hatched(bw_page *page, bw_chart *chart, const bw_material *material,
                double left, double top, double width, double height)
{
    const struct hatch *hatch = hatch_of(material);
    /* A film has no thickness on paper: it is drawn as a stroke. */
    if (width < thinnest) {
        bw_chart_rect(chart, "hatch-membrane", left + 0.5 * width - 0.8, top,
                      1.6, height);
        return;
    }
    const box b = {left, top, left + width, top + height};
    bw_chart_rect(chart, bw_phrase(page, "%s hatch-edge", hatch->name), left,
                  top, width, height);
    if (hatch->draw == no_lines)
        return;
    hatch->draw(&chart->path, &b);
    bw_chart_path(chart, hatch->lines);
    bw_chart_path_end(chart);
}
