/* Junctions made of walls: kind=, the walls, what stands in or beside them.
 *
 * Invariant: an element that a kind does not use is refused, and one it needs
 * asked for. */

#include <string.h>

#include "fail.h"
#include "junction_reader.h"
#include "room.h"

/* What a kind takes beside <wall>; a lining may be missing. */
typedef enum part_kind {
    PART_NONE,
    PART_FRAME,
    PART_PARTITION,
    PART_JOIST,
    PART_SLAB,
    PART_PLINTH,
} part_kind;

static const struct {
    part_kind part;
    size_t least_walls, most_walls;
} kinds[BW_SHAPES] = {
    [BW_SHAPE_OUTER_CORNER] = {PART_NONE, 1, 2},
    [BW_SHAPE_INNER_CORNER] = {PART_NONE, 1, 2},
    [BW_SHAPE_JAMB] = {PART_FRAME, 1, 1},
    [BW_SHAPE_HEAD] = {PART_FRAME, 1, 1},
    [BW_SHAPE_SILL] = {PART_FRAME, 1, 1},
    [BW_SHAPE_PARTITION] = {PART_PARTITION, 1, 1},
    [BW_SHAPE_JOIST] = {PART_JOIST, 1, 1},
    [BW_SHAPE_STUD] = {PART_NONE, 1, 1},
    [BW_SHAPE_BALCONY] = {PART_SLAB, 1, 1},
    [BW_SHAPE_FILLED] = {PART_NONE, 2, 2},
    [BW_SHAPE_FOOT] = {PART_PLINTH, 2, 2},
};

static const char *const part_name[] = {"",      "frame", "partition",
                                        "joist", "slab",  "plinth"};

/* One length of a part. */
typedef struct length {
    const char *name;
    double *out;
    double least, most; /* m */
} length;

/* The attribute that names a layer. */
typedef struct naming {
    const char *attribute; /* NULL: none */
    bool optional;
} naming;

static const naming no_layer = {NULL, false}, in_layer = {"in", false};

static bw_status read_member(bw_junction_reader *j, bw_member *m,
                             const xmlNode *node, const length *lengths,
                             size_t count, naming layer)
{
    const bw_xml *xml = &j->r.xml;
    const char *allowed[8] = {"material"};
    size_t names = 1;
    for (size_t i = 0; i < count; i++)
        allowed[names++] = lengths[i].name;
    if (layer.attribute != NULL)
        allowed[names++] = layer.attribute;
    BW_TRY(bw_xml_childless(xml, node, allowed, names, j->r.err));
    BW_TRY(bw_read_material(&j->r, &m->material, node, "material"));
    for (size_t i = 0; i < count; i++)
        BW_TRY(bw_read_quantity(&j->r, lengths[i].out, NULL, node,
                                lengths[i].name, BW_DIM_LENGTH,
                                lengths[i].least, lengths[i].most));
    if (layer.attribute != NULL &&
        (!layer.optional || bw_xml_value(node, layer.attribute) != NULL)) {
        const char *id;
        BW_TRY(bw_read_required(&j->r, &id, node, layer.attribute, "brick"));
        m->layer = bw_keep(&j->r, id);
    }
    m->given = true;
    m->line = bw_xml_line(node);
    return BW_OK;
}

static bw_status read_part(bw_junction_reader *j, bw_shape_parts *parts,
                           part_kind kind, const xmlNode *node)
{
    bw_member *m = kind == PART_FRAME ? &parts->frame : &parts->member;
    const length frame[] = {{"width", &m->width, 0.01, 1.0},
                            {"depth", &m->depth, 0.01, 1.0},
                            {"setback", &m->setback, 0.0, 1.0}};
    const length partition[] = {{"thickness", &m->width, 0.005, 2.0}};
    const length joist[] = {{"height", &m->width, 0.01, 1.0},
                            {"bearing", &m->bearing, 0.005, 1.0}};
    const length slab[] = {{"thickness", &m->width, 0.01, 1.0},
                           {"reach", &m->reach, 0.05, 5.0}};
    const length plinth[] = {{"width", &m->width, 0.02, 2.0},
                             {"height", &m->height, 0.02, 5.0},
                             {"above-ground", &m->above, -1.0, 5.0}};
    switch (kind) {
    case PART_FRAME:
        return read_member(j, m, node, frame, BW_COUNT(frame), no_layer);
    case PART_PARTITION:
        return read_member(j, m, node, partition, BW_COUNT(partition),
                           (naming){"up-to", false});
    case PART_JOIST:
        return read_member(j, m, node, joist, BW_COUNT(joist), in_layer);
    case PART_SLAB:
        return read_member(j, m, node, slab, BW_COUNT(slab), no_layer);
    case PART_PLINTH:
        return read_member(j, m, node, plinth, BW_COUNT(plinth),
                           (naming){"level-with", true});
    case PART_NONE:
        break;
    }
    return BW_OK;
}

static bw_status read_lining(bw_junction_reader *j, bw_shape_parts *parts,
                             const xmlNode *node)
{
    const length lengths[] = {{"thickness", &parts->lining.width, 0.001, 0.5}};
    return read_member(j, &parts->lining, node, lengths, 1, no_layer);
}

static bw_status read_plate(bw_junction_reader *j, bw_shape_parts *parts,
                            const xmlNode *node)
{
    const length lengths[] = {{"height", &parts->plate.height, 0.005, 1.0}};
    return read_member(j, &parts->plate, node, lengths, 1, in_layer);
}

static bw_status read_wall(bw_junction_reader *j, bw_shape_parts *parts,
                           const xmlNode *node)
{
    const char *path;
    bool given;
    bw_assembly *wall = NULL;
    const size_t count = j->d->junction.wall_count;
    BW_TRY(bw_read_childless(&j->r, node, "file", "offset"));
    BW_TRY(bw_read_required(&j->r, &path, node, "file", "wall.xml"));
    BW_TRY(bw_read_quantity(&j->r, &parts->offset, &given, node, "offset",
                            BW_DIM_LENGTH, -1.0, 1.0));
    if (given &&
        (count == 0 || strcmp(j->d->junction.kind, "filled-opening") != 0))
        return bw_refuse_at(&j->r, node, "offset",
                            "is for the second wall of a filled-opening: how "
                            "far its outer face lies behind that of the first");
    BW_TRY(bw_assembly_read_alone(&wall, bw_resolve(&j->r, path), j->host,
                                  j->r.library, j->r.err));
    bw_draw_wall(j->d, wall);
    return BW_OK;
}

static bool same_room(const bw_indoors *a, const bw_indoors *b)
{
    return bw_room_same_air(a, b) &&
           a->has_surface_resistance == b->has_surface_resistance &&
           a->surface_resistance == b->surface_resistance;
}

/* The air on both sides is that of the first wall: a damper room of the second
 * would be left out unseen. */
static bw_status check_second(bw_junction_reader *j, const xmlNode *node)
{
    const bw_junction *d = &j->d->junction;
    if (d->wall_count < 2)
        return BW_OK;
    const bw_assembly *a = d->wall[0], *b = d->wall[1];
    const bool foot = strcmp(d->kind, bw_shape_name[BW_SHAPE_FOOT]) == 0;
    const char *other = !foot && a->beyond.kind != b->beyond.kind
                            ? "another <ground>"
                        : !same_room(&a->indoors, &b->indoors)
                            ? "other <indoors>"
                            : NULL;
    if (other != NULL)
        return bw_refuse_at(&j->r, node, "file",
                            "has %s than \"%.60s\"; a junction made of walls "
                            "has one: make them the same, or draw it freely",
                            other, a->id);
    bw_add_note(&j->r, BW_NOTE_INFO, NULL,
                "climate and surroundings are those of \"%.60s\"", a->id);
    return BW_OK;
}

static bw_status read_walls(bw_junction_reader *j, bw_shape shape,
                            bw_shape_parts *parts, const xmlNode *root)
{
    size_t count = 0;
    for (const xmlNode *c = bw_xml_first(root); c != NULL; c = bw_xml_next(c))
        if (bw_xml_is(c, "wall") && count++ < kinds[shape].most_walls) {
            BW_TRY(read_wall(j, parts, c));
            BW_TRY(check_second(j, c));
        }
    if (count >= kinds[shape].least_walls && count <= kinds[shape].most_walls)
        return BW_OK;
    return bw_refuse(
        &j->r, root,
        "names %zu walls; kind=\"%s\" takes %s: <wall file=\"wall.xml\"/>",
        count, bw_shape_name[shape],
        kinds[shape].most_walls == 1    ? "one"
        : kinds[shape].least_walls == 2 ? "two"
                                        : "one or two");
}

/* What of a foot nobody computes, and what is common practice. */
static void note_foot(bw_junction_reader *j, const bw_shape_parts *parts)
{
    static const double usual = 0.15; /* m; from memory, medium */
    const bw_junction *d = &j->d->junction;
    if (parts->member.above < usual)
        bw_add_note(
            &j->r, BW_NOTE_WARNING, NULL,
            "the foot of the wall is %.0f mm above the ground; usual is 150 mm "
            "or more, against splashing rain, which is not computed",
            1e3 * parts->member.above);
    if (d->wall[1]->beyond.kind == NULL)
        bw_add_note(&j->r, BW_NOTE_WARNING, NULL,
                    "the void below the floor is taken as outdoor air: colder "
                    "than it is in winter, and drier than it is in summer, "
                    "when the cool void itself may be damp");
    bw_add_note(
        &j->r, BW_NOTE_INFO, NULL,
        "water that rises in the plinth, or stands at it, is not computed");
}

bw_status bw_read_shape(bw_junction_reader *j, const xmlNode *root)
{
    const char *allowed[7] = {"wall", "drawing", "rain-leak", "room-air"};
    bw_shape_parts parts = {0};
    xmlNode *part = NULL, *lining = NULL, *plate = NULL;
    int word = 0;
    size_t count = 4;
    BW_TRY(bw_xml_word(&word, NULL, &j->r.xml, root, "kind", bw_shape_name,
                       BW_SHAPES, j->r.err));
    const bw_shape shape = (bw_shape)word;
    const part_kind kind = kinds[shape].part;
    j->d->junction.kind = bw_shape_name[shape];
    if (kind != PART_NONE)
        allowed[count++] = part_name[kind];
    if (kind == PART_FRAME)
        allowed[count++] = "lining";
    if (kind == PART_PLINTH)
        allowed[count++] = "plate";
    BW_TRY(bw_xml_children(&j->r.xml, root, allowed, count, j->r.err));
    BW_TRY(read_walls(j, shape, &parts, root));
    if (kind != PART_NONE) {
        BW_TRY(bw_xml_child(&part, &j->r.xml, root, part_name[kind], true,
                            j->r.err));
        BW_TRY(read_part(j, &parts, kind, part));
    }
    BW_TRY(bw_xml_child(&lining, &j->r.xml, root, "lining", false, j->r.err));
    if (lining != NULL)
        BW_TRY(read_lining(j, &parts, lining));
    BW_TRY(bw_xml_child(&plate, &j->r.xml, root, "plate", false, j->r.err));
    if (plate != NULL)
        BW_TRY(read_plate(j, &parts, plate));
    if (shape == BW_SHAPE_FOOT)
        note_foot(j, &parts);
    return bw_shape_draw(j->d, shape, &parts, j->r.err);
}
