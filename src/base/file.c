#include "file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fail.h"

bool bw_fault_of_machine(int fault)
{
    return fault == EMFILE || fault == ENFILE || fault == EIO;
}

static bw_status open_regular(int *fd, size_t *size, const char *path,
                              const char *what, bw_error *err)
{
    /* O_NONBLOCK: opening a pipe with no writer must not hang. */
    *fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (*fd < 0 && errno == ENOMEM)
        return bw_fail_memory(err);
    if (*fd < 0)
        return bw_fail(
            err, bw_fault_of_machine(errno) ? BW_ERR_IO : BW_ERR_INPUT, path, 0,
            "cannot open this %s file: %s", what, strerror(errno));
    struct stat status;
    if (fstat(*fd, &status) != 0)
        return bw_fail(err, BW_ERR_IO, path, 0, "cannot look at this file: %s",
                       strerror(errno));
    if (S_ISDIR(status.st_mode))
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this is a directory; give one %s file", what);
    if (!S_ISREG(status.st_mode))
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this is not a regular file; give one %s file", what);
    if ((uintmax_t)status.st_size > BW_FILE_LIMIT)
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this file is larger than %zu MiB, which no %s file "
                       "needs to be",
                       BW_FILE_LIMIT / ((size_t)1024 * 1024), what);
    *size = (size_t)status.st_size;
    return BW_OK;
}

static bw_status read_all(char **text, size_t *length, int fd, size_t size,
                          const char *path, bw_error *err)
{
    char *buffer = malloc(size + 1);
    BW_TRY_MEMORY(buffer != NULL, err);
    size_t have = 0;
    while (have < size) {
        ssize_t got = read(fd, buffer + have, size - have);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0) {
            free(buffer);
            return bw_fail(err, BW_ERR_IO, path, 0, "reading broke off: %s",
                           strerror(errno));
        }
        if (got == 0)
            break;
        have += (size_t)got;
    }
    buffer[have] = '\0';
    *text = buffer;
    *length = have;
    return BW_OK;
}

static long line_of(const char *text, const char *at)
{
    long line = 1;
    for (const char *c = text; c < at; c++)
        line += *c == '\n';
    return line;
}

static bw_status look(const char *text, size_t length, const char *path,
                      const char *what, bw_error *err)
{
    const unsigned char *byte = (const unsigned char *)text;
    if (length == 0)
        return bw_fail(err, BW_ERR_INPUT, path, 0, "this %s file is empty",
                       what);
    if (length >= 2 && ((byte[0] == 0x1f && byte[1] == 0x8b) ||
                        (byte[0] == 'B' && byte[1] == 'Z') ||
                        (byte[0] == 'P' && byte[1] == 'K') ||
                        (byte[0] == 0xfd && byte[1] == '7')))
        return bw_fail(err, BW_ERR_INPUT, path, 0,
                       "this file is compressed; unpack it first");
    const char *nul = memchr(text, '\0', length);
    if (nul != NULL)
        return bw_fail(err, BW_ERR_INPUT, path, line_of(text, nul),
                       "this is not a text file (a zero byte); %s files are "
                       "UTF-8 text",
                       what);
    return BW_OK;
}

bw_status bw_file_read(char **text, size_t *length, const char *path,
                       const char *what, bw_error *err)
{
    int fd = -1;
    size_t size = 0, have = 0;
    char *buffer = NULL;
    bw_status status = open_regular(&fd, &size, path, what, err);
    if (status == BW_OK)
        status = read_all(&buffer, &have, fd, size, path, err);
    if (fd >= 0)
        close(fd);
    if (status == BW_OK)
        status = look(buffer, have, path, what, err);
    if (status != BW_OK) {
        free(buffer);
        return status;
    }
    if (have >= 3 && memcmp(buffer, "\xef\xbb\xbf", 3) == 0) {
        have -= 3;
        memmove(buffer, buffer + 3, have + 1);
    }
    *text = buffer;
    *length = have;
    return BW_OK;
}

bool bw_file_there(const char *path)
{
    struct stat status;
    return stat(path, &status) == 0;
}

bool bw_file_same(const char *a, const char *b)
{
    struct stat one, other;
    return stat(a, &one) == 0 && stat(b, &other) == 0 &&
           one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}
