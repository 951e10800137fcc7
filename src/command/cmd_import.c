/* bothways import: a construction of a gbXML file becomes a skeleton of an
 * assembly; what is missing is told on standard error. */

#include <stdio.h>
#include <string.h>

#include "bothways/bothways.h"
#include "bothways/exchange.h"
#include "emit.h"
#include "fail.h"
#include "library.h"
#include "settings.h"
#include "targets.h"
#include "terminal.h"

static bw_status read_file(bw_gbxml **out, const settings *given, bw_error *err)
{
    if (given->operand_count != 1)
        return bw_fail_usage(
            err,
            "import takes one gbXML file, %zu given: bothways import model.xml "
            "--construction ID --output wall.xml",
            given->operand_count);
    BW_TRY(targets_spare(given, given->operand[0], err));
    return bw_gbxml_read(out, given->operand[0], err);
}

static void print_constructions(const bw_gbxml *file)
{
    fprintf(stderr, "Constructions of this file (layers):\n");
    for (size_t i = 0; i < file->construction_count; i++) {
        const bw_construction *c = &file->construction[i];
        fputs("  ", stderr);
        print_clean(c->id);
        fprintf(stderr, " (%zu)", c->layer_count);
        if (c->name[0] != '\0')
            fputs("  ", stderr);
        print_clean(c->name);
        fputc('\n', stderr);
    }
}

static void print_list(const char *title, const char *const *item, size_t count)
{
    if (count > 0)
        fprintf(stderr, "%s\n", title);
    for (size_t i = 0; i < count; i++) {
        fputs("  * ", stderr);
        print_clean(item[i]);
        fputc('\n', stderr);
    }
}

static bw_status write_skeleton(const bw_skeleton *skeleton,
                                const settings *given, bw_error *err)
{
    bw_output output;
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK)
        bw_output_write(&output, skeleton->xml, strlen(skeleton->xml));
    status = emit_close(&output, status, err);
    if (status != BW_OK || given->quiet)
        return status;
    print_list("Missing, marked \"?\" or named here:", skeleton->missing,
               skeleton->missing_count);
    print_list("Understood:", skeleton->note, skeleton->note_count);
    return BW_OK;
}

static bw_status run_import(int *code, const settings *given, bw_error *err)
{
    (void)code;
    bw_gbxml *file = NULL;
    bw_skeleton *skeleton = NULL;
    bw_library *library = NULL;
    bw_skeleton_options options = {.construction = given->construction,
                                   .permeance_unit = given->permeance_unit};
    bw_status status = read_file(&file, given, err);
    if (status == BW_OK && file != NULL && given->construction == NULL &&
        file->construction_count > 1)
        print_constructions(file);
    if (status == BW_OK)
        status = library_read(&library, given, err);
    options.library = library;
    if (status == BW_OK)
        status = bw_gbxml_skeleton(&skeleton, file, &options, err);
    if (status == BW_OK)
        status = write_skeleton(skeleton, given, err);
    bw_skeleton_free(skeleton);
    bw_gbxml_free(file);
    bw_library_free(library);
    return status;
}

const verb verb_import = {
    .set = IMPORT,
    .name = "import",
    .operands = "FILE.xml",
    .summary = "a gbXML construction becomes a skeleton to complete",
    .details =
        "Reads one construction of a gbXML 6.01 file and writes an assembly\n"
        "file with a \"?\" wherever that format has nothing to say. Without\n"
        "--construction, a file with several is listed. Layers stay outside\n"
        "to inside; units are converted. Materials of the library whose names "
        "a\n"
        "layer's name holds are proposed in a comment, none is taken.\n\n"
        "  bothways import model.xml\n"
        "  bothways import model.xml --construction wall-1 --output wall.xml\n"
        "  bothways import model.xml --construction wall-1 "
        "--permeance-unit \"ng/(Pa.s.m2)\"\n",
    .run = run_import,
};
