/* What is said of a record while it is replayed: notes, doubts, moments.
 *
 * Invariant: every text lives as long as the replay. */

#include <math.h>

#include "day.h"
#include "replaying.h"

void bw_replay_note(bw_replay_core *core, const char *note)
{
    const char **more = bw_arena_more(&core->arena, core->notes,
                                      core->replay.note_count, &core->note_room,
                                      sizeof *more);
    if (more == NULL)
        return;
    core->notes = more;
    more[core->replay.note_count++] = note;
    core->replay.note = more;
}

const char *bw_replay_when(bw_replay_core *core, double time)
{
    char day[BW_DAY_TEXT];
    const double at = floor(time / 86400.0);
    const int minutes = (int)floor((time - 86400.0 * at) / 60.0);
    bw_day_text(day, (long)at);
    return bw_arena_say(&core->arena, "%s %d%d:%d%d UTC", day,
                        minutes / 60 / 10, minutes / 60 % 10, minutes % 60 / 10,
                        minutes % 10);
}

void bw_replay_doubt(bw_replay_core *core, bw_doubt_kind kind,
                     const bw_log_channel *channel, long line,
                     const char *message)
{
    bw_replay *r = &core->replay;
    bw_doubt *more = bw_arena_more(&core->arena, core->doubts, r->doubt_count,
                                   &core->doubt_room, sizeof *more);
    if (more == NULL)
        return;
    core->doubts = more;
    more[r->doubt_count++] = (bw_doubt){kind, channel, line, message};
    r->doubt = more;
}

const char *bw_doubt_text(bw_doubt_kind kind)
{
    static const char *const text[BW_DOUBT_KINDS] = {
        "swapped-columns", "swapped-sides", "clock", "saturated",   "stuck",
        "over-ice",        "jump",          "gap",   "not-between", "copy"};
    return (size_t)kind < BW_DOUBT_KINDS ? text[kind] : "";
}
