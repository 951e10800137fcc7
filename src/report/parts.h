#ifndef BW_REPORT_PARTS_H
#define BW_REPORT_PARTS_H

/* The parts of the text report, in the order they are printed. */

#include "bothways/report.h"
#include "page.h"

void bw_print_summary(bw_page *page, const bw_assessment *assessment,
                      const bw_report_options *options);
/* In the summary: the figures that decide, why a section has none, and those
 * of the monthly method. */
bool bw_is_simulated(const bw_assessment *assessment); /* some section */
void bw_print_simulated(bw_page *page, const bw_assessment *assessment);
void bw_print_not_simulated(bw_page *page, const bw_assessment *assessment);
void bw_print_by_months(bw_page *page, const bw_assessment *assessment);
/* In the summary: what the verdict rests on. */
/* What was changed while the wall was read; nothing if nothing was. */
void bw_print_changes(bw_page *page, const bw_assembly *assembly);

void bw_print_mind(bw_page *page, const bw_assessment *assessment,
                   const bw_report_options *options);
/* A sentence about the year that was simulated; NULL if none is due. */
const char *bw_year_caution(const bw_assessment *assessment);
void bw_print_criteria(bw_page *page, const bw_assessment *assessment);
/* The rows of the standards' monthly and period methods beside a simulation;
 * nothing without one. */
void bw_print_cross_check(bw_page *page, const bw_assessment *assessment);
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
