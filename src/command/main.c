#include <stdio.h>

#include "bothways/bothways.h"

int main(void)
{
    printf("bothways %s\n", bw_version());
    return 0;
}
