/* The thicknesses in which a layer is sold: as many as are written, each in its
 * place, from thin to thick, within their ends (docs/input.md). */

#include <math.h>

#define FILE_OF_SUITE "./sold-test.xml"
#include "bothways/bothways.h"
#include "input_case.h"
#include "suite.h"

/* Of the layer "bay", of 90 mm. */
static bw_status read_sold(bw_assembly **out, const char *list, bw_error *err)
{
    static char text[16384];
    const char *bay = strstr(sound, "thickness=\"90 mm\"");
    *out = NULL;
    *err = (bw_error){0};
    snprintf(text, sizeof text, "%.*ssold-thicknesses=\"%s\" %s",
             (int)(bay - sound), sound, list, bay);
    return bw_assembly_read_text(out, text, "w.xml", library, NULL, 0, err);
}

static const struct sold_row {
    const char *list;
    size_t count; /* 0: refused */
    double mm[4];
    const char *says;
} rows[] = {
    {"100 mm", 1, {100}, NULL},
    {"40 mm, 60 mm", 2, {40, 60}, NULL},
    {"40 mm,60mm,  0.1 m,12 cm", 4, {40, 60, 100, 120}, NULL},
    {"1 mm, 3 m", 2, {1, 3000}, NULL},
    {"0.999 mm", 0, {0}, "0.999 mm"},
    {"3.001 m", 0, {0}, "3.001 m"},
    {"60 mm, 40 mm", 0, {0}, "has 40 mm after 60 mm"},
    {"40 mm, 60 mm, 60 mm", 0, {0}, "has 60 mm after 60 mm"},
    {"40 mm, 60 mm, 50 mm", 0, {0}, "has 50 mm after 60 mm"},
    {"40 mm,", 0, {0}, "sold-thicknesses"},
    {"", 0, {0}, "sold-thicknesses"},
    {"40, 60", 0, {0}, "sold-thicknesses"},
    {"40 mm, 000000000000000000000000000000000000000000000000000000000000050 "
     "mm",
     0,
     {0},
     "is too long for a length"},
};

START_TEST(a_list_of_thicknesses_is_read_in_its_order)
{
    const struct sold_row *row = &rows[_i];
    bw_assembly *a;
    bw_error err;
    const bw_status status = read_sold(&a, row->list, &err);
    ck_assert_msg((status == BW_OK) == (row->count > 0), "%s: %s", row->list,
                  err.message);
    if (status != BW_OK) {
        ck_assert_msg(strstr(err.message, row->says) != NULL, "%s",
                      err.message);
        ck_assert_int_eq(err.line, 8);
        return;
    }
    const bw_layer *bay = &a->layer[2];
    ck_assert_uint_eq(bay->sold_count, row->count);
    for (size_t i = 0; i < row->count; i++)
        ck_assert_double_eq_tol(1e3 * bay->sold[i], row->mm[i], 1e-9);
    bw_assembly_free(a);
}
END_TEST

START_TEST(so_many_thicknesses_are_read_and_no_more)
{
    for (size_t more = 0; more < 2; more++) {
        char list[4096];
        size_t used = 0;
        bw_assembly *a;
        bw_error err;
        for (size_t i = 0; i < BW_SOLD_MOST + more; i++)
            used += (size_t)snprintf(list + used, sizeof list - used,
                                     "%s%zu mm", i > 0 ? ", " : "", 10 + i);
        const bw_status status = read_sold(&a, list, &err);
        ck_assert_msg((status == BW_OK) == (more == 0), "%s", err.message);
        if (status == BW_OK)
            ck_assert_uint_eq(a->layer[2].sold_count, BW_SOLD_MOST);
        bw_assembly_free(a);
    }
}
END_TEST

SUITE_AROUND("sold", read_library, free_library,
             EACH(a_list_of_thicknesses_is_read_in_its_order, COUNT(rows)),
             FACT(so_many_thicknesses_are_read_and_no_more))
