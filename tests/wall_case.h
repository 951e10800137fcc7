#ifndef BW_TESTS_WALL_CASE_H
#define BW_TESTS_WALL_CASE_H

/* Sections built by hand, and the example climate, for the monthly tests. */

#include <check.h>
#include <string.h>

#include "bothways/glaser.h"

enum { CASE_SLABS_MOST = 16 };

/* A section that owns its slabs. Made with wall_of; not to be copied. */
typedef struct wall_case {
    bw_slab slab[CASE_SLABS_MOST];
    bw_section section;
} wall_case;

typedef struct slab_row {
    const char *label;
    double thickness, resistance, sd; /* m, m2 K/W, m */
} slab_row;

static inline void wall_of(wall_case *wall, const slab_row *row, size_t count,
                           double rse, double rsi)
{
    memset(wall, 0, sizeof *wall);
    for (size_t k = 0; k < count; ++k)
        wall->slab[k] = (bw_slab){.label = row[k].label,
                                  .layer = k,
                                  .thickness = row[k].thickness,
                                  .resistance = row[k].resistance,
                                  .sd_dry = row[k].sd,
                                  .sd_wet = row[k].sd};
    wall->section = (bw_section){.name = "whole",
                                 .fraction = 1.0,
                                 .slab_count = count,
                                 .slab = wall->slab,
                                 .outer_resistance = rse,
                                 .inner_resistance = rsi};
}

/* The climate row remembered of ISO 13788's example [from memory, low
 * confidence]; used with the figures recomputed for it. Humidity over ice
 * below 0 degC, as its table of vapour pressures (478 Pa in January) says. */
static const double example_theta_e[BW_MONTHS] = {-1, 0,  4,  9,  14, 18,
                                                  19, 19, 15, 10, 5,  1};
static const double example_phi_e[BW_MONTHS] = {.85, .84, .78, .72, .68, .69,
                                                .73, .75, .79, .83, .88, .88};

/* 20 degC inside and a humidity class of the given excess pressure, falling
 * from 0 to 20 degC, with the margin of 10 %, ISO 13788 annex A [from memory,
 * high confidence]. */
static inline void example_boundary(bw_boundary boundary[BW_MONTHS],
                                    double excess)
{
    for (int m = 0; m < BW_MONTHS; ++m) {
        double te = example_theta_e[m];
        double dp = te <= 0 ? excess : te >= 20 ? 0 : excess * (1 - te / 20);
        double pe = bw_vapour_pressure(te, example_phi_e[m], BW_OVER_ICE);
        boundary[m] = (bw_boundary){te, pe, 20.0, pe + 1.10 * dp};
    }
}

static inline bw_monthly_result run(const wall_case *wall,
                                    const bw_boundary *boundary,
                                    const bw_monthly_options *options)
{
    bw_monthly_result r;
    bw_error err;
    bw_status status = bw_monthly(&r, &wall->section, boundary, options, &err);
    ck_assert_msg(status == BW_OK, "%s", status == BW_OK ? "" : err.message);
    return r;
}

static inline void steady(bw_boundary b[BW_MONTHS], double te, double pe,
                          double ti, double pi)
{
    for (int m = 0; m < BW_MONTHS; ++m)
        b[m] = (bw_boundary){te, pe, ti, pi};
}

/* The inner face of slab k. */
static inline const bw_plane *face(const bw_monthly_result *r, size_t k)
{
    for (size_t i = 0; i < r->plane_count; ++i)
        if (r->plane[i].at.layer_face && r->plane[i].at.slab == k)
            return &r->plane[i];
    ck_abort_msg("no such face");
    return NULL;
}

#endif
