#ifndef BOTHWAYS_ASSESSMENT_H
#define BOTHWAYS_ASSESSMENT_H

/** @file
 * From results to verdict: what `bothways check` computes, as plain data.
 */

#include "bothways/criterion.h"
#include "bothways/decay.h"
#include "bothways/glaser.h"
#include "bothways/junction.h"
#include "bothways/profile.h"
#include "bothways/thermal.h"
#include "bothways/transient.h"

BW_BEGIN_C

/** Verdict words, the only ones. */
typedef enum bw_verdict {
    BW_HOLDS,
    BW_MARGINAL,     /**< holds by less than its stated margin */
    BW_FAILS,
    BW_NOT_ASSESSED, /**< outside what the method can tell */
} bw_verdict;

/** "holds", "marginal", "fails", "not assessed". */
BW_API const char *bw_verdict_text(bw_verdict verdict);

/** One criterion on one section. Strings are owned by the assessment. */
typedef struct bw_criterion {
    const char *section;
    const char *criterion; /**< stable short name, e.g. "annual-balance" */
    const char *title;     /**< in plain words */
    const char *method;    /**< "monthly", "period", "surface", "transient";
                                of a profile also "steady", "rule" */
    bool screening;        /**< the method is outside its limits here: the
                                result is shown but does not decide */
    bool cross_check;      /**< beside a simulation, by a method within its
                                limits: a number beyond the limit reads
                                BW_MARGINAL */
    bool decides;          /**< counts for the overall verdict */
    bool has_value;
    double value;
    bool never;            /**< a time that was not reached: `value` is how long
                                it was waited for */
    const char *unit;      /**< "kg/m2", "-", "months", ... */
    bool has_limit;
    double limit;
    double margin;         /**< signed, in `unit`, positive: to spare */
    bw_verdict verdict;    /**< a row that does not decide never reads
                                BW_FAILS; a screening row never BW_HOLDS */
    bw_verdict outcome;    /**< what the number alone says against the limit,
                                whether or not it decides */
    const char *reason;    /**< which layer, which month, or why not assessed */
    const char *rule;      /**< rule and edition */
} bw_criterion;

/** A change that was computed, and what it did. A criterion that was not
 *  assessed after the change counts as it did before. */
typedef struct bw_advice {
    const char *change;       /**< plain sentence */
    bool rain_leak;           /**< it is the wall without the rain leak of the
                                   file, and else as it is: is that the cause? */
    const char *criterion;    /**< title of the one that gains most */
    const char *section;      /**< of that */
    const char *unit;         /**< of its value before and after */
    double before, after;
    bw_verdict verdict_before, verdict_after; /**< of that criterion */
    size_t fails_before, fails_after;
    size_t marginal_before, marginal_after;
    size_t not_assessed_after;
    double worst_margin_before, worst_margin_after; /**< relative to limit */
    bool has_reserve_after;   /**< false: not assessed in some section */
    double reserve_after;     /**< kg/(m2 a), worst section; 0 without */
    bool has_dry_after;       /**< false: not assessed in some section */
    double dry_both_after, dry_inwards_after; /**< months, worst section;
                                                   negative: not in 10 years */
} bw_advice;

/** A limit of the monthly method this assembly is beyond. */
typedef struct bw_scope_item {
    const char *what;     /**< e.g. "hygroscopic layer: hemp batt" */
    const char *unseen;   /**< what the monthly method cannot see of it */
} bw_scope_item;

/** Mould at a monitor of a simulation: the years simulated, then the last one
 *  repeated to the end, by both pairs of decline and limit (mould.h). */
typedef struct bw_place_mould {
    double highest;            /**< index, by bw_mould_rule_by_class */
    double highest_slow;       /**< by bw_mould_rule_ashrae160, never less */
    bw_mould_outcome by_class, slow; /**< of the years repeated */
    double dose;               /**< d, highest mould dose of the last year
                                    twice over (bw_mould_dose_highest) */
    size_t wetness_hours;      /**< of the last year (bw_wetness_hours) */
} bw_place_mould;

/** Frost of masonry at the weather at one depth, as it is and bare. */
typedef struct bw_frost_at {
    double depth;              /**< m from the outer face */
    size_t slab;               /**< in transient_section */
    bw_frost_counts as_built, bare;
} bw_frost_at;

/** Frost of masonry, or another porous mineral layer, at the weather: counts of
 *  the last year, always beside those of the same masonry without the
 *  insulation and the lining inside it, as it stood in the same climate, room
 *  and rain. */
typedef struct bw_section_frost {
    bool ran;
    const char *reason;        /**< NULL, or why it did not; NULL too where
                                    no masonry stands at the weather */
    bool is_bare;              /**< nothing stands inside the masonry: both
                                    are one */
    double bare_thickness;     /**< m, of the bare wall */
    size_t count;
    bw_frost_at at[BW_DEPTHS_MOST];
} bw_section_frost;

/** What a simulation did to a slab of wood: the wettest 10 mm by days. */
typedef struct bw_wood_damage {
    bw_timber_line_result line;      /**< last year */
    bw_timber_line_result first_line;
    double dose;                     /**< d, last year (bw_decay_dose_year) */
    double first_dose;
    double service_dose;             /**< d: the first year, then the last
                                          repeated to BW_SERVICE_YEARS */
} bw_wood_damage;

/** The wetting test of a simulated section: wetting.h. */
typedef struct bw_section_wetting {
    bool ran;                 /**< the three results are valid */
    const char *reason;       /**< "" or why not */
    bool nothing_at_risk;     /**< not run: no place where water would harm */
    bw_plane_at place;        /**< in the slabs of transient_section */
    bool place_alone;         /**< through framing, which dries sideways, too:
                                   the place is judged, not the section */
    double water;             /**< kg/m2 put there */
    int month;                /**< 0..11 */
    bool one_way;             /**< `outwards` and `inwards` ran, too; never
                                   through a stud */
    bw_wetting_result both, outwards, inwards;
} bw_section_wetting;

/** The runs of the monthly method on a section. The wetted ones, in the
 *  order of bw_drying_ways, ran all three or none. */
typedef enum bw_monthly_run_id {
    BW_RUN_DESIGN,
    BW_RUN_BOUND,   /**< of the bound runs of mu (opposite; outer dry, inner
                         wet; the reverse) the one of most water */
    BW_RUN_INWARD,  /**< the layer that rain wets held saturated, in the sun */
    BW_RUN_WETTED_BOTH,
    BW_RUN_WETTED_OUTWARDS,
    BW_RUN_WETTED_INWARDS,
    BW_RUN_LEAKAGE, /**< the design run with a convective source */
    BW_RUN_COUNT
} bw_monthly_run_id;

/** "design", "bound", "inward", "wetted-both-ways", "wetted-outwards-only",
 *  "wetted-inwards-only", "with-air-leakage": in messages, tables and pages. */
BW_API const char *bw_monthly_run_name(bw_monthly_run_id run);

typedef struct bw_monthly_run {
    const char *name;
    bool ran;                 /**< `result` is valid */
    const char *reason;       /**< "" or why it did not run */
    bw_monthly_result result;
} bw_monthly_run;

typedef struct bw_section_assessment {
    const bw_section *section;   /**< borrowed from the assessment */
    bw_boundary boundary[BW_MONTHS];
    bw_boundary sun_boundary[BW_MONTHS]; /**< sol-air of the hours in the
                                      sun, if has_sun */
    double sun_share[BW_MONTHS]; /**< those hours' part of the month, if
                                      has_sun; 1 where they are not told from
                                      the others */
    bool has_sun;
    double frsi;
    bw_monthly_run run[BW_RUN_COUNT]; /**< by bw_monthly_run_id; without the
                                      design run none ran */
    size_t other_bound_count;
    bw_monthly_result other_bound[2]; /**< the bound runs of less water than
                                      run[BW_RUN_BOUND] */
    size_t inward_slab;          /**< the slab held saturated by the inward
                                      run: the one that rain wets */
    bool dry_needless;           /**< nothing was wetted, as water would harm
                                      no face */
    bw_plane_at wet_plane;       /**< where the water was put, if the wetted
                                      runs ran: of the places at risk the
                                      slowest to dry */
    double wetting;              /**< kg/m2, if they ran */
    int dry_start;               /**< month 0..11 of it, if they ran */
    bw_period_result period;
    size_t surface_count;
    bw_surface_result surface[3]; /**< open wall, corner, behind a cupboard */
    bool has_transient;
    bw_transient_result transient;
    bool has_convergence;        /**< asked for, and simulated */
    bw_transient_convergence convergence;
    const bw_section *transient_section; /**< the slabs `transient` counts
                                 (nothing dropped); NULL if !has_transient */
    const char *transient_reason; /**< why not, if !has_transient */
    bw_place_mould *mould;       /**< [monitor_count] of transient, or NULL */
    bool open_to_air;            /**< simulated, with a well-ventilated cavity
                                      outside whose air is not soaked, and no
                                      water stated (wet start, rain leak) */
    bw_wood_damage *wood;        /**< [slab_count] of transient, zero where not
                                      wood; or NULL */
    bw_section_wetting wetting_test;
    bw_section_frost frost;      /**< of the first section alone */
} bw_section_assessment;

typedef struct bw_assessment {
    const bw_assembly *assembly; /**< borrowed from the caller */
    const bw_climate *climate;   /**< borrowed from the caller */
    bw_sections *sections;
    bw_sections *transient_sections; /**< with every layer; NULL if unused */
    bw_thermal_result thermal;
    const char *room_reason;     /**< NULL, or why the room given cannot be: then
                                      no method was run, nothing is assessed */
    size_t section_count;
    bw_section_assessment *section;
    size_t scope_count;          /**< > 0: monthly results are screening */
    const bw_scope_item *scope;
    size_t criterion_count;
    const bw_criterion *criterion;
    size_t changes_tried;        /**< computed in search of advice */
    size_t advice_count;
    const bw_advice *advice;
    bool pair_tried;             /**< two of them together, too */
    bool advice_mends;           /**< one of them leaves nothing that fails; of
                                      a wall that is marginal, nothing that is
                                      marginal either */
    size_t junction_count;       /**< that the wall names, each with a row */
    const struct bw_junction_assessment *const *junction; /**< its own */
    size_t assumed_count;        /**< layers whose evidence is assumed */
    const char *profile;         /**< name of the rule set */
    bw_verdict verdict;          /**< of all that decides */
    const char *verdict_reason;  /**< one sentence */
    const bw_criterion *deciding; /**< what the sentence names: of the criteria
                                      with that verdict the one furthest beyond
                                      its limit, of a wall that holds the one
                                      closest to it; NULL: none */
} bw_assessment;

typedef struct bw_assessment_options {
    bool no_transient;     /**< monthly and period only */
    bool no_advice;
    bool synthetic_hours;  /**< generate hours when the climate has none */
    bool converge;         /**< also measure how much the simulation depends
                                on its cells and steps: three years more */
    bool no_one_way;       /**< the wetting test dries both ways only; the
                                one-way rows decide nothing */
    bool no_frost;         /**< frost of masonry is not counted, nor the bare
                                wall simulated: those rows decide nothing */
    int threads;           /**< 0: as many as there are cores; 1: the caller's
                                alone, no other is started. No figure depends
                                on it */
    const bw_profile *profile; /**< NULL: the default. Borrowed, also by what
                                is made from the assessment: an audit */
    bw_transient_options transient;
} bw_assessment_options;

/** Months that a way of a wetting test took: the slower of the water and the
 *  place, through framing the place alone; -1: not while it was followed.
 *  @param test  ran
 *  @param way   one of its three results */
BW_API double bw_wetting_test_months(const bw_section_wetting *test,
                                     const bw_wetting_result *way);

/** Months for which it was followed. */
BW_API double bw_wetting_months_followed(const bw_wetting_result *way);

/** Run every method that applies and judge.
 *  @param options NULL for the defaults
 *  @return BW_OK also when criteria fail; see `verdict`. BW_ERR_INPUT: what
 *          bw_profile_check says of the profile */
BW_API bw_status bw_assess(bw_assessment **out, const bw_assembly *assembly,
                           const bw_climate *climate,
                           const bw_assessment_options *options,
                           bw_error *err);

/** The same of several walls, on the same threads; the progress function is
 *  called over all of them, by one thread at a time.
 *  @param out  [count]; all NULL where BW_OK is not returned
 *  @return what bw_assess says of the first wall that fails */
BW_API bw_status bw_assess_all(bw_assessment **out,
                               const bw_assembly *const *assembly,
                               const bw_climate *const *climate, size_t count,
                               const bw_assessment_options *options,
                               bw_error *err);

/** Walls that come and go: where they are from and where what is said of them
 *  goes, so that memory does not grow with their number. */
typedef struct bw_wall_stream {
    void *payload; /**< of the three functions */
    /** Makes wall i ready; by any thread, several of them at once.
     *  @return BW_OK, or what bw_assess_stream is to return */
    bw_status (*give)(void *payload, size_t i, bw_assembly **assembly,
                      bw_climate **climate, bw_error *err);
    /** Takes the assessments of the walls from `first` on, in their order; by
     *  one thread at a time. They are freed when it returns. */
    bw_status (*take)(void *payload, const bw_assessment *const *made,
                      size_t first, size_t count, bw_error *err);
    /** Nobody needs them any more; called once for each wall given. */
    void (*leave)(void *payload, bw_assembly *assembly, bw_climate *climate);
} bw_wall_stream;

/** bw_assess_all, a few walls at a time; while some are computed those before
 *  them are taken. How many are a few depends on the threads alone.
 *  @return what the first wall that fails says, or `take` before it */
BW_API bw_status bw_assess_stream(const bw_wall_stream *stream, size_t count,
                                  const bw_assessment_options *options,
                                  bw_error *err);

/** Frees an assessment; NULL is allowed. */
BW_API void bw_assessment_free(bw_assessment *assessment);

/* ---- junctions ----------------------------------------------------------- */

/** The surface of a room at a junction, month by month, at its coldest place. */
typedef struct bw_junction_room {
    size_t environment;
    const char *room_reason; /**< NULL, or why the room given cannot be: then it
                                  was not judged */
    bw_surface_result surface[BW_SURFACES_FLOW]; /**< by bw_surfaces; its factor
                                  is less by what the grids leave open */
} bw_junction_room;

/** A named place by months: steady, without storage. No row judges it. */
typedef struct bw_junction_spot {
    const bw_drawn_spot *spot;
    const bw_material *material; /**< wood before others that meet there; NULL:
                                      in no material */
    double theta[BW_MONTHS];     /**< degC */
    bool has_rh;
    double rh[BW_MONTHS];        /**< 0..1, at the start of the month */
    bool has_moisture;           /**< wood with a sorption isotherm */
    double moisture[BW_MONTHS];  /**< kg/kg dry, in balance with rh; where water
                                      stands it is more */
} bw_junction_spot;

typedef struct bw_junction_assessment {
    const bw_junction *junction; /**< borrowed from the caller */
    const bw_climate *climate;   /**< borrowed from the caller */
    bw_junction_heat *heat;
    double *theta;               /**< degC, [environment * BW_MONTHS + month] */
    double *p;                   /**< Pa, likewise */
    size_t room_count;
    const bw_junction_room *room;
    bw_junction_water water;       /**< by months, mu by humidity */
    bw_junction_water water_bound; /**< mu the other way round; `ran` where two
                                        cups differ */
    bw_junction_hours hours;       /**< where asked for */
    size_t spot_count;
    const bw_junction_spot *spot;  /**< as the junction's, in its order */
    size_t criterion_count;
    const bw_criterion *criterion; /**< their section is the room's id */
    const char *profile;           /**< name of the rule set */
    bw_verdict verdict;            /**< of all that decides */
    bw_verdict surface_verdict;    /**< of the surfaces alone */
    const char *verdict_reason;
} bw_junction_assessment;

/**
 * Heat of a junction, its surfaces judged by the months of the rooms, and the
 * water that stands within by the monthly method. That is a screening: it may
 * fail a junction, and none is said to hold.
 * @param[out] out      free with bw_junction_assessment_free
 * @param[in]  profile  NULL: the default
 * @return BW_OK; BW_ERR_INPUT, BW_ERR_NUMERIC, BW_ERR_MEMORY
 */
BW_API bw_status bw_junction_assess(bw_junction_assessment **out,
                                    const bw_junction *junction,
                                    const bw_climate *climate,
                                    const bw_profile *profile, bw_error *err);

/** The same with a simulation hour by hour, which decides what is within in the
 *  place of the months. A junction of which it sees everything may hold then.
 *  @return as bw_junction_assess; BW_ERR_CANCELLED */
BW_API bw_status bw_junction_assess_hours(bw_junction_assessment **out,
                                          const bw_junction *junction,
                                          const bw_climate *climate,
                                          const bw_profile *profile,
                                          const bw_hour_options *options,
                                          bw_error *err);

/** Frees it; NULL is allowed. */
BW_API void bw_junction_assessment_free(bw_junction_assessment *assessment);

BW_END_C

#endif
