#ifndef BW_TESTS_REPLAY_RECORD_H
#define BW_TESTS_REPLAY_RECORD_H

/* A sound record, invented, and what is changed of it. */

#include "has_words.h"
#include "replay_case.h"

static const double TURN = 6.283185307179586;

enum { HOURS = 24 * 16, CHANNELS = 3, FROM = 150 };

static const bw_replay_options still = {
    .run_in = -1, .no_trials = true, .threads = 1};

static bw_climate somewhere = {.file = "none.csv",
                               .place = "",
                               .source = "",
                               .licence = "",
                               .remark = "",
                               .kind = BW_CLIMATE_MONTHLY,
                               .has_position = true,
                               .latitude = 50.0,
                               .longitude = 15.0};

/* Room, outdoors (or a cavity), a place; temperature and RH each: a mean, what
 * it varies by over the day, and hours of it that are otherwise. */
typedef struct record_of {
    double mean[2 * CHANNELS], swing[2 * CHANNELS];
    int column;    /* that is changed; -1: none */
    int hours;     /* so many from FROM on */
    double value;  /* in them; NAN: as one hour before */
    double step;   /* added to it */
    double grain;  /* all of it in steps of this; 0: as it is */
    double behind; /* h, of the outdoor air's day */
    int gap[2];    /* hours without a row, from..to */
} record_of;

static const record_of sound = {.mean = {20.0, 45.0, 4.0, 75.0, 9.0, 60.0},
                                .swing = {0.5, 2.0, 4.0, -6.0, 2.0, -3.0},
                                .column = -1};

/* Noon of the sun at 15 degrees east is 11:00 UTC; air 2.5 h later. */
static inline double plain(const record_of *r, int hour, int column)
{
    const double late = 13.5 + (column == 2 || column == 3 ? r->behind : 0.0);
    const double value = r->mean[column] +
                         r->swing[column] * cos(TURN * (hour - late) / 24.0);
    return r->grain > 0.0 && column == r->column
               ? r->grain * round(value / r->grain)
               : value;
}

static inline double value_of(int hour, int column, void *of)
{
    const record_of *r = of;
    if (hour >= r->gap[0] && hour < r->gap[1])
        return NAN;
    if (column != r->column || hour < FROM || hour >= FROM + r->hours)
        return plain(r, hour, column);
    return (isnan(r->value) ? plain(r, FROM - 1, column) : r->value) + r->step;
}

#define OUTER                                                                  \
    "<layer id=\"outer\" material=\"stone-wool-batt\" thickness=\"60 mm\"/>"
#define INNER                                                                  \
    "<layer id=\"inner\" material=\"stone-wool-batt\" thickness=\"100 mm\">"   \
    "<framing material=\"softwood\" width=\"45 mm\" spacing=\"600 mm\"/>"      \
    "</layer>"
#define GAP                                                                    \
    "<layer id=\"face\" material=\"brick-facing\" thickness=\"100 mm\"/>"      \
    "<cavity id=\"gap\" thickness=\"30 mm\" ventilation=\"well\"/>"
#define PLACE AT("place:outer|inner")

static inline void run_with(const char *layers, const char *columns,
                            record_of r, const bw_climate *climate, int hours)
{
    bw_error err = {0};
    read_wall(layers, NULL, 0);
    write_log("", columns, 0, hours, value_of, &r);
    ck_assert_msg(try_replay(&still, climate, &err) == BW_OK, "%s",
                  err.message);
}

static inline void run(record_of r)
{
    run_with(OUTER INNER, ROOM "," OUTDOOR "," PLACE, r, &somewhere, HOURS);
}

static inline bool is_doubted(bw_doubt_kind kind)
{
    return doubts_of(kind) > 0;
}

#endif
