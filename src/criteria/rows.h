#ifndef BW_CRITERIA_ROWS_H
#define BW_CRITERIA_ROWS_H

/* The rows of the verdict as they are judged, one section at a time. */

#include "arena.h"
#include "bothways/assessment.h"
#include "rules.h"

typedef struct bw_row {
    bw_criterion_id id;
    bool informative; /* here, though the criterion may decide elsewhere */
    bw_criterion row;
} bw_row;

/* Rows under construction. Running out of memory is remembered, not
 * returned, so that judging reads as judging; check once at the end. */
typedef struct bw_rows {
    bw_arena *arena;
    const bw_limits *limits;
    const char *section;
    bool assumed; /* a layer of the section is only assumed */
    size_t count, capacity;
    bw_row *row;
    bool out_of_memory;
    bw_row nowhere; /* written, never read, when out of memory */
} bw_rows;

/* The value must not exceed / not fall below the limit. A value that is not
 * a number is not assessed. */
bw_row *bw_rows_most(bw_rows *rows, bw_criterion_id id, double value,
                     double limit, const char *reason);
bw_row *bw_rows_least(bw_rows *rows, bw_criterion_id id, double value,
                      double limit, const char *reason);
/* A value without a limit. */
bw_row *bw_rows_info(bw_rows *rows, bw_criterion_id id, double value,
                     const char *reason);
/* No value at all. */
bw_row *bw_rows_none(bw_rows *rows, bw_criterion_id id, const char *reason);

/* The row of a criterion in `section`, or NULL. */
bw_row *bw_rows_find(const bw_rows *rows, const char *section,
                     bw_criterion_id id);

/* Margin as a share of the limit, for ranking; of 0.1 in the row's unit where
 * the limit is zero. Only for rows with value and limit. */
double bw_row_relative_margin(const bw_row *row);

/* Text in the rows' arena; never NULL. Numbers by bw_say_number only. */
const char *bw_say(bw_rows *rows, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
const char *bw_say_number(bw_rows *rows, double value, int decimals);

/* Where a plane is, with its preposition: "between A and B". */
const char *bw_say_plane(bw_rows *rows, const bw_section *section,
                         bw_plane_at at);

#endif
