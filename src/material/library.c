#include "library.h"

#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "text.h"

/* Invariant once sealed: material[] is sorted by group, name, id; no id stands
 * in it twice; id[i] is material[i]->id. */

typedef struct entry {
    bw_material material;
    size_t directory;
    struct entry *next;
} entry;

struct bw_library {
    bw_arena arena;
    entry *first;
    size_t count;
    const bw_material **material;
    const char **id;
    bw_note *note;
    size_t note_count, note_room;
};

bw_library *bw_library_new(void)
{
    return calloc(1, sizeof(bw_library));
}

bw_arena *bw_library_arena(bw_library *library)
{
    return &library->arena;
}

void bw_library_free(bw_library *library)
{
    if (library == NULL)
        return;
    bw_arena_release(&library->arena);
    free(library);
}

static bw_status make_room(bw_library *library, bw_error *err)
{
    if (library->note_count < library->note_room)
        return BW_OK;
    size_t room = library->note_room > 0 ? 2 * library->note_room : 8;
    bw_note *note = BW_NEW(&library->arena, bw_note, room);
    BW_TRY_MEMORY(note != NULL, err);
    if (library->note_count > 0)
        memcpy(note, library->note, library->note_count * sizeof *note);
    library->note = note;
    library->note_room = room;
    return BW_OK;
}

static bw_status replace(bw_library *library, entry *old,
                         const bw_material *material, size_t directory,
                         bw_error *err)
{
    if (old->directory == directory)
        return bw_fail(err, BW_ERR_INPUT, material->file, material->line,
                       "<material> id=\"%s\" is already taken by %s:%ld; give "
                       "one of the two another id",
                       material->id, old->material.file, old->material.line);
    BW_TRY(make_room(library, err));
    char *message = bw_arena_printf(
        &library->arena, "material \"%s\" (%s) replaces the one of %s:%ld",
        material->id, material->name, old->material.file, old->material.line);
    BW_TRY_MEMORY(message != NULL, err);
    library->note[library->note_count++] = (bw_note){
        BW_NOTE_INFO, material->line, material->file, message};
    old->material = *material;
    old->material.replaces = true;
    old->directory = directory;
    return BW_OK;
}

bw_status bw_library_add(bw_library *library, const bw_material *material,
                         size_t directory, bw_error *err)
{
    for (entry *e = library->first; e != NULL; e = e->next)
        if (strcmp(e->material.id, material->id) == 0)
            return replace(library, e, material, directory, err);
    entry *fresh = BW_NEW(&library->arena, entry, 1);
    BW_TRY_MEMORY(fresh != NULL, err);
    *fresh = (entry){*material, directory, library->first};
    library->first = fresh;
    library->count++;
    return BW_OK;
}

static int by_group_and_name(const void *left, const void *right)
{
    const bw_material *a = *(const bw_material *const *)left;
    const bw_material *b = *(const bw_material *const *)right;
    int order = strcmp(a->group, b->group);
    if (order == 0)
        order = strcmp(a->name, b->name);
    return order != 0 ? order : strcmp(a->id, b->id);
}

bw_status bw_library_seal(bw_library *library, bw_error *err)
{
    library->material = BW_NEW(&library->arena, const bw_material *,
                               library->count);
    library->id = BW_NEW(&library->arena, const char *, library->count);
    BW_TRY_MEMORY(library->material != NULL && library->id != NULL, err);
    size_t i = 0;
    for (const entry *e = library->first; e != NULL; e = e->next)
        library->material[i++] = &e->material;
    qsort(library->material, i, sizeof library->material[0], by_group_and_name);
    for (i = 0; i < library->count; i++)
        library->id[i] = library->material[i]->id;
    return BW_OK;
}

size_t bw_library_count(const bw_library *library)
{
    return library->count;
}

const bw_material *bw_library_at(const bw_library *library, size_t i)
{
    return i < library->count ? library->material[i] : NULL;
}

const bw_material *bw_library_find(const bw_library *library, const char *id)
{
    for (size_t i = 0; i < library->count; i++)
        if (strcmp(library->id[i], id) == 0)
            return library->material[i];
    return NULL;
}

const char *bw_library_suggest(const bw_library *library, const char *id)
{
    return bw_text_nearest(id, library->id, library->count);
}

const bw_note *bw_library_notes(const bw_library *library, size_t *count)
{
    *count = library->note_count;
    return library->note;
}
