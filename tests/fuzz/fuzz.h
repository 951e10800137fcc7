#ifndef BW_FUZZ_H
#define BW_FUZZ_H

/* What the harnesses share. A harness defines LLVMFuzzerTestOneInput; with
 * clang it is linked with libFuzzer, and everywhere with replay.c, which runs
 * it on the files named. */

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "bothways/error.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A broken promise of ours: stop where a debugger or a fuzzer sees it. */
#define FUZZ_REQUIRE(fact)                                                     \
    do {                                                                       \
        if (!(fact)) {                                                         \
            fprintf(stderr, "%s:%d: does not hold: %s\n", __FILE__, __LINE__,  \
                    #fact);                                                    \
            abort();                                                           \
        }                                                                      \
    } while (0)

/* The bytes as a file; the path stays the same and the contents change. The
 * second one is independent of the first. */
const char *fuzz_file(const void *data, size_t size);
const char *fuzz_second_file(const void *data, size_t size);

/* A refusal says what is wrong in one line and is of an expected kind. */
void fuzz_check_refusal(bw_status status, const bw_error *err);

/* The same where a wall that was read may be beyond what is asked of it. */
void fuzz_check_machine(bw_status status, const bw_error *err);

#endif
