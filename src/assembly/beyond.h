#ifndef BW_ASSEMBLY_BEYOND_H
#define BW_ASSEMBLY_BEYOND_H

/* What lies against an outer face in the place of outdoor air: soil, and
 * whatever else every_beyond.h has. A kind owns all that anybody asks of it;
 * readers,
 * `--set`, months, hours, words, comparison, changes, verdict and reports take
 * it from here. None has rain, sun, wind or sky. */

#include "arena.h"
#include "bothways/assembly.h"
#include "units.h"

typedef enum bw_beyond_sort {
    BW_BEYOND_QUANTITY,
    BW_BEYOND_WORD,
    BW_BEYOND_TIGHT_LAYER, /* the id of the one stated to keep it out; -1 */
} bw_beyond_sort;

/* An attribute of its element, and so a value of bw_beyond. */
typedef struct bw_beyond_attribute {
    const char *name; /* NULL: past the last */
    bw_beyond_sort sort;
    bool required;
    double otherwise; /* where it is not given */
    bw_dimension dimension;
    double low, high;
    const char *words[6]; /* NULL: past the last */
    const char *example;  /* of a word that is required */
} bw_beyond_attribute;

/* Moments spread evenly over a year, `first` to `first + count - 1` of `all`,
 * each as far into its part as `middle` (0 its start, 0.5 its middle). They
 * hold the outdoor air and the room; what lies beyond is put in the place of
 * the air. */
typedef struct bw_moments {
    bw_boundary *at;
    int first, count, all;
    double middle;
} bw_moments;

/* The part of the year, 0..1 from January 1st, of the i-th. */
static inline double bw_moment(const bw_moments *moments, int i)
{
    return (moments->first + i + moments->middle) / moments->all;
}

/* What a file's element says beyond what its attributes can refuse. */
typedef struct bw_beyond_review {
    const char *refusal; /* half a sentence; NULL: none */
    const char *at;      /* the attribute it is of; NULL: the element */
    const char *warning[4];
    size_t warning_count;
} bw_beyond_review;

typedef struct bw_beyond_kind {
    const char *element; /* of the file */
    const char *against; /* "soil": what the face lies against */
    bw_beyond_attribute attribute[BW_BEYOND_MOST + 1];
    double resistance;          /* outer, of moisture checks and of U, m2 K/W */
    double contact, contact_sd; /* of the simulation, above 0: m2 K/W, m */
    /* What is computed colder than it is says so: a fault that only its cold
     * makes is then to be inspected. ", in soil taken as ..."; NULL: it is
     * not. */
    const char *colder;
    void (*moments)(const bw_moments *moments, const bw_beyond *beyond,
                    const bw_climate *climate);
    /* States every value, so that equal words are equal. NULL: no memory. */
    const char *(*words)(bw_arena *arena, const bw_assembly *assembly);
    /* Of an element just read; may be NULL. */
    void (*review)(bw_beyond_review *review, bw_arena *arena,
                   const bw_assembly *assembly);
    /* The criterion that says what of it nobody computes, and the n-th such
     * thing of a wall, from 0; NULL: no more. Both may be NULL. */
    const char *unjudged;
    const char *(*why_unjudged)(bw_arena *arena, const bw_assembly *assembly,
                                size_t n);
} bw_beyond_kind;

enum {
#define BEYOND(name) BW_BEYOND_AS_##name,
#include "every_beyond.h"
#undef BEYOND
    BW_BEYOND_KINDS
};

#define BEYOND(name) extern const bw_beyond_kind bw_beyond_##name;
#include "every_beyond.h"
#undef BEYOND

/* All of them, in the table's order. */
const bw_beyond_kind *bw_beyond_kind_at(size_t i);

/* What the face lies against, "soil"; NULL: outdoor air. */
const char *bw_beyond_against(const bw_assembly *assembly);

/* The layer stated to keep it out; -1: none is, or outdoor air. */
long bw_beyond_tight_layer(const bw_beyond *beyond);

/* A layer is gone, or others stand there: it is not stated to be tight. */
void bw_beyond_layer_lost(bw_beyond *beyond, size_t layer);

/* Layers from `at` on have moved by so many. */
void bw_beyond_layers_moved(bw_beyond *beyond, size_t at, long by);

/* All values alike; layers by their ids. */
bool bw_beyond_same(const bw_assembly *a, const bw_assembly *b);

/* The air at the outer face becomes what lies beyond; outdoor air stays. */
void bw_beyond_moments(const bw_moments *moments, const bw_assembly *assembly,
                       const bw_climate *climate);

#endif
