#ifndef BW_MATERIAL_LIBRARY_H
#define BW_MATERIAL_LIBRARY_H

/* Filling a library: make one, add materials, seal it; then it is immutable. */

#include "arena.h"
#include "bothways/material.h"

/* An empty library, or NULL when out of memory. */
bw_library *bw_library_new(void);

/* Where the strings and curves of its materials live. */
bw_arena *bw_library_arena(bw_library *library);

/* Adds a copy of a material whose strings and curves live in the arena.
 * directory: which of the directories read it came from. An id known from
 * another directory is replaced and the replacement noted; a second one from
 * the same directory is refused at material->file, material->line.
 * BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY */
bw_status bw_library_add(bw_library *library, const bw_material *material,
                         size_t directory, bw_error *err);

/* Brings the materials in order. Lookups count from here. */
bw_status bw_library_seal(bw_library *library, bw_error *err);

#endif
