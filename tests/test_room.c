/* Rooms that would hold more vapour than air can. */

#include <stdlib.h>
#include <string.h>

#include "assembly/room.h"
#include "bothways/air.h"
#include "bothways/assessment.h"
#include "criteria_case.h"
#include "suite.h"

START_TEST(a_room_is_impossible_above_saturation_alone)
{
    const double full = bw_saturation_pressure(24.0);
    ck_assert(!bw_room_impossible(bw_room_humidity(24.0, full)));
    ck_assert(bw_room_impossible(bw_room_humidity(24.0, 1.001 * full)));
}
END_TEST

/* Hot and humid months: 29 degC, 3000 Pa; 24 degC holds 2985 Pa. */
static void make_hot(criteria_case *c)
{
    case_make(c);
    c->assembly.indoors.temperature = 24.0;
    for (int m = 0; m < BW_MONTHS; m++) {
        c->climate.month[m].temperature = 29.0;
        c->climate.month[m].vapour_pressure = 3000.0 - 50.0 * m;
    }
}

static bw_assessment *assess(const criteria_case *c)
{
    bw_assessment *a = NULL;
    bw_error err = {0};
    ck_assert_msg(bw_assess(&a, &c->assembly, &c->climate, NULL, &err) == BW_OK,
                  "%s", err.message);
    return a;
}

START_TEST(
    a_humidity_class_above_saturation_is_not_assessed_and_says_what_to_write)
{
    criteria_case c;
    make_hot(&c);
    bw_assessment *a = assess(&c);
    ck_assert_int_eq(a->verdict, BW_NOT_ASSESSED);
    ck_assert_str_eq(
        a->verdict_reason,
        "No such room: humidity class 3 at 24 degC, the room would "
        "be at up to 101 % RH in Jan, more than air holds; write "
        "relative-humidity= or conditions= in <indoors>.");
    ck_assert_uint_eq(a->criterion_count, 1);
    ck_assert(!a->section[0].run[BW_RUN_DESIGN].ran);
    ck_assert_uint_eq(a->advice_count, 0);
    bw_assessment_free(a);
    case_free(&c);
}
END_TEST

START_TEST(the_same_room_kept_at_a_humidity_of_its_own_is_assessed)
{
    criteria_case c;
    make_hot(&c);
    c.assembly.indoors.kind = BW_INDOOR_RH;
    c.assembly.indoors.relative_humidity = 0.98; /* with its margin 100 % */
    bw_assessment *a = assess(&c);
    ck_assert_ptr_null(a->room_reason);
    ck_assert(a->section[0].run[BW_RUN_DESIGN].ran);
    bw_assessment_free(a);
    case_free(&c);
}
END_TEST

SUITE(
    "room", FACT(a_room_is_impossible_above_saturation_alone),
    FACT(
        a_humidity_class_above_saturation_is_not_assessed_and_says_what_to_write),
    FACT(the_same_room_kept_at_a_humidity_of_its_own_is_assessed))
