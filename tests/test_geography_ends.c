/* Where the rules on what is where in a wall end (docs/methods.md, section 1):
 * what keeps soil water out, what water put beside it reaches, what perishes,
 * and on what a thick sheet is bonded. The figures are the estimates of that
 * section. */

#include "geography_case.h"
#include "suite.h"

#include "beyond.h"

/* ---- waterproofing ---- */

/* Soil against the face; `sheet` keeps its water out, -1: none does. */
static void in_soil(double sheet)
{
    c.assembly.beyond = (bw_beyond){.kind = &bw_beyond_ground,
                                    .value = {1.0, 1.0, 1.0, sheet}};
}

static const part cellar[] = {{FOAM, 0.1},
                              {WOOD_FIBRE, 0.05},
                              {BITUMEN, 0},
                              {WOOD_FIBRE, 0.05},
                              {BRICK, 0.2}};

START_TEST(without_a_stated_sheet_every_face_may_be_harmed)
{
    build(cellar, COUNT(cellar));
    ck_assert_uint_eq(find().waterproofing, 0);
    in_soil(-1.0);
    ck_assert_uint_eq(find().waterproofing, 0);
    in_soil(2.0);
    ck_assert_uint_eq(find().waterproofing, 2);
    in_soil(4.0);
    ck_assert_uint_eq(find().waterproofing, 4);
    section.slab_count = 4; /* its layer is no slab of this section */
    ck_assert_uint_eq(find().waterproofing, 0);
}
END_TEST

/* A slab is known by its layer: framing parts one into two. */
START_TEST(the_sheet_is_found_by_its_layer)
{
    build(cellar, COUNT(cellar));
    in_soil(2.0);
    memmove(&slab[1], &slab[0], 5 * sizeof slab[0]);
    section.slab_count = 6;
    ck_assert_uint_eq(find().waterproofing, 3);
}
END_TEST

/* Outside of the sheet what holds water and does not rot is not asked after. */
START_TEST(outside_of_the_sheet_only_what_perishes_is_at_risk)
{
    material[WOOL].hygroscopic = true;
    material[WOOL].mould_class = BW_MOULD_RESISTANT;
    material[FOAM].mould_class = material[BRICK].mould_class =
        BW_MOULD_RESISTANT;
    const part wool[] = {
        {FOAM, 0.1}, {WOOL, 0.05}, {BITUMEN, 0}, {WOOL, 0.05}, {BRICK, 0.2}};
    build(wool, COUNT(wool));
    bw_geography g = find();
    ck_assert(bw_face_at_risk(&g, &section, 0));
    in_soil(2.0);
    g = find();
    ck_assert(!bw_face_at_risk(&g, &section, 0));
    ck_assert(!bw_face_at_risk(&g, &section, 1));
    ck_assert(bw_face_at_risk(&g, &section, 2));
    ck_assert(bw_face_at_risk(&g, &section, 3));
    ck_assert(!bw_face_at_risk(&g, &section, 4)); /* the room's */
    slab[1].material = &material[CLT];
    ck_assert(bw_face_at_risk(&g, &section, 0));
    slab[0].is_framing = true;
    ck_assert(!bw_face_at_risk(&g, &section, 0));
}
END_TEST

/* ---- what water reaches ---- */

/* Five slabs of brick, which does not perish, but for one of wood. */
static const struct {
    int wood, tight; /* which; -1: none */
    double sd;       /* m, of the tight one */
    size_t put;      /* water beside this slab */
    bool reaches;
} ways[] = {
    {-1, -1, 0, 2, false}, {0, -1, 0, 2, true},   {0, -1, 0, 1, true},
    {0, -1, 0, 0, true},   {4, -1, 0, 2, true},   {3, -1, 0, 2, true},
    {2, -1, 0, 2, true},   {4, -1, 0, 3, true},   {4, -1, 0, 4, true},
    {0, 1, 200, 2, false}, {0, 2, 200, 2, false}, {4, 3, 200, 2, false},
    {0, 3, 200, 2, true},  {4, 1, 200, 2, true},  {4, 2, 200, 2, true},
    {0, 1, 49.9, 2, true}, {0, 1, 50, 2, false},  {4, 3, 49.9, 2, true},
    {4, 3, 50, 2, false},
};

START_TEST(water_goes_on_to_the_next_tight_layer)
{
    const part five[] = {
        {BRICK, 0.1}, {BRICK, 0.1}, {BRICK, 0.1}, {BRICK, 0.1}, {BRICK, 0.1}};
    material[BRICK].mould_class = BW_MOULD_RESISTANT;
    build(five, COUNT(five));
    if (ways[_i].wood >= 0) {
        slab[ways[_i].wood].material = &material[CLT];
        layer[ways[_i].wood].material = &material[CLT];
    }
    if (ways[_i].tight >= 0)
        slab[ways[_i].tight].sd_dry = ways[_i].sd;
    ck_assert_int_eq(
        bw_water_reaches_what_perishes(&c.assembly, &section, ways[_i].put),
        ways[_i].reaches);
}
END_TEST

START_TEST(framing_perishes_in_the_layer_that_it_stands_in)
{
    const part two[] = {{WOOL, 0.1}, {BRICK, 0.1}, {AIR, 0.04}};
    material[WOOL].mould_class = material[BRICK].mould_class =
        BW_MOULD_RESISTANT;
    material[AIR].mould_class = BW_MOULD_VERY_SENSITIVE; /* not asked after */
    build(two, COUNT(two));
    bw_geography g = {.first = 0};
    for (size_t i = 0; i < COUNT(two); i++)
        ck_assert(!bw_slab_perishes(&c.assembly, &slab[i]));
    ck_assert(!bw_anything_perishes(&g, &c.assembly, &section));
    for (size_t i = 0; i < 2; i++) {
        layer[i].framing = (bw_framing){.present = true,
                                        .material = &material[CLT]};
        ck_assert(bw_slab_perishes(&c.assembly, &slab[i]));
        ck_assert(bw_anything_perishes(&g, &c.assembly, &section));
        layer[i].framing.present = false;
        ck_assert(!bw_slab_perishes(&c.assembly, &slab[i]));
        ck_assert(!bw_anything_perishes(&g, &c.assembly, &section));
    }
    slab[1].material = &material[CLT];
    ck_assert(bw_anything_perishes(&g, &c.assembly, &section));
    g.first = 1;
    ck_assert(bw_anything_perishes(&g, &c.assembly, &section));
    g.first = 2; /* before the cavity it is as wet as the weather */
    ck_assert(!bw_anything_perishes(&g, &c.assembly, &section));
}
END_TEST

START_TEST(a_face_perishes_by_either_of_its_sides)
{
    const part two[] = {{FOAM, 0.1}, {CLT, 0.1}, {FOAM, 0.1}, {AIR, 0.04}};
    material[FOAM].mould_class = BW_MOULD_RESISTANT;
    material[AIR].mould_class = BW_MOULD_VERY_SENSITIVE;
    build(two, COUNT(two));
    ck_assert(bw_face_perishes(&section, 0));
    ck_assert(bw_face_perishes(&section, 1));
    ck_assert(!bw_face_perishes(&section, 2));
    ck_assert(!bw_face_perishes(&section, 3));
}
END_TEST

/* ---- sheets that are bonded ---- */

/* A roof of wool, sheet and bed: does the sheet stop the air that leaks out of
 * the room (face 2) or does it go on (face 0)? */
static const struct {
    double thickness, sold; /* m, of the sheet */
    int bed;
    double bed_thickness;
    bw_element element;
    bool stops;
} beds[] = {
    {0.003, 0.0, CLT, 0.02, BW_ELEMENT_ROOF, true},
    {0.0029, 0.0, CLT, 0.02, BW_ELEMENT_ROOF, false},
    {0.0, 0.003, CLT, 0.02, BW_ELEMENT_ROOF, true},
    {0.0, 0.0029, CLT, 0.02, BW_ELEMENT_ROOF, false},
    {0.004, 0.0, FOAM, 0.02, BW_ELEMENT_ROOF, false}, /* lies loose */
    {0.004, 0.0, FOIL, 0.0, BW_ELEMENT_ROOF, false},
    {0.004, 0.0, CLT, 0.2, BW_ELEMENT_WALL, false},
    {0.004, 0.0, BRICK, 0.09, BW_ELEMENT_WALL, true},
    {0.004, 0.0, BRICK, 0.089, BW_ELEMENT_WALL, false},
    {0.004, 0.0, BRICK, 0.02, BW_ELEMENT_FLOOR, false},
};

START_TEST(a_sheet_of_three_millimetres_is_one_with_what_it_lies_on)
{
    const part parts[] = {{WOOL, 0.2},
                          {BITUMEN, 0},
                          {beds[_i].bed, beds[_i].bed_thickness},
                          {BRICK, 0.05}};
    material[BITUMEN].thickness.known = beds[_i].sold > 0.0;
    material[BITUMEN].thickness.value = beds[_i].sold;
    build(parts, COUNT(parts));
    slab[1].thickness = beds[_i].thickness;
    c.assembly.element = beds[_i].element;
    ck_assert_uint_eq(find().leak, beds[_i].stops ? 2 : 0);
}
END_TEST

SUITE_AROUND("geography_ends", set_up, tear_down,
             FACT(without_a_stated_sheet_every_face_may_be_harmed),
             FACT(the_sheet_is_found_by_its_layer),
             FACT(outside_of_the_sheet_only_what_perishes_is_at_risk),
             EACH(water_goes_on_to_the_next_tight_layer, COUNT(ways)),
             FACT(framing_perishes_in_the_layer_that_it_stands_in),
             FACT(a_face_perishes_by_either_of_its_sides),
             EACH(a_sheet_of_three_millimetres_is_one_with_what_it_lies_on,
                  COUNT(beds)))
