#ifndef BW_CRITERIA_ROWS_H
#define BW_CRITERIA_ROWS_H

/* The rows of the verdict as they are judged, one section at a time. */

#include "arena.h"
#include "bothways/assessment.h"
#include "criterion.h"

typedef struct bw_row {
    bw_criterion_id id;
    bool informative; /* here, though the criterion may decide elsewhere */
    bw_criterion row;
} bw_row;

/* Rows under construction. Running out of memory is remembered by the arena,
 * not returned, so that judging reads as judging; check once at the end. */
typedef struct bw_rows {
    bw_arena *arena;
    const bw_profile *profile; /* NULL: the default */
    const char *section;
    bool assumed; /* a layer of the section is only assumed */
    size_t count, room;
    bw_row *row;
    bw_row nowhere; /* written, never read, when out of memory */
} bw_rows;

/* The limit k of a criterion under a profile (NULL: the default): the
 * default's, or the rule's where that is stricter: whatever a profile holds, no
 * limit is looser than the default's. */
double bw_limit_under(const bw_profile *profile, bw_criterion_id id, size_t k);

/* Does a profile (NULL: none) want this to decide? */
bool bw_demanded(const bw_profile *profile, bw_profile_demand demand);

/* Holds, marginal or fails by the criterion's own limit; or by one of the
 * judge's, where there are several or it is no constant. A value that is not a
 * number is not assessed. */
bw_row *bw_rows_judge(bw_rows *rows, bw_criterion_id id, double value,
                      const char *reason);
bw_row *bw_rows_against(bw_rows *rows, bw_criterion_id id, double value,
                        double limit, const char *reason);
/* What the number alone does not tell: the row is no better, or no worse, than
 * this. One without a number stays as it is. */
void bw_row_at_best(bw_row *row, bw_verdict verdict);
void bw_row_at_worst(bw_row *row, bw_verdict verdict);
/* A value without a limit. */
bw_row *bw_rows_value(bw_rows *rows, bw_criterion_id id, double value,
                      const char *reason);
/* No value at all. Never NULL, as all of these. */
bw_row *bw_rows_none(bw_rows *rows, bw_criterion_id id, const char *reason);

/* The row of a criterion in `section`, or NULL. */
bw_row *bw_rows_find(const bw_rows *rows, const char *section,
                     bw_criterion_id id);

/* Margin as a share of the limit, for ranking; of 0.1 in the row's unit where
 * the limit is zero. Only for rows with value and limit. */
double bw_row_relative_margin(const bw_row *row);

/* Text in the rows' arena; never NULL. */
#define bw_say(rows, ...) bw_arena_say((rows)->arena, __VA_ARGS__)

/* Where a plane is, with its preposition: "between A and B". */
const char *bw_say_plane(bw_rows *rows, const bw_section *section,
                         bw_plane_at at);
const char *bw_say_face(bw_rows *rows, const bw_section *section,
                        const bw_monitor *monitor);

#endif
