#include "bothways/bothways.h"

const char *bw_version(void)
{
    return BW_VERSION;
}
