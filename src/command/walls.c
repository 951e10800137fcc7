#include "walls.h"

#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "library.h"
#include "profiles.h"
#include "terminal.h"

static bw_status start(walls *all, size_t count, bw_error *err)
{
    *all = (walls){.count = count};
    all->assembly = calloc(count + 1, sizeof(bw_assembly *));
    all->own = calloc(count + 1, sizeof(bw_climate *));
    all->climate = calloc(count + 1, sizeof(bw_climate *));
    if (all->assembly == NULL || all->own == NULL || all->climate == NULL)
        return bw_fail_memory(err);
    return BW_OK;
}

/* "membrane.sd=2 m" of the command line, split; the copies are all->changed. */
static bw_status split_changes(walls *all, const settings *given, bw_error *err)
{
    size_t size = 1;
    for (size_t i = 0; i < given->change_count; i++)
        size += strlen(given->change[i]) + 1;
    char *room = all->changed = malloc(size);
    if (room == NULL)
        return bw_fail_memory(err);
    for (size_t i = 0; i < given->change_count; i++) {
        size_t length = strlen(given->change[i]) + 1;
        memcpy(room, given->change[i], length);
        char *value = room + strcspn(room, "=");
        if (*value != '\0') /* it has two sides: options.c */
            *value++ = '\0';
        all->edit[i] = (bw_edit){.what = room, .value = value};
        room += length;
    }
    return BW_OK;
}

/* What is read before any wall. */
static bw_status begin(walls *all, const settings *given, bw_error *err)
{
    BW_TRY(start(all, given->operand_count, err));
    BW_TRY(profiles_read(&all->profiles, &all->profile, given, err));
    return split_changes(all, given, err);
}

static bw_status read_wall(walls *all, size_t i, const settings *given,
                           bw_error *err)
{
    const char *path = given->operand[i];
    BW_TRY(emit_spare(given, path, err));
    BW_TRY(bw_assembly_read_edited(&all->assembly[i], path, all->library,
                                   all->edit, given->change_count, err));
    all->climate[i] = all->shared;
    if (all->shared != NULL)
        return BW_OK;
    const char *climate = all->assembly[i]->outdoors.climate_path;
    if (climate[0] == '\0')
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this assembly names no climate; give one with "
                       "--climate FILE");
    BW_TRY(emit_spare(given, climate, err));
    BW_TRY(bw_climate_read(&all->own[i], climate, err));
    all->climate[i] = all->own[i];
    return BW_OK;
}

static bw_status read_shared(walls *out, const settings *given, bw_error *err)
{
    if (given->climate == NULL)
        return BW_OK;
    BW_TRY(emit_spare(given, given->climate, err));
    return bw_climate_read(&out->shared, given->climate, err);
}

/* With as much of the library as the walls seem to name; *all false: not what
 * they need. */
static bw_status read_picked(walls *out, const settings *given, bool *all,
                             bw_error *err)
{
    bw_status status = library_pick(&out->library, given, err);
    *all = status == BW_OK && out->library != NULL;
    if (*all)
        status = read_shared(out, given, err);
    for (size_t i = 0; i < out->count && *all && status == BW_OK; i++)
        status = read_wall(out, i, given, err);
    return status;
}

static bw_status read_whole(walls *out, const settings *given, bw_error *err)
{
    BW_TRY(library_read(&out->library, given, err));
    BW_TRY(read_shared(out, given, err));
    bw_status worst = BW_OK;
    for (size_t i = 0; i < out->count; i++) {
        bw_error fault;
        bw_status status = read_wall(out, i, given, &fault);
        if (status == BW_OK)
            continue;
        if (worst != BW_OK)
            print_error(err);
        if (exit_status(status) > exit_status(worst))
            worst = status;
        *err = fault;
    }
    return worst;
}

bw_status walls_read(walls *out, const settings *given, bw_error *err)
{
    BW_TRY(begin(out, given, err));
    bool all;
    bw_status status = read_picked(out, given, &all, err);
    if ((status == BW_OK && all) || status == BW_ERR_MEMORY)
        return status;
    walls_free(out); /* the whole library tells what is wrong */
    BW_TRY(begin(out, given, err));
    return read_whole(out, given, err);
}

void walls_free(walls *all)
{
    for (size_t i = 0; all->own != NULL && i < all->count; i++)
        bw_climate_free(all->own[i]);
    for (size_t i = 0; all->assembly != NULL && i < all->count; i++)
        bw_assembly_free(all->assembly[i]);
    free(all->changed);
    free(all->climate);
    free(all->own);
    free(all->assembly);
    bw_climate_free(all->shared);
    bw_library_free(all->library);
    bw_profiles_free(all->profiles);
}
