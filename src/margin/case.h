#ifndef BW_MARGIN_CASE_H
#define BW_MARGIN_CASE_H

/* What one assessment says, small enough to keep by the thousand. */

#include "assessing.h"
#include "criterion.h"
#include "study.h"

/* A criterion in a section. */
enum { BW_CASE_SECTIONS = 5, BW_CASE_KEYS = BW_CASE_SECTIONS * BW_C_COUNT };

typedef struct bw_case {
    bw_verdict verdict; /* of all that decides, by the numbers alone */
    bw_verdict said;    /* the same as `check` says it */
    bool screening;     /* screening rows decide */
    size_t fails;       /* criteria that fail */
    double worst;       /* lowest relative margin; NAN if none has one */
    double score;       /* less is worse, all criteria together */
    signed char outcome[BW_CASE_KEYS]; /* bw_verdict; -1: does not decide */
    double margin[BW_CASE_KEYS];       /* relative to the limit; NAN: none */
    double value[BW_CASE_KEYS], limit[BW_CASE_KEYS]; /* NAN: none */
    bool never[BW_CASE_KEYS]; /* value is how long it was waited for */
    bool simulated;           /* hour by hour, every section */
    bool junctions_unseen;    /* the wall alone holds; its junctions, which no
                                 change is judged with, keep it from that */
} bw_case;

/* Reads a case off an assessment. */
void bw_case_of(bw_case *out, const bw_assessment *assessment);

/* Assesses the wall with these settings. */
bw_status bw_case_run(bw_case *out, const bw_study *study,
                      const bw_setting *setting, bw_error *err);

/* The same; the assessment is shown to `look` before it is freed. */
typedef void bw_case_look(void *payload, const bw_assessment *assessment);
bw_status bw_case_run_seen(bw_case *out, const bw_study *study,
                           const bw_setting *setting, bw_case_look *look,
                           void *payload, bw_error *err);

/* Assesses a wall as the study assesses its cases. */
bw_status bw_case_assess(bw_case *out, const bw_study *study,
                         const bw_assembly *assembly, bw_error *err);

/* A criterion flips from one case to another when it begins to fail, or when
 * it failed and now holds; one that failed and is no longer judged has not
 * flipped. */
bool bw_case_key_flips(const bw_case *from, const bw_case *to, size_t key);

/* The first criterion that flips; BW_CASE_KEYS if none does. `count` (may be
 * NULL) receives how many do. */
size_t bw_case_flip(const bw_case *from, const bw_case *to, size_t *count);

bool bw_case_key_fails(const bw_case *c, size_t key);

/* The criterion that fails by most, else the closest; BW_CASE_KEYS if there
 * is none with a margin. */
size_t bw_case_worst_key(const bw_case *c);

/* What gives the case its verdict: of the criteria that read so the one with
 * the least margin; BW_CASE_KEYS if none was judged. */
size_t bw_case_deciding_key(const bw_case *c);

const char *bw_key_criterion(size_t key);
const char *bw_key_section(size_t key);
/* "drying-reserve in section between-studs"; NULL: out of memory */
const char *bw_key_words(bw_arena *arena, size_t key);

/* What decides a case, in words; criterion NULL: out of memory. */
bw_figure bw_case_figure(bw_arena *arena, const bw_case *c);

/* The same of a criterion whose value, limit and margin are known. */
bw_figure bw_key_figure(bw_arena *arena, size_t key, double value, double limit,
                        double margin, bool never);

/* a is worse than b: more criteria fail, else a lower score. */
bool bw_case_worse(const bw_case *a, const bw_case *b);

/* A margin held within -1..1; NAN stays. */
double bw_margin_held(double margin);

#endif
