#include "record_make.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "climate_make.h"
#include "fail.h"
#include "text.h"

/* Invariant: the public part is the first member, so that its address is the
 * owner's. */
struct owner {
    bw_record record;
    bw_arena arena;
    const char **note;
    size_t room;
};

bw_record *bw_record_new(const char *file)
{
    struct owner *owner = calloc(1, sizeof *owner);
    if (owner == NULL)
        return NULL;
    bw_record *record = &owner->record;
    record->file = bw_arena_copy(&owner->arena, file);
    if (record->file == NULL) {
        bw_record_free(record);
        return NULL;
    }
    record->form = record->times = "";
    return record;
}

void bw_record_free(bw_record *record)
{
    if (record == NULL)
        return;
    struct owner *owner = (struct owner *)record;
    bw_arena_release(&owner->arena);
    free(owner);
}

bw_arena *bw_record_arena(bw_record *record)
{
    return &((struct owner *)record)->arena;
}

bw_status bw_record_note(bw_record *record, bw_error *err, const char *format,
                         ...)
{
    struct owner *owner = (struct owner *)record;
    char text[1024];
    va_list args;
    va_start(args, format);
    bw_text_print(text, sizeof text, format, args);
    va_end(args);
    const char *copy = bw_arena_copy(&owner->arena, text);
    const char **all = bw_arena_more(&owner->arena, owner->note,
                                     record->note_count, &owner->room,
                                     sizeof *all);
    BW_TRY_MEMORY(copy != NULL && all != NULL, err);
    record->note = owner->note = all;
    all[record->note_count++] = copy;
    return BW_OK;
}

double *bw_record_column(bw_record *record)
{
    double *column = BW_NEW(bw_record_arena(record), double, BW_HOURS);
    for (int h = 0; column != NULL && h < BW_HOURS; h++)
        column[h] = (double)NAN;
    return column;
}

const char *bw_record_name(const bw_record *record)
{
    const char *slash = strrchr(record->file, '/');
    return slash != NULL && slash[1] != '\0' ? slash + 1 : record->file;
}
