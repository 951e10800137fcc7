#ifndef BW_TESTS_TRANSIENT_RUN_H
#define BW_TESTS_TRANSIENT_RUN_H

/* A wall of transient_case.h simulated, which must get an answer. */

#include <check.h>

#include "transient_case.h"

static inline bw_transient_result run(const transient_case *c,
                                      const bw_transient_options *options)
{
    bw_transient_result r;
    bw_error err = {0};
    const bw_status status = bw_transient(&r, &c->assembly, &c->section,
                                          &c->climate, options, &err);
    ck_assert_msg(status == BW_OK, "%s", err.message);
    return r;
}

#endif
