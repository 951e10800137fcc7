#ifndef BW_TESTS_PERIOD_CASE_H
#define BW_TESTS_PERIOD_CASE_H

/* Sections built by hand for the period balance. */

#include <check.h>

#include "bothways/glaser.h"

static inline bw_slab slab(double resistance, double sd)
{
    return (bw_slab){.label = "slab",
                     .kind = BW_LAYER_SOLID,
                     .thickness = 0.1,
                     .resistance = resistance,
                     .sd_dry = sd,
                     .sd_wet = sd};
}

static inline bw_slab membrane(double sd)
{
    bw_slab s = slab(0, sd);
    s.kind = BW_LAYER_MEMBRANE;
    s.thickness = 0;
    return s;
}

static inline bw_section section_of(const bw_slab *s, size_t count)
{
    return (bw_section){.name = "whole",
                        .fraction = 1,
                        .slab_count = count,
                        .slab = s,
                        .outer_resistance = .04,
                        .inner_resistance = .25};
}

static inline bw_period_result run(const bw_slab *s, size_t count,
                                   const bw_period_climate *climate,
                                   bw_mu_choice mu)
{
    bw_section section = section_of(s, count);
    bw_period_result r;
    ck_assert_int_eq(bw_period_balance(&r, &section, climate, mu, NULL), BW_OK);
    return r;
}

static inline bw_period_result wall(const bw_slab *s, size_t count)
{
    bw_period_climate c = bw_period_climate_din4108(BW_ELEMENT_WALL);
    return run(s, count, &c, BW_MU_LOCAL);
}

#endif
