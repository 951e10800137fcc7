/* What looks wrong in a record and was taken as given. Each rule says what a
 * sound record does not do; its limits are common practice, no source.
 *
 * Invariant: a doubt names the line it begins at, and changes no figure, but of
 * a place that copies the air of a side (copies.c). */

#include <math.h>

#include "fail.h"
#include "replaying.h"

static const double HOUR = 3600.0, STEP = 3660.0;
enum { TOLD = 8 }; /* gaps, one by one */

/* ---- values -------------------------------------------------------------- */

typedef struct spread {
    double mean, deviation;
} spread;

/* Behind the run-in. */
static spread spread_of(const bw_replay_core *core, const bw_log_channel *c,
                        bool humidity)
{
    const bw_replay *r = &core->replay;
    const double *v = core->hours[c - r->log->channel][humidity].value;
    double sum = 0, square = 0, n = 0;
    const size_t from = r->run_in + BW_REPLAY_DAY <= r->hour_count ? r->run_in
                                                                   : 0;
    for (size_t h = from; h < r->hour_count; h++) {
        if (isnan(v[h]))
            continue;
        sum += v[h];
        square += v[h] * v[h];
        n++;
    }
    const double mean = sum / n;
    return (spread){mean, sqrt(fmax(square / n - mean * mean, 0))};
}

static long first_line(const bw_replay_core *core)
{
    return core->replay.log->line[0];
}

static void swapped_columns(bw_replay_core *core, const bw_log_channel *c)
{
    static const double HOT = 32.0, PARCHED = 0.35;
    if (!c->has_temperature || !c->has_humidity)
        return;
    const double theta = spread_of(core, c, false).mean;
    const double rh = spread_of(core, c, true).mean;
    if (theta > HOT && rh < PARCHED)
        bw_replay_doubt(
            core, BW_DOUBT_SWAPPED_COLUMNS, c, first_line(core),
            bw_arena_say(&core->arena,
                         "%s: %.1f degC and %.0f %% RH in the mean: do its "
                         "columns of temperature and humidity stand swapped?",
                         c->name, theta, 100 * rh));
}

static void swapped_sides(bw_replay_core *core)
{
    static const double COLDER = 1.0; /* K */
    const bw_replay *r = &core->replay;
    const spread in = spread_of(core, r->room, false);
    const spread out = spread_of(core, r->outer, false);
    if (in.mean < out.mean - COLDER && in.deviation >= out.deviation)
        bw_replay_doubt(
            core, BW_DOUBT_SWAPPED_SIDES, r->room, first_line(core),
            bw_arena_say(&core->arena,
                         "%s is colder than %s in the mean (%.1f and %.1f "
                         "degC) and varies more: do they stand swapped?",
                         r->room->name, r->outer->name, in.mean, out.mean));
}

/* Without a source of heat in the wall a mean lies between those of its sides.
 */
static void not_between(bw_replay_core *core, const bw_log_channel *c)
{
    static const double BEYOND = 1.0; /* K */
    const bw_replay *r = &core->replay;
    if (c->kind < BW_LOG_PLACE || !c->has_temperature)
        return;
    const double at = spread_of(core, c, false).mean;
    const double in = spread_of(core, r->room, false).mean;
    const double out = spread_of(core, r->outer, false).mean;
    if (at > fmax(in, out) + BEYOND || at < fmin(in, out) - BEYOND)
        bw_replay_doubt(
            core, BW_DOUBT_NOT_BETWEEN, c, first_line(core),
            bw_arena_say(&core->arena,
                         "%s: %.1f degC in the mean, and %.1f and %.1f degC on "
                         "the two sides: another place, a source of heat, sun, "
                         "or swapped columns",
                         c->name, at, in, out));
}

/* ---- runs of one value --------------------------------------------------- */

static bool is_outside(const bw_log_channel *c)
{
    return c->kind == BW_LOG_OUTDOOR || c->kind == BW_LOG_CAVITY;
}

/* The smallest step that the sensor shows. */
static double resolution(const bw_log *log, const double *v)
{
    double least = HUGE_VAL;
    for (size_t i = 1; i < log->count; i++)
        if (fabs(v[i] - v[i - 1]) > 1e-9)
            least = fmin(least, fabs(v[i] - v[i - 1]));
    return least;
}

/* The longest run of readings that `same` holds for, hours. */
static double longest(const bw_log *log, const double *v, double full,
                      size_t *from)
{
    double most = 0;
    size_t begin = 0;
    bool in = false;
    for (size_t i = 0; i < log->count; i++) {
        const bool full_now = v[i] >= full;
        const bool go_on =
            in && (full < HUGE_VAL ? full_now : fabs(v[i] - v[begin]) <= 1e-9);
        const bool near = i > 0 && log->time[i] - log->time[i - 1] <=
                                       HOUR * BW_REPLAY_BRIDGED;
        if (!(go_on && near)) {
            begin = i;
            in = full < HUGE_VAL ? full_now : !isnan(v[i]);
            continue;
        }
        if ((log->time[i] - log->time[begin]) / HOUR > most) {
            most = (log->time[i] - log->time[begin]) / HOUR;
            *from = begin;
        }
    }
    return most;
}

static void saturated(bw_replay_core *core, const bw_log_channel *c)
{
    static const double FULL = 0.995, DAY = 24.0, DAYS = 72.0;
    size_t from = 0;
    const bw_log *log = core->replay.log;
    if (!c->has_humidity)
        return;
    const double hours = longest(log, c->rh, FULL, &from);
    if (hours >= (is_outside(c) ? DAYS : DAY))
        bw_replay_doubt(
            core, BW_DOUBT_SATURATED, c, log->line[from],
            bw_arena_say(&core->arena,
                         "%s: 100 %% RH for %.0f hours from %s: water stands "
                         "at the sensor, or it is saturated and tells no more",
                         c->name, hours,
                         bw_replay_when(core, log->time[from])));
}

static void stuck(bw_replay_core *core, const bw_log_channel *c, bool humidity)
{
    static const double FULL = 0.995, DAY = 24.0, DAYS = 72.0;
    const bw_log *log = core->replay.log;
    const double *v = humidity ? c->rh : c->theta;
    const double coarse = humidity ? 0.004 : 0.4;
    size_t from = 0;
    if (!(humidity ? c->has_humidity : c->has_temperature))
        return;
    const double hours = longest(log, v, HUGE_VAL, &from);
    if (hours < (resolution(log, v) < coarse ? DAY : DAYS) ||
        (humidity && v[from] >= FULL))
        return;
    bw_replay_doubt(
        core, BW_DOUBT_STUCK, c, log->line[from],
        bw_arena_say(&core->arena,
                     "%s: the same %s, %.3g %s, for %.0f hours from %s: is the "
                     "sensor stuck?",
                     c->name, humidity ? "relative humidity" : "temperature",
                     humidity ? 100 * v[from] : v[from],
                     humidity ? "%" : "degC", hours,
                     bw_replay_when(core, log->time[from])));
}

/* ---- humidity below 0 degC ------------------------------------------------
 */

/* Air in frost does not hold more than is saturated over ice for long: RH over
 * water stays below p_ice/p_water, RH over ice goes up to 1. */
static void over_ice(bw_replay_core *core, const bw_log_channel *c)
{
    static const double COLD = -3.0, MORE = 1.03, HOURS = 24.0, PART = 0.3;
    const bw_log *log = core->replay.log;
    double cold = 0, beyond = 0;
    long line = 0;
    if (!c->has_temperature || !c->has_humidity || c->over_ice)
        return;
    for (size_t i = 0; i < log->count; i++) {
        if (!(c->theta[i] < COLD) || isnan(c->rh[i]))
            continue;
        const double hours =
            i > 0 ? fmin((log->time[i] - log->time[i - 1]) / HOUR, 1) : 1;
        const double most = bw_saturation_pressure(c->theta[i]) /
                            bw_saturation_pressure_water(c->theta[i]);
        cold += hours;
        if (c->rh[i] > MORE * most) {
            beyond += hours;
            line = line == 0 ? log->line[i] : line;
        }
    }
    if (beyond >= HOURS && beyond >= PART * cold)
        bw_replay_doubt(
            core, BW_DOUBT_ICE, c, line,
            bw_arena_say(
                &core->arena,
                "%s: in %.0f of %.0f hours below -3 degC more than "
                "air can hold over ice: is its RH over ice? Then write "
                "'# humidity-reference: ice' at the head",
                c->name, beyond, cold));
}

/* ---- jumps ----------------------------------------------------------------
 */

static double most_of(const bw_log_channel *c, bool humidity)
{
    static const double most[][2] = {[BW_LOG_ROOM] = {10, 0.40},
                                     [BW_LOG_OUTDOOR] = {15, 0.60},
                                     [BW_LOG_CAVITY] = {20, 0.60},
                                     [BW_LOG_PLACE] = {8, 0.30},
                                     [BW_LOG_STUD] = {8, 0.30}};
    return most[c->kind][humidity];
}

static void jumps(bw_replay_core *core, const bw_log_channel *c, bool humidity)
{
    const bw_replay *r = &core->replay;
    const bw_log *log = r->log;
    const double *v = humidity ? c->rh : c->theta;
    const double most = most_of(c, humidity);
    size_t count = 0, first = 0;
    if (!(humidity ? c->has_humidity : c->has_temperature))
        return;
    for (size_t i = 1; i < log->count; i++)
        if (log->time[i] >= r->start + HOUR * (double)r->run_in &&
            log->time[i] - log->time[i - 1] <= STEP &&
            fabs(v[i] - v[i - 1]) > most) {
            first = count == 0 ? i : first;
            count++;
        }
    if (count == 0)
        return;
    const double scale = humidity ? 100 : 1;
    bw_replay_doubt(
        core, BW_DOUBT_JUMP, c, log->line[first],
        bw_arena_say(&core->arena,
                     "%s: the %s jumps from %.1f to %.1f %s from one reading "
                     "to the next at %s%s",
                     c->name, humidity ? "relative humidity" : "temperature",
                     scale * v[first - 1], scale * v[first],
                     humidity ? "%" : "degC",
                     bw_replay_when(core, log->time[first]),
                     count > 1 ? bw_arena_say(&core->arena,
                                              ", and %zu times more", count - 1)
                               : ""));
}

/* ---- gaps -----------------------------------------------------------------
 */

static void gaps(bw_replay_core *core)
{
    const bw_replay *r = &core->replay;
    size_t count = 0, hours = 0;
    for (size_t h = 0; h < r->hour_count; h++) {
        if (!core->gap[h])
            continue;
        size_t end = h;
        while (end < r->hour_count && core->gap[end])
            end++;
        hours += end - h;
        size_t i = 0;
        while (i + 1 < r->log->count &&
               r->log->time[i] < r->start + HOUR * (double)end)
            i++;
        if (count++ < TOLD)
            bw_replay_doubt(
                core, BW_DOUBT_GAP, NULL, r->log->line[i],
                bw_arena_say(
                    &core->arena,
                    "a gap of %zu hours in the air on a side from %s, more "
                    "than "
                    "%d: the simulation goes on straight through it; it and "
                    "%zu hours behind it are left out of all figures",
                    end - h, bw_replay_when(core, r->start + HOUR * (double)h),
                    BW_REPLAY_BRIDGED, r->run_in));
        h = end;
    }
    if (count > TOLD)
        bw_replay_note(core,
                       bw_arena_say(&core->arena, "%zu gaps in all, %zu hours",
                                    count, hours));
}

bw_status bw_replay_doubts(bw_replay_core *core, bw_error *err)
{
    const bw_log *log = core->replay.log;
    swapped_sides(core);
    for (size_t i = 0; i < log->channel_count; i++) {
        const bw_log_channel *c = &log->channel[i];
        swapped_columns(core, c);
        not_between(core, c);
        saturated(core, c);
        over_ice(core, c);
        for (int humidity = 0; humidity < 2; humidity++) {
            stuck(core, c, humidity == 1);
            jumps(core, c, humidity == 1);
        }
    }
    bw_replay_clock(core);
    bw_replay_copies(core);
    gaps(core);
    return core->arena.failed ? bw_fail_memory(err) : BW_OK;
}
