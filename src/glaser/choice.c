/* Which mu: dry cup below 70 % mean RH, wet cup above, ISO 10456 [from
 * memory, high confidence]. Chosen once for the year, so that it cannot cycle
 * with the profile: by the mean over twelve months and the two faces, in the
 * whole wall with dry values and no water standing. */

#include "run.h"

static const double threshold = 0.70;

/* Sets used_wet by the rule. */
static void by_local_humidity(bw_run *run, bool *used_wet)
{
    size_t slabs = run->grid.slabs, nodes = run->grid.nodes;
    double *sum = run->first_sd; /* scratch until the dry months */
    for (size_t k = 0; k < slabs; ++k)
        sum[k] = 0.0;
    for (int m = 0; m < BW_MONTHS; ++m) {
        const double *psat = run->psat + (size_t)m * nodes;
        bw_variable_solve(run, m);
        bw_profile(run, m, true);
        for (size_t k = 0; k < slabs; ++k) {
            size_t a = run->grid.face[k], b = run->grid.face[k + 1];
            sum[k] += 0.5 * (run->p[a] / psat[a] + run->p[b] / psat[b]);
        }
    }
    for (size_t k = 0; k < slabs; ++k)
        used_wet[k] = sum[k] / BW_MONTHS > threshold;
}

/* Sets used_wet as told, on both sides of the main insulation. */
static void by_side(const bw_section *section, bool outer_wet, bool *used_wet)
{
    bw_geography geography;
    bw_geography_find(&geography, NULL, section);
    for (size_t k = 0; k < section->slab_count; ++k)
        used_wet[k] = (k < geography.insulation) == outer_wet;
}

void bw_choose_mu(bw_run *run, bw_mu_choice choice, bool *used_wet)
{
    const bw_slab *slab = run->section->slab;
    bool both = false;
    for (size_t k = 0; k < run->grid.slabs; ++k) {
        run->sd[k] = slab[k].sd_dry;
        used_wet[k] = choice == BW_MU_WET;
        both = both || slab[k].sd_dry != slab[k].sd_wet;
    }
    bw_run_set_segments(run);
    if (both && (choice == BW_MU_LOCAL || choice == BW_MU_OPPOSITE))
        by_local_humidity(run, used_wet);
    else if (choice == BW_MU_OUTER_DRY_INNER_WET ||
             choice == BW_MU_OUTER_WET_INNER_DRY)
        by_side(run->section, choice == BW_MU_OUTER_WET_INNER_DRY, used_wet);
    for (size_t k = 0; k < run->grid.slabs; ++k) {
        bool two = slab[k].sd_curve == NULL && slab[k].sd_dry != slab[k].sd_wet;
        used_wet[k] = two && used_wet[k] != (choice == BW_MU_OPPOSITE);
        if (used_wet[k])
            run->sd[k] = slab[k].sd_wet;
    }
    bw_run_set_segments(run);
}
