/* The network solved: free nodes are eliminated one after another, the links
 * of each (a star) replaced by links between its neighbours (a mesh),
 *
 *   g_kl += g_ik g_il / d_i,   d_i = sum of all conductances at i
 *
 * [derived: Gaussian elimination of a network, with the diagonal summed rather
 * than subtracted]. Nothing is subtracted in it: every figure is good to a few
 * units in its last place however far conductances lie apart, steel beside
 * wool, where a general Cholesky loses what steel lets through.
 *
 * Rows hold all columns up to the last that is linked; the net's order keeps
 * these few: n nodes, b to a row, n b^2 multiplications.
 *
 * Invariants: g, held, inverse >= 0; a value lies between those of held nodes
 * and above them where something is fed. */

#include <stdint.h>
#include <string.h>

#include "fail.h"
#include "vapour_net.h"

/* Rows and the room of their links; returns the room. */
static size_t lay_out(bw_stars *s, const bool *held)
{
    const bw_net *net = s->net;
    s->rows = 0;
    for (size_t i = 0; i < net->nodes; ++i) {
        size_t node = net->order[i];
        s->row[node] = SIZE_MAX;
        if (held != NULL && held[node])
            continue;
        s->row[node] = s->rows;
        s->node[s->rows++] = node;
    }
    size_t room = 0, reach = 0;
    for (size_t i = 0; i < s->rows; ++i) {
        size_t node = s->node[i];
        reach = reach > i ? reach : i;
        for (size_t k = 0; k < net->count[node]; ++k) {
            size_t row = s->row[net->other[net->start[node] + k]];
            if (row != SIZE_MAX && row > reach)
                reach = row;
        }
        s->last[i] = reach;
        s->start[i] = room;
        room += reach - i;
    }
    return room;
}

bw_status bw_stars_make(bw_stars *stars, bw_arena *arena, const bw_net *net,
                        bw_error *err)
{
    size_t n = net->nodes + 1;
    *stars = (bw_stars){.net = net};
    stars->row = BW_NEW(arena, size_t, n);
    stars->node = BW_NEW(arena, size_t, n);
    stars->last = BW_NEW(arena, size_t, n);
    stars->start = BW_NEW(arena, size_t, n);
    stars->held = BW_NEW(arena, double, n);
    stars->inverse = BW_NEW(arena, double, n);
    stars->value = BW_NEW(arena, double, n);
    stars->was_held = BW_NEW(arena, bool, n);
    BW_TRY_MEMORY(!arena->failed, err);
    /* none held needs most */
    stars->g = BW_NEW(arena, double, lay_out(stars, NULL) + 1);
    return stars->g != NULL ? BW_OK : bw_fail_memory(err);
}

static void fill(bw_stars *s, size_t room)
{
    const bw_net *net = s->net;
    memset(s->g, 0, room * sizeof *s->g);
    for (size_t i = 0; i < s->rows; ++i) {
        size_t node = s->node[i];
        s->held[i] = 0.0;
        for (size_t k = 0; k < net->count[node]; ++k) {
            size_t at = net->start[node] + k, row = s->row[net->other[at]];
            if (row == SIZE_MAX)
                s->held[i] += net->g[at];
            else if (row > i)
                s->g[s->start[i] + (row - i - 1)] += net->g[at];
        }
    }
}

static void add_times(double *restrict to, const double *restrict from,
                      double factor, size_t count)
{
    for (size_t i = 0; i < count; ++i)
        to[i] += factor * from[i];
}

bool bw_stars_eliminate(bw_stars *s, const bool *held)
{
    size_t nodes = s->net->nodes;
    if (s->stamp == s->net->stamp &&
        memcmp(held, s->was_held, nodes * sizeof *held) == 0)
        return true;
    s->stamp = 0;
    fill(s, lay_out(s, held));
    for (size_t i = 0; i < s->rows; ++i) {
        const double *g = s->g + s->start[i];
        size_t count = s->last[i] - i;
        double sum = s->held[i];
        for (size_t k = 0; k < count; ++k)
            sum += g[k];
        if (!(sum > 0.0))
            return false;
        s->inverse[i] = 1.0 / sum;
        for (size_t k = 0; k < count; ++k) {
            if (g[k] <= 0.0)
                continue;
            size_t row = i + 1 + k;
            double part = g[k] * s->inverse[i];
            s->held[row] += part * s->held[i];
            add_times(s->g + s->start[row], g + k + 1, part, count - k - 1);
        }
    }
    memcpy(s->was_held, held, nodes * sizeof *held);
    s->stamp = s->net->stamp;
    ++s->eliminations;
    return true;
}

/* What held neighbours bring. */
static double from_held(const bw_stars *s, const double *value, size_t node)
{
    const bw_net *net = s->net;
    double sum = 0.0;
    for (size_t k = net->start[node]; k < net->start[node] + net->count[node];
         ++k)
        if (s->row[net->other[k]] == SIZE_MAX)
            sum += net->g[k] * value[net->other[k]];
    return sum;
}

void bw_stars_solve(bw_stars *s, double *value, const double *feed)
{
    double *f = s->value;
    for (size_t i = 0; i < s->rows; ++i) {
        size_t node = s->node[i];
        f[i] = from_held(s, value, node) + (feed != NULL ? feed[node] : 0.0);
    }
    for (size_t i = 0; i < s->rows; ++i)
        add_times(f + i + 1, s->g + s->start[i], f[i] * s->inverse[i],
                  s->last[i] - i);
    for (size_t i = s->rows; i-- > 0;) {
        const double *g = s->g + s->start[i];
        double sum = f[i];
        for (size_t k = 0; k < s->last[i] - i; ++k)
            sum += g[k] * f[i + 1 + k];
        f[i] = sum * s->inverse[i];
        value[s->node[i]] = f[i];
    }
}
