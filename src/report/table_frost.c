/* frost.csv: the counts at each depth, of the wall as it is and of the bare
 * masonry, each row beside the other. */

#include "table.h"

typedef struct frost_row {
    const bw_frost_at *at;
    const bw_frost_counts *counts;
    const char *state, *layer;
} frost_row;

static void frost_columns(bw_cells *c, const void *row)
{
    const frost_row *r = row;
    bw_section_columns(c);
    BW_TEXT(c, "state",
            "`as-built`, or `bare`: the masonry without the insulation and the "
            "lining inside it",
            r->state);
    BW_NUMBER(c, "depth_m", "m", "from the outer face", r->at->depth);
    BW_TEXT(c, "layer", "id of the layer at that depth", r->layer);
    BW_NUMBER(c, "crossings_0", "1/a", "falls to 0 degC in the last year",
              (double)r->counts->crossings_0);
    BW_NUMBER(c, "crossings_2", "1/a", "falls to -2 degC",
              (double)r->counts->crossings_2);
    BW_NUMBER(c, "cycles_above_30_of_free", "1/a",
              "falls to 0 degC with more water than 30 % of free saturation",
              (double)r->counts->wet_cycles[0]);
    BW_NUMBER(c, "cycles_above_25", "1/a",
              "falls to 0 degC with more than 25 % of the pores full",
              (double)r->counts->wet_cycles[1]);
    BW_NUMBER(c, "cycles_above_50", "1/a", "the same with more than 50 %",
              (double)r->counts->wet_cycles[2]);
    BW_NUMBER(c, "cycles_above_70", "1/a", "the same with more than 70 %",
              (double)r->counts->wet_cycles[3]);
    BW_NUMBER(c, "cycles_above_90", "1/a", "the same with more than 90 %",
              (double)r->counts->wet_cycles[4]);
    BW_NUMBER(c, "wettest_pct", "%",
              "pores full of water, most at a fall to 0 degC",
              100.0 * r->counts->wettest);
    BW_NUMBER(c, "ice_index", "1/a",
              "ice that comes and goes, in fillings of the pores",
              r->counts->ice_index);
}

static void frost_rows(bw_cells *c)
{
    const bw_section_frost *frost = &c->part->frost;
    for (size_t k = 0; frost->ran && k < frost->count; k++) {
        const bw_frost_at *at = &frost->at[k];
        const bw_slab *slab = &c->part->transient_section->slab[at->slab];
        const char *layer = c->wall->assembly->layer[slab->layer].id;
        bw_row(c, &(frost_row){at, &at->as_built, "as-built", layer});
        bw_row(c, &(frost_row){at, &at->bare, "bare", layer});
    }
}

const bw_table_facts bw_table_frost = {
    "frost.csv",
    "A depth in masonry that stands at the weather, of the wall as built or of "
    "the bare masonry; informs, decides nothing. Only of a simulated wall that "
    "has such masonry, of its first section.",
    frost_columns, frost_rows, BW_BY_SECTION};
