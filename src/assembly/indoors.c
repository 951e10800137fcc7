#include <math.h>

#include "bothways/air.h"
#include "bothways/assembly.h"
#include "room.h"

/* Indoor temperature and vapour pressure from the outdoor means.
 *
 * Classes: ISO 13788:2012 annex A: p_i = p_e + 1.10 dp, dp constant up to
 * theta_e = 0 degC and falling linearly to 0 at 20 degC (from memory, high
 * confidence for the numbers). Constant humidity: +5 points.
 * EN 15026 annex C: theta_i 20 degC up to theta_e = 10, 25 from 20 on; RH
 * linear in theta_e from -10 to 20 degC (from memory, high confidence). */

static const double class_pressure[6] = {0,   270.0,  540.0, /* Pa */
                                         810, 1080.0, 1360.0};
static const double CLASS_MARGIN = 1.10;
static const double HUMIDITY_MARGIN = 0.05;
static const double HUMIDITY_STEP = 0.10; /* RH: between classes, about */

static double ramp(double x, double x0, double x1, double y0, double y1)
{
    double t = fmin(fmax((x - x0) / (x1 - x0), 0.0), 1.0);
    return y0 + (y1 - y0) * t;
}

static double class_excess(const bw_indoors *indoors, double theta_e)
{
    double dp = class_pressure[indoors->humidity_class];
    return ramp(theta_e, 0.0, 20.0, dp, 0.0) *
           (indoors->margin ? CLASS_MARGIN : 1.0);
}

void bw_indoor_state(const bw_indoors *indoors, int month,
                     double outdoor_temperature, double outdoor_vapour_pressure,
                     double *temperature, double *vapour_pressure)
{
    double theta_i = indoors->temperature;
    double phi = indoors->relative_humidity;
    switch (indoors->kind) {
    case BW_INDOOR_CLASS:
        *temperature = theta_i;
        *vapour_pressure = outdoor_vapour_pressure +
                           class_excess(indoors, outdoor_temperature);
        return;
    case BW_INDOOR_MONTHS:
        *temperature = indoors->month_temperature[month];
        *vapour_pressure = indoors->month_vapour_pressure[month];
        return;
    case BW_INDOOR_EN15026:
        theta_i = ramp(outdoor_temperature, 10.0, 20.0, 20.0, 25.0);
        phi = ramp(outdoor_temperature, -10.0, 20.0, 0.30, 0.60) +
              (indoors->en15026_high ? 0.10 : 0.0);
        break;
    case BW_INDOOR_RH:
        break;
    }
    if (indoors->margin)
        phi = fmin(phi + HUMIDITY_MARGIN, 1.0);
    *temperature = theta_i;
    *vapour_pressure = phi * bw_saturation_pressure(theta_i);
}

static void damper_months(bw_indoors *indoors)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        double limit = bw_saturation_pressure(indoors->month_temperature[m]);
        indoors->month_vapour_pressure[m] = fmin(
            indoors->month_vapour_pressure[m] + HUMIDITY_STEP * limit, limit);
    }
}

bool bw_room_same_air(const bw_indoors *a, const bw_indoors *b)
{
    bool same = a->kind == b->kind && a->margin == b->margin;
    if (a->kind == BW_INDOOR_CLASS || a->kind == BW_INDOOR_RH)
        same = same && a->temperature == b->temperature;
    if (a->kind == BW_INDOOR_CLASS)
        same = same && a->humidity_class == b->humidity_class;
    if (a->kind == BW_INDOOR_RH)
        same = same && a->relative_humidity == b->relative_humidity;
    if (a->kind == BW_INDOOR_EN15026)
        same = same && a->en15026_high == b->en15026_high;
    for (int m = 0; m < BW_MONTHS && a->kind == BW_INDOOR_MONTHS; m++)
        same = same && a->month_temperature[m] == b->month_temperature[m] &&
               a->month_vapour_pressure[m] == b->month_vapour_pressure[m];
    return same;
}

bool bw_indoors_step(bw_indoors *indoors, bool up)
{
    enum { LOWEST_CLASS = 1, HIGHEST_CLASS = 5 };
    const double rh = indoors->relative_humidity;
    switch (indoors->kind) {
    case BW_INDOOR_CLASS:
        if (indoors->humidity_class == (up ? HIGHEST_CLASS : LOWEST_CLASS))
            return false;
        indoors->humidity_class += up ? 1 : -1;
        return true;
    case BW_INDOOR_RH:
        if (up ? rh > 1.0 - HUMIDITY_STEP : rh < HUMIDITY_STEP)
            return false;
        indoors->relative_humidity += up ? HUMIDITY_STEP : -HUMIDITY_STEP;
        return true;
    case BW_INDOOR_EN15026:
        if (indoors->en15026_high == up)
            return false;
        indoors->en15026_high = up;
        return true;
    case BW_INDOOR_MONTHS:
        if (up)
            damper_months(indoors);
        return up;
    }
    return false;
}
