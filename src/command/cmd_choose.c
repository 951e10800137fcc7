/* bothways choose: which build-up of those that a file names. */

#include <stdio.h>

#include "bothways/bothways.h"
#include "bothways/choose.h"
#include "emit.h"
#include "fail.h"
#include "kept_cases.h"
#include "number.h"
#include "settings.h"
#include "terminal.h"
#include "walls.h"

enum { PARTS_MOST = 1000 };

/* "2/8": *parts 0 where it is not given. */
static bw_status read_part(size_t *part, size_t *parts, const settings *given,
                           bw_error *err)
{
    double one = 0.0, all = 0.0;
    const char *end = given->part;
    *part = *parts = 0;
    if (end == NULL)
        return BW_OK;
    const bool good = end[0] >= '0' && end[0] <= '9' &&
                      bw_number_read(end, &one, &end) && *end == '/' &&
                      end[1] >= '0' && end[1] <= '9' &&
                      bw_number_read(end + 1, &all, &end) && *end == '\0' &&
                      one >= 1.0 && one <= all && all <= PARTS_MOST;
    *part = good ? (size_t)one : 0;
    *parts = good ? (size_t)all : 0;
    if (!good || (double)*part < one || (double)*parts < all)
        return bw_fail_usage(err,
                             "--part '%s' is no part such as 2/8, the second "
                             "of eight (at most %d)",
                             given->part, PARTS_MOST);
    return BW_OK;
}

static bw_status check(const settings *given, bw_error *err)
{
    size_t part, parts;
    static const char eight[] = "--%s '%d' is no multiple of 8; give 32, 64, "
                                "128, ...";
    BW_TRY(walls_one(given, "choose", err));
    BW_TRY(read_part(&part, &parts, given, err));
    if (given->race % 8 != 0)
        return bw_fail_usage(err, eight, "race", given->race);
    if (given->drawn % 8 != 0)
        return bw_fail_usage(err, eight, "drawn", given->drawn);
    if (parts > 0 && given->resume.count == 0)
        return bw_fail_usage(err, "--part computes cases for a later run; say "
                                  "with --resume FILE where they are kept");
    return BW_OK;
}

static bw_choose_options options_of(const walls *all, const settings *given,
                                    kept_cases *kept, progress_bar *bar)
{
    bw_choose_options options = {
        .assessment = walls_options(all, given, NULL),
        .seed = given->seed > 0 ? (unsigned long long)given->seed : 1,
        .race_cases = (size_t)given->race,
        .drawn_cases = (size_t)given->drawn,
        .wide = given->wide,
        .settled_count = given->settled.count,
        .settled = given->settled.text,
        .known = kept->known,
        .known_count = kept->count,
        .keep = kept->path != NULL ? kept_write : NULL,
        .keeper = kept,
        .progress = progress_show,
        .payload = bar};
    (void)read_part(&options.part, &options.parts, given, NULL);
    return options;
}

/* As check's, of the best there is. */
static int status_of(const bw_chosen *c)
{
    if (c->holding > 0)
        return EXIT_HOLDS;
    for (size_t i = 0; i < c->front_count; i++)
        if (c->design[c->front[i]].standing == BW_UNDECIDED)
            return EXIT_NOT_ASSESSED;
    return EXIT_FAILS;
}

static bw_status say_part(const bw_chosen *c, const settings *given,
                          bw_error *err)
{
    bw_output output;
    char text[512];
    BW_TRY(emit_open(&output, given, err));
    const int length = snprintf(
        text, sizeof text,
        "part %zu of %zu: %zu simulations and %zu assessments by months are "
        "kept\n",
        c->part, c->parts, c->simulation_count, c->steady_count);
    const bw_status status = bw_output_write(&output, text, (size_t)length)
                                 ? BW_OK
                                 : bw_fail(err, BW_ERR_IO, NULL, 0,
                                           "the part could not be told");
    return emit_close(&output, status, err);
}

static bw_status write_report(int *code, const bw_chosen *c,
                              const settings *given, const walls *all,
                              bw_error *err)
{
    const bw_results results = {
        .wall_count = 1, .wall = &c->assessment, .chosen = c};
    if (c->partial)
        return say_part(c, given, err);
    *code = status_of(c);
    return emit_results(given, &results, BW_DOCUMENT_CHOOSE, BW_TABLE_CHOOSE,
                        all->library, err);
}

static bw_status choose(int *code, const walls *all, const settings *given,
                        bw_error *err)
{
    progress_bar bar;
    kept_cases kept;
    bw_chosen *made = NULL;
    bw_status status = kept_read(&kept, all, given, err);
    if (status == BW_OK) {
        const bw_choose_options options = options_of(all, given, &kept, &bar);
        progress_start(&bar, "choose", given);
        status = bw_choose_make(&made, all->assembly[0], all->climate[0],
                                &options, err);
        progress_end(&bar);
    }
    if (status == BW_OK)
        status = write_report(code, made, given, all, err);
    bw_chosen_free(made);
    kept_free(&kept);
    return status;
}

static bw_status run_choose(int *code, const settings *given, bw_error *err)
{
    return walls_run(code, given, WALLS_KEPT, check, choose, err);
}

const verb verb_choose = {
    .set = CHOOSE,
    .name = "choose",
    .operands = "WALL.xml",
    .summary = "which build-up holds whatever is found, or what breaks it",
    .details =
        "Judges every design that the <choices> of the file make under the\n"
        "same unknowns. The months race all of them; what is left is "
        "simulated\n"
        "as drawn, under drawn cases and with each unknown alone. Nothing is\n"
        "weighted unless the file says how. Exit status: 0 if a design holds\n"
        "in all that was tried, 1 if each breaks, 4 if none is known to "
        "hold.\n\n"
        "  bothways choose wall.xml\n"
        "  bothways choose wall.xml --drawn 64 --seed 2\n"
        "  bothways choose wall.xml --monthly-only\n"
        "  bothways choose wall.xml --resume wall.cases\n"
        "  bothways choose wall.xml --format html --output choice.html\n",
    .run = run_choose,
};
