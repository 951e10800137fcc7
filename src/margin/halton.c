#include "halton.h"

/* The radical inverse of index + 1 in the dimension's prime (Halton 1960
 * [M-hi]). Neighbouring large primes make points fall on lines; each digit is
 * therefore multiplied, modulo the prime, by a whole number (a linear
 * scrambling). The factors were found by a search for the least correlation of
 * each dimension with those before it over the first 64 to 2000 points (this
 * project's own, tested). Invariant: p^k points from index p^k - 1 on fall one
 * each into p^k equal parts. */

static const unsigned prime[BW_HALTON_DIMENSIONS] = {
    2,   3,   5,   7,   11,  13,  17,  19,  23,  29,  31,  37,  41,
    43,  47,  53,  59,  61,  67,  71,  73,  79,  83,  89,  97,  101,
    103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167,
    173, 179, 181, 191, 193, 197, 199, 211, 223, 227, 229, 233, 239,
    241, 251, 257, 263, 269, 271, 277, 281, 283, 293, 307, 311};

static const unsigned factor[BW_HALTON_DIMENSIONS] = {
    1,   2,   4,   2,  7,   5,   16,  6,   5,   15, 5,  11,  40, 28,  43,  5,
    6,   42,  8,   70, 34,  12,  72,  52,  11,  26, 29, 20,  50, 107, 22,  106,
    38,  66,  138, 27, 152, 62,  122, 7,   102, 74, 62, 176, 44, 152, 128, 177,
    198, 128, 128, 93, 178, 242, 18,  202, 66,  83, 38, 191, 38, 119, 262, 162};

double bw_halton(size_t index, size_t dimension)
{
    size_t base = prime[dimension];
    double value = 0.0, weight = 1.0;
    for (size_t n = index + 1; n > 0; n /= base) {
        weight /= (double)base;
        value += weight * (double)(n % base * factor[dimension] % base);
    }
    return value;
}
