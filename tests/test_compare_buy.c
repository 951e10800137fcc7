/* What to buy of walls made equal: the list in the file, and what the table
 * says of it. All else alike, R = d/lambda must be alike, which the thickness
 * that it takes is worked by hand from: 0.100/0.040 = d/0.050, 125 mm. */

#include "bothways/edit.h"
#include "compare_case.h"
#include "one_document.h"
#include "suite.h"

static compare_case c;

static struct csv {
    char text[64 * 1024];
    size_t length;
} csv;

static bool keep(void *payload, const char *text, size_t length)
{
    struct csv *to = payload;
    ck_assert_uint_lt(to->length + length, sizeof to->text);
    memcpy(to->text + to->length, text, length);
    to->length += length;
    to->text[to->length] = '\0';
    return true;
}

static void setup(void)
{
    case_start(&c);
}

static void teardown(void)
{
    case_end(&c);
}

static void compare(const char *sold, bw_equal equal)
{
    char layers[600];
    snprintf(layers, sizeof layers,
             CASE_BOARD "<layer id='wool' name='wool' thickness='90 mm' "
                        "lambda='0.050 W/(m.K)' mu='1' kind='mineral-wool' "
                        "%s/>" CASE_LINING,
             sold);
    case_add(&c, (case_wall){"a", NULL, NULL,
                             CASE_BOARD CASE_WOOL("100", "0.040") CASE_LINING});
    case_add(&c, (case_wall){"b", NULL, NULL, layers});
    case_must(&c, &(bw_compare_options){.equal = equal});
}

static const char *table(void)
{
    const bw_results results = {.comparison = c.result};
    csv.length = 0;
    ck_assert_int_eq(
        bw_report_table(&results, BW_TABLE_COMPARE, keep, &csv, &c.err), BW_OK);
    return csv.text;
}

static const struct {
    const char *list;
    double buy, thickest;
    const char *row;
} sold[] = {
    {"", 0.130, 0.0, "thickness-to-buy,key-number,b,,0.13,m,"},
    {"sold-thicknesses='80 mm, 120 mm, 160 mm, 200 mm'", 0.160, 0.200,
     "thickness-to-buy,key-number,b,,0.16,m,"},
    {"sold-thicknesses='12.5 cm,160 mm'", 0.125, 0.160, /* what it takes */
     "thickness-to-buy,key-number,b,,0.125,m,"},
    {"sold-thicknesses='60 mm, 100 mm'", 0.0, 0.100,
     "thickness-to-buy,key-number,b,,,m,,,,none as thick is sold"},
};

START_TEST(what_to_buy_is_of_the_list_in_the_file)
{
    compare(sold[_i].list, BW_EQUAL_U);
    const bw_compared *wall = &c.result->wall[1];
    ck_assert_double_eq_tol(wall->thickness_after, 0.125, 1e-8);
    ck_assert_double_eq_tol(wall->thickness_to_buy, sold[_i].buy, 1e-12);
    ck_assert_double_eq_tol(wall->thickest_sold, sold[_i].thickest, 1e-12);
    if (sold[_i].buy > 0.0)
        ck_assert_double_eq_tol(
            1.0 / wall->transmittance_to_buy,
            1.0 / wall->transmittance + (sold[_i].buy - 0.125) / 0.050, 1e-6);
    const char *said = table();
    ck_assert_msg(strstr(said, sold[_i].row) != NULL, "%s", said);
    ck_assert_ptr_nonnull(
        strstr(said, "thickness-to-buy,key-number,a,,,m,,,,as drawn"));
}
END_TEST

/* Of one total thickness what fits is asked, not what is sold. */
START_TEST(nothing_is_to_buy_where_not_the_u_value_is_held)
{
    compare("sold-thicknesses='60 mm, 100 mm'", BW_EQUAL_THICKNESS);
    ck_assert_double_eq(c.result->wall[1].thickness_to_buy, 0.0);
    const char *said = table();
    ck_assert_ptr_null(strstr(said, "to-buy"));
    ck_assert_ptr_nonnull(
        strstr(said, "scaled-thickness,key-number,b,,0.1,m,"));
}
END_TEST

START_TEST(as_drawn_nothing_is_made_to_fit)
{
    compare("sold-thicknesses='60 mm, 100 mm'", BW_EQUAL_AS_DRAWN);
    ck_assert_ptr_null(strstr(table(), "scaled-thickness"));
}
END_TEST

/* Another material is sold in other thicknesses; another thickness of the same
 * is not. */
START_TEST(the_list_goes_with_the_material)
{
    static const bw_edit edit[] = {{"wool.thickness", "80 mm"},
                                   {"wool.material", "stone-wool-batt"}};
    static const size_t left[] = {2, 0};
    compare("sold-thicknesses='60 mm, 100 mm'", BW_EQUAL_AS_DRAWN);
    ck_assert_uint_eq(c.assembly[1]->layer[1].sold_count, 2);
    for (size_t i = 0; i < COUNT(edit); i++) {
        bw_assembly *changed = NULL;
        ck_assert_int_eq(bw_assembly_read_edited(&changed, c.assembly[1]->file,
                                                 c.library, &edit[i], 1,
                                                 &c.err),
                         BW_OK);
        ck_assert_uint_eq(changed->layer[1].sold_count, left[i]);
        bw_assembly_free(changed);
    }
}
END_TEST

SUITE_AROUND("compare_buy", setup, teardown,
             EACH(what_to_buy_is_of_the_list_in_the_file, COUNT(sold)),
             FACT(nothing_is_to_buy_where_not_the_u_value_is_held),
             FACT(as_drawn_nothing_is_made_to_fit),
             FACT(the_list_goes_with_the_material))
