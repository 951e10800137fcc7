/* The layers of a wall, to scale and numbered, and the key to them. */

#include "plot.h"

/* Of framing where the section crosses it; NULL: air. */
static const bw_material *material_of(const bw_assembly *assembly,
                                      const bw_section *section, size_t layer)
{
    for (size_t i = 0; i < section->slab_count; i++)
        if (section->slab[i].layer == layer)
            return section->slab[i].kind == BW_LAYER_CAVITY
                       ? NULL
                       : section->slab[i].material;
    return assembly->layer[layer].kind == BW_LAYER_CAVITY
               ? NULL
               : assembly->layer[layer].material;
}

void bw_layers_drawn(bw_page *page, bw_chart *c, const bw_assembly *assembly,
                     const bw_section *section)
{
    double at = 0.0;
    double place[BW_PLOT_FACES];
    size_t number[BW_PLOT_FACES], count = 0;
    for (size_t i = 0; i < assembly->layer_count; i++) {
        const bw_layer *layer = &assembly->layer[i];
        const double x1 = bw_chart_x(c, at);
        const double x2 = bw_chart_x(c, at + layer->thickness);
        at += layer->thickness;
        bw_hatched(page, c, material_of(assembly, section, i), x1, c->top,
                   x2 - x1, c->bottom - c->top);
        if (count < BW_PLOT_FACES) {
            place[count] = 0.5 * (x1 + x2);
            number[count++] = i + 1;
        }
    }
    bw_number_layers(page, c, place, number, count);
}

static void put_line(bw_page *page, const bw_layer *layer, size_t number)
{
    bw_markup *out = bw_page_markup(page);
    bw_chart c = {.out = out};
    bw_tag_open(out, "li", NULL);
    bw_tag_whole(out, "span", "no", bw_phrase(page, "%zu", number));
    bw_tag_open(out, "svg", "chart");
    bw_tag_set(out, "xmlns", "http://www.w3.org/2000/svg");
    bw_tag_set(out, "viewBox", "0 0 42 19");
    bw_tag_set(out, "aria-hidden", "true");
    const bool thin = layer->thickness < 0.001;
    bw_hatched(page, &c,
               layer->kind == BW_LAYER_CAVITY ? NULL : layer->material,
               thin ? 20.0 : 1.0, 1.0, thin ? 1.0 : 40.0, 17.0);
    bw_chart_end(&c);
    bw_tag_open(out, "span", NULL);
    bw_html_text(page, layer->name);
    if (layer->thickness > 0.0) {
        bw_tag_text(out, " ");
        bw_tag_whole(out, "span", "mm",
                     bw_phrase(page, "%.4g mm", layer->thickness * 1e3));
    }
    bw_tag_close(out);
    bw_tag_close(out);
}

void bw_layer_key(bw_page *page, const bw_assembly *assembly)
{
    bw_figure_begin(page);
    bw_tag_open(bw_page_markup(page), "ol", "key");
    for (size_t i = 0; i < assembly->layer_count; i++)
        put_line(page, &assembly->layer[i], i + 1);
    bw_tag_close(bw_page_markup(page));
}
