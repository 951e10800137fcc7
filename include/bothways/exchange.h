#ifndef BOTHWAYS_EXCHANGE_H
#define BOTHWAYS_EXCHANGE_H

/** @file
 * Constructions from gbXML 6.01, an open XML format for building models, as
 * skeletons of assembly files. The format knows too little for a moisture
 * check: what is missing is listed and marked with "?" in the skeleton, never
 * guessed.
 */

#include "bothways/error.h"
#include "bothways/export.h"
#include "bothways/material.h"

BW_BEGIN_C

/** A <Construction> of the file. */
typedef struct bw_construction {
    const char *id;
    const char *name;    /**< "" if it has none */
    size_t layer_count;  /**< <LayerId> elements in it */
    long line;
} bw_construction;

/** An open gbXML file; plain data to read. */
typedef struct bw_gbxml {
    const char *file;
    const char *version; /**< as the file says, "" if it does not */
    size_t construction_count; /**< >= 1 */
    const bw_construction *construction; /**< in the order of the file */
} bw_gbxml;

/** Read a gbXML file.
 *  @param[out] out free with bw_gbxml_free
 *  @return BW_OK; BW_ERR_INPUT with file and line: not gbXML, a document type,
 *  no constructions, none with layers; BW_ERR_IO, BW_ERR_MEMORY */
BW_API bw_status bw_gbxml_read(bw_gbxml **out, const char *path, bw_error *err);

/** Frees a file; NULL is allowed. */
BW_API void bw_gbxml_free(bw_gbxml *file);

/** An assembly file to be completed. */
typedef struct bw_skeleton {
    const char *xml;      /**< the whole text, UTF-8, '\n' line ends */
    size_t layer_count;
    size_t missing_count;
    const char *const *missing; /**< what has to be filled in; sentences */
    size_t note_count;
    const char *const *note;    /**< how the file was understood; sentences */
} bw_skeleton;

typedef struct bw_skeleton_options {
    const char *construction;   /**< its id; NULL: the only one */
    /** What a Permeance in "PermSI" is measured in, as an assembly file would
     *  write it, "ng/(Pa.s.m2)"; NULL: such a file is refused, as the schema
     *  does not define that unit. */
    const char *permeance_unit;
    /** Whose materials are proposed in a comment beside each layer whose name
     *  speaks of them; NULL: none are. Borrowed while the skeleton is made. */
    const bw_library *library;
} bw_skeleton_options;

/** Make the skeleton of one construction. Layers stay outside to inside, the
 *  order of the format; quantities are converted to the units of assembly
 *  files.
 *  @param[out] out     free with bw_skeleton_free
 *  @param[in]  options NULL for the defaults
 *  @return BW_OK; BW_ERR_USAGE: no such construction, several and none named,
 *  a PermSI without its unit; BW_ERR_INPUT with the line: a reference to
 *  nothing, no layers, an unknown unit; BW_ERR_MEMORY */
BW_API bw_status bw_gbxml_skeleton(bw_skeleton **out, const bw_gbxml *file,
                                   const bw_skeleton_options *options,
                                   bw_error *err);

/** Frees a skeleton; NULL is allowed. */
BW_API void bw_skeleton_free(bw_skeleton *skeleton);

BW_END_C

#endif
