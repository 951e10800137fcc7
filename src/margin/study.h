#ifndef BW_MARGIN_STUDY_H
#define BW_MARGIN_STUDY_H

/* What is studied: one wall, its unknowns, and how a setting of them becomes
 * an assembly. */

#include <stdatomic.h>

#include "arena.h"
#include "bothways/margin.h"
#include "change.h"
#include "meter.h"
#include "pool.h"

/* One unknown: what its ends make of the wall, and what is shown of it. Of a
 * range both differ in their value alone, and any between may be set. */
typedef struct bw_source {
    bw_change low, high;
    size_t group, groups; /* alternative number (from 0), of so many */
    bw_unknown shown;
} bw_source;

/* One unknown's setting. A switch: its low or its high. */
typedef struct bw_setting {
    bool set; /* false: as drawn */
    double value;
} bw_setting;

/* A simulation takes as long as so many steady assessments, about. */
enum { BW_TICKS_SIMULATED = 300 };

/* The assessments made; the total of the meter is in steady ones. */
typedef struct bw_tally {
    bw_meter meter;
    atomic_size_t steady, simulated;
} bw_tally;

/* One more. False: the caller asked to stop. */
bool bw_tally_count(bw_tally *tally, bool simulated);

typedef struct bw_study {
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_assessment_options options;
    bw_arena *arena; /* of the margin being made; not for threads */
    bw_pool *pool;
    bw_tally *tally;
    int points;          /* of a range, besides as drawn; <= BW_POINTS_MOST */
    double tolerance;    /* of a flip: half-width as a share of the range */
    int rounds;          /* of the search for a worse combination */
    bool wide;           /* more than the file is unsure of */
    const bool *library; /* of each layer: all that the library is; NULL */
    size_t count;
    bw_source *source;
} bw_study;

enum { BW_POINTS_MOST = 9 };

/* ---- finder.c: the list while it is made ---------------------------------
 * Running out of memory is remembered by study->arena. There must be room. */

/* A switch between two changes, or between one and what is drawn (low of kind
 * BW_CHANGE_NOTHING). */
bw_source *bw_study_switch(bw_study *study, bw_change low, bw_change high);

/* A change at two values, and what is drawn; SI. */
bw_source *bw_study_ends(bw_study *study, bw_change change, double low,
                         double high, double as_drawn);

/* The same, with every value between. */
bw_unknown *bw_study_range(bw_study *study, bw_change change, double low,
                           double high, double as_drawn);

/* Does the file give a range of it? mu and sd are one. */
bool bw_layer_unsure(const bw_layer *layer, bw_varied property);

bool bw_any_layer(const bw_assembly *assembly, bool has(const bw_layer *layer));

/* wide.c: what the file is sure of. */
void bw_wide_find(bw_study *study);
void bw_ranges_find(bw_study *study);

/* Finds every unknown of the assembly. */
bw_status bw_unknowns_find(bw_study *study, bw_error *err);

/* The assembly with these settings (one for each unknown), in the arena;
 * NULL: out of memory. An alternative layer takes with it what else is
 * unknown of the layer it replaces; of two, the first counts. */
const bw_assembly *bw_study_apply(const bw_study *study, bw_arena *arena,
                                  const bw_setting *setting);

/* Has an alternative taken the place of unknown `index`'s layer? */
bool bw_study_replaced(const bw_study *study, const bw_setting *setting,
                       size_t index);

/* Position of a value between two others: by logarithm or evenly. */
double bw_scale_share(bool geometric, double low, double high, double value);
double bw_scale_value(bool geometric, double low, double high, double share);

/* Is this setting of a switch its high one? */
bool bw_setting_is_high(const bw_unknown *u, double value);

/* One drawn at a place within 0..1: a range evenly over its scale, a switch in
 * one of its settings or as drawn, all equally often. What the methods do not
 * see stays as drawn. */
bw_setting bw_setting_draw(const bw_source *source, double u);

/* The ends of an unknown that are not as drawn; how many. */
size_t bw_source_ends(const bw_source *source, bw_setting end[2]);

/* "mu of the sheathing 60", as a setting reads, in the study's arena. */
const char *bw_setting_words(const bw_study *study, const bw_source *source,
                             double value);

/* All that are set, "; " between, in the study's arena; "as drawn" if none is.
 */
const char *bw_settings_words(const bw_study *study, const bw_setting *setting);

/* What settings change of the method instead of the wall: those of a study
 * whose options are *options. */
void bw_study_options(bw_assessment_options *options, const bw_study *study,
                      const bw_setting *setting);

#endif
