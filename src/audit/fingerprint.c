#include <string.h>

#include "auditing.h"
#include "fail.h"
#include "sha256.h"

/* Which files a result rests on, and their SHA-256, byte for byte. They are
 * read again here: a file changed since it was parsed shows in its hash. */

typedef struct list {
    size_t count, capacity;
    bw_input_file *file;
} list;

static void note(list *files, const char *path)
{
    if (path == NULL || path[0] == '\0' || files->count == files->capacity)
        return;
    for (size_t i = 0; i < files->count; i++)
        if (strcmp(files->file[i].path, path) == 0)
            return;
    files->file[files->count++].path = path;
}

/* Built-in still air has no file. */
static void note_layer(list *files, const bw_layer *layer)
{
    note(files, layer->material->file);
    if (layer->blocked_with != NULL)
        note(files, layer->blocked_with->file);
    if (layer->framing.present)
        note(files, layer->framing.material->file);
    for (size_t k = 0; k < layer->alternative_count; k++)
        note(files, layer->alternative[k].material->file);
}

/* A junction that the wall names, the walls it is made of, its materials. */
static void note_junction(list *files, const bw_junction *junction)
{
    note(files, junction->file);
    for (size_t i = 0; i < junction->wall_count; i++)
        note(files, junction->wall[i]->file);
    for (size_t i = 0; i < junction->material_count; i++)
        note(files, junction->material[i].material->file);
    for (size_t i = 0; i < junction->film_count; i++)
        note(files, junction->film[i].material->file);
}

static size_t most_files(const bw_assembly *assembly)
{
    size_t most = 3;
    for (size_t i = 0; i < assembly->layer_count; i++)
        most += 3 + assembly->layer[i].alternative_count;
    for (size_t i = 0; i < assembly->junction_count; i++) {
        const bw_junction *j = assembly->junction[i].junction;
        most += 1 + j->wall_count + j->material_count + j->film_count;
    }
    return most;
}

bw_status bw_audit_files(bw_audit_core *core, const bw_audit_options *options,
                         bw_error *err)
{
    const bw_assembly *assembly = core->assembly;
    list files = {.capacity = options->file != NULL ? options->file_count
                                                    : most_files(assembly)};
    files.file = BW_NEW(&core->arena, bw_input_file, files.capacity + 1);
    BW_TRY_MEMORY(files.file != NULL, err);
    if (options->file != NULL) {
        for (size_t i = 0; i < options->file_count; i++)
            note(&files, options->file[i]);
    } else {
        note(&files, assembly->file);
        note(&files, core->climate->file);
        if (options->assessment.profile != NULL)
            note(&files, options->assessment.profile->file);
        for (size_t i = 0; i < assembly->layer_count; i++)
            note_layer(&files, &assembly->layer[i]);
        for (size_t i = 0; i < assembly->junction_count; i++)
            note_junction(&files, assembly->junction[i].junction);
    }
    for (size_t i = 0; i < files.count; i++) {
        files.file[i].path = bw_arena_copy(&core->arena, files.file[i].path);
        BW_TRY_MEMORY(files.file[i].path != NULL, err);
        BW_TRY(bw_sha256_file(files.file[i].sha256, files.file[i].path, err));
    }
    core->audit.file = files.file;
    core->audit.file_count = files.count;
    return BW_OK;
}
