/* A wetting that moves: foam between two foils, one of them cold. What is put
 * at the warm one is at the cold one within weeks, and stays. Whether a place
 * is damp of it goes by what it is made of (docs/methods.md, "Transient
 * method"): what perishes, fibres, and of anything else the cells beside what
 * perishes. */

#include "suite.h"
#include "transient_run.h"

static void add_fill(transient_case *c, double mu)
{
    const size_t i = c->section.slab_count;
    case_material(c, i, "fill", 30, 0.04, 1400, mu, mu);
    c->material[i].mould_class = BW_MOULD_RESISTANT;
    case_slab(c, BW_LAYER_SOLID, 0.1);
}

static const struct fill {
    double mu;
    bool mu_known, hygroscopic;
    bool perishes, cold_side, warm_side; /* of the fill, of the foils */
    bool damp;
} fills[] = {
    {5.0, true, false, false, false, false, true}, /* fibres, up to mu 5 */
    {5.3, true, false, false, false, false, false},
    {5.3, true, false, true, false, false, true},
    {5.3, true, false, false, true, false, true}, /* beside what perishes */
    {5.3, true, false, false, false, true, false},
    {5.0, false, false, false, false, false, false},
    {5.0, true, true, false, false, false, false},
};

START_TEST(water_that_moves_is_damp_by_what_holds_it)
{
    const struct fill *row = &fills[_i];
    static const double phi[] = {0.5, 0.8, 0.95}, u[] = {1e-3, 2e-3, 4e-3};
    for (int cold_inside = 0; cold_inside < 2; cold_inside++) {
        transient_case *c = cold_inside ? steady_new(20, 0.5, 0, 0.5)
                                        : steady_new(0, 0.5, 20, 0.5);
        add_foil(c, 1500);
        add_fill(c, row->mu);
        add_foil(c, 1500);
        bw_material *fill = &c->material[1];
        const size_t cold = cold_inside ? 2 : 0;
        if (row->hygroscopic)
            case_sorption(c, 1, COUNT(phi), phi, u);
        if (!row->mu_known)
            fill->mu_dry.known = false;
        fill->mould_class = row->perishes ? BW_MOULD_SENSITIVE
                                          : BW_MOULD_RESISTANT;
        c->material[cold].mould_class = row->cold_side ? BW_MOULD_SENSITIVE
                                                       : BW_MOULD_RESISTANT;
        c->material[2 - cold].mould_class = row->warm_side ? BW_MOULD_SENSITIVE
                                                           : BW_MOULD_RESISTANT;
        const bw_transient_options one = {.max_years = 1};
        bw_transient_result base = run(c, &one);
        const bw_wetting_options options = {
            .put = {.water = 0.5, .slab = 1, .outer_side = cold_inside},
            .month = 3,
            .years = 1};
        bw_wetting_result r;
        ck_assert_int_eq(bw_wetting(&r, &c->assembly, &c->section, &c->climate,
                                    &base, &options, NULL),
                         BW_OK);
        ck_assert_double_eq(r.months, -1); /* nothing leaves between foils */
        ck_assert_double_gt(r.place_months, 0);
        if (row->damp)
            ck_assert_double_eq(r.damp_months, -1);
        else
            ck_assert_double_eq(r.damp_months, r.place_months);
        bw_wetting_free(&r);
        bw_transient_free(&base);
        free(c);
    }
}
END_TEST

SUITE("transient_damp",
      EACH(water_that_moves_is_damp_by_what_holds_it, COUNT(fills)))
