#include "shaping.h"

#include "fail.h"

/* What the kinds are drawn with. Invariant: a space has an extent. */

bw_rectangle bw_shaping_box(double x0, double x1, double y0, double y1)
{
    return (bw_rectangle){x0, x1, y0, y1};
}

void bw_shaping_fill(bw_shaping *s, size_t material, double x0, double x1,
                     double y0, double y1)
{
    bw_draw_filling(s->d, material, bw_shaping_box(x0, x1, y0, y1), true);
}

/* A space where it has an extent. */
void bw_shaping_space(bw_shaping *s, size_t environment, double x0, double x1,
                      double y0, double y1)
{
    if (x1 - x0 > 1e-9 && y1 - y0 > 1e-9)
        bw_draw_space(s->d, environment, bw_shaping_box(x0, x1, y0, y1), true);
}

void bw_shaping_cut(bw_shaping *s, bool left, bool right, bool below,
                    bool above)
{
    bool *symmetry = s->d->junction.symmetry;
    symmetry[BW_EDGE_LEFT] = left;
    symmetry[BW_EDGE_RIGHT] = right;
    symmetry[BW_EDGE_BELOW] = below;
    symmetry[BW_EDGE_ABOVE] = above;
}

void bw_shaping_leak(bw_shaping *s, const bw_stack *w, double x0, double x1,
                     double y0, double y1)
{
    const bw_drawn_leak leak = {.name = w->wall->id,
                                .source = "",
                                .at = bw_shaping_box(x0, x1, y0, y1),
                                .wall = w->wall == s->a.wall ? 0 : 1,
                                .fraction = w->wall->rain_leak.fraction};
    if (w->leaks)
        bw_draw_leak(s->d, &leak);
}

/* A wall from x0 to x1 with its outer face at y. */
void bw_shaping_wall(bw_shaping *s, const bw_stack *w, double x0, double x1,
                     double y)
{
    for (size_t k = 0; k < w->count; k++)
        if (w->film[k])
            bw_draw_film_line(
                s->d, w->material[k],
                bw_shaping_box(x0, x1, y + w->at[k], y + w->at[k]));
        else
            bw_shaping_fill(s, w->material[k], x0, x1, y + w->at[k],
                            y + w->at[k + 1]);
    bw_shaping_leak(s, w, x0, x1, y + w->leak_at, y + w->leak_at);
}

bw_status bw_shaping_refuse(bw_shaping *s, const bw_member *m, const char *text)
{
    return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, m->line, "%s",
                   text);
}

bw_status bw_shaping_material(bw_shaping *s, const bw_member *m, size_t *out)
{
    bw_drawn_material material;
    if (!bw_drawn_as_is(&material, m->material))
        return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, m->line,
                       "\"%.60s\" has no conductivity in the library and "
                       "cannot be drawn",
                       m->material->id);
    *out = bw_draw_material(s->d, &material);
    return BW_OK;
}

bw_status bw_shaping_layer(bw_shaping *s, const bw_stack *w, const bw_member *m,
                           size_t *out)
{
    *out = bw_stack_find(w, m->layer);
    if (*out < w->count)
        return BW_OK;
    return bw_fail(s->err, BW_ERR_INPUT, s->d->junction.file, m->line,
                   "\"%.60s\" is no layer of the wall \"%.60s\" that is drawn; "
                   "a film, and what lies outside a ventilated cavity, is not",
                   m->layer, w->wall->id);
}
