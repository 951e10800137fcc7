#ifndef BW_REPORT_COMPARED_H
#define BW_REPORT_COMPARED_H

/* How a row of a comparison is said. */

#include "bothways/compare.h"
#include "grid.h"

typedef enum bw_common {
    BW_COMMON_NONE, /* no wall has a limit */
    BW_COMMON_ONE,  /* they share it */
    BW_COMMON_OWN,  /* each has its own */
} bw_common;

bw_common bw_row_limit(const bw_compare_row *row, size_t walls, double *limit);

/* Metres become mm; "" where there is none. */
const char *bw_row_unit(const char *unit);
const char *bw_row_value(bw_page *page, const char *unit, double value);

/* "(shown only)" where it decides for none of the walls. */
const char *bw_row_title(bw_page *page, const bw_compare_row *row,
                         size_t count);

/* The verdict first, as in the check; then the figure behind it. */
const char *bw_row_cell(bw_page *page, const bw_comparison *all,
                        const bw_compare_row *row, size_t wall);

/* "18.3 %", "3". */
const char *bw_row_amount(bw_page *page, double value, const char *unit);

/* What decides under a stress: "panel moisture 24 % (limit 18)"; "": nothing.
 */
const char *bw_stressed_figure(bw_page *page, const bw_stressed *s);

/* The limit where all walls share it, "" where there is none, "*" where each
 * has its own. */
const char *bw_row_limit_text(bw_page *page, const bw_compare_row *row,
                              size_t count);

/* With what the months alone say, where they may not say it. */
const char *bw_compared_verdict(bw_page *page, const bw_compared *wall);

/* More than stand beside each other on one screen, where one is asked for;
 * fewer, if that is too short for them. */
bool bw_walls_are_many(const bw_page *page, const bw_comparison *c);

/* What a wall is called: its label; on one screen a letter where one of them
 * has too long a label for the head of a column. */
const char *bw_compared_name(bw_page *page, const bw_comparison *c,
                             size_t wall);

/* Some of the walls, in columns: those in [from, to). */
typedef struct bw_walls_shown {
    const bw_comparison *of;
    size_t from, to;
    const void *what; /* the caller's */
} bw_walls_shown;

typedef void bw_walls_fill(bw_page *page, bw_grid *grid,
                           const bw_walls_shown *shown);

/* A table with a column a wall: as many walls side by side as the page is wide,
 * the others below. */
void bw_walls_side_by_side(bw_page *page, const bw_comparison *c,
                           bw_walls_fill *fill, const void *what);

#endif
