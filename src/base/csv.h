#ifndef BW_BASE_CSV_H
#define BW_BASE_CSV_H

/* A text of comma-separated lines, read in place with line numbers. */

#include <stdbool.h>
#include <stddef.h>

/* More fields than this in a line are refused by the callers. */
enum { BW_CSV_FIELDS = 64 };

typedef struct bw_csv {
    char *next;                 /* rest of the text; NULL at its end */
    long line;                  /* 1-based number of `text` */
    char *text;                 /* the current line, its ends trimmed */
    size_t count;               /* fields after bw_csv_split */
    char *field[BW_CSV_FIELDS]; /* blanks and enclosing quotes removed */
} bw_csv;

/* text is NUL-terminated, is written into and must outlive the fields. */
void bw_csv_start(bw_csv *csv, char *text);

/* Goes to the next line (LF or CRLF); false at the end of the text. */
bool bw_csv_next(bw_csv *csv);

/* Splits the current line at its commas (none inside "quotes"), writing into
 * it. False: more than BW_CSV_FIELDS. */
bool bw_csv_split(bw_csv *csv);

/* What parts the names of a header row: ';', a tabulator or ','. */
char bw_csv_separator(const char *header);

/* The same at another separator, into the caller's fields; at ' ' runs of
 * blanks part, and nothing is quoted. False: more than `most`. */
bool bw_csv_split_at(char *line, char separator, char **field, size_t most,
                     size_t *count);

#endif
