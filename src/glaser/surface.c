/* Surface humidity month by month, ISO 13788 [from memory, high confidence].
 *
 *   f_Rsi        = (theta_si - theta_e)/(theta_i - theta_e) = 1 - U Rsi
 *   theta_si,min = dew point of p_i/phi_cr
 *   f_Rsi,min    = (theta_si,min - theta_e)/(theta_i - theta_e)
 *
 * The factor means nothing where theta_i - theta_e is small or negative:
 * months under 1 K are left out of the highest requirement, not out of the
 * highest surface humidity. Invariant: f_Rsi >= f_Rsi,min in a month exactly
 * when that month's surface humidity is at most phi_cr. */

#include <math.h>
#include <stdio.h>

#include "bothways/air.h"
#include "bothways/glaser.h"

static const double least_difference = 1.0; /* K */

static bw_surface_month one_month(const bw_boundary *b, double frsi,
                                  double critical_rh)
{
    double difference = b->theta_i - b->theta_e;
    bw_surface_month m = {.theta_e = b->theta_e,
                          .p_e = b->p_e,
                          .theta_i = b->theta_i,
                          .p_i = b->p_i,
                          .theta_si = b->theta_e + frsi * difference,
                          .meaningful = difference > least_difference};
    m.rh_si = bw_relative_humidity(m.theta_si, b->p_i);
    if (m.meaningful && b->p_i > 0.0)
        m.frsi_required = (bw_dew_point(b->p_i / critical_rh) - b->theta_e) /
                          difference;
    return m;
}

void bw_surface(bw_surface_result *out, const char *where, double resistance,
                double rse, double rsi, const char *rsi_source,
                double critical_rh, const bw_boundary boundary[BW_MONTHS])
{
    double frsi[BW_MONTHS];
    double total = rse + resistance + rsi;
    for (int i = 0; i < BW_MONTHS; i++)
        frsi[i] = total > 0.0 ? (rse + resistance) / total : 1.0;
    bw_surface_of_factors(out, where, frsi, rsi, rsi_source, critical_rh,
                          boundary);
}

void bw_surface_of_factors(bw_surface_result *out, const char *where,
                           const double frsi[BW_MONTHS], double rsi,
                           const char *rsi_source, double critical_rh,
                           const bw_boundary boundary[BW_MONTHS])
{
    *out = (bw_surface_result){.rsi = rsi, .rsi_source = rsi_source};
    snprintf(out->where, sizeof out->where, "%s", where);
    int coldest = 0;
    bool found = false;
    for (int i = 0; i < BW_MONTHS; i++) {
        out->month[i] = one_month(&boundary[i], frsi[i], critical_rh);
        const bw_surface_month *m = &out->month[i];
        out->highest_rh = fmax(out->highest_rh, m->rh_si);
        if (m->theta_e < out->month[coldest].theta_e)
            coldest = i;
        if (m->meaningful &&
            (!found || m->frsi_required - frsi[i] >
                           out->frsi_required - frsi[out->critical_month])) {
            found = true;
            out->frsi_required = m->frsi_required;
            out->critical_month = i;
        }
    }
    if (!found)
        out->critical_month = coldest;
    out->frsi = frsi[out->critical_month];
}
