#include "common.h"

#include "fuzz.h"

/* Kept in a static: reachable at exit, and so no leak. */
const bw_library *fuzz_library(void)
{
    static bw_library *library;
    if (library == NULL) {
        const char *folder = BW_SOURCE_DIR "/materials";
        bw_error err = {0};
        FUZZ_REQUIRE(bw_library_read(&library, &folder, 1, &err) == BW_OK);
    }
    return library;
}

const bw_climate *fuzz_climate(void)
{
    static bw_climate *climate;
    if (climate == NULL) {
        const char *path = BW_SOURCE_DIR "/assemblies/climates/estuary.csv";
        bw_error err = {0};
        FUZZ_REQUIRE(bw_climate_read(&climate, path, &err) == BW_OK);
    }
    return climate;
}
