#ifndef BOTHWAYS_EDIT_H
#define BOTHWAYS_EDIT_H

/** @file
 * Changes of a wall, in the words of its file, made while it is read: whatever
 * a file could say can be said, and nothing is accepted that a file would be
 * refused for. The file itself is never touched; to undo a change, read
 * without it. This is the outer of two forms: what the library itself tries
 * on a wall that is read (advice, margin, compare) it changes in a copy.
 */

#include <stddef.h>

#include "bothways/assembly.h"
#include "bothways/error.h"
#include "bothways/export.h"

BW_BEGIN_C

/** One change. Strings are borrowed while the wall is read. */
typedef struct bw_edit {
    const char *what;  /**< "membrane.sd": PLACE.ATTRIBUTE. The place is the id
                            of a layer or framing, "layer-3" for the third
                            listed if it has no id, either and ".framing", or
                            one of outdoors, indoors, layers, air-leakage,
                            drying-test, rain-leak, assembly (an
                            air leakage, a drying test or a rain leak that the
                            file has not is made) */
    const char *value; /**< as the file would have it, with its unit: "2 m";
                            "" takes the attribute out */
} bw_edit;

/**
 * Read an assembly with changes, in their order. What an attribute replaces
 * goes: another way of saying the same (sd= for mu=), the values of the
 * material that material= exchanges, and evidence= and source= of the layer or
 * air leakage, which spoke of what was there; a framing's is that of its layer.
 * A place that stands for several is refused. Every change is a warning among
 * the notes, with what the file has, and so is one that a later change undoes;
 * they are the first `edit_note_count` notes of the assembly, whose
 * `edit_count` tells how many changes there are.
 *
 * @param[out] out    as bw_assembly_read
 * @param[in]  path   the file
 * @param[in]  library  materials
 * @param[in]  edit   `count` changes; NULL if there is none
 * @param[out] err    the first fault
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_IO, BW_ERR_MEMORY
 */
BW_API bw_status bw_assembly_read_edited(bw_assembly **out, const char *path,
                                         const bw_library *library,
                                         const bw_edit *edit, size_t count,
                                         bw_error *err);

/** How many faults of one file are kept. */
enum { BW_MOST_FAULTS = 20 };

/** The faults of one file, by line. */
typedef struct bw_faults {
    size_t count; /**< 1..BW_MOST_FAULTS where the file was refused, else 0 */
    size_t more;  /**< found besides */
    bw_error fault[BW_MOST_FAULTS];
} bw_faults;

/**
 * The same, not ending at the first fault: each layer and each other element is
 * read for itself, and in it every attribute whose value is wrong by itself is
 * told; a check of one attribute against another is told where it is the first
 * of its element. What refers to a faulty layer is left for when it is mended.
 *
 * @param[out] faults  what was refused
 * @param[out] err     the first of them
 */
BW_API bw_status bw_assembly_read_faults(bw_assembly **out, const char *path,
                                         const bw_library *library,
                                         const bw_edit *edit, size_t count,
                                         bw_faults *faults, bw_error *err);

/**
 * The same as bw_assembly_read_edited of a wall that stands in memory.
 *
 * @param[in] text  the whole file, UTF-8, ended by a NUL
 * @param[in] name  what messages and results call the file; a climate that the
 *                  wall names is looked for beside it
 */
BW_API bw_status bw_assembly_read_text(bw_assembly **out, const char *text,
                                       const char *name,
                                       const bw_library *library,
                                       const bw_edit *edit, size_t count,
                                       bw_error *err);

BW_END_C

#endif
