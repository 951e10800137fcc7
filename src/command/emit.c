#include "emit.h"

#include <assert.h>
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

/* The i-th file that some verb writes into the folder of --tables, or NULL. */
static const char *table_file(size_t i)
{
    static const char *const others[] = {"audit.csv", "compare.csv"};
    if (i < BW_TABLE_COUNT)
        return bw_table_file((bw_table)i);
    i -= BW_TABLE_COUNT;
    if (i < BW_MARGIN_TABLE_COUNT)
        return bw_margin_table_file((bw_margin_table)i);
    i -= BW_MARGIN_TABLE_COUNT;
    return i < sizeof others / sizeof *others ? others[i] : NULL;
}

bw_status emit_spare(const settings *given, const char *input, bw_error *err)
{
    bool same = given->output != NULL && same_file(given->output, input);
    for (size_t i = 0; given->tables != NULL && table_file(i) != NULL; i++) {
        char *path = path_in(given->tables, table_file(i));
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

/* Lets everything through but the first line. */
typedef struct headless {
    bw_output *output;
    bool passed;
} headless;

static bool write_headless(void *payload, const char *bytes, size_t length)
{
    headless *filter = payload;
    if (!filter->passed) {
        const char *end = memchr(bytes, '\n', length);
        if (end == NULL)
            return true;
        filter->passed = true;
        length -= (size_t)(end + 1 - bytes);
        bytes = end + 1;
    }
    return bw_output_write(filter->output, bytes, length);
}

static bw_status put_table(bw_output *output, const bw_assessment *const *walls,
                           size_t count, bw_table table, size_t step,
                           bw_error *err)
{
    for (size_t i = 0; i < count; i++) {
        headless filter = {.output = output, .passed = i == 0};
        bw_status status = table == BW_TABLE_HOURLY
                               ? bw_report_hours(walls[i], step, write_headless,
                                                 &filter, err)
                               : bw_report_table(walls[i], table,
                                                 write_headless, &filter, err);
        if (status != BW_OK)
            return explain(output, status, err);
    }
    return BW_OK;
}

bw_status emit_table(bw_output *output, const bw_assessment *const *walls,
                     size_t count, bw_table table, bw_error *err)
{
    return put_table(output, walls, count, table, 1, err);
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

static bw_status write_extra(bw_output *output, const char *folder,
                             const emit_extra *extra, bw_error *err)
{
    BW_TRY(open_in(output, folder, extra->file, err));
    bw_status status = extra->write(extra->result, bw_output_write, output,
                                    err);
    return explain(output, status, err);
}

/* convergence.csv is written where it was asked for. */
static bool wanted(bw_table table, const bw_assessment *const *walls,
                   size_t count)
{
    bool any = table != BW_TABLE_CONVERGENCE;
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < walls[i]->section_count; k++)
            any = any || walls[i]->section[k].has_convergence;
    return any;
}

bw_status emit_tables(const char *folder, const bw_assessment *const *walls,
                      size_t count, size_t step, const emit_extra *extra,
                      size_t extra_count, bw_error *err)
{
    assert(extra_count <= EMIT_EXTRA_MOST);
    bw_output output[BW_TABLE_COUNT + EMIT_EXTRA_MOST];
    const size_t all = BW_TABLE_COUNT + extra_count;
    for (size_t i = 0; i < all; i++)
        output[i] = (bw_output){.fd = -1};
    bw_status status = make_folder(folder, err);
    for (size_t i = 0; i < BW_TABLE_COUNT && status == BW_OK; i++) {
        const bw_table table = (bw_table)i;
        if (!wanted(table, walls, count))
            continue;
        status = open_in(&output[i], folder, bw_table_file(table), err);
        if (status == BW_OK)
            status = put_table(&output[i], walls, count, table, step, err);
    }
    for (size_t i = 0; i < extra_count && status == BW_OK; i++)
        status = write_extra(&output[BW_TABLE_COUNT + i], folder, &extra[i],
                             err);
    for (size_t i = 0; i < all && status == BW_OK; i++)
        if (output[i].fd >= 0)
            status = bw_output_commit(&output[i], err);
    for (size_t i = 0; i < all; i++)
        bw_output_discard(&output[i]);
    return status;
}
