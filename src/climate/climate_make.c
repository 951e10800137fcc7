#include "climate_make.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "fail.h"
#include "text.h"

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

bw_status bw_climate_add_note(bw_climate *climate, bw_error *err,
                              bw_note_kind kind, long line, const char *format,
                              ...)
{
    struct owner *owner = (struct owner *)climate;
    char text[512];
    va_list args;
    va_start(args, format);
    bw_text_print(text, sizeof text, format, args);
    va_end(args);
    const char *message = bw_arena_copy(&owner->arena, text);
    bw_note *all = bw_arena_more(&owner->arena, owner->note,
                                 climate->note_count, &owner->room,
                                 sizeof *all);
    BW_TRY_MEMORY(message != NULL && all != NULL, err);
    climate->note = owner->note = all;
    all[climate->note_count++] = (bw_note){
        .kind = kind, .line = line, .file = climate->file, .message = message};
    return BW_OK;
}

int bw_ring_hour(int hour)
{
    return (hour + BW_HOURS) % BW_HOURS;
}

const char *bw_hour_text(char buffer[32], int hour)
{
    const int m = bw_hour_month(hour), rest = hour - bw_month_first_hour(m);
    snprintf(buffer, 32, "%s %d %02d:00", bw_month_name(m), rest / 24 + 1,
             rest % 24);
    return buffer;
}

int bw_gap_length(const double value[BW_HOURS], int hour)
{
    int length = 0;
    while (length < BW_HOURS && isnan(value[bw_ring_hour(hour + length)]))
        length++;
    return length;
}
