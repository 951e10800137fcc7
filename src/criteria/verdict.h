#ifndef BW_CRITERIA_VERDICT_H
#define BW_CRITERIA_VERDICT_H

/* From judged rows to a verdict: screening, the bound run, what decides. */

#include "rows.h"

/* It holds, if only just. */
static inline bool bw_verdict_good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

/* Folds the bound run's rows of a section into the design rows: a criterion
 * that holds in one and fails in the other is marginal. */
void bw_verdict_bound(bw_rows *rows, const bw_rows *bound);

/* Says what the rows of the monthly and the period method are to the verdict
 * of one section (bw_criterion_role). `beyond` their limits they are screening:
 * shown beside a simulation; without one they may fail the wall and never hold
 * it. Within, they decide alone, and beside a simulation are its cross-check:
 * what they fail makes the wall marginal. */
void bw_verdict_screen(bw_rows *rows, bool beyond, bool has_transient);

/* Sets `verdict` of every row from its outcome, and `decides`. */
void bw_verdict_settle(bw_rows *rows);

/* Rows in the order of the criteria (within a section; stable). */
void bw_verdict_sort(bw_rows *rows);

/* Of all rows that decide: fails, else not assessed, else marginal, else
 * holds. With none that decides: not assessed. */
bw_verdict bw_verdict_overall(const bw_rows *rows);

/* The row that the sentence names: of those with the overall verdict the one
 * furthest beyond its limit; where all hold the one closest to it. NULL: none.
 */
const bw_row *bw_verdict_row(const bw_rows *rows);

/* The sentence to the overall verdict. */
const char *bw_verdict_reason(bw_rows *rows, const bw_scope_item *scope,
                              size_t scope_count);

#endif
