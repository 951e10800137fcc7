#define _GNU_SOURCE /* memfd_create */

#include "fuzz.h"

#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

struct memory_file {
    int fd;
    char path[40];
};

static const char *fill(struct memory_file *file, const void *data, size_t size)
{
    if (file->path[0] == '\0') {
        file->fd = memfd_create("fuzz", MFD_CLOEXEC);
        FUZZ_REQUIRE(file->fd >= 0);
        snprintf(file->path, sizeof file->path, "/proc/self/fd/%d", file->fd);
    }
    FUZZ_REQUIRE(ftruncate(file->fd, 0) == 0);
    for (size_t done = 0; done < size;) {
        ssize_t n = pwrite(file->fd, (const char *)data + done, size - done,
                           (off_t)done);
        FUZZ_REQUIRE(n > 0);
        done += (size_t)n;
    }
    return file->path;
}

const char *fuzz_file(const void *data, size_t size)
{
    static struct memory_file file;
    return fill(&file, data, size);
}

const char *fuzz_second_file(const void *data, size_t size)
{
    static struct memory_file file;
    return fill(&file, data, size);
}

static void check_message(bw_status status, const bw_error *err)
{
    FUZZ_REQUIRE(err->status == status);
    FUZZ_REQUIRE(err->line >= 0);
    FUZZ_REQUIRE(memchr(err->message, '\0', sizeof err->message) != NULL);
    FUZZ_REQUIRE(memchr(err->file, '\0', sizeof err->file) != NULL);
    FUZZ_REQUIRE(err->message[0] != '\0');
    for (const char *c = err->message; *c != '\0'; c++)
        FUZZ_REQUIRE((unsigned char)*c >= ' ' && *c != 0x7f);
}

void fuzz_check_refusal(bw_status status, const bw_error *err)
{
    FUZZ_REQUIRE(status == BW_ERR_INPUT || status == BW_ERR_USAGE);
    check_message(status, err);
}

void fuzz_check_machine(bw_status status, const bw_error *err)
{
    FUZZ_REQUIRE(status == BW_ERR_INPUT || status == BW_ERR_USAGE ||
                 status == BW_ERR_DOMAIN);
    check_message(status, err);
}
