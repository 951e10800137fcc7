/* Layers, framing, events and what is written down before a wall is closed, as
 * a file says them wrongly: each refusal in its whole sentence; and what a
 * cavity is read as. Limits are those of docs/input.md; sentences are the
 * program's own (regression values as to wording). */

#define FILE_OF_SUITE "./layers-said-test.xml"
#include "input_case.h"
#include "suite.h"

#define ROOM "temperature=\"20 degC\" humidity-class=\"3\"/>"
#define FOIL "<membrane id=\"foil\" material=\"test-foil\"/>"
#define THICK "thickness=\"20 mm\""
#define LIMIT "<moisture-limit "

#define STILL "ventilation=\"none\""

static const refusal sentences[] = {
    {ROOM,
     "><month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"8 "
     "hPa\"/>\n<month number=\"1\" temperature=\"9 degC\" vapour-pressure=\"8 "
     "hPa\"/></indoors>",
     5,
     "<month> number=\"1\" stands twice (first in line 4); each month 1 to 12 "
     "stands once"},
    {FOIL, "<membrane sd=\"1 m\"/>", 13,
     "<membrane> has no material=, and no id= or name= to be called by; write "
     "for example material=\"hemp-batt\""},
    {"<membrane id=\"foil\"", "<layer id=\"foil\"", 13,
     "<layer> \"test-foil\" has no conductivity; give lambda=\"0.13 W/(m.K)\" "
     "or resistance=\"0.05 m2.K/W\", or write <membrane>"},
    {"material=\"test-foil\"", "material=\"test-board\"", 13,
     "<membrane> material=\"test-board\" has no vapour resistance; give "
     "sd=\"0.2 m\", vapour-resistance=\"1 MN.s/g\" or permeance=\"17.5 "
     "usperm\", or write <layer> with a thickness"},
    {"material=\"test-foil\"", "", 13,
     "<membrane> (a membrane) has no vapour resistance; give sd=\"0.2 m\", "
     "vapour-resistance=\"1 MN.s/g\" or permeance=\"17.5 usperm\""},
    {FOIL, "<layer id=\"x\" thickness=\"9 mm\" lambda=\"0.13 W/(m.K)\"/>", 13,
     "<layer> \"x\" has no vapour resistance; give mu=\"50\", sd=\"0.2 m\" or "
     "vapour-resistance=\"5 MN.s/g\""},
    {FOIL,
     "<layer id=\"x\" thickness=\"9 mm\" lambda=\"1 W/(m.K)\" mu-wet=\"5\"/>",
     13, "<layer> mu-wet=\"5\" needs a mu= for the dry state beside it"},
    {THICK, THICK " mu=\"9\" sd=\"0.2 m\"", 6,
     "<layer> sd=\"0.2 m\" and mu= say the same thing twice; give one"},
    {THICK, THICK " lambda=\"0.2 W/(m.K)\" resistance=\"0.1 m2.K/W\"", 6,
     "<layer> resistance=\"0.1 m2.K/W\" and lambda= say the same thing twice; "
     "give one"},
    {THICK, THICK " kind=\"mineral\"", 6,
     "<layer> kind=\"mineral\" stands beside material=\"test-board\", which "
     "says what the layer is made of; leave one out"},
    {THICK, THICK " sold-thicknesses=\"60 mm, 4 cm\"", 6,
     "<layer> sold-thicknesses=\"60 mm, 4 cm\" has 40 mm after 60 mm; write "
     "each thickness once, from thin to thick"},
    {THICK, THICK " sold-thicknesses=\"60 mm, 40\"", 6,
     "<layer> sold-thicknesses=\"60 mm, 40\" - \"40\" has no unit; write a "
     "length such as \"12 mm\" (units: mm, cm, m, um)"},
    {THICK, THICK " sold-thicknesses=\"\"", 6,
     "<layer> sold-thicknesses=\"\" - \"\" is empty; write a length such as "
     "\"12 mm\" (units: mm, cm, m, um)"},
    {"<membrane ", "<membrane sold-thicknesses=\"2 mm\" ", 13,
     "<membrane> sold-thicknesses=\"2 mm\" is said of a <layer>: a <membrane> "
     "is not bought by its thickness"},
    {THICK, "thickness=\"0.0125 mm\"", 6,
     "<layer> thickness=\"0.0125 mm\" is 0.0000125 m, thinner than any layer "
     "(0.05 mm): a slip of units? Was \"12.5 mm\" meant?"},
    {THICK, "thickness=\"0 mm\"", 6,
     "<layer> thickness=\"0 mm\" is no thickness; write a length above zero, "
     "or <membrane> for a layer without one"},
    {THICK, THICK " initial-moisture=\"59 %\"", 6,
     "<layer> initial-moisture=\"59 %\" is more than Test board holds: with "
     "46.7 % of it pores, estimated from its density, it takes at most 58.3 % "
     "by mass"},
    {THICK,
     THICK " initial-moisture=\"9 %\" initial-relative-humidity=\"80 %\"", 6,
     "<layer> initial-moisture=\"9 %\" and initial-relative-humidity= say the "
     "same thing twice; give one"},
    {THICK, THICK " evidence=\"guessed\"", 6,
     "<layer> evidence=\"guessed\" is not known; write one of: assumed, "
     "tabulated, declared, measured (assumed: nobody looked; tabulated: a "
     "standard's or the library's table; declared: a data sheet; measured: on "
     "this wall or this product)"},
    {"</layers>", "<cavity thickness=\"5 mm\" ventilation=\"none\"/></layers>",
     15,
     "<cavity> is the innermost layer; a cavity needs a layer between it and "
     "the room"},
    {"\"test-batt\"", "\"test-bat\"", 8,
     "<layer> material=\"test-bat\" is not in the material library (did you "
     "mean test-batt?); the command \"bothways materials\" lists all"},
    {"width=\"45 mm\"", "width=\"650 mm\"", 9,
     "<framing> width=\"650 mm\" every spacing=\"600 mm\" is 108 % of the "
     "area; framing takes less than 100 %"},
    {" spacing=\"600 mm\"", "", 9,
     "<framing> needs either fraction=\"15 %\" or both width=\"45 mm\" and "
     "spacing=\"600 mm\""},
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" fraction=\"10 %\"", 9,
     "<framing> needs either fraction=\"15 %\" or both width=\"45 mm\" and "
     "spacing=\"600 mm\""},
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" depth=\"95 mm\"", 9,
     "<framing> depth=\"95 mm\" is deeper than the layer that it stands in (90 "
     "mm)"},
    {"<framing material=\"test-timber\"", "<framing material=\"test-foil\"", 9,
     "<framing> material=\"test-foil\" has no conductivity or no mu in the "
     "library, so nothing can be framed with it"},
    {"spacing=\"600 mm\"", "spacing=\"600 mm\" initial-moisture=\"900 %\"", 9,
     "<framing> initial-moisture=\"900 %\" is more than Test timber holds: "
     "with 70 % of it pores, estimated from its density, it takes at most 156 "
     "% by mass"},
    {"property=\"mu\"", "property=\"my\"", 10,
     "<uncertain> property=\"my\" is not known (did you mean mu?); write one "
     "of: mu, sd, lambda, resistance, thickness, density, specific-heat, "
     "vapour-resistivity, vapour-resistance, permeance"},
    {"low=\"1\" high=\"3\"", "low=\"3\" high=\"3\"", 10,
     "<uncertain> low=\"3\" is not below high=\"3\""},
    {"<uncertain ",
     "<uncertain property=\"mu\" low=\"1\" high=\"3\"/><uncertain ", 10,
     "<uncertain> property=\"mu\" has a range already: one <uncertain> of mu a "
     "layer"},
    {"<uncertain property=\"mu\" low=\"1\" high=\"3\"/>",
     "<uncertain property=\"thickness\" low=\"1 mm\" high=\"4 m\"/>", 10,
     "<uncertain> high=\"4 m\" lies outside what is possible here, 5e-05 m to "
     "3 m"},
    {"after-layer=\"bay\"", "after-layer=\"bey\"", 17,
     "<drying-test> after-layer=\"bey\" is no layer's id (did you mean bay?); "
     "there are: face, gap, bay, foil, lining"},
    {"after-layer=\"bay\"", "after-layer=\"lining\"", 17,
     "<drying-test> after-layer=\"lining\" is the innermost layer, whose inner "
     "face is the room's; name a layer further out"},
    {"wetting=\"0.5 kg/m2\"", "wetting=\"101 kg/m2\"", 17,
     "<drying-test> wetting=\"101 kg/m2\" lies outside what is possible here, "
     "0.001 kg/m2 to 100 kg/m2"},
    {"fraction=\"1 %\"", "fraction=\"101 %\"", 18,
     "<rain-leak> fraction=\"101 %\" lies outside what is possible here, 0 % "
     "to 100 %"},
    {"q50=\"3 m3/(m2.h)\"", "q50=\"3 1/h\"", 16,
     "<air-leakage> q50=\"3 1/h\" - \"1/h\" is the unit of an air change rate, "
     "not of an air permeability; write an air permeability such as \"3 "
     "m3/(m2.h)\" (units: m3/(m2.h), m3/(m2.s), l/(m2.s))"},
    {"q50=\"3 m3/(m2.h)\"", "q50=\"1001 m3/(m2.h)\"", 16,
     "<air-leakage> q50=\"1001 m3/(m2.h)\" lies outside what is possible here, "
     "0 m3/(m2.h) to 100 m3/(m2.h)"},
    {"2031-05-02", "2031-02-29", 20,
     "<air-test> date=\"2031-02-29\" is not a day; write year-month-day, for "
     "example date=\"2031-05-02\""},
    {"critical=\"20 %\"", "critical=\"17 %\"", 21,
     "<moisture-limit> critical=\"17 %\" is below allowed=\"18 %\""},
    {LIMIT, "<moisture-limit part=\"bay.framin\" ", 21,
     "<moisture-limit> part=\"bay.framin\" is no layer or framing of this wall "
     "(did you mean bay.framing?); there are: face, gap, bay, bay.framing, "
     "foil, lining"},
    {LIMIT, "<moisture-limit part=\"gap\" ", 21,
     "<moisture-limit> part=\"gap\" is a cavity, of which no moisture is read"},
    {LIMIT, "<moisture-limit part=\"foil\" ", 21,
     "<moisture-limit> part=\"foil\" is a membrane, of which no moisture is "
     "read"},
    {"<evidence ",
     "<wet-spell from=\"2031-02-02\" to=\"2031-02-01\"/><evidence ", 23,
     "<wet-spell> to=\"2031-02-01\" is before from=\"2031-02-02\""},
    {"<reading ",
     "<moisture-limit member=\"stud\" allowed=\"9 %\" critical=\"9 "
     "%\"/><reading ",
     22, "<moisture-limit> member=\"stud\" has a limit already (line 21)"},
    {"member=\"stud\" place", "member=\"stub\" place", 22,
     "<reading> member=\"stub\" has no <moisture-limit> (did you mean stud?); "
     "every member read needs one"},
    {"<evidence ", "<evidence part=\"stud\" ", 23,
     "<evidence> part=\"stud\" is no layer or framing of this wall; there are: "
     "face, gap, bay, bay.framing, foil, lining"},
    {"moisture=\"16.5 %\"", "moisture=\"301 %\"", 22,
     "<reading> moisture=\"301 %\" lies outside what is possible here, 0 % to "
     "300 %"},
    {"moisture=\"16.5 %\"", "moisture=\"16.5 %\" wood-temperature=\"81 degC\"",
     22,
     "<reading> wood-temperature=\"81 degC\" lies outside what is possible "
     "here, -40 degC to 80 degC"},
    {"<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\">",
     "<assembly xmlns=\"urn:bothways:assembly:1\" id=\"test\" "
     "element=\"door\">",
     1,
     "<assembly> element=\"door\" is not known (did you mean roof?); write one "
     "of: wall, roof, floor"},
    {"id=\"test\"", "", 1,
     "<assembly> has no id=, which it needs; write for example "
     "id=\"north-wall\""},
    {"id=\"test\"", "id=\" \"", 1,
     "<assembly> id=\" \" is empty; write for example id=\"north-wall\""},
    {"<layers listed=\"outside-to-inside\">", "<layers>", 5,
     "<layers> has no listed=, which it needs; write one of: "
     "inside-to-outside, outside-to-inside"},
    {"</layers>", "glue</layers>", 5,
     "<layers> holds loose text \"glue\"; everything is said in elements and "
     "attributes"},
    {"<membrane ", "<membran ", 13,
     "<membran> is not an element of <layers> (did you mean membrane?); "
     "allowed: layer, membrane, cavity"},
    {"<framing material", "<frame material", 9,
     "<frame> is not an element of <layer>; allowed: framing, uncertain, "
     "alternative"},
    {THICK, THICK " colour=\"red\"", 6,
     "<layer> colour=\"red\" is not an attribute of <layer>; allowed: id, "
     "name, material, thickness, sold-thicknesses, resistance, evidence, "
     "source, kind, initial-moisture, initial-relative-humidity, density, "
     "lambda, specific-heat, mu, mu-wet, sd, free-saturation, "
     "water-absorption, porosity, vapour-resistivity, vapour-resistance, "
     "permeance"},
    {"<evidence kind", "<air-test><a/></air-test><evidence kind", 23,
     "<a> cannot stand in <air-test>, which holds no elements"},
    {"<air-leakage ", "<air-leakage xmlns:a=\"urn:a\" a:b=\"1\" ", 16,
     "<air-leakage> has the attribute a:b=, which is of another namespace: "
     "leave it out, or its prefix"},
    {"<uncertain property=\"mu\"", "<uncertain", 10,
     "<uncertain> has no property=, which it needs; write one of: mu, sd, "
     "lambda, resistance, thickness, density, specific-heat, "
     "vapour-resistivity, vapour-resistance, permeance"},
    {"<alternative material=\"test-board\" thickness=\"9 mm\"",
     "<alternative thickness=\"9 mm\"", 11,
     "<alternative> has no material=, which it needs; write for example "
     "material=\"hemp-batt\""},
    {THICK, THICK " mu=\"10\" mu-wet=\"-4\"", 6,
     "<layer> mu-wet=\"-4\" lies outside what is possible here, 1 to 1e+07 (a "
     "length belongs in sd=, a resistance such as \"5 MN.s/g\" in "
     "vapour-resistance=)"},
    {"material=\"test-board\" thickness=\"20 mm\"",
     "name=\"Slab\" kind=\"stone\" thickness=\"20 mm\" lambda=\"1 W/(m.K)\" "
     "mu=\"9\"",
     6,
     "<layer> kind=\"stone\" is not known; write one of: wood, wood-panel, "
     "gypsum, mineral, plant-fibre, mineral-wool, foam, plastic-or-metal"},
    {THICK, THICK " carbon=\"1 kg\"", 6,
     "<layer> carbon=\"1 kg\" is not an attribute of <layer>; allowed: id, "
     "name, material, thickness, sold-thicknesses, resistance, evidence, "
     "source, kind, initial-moisture, initial-relative-humidity, density, "
     "lambda, specific-heat, mu, mu-wet, sd, free-saturation, "
     "water-absorption, porosity, vapour-resistivity, vapour-resistance, "
     "permeance"},
    {"<rain-leak fraction=\"1 %\" after-layer=\"gap\"/>",
     "<rain-leak fraction=\"1 %\"/>", 18,
     "<rain-leak> has no after-layer=, which it needs; write for example "
     "after-layer=\"sheathing\""},
    {" connected-height=\"5 m\"", "", 16,
     "<air-leakage> has no connected-height=, which it needs; write a length "
     "such as \"12 mm\" (units: mm, cm, m, um)"},
    {" of=\"clear cavity\"", "", 23,
     "<evidence> has no of=, which it needs; write for example of=\"cavity "
     "clear at foot\""},
    {"stage=\"membrane-exposed\"", "stage=\"exposed\"", 20,
     "<air-test> stage=\"exposed\" is not known; write one of: "
     "membrane-exposed, finished"},
};

START_TEST(a_layer_that_cannot_be_is_refused_in_this_sentence)
{
    expect_sentence(&sentences[_i]);
}
END_TEST

/* ---- cavities ---- */

/* ISO 10456:2007 table 3 (from memory): 1.23 kg/m3, 0.025 W/(m K), 1008
 * J/(kg K), mu 1. */
START_TEST(a_cavity_holds_air)
{
    bw_assembly *a = read_changed(STILL, STILL);
    const bw_layer *gap = &a->layer[1];
    const bw_material *air = gap->material;
    const bw_property *of[] = {&air->density, &air->thermal_conductivity,
                               &air->specific_heat, &air->mu_dry};
    const double value[] = {1.23, 0.025, 1008.0, 1.0};
    ck_assert_int_eq(gap->kind, BW_LAYER_CAVITY);
    for (size_t i = 0; i < COUNT(of); i++) {
        ck_assert(of[i]->known);
        ck_assert_double_eq(of[i]->value, value[i]);
        ck_assert_int_eq(of[i]->basis, BW_BASIS_FROM_MEMORY);
        ck_assert_int_eq(of[i]->evidence, BW_EVIDENCE_TABULATED);
        ck_assert_str_eq(of[i]->source, "ISO 10456:2007 table 3, air");
        ck_assert_str_eq(of[i]->note, "");
    }
    ck_assert_str_eq(air->id, "still-air");
    ck_assert_str_eq(air->name, "still air");
    ck_assert_str_eq(air->group, "air");
    ck_assert_int_eq(air->mould_class, BW_MOULD_RESISTANT);
    ck_assert_str_eq(gap->name, "still air cavity");
    ck_assert_double_eq(gap->vent_openings, 0.001);
    ck_assert(!gap->resistance.known);
    bw_assembly_free(a);
}
END_TEST

static const struct {
    const char *to, *name, *note;
    bw_note_kind kind;
    double openings; /* m2/m */
} gaps[] = {
    {"ventilation=\"slight\"", "slightly ventilated cavity",
     "openings= is not given: 1000 mm2/m is taken", BW_NOTE_INFO, 0.001},
    {"ventilation=\"slight\" openings=\"500 mm2/m\"",
     "slightly ventilated cavity", NULL, BW_NOTE_INFO, 0.0005},
    {"ventilation=\"slight\" openings=\"1500 mm2/m\"",
     "slightly ventilated cavity", NULL, BW_NOTE_INFO, 0.0015},
    {"ventilation=\"well\"", "well-ventilated cavity", NULL, BW_NOTE_INFO,
     0.001},
    {"ventilation=\"well\" openings=\"900 mm2/m\"", "well-ventilated cavity",
     "openings= counts only with ventilation=\"slight\"; it is not used",
     BW_NOTE_INFO, 0.0009},
    {"ventilation=\"well\" resistance=\"0.2 m2.K/W\"", "well-ventilated cavity",
     "a ventilated cavity is given a resistance: it is not used, outdoor air "
     "passes there",
     BW_NOTE_WARNING, 0.001},
    {"ventilation=\"none\" resistance=\"0.2 m2.K/W\"", "still air cavity", NULL,
     BW_NOTE_INFO, 0.001},
};

START_TEST(a_cavity_says_how_it_is_aired)
{
    bw_assembly *a = read_changed(STILL, gaps[_i].to);
    const bw_layer *gap = &a->layer[1];
    ck_assert_str_eq(gap->name, gaps[_i].name);
    ck_assert_double_eq_tol(gap->vent_openings, gaps[_i].openings, 1e-9);
    if (gaps[_i].note != NULL)
        ck_assert(says(a, gaps[_i].kind, 7, gaps[_i].note));
    else
        for (size_t i = 0; i < a->note_count; i++)
            ck_assert_int_ne(a->note[i].line, 7);
    ck_assert_int_eq(gap->resistance.known, _i == COUNT(gaps) - 1);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_filled_cavity_is_what_fills_it)
{
    bw_assembly *a = read_changed(
        STILL, STILL " filled-with=\"test-batt\" source=\"plan 7\" "
                     "evidence=\"declared\"");
    const bw_layer *gap = &a->layer[1];
    ck_assert_int_eq(gap->kind, BW_LAYER_SOLID);
    ck_assert_str_eq(gap->material->id, "test-batt");
    ck_assert_str_eq(gap->name, "cavity filled with Test batt");
    ck_assert_str_eq(gap->source, "plan 7");
    ck_assert_int_eq(gap->evidence, BW_EVIDENCE_DECLARED);
    ck_assert_ptr_null(gap->blocked_with);
    bw_assembly_free(a);
    a = read_changed(STILL, "ventilation=\"well\" name=\"Gap\" "
                            "filled-with=\"test-batt\" blocked=\"20 %\" "
                            "air-change=\"36 1/h\"");
    gap = &a->layer[1];
    ck_assert_int_eq(gap->kind, BW_LAYER_CAVITY);
    ck_assert_str_eq(gap->blocked_with->id, "test-batt");
    ck_assert_double_eq_tol(gap->blocked, 0.2, 1e-12);
    ck_assert_str_eq(gap->name, "Gap");
    ck_assert_double_eq_tol(gap->air_change, 0.01, 1e-12); /* 1/s */
    bw_assembly_free(a);
}
END_TEST

SUITE_AROUND("layers_said", read_library, free_library,
             EACH(a_layer_that_cannot_be_is_refused_in_this_sentence,
                  COUNT(sentences)),
             FACT(a_cavity_holds_air),
             EACH(a_cavity_says_how_it_is_aired, COUNT(gaps)),
             FACT(a_filled_cavity_is_what_fills_it))
