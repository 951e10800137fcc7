#ifndef BW_REPORT_EVIDENCE_H
#define BW_REPORT_EVIDENCE_H

/* What the record of closing up says, in words: sheet and table say the same.
 */

#include "bothways/audit.h"
#include "page.h"

/* Of a reading: how it was corrected, meter, wood, reader, photograph, note,
 * source; "" where nothing of it is known. */
const char *bw_reading_facts(bw_page *page, const bw_reading *reading);

/* Of an air test: uncertainty, tester, protocol, source; likewise. */
const char *bw_air_test_facts(bw_page *page, const bw_air_test *test);

/* Photographs that show a member: of its readings and of its part. */
const char *bw_photographs_of(bw_page *page, const bw_assembly *assembly,
                              const char *member);

/* Days until a member is dry, with the error of the meter; INFINITY: not within
 * a year. */
typedef struct bw_drying_range {
    double days, earliest, latest;
} bw_drying_range;

bw_drying_range bw_drying_range_of(const bw_drying_forecast *forecast,
                                   bw_site_way way);

#endif
