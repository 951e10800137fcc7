/* Every mark of the charts of a margin, a comparison and the readings of an
 * audit lies at the place its datum says. Read back and computed as in
 * test_marks.c; where a chart has no axis, its two ends are known by what it
 * says of itself (the limit, a bar that fills it). */

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/audit.h"
#include "bothways/compare.h"
#include "bothways/margin.h"
#include "marks_case.h"
#include "printed.h"

enum { SEEDS = 6 };

/* ---- the margin ------------------------------------------------------------
 */

enum { UNKNOWNS = 6, INNER = 3, OUTER = 2 };

/* Of the unknowns the first three are drawn; then one whose criterion is not
 * seen, one that moves nothing, and one that is both. */
enum { DRAWN_UNKNOWNS = 3 };

static bw_margin margin;
static bw_unknown unknown[UNKNOWNS];
static bw_sd_cell map[INNER * OUTER];
static double inner_sd[INNER], outer_sd[OUTER];

static void print_margin(void)
{
    for (size_t i = 0; i < INNER * OUTER; i++) {
        const double condensed = between(&die, 0.05, 1.2);
        const double evaporable = between(&die, 0.05, 1.2);
        map[i] = (bw_sd_cell){condensed, evaporable, evaporable - condensed};
    }
    map[4] = (bw_sd_cell){(double)NAN, (double)NAN, (double)NAN};
    for (size_t i = 0; i < INNER; i++)
        inner_sd[i] = decades(&die, -1.0, 2.0);
    for (size_t i = 0; i < OUTER; i++)
        outer_sd[i] = decades(&die, -1.0, 2.0);
    margin = (bw_margin){.assessment = &wall.assessment,
                         .unknown_count = UNKNOWNS,
                         .unknown = unknown,
                         .worst_combination_text = "as drawn",
                         .worst_combination_reason = "",
                         .inner_count = INNER,
                         .outer_count = OUTER,
                         .inner_sd = inner_sd,
                         .outer_sd = outer_sd,
                         .own_inner_sd = inner_sd[2],
                         .own_outer_sd = outer_sd[0],
                         .own_inner = 2,
                         .own_outer = 0,
                         .map = map,
                         .map_inner = "film",
                         .map_outer = "board",
                         .map_section = "whole",
                         .map_note = ""};
    paper_clear(&page);
    ck_assert_int_eq(
        margin_report(BW_FORM_PAGE, &margin, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
}

static void random_unknowns(void)
{
    static const char *const names[] = {"mu of board",    "mu of batt",
                                        "lambda of batt", "mu of film",
                                        "mu of foil",     "mu of paint"};
    for (size_t i = 0; i < UNKNOWNS; i++) {
        bw_unknown *u = &unknown[i];
        *u = report_unknown();
        u->name = names[i];
        u->swing_lowest = between(&die, -0.9, i == 0 ? -0.1 : 0.7);
        u->swing_highest = between(&die, u->swing_lowest + 0.05, 0.95);
        u->swing_as_drawn = between(&die, u->swing_lowest, u->swing_highest);
        u->swing = u->swing_highest - u->swing_lowest;
    }
    unknown[2].swing_as_drawn = (double)NAN; /* no number stands for it */
    unknown[3].seen = unknown[5].seen = false;
    unknown[4].swing = unknown[5].swing = 0.0;
}

/* From -1 to 1 in shares of the limit: the upright axis is the limit. */
START_TEST(a_margin_bar_reaches_from_its_least_to_its_most)
{
    start(_i);
    random_unknowns();
    print_margin();
    must_read_chart("//figure[@data-chart='margin']", 0);
    read_outline("rule", 0);
    const double left = outline.point[0].x, right = outline.point[1].x;
    const axis x = {.at0 = -(left + right) / (right - left),
                    .per = 2.0 / (right - left)};
    read_outline("axis", 0);
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 0.0), PAPER);
    ck_assert_double_eq_tol(text_of("num", "limit")->x, axis_place(&x, 0.0),
                            PAPER);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "rule"), DRAWN_UNKNOWNS);
    /* room for as many as are drawn, each in a row of its own */
    read_outline("rule", DRAWN_UNKNOWNS - 1);
    const double last = outline.point[0].y;
    read_outline("rule", 0);
    const double row = (last - outline.point[0].y) / (DRAWN_UNKNOWNS - 1);
    ck_assert_double_gt(last + 0.4 * row, chart.height - row);
    ck_assert_double_lt(last + 0.4 * row, chart.height);
    size_t bad = 0, safe = 0, rings = 0;
    for (size_t i = 0; i < DRAWN_UNKNOWNS; i++) {
        const bw_unknown *u = &unknown[i];
        read_outline("rule", i);
        const double y = outline.point[0].y;
        const double from = axis_place(&x, u->swing_lowest);
        const double to = axis_place(&x, u->swing_highest);
        const double zero = axis_place(&x, 0.0);
        if (u->swing_lowest < -0.002)
            rect_is(mark_of(DRAWN_RECT, "bad", bad++), from, y - 4.5,
                    fmin(to, zero) - from, 9.0);
        if (u->swing_highest > 0.002)
            rect_is(mark_of(DRAWN_RECT, "safe", safe++), fmax(from, zero),
                    y - 4.5, to - fmax(from, zero), 9.0);
        if (isfinite(u->swing_as_drawn))
            circle_is("ring", rings++, axis_place(&x, u->swing_as_drawn), y);
        const drawn *name = text_of("halo", u->name);
        ck_assert_ptr_nonnull(name);
        ck_assert_double_eq_tol(name->y, y - 10.0, 0.11);
        ck_assert_ptr_nonnull(text_of("name halo", "flips at 23.5"));
    }
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "bad"), bad);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "safe"), safe);
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ring"), rings);
    for (size_t i = DRAWN_UNKNOWNS; i < UNKNOWNS; i++)
        ck_assert_ptr_null(text_of("halo", unknown[i].name));
}
END_TEST

/* What it says of flipping: at which value, where one number parts what holds
 * from what fails; that it flips, where none does; nothing where it does not.
 */
START_TEST(a_bar_tells_at_which_value_the_verdict_flips)
{
    start(_i);
    random_unknowns();
    unknown[0].flips = (_i & 1) != 0;
    unknown[0].continuous = (_i & 2) != 0;
    unknown[0].flips_all = (_i & 4) != 0;
    unknown[0].flip_value = between(&die, 30.0, 60.0);
    unknown[1].flips = unknown[2].flips = false;
    print_margin();
    must_read_chart("//figure[@data-chart='margin']", 0);
    char text[32] = "flips";
    if (unknown[0].continuous && !unknown[0].flips_all)
        snprintf(text, sizeof text, "flips at %.3g", unknown[0].flip_value);
    ck_assert_uint_eq(marks_of(DRAWN_TEXT, "name halo"), DRAWN_UNKNOWNS);
    for (size_t i = 0; i < DRAWN_UNKNOWNS; i++)
        ck_assert_str_eq(mark_of(DRAWN_TEXT, "name halo", i)->text,
                         i == 0 && unknown[0].flips ? text : "");
}
END_TEST

/* A wall that nothing moves has no chart, and says so. */
START_TEST(a_margin_without_anything_that_moves_says_so)
{
    start(0);
    random_unknowns();
    for (size_t i = 0; i < UNKNOWNS; i++)
        unknown[i].swing = unknown[i].seen ? 0.0 : 1.0;
    print_margin();
    ck_assert(!read_chart("//figure[@data-chart='margin']", 0));
    ck_assert_ptr_nonnull(strstr(page.text, "No unknown moves any criterion."));
}
END_TEST

static const drawn *text_at(const char *class_name, double x, double y)
{
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind == DRAWN_TEXT && strcmp(m->class_name, class_name) == 0 &&
            fabs(m->x - x) < PAPER && fabs(m->y - y) < PAPER)
            return m;
    }
    ck_abort_msg("no text at %.1f %.1f", x, y);
    return NULL;
}

/* Columns by inner sd, rows upwards by outer sd; a disc's area is its
 * condensate. */
START_TEST(a_cell_of_the_map_stands_at_its_two_sd)
{
    start(_i);
    random_unknowns();
    print_margin();
    must_read_chart("//figure[@data-chart='sd-map']", 0);
    const drawn *own = mark_of(DRAWN_RECT, "own", 0);
    ck_assert_ptr_nonnull(own);
    const double width = own->width, height = own->height;
    const double left = own->x - 2.0 * width, bottom = own->y + height;
    double high = 0.0;
    for (size_t i = 0; i < INNER * OUTER; i++)
        high = isnan(map[i].condensed) ? high : fmax(high, map[i].condensed);
    size_t disc = 0, lacking = 0, whole = 0;
    for (size_t o = 0; o < OUTER; o++)
        for (size_t i = 0; i < INNER; i++) {
            const bw_sd_cell *c = &map[o * INNER + i];
            const double x = left + width * ((double)i + 0.5);
            const double top = bottom - height * ((double)o + 1.0);
            if (isnan(c->reserve)) {
                ck_assert_str_eq(
                    text_at("tiny soft", x, top + height - 6.0)->text, "n/a");
                rect_is(mark_of(DRAWN_RECT, "cell", whole++), x - 0.5 * width,
                        top, width, height);
                continue;
            }
            const bool lacks = c->evaporable < c->condensed;
            rect_is(mark_of(DRAWN_RECT, lacks ? "short" : "cell",
                            lacks ? lacking++ : whole++),
                    x - 0.5 * width + 1.0, top + 1.0, width - 2.0,
                    height - 2.0);
            circle_is("", disc, x, top + 0.5 * height - 5.0);
            ck_assert_double_eq_tol(mark_of(DRAWN_CIRCLE, "", disc++)->width,
                                    9.0 * sqrt(c->condensed / high), 0.06);
            ck_assert(prints(text_at("tiny halo", x, top + height - 5.0)->text,
                             1e3 * c->reserve));
        }
    ck_assert_str_eq(
        text_at("tiny strong halo", own->x + 0.5 * width, own->y + 9.0)->text,
        "this wall");
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "bad faint"), lacking);
    for (size_t i = 0; i < INNER; i++)
        ck_assert(prints(
            text_at("num", left + width * ((double)i + 0.5), bottom + 13.0)
                ->text,
            inner_sd[i]));
    for (size_t o = 0; o < OUTER; o++)
        ck_assert(prints(text_at("num", left - 5.0,
                                 bottom - height * ((double)o + 0.5) + 3.5)
                             ->text,
                         outer_sd[o]));
}
END_TEST

/* ---- the comparison --------------------------------------------------------
 */

enum { WALLS = 3, DAYS_MOST = 600 };

static bool known[WALLS] = {true, true, true};
static double value[2][WALLS];
static const char *instead[WALLS];
static bw_criterion judged[WALLS];
static const bw_criterion *criterion[WALLS];
static bw_verdict verdicts[WALLS];
static bw_compare_row rows[2];
static bw_compared walls[WALLS];
static bw_assessment assessed[WALLS];
static bw_section_assessment part[WALLS + 1];

static void print_rows(bool with_limit, size_t never)
{
    static const char *const labels[] = {"north", "south", "west"};
    static const char *const sentence[] = {"One sentence."};
    static const size_t order[WALLS] = {0, 1, 2};
    for (size_t i = 0; i < WALLS; i++) {
        instead[i] = i == never ? "not in 12 months" : "";
        judged[i] = (bw_criterion){.decides = true,
                                   .has_limit = with_limit,
                                   .limit = 0.6,
                                   .verdict = BW_HOLDS};
        criterion[i] = &judged[i];
        verdicts[i] = BW_HOLDS;
        part[i].section = &wall.section;
        assessed[i] = wall.assessment;
        assessed[i].section = &part[i];
        walls[i] = (bw_compared){.assessment = &assessed[i],
                                 .id = labels[i],
                                 .title = labels[i],
                                 .label = labels[i]};
    }
    rows[0] = (bw_compare_row){.name = "first-row",
                               .title = "First row",
                               .unit = "kg/m2",
                               .is_criterion = true,
                               .has_value = known,
                               .value = value[0],
                               .verdict = verdicts,
                               .section = instead,
                               .criterion = criterion,
                               .instead = instead};
    rows[1] = (bw_compare_row){.name = "second-row",
                               .title = "Second row",
                               .unit = "months",
                               .has_value = known,
                               .value = value[1],
                               .section = instead,
                               .instead = instead};
    const bw_comparison c = {.simulated = true,
                             .wall_count = WALLS,
                             .wall = walls,
                             .order = order,
                             .row_count = 2,
                             .row = rows,
                             .sentence_count = 1,
                             .sentence = sentence};
    paper_clear(&page);
    ck_assert_int_eq(
        compare_report(BW_FORM_PAGE, &c, NULL, paper_take, &page, NULL), BW_OK);
    parse();
}

static void print_comparison(bool with_limit)
{
    print_rows(with_limit, WALLS);
}

static void print_never(size_t never)
{
    print_rows(false, never);
}

static void check_bars(const double *of, bool with_limit)
{
    double least = 0.0, high = 0.0;
    for (size_t i = 0; i < WALLS; i++) {
        least = fmin(least, of[i]);
        high = fmax(high, of[i]);
    }
    high = with_limit ? fmax(high, 0.6) : high;
    const axis x = {.at0 = least - 4.0 * (high - least) / 352.0,
                    .per = (high - least) / 352.0};
    size_t bad = 0, safe = 0;
    for (size_t i = 0; i < WALLS; i++) {
        const double zero = axis_place(&x, 0.0), end = axis_place(&x, of[i]);
        const double y = 4.0 + 25.0 * (double)i;
        rect_is(mark_of(DRAWN_RECT, of[i] < 0.0 ? "bad" : "safe",
                        of[i] < 0.0 ? bad++ : safe++),
                fmin(zero, end), y + 12.5, fmax(fabs(end - zero), 0.6), 7.0);
        const drawn *label = text_of("soft", walls[i].label);
        ck_assert_ptr_nonnull(label);
        ck_assert_double_eq_tol(label->x, 8.0, 0.11);
        ck_assert_double_eq_tol(label->y, y + 9.0, 0.11);
        if (with_limit) {
            read_outline("limit", i);
            ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 0.6),
                                    PAPER);
            ck_assert_double_eq_tol(outline.point[0].y, y + 11.0, PAPER);
        }
    }
    read_outline("axis", 0);
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 0.0), PAPER);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "limit"), with_limit ? WALLS : 0);
}

START_TEST(bars_begin_at_nought_and_end_at_their_value)
{
    start(_i);
    const bool with_limit = _i % 2 == 0;
    for (size_t i = 0; i < WALLS; i++) {
        value[0][i] = between(&die, i == 1 ? -0.5 : 0.2, i == 1 ? -0.1 : 0.9);
        value[1][i] = between(&die, 0.5, 9.0);
    }
    print_comparison(with_limit);
    must_read_chart("//figure[@data-row='first-row']", 0);
    check_bars(value[0], with_limit);
    for (size_t i = 0; i < WALLS; i++) {
        char text[32]; /* beside the bar, in grams */
        snprintf(text, sizeof text, "%.0f g/m\u00b2", 1e3 * value[0][i]);
        ck_assert_msg(text_of("num", text) != NULL, "no %s", text);
    }
    must_read_chart("//figure[@data-row='second-row']", 0);
    check_bars(value[1], false);
}
END_TEST

/* The longest bar fills the chart; a limit of 0.6 four times as far and more
 * would leave nothing to see of it, and is not drawn. */
START_TEST(a_limit_far_beyond_all_bars_is_left_out)
{
    static const struct {
        double least, most;
        bool drawn;
    } bars[] = {{0.02, 0.05, false},
                {0.1, 0.149, false},
                {0.1, 0.151, true},
                {-0.149, 0.01, false},
                {-0.151, 0.01, true}};
    for (size_t i = 0; i < WALLS; i++) {
        value[0][i] = i == 1 ? bars[_i].least : bars[_i].most;
        value[1][i] = 0.25 + 0.125 * (double)i;
    }
    print_comparison(true);
    must_read_chart("//figure[@data-row='first-row']", 0);
    check_bars(value[0], bars[_i].drawn);
    ck_assert((strstr(chart.caption, "Broken line: the limit, 600 g/m") !=
               NULL) == bars[_i].drawn);
    must_read_chart("//figure[@data-row='second-row']", 0);
    check_bars(value[1], false);
}
END_TEST

/* A time that was not reached has no length: an arrow across the chart, in its
 * row, and the word in its middle. */
START_TEST(what_is_never_reached_goes_on_beyond_the_chart)
{
    start(_i);
    const size_t never = (size_t)_i;
    for (size_t i = 0; i < WALLS; i++) {
        value[0][i] = 0.5;
        value[1][i] = between(&die, 0.5, 9.0);
        known[i] = i != never;
    }
    print_never(never);
    must_read_chart("//figure[@data-row='second-row']", 0);
    ck_assert_uint_eq(marks_of(DRAWN_RECT, "safe"), WALLS - 1);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "never"), 1);
    read_outline("never", 0);
    double left = HUGE_VAL, right = -HUGE_VAL, top = HUGE_VAL, low = -HUGE_VAL;
    for (size_t k = 0; k < outline.count; k++) {
        left = fmin(left, outline.point[k].x);
        right = fmax(right, outline.point[k].x);
        top = fmin(top, outline.point[k].y);
        low = fmax(low, outline.point[k].y);
    }
    const double y = 4.0 + 25.0 * (double)never;
    ck_assert_double_eq_tol(left, 4.0, 0.11);
    ck_assert_double_eq_tol(right, 356.0, 0.11);
    ck_assert_double_eq_tol(top, y + 11.5, 0.21);
    ck_assert_double_eq_tol(low, y + 20.5, 0.21);
    const drawn *word = text_of("halo", "never");
    ck_assert_ptr_nonnull(word);
    ck_assert_double_eq_tol(word->x, 0.5 * (left + right), 0.11);
    ck_assert_double_eq_tol(word->y, y + 19.5, 0.11);
    ck_assert_ptr_nonnull(text_of("num", "not in 12 months"));
    known[never] = true;
}
END_TEST

enum { WAYS = 3 };

static bw_wetting_result *course_of(size_t wall_of, size_t way)
{
    bw_section_wetting *test = &part[wall_of].wetting_test;
    return way == 0 ? &test->both : way == 1 ? &test->outwards : &test->inwards;
}

/* The last wall was not tested one way alone; of each way another never dries,
 * of the last way the first. */
static bool was_tested(size_t wall_of, size_t way)
{
    return way == 0 || wall_of + 1 < WALLS;
}

static bool dries(size_t wall_of, size_t way)
{
    return wall_of != (way == 2 ? 0 : 1);
}

static void random_wettings(void)
{
    static double kept[WALLS][WAYS][DAYS_MOST];
    for (size_t i = 0; i < WALLS; i++) {
        value[0][i] = value[1][i] = 0.5;
        part[i].has_transient = true;
        part[i].transient_section = &wall.section;
        part[i].wetting_test = (bw_section_wetting){
            .ran = true,
            .one_way = i + 1 < WALLS,
            .reason = "",
            .water = between(&die, 0.3, 1.0)};
        for (size_t way = 0; way < WAYS; way++) {
            bw_wetting_result *r = course_of(i, way);
            r->day_count = (size_t)between(&die, 50.0, DAYS_MOST);
            r->months = dries(i, way) ? 3.5 + (double)way : -1.0;
            r->excess = kept[i][way];
            for (size_t d = 0; d < r->day_count; d++)
                r->excess[d] = between(&die, 0.0, 1.1);
        }
    }
}

/* A letter stands on its line; what never dries goes on beyond the edge. */
static void course_is(const axis *ax, const axis *ay, size_t i, size_t way)
{
    static double x[DAYS_MOST + 1], y[DAYS_MOST + 1];
    const bw_wetting_result *r = course_of(i, way);
    const size_t days = r->day_count;
    char name[8] = "wall0", letter[2] = {(char)('A' + i), '\0'};
    name[4] = (char)('0' + i);
    for (size_t d = 0; d <= days; d++) {
        x[d] = (double)d * 12.0 / 365.0;
        y[d] = d > 0 ? r->excess[d - 1] : part[i].wetting_test.water;
    }
    line_is(name, 0, ax, ay, x, y, days + 1);
    const drawn *said = text_of("strong halo", letter);
    ck_assert_ptr_nonnull(said);
    bool on_it = false;
    for (size_t d = 0; d <= days; d++)
        on_it = on_it || (fabs(axis_place(ax, x[d]) - said->x) < PAPER &&
                          fabs(axis_place(ay, y[d]) - 4.0 - said->y) < PAPER);
    ck_assert_msg(on_it, "%s stands beside its line", letter);
    if (dries(i, way))
        return;
    read_outline("pointer", 0);
    ck_assert_double_eq_tol(outline.point[1].x, axis_place(ax, x[days]) + 7.0,
                            PAPER);
    ck_assert_double_eq_tol(outline.point[1].y, axis_place(ay, y[days]), PAPER);
    /* it points there: as far above as below */
    ck_assert_double_lt(outline.point[0].y, outline.point[1].y - 1.0);
    ck_assert_double_eq_tol(outline.point[0].y + outline.point[2].y,
                            2.0 * outline.point[1].y, 2.0 * PAPER);
}

/* One line a wall, its letter on it; the same axes for all three ways. */
START_TEST(courses_of_a_wetting_are_laid_over_each_other)
{
    static const char *const says[WAYS] = {
        "Both ways. A north: dry in 3.5 months; B south: ",
        "Outwards only. A north: dry in 4.5 months; B south: ",
        "; B south: dry in 5.5 months; C west: not assessed."};
    start(_i);
    random_wettings();
    print_comparison(false);
    axis first[2];
    for (size_t way = 0; way < WAYS; way++) {
        must_read_chart("//figure[@data-chart='dries']", way);
        const axis ax = read_axis(false, false), ay = read_axis(true, false);
        has_rules(&ay);
        if (way == 0) {
            first[0] = ax;
            first[1] = ay;
        }
        ck_assert_double_eq_tol(ax.per, first[0].per, 1e-9);
        ck_assert_double_eq_tol(ay.per, first[1].per, 1e-9);
        for (size_t i = 0; i < WALLS; i++) {
            char name[8] = "wall0";
            name[4] = (char)('0' + i);
            ck_assert_uint_eq(marks_of(DRAWN_PATH, name), was_tested(i, way));
            if (was_tested(i, way))
                course_is(&ax, &ay, i, way);
        }
        ck_assert_uint_eq(marks_of(DRAWN_PATH, "pointer"), 1);
        ck_assert_ptr_nonnull(
            text_of("strong", way == 2 ? "never: A" : "never: B"));
        HAS(chart.caption, says[way]);
    }
    memset(part, 0, sizeof part);
}
END_TEST

/* Of several sections the slowest is drawn, one that never dries before any
 * that does; of two that never do the one in which more is left. */
START_TEST(the_slowest_section_of_a_wall_is_drawn)
{
    static const struct {
        double months[2], left[2];
        size_t slowest;
    } rows[] = {{{3.0, 4.0}, {0.0, 0.0}, 1},   {{4.0, 3.0}, {0.0, 0.0}, 0},
                {{0.5, 0.7}, {0.0, 0.0}, 1},   {{0.0, 0.2}, {0.2, 0.1}, 1},
                {{90.0, -1.0}, {0.0, 0.1}, 1}, {{-1.0, 90.0}, {0.1, 0.0}, 0},
                {{-1.0, -1.0}, {0.1, 0.2}, 1}, {{-1.0, -1.0}, {0.2, 0.1}, 0}};
    static double kept[2][60];
    start(0);
    wall.assessment.section_count = 2; /* of the first wall both at once */
    for (size_t n = 0; n < COUNT(rows); n++) {
        memset(part, 0, sizeof part);
        for (size_t k = 0; k < 2; k++) {
            part[k].has_transient = true;
            part[k].transient_section = &wall.section;
            part[k].wetting_test = (bw_section_wetting){
                .ran = true,
                .reason = "",
                .water = 0.5 + 0.25 * (double)k,
                .both = {.months = rows[n].months[k],
                         .left = rows[n].left[k],
                         .day_count = 60,
                         .excess = kept[k]}};
        }
        part[WALLS].section = &wall.section;
        print_comparison(false);
        must_read_chart("//figure[@data-chart='dries']", 0);
        const axis ay = read_axis(true, false);
        read_outline("wall0", 0);
        ck_assert_double_eq_tol(axis_value(&ay, outline.point[0].y),
                                rows[n].slowest == 0 ? 0.5 : 0.75, 0.01);
    }
    memset(part, 0, sizeof part);
}
END_TEST

/* ---- the readings of an audit ----------------------------------------------
 */

enum { READINGS = 6 };

/* Days of May and June: told from each other by counting, without a calendar
 * of ours. */
static const struct day {
    const char *date;
    double day; /* from the first of May */
} days[READINGS] = {{"2031-05-03", 2},  {"2031-05-10", 9},  {"2031-05-31", 30},
                    {"2031-06-01", 31}, {"2031-06-12", 42}, {"2031-06-30", 60}};

START_TEST(readings_stand_at_their_day_and_moisture)
{
    static bw_reading reading[READINGS];
    static bw_reading_entry entry[READINGS];
    static const bw_air_test test = {.date = "2031-05-20", .stage = "interim"};
    start(_i);
    bw_member_decision member = {.member = "stud",
                                 .reading_count = READINGS - 1,
                                 .earlier_count = 1,
                                 .has_limit = true,
                                 .allowed = between(&die, 0.15, 0.19),
                                 .critical = between(&die, 0.20, 0.26)};
    for (size_t i = 0; i < READINGS; i++) {
        reading[i] = (bw_reading){.date = days[i].date,
                                  .member = "stud",
                                  .place = "bay",
                                  .moisture = between(&die, 0.08, 0.3),
                                  .meter = "",
                                  .species = "",
                                  .by = "",
                                  .photograph = "",
                                  .note = "",
                                  .source = ""};
        entry[i] = (bw_reading_entry){.reading = &reading[i], .counts = i != 1};
        member.highest = fmax(member.highest, reading[i].moisture);
    }
    const bw_audit audit = {.assessment = &wall.assessment,
                            .profile = bw_profile_default(),
                            .date = "",
                            .command_line = "",
                            .air_test = &test,
                            .air_test_text = "",
                            .member_count = 1,
                            .member = &member,
                            .reading_count = READINGS,
                            .reading = entry};
    paper_clear(&page);
    ck_assert_int_eq(
        audit_report(BW_FORM_PAGE, &audit, NULL, paper_take, &page, NULL),
        BW_OK);
    parse();
    must_read_chart("//figure[@data-chart='readings']", 0);
    const axis y = read_axis(true, false);
    has_rules(&y);
    const drawn *first = text_of("num", "2031-05-03");
    const drawn *last = text_of("num", "2031-06-30");
    ck_assert(first != NULL && last != NULL);
    /* a day before the first and after the last */
    const axis x = {.at0 = 1.0 - first->x * 60.0 / (last->x - first->x),
                    .per = 60.0 / (last->x - first->x)};
    size_t full = 0, rings = 0;
    for (size_t i = 0; i < READINGS; i++)
        circle_is(entry[i].counts ? "ink" : "ring",
                  entry[i].counts ? full++ : rings++,
                  axis_place(&x, days[i].day),
                  axis_place(&y, 100.0 * reading[i].moisture));
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ink"), full);
    read_outline("dash", 0); /* the twentieth of May */
    ck_assert_double_eq_tol(outline.point[0].x, axis_place(&x, 19.0), PAPER);
    const double limits[] = {100.0 * member.allowed, 100.0 * member.critical};
    for (size_t i = 0; i < 2; i++) {
        char text[32];
        snprintf(text, sizeof text, "%s %.3g", i == 0 ? "allowed" : "critical",
                 limits[i]);
        const drawn *said = text_of("num", text);
        ck_assert_msg(said != NULL, "no %s", text);
        read_outline("limit", i);
        ck_assert_double_eq_tol(outline.point[0].y, axis_place(&y, limits[i]),
                                PAPER);
        ck_assert_double_eq_tol(said->y - 3.5, outline.point[0].y, 0.11);
    }
}
END_TEST

SUITE_AROUND("marks_studies", page_setup, page_teardown,
             EACH(a_margin_bar_reaches_from_its_least_to_its_most, SEEDS),
             EACH(a_bar_tells_at_which_value_the_verdict_flips, 8),
             FACT(a_margin_without_anything_that_moves_says_so),
             EACH(a_cell_of_the_map_stands_at_its_two_sd, SEEDS),
             EACH(bars_begin_at_nought_and_end_at_their_value, SEEDS),
             EACH(a_limit_far_beyond_all_bars_is_left_out, 5),
             EACH(what_is_never_reached_goes_on_beyond_the_chart, WALLS),
             EACH(courses_of_a_wetting_are_laid_over_each_other, SEEDS),
             FACT(the_slowest_section_of_a_wall_is_drawn),
             EACH(readings_stand_at_their_day_and_moisture, 3))
