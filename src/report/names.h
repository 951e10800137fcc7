#ifndef BW_REPORT_NAMES_H
#define BW_REPORT_NAMES_H

/* How places, runs and values are called, in text and in tables. */

#include "bothways/assessment.h"
#include "page.h"

/* The first words of a material's name, up to a comma or a bracket. */
const char *bw_short_name(bw_page *page, const char *name);

/* With a capital letter. */
const char *bw_capital(bw_page *page, const char *text);

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

/* What a method says beyond its limits: "would be marginal" and so on. */
const char *bw_would_be(bw_verdict verdict);

/* "fails (screening)", "marginal (cross-check)" and so on. */
const char *bw_criterion_verdict(bw_page *page, const bw_criterion *criterion);

/* A value as people read it: kg/m2 become g/m2, and bw_shown_unit says so. */
const char *bw_shown_value(bw_page *page, double value, const char *unit);
const char *bw_shown_unit(const char *unit);

/* Both, "432 g/m2"; the number alone where the unit is "-". */
const char *bw_shown_amount(bw_page *page, double value, const char *unit);

/* Of wood through a simulation: "below 20 % for good after 34 weeks". */
const char *bw_wood_drying(bw_page *page, const bw_slab_moisture *slab);

/* Of a time that was not reached "not in 10 years", else NULL. */
const char *bw_not_within(bw_page *page, const bw_criterion *criterion);

/* "5.2 months", "never: 310 g/m2 left after 10 years" or, when more is left
 * than the wetting [kg/m2], "never: 27.1 kg/m2 there after 10 years, it
 * keeps getting wetter". */
const char *bw_drying_time(bw_page *page, const bw_monthly_result *run,
                           double wetting);

/* Of a way of the wetting test: "dry in 3.2 months", "not dry in 24 months:
 * 0.42 kg still there" or, when that is next to all of it, "0.99 kg still there
 * after 24 months: it does not dry". */
const char *bw_wetting_time(bw_page *page, const bw_section_wetting *test,
                            const bw_wetting_result *way);

/* A name for machines in words: "through stud". */
const char *bw_plain_id(bw_page *page, const char *id);

/* " (through stud)" where the wall has more sections than one, else "". */
const char *bw_in_section(bw_page *page, const bw_assessment *assessment,
                          const bw_section_assessment *section);

/* Its title, or its id; its place, or its file. */
const char *bw_wall_name(const bw_assembly *assembly);
const char *bw_climate_name(const bw_climate *climate);

/* "1.93 m"; the number alone where the unit is "-" or "". */
const char *bw_with_unit(bw_page *page, double value, int digits,
                         const char *unit);

/* What was changed while the wall was read; nothing if nothing was. */
void bw_say_changes(bw_page *page, const bw_assembly *assembly);

/* It holds, if only just. */
static inline bool bw_is_good(bw_verdict verdict)
{
    return verdict == BW_HOLDS || verdict == BW_MARGINAL;
}

/* Some section was. */
bool bw_is_simulated(const bw_assessment *assessment);

/* A sentence about the year that was simulated; NULL if none is due. */
const char *bw_year_caution(const bw_assessment *assessment);

/* In some month. */
bool bw_holds_water(const bw_plane *plane);

/* The section that comes off worst; NULL where there is none but such that
 * `badness` calls -INFINITY. */
const bw_section_assessment *
bw_worst_section(const bw_assessment *assessment,
                 double (*badness)(const bw_section_assessment *));

#endif
