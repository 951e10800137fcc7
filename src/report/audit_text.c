/* The reviewer's sheet, in order: what is signed for first, then every input
 * and number it rests on, the evidence, and the hold point. */

#include "audit_parts.h"
#include "parts.h"

enum { DEFAULT_WIDTH = 100, NARROWEST = 60, WIDEST = 200 };

static void print_head(bw_page *page, const bw_audit *audit)
{
    const bw_assembly *assembly = audit->assessment->assembly;
    bw_page_bold(page, true);
    bw_page_text(
        page, 0, 2,
        bw_phrase(page, "Audit sheet: %s",
                  assembly->title[0] != '\0' ? assembly->title : assembly->id));
    bw_page_bold(page, false);
    bw_page_blank(page);
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 bw_phrase(page, "Hold point before closing up: %s",
                           audit->released ? "released" : "NOT released"));
    bw_page_bold(page, false);
    if (audit->released)
        bw_page_item(page, "the verdict, the interim air test and the readings "
                           "of every member leave no reason to keep it closed");
    for (size_t i = 0; i < audit->open_count; i++)
        bw_page_item(page, audit->open[i].text);
    bw_page_blank(page);
    bw_page_bold(page, true);
    bw_page_text(page, 0, 2,
                 bw_phrase(page, "Verdict: %s",
                           bw_verdict_text(audit->assessment->verdict)));
    bw_page_bold(page, false);
    bw_page_text(page, 2, 2, audit->assessment->verdict_reason);
    bw_print_not_simulated(page, audit->assessment);
}

void bw_print_audit(bw_page *page, const bw_audit *audit,
                    const bw_report_options *options)
{
    const bw_assessment *assessment = audit->assessment;
    print_head(page, audit);
    if (options->quiet)
        return;
    bw_page_blank(page);
    bw_print_simulated(page, assessment);
    bw_print_audit_identity(page, audit);
    bw_print_audit_method(page, audit);
    bw_print_scope(page, assessment);
    bw_print_layers(page, assessment);
    bw_print_audit_values(page, audit);
    bw_print_thermal(page, assessment);
    bw_print_audit_climate(page, audit);
    bw_print_audit_moisture(page, audit);
    bw_print_months(page, assessment);
    bw_print_criteria(page, assessment);
    bw_print_cross_check(page, assessment);
    bw_print_directions(page, assessment);
    bw_print_audit_sensitivity(page, audit);
    bw_print_surface(page, assessment);
    bw_print_transient(page, assessment);
    bw_print_audit_air_test(page, audit);
    bw_print_audit_readings(page, audit);
    bw_print_audit_hold_point(page, audit);
    bw_print_assumptions(page, assessment, options);
    bw_print_sources(page);
    bw_print_cautions(page);
}

bw_status bw_report_audit_text(const bw_audit *audit,
                               const bw_report_options *options, bw_sink *sink,
                               void *payload, bw_error *err)
{
    bw_report_options given = {0};
    if (options != NULL)
        given = *options;
    int width = given.width == 0 ? DEFAULT_WIDTH : given.width;
    width = width < NARROWEST ? NARROWEST : width;
    bw_page page = {.width = width > WIDEST ? WIDEST : width,
                    .colour = given.colour};
    bw_writer_start(&page.out, sink, payload);
    bw_print_audit(&page, audit, &given);
    return bw_page_finish(&page, "the audit sheet", err);
}
