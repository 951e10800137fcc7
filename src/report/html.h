#ifndef BW_REPORT_HTML_H
#define BW_REPORT_HTML_H

/* A report as one HTML page that needs nothing else: the parts of the text
 * report in another form (bw_page_form), and charts between them. */

#include "bothways/assessment.h"
#include "bothways/margin.h"
#include "bothways/report.h"
#include "chart.h"
#include "page.h"

/* What is open on the page: pairs and items gather into one list. */
typedef enum bw_html_list {
    BW_LIST_NONE,
    BW_LIST_ITEMS,
    BW_LIST_PAIRS,
} bw_html_list;

typedef struct bw_html {
    bw_page page; /* first: the form's functions get a bw_page */
    bw_markup out;
    bw_html_list list;
    bool has_title, in_section, in_plates;
    int parts; /* subheadings, for labels of tables */
    const char *last_title;
} bw_html;

/* Opens the page; `kind` names it ("Moisture check"). */
void bw_html_start(bw_html *html, bw_sink *sink, void *payload,
                   const char *title, const char *kind);
bw_status bw_html_finish(bw_html *html, bw_error *err);

/* Text with units set as people write them and sources linked. */
void bw_html_text(bw_html *html, const char *text);

/* Ends an open list, before anything else is put down. */
void bw_html_end_list(bw_html *html);

/* The looks, in parts. */
void bw_html_style(bw_markup *out);

/* Charts side by side where the page is wide enough; `kind` "plates" or
 * "small". */
void bw_html_plates(bw_html *html, const char *kind);
void bw_html_plates_end(bw_html *html);

/* One chart with its caption below. The caption is written at the end. */
void bw_html_figure(bw_html *html, const char *chart, const char *section,
                    const char *run);
void bw_html_figure_end(bw_html *html, const char *caption);

/* Folded away on the screen, open in print. */
void bw_html_fold(bw_html *html, const char *summary);
void bw_html_fold_end(bw_html *html);

/* The charts of a check, each with its heading; nothing where there is
 * nothing to draw. */
void bw_html_hatches(bw_html *html);
void bw_html_drawing(bw_html *html, const bw_assessment *assessment);
void bw_html_vapour(bw_html *html, const bw_assessment *assessment);
void bw_html_water(bw_html *html, const bw_assessment *assessment);
void bw_html_drying(bw_html *html, const bw_assessment *assessment);
void bw_html_membranes(bw_html *html, const bw_assessment *assessment);
void bw_html_hours(bw_html *html, const bw_assessment *assessment);

void bw_html_margin_bars(bw_html *html, const bw_margin *margin);
void bw_html_margin_map(bw_html *html, const bw_margin *margin);

/* The class of the hatch a material is drawn with, "air" for NULL. */
const char *bw_hatch_name(const bw_material *material);

/* Everything of a check, without the page around it. */
void bw_html_check(bw_html *html, const bw_assessment *assessment,
                   const bw_report_options *options);

/* "between-studs" as people say it: "Between studs". */
const char *bw_html_section_name(bw_html *html, const char *name);

#endif
