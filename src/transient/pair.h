#ifndef BW_TRANSIENT_PAIR_H
#define BW_TRANSIENT_PAIR_H

/* Heat and moisture side by side, both worked on at once: arithmetic goes by
 * element, a number is both elements. */

#include <string.h>

typedef double bw_pair __attribute__((vector_size(16)));

static inline bw_pair bw_pair_get(const double *x)
{
    bw_pair p;
    memcpy(&p, x, sizeof p);
    return p;
}

static inline void bw_pair_put(double *x, bw_pair p)
{
    memcpy(x, &p, sizeof p);
}

#endif
