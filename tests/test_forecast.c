/* When a member is dry: the first dry week, the month it begins with, a board
 * beside diffusion worked by hand, and what must come later than what. */

#include <math.h>

#include "site_wall.h"

/* A board that can dry to the room alone. */
#define BOARD                                                                  \
    LAYERS("<membrane id=\"foil\" material=\"aluminium-foil\"/>"               \
           "<layer id=\"board\" material=\"softwood\" thickness=\"20 mm\"/>")

static const bw_drying_forecast *forecast_of(const char *body)
{
    const bw_assessment_options options = {.threads = 1};
    bw_error err = {0};
    site_read("forecast.xml", body);
    ck_assert_msg(bw_audit_forecast(&core, &options, &err) == BW_OK, "%s",
                  err.message);
    ck_assert_uint_gt(core.audit.forecast_count, 0);
    return core.audit.forecast;
}

/* ---- by hand --------------------------------------------------------------
 */

static double first_dry(const double *moisture, size_t count)
{
    static bw_wood_day day[BW_TRANSIENT_DAYS];
    for (size_t d = 0; d < BW_TRANSIENT_DAYS; d++)
        day[d].moisture = moisture[d < count ? d : count - 1];
    return bw_days_to_limit(day, 0.18);
}

START_TEST(dry_is_the_first_day_of_a_dry_week)
{
    const double at_once[] = {0.18}, never[] = {0.1801};
    const double third[] = {0.2, 0.19, 0.17};
    const double broken[] = {0.2,  0.17, 0.17, 0.17, 0.17,
                             0.17, 0.17, 0.19, 0.1};
    ck_assert_double_eq(first_dry(at_once, 1), 0.0);
    ck_assert_double_eq(first_dry(never, 1), -1.0);
    ck_assert_double_eq(first_dry(third, 3), 2.0);
    ck_assert_double_eq(first_dry(broken, 9), 8.0);
}
END_TEST

START_TEST(a_run_begins_with_the_nearest_month)
{
    ck_assert_int_eq(bw_nearest_month("2031-01-01"), 0);
    ck_assert_int_eq(bw_nearest_month("2031-04-15"), 3);
    ck_assert_int_eq(bw_nearest_month("2031-04-16"), 4);
    ck_assert_int_eq(bw_nearest_month("2031-12-31"), 0);
}
END_TEST

/* Diffusion into one face of a slab sealed on the other (Crank 1975, the first
 * term of the series, from memory): the mean of the sealed half falls from
 * u0 - ue to (u0 - ue) 1.146 exp(-2.467 D t/L2). From 24 to 18 % over 9.5 %,
 * which softwood has at 50 % RH: D t/L2 = 0.272. D = delta_0 p_sat/(mu rho
 * du/dphi) with 2.0e-10 kg/(m s Pa), 2339 Pa, 450 kg/m3. L = 20 mm. At the
 * least slope of the sorption curve (0.187, from 50 to 65 % RH) with the
 * wet-cup mu of 35: 8 days; at the steepest (0.68, from 90 to 95 %) with the
 * dry-cup mu of 110: 91 days. The run itself: 11 days (regression value). */
START_TEST(a_board_dries_within_what_its_curve_and_cups_allow)
{
    const bw_drying_forecast *f = forecast_of(BOARD CLOSING(
        LIMIT("board", "board", "18") READ("05-01", "board", "24")));
    ck_assert_ptr_null(f->reason);
    ck_assert(!f->dry);
    for (int way = 0; way < BW_SITE_WAYS; way++) {
        ck_assert_ptr_null(f->way_reason[way]);
        ck_assert_double_ge(f->days[way][1], 8.0);
        ck_assert_double_le(f->days[way][1], 91.0);
        ck_assert_double_eq_tol(f->days[way][1], 11.0, 1.0);
    }
}
END_TEST

/* ---- where it begins ------------------------------------------------------
 */

/* The other one is the first layer. */
#define TWO(more)                                                              \
    LAYERS("<layer id=\"skin\" material=\"softwood\" thickness=\"20 mm\"/>"    \
           "<layer id=\"board\" material=\"softwood\" thickness=\"20 mm\"/>"   \
           "<membrane id=\"foil\" material=\"aluminium-foil\"/>")              \
    CLOSING(LIMIT("board", "board", "18") READ("05-01", "board", "24") more)
#define BEAM                                                                   \
    "<moisture-limit member=\"beam\" allowed=\"18 %\" critical=\"30 "          \
    "%\"/>" READ("05-01", "beam", "28")

static double closed_days(const char *body)
{
    const double days = forecast_of(body)->days[BW_SITE_CLOSED][1];
    ck_assert_double_ge(days, 1.0);
    bw_assembly_free(wall);
    wall = NULL;
    return days;
}

/* What was read of another member is how wet that one is; what has a limit
 * alone, or is no part of the wall, changes nothing. */
START_TEST(members_that_were_read_begin_with_what_was_read)
{
    const double alone = closed_days(TWO(""));
    ck_assert_double_eq_tol(closed_days(TWO(LIMIT("skin", "skin", "18"))),
                            alone, 1e-9);
    ck_assert_double_eq_tol(closed_days(TWO(BEAM)), alone, 1e-9);
    ck_assert_double_lt(closed_days(TWO(LIMIT("skin", "skin", "18")
                                            READ("05-01", "skin", "8"))),
                        alone - 1.0);
}
END_TEST

/* ---- what must come later -------------------------------------------------
 */

#define LINED                                                                  \
    LAYERS("<membrane id=\"foil\" material=\"aluminium-foil\"/>"               \
           "<layer id=\"board\" material=\"softwood\" thickness=\"20 mm\"/>"   \
           "<membrane id=\"retarder\" material=\"membrane-sd-5m\"/>"           \
           "<layer id=\"lining\" material=\"gypsum-plasterboard\" "            \
           "thickness=\"12.5 mm\"/>")

static double in_order(double days)
{
    return days >= 0.0 ? days : 366.0;
}

START_TEST(more_water_and_a_closed_wall_dry_later)
{
    const bw_drying_forecast *f = forecast_of(LINED CLOSING(
        LIMIT("board", "board", "18") READ("05-01", "board", "20")));
    for (int way = 0; way < BW_SITE_WAYS; way++)
        for (int at = 0; at < 2; at++)
            ck_assert_double_le(in_order(f->days[way][at]),
                                in_order(f->days[way][at + 1]));
    ck_assert_double_lt(f->days[BW_SITE_OPEN][1], f->days[BW_SITE_OPEN][2]);
    ck_assert_double_gt(in_order(f->days[BW_SITE_CLOSED][1]),
                        2.0 * f->days[BW_SITE_HEATED][1]);
    /* The room's air is that outside. */
    ck_assert_double_eq_tol(f->days[BW_SITE_OPEN][1],
                            f->days[BW_SITE_HEATED][1], 1.0);
}
END_TEST

#define STUDS(width)                                                           \
    LAYERS("<membrane id=\"foil\" material=\"aluminium-foil\"/>"               \
           "<layer id=\"bay\" material=\"stone-wool-batt\" "                   \
           "thickness=\"140 mm\"><framing material=\"softwood\" "              \
           "width=\"" width "\" spacing=\"600 mm\"/></layer>")

/* A stud is laid flat: one 20 mm wide dries as the board of 20 mm, a wider one
 * later. */
START_TEST(a_stud_dries_as_a_board_as_thick_as_it_is_wide)
{
    double board[BW_SITE_WAYS];
    const bw_drying_forecast *f = forecast_of(BOARD CLOSING(
        LIMIT("board", "board", "18") READ("05-01", "board", "24")));
    for (int way = 0; way < BW_SITE_WAYS; way++)
        board[way] = f->days[way][1];
    site_close();
    site_open();
    f = forecast_of(STUDS("20 mm") CLOSING(LIMIT("stud", "bay.framing", "18")
                                               READ("05-01", "stud", "24")));
    ck_assert_ptr_null(f->reason);
    ck_assert(f->part.framing);
    for (int way = 0; way < BW_SITE_WAYS; way++) {
        ck_assert_ptr_null(f->way_reason[way]);
        ck_assert_double_eq(f->days[way][1], board[way]);
    }
    site_close();
    site_open();
    f = forecast_of(STUDS("45 mm") CLOSING(LIMIT("stud", "bay.framing", "18")
                                               READ("05-01", "stud", "24")));
    for (int way = 0; way < BW_SITE_WAYS; way++)
        ck_assert_double_gt(f->days[way][1], board[way]);
}
END_TEST

/* Sealed on both sides: nothing leaves. */
START_TEST(a_sealed_board_is_not_dry_in_a_year)
{
    const bw_drying_forecast *f = forecast_of(
        LAYERS("<membrane id=\"foil\" material=\"aluminium-foil\"/>"
               "<layer id=\"board\" material=\"softwood\" thickness=\"20 mm\"/>"
               "<membrane id=\"seal\" material=\"aluminium-foil\"/>")
            CLOSING(LIMIT("board", "board", "18")
                        READ("05-01", "board", "23")));
    for (int at = 0; at < 3; at++)
        ck_assert_double_eq(f->days[BW_SITE_CLOSED][at], -1.0);
    ck_assert_double_gt(f->days[BW_SITE_HEATED][1], 0.0);
}
END_TEST

/* ---- what is not forecast -------------------------------------------------
 */

START_TEST(dry_by_more_than_the_meter_errs_is_dry)
{
    const bw_drying_forecast *f = forecast_of(BOARD CLOSING(
        LIMIT("board", "board", "18") READ("05-01", "board", "15.9")));
    ck_assert(f->dry);
    ck_assert_double_eq(f->days[BW_SITE_CLOSED][2], 0.0);
}
END_TEST

static const struct {
    const char *body, *why;
} refused[] = {
    {BOARD CLOSING("<moisture-limit member=\"sole plate\" allowed=\"18 %\" "
                   "critical=\"20 %\"/>" READ("05-01", "sole plate", "24")),
     "no layer or framing"},
    {LINED CLOSING(LIMIT("lining", "lining", "1") READ("05-01", "lining", "4")),
     "neither solid wood"},
    {BOARD CLOSING(LIMIT("board", "board", "18") READ("05-01", "board", "290")),
     "more was read"},
};

START_TEST(what_cannot_be_simulated_says_why)
{
    const bw_drying_forecast *f = forecast_of(refused[_i].body);
    ck_assert_ptr_nonnull(f->reason);
    ck_assert_msg(strstr(f->reason, refused[_i].why) != NULL, "%s", f->reason);
}
END_TEST

START_TEST(without_a_simulation_nothing_is_forecast)
{
    const bw_assessment_options options = {.no_transient = true};
    site_read("forecast.xml", BOARD CLOSING(LIMIT("board", "board", "18")
                                                READ("05-01", "board", "24")));
    ck_assert_int_eq(bw_audit_forecast(&core, &options, NULL), BW_OK);
    ck_assert_ptr_nonnull(strstr(core.audit.forecast->reason, "monthly-only"));
}
END_TEST

/* The meter errs by 2 points: 16 of 18 % is dry, 16.1 is not. */
START_TEST(a_member_is_dry_from_2_points_below_its_limit_on)
{
    static const struct {
        const char *body;
        bool dry;
    } rows[] = {{BOARD CLOSING(LIMIT("board", "board", "18")
                                   READ("05-01", "board", "16.0")),
                 true},
                {BOARD CLOSING(LIMIT("board", "board", "18")
                                   READ("05-01", "board", "16.1")),
                 false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ck_assert_int_eq(forecast_of(rows[i].body)->dry, rows[i].dry);
        site_close();
        site_open();
    }
}
END_TEST

/* Of a climate of months hours are made, unless that is declined. */
START_TEST(without_hours_a_forecast_is_made_of_months_if_asked_to)
{
    for (int asked = 0; asked < 2; asked++) {
        const bw_assessment_options options = {.threads = 1,
                                               .synthetic_hours = asked == 1};
        bw_error err = {0};
        climate.hour_count = 0;
        climate.kind = BW_CLIMATE_MONTHLY;
        site_read("forecast.xml",
                  BOARD CLOSING(LIMIT("board", "board", "18")
                                    READ("05-01", "board", "24")));
        ck_assert_int_eq(bw_audit_forecast(&core, &options, &err), BW_OK);
        const bw_drying_forecast *f = core.audit.forecast;
        if (asked == 0) {
            ck_assert_ptr_nonnull(strstr(f->reason, "declined"));
        } else {
            ck_assert_ptr_null(f->reason);
            ck_assert_double_gt(f->days[BW_SITE_CLOSED][1], 0.0);
        }
        site_close();
        site_open();
    }
}
END_TEST

SUITE_AROUND("forecast", site_open, site_close,
             FACT(dry_is_the_first_day_of_a_dry_week),
             FACT(a_run_begins_with_the_nearest_month),
             FACT(a_board_dries_within_what_its_curve_and_cups_allow),
             FACT(members_that_were_read_begin_with_what_was_read),
             FACT(more_water_and_a_closed_wall_dry_later),
             FACT(a_stud_dries_as_a_board_as_thick_as_it_is_wide),
             FACT(a_member_is_dry_from_2_points_below_its_limit_on),
             FACT(without_hours_a_forecast_is_made_of_months_if_asked_to),
             FACT(a_sealed_board_is_not_dry_in_a_year),
             FACT(dry_by_more_than_the_meter_errs_is_dry),
             EACH(what_cannot_be_simulated_says_why,
                  sizeof refused / sizeof *refused),
             FACT(without_a_simulation_nothing_is_forecast))
