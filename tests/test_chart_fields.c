/* Regions and isolines of planes, which are known, over meshes at random. */

#include "chart_paper.h"

/* ---- a quantity over a plane ----------------------------------------------
 */

enum { COLUMNS = 9, ROWS = 7 };

typedef struct slope {
    double x[COLUMNS], y[ROWS], z[ROWS * COLUMNS];
    double a, b, c; /* z = a x + b y + c, over the unit square */
} slope;

static void rising(double *at, size_t n)
{
    double sum = 0.0;
    at[0] = 0.0;
    for (size_t i = 1; i < n; i++)
        at[i] = sum += between(&die, 0.2, 1.0);
    for (size_t i = 0; i < n; i++)
        at[i] /= sum;
}

/* One column stands twice, a step of nothing. */
static void make_slope(slope *s)
{
    rising(s->x, COLUMNS - 1);
    const size_t twice = (size_t)between(&die, 1.0, COLUMNS - 1.01);
    for (size_t i = COLUMNS - 1; i > twice; i--)
        s->x[i] = s->x[i - 1];
    rising(s->y, ROWS);
    s->a = between(&die, -1.0, 1.0);
    s->b = between(&die, -1.0, 1.0);
    s->c = between(&die, -1.0, 1.0);
    for (size_t r = 0; r < ROWS; r++)
        for (size_t k = 0; k < COLUMNS; k++)
            s->z[COLUMNS * r + k] = s->a * s->x[k] + s->b * s->y[r] + s->c;
}

static bw_field field_of(const slope *s)
{
    return (bw_field){s->x, s->y, COLUMNS, ROWS, s->z};
}

static void unit_chart(void)
{
    open_chart();
    bw_chart_box(&chart, 20.0, 30.0, 320.0, 230.0);
    bw_chart_range_x(&chart, 0.0, 1.0);
    bw_chart_range_y(&chart, 0.0, 1.0);
}

START_TEST(a_region_is_where_the_plane_is_above_its_level)
{
    static slope s;
    size_t in = 0, beside = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
        make_slope(&s);
        const double level = s.c + between(&die, -0.5, 0.5);
        const bw_field field = field_of(&s);
        unit_chart();
        bw_chart_region(&chart, "shape", &field, level);
        read_path(element_of(close_chart(), "path class=\"shape\"", 0));
        for (int k = 0; k < 40; k++) {
            const double x = uniform(&die), y = uniform(&die);
            const double off = s.a * x + s.b * y + s.c - level;
            /* more than a unit of paper from the line, and no edge of a mesh,
             * where a tenth lies on either side */
            bool near = fabs(off) < hypot(s.a, s.b) / 150.0;
            for (size_t i = 0; i < COLUMNS; i++)
                near = near || fabs(x - s.x[i]) < 0.002;
            for (size_t i = 0; i < ROWS; i++)
                near = near || fabs(y - s.y[i]) < 0.002;
            if (near)
                continue;
            ck_assert_int_eq(svg_holds(&outline, where_x(x), where_y(y)),
                             off > 0.0);
            (*(off > 0.0 ? &in : &beside))++;
        }
    }
    ck_assert(in > 500 && beside > 500);
}
END_TEST

/* Where the level of the plane crosses the square, from edge to edge. */
static double chord(const slope *s, double level)
{
    double x[4], y[4];
    size_t n = 0;
    for (int k = 0; k < 2; k++) {
        const double at_x = (level - s->c - s->b * k) / s->a;
        const double at_y = (level - s->c - s->a * k) / s->b;
        if (at_x >= 0.0 && at_x <= 1.0) {
            x[n] = at_x;
            y[n++] = k;
        }
        if (at_y > 0.0 && at_y < 1.0) {
            x[n] = k;
            y[n++] = at_y;
        }
    }
    return n == 2 ? hypot(300.0 * (x[1] - x[0]), 200.0 * (y[1] - y[0])) : 0.0;
}

START_TEST(an_isoline_is_the_line_of_its_level_and_all_of_it)
{
    static slope s;
    size_t long_ones = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
        make_slope(&s);
        const double level = s.c + between(&die, -0.5, 0.5);
        const bw_field field = field_of(&s);
        double length = 0.0;
        unit_chart();
        bw_chart_isoline(&chart, "shape", &field, level);
        read_path(element_of(close_chart(), "path class=\"shape\"", 0));
        if (chord(&s, level) < 1.0)
            continue;
        for (size_t i = 0; i < outline.count; i++) {
            const svg_point p = outline.point[i];
            const double x = (p.x - 20.0) / 300.0, y = (230.0 - p.y) / 200.0;
            ck_assert_double_eq_tol(s.a * x + s.b * y + s.c, level, 1e-3);
            if (!p.begins)
                length += hypot(p.x - outline.point[i - 1].x,
                                p.y - outline.point[i - 1].y);
        }
        ck_assert_double_eq_tol(length, chord(&s, level), 1.5);
        long_ones += length > 100.0;
    }
    ck_assert_uint_gt(long_ones, 40);
}
END_TEST

/* Of the places where the isoline crosses the sides of a mesh the one with most
 * room, a label being wider than high: written down a second time (regression
 * value: our own choice). */
static double room_of(const bw_taken *taken, double x, double y)
{
    double room = fmin(0.6 * fmin(x - 20.0, 320.0 - x),
                       fmin(y - 30.0, 230.0 - y));
    for (size_t i = 0; i < taken->uprights; i++)
        room = fmin(room, 0.6 * fabs(x - taken->upright[i]));
    for (size_t i = 0; i < taken->count; i++)
        room = fmin(room, hypot(0.6 * (x - taken->x[i]), y - taken->y[i]));
    return room;
}

static bool is_free(const bw_taken *taken, double x, double y)
{
    for (size_t i = 0; i < taken->count; i++)
        if (fabs(x - taken->x[i]) < 28.0 && fabs(y - taken->y[i]) < 12.0)
            return false;
    return true;
}

static double held(double x)
{
    return fmin(fmax(x, 34.0), 306.0);
}

START_TEST(a_label_stands_on_its_isoline_where_there_is_most_room)
{
    static slope s;
    size_t put = 0, left_out = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
        make_slope(&s);
        const double level = s.c + between(&die, -0.6, 0.6);
        const double step = decades(&die, -2.0, 1.0);
        const bw_field field = field_of(&s);
        bw_taken taken = {.count = 3, .uprights = 1};
        taken.upright[0] = between(&die, 20.0, 320.0);
        for (size_t i = 0; i < taken.count; i++) {
            taken.x[i] = between(&die, 20.0, 320.0);
            taken.y[i] = between(&die, 30.0, 230.0);
        }
        const bw_taken was = taken;
        unit_chart();
        bw_chart_isoline(&chart, "shape", &field, level);
        bw_chart_isoline_label(&chart, &field, level, step, &taken, "60");
        const char *is = close_chart();
        read_path(element_of(is, "path class=\"shape\"", 0));
        const char *text = element_of(is, "text class=\"halo\"", 0);
        const double next = step / hypot(s.a / 300.0, s.b / 200.0);
        double most = 0.0;
        for (size_t i = 0; i < outline.count && chord(&s, level) > 0.0; i++) {
            const svg_point p = outline.point[i];
            const double room = fmin(room_of(&was, p.x, p.y), next);
            if (p.begins && is_free(&was, held(p.x), p.y))
                most = fmax(most, room);
        }
        ck_assert_uint_eq(taken.count, was.count + (text != NULL));
        if (most > 0.2 || most <= 0.0)
            ck_assert_int_eq(text != NULL, most > 0.0);
        left_out += text == NULL;
        if (text == NULL)
            continue;
        put++;
        const double x = attribute(text, "x"), y = attribute(text, "y") - 3.5;
        ck_assert_double_eq_tol(x, taken.x[3], TENTH);
        ck_assert_double_eq_tol(y, taken.y[3], TENTH);
        ck_assert(x >= 34.0 - TENTH && x <= 306.0 + TENTH);
        ck_assert(is_free(&was, taken.x[3], taken.y[3]));
        /* at the most room, and on the line where the box does not push it */
        const double on = (level - s.c - s.b * (230.0 - y) / 200.0) / s.a;
        const double true_x = 20.0 + 300.0 * on;
        ck_assert_double_eq_tol(held(true_x), x, 0.5 + 0.1 / fabs(s.a));
        if (fabs(s.a) > 0.1)
            ck_assert_double_eq_tol(fmin(room_of(&was, true_x, y), next), most,
                                    1.5);
    }
    ck_assert(put > 50 && left_out > 10);
}
END_TEST

/* One place alone, in the middle: a label is 28 wide and 12 high (regression
 * values), and none is put over another. */
START_TEST(a_label_is_put_where_it_covers_no_other)
{
    static const double x[] = {0.0, 1.0}, y[] = {0.0, 0.5, 1.0};
    static const double z[] = {0.0, 1.0, 0.0, 1.0, 0.0, 1.0};
    static const bw_field field = {x, y, 2, 3, z};
    static const struct {
        double dx, dy;
        bool put;
    } rows[] = {{27.9, 11.9, false}, {28.1, 11.9, true}, {27.9, 12.1, true},
                {-27.9, 0.0, false}, {-28.1, 0.0, true}, {0.0, -11.9, false},
                {0.0, -12.1, true}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        bw_taken taken = {.count = 1};
        taken.x[0] = 170.0 + rows[i].dx;
        taken.y[0] = 130.0 + rows[i].dy;
        unit_chart();
        bw_chart_isoline_label(&chart, &field, 0.5, 1.0, &taken, "60");
        const char *text = element_of(close_chart(), "text", 0);
        ck_assert_msg((text != NULL) == rows[i].put, "row %zu", i);
        if (text == NULL)
            continue;
        ck_assert_double_eq_tol(attribute(text, "x"), 170.0, TENTH);
        ck_assert_double_eq_tol(attribute(text, "y"), 133.5, TENTH);
    }
}
END_TEST

START_TEST(no_more_labels_are_put_than_are_counted)
{
    static slope s;
    make_slope(&s);
    const bw_field field = field_of(&s);
    for (size_t count = BW_TAKEN - 1; count <= BW_TAKEN; count++) {
        bw_taken taken = {.count = count};
        for (size_t i = 0; i < count; i++)
            taken.x[i] = taken.y[i] = -1000.0;
        unit_chart();
        const double level = s.z[COLUMNS * 3 + 4] + 1e-6;
        bw_chart_isoline_label(&chart, &field, level, 1.0, &taken, "60");
        ck_assert_int_eq(element_of(close_chart(), "text", 0) != NULL,
                         count < BW_TAKEN);
        ck_assert_uint_eq(taken.count, BW_TAKEN);
    }
}
END_TEST

SUITE_AROUND("chart_fields", start, NULL,
             FACT(a_region_is_where_the_plane_is_above_its_level),
             FACT(an_isoline_is_the_line_of_its_level_and_all_of_it),
             FACT(a_label_stands_on_its_isoline_where_there_is_most_room),
             FACT(a_label_is_put_where_it_covers_no_other),
             FACT(no_more_labels_are_put_than_are_counted))
