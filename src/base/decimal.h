#ifndef BW_BASE_DECIMAL_H
#define BW_BASE_DECIMAL_H

/* The decimal digits of a double, exactly. */

#include <stdbool.h>
#include <stdint.h>

/* |value| * 10^k, rounded to the nearest whole number, a tie to the even one.
 * False: it is not finite, or more than this way can hold; printf can. */
bool bw_decimal_scaled(uint64_t *out, double value, int k);

#endif
