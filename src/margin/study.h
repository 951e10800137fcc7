#ifndef BW_MARGIN_STUDY_H
#define BW_MARGIN_STUDY_H

/* What is studied: one wall, its unknowns, and how a setting of them becomes
 * an assembly. */

#include "arena.h"
#include "bothways/margin.h"
#include "pool.h"
#include "variant.h"

typedef enum bw_input {
    BW_INPUT_RANGE,
    BW_INPUT_ALTERNATIVE,
    BW_INPUT_HUMIDITY,
    BW_INPUT_BLOCKED,
    BW_INPUT_CURVE, /* low: humid end, high: dry end of the curve */
    BW_INPUT_MU,    /* the lower and the higher of both cups */
    BW_INPUT_FRAMING_MU,
    BW_INPUT_AIR,
    BW_INPUT_RAIN,
    BW_INPUT_BUILT_IN,
    /* of wide.c */
    BW_INPUT_ABSORPTION, /* A_w of a layer */
    BW_INPUT_SORPTION,   /* all sorption curves, times */
    BW_INPUT_SATURATION, /* w_f of all layers, times */
    BW_INPUT_AIR_CHANGE, /* of a cavity, 1/h */
    BW_INPUT_EXPOSURE,   /* driving rain one step down, up */
    BW_INPUT_WIND,       /* terrain and height */
    BW_INPUT_SHADE,
    BW_INPUT_START,          /* RH of every layer at the start */
    BW_INPUT_LEAK,           /* air leakage where none is given */
    BW_INPUT_REDISTRIBUTION, /* of the method, not of the wall */
} bw_input;

/* One unknown: what it does to the assembly, and what is shown of it. */
typedef struct bw_source {
    bw_input input;
    size_t layer;
    bw_varied property;
    const bw_alternative *alternative;
    size_t group, groups; /* alternative number (from 0), of so many */
    bool two_settings;    /* a switch of which neither setting is as drawn */
    bool dry_high;        /* of both cups the dry one has the higher mu */
    bw_unknown shown;
} bw_source;

/* One unknown's setting. A switch: its low or its high. */
typedef struct bw_setting {
    bool set; /* false: as drawn */
    double value;
} bw_setting;

typedef struct bw_study {
    const bw_assembly *assembly;
    const bw_climate *climate;
    bw_assessment_options options;
    bw_arena *arena; /* of the margin being made; not for threads */
    bw_meter *meter;
    int threads;
    int points;       /* of a range, besides as drawn; <= BW_POINTS_MOST */
    double tolerance; /* of a flip: half-width as a share of the range */
    int rounds;       /* of the search for a worse combination */
    bool wide;        /* more than the file is unsure of */
    size_t count;
    bw_source *source;
} bw_study;

enum { BW_POINTS_MOST = 9 };

/* The list while it is made. */
typedef struct bw_finder {
    bw_study *study;
    bool no_memory;
} bw_finder;

/* Text of the study; "" and remembered when memory is short. */
#define BW_SAY(f, ...)                                                         \
    bw_finder_keep((f), bw_arena_printf((f)->study->arena, __VA_ARGS__))
const char *bw_finder_keep(bw_finder *f, const char *text);
const char *bw_finder_number(bw_finder *f, double value);
const char *bw_finder_called(bw_finder *f, const bw_layer *layer);

/* One more unknown; there must be room. */
bw_source *bw_finder_add(bw_finder *f, bw_input input, bw_unknown_kind kind,
                         size_t layer, const char *name);

/* wide.c: what the file is sure of, and how many that may be. */
size_t bw_wide_most(const bw_assembly *assembly);
void bw_wide_find(bw_finder *f);
void bw_wide_apply(bw_variant *v, const bw_source *source, double value);

/* What settings change of the method instead of the wall: those of a study
 * whose options are *options. */
void bw_wide_options(bw_assessment_options *options, const bw_study *study,
                     const bw_setting *setting);

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

/* "mu of the sheathing 60", as a setting reads. */
const char *bw_setting_words(bw_arena *arena, const bw_source *source,
                             double value);

/* All that are set, "; " between, in the study's arena; "as drawn" if none is,
 * NULL: out of memory. */
const char *bw_settings_words(const bw_study *study, const bw_setting *setting);

#endif
