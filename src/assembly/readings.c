#include "readings.h"

#include <string.h>

#include "fail.h"
#include "number.h"
#include "owner.h"

/* Does `later` stand in the place of `earlier`? ISO dates compare as text. */
static bool replaces(const bw_reading *later, const bw_reading *earlier)
{
    return strcmp(later->member, earlier->member) == 0 &&
           strcmp(later->place, earlier->place) == 0 &&
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

/* ---- a start from readings ---- */

/* The highest that counts of a member; NULL: there is none. */
static const bw_reading *highest_of(const bw_closing_up *up, const char *member)
{
    const bw_reading *highest = NULL;
    for (size_t i = 0; i < up->reading_count; i++) {
        const bw_reading *reading = &up->reading[i];
        if (strcmp(reading->member, member) == 0 && bw_reading_counts(up, i) &&
            (highest == NULL || reading->moisture > highest->moisture))
            highest = reading;
    }
    return highest;
}

static bw_status check_room(const bw_assembly *a, const bw_reading *reading,
                            const bw_material *m, bw_error *err)
{
    char read[32], most[32];
    if (!m->density.known || reading->moisture <= bw_material_most_moisture(m))
        return BW_OK;
    return bw_fail(
        err, BW_ERR_INPUT, a->file, reading->line,
        "<reading> moisture= of member '%s', %s %%, is more than "
        "%s holds: at most %s %% by mass",
        reading->member,
        bw_number_g(read, sizeof read, 100 * reading->moisture, 3), m->name,
        bw_number_g(most, sizeof most, 100 * bw_material_most_moisture(m), 3));
}

static bw_status start_layer(const bw_assembly *a, bw_layer *layer,
                             size_t *started, bw_error *err)
{
    const bw_closing_up *up = &a->closing_up;
    const bw_reading *own = highest_of(up, layer->id);
    if (own != NULL && layer->kind != BW_LAYER_CAVITY) {
        BW_TRY(check_room(a, own, layer->material, err));
        layer->has_initial_moisture = true;
        layer->initial_is_rh = false;
        layer->initial_moisture = own->moisture;
        ++*started;
    }
    bw_framing *framing = &layer->framing;
    const bool named = framing->present && framing->id != NULL;
    own = named ? highest_of(up, framing->id) : NULL;
    if (own != NULL) {
        BW_TRY(check_room(a, own, framing->material, err));
        framing->has_initial_moisture = true;
        framing->initial_is_rh = false;
        framing->initial_moisture = own->moisture;
        ++*started;
    }
    return BW_OK;
}

static bool is_member(const bw_assembly *a, const char *name)
{
    for (size_t i = 0; i < a->layer_count; i++) {
        const bw_layer *layer = &a->layer[i];
        const char *framing = layer->framing.id;
        if ((layer->kind != BW_LAYER_CAVITY && strcmp(layer->id, name) == 0) ||
            (framing != NULL && strcmp(framing, name) == 0))
            return true;
    }
    return false;
}

static bool note_member(bw_assembly_owner *owner, bw_note *note,
                        const bw_reading *r)
{
    const bw_assembly *a = &owner->assembly;
    const bool is = is_member(a, r->member);
    char moisture[32];
    bw_number_g(moisture, sizeof moisture, 100 * r->moisture, 3);
    note->kind = is ? BW_NOTE_INFO : BW_NOTE_WARNING;
    note->file = a->file;
    note->line = r->line;
    note->message = bw_arena_printf(
        &owner->arena,
        is ? "the simulation starts with %s at %s %% by mass, the highest of "
             "its newest readings"
           : "the readings of %s, up to %s %%, start nothing: no layer and no "
             "framing has that id",
        r->member, moisture);
    return note->message != NULL;
}

/* One note a member: what it starts with, or that it is not in the wall. */
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
    for (size_t i = 0; i < up->reading_count; i++)
        if (highest_of(up, up->reading[i].member) == &up->reading[i] &&
            !note_member(owner, &note[count++], &up->reading[i]))
            return false;
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
    if (layer == NULL)
        return bw_fail_memory(err);
    memcpy(layer, a->layer, a->layer_count * sizeof *layer);
    size_t started = 0;
    for (size_t i = 0; i < a->layer_count; i++)
        BW_TRY(start_layer(a, &layer[i], &started, err));
    if (started == 0)
        return bw_fail(err, BW_ERR_INPUT, a->file,
                       a->closing_up.reading[0].line,
                       "<reading> member='%s': no member that was read is a "
                       "layer or framing of this wall; give the layer or "
                       "<framing> that was read the id= of its member",
                       a->closing_up.reading[0].member);
    if (!note_members(owner))
        return bw_fail_memory(err);
    a->layer = layer;
    return BW_OK;
}
