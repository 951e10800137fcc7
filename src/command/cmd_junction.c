/* bothways junction: read a junction, solve and judge it, write. */

#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "library.h"
#include "profiles.h"
#include "settings.h"
#include "targets.h"
#include "terminal.h"

typedef struct one_junction {
    bw_library *library;
    bw_profiles *profiles;
    const bw_profile *profile;
    bw_junction *junction;
    bw_climate *climate;
    bw_junction_assessment *assessment;
} one_junction;

static bw_status read_climate(one_junction *one, const settings *given,
                              bw_error *err)
{
    const char *path = given->climate != NULL
                           ? given->climate
                           : one->junction->outdoors.climate_path;
    if (path[0] == '\0')
        return bw_fail(err, BW_ERR_INPUT, given->operand[0], 0,
                       "this junction names no climate; give one with "
                       "--climate FILE");
    BW_TRY(targets_spare(given, path, err));
    return bw_climate_read(&one->climate, path, err);
}

static bw_status spare_walls(const one_junction *one, const settings *given,
                             bw_error *err)
{
    for (size_t i = 0; i < one->junction->wall_count; i++)
        BW_TRY(targets_spare(given, one->junction->wall[i]->file, err));
    return BW_OK;
}

static bw_status assess(one_junction *one, const settings *given, bw_error *err)
{
    progress_bar bar;
    const bw_hour_options hours = {.no_synthetic = given->no_synthetic_hours,
                                   .progress = progress_show,
                                   .payload = &bar};
    progress_start(&bar, one->junction->id, given);
    const bw_status status = bw_junction_assess_hours(
        &one->assessment, one->junction, one->climate, one->profile,
        given->simulate ? &hours : NULL, err);
    progress_end(&bar);
    return status;
}

static bw_status run(one_junction *one, int *code, const settings *given,
                     bw_error *err)
{
    if (given->operand_count != 1)
        return bw_fail_usage(
            err,
            "junction takes one file, %zu given: bothways junction CORNER.xml",
            given->operand_count);
    BW_TRY(targets_spare(given, given->operand[0], err));
    BW_TRY(profiles_read(&one->profiles, &one->profile, given, err));
    BW_TRY(library_read(&one->library, given, err));
    BW_TRY(
        bw_junction_read(&one->junction, given->operand[0], one->library, err));
    BW_TRY(spare_walls(one, given, err));
    BW_TRY(read_climate(one, given, err));
    BW_TRY(assess(one, given, err));
    const bw_results results = {.junction = one->assessment};
    BW_TRY(emit_results(given, &results, BW_DOCUMENT_JUNCTION,
                        BW_TABLE_JUNCTION, one->library, err));
    *code = emit_verdict(one->assessment->verdict);
    return BW_OK;
}

static bw_status run_junction(int *code, const settings *given, bw_error *err)
{
    one_junction one = {0};
    const bw_status status = run(&one, code, given, err);
    bw_junction_assessment_free(one.assessment);
    bw_climate_free(one.climate);
    bw_junction_free(one.junction);
    bw_library_free(one.library);
    bw_profiles_free(one.profiles);
    return status;
}

const verb verb_junction = {
    .set = JUNCTION,
    .name = "junction",
    .operands = "JUNCTION.xml",
    .summary = "where walls meet: coldest place, mould, heat in two dimensions",
    .details =
        "Reads a junction, drawn freely or made of walls that exist (corner,\n"
        "reveal, partition, joist end, ...), and prints where its surface is\n"
        "coldest, whether mould is to be feared there, and what heat it "
        "costs.\n"
        "Water within stands by months, a screening; wood and mould within "
        "are\nassessed with --simulate.\n\n"
        "  bothways junction corner.xml\n"
        "  bothways junction corner.xml --full\n"
        "  bothways junction corner.xml --format html --output corner.html\n"
        "  bothways junction corner.xml --tables results\n",
    .run = run_junction,
};
