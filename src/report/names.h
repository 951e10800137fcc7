#ifndef BW_REPORT_NAMES_H
#define BW_REPORT_NAMES_H

/* How places, runs and values are called, in text and in tables. */

#include "bothways/assessment.h"
#include "page.h"

/* The first words of a material's name, up to a comma or a bracket. */
const char *bw_short_name(bw_page *page, const char *name);

/* "between sheathing board and hemp batt", for people. */
const char *bw_plane_text(bw_page *page, const bw_section *section,
                          bw_plane_at at);

/* The same for a place the simulation watches; it keeps every layer. */
const char *bw_monitor_text(bw_page *page, const bw_transient_result *run,
                            size_t index);

/* The name of a slab of the simulation. */
const char *bw_simulated_slab(const bw_transient_result *run, size_t slab);

/* "sheathing|stud-bay", for machines: ids of the layers on both sides,
 * "outside" and "room" beyond the surfaces, "stud-bay@0.045" inside. */
const char *bw_plane_id(bw_page *page, const bw_assembly *assembly,
                        const bw_section *section, bw_plane_at at);

/* The slab on the outer side of a plane; false at the outer surface. */
bool bw_plane_slab(bw_plane_at at, size_t *slab);

/* One monthly run that was made for a section. */
typedef struct bw_run {
    const char *name; /* as in monthly.csv */
    const bw_monthly_result *result;
} bw_run;

enum { BW_RUN_COUNT = 7 };

/* The runs a section has; returns how many. */
size_t bw_runs(bw_run runs[BW_RUN_COUNT], const bw_section_assessment *section);

/* "fails (screening)", "marginal (cross-check)" and so on. */
const char *bw_criterion_verdict(bw_page *page, const bw_criterion *criterion);

/* A value as people read it: kg/m2 become g/m2, and bw_shown_unit says so. */
const char *bw_shown_value(bw_page *page, double value, const char *unit);
const char *bw_shown_unit(const char *unit);

/* "5.2 months", "not in 10 years (310 g/m2 left)" or, when more is left than
 * the wetting [kg/m2], "never: 3110 g/m2 after 10 years". */
const char *bw_drying_time(bw_page *page, const bw_monthly_result *run,
                           double wetting);

/* The same of a way of the wetting test: "3.2 months" or "not in 24 months:
 * 420 g/m2 there". */
const char *bw_wetting_time(bw_page *page, const bw_section_wetting *test,
                            const bw_wetting_result *way);

/* " (through-stud)" where the wall has more sections than one, else "". */
const char *bw_in_section(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section);

/* The section that comes off worst; by most water, least reserve, slowest
 * drying. section_count >= 1. */
const bw_section_assessment *bw_worst_peak(const bw_assessment *assessment);
/* NULL when no section has a reserve. */
const bw_section_assessment *bw_worst_reserve(const bw_assessment *assessment);
const bw_section_assessment *bw_worst_drying(const bw_assessment *assessment);

#endif
