/* <drawing>: rectangles of materials, films, spaces, cuts and named spots. x to
 * the right, y upwards.
 *
 * Invariant: every length is within 100 m of the origin, every extent above
 * 0.1 mm. */

#include "fail.h"
#include "junction_reader.h"

static const double furthest = 100.0, least = 1e-4; /* m */

static bw_status read_place(bw_junction_reader *j, double *out,
                            const xmlNode *node, const char *name)
{
    return bw_read_quantity(&j->r, out, NULL, node, name, BW_DIM_LENGTH,
                            -furthest, furthest);
}

static bw_status read_extent(bw_junction_reader *j, double *out,
                             const xmlNode *node, const char *name)
{
    return bw_read_quantity(&j->r, out, NULL, node, name, BW_DIM_LENGTH, least,
                            furthest);
}

static bw_status read_rectangle(bw_junction_reader *j, bw_rectangle *out,
                                const xmlNode *node)
{
    double width, height;
    BW_TRY(read_place(j, &out->x0, node, "x"));
    BW_TRY(read_place(j, &out->y0, node, "y"));
    BW_TRY(read_extent(j, &width, node, "width"));
    BW_TRY(read_extent(j, &height, node, "height"));
    out->x1 = out->x0 + width;
    out->y1 = out->y0 + height;
    return BW_OK;
}

static bw_status read_filling(bw_junction_reader *j, const xmlNode *node)
{
    const bw_material *material;
    bw_drawn_material drawn;
    bw_rectangle at;
    double lambda = 0.0;
    bool given, over = false;
    BW_TRY(bw_read_childless(&j->r, node, "material", "name", "lambda", "x",
                             "y", "width", "height", "over"));
    BW_TRY(bw_read_material(&j->r, &material, node, "material"));
    BW_TRY(read_rectangle(j, &at, node));
    BW_TRY(bw_read_yes_no(&j->r, &over, &given, node, "over"));
    BW_TRY(bw_read_quantity(&j->r, &lambda, &given, node, "lambda",
                            BW_DIM_CONDUCTIVITY, 0.001, 500.0));
    const bool whole = bw_drawn_as_is(&drawn, material);
    if (!whole && !given)
        return bw_refuse_at(
            &j->r, node, "material",
            "has no conductivity in the library; give lambda=\"0.13 W/(m.K)\"");
    if (!whole)
        drawn = (bw_drawn_material){.name = material->name,
                                    .material = material};
    if (given)
        drawn.conductivity = lambda;
    const char *name = bw_xml_value(node, "name");
    if (name != NULL && *name != '\0')
        drawn.name = bw_keep(&j->r, name);
    bw_draw_filling(j->d, bw_draw_material(j->d, &drawn), at, over || j->walls);
    return BW_OK;
}

/* Along the one side whose extent is given. */
static bw_status read_film(bw_junction_reader *j, const xmlNode *node)
{
    const bw_material *m;
    bw_rectangle at;
    BW_TRY(bw_read_childless(&j->r, node, "material", "x", "y", "width",
                             "height"));
    BW_TRY(bw_read_material(&j->r, &m, node, "material"));
    BW_TRY(read_place(j, &at.x0, node, "x"));
    BW_TRY(read_place(j, &at.y0, node, "y"));
    const bool wide = bw_xml_value(node, "width") != NULL;
    if (wide == (bw_xml_value(node, "height") != NULL))
        return bw_refuse(&j->r, node,
                         "is a line; give one of width= (it lies level) and "
                         "height= (it stands)");
    if (!m->sd.known && m->sd_curve.count < 2)
        return bw_refuse_at(
            &j->r, node, "material",
            "is no film: the library has no sd of it; draw a <rectangle>");
    double extent;
    BW_TRY(read_extent(j, &extent, node, wide ? "width" : "height"));
    at.x1 = at.x0 + (wide ? extent : 0.0);
    at.y1 = at.y0 + (wide ? 0.0 : extent);
    const double sd = m->sd.known ? m->sd.value : m->sd_curve.y[0];
    const bw_drawn_film film = {
        .name = m->name,
        .material = m,
        .sd_dry = sd,
        .sd_wet = sd,
        .sd_curve = m->sd_curve.count >= 2 ? &m->sd_curve : NULL};
    bw_draw_film_line(j->d, bw_draw_film(j->d, &film), at);
    return BW_OK;
}

static bw_status read_space(bw_junction_reader *j, const xmlNode *node)
{
    const bw_junction *d = &j->d->junction;
    const char *words[BW_MOST_ROOMS];
    bw_rectangle at;
    int of = 0;
    bool given, over = false;
    BW_TRY(bw_read_childless(&j->r, node, "of", "x", "y", "width", "height",
                             "over"));
    for (size_t e = 0; e < d->environment_count; e++)
        words[e] = d->environment[e].id;
    BW_TRY(bw_xml_word(&of, NULL, &j->r.xml, node, "of", words,
                       d->environment_count, j->r.err));
    BW_TRY(read_rectangle(j, &at, node));
    BW_TRY(bw_read_yes_no(&j->r, &over, &given, node, "over"));
    bw_draw_space(j->d, (size_t)of, at, over || j->walls);
    return BW_OK;
}

static bw_status read_symmetry(bw_junction_reader *j, const xmlNode *node)
{
    int side = 0;
    BW_TRY(bw_read_childless(&j->r, node, "side"));
    BW_TRY(bw_read_word(&j->r, &side, NULL, node, "side", "left", "right",
                        "below", "above"));
    bool *symmetry = &j->d->junction.symmetry[side];
    if (*symmetry)
        return bw_refuse_at(&j->r, node, "side",
                            "stands twice; once is enough");
    *symmetry = true;
    return BW_OK;
}

static bw_status read_spot(bw_junction_reader *j, const xmlNode *node)
{
    const char *name;
    double x, y;
    BW_TRY(bw_read_childless(&j->r, node, "name", "x", "y"));
    BW_TRY(bw_read_required(&j->r, &name, node, "name", "beam end"));
    BW_TRY(read_place(j, &x, node, "x"));
    BW_TRY(read_place(j, &y, node, "y"));
    bw_draw_spot(j->d, bw_keep(&j->r, name), x, y);
    return BW_OK;
}

bw_status bw_read_drawing(bw_junction_reader *j, const xmlNode *node)
{
    static const char *const parts[] = {"rectangle", "film", "space",
                                        "symmetry", "spot"};
    static bw_status (*const read[])(bw_junction_reader *, const xmlNode *) = {
        read_filling, read_film, read_space, read_symmetry, read_spot};
    size_t count = 0;
    BW_TRY(bw_xml_attributes(&j->r.xml, node, NULL, 0, j->r.err));
    BW_TRY(bw_xml_children(&j->r.xml, node, parts, BW_COUNT(parts), j->r.err));
    for (const xmlNode *c = bw_xml_first(node); c != NULL; c = bw_xml_next(c)) {
        if (++count > BW_MOST_RECTANGLES)
            return bw_refuse(
                &j->r, c,
                "is one too many; a drawing of at most %d elements is accepted",
                BW_MOST_RECTANGLES);
        j->d->line = bw_xml_line(c);
        for (size_t p = 0; p < BW_COUNT(parts); p++)
            if (bw_xml_is(c, parts[p]))
                BW_TRY(read[p](j, c));
    }
    return BW_OK;
}
