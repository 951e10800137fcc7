/* Comparisons. What a layer must become is computed by hand beside it; all
 * else is compared with what each wall's own assessment says. Expected values
 * that no source outside the project has: none. */

#include "compare_case.h"
#include "one_document.h"
#include "suite.h"

static compare_case c;

static void setup(void)
{
    case_start(&c);
}

static void teardown(void)
{
    case_end(&c);
}

/* ---- what is held equal ------------------------------------------------ */

START_TEST(same_u_takes_thickness_in_proportion_to_conductivity)
{
    /* All else alike, R = d/lambda must be alike: 0.100/0.040 = d/0.050. */
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL,
                             CASE_BOARD CASE_WOOL("90", "0.050") CASE_LINING});
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_U});
    const bw_compared *wall = c.result->wall;
    ck_assert(!wall[0].rescaled && wall[1].rescaled);
    ck_assert_str_eq(wall[1].rescaled_id, "wool");
    ck_assert_double_eq_tol(wall[1].thickness_before, 0.090, 1e-12);
    ck_assert_double_eq_tol(wall[1].thickness_after, 0.125, 1e-8);
    ck_assert_double_eq_tol(wall[1].transmittance, wall[0].transmittance, 1e-8);
    /* To buy: 130 mm, R of 0.130/0.050 instead of 0.125/0.050. */
    ck_assert_double_eq_tol(wall[1].thickness_to_buy, 0.130, 1e-12);
    ck_assert_double_eq_tol(1.0 / wall[1].transmittance_to_buy,
                            1.0 / wall[1].transmittance + 0.1, 1e-6);
    /* The file's own assembly is not touched. */
    ck_assert_double_eq_tol(c.assembly[1]->layer[1].thickness, 0.090, 1e-12);
}
END_TEST

START_TEST(same_u_goes_through_framing)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL,
                             CASE_BOARD
                             "<layer id='bay' material='stone-wool-batt' "
                             "thickness='90 mm'><framing material='softwood' "
                             "fraction='12 %'/></layer>" CASE_LINING});
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_U});
    ck_assert_double_eq_tol(c.result->wall[1].transmittance,
                            c.result->wall[0].transmittance, 1e-8);
    /* More than the wool's own 100 mm, as the studs lose more; these stay 90 mm
     * deep, and what is thicker lies across them. */
    const bw_compared *wall = &c.result->wall[1];
    ck_assert_double_gt(wall->thickness_after, 0.090);
    ck_assert(!wall->rescaled_framing);
    ck_assert_double_eq_tol(wall->framing_depth, 0.090, 1e-12);
    ck_assert_double_eq_tol(wall->assessment->assembly->layer[1].framing.depth,
                            0.090, 1e-12);
    const double across = wall->thickness_after;
    case_must(
        &c, &(bw_compare_options){.equal = BW_EQUAL_U, .scale_framing = true});
    wall = &c.result->wall[1];
    ck_assert(wall->rescaled_framing);
    ck_assert_double_eq(wall->framing_depth, 0.0);
    /* Deeper studs lose more than none at all in what is added. */
    ck_assert_double_gt(wall->thickness_after, across);
}
END_TEST

START_TEST(same_thickness_makes_room_in_one_layer)
{
    /* 12 + 100 + 12.5 = 124.5 mm; 12 + 140 + 12 + 12.5 = 176.5 mm: 52 mm
     * less wool, 88 mm of it. */
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(
        &c,
        (case_wall){
            "b", NULL, NULL,
            CASE_BOARD CASE_WOOL(
                "140", "0.035") "<layer id='inner' material='plywood-softwood' "
                                "thickness='12 mm'/>" CASE_LINING});
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_THICKNESS});
    const bw_compared *wall = c.result->wall;
    ck_assert_double_eq_tol(wall[0].total_thickness, 0.1245, 1e-12);
    ck_assert_double_eq_tol(wall[1].total_thickness, 0.1245, 1e-12);
    ck_assert_double_eq_tol(wall[1].thickness_after, 0.088, 1e-12);
}
END_TEST

START_TEST(a_wall_that_is_equal_already_is_left_alone)
{
    for (int i = 0; i < 2; i++)
        case_add(&c,
                 (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_U});
    ck_assert(!c.result->wall[1].rescaled);
}
END_TEST

START_TEST(the_named_layer_is_the_one_that_changes)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(
        &c,
        (case_wall){
            "b", NULL, NULL,
            CASE_BOARD CASE_WOOL(
                "100", "0.040") "<layer id='inner' material='plywood-softwood' "
                                "thickness='12 mm'/>" CASE_LINING});
    /* 124.5 mm against 136.5 mm: the panel of 12 mm would vanish; the lining
     * of 12.5 mm would be thinner than a layer can be. */
    ck_assert_int_eq(
        case_compare(&c, &(bw_compare_options){.equal = BW_EQUAL_THICKNESS,
                                               .scaled_layer = "lining"}),
        BW_ERR_DOMAIN);
    ck_assert_ptr_nonnull(strstr(c.err.message, "0.5 mm"));
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_THICKNESS,
                                        .scaled_layer = "wool"});
    ck_assert_str_eq(c.result->wall[1].rescaled_id, "wool");
}
END_TEST

/* ---- refusals ---------------------------------------------------------- */

START_TEST(what_cannot_be_reached_is_refused)
{
    static const struct {
        bw_equal equal;
        const char *layer, *layers, *says;
    } bad[] = {
        /* 50 + 124.5 - 562.5 mm. */
        {BW_EQUAL_THICKNESS, NULL,
         "<layer id='brick' material='brick-facing' thickness='500 "
         "mm'/>" CASE_WOOL("50", "0.040") CASE_LINING,
         "would have to be -388.0 mm"},
        /* Without any wool still a better wall than the first. */
        {BW_EQUAL_U, NULL,
         "<layer id='more' name='more' thickness='400 mm' lambda='0.03 "
         "W/(m.K)' mu='1'/>" CASE_WOOL("500", "0.040") CASE_LINING,
         "cannot be reached"},
        {BW_EQUAL_U, "wool",
         CASE_WOOL("90", "0.040") "<cavity thickness='40 mm' "
                                  "ventilation='well'/>" CASE_LINING,
         "does not change the U-value"},
        {BW_EQUAL_U, "nothing", CASE_BOARD CASE_WOOL("90", "0.040"),
         "no layer 'nothing'"},
        {BW_EQUAL_U, "foil",
         CASE_BOARD CASE_WOOL(
             "90", "0.040") "<membrane id='foil' sd='5 m'/>" CASE_LINING,
         "it is a membrane"},
        {BW_EQUAL_U, "wool",
         CASE_BOARD "<layer id='wool' name='wool' thickness='90 mm' "
                    "resistance='2 m2.K/W' mu='1'/>" CASE_LINING,
         "given as a whole"},
        {BW_EQUAL_U, "wool",
         CASE_BOARD "<layer id='wool' name='wool' thickness='90 mm' "
                    "lambda='0.04 W/(m.K)' sd='0.1 m'/>" CASE_LINING,
         "its sd is given as a whole"},
        {BW_EQUAL_U, NULL, CASE_BOARD CASE_LINING, "no insulation layer"},
        {BW_EQUAL_THICKNESS, NULL,
         CASE_WOOL("90", "0.040") "<layer id='x' name='x' resistance='0.1 "
                                  "m2.K/W' sd='1 m'/>" CASE_LINING,
         "gives no thickness"},
    };
    case_wall drawn = {"b", NULL, NULL, bad[_i].layers};
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, drawn);
    bw_status status = case_compare(
        &c, &(bw_compare_options){.equal = bad[_i].equal,
                                  .scaled_layer = bad[_i].layer});
    ck_assert_int_eq(status, BW_ERR_DOMAIN);
    ck_assert_msg(strstr(c.err.message, bad[_i].says) != NULL,
                  "'%s' does not say '%s'", c.err.message, bad[_i].says);
    ck_assert_ptr_nonnull(strstr(c.err.file, "wall-1.xml"));
}
END_TEST

static void add_two(const char *indoors, const char *climate, double shift)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_wall_in(
        &c,
        (case_wall){"b", NULL, indoors, CASE_WOOL("100", "0.040") CASE_LINING},
        climate, shift);
}

START_TEST(other_climates_are_refused_unless_it_is_meant)
{
    add_two(NULL, "other.csv", 5.0);
    ck_assert_int_eq(case_compare(&c, NULL), BW_ERR_DOMAIN);
    ck_assert_ptr_nonnull(strstr(c.err.message, "--as-drawn"));
    ck_assert_ptr_nonnull(strstr(c.err.message, "other.csv"));
    case_must(&c, &(bw_compare_options){.conditions_may_differ = true});
    ck_assert(c.result->climates_differ && !c.result->indoors_differ);
    ck_assert_uint_eq(c.result->difference_count, 1);
}
END_TEST

START_TEST(the_same_figures_in_another_file_are_the_same_climate)
{
    add_two(NULL, "other.csv", 0.0);
    case_must(&c, NULL);
    ck_assert(!c.result->climates_differ);
}
END_TEST

START_TEST(other_rooms_are_refused_unless_it_is_meant)
{
    add_two("temperature='20 degC' humidity-class='3'", "climate.csv", 0.0);
    ck_assert_int_eq(case_compare(&c, NULL), BW_ERR_DOMAIN);
    ck_assert_ptr_nonnull(strstr(c.err.message, "humidity class 3"));
    case_must(&c, &(bw_compare_options){.conditions_may_differ = true});
    ck_assert(c.result->indoors_differ && !c.result->climates_differ);
}
END_TEST

START_TEST(contradictions_and_numbers_of_walls_are_refused)
{
    add_two(NULL, "climate.csv", 0.0);
    ck_assert_int_eq(
        case_compare(&c, &(bw_compare_options){.conditions_may_differ = true,
                                               .equal = BW_EQUAL_U}),
        BW_ERR_USAGE);
    ck_assert_int_eq(
        case_compare(&c, &(bw_compare_options){.scaled_layer = "wool"}),
        BW_ERR_USAGE);
    ck_assert_int_eq(
        case_compare(&c, &(bw_compare_options){.scale_framing = true}),
        BW_ERR_USAGE);
    size_t all = c.count;
    c.count = 1;
    ck_assert_int_eq(case_compare(&c, NULL), BW_ERR_USAGE);
    c.count = all;
    while (c.count < CASE_WALLS)
        case_add(&c, (case_wall){"a", NULL, NULL,
                                 CASE_BOARD CASE_WOOL("100", "0.040")});
    ck_assert_int_eq(case_compare(&c, NULL), BW_ERR_USAGE);
}
END_TEST

/* ---- the table --------------------------------------------------------- */

/* Two sections, so that there is a worst one. */
#define FRAMED                                                                 \
    "<membrane id='sheet' sd='20 m'/>" CASE_BOARD                              \
    "<layer id='bay' material='stone-wool-batt' thickness='140 mm'><framing "  \
    "material='softwood' fraction='12 %'/></layer>" CASE_LINING

START_TEST(rows_are_the_worst_sections_of_each_walls_own_assessment)
{
    add_two(NULL, "climate.csv", 0.0);
    case_add(&c, (case_wall){"framed", NULL, NULL, FRAMED});
    case_must(&c, NULL);
    for (size_t i = 0; i < c.count; i++) {
        bw_assessment *own = NULL;
        ck_assert_int_eq(
            bw_assess(&own, c.assembly[i], c.climate[i], NULL, &c.err), BW_OK);
        double least = 1e300, most = -1.0;
        for (size_t k = 0; k < own->section_count; k++) {
            const bw_monthly_result *r =
                &own->section[k].run[BW_RUN_DESIGN].result;
            least = r->reserve < least ? r->reserve : least;
            most = r->peak > most ? r->peak : most;
        }
        ck_assert_double_eq(case_row(&c, "reserve")->value[i], least);
        ck_assert_double_eq(case_row(&c, "peak-condensate")->value[i], most);
        ck_assert_double_eq(case_row(&c, "u-value")->value[i],
                            own->thermal.transmittance);
        ck_assert_int_eq(c.result->wall[i].assessment->verdict, own->verdict);
        ck_assert_int_eq(c.result->wall[i].verdict, own->verdict);
        for (size_t k = 0; k < own->criterion_count; k++) {
            const bw_criterion *one = &own->criterion[k];
            if (strcmp(one->criterion, "drying-outwards") == 0 ||
                strcmp(one->criterion, "drying-inwards") == 0)
                continue; /* key numbers */
            const bw_compare_row *row = case_row(&c, one->criterion);
            if (one->verdict == BW_FAILS)
                ck_assert_int_eq(row->verdict[i], BW_FAILS);
            if (one->has_limit && row->has_value[i] &&
                row->verdict[i] == one->verdict &&
                row->criterion[i]->outcome == one->outcome)
                ck_assert_double_le(row->criterion[i]->margin, one->margin);
        }
        bw_assessment_free(own);
    }
    ck_assert_int_eq(c.result->wall[2].assessment->verdict, BW_FAILS);
}
END_TEST

START_TEST(a_wall_without_wood_has_no_wood_criterion)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL,
                             CASE_WOOL("100", "0.040") CASE_LINING});
    case_must(&c, NULL);
    const bw_compare_row *row = case_row(&c, "panel-moisture-rise");
    ck_assert_ptr_nonnull(row->criterion[0]);
    ck_assert_ptr_null(row->criterion[1]);
    ck_assert(!row->has_value[1]);
    ck_assert_str_eq(row->instead[1], "no such part");
}
END_TEST

typedef struct text_sink {
    size_t length;
    char text[65536];
} text_sink;

static bool keep(void *payload, const char *bytes, size_t length)
{
    text_sink *sink = payload;
    if (sink->length + length >= sizeof sink->text)
        return false;
    memcpy(sink->text + sink->length, bytes, length);
    sink->length += length;
    sink->text[sink->length] = '\0';
    return true;
}

static void put_table(text_sink *csv)
{
    const bw_results results = {.comparison = c.result};
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_COMPARE, keep, csv, &c.err), BW_OK);
}

START_TEST(the_number_of_threads_changes_no_byte)
{
    static text_sink csv[2];
    static const int threads[] = {1, 5};
    add_two(NULL, "climate.csv", 0.0);
    while (c.count < 8)
        case_add(&c, (case_wall){"framed", NULL, NULL, FRAMED});
    for (int i = 0; i < 2; i++) {
        csv[i].length = 0;
        case_must(&c, &(bw_compare_options){.assessment.threads = threads[i]});
        put_table(&csv[i]);
    }
    ck_assert_uint_gt(csv[0].length, 1000);
    ck_assert_str_eq(csv[0].text, csv[1].text);
}
END_TEST

START_TEST(csv_has_a_line_for_each_row_and_wall)
{
    static text_sink csv;
    csv.length = 0;
    add_two(NULL, "climate.csv", 0.0);
    case_must(&c, NULL);
    put_table(&csv);
    size_t lines = 0, commas = 0;
    for (const char *p = csv.text; *p != '\0'; p++) {
        commas += *p == ',';
        if (*p != '\n')
            continue;
        ck_assert_uint_eq(commas, 9);
        commas = 0;
        lines++;
    }
    ck_assert_uint_eq(lines, 1 + 2 + 2 * c.result->row_count);
}
END_TEST

/* ---- what the sentences are made of: test_compare_sentences.c ---------- */

/* Open enough to dry within the year. */
#define OPEN_BOARD                                                             \
    "<layer id='panel' name='board' thickness='12 mm' lambda='0.1 W/(m.K)' "   \
    "mu='5'/>"

START_TEST(walls_of_one_name_are_numbered)
{
    for (int i = 0; i < 2; i++)
        case_add(&c,
                 (case_wall){"a", NULL, NULL,
                             OPEN_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_must(&c, NULL);
    ck_assert_str_eq(c.result->wall[0].label, "a (1)");
    ck_assert_str_eq(c.result->wall[1].label, "a (2)");
    ck_assert_uint_eq(c.result->sentence_count, 3);
}
END_TEST

START_TEST(a_panel_in_the_way_leaves_less_reserve)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             OPEN_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL,
                             CASE_WOOL("100", "0.040") CASE_LINING});
    case_must(&c, NULL);
    const bw_compare_row *months = case_row(&c, "months-to-dry");
    const bw_compare_row *reserve = case_row(&c, "reserve");
    ck_assert(months->has_value[0] && months->has_value[1]);
    ck_assert_double_le(months->value[0], 12.0);
    ck_assert_double_gt(reserve->value[1], reserve->value[0]);
}
END_TEST

START_TEST(a_wall_that_never_dries_has_no_months)
{
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c,
             (case_wall){
                 "tight", NULL, NULL,
                 "<membrane id='sheet' sd='1000 m'/>" CASE_BOARD CASE_WOOL(
                     "100",
                     "0.040") "<membrane id='foil' sd='1000 m'/>" CASE_LINING});
    case_must(&c, NULL);
    const bw_compare_row *months = case_row(&c, "months-to-dry");
    ck_assert(!months->has_value[1]);
    ck_assert_str_eq(months->instead[1], "not in 10 years");
}
END_TEST

START_TEST(text_says_which_wall_before_what_is_held_equal)
{
    static text_sink page;
    page.length = 0;
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", "faces='S' driving-rain='none'", NULL,
                             CASE_BOARD CASE_WOOL("90", "0.050") CASE_LINING});
    case_must(&c, &(bw_compare_options){.equal = BW_EQUAL_U});
    ck_assert_int_eq(
        compare_report(BW_FORM_TEXT, c.result, NULL, keep, &page, &c.err),
        BW_OK);
    const char *which = strstr(page.text, "\nWhich wall: ");
    const char *equal = strstr(page.text, "\nHeld equal: the U-value of a");
    ck_assert(which != NULL && equal > which);
    ck_assert_ptr_nonnull(
        strstr(page.text, "made 125.0 mm instead of 90.0 mm thick"));
    ck_assert_ptr_nonnull(strstr(page.text, "They face different ways"));
    for (const char *line = page.text; *line != '\0';) {
        size_t length = strcspn(line, "\n");
        ck_assert_uint_le(length, 100);
        line += length + (line[length] == '\n');
    }
}
END_TEST

SUITE_AROUND("compare", setup, teardown,
             FACT(same_u_takes_thickness_in_proportion_to_conductivity),
             FACT(same_u_goes_through_framing),
             FACT(same_thickness_makes_room_in_one_layer),
             FACT(a_wall_that_is_equal_already_is_left_alone),
             FACT(the_named_layer_is_the_one_that_changes),
             EACH(what_cannot_be_reached_is_refused, 9),
             FACT(other_climates_are_refused_unless_it_is_meant),
             FACT(the_same_figures_in_another_file_are_the_same_climate),
             FACT(other_rooms_are_refused_unless_it_is_meant),
             FACT(contradictions_and_numbers_of_walls_are_refused),
             FACT(rows_are_the_worst_sections_of_each_walls_own_assessment),
             FACT(a_wall_without_wood_has_no_wood_criterion),
             FACT(the_number_of_threads_changes_no_byte),
             FACT(csv_has_a_line_for_each_row_and_wall),
             FACT(walls_of_one_name_are_numbered),
             FACT(a_panel_in_the_way_leaves_less_reserve),
             FACT(a_wall_that_never_dries_has_no_months),
             FACT(text_says_which_wall_before_what_is_held_equal))
