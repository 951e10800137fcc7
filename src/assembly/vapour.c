/*   sd = mu d;  at a local RH  1/sd = (1 - t)/sd_dry + t/sd_wet,
 *                              t = (phi - phi_dry)/(phi_wet - phi_dry)
 *
 * Invariant: a slab has at most one curve, and only what rules is credited. */

#include "vapour.h"

#include <math.h>

#include "air_layer.h"

bw_vapour_rule bw_vapour_rules(const bw_material *m, bw_layer_kind kind,
                               double thickness)
{
    const bool by_thickness = (m->mu_dry.known || m->mu_wet.known) &&
                              thickness > 0.0 && kind == BW_LAYER_SOLID;
    if (kind == BW_LAYER_CAVITY)
        return BW_VAPOUR_AIR;
    if (m->sd_curve.count >= 2)
        return BW_VAPOUR_SD_CURVE;
    if (m->sd.known && (!by_thickness || m->sd.basis == BW_BASIS_GIVEN))
        return BW_VAPOUR_SD;
    return BW_VAPOUR_MU;
}

static void set_by_mu(bw_slab *slab)
{
    const bw_material *m = slab->material;
    slab->dry_from = m->mu_dry.known ? &m->mu_dry : &m->mu_wet;
    slab->wet_from = m->mu_wet.known ? &m->mu_wet : &m->mu_dry;
    slab->sd_dry = slab->dry_from->value * slab->thickness;
    slab->sd_wet = slab->wet_from->value * slab->thickness;
    if (m->mu_curve.count >= 2)
        slab->mu_curve = &m->mu_curve;
}

void bw_slab_set_vapour(bw_slab *slab)
{
    const bw_material *m = slab->material;
    slab->vapour = bw_vapour_rules(m, slab->kind, slab->thickness);
    slab->sd_curve = slab->mu_curve = NULL;
    slab->dry_from = slab->wet_from = NULL;
    switch (slab->vapour) {
    case BW_VAPOUR_AIR:
        slab->sd_dry = slab->sd_wet = BW_AIR_LAYER_SD;
        break;
    case BW_VAPOUR_SD_CURVE:
        slab->sd_curve = &m->sd_curve;
        slab->sd_dry = bw_curve_log(&m->sd_curve, BW_CUP_DRY);
        slab->sd_wet = bw_curve_log(&m->sd_curve, BW_CUP_WET);
        break;
    case BW_VAPOUR_SD:
        slab->dry_from = slab->wet_from = &m->sd;
        slab->sd_dry = slab->sd_wet = m->sd.value;
        break;
    case BW_VAPOUR_MU:
        set_by_mu(slab);
        break;
    }
}

double bw_slab_sd(const bw_slab *slab, double phi, double least)
{
    if (slab->mu_curve != NULL)
        return slab->thickness * bw_curve_log(slab->mu_curve, phi);
    if (slab->sd_curve != NULL)
        return bw_curve_log(slab->sd_curve, phi);
    const double dry = 1 / fmax(slab->sd_dry, least);
    const double wet = 1 / fmax(slab->sd_wet, least);
    const double t = (phi - BW_CUP_DRY) / (BW_CUP_WET - BW_CUP_DRY);
    return 1 / (dry + fmin(fmax(t, 0), 1) * (wet - dry));
}

/* A layer with R > 0.25 m2 K/W: the least number of equal strips of at most
 * 0.25 each, ISO 13788 [from memory, high confidence]. */
size_t bw_slab_strips(const bw_slab *slab)
{
    const double most_resistance = 0.25; /* m2 K/W */
    const double rounding = 1e-9; /* so little above a whole number is that */
    const double most = 400; /* keeps absurd input from taking the memory */
    const double n = ceil(slab->resistance / most_resistance - rounding);
    return (size_t)fmin(fmax(n, 1.0), most);
}
