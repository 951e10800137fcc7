/* A network of conductances: rows of neighbours, and an order of the nodes.
 *
 * The order is that of Cuthill and McKee, reversed [M-hi]: breadth first from
 * an end of the network, so that a node is linked to near ones only.
 *
 * Invariant: g is the same seen from both ends. */

#include <string.h>

#include "fail.h"
#include "vapour_net.h"

static size_t place(bw_net *net, size_t row, size_t other)
{
    size_t at = net->start[row], end = at + net->count[row];
    while (at < end && net->other[at] != other)
        ++at;
    if (at == end) {
        net->other[at] = other;
        ++net->count[row];
    }
    return at;
}

/* Whose turn it is not yet. */
static bool next_unseen(const bool *seen, size_t nodes, size_t *from)
{
    while (*from < nodes && seen[*from])
        ++*from;
    return *from < nodes;
}

/* Appends the part of the network that holds `root` to order, breadth first,
 * neighbours of few links first. Returns how many there are now. */
static size_t breadth(const bw_net *net, size_t root, size_t *order,
                      size_t from, bool *seen)
{
    size_t end = from;
    order[end++] = root;
    seen[root] = true;
    for (size_t i = from; i < end; ++i) {
        size_t n = order[i], begin = end;
        for (size_t k = 0; k < net->count[n]; ++k) {
            size_t other = net->other[net->start[n] + k];
            if (seen[other])
                continue;
            seen[other] = true;
            size_t at = end++;
            for (; at > begin && net->count[order[at - 1]] > net->count[other];
                 --at)
                order[at] = order[at - 1];
            order[at] = other;
        }
    }
    return end;
}

static bw_status set_order(bw_net *net, bw_arena *arena, bw_error *err)
{
    net->order = BW_NEW(arena, size_t, net->nodes);
    bool *seen = BW_NEW(arena, bool, net->nodes);
    BW_TRY_MEMORY(net->order != NULL && seen != NULL, err);
    size_t from = 0, done = 0;
    while (next_unseen(seen, net->nodes, &from)) {
        size_t root = from, end = done;
        /* twice to the far end: near enough to the most distant node */
        for (int turn = 0; turn < 3; ++turn) {
            end = breadth(net, root, net->order, done, seen);
            root = net->order[end - 1];
            for (size_t i = done; turn < 2 && i < end; ++i)
                seen[net->order[i]] = false;
        }
        done = end;
    }
    for (size_t i = 0, j = done; i + 1 < j; ++i) {
        size_t swap = net->order[i];
        net->order[i] = net->order[--j];
        net->order[j] = swap;
    }
    return BW_OK;
}

bw_status bw_net_make(bw_net *net, bw_arena *arena, size_t nodes,
                      const bw_net_link *link, size_t links, bw_error *err)
{
    *net = (bw_net){.nodes = nodes, .links = links, .link = link};
    net->start = BW_NEW(arena, size_t, nodes + 1);
    net->count = BW_NEW(arena, size_t, nodes + 1);
    net->other = BW_NEW(arena, size_t, 2 * links + 1);
    net->g = BW_NEW(arena, double, 2 * links + 1);
    net->at_a = BW_NEW(arena, size_t, links + 1);
    net->at_b = BW_NEW(arena, size_t, links + 1);
    BW_TRY_MEMORY(!arena->failed, err);
    for (size_t l = 0; l < links; ++l) {
        ++net->start[link[l].a + 1];
        ++net->start[link[l].b + 1];
    }
    for (size_t n = 0; n < nodes; ++n)
        net->start[n + 1] += net->start[n];
    for (size_t l = 0; l < links; ++l) {
        net->at_a[l] = place(net, link[l].a, link[l].b);
        net->at_b[l] = place(net, link[l].b, link[l].a);
    }
    return set_order(net, arena, err);
}

void bw_net_set(bw_net *net, const double *g)
{
    memset(net->g, 0, net->start[net->nodes] * sizeof *net->g);
    for (size_t l = 0; l < net->links; ++l) {
        net->g[net->at_a[l]] += g[l];
        net->g[net->at_b[l]] += g[l];
    }
    ++net->stamp;
}

double bw_net_inflow(const bw_net *net, const double *value, size_t node)
{
    double sum = 0.0;
    for (size_t k = net->start[node]; k < net->start[node] + net->count[node];
         ++k)
        sum += net->g[k] * (value[net->other[k]] - value[node]);
    return sum;
}
