#ifndef BW_CRITERIA_RUN_H
#define BW_CRITERIA_RUN_H

/* Every method that applies, on every section: results without judgement. */

#include "pool.h"
#include "rows.h"

/* The sun on a plane: the same for every section and every change of it. */
typedef struct bw_run_sun {
    bool found; /* for this azimuth and tilt, and one climate */
    double azimuth, tilt;
    bool known;                   /* false: the climate does not tell */
    double irradiance[BW_MONTHS]; /* W/m2, while it shines */
    double share[BW_MONTHS];      /* of the time */
} bw_run_sun;

/* What the advice does without. */
typedef struct bw_run_effort {
    bool no_bound;
    const bw_run_sun *sun; /* of the same climate; NULL: not yet looked for */
} bw_run_effort;

/* How a section is simulated. */
typedef struct bw_run_how {
    bw_transient_options options;
    bool no_wetting;
    bool one_way; /* the wetting test each way alone, too */
    bool converge;
    bool frost; /* counts frost, where masonry stands at the weather */
} bw_run_how;

/* No monthly run was made yet (`reason` ""), or why none can be. */
void bw_run_none(bw_section_assessment *part, const char *reason);

/* All steady runs of one section. Fills `part`, whose section and boundary are
 * set; what cannot be computed is a run that did not, and a reason. The sun
 * is taken from *sun, or found and left there.
 * Returns BW_OK, or BW_ERR_MEMORY. */
bw_status bw_run_steady(bw_section_assessment *part, bw_rows *rows,
                        const bw_assembly *assembly, const bw_climate *climate,
                        const bw_run_effort *effort, bw_run_sun *sun,
                        bw_error *err);

/* Frees the results of a section (not the struct). */
void bw_run_free(bw_section_assessment *part);
/* The simulation and what was made of it alone; has_transient is false. */
void bw_run_free_transient(bw_section_assessment *part);
/* The same, with a reason, of one whose water balance did not close. */
void bw_run_refuse_unclosed(bw_section_assessment *part);

/* The simulation of every section, sections in parallel. Returns BW_OK,
 * BW_ERR_MEMORY or BW_ERR_CANCELLED; everything else is a reason. */
bw_status bw_run_transient(bw_pool *pool, bw_assessment *assessment,
                           bw_section_assessment *part, bw_rows *rows,
                           const bw_assessment_options *options, bw_error *err);

/* The same step by step, for the advice: the sections with every layer; then
 * one of them, on a climate with hours. */
bw_status bw_run_transient_sections(bw_assessment *assessment,
                                    bw_section_assessment *part, bw_error *err);
bw_status bw_run_section(bw_pool *pool, bw_section_assessment *part,
                         bw_rows *rows, const bw_assembly *assembly,
                         const bw_climate *hours, const bw_run_how *how,
                         bw_error *err);

/* Is a face damper in the mean of the year than outdoor air can be? */
bool bw_is_soaked(const bw_monitor *face);

/* Does the file itself bring water that is neither the room's nor the outdoor
 * air's: leaking rain, a wet start? */
bool bw_brings_water(const bw_assembly *assembly);

/* The last year of a simulated section, repeated through mould and wood. */
bw_status bw_run_damage(bw_section_assessment *part,
                        const bw_assembly *assembly, bw_error *err);

/* Asks the simulation of a section for the depths at which frost is counted;
 * none where no masonry stands at the weather. */
void bw_frost_watch(bw_transient_options *options, const bw_assembly *assembly,
                    const bw_section *section);

/* Frost of a section that was simulated so, and of the wall bare, which is
 * simulated here; `options` as it was run with. */
bw_status bw_run_frost(bw_section_assessment *part, const bw_assembly *assembly,
                       const bw_climate *climate,
                       const bw_transient_options *options, bw_error *err);

/* The wetting test of a simulated section; `options` as it was run with. */
bw_status bw_run_wetting(bw_pool *pool, bw_section_assessment *part,
                         const bw_assembly *assembly, const bw_climate *climate,
                         const bw_transient_options *options, bool one_way,
                         bw_error *err);

#endif
