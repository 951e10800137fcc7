#include "hygro.h"

#include <math.h>

#include "fail.h"

/* phi gained from free to full saturation. */
static const double OVER_PHI = 1e-4;
/* beyond full: share of a rise in z that is phi, the rest is water */
static const double OVERFULL_PHI = 0.9;

static double z_at(const bw_hygro_law *law, double scale, double phi)
{
    return phi + law->water(law->ctx, phi) / scale;
}

/* phi at which z_at is z, by bisection to the last bit that matters. */
static double phi_at(const bw_hygro_law *law, double scale, double z)
{
    double low = 0, high = 1;
    for (int i = 0; i < 60; i++) {
        const double mid = 0.5 * (low + high);
        if (z_at(law, scale, mid) < z)
            low = mid;
        else
            high = mid;
    }
    return 0.5 * (low + high);
}

/* Slopes of a monotone cubic through equidistant values (Fritsch & Carlson:
 * harmonic mean of neighbouring secants), per row. */
static double monotone_slope(const double *y, int i, int count)
{
    if (i == 0)
        return y[1] - y[0];
    if (i == count)
        return y[count] - y[count - 1];
    const double a = y[i] - y[i - 1], b = y[i + 1] - y[i];
    return a * b <= 0 ? 0 : 2 * a * b / (a + b);
}

static void hermite(double c[4], const double *y, int i)
{
    const double a = monotone_slope(y, i, BW_HYGRO_ROWS);
    const double b = monotone_slope(y, i + 1, BW_HYGRO_ROWS);
    c[0] = y[i];
    c[1] = a;
    c[2] = 3 * (y[i + 1] - y[i]) - 2 * a - b;
    c[3] = 2 * (y[i] - y[i + 1]) + a + b;
}

static void straight(double c[2], const double *y, int i)
{
    c[0] = y[i];
    c[1] = y[i + 1] - y[i];
}

/* The values at the nodes. */
typedef struct nodes {
    double phi[BW_HYGRO_ROWS + 1], water[BW_HYGRO_ROWS + 1];
    double flow[BW_HYGRO_ROWS + 1], slow[BW_HYGRO_ROWS + 1];
    double openness[BW_HYGRO_ROWS + 1], lambda[BW_HYGRO_ROWS + 1];
    double kphi[BW_HYGRO_ROWS + 1], slow_kphi[BW_HYGRO_ROWS + 1];
} nodes;

static void place_node(nodes *n, int i, double z, const bw_hygro *t,
                       const bw_hygro_law *law)
{
    if (z <= t->free_z) {
        n->phi[i] = i == 0 ? 0 : phi_at(law, t->scale, z);
        n->water[i] = (z - n->phi[i]) * t->scale;
        return;
    }
    const double part = (z - t->free_z) / (t->full_z - t->free_z);
    n->phi[i] = 1 + OVER_PHI * part;
    n->water[i] = (z - n->phi[i]) * t->scale;
}

/* Integral of D_w dw over a row, Simpson on four pieces. */
static double flow_over(const bw_hygro_law *law, bool slow, double from,
                        double to)
{
    double (*const diffusivity)(const void *,
                                double) = slow && law->redistribution != NULL
                                              ? law->redistribution
                                              : law->diffusivity;
    const double h = (to - from) / 8;
    double sum = 0;
    for (int k = 0; k < 8; k += 2)
        sum += diffusivity(law->ctx, from + k * h) +
               4 * diffusivity(law->ctx, from + (k + 1) * h) +
               diffusivity(law->ctx, from + (k + 2) * h);
    return sum * h / 3;
}

/* Slopes of the flow by phi. */
static void per_phi(double *kphi, const double *flow, const double *phi)
{
    for (int i = 0; i <= BW_HYGRO_ROWS; i++) {
        const double dphi = monotone_slope(phi, i, BW_HYGRO_ROWS);
        kphi[i] = dphi > 0 ? monotone_slope(flow, i, BW_HYGRO_ROWS) / dphi
                           : kphi[i - 1];
    }
}

static void fill_nodes(nodes *n, const bw_hygro *t, const bw_hygro_law *law)
{
    for (int i = 0; i <= BW_HYGRO_ROWS; i++) {
        place_node(n, i, i / t->per_z, t, law);
        const double phi = fmin(n->phi[i], 1), w = n->water[i];
        n->lambda[i] = law->conductivity(law->ctx, phi, w);
        n->flow[i] = n->slow[i] = 0;
        if (i > 0 && t->liquid) {
            const double before = n->water[i - 1];
            n->flow[i] = n->flow[i - 1] + flow_over(law, false, before, w);
            n->slow[i] = n->slow[i - 1] + flow_over(law, true, before, w);
        }
    }
    per_phi(n->kphi, n->flow, n->phi);
    per_phi(n->slow_kphi, n->slow, n->phi);
}

static void add_openness(nodes *n, const bw_hygro_law *law)
{
    for (int i = 0; i <= BW_HYGRO_ROWS; i++)
        n->openness[i] = law->openness(law->ctx, fmin(n->phi[i], 1),
                                       n->water[i]);
}

static void fill_rows(bw_hygro *t, const nodes *n)
{
    for (int i = 0; i < BW_HYGRO_ROWS; i++) {
        bw_hygro_row *r = &t->row[i];
        hermite(r->phi, n->phi, i);
        hermite(r->water, n->water, i);
        hermite(r->flow, n->flow, i);
        hermite(r->slow_flow, n->slow, i);
        straight(r->pass, n->lambda, i);
        straight(r->pass + 2, n->openness, i);
        straight(r->kphi, n->kphi, i);
        straight(r->kphi + 2, n->slow_kphi, i);
    }
    const int last = BW_HYGRO_ROWS;
    t->row[last] = (bw_hygro_row){
        .phi = {n->phi[last], OVERFULL_PHI / t->per_z},
        .water = {n->water[last], (1 - OVERFULL_PHI) * t->scale / t->per_z},
        .flow = {n->flow[last], n->flow[last] - n->flow[last - 1]},
        .slow_flow = {n->slow[last], n->slow[last] - n->slow[last - 1]},
        .pass = {n->lambda[last], 0, n->openness[last], 0},
        .kphi = {n->kphi[last], 0, n->slow_kphi[last], 0},
    };
}

/* The flow at free saturation, which lies between two rows. */
static double flow_to(const bw_hygro_law *law, bool slow, double flow,
                      double water)
{
    const double free_water = law->water(law->ctx, 1);
    return law->diffusivity == NULL
               ? 0
               : flow + flow_over(law, slow, water, free_water);
}

bw_status bw_hygro_build(bw_hygro *t, const bw_hygro_law *law, bw_error *err)
{
    return bw_hygro_build_on(NULL, (bw_shelf_key){NULL, 0}, t, law, err);
}

bw_status bw_hygro_build_on(bw_shelf *shelf, bw_shelf_key key, bw_hygro *t,
                            const bw_hygro_law *law, bw_error *err)
{
    const double free_water = law->water(law->ctx, 1);
    if (!(free_water > 0) || law->water(law->ctx, 0) > 1e-12 * free_water)
        return bw_fail_domain(err, "a storage curve must rise from nothing at "
                                   "0 %% RH; correct the sorption points");
    for (int i = 1; i <= 200; i++)
        if (law->water(law->ctx, i / 200.0) <
            law->water(law->ctx, (i - 1) / 200.0))
            return bw_fail_domain(err, "a storage curve must not fall with RH; "
                                       "correct the sorption points");
    t->heat_capacity = law->heat_capacity;
    t->scale = free_water;
    t->free_z = 2;
    const double full = fmax(law->full_water, free_water * 1.02);
    t->full_z = 1 + OVER_PHI + full / free_water;
    t->per_z = BW_HYGRO_ROWS / t->full_z;
    t->liquid = law->diffusivity != NULL;
    t->suction = law->suction;
    t->reference = law->reference;
    nodes n = {.openness = {0}};
    if (!bw_shelf_take(shelf, key, &n, sizeof n)) {
        fill_nodes(&n, t, law);
        bw_shelf_put(shelf, key, &n, sizeof n);
    }
    add_openness(&n, law);
    fill_rows(t, &n);
    const int below = (int)floor(t->free_z * t->per_z);
    t->free_flow = flow_to(law, false, n.flow[below], n.water[below]);
    t->free_slow = flow_to(law, true, n.slow[below], n.water[below]);
    t->dry_water = law->water(law->ctx, 0.5);
    return BW_OK;
}

static const bw_hygro_row *row_at(const bw_hygro *t, double z, double *f)
{
    double x = z * t->per_z;
    x = x > 0 ? x : 0;
    const int i = x < BW_HYGRO_ROWS ? (int)x : BW_HYGRO_ROWS;
    *f = x - i;
    return &t->row[i];
}

double bw_hygro_water(const bw_hygro *t, double z)
{
    double f;
    const bw_hygro_row *row = row_at(t, z, &f);
    return bw_cubic(row->water, f);
}

double bw_hygro_phi(const bw_hygro *t, double z)
{
    double f;
    const bw_hygro_row *row = row_at(t, z, &f);
    return bw_cubic(row->phi, f);
}

static double invert(const bw_hygro *t, double value,
                     double (*f)(const bw_hygro *, double))
{
    double low = 0, high = t->full_z + 1;
    for (int i = 0; i < 80; i++) {
        const double mid = 0.5 * (low + high);
        if (f(t, mid) < value)
            low = mid;
        else
            high = mid;
    }
    return 0.5 * (low + high);
}

double bw_hygro_z_of_phi(const bw_hygro *t, double phi)
{
    return invert(t, phi, bw_hygro_phi);
}

double bw_hygro_z_of_water(const bw_hygro *t, double water)
{
    return invert(t, water, bw_hygro_water);
}
