/* Every mark of the charts of a simulation lies at the place its datum says:
 * bands and means of its hours, wood, mould, the years, a wetting, what drives
 * vapour inwards. Read back and computed as in test_marks.c. */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "marks_simulation.h"

enum { SEEDS = 4 };

/* A day's place among months of one width. */
static double place_of_day(int first, double day)
{
    static const double days[BW_MONTHS] = {31, 28, 31, 30, 31, 30,
                                           31, 31, 30, 31, 30, 31};
    int k = 0;
    while (k < BW_MONTHS - 1 && day > days[(first + k) % BW_MONTHS])
        day -= days[(first + k++) % BW_MONTHS];
    return k + day / days[(first + k) % BW_MONTHS];
}

/* Least, most and mean of `each` days. */
static void check_band(size_t place, size_t each, bool humidity)
{
    static double x[2 * DAYS], y[2 * DAYS], mean[DAYS];
    const size_t count = DAYS / each;
    const int first = wall.checked.transient.first_month;
    const axis ax = read_months(first), ay = read_axis(true, false);
    double low = 1e9, high = -1e9;
    has_rules(&ay);
    for (size_t c = 0; c < count; c++) {
        double sum = 0.0, least = 1e9, top = -1e9;
        for (size_t h = 0; h < 24 * each; h++) {
            const bw_monitor_hour *row =
                &hours[(24 * each * c + h) * PLACES + place];
            const double v = humidity ? 100.0 * (double)row->phi
                                      : (double)row->theta;
            sum += v;
            least = fmin(least, v);
            top = fmax(top, v);
        }
        x[c] = x[2 * count - 1 - c] = place_of_day(first, ((double)c + 0.5) *
                                                              (double)each);
        y[c] = top;
        y[2 * count - 1 - c] = least;
        mean[c] = sum / (24.0 * (double)each);
        low = fmin(low, least);
        high = fmax(high, top);
    }
    line_is("band", 0, &ax, &ay, x, y, 2 * count);
    line_is("mean", 0, &ax, &ay, x, mean, count);
    ck_assert_double_le(fmin(axis_value(&ay, ay.from), axis_value(&ay, ay.to)),
                        low + 1e-6);
    ck_assert_double_ge(fmax(axis_value(&ay, ay.from), axis_value(&ay, ay.to)),
                        high - 1e-6);
    if (humidity)
        TELLS("year, between %.0f and %.0f percent; %.0f hours over 80 "
              "percent, %.0f over 95.",
              low, high, monitor[place].hours_above_80,
              monitor[place].hours_above_95);
    else
        TELLS("year, between %.1f and %.1f degrees.", low, high);
    if (humidity) {
        const double at = axis_place(&ay, 80.0), wet = axis_place(&ay, 95.0);
        stroke_is("limit", 0, ax.from, at, ax.to, at);
        stroke_is("limit", 1, ax.from, wet, ax.to, wet);
        ck_assert_double_eq_tol(text_of("num", "95")->y, wet + 3.5, PAPER);
    } else {
        const double frost = axis_place(&ay, 0.0);
        stroke_is("limit", 0, ax.from, frost, ax.to, frost);
        ck_assert_double_eq_tol(text_of("num", "frost")->y, frost + 3.5, PAPER);
    }
}

/* Of no row: the most humid face inside is the one shown by itself. */
START_TEST(hours_are_bands_of_days_at_their_place)
{
    start(_i);
    random_simulation();
    wall.assessment.criterion_count = 0;
    double rh[PLACES] = {0.0};
    for (size_t i = 0; i < PLACES; i++)
        for (int m = 0; m < BW_MONTHS; m++)
            rh[i] += monitor[i].month_rh[m];
    const size_t worst = rh[1] >= rh[2] ? 1 : 2;
    print_page();
    must_read_chart("//figure[@data-chart='humidity']", 0);
    check_band(worst, 1, true);
    must_read_chart("//figure[@data-chart='temperature']", 0);
    check_band(worst, 1, false);
    for (size_t i = 0; i < PLACES; i++) {
        must_read_chart("//details//figure[@data-chart='humidity']", i);
        check_band(i, 5, true);
    }
}
END_TEST

START_TEST(without_hours_months_are_steps_of_the_calendar)
{
    start(_i);
    random_simulation();
    wall.checked.transient.last_hours = NULL;
    wall.assessment.criterion_count = 0;
    print_page();
    for (size_t i = 0; i < PLACES; i++) {
        double x[2 * BW_MONTHS], y[2 * BW_MONTHS];
        must_read_chart("//details//figure[@data-chart='humidity']", i);
        const axis ax = read_months(0), ay = read_axis(true, false);
        for (size_t m = 0; m < BW_MONTHS; m++) {
            x[2 * m] = (double)m;
            x[2 * m + 1] = (double)m + 1.0;
            y[2 * m] = y[2 * m + 1] = 100.0 * monitor[i].month_rh[m];
        }
        line_is("mean", 0, &ax, &ay, x, y, COUNT(x));
        ck_assert_uint_eq(marks_of(DRAWN_PATH, "band"), 0);
    }
}
END_TEST

static void row_of(size_t which, const char *criterion, double value,
                   double limit)
{
    wall.criterion[which] = (bw_criterion){.section = wall.section.name,
                                           .criterion = criterion,
                                           .title = "A row",
                                           .method = "transient",
                                           .decides = true,
                                           .has_value = true,
                                           .value = value,
                                           .unit = "%",
                                           .has_limit = true,
                                           .limit = limit,
                                           .margin = limit - value,
                                           .verdict = BW_HOLDS,
                                           .outcome = BW_HOLDS,
                                           .reason = "because",
                                           .rule = "rule"};
}

START_TEST(days_of_wood_lie_between_nought_and_their_limit)
{
    static double x[DAYS], last[DAYS], first[DAYS];
    start(_i);
    random_simulation();
    const double limit = between(&die, 15.0, 22.0);
    const int month = wall.checked.transient.first_month;
    for (size_t d = 0; d < DAYS; d++) {
        last_day[d].moisture = between(&die, 0.08, 0.19);
        first_day[d].moisture = between(&die, 0.10, 0.24);
        x[d] = place_of_day(month, (double)d + 0.5);
        last[d] = 100.0 * last_day[d].moisture;
        first[d] = 100.0 * first_day[d].moisture;
    }
    moisture[0] = (bw_slab_moisture){.is_wood = true,
                                     .highest_wood_moisture = most(last, DAYS) /
                                                              100.0,
                                     .limit = limit / 100.0,
                                     .first_days = first_day,
                                     .last_days = last_day};
    row_of(0, "wood-moisture", 100.0 * moisture[0].highest_wood_moisture,
           limit);
    wall.assessment.criterion_count = 1;
    print_page();
    must_read_chart("//figure[@data-chart='wood']", 0);
    const axis ax = read_months(month), ay = read_axis(true, false);
    has_unit(&ay, true, "% by mass");
    TELLS("at most %.1f in the last year, the limit is %.3g.", most(last, DAYS),
          limit);
    line_is("main", 0, &ax, &ay, x, last, DAYS);
    line_is("wetdash", 0, &ax, &ay, x, first, DAYS);
    const double at = axis_place(&ay, limit);
    stroke_is("limit", 0, ax.from, at, ax.to, at);
    holds_all(&ay, 0.0, fmax(most(first, DAYS), 1.2 * limit));
}
END_TEST

START_TEST(the_mould_index_runs_from_a_clean_start_through_every_year)
{
    enum { POINTS = YEARS * BW_SPANS + 1 };
    static double x[POINTS], y[POINTS];
    start(_i);
    random_simulation();
    const double limit = between(&die, 1.0, 3.0);
    x[0] = y[0] = 0.0;
    for (size_t k = 0; k + 1 < POINTS; k++)
        for (size_t i = 0; i < PLACES; i++) {
            course[k * PLACES + i] = between(&die, 0.0, 4.5);
            if (i != 1)
                continue;
            x[k + 1] = (double)(k + 1) / BW_SPANS;
            y[k + 1] = course[k * PLACES + i];
        }
    monitor[1].highest_mould = most(y, POINTS);
    row_of(0, "mould-index-hidden", monitor[1].highest_mould, limit);
    wall.assessment.criterion_count = 1;
    print_page();
    must_read_chart("//figure[@data-chart='mould']", 0);
    const axis ax = read_axis(false, false), ay = read_axis(true, false);
    has_unit(&ax, false, "years");
    has_unit(&ay, true, "index");
    ck_assert_uint_eq(ax.ticks, YEARS + 1);
    TELLS("Over the %d simulated years on a scale from 0 to 6: highest %.2f, "
          "the limit is %.3g.",
          YEARS, most(y, POINTS), limit);
    line_is("main", 0, &ax, &ay, x, y, POINTS);
    const double at = axis_place(&ay, limit);
    stroke_is("limit", 0, ax.from, at, ax.to, at);
    holds_all(&ay, 0.0, fmax(most(y, POINTS), 1.1 * limit));
    /* and marked in the picture of the year, between board and batt */
    must_read_chart("//figure[@data-chart='year']", 0);
    axis_reach = 305.0; /* beside it: what drives vapour inwards */
    const axis deep = read_axis(false, false);
    axis_reach = 1e9;
    read_outline("place", 0);
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&deep, 12.0), PAPER);
    ck_assert_double_eq_tol(outline.point[1].x, axis_place(&deep, 12.0), PAPER);
}
END_TEST

START_TEST(water_at_the_end_of_each_year_is_a_point)
{
    double x[YEARS + 1], y[YEARS + 1];
    start(_i);
    random_simulation();
    bw_transient_result *run = &wall.checked.transient;
    const double scale = _i % 2 == 0 ? 1.0 : 10.0;
    run->initial_water = scale * between(&die, 0.5, 2.0);
    for (size_t k = 0; k < YEARS; k++)
        run->year_end_water[k] = scale * between(&die, 0.3, 2.0);
    wall.assessment.criterion_count = 0;
    print_page();
    must_read_chart("//figure[@data-chart='years']", 0);
    const bool kg = text_of("unit", "kg/m\u00b2") != NULL;
    ck_assert(kg != (text_of("unit", "g/m\u00b2") != NULL));
    const axis ax = read_axis(false, false), ay = read_axis(true, false);
    has_rules(&ay);
    for (size_t k = 0; k <= YEARS; k++) {
        x[k] = (double)k;
        y[k] = (kg ? 1.0 : 1000.0) *
               (k == 0 ? run->initial_water : run->year_end_water[k - 1]);
        circle_is("ink", k, axis_place(&ax, x[k]), axis_place(&ay, y[k]));
    }
    TELLS(", after %d years ", YEARS);
    line_is("main", 0, &ax, &ay, x, y, YEARS + 1);
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ink"), YEARS + 1);
    holds_all(&ay, 0.0, most(y, YEARS + 1));
}
END_TEST

START_TEST(a_wetting_is_drawn_day_by_day)
{
    enum { LONGEST = 700 };
    static const char *const lines[] = {"main", "wetdash", "dots"};
    static double excess[3][LONGEST], x[LONGEST + 1], y[LONGEST + 1];
    start(_i);
    random_simulation();
    bw_section_wetting *test = &wall.checked.wetting_test;
    bw_wetting_result *way[] = {&test->both, &test->outwards, &test->inwards};
    test->ran = true;
    test->one_way = _i % 2 == 0;
    test->reason = "";
    test->water = between(&die, 0.2, 1.0);
    double high = test->water;
    size_t days = 0;
    const size_t ways = test->one_way ? 3 : 1;
    for (size_t w = 0; w < ways; w++) {
        way[w]->day_count = (size_t)between(&die, 100.0, LONGEST);
        way[w]->excess = excess[w];
        way[w]->months = (double)w + 1.5;
        days = way[w]->day_count > days ? way[w]->day_count : days;
        for (size_t d = 0; d < way[w]->day_count; d++) {
            excess[w][d] = between(&die, 0.0, 1.2);
            high = fmax(high, excess[w][d]);
        }
    }
    wall.assessment.criterion_count = 0;
    print_page();
    must_read_chart("//figure[@data-chart='wetting']", 0);
    const axis ax = read_axis(false, false), ay = read_axis(true, false);
    has_rules(&ay);
    has_unit(&ax, false, "months");
    has_unit(&ay, true, "kg/m\u00b2");
    for (size_t w = 0; w < ways; w++) {
        y[0] = test->water;
        for (size_t d = 0; d <= way[w]->day_count; d++) {
            x[d] = (double)d * 12.0 / 365.0;
            y[d] = d > 0 ? excess[w][d - 1] : test->water;
        }
        line_is(lines[w], 0, &ax, &ay, x, y, way[w]->day_count + 1);
    }
    const double at = axis_place(&ay, 0.1 * test->water);
    read_outline("limit", 0);
    ck_assert_double_eq_tol(outline.point[0].y, at, PAPER);
    /* whole months that hold all days */
    read_outline("limit", 0);
    const double months = axis_value(&ax, outline.point[1].x);
    ck_assert_double_eq_tol(months, ceil((double)days * 12.0 / 365.0), 0.1);
    holds_all(&ay, 0.0, high);
}
END_TEST

/* Beside the year: span by span, between nought and the figure below. */
START_TEST(what_drives_vapour_inwards_is_a_step_each_span)
{
    static double y[2 * BW_SPANS + 2], drive[2 * BW_SPANS + 2];
    start(_i);
    random_simulation();
    wall.assessment.criterion_count = 0;
    wall.checked.transient.first_month = 0;
    print_page();
    must_read_chart("//figure[@data-chart='year']", 0);
    const drawn *zero = NULL, *top = NULL;
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind != DRAWN_TEXT || strcmp(m->anchor, "middle") != 0 ||
            fabs(m->y - 397.0) > 0.11 || m->x < 305.0)
            continue;
        if (strcmp(m->text, "0") == 0)
            zero = m;
        else
            top = m;
    }
    ck_assert(zero != NULL && top != NULL);
    const double high = strtod(top->text, NULL);
    const axis ax = {.at0 = -high * zero->x / (top->x - zero->x),
                     .per = high / (top->x - zero->x)};
    const axis ay = {.at0 = -12.0 * 96.0 / (384.0 - 96.0),
                     .per = 12.0 / (384.0 - 96.0)};
    ck_assert_double_ge(high, most(moisture[1].inward, BW_SPANS));
    ck_assert_double_le(high, 2.5 * most(moisture[1].inward, BW_SPANS));
    for (int sun = 0; sun < 2; sun++) {
        size_t n = 0;
        drive[n] = y[n] = 0.0;
        n++;
        for (size_t k = 0; k < BW_SPANS; k++)
            for (size_t e = 0; e < 2; e++) {
                drive[n] = sun ? moisture[1].inward_in_sun[k]
                               : moisture[1].inward[k];
                y[n++] = place_of_day(0, 5.0 * (double)(k + e));
            }
        drive[n] = 0.0;
        y[n++] = 12.0;
        line_is(sun ? "insun" : "inward", 0, &ax, &ay, drive, y, n);
    }
}
END_TEST

/* Where it never thaws there is no line of frost: the axis ends below it. */
START_TEST(a_limit_beyond_the_axis_is_not_drawn)
{
    start(_i);
    random_simulation();
    wall.assessment.criterion_count = 0;
    const double warmest = _i == 0 ? -12.0 : 3.0;
    for (size_t h = 0; h < HOURS * PLACES; h++)
        hours[h].theta = (float)between(&die, warmest - 10.0, warmest);
    print_page();
    must_read_chart("//figure[@data-chart='temperature']", 0);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "limit"), _i == 0 ? 0 : 1);
    ck_assert((text_of("num", "frost") != NULL) == (_i != 0));
}
END_TEST

/* The board is at 97 % RH in every cell and span, the batt at 50 %: the darkest
 * shade fills the board from face to face and from end to end of the year, no
 * shade goes beyond it. */
START_TEST(a_shade_ends_at_the_face_of_its_layer)
{
    static const char *const shades[] = {"shade1", "shade2", "shade3",
                                         "shade4"};
    start(0);
    random_simulation();
    wall.assessment.criterion_count = 0;
    const size_t wet = (size_t)_i; /* which of both */
    for (size_t i = 0; i < 4; i++)
        for (size_t k = 0; k < BW_SPANS; k++)
            cells[i].phi[k] = cells[i].slab == wet ? 0.97 : 0.5;
    print_page();
    must_read_chart("//figure[@data-chart='year']", 0);
    axis_reach = 305.0;
    const axis deep = read_axis(false, false);
    axis_reach = 1e9;
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "layerface"), WALL_SLABS - 1);
    stroke_is("layerface", 0, axis_place(&deep, 12.0), 96.0,
              axis_place(&deep, 12.0), deep.line);
    stroke_is("layerface", 1, axis_place(&deep, 102.0), 96.0,
              axis_place(&deep, 102.0), deep.line);
    const double from = axis_place(&deep, wet == 0 ? 0.0 : 12.0);
    const double to = axis_place(&deep, wet == 0 ? 12.0 : 102.0);
    for (size_t s = 0; s < COUNT(shades); s++) {
        double low = 1e9, high = -1e9, top = 1e9, bottom = -1e9;
        read_outline(shades[s], 0);
        for (size_t k = 0; k < outline.count; k++) {
            low = fmin(low, outline.point[k].x);
            high = fmax(high, outline.point[k].x);
            top = fmin(top, outline.point[k].y);
            bottom = fmax(bottom, outline.point[k].y);
        }
        ck_assert_double_eq_tol(low, from, PAPER);
        ck_assert_double_eq_tol(high, to, PAPER);
        ck_assert_double_eq_tol(top, 96.0, PAPER);
        ck_assert_double_eq_tol(bottom, deep.line, PAPER);
        ck_assert_double_eq_tol(svg_area(&outline),
                                (high - low) * (bottom - top),
                                0.02 * (high - low) * (bottom - top));
    }
}
END_TEST

/* The figure below the end of what drives vapour inwards. */
static double highest_drive(void)
{
    double highest = 0.0;
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind == DRAWN_TEXT && strcmp(m->anchor, "middle") == 0 &&
            fabs(m->y - 397.0) < 0.11 && m->x > 305.0)
            highest = fmax(highest, strtod(m->text, NULL));
    }
    ck_assert_double_gt(highest, 0.0);
    return highest;
}

static size_t count_of(const char *path)
{
    size_t count = 0;
    while (read_chart(path, count))
        count++;
    return count;
}

/* Every section that was simulated is drawn once: that of the place looked at
 * first at the head, the others below it, each as deep as it is. */
START_TEST(the_other_sections_are_drawn_each_as_deep_as_it_is)
{
    static bw_section_assessment three[3];
    static bw_section named[3], steady[3];
    static const char *const names[] = {"first", "second", "third"};
    start(_i);
    random_simulation();
    wall.assessment.criterion_count = 0;
    for (size_t i = 0; i < 3; i++) {
        named[i] = *wall.checked.transient_section;
        steady[i] = wall.section;
        named[i].name = steady[i].name = names[i];
        three[i] = wall.checked;
        three[i].section = &steady[i];
        three[i].transient_section = &named[i];
    }
    three[1].has_transient = _i == 0;
    wall.assessment.section = three;
    wall.assessment.section_count = 3;
    print_page();
    double first = 0.0, highest = 0.0;
    size_t drawn_in[3] = {0};
    for (size_t n = 0; n < (_i == 0 ? 3 : 2); n++) {
        char path[64];
        must_read_chart("//figure[@data-chart='year']", n);
        axis_reach = 305.0;
        const axis deep = read_axis(false, false);
        axis_reach = 1e9;
        first = n == 0 ? deep.per : first;
        ck_assert_double_eq_tol(deep.per, first, 1e-9);
        highest = n == 0 ? highest_drive() : highest;
        ck_assert_double_eq(highest_drive(), highest);
        /* 102 mm fill the paper from end to end */
        const double end = axis_value(&deep, deep.ends[1]);
        ck_assert_double_eq_tol(end, 102.0, 1.0);
        for (size_t i = 0; i < 3; i++) {
            snprintf(path, sizeof path,
                     "//figure[@data-chart='year'][@data-section='%s']",
                     names[i]);
            drawn_in[i] = count_of(path);
        }
    }
    ck_assert(!read_chart("//figure[@data-chart='year']", _i == 0 ? 3 : 2));
    for (size_t i = 0; i < 3; i++)
        ck_assert_uint_eq(drawn_in[i], i != 1 || _i == 0);
}
END_TEST

/* From two years on, as long as all of them are kept. */
START_TEST(years_are_drawn_where_there_are_some)
{
    static const struct {
        int years;
        bool drawn;
    } rows[] = {{1, false}, {2, true}, {BW_MOST_YEARS, true}};
    start(_i);
    random_simulation();
    bw_transient_result *run = &wall.checked.transient;
    run->years = rows[_i].years;
    run->mould_course = NULL;
    for (size_t k = 0; k < BW_MOST_YEARS; k++)
        run->year_end_water[k] = between(&die, 0.3, 2.0);
    wall.assessment.criterion_count = 0;
    print_page();
    ck_assert(read_chart("//figure[@data-chart='years']", 0) == rows[_i].drawn);
    if (rows[_i].drawn)
        ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ink"), run->years + 1);
}
END_TEST

SUITE_AROUND("marks_hours", page_setup, page_teardown,
             EACH(hours_are_bands_of_days_at_their_place, 3),
             EACH(without_hours_months_are_steps_of_the_calendar, 2),
             EACH(days_of_wood_lie_between_nought_and_their_limit, 3),
             EACH(the_mould_index_runs_from_a_clean_start_through_every_year,
                  3),
             EACH(water_at_the_end_of_each_year_is_a_point, SEEDS),
             EACH(years_are_drawn_where_there_are_some, 3),
             EACH(a_wetting_is_drawn_day_by_day, SEEDS),
             EACH(what_drives_vapour_inwards_is_a_step_each_span, 2),
             EACH(a_limit_beyond_the_axis_is_not_drawn, 2),
             EACH(a_shade_ends_at_the_face_of_its_layer, 2),
             EACH(the_other_sections_are_drawn_each_as_deep_as_it_is, 2))
