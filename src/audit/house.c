/* A house: every wall audited by itself, and what is kept of each for the cover
 * sheet. An audit is given back as soon as that is kept, so that memory does
 * not grow with simulations.
 *
 * Invariant: a house is released when every wall is; without walls it is not.
 * The walls stand in the order given. */

#include <stdlib.h>
#include <string.h>

#include "arena.h"
#include "auditing.h"
#include "fail.h"
#include "meter.h"
#include "pool.h"

typedef struct house {
    bw_house made; /* first: users hold a pointer to it */
    bw_arena arena;
    bw_arena *own; /* [wall_count] what a wall's thread writes to */
    bw_house_wall *wall;
    bw_input_file *file;
    const bw_assembly *const *assembly;
    const bw_climate *const *climate;
    const bw_audit_options *options;
    bw_meter meter;
    bw_pool pool; /* of the walls, and of what is inside of each */
} house;

static bool keep_files(bw_house_wall *wall, bw_arena *arena,
                       const bw_audit *audit)
{
    bw_input_file *file = BW_NEW(arena, bw_input_file, audit->file_count + 1);
    for (size_t i = 0; file != NULL && i < audit->file_count; i++) {
        file[i] = audit->file[i];
        file[i].path = bw_arena_say(arena, "%s", audit->file[i].path);
    }
    wall->file = file;
    wall->file_count = audit->file_count;
    return file != NULL;
}

static bool keep_open(bw_house_wall *wall, bw_arena *arena,
                      const bw_audit *audit)
{
    bw_open_item *open = BW_NEW(arena, bw_open_item, audit->open_count + 1);
    for (size_t i = 0; open != NULL && i < audit->open_count; i++)
        open[i].text = bw_arena_say(arena, "%s", audit->open[i].text);
    wall->open = open;
    wall->open_count = audit->open_count;
    return open != NULL;
}

static bw_status keep(bw_house_wall *wall, bw_arena *arena,
                      const bw_audit *audit, bw_error *err)
{
    const bw_assessment *a = audit->assessment;
    *wall = (bw_house_wall){
        .assembly = a->assembly,
        .verdict = a->verdict,
        .verdict_reason = bw_arena_say(arena, "%s", a->verdict_reason),
        .released = audit->released};
    BW_TRY_MEMORY(keep_files(wall, arena, audit) &&
                      keep_open(wall, arena, audit) && !arena->failed,
                  err);
    return BW_OK;
}

static bw_status audit_one(void *payload, size_t i, bw_error *err)
{
    house *h = payload;
    bw_audit *audit = NULL;
    bw_metered metered = {.meter = &h->meter, .share = 1.0};
    bw_audit_options options = *h->options;
    options.assessment.transient.progress = bw_meter_tell;
    options.assessment.transient.payload = &metered;
    BW_TRY(bw_audit_make_on(&h->pool, &audit, h->assembly[i], h->climate[i],
                            &options, err));
    bw_status status = keep(&h->wall[i], &h->own[i], audit, err);
    bw_audit_free(audit);
    bw_meter_tell(&metered, 1.0);
    return status;
}

static bw_status audit_all(house *h, bw_error *err)
{
    const bw_assessment_options *how = &h->options->assessment;
    bw_pool_open(&h->pool, how->threads);
    bw_meter_start(&h->meter, how->transient.progress, how->transient.payload,
                   (double)h->made.wall_count);
    bw_status status = bw_pool_run(&h->pool, h->made.wall_count, audit_one, h,
                                   err);
    bw_meter_end(&h->meter);
    bw_pool_close(&h->pool);
    return status;
}

/* Each file once; one that differs from wall to wall was changed meanwhile. */
static bw_status note_file(house *h, const bw_input_file *file, bw_error *err)
{
    for (size_t i = 0; i < h->made.file_count; i++) {
        if (strcmp(h->file[i].path, file->path) != 0)
            continue;
        if (strcmp(h->file[i].sha256, file->sha256) == 0)
            return BW_OK;
        return bw_fail(err, BW_ERR_INPUT, file->path, 0,
                       "this file was changed while the house was audited");
    }
    h->file[h->made.file_count++] = *file;
    return BW_OK;
}

static bw_status sum_up(house *h, bw_error *err)
{
    bw_house *made = &h->made;
    size_t most = 1;
    for (size_t i = 0; i < made->wall_count; i++)
        most += h->wall[i].file_count;
    h->file = BW_NEW(&h->arena, bw_input_file, most);
    BW_TRY_MEMORY(h->file != NULL, err);
    for (size_t i = 0; i < made->wall_count; i++) {
        made->released_count += h->wall[i].released;
        for (size_t k = 0; k < h->wall[i].file_count; k++)
            BW_TRY(note_file(h, &h->wall[i].file[k], err));
    }
    made->wall = h->wall;
    made->file = h->file;
    made->released = made->wall_count > 0 &&
                     made->released_count == made->wall_count;
    return BW_OK;
}

static bw_status make(house *h, bw_error *err)
{
    const bw_audit_options *options = h->options;
    bw_house *made = &h->made;
    made->name = bw_arena_say(&h->arena, "%s",
                              options->name != NULL ? options->name : "");
    made->date = bw_arena_say(&h->arena, "%s",
                              options->date != NULL ? options->date : "");
    made->command_line = bw_arena_say(
        &h->arena, "%s",
        options->command_line != NULL ? options->command_line : "");
    made->profile = options->assessment.profile != NULL
                        ? options->assessment.profile
                        : bw_profile_default();
    h->wall = BW_NEW(&h->arena, bw_house_wall, made->wall_count + 1);
    h->own = BW_NEW(&h->arena, bw_arena, made->wall_count + 1);
    BW_TRY_MEMORY(h->wall != NULL && h->own != NULL && !h->arena.failed, err);
    BW_TRY(audit_all(h, err));
    return sum_up(h, err);
}

bw_status bw_house_make(bw_house **out, const bw_assembly *const *assembly,
                        const bw_climate *const *climate, size_t count,
                        const bw_audit_options *options, bw_error *err)
{
    const bw_audit_options defaults = {.no_margin = false};
    house *h = calloc(1, sizeof *h);
    BW_TRY_MEMORY(h != NULL, err);
    h->made.wall_count = count;
    h->assembly = assembly;
    h->climate = climate;
    h->options = options != NULL ? options : &defaults;
    bw_status status = make(h, err);
    h->options = NULL;
    if (status != BW_OK) {
        bw_house_free(&h->made);
        return status;
    }
    *out = &h->made;
    return BW_OK;
}

void bw_house_free(bw_house *made)
{
    if (made == NULL)
        return;
    house *h = (house *)made;
    for (size_t i = 0; h->own != NULL && i < made->wall_count; i++)
        bw_arena_release(&h->own[i]);
    bw_arena_release(&h->arena);
    free(h);
}
