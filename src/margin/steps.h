#ifndef BW_MARGIN_STEPS_H
#define BW_MARGIN_STEPS_H

/* The steps of a margin, in their order. */

#include "case.h"

/* bw_margin_make on a pool that others use, too; options not NULL, its threads
 * not looked at. */
bw_status bw_margin_make_on(bw_pool *pool, bw_margin **out,
                            const bw_assembly *assembly,
                            const bw_climate *climate,
                            const bw_margin_options *options, bw_error *err);

/* What one unknown's own variation leaves for the worst combination. */
typedef struct bw_ends {
    bw_setting low, high, inner; /* inner: the worst sample, if set */
    bw_setting worst;            /* of all these; not set: as drawn is */
} bw_ends;

/* Varies unknown `index` alone and fills study->source[index].shown. Strings
 * and arrays go to `arena`, of which each thread brings its own. */
bw_status bw_vary_alone(bw_ends *ends, const bw_study *study, size_t index,
                        const bw_case *as_drawn, bw_arena *arena,
                        bw_error *err);

/* Puts the worst ends together and looks for worse beside them. */
bw_status bw_vary_together(bw_margin *out, const bw_study *study,
                           const bw_ends *ends, const bw_case *as_drawn,
                           bw_error *err);

/* The sd map on the first section. */
bw_status bw_map_make(bw_margin *out, const bw_study *study,
                      const bw_section *section, bw_error *err);

/* `count` quasi-random cases. */
bw_status bw_ensemble_run(bw_margin *out, const bw_study *study, size_t count,
                          bw_error *err);

/* Another room that was simulated among the most telling cases. */
typedef struct bw_known_room {
    bool set;
    bw_indoors room;
    bw_case at;
} bw_known_room;

/* The most telling cases, simulated: study->options simulate. `as_drawn` is
 * the wall as drawn, simulated. *room: another room, if it was one. */
bw_status bw_simulate_cases(bw_margin *out, const bw_study *study,
                            const bw_case *as_drawn, size_t budget,
                            bw_known_room *room, bw_error *err);

/* The dampest indoor air at which the wall still holds: out->damp. known: a
 * room that need not be assessed again. */
bw_status bw_damp_search(bw_margin *out, const bw_study *study,
                         const bw_case *as_drawn, const bw_known_room *known,
                         bw_error *err);

/* Standard error of a share of `holds` in `count` independent cases. */
double bw_share_error(size_t holds, size_t count);

#endif
