#include <math.h>
#include <string.h>

#include "auditing.h"
#include "bothways/geography.h"
#include "fail.h"
#include "properties.h"
#include "text.h"
#include "variant.h"

/* What was shown of the layers, and which unknowns are only assumed: a layer
 * counts as shown by an item of evidence that says when and where to find it.
 * Of any other the file's ranges, its alternatives and the library's range are
 * what may be there. */

/* Of a closed list, whole: "no label" and "word of mouth" show nothing. */
static bool is_kind(const bw_evidence_item *item, bool photograph)
{
    static const char *const kinds[] = {"photograph", "photo", "delivery note",
                                        "label", "data sheet"};
    for (size_t i = photograph ? 0 : 2; i < (photograph ? 2 : 5); i++)
        if (bw_text_same(item->kind, kinds[i]))
            return true;
    return false;
}

/* What a layer is is told by paper of these years (common practice, no source);
 * what is open now, by a photograph of these days and after the last wetting.
 */
static bool is_of_its_time(const bw_audit_core *core,
                           const bw_evidence_item *item, bool photograph)
{
    return item->date[0] != '\0' && !bw_audit_is_ahead(core, item->date) &&
           !bw_audit_is_stale(core, item->date,
                              photograph ? BW_TEST_DAYS : BW_PAPER_DAYS) &&
           !(photograph && bw_audit_is_before_wetting(core, item->date));
}

static bool shows(const bw_audit_core *core, const bw_evidence_item *item,
                  bw_wall_part part, bool photograph)
{
    return item->part.layer >= 0 && item->part.layer == part.layer &&
           item->part.framing == part.framing && bw_text_given(item->ref) &&
           is_kind(item, photograph) && is_of_its_time(core, item, photograph);
}

bool bw_audit_is_shown(const bw_audit_core *core, bw_wall_part part,
                       bool photograph, const char *since)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    for (size_t i = 0; i < up->evidence_count; i++)
        if (shows(core, &up->evidence[i], part, photograph) &&
            (since == NULL || strcmp(up->evidence[i].date, since) >= 0))
            return true;
    return false;
}

const char *bw_audit_first_shown(const bw_audit_core *core, bw_wall_part part,
                                 bool photograph)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const char *first = NULL;
    for (size_t i = 0; i < up->evidence_count; i++)
        if (shows(core, &up->evidence[i], part, photograph) &&
            (first == NULL || strcmp(up->evidence[i].date, first) < 0))
            first = up->evidence[i].date;
    return first;
}

bool bw_audit_layer_is_shown(const bw_audit_core *core, size_t layer)
{
    return bw_audit_is_shown(core, (bw_wall_part){"", (long)layer, false},
                             false, NULL);
}

/* ---- sensitivity -------------------------------------------------------- */

/* The file says so itself; of a cavity it says nothing. */
static bool nobody_looked(const bw_layer *layer)
{
    return layer->kind != BW_LAYER_CAVITY &&
           layer->evidence == BW_EVIDENCE_ASSUMED;
}

static bool is_assumed(const bw_audit_core *core, const bw_unknown *unknown)
{
    const bw_assembly *assembly = core->assembly;
    const long i = bw_assembly_layer(assembly, unknown->layer);
    return i >= 0 && (nobody_looked(&assembly->layer[i]) ||
                      !bw_audit_layer_is_shown(core, (size_t)i));
}

static int rank(const bw_audit_unknown *u)
{
    if (u->decides)
        return u->assumed ? 0 : 1;
    return u->unknown->flips ? 2 : 3;
}

bw_status bw_audit_unknowns(bw_audit_core *core, bw_error *err)
{
    const bw_margin *margin = core->margin;
    if (margin == NULL)
        return BW_OK;
    bw_audit_unknown *list = BW_NEW(&core->arena, bw_audit_unknown,
                                    margin->unknown_count + 1);
    BW_TRY_MEMORY(list != NULL, err);
    for (size_t i = 0; i < margin->unknown_count; i++) {
        const bw_unknown *u = &margin->unknown[i];
        bw_audit_unknown one = {.unknown = u,
                                .assumed = is_assumed(core, u),
                                .decides = u->seen && u->flips &&
                                           u->flip_changes_verdict &&
                                           u->flip_fails};
        size_t k = i;
        for (; k > 0 && rank(&list[k - 1]) > rank(&one); k--)
            list[k] = list[k - 1];
        list[k] = one;
    }
    core->audit.unknown = list;
    core->audit.unknown_count = margin->unknown_count;
    return BW_OK;
}

/* ---- reasons ------------------------------------------------------------- */

static const char *where_it_flips(bw_audit_core *core, const bw_unknown *u)
{
    if (u->unit[0] == '\0')
        return "";
    if (u->flips_all)
        return " at any value of its range";
    bool bare = strcmp(u->unit, "-") == 0;
    const char *word = !u->continuous || !isnan(u->as_drawn) ? "at"
                       : u->flip_above                       ? "above"
                                                             : "below";
    return BW_AUDIT_SAY(core, " %s %s%s%s", word, BW_NUMBER_G(u->flip_value, 4),
                        bare ? "" : " ", bare ? "" : u->unit);
}

/* Nobody has looked, and what may be there makes the wall fail. */
static void look_at_unknown(bw_audit_core *core, const bw_audit_unknown *line)
{
    const bw_unknown *u = line->unknown;
    if (!line->assumed || !line->decides || u->kind == BW_UNKNOWN_STANDARD)
        return;
    const char *where = where_it_flips(core, u);
    if (where == NULL)
        return;
    bw_keep_closed(
        core, BW_OPEN_ASSUMED,
        BW_AUDIT_SAY(core,
                     "layer %s is assumed, or nothing shows it, and the "
                     "verdict rests on it: "
                     "%s%s, %s fails%s; look at it or measure it",
                     u->layer, u->name, where, u->flip_criterion,
                     core->audit.margin != NULL && core->audit.margin->screening
                         ? " (by the screening)"
                         : ""));
}

/* A range says something from here on (common practice, no source). */
static const double LEAST_SPREAD = 0.2, SAME = 1e-9;

static bool has_range(const bw_layer *layer, bw_varied property)
{
    const double drawn = bw_layer_value(layer, property);
    for (size_t i = 0; i < layer->uncertain_count; i++) {
        const bw_uncertain *range = &layer->uncertain[i];
        if (bw_varied_of(range->property) == property &&
            range->low <= drawn * (1.0 - LEAST_SPREAD + SAME) &&
            range->high >= drawn * (1.0 + LEAST_SPREAD - SAME))
            return true;
    }
    return false;
}

/* Any value that the file put in the place of the library's. */
static bool is_own(const bw_layer *layer)
{
    if (layer->resistance.known)
        return true;
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const bw_property *p = bw_property_in(layer->material,
                                              (bw_property_id)i);
        if (p->known && p->basis == BW_BASIS_GIVEN)
            return true;
    }
    return false;
}

/* A layer nobody looked at and no range of it to vary; of values of the file's
 * own the library has none either: then of vapour and, but for a film, of
 * heat. */
static bool is_unknown(const bw_layer *layer)
{
    if (is_own(layer))
        return !((has_range(layer, BW_VARIED_MU) ||
                  has_range(layer, BW_VARIED_SD)) &&
                 (layer->kind == BW_LAYER_MEMBRANE ||
                  has_range(layer, BW_VARIED_LAMBDA) ||
                  has_range(layer, BW_VARIED_RESISTANCE)));
    return layer->uncertain_count == 0 && layer->alternative_count == 0 &&
           layer->evidence == BW_EVIDENCE_ASSUMED;
}

static void look_at_layer(bw_audit_core *core, size_t index)
{
    const bw_layer *layer = &core->assembly->layer[index];
    if (layer->evidence == BW_EVIDENCE_MEASURED &&
        !bw_text_given(layer->source))
        bw_keep_closed(core, BW_OPEN_MEASURED,
                       BW_AUDIT_SAY(core,
                                    "layer %s is called measured, and no "
                                    "source= says by whom, when and with what",
                                    layer->id));
    if (is_unknown(layer) && !bw_audit_layer_is_shown(core, index))
        bw_keep_closed(core, BW_OPEN_UNKNOWN,
                       BW_AUDIT_SAY(core,
                                    "layer %s: nothing shows what it is, and "
                                    "the file gives no range of what it may "
                                    "be, or one narrower than 20 %%",
                                    layer->id));
}

/* ---- references -----------------------------------------------------------
 */

typedef struct reference {
    const char *text;
    long line;
} reference;

/* The reference number `index` of the record: of its items, then of the
 * photographs of its readings, then of the protocols of its air tests. */
static reference reference_of(const bw_closing_up *up, size_t index)
{
    if (index < up->evidence_count)
        return (reference){up->evidence[index].ref, up->evidence[index].line};
    index -= up->evidence_count;
    if (index < up->reading_count)
        return (reference){up->reading[index].photograph,
                           up->reading[index].line};
    index -= up->reading_count;
    return (reference){up->air_test[index].ref, up->air_test[index].line};
}

static void look_at_reference(bw_audit_core *core, size_t index)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    const reference now = reference_of(up, index);
    if (!bw_text_given(now.text)) {
        if (index < up->evidence_count)
            bw_keep_closed(core, BW_OPEN_REFERENCE,
                           BW_AUDIT_SAY(core,
                                        "evidence of \"%s\" (line %ld) has no "
                                        "reference to find it by",
                                        up->evidence[index].of, now.line));
        return;
    }
    for (size_t i = 0; i < index; i++) {
        const reference then = reference_of(up, i);
        if (!bw_text_same(now.text, then.text))
            continue;
        bw_keep_closed(
            core, BW_OPEN_REFERENCE,
            BW_AUDIT_SAY(core,
                         "reference \"%s\" stands twice (lines %ld "
                         "and %ld): one picture or protocol shows one "
                         "thing",
                         now.text, then.line, now.line));
        return;
    }
}

static void look_at_day(bw_audit_core *core, const bw_evidence_item *item)
{
    if (bw_audit_is_ahead(core, item->date))
        bw_keep_closed(core, BW_OPEN_AHEAD,
                       BW_AUDIT_SAY(core,
                                    "evidence of \"%s\" (line %ld): dated "
                                    "after this sheet",
                                    item->of, item->line));
    if (bw_audit_is_stale(core, item->date, BW_PAPER_DAYS))
        bw_keep_closed(core, BW_OPEN_STALE,
                       BW_AUDIT_SAY(core,
                                    "evidence of \"%s\" (line %ld): older "
                                    "than 10 years at the date of this sheet",
                                    item->of, item->line));
}

void bw_hold_references(bw_audit_core *core)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    for (size_t i = 0;
         i < up->evidence_count + up->reading_count + up->air_test_count; i++)
        look_at_reference(core, i);
    for (size_t i = 0; i < up->evidence_count; i++)
        look_at_day(core, &up->evidence[i]);
    for (size_t i = 0; i < up->wet_spell_count; i++)
        if (bw_audit_is_ahead(core, up->wet_spell[i].to))
            bw_keep_closed(core, BW_OPEN_AHEAD,
                           BW_AUDIT_SAY(core,
                                        "wet spell (line %ld): ends after this "
                                        "sheet",
                                        up->wet_spell[i].line));
}

/* ---- layers ---------------------------------------------------------------
 */

void bw_hold_layers(bw_audit_core *core)
{
    const bw_audit *audit = &core->audit;
    const bw_assembly *assembly = core->assembly;
    const bw_air_leakage *air = &assembly->air_leakage;
    if (audit->margin == NULL && audit->assessment->assumed_count > 0)
        bw_keep_closed(core, BW_OPEN_ASSUMED,
                       "layers are only assumed, and the sensitivity that "
                       "could show it does not matter was not computed");
    for (size_t i = 0; i < audit->unknown_count; i++)
        look_at_unknown(core, &audit->unknown[i]);
    for (size_t i = bw_layers_outside(assembly, BW_VENT_WELL);
         i < assembly->layer_count; i++)
        if (assembly->layer[i].kind != BW_LAYER_CAVITY)
            look_at_layer(core, i);
    if (air->tested && assembly->closing_up.air_test_count == 0)
        bw_keep_closed(core, BW_OPEN_MEASURED,
                       "the air leakage is called measured, and no air test "
                       "is in the file");
}
