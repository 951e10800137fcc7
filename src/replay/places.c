/* Where a place of a record lies: 'outer|inner' by layer ids, in either order,
 * 'outside' and 'room' being the air; 'layer@20mm' so far from the layer's
 * outer face.
 *
 * Invariant: a place is in the part that is simulated, or the record is
 * refused. */

#include <math.h>
#include <string.h>

#include "fail.h"
#include "number.h"
#include "replaying.h"

/* ---- the part ------------------------------------------------------------ */

static const bw_section *section_of(const bw_sections *sections, bool stud)
{
    for (size_t i = 0; i < sections->count; i++)
        if (sections->section[i].through_stud == stud)
            return &sections->section[i];
    return NULL;
}

static bw_status no_place(const bw_replay_core *core, const bw_log_channel *c,
                          const char *why, bw_error *err)
{
    const bw_log *log = core->replay.log;
    return bw_fail(err, BW_ERR_INPUT, log->file, log->header_line,
                   "'%.100s': %s", c->name, why);
}

/* ---- names --------------------------------------------------------------- */

static bool is_word(const char *text, size_t length, const char *word)
{
    return strlen(word) == length && strncmp(text, word, length) == 0;
}

static const char *id_of(const bw_assembly *a, const bw_slab *slab)
{
    return a->layer[slab->layer].id;
}

/* The face whose sides have these two names: face k is the outer one of slab
 * k. */
static bool find_face(const bw_replay_part *part, const bw_assembly *a,
                      const char *outer, size_t outer_length, const char *inner,
                      size_t inner_length, const char *outside, size_t *face)
{
    const size_t n = part->section.slab_count;
    for (size_t k = 0; k <= n; k++) {
        const char *before = k > 0 ? id_of(a, &part->section.slab[k - 1])
                                   : outside;
        const char *after = k < n ? id_of(a, &part->section.slab[k]) : "room";
        if (is_word(outer, outer_length, before) &&
            is_word(inner, inner_length, after)) {
            *face = k;
            return true;
        }
    }
    return false;
}

static bool is_film(const bw_slab *slab)
{
    return slab->kind == BW_LAYER_MEMBRANE;
}

/* On the side of what has a thickness. */
static bool at_face(const bw_replay_part *part, size_t face,
                    bw_follow_place *place)
{
    const size_t n = part->section.slab_count;
    const bw_slab *slab = part->section.slab;
    if (face < n && (face == 0 || is_film(&slab[face - 1]))) {
        *place = (bw_follow_place){.slab = face, .outer = true};
        return !is_film(&slab[face]);
    }
    *place = (bw_follow_place){.slab = face - 1};
    return !is_film(&slab[face - 1]);
}

static bw_status find_between(const bw_replay_part *part,
                              const bw_replay_core *core, const bw_assembly *a,
                              const bw_log_channel *c, const char *bar,
                              bw_follow_place *place, bw_error *err)
{
    const size_t first = (size_t)(bar - c->at), second = strlen(bar + 1);
    const char *outside = core->cavity >= 0 ? a->layer[core->cavity].id
                                            : "outside";
    size_t face = 0;
    if (!find_face(part, a, c->at, first, bar + 1, second, outside, &face) &&
        !find_face(part, a, bar + 1, second, c->at, first, outside, &face))
        return no_place(core, c,
                        core->cavity >= 0
                            ? "no two layers with these ids touch in the part "
                              "of the wall that is simulated, inside the "
                              "cavity measured"
                            : "no two layers with these ids touch in this wall",
                        err);
    if (!at_face(part, face, place))
        return no_place(core, c,
                        "between two membranes there is no place; name the "
                        "layer beside them that has a thickness",
                        err);
    return BW_OK;
}

/* "20mm", "0.02m"; m. */
static bool read_depth(const char *text, double *depth)
{
    const char *end = text;
    if (!bw_number_read(text, depth, &end))
        return false;
    if (strcmp(end, "mm") == 0)
        *depth *= 1e-3;
    return strcmp(end, "mm") == 0 || strcmp(end, "m") == 0;
}

static bw_status find_within(const bw_replay_part *part,
                             const bw_replay_core *core, const bw_assembly *a,
                             const bw_log_channel *c, const char *sign,
                             bw_follow_place *place, bw_error *err)
{
    double depth = 0;
    if (!read_depth(sign + 1, &depth))
        return no_place(core, c,
                        "behind @ stands the distance from the layer's outer "
                        "face with its unit, as in wool@20mm",
                        err);
    for (size_t k = 0; k < part->section.slab_count; k++) {
        const bw_slab *slab = &part->section.slab[k];
        if (!is_word(c->at, (size_t)(sign - c->at), id_of(a, slab)))
            continue;
        /* as drawn: a trial may be thinner */
        if (a == core->replay.assembly &&
            !(depth >= 0 && depth <= slab->thickness && slab->thickness > 0))
            return no_place(core, c, "the layer is not so thick", err);
        *place = (bw_follow_place){
            .slab = k, .within = true, .depth = fmin(depth, slab->thickness)};
        return BW_OK;
    }
    return no_place(core, c,
                    "no layer with this id is in the part of the wall that is "
                    "simulated",
                    err);
}

static bw_status find(const bw_replay_part *part, const bw_replay_core *core,
                      const bw_assembly *a, const bw_log_channel *c,
                      bw_follow_place *place, bw_error *err)
{
    const char *bar = strchr(c->at, '|'), *sign = strrchr(c->at, '@');
    if (bar != NULL)
        return find_between(part, core, a, c, bar, place, err);
    if (sign != NULL)
        return find_within(part, core, a, c, sign, place, err);
    return no_place(core, c,
                    "a place is two layer ids that touch, as in "
                    "sheathing|insulation, or a layer and a distance from its "
                    "outer face, as in insulation@20mm",
                    err);
}

static double depth_of(const bw_replay_part *part, const bw_follow_place *place)
{
    double depth = 0;
    for (size_t k = 0; k < place->slab; k++)
        depth += part->section.slab[k].thickness;
    if (place->within)
        return depth + place->depth;
    return depth +
           (place->outer ? 0 : part->section.slab[place->slab].thickness);
}

/* ---- the part with its places -------------------------------------------- */

static bw_status find_all(bw_replay_part *part, const bw_replay_core *core,
                          bw_arena *arena, const bw_assembly *assembly,
                          bool stud, bw_error *err)
{
    const size_t most = core->replay.place_count + 1;
    part->which = BW_NEW(arena, size_t, most);
    part->place = BW_NEW(arena, bw_follow_place, most);
    part->depth = BW_NEW(arena, double, most);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t p = 0; p < core->replay.place_count; p++) {
        const bw_log_channel *c = core->place[p].channel;
        bw_follow_place *place = &part->place[part->count];
        if ((c->kind == BW_LOG_STUD) != stud)
            continue;
        BW_TRY(find(part, core, assembly, c, place, err));
        part->depth[part->count] = depth_of(part, place);
        part->which[part->count++] = p;
    }
    return BW_OK;
}

bw_status bw_replay_part_open(bw_replay_part *part, const bw_replay_core *core,
                              bw_arena *arena, const bw_assembly *assembly,
                              bool stud, bw_error *err)
{
    const bw_section_options options = {.keep_all_layers = true,
                                        .layers_apart = true};
    *part = (bw_replay_part){0};
    BW_TRY(bw_sections_make(&part->of, assembly, &options, err));
    const bw_section *section = section_of(part->of, stud);
    if (section == NULL)
        return bw_fail(err, BW_ERR_INPUT, core->replay.log->file,
                       core->replay.log->header_line,
                       "a place was measured in the line of a stud, but no "
                       "layer of the wall has framing");
    part->section = *section;
    while (part->section.slab_count > 0 &&
           part->section.slab->layer < core->replay.left_out) {
        part->section.slab++;
        part->section.slab_count--;
    }
    part->section.dropped_layers = core->replay.left_out;
    for (size_t k = 0; k < part->section.slab_count; k++)
        part->thickness += part->section.slab[k].thickness;
    return find_all(part, core, arena, assembly, stud, err);
}

void bw_replay_part_close(bw_replay_part *part)
{
    bw_sections_free(part->of);
    part->of = NULL;
}

/* ---- the list ------------------------------------------------------------ */

/* "between Sheathing and Insulation, 22 mm from the outer face". */
static const char *words(bw_replay_core *core, const bw_replay_part *part,
                         size_t i)
{
    const bw_follow_place *at = &part->place[i];
    const bw_slab *slab = part->section.slab;
    const size_t face = at->slab + (at->outer ? 0 : 1);
    const bool first = face == 0, last = face == part->section.slab_count;
    if (at->within)
        return bw_arena_say(&core->arena, "in %s, %.0f mm from its outer face",
                            slab[at->slab].label, 1e3 * at->depth);
    if (first || last)
        return bw_arena_say(&core->arena, "at the %s face of %s",
                            first ? "outer" : "inner",
                            slab[first ? 0 : face - 1].label);
    return bw_arena_say(&core->arena, "between %s and %s", slab[face - 1].label,
                        slab[face].label);
}

bw_status bw_replay_places(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    core->place = BW_NEW(&core->arena, bw_replay_place, BW_LOG_CHANNELS);
    BW_TRY_MEMORY(core->place != NULL, err);
    r->place = core->place;
    bool any[2] = {false, false};
    for (size_t i = 0; i < r->log->channel_count; i++) {
        const bw_log_channel *c = &r->log->channel[i];
        if (c->kind < BW_LOG_PLACE)
            continue;
        any[c->kind == BW_LOG_STUD] = true;
        core->place[r->place_count++] = (bw_replay_place){.channel = c,
                                                          .name = c->at};
    }
    for (int stud = 0; stud < 2; stud++) {
        bw_replay_part part;
        if (!any[stud])
            continue;
        const bw_status status = bw_replay_part_open(
            &part, core, &core->arena, r->assembly, stud == 1, err);
        for (size_t i = 0; status == BW_OK && i < part.count; i++) {
            bw_replay_place *place = &core->place[part.which[i]];
            place->depth = part.depth[i];
            place->section = part.section.name;
            place->words = words(core, &part, i);
        }
        bw_replay_part_close(&part);
        BW_TRY(status);
    }
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
