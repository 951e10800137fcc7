/* Months without a simulation: within the limits of the method (scope.c) they
 * may be right and still not see what a simulation would fail. Where one of
 * these is so they do not say that a wall holds. */

#include "judge.h"

#include <math.h>

#include "bothways/air.h"
#include "properties.h"

/* Mould begins at faces of wood and board at this humidity (ISO 13788's own
 * limit of surfaces [from memory, high]); a month tells no days. */
static const double DAMP = 0.80;
/* Dust on fibres feeds it, too, where it is damper; estimate. */
static const double WET = 0.90;
/* Layers that store: water put beside them goes into them. */
static const double STORES = 0.010; /* m, estimate */
/* What stops vapour that the sun drives inwards; and how humid outdoor air is
 * there in the mean of a month, from which the sun makes wet; estimates. */
static const double TIGHT = 2.0;   /* m */
static const double SUMMER = 0.75; /* RH */

static bool feeds(const bw_slab *slab)
{
    return slab->kind == BW_LAYER_SOLID && bw_feeds_mould(slab->material);
}

static const char *damp_face(bw_rows *rows, const bw_section_assessment *part,
                             const bw_geography *geography)
{
    double most = 0.0;
    const bw_plane *worst = NULL;
    int when = 0;
    const bw_slab *slab = part->section->slab;
    for (size_t i = 0; i < part->run[BW_RUN_DESIGN].result.plane_count; i++) {
        const bw_plane *plane = &part->run[BW_RUN_DESIGN].result.plane[i];
        const size_t k = plane->at.slab;
        if (!plane->at.layer_face ||
            !bw_face_at_risk(geography, part->section, k))
            continue;
        const double damp = feeds(&slab[k]) || feeds(&slab[k + 1]) ? DAMP : WET;
        for (int m = 0; m < BW_MONTHS; m++)
            if (plane->month[m].relative_humidity >= fmax(most, damp)) {
                most = plane->month[m].relative_humidity;
                worst = plane;
                when = m;
            }
    }
    return worst == NULL
               ? NULL
               : bw_say(
                     rows,
                     "%.0f %% RH in %s %s, of which a mean tells neither the "
                     "days nor the mould",
                     100.0 * most, bw_month_name(when),
                     bw_say_plane(rows, part->section, worst->at));
}

/* The drying test knows no storage. */
static const char *storing_neighbour(bw_rows *rows,
                                     const bw_section_assessment *part)
{
    const bw_section *section = part->section;
    for (size_t k = part->wet_plane.slab;
         part->run[BW_RUN_WETTED_BOTH].ran && k < section->slab_count &&
         k <= part->wet_plane.slab + 1;
         k++) {
        const bw_slab *slab = &section->slab[k];
        if (slab->kind == BW_LAYER_SOLID && slab->material->hygroscopic &&
            slab->thickness >= STORES)
            return bw_say(rows,
                          "the water of the drying test goes into %s, which "
                          "gives it back slowly",
                          slab->label);
    }
    return NULL;
}

/* The month in which outdoor air would be most humid at the outer face of a
 * tight layer inside; the sun, on wet cladding or not, brings more. */
static const char *summer_damp(bw_rows *rows, const bw_section_assessment *part,
                               const bw_geography *geography)
{
    const size_t k = geography->tight_inside;
    if (k == 0 || k >= part->section->slab_count ||
        part->section->slab[k].sd_dry < TIGHT)
        return NULL;
    for (size_t i = 0; i < part->run[BW_RUN_DESIGN].result.plane_count; i++) {
        const bw_plane *plane = &part->run[BW_RUN_DESIGN].result.plane[i];
        if (!plane->at.layer_face || plane->at.slab != k - 1)
            continue;
        for (int m = 0; m < BW_MONTHS; m++)
            if (part->boundary[m].p_e >=
                SUMMER * bw_saturation_pressure(plane->month[m].theta))
                return bw_say(rows,
                              "in %s outdoor air is damp at the temperature of "
                              "%s, which stops it; what the sun adds, hours "
                              "tell",
                              bw_month_name(m), part->section->slab[k].label);
    }
    return NULL;
}

void bw_judge_alone(bw_rows *rows, const bw_assembly *assembly,
                    const bw_section_assessment *part)
{
    if (!part->run[BW_RUN_DESIGN].ran)
        return; /* not assessed anyway */
    bw_geography geography;
    bw_geography_find(&geography, assembly, part->section);
    const char *why = damp_face(rows, part, &geography);
    if (why == NULL)
        why = storing_neighbour(rows, part);
    if (why == NULL)
        why = summer_damp(rows, part, &geography);
    if (why != NULL)
        bw_rows_none(rows, BW_C_ALONE, why);
}
