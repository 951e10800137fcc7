/* The lower convex hull of points over s, outside to inside: the greatest
 * convex function of s that is p at both ends and nowhere above a point.
 *
 * Invariant: slopes rise from vertex to vertex. */

#include "taut.h"

/* A point is a vertex if it lies below the string without it by more than this
 * [Pa]; less is rounding. */
static const double touch = 1e-9;

size_t bw_taut_add(bw_vertex *hull, size_t count, size_t node, double p,
                   double gap)
{
    double slope = 0.0;
    while (count > 0) {
        const bw_vertex *top = &hull[count - 1];
        slope = (p - top->p) / gap;
        if (count == 1 ||
            (slope - top->slope) * top->gap * gap > touch * (top->gap + gap))
            break;
        gap += top->gap;
        --count;
    }
    hull[count] = (bw_vertex){.node = node, .p = p, .gap = gap, .slope = slope};
    return count + 1;
}
