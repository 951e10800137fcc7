/* Which channels drive the wall: the room's air, and outside that of a cavity
 * where it was measured, else outdoor air.
 *
 * Below 0 degC RH is over liquid water unless the record says ice:
 *   p = rh p_w(theta)   or   p = rh p_ice(theta). */

#include <string.h>

#include "fail.h"
#include "replaying.h"

double bw_replay_pressure(const bw_log_channel *channel, double theta,
                          double rh)
{
    return bw_vapour_pressure(theta, rh,
                              channel->over_ice ? BW_OVER_ICE : BW_OVER_WATER);
}

double bw_replay_rh(const bw_log_channel *channel, double theta, double rh)
{
    return bw_replay_pressure(channel, theta, rh) /
           bw_saturation_pressure_water(theta);
}

static bw_status refuse(const bw_replay_core *core, const char *what,
                        bw_error *err)
{
    const bw_log *log = core->replay.log;
    return bw_fail(err, BW_ERR_INPUT, log->file, log->header_line, "%s", what);
}

/* The cavity whose air a channel measured. */
static bw_status find_cavity(bw_replay_core *core,
                             const bw_log_channel *channel, bw_error *err)
{
    const bw_assembly *a = core->replay.assembly;
    const bw_log *log = core->replay.log;
    const char *at = channel->at;
    size_t found = 0;
    for (size_t i = 0; i < a->layer_count; i++)
        if (a->layer[i].kind == BW_LAYER_CAVITY &&
            (at[0] == '\0' || strcmp(at, a->layer[i].id) == 0)) {
            core->cavity = (long)i;
            found++;
        }
    if (found == 1)
        return BW_OK;
    return bw_fail(
        err, BW_ERR_INPUT, log->file, log->header_line,
        found > 1       ? "'%s' is in a wall of several cavities; name the "
                          "one by its layer id, as in cavity:ID%s"
        : at[0] == '\0' ? "'%s' was measured, but the wall has no cavity%s"
                        : "'%s': the wall has no cavity with the id '%s'",
        channel->name, found > 1 || at[0] == '\0' ? "" : at);
}

static bool is_air(const bw_log_channel *c)
{
    return c->has_temperature && c->has_humidity;
}

static bw_status take_outer(bw_replay_core *core, const bw_log_channel *outdoor,
                            const bw_log_channel *cavity, bw_error *err)
{
    bw_replay *r = &core->replay;
    const bw_log_channel *outer = cavity != NULL ? cavity : outdoor;
    if (outer == NULL || !is_air(outer))
        return refuse(core,
                      "no air outside: a replay needs the columns "
                      "outdoor_temperature_C and outdoor_relative_humidity_pct "
                      "or cavity_temperature_C and "
                      "cavity_relative_humidity_pct",
                      err);
    r->outer = outer;
    r->cavity = outer == cavity;
    if (r->cavity)
        BW_TRY(find_cavity(core, cavity, err));
    r->left_out = r->cavity ? (size_t)core->cavity + 1 : 0;
    r->outdoor_no_weather = !r->cavity;
    if (r->left_out < r->assembly->layer_count)
        return BW_OK;
    return refuse(core, "no layer lies inside the cavity that was measured",
                  err);
}

bw_status bw_replay_sides(bw_replay_core *core, bw_error *err)
{
    bw_replay *r = &core->replay;
    const bw_log_channel *cavity = NULL, *outdoor = NULL;
    core->cavity = -1;
    for (size_t i = 0; i < r->log->channel_count; i++) {
        const bw_log_channel *c = &r->log->channel[i];
        if (c->kind == BW_LOG_ROOM)
            r->room = c;
        else if (c->kind == BW_LOG_OUTDOOR)
            outdoor = c;
        else if (c->kind == BW_LOG_CAVITY && cavity != NULL)
            return refuse(core, "two cavities were measured: leave one out",
                          err);
        else if (c->kind == BW_LOG_CAVITY)
            cavity = c;
    }
    if (r->room == NULL || !is_air(r->room))
        return refuse(core,
                      "no air of the room: a replay needs the columns "
                      "room_temperature_C and room_relative_humidity_pct",
                      err);
    if (r->assembly->beyond.kind != NULL && cavity == NULL)
        return refuse(core,
                      "this wall lies against something else than outdoor air, "
                      "which a log does not drive",
                      err);
    return take_outer(core, outdoor, cavity, err);
}
