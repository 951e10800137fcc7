#ifndef BOTHWAYS_MARGIN_H
#define BOTHWAYS_MARGIN_H

/** @file How far each uncertain input may go before a criterion flips.
 *
 * A criterion flips where it goes from failing to not failing or back. Only
 * criteria that decide count. Where the monthly method is a screening for
 * this wall and no simulation is run, what the screening would give counts,
 * and `screening` says so.
 */

#include "bothways/assessment.h"

BW_BEGIN_C

/** Where an uncertain input comes from. */
typedef enum bw_unknown_kind {
    BW_UNKNOWN_RANGE,       /**< an <uncertain> range of the file */
    BW_UNKNOWN_ALTERNATIVE, /**< an <alternative> layer of the file */
    BW_UNKNOWN_STANDARD,    /**< one of the standard unknowns */
    BW_UNKNOWN_LIBRARY,     /**< the library's, by the option `library` */
} bw_unknown_kind;

/** One place where a continuous unknown makes a criterion flip. */
typedef struct bw_flip {
    double below, above;    /**< ends of the final bracket; it flips between */
    double value;           /**< its middle */
    const char *criterion;  /**< stable short name */
    const char *section;
    size_t others;          /**< further criteria that flip in this bracket */
    bool fails_above;       /**< it fails on the high side */
    bool changes_verdict;   /**< the wall goes from failing to not, or back */
} bw_flip;

/** What decides a case: of the criteria that give it its verdict the one with
 *  the least margin. */
typedef struct bw_figure {
    const char *criterion;  /**< with its section; "" or NULL: none */
    double value, limit;    /**< in `unit`; NAN: none */
    bool never;             /**< a time that was not reached: `value` is how
                                 long it was waited for */
    const char *unit;
    double margin;          /**< relative to the limit; NAN: none */
} bw_figure;

/** One unknown, varied alone. Values are SI; q50 in m3/(m2 h). */
typedef struct bw_unknown {
    bw_unknown_kind kind;
    const char *name;       /**< plain words: "mu of the sheathing" */
    const char *layer;      /**< layer id, or "" */
    const char *unit;       /**< "" for a switch without a number */
    bool two_ended;         /**< a switch of which neither setting is as drawn:
                                 its low and its high end */
    bool continuous;        /**< false: a switch (blocked / not, this / that) */
    bool geometric;         /**< sampled evenly over the logarithm */
    double as_drawn;        /**< NAN: no single number stands for it */
    double low, high;       /**< a switch with one other setting: 0 and 1, as
                                 drawn and switched */
    const char *low_words, *high_words; /**< of a switch; "" if continuous */
    bool seen;              /**< false: the methods run know nothing of it,
                                 and nothing below is filled but `note` */
    const char *note;       /**< "" or what the reader must know */
    bw_verdict verdict_as_drawn, verdict_low, verdict_high;
    bw_figure figure_low, figure_high; /**< of the last two */
    bool flips;             /**< some criterion changes within the range */
    double flip_value;      /**< where the first one flips, nearest to as
                                 drawn; a switch: its setting that makes it,
                                 `low` or `high` */
    double flip_bracket;    /**< half-width of the final bracket */
    const char *flip_criterion; /**< which criterion, in which section */
    bool flip_fails;        /**< going away from as drawn it starts to fail;
                                 false: it stops failing */
    bool flip_above;        /**< it does so above flip_value; false: below */
    bool flips_all;         /**< no number stands for as drawn, and every value
                                 computed flips it; flip_value is `low` */
    bool flip_changes_verdict;
    double flip_share;      /**< how much of the range lies between as drawn
                                 and the first flip, 0..1; 1: a switch, or
                                 no number stands for as drawn */
    size_t flip_count;      /**< all found, by rising value; 0 for a switch */
    const bw_flip *flip;
    bool monotone;          /**< the deciding value (the margin of the
                                 criterion that flips first, else of
                                 `swing_criterion`) moved one way over all
                                 samples taken */
    size_t sample_count;    /**< continuous: values computed, rising */
    const double *sample;
    const bw_verdict *sample_verdict;
    const double *sample_margin; /**< of `swing_criterion`; NAN: none */
    double worst_margin;    /**< lowest relative margin over the range */
    const char *swing_criterion; /**< the criterion that moves most, in which
                                 section; "" if none moves */
    double swing;           /**< its change over the range, in shares of its
                                 limit counted between -1 and 1: ranks the
                                 list */
    double swing_lowest, swing_as_drawn, swing_highest; /**< its margin, held
                                 within -1..1 */
} bw_unknown;

/** One cell of the inner-sd x outer-sd map; all NAN: more than the period
 *  balance assesses. */
typedef struct bw_sd_cell {
    double condensed, evaporable, reserve; /**< kg/m2, period balance */
} bw_sd_cell;

/** A case that was simulated, or was to be: the wall as drawn, an unknown at one
 *  of its ends, all at their worst. */
typedef struct bw_simulated {
    const char *setting;    /**< in words */
    const char *unknown;    /**< its name; "" as drawn, and all together */
    bool simulated;         /**< false: the simulation gave no result, and all
                                 below is what the steady methods say */
    bw_verdict verdict;     /**< as `check` gives it */
    size_t fails;           /**< criteria that fail */
    bw_figure figure;       /**< that decides */
    double margin_as_drawn; /**< relative, of the criterion that decides as
                                 drawn; NAN: none */
} bw_simulated;

/** How damp the indoor air may be: steps of 1 % RH, or humidity classes, halved
 *  in between one that holds and one that does not. */
typedef struct bw_damp_limit {
    bool by_class;          /**< else a constant RH, in percent */
    bool simulated;         /**< else by the steady methods */
    double temperature;     /**< degC, of a constant RH */
    bool replaced;          /**< the room of the file is neither a class nor a
                                 constant RH, and was replaced by one */
    int least, most;        /**< what was looked through */
    int holds;              /**< highest at which the wall holds or is marginal;
                                 below `least`: none */
    int beyond;             /**< next above it, at which it does not; above
                                 `most`: none */
    bw_verdict verdict, verdict_beyond; /**< at both */
    bw_figure figure;       /**< that decides at `beyond`; none without one */
    size_t cases;           /**< assessed for it */
} bw_damp_limit;

typedef struct bw_margin {
    bw_verdict as_drawn;     /**< of the assessment */
    const bw_assessment *assessment; /**< as drawn; borrowed from the margin */
    bool transient;          /**< every case was to be simulated */
    size_t simulated_count;  /**< > 0: the wall as drawn and the most telling
                                 cases were; the unknowns, the combination and
                                 the ensemble are by the steady methods then */
    const bw_simulated *simulated; /**< as drawn first */
    size_t not_simulated;    /**< unknowns left out for want of budget */
    bw_verdict screened;     /**< as drawn by what the unknowns were computed
                                 with */
    bw_damp_limit damp;
    bool screening;          /**< what is shown is what the screening would
                                 give: no proof */
    bw_verdict outcome;      /**< as drawn, by the numbers alone */
    size_t points;           /**< computed of a range, besides as drawn */
    double tolerance;        /**< half-width of a flip's bracket, at most, as
                                 a share of the range */
    size_t unknown_count;
    const bw_unknown *unknown;       /**< ranked, largest swing first */
    size_t first;            /**< index of the one that flips first, by
                                 flip_share, the verdict's before others;
                                 unknown_count if none flips */
    bw_verdict worst_combination;
    const char *worst_combination_text; /**< the settings, "; " between */
    const char *worst_combination_reason; /**< what fails, or is closest */
    double worst_combination_margin; /**< lowest relative margin there */
    size_t worst_combination_fails;  /**< criteria that fail there */
    bool worst_combination_moved;    /**< the coordinate check found a worse
                                 one than all single worst ends together */
    size_t inner_count, outer_count; /**< 0: no map, see map_note */
    const double *inner_sd, *outer_sd; /**< m */
    const bw_sd_cell *map;           /**< [outer][inner] */
    const char *map_inner, *map_outer; /**< what is replaced */
    double own_inner_sd, own_outer_sd; /**< m, of these as drawn, dry; 0 where
                                            there is none */
    size_t own_inner, own_outer;       /**< indices of the cell nearest to it */
    const char *map_section;
    const char *map_note;            /**< "" or why there is no map */
    double map_limit;                /**< kg/(m2 a) asked of the reserve; 0:
                                 none is */
    size_t ensemble_count;           /**< 0: not run */
    size_t ensemble_holds;           /**< cases in which nothing fails */
    double ensemble_share, ensemble_error; /**< share and its standard error */
    size_t evaluation_count;         /**< steady assessments made */
    size_t simulation_count;         /**< walls simulated */
} bw_margin;

typedef struct bw_margin_options {
    bw_assessment_options assessment; /**< its no_transient is looked at; its
                                 progress is not used */
    size_t simulations;    /**< 0: with every case, or with no_transient none. Else
                                 the wall as drawn and at most so many cases of
                                 the unknowns, besides those of the combination
                                 and of the indoor humidity */
    bool wide;             /**< vary also what the file is sure of: every range
                                 of the material library inside the weather
                                 line, and what docs/methods.md lists */
    const bool *library;   /**< of each layer whether every range that the
                                 material library gives it is varied, where the
                                 file gives a narrower one, too; NULL: of none */
    size_t ensemble;       /**< number of quasi-random cases, 0 none */
    bool ensemble_transient; /**< simulate in the ensemble, too */
    bw_progress *progress; /**< may be NULL; called by one thread at a time */
    void *payload;
} bw_margin_options;

/** @param options NULL: steady methods, no ensemble
 *  @return BW_OK, BW_ERR_MEMORY, BW_ERR_CANCELLED, or what bw_assess says */
BW_API bw_status bw_margin_make(bw_margin **out, const bw_assembly *assembly,
                                const bw_climate *climate,
                                const bw_margin_options *options,
                                bw_error *err);

/** Frees a margin; NULL is allowed. */
BW_API void bw_margin_free(bw_margin *margin);

BW_END_C

#endif
