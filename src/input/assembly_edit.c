#include "bothways/edit.h"

#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
#include "properties.h"
#include "text.h"
#include "utf8.h"

/* Changes made to the file's own elements before they are read, so that
 * reading refuses what it would refuse in a file.
 *
 * Invariant: an attribute that was changed does not stand beside another one
 * that says the same, nor beside the evidence for what it replaced. */

enum { LONGEST_VALUE = 400, LONGEST_PLACE = 120 };

/* ---- what goes with a change -------------------------------------------- */

/* Of a group at most one can stand. */
static const char *const same_thing[][6] = {
    {"mu", "vapour-resistivity", "sd", "vapour-resistance", "permeance"},
    {"lambda", "resistance"},
    {"humidity-class", "relative-humidity", "conditions"},
    {"initial-moisture", "initial-relative-humidity"},
    {"fraction", "width"},
    {"fraction", "spacing"},
    {"filled-with", "resistance"},
};

/* What was said of the material that another one replaces, beside all of its
 * properties. */
static const char *const of_material[] = {
    "resistance", "kind", "name", "sold-thicknesses", "initial-moisture"};

static bool is_one_of(const char *name, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (words[i] != NULL && strcmp(words[i], name) == 0)
            return true;
    return false;
}

static bool is_layer(const xmlNode *node)
{
    return bw_xml_is(node, "layer") || bw_xml_is(node, "membrane") ||
           bw_xml_is(node, "cavity");
}

static bw_status take_out(xmlNode *node, const char *const *words, size_t count,
                          const char *but, bw_error *err)
{
    for (size_t i = 0; i < count; i++)
        if (words[i] != NULL && strcmp(words[i], but) != 0)
            BW_TRY(bw_xml_set(node, words[i], NULL, err));
    return BW_OK;
}

static bw_status take_out_material(xmlNode *node, bw_error *err)
{
    bw_xml_drop(node, "uncertain");
    for (size_t i = 0; i < BW_PROPERTY_COUNT; i++)
        if (bw_property_rows[i].attribute != NULL)
            BW_TRY(bw_xml_set(node, bw_property_rows[i].attribute, NULL, err));
    for (size_t i = 0; i < BW_PROPERTY_WAYS; i++)
        BW_TRY(bw_xml_set(node, bw_property_ways[i].attribute, NULL, err));
    return take_out(node, of_material, BW_COUNT(of_material), "", err);
}

/* The evidence for what is changed or taken out: that of the layer is also
 * that of its framing. */
static bw_status take_out_grade(xmlNode *node, const char *name, bw_error *err)
{
    if (is_one_of(name, BW_NAMES("id", "name", "evidence", "source",
                                 "sold-thicknesses", "initial-moisture",
                                 "initial-relative-humidity")))
        return BW_OK;
    if (bw_xml_is(node, "framing"))
        node = node->parent;
    return is_layer(node) || bw_xml_is(node, "air-leakage")
               ? take_out(node, BW_NAMES("evidence", "source"), name, err)
               : BW_OK;
}

static bw_status make_room(xmlNode *node, const char *name, bw_error *err)
{
    for (size_t i = 0; i < BW_COUNT(same_thing); i++)
        if (is_one_of(name, same_thing[i], BW_COUNT(same_thing[i])))
            BW_TRY(take_out(node, same_thing[i], BW_COUNT(same_thing[i]), name,
                            err));
    if (is_one_of(name, same_thing[0], BW_COUNT(same_thing[0])))
        BW_TRY(bw_xml_set(node, "mu-wet", NULL, err));
    if (bw_xml_is(node, "indoors") && is_one_of(name, same_thing[2], 3)) {
        bw_xml_drop(node, "month");
        if (strcmp(name, "conditions") == 0)
            BW_TRY(
                take_out(node, BW_NAMES("temperature", "margin"), name, err));
    }
    return is_layer(node) && strcmp(name, "material") == 0
               ? take_out_material(node, err)
               : BW_OK;
}

/* ---- where -------------------------------------------------------------- */

static const char *const parts[] = {"outdoors",    "indoors",     "layers",
                                    "air-leakage", "drying-test", "rain-leak"};
enum { PARTS = BW_COUNT(parts), ALWAYS_THERE = 3 };

static bool has_id(const xmlNode *node, const char *id)
{
    const char *own = bw_xml_value(node, "id");
    return own != NULL && strcmp(own, id) == 0;
}

/* "layer-3": the third as the file lists them, of those without an id. */
static bool is_numbered(const xmlNode *node, const char *place, size_t number)
{
    char own[32];
    snprintf(own, sizeof own, "layer-%zu", number);
    return bw_xml_value(node, "id") == NULL && strcmp(own, place) == 0;
}

/* The layers and framings of that id, and the framing of a layer of it; counts
 * them in *count. */
static xmlNode *find_layer(size_t *count, const xmlNode *layers,
                           const char *place)
{
    static const char suffix[] = ".framing";
    char stem[LONGEST_PLACE];
    size_t length = strlen(place), tail = sizeof suffix - 1, number = 0;
    bool framing = length > tail && strcmp(place + length - tail, suffix) == 0;
    xmlNode *found = NULL;
    snprintf(stem, sizeof stem, "%.*s", (int)(framing ? length - tail : 0),
             place);
    for (xmlNode *c = bw_xml_first(layers); c != NULL; c = bw_xml_next(c)) {
        number++;
        if ((has_id(c, place) || is_numbered(c, place, number)) &&
            ++*count == 1)
            found = c;
        for (xmlNode *f = bw_xml_first(c); f != NULL; f = bw_xml_next(f))
            if (bw_xml_is(f, "framing") &&
                (has_id(f, place) ||
                 (framing &&
                  (has_id(c, stem) || is_numbered(c, stem, number)))) &&
                ++*count == 1)
                found = f;
    }
    return found;
}

static bw_status refuse_place(const bw_reader *r, const bw_edit *edit,
                              const xmlNode *layers, const char *place)
{
    const char *words[BW_MOST_LAYERS + BW_MOST_PARTS + 1];
    char numbered[BW_MOST_LAYERS][16], list[400];
    size_t count = 0;
    for (const xmlNode *c = bw_xml_first(layers);
         c != NULL && count < BW_MOST_LAYERS; c = bw_xml_next(c)) {
        const char *id = bw_xml_value(c, "id");
        snprintf(numbered[count], sizeof *numbered, "layer-%zu", count + 1);
        words[count] = id != NULL ? id : numbered[count];
        count++;
    }
    count += bw_part_names(words + count, parts, PARTS);
    words[count++] = "assembly";
    return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, 0,
                   "the change %s=\"%s\": there is no layer, framing or part "
                   "\"%s\" in this wall%s; there are: %s",
                   edit->what, edit->value, place,
                   bw_text_meant((char[BW_MEANT]){0}, place, words, count),
                   bw_xml_list(list, sizeof list, words, count));
}

/* A change of one of several would be half a change. */
static bw_status refuse_several(const bw_reader *r, const bw_edit *edit,
                                const char *place)
{
    return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, 0,
                   "the change %s=\"%s\": \"%s\" stands for more than one "
                   "place in this wall; give each an id of its own, or name a "
                   "framing by its layer, as in stud-bay.framing",
                   edit->what, edit->value, place);
}

static bw_status find_part(bw_reader *r, xmlNode **out, const bw_edit *edit,
                           const char *place)
{
    xmlNode *root = r->xml.root;
    const char *part[BW_MOST_PARTS];
    const size_t count = bw_part_names(part, parts, PARTS);
    if (strcmp(place, "assembly") == 0)
        *out = root;
    for (size_t i = 0; i < count; i++) {
        if (strcmp(place, part[i]) != 0)
            continue;
        BW_TRY(bw_xml_child(out, &r->xml, root, part[i], i < ALWAYS_THERE,
                            r->err));
        if (*out == NULL && *edit->value != '\0')
            BW_TRY(bw_xml_add(out, root, part[i], r->err));
    }
    return BW_OK;
}

static bool names_part(const char *place)
{
    const char *part[BW_MOST_PARTS] = {0};
    const size_t count = bw_part_names(part, parts, PARTS);
    return strcmp(place, "assembly") == 0 || is_one_of(place, part, count);
}

static bw_status find(bw_reader *r, xmlNode **out, const bw_edit *edit,
                      const char *place)
{
    xmlNode *layers;
    size_t count = names_part(place);
    BW_TRY(bw_xml_child(&layers, &r->xml, r->xml.root, "layers", true, r->err));
    *out = find_layer(&count, layers, place);
    if (count > 1)
        return refuse_several(r, edit, place);
    if (*out == NULL)
        BW_TRY(find_part(r, out, edit, place));
    return *out != NULL ? BW_OK : refuse_place(r, edit, layers, place);
}

/* ---- one change --------------------------------------------------------- */

static bw_status refuse(const bw_reader *r, const char *why)
{
    return bw_fail(
        r->err, BW_ERR_INPUT, r->xml.path, 0,
        "a change of this wall %s; write it as PLACE.ATTRIBUTE=\"VALUE\", for "
        "example membrane.sd=\"2 m\" or outdoors.driving-rain=\"severe\"",
        why);
}

static bool sound_text(const char *text)
{
    size_t left = strlen(text);
    while (left > 0) {
        size_t taken = bw_utf8_valid(text, left);
        if (taken == 0)
            return false;
        text += taken;
        left -= taken;
    }
    return true;
}

/* Splits "membrane.sd"; *name is what stands behind the last dot. */
static bw_status split(const bw_reader *r, char place[LONGEST_PLACE],
                       const char **name, const bw_edit *edit)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789-";
    if (!sound_text(edit->what) || !sound_text(edit->value))
        return refuse(r, "holds bytes that are no UTF-8 text");
    const char *dot = strrchr(edit->what, '.');
    if (dot == NULL || dot == edit->what || dot[1] == '\0')
        return refuse(r,
                      "does not say which attribute of which place is meant");
    if (dot - edit->what >= LONGEST_PLACE ||
        strlen(edit->value) > LONGEST_VALUE)
        return refuse(r, "is too long");
    *name = dot + 1;
    if (strspn(*name, letters) != strlen(*name) || **name == '-' ||
        (**name >= '0' && **name <= '9') || strcmp(*name, "xmlns") == 0)
        return refuse(r, "names something that is no attribute");
    snprintf(place, LONGEST_PLACE, "%.*s", (int)(dot - edit->what), edit->what);
    return BW_OK;
}

/* A change and where it was made. */
typedef struct made {
    const xmlNode *node;
    const char *name;
} made;

/* What stood there: in the file, or by an earlier change. */
static void note_change(bw_reader *r, const bw_edit *edit, const made *done,
                        size_t i, const char *was)
{
    bool earlier = false;
    for (size_t k = 0; k < i; k++)
        earlier = earlier || (done[k].node == done[i].node &&
                              strcmp(done[k].name, done[i].name) == 0);
    const char *who = earlier ? "an earlier change had" : "the file has";
    if (was != NULL)
        bw_add_note(r, BW_NOTE_WARNING, done[i].node,
                    "changed from outside the file: %s=\"%s\"; %s \"%s\"",
                    edit[i].what, edit[i].value, who, was);
    else
        bw_add_note(r, BW_NOTE_WARNING, done[i].node,
                    "changed from outside the file: %s=\"%s\"; %s no %s= there",
                    edit[i].what, edit[i].value, who, done[i].name);
}

static bw_status apply(bw_reader *r, made *done, const bw_edit *edits, size_t i)
{
    char place[LONGEST_PLACE];
    const char *name = "";
    xmlNode *node;
    const bw_edit *edit = &edits[i];
    BW_TRY(split(r, place, &name, edit));
    BW_TRY(find(r, &node, edit, place));
    done[i] = (made){node, name};
    const char *was = bw_xml_value(node, name);
    if (*edit->value == '\0' && was == NULL)
        return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, bw_xml_line(node),
                       "the change %s=\"\" takes out what <%s> has not",
                       edit->what, bw_xml_name(node));
    note_change(r, edits, done, i, was);
    BW_TRY(take_out_grade(node, name, r->err));
    if (*edit->value == '\0')
        return bw_xml_set(node, name, NULL, r->err);
    BW_TRY(make_room(node, name, r->err));
    return bw_xml_set(node, name, edit->value, r->err);
}

/* A thickness moves nothing that is stated of the layer as a whole. */
static void note_whole(bw_reader *r, const bw_edit *edit, const made *done)
{
    static const char *const whole[] = {"resistance", "sd", "vapour-resistance",
                                        "permeance"};
    if (strcmp(done->name, "thickness") != 0 || !is_layer(done->node))
        return;
    for (size_t i = 0; i < BW_COUNT(whole); i++)
        if (bw_xml_value(done->node, whole[i]) != NULL)
            bw_add_note(r, BW_NOTE_WARNING, done->node,
                        "the change %s=\"%s\" leaves %s=\"%s\", which is "
                        "stated of the whole layer; change it, too",
                        edit->what, edit->value, whole[i],
                        bw_xml_value(done->node, whole[i]));
}

/* What a later change took out again is not in the wall that is judged. */
static void note_undone(bw_reader *r, const bw_edit *edit, const made *done,
                        size_t i, size_t count)
{
    const char *now = bw_xml_value(done[i].node, done[i].name);
    if (strcmp(now != NULL ? now : "", edit[i].value) == 0)
        return;
    for (size_t k = i + 1; k < count; k++)
        if (done[k].node == done[i].node &&
            strcmp(done[k].name, done[i].name) == 0)
            return;
    bw_add_note(r, BW_NOTE_WARNING, done[i].node,
                "the change %s=\"%s\" has no effect: a later change replaces "
                "it; give it after that",
                edit[i].what, edit[i].value);
}

bw_status bw_apply_edits(bw_reader *r, const bw_edit *edit, size_t count)
{
    made *done = count > 0 ? BW_NEW(r->arena, made, count) : NULL;
    if (count > 0 && done == NULL)
        return bw_fail_memory(r->err);
    for (size_t i = 0; i < count; i++)
        BW_TRY(apply(r, done, edit, i));
    for (size_t i = 0; i < count; i++)
        note_undone(r, edit, done, i, count);
    for (size_t i = 0; i < count; i++)
        note_whole(r, &edit[i], &done[i]);
    r->assembly->edit_count = count;
    r->assembly->edit_note_count = r->note_count;
    return BW_OK;
}

/* A refusal may be the change's fault as well as the file's: it says so. */
void bw_blame_edits(bw_error *err, const bw_edit *edit, size_t count)
{
    if (err == NULL || err->status != BW_ERR_INPUT)
        return;
    size_t used = strlen(err->message);
    for (size_t i = 0; i < count && used < sizeof err->message - 1; i++) {
        int wrote = snprintf(
            err->message + used, sizeof err->message - used, "%s%s=\"%s\"%s",
            i == 0 ? " (read with the changes " : ", ", edit[i].what,
            edit[i].value, i + 1 == count ? ")" : "");
        used += wrote > 0 ? (size_t)wrote : 0;
    }
    if (used >= sizeof err->message)
        bw_utf8_trim(err->message);
}
