/* bothways climate: files of hours as they are published are described, or
 * joined into one hourly climate file; what was done stands in its header. */

#include <stdio.h>

#include "bothways/bothways.h"
#include "emit.h"
#include "fail.h"
#include "settings.h"
#include "targets.h"

enum { MOST_FILES = 8 };

struct work {
    bw_record *part[MOST_FILES], *joined;
    size_t count;
};

/* A year is chosen of a list of years; a typical one is of none. */
static bw_status check_year(const struct work *work, const settings *given,
                            bw_error *err)
{
    for (size_t i = 0; i < work->count; i++)
        if (work->part[i]->year == given->hours.year)
            return BW_OK;
    if (given->hours.year == 0)
        return BW_OK;
    return bw_fail_usage(
        err, "--year %d chooses one of several years; %s", given->hours.year,
        work->count == 1 ? "this file is read as one year"
                         : "each of these files is read as one");
}

static bw_status read_files(struct work *work, const settings *given,
                            bw_error *err)
{
    if (given->operand_count == 0 || given->operand_count > MOST_FILES)
        return bw_fail_usage(
            err,
            "climate takes 1 to %d files, %zu given: bothways climate "
            "station.csv typical-year.csv --output joined.csv",
            MOST_FILES, given->operand_count);
    for (size_t i = 0; i < given->operand_count; i++) {
        BW_TRY(targets_spare(given, given->operand[i], err));
        BW_TRY(bw_record_read(&work->part[i], given->operand[i], &given->hours,
                              err));
        work->count++;
    }
    return check_year(work, given, err);
}

static bw_status join(struct work *work, bw_error *err)
{
    const bw_record *part[MOST_FILES];
    for (size_t i = 0; i < work->count; i++)
        part[i] = work->part[i];
    return bw_record_join(&work->joined, part, work->count, err);
}

/* The files, and what they give together: the join is shown where there are
 * several, its refusal told where there is one. */
static bw_status describe(struct work *work, const settings *given,
                          bw_error *err)
{
    bw_output output;
    bw_status status = emit_open(&output, given, err);
    for (size_t i = 0; i < work->count && status == BW_OK; i++)
        status = bw_record_describe(work->part[i], bw_output_write, &output,
                                    err);
    if (status == BW_OK && work->count > 1) {
        static const char joined[] = "Joined:\n";
        bw_output_write(&output, joined, sizeof joined - 1);
        status = join(work, err);
        if (status == BW_OK)
            status = bw_record_describe(work->joined, bw_output_write, &output,
                                        err);
    }
    return emit_close(&output, status, err);
}

static bw_status write_file(struct work *work, const settings *given,
                            bw_error *err)
{
    bw_output output;
    BW_TRY(join(work, err));
    bw_status status = emit_open(&output, given, err);
    if (status == BW_OK)
        status = bw_record_write(work->joined, bw_output_write, &output, err);
    return emit_close(&output, status, err);
}

/* What a simulation still lacks, to people. */
static void print_missing(const bw_record *joined)
{
    for (int q = 0; q < BW_RECORD_COUNT; q++) {
        if (joined->value[q] != NULL)
            continue;
        fprintf(stderr, "Missing: %s: %s\n", bw_quantity_name((bw_quantity)q),
                bw_quantity_advice((bw_quantity)q));
    }
}

static bw_status run_climate(int *code, const settings *given, bw_error *err)
{
    (void)code;
    struct work work = {.count = 0};
    bw_status status = read_files(&work, given, err);
    if (status == BW_OK)
        status = given->output == NULL ? describe(&work, given, err)
                                       : write_file(&work, given, err);
    if (status == BW_OK && given->output != NULL && !given->quiet)
        print_missing(work.joined);
    for (size_t i = 0; i < work.count; i++)
        bw_record_free(work.part[i]);
    bw_record_free(work.joined);
    return status;
}

const verb verb_climate = {
    .set = CLIMATE,
    .name = "climate",
    .operands = "FILE ...",
    .summary = "hours as published become a climate fit for simulation",
    .details =
        "Reads hours in the forms of docs/climate.md, told by what they hold:\n"
        "typical years, lists of weather stations, a logger's two columns.\n"
        "Without --output it says what each file holds, what a simulation\n"
        "lacks and where that is published. With it, one hourly climate file\n"
        "is written: each quantity from the first file that has it, rain with\n"
        "the wind of its file, joined by month, day and hour; gaps of up to\n"
        "three days are filled; its header says all of it.\n\n"
        "  bothways climate station.csv\n"
        "  bothways climate station.csv typical-year.csv --output joined.csv\n"
        "  bothways climate logger.csv station.csv sun.csv --utc-offset 1 "
        "-o out.csv\n"
        "  bothways check wall.xml --climate joined.csv\n",
    .run = run_climate,
};
