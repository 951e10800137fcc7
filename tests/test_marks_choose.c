/* Every mark of the charts of a choice lies at the place its datum says: a sign
 * in the column of its finding and the row of its design, a design of the front
 * at its transmittance and its share. Read back as in test_marks.c; columns are
 * known by their letters, rows by their numbers, axes by the figures beside
 * them. */

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "full_choose.h"
#include "marks_case.h"

enum { SEEDS = 8, DESIGNS = 44, FINDINGS = 12, FRONT_MOST = 40 };

/* Sizes of a sign, by which it is told. */
static const double DOT = 2.4, RING = 4.0;

static bw_design design[DESIGNS];
static bw_finding finding[FINDINGS];
static bw_found_alone found[DESIGNS][FINDINGS];
static size_t front[DESIGNS];
static char name[DESIGNS][64];

static bw_verdict any_verdict(void)
{
    return (bw_verdict)between(&die, 0.0, 3.999);
}

static bool chance(double share)
{
    return uniform(&die) < share;
}

static void drawn_cases(bw_design *d, size_t count)
{
    d->drawn = count;
    d->failed = count / 5;
    d->unassessed = count / 3;
    d->failed_numbers = count / 2;
}

/* The front is some of the designs, from the last to the first. */
static void make_choice(size_t rows, size_t findings)
{
    full_choose_make(&choice, &wall.assessment);
    for (size_t f = 0; f < findings; f++) {
        finding[f] = choice.finding[0];
        finding[f].settled = chance(0.2);
    }
    for (size_t i = 0; i < DESIGNS; i++) {
        design[i] = choice.design[1];
        snprintf(name[i], sizeof name[i], "design %zu", i);
        design[i].name = name[i];
        design[i].found = found[i];
        design[i].standing = chance(0.5) ? BW_STANDS : BW_BREAKS;
        design[i].as_drawn = any_verdict();
        drawn_cases(&design[i],
                    chance(0.2) ? 0 : (size_t)between(&die, 10, 99));
        design[i].bound = between(&die, 0.6, 0.95);
        design[i].goal[BW_GOAL_U] = between(&die, 0.1, 0.4);
        for (size_t f = 0; f < findings; f++)
            found[i][f] = (bw_found_alone){.applies = chance(0.8) &&
                                                      !finding[f].settled,
                                           .computed = chance(0.8),
                                           .setting = "",
                                           .verdict = any_verdict(),
                                           .numbers = any_verdict(),
                                           .figure = choice.found[0].figure};
        front[i] = DESIGNS - 1 - i;
    }
    choice.chosen.design_count = DESIGNS;
    choice.chosen.design = design;
    choice.chosen.front_count = rows;
    choice.chosen.front = front;
    choice.chosen.finding_count = findings;
    choice.chosen.finding = finding;
    choice.chosen.simulated = chance(0.5);
}

static void print_choice(void)
{
    const bw_report_options all = {.extent = BW_EXTENT_FULL};
    wall.results.chosen = &choice.chosen;
    paper_clear(&page);
    ck_assert_int_eq(bw_report(&wall.results, BW_DOCUMENT_CHOOSE, BW_FORM_PAGE,
                               &all, paper_take, &page, NULL),
                     BW_OK);
    parse();
}

/* ---- designs against findings ---------------------------------------------
 */

enum {
    NONE = 0,
    DISC = 1,
    CIRCLE = 2,
    CROSS = 4,
    FRAME = 8,
    ASKS = 16,
    SHORT = 32
};

static unsigned sign_of(const drawn *m)
{
    const bool text = m->kind == DRAWN_TEXT, rect = m->kind == DRAWN_RECT;
    if (m->kind == DRAWN_CIRCLE)
        return fabs(m->width - DOT) < 0.01    ? DISC
               : fabs(m->width - RING) < 0.01 ? CIRCLE
                                              : NONE;
    if (text && strcmp(m->class_name, "strong halo") == 0)
        return strcmp(m->text, "\u00d7") == 0 ? CROSS : NONE;
    if (text && strcmp(m->class_name, "strong") == 0)
        return strcmp(m->text, "?") == 0 ? ASKS : NONE;
    if (rect && strcmp(m->class_name, "bad") == 0)
        return FRAME;
    return rect && strcmp(m->class_name, "short") == 0 ? SHORT : NONE;
}

/* What stands with its middle at a place; a letter stands on its line. */
static unsigned signs_at(double x, double y)
{
    unsigned all = NONE;
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        const bool rect = m->kind == DRAWN_RECT;
        const double dx = rect ? 0.5 * m->width : 0.0;
        const double dy = rect                    ? 0.5 * m->height
                          : m->kind == DRAWN_TEXT ? -4.0
                                                  : 0.0;
        if (fabs(m->x + dx - x) < PAPER && fabs(m->y + dy - y) < PAPER)
            all |= sign_of(m);
    }
    return all;
}

static size_t signs(void)
{
    size_t count = 0;
    for (size_t i = 0; i < chart.count; i++) /* a frame has a sign in it */
        count += (sign_of(&chart.mark[i]) & ~(unsigned)(FRAME | SHORT)) != NONE;
    return count;
}

static unsigned wanted(bool judged, bw_verdict verdict, bw_verdict numbers)
{
    if (judged && verdict == BW_HOLDS)
        return DISC;
    if (judged && verdict == BW_MARGINAL)
        return CIRCLE;
    if (judged && verdict == BW_FAILS)
        return CROSS | FRAME;
    return judged && numbers == BW_FAILS ? ASKS | SHORT : ASKS;
}

static double row_of(size_t i)
{
    char text[64];
    snprintf(text, sizeof text, "%zu  %s", i + 1, design[front[i]].name);
    const drawn *m = text_of("num", text);
    ck_assert_msg(m != NULL, "no row '%s'", text);
    return m->y - 3.5;
}

/* Of the case drawn: how many failed, as the statement counts them. */
static void failed_is(const bw_design *d, double y)
{
    char text[32];
    snprintf(text, sizeof text, "%zu/%zu",
             choice.chosen.simulated ? d->failed : d->failed_numbers, d->drawn);
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m->kind != DRAWN_TEXT || strcmp(m->anchor, "end") != 0 ||
            fabs(m->y - 3.5 - y) > PAPER)
            continue;
        ck_assert_str_eq(m->text, d->drawn > 0 ? text : "-");
        ck_assert_double_eq_tol(m->x, text_of("num", "failed")->x, 0.01);
        return;
    }
    ck_abort_msg("no number of failed cases");
}

START_TEST(a_sign_stands_where_its_design_meets_its_finding)
{
    start(_i);
    const size_t rows = 3 + (size_t)_i;
    do
        make_choice(rows, FINDINGS);
    while (finding[0].settled || finding[1].settled);
    print_choice();
    must_read_chart("//figure[@data-chart='choice']", 0);
    const double width = text_of("name", "B")->x - text_of("name", "A")->x;
    const double height = row_of(1) - row_of(0);
    size_t expected = 0;
    for (size_t i = 0; i < rows; i++) {
        const bw_design *d = &design[front[i]];
        const double y = row_of(i);
        double x = text_of("name", "A")->x - width;
        ck_assert_double_eq_tol(y, row_of(0) + height * (double)i, PAPER);
        ck_assert_uint_eq(signs_at(x, y),
                          wanted(true, d->as_drawn, d->as_drawn));
        expected++;
        for (size_t f = 0; f < FINDINGS; f++) {
            const char letter[2] = {(char)('A' + f), '\0'};
            const drawn *head = text_of("name", letter);
            ck_assert((head == NULL) == finding[f].settled);
            if (head == NULL)
                continue;
            x += width;
            ck_assert_double_eq_tol(head->x, x, PAPER);
            const bw_found_alone *a = &d->found[f];
            if (!a->applies) {
                ck_assert_uint_eq(signs_at(x, y), NONE);
                continue;
            }
            ck_assert_uint_eq(signs_at(x, y),
                              wanted(a->computed, a->verdict, a->numbers));
            expected++;
        }
        failed_is(d, y);
    }
    ck_assert_uint_eq(signs(), expected);
}
END_TEST

/* Nothing is drawn over anything else: cells are apart, and beside the last is
 * room for the number of cases. */
START_TEST(signs_have_a_cell_each)
{
    start(_i);
    make_choice(6, FINDINGS);
    for (size_t f = 0; f < FINDINGS; f++)
        finding[f].settled = false;
    for (size_t i = 0; i < DESIGNS; i++)
        for (size_t f = 0; f < FINDINGS; f++) {
            found[i][f].applies = found[i][f].computed = true;
            found[i][f].verdict = _i % 2 == 0 ? BW_FAILS : BW_NOT_ASSESSED;
            found[i][f].numbers = BW_FAILS;
        }
    print_choice();
    must_read_chart("//figure[@data-chart='choice']", 0);
    ck_assert_uint_eq(signs(), 6 * (FINDINGS + 1));
    const double width = text_of("name", "B")->x - text_of("name", "A")->x;
    const double height = row_of(1) - row_of(0);
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if ((sign_of(m) & (FRAME | SHORT)) == NONE)
            continue;
        ck_assert_double_lt(m->width, width);
        ck_assert_double_gt(m->width, 0.8 * width);
        ck_assert_double_lt(m->height, height);
        ck_assert_double_gt(m->height, 0.8 * height);
        ck_assert_double_lt(m->x + m->width, text_of("num", "failed")->x - 38);
        ck_assert_double_lt(m->y + m->height, chart.height);
    }
    /* a rule below each row, between its frames and those of the next */
    for (size_t i = 0; i < 6; i++) {
        read_outline("rule", i);
        ck_assert_double_eq_tol(outline.point[0].y, row_of(i) + 0.5 * height,
                                PAPER);
        ck_assert_double_eq_tol(outline.point[1].x, text_of("num", "failed")->x,
                                PAPER);
    }
    ck_assert_double_eq_tol(text_of("num", "as drawn")->x,
                            text_of("name", "A")->x - 0.5 * width - 5.0, PAPER);
}
END_TEST

/* What a program reads of a row: which design, its cases, its bound. */
START_TEST(a_row_carries_its_numbers)
{
    start(_i);
    make_choice(5, 3);
    print_choice();
    const char *at = page.text;
    for (size_t i = 0; i < 5; i++) {
        const bw_design *d = &design[front[i]];
        double is[4];
        at = strstr(at, "data-design=\"");
        ck_assert_ptr_nonnull(at);
        at += strlen("data-design=\"");
        for (size_t k = 0; k < 4; k++) {
            char *end;
            is[k] = strtod(at, &end);
            ck_assert_ptr_ne(at, end);
            at = end + (*end == ',' || *end == ' ');
        }
        ck_assert_double_eq(is[0], (double)front[i] + 1.0);
        ck_assert_double_eq(is[1], (double)d->drawn);
        ck_assert_double_eq(is[2], (double)d->failed);
        ck_assert_double_eq_tol(is[3], d->bound, 1e-3);
    }
    ck_assert_ptr_null(strstr(at, "data-design"));
    HAS(page.text, "5 designs of the front, each as drawn and with 3 findings");
}
END_TEST

START_TEST(a_long_front_shows_its_first_forty)
{
    start(0);
    make_choice(_i == 0 ? FRONT_MOST : FRONT_MOST + 1, 2);
    for (size_t i = 0; i < DESIGNS; i++)
        drawn_cases(&design[i], 10);
    print_choice();
    must_read_chart("//figure[@data-chart='choice']", 0);
    for (size_t i = 0; i < FRONT_MOST; i++)
        row_of(i);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "rule"), FRONT_MOST);
    must_read_chart("//figure[@data-chart='front']", 0);
    ck_assert_uint_eq(marks_of(DRAWN_TEXT, "tiny halo"), FRONT_MOST);
    make_choice(0, 2);
    print_choice();
    ck_assert(!read_chart("//figure[@data-chart='choice']", 0));
    ck_assert(!read_chart("//figure[@data-chart='front']", 0));
}
END_TEST

/* Of 34 characters it is all there, of one more it ends in dots. */
START_TEST(a_name_is_cut_where_it_does_not_fit)
{
    start(0);
    make_choice(2, 2);
    design[front[0]].name = "a wall of 34 characters, no fewer.";
    design[front[1]].name = "a wall of 35 characters, no fewer..";
    print_choice();
    must_read_chart("//figure[@data-chart='choice']", 0);
    row_of(0);
    ck_assert_ptr_nonnull(
        text_of("num", "2  a wall of 35 characters, no\u2026"));
}
END_TEST

/* ---- the front ------------------------------------------------------------
 */

static axis shares(void)
{
    const double none = text_of("num", "0")->y - 3.5;
    const double all = text_of("num", "100")->y - 3.5;
    return (axis){.at0 = 100.0 * none / (none - all),
                  .per = -100.0 / (none - all)};
}

static axis transmittances(double low, double high)
{
    char text[32];
    snprintf(text, sizeof text, "%.3f", low);
    const drawn *from = text_of("num", text);
    snprintf(text, sizeof text, "%.3f", high);
    const drawn *to = text_of("num", text);
    ck_assert_ptr_nonnull(from);
    ck_assert_ptr_nonnull(to);
    const double per = (high - low) / (to->x - from->x);
    return (axis){.at0 = low - per * from->x, .per = per};
}

static double share(const bw_design *d)
{
    return 100.0 *
           (double)(choice.chosen.simulated ? d->failed + d->unassessed
                                            : d->failed_numbers) /
           (double)d->drawn;
}

/* Its number stands beside it, to the right and to the left in turn. */
static void number_is(size_t i, double x, double y)
{
    char text[16];
    snprintf(text, sizeof text, "%zu", i + 1);
    const drawn *m = text_of("tiny halo", text);
    ck_assert_ptr_nonnull(m);
    ck_assert_double_eq_tol(m->x, i % 2 == 0 ? x + 5.0 : x - 5.0, PAPER);
    ck_assert_double_eq_tol(m->y, y - 4.0, PAPER);
    ck_assert_str_eq(m->anchor, i % 2 == 0 ? "" : "end");
}

START_TEST(a_design_lies_at_its_transmittance_and_share)
{
    enum { ROWS = 9, RULES = 5 };
    double low = 1.0, high = 0.0;
    start(_i);
    make_choice(ROWS, 2);
    for (size_t i = 0; i < ROWS; i++) {
        low = fmin(low, design[front[i]].goal[BW_GOAL_U]);
        high = fmax(high, design[front[i]].goal[BW_GOAL_U]);
    }
    print_choice();
    must_read_chart("//figure[@data-chart='front']", 0);
    const axis x = transmittances(low, high), y = shares();
    double left = 0.0, right = 0.0;
    for (int p = 0; p <= 100; p += 25) {
        char text[8];
        snprintf(text, sizeof text, "%d", p);
        read_outline("rule", (size_t)(p / 25));
        left = outline.point[0].x;
        right = outline.point[1].x;
        ck_assert_double_eq_tol(outline.point[0].y, axis_place(&y, p), PAPER);
        ck_assert_double_eq_tol(text_of("num", text)->y - 3.5,
                                axis_place(&y, p), PAPER);
        ck_assert_double_eq_tol(text_of("num", text)->x, left - 5.0, PAPER);
    }
    size_t dots = 0, rings = 0, lines = RULES;
    for (size_t i = 0; i < ROWS; i++) {
        const bw_design *d = &design[front[i]];
        if (d->drawn == 0)
            continue;
        const double px = axis_place(&x, d->goal[BW_GOAL_U]);
        const double py = axis_place(&y, share(d));
        ck_assert_double_gt(px, left + 10.0);
        ck_assert_double_lt(px, right - 10.0);
        if (d->standing == BW_STANDS)
            circle_is("dot", dots++, px, py);
        else
            circle_is("ring", rings++, px, py);
        if (choice.chosen.simulated)
            stroke_is("rule", lines++, px, py, px,
                      axis_place(&y, 100.0 * d->bound));
        number_is(i, px, py);
    }
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "dot"), dots);
    ck_assert_uint_eq(marks_of(DRAWN_CIRCLE, "ring"), rings);
    ck_assert_uint_eq(marks_of(DRAWN_PATH, "rule"), lines);
    ck_assert_uint_eq(marks_of(DRAWN_TEXT, "tiny halo"), dots + rings);
    ck_assert((strstr(chart.caption, "95 % bound") != NULL) ==
              choice.chosen.simulated);
}
END_TEST

/* One alone stands in the middle, its figure below it. */
START_TEST(a_front_of_one_stands_in_the_middle)
{
    start(0);
    make_choice(1, 2);
    drawn_cases(&design[front[0]], 10);
    design[front[0]].standing = BW_STANDS;
    design[front[0]].goal[BW_GOAL_U] = 0.25;
    print_choice();
    must_read_chart("//figure[@data-chart='front']", 0);
    const axis y = shares();
    read_outline("rule", 0);
    const double middle = 0.5 * (outline.point[0].x + outline.point[1].x);
    circle_is("dot", 0, middle, axis_place(&y, share(&design[front[0]])));
    ck_assert_double_eq_tol(text_of("num", "0.250")->x, middle, PAPER);
    size_t figures = 0;
    for (size_t i = 0; i < chart.count; i++)
        figures += strcmp(chart.mark[i].text, "0.250") == 0;
    ck_assert_uint_eq(figures, 1);
}
END_TEST

SUITE_AROUND("marks_choose", page_setup, page_teardown,
             EACH(a_sign_stands_where_its_design_meets_its_finding, SEEDS),
             EACH(signs_have_a_cell_each, 2),
             EACH(a_row_carries_its_numbers, 3),
             EACH(a_long_front_shows_its_first_forty, 2),
             FACT(a_name_is_cut_where_it_does_not_fit),
             EACH(a_design_lies_at_its_transmittance_and_share, SEEDS),
             FACT(a_front_of_one_stands_in_the_middle))
