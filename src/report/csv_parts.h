#ifndef BW_REPORT_CSV_PARTS_H
#define BW_REPORT_CSV_PARTS_H

/* The rows of the tables of a simulation's findings, without the header. */

#include "bothways/assessment.h"
#include "page.h"

void bw_csv_wetting_rows(bw_page *page, const bw_assessment *assessment);
void bw_csv_damage_rows(bw_page *page, const bw_assessment *assessment);

#endif
