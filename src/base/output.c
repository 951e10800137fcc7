#define _GNU_SOURCE /* O_TMPFILE, realpath */

#include "output.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fail.h"

/* Invariant: between open and commit the target is untouched. Where the file
 * system can, the unfinished file has no name at all until the commit, so that
 * whatever ends the process leaves nothing behind; elsewhere it is `beside`. */

/* What the user can do about a fault; NULL: the machine failed. */
static const char *remedy(int fault)
{
    switch (fault) {
    case ENOENT:
        return "make its folder first, or name another";
    case EACCES:
    case EPERM:
        return "you may not write there; name another file or folder";
    case EROFS:
        return "nothing can be written there; name another file or folder";
    case ENOTDIR:
        return "a part of its path is no folder";
    case EISDIR:
        return "name a file to write";
    case ENAMETOOLONG:
        return "give it a shorter name";
    case ELOOP:
        return "its symbolic links lead in a circle";
    default:
        return NULL;
    }
}

bw_status bw_output_fail(bw_error *err, const char *path, const char *what,
                         int fault)
{
    const char *mend = remedy(fault);
    if (mend == NULL)
        return bw_fail(err, BW_ERR_IO, path, 0, "cannot %s: %s", what,
                       strerror(fault));
    return bw_fail(err, BW_ERR_USAGE, path, 0, "cannot %s: %s; %s", what,
                   strerror(fault), mend);
}

static bw_status fail_io(bw_error *err, const char *path, int fault)
{
    return bw_output_fail(err, path, "write this file", fault);
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

static void nameless_path(char path[40], int fd)
{
    snprintf(path, 40, "/proc/self/fd/%d", fd);
}

/* A file without a name in the folder of the target; false: not to be had. */
static bool open_nameless(bw_output *output)
{
#ifdef O_TMPFILE
    char path[40];
    char *folder = name_beside(output->path, 0);
    if (folder == NULL)
        return false;
    char *slash = strrchr(folder, '/');
    if (slash != NULL)
        slash[1] = '\0';
    output->fd = open(slash != NULL ? folder : ".",
                      O_TMPFILE | O_RDWR | O_CLOEXEC, 0666);
    free(folder);
    if (output->fd < 0)
        return false;
    nameless_path(path, output->fd);
    if (access(path, F_OK) == 0) {
        output->nameless = true;
        return true;
    }
    close(output->fd);
    output->fd = -1;
#endif
    return false;
}

/* Gives the finished file a name beside its place; 0 or errno. */
static int name_it(bw_output *output)
{
    char path[40];
    nameless_path(path, output->fd);
    for (unsigned attempt = 0;; attempt++) {
        output->beside = name_beside(output->path, attempt);
        if (output->beside == NULL)
            return ENOMEM;
        if (linkat(AT_FDCWD, path, AT_FDCWD, output->beside,
                   AT_SYMLINK_FOLLOW) == 0)
            return 0;
        int fault = errno;
        free(output->beside);
        output->beside = NULL;
        if (fault != EEXIST || attempt > 1000)
            return fault;
    }
}

static bw_status open_beside(bw_output *output, const struct stat *existing,
                             bw_error *err)
{
    for (unsigned attempt = 0;; attempt++) {
        output->beside = name_beside(output->path, attempt);
        BW_TRY_MEMORY(output->beside != NULL, err);
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

static bw_status open_unfinished(bw_output *output, const struct stat *existing,
                                 bw_error *err)
{
    if (!open_nameless(output))
        return open_beside(output, existing, err);
    if (existing != NULL)
        (void)fchmod(output->fd, existing->st_mode & 0777);
    return BW_OK;
}

static bw_status open_target(bw_output *output, bw_error *err)
{
    struct stat existing;
    if (stat(output->path, &existing) != 0)
        return errno == ENOENT ? open_unfinished(output, NULL, err)
                               : fail_io(err, output->path, errno);
    if (S_ISDIR(existing.st_mode))
        return fail_io(err, output->path, EISDIR);
    if (S_ISREG(existing.st_mode)) {
        /* A rename would also replace a file that was made read-only. */
        if (access(output->path, W_OK) != 0)
            return fail_io(err, output->path, errno);
        return open_unfinished(output, &existing, err);
    }
    output->fd = open(output->path, O_WRONLY | O_CLOEXEC);
    return output->fd >= 0 ? BW_OK : fail_io(err, output->path, errno);
}

bw_status bw_output_open(bw_output *output, const char *path, bw_error *err)
{
    *output = (bw_output){.fd = -1};
    struct stat link;
    output->path = realpath(path, NULL);
    const int fault = errno;
    if (output->path == NULL && lstat(path, &link) == 0 &&
        S_ISLNK(link.st_mode))
        return fail_io(err, path, fault); /* it leads nowhere */
    if (output->path == NULL)
        output->path = strdup(path);
    BW_TRY_MEMORY(output->path != NULL, err);
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
    BW_TRY_MEMORY(output->path != NULL, err);
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

/* ---- what goes out later ------------------------------------------------- */

/* "/tmp/", or as the user set it; freed by discard. */
static char *temporary(void)
{
    const char *folder = getenv("TMPDIR");
    if (folder == NULL || folder[0] == '\0')
        folder = "/tmp";
    const size_t size = strlen(folder) + 2;
    char *path = malloc(size);
    if (path != NULL)
        snprintf(path, size, "%s/", folder);
    return path;
}

bw_status bw_output_spool(bw_output *spool, const char *beside, bw_error *err)
{
    *spool = (bw_output){.fd = -1};
    spool->path = beside != NULL ? strdup(beside) : temporary();
    if (spool->path != NULL && !open_nameless(spool) && beside != NULL) {
        free(spool->path);
        spool->path = temporary();
        if (spool->path != NULL)
            (void)open_nameless(spool);
    }
    BW_TRY_MEMORY(spool->path != NULL, err);
    if (spool->fd < 0)
        spool->fd = memfd_create("bothways", MFD_CLOEXEC);
    if (spool->fd >= 0)
        return BW_OK;
    const bw_status status = fail_io(err, spool->path, errno);
    bw_output_discard(spool);
    return status;
}

bw_status bw_output_copy(bw_output *spool, bw_write_bytes *sink, void *payload,
                         bw_error *err)
{
    char bytes[8192];
    ssize_t got = lseek(spool->fd, 0, SEEK_SET) == 0 ? 1 : -1;
    while (got > 0) {
        got = read(spool->fd, bytes, sizeof bytes);
        if (got < 0 && errno == EINTR)
            got = 1;
        else if (got > 0 && !sink(payload, bytes, (size_t)got))
            return bw_fail(err, BW_ERR_IO, NULL, 0,
                           "what was kept could not be written");
    }
    if (got == 0)
        return BW_OK;
    return bw_output_fail(err, spool->path, "read this again", errno);
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

static bool is_durable(bw_output *output)
{
    const bool has_place = output->nameless || output->beside != NULL;
    if (output->fault == 0 && has_place && fsync(output->fd) != 0)
        output->fault = errno;
    return output->fault == 0;
}

static bool is_named(bw_output *output)
{
    if (output->nameless)
        output->fault = name_it(output);
    if (close(output->fd) != 0 && output->fault == 0)
        output->fault = errno;
    output->fd = -1;
    return output->fault == 0;
}

static bool is_moved(bw_output *output)
{
    if (output->beside == NULL)
        return true;
    if (rename(output->beside, output->path) != 0) {
        output->fault = errno;
        return false;
    }
    free(output->beside);
    output->beside = NULL;
    sync_folder(output->path);
    return true;
}

/* The first of those that were opened of which it does not hold, or NULL. */
static bw_output *first_not(bool is(bw_output *), bw_output *const *all,
                            size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (all[i]->path != NULL && !is(all[i]))
            return all[i];
    return NULL;
}

static void drop_name(bw_output *output)
{
    if (output->beside != NULL)
        unlink(output->beside);
    free(output->beside);
    output->beside = NULL;
}

/* Names and moves, which nobody may interrupt: a signal that came in between
 * would leave a name behind. */
static bw_output *put_in_place(bw_output *const *all, size_t count)
{
    sigset_t every, before;
    sigfillset(&every);
    (void)pthread_sigmask(SIG_SETMASK, &every, &before);
    bw_output *bad = first_not(is_named, all, count);
    if (bad == NULL)
        bad = first_not(is_moved, all, count);
    for (size_t i = 0; i < count; i++)
        drop_name(all[i]);
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return bad;
}

bw_status bw_output_commit_all(bw_output *const *all, size_t count,
                               bw_error *err)
{
    const bw_output *bad = first_not(is_durable, all, count);
    if (bad == NULL)
        bad = put_in_place(all, count);
    const bw_status status = bad != NULL ? fail_io(err, bad->path, bad->fault)
                                         : BW_OK;
    for (size_t i = 0; i < count; i++)
        bw_output_discard(all[i]);
    return status;
}

bw_status bw_output_commit(bw_output *output, bw_error *err)
{
    return bw_output_commit_all(&output, 1, err);
}

void bw_output_discard(bw_output *output)
{
    if (output->fd >= 0)
        close(output->fd);
    drop_name(output);
    free(output->path);
    *output = (bw_output){.fd = -1};
}
