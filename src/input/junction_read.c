/* From a junction file to a drawing: made of walls (kind=), drawn freely, or
 * both, the rectangles of <drawing> over the walls.
 *
 * Invariant: a junction that is read is sound (bw_patches_make). */

#include <stdlib.h>
#include <string.h>

#include "beyond.h"
#include "fail.h"
#include "junction_reader.h"
#include "patches.h"

static const char NAME_SPACE[] = "urn:bothways:junction:1";

/* ---- environments
 * ------------------------------------------------------------ */

static bw_status add_environment(bw_junction_reader *j, const xmlNode *node,
                                 const bw_environment *environment)
{
    const bw_junction *d = &j->d->junction;
    if (d->environment_count > 1 && environment->kind == BW_ENVIRONMENT_ROOM &&
        (strcmp(environment->id, "outside") == 0 ||
         strcmp(environment->id, "ground") == 0 ||
         strcmp(environment->id, "room") == 0))
        return bw_refuse(&j->r, node,
                         "is of a <room> called \"%s\", which is the name of "
                         "%s; give the room another id",
                         environment->id,
                         environment->id[0] == 'o' ? "the outdoor air"
                         : environment->id[0] == 'g'
                             ? "the soil"
                             : "the room of the junction's own <indoors>");
    for (size_t e = 0; e < d->environment_count; e++)
        if (strcmp(d->environment[e].id, environment->id) == 0)
            return bw_refuse(
                &j->r, node,
                "id=\"%.60s\" stands twice; every room needs an id of its own",
                environment->id);
    if (d->environment_count == BW_MOST_ROOMS)
        return bw_refuse(&j->r, node,
                         "is one environment too many; %d are accepted",
                         BW_MOST_ROOMS);
    bw_draw_environment(j->d, environment);
    return BW_OK;
}

static bw_status add_outside(bw_junction_reader *j, const xmlNode *node)
{
    const bw_outdoors *o = &j->r.assembly->outdoors;
    const size_t notes = j->r.note_count;
    BW_TRY(bw_read_outdoors(&j->r, node));
    j->r.note_count = notes; /* of rain, sun, wind: none is computed here */
    j->d->junction.outdoors = *o;
    const bw_environment outside = {
        .kind = BW_ENVIRONMENT_OUTSIDE,
        .id = "outside",
        .has_surface_resistance = o->has_surface_resistance,
        .surface_resistance = o->surface_resistance};
    return add_environment(j, node, &outside);
}

static bw_status add_room(bw_junction_reader *j, const xmlNode *node,
                          const char *id)
{
    const bw_indoors *in = &j->r.assembly->indoors;
    j->r.assembly->indoors = (bw_indoors){0};
    BW_TRY(bw_read_indoors(&j->r, node));
    const bw_environment room = {
        .kind = BW_ENVIRONMENT_ROOM,
        .id = id,
        .indoors = *in,
        .has_surface_resistance = in->has_surface_resistance,
        .surface_resistance = in->surface_resistance};
    return add_environment(j, node, &room);
}

static bw_status add_another_room(bw_junction_reader *j, const xmlNode *node)
{
    static const char *const allowed[] = {"id"}, *const parts[] = {"indoors"};
    const bw_xml *xml = &j->r.xml;
    const char *id;
    xmlNode *indoors;
    BW_TRY(bw_xml_attributes(xml, node, allowed, 1, j->r.err));
    BW_TRY(bw_xml_children(xml, node, parts, 1, j->r.err));
    BW_TRY(bw_xml_id(&id, xml, node, "bathroom", j->r.err));
    BW_TRY(bw_xml_child(&indoors, xml, node, "indoors", true, j->r.err));
    return add_room(j, indoors, bw_keep(&j->r, id));
}

static bw_status add_ground(bw_junction_reader *j, const xmlNode *node)
{
    bw_environment ground = {.kind = BW_ENVIRONMENT_GROUND,
                             .id = "ground",
                             .beyond.kind = &bw_beyond_ground};
    BW_TRY(bw_read_beyond_values(&j->r, &ground.beyond, node, false));
    return add_environment(j, node, &ground);
}

static bw_status read_environments(bw_junction_reader *j, const xmlNode *root)
{
    xmlNode *outdoors, *indoors, *ground;
    const bw_xml *xml = &j->r.xml;
    BW_TRY(bw_xml_child(&outdoors, xml, root, "outdoors", true, j->r.err));
    BW_TRY(bw_xml_child(&indoors, xml, root, "indoors", true, j->r.err));
    BW_TRY(bw_xml_child(&ground, xml, root, "ground", false, j->r.err));
    BW_TRY(add_outside(j, outdoors));
    BW_TRY(add_room(j, indoors, "room"));
    for (const xmlNode *c = bw_xml_first(root); c != NULL; c = bw_xml_next(c))
        if (bw_xml_is(c, "room"))
            BW_TRY(add_another_room(j, c));
    return ground != NULL ? add_ground(j, ground) : BW_OK;
}

/* ---- the file
 * ---------------------------------------------------------------- */

static bw_status read_words(bw_junction_reader *j, const xmlNode *root)
{
    bw_junction *d = &j->d->junction;
    const char *id;
    BW_TRY(bw_read_attributes(&j->r, root, "id", "title", "remark", "kind"));
    BW_TRY(bw_read_required(&j->r, &id, root, "id", "north-corner"));
    const char *title = bw_xml_value(root, "title");
    d->id = bw_keep(&j->r, id);
    d->title = title != NULL && *title != '\0' ? bw_keep(&j->r, title) : d->id;
    d->remark = bw_keep(&j->r, bw_xml_value(root, "remark"));
    d->kind = "drawing";
    j->walls = bw_xml_value(root, "kind") != NULL;
    return BW_OK;
}

static bw_status read_free(bw_junction_reader *j, const xmlNode *root)
{
    BW_TRY(bw_explain(
        j->r.err,
        bw_read_children(&j->r, root, "outdoors", "indoors", "room", "ground",
                         "drawing", "rain-leak", "room-air"),
        "a junction made of walls has a kind=, \"outer-corner\" for example"));
    return read_environments(j, root);
}

/* The walls' notes are theirs to tell; one line says what is not drawn. */
static void note_walls(bw_junction_reader *j)
{
    const bw_junction *d = &j->d->junction;
    bool sky = d->outdoors.open_sky;
    for (size_t i = 0; i < d->wall_count; i++)
        sky |= d->wall[i]->outdoors.open_sky;
    if (sky)
        bw_add_note(&j->r, BW_NOTE_WARNING, NULL,
                    "the outside is outdoor air: that a light roof under open "
                    "sky is colder is not taken into account here");
    for (size_t i = 0; i < d->wall_count; i++) {
        const bw_assembly *wall = d->wall[i];
        bool framed = false, vented = false;
        for (size_t k = 0; k < wall->layer_count; k++) {
            framed |= wall->layer[k].framing.present;
            vented |= wall->layer[k].kind == BW_LAYER_CAVITY &&
                      wall->layer[k].ventilation == BW_VENT_WELL;
        }
        if (framed && strcmp(d->kind, "stud") != 0)
            bw_add_note(&j->r, BW_NOTE_WARNING, NULL,
                        "the framing of \"%.60s\" is not drawn: the wall is "
                        "that between its studs; draw the studs and posts at "
                        "the junction as rectangles",
                        wall->id);
        if (vented)
            bw_add_note(&j->r, BW_NOTE_INFO, NULL,
                        "what lies outside the ventilated cavity of \"%.60s\" "
                        "is left out, as in the wall itself",
                        wall->id);
    }
}

static bool holds_spot(const bw_patches *p, const bw_drawn_spot *s)
{
    for (size_t c = 0; c < p->nx * p->ny; c++) {
        const size_t x = c % p->nx, y = c / p->nx;
        if (p->filling[c] != BW_NOT_THERE && s->x >= p->x[x] - BW_ONE_LINE &&
            s->x <= p->x[x + 1] + BW_ONE_LINE &&
            s->y >= p->y[y] - BW_ONE_LINE && s->y <= p->y[y + 1] + BW_ONE_LINE)
            return true;
    }
    return false;
}

/* Places of the kind's own that the drawing has cut away are not told of. */
static bw_status check_spots(bw_junction_reader *j, const bw_patches *patches)
{
    const bw_junction *d = &j->d->junction;
    size_t kept = 0;
    for (size_t i = 0; i < d->spot_count; i++) {
        const bw_drawn_spot *s = &d->spot[i];
        const bool there = holds_spot(patches, s);
        if (!there && s->line > 0)
            return bw_fail(
                j->r.err, BW_ERR_INPUT, d->file, s->line,
                "<spot name=\"%.60s\"> lies in no material of the drawing",
                s->name);
        if (there)
            j->d->spot[kept++] = *s;
    }
    j->d->junction.spot_count = kept;
    return BW_OK;
}

static bw_status check(bw_junction_reader *j)
{
    bw_patches patches = {0};
    bw_arena arena = {0};
    const bw_junction *d = &j->d->junction;
    bw_status status = bw_patches_make(&patches, d, &arena, j->r.err);
    if (status == BW_OK)
        status = check_spots(j, &patches);
    if (status == BW_OK)
        status = bw_check_leaks(j, &patches);
    if (status == BW_OK)
        bw_note_cuts(j, &patches);
    bw_arena_release(&arena);
    return status;
}

static bw_status read_all(bw_junction_reader *j)
{
    const xmlNode *root = j->r.xml.root;
    xmlNode *drawing;
    BW_TRY(read_words(j, root));
    BW_TRY(j->walls ? bw_read_shape(j, root) : read_free(j, root));
    BW_TRY(bw_xml_child(&drawing, &j->r.xml, root, "drawing", !j->walls,
                        j->r.err));
    if (drawing != NULL)
        BW_TRY(bw_read_drawing(j, drawing));
    BW_TRY(bw_read_leaks(j, root));
    note_walls(j);
    bw_junction *d = &j->d->junction;
    d->note = j->r.note;
    d->note_count = j->r.note_count;
    BW_TRY_MEMORY(!j->d->arena.failed && !j->r.out_of_memory, j->r.err);
    BW_TRY(check(j));
    d->note = j->r.note;
    d->note_count = j->r.note_count;
    return BW_OK;
}

bw_status bw_junction_read_of(bw_junction **out, const char *path,
                              const bw_wall_origin *host,
                              const bw_library *library, bw_error *err)
{
    bw_drawing *d = calloc(1, sizeof *d);
    BW_TRY_MEMORY(d != NULL, err);
    bw_assembly sides = {.element = BW_ELEMENT_WALL};
    bw_junction_reader j = {.r = {.library = library,
                                  .arena = &d->arena,
                                  .assembly = &sides,
                                  .err = err},
                            .d = d,
                            .host = host};
    sides.file = d->junction.file = bw_keep(&j.r, path);
    bw_status status = bw_xml_open(&j.r.xml, path, NULL, "junction", "junction",
                                   NAME_SPACE, err);
    if (status == BW_OK) {
        status = read_all(&j);
        bw_xml_close(&j.r.xml);
        if (j.r.out_of_memory)
            status = bw_fail_memory(err);
    }
    if (status == BW_OK)
        *out = &d->junction;
    else
        bw_junction_free(&d->junction);
    return status;
}

bw_status bw_junction_read(bw_junction **out, const char *path,
                           const bw_library *library, bw_error *err)
{
    return bw_junction_read_of(out, path, NULL, library, err);
}
