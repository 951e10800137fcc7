#include "climate_make.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"

/* Invariant: the public part is the first member, so that its address is the
 * owner's. */
struct owner {
    bw_climate climate;
    bw_arena arena;
    bw_note *note;
    size_t room;
};

bw_climate *bw_climate_new(const char *file)
{
    struct owner *owner = calloc(1, sizeof *owner);
    if (owner == NULL)
        return NULL;
    bw_climate *climate = &owner->climate;
    climate->file = bw_arena_copy(&owner->arena, file);
    if (climate->file == NULL) {
        bw_climate_free(climate);
        return NULL;
    }
    climate->place = climate->source = climate->licence = climate->remark = "";
    return climate;
}

void bw_climate_free(bw_climate *climate)
{
    if (climate == NULL)
        return;
    struct owner *owner = (struct owner *)climate;
    bw_arena_release(&owner->arena);
    free(owner);
}

bw_arena *bw_climate_arena(bw_climate *climate)
{
    return &((struct owner *)climate)->arena;
}

static bw_status make_room(struct owner *owner, bw_error *err)
{
    size_t count = owner->climate.note_count;
    if (count < owner->room)
        return BW_OK;
    size_t room = owner->room == 0 ? 8 : owner->room * 2;
    bw_note *more = BW_NEW(&owner->arena, bw_note, room);
    if (more == NULL)
        return bw_fail_memory(err);
    if (count > 0)
        memcpy(more, owner->note, count * sizeof *more);
    owner->note = more;
    owner->climate.note = more;
    owner->room = room;
    return BW_OK;
}

bw_status bw_climate_add_note(bw_climate *climate, bw_error *err,
                              bw_note_kind kind, long line, const char *format,
                              ...)
{
    struct owner *owner = (struct owner *)climate;
    char text[512];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    for (char *c = text; *c != '\0'; c++)
        if ((unsigned char)*c < ' ' || *c == 0x7f)
            *c = '?';
    BW_TRY(make_room(owner, err));
    const char *message = bw_arena_copy(&owner->arena, text);
    if (message == NULL)
        return bw_fail_memory(err);
    owner->note[climate->note_count++] = (bw_note){
        .kind = kind, .line = line, .file = climate->file, .message = message};
    return BW_OK;
}
