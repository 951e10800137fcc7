/* Loaded before the C library (LD_PRELOAD): the machine fails on demand.
 *   FAULT_CALL=write|fsync|rename|linkat|close|open  which call
 *   FAULT_AT=N      its N-th use fails (open, close: for writing only)
 *   FAULT_ERRNO=N   with this errno
 *   FAULT_STOP=1    instead of failing, the process interrupts itself
 *                   (SIGINT) at that call, as from a keyboard. */

#define _GNU_SOURCE /* RTLD_NEXT */

#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <unistd.h>

static bool fails(const char *call)
{
    static int count;
    const char *wanted = getenv("FAULT_CALL"), *at = getenv("FAULT_AT");
    if (wanted == NULL || strcmp(wanted, call) != 0 || at == NULL ||
        ++count != atoi(at))
        return false;
    if (getenv("FAULT_STOP") != NULL) {
        raise(SIGINT);
        return false;
    }
    const char *fault = getenv("FAULT_ERRNO");
    errno = fault != NULL ? atoi(fault) : EIO;
    return true;
}

#define REAL(name) ((__typeof__(&name))dlsym(RTLD_NEXT, #name))

ssize_t write(int fd, const void *bytes, size_t length)
{
    if (fd != STDERR_FILENO && fails("write"))
        return -1;
    return REAL(write)(fd, bytes, length);
}

int fsync(int fd)
{
    return fails("fsync") ? -1 : REAL(fsync)(fd);
}

int rename(const char *from, const char *to)
{
    return fails("rename") ? -1 : REAL(rename)(from, to);
}

int linkat(int from_folder, const char *from, int to_folder, const char *to,
           int flags)
{
    return fails("linkat")
               ? -1
               : REAL(linkat)(from_folder, from, to_folder, to, flags);
}

int close(int fd)
{
    bool written = (fcntl(fd, F_GETFL) & O_ACCMODE) == O_WRONLY;
    int result = REAL(close)(fd);
    return written && fails("close") ? -1 : result;
}

int open(const char *path, int flags, ...)
{
    va_list args;
    va_start(args, flags);
    mode_t mode = 0;
    if ((flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE)
        mode = va_arg(args, mode_t);
    va_end(args);
    if ((flags & O_ACCMODE) != O_RDONLY && fails("open"))
        return -1;
    return REAL(open)(path, flags, mode);
}
