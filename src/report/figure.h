#ifndef BW_REPORT_FIGURE_H
#define BW_REPORT_FIGURE_H

/* What parts that are drawn (BW_DRAWN) build with; their page is HTML. */

#include "bothways/material.h"
#include "chart.h"
#include "page.h"

/* Charts side by side where the page is wide enough; `kind` "plates" or
 * "small". They are opened by the first that is drawn; false: there was none.
 */
void bw_plates(bw_page *page, const char *kind);
bool bw_plates_end(bw_page *page);

/* One chart with its caption below, which is written at the end. */
void bw_figure_start(bw_page *page, const char *chart, const char *section,
                     const char *run);
void bw_figure_end(bw_page *page, const char *format, ...) BW_PRINTF(2, 3);

/* Of it, in this order: its values, nine digits each, and the drawing, which
 * `format` describes. */
void bw_figure_data(bw_page *page, const char *name, const double *value,
                    size_t count);
void bw_figure_chart(bw_page *page, bw_chart *chart, double width,
                     double height, const char *title, const char *format, ...)
    BW_PRINTF(6, 7);

/* Before what stands among charts and is none; and where to. */
void bw_figure_begin(bw_page *page);
bw_markup *bw_page_markup(bw_page *page);

/* Text with units set as people write them. */
void bw_html_text(bw_page *page, const char *text);

/* Folded away on the screen, open in print. */
void bw_fold(bw_page *page, const char *summary);
void bw_fold_end(bw_page *page);

/* "between-studs" as people say it: "Between studs". */
const char *bw_section_title(bw_page *page, const char *name);

/* A layer of a section by places on the paper; NULL: air. */
void bw_hatched(bw_page *page, bw_chart *chart, const bw_material *material,
                double left, double top, double width, double height);

#endif
