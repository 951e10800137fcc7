/* bothways check: read every wall, then judge every wall, then write. A fault
 * in one file means that nothing is written for any. */

#include <stdio.h>
#include <stdlib.h>

#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "operands.h"
#include "pool.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

typedef struct job {
    const settings *given;
    walls all;
    bw_assessment **assessment;
} job;

static bw_status check_count(const settings *given, bw_error *err)
{
    if (given->operand_count == 0)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "check needs an assembly file: bothways check "
                       "WALL.xml");
    if (given->operand_count > 1 && given->format == FORMAT_HTML)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "a page is of one wall, %zu given; check them one by "
                       "one, or compare them",
                       given->operand_count);
    if (given->from_readings && given->monthly_only)
        return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                       "--from-readings starts a simulation, of which there "
                       "is none with --monthly-only");
    return BW_OK;
}

static bw_status read_all(job *work, bw_error *err)
{
    BW_TRY(check_count(work->given, err));
    BW_TRY(walls_read(&work->all, work->given, err));
    work->assessment = calloc(work->all.count, sizeof(bw_assessment *));
    if (work->assessment == NULL)
        return bw_fail_memory(err);
    for (size_t i = 0; work->given->from_readings && i < work->all.count; i++)
        BW_TRY(bw_assembly_start_from_readings(work->all.assembly[i], err));
    return BW_OK;
}

static void end_job(job *work)
{
    for (size_t i = 0; work->assessment != NULL && i < work->all.count; i++)
        bw_assessment_free(work->assessment[i]);
    free(work->assessment);
    walls_free(&work->all);
}

/* Judging one of the walls; together they share one progress bar. */
typedef struct judging {
    job *work;
    bw_progress *progress;
    void *payload;
    bw_meter *meter; /* NULL: one wall alone */
} judging;

static bw_status assess_one(void *payload, size_t i, bw_error *err)
{
    const judging *j = payload;
    const settings *given = j->work->given;
    bw_assessment_options options = {
        .no_transient = given->monthly_only,
        .no_advice = given->no_advice,
        .synthetic_hours = !given->no_synthetic_hours,
        .profile = given->profile,
        .converge = given->converge,
        .transient = settings_transient(given),
    };
    options.transient.keep_hours = emit_keeps_hours(given) ||
                                   given->format == FORMAT_HTML;
    options.transient.progress = j->progress;
    options.transient.payload = j->payload;
    BW_TRY(bw_assess(&j->work->assessment[i], j->work->all.assembly[i],
                     j->work->all.climate[i], &options, err));
    if (j->meter != NULL)
        bw_meter_tick(j->meter);
    return BW_OK;
}

/* Each wall is a task of its own, so the number of threads changes no byte. */
static bw_status assess_all(job *work, bw_error *err)
{
    progress_bar bar;
    bw_meter meter;
    bool alone = work->all.count == 1;
    judging j = {.work = work, .progress = progress_show, .payload = &bar};
    progress_start(&bar, alone ? work->all.assembly[0]->id : "walls",
                   work->given);
    if (!alone) {
        bw_meter_start(&meter, progress_show, &bar, work->all.count);
        j.meter = &meter;
        j.progress = bw_meter_alive;
        j.payload = &meter;
    }
    bw_status status = bw_pool_run(work->given->threads, work->all.count,
                                   assess_one, &j, err);
    if (!alone)
        bw_meter_end(&meter);
    progress_end(&bar);
    return status;
}

static bw_status write_report(const job *work, const bw_results *results,
                              bw_error *err)
{
    const settings *given = work->given;
    bw_report_options options = {.width = terminal_width(given),
                                 .colour = terminal_colour(given),
                                 .quiet = given->quiet};
    options.note = bw_library_notes(work->all.library, &options.note_count);
    bw_output output;
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK && given->format == FORMAT_TEXT)
        status = emit_text(&output, results->wall, results->wall_count,
                           &options, err);
    else if (status == BW_OK && given->format == FORMAT_HTML)
        status = bw_report_html(results->wall[0], &options, bw_output_write,
                                &output, err);
    else if (status == BW_OK)
        status = emit_data(&output, given, results, BW_TABLE_VERDICT, err);
    return emit_close(&output, status, err);
}

static bw_results results_of(const job *work)
{
    return (bw_results){.wall_count = work->all.count,
                        .wall = (const bw_assessment *const *)work->assessment,
                        .step = work->given->step};
}

static bw_status write_all(const job *work, bw_error *err)
{
    const bw_results results = results_of(work);
    BW_TRY(emit_tables(work->given, &results, err));
    return write_report(work, &results, err);
}

static int verdict_status(const job *work)
{
    const bw_results results = results_of(work);
    return emit_verdict(bw_results_verdict(&results));
}

static int run_check(const settings *given)
{
    bw_error err = {0};
    bw_arena arena = {NULL};
    settings all = *given;
    job work = {.given = &all};
    bw_status status = operands_read(&all, &arena, &err);
    if (status == BW_OK)
        status = read_all(&work, &err);
    if (status == BW_OK)
        status = assess_all(&work, &err);
    if (status == BW_OK)
        status = write_all(&work, &err);
    int result = status == BW_OK ? verdict_status(&work) : exit_status(status);
    if (status != BW_OK)
        print_error(&err);
    end_job(&work);
    bw_arena_release(&arena);
    return result;
}

const verb verb_check = {
    .name = "check",
    .operands = "WALL.xml ...",
    .summary = "judge walls: verdict per criterion, reason, what to change",
    .details =
        "Reads the assembly, runs every method that applies and prints the\n"
        "verdict first, then all the figures behind it.\n\n"
        "  bothways check wall.xml\n"
        "  bothways check wall.xml --format csv --output verdict.csv\n"
        "  bothways check wall.xml --format html --output wall.html\n"
        "  bothways check wall.xml --tables results\n"
        "  bothways check wall.xml --format json --step 24\n"
        "  bothways check wall.xml --set membrane.sd=\"2 m\"\n"
        "  bothways check wall.xml --from-readings\n"
        "  bothways check wall.xml --cells 2 --converge\n"
        "  bothways check - --format csv <list-of-files\n",
    .options = "cfotrpmSMsRgaybCNJqnhv",
    .run = run_check,
};
