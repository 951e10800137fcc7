/* Frost of masonry at the weather: the counts at each depth, always beside
 * those of the bare wall. */

#include "grid.h"
#include "part.h"

static const char *pair(bw_page *page, size_t as_built, size_t bare)
{
    return bw_phrase(page, "%zu / %zu", as_built, bare);
}

static void put_depths(bw_page *page, const bw_section_frost *frost)
{
    bw_grid g = {.page = page};
    for (size_t k = 0; k < frost->count; k++) {
        const bw_frost_counts *a = &frost->at[k].as_built,
                              *b = &frost->at[k].bare;
        bw_grid_row_start(&g);
        bw_number(&g, "Depth mm", "%.0f", 1000.0 * frost->at[k].depth);
        bw_number(&g, "falls to 0 degC", "%s",
                  pair(page, a->crossings_0, b->crossings_0));
        bw_number(&g, "to -2 degC", "%s",
                  pair(page, a->crossings_2, b->crossings_2));
        bw_number(&g, "wet, 30 % free", "%s",
                  pair(page, a->wet_cycles[0], b->wet_cycles[0]));
        for (size_t i = 1; i < BW_FROST_LEVELS; i++)
            bw_number(&g,
                      bw_phrase(page, "over %.0f %%",
                                100.0 * bw_frost_level_of(i).share),
                      "%s", pair(page, a->wet_cycles[i], b->wet_cycles[i]));
        bw_number(&g, "ice index", "%s",
                  bw_phrase(page, "%.2f / %.2f", a->ice_index, b->ice_index));
    }
    bw_grid_print(&g);
}

BW_PART(frost, "Frost in the masonry, as built / bare")
{
    const bw_assessment *assessment = of->wall[0];
    for (size_t i = 0; i < assessment->section_count; i++) {
        const bw_section_frost *frost = &assessment->section[i].frost;
        if (!frost->ran)
            continue;
        put_depths(page, frost);
        bw_text(
            page,
            "Counts of the last year at depths below the outer face. %s Wet: "
            "falls to 0 degC with more than 30 %% of free saturation [WTA "
            "6-5, M-med], then with so much of the pores full; 90 %% damages "
            "for certain [M-hi], what a brick bears below that is measured, "
            "not known. Ice index: ice that comes and goes over the pores "
            "[M-med]. None of these is an agreed limit: where the wall as "
            "built counts more than the bare one, insulation makes its "
            "frost worse. They decide nothing.",
            frost->is_bare
                ? "Nothing stands inside the masonry: both are one."
                : bw_phrase(page,
                            "Bare is the same masonry, %.0f mm, without "
                            "what stands inside it, in the same climate, "
                            "room and rain.",
                            1000.0 * frost->bare_thickness));
    }
}
