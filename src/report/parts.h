#ifndef BW_REPORT_PARTS_H
#define BW_REPORT_PARTS_H

/* The parts of the text report, in the order they are printed. */

#include "bothways/report.h"
#include "page.h"

void bw_print_summary(bw_page *page, const bw_assessment *assessment,
                      const bw_report_options *options);
/* In the summary: what the verdict rests on. */
void bw_print_mind(bw_page *page, const bw_assessment *assessment,
                   const bw_report_options *options);
/* A sentence about the year that was simulated; NULL if none is due. */
const char *bw_year_caution(const bw_assessment *assessment);
void bw_print_criteria(bw_page *page, const bw_assessment *assessment);
void bw_print_scope(bw_page *page, const bw_assessment *assessment);
void bw_print_layers(bw_page *page, const bw_assessment *assessment);
void bw_print_thermal(bw_page *page, const bw_assessment *assessment);
void bw_print_months(bw_page *page, const bw_assessment *assessment);
void bw_print_directions(bw_page *page, const bw_assessment *assessment);
void bw_print_surface(bw_page *page, const bw_assessment *assessment);
void bw_print_transient(bw_page *page, const bw_assessment *assessment);
void bw_print_assumptions(bw_page *page, const bw_assessment *assessment,
                          const bw_report_options *options);
void bw_print_sources(bw_page *page);
void bw_print_cautions(bw_page *page);

#endif
