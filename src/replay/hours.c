/* A record at full hours. Of three and more readings within half an hour of
 * one their mean, those at the ends of that hour counting half, so that their
 * mean moment is the hour; else straight between the readings on both sides.
 *
 * Invariant: an hour of the air on both sides always has a value; where the
 * readings around it lie further apart than BW_REPLAY_BRIDGED hours it is in a
 * gap, and so is nothing compared in it and for a run-in behind it. */

#include <math.h>

#include "fail.h"
#include "replaying.h"

static const double HOUR = 3600.0, HALF = 1800.0;
static const double NEAR = 5400.0; /* s, what was measured at an hour */

/* First and last reading with a value; false: there is none. */
static bool ends_of(const double *value, const bw_log *log, double *first,
                    double *last)
{
    size_t i = 0, k = log->count;
    while (i < k && isnan(value[i]))
        i++;
    while (k > i && isnan(value[k - 1]))
        k--;
    if (k == i)
        return false;
    *first = log->time[i];
    *last = log->time[k - 1];
    return true;
}

/* The mean of the readings from `from` on within half an hour of `at`; false:
 * they are too few. */
static bool average(const bw_log *log, const double *value, size_t from,
                    double at, double *mean)
{
    double sum = 0, weight = 0;
    size_t count = 0;
    for (size_t i = from; i < log->count && log->time[i] <= at + HALF; i++) {
        if (isnan(value[i]) || log->time[i] < at - HALF)
            continue;
        const double w = fabs(log->time[i] - at) < HALF ? 1 : 0.5;
        sum += w * value[i];
        weight += w;
        count++;
    }
    *mean = sum / weight;
    return count > 2;
}

static void fill(const bw_replay_core *core, bw_hours *out, const double *value)
{
    const bw_log *log = core->replay.log;
    size_t near = 0, last = log->count, next = 0;
    for (size_t h = 0; h < core->replay.hour_count; h++) {
        const double at = core->replay.start + HOUR * (double)h;
        while (near < log->count && log->time[near] < at - HALF)
            near++;
        for (;
             next < log->count && (isnan(value[next]) || log->time[next] < at);
             next++)
            if (!isnan(value[next]))
                last = next;
        out->value[h] = (double)NAN;
        out->apart[h] = HUGE_VAL;
        if (average(log, value, near, at, &out->value[h])) {
            out->apart[h] = 0;
            continue;
        }
        out->value[h] = (double)NAN;
        if (next < log->count && log->time[next] <= at) {
            out->value[h] = value[next];
            out->apart[h] = 0;
        } else if (next < log->count && last < log->count) {
            const double apart = log->time[next] - log->time[last];
            const double f = (at - log->time[last]) / apart;
            out->value[h] = value[last] + f * (value[next] - value[last]);
            out->apart[h] = apart;
        }
    }
}

/* The hours in which all air was measured, from the first to the last. */
static bw_status span(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    const bw_log_channel *side[] = {r->room, r->outer};
    double from = -HUGE_VAL, to = HUGE_VAL;
    for (int k = 0; k < 4; k++) {
        const bw_log_channel *c = side[k / 2];
        double first = 0, last = 0;
        if (!ends_of(k % 2 == 0 ? c->theta : c->rh, r->log, &first, &last))
            return bw_fail(err, BW_ERR_INPUT, r->log->file, r->log->header_line,
                           "no reading of the %s of '%s'",
                           k % 2 == 0 ? "temperature" : "relative humidity",
                           c->name);
        from = fmax(from, first);
        to = fmin(to, last);
    }
    from = HOUR * ceil(from / HOUR);
    to = HOUR * floor(to / HOUR);
    if (to - from < HOUR * (BW_REPLAY_DAY - 1))
        return bw_fail(err, BW_ERR_INPUT, r->log->file, r->log->header_line,
                       "less than a day in which the air was measured on both "
                       "sides");
    r->start = from;
    r->hour_count = (size_t)((to - from) / HOUR) + 1;
    return BW_OK;
}

static bw_status fill_all(bw_replay_core *core, bw_error *err)
{
    const bw_replay *r = &core->replay;
    const size_t n = r->hour_count;
    core->hours = bw_arena_get(&core->arena, r->log->channel_count,
                               sizeof *core->hours);
    BW_TRY_MEMORY(core->hours != NULL, err);
    for (size_t i = 0; i < r->log->channel_count; i++)
        for (int q = 0; q < 2; q++) {
            const bw_log_channel *c = &r->log->channel[i];
            bw_hours *hours = &core->hours[i][q];
            if (!(q == 0 ? c->has_temperature : c->has_humidity))
                continue;
            hours->value = BW_NEW(&core->arena, double, n);
            hours->apart = BW_NEW(&core->arena, double, n);
            BW_TRY_MEMORY(hours->value != NULL && hours->apart != NULL, err);
            fill(core, hours, q == 0 ? c->theta : c->rh);
        }
    return BW_OK;
}

/* ---- what follows from them ---------------------------------------------- */

static bool far_apart(const bw_hours *hours, size_t h)
{
    return hours->apart[h] > HOUR * BW_REPLAY_BRIDGED;
}

static bw_status drive(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    bw_boundary *boundary = BW_NEW(&core->arena, bw_boundary, r->hour_count);
    core->gap = BW_NEW(&core->arena, bool, r->hour_count);
    BW_TRY_MEMORY(boundary != NULL && core->gap != NULL, err);
    const bw_hours *in = core->hours[r->room - r->log->channel];
    const bw_hours *out = core->hours[r->outer - r->log->channel];
    for (size_t h = 0; h < r->hour_count; h++) {
        const double theta_e = out[0].value[h], theta_i = in[0].value[h];
        boundary[h] = (bw_boundary){
            .theta_e = theta_e,
            .p_e = fmax(1,
                        bw_replay_pressure(r->outer, theta_e, out[1].value[h])),
            .theta_i = theta_i,
            .p_i = fmax(1,
                        bw_replay_pressure(r->room, theta_i, in[1].value[h]))};
        core->gap[h] = far_apart(&in[0], h) || far_apart(&in[1], h) ||
                       far_apart(&out[0], h) || far_apart(&out[1], h);
    }
    r->boundary = boundary;
    return BW_OK;
}

static void measured(const bw_replay_core *core, const bw_log_channel *c,
                     bw_replay_hour *hour)
{
    const bw_replay *r = &core->replay;
    const bw_hours *of = core->hours[c - r->log->channel];
    size_t left = r->run_in;
    for (size_t h = 0; h < r->hour_count; h++) {
        const bool theta = c->has_temperature && of[0].apart[h] <= NEAR;
        const bool rh = c->has_humidity && of[1].apart[h] <= NEAR;
        /* RH over ice is turned by the temperature of the place */
        const bool known = rh && (theta || !c->over_ice);
        hour[h].theta = theta ? of[0].value[h] : (double)NAN;
        hour[h].rh = !known  ? (double)NAN
                     : theta ? bw_replay_rh(c, of[0].value[h], of[1].value[h])
                             : of[1].value[h];
        if (core->gap[h])
            left = r->run_in + 1;
        hour[h].compared = left == 0 && !core->gap[h];
        left -= left > 0;
    }
}

bw_status bw_replay_hours(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    BW_TRY(span(core, err));
    BW_TRY(fill_all(core, err));
    BW_TRY(drive(core, err));
    core->hour = BW_NEW(&core->arena, bw_replay_hour *, r->place_count + 1);
    BW_TRY_MEMORY(core->hour != NULL, err);
    for (size_t p = 0; p < r->place_count; p++) {
        core->hour[p] = BW_NEW(&core->arena, bw_replay_hour, r->hour_count);
        BW_TRY_MEMORY(core->hour[p] != NULL, err);
        measured(core, core->place[p].channel, core->hour[p]);
        core->place[p].hour = core->hour[p];
    }
    for (size_t h = 0; r->place_count > 0 && h < r->hour_count; h++)
        r->compared += core->hour[0][h].compared;
    return BW_OK;
}
