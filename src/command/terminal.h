#ifndef BW_COMMAND_TERMINAL_H
#define BW_COMMAND_TERMINAL_H

/* What the other end of standard output and standard error is. */

#include <stdatomic.h>
#include <stdbool.h>

#include "settings.h"

/* Columns of the terminal on standard output, held within 60..120; 100 when
 * it is none, or when a file is written, which no window should shape. */
int terminal_width(const settings *given);

/* Bold type is welcome: a terminal, not told otherwise. */
bool terminal_colour(const settings *given);

/* On standard error; what came from files and names may steer no terminal, so
 * control characters are replaced. */
void print_clean(const char *text);

enum { LABEL_MOST = 40 }; /* columns */

/* A bar on standard error for work that takes a while. */
typedef struct progress_bar {
    char label[4 * LABEL_MOST + 1];
    int width;        /* columns when drawn */
    bool has_room;    /* for the time that is left */
    double started;   /* s, of a clock of its own */
    bool shown;       /* standard error is a terminal wide enough, no --quiet */
    atomic_flag busy; /* sections may be simulated in parallel */
    int percent;      /* drawn last; -1: nothing yet */
} progress_bar;

void progress_start(progress_bar *bar, const char *label,
                    const settings *given);

/* A bw_progress; payload is the bar. Never stops the work. */
bool progress_show(void *payload, double fraction_done);

/* Wipes the bar. */
void progress_end(progress_bar *bar);

/* "bothways: file:line: message" on standard error. */
void print_error(const bw_error *err);

/* The exit status a failure means. */
int exit_status(bw_status status);

#endif
