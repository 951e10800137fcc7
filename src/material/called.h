#ifndef BW_MATERIAL_CALLED_H
#define BW_MATERIAL_CALLED_H

/* What people call materials. */

#include "bothways/material.h"

/* Room for a few ids. */
enum { BW_ALIKE_TEXT = 200 };

/* The ids of bw_library_alike, "glass-wool-batt, stone-wool-batt or eps": three
 * at most. False, and "": none. */
bool bw_library_alike_text(char *out, size_t size, const bw_library *library,
                           const char *word);

#endif
