/* Computed less measured at each place, over the hours compared:
 *
 *   bias = mean(d), rms = sqrt(mean(d^2))
 *   share = (mean x_room - mean x_place) / (mean x_room - mean x_outer),
 *
 * x the temperature or the vapour pressure, over the hours in which the place
 * was measured. A share of a drop that loggers hardly see is NAN. */

#include <math.h>

#include "day.h"
#include "fail.h"
#include "replaying.h"

/* Of these the share is uncertain by some 0.1 to 0.3 with the loggers above;
 * common practice, no source. */
static const double DROP_THETA = 5.0, DROP_PRESSURE = 200.0;
static const double HOUR = 3600.0;
enum { SHORTEST = 27 * 24 }; /* h, of a month at most so few */

void bw_replay_month(double time, int *year, int *month)
{
    char text[BW_DAY_TEXT];
    bw_day_text(text, (long)floor(time / 86400.0));
    *year = *month = 0;
    for (int i = 0; i < 4; i++)
        *year = 10 * *year + (text[i] - '0');
    *month = 10 * (text[5] - '0') + (text[6] - '0') - 1;
}

typedef struct sums {
    size_t theta, rh, pressure;
    double d_theta, d_theta2, d_rh, d_rh2, d_p;
    double theta_i, theta_e, theta_m, theta_c; /* over theta hours */
    double p_i, p_e, p_m, p_c;                 /* over pressure hours */
} sums;

static void add_hour(sums *s, const bw_replay_hour *h, const bw_boundary *air,
                     double p_computed)
{
    if (!isnan(h->theta)) {
        const double d = h->theta_computed - h->theta;
        s->theta++;
        s->d_theta += d;
        s->d_theta2 += d * d;
        s->theta_i += air->theta_i;
        s->theta_e += air->theta_e;
        s->theta_m += h->theta;
        s->theta_c += h->theta_computed;
    }
    if (!isnan(h->rh)) {
        const double d = h->rh_computed - h->rh;
        s->rh++;
        s->d_rh += d;
        s->d_rh2 += d * d;
    }
    if (!isnan(h->rh) && !isnan(h->theta)) {
        const double p = h->rh * bw_saturation_pressure_water(h->theta);
        s->pressure++;
        s->d_p += p_computed - p;
        s->p_i += air->p_i;
        s->p_e += air->p_e;
        s->p_m += p;
        s->p_c += p_computed;
    }
}

static double share(double inside, double outside, double at, double least,
                    size_t hours)
{
    const double drop = (inside - outside) / (double)hours;
    return hours >= BW_REPLAY_DAY && fabs(drop) >= least
               ? (inside - at) / (inside - outside)
               : (double)NAN;
}

/* Less than a day proves nothing. */
static double over(double sum, size_t hours)
{
    return hours >= BW_REPLAY_DAY ? sum / (double)hours : (double)NAN;
}

static bw_replay_figures finish(const sums *s, int year, int month)
{
    return (bw_replay_figures){
        .year = year,
        .month = month,
        .theta_hours = s->theta,
        .rh_hours = s->rh,
        .theta_bias = over(s->d_theta, s->theta),
        .theta_rms = sqrt(over(s->d_theta2, s->theta)),
        .rh_bias = over(s->d_rh, s->rh),
        .rh_rms = sqrt(over(s->d_rh2, s->rh)),
        .pressure_bias = over(s->d_p, s->pressure),
        .theta_drop = over(s->theta_i - s->theta_e, s->theta),
        .pressure_drop = over(s->p_i - s->p_e, s->pressure),
        .theta_share_measured = share(s->theta_i, s->theta_e, s->theta_m,
                                      DROP_THETA, s->theta),
        .theta_share_computed = share(s->theta_i, s->theta_e, s->theta_c,
                                      DROP_THETA, s->theta),
        .pressure_share_measured = share(s->p_i, s->p_e, s->p_m, DROP_PRESSURE,
                                         s->pressure),
        .pressure_share_computed = share(s->p_i, s->p_e, s->p_c, DROP_PRESSURE,
                                         s->pressure),
    };
}

static bw_status months(bw_replay_core *core, size_t p, const bw_followed *run,
                        bw_error *err)
{
    const bw_replay *r = &core->replay;
    bw_replay_place *place = &core->place[p];
    const size_t most = r->hour_count / SHORTEST + 2;
    bw_replay_figures *month = BW_NEW(&core->arena, bw_replay_figures, most);
    BW_TRY_MEMORY(month != NULL, err);
    sums all = {0}, one = {0};
    int year = 0, at = 0, y = 0, m = -1;
    for (size_t h = 0; h < r->hour_count; h++) {
        bw_replay_hour *hour = &core->hour[p][h];
        bw_replay_month(r->start + HOUR * (double)h, &year, &at);
        if ((year != y || at != m) && one.theta + one.rh > 0)
            month[place->month_count++] = finish(&one, y, m);
        if (year != y || at != m)
            one = (sums){0};
        y = year;
        m = at;
        if (!hour->compared)
            continue;
        const double p_now = run[h * r->place_count + p].p;
        add_hour(&all, hour, &r->boundary[h], p_now);
        add_hour(&one, hour, &r->boundary[h], p_now);
    }
    if (one.theta + one.rh > 0)
        month[place->month_count++] = finish(&one, y, m);
    place->month = month;
    place->all = finish(&all, 0, 0);
    return BW_OK;
}

static double rh_of(const bw_followed *f)
{
    return f->p / bw_saturation_pressure_water(f->theta);
}

double bw_replay_misfit(const bw_replay_core *core, const bw_followed *run)
{
    const bw_replay *r = &core->replay;
    double sum = 0;
    size_t parts = 0;
    for (size_t p = 0; p < r->place_count; p++) {
        double theta = 0, rh = 0;
        size_t thetas = 0, rhs = 0;
        for (size_t h = 0; h < r->hour_count; h++) {
            const bw_replay_hour *m = &core->hour[p][h];
            const bw_followed *c = &run[h * r->place_count + p];
            if (m->compared && !isnan(m->theta)) {
                theta += pow((c->theta - m->theta) / BW_REPLAY_THETA, 2);
                thetas++;
            }
            if (m->compared && !isnan(m->rh)) {
                rh += pow((rh_of(c) - m->rh) / BW_REPLAY_RH, 2);
                rhs++;
            }
        }
        sum += thetas >= BW_REPLAY_DAY ? theta / (double)thetas : 0;
        sum += rhs >= BW_REPLAY_DAY ? rh / (double)rhs : 0;
        parts += thetas >= BW_REPLAY_DAY ? 1 : 0;
        parts += rhs >= BW_REPLAY_DAY ? 1 : 0;
    }
    return parts > 0 ? sqrt(sum / (double)parts) : (double)NAN;
}

bw_status bw_replay_figure(bw_replay_core *core, const bw_followed *run,
                           bw_error *err)
{
    bw_replay *r = &core->replay;
    for (size_t p = 0; p < r->place_count; p++) {
        for (size_t h = 0; h < r->hour_count; h++) {
            const bw_followed *c = &run[h * r->place_count + p];
            core->hour[p][h].theta_computed = c->theta;
            core->hour[p][h].rh_computed = rh_of(c);
        }
        BW_TRY(months(core, p, run, err));
    }
    r->misfit = bw_replay_misfit(core, run);
    r->assessed = !isnan(r->misfit);
    return BW_OK;
}
