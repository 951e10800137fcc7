#ifndef BW_INPUT_ASSEMBLY_OPTIONS_H
#define BW_INPUT_ASSEMBLY_OPTIONS_H

#include "assembly_reader.h"

/* Reads the options of one <choice> of a layer, whose index is set, with the
 * thicknesses that each is to be tried in. */
bw_status bw_read_options(bw_reader *r, bw_choice *choice, const xmlNode *node);

#endif
