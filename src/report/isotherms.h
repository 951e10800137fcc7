#ifndef BW_REPORT_ISOTHERMS_H
#define BW_REPORT_ISOTHERMS_H

/* Isotherms of a junction, with their temperatures. */

#include "bothways/assessment.h"
#include "field.h"
#include "page.h"

/* In the box of the chart, whose ranges are set. taken: where labels stand
 * already, and then those of the isotherms. *step: K between two. */
void bw_isotherms_draw(bw_page *page, bw_chart *chart,
                       const bw_junction_assessment *a, int month,
                       bw_taken *taken, double *step);

#endif
