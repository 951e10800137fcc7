#define _XOPEN_SOURCE 700 /* realpath */

#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fail.h"

/* Invariant: between open and commit the target is untouched; `beside` exists
 * exactly while `beside` != NULL. */

static bw_status fail_io(bw_error *err, const char *path, int fault)
{
    return bw_fail(err, BW_ERR_IO, path, 0, "cannot write this file: %s",
                   strerror(fault));
}

/* "FOLDER/.bothways-PID-N", a free name in the folder of path. */
static char *name_beside(const char *path, unsigned attempt)
{
    const char *slash = strrchr(path, '/');
    size_t folder = slash != NULL ? (size_t)(slash - path) + 1 : 0;
    size_t size = folder + 64;
    char *name = malloc(size);
    if (name == NULL)
        return NULL;
    memcpy(name, path, folder);
    snprintf(name + folder, size - folder, ".bothways-%ld-%u", (long)getpid(),
             attempt);
    return name;
}

static bw_status open_beside(bw_output *output, const struct stat *existing,
                             bw_error *err)
{
    for (unsigned attempt = 0;; attempt++) {
        output->beside = name_beside(output->path, attempt);
        if (output->beside == NULL)
            return bw_fail_memory(err);
        output->fd = open(output->beside,
                          O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (output->fd >= 0)
            break;
        int fault = errno;
        free(output->beside);
        output->beside = NULL;
        if (fault != EEXIST || attempt > 1000)
            return fail_io(err, output->path, fault);
    }
    if (existing != NULL)
        (void)fchmod(output->fd, existing->st_mode & 0777);
    return BW_OK;
}

static bw_status open_target(bw_output *output, bw_error *err)
{
    struct stat existing;
    if (stat(output->path, &existing) != 0)
        return open_beside(output, NULL, err);
    if (S_ISDIR(existing.st_mode))
        return bw_fail(err, BW_ERR_USAGE, output->path, 0,
                       "this is a directory; name a file to write");
    if (S_ISREG(existing.st_mode)) {
        /* A rename would also replace a file that was made read-only. */
        if (access(output->path, W_OK) != 0)
            return fail_io(err, output->path, errno);
        return open_beside(output, &existing, err);
    }
    output->fd = open(output->path, O_WRONLY | O_CLOEXEC);
    return output->fd >= 0 ? BW_OK : fail_io(err, output->path, errno);
}

bw_status bw_output_open(bw_output *output, const char *path, bw_error *err)
{
    *output = (bw_output){.fd = -1};
    output->path = realpath(path, NULL);
    if (output->path == NULL)
        output->path = strdup(path);
    if (output->path == NULL)
        return bw_fail_memory(err);
    bw_status status = open_target(output, err);
    if (status != BW_OK)
        bw_output_discard(output);
    return status;
}

bw_status bw_output_descriptor(bw_output *output, int fd, const char *name,
                               bw_error *err)
{
    *output = (bw_output){.fd = -1};
    output->path = strdup(name);
    if (output->path == NULL)
        return bw_fail_memory(err);
    output->fd = dup(fd);
    if (output->fd < 0) {
        bw_status status = fail_io(err, name, errno);
        bw_output_discard(output);
        return status;
    }
    return BW_OK;
}

bool bw_output_write(void *payload, const char *bytes, size_t length)
{
    bw_output *output = payload;
    while (length > 0 && output->fault == 0) {
        ssize_t done = write(output->fd, bytes, length);
        if (done < 0 && errno == EINTR)
            continue;
        if (done < 0) {
            output->fault = errno;
            break;
        }
        bytes += done;
        length -= (size_t)done;
    }
    return output->fault == 0;
}

/* The name itself is only safe once the folder is on the disk too; a file
 * system that cannot do this has no better to offer. */
static void sync_folder(const char *path)
{
    char *copy = strdup(path);
    if (copy == NULL)
        return;
    char *slash = strrchr(copy, '/');
    if (slash != NULL)
        slash[1] = '\0';
    int fd = open(slash != NULL ? copy : ".", O_RDONLY | O_CLOEXEC);
    if (fd >= 0) {
        (void)fsync(fd);
        close(fd);
    }
    free(copy);
}

bw_status bw_output_commit(bw_output *output, bw_error *err)
{
    if (output->fault == 0 && output->beside != NULL && fsync(output->fd) != 0)
        output->fault = errno;
    if (close(output->fd) != 0 && output->fault == 0)
        output->fault = errno;
    output->fd = -1;
    if (output->fault == 0 && output->beside != NULL) {
        if (rename(output->beside, output->path) != 0) {
            output->fault = errno;
        } else {
            free(output->beside);
            output->beside = NULL;
            sync_folder(output->path);
        }
    }
    bw_status status = output->fault != 0
                           ? fail_io(err, output->path, output->fault)
                           : BW_OK;
    bw_output_discard(output);
    return status;
}

void bw_output_discard(bw_output *output)
{
    if (output->fd >= 0)
        close(output->fd);
    if (output->beside != NULL) {
        unlink(output->beside);
        free(output->beside);
    }
    free(output->path);
    *output = (bw_output){.fd = -1};
}
