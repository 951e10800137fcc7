/* The layers of a wall for drawing: the section between its studs
 * (bw_sections_make), so that air layers, ventilated cavities and films are
 * what they are to every other method.
 *
 *   conductivity = d/R, mu = sd/d
 *
 * Invariant: across what is drawn, the resistances are the section's. */

#include <string.h>

#include "fail.h"
#include "stack.h"

static const double no_resistance = 1e5; /* W/(m K): of a layer without one */

static bw_drawn_material drawn(const bw_slab *slab)
{
    return (bw_drawn_material){
        .name = slab->label,
        .material = slab->material,
        .air = slab->kind == BW_LAYER_CAVITY,
        .conductivity = slab->resistance > 0.0
                            ? slab->thickness / slab->resistance
                            : no_resistance,
        .mu_dry = slab->sd_dry / slab->thickness,
        .mu_wet = slab->sd_wet / slab->thickness,
    };
}

static void stack_slab(bw_stack *s, bw_drawing *d, const bw_slab *slab)
{
    const size_t k = s->count++;
    s->layer[k] = slab->layer;
    s->film[k] = slab->thickness <= 0.0;
    s->at[k + 1] = s->at[k] + slab->thickness;
    s->total = s->at[k + 1];
    if (s->film[k]) {
        const bw_drawn_film film = {.name = slab->label,
                                    .material = slab->material,
                                    .sd_dry = slab->sd_dry,
                                    .sd_wet = slab->sd_wet,
                                    .sd_curve = slab->sd_curve};
        s->material[k] = bw_draw_film(d, &film);
        return;
    }
    const bw_drawn_material material = drawn(slab);
    s->material[k] = bw_draw_material(d, &material);
}

/* Where the wall's rain leak comes in: as in one dimension behind the last slab
 * of its layer. What leaks in farther out than what is drawn is of the wall's
 * own simulation. */
static void find_leak(bw_stack *s)
{
    const bw_rain_leak *leak = &s->wall->rain_leak;
    if (!leak->given || leak->after_layer < 0 || s->count == 0)
        return;
    const size_t after = (size_t)leak->after_layer;
    s->leaks = leak->fraction > 0.0 && after + 1 >= s->layer[0];
    for (size_t k = 0; k < s->count; k++)
        if (s->layer[k] <= after)
            s->leak_at = s->at[k + 1];
}

bw_status bw_stack_make(bw_stack *out, bw_drawing *d, const bw_assembly *wall,
                        bw_error *err)
{
    static const bw_section_options options = {.layers_apart = true};
    bw_sections *sections = NULL;
    BW_TRY(bw_sections_make(&sections, wall, &options, err));
    const bw_section *section = &sections->section[0];
    *out = (bw_stack){.wall = wall,
                      .dropped = section->dropped_layers,
                      .outer_resistance = section->outer_resistance};
    for (size_t i = 0; i < section->slab_count && out->count < BW_MOST_STACKED;
         i++)
        stack_slab(out, d, &section->slab[i]);
    find_leak(out);
    bw_sections_free(sections);
    return d->arena.failed ? bw_fail_memory(err) : BW_OK;
}

size_t bw_stack_find(const bw_stack *stack, const char *id)
{
    for (size_t k = 0; k < stack->count; k++)
        if (!stack->film[k] &&
            strcmp(stack->wall->layer[stack->layer[k]].id, id) == 0)
            return k;
    return stack->count;
}
