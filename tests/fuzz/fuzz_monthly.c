/* A monthly climate file. */

#include "climate_checks.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_check_climate(data, size);
    return 0;
}
