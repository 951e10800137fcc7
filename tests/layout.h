#ifndef BW_TESTS_LAYOUT_H
#define BW_TESTS_LAYOUT_H

/* How a chart is laid out: words stand beside the mark they are read with, a
 * sign is as large as it is told apart, axes leave room for their figures. The
 * distances were looked at on paper and found legible: regression values, our
 * own choice. Included by drawing.h, whose every chart is looked at so. */

enum { PLACES_MOST = 32768, FREE = 9999 };

/* Words of a class, and how far they stand from a corner, an end or the middle
 * of a mark; FREE: at any distance, which a test of that chart tells. */
typedef struct beside {
    const char *words, *anchor, *mark;
    double dx, dy;
} beside;

static const beside besides[] = {
    /* figures of axes, and units at their ends */
    {"num", "end", "axis", -5.0, 3.5},
    {"num", "middle", "axis", FREE, 13.0},
    {"unit", "end", "axis", 0.0, 25.0},
    {"unit", "end", "axis", -5.0, -8.0},
    {"unit", "", "axis", FREE, -8.0},
    {"unit", "", "paper", 1.0, 10.0},
    {"unit", "", "paper", 1.0, 12.0},
    {"unit", "end", "paper", -14.0, -7.0},
    {"unit", "end", "paper", -4.0, -4.0},
    {"num", "", "limit", 4.0, 3.5},
    {"num", "", "axis", 0.0, 13.0},
    {"num", "end", "rule", 0.0, 13.0},
    {"num", "end", "rule", -5.0, 3.5},
    {"num", "middle", "rule", FREE, 13.0},
    /* layers */
    {"num", "middle", "face", 0.0, -3.0},
    {"num", "middle", "axis", 0.0, 10.0}, /* drawn shorter: below its break */
    {"tiny", "middle", "face", 0.0, -2.0},
    /* legends: behind the stroke, centred on it */
    {"num", "", "main", 4.0, 3.5},
    {"num", "", "wetdash", 4.0, 3.5},
    {"num", "", "dots", 4.0, 3.5},
    {"num", "", "frame", 4.0, -1.0},
    {"num", "", "shade1 frame", 4.0, -1.0},
    {"num", "", "shade2 frame", 4.0, -1.0},
    {"num", "", "shade3 frame", 4.0, -1.0},
    {"num", "", "shade4 frame", 4.0, -1.0},
    /* the year */
    {"num", "end", "axis", -6.0, FREE},
    {"num", "", "axis", 0.0, -6.0},
    {"num", "", "axis", 0.0, -18.0},
    {"unit", "end", "axis", 7.0, 25.0},
    {"soft", "", "paper", 34.0, 8.0},
    {"soft", "end", "frame", 0.0, -88.0},
    {"strong", "", "pointer", 3.5, 2.0},
    {"strong", "end", "pointer", -3.5, 2.0},
    /* the section, and a small month */
    {"soft", "end", "paper", -6.0, -7.0},
    {"soft", "", "paper", 20.0, -7.0},
    {"num", "", "rule", 0.0, -7.0},
    {"tiny soft halo", "", "rule", 1.0, -2.0},
    /* a choice */
    {"num", "", "rule", 0.0, -7.5},
    {"num", "end", "rule", 0.0, -7.5},
    {"num", "end", "paper", -4.0, 18.0},
    {"num", "end", "paper", 203.0, 18.0},
    {"name", "middle", "paper", FREE, 18.0},
    {"strong", "middle", "rule", FREE, -7.0},
    {"strong halo", "middle", "bad", 0.0, 4.0},
    {"tiny halo", "", "ring", 5.0, -4.0},
    {"tiny halo", "", "dot", 5.0, -4.0},
    {"tiny halo", "end", "ring", -5.0, -4.0},
    {"tiny halo", "end", "dot", -5.0, -4.0},
    /* a margin, and its map */
    {"halo", "", "rule", 0.0, -10.0},
    {"name halo", "end", "rule", 0.0, -10.0},
    {"num", "middle", "axis", 0.0, -5.0},
    {"num", "", "paper", 4.0, 11.0},
    {"num", "end", "paper", -4.0, 11.0},
    {"num", "middle", "cell", 0.0, 13.0},
    {"num", "middle", "cell", 0.0, 14.0},
    {"num", "middle", "short", 0.0, 14.0},
    {"num", "end", "cell", -5.0, 3.5},
    {"num", "end", "cell", -6.0, 3.5},
    {"num", "end", "short", -6.0, 3.5},
    {"tiny halo", "middle", "cell", 0.0, -4.0},
    {"tiny halo", "middle", "short", 0.0, -4.0},
    {"tiny soft", "middle", "cell", 0.0, -6.0},
    {"tiny strong halo", "middle", "own", 0.0, 9.0},
    /* readings */
    {"num halo", "", "dash", 4.0, 9.0},
    {"num halo", "end", "dash", -4.0, 9.0},
    /* walls side by side */
    {"soft", "", "paper", 8.0, FREE},
    {"num", "end", "paper", -4.0, FREE},
    {"halo", "middle", "never", FREE, 7.0},
    {"strong halo", "middle", "wall0", 0.0, -4.0},
    {"strong halo", "middle", "wall1", 0.0, -4.0},
    {"strong halo", "middle", "wall2", 0.0, -4.0},
    {"strong halo", "middle", "wall3", 0.0, -4.0},
    {"strong halo", "middle", "wall4", 0.0, -4.0},
    {"strong", "end", "rule", 0.0, -12.0},
    /* a junction */
    {"halo", "", "", 7.0, -7.0},
    {"halo", "", "", 7.0, 12.0},
};

/* How large a sign is; FREE: as its datum says. Of a stroke: its two sides. */
typedef struct sized {
    const char *chart, *class_name;
    drawn_kind kind;
    double width, height;
} sized;

static const sized sizes[] = {
    {"choice", "dot", DRAWN_CIRCLE, 2.4, 2.4},
    {"choice", "ring", DRAWN_CIRCLE, 4.0, 4.0},
    {"choice", "bad", DRAWN_RECT, 16.0, 20.0},
    {"choice", "short", DRAWN_RECT, 16.0, 20.0},
    {"front", "dot", DRAWN_CIRCLE, 3.2, 3.2},
    {"front", "ring", DRAWN_CIRCLE, 3.2, 3.2},
    {"margin", "ring", DRAWN_CIRCLE, 3.2, 3.2},
    {"margin", "bad", DRAWN_RECT, FREE, 9.0},
    {"margin", "safe", DRAWN_RECT, FREE, 9.0},
    {"membrane", "ring", DRAWN_CIRCLE, 3.0, 3.0},
    {"readings", "ring", DRAWN_CIRCLE, 3.0, 3.0},
    {"readings", "ink", DRAWN_CIRCLE, 2.2, 2.2},
    {"water", "ink", DRAWN_CIRCLE, 2.2, 2.2},
    {"years", "ink", DRAWN_CIRCLE, 2.2, 2.2},
    {"junction", "", DRAWN_CIRCLE, 2.2, 2.2},
    {"compare", "bad", DRAWN_RECT, FREE, 7.0},
    {"compare", "safe", DRAWN_RECT, FREE, 7.0},
    {"compare", "limit", DRAWN_PATH, 0.0, 11.0},
    {"section", "hatch-membrane", DRAWN_RECT, 1.6, FREE},
    {"section", "face", DRAWN_PATH, FREE, 9.0},
    {"year", "hatch-membrane", DRAWN_RECT, 1.6, FREE},
    {"year", "face", DRAWN_PATH, FREE, 9.0},
    {"year", "shade1 frame", DRAWN_RECT, 12.0, 10.0},
    {"year", "shade2 frame", DRAWN_RECT, 12.0, 10.0},
    {"year", "shade3 frame", DRAWN_RECT, 12.0, 10.0},
    {"year", "shade4 frame", DRAWN_RECT, 12.0, 10.0},
    {"year", "place", DRAWN_PATH, 0.0, 307.0},
    {"year", "under", DRAWN_PATH, 0.0, 288.0},
    {"vapour", "under", DRAWN_PATH, 4.0, 0.0},
    {"year", "pointer", DRAWN_PATH, 9.0, 8.0},
    {"dries", "pointer", DRAWN_PATH, 7.0, 7.0},
    {"section", "drop", DRAWN_PATH, 7.2, 9.5},
    {"vapour", "drop", DRAWN_PATH, 7.2, 9.5},
};

/* What axes and rules leave at each edge of the paper. */
typedef struct room_left {
    const char *chart;
    double left, top, right, bottom;
} room_left;

static const room_left rooms[] = {
    {"vapour", 35, 38, 8, FREE},
    {"vapour-small", 4, 16, 4, 8},
    {"section", 43, 44, 22, 45},
    {"year", 31, 96, FREE, 59},
    {"water", 35, 22, 8, 21},
    {"drying", 35, 30, 8, 21},
    {"membrane", 35, 38, 8, 33},
    {"humidity", 35, 20, 30, 17},
    {"temperature", 35, 20, 30, 17},
    {"wood", 35, 20, 30, FREE},
    {"mould", 35, 20, 30, 31},
    {"years", 35, 20, 30, 31},
    {"wetting", 35, 30, 30, 31},
    {"margin", 4, 16, 4, 14.5},
    {"compare", FREE, 4, FREE, 4},
    {"dries", 35, 24, 14, 31},
    {"readings", 35, 20, 60, 20},
    {"replay-temperature", 35, 22, 30, FREE},
    {"replay-humidity", 35, 22, 30, FREE},
    {"replay-difference", 35, 14, 30, 22},
    {"choice", 2, 52, 4, 8},
    {"front", 34, 20, 14, 34},
};

/* ---- what there is to stand beside ---------------------------------------
 */

typedef struct mark_place {
    const char *class_name;
    double x, y;
} mark_place;

static mark_place places[PLACES_MOST];
static size_t place_count;
static svg_path laid;

static inline void add_place(const char *class_name, double x, double y)
{
    ck_assert_uint_lt(place_count, PLACES_MOST);
    places[place_count++] = (mark_place){class_name, x, y};
}

static inline void add_places(const drawn *m)
{
    if (m->kind == DRAWN_CIRCLE)
        add_place(m->class_name, m->x, m->y);
    for (int i = 0; m->kind == DRAWN_RECT && i < 9; i++)
        add_place(m->class_name, m->x + 0.5 * (i % 3) * m->width,
                  m->y + 0.5 * (i / 3) * m->height);
    if (m->kind != DRAWN_PATH)
        return;
    svg_read(&laid, m->text);
    for (size_t i = 0; i < laid.count && laid.count < 2048; i++)
        add_place(m->class_name, laid.point[i].x, laid.point[i].y);
}

static inline bool is_apart(double is, double wanted)
{
    return wanted != FREE && fabs(is - wanted) > 0.12;
}

static inline bool stands_beside(const drawn *words, const beside *b)
{
    if (strcmp(words->class_name, b->words) != 0 ||
        strcmp(words->anchor, b->anchor) != 0)
        return false;
    for (size_t i = 0; i < place_count; i++)
        if (strcmp(places[i].class_name, b->mark) == 0 &&
            !is_apart(words->x - places[i].x, b->dx) &&
            !is_apart(words->y - places[i].y, b->dy))
            return true;
    return false;
}

/* The stroke of a legend is level, and twenty long. */
static inline bool is_level(const drawn *words, const beside *b)
{
    const bool legend = strcmp(b->mark, "main") == 0 ||
                        strcmp(b->mark, "wetdash") == 0 ||
                        strcmp(b->mark, "dots") == 0;
    for (size_t i = 0; legend && i < place_count; i++)
        if (strcmp(places[i].class_name, b->mark) == 0 &&
            !is_apart(words->x - places[i].x, b->dx + 20.0) &&
            !is_apart(words->y - places[i].y, b->dy))
            return true;
    return !legend;
}

/* The label of a line, and the name of a space, stand where there is room. */
static inline bool stands_in_it(const char *kind, const drawn *words)
{
    const bool middle = strcmp(words->anchor, "middle") == 0;
    return middle && ((strcmp(words->class_name, "halo") == 0 &&
                       strcmp(kind, "compare") != 0) ||
                      (strcmp(words->class_name, "soft") == 0 &&
                       strcmp(kind, "junction") == 0));
}

static inline void size_is(const char *kind, const drawn *m)
{
    double width = m->width, height = m->height;
    if (m->kind == DRAWN_PATH) {
        double low[2] = {1e9, 1e9}, high[2] = {-1e9, -1e9};
        svg_read(&laid, m->text);
        for (size_t i = 0; i < laid.count; i++) {
            low[0] = fmin(low[0], laid.point[i].x);
            low[1] = fmin(low[1], laid.point[i].y);
            high[0] = fmax(high[0], laid.point[i].x);
            high[1] = fmax(high[1], laid.point[i].y);
        }
        width = high[0] - low[0];
        height = high[1] - low[1];
    }
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
        if (m->kind == sizes[i].kind && strcmp(kind, sizes[i].chart) == 0 &&
            strcmp(m->class_name, sizes[i].class_name) == 0)
            ck_assert_msg(!is_apart(width, sizes[i].width) &&
                              !is_apart(height, sizes[i].height),
                          "%s of %s is %g by %g", m->class_name, kind, width,
                          height);
}

/* A rectangle without a side is no mark; a disc is told from a dot of dirt and
 * from a blot. */
static inline void can_be_seen(const char *kind, const drawn *m)
{
    if (m->kind == DRAWN_RECT)
        ck_assert_msg(m->width > 0.0 && m->height > 0.0, "%s of %s is %g by %g",
                      m->class_name, kind, m->width, m->height);
    if (m->kind == DRAWN_CIRCLE)
        ck_assert_msg(m->width > 0.1 && m->width < 9.1, "%s of %s is of %g",
                      m->class_name, kind, m->width);
}

static inline void room_is(const char *kind)
{
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (size_t i = 0; i < place_count; i++) {
        if (strcmp(places[i].class_name, "axis") != 0 &&
            strcmp(places[i].class_name, "rule") != 0)
            continue;
        left = fmin(left, places[i].x);
        top = fmin(top, places[i].y);
        right = fmax(right, places[i].x);
        bottom = fmax(bottom, places[i].y);
    }
    for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++)
        if (strcmp(kind, rooms[i].chart) == 0)
            ck_assert_msg(!is_apart(left, rooms[i].left) &&
                              !is_apart(top, rooms[i].top) &&
                              !is_apart(chart.width - right, rooms[i].right) &&
                              !is_apart(chart.height - bottom, rooms[i].bottom),
                          "axes of %s leave %g %g %g %g", kind, left, top,
                          chart.width - right, chart.height - bottom);
}

/* ---- how a layer is drawn -------------------------------------------------
 */

/* Lines of a hatching, from edge to edge: level ones 3.5 apart, slanted ones at
 * 45 degrees and 5 apart; none leaves its layer. */
static inline void is_hatched(const drawn *box, const drawn *lines)
{
    const double right = box->x + box->width, bottom = box->y + box->height;
    const bool rises = strstr(box->class_name, "masonry") != NULL;
    const bool falls = strstr(box->class_name, "board") != NULL;
    double next = rises   ? box->x + box->y + 5.0
                  : falls ? box->y - right + 5.0
                          : box->y + 2.5;
    const double step = rises || falls ? 5.0 : 3.5;
    const double last = rises   ? right + bottom
                        : falls ? bottom - box->x
                                : bottom;
    svg_read(&laid, lines->text);
    for (size_t i = 0; i + 1 < laid.count; i += 2, next += step) {
        const svg_point a = laid.point[i], b = laid.point[i + 1];
        const double x1 = rises   ? fmax(box->x, next - bottom)
                          : falls ? fmax(box->x, box->y - next)
                                  : box->x + 0.6;
        const double x2 = rises   ? fmin(right, next - box->y)
                          : falls ? fmin(right, bottom - next)
                                  : right - 0.6;
        const double y1 = rises ? next - x1 : falls ? next + x1 : next;
        const double y2 = rises ? next - x2 : falls ? next + x2 : next;
        ck_assert_msg(a.begins && !b.begins && fabs(a.x - x1) < 0.16 &&
                          fabs(a.y - y1) < 0.16 && fabs(b.x - x2) < 0.16 &&
                          fabs(b.y - y2) < 0.16,
                      "line %zu of %s", i / 2, box->class_name);
    }
    ck_assert_msg(fabs(last - next) < step + 0.16 && next > last - 0.16,
                  "%s ends at %g of %g", box->class_name, next, last);
}

/* Folds of insulation, side by side where it is thick: each turns 4 lower, a
 * tenth of its width from either side. */
static inline void is_folded(const drawn *box, const drawn *lines)
{
    const int beside = (int)fmax(1.0, floor(box->width / 18.0));
    const size_t each = 1 + (size_t)floor(box->height / 4.0);
    svg_read(&laid, lines->text);
    ck_assert_uint_eq(laid.count, each * (size_t)beside);
    for (size_t i = 0; i < laid.count; i++) {
        const double fold = (double)(i / each) +
                            (i % each % 2 == 1 ? 0.9 : 0.1);
        ck_assert_int_eq(laid.point[i].begins, i % each == 0);
        ck_assert_double_eq_tol(laid.point[i].x,
                                box->x + fold * box->width / beside, 0.16);
        ck_assert_double_eq_tol(laid.point[i].y,
                                box->y + 4.0 * (double)(i % each), 0.16);
    }
}

static inline void hatching_is(const drawn *box, const drawn *next)
{
    const char *class_name = box->class_name;
    if (box->kind != DRAWN_RECT || strncmp(class_name, "hatch-", 6) != 0)
        return;
    const bool has = next->kind == DRAWN_PATH && next->class_name[0] == 'h';
    const bool plain = strstr(class_name, "membrane") != NULL ||
                       strstr(class_name, "air") != NULL;
    ck_assert_msg(has != plain, "%s and %s", class_name, next->class_name);
    if (strstr(class_name, "insulation") != NULL)
        is_folded(box, next);
    else if (!plain)
        is_hatched(box, next);
}

/* Where words are drawn: five units a letter, eight high; a letter of two bytes
 * is counted twice, which is more than it needs. */
static inline void extent_of_words(const drawn *words, double box[4])
{
    const double width = 5.0 * (double)strlen(words->text);
    const double left = strcmp(words->anchor, "middle") == 0
                            ? words->x - 0.5 * width
                        : strcmp(words->anchor, "end") == 0 ? words->x - width
                                                            : words->x;
    box[0] = left;
    box[1] = words->y - 8.0;
    box[2] = left + width;
    box[3] = words->y;
}

/* The label of a line stands where there is room: on no other words. */
static inline void covers_nothing(const char *kind, const drawn *label)
{
    double own[4], other[4];
    extent_of_words(label, own);
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        if (m == label || m->kind != DRAWN_TEXT)
            continue;
        extent_of_words(m, other);
        ck_assert_msg(own[0] >= other[2] || own[2] <= other[0] ||
                          own[1] >= other[3] || own[3] <= other[1],
                      "%s covers %s in %s at %g %g", label->text, m->text, kind,
                      label->x, label->y);
    }
}

/* Each shade of the year has its word, beside a sample of it. */
static inline void key_is(void)
{
    static const char *const key[][2] = {{"below 70", "frame"},
                                         {"70 %", "shade1 frame"},
                                         {"80 %", "shade2 frame"},
                                         {"90 %", "shade3 frame"},
                                         {"95 % RH and above", "shade4 frame"}};
    double last = 0.0;
    for (size_t i = 0; i < sizeof key / sizeof *key; i++) {
        bool found = false;
        for (size_t k = 0; k + 1 < chart.count; k++) {
            const drawn *sample = &chart.mark[k], *words = sample + 1;
            if (sample->kind != DRAWN_RECT || words->kind != DRAWN_TEXT ||
                strcmp(words->text, key[i][0]) != 0)
                continue;
            found = true;
            ck_assert_str_eq(sample->class_name, key[i][1]);
            ck_assert_double_eq_tol(words->x - sample->x, 16.0, 0.11);
            ck_assert_double_eq_tol(sample->height, 10.0, 0.01);
            ck_assert_double_eq_tol(chart.height - sample->y, 16.0, 0.11);
            /* behind the words before it, five units a letter */
            ck_assert_double_ge(sample->x, i == 0 ? 33.9 : last);
            last = words->x + 5.0 * (double)strlen(words->text);
        }
        ck_assert_msg(found, "no %s in the key", key[i][0]);
    }
    ck_assert_double_le(last, chart.width);
}

static inline void is_laid_out(const char *kind)
{
    place_count = 0;
    for (int i = 0; i < 4; i++)
        add_place("paper", i % 2 * chart.width, i / 2 * chart.height);
    for (size_t i = 0; i < chart.count; i++)
        add_places(&chart.mark[i]);
    for (size_t i = 0; i < chart.count; i++) {
        const drawn *m = &chart.mark[i];
        bool is = m->kind != DRAWN_TEXT || stands_in_it(kind, m);
        for (size_t k = 0; !is && k < sizeof besides / sizeof *besides; k++)
            is = stands_beside(m, &besides[k]) && is_level(m, &besides[k]);
        ck_assert_msg(is, "'%s' (%s %s) stands by itself in %s: %g %g", m->text,
                      m->class_name, m->anchor, kind, m->x, m->y);
        size_is(kind, m);
        can_be_seen(kind, m);
        if (m->kind == DRAWN_TEXT && stands_in_it(kind, m) &&
            strcmp(m->class_name, "halo") == 0)
            covers_nothing(kind, m);
        if (i + 1 < chart.count)
            hatching_is(m, m + 1);
    }
    room_is(kind);
    if (strcmp(kind, "year") == 0)
        key_is();
}

#endif
