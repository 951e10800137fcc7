#ifndef BW_TRANSIENT_WIDE_H
#define BW_TRANSIENT_WIDE_H

/* Four cells side by side, all worked on at once: arithmetic goes by element,
 * a number is all four, so each comes out as it would alone. */

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* no more aligned than what an arena hands out */
typedef double bw_four __attribute__((vector_size(32), aligned(16)));

/* Inlined so that what is not asked for (slopes) is not computed; not where
 * branches are counted, each of them once. */
#ifdef BW_COUNTED
#define BW_ALWAYS static inline
#else
#define BW_ALWAYS static inline __attribute__((always_inline))
#endif

/* Where the processor has registers for four: the same function once more,
 * for these. Neither version fuses or reorders anything. */
#if defined(__x86_64__) && defined(__gnu_linux__) && !defined(__clang__) &&    \
    !defined(BW_COUNTED) && !defined(BW_ARENA_DEBUG)
#define BW_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define BW_WIDE
#endif

BW_ALWAYS bw_four bw_four_get(const double *x)
{
    bw_four a;
    memcpy(&a, x, sizeof a);
    return a;
}

BW_ALWAYS void bw_four_put(double *x, bw_four a)
{
    memcpy(x, &a, sizeof a);
}

/* Which of four, all bits set or none. */
typedef int64_t bw_which __attribute__((vector_size(32), aligned(16)));

/* a where it is, b elsewhere. */
BW_ALWAYS bw_four bw_four_choose(bw_which where, bw_four a, bw_four b)
{
    return (bw_four)(((bw_which)a & where) | ((bw_which)b & ~where));
}

BW_ALWAYS bw_four bw_four_size(bw_four a)
{
    return (bw_four)((bw_which)a & INT64_MAX);
}

BW_ALWAYS bw_four bw_four_larger(bw_four a, bw_four b)
{
    return bw_four_choose(a > b, a, b);
}

BW_ALWAYS bw_four bw_four_lesser(bw_four a, bw_four b)
{
    return bw_four_choose(a < b, a, b);
}

/* Every second of eight, the first or the second. */
BW_ALWAYS bw_four bw_four_first(const double *x)
{
    return __builtin_shufflevector(bw_four_get(x), bw_four_get(x + 4), 0, 2, 4,
                                   6);
}

BW_ALWAYS bw_four bw_four_second(const double *x)
{
    return __builtin_shufflevector(bw_four_get(x), bw_four_get(x + 4), 1, 3, 5,
                                   7);
}

/* The last of a and the first three of b: the cells before those of b. */
BW_ALWAYS bw_four bw_four_before(bw_four a, bw_four b)
{
    return __builtin_shufflevector(a, b, 3, 4, 5, 6);
}

/* a and b in turn: `count` of each, at most four. */
BW_ALWAYS void bw_four_in_turn(double *x, bw_four a, bw_four b, size_t count)
{
    const bw_four low = __builtin_shufflevector(a, b, 0, 4, 1, 5);
    const bw_four high = __builtin_shufflevector(a, b, 2, 6, 3, 7);
    if (count >= 4) {
        bw_four_put(x, low);
        bw_four_put(x + 4, high);
        return;
    }
    double all[8];
    bw_four_put(all, low);
    bw_four_put(all + 4, high);
    memcpy(x, all, 2 * count * sizeof *x);
}

typedef struct bw_sixteen {
    bw_four at[4];
} bw_sixteen;

/* The transpose: the elements k of a, b, c and d are those of at[k]. */
BW_ALWAYS bw_sixteen bw_four_turned(bw_four a, bw_four b, bw_four c, bw_four d)
{
    const bw_four ab = __builtin_shufflevector(a, b, 0, 4, 2, 6);
    const bw_four ba = __builtin_shufflevector(a, b, 1, 5, 3, 7);
    const bw_four cd = __builtin_shufflevector(c, d, 0, 4, 2, 6);
    const bw_four dc = __builtin_shufflevector(c, d, 1, 5, 3, 7);
    return (bw_sixteen){{__builtin_shufflevector(ab, cd, 0, 1, 4, 5),
                         __builtin_shufflevector(ba, dc, 0, 1, 4, 5),
                         __builtin_shufflevector(ab, cd, 2, 3, 6, 7),
                         __builtin_shufflevector(ba, dc, 2, 3, 6, 7)}};
}

/* The elements k of a, b, c and d to x + 4 k. */
BW_ALWAYS void bw_four_across(double *x, bw_four a, bw_four b, bw_four c,
                              bw_four d)
{
    const bw_sixteen all = bw_four_turned(a, b, c, d);
    for (size_t k = 0; k < 4; k++)
        bw_four_put(x + 4 * k, all.at[k]);
}

/* A field of four rows of a table, by its columns. */
#define BW_ROWS(row, what)                                                     \
    bw_four_turned(bw_four_get((row)[0]->what), bw_four_get((row)[1]->what),   \
                   bw_four_get((row)[2]->what), bw_four_get((row)[3]->what))

/* Of these: a cubic and its slope, a line. */
BW_ALWAYS bw_four bw_four_cubic(const bw_sixteen *c, bw_four f)
{
    return c->at[0] + f * (c->at[1] + f * (c->at[2] + f * c->at[3]));
}

BW_ALWAYS bw_four bw_four_cubic_slope(const bw_sixteen *c, bw_four f)
{
    return c->at[1] + f * (2 * c->at[2] + f * 3 * c->at[3]);
}

BW_ALWAYS bw_four bw_four_line(const bw_sixteen *c, size_t first, bw_four f)
{
    return c->at[first] + f * c->at[first + 1];
}

typedef int32_t bw_index __attribute__((vector_size(16)));

/* Whole numbers below x, of 0 and more. */
BW_ALWAYS bw_index bw_four_below(bw_four x)
{
    return __builtin_convertvector(x, bw_index);
}

BW_ALWAYS bool bw_four_equal(bw_index a, bw_index b)
{
    typedef int64_t halves __attribute__((vector_size(16)));
    const halves differ = (halves)(a ^ b);
    return (differ[0] | differ[1]) == 0;
}

#endif
