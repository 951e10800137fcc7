/* bothways audit: the reviewer's sheet of one wall. */

#include <time.h>

#include "bothways/audit.h"
#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

static bw_status check_count(const settings *given, bw_error *err)
{
    if (given->operand_count == 1)
        return BW_OK;
    return bw_fail(err, BW_ERR_USAGE, NULL, 0,
                   "audit takes one assembly file, %zu given: bothways audit "
                   "WALL.xml",
                   given->operand_count);
}

/* The day in UTC; "" when the machine has no calendar. */
static const char *today(char text[32])
{
    time_t now = time(NULL);
    struct tm day;
    if (now == (time_t)-1 || gmtime_r(&now, &day) == NULL ||
        strftime(text, 32, "%Y-%m-%d", &day) == 0)
        text[0] = '\0';
    return text;
}

static bw_status compute(bw_audit **out, const walls *all,
                         const settings *given, bw_error *err)
{
    char date[32];
    progress_bar bar;
    progress_start(&bar, "audit", given);
    bw_audit_options options = {
        .assessment = {.no_transient = given->monthly_only,
                       .synthetic_hours = !given->no_synthetic_hours,
                       .profile = given->profile,
                       .transient = {.keep_hours = emit_keeps_hours(given) ||
                                                   given->format == FORMAT_HTML,
                                     .progress = progress_show,
                                     .payload = &bar}},
        .command_line = given->command_line,
        .date = today(date),
        .threads = given->threads};
    bw_status status = bw_audit_make(out, all->assembly[0], all->climate[0],
                                     &options, err);
    progress_end(&bar);
    return status;
}

static bw_status write_report(const bw_audit *audit, const walls *all,
                              const settings *given, bw_error *err)
{
    const bw_results results = {.wall_count = 1,
                                .wall = &audit->assessment,
                                .step = given->step,
                                .margin = audit->margin,
                                .audit = audit};
    bw_report_options options = {.width = terminal_width(given),
                                 .colour = terminal_colour(given),
                                 .quiet = given->quiet};
    options.note = bw_library_notes(all->library, &options.note_count);
    bw_output output;
    BW_TRY(emit_tables(given, &results, err));
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK && given->format == FORMAT_TEXT)
        status = bw_report_audit_text(audit, &options, bw_output_write, &output,
                                      err);
    else if (status == BW_OK && given->format == FORMAT_HTML)
        status = bw_report_audit_html(audit, &options, bw_output_write, &output,
                                      err);
    else if (status == BW_OK)
        status = emit_data(&output, given, &results, BW_TABLE_AUDIT, err);
    return emit_close(&output, status, err);
}

/* A hold point that stays closed is a question left open, so 4 at least. */
static int verdict_status(const bw_audit *audit)
{
    if (audit->assessment->verdict == BW_FAILS)
        return EXIT_FAILS;
    return audit->released ? EXIT_HOLDS : EXIT_NOT_ASSESSED;
}

static int run_audit(const settings *given)
{
    walls all = {0};
    bw_audit *audit = NULL;
    bw_error err = {0};
    bw_status status = check_count(given, &err);
    if (status == BW_OK)
        status = walls_read(&all, given, &err);
    if (status == BW_OK)
        status = compute(&audit, &all, given, &err);
    if (status == BW_OK)
        status = write_report(audit, &all, given, &err);
    int code = status == BW_OK ? verdict_status(audit) : exit_status(status);
    if (status != BW_OK)
        print_error(&err);
    bw_audit_free(audit);
    walls_free(&all);
    return code;
}

const verb verb_audit = {
    .name = "audit",
    .operands = "WALL.xml",
    .summary =
        "the reviewer's sheet: every input, its evidence, the hold point",
    .details =
        "Prints every input with source and evidence, every step's numbers,\n"
        "the sensitivity, the air tests and moisture readings of the file, "
        "and\n"
        "whether the hold point before closing up is released. Missing\n"
        "evidence never passes. Exit status as check; a hold point that stays\n"
        "closed while nothing fails gives 4.\n\n"
        "  bothways audit wall.xml\n"
        "  bothways audit wall.xml --profile uk-nhbc --output sheet.txt\n"
        "  bothways audit wall.xml --tables results\n",
    .options = "cfotrpmSMsJqnhv",
    .run = run_audit,
};
