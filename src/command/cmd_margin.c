/* bothways margin: how far each unknown of one wall may go. */

#include "bothways/bothways.h"
#include "bothways/margin.h"
#include "emit.h"
#include "fail.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

/* Cases of the unknowns to simulate: a minute or a few. */
enum { SIMULATIONS = 12 };

static bw_status check_count(const settings *given, bw_error *err)
{
    if (given->transient && given->monthly_only)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--transient simulates every case and --monthly-only "
                       "none; give one of them");
    if (given->operand_count == 1)
        return BW_OK;
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "margin takes one assembly file, %zu given: bothways margin "
                   "WALL.xml",
                   given->operand_count);
}

static bw_status compute(bw_margin **out, const walls *all,
                         const settings *given, bw_error *err)
{
    progress_bar bar;
    progress_start(&bar, "margin", given);
    bw_margin_options options = {
        .assessment = {.no_transient = given->monthly_only,
                       .synthetic_hours = !given->no_synthetic_hours,
                       .profile = given->profile,
                       .transient = settings_transient(given)},
        .simulations = given->transient ? 0 : SIMULATIONS,
        .wide = true,
        .ensemble = given->ensemble,
        .ensemble_transient = given->transient,
        .threads = given->threads,
        .progress = progress_show,
        .payload = &bar};
    options.assessment.transient.keep_hours = emit_keeps_hours(given);
    bw_status status = bw_margin_make(out, all->assembly[0], all->climate[0],
                                      &options, err);
    progress_end(&bar);
    return status;
}

static bw_status write_report(const bw_margin *result, const settings *given,
                              bw_error *err)
{
    const bw_results results = {
        .wall_count = 1, .wall = &result->assessment, .margin = result};
    bw_report_options options = {.width = terminal_width(given),
                                 .colour = terminal_colour(given),
                                 .quiet = given->quiet};
    bw_output output;
    BW_TRY(emit_tables(given, &results, err));
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK && given->format == FORMAT_TEXT)
        status = bw_report_margin_text(result, &options, bw_output_write,
                                       &output, err);
    else if (status == BW_OK && given->format == FORMAT_HTML)
        status = bw_report_margin_html(result, &options, bw_output_write,
                                       &output, err);
    else if (status == BW_OK)
        status = emit_data(&output, given, &results, BW_TABLE_MARGIN, err);
    return emit_close(&output, status, err);
}

static int run_margin(const settings *given)
{
    walls all = {0};
    bw_margin *result = NULL;
    bw_error err = {0};
    bw_status status = check_count(given, &err);
    if (status == BW_OK)
        status = walls_read(&all, given, &err);
    if (status == BW_OK)
        status = compute(&result, &all, given, &err);
    if (status == BW_OK)
        status = write_report(result, given, &err);
    int code = status == BW_OK ? emit_verdict(result->as_drawn)
                               : exit_status(status);
    if (status != BW_OK)
        print_error(&err);
    bw_margin_free(result);
    walls_free(&all);
    return code;
}

const verb verb_margin = {
    .name = "margin",
    .operands = "WALL.xml",
    .summary = "how far each unknown may go before a criterion flips",
    .details =
        "Simulates the wall as drawn, as check does. Varies every <uncertain>\n"
        "range, every <alternative> layer, the standard unknowns and the\n"
        "library's ranges one at a time, screened by months; simulates the\n"
        "twelve cases that tell most, and finds the dampest room that the "
        "wall\n"
        "stands. --transient simulates every case (slow), --monthly-only "
        "none.\n"
        "Exit status: that of check.\n\n"
        "  bothways margin wall.xml\n"
        "  bothways margin wall.xml --monthly-only\n"
        "  bothways margin wall.xml --ensemble 1000\n"
        "  bothways margin wall.xml --tables results\n",
    .options = "cfotpmSMsgaybEJTqnhv",
    .run = run_margin,
};
