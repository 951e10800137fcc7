/* Which mu: dry cup below 70 % mean RH, wet cup above, ISO 10456 [from
 * memory, high confidence]. Chosen once for all months, so that it cannot
 * cycle with the profile: by the mean over the months and the two faces, in the
 * whole wall with dry values and no water standing. */

#include "fail.h"
#include "run.h"

static const double threshold = 0.70;

static bool two_cups(const bw_slab *slab)
{
    return slab->sd_curve == NULL && slab->sd_dry != slab->sd_wet;
}

bool bw_mu_by_humidity(const bw_section *section, bw_mu_choice choice)
{
    bool both = false;
    for (size_t k = 0; k < section->slab_count; ++k)
        both = both || two_cups(&section->slab[k]);
    return both && (choice == BW_MU_LOCAL || choice == BW_MU_OPPOSITE);
}

static bool takes_wet(bw_mu_choice choice, bool outside, double mean_rh)
{
    switch (choice) {
    case BW_MU_DRY:
        return false;
    case BW_MU_WET:
        return true;
    case BW_MU_OUTER_DRY_INNER_WET:
        return !outside;
    case BW_MU_OUTER_WET_INNER_DRY:
        return outside;
    case BW_MU_LOCAL:
        break;
    case BW_MU_OPPOSITE:
        return !(mean_rh > threshold);
    }
    return mean_rh > threshold;
}

void bw_mu_choose(bool *wet, double *sd, const bw_section *section,
                  bw_mu_choice choice, const double *mean_rh)
{
    bw_geography geography = {.insulation = 0};
    if (choice == BW_MU_OUTER_DRY_INNER_WET ||
        choice == BW_MU_OUTER_WET_INNER_DRY)
        bw_geography_find(&geography, NULL, section);
    for (size_t k = 0; k < section->slab_count; ++k) {
        const bw_slab *slab = &section->slab[k];
        wet[k] = two_cups(slab) &&
                 takes_wet(choice, k < geography.insulation,
                           mean_rh != NULL ? mean_rh[k] : 0.0);
        if (slab->sd_curve == NULL)
            sd[k] = wet[k] ? slab->sd_wet : slab->sd_dry;
    }
}

bw_status bw_run_choose_mu(bw_run *run, bw_arena *arena, bw_mu_choice choice,
                           bool *used_wet, bw_error *err)
{
    const bw_section *section = run->section;
    double *mean = BW_NEW(arena, double, section->slab_count);
    BW_TRY_MEMORY(mean != NULL, err);
    for (size_t k = 0; k < section->slab_count; ++k)
        run->sd[k] = section->slab[k].sd_dry;
    bw_run_set_segments(run);
    for (int m = 0; bw_mu_by_humidity(section, choice) && m < BW_MONTHS; ++m) {
        bw_run_variable(run, m);
        bw_profile(run, m, true);
        for (size_t k = 0; k < section->slab_count; ++k)
            mean[k] += run->variable.mean_rh(run, k) / BW_MONTHS;
    }
    bw_mu_choose(used_wet, run->sd, section, choice, mean);
    bw_run_set_segments(run);
    return BW_OK;
}
