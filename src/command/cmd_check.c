/* bothways check: read every wall, then judge every wall, then write; of
 * several each is read, judged and written in its turn once all could be read.
 * A fault in one file means that nothing is written for any. */

#include "bothways/bothways.h"
#include "emit.h"
#include "emit_many.h"
#include "fail.h"
#include "operands.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

static bw_status check_count(const settings *given, bw_error *err)
{
    if (given->operand_count == 0)
        return bw_fail_usage(
            err, "check needs an assembly file: bothways check WALL.xml");
    if (given->operand_count > 1 && given->format == FORMAT_HTML)
        return bw_fail_usage(err,
                             "a page is of one wall, %zu given; check them one "
                             "by one, or compare them",
                             given->operand_count);
    if (given->from_readings && given->monthly_only)
        return bw_fail_usage(err, "--from-readings starts a simulation, of "
                                  "which there is none with --monthly-only");
    return BW_OK;
}

static bw_status judge(int *code, const walls *all, const settings *given,
                       bw_error *err)
{
    progress_bar bar;
    bw_assessment *made = NULL;
    const bw_assessment_options options = walls_options(all, given, &bar);
    progress_start(&bar, all->assembly[0]->id, given);
    bw_status status = bw_assess(&made, all->assembly[0], all->climate[0],
                                 &options, err);
    progress_end(&bar);
    const bw_results results = {.wall_count = 1,
                                .wall = (const bw_assessment *const *)&made,
                                .step = (size_t)given->step};
    if (status == BW_OK)
        status = emit_results(given, &results, BW_DOCUMENT_CHECK,
                              BW_TABLE_VERDICT, all->library, err);
    if (status == BW_OK)
        *code = emit_verdict(made->verdict);
    bw_assessment_free(made);
    return status;
}

/* ---- several ------------------------------------------------------------- */

typedef struct passing {
    const walls *all;
    const settings *given;
    emit_many out;
} passing;

static bw_status give(void *payload, size_t i, bw_assembly **assembly,
                      bw_climate **climate, bw_error *err)
{
    const passing *p = payload;
    return walls_read_again(p->all, i, p->given, assembly, climate, err);
}

static bw_status take(void *payload, const bw_assessment *const *made,
                      size_t first, size_t count, bw_error *err)
{
    (void)first;
    return emit_many_take(&((passing *)payload)->out, made, count, err);
}

static void leave(void *payload, bw_assembly *assembly, bw_climate *climate)
{
    walls_leave(((passing *)payload)->all, assembly, climate);
}

static bw_status judge_each(int *code, const walls *all, const settings *given,
                            bw_error *err)
{
    progress_bar bar;
    passing p = {.all = all, .given = given};
    const bw_wall_stream stream = {&p, give, take, leave};
    const bw_assessment_options options = walls_options(all, given, &bar);
    bw_status status = emit_many_open(&p.out, given, all->count, all->library,
                                      err);
    progress_start(&bar, "walls", given);
    if (status == BW_OK)
        status = bw_assess_stream(&stream, all->count, &options, err);
    progress_end(&bar);
    status = emit_many_close(&p.out, status, err);
    if (status == BW_OK)
        *code = emit_verdict(p.out.verdict);
    return status;
}

static bw_status run_check(int *code, const settings *given, bw_error *err)
{
    bw_arena arena = {0};
    settings all = *given;
    bw_status status = operands_read(&all, &arena, err);
    if (status == BW_OK)
        status = all.operand_count == 1
                     ? walls_run(code, &all, WALLS_KEPT, check_count, judge,
                                 err)
                     : walls_run(code, &all, WALLS_PASSING, check_count,
                                 judge_each, err);
    bw_arena_release(&arena);
    return status;
}

const verb verb_check = {
    .set = CHECK,
    .name = "check",
    .operands = "WALL.xml ...",
    .summary = "judge walls: verdict per criterion, reason, what to change",
    .details =
        "Reads the assembly, runs every method that applies and prints on one\n"
        "screen the verdict, the figure it rests on, how the wall dries and\n"
        "what would change it; --full prints all the figures behind it.\n\n"
        "  bothways check wall.xml\n"
        "  bothways check wall.xml --full\n"
        "  bothways check wall.xml --format csv --output verdict.csv\n"
        "  bothways check wall.xml --format html --output wall.html\n"
        "  bothways check wall.xml --tables results\n"
        "  bothways check wall.xml --format json --step 24\n"
        "  bothways check wall.xml --set membrane.sd=\"2 m\"\n"
        "  bothways check wall.xml --from-readings\n"
        "  bothways check wall.xml --cells 2 --converge\n"
        "  bothways check - --format csv <list-of-files\n",
    .run = run_check,
};
