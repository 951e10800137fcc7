#include "bothways/edit.h"

#include <stdio.h>
#include <string.h>

#include "assembly_reader.h"
#include "fail.h"
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

/* What was said of the material that another one replaces. */
static const char *const of_material[] = {"lambda",
                                          "resistance",
                                          "mu",
                                          "mu-wet",
                                          "vapour-resistivity",
                                          "sd",
                                          "vapour-resistance",
                                          "permeance",
                                          "density",
                                          "specific-heat",
                                          "kind",
                                          "name",
                                          "initial-moisture"};

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

static bw_status make_room(xmlNode *node, const char *name, bw_error *err)
{
    static const char *const grade[] = {"evidence", "source"};
    static const char *const no_grade[] = {"id",
                                           "name",
                                           "evidence",
                                           "source",
                                           "initial-moisture",
                                           "initial-relative-humidity"};
    for (size_t i = 0; i < BW_COUNT(same_thing); i++)
        if (is_one_of(name, same_thing[i], BW_COUNT(same_thing[i])))
            BW_TRY(take_out(node, same_thing[i], BW_COUNT(same_thing[i]), name,
                            err));
    if (is_one_of(name, same_thing[0], BW_COUNT(same_thing[0])))
        BW_TRY(bw_xml_set(node, "mu-wet", NULL, err));
    if (bw_xml_is(node, "indoors") && is_one_of(name, same_thing[2], 3)) {
        bw_xml_drop(node, "month");
        static const char *const room[] = {"temperature", "margin"};
        if (strcmp(name, "conditions") == 0)
            BW_TRY(take_out(node, room, 2, name, err));
    }
    if (!is_layer(node))
        return BW_OK;
    if (strcmp(name, "material") == 0) {
        bw_xml_drop(node, "uncertain");
        BW_TRY(take_out(node, of_material, BW_COUNT(of_material), name, err));
    }
    return is_one_of(name, no_grade, BW_COUNT(no_grade))
               ? BW_OK
               : take_out(node, grade, 2, name, err);
}

/* ---- where -------------------------------------------------------------- */

static const char *const parts[] = {"outdoors", "indoors", "air-leakage",
                                    "drying-test", "rain-leak"};
enum { PARTS = BW_COUNT(parts), ALWAYS_THERE = 2 };

static bool has_id(const xmlNode *node, const char *id)
{
    const char *own = bw_xml_value(node, "id");
    return own != NULL && strcmp(own, id) == 0;
}

/* A layer or framing by its id, a framing by its layer's. */
static xmlNode *find_layer(const xmlNode *layers, const char *place)
{
    static const char suffix[] = ".framing";
    char stem[LONGEST_PLACE];
    size_t length = strlen(place), tail = sizeof suffix - 1;
    bool framing = length > tail && strcmp(place + length - tail, suffix) == 0;
    snprintf(stem, sizeof stem, "%.*s", (int)(framing ? length - tail : 0),
             place);
    for (xmlNode *c = bw_xml_first(layers); c != NULL; c = bw_xml_next(c)) {
        if (has_id(c, place))
            return c;
        for (xmlNode *f = bw_xml_first(c); f != NULL; f = bw_xml_next(f))
            if (bw_xml_is(f, "framing") &&
                (has_id(f, place) || (framing && has_id(c, stem))))
                return f;
    }
    return NULL;
}

static bw_status refuse_place(const bw_reader *r, const bw_edit *edit,
                              const xmlNode *layers, const char *place)
{
    const char *words[BW_MOST_LAYERS + PARTS + 1];
    size_t count = 0;
    char list[400];
    for (const xmlNode *c = bw_xml_first(layers);
         c != NULL && count < BW_MOST_LAYERS; c = bw_xml_next(c))
        if (bw_xml_value(c, "id") != NULL)
            words[count++] = bw_xml_value(c, "id");
    for (size_t i = 0; i < PARTS; i++)
        words[count++] = parts[i];
    words[count++] = "assembly";
    const char *near = bw_text_nearest(place, words, count);
    return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, 0,
                   "the change %s=\"%s\": there is no layer, framing or part "
                   "\"%s\" in this wall%s%s%s; there are: %s",
                   edit->what, edit->value, place,
                   near != NULL ? " (did you mean " : "",
                   near != NULL ? near : "", near != NULL ? "?)" : "",
                   bw_xml_list(list, sizeof list, words, count));
}

static bw_status find(bw_reader *r, xmlNode **out, const bw_edit *edit,
                      const char *place)
{
    xmlNode *root = r->xml.root, *layers;
    BW_TRY(bw_xml_child(&layers, &r->xml, root, "layers", true, r->err));
    *out = find_layer(layers, place);
    if (*out == NULL && strcmp(place, "assembly") == 0)
        *out = root;
    for (size_t i = 0; *out == NULL && i < PARTS; i++) {
        if (strcmp(place, parts[i]) != 0)
            continue;
        BW_TRY(bw_xml_child(out, &r->xml, root, parts[i], i < ALWAYS_THERE,
                            r->err));
        if (*out == NULL && *edit->value != '\0')
            BW_TRY(bw_xml_add(out, root, parts[i], r->err));
    }
    return *out != NULL ? BW_OK : refuse_place(r, edit, layers, place);
}

/* ---- one change --------------------------------------------------------- */

static bw_status refuse(const bw_reader *r, const char *why)
{
    return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, 0,
                   "a change of this wall %s; write it as "
                   "PLACE.ATTRIBUTE=\"VALUE\", for example membrane.sd=\"2 m\" "
                   "or outdoors.driving-rain=\"severe\"",
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

static bw_status apply(bw_reader *r, const bw_edit *edit)
{
    char place[LONGEST_PLACE];
    const char *name = "";
    xmlNode *node;
    BW_TRY(split(r, place, &name, edit));
    BW_TRY(find(r, &node, edit, place));
    const char *was = bw_xml_value(node, name);
    if (*edit->value == '\0' && was == NULL)
        return bw_fail(r->err, BW_ERR_INPUT, r->xml.path, bw_xml_line(node),
                       "the change %s=\"\" takes out what <%s> has not",
                       edit->what, bw_xml_name(node));
    if (was != NULL)
        bw_add_note(r, BW_NOTE_WARNING, node,
                    "changed from outside the file: %s=\"%s\"; the file has "
                    "\"%s\"",
                    edit->what, edit->value, was);
    else
        bw_add_note(r, BW_NOTE_WARNING, node,
                    "changed from outside the file: %s=\"%s\"; the file has "
                    "no %s= there",
                    edit->what, edit->value, name);
    if (*edit->value == '\0')
        return bw_xml_set(node, name, NULL, r->err);
    BW_TRY(make_room(node, name, r->err));
    return bw_xml_set(node, name, edit->value, r->err);
}

bw_status bw_apply_edits(bw_reader *r, const bw_edit *edit, size_t count)
{
    for (size_t i = 0; i < count; i++)
        BW_TRY(apply(r, &edit[i]));
    r->assembly->edit_count = count;
    return BW_OK;
}

/* A refusal may be the change's fault as well as the file's: it says so. */
void bw_blame_edits(const bw_reader *r, const bw_edit *edit, size_t count)
{
    bw_error *err = r->err;
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
}
