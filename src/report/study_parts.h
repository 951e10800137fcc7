#ifndef BW_REPORT_STUDY_PARTS_H
#define BW_REPORT_STUDY_PARTS_H

/* The parts of a margin and of a comparison, for every form of page. */

#include "bothways/compare.h"
#include "bothways/margin.h"
#include "page.h"

void bw_print_margin_answer(bw_page *page, const bw_margin *m);
void bw_print_margin_unknowns(bw_page *page, const bw_margin *m);
/* margin_simulated.c: two sentences on the cases simulated, the dampest room,
 * and the list of the cases with what was not varied. */
void bw_print_margin_simulated_answer(bw_page *page, const bw_margin *m);
void bw_print_margin_damp(bw_page *page, const bw_margin *m);
void bw_print_margin_simulated(bw_page *page, const bw_margin *m);
const char *bw_figure_words(bw_page *page, const bw_figure *f);
void bw_print_margin_combination(bw_page *page, const bw_margin *m);
void bw_print_margin_map(bw_page *page, const bw_margin *m);
void bw_print_margin_ensemble(bw_page *page, const bw_margin *m);

/* "1 criterion fails", "2 criteria fail" */
const char *bw_fail_count(bw_page *page, size_t count);

/* "the wall holds, 0 criteria fail; closest is surface-mould": the worst
 * combination. */
const char *bw_worst_words(bw_page *page, const bw_margin *m);

void bw_print_compare_equal(bw_page *page, const bw_comparison *c);
void bw_print_compare_table(bw_page *page, const bw_comparison *c);
void bw_print_compare_sentences(bw_page *page, const bw_comparison *c);

#endif
