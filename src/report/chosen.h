#ifndef BW_REPORT_CHOSEN_H
#define BW_REPORT_CHOSEN_H

/* How the designs and findings of a choice are called. */

#include "bothways/choose.h"
#include "page.h"

/* "8.9 %" */
const char *bw_share_words(bw_page *page, double share);

/* "holds", "holds, marginally", "breaks", "not assessed". */
const char *bw_standing_words(const bw_design *design);

/* How many designs of the front stand in a table. */
size_t bw_front_shown(const bw_page *page, const bw_chosen *c);

/* "3/32", failed of drawn; "-" where none were. */
const char *bw_drawn_words(bw_page *page, const bw_chosen *c,
                           const bw_design *design);

/* "A", "B", ... of a finding. */
const char *bw_finding_letter(bw_page *page, size_t finding);

/* What a cell of the table says: one short word. A cell that nothing judged
 * never says that it holds. */
const char *bw_found_word(const bw_found_alone *found);

/* "mu of the sheathing (5 to 400)" */
const char *bw_finding_words(bw_page *page, const bw_finding *finding);

#endif
