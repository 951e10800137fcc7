#ifndef BW_TESTS_SVG_PATH_H
#define BW_TESTS_SVG_PATH_H

/* Outlines of an SVG path of M, l, h, v and z, read back as points. */

#include <check.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdlib.h>

enum { PATH_POINTS = 65536 };

typedef struct svg_point {
    double x, y;
    bool begins; /* an outline */
} svg_point;

typedef struct svg_path {
    svg_point point[PATH_POINTS];
    size_t count;
} svg_path;

static inline double svg_number(const char **at)
{
    char *end;
    const double value = strtod(*at, &end);
    ck_assert_msg(end != *at, "no number: %.20s", *at);
    *at = end;
    return value;
}

static inline void svg_read(svg_path *path, const char *text)
{
    double x = 0.0, y = 0.0;
    path->count = 0;
    while (*text != '\0') {
        const char step = *text++;
        if (step == 'z')
            continue;
        ck_assert_uint_lt(path->count, PATH_POINTS);
        if (step == 'M')
            x = y = 0.0;
        if (step != 'v')
            x += svg_number(&text);
        if (step != 'h')
            y += svg_number(&text);
        path->point[path->count++] = (svg_point){x, y, step == 'M'};
    }
}

/* The point behind the outline that begins at `first`. */
static inline size_t svg_end(const svg_path *path, size_t first)
{
    size_t end = first + 1;
    while (end < path->count && !path->point[end].begins)
        end++;
    return end;
}

/* In an odd number of its outlines. */
static inline bool svg_holds(const svg_path *path, double x, double y)
{
    bool in = false;
    for (size_t first = 0; first < path->count;) {
        const size_t end = svg_end(path, first);
        for (size_t i = first; i < end; i++) {
            const svg_point a = path->point[i];
            const svg_point b = path->point[i + 1 < end ? i + 1 : first];
            if ((a.y > y) != (b.y > y) &&
                x < a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
                in = !in;
        }
        first = end;
    }
    return in;
}

/* Of all its outlines together. */
static inline double svg_area(const svg_path *path)
{
    double sum = 0.0;
    for (size_t first = 0; first < path->count;) {
        const size_t end = svg_end(path, first);
        double one = 0.0;
        for (size_t i = first; i < end; i++) {
            const svg_point a = path->point[i];
            const svg_point b = path->point[i + 1 < end ? i + 1 : first];
            one += 0.5 * (a.x * b.y - b.x * a.y);
        }
        sum += one < 0.0 ? -one : one;
        first = end;
    }
    return sum;
}

#endif
