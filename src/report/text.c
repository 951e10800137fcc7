#include "parts.h"

enum { DEFAULT_WIDTH = 100, NARROWEST = 60, WIDEST = 200 };

static int held_width(int width)
{
    if (width == 0)
        return DEFAULT_WIDTH;
    if (width < NARROWEST)
        return NARROWEST;
    return width > WIDEST ? WIDEST : width;
}

bw_status bw_report_text(const bw_assessment *assessment,
                         const bw_report_options *options, bw_sink *sink,
                         void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    bw_page page = {.width = held_width(given.width), .colour = given.colour};
    bw_writer_start(&page.out, sink, payload);
    bw_print_summary(&page, assessment, &given);
    if (!given.quiet) {
        bw_print_criteria(&page, assessment);
        bw_print_cross_check(&page, assessment);
        bw_print_scope(&page, assessment);
        bw_print_layers(&page, assessment);
        bw_print_thermal(&page, assessment);
        bw_print_transient(&page, assessment);
        bw_print_months(&page, assessment);
        bw_print_directions(&page, assessment);
        bw_print_surface(&page, assessment);
        bw_print_assumptions(&page, assessment, &given);
        bw_print_sources(&page);
        bw_print_cautions(&page);
    }
    return bw_page_finish(&page, "the report", err);
}
