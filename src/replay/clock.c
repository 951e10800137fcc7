/* Whether the clock of a record can be right.
 *
 * Outdoor air is warmest 2 to 3 hours after the sun is highest (common
 * knowledge, no source): the first harmonic of its mean day,
 *   a = 2/24 sum theta_k cos(2 pi k/24), b likewise with sin,
 *   peak = atan2(b, a) 24/(2 pi) [h UTC],
 * against the sun's noon at the wall's climate, or against the hours of that
 * climate in the same months. The air of a cavity follows outdoor air by some
 * hours: the shift at which their hourly changes go together best.
 *
 * Invariant: nothing is said of less than a week, of air that hardly varies by
 * day, or of less than the limits below. */

#include <math.h>

#include "replaying.h"

static const double HOUR = 3600.0, TURN = 24.0 / 6.283185307179586;
static const double AFTER_NOON = 2.5; /* h */
static const double OFF = 3.0;        /* h; less cannot be told */
static const double LEAST = 1.0;      /* K, of the harmonic */
enum { WEEK = 168, MOST_LAG = 6, LEADS = 2, LAGS = 4 };

static const bw_log_channel *channel_of(const bw_log *log, bw_log_kind kind)
{
    for (size_t i = 0; i < log->channel_count; i++)
        if (log->channel[i].kind == kind && log->channel[i].has_temperature)
            return &log->channel[i];
    return NULL;
}

/* ---- the day --------------------------------------------------------------
 */

typedef struct harmonic {
    double peak, amplitude; /* h UTC, K */
} harmonic;

static harmonic of_day(const double sum[24], const double count[24])
{
    double a = 0, b = 0;
    for (int k = 0; k < 24; k++) {
        const double mean = sum[k] / count[k];
        a += mean * cos(k / TURN) / 12;
        b += mean * sin(k / TURN) / 12;
    }
    return (harmonic){fmod(atan2(b, a) * TURN + 24, 24), hypot(a, b)};
}

/* Of the record, and which of its hours are of each month. */
static bool of_log(harmonic *out, const bw_replay_core *core,
                   const double *value, double months[BW_MONTHS])
{
    const bw_replay *r = &core->replay;
    double sum[24] = {0}, count[24] = {0}, all = 0;
    for (size_t h = r->run_in; h < r->hour_count; h++) {
        const double at = r->start + HOUR * (double)h;
        const int k = (int)fmod(at / HOUR, 24);
        int year, month;
        if (isnan(value[h]) || core->gap[h])
            continue;
        bw_replay_month(at, &year, &month);
        months[month]++;
        sum[k] += value[h];
        count[k]++;
        all++;
    }
    for (int k = 0; k < 24; k++)
        if (!(count[k] > 0))
            return false;
    *out = of_day(sum, count);
    return all >= WEEK && out->amplitude >= LEAST;
}

/* The hours of a climate in the same months, or the sun. */
static double expected(const bw_climate *climate,
                       const double months[BW_MONTHS])
{
    double sum[24] = {0}, count[24] = {0};
    size_t at = 0;
    for (int m = 0; climate->kind == BW_CLIMATE_HOURLY &&
                    climate->hour_count > 0 && m < BW_MONTHS;
         m++) {
        const size_t hours = (size_t)(bw_month_seconds(m) / HOUR);
        for (size_t h = at; h < at + hours && months[m] > 0; h++) {
            sum[h % 24] += climate->hour[h].temperature;
            count[h % 24]++;
        }
        at += hours;
    }
    if (count[0] > 0) {
        const harmonic day = of_day(sum, count);
        if (day.amplitude >= LEAST)
            return day.peak;
    }
    return fmod(12 - climate->longitude / 15 + AFTER_NOON + 24, 24);
}

static void against_sun(bw_replay_core *core, const bw_log_channel *c)
{
    const bw_climate *climate = core->climate;
    const double *value = core->hours[c - core->replay.log->channel][0].value;
    double months[BW_MONTHS] = {0};
    harmonic day;
    if (climate == NULL || !climate->has_position) {
        bw_replay_note(core, "whether the clock is right cannot be told: no "
                             "climate says where the wall stands");
        return;
    }
    if (!of_log(&day, core, value, months)) {
        bw_replay_note(core, "whether the clock is right cannot be told: too "
                             "short, or the air hardly varies by day");
        return;
    }
    const double due = expected(climate, months);
    const double off = remainder(day.peak - due, 24);
    if (fabs(off) > OFF)
        bw_replay_doubt(
            core, BW_DOUBT_ZONE, c, core->replay.log->line[0],
            bw_arena_say(&core->arena,
                         "%s is warmest at %.1f h UTC, due at %.1f h where the "
                         "wall's climate is: is its clock %.0f h %s? (less "
                         "than 3 h cannot be told)",
                         c->name, day.peak, due, fabs(off),
                         off > 0 ? "ahead" : "behind"));
    else
        bw_replay_note(core,
                       bw_arena_say(&core->arena,
                                    "the clock agrees with the sun to %.1f h "
                                    "(less than 3 h off cannot be told)",
                                    fabs(off)));
}

/* ---- two clocks ------------------------------------------------------------
 */

/* How well the changes of b follow those of a so many hours later, -1..1. */
static double together(const bw_replay_core *core, const double *a,
                       const double *b, int lag)
{
    const bw_replay *r = &core->replay;
    double ab = 0, aa = 0, bb = 0;
    size_t count = 0;
    for (size_t h = r->run_in + MOST_LAG + 1; h + MOST_LAG < r->hour_count;
         h++) {
        const size_t k = (size_t)((long)h + lag);
        const double x = a[h] - a[h - 1], y = b[k] - b[k - 1];
        if (isnan(x) || isnan(y) || core->gap[h])
            continue;
        ab += x * y;
        aa += x * x;
        bb += y * y;
        count++;
    }
    return count >= WEEK && aa > 0 && bb > 0 ? ab / sqrt(aa * bb) : 0;
}

static void against_each_other(bw_replay_core *core,
                               const bw_log_channel *outdoor,
                               const bw_log_channel *cavity)
{
    static const double CLEARLY = 0.1;
    const bw_log_channel *first = core->replay.log->channel;
    const double *a = core->hours[outdoor - first][0].value;
    const double *b = core->hours[cavity - first][0].value;
    int best = 0;
    double most = -1;
    for (int lag = -MOST_LAG; lag <= MOST_LAG; lag++) {
        const double now = together(core, a, b, lag);
        if (now > most) {
            most = now;
            best = lag;
        }
    }
    if (most < together(core, a, b, 0) + CLEARLY ||
        (best > -LEADS && best < LAGS))
        return;
    bw_replay_doubt(
        core, BW_DOUBT_ZONE, cavity, core->replay.log->line[0],
        bw_arena_say(&core->arena,
                     "%s goes with %s best %d h %s: do their clocks differ, "
                     "or does the sun reach the face first?",
                     cavity->name, outdoor->name, best < 0 ? -best : best,
                     best < 0 ? "earlier" : "later"));
}

void bw_replay_clock(bw_replay_core *core)
{
    const bw_log *log = core->replay.log;
    const bw_log_channel *outdoor = channel_of(log, BW_LOG_OUTDOOR);
    const bw_log_channel *cavity = channel_of(log, BW_LOG_CAVITY);
    if (outdoor != NULL)
        against_sun(core, outdoor);
    else
        bw_replay_note(core, "whether the clock is right cannot be told: the "
                             "log has no outdoor air");
    if (outdoor != NULL && cavity != NULL)
        against_each_other(core, outdoor, cavity);
}
