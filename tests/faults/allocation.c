/* Out of memory at every allocation in turn, part by part of the library.
 * Each time a part must end with "out of memory", or with the very bytes of an
 * undisturbed run, and leave nothing allocated behind. Every allocation of an
 * arena counts: src/base/arena.c is compiled into this program with
 * BW_ARENA_DEBUG, whatever the library was built with.
 *   usage: fault_allocation SOURCE-FOLDER [EVERY [STAGE [FIRST]]]
 * EVERY: 1 every allocation, n every n-th; 0 (or nothing) a selection of each
 * stage, spread evenly. STAGE: that stage alone; FIRST: its allocations from
 * there. Files are written into the current folder. */

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "allocator.h"
#include "stage.h"

/* libxml2 2.9.14 loses two blocks where xmlParserInputBufferCreateMem cannot
 * copy the text: once a file at most, and no fault of ours. */
enum { THEIR_BLOCKS = 2, THEIR_LEAKS = 32 };
static long their_leaks;

static const printed nothing = {0, 14695981039346656037u};
static printed out;

/* FNV-1a over the bytes. */
bool stage_take(void *payload, const char *bytes, size_t length)
{
    (void)payload;
    out.length += length;
    for (size_t i = 0; i < length; i++)
        out.sum = (out.sum ^ (unsigned char)bytes[i]) * 1099511628211u;
    return true;
}

static bool same(printed left, printed right)
{
    return left.length == right.length && left.sum == right.sum;
}

/* One run with its n-th allocation refused. */
static bool check_one(const stage *s, const held *h, long n, printed expected)
{
    bw_error err = {0};
    long before = allocator_live();
    out = nothing;
    allocator_start(n);
    bw_status status = s->run(h, &err);
    allocator_stop();
    long left = allocator_live() - before;
    if (status == BW_ERR_MEMORY && left == THEIR_BLOCKS &&
        ++their_leaks <= THEIR_LEAKS)
        return true;
    const char *fault = NULL;
    if (left != 0)
        fault = "left behind";
    else if (status == BW_OK && !same(out, expected))
        fault = "another result";
    else if (status != BW_OK && status != BW_ERR_MEMORY)
        fault = "another error";
    if (fault != NULL)
        printf("%s, allocation %ld: %s (%ld; %s)\n", s->name, n, fault, left,
               status == BW_OK ? "no error" : err.message);
    return fault == NULL;
}

/* An undisturbed run; how many allocations, or -1. */
static long undisturbed(const stage *s, const held *h)
{
    bw_error err = {0};
    out = nothing;
    allocator_start(0);
    bw_status status = s->run(h, &err);
    long made = allocator_stop();
    if (status == BW_OK)
        return made;
    fprintf(stderr, "%s: %s\n", s->name, err.message);
    return -1;
}

typedef struct plan {
    long every, first;
    const char *only;
} plan;

static bool run_stage(const stage *s, const held *h, plan p)
{
    /* twice: what libraries keep for ever is there after the first */
    long made = undisturbed(s, h);
    if (made >= 0)
        made = undisturbed(s, h);
    if (made <= 0)
        return false;
    printed expected = out;
    long every = p.every, tried = 0, faults = 0;
    if (every < 1)
        every = s->most > 0 && made > s->most ? (made - 1) / s->most + 1 : 1;
    for (long n = p.first; n <= made; n += every, tried++)
        faults += !check_one(s, h, n, expected);
    printf("%-22s %7ld allocations, %7ld made to fail, %ld faults\n", s->name,
           made, tried, faults);
    fflush(stdout);
    return faults == 0;
}

static bool run_stages(const stage *s, size_t count, const held *h, plan p)
{
    bool sound = true;
    for (size_t i = 0; i < count; i++)
        if (p.only == NULL || strcmp(p.only, s[i].name) == 0)
            sound = run_stage(&s[i], h, p) && sound;
    return sound;
}

int main(int count, char **argument)
{
    if (count < 2)
        return 2;
    plan p = {.every = count > 2 ? strtol(argument[2], NULL, 10) : 0,
              .first = count > 4 ? strtol(argument[4], NULL, 10) : 1,
              .only = count > 3 ? argument[3] : NULL};
    bw_error err = {0};
    held h = {0};
    if (held_make(&h, argument[1], &err) != BW_OK) {
        fprintf(stderr, "%s:%ld: %s\n", err.file, err.line, err.message);
        return 2;
    }
    bool sound = run_stages(input_stages, input_stage_count, &h, p);
    sound = run_stages(method_stages, method_stage_count, &h, p) && sound;
    sound = run_stages(report_stages, report_stage_count, &h, p) && sound;
    held_free(&h);
    printf("%s; libxml2 lost memory %ld times\n",
           sound ? "no faults" : "faults were found", their_leaks);
    return sound ? 0 : 1;
}
