/* <choices> of an assembly: what they are read as, and what is refused. */

#define FILE_OF_SUITE "choices-test.xml"
#include "input_case.h"

#include <math.h>

#include "suite.h"

/* In line 25, behind the sound wall. */
#define WITH(inside) "</closing-up>\n" inside "\n</assembly>"
#define FROM "</closing-up>\n</assembly>"
#define CHOICE(inside)                                                         \
    WITH("<choices><choice layer=\"bay\">" inside "</choice></choices>")

static bw_assembly *a;

static void read_with(const char *to)
{
    a = read_changed(FROM, to);
}

static const bw_option *option(size_t choice, size_t i)
{
    ck_assert_uint_lt(choice, a->choices.choice_count);
    ck_assert_uint_lt(i, a->choices.choice[choice].option_count);
    return &a->choices.choice[choice].option[i];
}

START_TEST(a_wall_without_choices_has_none)
{
    read_with(FROM);
    ck_assert_uint_eq(a->choices.choice_count, 0);
    bw_assembly_free(a);
}
END_TEST

START_TEST(a_wall_with_choices_is_the_wall_as_drawn)
{
    read_with(
        CHOICE("<option><layer material=\"test-board\" thickness=\"18 mm\"/>"
               "</option>"));
    bw_assembly *b = read_changed("<assembly", "<assembly");
    ck_assert_uint_eq(a->layer_count, b->layer_count);
    ck_assert_uint_eq(a->note_count, b->note_count);
    for (size_t i = 0; i < a->layer_count; i++)
        ck_assert_str_eq(a->layer[i].material->id, b->layer[i].material->id);
    bw_assembly_free(a);
    bw_assembly_free(b);
}
END_TEST

/* The innermost layer may be left out, but not behind a cavity. */
START_TEST(a_cavity_is_left_with_a_layer_before_the_room)
{
    static const struct {
        const char *from, *to;
        bool sound;
    } rows[] = {
        {"<choice layer=\"lining\">", "", true},
        {"<choice layer=\"lining\">",
         "<cavity id=\"last\" thickness=\"20 mm\" ventilation=\"none\"/>",
         false},
        {"<choice layer=\"bay\">",
         "<cavity id=\"last\" thickness=\"20 mm\" ventilation=\"none\"/>",
         true},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        static char text[8192];
        bw_assembly *made = NULL;
        bw_error err = {0};
        const char *lining = strstr(sound, "<layer id=\"lining\"");
        const char *end = strstr(sound, "</assembly>");
        snprintf(text, sizeof text,
                 "%.*s%s%.*s<choices>%s<option/><option><none/></option>"
                 "</choice></choices></assembly>",
                 (int)(lining - sound), sound, rows[i].to, (int)(end - lining),
                 lining, rows[i].from);
        put(file_name, text, strlen(text));
        const bw_status status = bw_assembly_read(&made, file_name, library,
                                                  &err);
        unlink(file_name);
        ck_assert_msg((status == BW_OK) == rows[i].sound, "row %zu: %s", i,
                      err.message);
        ck_assert(rows[i].sound ||
                  strstr(err.message, "leaves a cavity as the innermost"));
        bw_assembly_free(made);
    }
}
END_TEST

START_TEST(an_option_is_as_drawn_another_layer_or_none)
{
    read_with(WITH("<choices><choice layer=\"foil\" name=\"membrane\"><option/>"
                   "<option name=\"open\"><membrane sd=\"0.2 m\"/></option>"
                   "<option><none/></option></choice></choices>"));
    const bw_choice *c = &a->choices.choice[0];
    ck_assert_uint_eq(c->layer, (size_t)bw_assembly_layer(a, "foil"));
    ck_assert_str_eq(c->name, "membrane");
    ck_assert_uint_eq(c->option_count, 3);
    ck_assert(option(0, 0)->as_drawn);
    ck_assert_ptr_eq(option(0, 0)->layer, &a->layer[c->layer]);
    ck_assert_str_eq(option(0, 1)->name, "open");
    ck_assert_str_eq(option(0, 1)->layer->id, "foil");
    ck_assert_double_eq(option(0, 1)->layer->material->sd.value, 0.2);
    ck_assert_ptr_null(option(0, 2)->layer);
    ck_assert(!option(0, 2)->as_drawn);
    bw_assembly_free(a);
}
END_TEST

static const struct {
    const char *thicknesses;
    size_t count;
    double first, last;
} lists[] = {
    {"thicknesses=\"60 mm, 90 mm, 0.12 m\"", 3, 0.060, 0.120},
    {"thicknesses=\"60 mm\"", 1, 0.060, 0.060},
    {"thickness-from=\"60 mm\" thickness-to=\"120 mm\" thickness-step=\"20 "
     "mm\"",
     4, 0.060, 0.120},
    {"thickness-from=\"60 mm\" thickness-to=\"119 mm\" thickness-step=\"20 "
     "mm\"",
     3, 0.060, 0.100},
};

START_TEST(a_list_of_thicknesses_is_so_many_options)
{
    char text[400];
    for (int inner = 0; inner < 2; inner++) {
        snprintf(text, sizeof text,
                 WITH("<choices><choice layer=\"bay\" %s><option name=\"b\" "
                      "%s><layer material=\"test-batt\"/></option></choice>"
                      "</choices>"),
                 inner ? "" : lists[_i].thicknesses,
                 inner ? lists[_i].thicknesses : "");
        read_with(text);
        const size_t count = a->choices.choice[0].option_count;
        ck_assert_uint_eq(count, lists[_i].count);
        ck_assert_double_eq_tol(option(0, 0)->layer->thickness, lists[_i].first,
                                1e-12);
        ck_assert_double_eq_tol(option(0, count - 1)->layer->thickness,
                                lists[_i].last, 1e-12);
        ck_assert_str_eq(option(0, 0)->name, "b 60 mm");
        bw_assembly_free(a);
    }
}
END_TEST

START_TEST(studs_stand_in_an_option_too_unless_it_has_its_own)
{
    read_with(CHOICE("<option name=\"a\"><layer material=\"test-batt\" "
                     "thickness=\"120 mm\"/></option><option name=\"b\"><layer "
                     "material=\"test-batt\" thickness=\"120 mm\"><framing "
                     "material=\"test-timber\" fraction=\"20 %\"/></layer>"
                     "</option>"));
    ck_assert_double_eq_tol(option(0, 0)->layer->framing.fraction, 0.075,
                            1e-12);
    ck_assert_double_eq_tol(option(0, 1)->layer->framing.fraction, 0.2, 1e-12);
    /* what the file is unsure of belongs to the layer that it drew */
    ck_assert_uint_eq(option(0, 0)->layer->uncertain_count, 0);
    ck_assert_uint_eq(option(0, 0)->layer->alternative_count, 0);
    bw_assembly_free(a);
}
END_TEST

START_TEST(price_and_carbon_count_by_area_and_by_volume)
{
    read_with(WITH("<choices currency=\"EUR\"><choice layer=\"bay\" "
                   "thicknesses=\"100 mm, 200 mm\"><option price=\"2 /m2\" "
                   "price-by-volume=\"50 /m3\" price-source=\"list\" "
                   "price-evidence=\"declared\" carbon-by-volume=\"30 kg/m3\" "
                   "carbon-source=\"sheet\"><layer material=\"test-batt\"/>"
                   "</option></choice></choices>"));
    ck_assert_str_eq(a->choices.currency, "EUR");
    ck_assert(a->choices.has_price && a->choices.has_carbon);
    ck_assert_double_eq_tol(option(0, 0)->price, 7.0, 1e-9);
    ck_assert_double_eq_tol(option(0, 1)->price, 12.0, 1e-9);
    ck_assert_double_eq_tol(option(0, 1)->carbon, 6.0, 1e-9);
    ck_assert_int_eq(option(0, 0)->price_evidence, BW_EVIDENCE_DECLARED);
    ck_assert_int_eq(option(0, 0)->carbon_evidence, BW_EVIDENCE_ASSUMED);
    ck_assert_str_eq(option(0, 0)->price_source, "list");
    bw_assembly_free(a);
}
END_TEST

START_TEST(limits_and_weights_are_read)
{
    read_with(WITH("<choices><choice layer=\"bay\"><option/></choice><limits "
                   "u=\"0.25 W/(m2.K)\" thickness=\"300 mm\"/><weights u=\"2\" "
                   "failing=\"1\"/></choices>"));
    ck_assert_double_eq_tol(a->choices.most[BW_GOAL_U], 0.25, 1e-12);
    ck_assert_double_eq_tol(a->choices.most[BW_GOAL_THICKNESS], 0.3, 1e-12);
    ck_assert_double_eq(a->choices.most[BW_GOAL_PRICE], 0.0);
    ck_assert(a->choices.has_weights);
    ck_assert_double_eq(a->choices.weight[BW_GOAL_U], 2.0);
    ck_assert_double_eq(a->choices.weight[BW_GOAL_FAILING], 1.0);
    bw_assembly_free(a);
}
END_TEST

#define BATT "<layer material=\"test-batt\"/>"
#define OPTIONS(inside) WITH("<choices>" inside "</choices>")

#define LEFT_OUT(id)                                                           \
    "<choice layer=\"" id "\"><option><none/></option></choice>"

static const refusal refused[] = {
    {FROM, OPTIONS(""), 25, "holds no <choice>"},
    {FROM, OPTIONS("<choice layer=\"bay\"/>"), 25, "holds no <option>"},
    {FROM, OPTIONS("<choice layer=\"bai\"><option/></choice>"), 25,
     "did you mean bay?"},
    {FROM, OPTIONS("<choice><option/></choice>"), 25, "has no layer="},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><choice "
             "layer=\"bay\"><option/></choice>"),
     25, "stands twice"},
    {FROM, CHOICE("<option/><option/>"), 25, "a second option \"as drawn\""},
    {FROM,
     CHOICE("<option><layer material=\"test-batt\" id=\"x\" "
            "thickness=\"9 mm\"/></option>"),
     25, "stands in an <option>"},
    {FROM, CHOICE("<option>" BATT "</option>"), 25, "has no thickness="},
    {FROM, CHOICE("<option thicknesses=\"90 mm, 60 mm\">" BATT "</option>"), 25,
     "does not rise"},
    {FROM, CHOICE("<option thicknesses=\"90 mm, 60\">" BATT "</option>"), 25,
     "\"60\" has no unit"},
    {FROM, CHOICE("<option thicknesses=\"\">" BATT "</option>"), 25,
     "thicknesses"},
    {FROM,
     CHOICE("<option thicknesses=\"90 mm\" thickness-from=\"1 m\">" BATT
            "</option>"),
     25, "leave one out"},
    {FROM, CHOICE("<option thickness-from=\"90 mm\">" BATT "</option>"), 25,
     "has no thickness-to="},
    {FROM,
     CHOICE("<option thickness-from=\"90 mm\" thickness-to=\"60 mm\" "
            "thickness-step=\"5 mm\">" BATT "</option>"),
     25, "is less than thickness-from="},
    {FROM,
     CHOICE("<option thickness-from=\"50 mm\" thickness-to=\"900 mm\" "
            "thickness-step=\"1 mm\">" BATT "</option>"),
     25, "more than 64 thicknesses"},
    {FROM,
     CHOICE("<option thicknesses=\"90 mm\"><layer material=\"test-batt\" "
            "thickness=\"90 mm\"/></option>"),
     25, "contradict each other"},
    {FROM, CHOICE("<option thicknesses=\"90 mm\"><none/></option>"), 25,
     "no <layer> in it"},
    {FROM,
     OPTIONS("<choice layer=\"lining\"><option><cavity thickness=\"20 mm\" "
             "ventilation=\"none\"/></option></choice>"),
     25, "innermost"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/><option><cavity thickness=\"20 "
             "mm\" ventilation=\"none\"/></option></choice><choice "
             "layer=\"foil\"><option/><option><none/></option></choice><choice "
             "layer=\"lining\"><option/><option><none/></option></choice>"),
     25, "whose innermost layer is a cavity (\"bay\")"},
    {FROM,
     OPTIONS(LEFT_OUT("face") LEFT_OUT("gap") LEFT_OUT("bay") LEFT_OUT("foil")
                 LEFT_OUT("lining")),
     25, "a design without a layer"},
    {FROM, CHOICE("<option><none/><none/></option>"), 25, "one layer too many"},
    {FROM, CHOICE("<option price=\"3 /m2\" price-source=\"s\"/>"), 25,
     "has prices and no currency="},
    {FROM, CHOICE("<option price=\"3 /m2\"/>"), 25, "needs price-source="},
    {FROM, CHOICE("<option price=\"3\" price-source=\"s\"/>"), 25,
     "has no unit"},
    {FROM, CHOICE("<option carbon-source=\"s\"/>"), 25, "has no carbon="},
    {FROM,
     WITH("<choices currency=\"EUR\"><choice layer=\"bay\"><option price=\"3 "
          "/m2\" price-source=\"s\"/><option><layer material=\"test-batt\" "
          "thickness=\"9 mm\"/></option></choice></choices>"),
     25, "compares unlike things"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><limits price=\"9 "
             "/m2\"/>"),
     25, "no option has one"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><limits u=\"0.2 m\"/>"),
     25, "is the unit of a length"},
    {FROM,
     OPTIONS("<choice layer=\"bay\"><option/></choice><weights u=\"0\"/>"), 25,
     "weighs nothing"},
    {FROM,
     OPTIONS("<choice layer=\"bay\" thicknesses=\"90 mm\"><option>"
             "<layer material=\"test-batt\"><framing material=\"test-timber\" "
             "fraction=\"9 %\" depth=\"95 mm\"/></layer></option></choice>"),
     25, "is deeper than the layer"},
};

START_TEST(a_fault_is_refused)
{
    expect_refusal(&refused[_i]);
}
END_TEST

/* 9 x 8 x 8 x 8 = 4608 */
START_TEST(more_designs_than_anybody_weighs_are_refused)
{
    static const char *const layers[] = {"face", "bay", "lining", "foil"};
    char text[6000] = "</closing-up>\n<choices>";
    for (size_t i = 0; i < COUNT(layers); i++) {
        char one[200];
        snprintf(one, sizeof one, "<choice layer=\"%s\">", layers[i]);
        strcat(text, one);
        for (size_t k = 0; k < (i == 0 ? 9U : 8U); k++) {
            snprintf(one, sizeof one, "<option name=\"o%zu\"/>", k);
            strcat(text, one);
        }
        strcat(text, "</choice>");
    }
    strcat(text, "</choices></assembly>");
    const refusal row = {FROM, text, 25, "more than 4096 designs"};
    expect_refusal(&row);
}
END_TEST

SUITE_AROUND("choices_read", read_library, free_library,
             FACT(a_wall_without_choices_has_none),
             FACT(a_wall_with_choices_is_the_wall_as_drawn),
             FACT(a_cavity_is_left_with_a_layer_before_the_room),
             FACT(an_option_is_as_drawn_another_layer_or_none),
             EACH(a_list_of_thicknesses_is_so_many_options, COUNT(lists)),
             FACT(studs_stand_in_an_option_too_unless_it_has_its_own),
             FACT(price_and_carbon_count_by_area_and_by_volume),
             FACT(limits_and_weights_are_read),
             EACH(a_fault_is_refused, COUNT(refused)),
             FACT(more_designs_than_anybody_weighs_are_refused))
