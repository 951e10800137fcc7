#ifndef BW_FUZZ_COMMON_H
#define BW_FUZZ_COMMON_H

/* The shipped materials and a demo climate, read once. */

#include "bothways/assembly.h"

const bw_library *fuzz_library(void);
const bw_climate *fuzz_climate(void);

#endif
