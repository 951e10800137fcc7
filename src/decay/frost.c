/* Counts of frost at a spot of porous mineral material; no standard judges by
 * any of them, so all are given:
 *
 *   A  falls of theta to 0 and to -2 degC;
 *   B  of those to 0 degC the ones with more water than a level;
 *   C  sum over the cycles of (highest - lowest ice)/pores.
 *
 * From a lowest to the next highest ice only rises, so C is the sum of all its
 * rises from hour to hour. B: critical degree of saturation, Fagerlund [from
 * memory, high]; 0.30 of free saturation after WTA 6-5 [from memory, medium].
 * C after Zhou, Derome & Carmeliet 2017 [from memory, medium]. Invariants: the
 * year repeats, so the last hour stands before the first; B <= A. */

#include <assert.h>
#include <math.h>

#include "bothways/decay.h"

bw_frost_level bw_frost_level_of(size_t i)
{
    static const bw_frost_level levels[BW_FROST_LEVELS] = {
        {0.30, true}, {0.25, false}, {0.5, false}, {0.7, false}, {0.9, false}};
    assert(i < BW_FROST_LEVELS);
    return levels[i];
}

static void count_cycle(bw_frost_counts *counts, const bw_frost_hours *year,
                        double water)
{
    counts->wettest = fmax(counts->wettest, water / year->full_water);
    for (size_t i = 0; i < BW_FROST_LEVELS; i++) {
        const bw_frost_level level = bw_frost_level_of(i);
        const double most = level.of_free ? year->free_water : year->full_water;
        counts->wet_cycles[i] += water > level.share * most;
    }
}

bw_frost_counts bw_frost_year(const bw_frost_hours *year)
{
    bw_frost_counts counts = {0};
    const size_t hours = year->hours;
    counts.crossings_0 = bw_frost_crossings(year->theta, hours, 0.0);
    counts.crossings_2 = bw_frost_crossings(year->theta, hours, -2.0);
    for (size_t h = 0; h < hours; h++) {
        const size_t before = h > 0 ? h - 1 : hours - 1;
        if (year->theta[before] > 0.0 && year->theta[h] <= 0.0)
            count_cycle(&counts, year, year->water[h]);
        counts.ice_index += fmax(year->ice[h] - year->ice[before], 0.0) /
                            year->full_water;
    }
    return counts;
}
