#ifndef BW_TESTS_COMPARE_SECTIONS_H
#define BW_TESTS_COMPARE_SECTIONS_H

/* Assessments of walls of two sections made by hand, and the row that the
 * table of a comparison makes of them. No number here is a result. */

#include <check.h>
#include <string.h>

#include "compare/comparing.h"

enum { PARTS = 2 };

static bw_compare_core core;
static bw_section named[PARTS] = {{.name = "between-studs"},
                                  {.name = "through-stud"}};
static bw_section_assessment parts[PARTS];
static bw_assessment assessment[2];

/* Of two walls drawn as `drawn`, the first `sectioned` have the two sections;
 * bw_arena_release(&core.arena) when done. */
static inline const bw_compare_row *section_row(const char *name,
                                                const bw_assembly *drawn,
                                                size_t sectioned,
                                                bool simulated)
{
    core = (bw_compare_core){.count = 2,
                             .comparison = {.simulated = simulated}};
    memset(assessment, 0, sizeof assessment);
    for (size_t i = 0; i < 2; i++) {
        if (i < sectioned) {
            assessment[i].section_count = PARTS;
            assessment[i].section = parts;
        }
        core.given[i] = core.assembly[i] = drawn;
        core.assessment[i] = &assessment[i];
        core.wall[i].label = i == 0 ? "a" : "b";
    }
    ck_assert_int_eq(bw_compare_table(&core, NULL), BW_OK);
    for (size_t k = 0; k < core.comparison.row_count; k++)
        if (strcmp(core.comparison.row[k].name, name) == 0)
            return &core.comparison.row[k];
    return NULL;
}

#endif
