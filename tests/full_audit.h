#ifndef BW_TESTS_FULL_AUDIT_H
#define BW_TESTS_FULL_AUDIT_H

/* The wall of full_result.h as one that is audited, whose materials name no
 * source of what the audit does not look for. */

#include "full_result.h"

static const bw_profile rules = {.name = "demo-rules", .title = "of nowhere"};
static bw_audit audit;

/* After full_setup(). */
static inline void full_audit(void)
{
    for (size_t i = 0; i < WALL_SLABS; i++)
        wall.material[i].sorption.source = wall.material[i].mu_curve.source =
            wall.material[i].water_absorption.source = "";
    audit = (bw_audit){.assessment = &wall.assessment,
                       .profile = &rules,
                       .command_line = "bothways audit w.xml",
                       .date = "2031-05-10"};
    wall.results.audit = &audit;
    wall.results.margin = NULL;
}

#endif
