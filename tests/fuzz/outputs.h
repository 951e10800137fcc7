#ifndef BW_FUZZ_OUTPUTS_H
#define BW_FUZZ_OUTPUTS_H

/* Every form of one result, each held against the others. */

#include "bothways/bothways.h"

/* Whatever texts the wall has: every table as CSV and the JSON document have
 * the same rows, numbers and words; the document can be written in every
 * extent, as text and as a page, and the page parses. */
void fuzz_check_forms(const bw_results *results, bw_document document);

/* Of a wall whose texts are ours: besides, no number anywhere is "nan" or
 * "inf", text and page show the same numbers, and the rows of criteria on the
 * page are those of the assessment. */
void fuzz_check_figures(const bw_results *results, bw_document document);

#endif
