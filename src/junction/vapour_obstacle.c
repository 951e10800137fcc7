/* Vapour below saturation, and what condenses where it would exceed it: a
 * linear complementarity problem. With r_i what flows to node i along its links
 * and f_i what is fed there,
 *
 *   p_i <= top_i,  r_i + f_i >= 0,  (p_i - top_i) (r_i + f_i) = 0
 *
 * Solved by choosing at each node which of the two is an equality and choosing
 * again where the other is violated (Howard's policy iteration, or a
 * primal-dual active set; for a matrix of this kind it ends, Hintermueller,
 * Ito, Kunisch 2003 [M-med]): once every node was chosen so, p only falls
 * [derived: the residuals of the last field are >= 0 under the new choice,
 * whose inverse is non-negative], so that nodes only leave the top, each once.
 *
 * Invariants: p <= top at free nodes; at a node at its top r + f >= 0, to
 * rounding. */

#include <math.h>

#include "fail.h"
#include "vapour_run.h"

/* Above the top by more than this [Pa] counts; less is rounding. */
static const double above = 1e-9;
/* The same for what flows to a node, part of all that passes there. */
static const double rounding = 4e-15;
static const double over = 1.8; /* common practice, no source */
enum { SWEEPS = 20 };

bw_status bw_obstacle_make(bw_obstacle *o, bw_arena *arena, const bw_net *net,
                           bw_error *err)
{
    size_t n = net->nodes + 1;
    BW_TRY(bw_stars_make(&o->stars, arena, net, err));
    o->pinned = BW_NEW(arena, bool, n);
    o->wet = BW_NEW(arena, bool, n);
    o->held = BW_NEW(arena, bool, n);
    o->feed = BW_NEW(arena, double, n);
    o->p = BW_NEW(arena, double, n);
    BW_TRY_MEMORY(!arena->failed, err);
    return BW_OK;
}

/* Would a node at its top lose more than it is fed? */
static bool leaves(const bw_obstacle *o, size_t node)
{
    const bw_net *net = o->stars.net;
    double passes = 0.0;
    for (size_t k = net->start[node]; k < net->start[node] + net->count[node];
         ++k)
        passes += net->g[k];
    double gain = o->feed[node] + bw_net_inflow(net, o->p, node);
    return gain < -rounding * passes * o->p[node];
}

/* A guess of where it is at the top: the choice gives up one ring of nodes a
 * turn, these sweeps many; of projected over-relaxation, there and back. */
static void sweep(bw_obstacle *o, const double *top)
{
    const bw_net *net = o->stars.net;
    size_t nodes = net->nodes;
    for (size_t n = 0; n < nodes; ++n)
        if (!o->pinned[n])
            o->p[n] = fmin(o->p[n], top[n]);
    for (int turn = 0; turn < SWEEPS; ++turn)
        for (size_t i = 0; i < nodes; ++i) {
            size_t n = net->order[turn % 2 == 0 ? i : nodes - 1 - i];
            double sum = o->feed[n], passes = 0.0;
            if (o->pinned[n])
                continue;
            for (size_t k = net->start[n]; k < net->start[n] + net->count[n];
                 ++k) {
                passes += net->g[k];
                sum += net->g[k] * o->p[net->other[k]];
            }
            double p = o->p[n] + over * (sum / passes - o->p[n]);
            o->p[n] = fmin(p, top[n]);
        }
    for (size_t n = 0; n < nodes; ++n)
        o->wet[n] = !o->pinned[n] && o->p[n] >= top[n];
}

/* Chooses anew; false: nothing to change. */
static bool choose(bw_obstacle *o, const double *top, bool may_rise)
{
    size_t nodes = o->stars.net->nodes;
    bool changed = false;
    for (size_t n = 0; n < nodes; ++n) {
        if (o->pinned[n])
            continue;
        bool wet = o->wet[n] ? !leaves(o, n)
                             : may_rise && o->p[n] > top[n] + above;
        o->held[n] = wet;
        changed = changed || wet != o->wet[n];
    }
    for (size_t n = 0; n < nodes; ++n)
        o->wet[n] = !o->pinned[n] && o->held[n];
    return changed;
}

bool bw_obstacle_solve(bw_obstacle *o, const double *top)
{
    size_t nodes = o->stars.net->nodes;
    for (size_t n = 0; n < nodes; ++n)
        o->wet[n] = o->wet[n] && !o->pinned[n];
    for (size_t turn = 0; turn <= nodes; ++turn) {
        for (size_t n = 0; n < nodes; ++n) {
            o->held[n] = o->pinned[n] || o->wet[n];
            if (o->wet[n])
                o->p[n] = top[n];
        }
        if (!bw_stars_eliminate(&o->stars, o->held))
            return false;
        bw_stars_solve(&o->stars, o->p, o->feed);
        if (!choose(o, top, turn < 2))
            break;
        if (turn == 0)
            sweep(o, top);
    }
    for (size_t n = 0; n < nodes; ++n)
        if (!o->pinned[n])
            o->p[n] = fmin(o->p[n], top[n]);
    return true;
}
