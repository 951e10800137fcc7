#ifndef BW_FUZZ_CLIMATE_CHECKS_H
#define BW_FUZZ_CLIMATE_CHECKS_H

#include "bothways/climate.h"

/* Reads bytes as a climate file and checks what comes of it: a good refusal,
 * or finite months and hours with no vapour pressure above saturation. From
 * months alone, hours are generated and must have the months' means. */
void fuzz_check_climate(const void *data, size_t size);

#endif
