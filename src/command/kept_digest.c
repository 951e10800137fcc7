#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "fail.h"
#include "kept_cases.h"

/* A digest of all that a case depends on: version, files byte for byte, changes
 * and options. How many threads there were and which part it was is left out.
 *
 * Invariant: two runs of the same digest judge each case alike. */

typedef struct making {
    bw_sha256 hash;
    bw_error *err;
    const char *last; /* the file added last: neighbours often share one */
} making;

static void add_text(making *m, const char *name, const char *text)
{
    bw_sha256_add(&m->hash, name, strlen(name) + 1);
    bw_sha256_add(&m->hash, text, strlen(text) + 1);
}

static void add_number(making *m, const char *name, long long value)
{
    char text[32];
    snprintf(text, sizeof text, "%lld", value);
    add_text(m, name, text);
}

static bw_status add_file(making *m, const char *path)
{
    char digest[BW_SHA256_TEXT];
    if (path == NULL || path[0] == '\0' ||
        (m->last != NULL && strcmp(m->last, path) == 0))
        return BW_OK;
    m->last = path;
    BW_TRY(bw_sha256_file(digest, path, m->err));
    add_text(m, "file", digest);
    return BW_OK;
}

static bw_status add_layer(making *m, const bw_layer *layer)
{
    if (layer == NULL)
        return BW_OK;
    BW_TRY(add_file(m, layer->material->file));
    if (layer->blocked_with != NULL)
        BW_TRY(add_file(m, layer->blocked_with->file));
    if (layer->framing.present)
        BW_TRY(add_file(m, layer->framing.material->file));
    for (size_t i = 0; i < layer->alternative_count; i++)
        BW_TRY(add_file(m, layer->alternative[i].material->file));
    return BW_OK;
}

static bw_status add_wall(making *m, const bw_assembly *wall)
{
    BW_TRY(add_file(m, wall->file));
    for (size_t i = 0; i < wall->layer_count; i++)
        BW_TRY(add_layer(m, &wall->layer[i]));
    for (size_t k = 0; k < wall->choices.choice_count; k++)
        for (size_t i = 0; i < wall->choices.choice[k].option_count; i++)
            BW_TRY(add_layer(m, wall->choices.choice[k].option[i].layer));
    return BW_OK;
}

static void add_options(making *m, const settings *given)
{
    char tolerance[40];
    add_number(m, "monthly-only", given->monthly_only);
    add_number(m, "no-synthetic-hours", given->no_synthetic_hours);
    add_number(m, "cells", given->cells);
    add_number(m, "years", given->years);
    add_number(m, "start-month", given->start_month);
    snprintf(tolerance, sizeof tolerance, "%a", given->tolerance);
    add_text(m, "tolerance", tolerance);
    add_number(m, "race", given->race);
    add_number(m, "drawn", given->drawn);
    add_number(m, "seed", given->seed);
    add_number(m, "wide", given->wide);
    for (size_t i = 0; i < given->settled.count; i++)
        add_text(m, "settled", given->settled.text[i]);
    for (size_t i = 0; i < given->change.count; i++)
        add_text(m, "set", given->change.text[i]);
}

bw_status kept_digest(char digest[BW_SHA256_TEXT], const walls *all,
                      const settings *given, bw_error *err)
{
    making m = {.err = err};
    bw_sha256_start(&m.hash);
    add_text(&m, "bothways", bw_version());
    BW_TRY(add_wall(&m, all->assembly[0]));
    BW_TRY(add_file(&m, all->climate[0]->file));
    add_text(&m, "profile", all->profile != NULL ? all->profile->name : "");
    if (all->profile != NULL)
        BW_TRY(add_file(&m, all->profile->file));
    add_options(&m, given);
    bw_sha256_finish(&m.hash, digest);
    return BW_OK;
}
