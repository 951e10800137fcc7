/* The reviewer's sheet as a page: the sheet as it is, then the drawings. */

#include "audit_parts.h"
#include "html.h"
#include "study_parts.h"

static void draw_all(bw_html *html, const bw_audit *audit)
{
    const bw_assessment *assessment = audit->assessment;
    bw_html_drawing(html, assessment);
    bw_html_vapour(html, assessment);
    bw_html_water(html, assessment);
    bw_html_drying(html, assessment);
    bw_html_membranes(html, assessment);
    bw_html_hours(html, assessment);
    if (audit->margin != NULL) {
        bw_html_margin_bars(html, audit->margin);
        bw_print_margin_map(&html->page, audit->margin);
        bw_html_margin_map(html, audit->margin);
    }
}

bw_status bw_report_audit_html(const bw_audit *audit,
                               const bw_report_options *options, bw_sink *sink,
                               void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    const bw_assembly *assembly = audit->assessment->assembly;
    bw_html html;
    bw_html_start(&html, sink, payload,
                  assembly->title[0] != '\0' ? assembly->title : assembly->id,
                  "Audit sheet");
    bw_print_audit(&html.page, audit, &given);
    if (!given.quiet)
        draw_all(&html, audit);
    return bw_html_finish(&html, err);
}
