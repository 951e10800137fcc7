#ifndef BW_COMMAND_TERMINAL_H
#define BW_COMMAND_TERMINAL_H

/* What the other end of standard output and standard error is. */

#include <stdatomic.h>
#include <stdbool.h>

#include "settings.h"

/* Columns of the terminal on standard output, held within 60..120; 100 when
 * it is none. */
int terminal_width(void);

/* Bold type is welcome: a terminal, not told otherwise. */
bool terminal_colour(const settings *given);

/* A bar on standard error for work that takes a while. */
typedef struct progress_bar {
    const char *label;
    bool shown;       /* standard error is a terminal and not --quiet */
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
void print_note(const bw_note *note);

/* The exit status a failure means. */
int exit_status(bw_status status);

#endif
