/* Adding to a drawing. Invariant: what is in the arrays of the junction is what
 * was added, in its order. */

#include "draw.h"

#include <stdlib.h>

/* Adds one to an array of the drawing; its index. A macro, since the arrays are
 * of different things. */
#define ADD(d, what, count, room, value)                                       \
    do {                                                                       \
        void *more = bw_arena_more(&(d)->arena, (d)->what,                     \
                                   (d)->junction.count, &(d)->room,            \
                                   sizeof *(d)->what);                         \
        if (more != NULL) {                                                    \
            (d)->what = more;                                                  \
            (d)->what[(d)->junction.count++] = (value);                        \
            (d)->junction.what = (d)->what;                                    \
        }                                                                      \
    } while (0)

static size_t last(size_t count)
{
    return count > 0 ? count - 1 : 0;
}

size_t bw_draw_environment(bw_drawing *d, const bw_environment *environment)
{
    ADD(d, environment, environment_count, environments, *environment);
    return last(d->junction.environment_count);
}

size_t bw_draw_material(bw_drawing *d, const bw_drawn_material *material)
{
    ADD(d, material, material_count, materials, *material);
    return last(d->junction.material_count);
}

size_t bw_draw_film(bw_drawing *d, const bw_drawn_film *film)
{
    ADD(d, film, film_count, films, *film);
    return last(d->junction.film_count);
}

void bw_draw_filling(bw_drawing *d, size_t material, bw_rectangle at, bool over)
{
    const bw_filling filling = {at, material, over, d->line};
    ADD(d, filling, filling_count, fillings, filling);
}

void bw_draw_space(bw_drawing *d, size_t environment, bw_rectangle at,
                   bool over)
{
    const bw_drawn_space space = {at, environment, over, d->line};
    ADD(d, space, space_count, spaces, space);
}

void bw_draw_film_line(bw_drawing *d, size_t film, bw_rectangle at)
{
    const bw_film_line line = {at.x0, at.x1, at.y0, at.y1, film, d->line};
    ADD(d, film_line, film_line_count, film_lines, line);
}

void bw_draw_spot(bw_drawing *d, const char *name, double x, double y)
{
    const bw_drawn_spot spot = {name, x, y, d->line};
    ADD(d, spot, spot_count, spots, spot);
}

void bw_draw_leak(bw_drawing *d, const bw_drawn_leak *leak)
{
    ADD(d, leak, leak_count, leaks, *leak);
}

void bw_draw_air(bw_drawing *d, const bw_drawn_air *air)
{
    ADD(d, air, air_count, airs, *air);
}

void bw_draw_wall(bw_drawing *d, bw_assembly *wall)
{
    bw_assembly **more = bw_arena_more(&d->arena, d->wall,
                                       d->junction.wall_count, &d->wall_room,
                                       sizeof *d->wall);
    if (more == NULL) {
        bw_assembly_free(wall);
        return;
    }
    d->wall = more;
    d->wall[d->junction.wall_count++] = wall;
    d->junction.wall = (const bw_assembly *const *)d->wall;
}

bool bw_drawn_as_is(bw_drawn_material *out, const bw_material *m)
{
    if (!m->thermal_conductivity.known || m->thermal_conductivity.value <= 0.0)
        return false;
    const double dry = m->mu_dry.known   ? m->mu_dry.value
                       : m->mu_wet.known ? m->mu_wet.value
                                         : 0.0;
    *out = (bw_drawn_material){
        .name = m->name,
        .material = m,
        .conductivity = m->thermal_conductivity.value,
        .mu_dry = dry,
        .mu_wet = m->mu_wet.known ? m->mu_wet.value : dry,
    };
    return true;
}

bool bw_junction_leaks(const bw_junction *junction)
{
    for (size_t k = 0; k < junction->leak_count; k++)
        if (junction->leak[k].fraction > 0.0)
            return true;
    return false;
}

void bw_junction_free(bw_junction *junction)
{
    if (junction == NULL)
        return;
    bw_drawing *d = (bw_drawing *)junction;
    for (size_t i = 0; i < junction->wall_count; i++)
        bw_assembly_free(d->wall[i]);
    bw_arena arena = d->arena;
    free(d);
    bw_arena_release(&arena);
}
