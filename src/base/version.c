#include "bothways/bothways.h"

/* The version is that of the project, given by the build. */

const char *bw_version(void)
{
    return BW_VERSION;
}
