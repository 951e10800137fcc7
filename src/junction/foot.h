#ifndef BW_JUNCTION_FOOT_H
#define BW_JUNCTION_FOOT_H

#include "shaping.h"

/* A wall on its plinth, and the floor beside it.
 * BW_OK; BW_ERR_INPUT, BW_ERR_MEMORY */
bw_status bw_shaping_foot(bw_shaping *s);

#endif
