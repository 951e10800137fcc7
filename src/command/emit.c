#include "emit.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "bothways/bothways.h"
#include "fail.h"

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
static bw_status explain(const bw_output *output, bw_status status,
                         bw_error *err)
{
    if (status != BW_ERR_IO || output->fault == 0)
        return status;
    return bw_fail(err, BW_ERR_IO, output->path, 0, "cannot write this: %s",
                   strerror(output->fault));
}

bw_status emit_close(bw_output *output, bw_status status, bw_error *err)
{
    status = explain(output, status, err);
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
    char *bare = strdup(folder);
    if (bare == NULL)
        return bw_fail_memory(err);
    for (size_t n = strlen(bare); n > 1 && bare[n - 1] == '/'; n--)
        bare[n - 1] = '\0';
    bw_status result = probe_file(bare, err);
    free(bare);
    return result;
}

static bool same_file(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 && S_ISREG(one.st_mode) &&
           one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

static char *path_in(const char *folder, const char *file)
{
    size_t size = strlen(folder) + strlen(file) + 2;
    char *path = malloc(size);
    if (path != NULL)
        snprintf(path, size, "%s/%s", folder, file);
    return path;
}

bw_status emit_spare(const settings *given, const char *input, bw_error *err)
{
    bool same = given->output != NULL && same_file(given->output, input);
    for (int i = 0; given->tables != NULL && i < BW_TABLE_MATERIALS; i++) {
        char *path = path_in(given->tables, bw_table_file((bw_table)i));
        if (path == NULL)
            return bw_fail_memory(err);
        same = same || same_file(path, input);
        free(path);
    }
    if (!same)
        return BW_OK;
    return bw_fail(err, BW_ERR_USAGE, input, 0,
                   "this file is read and would be replaced; write elsewhere");
}

bw_status emit_probe(const settings *given, bw_error *err)
{
    if (given->output != NULL)
        BW_TRY(probe_file(given->output, err));
    return given->tables != NULL ? probe_folder(given->tables, err) : BW_OK;
}

bool emit_keeps_hours(const settings *given)
{
    return given->tables != NULL ||
           (given->format == FORMAT_JSON && given->step > 0);
}

bw_status emit_data(bw_output *output, const settings *given,
                    const bw_results *results, bw_table table, bw_error *err)
{
    if (given->format == FORMAT_JSON)
        return bw_report_json(results, bw_output_write, output, err);
    return bw_report_table(results, table, bw_output_write, output, err);
}

bw_status emit_text(bw_output *output, const bw_assessment *const *walls,
                    size_t count, const bw_report_options *options,
                    bw_error *err)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            bw_output_write(output, "\n\n", 2);
        BW_TRY(bw_report_text(walls[i], options, bw_output_write, output, err));
    }
    return BW_OK;
}

static bw_status make_folder(const char *folder, bw_error *err)
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

static bw_status open_in(bw_output *output, const char *folder,
                         const char *file, bw_error *err)
{
    char *path = path_in(folder, file);
    if (path == NULL)
        return bw_fail_memory(err);
    bw_status status = bw_output_open(output, path, err);
    free(path);
    return status;
}

static bw_status write_table(bw_output *output, const char *folder,
                             const bw_results *results, bw_table table,
                             bw_error *err)
{
    BW_TRY(open_in(output, folder, bw_table_file(table), err));
    return explain(
        output, bw_report_table(results, table, bw_output_write, output, err),
        err);
}

bw_status emit_tables(const settings *given, const bw_results *results,
                      bw_error *err)
{
    if (given->tables == NULL)
        return BW_OK;
    bw_output output[BW_TABLE_COUNT];
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        output[i] = (bw_output){.fd = -1};
    bw_status status = make_folder(given->tables, err);
    for (int i = 0; i < BW_TABLE_COUNT && status == BW_OK; i++)
        if (bw_results_have(results, (bw_table)i))
            status = write_table(&output[i], given->tables, results,
                                 (bw_table)i, err);
    for (int i = 0; i < BW_TABLE_COUNT && status == BW_OK; i++)
        if (output[i].fd >= 0)
            status = bw_output_commit(&output[i], err);
    for (int i = 0; i < BW_TABLE_COUNT; i++)
        bw_output_discard(&output[i]);
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
