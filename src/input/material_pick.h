#ifndef BW_INPUT_MATERIAL_PICK_H
#define BW_INPUT_MATERIAL_PICK_H

/* A few materials of a large library, for walls whose files name them: most of
 * a short run would go into the others. What is picked is the same as in the
 * whole; what is not picked is not looked at, faults and all. So this is for
 * the shipped library alone, and whoever fails with what was picked reads the
 * whole and does it again, for the refusal that is meant. */

#include "arena.h"
#include "bothways/material.h"

/* Words that stand between quotes in files, as ids of materials do. */
typedef struct bw_quotes {
    bw_arena arena;
    const char **word; /* each once, of those sorted: the first, and all once
                          bw_quotes_close was called */
    size_t sorted, count, room;
} bw_quotes;

/* Adds those of a text. BW_OK, BW_ERR_MEMORY */
bw_status bw_quotes_add(bw_quotes *quotes, const char *text, bw_error *err);

/* Adds those of a file. BW_OK, or as bw_file_read */
bw_status bw_quotes_read(bw_quotes *quotes, const char *path, bw_error *err);

/* Lookups count from here. */
void bw_quotes_close(bw_quotes *quotes);

void bw_quotes_free(bw_quotes *quotes);

/* Leaves of the text of a material file the materials quoted and the sources
 * that these name, each in its line. False: none is quoted. */
bool bw_material_thin(char *text, const bw_quotes *quotes);

/* As bw_library_read of one folder, of the materials quoted only. */
bw_status bw_library_pick(bw_library **out, const char *path,
                          const bw_quotes *quotes, bw_error *err);

#endif
