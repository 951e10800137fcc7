#ifndef BW_INPUT_MATERIAL_XML_H
#define BW_INPUT_MATERIAL_XML_H

/* One material file into a library that is not sealed yet. */

#include "bothways/material.h"

/* path is kept by copy; directory as in bw_library_add.
 * text: what to take for the file's text, ended by a NUL; NULL: read it
 * BW_OK, BW_ERR_INPUT, BW_ERR_IO, BW_ERR_MEMORY */
bw_status bw_material_file_read(bw_library *library, const char *path,
                                const char *text, size_t directory,
                                bw_error *err);

#endif
