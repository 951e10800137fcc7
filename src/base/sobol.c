#include "sobol.h"

/* The Sobol sequence in Gray code order (Antonov & Saleev 1979 [M-hi]): digit
 * by digit x = sum of v_b over the bits b of i ^ (i >> 1). Direction numbers by
 * the recurrence of a primitive polynomial over GF(2), polynomials and first
 * m of Joe & Kuo 2008, table new-joe-kuo-6 (from memory [M-hi], its first 21
 * dimensions; that every polynomial is primitive, every m odd and below 2^k,
 * and the first points as published is tested).
 *
 * Scrambled by nested random digits (Owen 1995 [M-hi]): each digit is turned
 * round or not by a random bit of its own for the digits before it, so that a
 * point is evenly distributed while the set keeps its structure. The random
 * bits are a hash (the finaliser of splitmix64 [M-hi]).
 *
 * Invariant: in each dimension, scrambled or not, any 2^k points from a
 * multiple of 2^k on fall one each into 2^k equal parts. */

enum { DIGITS = 32, MOST = 7 };

static const double RESOLUTION = 1.0 / 4294967296.0; /* 2^-32 */

/* Degree, inner coefficients of the polynomial, m_1... */
static const struct direction {
    unsigned degree, inner, m[MOST];
} directions[BW_SOBOL_DIMENSIONS - 1] = {
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
    {5, 2, {1, 1, 5, 5, 17}},
    {5, 4, {1, 1, 5, 5, 5}},
    {5, 7, {1, 1, 7, 11, 19}},
    {5, 11, {1, 1, 5, 1, 1}},
    {5, 13, {1, 1, 1, 3, 11}},
    {5, 14, {1, 3, 5, 5, 31}},
    {6, 1, {1, 3, 3, 9, 7, 49}},
    {6, 13, {1, 1, 1, 15, 21, 21}},
    {6, 16, {1, 3, 1, 13, 27, 49}},
    {6, 19, {1, 1, 1, 15, 7, 5}},
    {6, 22, {1, 3, 1, 15, 13, 25}},
    {6, 25, {1, 1, 5, 5, 19, 61}},
    {7, 1, {1, 3, 7, 11, 23, 15, 103}},
    {7, 4, {1, 3, 7, 13, 13, 15, 69}},
};

static uint64_t mix(uint64_t x)
{
    x += 0x9e3779b97f4a7c15U;
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9U;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebU;
    return x ^ (x >> 31);
}

uint64_t bw_seed_of(uint64_t seed, uint64_t number)
{
    return mix(mix(seed) ^ number);
}

/* v_1 ... of a dimension, as 32 digits behind the point. */
static void find_directions(uint32_t v[DIGITS], size_t dimension)
{
    if (dimension == 0) {
        for (unsigned k = 0; k < DIGITS; k++)
            v[k] = UINT32_C(1) << (DIGITS - 1 - k);
        return;
    }
    const struct direction *d = &directions[dimension - 1];
    for (unsigned k = 0; k < DIGITS; k++) {
        if (k < d->degree) {
            v[k] = (uint32_t)d->m[k] << (DIGITS - 1 - k);
            continue;
        }
        v[k] = v[k - d->degree] ^ (v[k - d->degree] >> d->degree);
        for (unsigned j = 1; j < d->degree; j++)
            if ((d->inner >> (d->degree - 1 - j) & 1U) != 0)
                v[k] ^= v[k - j];
    }
}

static uint32_t digits_of(size_t index, size_t dimension)
{
    uint32_t v[DIGITS] = {0}, x = 0;
    find_directions(v, dimension);
    size_t gray = index ^ (index >> 1);
    for (unsigned k = 0; k < DIGITS && gray != 0; k++, gray >>= 1)
        if ((gray & 1U) != 0)
            x ^= v[k];
    return x;
}

double bw_sobol(size_t index, size_t dimension)
{
    return (double)digits_of(index, dimension) * RESOLUTION;
}

static uint32_t scramble(uint32_t x, uint64_t seed)
{
    uint32_t out = 0;
    for (unsigned b = 0; b < DIGITS; b++) {
        /* the digits before this one, and a one that tells their number */
        const uint64_t before = (UINT64_C(1) << b) |
                                ((uint64_t)x >> (DIGITS - b));
        const uint32_t digit = x >> (DIGITS - 1 - b) & 1U;
        const uint32_t turned = (uint32_t)(bw_seed_of(seed, before) & 1U);
        out = out << 1 | (digit ^ turned);
    }
    return out;
}

double bw_sobol_scrambled(uint64_t seed, size_t index, size_t dimension)
{
    if (dimension >= BW_SOBOL_DIMENSIONS)
        return bw_random(seed, index, dimension);
    const uint32_t x = scramble(digits_of(index, dimension),
                                bw_seed_of(seed, dimension));
    return ((double)x + 0.5) * RESOLUTION;
}

double bw_random(uint64_t seed, size_t index, size_t dimension)
{
    const uint64_t x = bw_seed_of(bw_seed_of(seed, index),
                                  ~(uint64_t)dimension);
    return ((double)(x >> 32) + 0.5) * RESOLUTION;
}
