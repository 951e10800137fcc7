#ifndef BW_ASSEMBLY_CHANGE_H
#define BW_ASSEMBLY_CHANGE_H

/* One change of a wall, as plain data: what may be said of it, tried, varied
 * or solved for. Applied to a copy; to undo it, drop the copy. A new kind is a
 * line here and a row in change.c, and words in change_words.c where those of
 * the row (what, value, unit) do not do. */

#include "arena.h"
#include "bothways/assembly.h"
#include "room.h"
#include "variant.h"

/* Connected height [m] of a leak where none is given; estimate. */
#define BW_LEAK_HEIGHT 2.5

typedef enum bw_change_kind {
    BW_CHANGE_NOTHING, /* as drawn */
    BW_CHANGE_PROPERTY,
    BW_CHANGE_SD,    /* one constant sd, the thermal side as it was */
    BW_CHANGE_CURVE, /* sd(RH) held at its humid end (value 1) or dry one (0) */
    BW_CHANGE_MU,    /* of the material; wet-cup (1) or dry-cup (0) */
    BW_CHANGE_FRAMING_MU, /* of the framing of every layer, likewise */
    BW_CHANGE_STUDS,      /* framing of a layer, no deeper than `value` */
    BW_CHANGE_MATERIAL,   /* another one, named by it, as thick as `value` */
    BW_CHANGE_MEMBRANE,   /* one of which only sd or sd(RH) is known ... */
    BW_CHANGE_ADDED,      /* ... put before the layer */
    BW_CHANGE_LAYER, /* another one altogether, with all that is said of it */
    BW_CHANGE_REMOVED,
    BW_CHANGE_OPENED,       /* a cavity, ventilated well, aired as usual */
    BW_CHANGE_BLOCKED,      /* a cavity without openings */
    BW_CHANGE_HUMIDITY,     /* indoors, a step up (1) or down (-1) */
    BW_CHANGE_CLASS,        /* indoor humidity class */
    BW_CHANGE_ROOM,         /* constant RH indoors; in a room without one number
                               at its mean temperature, else at 20 degC */
    BW_CHANGE_AIR_LEAKAGE,  /* q50 */
    BW_CHANGE_RAIN_LEAK,    /* a share of the driving rain */
    BW_CHANGE_BUILT_IN,     /* kg/kg in solid wood and wood panels, those before
                               a well-ventilated cavity left out */
    BW_CHANGE_ABSORPTION,   /* A_w of a layer */
    BW_CHANGE_SORPTION,     /* all sorption curves, times */
    BW_CHANGE_SATURATION,   /* w_f of every layer, at its most (1), least (0) */
    BW_CHANGE_AIR_CHANGE,   /* of a cavity */
    BW_CHANGE_DRIVING_RAIN, /* bw_exposure */
    BW_CHANGE_WIND,  /* a step more open and twice as high (1); built up (-1) */
    BW_CHANGE_SUN,   /* solar absorptance */
    BW_CHANGE_START, /* RH of every layer at the start */
    BW_CHANGE_REDISTRIBUTION, /* of the method, not of the wall: water spreads
                                 without rain as in rain (1), or slower (0) */
    BW_CHANGE_KINDS
} bw_change_kind;

typedef struct bw_change {
    bw_change_kind kind;
    size_t layer;                /* where the kind is one of a layer */
    bw_varied property;          /* of BW_CHANGE_PROPERTY */
    double value;                /* SI */
    const bw_material *material; /* of BW_CHANGE_MATERIAL; borrowed */
    const bw_layer *made;        /* of BW_CHANGE_LAYER; borrowed */
    const bw_curve *curve; /* of a membrane: sd(RH); NULL: constant, `value` */
    const char *whence;    /* NULL, or " in the library": of the words */
} bw_change;

/* One that is all told by this. */
bw_change bw_change_to(bw_change_kind kind, size_t layer, double value);

/* The wall with these changes, made in their order, in the arena; what is not
 * changed is shared with the original, which is never touched. NULL: out of
 * memory. `layer` counts what stands there when the change is made. */
const bw_assembly *bw_changes_apply(bw_arena *arena, const bw_assembly *from,
                                    const bw_change *change, size_t count);
const bw_assembly *bw_change_apply(bw_arena *arena, const bw_assembly *from,
                                   const bw_change *change);

/* What holds for every change of a kind. */
typedef struct bw_change_facts {
    bool of_layer;              /* it speaks of one layer, and goes with it */
    const char *unit;           /* its value is shown in; "": no quantity */
    double per_si;              /* so many of them are one in SI */
    const char *before, *after; /* what is changed: words round the layer's */
    const char *off, *on;       /* and of a switch, how it stands */
} bw_change_facts;

bw_change_facts bw_change_facts_of(const bw_change *change);

/* Of a switch (0 or -1, and 1): is it on? */
static inline bool bw_change_is_on(const bw_change *change)
{
    return change->value > 0.5;
}

/* The generic humidity-variable membrane: no product, the class limits of DIN
 * 4108-3. */
extern const bw_curve bw_variable_membrane;

/* ---- words (change_words.c), in the arena, never NULL -------------------- */

/* What is changed, and what it then is: "sd of the membrane", "sd of the
 * membrane 2 m". `of` is the wall before the change. */
const char *bw_change_subject(bw_arena *arena, const bw_assembly *of,
                              const bw_change *change);
const char *bw_change_words(bw_arena *arena, const bw_assembly *of,
                            const bw_change *change);

/* The same as something to do, without a full stop: "Leave out the membrane".
 * Of the kinds that are advised. */
const char *bw_change_to_do(bw_arena *arena, const bw_assembly *of,
                            const bw_change *change);

/* "sheathing (Softboard)". */
const char *bw_layer_called(bw_arena *arena, const bw_layer *layer);

#endif
