#include "terminal.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

#include "page.h"
#include "utf8.h"

enum { PLAIN_WIDTH = 100, NARROWEST = 60, WIDEST = 120, BAR = 30 };
enum { LEFT = 20 };                /* columns: ", about 99 min left" */
static const double SETTLED = 5.0; /* s before a time left is told */

/* 0: no terminal, or one that does not say. */
static int columns_of(int descriptor)
{
    struct winsize size;
    if (isatty(descriptor) == 0 || ioctl(descriptor, TIOCGWINSZ, &size) != 0)
        return 0;
    return size.ws_col;
}

/* Of the environment, as shells and their users set it; 0: not set. */
static int columns_said(void)
{
    const char *text = getenv("COLUMNS");
    const size_t digits = text != NULL ? strspn(text, "0123456789") : 0;
    if (digits == 0 || digits > 4 || text[digits] != '\0')
        return 0;
    return (int)strtol(text, NULL, 10);
}

int terminal_width(const settings *given)
{
    int columns = given->output == NULL ? columns_said() : 0;
    if (columns == 0 && given->output == NULL)
        columns = columns_of(STDOUT_FILENO);
    if (columns == 0)
        return PLAIN_WIDTH;
    if (columns < NARROWEST)
        return NARROWEST;
    return columns > WIDEST ? WIDEST : columns;
}

bool terminal_colour(const settings *given)
{
    const char *no_color = getenv("NO_COLOR");
    const char *term = getenv("TERM");
    if (given->no_colour || given->output != NULL ||
        (no_color != NULL && no_color[0] != '\0'))
        return false;
    if (term == NULL || strcmp(term, "dumb") == 0)
        return false;
    return isatty(STDOUT_FILENO) != 0;
}

void print_clean(const char *text)
{
    char escape[5];
    while (*text != '\0') {
        unsigned code;
        size_t bytes = bw_utf8_next(text, strnlen(text, 4), &code);
        for (size_t i = 0; bw_utf8_broken(text, bytes) && i < bytes; i++) {
            bw_utf8_escape(escape, text[i]);
            fputs(escape, stderr);
        }
        if (bw_utf8_broken(text, bytes))
            ;
        else if (bw_utf8_steers(code))
            fputc('?', stderr);
        else
            fwrite(text, 1, bytes, stderr);
        text += bytes;
    }
}

static double seconds(void)
{
    struct timespec t;
    return clock_gettime(CLOCK_MONOTONIC, &t) == 0
               ? (double)t.tv_sec + 1e-9 * (double)t.tv_nsec
               : 0.0;
}

void progress_start(progress_bar *bar, const char *label, const settings *given)
{
    enum { BESIDE = BAR + 10 }; /* " [", "] 100 %", and the last column free */
    int columns = columns_of(STDERR_FILENO), room = LABEL_MOST;
    if (columns > 0 && columns < LABEL_MOST + BESIDE)
        room = columns - BESIDE;
    size_t next = 0;
    bar->shown = !given->quiet && isatty(STDERR_FILENO) != 0 && room > 0;
    size_t bytes = bar->shown ? bw_line_break(label, (size_t)room, &next) : 0;
    snprintf(bar->label, sizeof bar->label, "%.*s", (int)bytes, label);
    bar->width = (int)bw_columns(label, bytes) + BESIDE - 1;
    bar->has_room = columns > bar->width + LEFT;
    bar->started = seconds();
    atomic_flag_clear(&bar->busy);
    bar->percent = -1;
}

/* At the pace so far; over what stood there before. */
static void print_left(const progress_bar *bar, double done)
{
    char text[LEFT + 1];
    const double so_far = seconds() - bar->started;
    if (!bar->has_room || so_far < SETTLED || done < 0.01)
        return;
    const double left = fmin(so_far * (1.0 - done) / done, 99.0 * 60.0);
    if (left < 90.0)
        snprintf(text, sizeof text, ", about %.0f s left", ceil(left));
    else
        snprintf(text, sizeof text, ", about %.0f min left", ceil(left / 60.0));
    fprintf(stderr, "%-*s", (int)LEFT, text);
}

bool progress_show(void *payload, double fraction_done)
{
    progress_bar *bar = payload;
    if (!bar->shown || atomic_flag_test_and_set(&bar->busy))
        return true;
    int percent = (int)(fraction_done * 100.0);
    if (percent > bar->percent && percent <= 100) {
        char text[BAR + 1];
        for (int i = 0; i < BAR; i++)
            text[i] = i * 100 < percent * BAR ? '=' : '.';
        text[BAR] = '\0';
        fputc('\r', stderr);
        print_clean(bar->label);
        fprintf(stderr, " [%s] %3d %%", text, percent);
        print_left(bar, fraction_done);
        bar->percent = percent;
    }
    atomic_flag_clear(&bar->busy);
    return true;
}

void progress_end(progress_bar *bar)
{
    const int left = bar->has_room && seconds() - bar->started >= SETTLED
                         ? (int)LEFT
                         : 0;
    if (bar->shown && bar->percent >= 0)
        fprintf(stderr, "\r%*s\r", bar->width + left, "");
}

static void print_place(const char *file, long line)
{
    fputs("bothways: ", stderr);
    print_clean(file);
    if (file[0] != '\0' && line > 0)
        fprintf(stderr, ":%ld: ", line);
    else if (file[0] != '\0')
        fputs(": ", stderr);
}

void print_error(const bw_error *err)
{
    print_place(err->file, err->line);
    print_clean(err->message);
    fputc('\n', stderr);
}

int exit_status(bw_status status)
{
    switch (status) {
    case BW_OK:
        return EXIT_HOLDS;
    case BW_ERR_USAGE:
    case BW_ERR_INPUT:
    case BW_ERR_DOMAIN:
        return EXIT_REFUSED;
    case BW_ERR_NUMERIC:
    case BW_ERR_MEMORY:
    case BW_ERR_IO:
    case BW_ERR_CANCELLED:
        break;
    }
    return EXIT_MACHINE;
}
