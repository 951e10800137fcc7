#include "path.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Invariant: a path is well-formed after every call, in tenths of a unit;
 * where memory ran out it is remembered. */

enum { FIRST_ROOM = 1024, STEP_ROOM = 64 };

static bool make_room(bw_path *path)
{
    if (path->no_memory)
        return false;
    if (path->used + STEP_ROOM < path->room)
        return true;
    size_t room = path->room == 0 ? FIRST_ROOM : 2 * path->room;
    char *text = realloc(path->text, room);
    if (text == NULL) {
        path->no_memory = true;
        return false;
    }
    path->text = text;
    path->room = room;
    return true;
}

static long tenths(double value)
{
    double scaled = 10.0 * value;
    return isfinite(scaled) && fabs(scaled) < 1e6 ? lround(scaled) : 0;
}

/* "-.4", "12.5", "7": tenths as the shortest number. */
static void put(bw_path *path, long value)
{
    unsigned long size = (unsigned long)(value < 0 ? -value : value);
    char *at = path->text + path->used;
    const char *sign = value < 0 ? "-" : "";
    int length = 0;
    if (size % 10 == 0)
        length = sprintf(at, "%s%lu", sign, size / 10);
    else if (size < 10)
        length = sprintf(at, "%s.%lu", sign, size);
    else
        length = sprintf(at, "%s%lu.%lu", sign, size / 10, size % 10);
    path->used += (size_t)length;
}

static void put_text(bw_path *path, const char *text)
{
    size_t length = strlen(text);
    memcpy(path->text + path->used, text, length + 1);
    path->used += length;
}

void bw_path_move(bw_path *path, double x, double y)
{
    if (!make_room(path))
        return;
    path->x = tenths(x);
    path->y = tenths(y);
    put_text(path, "M");
    put(path, path->x);
    put_text(path, " ");
    put(path, path->y);
}

void bw_path_line(bw_path *path, double x, double y)
{
    long dx = tenths(x) - path->x, dy = tenths(y) - path->y;
    if ((dx == 0 && dy == 0) || !make_room(path))
        return;
    if (dy == 0) {
        put_text(path, "h");
        put(path, dx);
    } else if (dx == 0) {
        put_text(path, "v");
        put(path, dy);
    } else {
        put_text(path, "l");
        put(path, dx);
        put_text(path, dy < 0 ? "" : " ");
        put(path, dy);
    }
    path->x += dx;
    path->y += dy;
}

void bw_path_close(bw_path *path)
{
    if (make_room(path))
        put_text(path, "z");
}

void bw_path_clear(bw_path *path)
{
    path->used = 0;
}

void bw_path_free(bw_path *path)
{
    free(path->text);
    *path = (bw_path){0};
}
