/* bothways compare: read every wall, hold equal what is asked, judge all, put
 * them side by side. */

#include <string.h>

#include "bothways/bothways.h"
#include "bothways/compare.h"
#include "emit.h"
#include "fail.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

static bw_equal equal_of(const settings *given)
{
    if (given->equal == NULL || strcmp(given->equal, "drawn") == 0)
        return BW_EQUAL_AS_DRAWN;
    return strcmp(given->equal, "u") == 0 ? BW_EQUAL_U : BW_EQUAL_THICKNESS;
}

static bw_status check_count(const settings *given, bw_error *err)
{
    if (given->operand_count >= BW_COMPARE_FEWEST &&
        given->operand_count <= BW_COMPARE_MOST)
        return BW_OK;
    return bw_fail_usage(err,
                         "compare takes %d to %d assembly files, %zu given: "
                         "bothways compare A.xml B.xml",
                         BW_COMPARE_FEWEST, BW_COMPARE_MOST,
                         given->operand_count);
}

static bw_status compare(bw_comparison **out, const walls *all,
                         const settings *given, bw_error *err)
{
    progress_bar bar;
    progress_start(&bar, "compare", given);
    bw_compare_options options = {
        .equal = equal_of(given),
        .conditions_may_differ = given->as_drawn,
        .scaled_layer = given->scale_layer,
        .scale_framing = given->scale_studs,
        .assessment = walls_options(all, given, &bar),
    };
    options.assessment.no_advice = true;
    bw_status status = bw_compare(out,
                                  (const bw_assembly *const *)all->assembly,
                                  all->climate, all->count, &options, err);
    progress_end(&bar);
    return status;
}

/* Exit status as check's: the worst wall decides. */
static bw_status write_all(int *code, const bw_comparison *comparison,
                           const settings *given, const walls *all,
                           bw_error *err)
{
    const bw_assessment *wall[BW_COMPARE_MOST];
    for (size_t i = 0; i < comparison->wall_count; i++)
        wall[i] = comparison->wall[i].assessment;
    const bw_results results = {.wall_count = comparison->wall_count,
                                .wall = wall,
                                .step = (size_t)given->step,
                                .comparison = comparison};
    *code = emit_verdict(bw_results_verdict(&results));
    return emit_results(given, &results, BW_DOCUMENT_COMPARE, BW_TABLE_COMPARE,
                        all->library, err);
}

static bw_status put_beside(int *code, const walls *all, const settings *given,
                            bw_error *err)
{
    bw_comparison *result = NULL;
    bw_status status = compare(&result, all, given, err);
    if (status == BW_OK)
        status = write_all(code, result, given, all, err);
    bw_comparison_free(result);
    return status;
}

static bw_status run_compare(int *code, const settings *given, bw_error *err)
{
    return walls_run(code, given, WALLS_KEPT, check_count, put_beside, err);
}

const verb verb_compare = {
    .set = COMPARE,
    .name = "compare",
    .operands = "A.xml B.xml ...",
    .summary = "two to eight walls side by side, with what is held equal",
    .details =
        "Judges every wall by the same criteria and prints one table with a\n"
        "column a wall. Walls in different climates or rooms are refused\n"
        "unless --climate gives all the same climate or --as-drawn says that\n"
        "it is meant. Exit status: the worst wall's, as check.\n\n"
        "  bothways compare fibre.xml mineral.xml\n"
        "  bothways compare fibre.xml mineral.xml --equal u\n"
        "  bothways compare fibre.xml mineral.xml --equal thickness "
        "--scale-layer stud-bay\n"
        "  bothways compare fibre.xml mineral.xml --full\n",
    .run = run_compare,
};
