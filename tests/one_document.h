#ifndef BW_TEST_ONE_DOCUMENT_H
#define BW_TEST_ONE_DOCUMENT_H

/* One document of one result. */

#include "bothways/bothways.h"
#ifndef BW_NO_FENCE
#include "fenced_results.h"
#endif

static inline bw_status check_report(bw_form form, const bw_assessment *wall,
                                     const bw_report_options *options,
                                     bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = {.wall_count = 1, .wall = &wall};
    return bw_report(&of, BW_DOCUMENT_CHECK, form, options, sink, to, err);
}

static inline bw_status audit_report(bw_form form, const bw_audit *audit,
                                     const bw_report_options *options,
                                     bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = {.wall_count = 1,
                           .wall = &audit->assessment,
                           .audit = audit,
                           .margin = audit->margin};
    return bw_report(&of, BW_DOCUMENT_AUDIT, form, options, sink, to, err);
}

static inline bw_status margin_report(bw_form form, const bw_margin *margin,
                                      const bw_report_options *options,
                                      bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = {
        .wall_count = 1, .wall = &margin->assessment, .margin = margin};
    return bw_report(&of, BW_DOCUMENT_MARGIN, form, options, sink, to, err);
}

static inline bw_status compare_report(bw_form form, const bw_comparison *c,
                                       const bw_report_options *options,
                                       bw_sink *sink, void *to, bw_error *err)
{
    const bw_results of = {.comparison = c};
    return bw_report(&of, BW_DOCUMENT_COMPARE, form, options, sink, to, err);
}

#endif
