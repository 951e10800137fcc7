#ifndef BW_REPORT_GETS_IN_H
#define BW_REPORT_GETS_IN_H

/* What is stated to get into a junction, in words. */

#include "bothways/assessment.h"
#include "page.h"

/* Has an earlier leak said this one, too? A wall's own has a line for each way
 * that it goes. */
bool bw_leak_is_told(const bw_junction *j, size_t k);

/* "At "below the frame": 1 % of the driving rain on 1.2 m of outer face, ..."
 */
const char *bw_leak_said(bw_page *page, const bw_drawn_leak *leak);

/* "Air of "room" to "end": 0.5 m3 an hour and metre, all year, ..." */
const char *bw_air_said(bw_page *page, const bw_junction *j,
                        const bw_drawn_air *air);

#endif
