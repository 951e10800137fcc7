/* Loaded before the C library (LD_PRELOAD): the machine fails on demand.
 *   FAULT_CALL=write|fsync|rename|linkat|close|open|malloc|readlink
 *                   which call
 *   FAULT_AT=N      its N-th use fails (open, close: for writing only)
 *   FAULT_ERRNO=N   with this errno
 *   FAULT_STOP=1    instead of failing, the process interrupts itself
 *                   (SIGINT) at that call, as from a keyboard.
 *   FAULT_CLOCK=N   the clock stands at N seconds since 1970. */

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
#include <time.h>
#include <unistd.h>

static bool fails(const char *call)
{
    static _Atomic int count; /* of the wanted call */
    const char *wanted = getenv("FAULT_CALL"), *at = getenv("FAULT_AT");
    if (wanted == NULL || strcmp(wanted, call) != 0 || at == NULL ||
        ++count != atoi(at))
        return false;
    if (getenv("FAULT_STOP") != NULL) {
        raise(SIGINT);
        return false;
    }
    const char *fault = getenv("FAULT_ERRNO");
    int usual = strcmp(call, "malloc") == 0 ? ENOMEM : EIO;
    errno = fault != NULL ? atoi(fault) : usual;
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
    bool written = (fcntl(fd, F_GETFL) & O_ACCMODE) != O_RDONLY;
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

ssize_t readlink(const char *path, char *target, size_t size)
{
    return fails("readlink") ? -1 : REAL(readlink)(path, target, size);
}

/* ---- memory: the C library's own functions, under their private names --- */

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);

void *malloc(size_t size)
{
    return fails("malloc") ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size)
{
    return fails("malloc") ? NULL : __libc_calloc(count, size);
}

void *realloc(void *old, size_t size)
{
    return fails("malloc") ? NULL : __libc_realloc(old, size);
}

/* ---- the clock ---------------------------------------------------------- */

static bool odd_clock(time_t *seconds)
{
    const char *text = getenv("FAULT_CLOCK");
    if (text != NULL)
        *seconds = (time_t)atoll(text);
    return text != NULL;
}

time_t time(time_t *out)
{
    time_t now;
    if (!odd_clock(&now))
        return REAL(time)(out);
    if (out != NULL)
        *out = now;
    return now;
}

int clock_gettime(clockid_t clock, struct timespec *out)
{
    time_t now;
    int result = REAL(clock_gettime)(clock, out);
    if (clock == CLOCK_REALTIME && odd_clock(&now))
        *out = (struct timespec){.tv_sec = now};
    return result;
}
