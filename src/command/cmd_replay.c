/* bothways replay: read a wall and a logger's record, simulate the one under
 * the other, compare. */

#include "bothways/bothways.h"
#include "bothways/replay.h"
#include "emit.h"
#include "fail.h"
#include "settings.h"
#include "targets.h"
#include "terminal.h"
#include "walls.h"

/* Of the operands the walls are the first, the record is the second. */
static const char *log_of(const settings *given)
{
    return given->operand[1];
}

static bw_status check(const settings *given, bw_error *err)
{
    return targets_spare(given, log_of(given), err);
}

static bw_status compute(bw_replay **out, const walls *all, const bw_log *log,
                         const settings *given, bw_error *err)
{
    progress_bar bar;
    progress_start(&bar, "replay", given);
    const bw_replay_options options = {
        .run_in = given->run_in > 0 ? given->run_in : -1,
        .no_trials = given->no_inputs,
        .threads = given->threads,
        .transient = walls_options(all, given, NULL).transient,
        .progress = progress_show,
        .payload = &bar};
    const bw_status status = bw_replay_make(out, all->assembly[0], log,
                                            all->climate[0], &options, err);
    progress_end(&bar);
    return status;
}

static bw_status write_report(int *code, const bw_replay *result,
                              const walls *all, const settings *given,
                              bw_error *err)
{
    const bw_results results = {.replay = result};
    *code = result->not_assessed[0] == '\0' ? EXIT_HOLDS : EXIT_NOT_ASSESSED;
    return emit_results(given, &results, BW_DOCUMENT_REPLAY, BW_TABLE_REPLAY,
                        all->library, err);
}

static bw_status replay(int *code, const walls *all, const settings *given,
                        bw_error *err)
{
    const bw_log_options options = {
        .has_utc_offset = given->hours.has_utc_offset,
        .utc_offset = given->hours.utc_offset};
    bw_log *log = NULL;
    bw_replay *result = NULL;
    bw_status status = bw_log_read(&log, log_of(given), &options, err);
    if (status == BW_OK)
        status = compute(&result, all, log, given, err);
    if (status == BW_OK)
        status = write_report(code, result, all, given, err);
    bw_replay_free(result);
    bw_log_free(log);
    return status;
}

static bw_status run_replay(int *code, const settings *given, bw_error *err)
{
    settings wall = *given;
    if (given->operand_count != 2)
        return bw_fail_usage(err,
                             "replay takes a wall and a log, %zu files given: "
                             "bothways replay WALL.xml LOG.csv",
                             given->operand_count);
    wall.operand_count = 1;
    return walls_run(code, &wall, WALLS_ANYWHERE, check, replay, err);
}

const verb verb_replay = {
    .set = REPLAY,
    .name = "replay",
    .operands = "WALL.xml LOG.csv",
    .summary = "what a logger measured in a wall beside what is computed",
    .details =
        "Simulates the wall under the air that a logger measured in the room\n"
        "and outside or in a cavity, and compares what it measured within the\n"
        "wall: bias, rms, shares of the drops, by month. Names what is "
        "doubtful\n"
        "of the record, and the one input that explains the difference best.\n"
        "A comparison, no verdict: exit status 0, or 4 where the record "
        "proves\n"
        "nothing. Columns of a log: docs/input.md, \"Logs\".\n\n"
        "  bothways replay wall.xml log.csv\n"
        "  bothways replay wall.xml log.csv --full\n"
        "  bothways replay wall.xml log.csv --format html --output log.html\n"
        "  bothways replay wall.xml log.csv --utc-offset 2 --run-in 72\n",
    .run = run_replay,
};
