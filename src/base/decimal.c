#include "decimal.h"

#include <math.h>

/* A double is m 2^e with whole m < 2^53, so |value| 10^k = m 5^k 2^(e + k) for
 * k >= 0, and m 2^(e + k) / 5^-k below: whole numbers of at most 128 bits, one
 * shift or one division. Invariant: what is said is exact, rounded to nearest
 * and from a tie to even, as printf does (C17 7.21.6.1, F.5); where 128 bits do
 * not hold it, nothing is said. */

#ifdef __SIZEOF_INT128__

__extension__ typedef unsigned __int128 wide;

enum { BITS = 128, MANTISSA = 53, MOST_POWER = 27 }; /* 5^27 < 2^63 */

static const uint64_t power_of_five[MOST_POWER + 1] = {
    1,
    5,
    25,
    125,
    625,
    3125,
    15625,
    78125,
    390625,
    1953125,
    9765625,
    48828125,
    244140625,
    1220703125,
    6103515625,
    30517578125,
    152587890625,
    762939453125,
    3814697265625,
    19073486328125,
    95367431640625,
    476837158203125,
    2384185791015625,
    11920928955078125,
    59604644775390625,
    298023223876953125,
    1490116119384765625,
    7450580596923828125,
};

/* `whole` of something, and a rest of what `of` would be one more. */
static wide round_even(wide whole, wide rest, wide of)
{
    const wide other = of - rest;
    return whole + (rest > other || (rest == other && (whole & 1) != 0));
}

/* product 2^left */
static bool shifted(wide *out, wide product, int left)
{
    if (left >= 0) {
        *out = left < BITS ? product << left : 0;
        return left < BITS && *out >> left == product;
    }
    *out = 0; /* product < 2^116: less than half of what is shifted out */
    if (left > 1 - BITS)
        *out = round_even(product >> -left, product & (((wide)1 << -left) - 1),
                          (wide)1 << -left);
    return true;
}

/* m 2^left / by */
static bool divided(wide *out, uint64_t m, int left, uint64_t by)
{
    if (left >= BITS - MANTISSA)
        return false;
    const wide above = left > 0 ? (wide)m << left : m;
    *out = 0; /* m < 2^53: less than half of what it is divided by */
    if (left > -MANTISSA - 1) {
        const wide below = left < 0 ? (wide)by << -left : by;
        *out = round_even(above / below, above % below, below);
    }
    return true;
}

bool bw_decimal_scaled(uint64_t *out, double value, int k)
{
    if (!isfinite(value) || k > MOST_POWER || k < -MOST_POWER)
        return false;
    int e = 0;
    const uint64_t m = (uint64_t)(frexp(fabs(value), &e) * 0x1p53);
    e -= MANTISSA;
    wide found = 0;
    const bool good = k >= 0
                          ? shifted(&found, (wide)m * power_of_five[k], e + k)
                          : divided(&found, m, e + k, power_of_five[-k]);
    *out = (uint64_t)found;
    return good && found == *out;
}

#else

bool bw_decimal_scaled(uint64_t *out, double value, int k)
{
    (void)value;
    (void)k;
    *out = 0;
    return false;
}

#endif
