/* Stages that compute. */

#define BW_NO_FENCE /* no suite of Check */
#include "../one_document.h"
#include "stage.h"

#define COUNT(array) (sizeof(array) / sizeof(array)[0])

static const bw_assessment_options steady = {
    .no_transient = true, .no_advice = true, .threads = 1};

static bw_status assess(const bw_assembly *wall, const bw_climate *climate,
                        const bw_assessment_options *options, bw_error *err)
{
    bw_assessment *assessment = NULL;
    bw_status status = bw_assess(&assessment, wall, climate, options, err);
    if (status == BW_OK)
        status = bw_report_table(
            &(bw_results){.wall_count = 1,
                          .wall = (const bw_assessment *const *)&assessment},
            BW_TABLE_VERDICT, stage_take, NULL, err);
    bw_assessment_free(assessment);
    return status;
}

static bw_status steady_methods(const held *h, bw_error *err)
{
    bw_status status = BW_OK;
    for (size_t i = 0; i < WALLS && status == BW_OK; i++)
        status = assess(h->wall[i], h->climate, &steady, err);
    return status;
}

static bw_status profiles(const held *h, bw_error *err)
{
    bw_status status = BW_OK;
    for (size_t i = 1; i < bw_profiles_count(h->profiles) && status == BW_OK;
         i++) {
        bw_assessment_options options = steady;
        options.profile = bw_profiles_at(h->profiles, i);
        status = assess(h->wall[0], h->climate, &options, err);
    }
    return status;
}

/* A wall that fails, and what would mend it. */
static bw_status advice(const held *h, bw_error *err)
{
    const bw_assessment_options options = {.no_transient = true};
    bw_assessment *assessment = NULL;
    bw_status status = bw_assess(&assessment, h->wall[3], h->climate, &options,
                                 err);
    if (status == BW_OK)
        status = check_report(BW_FORM_TEXT, assessment, NULL, stage_take, NULL,
                              err);
    bw_assessment_free(assessment);
    return status;
}

static bw_status generator(const held *h, bw_error *err)
{
    bw_climate *year = NULL;
    bw_status status = bw_climate_generate(&year, h->climate, err);
    if (status == BW_OK)
        stage_take(NULL, (const char *)year->hour,
                   year->hour_count * sizeof year->hour[0]);
    bw_climate_free(year);
    return status;
}

/* ---- the simulation ---------------------------------------------------- */

/* Stops a run after its first steps. */
static bool stop_soon(void *payload, double fraction_done)
{
    (void)payload;
    return fraction_done < 0.0005;
}

/* What is stopped on purpose is no error. */
static bw_status as_told(bw_status status)
{
    return status == BW_ERR_CANCELLED ? BW_OK : status;
}

/* All its allocations come before the first step. */
static bw_status simulation(const held *h, bw_error *err)
{
    const bw_transient_options options = {
        .max_years = 1, .keep_hours = true, .progress = stop_soon};
    bw_transient_result result = {0};
    bw_status status = bw_transient(
        &result, h->wall[0], &h->sections->section[0], h->year, &options, err);
    bw_transient_free(&result);
    return as_told(status);
}

/* Three runs of a year. */
static bw_status convergence(const held *h, bw_error *err)
{
    bw_transient_convergence result = {0};
    bw_status status = bw_transient_converge(
        &result, h->wall[0], &h->sections->section[0], h->year, NULL, err);
    if (status == BW_OK)
        stage_take(NULL, (const char *)&result, sizeof result);
    return status;
}

/* Both sections on threads of their own, hours generated on the way. */
static bw_status simulation_threads(const held *h, bw_error *err)
{
    const bw_assessment_options options = {
        .no_advice = true,
        .synthetic_hours = true,
        .transient = {.max_years = 1, .progress = stop_soon}};
    bw_assessment *assessment = NULL;
    bw_status status = bw_assess(&assessment, h->wall[0], h->climate, &options,
                                 err);
    bw_assessment_free(assessment);
    return as_told(status);
}

/* ---- what assesses many times ------------------------------------------ */

static bw_status compare(const held *h, int threads, bw_equal equal,
                         bw_error *err)
{
    bw_compare_options options = {.equal = equal, .assessment = steady};
    options.assessment.threads = threads;
    const bw_climate *climates[3] = {h->climate, h->climate, h->climate};
    bw_comparison *comparison = NULL;
    bw_status status = bw_compare(&comparison,
                                  (const bw_assembly *const *)h->wall, climates,
                                  3, &options, err);
    if (status == BW_OK)
        status = bw_report_table(&(bw_results){.comparison = comparison},
                                 BW_TABLE_COMPARE, stage_take, NULL, err);
    bw_comparison_free(comparison);
    return status;
}

static bw_status compare_drawn(const held *h, bw_error *err)
{
    return compare(h, 1, BW_EQUAL_AS_DRAWN, err);
}

static bw_status compare_threads(const held *h, bw_error *err)
{
    return compare(h, 3, BW_EQUAL_U, err);
}

static bw_status margin(const held *h, int threads, size_t ensemble,
                        bw_error *err)
{
    bw_margin_options options = {.assessment = steady, .ensemble = ensemble};
    options.assessment.threads = threads;
    bw_margin *made = NULL;
    bw_status status = bw_margin_make(&made, h->wall[3], h->climate, &options,
                                      err);
    for (int t = BW_TABLE_MARGIN; t < BW_TABLE_MATERIALS && status == BW_OK;
         t++)
        status = bw_report_table(&(bw_results){.margin = made}, (bw_table)t,
                                 stage_take, NULL, err);
    bw_margin_free(made);
    return status;
}

static bw_status margin_alone(const held *h, bw_error *err)
{
    return margin(h, 1, 0, err);
}

static bw_status margin_threads(const held *h, bw_error *err)
{
    return margin(h, 3, 8, err);
}

static bw_status audit(const held *h, bw_error *err)
{
    bw_status status = BW_OK;
    for (size_t i = 5; i <= 6 && status == BW_OK; i++) {
        const bw_audit_options options = {
            .assessment = steady, .no_margin = true, .date = "2031-05-02"};
        bw_audit *made = NULL;
        status = bw_audit_make(&made, h->wall[i], h->climate, &options, err);
        if (status == BW_OK)
            status = audit_report(BW_FORM_TEXT, made, NULL, stage_take, NULL,
                                  err);
        bw_audit_free(made);
    }
    return status;
}

static bw_status audit_with_margin(const held *h, bw_error *err)
{
    const bw_audit_options options = {.assessment = steady};
    bw_audit *made = NULL;
    bw_status status = bw_audit_make(&made, h->wall[5], h->climate, &options,
                                     err);
    if (status == BW_OK)
        status = bw_report_table(&(bw_results){.audit = made}, BW_TABLE_AUDIT,
                                 stage_take, NULL, err);
    bw_audit_free(made);
    return status;
}

static bw_status house(const held *h, bw_error *err)
{
    bw_audit_options options = {
        .assessment = steady, .no_margin = true, .name = "house"};
    const bw_assembly *const walls[] = {h->wall[5], h->wall[6]};
    const bw_climate *const climates[] = {h->climate, h->climate};
    bw_house *made = NULL;
    bw_status status = bw_house_make(&made, walls, climates, 2, &options, err);
    const bw_results of = {.house = made};
    if (status == BW_OK)
        status = bw_report(&of, BW_DOCUMENT_HOUSE, BW_FORM_TEXT, NULL,
                           stage_take, NULL, err);
    if (status == BW_OK)
        status = bw_report(&of, BW_DOCUMENT_HOUSE, BW_FORM_PAGE, NULL,
                           stage_take, NULL, err);
    if (status == BW_OK)
        status = bw_report_table(&of, BW_TABLE_AUDIT, stage_take, NULL, err);
    if (status == BW_OK)
        status = bw_report_digests(&of, "sheet.txt", "00", stage_take, NULL,
                                   err);
    bw_house_free(made);
    return status;
}

static bw_status verify(const held *h, bw_error *err)
{
    (void)h;
    bw_verification *made = NULL;
    bw_status status = bw_audit_verify(&made, HELD_LIST, err);
    if (status == BW_OK && made->changes != 1) /* the version, no file */
        status = BW_ERR_NUMERIC;
    bw_verification_free(made);
    return status;
}

const stage method_stages[] = {
    {"steady", 500, steady_methods},
    {"profiles", 500, profiles},
    {"advice", 300, advice},
    {"generator", 0, generator},
    {"simulation", 0, simulation},
    {"convergence", 6, convergence},
    {"simulation-threads", 100, simulation_threads},
    {"compare", 400, compare_drawn},
    {"compare-threads", 100, compare_threads},
    {"margin", 40, margin_alone},
    {"margin-threads", 20, margin_threads},
    {"audit", 400, audit},
    {"audit-with-margin", 20, audit_with_margin},
    {"house", 200, house},
    {"verify", 0, verify},
};
const size_t method_stage_count = COUNT(method_stages);
