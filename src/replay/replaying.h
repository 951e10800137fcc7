#ifndef BW_REPLAY_REPLAYING_H
#define BW_REPLAY_REPLAYING_H

/* What the parts of a replay share. */

#include "arena.h"
#include "bothways/replay.h"
#include "follow.h"
#include "pool.h"

/* Hours bridged straight without leaving any out; common practice, no source.
 */
enum { BW_REPLAY_BRIDGED = 6, BW_REPLAY_RUN_IN = 48, BW_REPLAY_DAY = 24 };

/* What such loggers tell: 0.5 K and 3 % RH, common practice, no source. */
#define BW_REPLAY_THETA 0.5
#define BW_REPLAY_RH 0.03

/* One quantity of a channel at the full hours. */
typedef struct bw_hours {
    double *value; /* as the log has it; between readings straight */
    double *apart; /* s, between the readings on both sides; 0: averaged */
} bw_hours;

typedef struct bw_replay_core {
    bw_replay replay; /* first: a bw_replay * points to its owner */
    bw_arena arena;
    const bw_climate *climate;
    const bw_replay_options *options;
    bw_pool pool;
    bw_hours (*hours)[2]; /* of each channel: temperature, humidity */
    long cavity;          /* layer whose air is measured; -1: none */
    bool *gap;            /* of each hour: the air on a side was bridged too
                             far */
    bw_replay_place *place;
    bw_replay_hour **hour; /* of each place */
    bw_doubt *doubts;
    size_t doubt_room, note_room;
    size_t copies; /* places that read the air of a side */
    const char **notes;
} bw_replay_core;

/* ---- sides.c: which air is whose ----------------------------------------- */

bw_status bw_replay_sides(bw_replay_core *core, bw_error *err);

/* RH over liquid water [-] and vapour pressure [Pa] of what a channel has. */
double bw_replay_rh(const bw_log_channel *channel, double theta, double rh);
double bw_replay_pressure(const bw_log_channel *channel, double theta,
                          double rh);

/* ---- hours.c: the record at full hours, and where it has gaps ------------ */

bw_status bw_replay_hours(bw_replay_core *core, bw_error *err);

/* ---- places.c ------------------------------------------------------------ */

/* The part of a wall that is simulated, and where its places are. */
typedef struct bw_replay_part {
    bw_section section; /* of `of`, the layers left out taken off */
    bw_sections *of;
    double thickness; /* m */
    size_t count;
    size_t *which; /* places of the replay */
    bw_follow_place *place;
    double *depth; /* m from the outer face */
} bw_replay_part;

/* Between studs, or through one. To be closed whatever is returned.
 * BW_ERR_INPUT: a place that is not there. */
bw_status bw_replay_part_open(bw_replay_part *part, const bw_replay_core *core,
                              bw_arena *arena, const bw_assembly *assembly,
                              bool stud, bw_error *err);
void bw_replay_part_close(bw_replay_part *part);

/* Lists the places of the record. */
bw_status bw_replay_places(bw_replay_core *core, bw_error *err);

/* ---- run.c --------------------------------------------------------------- */

/* out[hour_count][place_count] of a wall, in the arena of the caller. */
bw_status bw_replay_run(bw_followed *out, const bw_replay_core *core,
                        const bw_assembly *assembly, bw_arena *arena,
                        bw_progress *progress, void *payload, bw_error *err);

/* ---- figures.c ----------------------------------------------------------- */

/* Of the run of the wall as drawn. */
bw_status bw_replay_figure(bw_replay_core *core, const bw_followed *run,
                           bw_error *err);

/* rms of the differences over what loggers tell; NAN: nothing compared. */
double bw_replay_misfit(const bw_replay_core *core, const bw_followed *run);

/* Year and month (0..11) of a moment [s since 1970 UTC]. */
void bw_replay_month(double time, int *year, int *month);

/* ---- trials.c ------------------------------------------------------------ */

bw_status bw_replay_trials(bw_replay_core *core, bw_error *err);

/* ---- doubts.c, clock.c, copies.c; say.c ---------------------------------- */

bw_status bw_replay_doubts(bw_replay_core *core, bw_error *err);
void bw_replay_clock(bw_replay_core *core);
void bw_replay_copies(bw_replay_core *core);

/* One more; message in the arena of the core. Memory that ran out is seen in
 * it. */
void bw_replay_doubt(bw_replay_core *core, bw_doubt_kind kind,
                     const bw_log_channel *channel, long line,
                     const char *message);
void bw_replay_note(bw_replay_core *core, const char *note);

/* "2021-01-31 05:00 UTC" of a moment. */
const char *bw_replay_when(bw_replay_core *core, double time);

#endif
