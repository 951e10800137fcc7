#ifndef BW_TESTS_CASE_FILE_H
#define BW_TESTS_CASE_FILE_H

/* A case as its file says it: tests/cases/README.md. Read here, computed by
 * case_run.c, compared by case_check.c. */

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "bothways/edit.h"

enum { CASE_EDITS = 8, CASE_BLOCKS = 64, CASE_ROWS = 400, CASE_CELLS = 6 };

/* What went wrong, "file:line: message" by lines, and how much was compared. */
typedef struct case_report {
    size_t files, values, faults;
    double worst; /* share of its tolerance, of the last file */
    size_t length;
    char text[16384];
} case_report;

/* A section of the file as it stands there; text NULL: there is none. */
typedef struct case_part {
    char *text;
    long line; /* of its first line */
} case_part;

/* One expected value. */
typedef struct case_row {
    long line;
    const char *quantity, *place, *when, *value, *tolerance, *remark;
} case_row;

/* Rows that are expected of the wall with some changes. */
typedef struct case_block {
    long line;
    size_t edit_count, row_count;
    bw_edit edit[CASE_EDITS];
    const case_row *row;
} case_block;

typedef struct case_file {
    const char *name;
    const char *title, *source, *mark; /* none is NULL once read */
    const char *element, *section, *outer_resistance, *inner_resistance,
        *saturated, *years, *vapour_permeability; /* NULL: not said */
    case_part wall, boundary, climate, hours;
    size_t block_count, row_count;
    case_block block[CASE_BLOCKS];
    case_row row[CASE_ROWS];
} case_file;

/* Adds a fault. Returns false. */
bool case_fault(case_report *report, const char *file, long line,
                const char *format, ...) __attribute__((format(printf, 4, 5)));

/* The nearest of `words` to a misspelt one as ", did you mean 'x'?", or "". */
const char *case_near(char *out, size_t size, const char *word,
                      const char *const *words, size_t count);

/* Splits a line at its commas into at most CASE_CELLS trimmed cells; how many
 * there are. */
size_t case_cells(char *cell[CASE_CELLS], char *line);

/* Takes the next line that is neither blank nor a comment; NULL at the end.
 * `line` counts on. */
char *case_next_line(char **at, long *line);

/* Reads `text`, which it changes and the file then borrows. False: the fault
 * is in the report. */
bool case_read(case_file *file, const char *name, char *text,
               case_report *report);

#endif
