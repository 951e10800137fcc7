#ifndef BW_REPORT_AUDIT_PARTS_H
#define BW_REPORT_AUDIT_PARTS_H

/* The parts of the reviewer's sheet that the check report does not have. They
 * fill any form of page. */

#include "bothways/audit.h"
#include "page.h"

/* The whole sheet; quiet: the hold point alone. */
void bw_print_audit(bw_page *page, const bw_audit *audit,
                    const bw_report_options *options);

void bw_print_audit_identity(bw_page *page, const bw_audit *audit);
void bw_print_audit_method(bw_page *page, const bw_audit *audit);
void bw_print_audit_values(bw_page *page, const bw_audit *audit);
void bw_print_audit_climate(bw_page *page, const bw_audit *audit);
void bw_print_audit_moisture(bw_page *page, const bw_audit *audit);
void bw_print_audit_sensitivity(bw_page *page, const bw_audit *audit);
void bw_print_audit_air_test(bw_page *page, const bw_audit *audit);
void bw_print_audit_readings(bw_page *page, const bw_audit *audit);
void bw_print_audit_hold_point(bw_page *page, const bw_audit *audit);

/* "before the interim test" and so on. */
const char *bw_reading_when_text(bw_reading_when when);

#endif
