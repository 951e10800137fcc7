#include <stdlib.h>

#include "assessing.h"
#include "fail.h"

/* bw_assess_stream: a few walls are computed while the few before them are
 * taken.
 *
 * Invariant: no more than two such lots are in memory, whatever the number of
 * walls; `take` sees them in order, each lot once, none behind a failure. */

/* A wall more often takes milliseconds than seconds: enough of them that no
 * thread waits long for the last of a lot. Hours that are kept are large. */
enum { EACH = 16, MOST = 128 };

typedef struct held {
    bw_assembly *assembly;
    bw_climate *climate;
    bw_assessment *made;
    bool given;
} held;

typedef struct lot {
    held *wall;
    const bw_assessment **list; /* what `take` is shown */
    size_t first, count;
} lot;

typedef struct streaming {
    const bw_wall_stream *stream;
    bw_assessment_options options;
    bw_pool pool;
    bw_meter meter;
    lot now, before;
} streaming;

static bw_status take(streaming *s, bw_error *err)
{
    const lot *l = &s->before;
    for (size_t i = 0; i < l->count; i++)
        l->list[i] = l->wall[i].made;
    return l->count == 0 ? BW_OK
                         : s->stream->take(s->stream->payload, l->list,
                                           l->first, l->count, err);
}

static bw_status make(streaming *s, size_t i, bw_error *err)
{
    held *wall = &s->now.wall[i];
    bw_metered metered = {.meter = &s->meter, .share = 1.0};
    bw_assessment_options options = s->options;
    options.transient.progress = bw_meter_tell;
    options.transient.payload = &metered;
    BW_TRY(s->stream->give(s->stream->payload, s->now.first + i,
                           &wall->assembly, &wall->climate, err));
    wall->given = true;
    BW_TRY(bw_assess_on(&s->pool, &wall->made, wall->assembly, wall->climate,
                        &options, err));
    bw_meter_tell(&metered, 1.0);
    return BW_OK;
}

/* What was computed is taken first: its failure is the lower one. */
static bw_status step(void *payload, size_t index, bw_error *err)
{
    return index == 0 ? take(payload, err) : make(payload, index - 1, err);
}

static void clear(streaming *s, lot *l)
{
    for (size_t i = 0; i < l->count; i++) {
        held *wall = &l->wall[i];
        bw_assessment_free(wall->made);
        if (wall->given)
            s->stream->leave(s->stream->payload, wall->assembly, wall->climate);
        *wall = (held){.given = false};
    }
    l->count = 0;
}

static bw_status run(streaming *s, size_t room, size_t count, bw_error *err)
{
    bw_status status = BW_OK;
    size_t next = 0;
    do {
        const size_t left = count - next;
        s->now.first = next;
        s->now.count = left < room ? left : room;
        next += s->now.count;
        status = bw_pool_run(&s->pool, s->now.count + 1, step, s, err);
        clear(s, &s->before);
        const lot emptied = s->before;
        s->before = s->now;
        s->now = emptied;
    } while (status == BW_OK && s->before.count > 0);
    clear(s, &s->before);
    return status;
}

static bool find_room(lot *l, size_t room)
{
    l->wall = calloc(room, sizeof *l->wall);
    l->list = calloc(room, sizeof *l->list);
    return l->wall != NULL && l->list != NULL;
}

bw_status bw_assess_stream(const bw_wall_stream *stream, size_t count,
                           const bw_assessment_options *options, bw_error *err)
{
    streaming s = {.stream = stream};
    if (options != NULL)
        s.options = *options;
    bw_pool_open(&s.pool, s.options.threads);
    bw_meter_start(&s.meter, s.options.transient.progress,
                   s.options.transient.payload, (double)count);
    const size_t threads = (size_t)s.pool.most;
    size_t room = s.options.transient.keep_hours ? threads : EACH * threads;
    if (room > MOST)
        room = MOST;
    const bool found = find_room(&s.now, room) && find_room(&s.before, room);
    const bw_status status = found ? run(&s, room, count, err)
                                   : bw_fail_memory(err);
    free(s.now.wall);
    free(s.now.list);
    free(s.before.wall);
    free(s.before.list);
    bw_meter_end(&s.meter);
    bw_pool_close(&s.pool);
    return status;
}
