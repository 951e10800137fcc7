#include "emit.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bothways/bothways.h"
#include "dated.h"
#include "fail.h"
#include "sha256.h"
#include "targets.h"
#include "terminal.h"

/* Invariant: a result appears whole or not at all; of several files none is
 * put in its place before all are written. */

static bw_status fail_no_folder(const char *path, bw_error *err)
{
    return bw_fail(err, BW_ERR_USAGE, path, 0,
                   "this is no folder; --tables needs one");
}

bw_status emit_open(bw_output *output, const settings *given, bw_error *err)
{
    if (given->output != NULL)
        return bw_output_open(output, given->output, err);
    return bw_output_descriptor(output, STDOUT_FILENO, "standard output", err);
}

/* A failed write says why: the descriptor knows, the report does not. */
bw_status emit_explain(const bw_output *output, bw_status status, bw_error *err)
{
    if (status != BW_ERR_IO || output->fault == 0)
        return status;
    return bw_fail(err, BW_ERR_IO, output->path, 0, "cannot write this: %s",
                   strerror(output->fault));
}

bw_status emit_close(bw_output *output, bw_status status, bw_error *err)
{
    status = emit_explain(output, status, err);
    if (status == BW_OK)
        status = bw_output_commit(output, err);
    bw_output_discard(output);
    return status;
}

/* Whether a file could be put there, before anything is computed. Devices and
 * pipes are left alone: opening them has effects. */
static bw_status probe_file(const char *path, bw_error *err)
{
    struct stat status;
    if (stat(path, &status) == 0 && !S_ISREG(status.st_mode) &&
        !S_ISDIR(status.st_mode))
        return BW_OK;
    bw_output output;
    bw_status result = bw_output_open(&output, path, err);
    bw_output_discard(&output);
    return result;
}

static bw_status probe_folder(const char *folder, bw_error *err)
{
    struct stat status;
    if (stat(folder, &status) == 0) {
        if (!S_ISDIR(status.st_mode))
            return fail_no_folder(folder, err);
        if (access(folder, W_OK | X_OK) == 0)
            return BW_OK;
        return bw_output_fail(err, folder, "write into this folder", errno);
    }
    if (errno == ENOENT && lstat(folder, &status) == 0) /* leads nowhere */
        return fail_no_folder(folder, err);
    char *bare = strdup(folder);
    BW_TRY_MEMORY(bare != NULL, err);
    for (size_t n = strlen(bare); n > 1 && bare[n - 1] == '/'; n--)
        bare[n - 1] = '\0';
    bw_status result = probe_file(bare, err);
    free(bare);
    return result;
}

/* Beside a file; what goes to a device or a pipe has no such place. */
bool emit_is_beside(const char *path)
{
    struct stat status;
    return path != NULL &&
           (stat(path, &status) != 0 || S_ISREG(status.st_mode));
}

static bw_status probe_list(const settings *given, bw_error *err)
{
    if (!given->listed || !emit_is_beside(given->output))
        return BW_OK;
    char *path = path_beside(given->output);
    BW_TRY_MEMORY(path != NULL, err);
    bw_status status = probe_file(path, err);
    free(path);
    return status;
}

bw_status emit_probe(const settings *given, bw_error *err)
{
    if (given->output != NULL)
        BW_TRY(probe_file(given->output, err));
    if (given->resume.count > 0)
        BW_TRY(probe_file(given->resume.text[0], err));
    BW_TRY(probe_list(given, err));
    return given->tables != NULL ? probe_folder(given->tables, err) : BW_OK;
}

bool emit_keeps_hours(const settings *given)
{
    return given->tables != NULL ||
           (given->format == FORMAT_JSON && given->step > 0);
}

bw_status emit_data(bw_sink *sink, void *payload, const settings *given,
                    const bw_results *results, bw_table table, bw_error *err)
{
    if (given->format == FORMAT_JSON)
        return bw_report_json(results, sink, payload, err);
    return bw_report_table(results, table, sink, payload, err);
}

bw_status emit_make_folder(const char *folder, bw_error *err)
{
    struct stat status;
    if (mkdir(folder, 0777) == 0)
        return BW_OK;
    int fault = errno;
    if (fault != EEXIST)
        return bw_output_fail(err, folder, "make this folder for the tables",
                              fault);
    if (stat(folder, &status) != 0 || !S_ISDIR(status.st_mode))
        return fail_no_folder(folder, err);
    return BW_OK;
}

/* Frees the path, NULL: there was no memory for it. */
static bw_status open_at(bw_output *output, char *path, bw_error *err)
{
    BW_TRY_MEMORY(path != NULL, err);
    bw_status status = bw_output_open(output, path, err);
    free(path);
    return status;
}

/* The digests of what a sheet was made from, and of the sheet. */
static bw_status put_list(bw_output *list, const settings *given,
                          const bw_results *results, bw_sha256 *sheet,
                          bw_error *err)
{
    char digest[BW_SHA256_TEXT];
    if (!given->listed || !emit_is_beside(given->output))
        return BW_OK;
    BW_TRY(open_at(list, path_beside(given->output), err));
    bw_sha256_finish(sheet, digest);
    return emit_explain(list,
                        bw_report_digests(results, given->output, digest,
                                          bw_output_write, list, err),
                        err);
}

bw_status emit_open_in(bw_output *output, const char *folder, const char *file,
                       bw_error *err)
{
    return open_at(output, path_in(folder, file), err);
}

static bw_status write_table(bw_output *output, const char *folder,
                             const bw_results *results, bw_table table,
                             bw_error *err)
{
    BW_TRY(emit_open_in(output, folder, bw_table_file(table), err));
    return emit_explain(
        output, bw_report_table(results, table, bw_output_write, output, err),
        err);
}

static bw_status put_tables(bw_output table[BW_TABLE_COUNT],
                            const settings *given, const bw_results *results,
                            bw_error *err)
{
    if (given->tables == NULL)
        return BW_OK;
    bw_status status = emit_make_folder(given->tables, err);
    for (int i = 0; i < BW_TABLE_COUNT && status == BW_OK; i++)
        if (bw_results_have(results, (bw_table)i))
            status = write_table(&table[i], given->tables, results, (bw_table)i,
                                 err);
    return status;
}

/* A page is scrolled, and holds all there is. */
static bw_extent extent_of(const settings *given)
{
    if (given->quiet)
        return BW_EXTENT_LEAST;
    return given->full || given->format == FORMAT_HTML ? BW_EXTENT_FULL
                                                       : BW_EXTENT_SCREEN;
}

bw_report_options emit_options(const settings *given, const bw_library *library)
{
    bw_report_options options = {.width = terminal_width(given),
                                 .colour = terminal_colour(given),
                                 .extent = extent_of(given)};
    if (library != NULL)
        options.note = bw_library_notes(library, &options.note_count);
    return options;
}

/* Of each wall's file as it is now; one that cannot be read any more has none.
 */
static size_t find_digests(char text[][BW_SHA256_TEXT], const char **digest,
                           const bw_results *results)
{
    const bw_comparison *c = results->comparison;
    const bw_replay *replay = results->replay;
    const size_t count = c != NULL ? c->wall_count : results->wall_count;
    const char *const both[] = {replay != NULL ? replay->assembly->file : "",
                                replay != NULL ? replay->log->file : ""};
    for (size_t i = 0; replay != NULL && i < 2; i++)
        digest[i] = bw_sha256_file(text[i], both[i], NULL) == BW_OK ? text[i]
                                                                    : NULL;
    if (replay != NULL)
        return 2;
    for (size_t i = 0; i < count && i < BW_COMPARE_MOST; i++) {
        const bw_assessment *wall = c != NULL ? c->wall[i].assessment
                                              : results->wall[i];
        digest[i] = bw_sha256_file(text[i], wall->assembly->file, NULL) == BW_OK
                        ? text[i]
                        : NULL;
    }
    return count < BW_COMPARE_MOST ? count : BW_COMPARE_MOST;
}

/* A page says at its foot of what day and of what files it is. */
static bw_status put_page(bw_sha256_tee *to, const settings *given,
                          const bw_results *results, bw_document document,
                          bw_report_options options, bw_error *err)
{
    char text[BW_COMPARE_MOST][BW_SHA256_TEXT], day[32];
    const char *digest[BW_COMPARE_MOST] = {NULL};
    BW_TRY(dated_find(&options.date, day, given, err));
    options.digest_count = find_digests(text, digest, results);
    options.digest = digest;
    return bw_report(results, document, BW_FORM_PAGE, &options, bw_sha256_pass,
                     to, err);
}

static bw_status put_result(bw_sha256_tee *to, const settings *given,
                            const bw_results *results, bw_document document,
                            bw_table table, const bw_library *library,
                            bw_error *err)
{
    const bw_report_options options = emit_options(given, library);
    if (given->format == FORMAT_TEXT)
        return bw_report(results, document, BW_FORM_TEXT, &options,
                         bw_sha256_pass, to, err);
    if (given->format == FORMAT_HTML)
        return put_page(to, given, results, document, options, err);
    return emit_data(bw_sha256_pass, to, given, results, table, err);
}

bw_status emit_results(const settings *given, const bw_results *results,
                       bw_document document, bw_table table,
                       const bw_library *library, bw_error *err)
{
    enum { LIST = BW_TABLE_COUNT, RESULT, COUNT };
    bw_output file[COUNT], *all[COUNT];
    bw_sha256_tee tee;
    for (int i = 0; i < COUNT; i++) {
        file[i] = (bw_output){.fd = -1};
        all[i] = &file[i];
    }
    bw_status status = put_tables(file, given, results, err);
    if (status == BW_OK && given->output == NULL) /* what is shown comes last */
        status = bw_output_commit_all(all, BW_TABLE_COUNT, err);
    if (status == BW_OK)
        status = emit_open(&file[RESULT], given, err);
    bw_sha256_tee_start(&tee, bw_output_write, &file[RESULT]);
    if (status == BW_OK)
        status = put_result(&tee, given, results, document, table, library,
                            err);
    status = emit_explain(&file[RESULT], status, err);
    if (status == BW_OK)
        status = put_list(&file[LIST], given, results, &tee.hash, err);
    if (status == BW_OK)
        status = bw_output_commit_all(all, COUNT, err);
    for (int i = 0; i < COUNT; i++)
        bw_output_discard(&file[i]);
    return status;
}

int emit_verdict(bw_verdict verdict)
{
    static const int status[] = {[BW_HOLDS] = EXIT_HOLDS,
                                 [BW_MARGINAL] = EXIT_HOLDS,
                                 [BW_FAILS] = EXIT_FAILS,
                                 [BW_NOT_ASSESSED] = EXIT_NOT_ASSESSED};
    return status[verdict];
}
