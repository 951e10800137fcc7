/* The check as a page: the text report's parts, in its order, with charts. */

#include "html.h"
#include "parts.h"

void bw_html_check(bw_html *html, const bw_assessment *assessment,
                   const bw_report_options *options)
{
    bw_page *page = &html->page;
    bw_print_summary(page, assessment, options);
    if (options->quiet)
        return;
    bw_html_drawing(html, assessment);
    bw_print_criteria(page, assessment);
    bw_print_cross_check(page, assessment);
    bw_print_scope(page, assessment);
    bw_print_layers(page, assessment);
    bw_print_thermal(page, assessment);
    bw_print_transient(page, assessment);
    bw_html_hours(html, assessment);
    bw_html_vapour(html, assessment);
    bw_html_water(html, assessment);
    bw_print_months(page, assessment);
    bw_print_directions(page, assessment);
    bw_html_drying(html, assessment);
    bw_html_membranes(html, assessment);
    bw_print_surface(page, assessment);
    bw_print_assumptions(page, assessment, options);
    bw_print_sources(page);
    bw_print_cautions(page);
}

bw_status bw_report_html(const bw_assessment *assessment,
                         const bw_report_options *options, bw_sink *sink,
                         void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    const bw_assembly *assembly = assessment->assembly;
    bw_html html;
    bw_html_start(&html, sink, payload,
                  assembly->title[0] != '\0' ? assembly->title : assembly->id,
                  "Moisture check");
    bw_html_check(&html, assessment, &given);
    return bw_html_finish(&html, err);
}
