/* The table of criteria, as the library offers it. */

#include <string.h>

#include "bothways/criterion.h"
#include "bothways/decay.h"
#include "criterion/criterion.h"
#include "number.h"
#include "suite.h"

START_TEST(a_criterion_is_found_by_its_name_and_by_its_place)
{
    ck_assert_uint_eq(bw_criteria_count(), BW_C_COUNT);
    ck_assert_ptr_null(bw_criteria_at(BW_C_COUNT));
    ck_assert_ptr_null(bw_criteria_find("drying"));
    for (size_t i = 0; i < BW_C_COUNT; i++)
        ck_assert_ptr_eq(bw_criteria_find(bw_criteria_at(i)->name),
                         bw_criterion_facts_of((bw_criterion_id)i));
}
END_TEST

/* A row without a limit has no bound either, and no limit has a gap. */
START_TEST(a_limit_says_where_it_holds_and_what_sets_it)
{
    for (size_t i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_facts *f = bw_criteria_at(i);
        const bool computed = f->limit_is[0] != '\0';
        ck_assert_msg((f->bound == BW_NO_LIMIT) ==
                          (f->limit_count == 0 && !computed),
                      "%s", f->name);
        ck_assert_msg(f->limit_count == 0 || !computed, "%s", f->name);
        for (size_t k = 0; k < f->limit_count; k++) {
            ck_assert_ptr_nonnull(f->limit[k].where);
            ck_assert_ptr_nonnull(f->limit[k].set_by);
        }
    }
}
END_TEST

/* What the rule says a second time is the number that is judged by. */
START_TEST(a_rule_says_the_limit_it_sets)
{
    size_t said = 0;
    for (size_t i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_facts *f = bw_criteria_at(i);
        for (size_t k = 0; k < f->limit_count; k++) {
            char number[32];
            if (!(f->limit[k].value > 0.0) || i == BW_C_SURFACE_CONDENSATION)
                continue; /* zero and saturation are said in words */
            bw_number_g(number, sizeof number, f->limit[k].value, 6);
            ck_assert_msg(strstr(f->rule, number) != NULL, "%s: %s not in %s",
                          f->name, number, f->rule);
            said++;
        }
    }
    ck_assert_uint_gt(said, 20);
}
END_TEST

/* A number that is no number where it is printed would stand there as its
 * name. */
START_TEST(no_name_of_the_source_stands_in_what_people_read)
{
    for (size_t i = 0; i < BW_C_COUNT; i++) {
        const bw_criterion_facts *f = bw_criteria_at(i);
        ck_assert_ptr_null(strstr(f->title, "BW_"));
        ck_assert_ptr_null(strstr(f->rule, "BW_"));
    }
}
END_TEST

START_TEST(a_limit_is_put_into_words)
{
    static const struct {
        const char *criterion, *text;
    } cases[] = {
        {"condensate-non-absorbing", "at most 0.5 kg/m2"},
        {"drying-reserve",
         "at least 0.1 kg/(m2 a) (walls and floors), 0.25 (roofs)"},
        {"condensate-confirmed",
         "at most 1 kg/m2, 0.5 (faces that do not absorb)"},
        {"mould-index-hidden", "below 3"},
        {"reserve-with-leakage", "above 0 kg/(m2 a)"},
        {"period-balance", "at most what can evaporate"},
        {"closing-moisture", "below or at most what the rule set asks"},
        {"wetting-outwards", ""},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        char text[BW_LIMIT_TEXT], cut[8];
        const bw_criterion_facts *f = bw_criteria_find(cases[i].criterion);
        ck_assert_str_eq(bw_criterion_limit_text(text, sizeof text, f),
                         cases[i].text);
        bw_criterion_limit_text(cut, sizeof cut, f);
        ck_assert_int_eq(strncmp(cut, cases[i].text, sizeof cut - 1), 0);
        ck_assert_uint_lt(strlen(cut), sizeof cut);
    }
    for (size_t i = 0; i < BW_C_COUNT; i++) {
        char text[BW_LIMIT_TEXT];
        bw_criterion_limit_text(text, sizeof text, bw_criteria_at(i));
        ck_assert_uint_lt(strlen(text), BW_LIMIT_TEXT - 1);
    }
}
END_TEST

/* One dose: the limit of the row and what decay.h rates by. */
START_TEST(the_dose_that_fails_is_the_critical_one)
{
    const bw_criterion_facts *f = bw_criteria_find("decay-dose");
    ck_assert_uint_eq(f->limit_count, 1);
    ck_assert_double_eq(f->limit[0].value, BW_DECAY_DOSE_CRITICAL);
}
END_TEST

SUITE("criterion", FACT(a_criterion_is_found_by_its_name_and_by_its_place),
      FACT(a_limit_says_where_it_holds_and_what_sets_it),
      FACT(a_rule_says_the_limit_it_sets),
      FACT(no_name_of_the_source_stands_in_what_people_read),
      FACT(a_limit_is_put_into_words),
      FACT(the_dose_that_fails_is_the_critical_one))
