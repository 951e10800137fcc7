#ifndef BW_AUDIT_CORE_H
#define BW_AUDIT_CORE_H

/* One audit being made. Its steps, each filling its part; all return BW_OK or
 * BW_ERR_MEMORY unless said. */

#include "arena.h"
#include "bothways/audit.h"

typedef struct bw_audit_core {
    bw_audit audit; /* first: users hold a pointer to it */
    bw_arena arena;
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_assessment *assessment;
    bw_margin *margin;
} bw_audit_core;

/* A string in the arena; NULL when out of memory. Numbers by bw_audit_number
 * only. */
#define BW_AUDIT_SAY(core, ...) bw_arena_printf(&(core)->arena, __VA_ARGS__)

typedef struct bw_audit_digits {
    char text[32];
} bw_audit_digits;

/* At most `digits` significant ones. */
bw_audit_digits bw_audit_number(double value, int digits);

/* Every file with its SHA-256; `file` NULL: found from the models.
 * Also BW_ERR_INPUT. */
bw_status bw_audit_files(bw_audit_core *core, const bw_audit_options *options,
                         bw_error *err);

/* Decisions by member and the log; the interim test is looked up by the log.
 * Also BW_ERR_INPUT: limits out of order. */
bw_status bw_audit_readings(bw_audit_core *core, bw_error *err);

/* The latest interim air test and whether it is evidence. */
bw_status bw_audit_air_test(bw_audit_core *core, bw_error *err);

/* The sensitivity in the reviewer's order. */
bw_status bw_audit_unknowns(bw_audit_core *core, bw_error *err);

/* Every reason to stay closed; sets `released`. */
bw_status bw_audit_hold_point(bw_audit_core *core, bw_error *err);

#endif
