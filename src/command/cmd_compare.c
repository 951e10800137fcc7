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
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "compare takes %d to %d assembly files, %zu given: bothways "
                   "compare A.xml B.xml",
                   BW_COMPARE_FEWEST, BW_COMPARE_MOST, given->operand_count);
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
        .assessment = {.no_advice = true,
                       .no_transient = given->monthly_only,
                       .synthetic_hours = !given->no_synthetic_hours,
                       .profile = given->profile,
                       .transient = settings_transient(given)},
    };
    options.assessment.transient.keep_hours = emit_keeps_hours(given);
    options.assessment.transient.progress = progress_show;
    options.assessment.transient.payload = &bar;
    bw_status status = bw_compare(out,
                                  (const bw_assembly *const *)all->assembly,
                                  all->climate, all->count, &options, err);
    progress_end(&bar);
    return status;
}

static bw_status write_report(const bw_results *results, const settings *given,
                              const walls *all, bw_error *err)
{
    const bw_comparison *comparison = results->comparison;
    bw_report_options options = {.width = terminal_width(given),
                                 .colour = terminal_colour(given),
                                 .quiet = given->quiet};
    options.note = bw_library_notes(all->library, &options.note_count);
    bw_output output;
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK && given->format == FORMAT_TEXT)
        status = bw_report_compare_text(comparison, &options, bw_output_write,
                                        &output, err);
    else if (status == BW_OK && given->format == FORMAT_HTML)
        status = bw_report_compare_html(comparison, &options, bw_output_write,
                                        &output, err);
    else if (status == BW_OK)
        status = emit_data(&output, given, results, BW_TABLE_COMPARE, err);
    return emit_close(&output, status, err);
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
                                .step = given->step,
                                .comparison = comparison};
    *code = emit_verdict(bw_results_verdict(&results));
    BW_TRY(emit_tables(given, &results, err));
    return write_report(&results, given, all, err);
}

static int run_compare(const settings *given)
{
    walls all = {0};
    bw_comparison *result = NULL;
    bw_error err = {0};
    bw_status status = check_count(given, &err);
    if (status == BW_OK)
        status = walls_read(&all, given, &err);
    if (status == BW_OK)
        status = compare(&result, &all, given, &err);
    int code = EXIT_HOLDS;
    if (status == BW_OK)
        status = write_all(&code, result, given, &all, &err);
    if (status != BW_OK)
        code = exit_status(status);
    if (status != BW_OK)
        print_error(&err);
    bw_comparison_free(result);
    walls_free(&all);
    return code;
}

const verb verb_compare = {
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
        "--scale-layer stud-bay\n",
    .options = "cfotrpmSMsgaybeldqnhv",
    .run = run_compare,
};
