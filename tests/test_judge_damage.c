/* Rows that inform beside mould and decay: the mould dose, wet hours of
 * fixings, frost. Whatever stands in them, they decide nothing. */

#include "judged_simulation.h"
#include "suite.h"

static void frost(size_t as_built, size_t bare)
{
    bw_section_frost *f = &sim.part.frost;
    *f = (bw_section_frost){.ran = true, .bare_thickness = 0.33, .count = 2};
    f->at[0].depth = 0.005;
    f->at[1].depth = 0.020;
    f->at[1].as_built = (bw_frost_counts){.crossings_0 = as_built,
                                          .crossings_2 = as_built / 2,
                                          .wet_cycles = {as_built},
                                          .ice_index = 7.25,
                                          .wettest = 0.83};
    f->at[1].bare = (bw_frost_counts){.crossings_0 = bare,
                                      .wet_cycles = {bare},
                                      .ice_index = 1.5,
                                      .wettest = 0.41};
}

static void informs(const bw_criterion *row, double value)
{
    ck_assert_ptr_nonnull(row);
    ck_assert(!row->decides && !row->has_limit && row->has_value);
    ck_assert_double_eq_tol(row->value, value, 1e-12);
    ck_assert_int_eq(row->outcome, BW_NOT_ASSESSED);
}

START_TEST(frost_is_told_with_the_bare_wall_beside_it)
{
    frost(112, 63);
    informs(judged(BW_C_FROST_CROSSINGS), 112);
    NAMES(judged(BW_C_FROST_CROSSINGS)->reason, "112", "56", "20 mm", "63",
          "330 mm");
    informs(judged(BW_C_FROST_CYCLES), 112);
    NAMES(judged(BW_C_FROST_CYCLES)->reason, "112", "83", "63", "41");
    informs(judged(BW_C_ICE_INDEX), 7.25);
    NAMES(judged(BW_C_ICE_INDEX)->reason, "7.25", "1.50", "330 mm");
}
END_TEST

START_TEST(frost_without_the_bare_wall_has_no_count)
{
    ck_assert_ptr_null(judged(BW_C_FROST_CYCLES)); /* no masonry: no row */
    sim.part.frost = (bw_section_frost){.reason = "nothing beside it"};
    const bw_criterion *row = judged(BW_C_FROST_CYCLES);
    ck_assert(!row->has_value && !row->decides);
    ck_assert_ptr_null(judged(BW_C_FROST_CROSSINGS));
    ck_assert_ptr_null(judged(BW_C_ICE_INDEX));
}
END_TEST

/* The verdict is that of the wall without them. */
START_TEST(no_damage_that_informs_moves_the_verdict)
{
    const bw_verdict before = overall();
    ck_assert_int_eq(before, BW_HOLDS);
    frost(300, 0);
    for (size_t i = 0; i < SIM_FACES; i++) {
        sim.mould[i].dose = 500.0;
        sim.mould[i].wetness_hours = 8760;
    }
    ck_assert_int_eq(overall(), before);
}
END_TEST

START_TEST(the_dose_is_of_the_worst_hidden_face_that_mould_takes)
{
    sim.mould[0].dose = 900.0;        /* the weather's face */
    sim.mould[SIM_ROOM].dose = 900.0; /* the room's */
    sim.mould[1].dose = 16.9;
    sim.mould[2].dose = 3.0;
    informs(judged(BW_C_MOULD_DOSE), 16.9);
    NAMES(judged(BW_C_MOULD_DOSE)->reason, "panel", "16.9");
    has(judged(BW_C_MOULD_DOSE)->reason, "below what even sawn");
    sim.mould[1].dose = 17.1;
    has(judged(BW_C_MOULD_DOSE)->reason, "beyond what sawn");
    sim.mould[1].dose = 38.1;
    has(judged(BW_C_MOULD_DOSE)->reason, "beyond what planed");
    sim.monitor[1].mould_class = BW_MOULD_MEDIUM_RESISTANT;
    informs(judged(BW_C_MOULD_DOSE), 3.0);
}
END_TEST

/* Wood, or the framing that a layer holds; mineral wool alone is none. */
START_TEST(fixings_are_looked_at_where_timber_is)
{
    sim.mould[1].wetness_hours = 1200; /* the panel's inner face */
    sim.mould[2].wetness_hours = 3000; /* wool and foil */
    informs(judged(BW_C_FIXINGS), 1200);
    NAMES(judged(BW_C_FIXINGS)->reason, "1200", "panel");
    c.layer[CASE_INSULATION].framing = (bw_framing){.present = true,
                                                    .material = &c.stud};
    informs(judged(BW_C_FIXINGS), 3000);
}
END_TEST

SUITE_AROUND("judge_damage", setup, teardown,
             FACT(frost_is_told_with_the_bare_wall_beside_it),
             FACT(frost_without_the_bare_wall_has_no_count),
             FACT(no_damage_that_informs_moves_the_verdict),
             FACT(the_dose_is_of_the_worst_hidden_face_that_mould_takes),
             FACT(fixings_are_looked_at_where_timber_is))
