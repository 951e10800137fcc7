/* <choices> that cannot be, each refused in its whole sentence, and what an
 * option is called. Limits are those of docs/input.md; sentences are the
 * program's own (regression values as to wording). */

#define FILE_OF_SUITE "./choices-said-test.xml"
#include "input_case.h"
#include "suite.h"

/* In line 25, behind the sound wall. */
#define WITH(inside) "</closing-up>\n" inside "\n</assembly>"
#define FROM "</closing-up>\n</assembly>"
#define CHOICE(inside)                                                         \
    WITH("<choices><choice layer=\"bay\">" inside "</choice></choices>")
#define BATT "<layer material=\"test-batt\"/>"
#define OPTIONS(inside) WITH("<choices>" inside "</choices>")
#define LEFT_OUT(id)                                                           \
    "<choice layer=\"" id "\"><option><none/></option></choice>"

static const refusal refused[] = {
    {FROM, OPTIONS(""), 25,
     "<choices> holds no <choice>; write one for each layer that may be made "
     "otherwise"},
    {FROM, OPTIONS("<choice layer=\"bay\"/>"), 25,
     "<choice> holds no <option>; write one for each that may be built, "
     "<option/> for the layer as drawn"},
    {FROM, OPTIONS("<choice layer=\"bai\"><option/></choice>"), 25,
     "<choice> layer=\"bai\" is no layer's id (did you mean bay?); there are: "
     "face, gap, bay, foil, lining"},
    {FROM, OPTIONS("<choice><option/></choice>"), 25,
     "<choice> has no layer=, which it needs; write for example "
     "layer=\"membrane\""},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><choice "
             "layer=\"bay\"><option/></choice>"),
     25,
     "<choice> layer=\"bay\" stands twice (also in line 25); one <choice> a "
     "layer"},
    {FROM, CHOICE("<option/><option/>"), 25,
     "<option> makes a second option \"as drawn\" of this layer; give each a "
     "name= of its own"},
    {FROM,
     CHOICE("<option><layer material=\"test-batt\" id=\"x\" "
            "thickness=\"9 mm\"/></option>"),
     25,
     "<layer> id=\"x\" stands in an <option>, whose layer has the id of the "
     "one it replaces (bay); leave it out"},
    {FROM, CHOICE("<option>" BATT "</option>"), 25,
     "<layer> has no thickness=, which it needs; write for example "
     "thickness=\"12 mm\" (only with both resistance= and sd= can it be left "
     "out)"},
    {FROM, CHOICE("<option thicknesses=\"90 mm, 60 mm\">" BATT "</option>"), 25,
     "<option> thicknesses=\"90 mm, 60 mm\" does not rise; write each "
     "thickness once, from thin to thick"},
    {FROM, CHOICE("<option thicknesses=\"90 mm, 60\">" BATT "</option>"), 25,
     "<option> thicknesses=\"90 mm, 60\" - \"60\" has no unit; write a length "
     "such as \"12 mm\" (units: mm, cm, m, um)"},
    {FROM, CHOICE("<option thicknesses=\"\">" BATT "</option>"), 25,
     "<option> thicknesses=\"\" - \"\" is empty; write a length such as \"12 "
     "mm\" (units: mm, cm, m, um)"},
    {FROM,
     CHOICE("<option thicknesses=\"90 mm\" thickness-from=\"1 m\">" BATT
            "</option>"),
     25,
     "<option> thicknesses=\"90 mm\" and thickness-from= say the same; leave "
     "one out"},
    {FROM, CHOICE("<option thickness-from=\"90 mm\">" BATT "</option>"), 25,
     "<option> has no thickness-to=, which it needs; write a length such as "
     "\"12 mm\" (units: mm, cm, m, um)"},
    {FROM,
     CHOICE("<option thickness-from=\"90 mm\" thickness-to=\"60 mm\" "
            "thickness-step=\"5 mm\">" BATT "</option>"),
     25,
     "<option> thickness-to=\"60 mm\" is less than thickness-from=\"90 mm\""},
    {FROM,
     CHOICE("<option thickness-from=\"50 mm\" thickness-to=\"900 mm\" "
            "thickness-step=\"1 mm\">" BATT "</option>"),
     25, "<option> thickness-step=\"1 mm\" makes more than 64 thicknesses"},
    {FROM,
     CHOICE("<option thicknesses=\"90 mm\"><layer material=\"test-batt\" "
            "thickness=\"90 mm\"/></option>"),
     25,
     "<layer> thickness=\"90 mm\" and a list of thicknesses contradict each "
     "other; leave one out"},
    {FROM, CHOICE("<option thicknesses=\"90 mm\"><none/></option>"), 25,
     "<option> has thicknesses and no <layer> in it that they could be of"},
    {FROM,
     OPTIONS("<choice layer=\"lining\"><option><cavity thickness=\"20 mm\" "
             "ventilation=\"none\"/></option></choice>"),
     25,
     "<cavity> would be the innermost layer; a cavity needs a layer between it "
     "and the room"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/><option><cavity thickness=\"20 "
             "mm\" ventilation=\"none\"/></option></choice><choice "
             "layer=\"foil\"><option/><option><none/></option></choice><choice "
             "layer=\"lining\"><option/><option><none/></option></choice>"),
     25,
     "<choices> makes a design whose innermost layer is a cavity (\"bay\"): "
     "every layer between it and the room may be left out; keep one"},
    {FROM,
     OPTIONS(LEFT_OUT("face") LEFT_OUT("gap") LEFT_OUT("bay") LEFT_OUT("foil")
                 LEFT_OUT("lining")),
     25,
     "<choices> makes a design without a layer: each of them may be left out; "
     "keep one"},
    {FROM, CHOICE("<option><none/><none/></option>"), 25,
     "<none> is one layer too many: an <option> is of one"},
    {FROM, CHOICE("<option price=\"3 /m2\" price-source=\"s\"/>"), 25,
     "<choices> has prices and no currency=; write for example "
     "currency=\"EUR\""},
    {FROM, CHOICE("<option price=\"3 /m2\"/>"), 25,
     "<option> price=\"3 /m2\" needs price-source= beside it: who says so, and "
     "when"},
    {FROM, CHOICE("<option price=\"3\" price-source=\"s\"/>"), 25,
     "<option> price=\"3\" has no unit; write a price per area such as \"12.50 "
     "/m2\" (units: /m2) (the currency is named by <choices> currency=)"},
    {FROM, CHOICE("<option carbon-source=\"s\"/>"), 25,
     "<option> carbon-source=\"s\" has no carbon= that it could be of"},
    {FROM,
     WITH("<choices currency=\"EUR\"><choice layer=\"bay\"><option price=\"3 "
          "/m2\" price-source=\"s\"/><option><layer material=\"test-batt\" "
          "thickness=\"9 mm\"/></option></choice></choices>"),
     25,
     "<choices> has a price= of the option \"as drawn\" (line 25) and none of "
     "\"Test batt\" (line 25): a sum that leaves one out compares unlike "
     "things. Give it for every option, \"0\" with its unit where there is "
     "none, or for none"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><limits price=\"9 "
             "/m2\"/>"),
     25, "<choices> limits or weighs a price, and no option has one"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><limits u=\"0.2 m\"/>"),
     25,
     "<limits> u=\"0.2 m\" - \"m\" is the unit of a length, not of a "
     "transmittance; write a transmittance such as \"0.2 W/(m2.K)\" (units: "
     "W/(m2.K))"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><weights u=\"0\"/>"), 25,
     "<weights> weighs nothing; give at least one of its attributes a number "
     "above zero, or leave it out"},
    {FROM,
     OPTIONS("<choice layer=\"bay\" thicknesses=\"90 mm\"><option>"
             "<layer material=\"test-batt\"><framing material=\"test-timber\" "
             "fraction=\"9 %\" depth=\"95 mm\"/></layer></option></choice>"),
     25,
     "<framing> depth=\"95 mm\" is deeper than the layer that it stands in (90 "
     "mm)"},
};

START_TEST(a_choice_that_cannot_be_is_refused_in_this_sentence)
{
    expect_sentence(&refused[_i]);
}
END_TEST

/* By its own name, else by what it is, up to a comma or a bracket, and by its
 * thickness where it has several. */
static const struct {
    const char *option, *name;
} names[] = {
    {"<option/>", "as drawn"},
    {"<option name=\"\"/>", "as drawn"},
    {"<option name=\"Old, (thick)\"/>", "Old, (thick)"},
    {"<option><none/></option>", "left out"},
    {"<option><layer material=\"test-batt\" thickness=\"9 mm\"/></option>",
     "Test batt"},
    {"<option><layer material=\"test-batt\" name=\"Batt (thick), 4\" "
     "thickness=\"9 mm\"/></option>",
     "Batt"},
    {"<option thicknesses=\"62.5 mm\"><layer material=\"test-batt\" "
     "name=\"Batt, soft\"/></option>",
     "Batt 62.5 mm"},
    {"<option name=\"Mine\" thicknesses=\"80 mm\">" BATT "</option>",
     "Mine 80 mm"},
};

START_TEST(an_option_is_called_by_what_it_is)
{
    char text[1024];
    snprintf(text, sizeof text, CHOICE("%s"), names[_i].option);
    bw_assembly *a = read_changed(FROM, text);
    ck_assert_uint_eq(a->choices.choice[0].option_count, 1);
    ck_assert_str_eq(a->choices.choice[0].option[0].name, names[_i].name);
    bw_assembly_free(a);
}
END_TEST

SUITE_AROUND("choices_said", read_library, free_library,
             EACH(a_choice_that_cannot_be_is_refused_in_this_sentence,
                  COUNT(refused)),
             EACH(an_option_is_called_by_what_it_is, COUNT(names)))
