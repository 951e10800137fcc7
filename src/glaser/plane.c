/* Planes by name, and which of them matters most. */

#include <stdio.h>

#include "number.h"
#include "run.h"

char *bw_plane_label(char *text, size_t size, const bw_section *section,
                     bw_plane_at at)
{
    const char *outer = section->slab[at.slab].label;
    if (at.layer_face && at.slab + 1 < section->slab_count) {
        snprintf(text, size, "between %s and %s", outer,
                 section->slab[at.slab + 1].label);
    } else if (at.layer_face) {
        snprintf(text, size, "inner surface");
    } else if (at.depth > 0.0) {
        char depth[32];
        bw_number_g(depth, sizeof depth, at.depth * 1e3, 3);
        snprintf(text, size, "in %s, %s mm from its outer face", outer, depth);
    } else if (at.slab == 0 && section->dropped_layers > 0) {
        snprintf(text, size, "cavity face of %s", outer);
    } else if (at.slab == 0) {
        snprintf(text, size, "outer surface");
    } else {
        snprintf(text, size, "in %s", outer);
    }
    return text;
}

static size_t coldest_month(const bw_monthly_result *design)
{
    size_t coldest = 0;
    for (size_t m = 1; m < BW_MONTHS; ++m)
        if (design->plane[0].month[m].theta <
            design->plane[0].month[coldest].theta)
            coldest = m;
    return coldest;
}

/* The inner face, of slabs before `end`, that is dampest in winter. */
static bw_plane_at dampest_face(const bw_section *section,
                                const bw_monthly_result *design, size_t end)
{
    bw_plane_at best = {end - 1, section->slab[end - 1].thickness, true};
    if (design == NULL)
        return best;
    size_t month = coldest_month(design);
    double highest = -1.0;
    for (size_t i = 0; i < design->plane_count; ++i) {
        const bw_plane *plane = &design->plane[i];
        double rh = plane->month[month].relative_humidity;
        if (plane->at.layer_face && plane->at.slab < end && rh > highest) {
            best = plane->at;
            highest = rh;
        }
    }
    return best;
}

bw_plane_at bw_critical_plane(const bw_section *section,
                              const bw_monthly_result *design)
{
    const bw_plane *wettest = NULL;
    for (size_t i = 0; design != NULL && i < design->plane_count; ++i) {
        const bw_plane *plane = &design->plane[i];
        if (plane->peak > (wettest != NULL ? wettest->peak : BW_STANDS))
            wettest = plane;
    }
    if (wettest != NULL)
        return wettest->at;
    if (section->slab_count == 1)
        return (bw_plane_at){.depth = 0.5 * section->slab[0].thickness};
    bw_geography g;
    bw_geography_find(&g, NULL, section);
    return dampest_face(section, design,
                        g.insulation > 0 ? g.insulation
                                         : section->slab_count - 1);
}
