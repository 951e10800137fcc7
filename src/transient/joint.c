#include "joint.h"

static const double *flow_of(const bw_hygro_row *row, bool slow)
{
    return slow ? row->slow_flow : row->flow;
}

/* F of a material at phi; `row` is where the last, lower phi was found. */
static double flow_at(const bw_hygro *m, double phi, int *row, bool slow)
{
    while (*row < BW_HYGRO_ROWS && m->row[*row + 1].phi[0] <= phi)
        ++*row;
    const bw_hygro_row *r = &m->row[*row];
    if (*row == BW_HYGRO_ROWS)
        return bw_cubic(flow_of(r, slow), (phi - r->phi[0]) / r->phi[1]);
    double low = 0, high = 1;
    for (int i = 0; i < 40; i++) {
        const double mid = 0.5 * (low + high);
        if (bw_cubic(r->phi, mid) < phi)
            low = mid;
        else
            high = mid;
    }
    return bw_cubic(flow_of(r, slow), 0.5 * (low + high));
}

void bw_joint_build(bw_joint *joint, const bw_hygro *outer,
                    const bw_hygro *inner, double per_outer, double per_inner,
                    bool slow)
{
    const int end = BW_HYGRO_ROWS + 1;
    int i = 0, k = 0, row_outer = 0, row_inner = 0;
    joint->count = 0;
    for (int n = 0; n < BW_JOINT_ROWS; n++) {
        /* the nodes of both tables in the order of phi, and one far beyond */
        double phi = outer->row[end - 1].phi[0] + 1;
        if (i < end &&
            (k == end || outer->row[i].phi[0] <= inner->row[k].phi[0]))
            phi = outer->row[i++].phi[0];
        else if (k < end)
            phi = inner->row[k++].phi[0];
        const double a = per_outer * flow_at(outer, phi, &row_outer, slow);
        const double sum = a +
                           per_inner * flow_at(inner, phi, &row_inner, slow);
        if (joint->count > 0 && !(sum > joint->sum[joint->count - 1]))
            continue;
        joint->sum[joint->count] = sum;
        joint->outer[joint->count++] = a;
    }
}
