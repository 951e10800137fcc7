#include <string.h>

#include "auditing.h"
#include "bothways/geography.h"
#include "fail.h"
#include "properties.h"
#include "readings.h"
#include "text.h"

/* What evidence this wall asks for before it is closed. One list, read off the
 * wall, of its evidence only what was found wet: printed before work starts,
 * and read by the hold point when it ends. Wood inside the weather line is read
 * by member, the air barrier is tested while it is exposed, a ventilated cavity
 * is shown to be clear; that a layer is what is drawn may be shown. */

#define PHOTOGRAPH "<evidence kind=\"photograph\" part= of= ref= date=>"

/* A row a kind; `lacks` is what is said where it is missing. */
static const struct {
    const char *word;
    bw_need need;
} every[] = {
    [BW_NEED_LIMIT] =
        {"limit",
         {.what = "state its allowed and critical moisture: 18 % and 20 %, or "
                  "less",
          .where = "",
          .why = "what is read is judged by it",
          .form = "<moisture-limit member= part= allowed= critical=>",
          .lacks = "no moisture limit"}},
    [BW_NEED_READINGS] =
        {"readings",
         {.why = "wood behind a lining dries slowly and rots unseen",
          .form = "<reading member= place= moisture= depth= meter= "
                  "wood-temperature= species= by= date=>"}},
    [BW_NEED_PHOTOGRAPH] = {"photograph",
                            {.what = "photograph it with the meter on it",
                             .where = "where it is read",
                             .why = "a number alone shows no place",
                             .form =
                                 "photograph= of a <reading>, or " PHOTOGRAPH,
                             .lacks = "no photograph of where it was read"}},
    [BW_NEED_INSPECTION] =
        {"inspection",
         {.what = "look for damage, and photograph what was found",
          .where = "where it was read above critical",
          .form = PHOTOGRAPH,
          .lacks = "it was above critical, and no photograph of that day or "
                   "later shows what it did"}},
    [BW_NEED_AIR_TEST] =
        {"air-test",
         {.what = "test the air tightness and search for leaks while the air "
                  "barrier is exposed",
          .where = "joints, corners, floors, openings, pipes and cables",
          .why = "behind the lining no leak can be reached",
          .form = "<air-test stage=\"membrane-exposed\" q50= uncertainty= "
                  "leak-search=\"yes\" by= ref= date=>"}},
    [BW_NEED_BARRIER] = {"air-barrier",
                         {.what =
                              "photograph its joints and what goes through it",
                          .where = "every kind of joint, each penetration",
                          .why = "leaks are there",
                          .form = PHOTOGRAPH,
                          .lacks = "no photograph of its joints"}},
    [BW_NEED_CAVITY] =
        {"cavity",
         {.what = "photograph that it is clear and open at foot and head",
          .where = "foot, head, above and below openings",
          .why = "a blocked cavity neither drains nor dries",
          .form = PHOTOGRAPH,
          .lacks = "no photograph shows it clear"}},
    [BW_NEED_LAYER] = {
        "layer",
        {.what = "show that it is what is drawn: label, delivery note or data "
                 "sheet",
         .where = "",
         .why = "else it is varied over all that it may be, and that may keep "
                "the hold point shut",
         .form = "<evidence kind= part= of= ref= date=>",
         .lacks = "nothing shows it"}}};

const char *bw_need_kind_text(bw_need_kind kind)
{
    return every[kind].word;
}

static bw_need need_of(bw_need_kind kind, bw_wall_part part, const char *of)
{
    bw_need need = every[kind].need;
    need.kind = kind;
    need.part = part;
    need.of = of;
    need.required = kind != BW_NEED_LAYER;
    return need;
}

static void add(bw_audit_core *core, bw_need need, bool present)
{
    bw_need *list = bw_arena_more(&core->arena, core->need,
                                  core->audit.need_count, &core->need_room,
                                  sizeof *list);
    if (list == NULL)
        return; /* the arena remembers */
    need.present = present;
    if (present)
        need.lacks = "";
    core->need = list;
    list[core->audit.need_count++] = need;
}

/* Words that name it in the file. */
static bw_wall_part part_of(bw_audit_core *core, size_t layer, bool framing)
{
    const char *text = bw_arena_say(&core->arena, "%s%s",
                                    core->assembly->layer[layer].id,
                                    framing ? ".framing" : "");
    return (bw_wall_part){text, (long)layer, framing};
}

static const char *called(bw_audit_core *core, bw_wall_part part)
{
    const bw_layer *layer = &core->assembly->layer[part.layer];
    return part.framing
               ? bw_arena_say(&core->arena, "framing in %s (%s)", layer->name,
                              layer->framing.material->name)
               : layer->name;
}

/* ---- members --------------------------------------------------------------
 */

static bool is_of(const bw_audit_core *core, const char *member,
                  bw_wall_part part)
{
    const bw_wall_part own = bw_part_of_member(core->assembly, member);
    return own.layer == part.layer && own.framing == part.framing;
}

static bool has_limit(const bw_audit_core *core, bw_wall_part part)
{
    const bw_closing_up *up = &core->assembly->closing_up;
    for (size_t i = 0; i < up->limit_count; i++)
        if (is_of(core, up->limit[i].member, part))
            return true;
    return false;
}

/* One that tells of the part now. */
static bool tells(const bw_audit_core *core, const bw_reading_entry *e,
                  bw_wall_part part)
{
    return e->counts && is_of(core, e->reading->member, part) &&
           bw_audit_is_fresh(core, e->reading) &&
           bw_audit_depth_is_there(core, e->reading) &&
           e->reading->depth >=
               bw_audit_depth_asked(core, part) - BW_MOISTURE_SAME;
}

/* Different places that tell of the part, whatever it is called there. */
static size_t places_of(const bw_audit_core *core, bw_wall_part part)
{
    const bw_audit *audit = &core->audit;
    size_t count = 0;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const char *place = audit->reading[i].reading->place;
        bool again = !tells(core, &audit->reading[i], part) ||
                     !bw_text_given(place);
        for (size_t k = 0; k < i && !again; k++)
            again = tells(core, &audit->reading[k], part) &&
                    bw_text_same(place, audit->reading[k].reading->place);
        count += !again;
    }
    return count;
}

static bool is_pictured(const bw_audit_core *core, bw_wall_part part)
{
    const bw_audit *audit = &core->audit;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading *r = audit->reading[i].reading;
        if (bw_text_given(r->photograph) && is_of(core, r->member, part) &&
            bw_audit_is_fresh(core, r))
            return true;
    }
    return bw_audit_is_shown(core, part, true, NULL);
}

/* The last day on which it was read above critical; NULL: none. */
static const char *once_wet(const bw_audit_core *core, bw_wall_part part)
{
    const bw_audit *audit = &core->audit;
    const char *last = NULL;
    for (size_t i = 0; i < audit->reading_count; i++) {
        const bw_reading_entry *e = &audit->reading[i];
        if (e->decision == BW_READING_INSPECT &&
            is_of(core, e->reading->member, part) &&
            (last == NULL || strcmp(e->reading->date, last) > 0))
            last = e->reading->date;
    }
    return last;
}

static const char *where_wettest(bw_wall_part part)
{
    return part.framing
               ? "the plate at the foot, the foot and the middle of a stud, "
                 "on the weather side, below openings and at corners, where "
                 "it stood wettest"
               : "edges and joints at the foot, on the weather side, below "
                 "openings, where it stood wettest";
}

static const char *what_to_read(bw_audit_core *core, bw_wall_part part)
{
    const double deep = bw_audit_depth_asked(core, part);
    const char *depth = deep > 0.0 ? bw_arena_say(&core->arena,
                                                  ", %s mm deep or deeper",
                                                  BW_NUMBER_G(1e3 * deep, 2))
                                   : "";
    return bw_arena_say(&core->arena,
                        "read its moisture at %d different places or more%s, "
                        "not more than %d days before closing and after it "
                        "last got wet; write meter, wood temperature, species "
                        "and reader down",
                        BW_PLACES_LEAST, depth, BW_READING_DAYS);
}

static void add_readings(bw_audit_core *core, bw_wall_part part, const char *of)
{
    const size_t places = places_of(core, part);
    bw_need need = need_of(BW_NEED_READINGS, part, of);
    need.what = what_to_read(core, part);
    need.where = where_wettest(part);
    need.lacks = bw_arena_say(&core->arena,
                              "%zu of %d places read, lately and deep enough",
                              places, BW_PLACES_LEAST);
    add(core, need, places >= BW_PLACES_LEAST);
}

static void add_inspection(bw_audit_core *core, bw_wall_part part,
                           const char *of)
{
    const char *day = once_wet(core, part);
    if (day == NULL)
        return;
    bw_need need = need_of(BW_NEED_INSPECTION, part, of);
    need.why = bw_arena_say(&core->arena, "it was above critical on %s", day);
    add(core, need, bw_audit_is_shown(core, part, true, day));
}

static void add_member(bw_audit_core *core, bw_wall_part part)
{
    const char *of = called(core, part);
    add(core, need_of(BW_NEED_LIMIT, part, of), has_limit(core, part));
    add_readings(core, part, of);
    add(core, need_of(BW_NEED_PHOTOGRAPH, part, of), is_pictured(core, part));
    add_inspection(core, part, of);
}

/* ---- air, cavities, layers ------------------------------------------------
 */

/* The tightest layer inside the main insulation; -1: none. */
static long barrier_of(const bw_sections *sections, const bw_assembly *assembly)
{
    const bw_section *section = &sections->section[0];
    bw_geography geography;
    bw_geography_find(&geography, assembly, section);
    return geography.tight_inside < section->slab_count
               ? (long)section->slab[geography.tight_inside].layer
               : -1;
}

static void add_air(bw_audit_core *core, long barrier)
{
    const bw_audit *audit = &core->audit;
    const bw_wall_part none = {"", -1, false};
    const bw_wall_part part = barrier >= 0
                                  ? part_of(core, (size_t)barrier, false)
                                  : none;
    const char *of = barrier >= 0 ? called(core, part) : "air barrier";
    bw_need need = need_of(BW_NEED_AIR_TEST, part, of);
    need.lacks = audit->air_test_text;
    add(core, need, audit->air_test_evidenced);
    if (barrier >= 0)
        add(core, need_of(BW_NEED_BARRIER, part, of),
            bw_audit_is_shown(core, part, true, NULL));
}

static void add_cavity(bw_audit_core *core, size_t layer)
{
    const bw_wall_part part = part_of(core, layer, false);
    add(core, need_of(BW_NEED_CAVITY, part, called(core, part)),
        bw_audit_is_shown(core, part, true, NULL));
}

static void add_layer(bw_audit_core *core, size_t layer)
{
    const bw_wall_part part = part_of(core, layer, false);
    add(core, need_of(BW_NEED_LAYER, part, called(core, part)),
        bw_audit_layer_is_shown(core, layer));
}

static bool is_timber(const bw_material *m)
{
    return m != NULL && bw_is_timber(m);
}

static void add_all(bw_audit_core *core, long barrier)
{
    const bw_assembly *a = core->assembly;
    const size_t inside = bw_layers_outside(a, BW_VENT_WELL);
    for (size_t i = inside; i < a->layer_count; i++) {
        const bw_layer *layer = &a->layer[i];
        if (layer->kind != BW_LAYER_CAVITY && is_timber(layer->material))
            add_member(core, part_of(core, i, false));
        if (layer->framing.present && is_timber(layer->framing.material))
            add_member(core, part_of(core, i, true));
    }
    add_air(core, barrier);
    for (size_t i = 0; i < a->layer_count; i++)
        if (a->layer[i].kind == BW_LAYER_CAVITY &&
            a->layer[i].ventilation != BW_VENT_NONE)
            add_cavity(core, i);
    for (size_t i = inside; i < a->layer_count; i++)
        if (a->layer[i].kind != BW_LAYER_CAVITY)
            add_layer(core, i);
}

bw_status bw_audit_needs(bw_audit_core *core, bw_error *err)
{
    bw_sections *sections = NULL;
    BW_TRY(bw_sections_make(&sections, core->assembly, NULL, err));
    add_all(core, barrier_of(sections, core->assembly));
    bw_sections_free(sections);
    core->audit.need = core->need;
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
