#ifndef BW_INPUT_MATERIAL_READER_H
#define BW_INPUT_MATERIAL_READER_H

/* What the parts of the material reader share. */

#include "bothways/material.h"
#include "library.h"
#include "xml.h"

typedef struct bw_material_reader {
    bw_library *library;
    bw_arena *arena;
    bw_xml xml;
    const char *path; /* in the arena */
    const char *group;
    size_t directory;
    const char **key, **text; /* the sources declared in this file */
    size_t source_count;
    bw_error *err;
} bw_material_reader;

/* The text of an element that holds nothing but text, into the arena. */
bw_status bw_material_text(const char **out, const bw_material_reader *r,
                           const xmlNode *node);

/* Gathers the <source> elements of the root. */
bw_status bw_material_sources(bw_material_reader *r);

/* The texts of the keys in source="a b", joined by "; ". */
bw_status bw_material_source(const char **out, const bw_material_reader *r,
                             const xmlNode *node);

/* basis=, source= and note= of a value or a curve. */
bw_status bw_material_origin(bw_basis *basis, const char **source,
                             const char **note, const bw_material_reader *r,
                             const xmlNode *node);

#endif
