/* Out of memory at every allocation in turn: reading materials, assembly and
 * climate, the steady methods, advice, every report. Each time the run must
 * end with "out of memory", or with the very bytes of an undisturbed run, and
 * leave nothing allocated behind.
 *   usage: allocation MATERIALS WALL.xml CLIMATE.csv [EVERY [FIRST]] */

#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bothways/bothways.h"

/* The C library's own, behind its replaceable ones. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
void __libc_free(void *memory);

static _Atomic long made, live, fail_at = -1;

static bool refused(void)
{
    if (++made != fail_at)
        return false;
    errno = ENOMEM;
    return true;
}

void *malloc(size_t size)
{
    void *memory = refused() ? NULL : __libc_malloc(size);
    live += memory != NULL;
    return memory;
}

void *calloc(size_t count, size_t size)
{
    void *memory = refused() ? NULL : __libc_calloc(count, size);
    live += memory != NULL;
    return memory;
}

void *realloc(void *old, size_t size)
{
    void *memory = refused() ? NULL : __libc_realloc(old, size);
    live += memory != NULL && old == NULL;
    return memory;
}

void free(void *memory)
{
    live -= memory != NULL;
    __libc_free(memory);
}

static char text[1 << 21];
static size_t used;

static bool take(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    if (sizeof text - used < length)
        return false;
    memcpy(text + used, bytes, length);
    used += length;
    return true;
}

static bw_status report(const bw_assessment *assessment, bw_error *err)
{
    bw_status status = bw_report_text(assessment, NULL, take, NULL, err);
    for (bw_table t = BW_TABLE_VERDICT; t < BW_TABLE_COUNT && status == BW_OK;
         t++)
        status = bw_report_table(assessment, t, take, NULL, err);
    return status;
}

static bw_status whole_run(char **argument, bw_error *err)
{
    bw_library *library = NULL;
    bw_assembly *assembly = NULL;
    bw_climate *climate = NULL;
    bw_assessment *assessment = NULL;
    const char *folder = argument[1];
    bw_assessment_options options = {.no_transient = true};
    used = 0;
    bw_status status = bw_library_read(&library, &folder, 1, err);
    if (status == BW_OK)
        status = bw_assembly_read(&assembly, argument[2], library, err);
    if (status == BW_OK)
        status = bw_climate_read(&climate, argument[3], err);
    if (status == BW_OK)
        status = bw_assess(&assessment, assembly, climate, &options, err);
    if (status == BW_OK)
        status = report(assessment, err);
    bw_assessment_free(assessment);
    bw_climate_free(climate);
    bw_assembly_free(assembly);
    bw_library_free(library);
    return status;
}

/* libxml2 2.9.14 loses two blocks where xmlParserInputBufferCreateMem cannot
 * copy the text: once a file at most, and no fault of ours. */
enum { THEIR_BLOCKS = 2, THEIR_LEAKS = 16 };
static long their_leaks;

static bool check_one(char **argument, long n, size_t length, uint64_t sum);

/* FNV-1a over the text. */
static uint64_t checksum(void)
{
    uint64_t sum = 14695981039346656037u;
    for (size_t i = 0; i < used; i++)
        sum = (sum ^ (unsigned char)text[i]) * 1099511628211u;
    return sum;
}

int main(int count, char **argument)
{
    if (count < 4)
        return 2;
    long every = count > 4 ? strtol(argument[4], NULL, 10) : 1;
    long first = count > 5 ? strtol(argument[5], NULL, 10) : 1;
    bw_error err = {0};
    /* twice: what libraries keep for ever is there after the first */
    for (int i = 0; i < 2; i++) {
        made = 0;
        if (whole_run(argument, &err) != BW_OK) {
            fprintf(stderr, "%s\n", err.message);
            return 2;
        }
    }
    long allocations = made, tried = 0, faults = 0;
    size_t length = used;
    uint64_t sum = checksum();
    for (long n = first; n <= allocations; n += every, tried++)
        faults += !check_one(argument, n, length, sum);
    printf("%ld allocations, %ld made to fail, %ld faults (and %ld leaks of "
           "libxml2)\n",
           allocations, tried, faults, their_leaks);
    return faults > 0 || tried == 0;
}

static bool check_one(char **argument, long n, size_t length, uint64_t sum)
{
    bw_error err = {0};
    long before = live;
    made = 0;
    fail_at = n;
    bw_status status = whole_run(argument, &err);
    fail_at = -1;
    if (status == BW_ERR_MEMORY && live == before + THEIR_BLOCKS &&
        ++their_leaks <= THEIR_LEAKS)
        return true;
    if (live != before) {
        printf("allocation %ld: %ld left behind (%s)\n", n, live - before,
               err.message);
        return false;
    }
    if (status == BW_ERR_MEMORY)
        return true;
    if (status == BW_OK && used == length && checksum() == sum)
        return true;
    printf("allocation %ld: %s\n", n,
           status == BW_OK ? "another result" : err.message);
    return false;
}
