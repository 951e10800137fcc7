#ifndef BW_REPORT_HTML_PLOT_H
#define BW_REPORT_HTML_PLOT_H

/* What the charts of a wall have in common. */

#include "html.h"

enum { BW_PLOT_FACES = 64, BW_PLOT_POINTS = 512 };

/* The month, 0..11, with the coldest or warmest air outside. */
int bw_coldest_month(const bw_section_assessment *section);
int bw_warmest_month(const bw_section_assessment *section);

/* The design run has something to draw. */
bool bw_has_planes(const bw_section_assessment *section);

/* Letters J F M ... below a year that begins with month `first`; x of the
 * chart runs over 0..12. */
void bw_month_axis(bw_chart *chart, int first);

/* Water is in g/m2 up to some kilograms, then in kg/m2: factor and unit. */
double bw_water_factor(double most, const char **unit);

#endif
