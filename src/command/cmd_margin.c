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

static bw_status check(const settings *given, bw_error *err)
{
    if (given->transient && given->monthly_only)
        return bw_fail_usage(err, "--transient simulates every case and "
                                  "--monthly-only none; give one of them");
    return walls_one(given, "margin", err);
}

static bw_status compute(bw_margin **out, const walls *all,
                         const settings *given, bw_error *err)
{
    progress_bar bar;
    progress_start(&bar, "margin", given);
    bw_margin_options options = {.assessment = walls_options(all, given, NULL),
                                 .simulations = given->transient ? 0
                                                                 : SIMULATIONS,
                                 .wide = true,
                                 .ensemble = (size_t)given->ensemble,
                                 .ensemble_transient = given->transient,
                                 .progress = progress_show,
                                 .payload = &bar};
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
    return emit_results(given, &results, BW_DOCUMENT_MARGIN, BW_TABLE_MARGIN,
                        NULL, err);
}

static bw_status study(int *code, const walls *all, const settings *given,
                       bw_error *err)
{
    bw_margin *result = NULL;
    bw_status status = compute(&result, all, given, err);
    if (status == BW_OK)
        status = write_report(result, given, err);
    if (status == BW_OK)
        *code = emit_verdict(result->as_drawn);
    bw_margin_free(result);
    return status;
}

static bw_status run_margin(int *code, const settings *given, bw_error *err)
{
    return walls_run(code, given, WALLS_KEPT, check, study, err);
}

const verb verb_margin = {
    .set = MARGIN,
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
    .run = run_margin,
};
