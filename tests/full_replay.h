#ifndef BW_TESTS_FULL_REPLAY_H
#define BW_TESTS_FULL_REPLAY_H

/* A replay in which everything that can be told is there; its numbers are made
 * up. */

#include "bothways/replay.h"

typedef struct full_replay {
    bw_assembly assembly;
    bw_log log;
    bw_log_channel channel;
    bw_replay_hour hour[2];
    bw_replay_figures month[1];
    bw_replay_place place[1];
    bw_replay_trial trial[1];
    bw_doubt doubt[1];
    bw_replay replay;
} full_replay;

static full_replay logged;

static inline bw_replay_figures full_figures(int year, int month)
{
    return (bw_replay_figures){.year = year,
                               .month = month,
                               .theta_hours = 31,
                               .rh_hours = 32,
                               .theta_bias = -0.31,
                               .theta_rms = 0.41,
                               .rh_bias = 0.011,
                               .rh_rms = 0.021,
                               .pressure_bias = 13.0,
                               .theta_drop = 17.0,
                               .theta_share_measured = 0.61,
                               .theta_share_computed = 0.67,
                               .pressure_drop = 420.0,
                               .pressure_share_measured = 0.93,
                               .pressure_share_computed = 0.97};
}

static inline void full_replay_make(full_replay *f)
{
    *f = (full_replay){
        .assembly = {.file = "w.xml", .id = "w", .title = "w", .remark = ""},
        .channel = {.kind = BW_LOG_PLACE,
                    .name = "place:a|b",
                    .at = "a|b",
                    .has_temperature = true,
                    .has_humidity = true},
        .hour = {{1.1, 0.51, 1.3, 0.52, true}, {1.2, 0.53, 1.4, 0.54, false}},
        .trial = {{.name = "lambda of a",
                   .words = "lambda of a 0.05",
                   .drawn = "0.04",
                   .layer = "a",
                   .unit = "W/(m.K)",
                   .value = 0.05,
                   .low = 0.03,
                   .high = 0.06,
                   .misfit = 0.7}},
        .doubt = {{BW_DOUBT_JUMP, NULL, 17, "it jumps"}}};
    f->month[0] = full_figures(2031, 4);
    f->place[0] = (bw_replay_place){.channel = &f->channel,
                                    .name = "a|b",
                                    .words = "between a and b",
                                    .section = "whole",
                                    .depth = 0.1,
                                    .hour = f->hour,
                                    .all = full_figures(0, 0),
                                    .month_count = 1,
                                    .month = f->month};
    f->log = (bw_log){.file = "log.csv",
                      .source = "",
                      .licence = "",
                      .remark = "",
                      .channel_count = 1,
                      .channel = &f->channel};
    f->replay = (bw_replay){.assembly = &f->assembly,
                            .log = &f->log,
                            .start = 0.0,
                            .hour_count = 2,
                            .place_count = 1,
                            .place = f->place,
                            .assessed = true,
                            .not_assessed = "",
                            .misfit = 1.7,
                            .tried = true,
                            .trial_count = 1,
                            .trial = f->trial,
                            .suggestion = "it may be that",
                            .doubt_count = 1,
                            .doubt = f->doubt};
}

#endif
