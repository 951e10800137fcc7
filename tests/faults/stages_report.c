/* Stages that print what was computed before. */

#define BW_NO_FENCE /* no suite of Check */
#include "../one_document.h"
#include "stage.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static bw_status text(const held *h, bw_error *err)
{
    bw_status status = check_report(BW_FORM_TEXT, h->hourly, NULL, stage_take,
                                    NULL, err);
    return status == BW_OK ? check_report(BW_FORM_TEXT, h->steady, NULL,
                                          stage_take, NULL, err)
                           : status;
}

static bw_status tables(const held *h, bw_error *err)
{
    const bw_assessment *wall = h->hourly;
    const bw_results results = {.wall_count = 1,
                                .wall = &wall,
                                .step = 730,
                                .margin = h->margin,
                                .audit = h->audit};
    bw_status status = BW_OK;
    for (int t = 0; t < BW_TABLE_COUNT && status == BW_OK; t++)
        status = bw_report_table(&results, (bw_table)t, stage_take, NULL, err);
    return status == BW_OK ? bw_report_json(&results, stage_take, NULL, err)
                           : status;
}

static bw_status page(const held *h, bw_error *err)
{
    return check_report(BW_FORM_PAGE, h->steady, NULL, stage_take, NULL, err);
}

static bw_status page_of_hours(const held *h, bw_error *err)
{
    return check_report(BW_FORM_PAGE, h->hourly, NULL, stage_take, NULL, err);
}

static bw_status compare_text(const held *h, bw_error *err)
{
    return compare_report(BW_FORM_TEXT, h->comparison, NULL, stage_take, NULL,
                          err);
}

static bw_status compare_page(const held *h, bw_error *err)
{
    return compare_report(BW_FORM_PAGE, h->comparison, NULL, stage_take, NULL,
                          err);
}

static bw_status margin_text(const held *h, bw_error *err)
{
    return margin_report(BW_FORM_TEXT, h->margin, NULL, stage_take, NULL, err);
}

static bw_status margin_page(const held *h, bw_error *err)
{
    return margin_report(BW_FORM_PAGE, h->margin, NULL, stage_take, NULL, err);
}

static bw_status audit_text(const held *h, bw_error *err)
{
    return audit_report(BW_FORM_TEXT, h->audit, NULL, stage_take, NULL, err);
}

static bw_status audit_page(const held *h, bw_error *err)
{
    return audit_report(BW_FORM_PAGE, h->audit, NULL, stage_take, NULL, err);
}

const stage report_stages[] = {
    {"text", 500, text},
    {"tables", 500, tables},
    {"page", 200, page},
    {"page-of-hours", 100, page_of_hours},
    {"compare-text", 500, compare_text},
    {"compare-page", 200, compare_page},
    {"margin-text", 500, margin_text},
    {"margin-page", 200, margin_page},
    {"audit-text", 500, audit_text},
    {"audit-page", 200, audit_page},
};
const size_t report_stage_count = COUNT(report_stages);
