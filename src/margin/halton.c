#include "halton.h"

#include <math.h>

/* The radical inverse of index + 1 in the dimension's prime (Halton 1960
 * [M-hi]). Neighbouring large primes make points fall on lines; each digit is
 * therefore multiplied, modulo the prime, by a whole number near the prime
 * over the golden ratio (a fixed scrambling; the choice of the multiplier is
 * this project's, and tested). Invariant: the first p^k points of a dimension
 * fall one each into p^k equal parts. */

static const unsigned prime[BW_HALTON_DIMENSIONS] = {
    2,   3,   5,   7,   11,  13,  17,  19,  23,  29,  31,  37,  41,
    43,  47,  53,  59,  61,  67,  71,  73,  79,  83,  89,  97,  101,
    103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167,
    173, 179, 181, 191, 193, 197, 199, 211, 223, 227, 229, 233, 239,
    241, 251, 257, 263, 269, 271, 277, 281, 283, 293, 307, 311};

static const double GOLDEN = 0.6180339887498949;

double bw_halton(size_t index, size_t dimension)
{
    size_t base = prime[dimension];
    size_t factor = (size_t)lround((double)base * GOLDEN);
    double value = 0.0, weight = 1.0;
    for (size_t n = index + 1; n > 0; n /= base) {
        weight /= (double)base;
        value += weight * (double)(n % base * factor % base);
    }
    return value;
}
