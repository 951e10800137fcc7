#ifndef BW_CRITERIA_SCOPE_H
#define BW_CRITERIA_SCOPE_H

/* Where the monthly method stops being a proof and becomes a screening. */

#include "rows.h"

/* Appends what the assembly is beyond to items[0..capacity), each thing once;
 * returns the number. The sections' design runs may be missing. */
size_t bw_scope_find(bw_scope_item *items, size_t capacity, bw_rows *rows,
                     const bw_assembly *assembly,
                     const bw_section_assessment *part, size_t part_count);

/* Does the file say that the layer, or its framing, is built in wet: above 20 %
 * by mass, or what its curve holds at 90 % RH where it is no wood? */
bool bw_layer_starts_wet(const bw_layer *layer);

#endif
