/* A place that reads what the air on a side reads: its sensor hangs in that
 * air, or the columns were copied. A simulation that is given that air agrees
 * with it whatever the wall.
 *
 * Invariant: such a place is compared in no hour. */

#include <math.h>

#include "replaying.h"

/* A tenth of what loggers tell: two sensors in one room differ by more. */
static const double SAME_THETA = 0.1 * BW_REPLAY_THETA; /* K */
static const double SAME_RH = 0.1 * BW_REPLAY_RH;

typedef struct apart {
    double theta2, rh2;
    size_t theta, rh;
} apart;

static void add(apart *sum, const bw_replay_hour *hour, double theta, double p)
{
    const double rh = p / bw_saturation_pressure_water(theta);
    if (!isnan(hour->theta)) {
        sum->theta2 += pow(hour->theta - theta, 2);
        sum->theta++;
    }
    if (!isnan(hour->rh)) {
        sum->rh2 += pow(hour->rh - rh, 2);
        sum->rh++;
    }
}

/* In all that the place measured for a day or more, and that is something. */
static bool is_same(const apart *sum)
{
    const bool theta = sum->theta >= BW_REPLAY_DAY,
               rh = sum->rh >= BW_REPLAY_DAY;
    return (theta || rh) &&
           (!theta || sqrt(sum->theta2 / (double)sum->theta) < SAME_THETA) &&
           (!rh || sqrt(sum->rh2 / (double)sum->rh) < SAME_RH);
}

static const bw_log_channel *copied_from(const bw_replay_core *core, size_t p)
{
    const bw_replay *r = &core->replay;
    apart room = {0}, outer = {0};
    for (size_t h = 0; h < r->hour_count; h++) {
        const bw_boundary *air = &r->boundary[h];
        if (!core->hour[p][h].compared)
            continue;
        add(&room, &core->hour[p][h], air->theta_i, air->p_i);
        add(&outer, &core->hour[p][h], air->theta_e, air->p_e);
    }
    return is_same(&room) ? r->room : is_same(&outer) ? r->outer : NULL;
}

void bw_replay_copies(bw_replay_core *core)
{
    const bw_replay *r = &core->replay;
    for (size_t p = 0; p < r->place_count; p++) {
        const bw_log_channel *c = core->place[p].channel;
        const bw_log_channel *of = copied_from(core, p);
        if (of == NULL)
            continue;
        bw_replay_doubt(
            core, BW_DOUBT_COPY, c, r->log->line[0],
            bw_arena_say(&core->arena,
                         "%s: reads what %s reads: does its sensor hang in "
                         "that air, or is a column copied? It tests no wall "
                         "and is not compared",
                         c->name, of->name));
        core->copies++;
        for (size_t h = 0; h < r->hour_count; h++)
            core->hour[p][h].theta = core->hour[p][h].rh = (double)NAN;
    }
}
