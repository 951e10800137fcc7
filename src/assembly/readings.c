#include "readings.h"

#include <string.h>

#include "fail.h"
#include "number.h"
#include "owner.h"
#include "text.h"

/* Does `later` stand in the place of `earlier`? ISO dates compare as text. */
static bool replaces(const bw_reading *later, const bw_reading *earlier)
{
    return strcmp(later->member, earlier->member) == 0 &&
           bw_text_same(later->place, earlier->place) &&
           strcmp(later->date, earlier->date) > 0 &&
           later->depth >= earlier->depth - BW_MOISTURE_SAME;
}

bool bw_reading_counts(const bw_closing_up *up, size_t index)
{
    for (size_t i = 0; i < up->reading_count; i++)
        if (replaces(&up->reading[i], &up->reading[index]))
            return false;
    return true;
}

bw_wall_part bw_part_of_member(const bw_assembly *a, const char *member)
{
    const bw_closing_up *up = &a->closing_up;
    for (size_t i = 0; i < up->limit_count; i++)
        if (up->limit[i].part.layer >= 0 &&
            strcmp(up->limit[i].member, member) == 0)
            return up->limit[i].part;
    for (size_t i = 0; i < a->layer_count; i++) {
        const bw_layer *layer = &a->layer[i];
        const char *framing = layer->framing.id;
        const bool is = layer->kind != BW_LAYER_CAVITY &&
                        strcmp(layer->id, member) == 0;
        if (is || (framing != NULL && strcmp(framing, member) == 0))
            return (bw_wall_part){member, (long)i, !is};
    }
    return (bw_wall_part){member, -1, false};
}

/* ---- a start from readings ---- */

static bool is_of(const bw_assembly *a, const bw_reading *reading,
                  bw_wall_part part)
{
    const bw_wall_part own = bw_part_of_member(a, reading->member);
    return own.layer == part.layer && own.framing == part.framing &&
           (part.layer >= 0 || strcmp(reading->member, part.text) == 0);
}

/* The highest that counts of a part; NULL: there is none. */
static const bw_reading *highest_of(const bw_assembly *a, bw_wall_part part)
{
    const bw_closing_up *up = &a->closing_up;
    const bw_reading *highest = NULL;
    for (size_t i = 0; i < up->reading_count; i++) {
        const bw_reading *reading = &up->reading[i];
        if (is_of(a, reading, part) && bw_reading_counts(up, i) &&
            (highest == NULL || reading->moisture > highest->moisture))
            highest = reading;
    }
    return highest;
}

static bw_status check_room(const bw_assembly *a, const bw_reading *reading,
                            const bw_material *m, bw_error *err)
{
    if (!m->density.known || reading->moisture <= bw_material_most_moisture(m))
        return BW_OK;
    return bw_fail(err, BW_ERR_INPUT, a->file, reading->line,
                   "<reading> moisture= of member '%s', %s %%, is more than "
                   "%s holds: at most %s %% by mass",
                   reading->member, BW_NUMBER_G(100 * reading->moisture, 3),
                   m->name, BW_NUMBER_G(100 * bw_material_most_moisture(m), 3));
}

static bw_status start_layer(const bw_assembly *a, bw_layer *layer, long index,
                             size_t *started, bw_error *err)
{
    const bw_reading *own = highest_of(a, (bw_wall_part){"", index, false});
    if (own != NULL) {
        BW_TRY(check_room(a, own, layer->material, err));
        layer->has_initial_moisture = true;
        layer->initial_is_rh = false;
        layer->initial_moisture = own->moisture;
        ++*started;
    }
    bw_framing *framing = &layer->framing;
    own = highest_of(a, (bw_wall_part){"", index, true});
    if (own != NULL) {
        BW_TRY(check_room(a, own, framing->material, err));
        framing->has_initial_moisture = true;
        framing->initial_is_rh = false;
        framing->initial_moisture = own->moisture;
        ++*started;
    }
    return BW_OK;
}

static bool note_member(bw_assembly_owner *owner, bw_note *note,
                        const bw_reading *r, bool is)
{
    const bw_assembly *a = &owner->assembly;
    char moisture[32];
    bw_number_g(moisture, sizeof moisture, 100 * r->moisture, 3);
    note->kind = is ? BW_NOTE_INFO : BW_NOTE_WARNING;
    note->file = a->file;
    note->line = r->line;
    note->message = bw_arena_printf(
        &owner->arena,
        is ? "the simulation starts with %s at %s %% by mass, the highest of "
             "its newest readings"
           : "the readings of %s, up to %s %%, start nothing: it is no layer "
             "and no framing, by its id or by part= of its limit",
        r->member, moisture);
    return note->message != NULL;
}

/* One note a part, what it starts with; one a member that is none. */
static bool note_members(bw_assembly_owner *owner)
{
    bw_assembly *a = &owner->assembly;
    const bw_closing_up *up = &a->closing_up;
    bw_note *note = BW_NEW(&owner->arena, bw_note,
                           a->note_count + up->reading_count);
    if (note == NULL)
        return false;
    size_t count = a->note_count;
    if (count > 0)
        memcpy(note, a->note, count * sizeof *note);
    for (size_t i = 0; i < up->reading_count; i++) {
        const bw_reading *reading = &up->reading[i];
        const bw_wall_part part = bw_part_of_member(a, reading->member);
        if (highest_of(a, part) == reading &&
            !note_member(owner, &note[count++], reading, part.layer >= 0))
            return false;
    }
    a->note = note;
    a->note_count = count;
    return true;
}

bw_status bw_assembly_start_from_readings(bw_assembly *a, bw_error *err)
{
    bw_assembly_owner *owner = (bw_assembly_owner *)a;
    if (a->closing_up.reading_count == 0)
        return bw_fail(err, BW_ERR_INPUT, a->file, 0,
                       "there is no <reading> in <closing-up> to start the "
                       "simulation from");
    bw_layer *layer = BW_NEW(&owner->arena, bw_layer, a->layer_count);
    BW_TRY_MEMORY(layer != NULL, err);
    memcpy(layer, a->layer, a->layer_count * sizeof *layer);
    size_t started = 0;
    for (size_t i = 0; i < a->layer_count; i++)
        BW_TRY(start_layer(a, &layer[i], (long)i, &started, err));
    if (started == 0)
        return bw_fail(err, BW_ERR_INPUT, a->file,
                       a->closing_up.reading[0].line,
                       "<reading> member='%s': no member that was read is a "
                       "layer or framing of this wall; say with part= of its "
                       "<moisture-limit> what it is",
                       a->closing_up.reading[0].member);
    BW_TRY_MEMORY(note_members(owner), err);
    a->layer = layer;
    return BW_OK;
}
