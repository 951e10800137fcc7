#include "terminal.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { PLAIN_WIDTH = 100, NARROWEST = 60, WIDEST = 120, BAR = 30 };

int terminal_width(void)
{
    struct winsize size;
    if (!isatty(STDOUT_FILENO) ||
        ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return PLAIN_WIDTH;
    int columns = size.ws_col;
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
    if (term == NULL || (term[0] == 'd' && term[1] == 'u'))
        return false; /* "dumb" */
    return isatty(STDOUT_FILENO) != 0;
}

void progress_start(progress_bar *bar, const char *label, const settings *given)
{
    bar->label = label;
    bar->shown = !given->quiet && isatty(STDERR_FILENO) != 0;
    atomic_flag_clear(&bar->busy);
    bar->percent = -1;
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
        fprintf(stderr, "\r%.40s [%s] %3d %%", bar->label, text, percent);
        bar->percent = percent;
    }
    atomic_flag_clear(&bar->busy);
    return true;
}

void progress_end(progress_bar *bar)
{
    if (bar->shown && bar->percent >= 0)
        fprintf(stderr, "\r%*s\r", 40 + BAR + 10, "");
}

static void print_place(const char *file, long line)
{
    fputs("bothways: ", stderr);
    if (file[0] != '\0' && line > 0)
        fprintf(stderr, "%s:%ld: ", file, line);
    else if (file[0] != '\0')
        fprintf(stderr, "%s: ", file);
}

void print_error(const bw_error *err)
{
    print_place(err->file, err->line);
    fprintf(stderr, "%s\n", err->message);
}

void print_note(const bw_note *note)
{
    print_place(note->file, note->line);
    fprintf(
        stderr, "%s%s\n",
        note->kind == BW_NOTE_WARNING ? "warning: " : "note: ", note->message);
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
