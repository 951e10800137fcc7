/* A few materials picked out of a library by the words a wall quotes: the same
 * as in the whole, and no others. */

#include "material_case.h"
#include "material_pick.h"
#include "suite.h"

static bw_library *pick(const char *path, const char *wall)
{
    bw_quotes quotes = {.count = 0};
    bw_library *library = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_quotes_add(&quotes, wall, &err), BW_OK);
    bw_quotes_close(&quotes);
    bw_status status = bw_library_pick(&library, path, &quotes, &err);
    bw_quotes_free(&quotes);
    ck_assert_msg(status == BW_OK, "%s:%ld: %s", err.file, err.line,
                  err.message);
    return library;
}

static void same_property(const bw_property *a, const bw_property *b)
{
    ck_assert_int_eq(a->known, b->known);
    ck_assert_int_eq(a->has_range, b->has_range);
    ck_assert_double_eq(a->value, b->value);
    ck_assert_double_eq(a->low, b->low);
    ck_assert_double_eq(a->high, b->high);
    ck_assert_int_eq(a->basis, b->basis);
    ck_assert_int_eq(a->evidence, b->evidence);
    ck_assert_str_eq(a->source, b->source);
    ck_assert_str_eq(a->note, b->note);
}

static void same_curve(const bw_curve *a, const bw_curve *b)
{
    ck_assert_uint_eq(a->count, b->count);
    if (a->count == 0)
        return;
    for (size_t i = 0; i < a->count; i++) {
        ck_assert_double_eq(a->x[i], b->x[i]);
        ck_assert_double_eq(a->y[i], b->y[i]);
    }
    ck_assert_int_eq(a->basis, b->basis);
    ck_assert_str_eq(a->source, b->source);
    ck_assert_str_eq(a->note, b->note);
}

static void same_material(const bw_material *a, const bw_material *b)
{
    ck_assert_str_eq(a->id, b->id);
    ck_assert_str_eq(a->name, b->name);
    ck_assert_str_eq(a->group, b->group);
    ck_assert_str_eq(a->remark, b->remark);
    ck_assert_str_eq(a->file, b->file);
    ck_assert_int_eq(a->line, b->line);
    const bw_property *of_a[] = {&a->density,
                                 &a->thermal_conductivity,
                                 &a->specific_heat,
                                 &a->mu_dry,
                                 &a->mu_wet,
                                 &a->sd,
                                 &a->thickness,
                                 &a->free_saturation,
                                 &a->water_absorption,
                                 &a->porosity,
                                 &a->conductivity_factor};
    const bw_property *of_b[] = {&b->density,
                                 &b->thermal_conductivity,
                                 &b->specific_heat,
                                 &b->mu_dry,
                                 &b->mu_wet,
                                 &b->sd,
                                 &b->thickness,
                                 &b->free_saturation,
                                 &b->water_absorption,
                                 &b->porosity,
                                 &b->conductivity_factor};
    for (size_t i = 0; i < COUNT(of_a); i++)
        same_property(of_a[i], of_b[i]);
    ck_assert_int_eq(a->conductivity_rule, b->conductivity_rule);
    ck_assert_int_eq(a->hygroscopic, b->hygroscopic);
    ck_assert_int_eq(a->absorbs_condensate, b->absorbs_condensate);
    ck_assert_int_eq(a->wood_kind, b->wood_kind);
    ck_assert_int_eq(a->mould_class, b->mould_class);
    ck_assert_str_eq(a->flags_source, b->flags_source);
    same_curve(&a->sorption, &b->sorption);
    same_curve(&a->sd_curve, &b->sd_curve);
    same_curve(&a->mu_curve, &b->mu_curve);
}

/* Its line included, which refusals and evidence name. */
START_TEST(each_shipped_material_picked_alone_is_the_one_of_the_whole)
{
    open_shipped();
    ck_assert_uint_gt(bw_library_count(shipped), 200);
    for (size_t i = 0; i < bw_library_count(shipped); i++) {
        const bw_material *whole = bw_library_at(shipped, i);
        char wall[128];
        snprintf(wall, sizeof wall, "<layer material=\"%s\"/>", whole->id);
        bw_library *library = pick(shipped_path, wall);
        ck_assert_uint_eq(bw_library_count(library), 1);
        same_material(bw_library_at(library, 0), whole);
        bw_library_free(library);
    }
    close_shipped();
}
END_TEST

START_TEST(a_wall_gets_what_it_quotes_however_it_writes_it)
{
    bw_library *library = pick(
        shipped_path, "<!-- a wall's --> <layer name=\"it's = so\" "
                      "material = 'hemp-batt' thickness=\"100 mm\"/>"
                      "<framing material\n=\n\"softwood\"/><air kind=\"x\" "
                      "filled-with=\"plywood-softwood\"/><layer mate=\"cork");
    ck_assert_uint_eq(bw_library_count(library), 3);
    ck_assert_ptr_nonnull(bw_library_find(library, "hemp-batt"));
    ck_assert_ptr_nonnull(bw_library_find(library, "softwood"));
    ck_assert_ptr_nonnull(bw_library_find(library, "plywood-softwood"));
    bw_library_free(library);
    library = pick(shipped_path,
                   "hemp-batt <a>hemp-batt</a> material=softwood");
    ck_assert_uint_eq(bw_library_count(library), 0);
    bw_library_free(library);
}
END_TEST

/* The whole is read then, as that is no longer dearer. */
START_TEST(a_wall_that_quotes_half_the_library_gets_it)
{
    open_shipped();
    static char wall[64 * 1024];
    size_t used = 0, wanted = 0;
    for (size_t i = 0; i < bw_library_count(shipped); i++, wanted++)
        used += (size_t)snprintf(wall + used, sizeof wall - used, "m='%s' ",
                                 bw_library_at(shipped, i)->id);
    bw_library *library = pick(shipped_path, wall);
    ck_assert_uint_eq(bw_library_count(library), wanted);
    bw_library_free(library);
    close_shipped();
}
END_TEST

#define OTHER "<source key=\"other\">Another sheet</source>\n"
#define PICKED(id, fragment)                                                   \
    "<material id=\"" id "\" name=\"B\">\n" fragment MU FLAGS "</material>\n"

static const struct text_row {
    const char *text, *thin; /* NULL: nothing is quoted */
} texts[] = {
    {HEAD PICKED("a", "") PICKED("b", "") "</materials>\n",
     HEAD "\n\n" PICKED("b", "") "</materials>\n"},
    {HEAD OTHER PICKED("b", "") "</materials>\n",
     HEAD "\n" PICKED("b", "") "</materials>\n"},
    {HEAD "<!-- one\n<density/>\n-->" PICKED("b", "") "</materials>\n",
     HEAD "\n\n" PICKED("b", "") "</materials>\n"},
    {HEAD PICKED("a", "") PICKED("bb", "") "</materials>\n", NULL},
    {HEAD "<material name=\"b\">" FLAGS "</material></materials>\n", NULL},
    {"", NULL},
    {"no <material at all", NULL},
    {"<material id=\"b\" which never ends", NULL},
    {"<material id=\"b\"", NULL},
    {"<material id=\"b", NULL},
};

START_TEST(what_is_left_stands_in_its_line)
{
    bw_quotes quotes = {.count = 0};
    ck_assert_int_eq(bw_quotes_add(&quotes, "m='b'", NULL), BW_OK);
    bw_quotes_close(&quotes);
    char *text = strdup(texts[_i].text);
    ck_assert_ptr_nonnull(text);
    ck_assert_int_eq(bw_material_thin(text, &quotes), texts[_i].thin != NULL);
    if (texts[_i].thin != NULL)
        ck_assert_str_eq(text, texts[_i].thin);
    free(text);
    bw_quotes_free(&quotes);
}
END_TEST

/* The one that is quoted is held to all that the whole is held to. */
START_TEST(a_fault_of_what_is_quoted_is_found_in_its_line)
{
    folder f;
    make_folder(&f, HEAD PICKED("a", "")
                        PICKED("b", "<density/>") "</materials>\n");
    bw_quotes quotes = {.count = 0};
    bw_library *library = NULL;
    bw_error err = {0};
    ck_assert_int_eq(bw_quotes_add(&quotes, "m='b'", NULL), BW_OK);
    bw_quotes_close(&quotes);
    bw_status status = bw_library_pick(&library, f.path, &quotes, &err);
    ck_assert_int_eq(status, BW_ERR_INPUT);
    ck_assert_int_eq(err.line, 6);
    ck_assert_ptr_nonnull(strstr(err.message, "<density>"));
    bw_quotes_free(&quotes);
    library = pick(f.path, "m='a'");
    ck_assert_uint_eq(bw_library_count(library), 1);
    bw_library_free(library);
    drop_folder(&f);
}
END_TEST

SUITE("material_pick",
      FACT(each_shipped_material_picked_alone_is_the_one_of_the_whole),
      FACT(a_wall_gets_what_it_quotes_however_it_writes_it),
      FACT(a_wall_that_quotes_half_the_library_gets_it),
      EACH(what_is_left_stands_in_its_line, COUNT(texts)),
      FACT(a_fault_of_what_is_quoted_is_found_in_its_line))
