/* The vapour profile of a month and the rates it means.
 *
 * Over cumulative sd the pressure is the taut string that nowhere exceeds
 * saturation: between two nodes of fixed pressure, the lower convex hull of
 * these two and of the saturation pressures between. Hull vertices condense,
 *
 *   g_c = delta_0 [(p_next - p)/(s_next - s) - (p - p_prev)/(s - s_prev)]
 *
 * ISO 13788 [from memory, high confidence], and so does a node that holds
 * water, or dries if g_c < 0. A source S at a dry node adds a tent w, with
 * delta_0 times the change of slope at its top = -S, and the hull is that of
 * psat - w [derived: what is left without w has no source]. At a closed end
 * the string is level: it ends at the lowest pressure it may have.
 *
 * Invariants: p <= psat; what flows in less what flows out is the sum of the
 * rates; the wall listed the other way gives the same bits, because every
 * length is summed from both ends. */

#include <math.h>
#include <string.h>

#include "run.h"

/* Far more than the string's own rounding [Pa]. */
static const double clear = 1e-3;

/* One stretch between nodes of fixed pressure (or a closed end). */
typedef struct stretch {
    size_t first, last;
    double p_first, p_last; /* Pa */
    double top, rise, fall; /* the tent: Pa; m of sd to its either side */
} stretch;

static double length(const bw_run *run, size_t from, size_t to)
{
    if (from + 1 == to)
        return run->segment[from]; /* half of it twice */
    double there = 0.0, back = 0.0;
    for (size_t j = from; j < to; ++j) {
        there += run->segment[j];
        back += run->segment[to - 1 - (j - from)];
    }
    return 0.5 * (there + back);
}

/* Height of the tent at a node `along` m of sd from the first. */
static double tent(const bw_run *run, const stretch *s, size_t node,
                   double along)
{
    if (s->top <= 0.0)
        return 0.0;
    return s->top * (node <= run->leak ? along / s->rise
                                       : (s->rise + s->fall - along) / s->fall);
}

/* Drawn straight it stays well below saturation: then no node between is a
 * vertex, which is soon said. */
static bool is_straight(const bw_run *run, const double *psat, const stretch *s)
{
    double whole = 0.0, along = 0.0;
    size_t i = s->first + 1; /* nowhere above the greater of its ends */
    const double most = fmax(s->p_first, s->p_last) + clear;
    while (i < s->last && psat[i] > most)
        ++i;
    if (i >= s->last)
        return true;
    for (size_t j = s->first; j < s->last; ++j)
        whole += run->segment[j];
    const double rise = s->p_last - s->p_first;
    for (size_t j = s->first + 1; j < s->last; ++j) {
        along += run->segment[j - 1];
        if (!((psat[j] - s->p_first - clear) * whole > rise * along))
            return false;
    }
    return true;
}

/* The vertices of the string, into run->hull; returns their number. */
static size_t hull_of(bw_run *run, const double *psat, const stretch *s)
{
    size_t count = bw_taut_add(run->hull, 0, s->first, s->p_first, 0.0);
    double along = 0.0;
    if (s->top <= 0.0 && is_straight(run, psat, s)) {
        run->hull[1] = (bw_vertex){.node = s->last, .p = s->p_last};
        return 2;
    }
    for (size_t j = s->first + 1; j <= s->last; ++j) {
        double gap = run->segment[j - 1];
        along += gap;
        double p = j == s->last ? s->p_last : psat[j] - tent(run, s, j, along);
        count = bw_taut_add(run->hull, count, j, p, gap);
    }
    return count;
}

/* Two nodes with nothing between: most of a wet layer is such. */
static bool is_segment(const stretch *s)
{
    return s->first + 1 == s->last;
}

static void add_segment(bw_run *run, const stretch *s, bool fill)
{
    double flow = BW_DELTA_0 *
                  ((s->p_last - s->p_first) / run->segment[s->first]);
    run->rate[s->first] += flow;
    run->rate[s->last] -= flow;
    if (fill) {
        run->p[s->first] = s->p_first;
        run->p[s->last] = s->p_last;
    }
}

static void add_rates(bw_run *run, size_t count)
{
    const bw_vertex *hull = run->hull;
    for (size_t i = 1; i < count; ++i) {
        size_t a = hull[i - 1].node, b = hull[i].node;
        double flow = BW_DELTA_0 *
                      ((hull[i].p - hull[i - 1].p) / length(run, a, b));
        run->rate[a] += flow;
        run->rate[b] -= flow;
    }
}

static void fill_pressures(bw_run *run, const double *psat, const stretch *s,
                           size_t count)
{
    for (size_t i = 1; i < count; ++i) {
        bw_vertex a = run->hull[i - 1], b = run->hull[i];
        run->p[a.node] = a.p;
        run->p[b.node] = b.p;
        double there = 0.0, back = 0.0;
        for (size_t j = a.node + 1; j < b.node; ++j)
            run->p[j] = there += run->segment[j - 1];
        for (size_t j = b.node - 1; j > a.node; --j) {
            back += run->segment[j];
            there = run->p[j];
            run->p[j] = (a.p * back + b.p * there) / (back + there);
        }
    }
    double along = 0.0;
    for (size_t j = s->first + 1; j < s->last; ++j) {
        along += run->segment[j - 1];
        run->p[j] = fmin(run->p[j] + tent(run, s, j, along), psat[j]);
    }
}

static void solve_stretch(bw_run *run, int month, const double *psat,
                          stretch *s, bool fill)
{
    s->top = 0.0;
    if (is_segment(s)) {
        add_segment(run, s, fill);
        return;
    }
    if (run->leak > s->first && run->leak < s->last &&
        run->source[month] > 0.0) {
        s->rise = length(run, s->first, run->leak);
        s->fall = length(run, run->leak, s->last);
        s->top = run->source[month] / BW_DELTA_0 *
                 (s->rise * s->fall / (s->rise + s->fall));
        run->rate[s->first] += BW_DELTA_0 * s->top / s->rise;
        run->rate[s->last] += BW_DELTA_0 * s->top / s->fall;
    }
    size_t count = hull_of(run, psat, s);
    add_rates(run, count);
    if (fill)
        fill_pressures(run, psat, s, count);
}

static bool wet(const bw_run *run, size_t node)
{
    return (run->moist[node / BW_WORD] >> node % BW_WORD & 1) != 0 ||
           node == run->held;
}

/* The next wet node, `from` too; `last` where there is none before. */
static size_t next_wet(const bw_run *run, size_t from, size_t last)
{
    const size_t end = run->held >= from && run->held < last ? run->held : last;
    for (size_t w = from / BW_WORD; w <= end / BW_WORD; ++w) {
        uint64_t bits = run->moist[w];
        if (w == from / BW_WORD)
            bits &= UINT64_MAX << from % BW_WORD;
        if (bits != 0) {
            const size_t j = w * BW_WORD + (size_t)__builtin_ctzll(bits);
            return j < end ? j : end;
        }
    }
    return end;
}

/* Pressure at an open end of a domain; a face of a saturated slab is one. */
static double end_pressure(const bw_run *run, int month, const double *psat,
                           size_t node)
{
    const bw_boundary *b = &run->boundary[month];
    if (node == 0)
        return fmin(b->p_e, psat[node]);
    if (node == run->grid.nodes - 1)
        return fmin(b->p_i, psat[node]);
    return psat[node];
}

/* The pressure at a dry closed end: the lowest the string may have. */
static double closed_pressure(const double *psat, size_t first, size_t last,
                              double other_end)
{
    double p = other_end;
    for (size_t j = first; j <= last; ++j)
        p = fmin(p, psat[j]);
    return p;
}

static void solve_domain(bw_run *run, int month, const double *psat,
                         const bw_domain *d, bool fill)
{
    bool loose = d->first_closed && !wet(run, d->first);
    stretch s = {.first = d->first};
    s.p_first = d->first_closed ? psat[d->first]
                                : end_pressure(run, month, psat, d->first);
    for (size_t j = d->first; j < d->last;) {
        j = next_wet(run, j + 1, d->last);
        s.last = j;
        s.p_last = psat[j];
        if (j == d->last && !d->last_closed)
            s.p_last = end_pressure(run, month, psat, j);
        if (loose)
            s.p_first = closed_pressure(psat, s.first, j, s.p_last);
        if (j == d->last && d->last_closed && !wet(run, j))
            s.p_last = closed_pressure(psat, s.first, j, s.p_first);
        solve_stretch(run, month, psat, &s, fill);
        s.first = j;
        s.p_first = s.p_last;
        loose = false;
    }
}

/* Beyond a closed end, and in a saturated slab. */
static void fill_outside_domains(bw_run *run, int month, const double *psat)
{
    if (run->domain_count == 0) {
        memcpy(run->p, psat, run->grid.nodes * sizeof *psat);
        return;
    }
    const bw_domain *first = &run->domain[0];
    const bw_domain *last = &run->domain[run->domain_count - 1];
    const bw_boundary *b = &run->boundary[month];
    size_t nodes = run->grid.nodes;
    if (run->domain_count == 2)
        for (size_t j = first->last; j <= last->first; ++j)
            run->p[j] = psat[j];
    for (size_t j = 0; j < first->first; ++j)
        run->p[j] = first->first_closed ? fmin(b->p_e, psat[j]) : psat[j];
    for (size_t j = last->last + 1; j < nodes; ++j)
        run->p[j] = last->last_closed ? fmin(b->p_i, psat[j]) : psat[j];
}

void bw_profile(bw_run *run, int month, bool fill)
{
    size_t nodes = run->grid.nodes;
    const double *psat = run->psat + (size_t)month * nodes;
    memset(run->rate, 0, nodes * sizeof *run->rate);
    run->inflow = 0.0;
    for (size_t i = 0; i < run->domain_count; ++i)
        solve_domain(run, month, psat, &run->domain[i], fill);
    if (run->leak != BW_NO_NODE && run->source[month] > 0.0) {
        run->inflow += run->source[month];
        if (wet(run, run->leak))
            run->rate[run->leak] += run->source[month];
    }
    for (size_t i = 0; i < run->domain_count; ++i) {
        const bw_domain *d = &run->domain[i];
        if (!d->first_closed) {
            run->inflow -= run->rate[d->first];
            run->rate[d->first] = 0.0;
        }
        if (!d->last_closed) {
            run->inflow -= run->rate[d->last];
            run->rate[d->last] = 0.0;
        }
    }
    if (fill)
        fill_outside_domains(run, month, psat);
}
