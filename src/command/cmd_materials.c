/* bothways materials: list, show, search, validate. */

#include <stdio.h>
#include <string.h>

#include "arena.h"
#include "bothways/bothways.h"
#include "called.h"
#include "emit.h"
#include "fail.h"
#include "library.h"
#include "material_page.h"
#include "settings.h"
#include "targets.h"
#include "text.h"

static bool any_material(const bw_material *material, const char *word)
{
    (void)material;
    (void)word;
    return true;
}

static bw_status fail_unknown(const bw_library *library, const char *word,
                              bw_error *err)
{
    char near[BW_ALIKE_TEXT];
    if (bw_library_alike_text(near, sizeof near, library, word))
        return bw_fail_usage(err, "no material '%s'; did you mean %s?", word,
                             near);
    return bw_fail_usage(err,
                         "no material '%s'; bothways materials lists all, "
                         "bothways materials search WORD seeks",
                         word);
}

static bw_status show(const bw_library *library, const settings *given,
                      bw_output *output, const char *id, bw_error *err)
{
    if (given->format != FORMAT_TEXT)
        return bw_fail_usage(
            err, "--format %s is for lists; one material is shown as text",
            given->format == FORMAT_CSV ? "csv" : "json");
    const bw_material *material = bw_library_find(library, id);
    if (material == NULL)
        return fail_unknown(library, id, err);
    return material_show(output, given, material, err);
}

/* The words of which ids are made: hemp and batt of hemp-batt. */
static const char *near_word(const bw_library *library, const char *word,
                             bw_arena *arena)
{
    enum { WORDS_MOST = 4096 };
    const char **words = bw_arena_get(arena, WORDS_MOST, sizeof *words);
    size_t count = 0;
    for (size_t i = 0; words != NULL && i < bw_library_count(library); i++) {
        char *rest = NULL;
        char *id = bw_arena_copy(arena, bw_library_at(library, i)->id);
        for (char *w = id != NULL ? strtok_r(id, "-", &rest) : NULL;
             w != NULL && count < WORDS_MOST; w = strtok_r(NULL, "-", &rest))
            words[count++] = w;
    }
    return words != NULL ? bw_text_nearest(word, words, count) : NULL;
}

static bw_status fail_no_word(const bw_library *library, const char *word,
                              bw_error *err)
{
    bw_arena arena = {0};
    const char *near = near_word(library, word, &arena);
    bw_status status =
        near == NULL
            ? fail_unknown(library, word, err)
            : bw_fail_usage(err, "no material mentions '%s'; did you mean %s?",
                            word, near);
    bw_arena_release(&arena);
    return status;
}

static bw_status search(const bw_library *library, const settings *given,
                        bw_output *output, const char *word, bw_error *err)
{
    bool known = false;
    for (size_t i = 0; i < bw_library_count(library); i++)
        known = known || bw_material_mentions(bw_library_at(library, i), word);
    if (!known)
        return fail_no_word(library, word, err);
    return material_list(output, given, library, bw_material_mentions, word,
                         err);
}

static bw_status validate(const settings *given, bw_output *output,
                          bw_error *err)
{
    const char *folder = given->operand[1];
    bw_library *library = NULL;
    BW_TRY(targets_spare_folder(given, folder, err));
    BW_TRY(bw_library_read(&library, &folder, 1, err));
    char line[128];
    snprintf(line, sizeof line, "%zu materials read, no fault\n",
             bw_library_count(library));
    bw_output_write(output, line, strlen(line));
    bw_library_free(library);
    return BW_OK;
}

/* The words after `materials`: a subcommand and its operand, or an id. */
static bw_status dispatch(const bw_library *library, const settings *given,
                          bw_output *output, bw_error *err)
{
    size_t count = given->operand_count;
    const char *word = count > 0 ? given->operand[0] : "list";
    if (strcmp(word, "list") == 0 && count <= 1)
        return material_list(output, given, library, any_material, "", err);
    if (strcmp(word, "search") == 0 && count == 2)
        return search(library, given, output, given->operand[1], err);
    if (strcmp(word, "show") == 0 && count == 2)
        return show(library, given, output, given->operand[1], err);
    if (strcmp(word, "search") == 0 || strcmp(word, "show") == 0 ||
        strcmp(word, "list") == 0 || strcmp(word, "validate") == 0 ||
        count != 1)
        return bw_fail_usage(err, "usage: bothways materials [list | NAME | "
                                  "show NAME | search WORD | validate DIR]");
    return show(library, given, output, word, err);
}

static bool validates(const settings *given)
{
    return given->operand_count == 2 &&
           strcmp(given->operand[0], "validate") == 0;
}

static bw_status run_materials(int *code, const settings *given, bw_error *err)
{
    (void)code;
    bw_library *library = NULL;
    bw_output output = {.fd = -1};
    bw_status status = validates(given) ? BW_OK
                                        : library_read(&library, given, err);
    if (status == BW_OK)
        status = emit_open(&output, given, err);
    if (status == BW_OK)
        status = validates(given) ? validate(given, &output, err)
                                  : dispatch(library, given, &output, err);
    status = emit_close(&output, status, err);
    bw_library_free(library);
    return status;
}

const verb verb_materials = {
    .set = MATERIALS,
    .name = "materials",
    .operands = "[list | NAME | show NAME | search WORD | validate DIR]",
    .summary = "list, show, search or validate materials and their sources",
    .details = "Every value is shown with its source and how it was obtained.\n"
               "\n"
               "  bothways materials\n"
               "  bothways materials search hemp\n"
               "  bothways materials validate my-materials\n",
    .run = run_materials,
};
