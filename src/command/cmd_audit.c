/* bothways audit: the reviewer's sheet of one wall, or the cover sheet of a
 * house. A fault in one file means that there is no sheet: a house is never
 * released by a wall that could not be read. */

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "dated.h"
#include "emit.h"
#include "fail.h"
#include "operands.h"
#include "settings.h"
#include "terminal.h"
#include "verify.h"
#include "walls.h"

/* The evidence before work starts is of one wall. */
static bw_status check(const settings *given, bw_error *err)
{
    return given->plan ? walls_one(given, "audit --plan", err) : BW_OK;
}

/* What was made: one of them. */
typedef struct made {
    bw_audit *audit;
    bw_house *house;
} made;

static bw_status compute(made *out, const walls *all, const settings *given,
                         bw_error *err)
{
    char text[32];
    const char *date;
    progress_bar bar;
    BW_TRY(dated_find(&date, text, given, err));
    progress_start(&bar, "audit", given);
    bw_audit_options options = {.assessment = walls_options(all, given, &bar),
                                .command_line = given->command_line,
                                .date = date,
                                .name = given->house,
                                .plan = given->plan};
    bw_status status;
    if (given->house == NULL) {
        status = bw_audit_make(&out->audit, all->assembly[0], all->climate[0],
                               &options, err);
    } else {
        options.assessment.transient.keep_hours = false; /* none is shown */
        status = bw_house_make(&out->house,
                               (const bw_assembly *const *)all->assembly,
                               all->climate, all->count, &options, err);
    }
    progress_end(&bar);
    return status;
}

static bw_status write_report(const made *result, const walls *all,
                              const settings *given, bw_error *err)
{
    const bw_audit *audit = result->audit;
    const bw_results house = {.house = result->house};
    if (audit == NULL)
        return emit_results(given, &house, BW_DOCUMENT_HOUSE, BW_TABLE_AUDIT,
                            all->library, err);
    const bw_results results = {.wall_count = 1,
                                .wall = &audit->assessment,
                                .step = (size_t)given->step,
                                .margin = audit->margin,
                                .audit = audit};
    return emit_results(given, &results,
                        audit->plan ? BW_DOCUMENT_PLAN : BW_DOCUMENT_AUDIT,
                        BW_TABLE_AUDIT, all->library, err);
}

/* A hold point that stays closed is a question left open, so 4 at least. */
static int verdict_status(const made *result)
{
    const bw_house *house = result->house;
    bool released, fails = false;
    if (house == NULL && result->audit->plan)
        return EXIT_HOLDS;
    if (house == NULL) {
        released = result->audit->released;
        fails = result->audit->assessment->verdict == BW_FAILS;
    } else {
        released = house->released;
        for (size_t i = 0; i < house->wall_count; i++)
            fails = fails || house->wall[i].verdict == BW_FAILS;
    }
    return fails ? EXIT_FAILS : released ? EXIT_HOLDS : EXIT_NOT_ASSESSED;
}

static bw_status review(int *code, const walls *all, const settings *given,
                        bw_error *err)
{
    made result = {NULL, NULL};
    bw_status status = compute(&result, all, given, err);
    if (status == BW_OK)
        status = write_report(&result, all, given, err);
    if (status == BW_OK)
        *code = verdict_status(&result);
    bw_audit_free(result.audit);
    bw_house_free(result.house);
    return status;
}

static bw_status run_audit(int *code, const settings *given, bw_error *err)
{
    bw_arena arena = {0};
    settings own = *given;
    if (given->verify != NULL)
        return verify_sheet(code, given, err);
    bw_status status = operands_walls(&own, &own.house, &arena, err);
    if (status == BW_OK)
        status = walls_run(code, &own, WALLS_KEPT, check, review, err);
    bw_arena_release(&arena);
    return status;
}

const verb verb_audit = {
    .set = AUDIT,
    .name = "audit",
    .operands = "WALL.xml ... | FOLDER",
    .summary =
        "the reviewer's sheet: every input, its evidence, the hold point",
    .details =
        "Prints every input with source and evidence, every step's numbers,\n"
        "the sensitivity, the air tests and moisture readings of the file, "
        "and\n"
        "whether the hold point before closing up is released. Missing\n"
        "evidence never passes; --plan lists before work starts what there "
        "has\n"
        "to be. Exit status as check; a hold point that stays closed while\n"
        "nothing fails gives 4. Several walls, or a folder of them, are a\n"
        "house: one cover sheet with every wall and what is open of it,\n"
        "released when all are. A sheet ends with the digests of all it was\n"
        "made from; --output SHEET also writes SHEET.sha256, for sha256sum "
        "-c.\n"
        "--verify reads them again: 0 nothing changed, 4 some file, the sheet\n"
        "or the program did.\n\n"
        "  bothways audit wall.xml --plan -f html --output plan.html\n"
        "  bothways audit wall.xml --date 2024-05-10\n"
        "  bothways audit wall.xml --profile uk-nhbc --output sheet.txt\n"
        "  bothways audit wall.xml --tables results\n"
        "  bothways audit house --output house.txt\n"
        "  bothways audit --verify sheet.txt\n",
    .run = run_audit,
};
