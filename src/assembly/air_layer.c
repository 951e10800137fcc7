#include "air_layer.h"

#include <math.h>

#include "surface_resistance.h"

/* ISO 6946:2017 table 8, R of unventilated air layers with faces of high
 * emissivity (from memory, high confidence). */
enum { ROWS = 9 };
static const double table_thickness[ROWS] = {
    0.0, 0.005, 0.007, 0.010, 0.015, 0.025, 0.050, 0.100, 0.300}; /* m */
static const double table_resistance[3][ROWS] = {
    /* m2 K/W */
    [BW_FLOW_HORIZONTAL] = {0, .11, .13, .15, .17, .18, .18, .18, .18},
    [BW_FLOW_UP] = {0, .11, .13, .15, .16, .16, .16, .16, .16},
    [BW_FLOW_DOWN] = {0, .11, .13, .15, .17, .19, .21, .22, .23},
};

double bw_still_air_resistance(double thickness, bw_heat_flow flow)
{
    const double *d = table_thickness, *r = table_resistance[flow];
    if (thickness <= 0.0)
        return 0.0;
    for (int i = 1; i < ROWS; i++)
        if (thickness <= d[i])
            return r[i - 1] + (r[i] - r[i - 1]) * (thickness - d[i - 1]) /
                                  (d[i] - d[i - 1]);
    return r[ROWS - 1];
}

/* ISO 6946:2017 annex D (from memory, high confidence): R = 1/(h_a + E h_r0),
 * E = 1/(1/e1 + 1/e2 - 1); h_a for a temperature difference up to 5 K. */
double bw_low_emissivity_resistance(double thickness, double emissivity,
                                    bw_heat_flow flow)
{
    static const double black = 5.1; /* W/(m2 K), h_r0 at 10 degC */
    static const double plain = 0.9; /* emissivity of the other face */
    if (thickness <= 0.0)
        return 0.0;
    const double d = fmin(thickness, table_thickness[ROWS - 1]);
    double still = 1.25; /* W/(m2 K), convection once it moves */
    if (flow == BW_FLOW_UP)
        still = 1.95;
    else if (flow == BW_FLOW_DOWN)
        still = 0.12 * pow(d, -0.44);
    const double between = 1.0 / (1.0 / emissivity + 1.0 / plain - 1.0);
    return 1.0 / (fmax(still, 0.025 / d) + between * black);
}

double bw_internal_resistance(bw_heat_flow flow)
{
    switch (flow) {
    case BW_FLOW_UP:
        return BW_RSI_UP;
    case BW_FLOW_DOWN:
        return BW_RSI_DOWN;
    case BW_FLOW_HORIZONTAL:
        break;
    }
    return BW_RSI_HORIZONTAL;
}

bw_heat_flow bw_winter_flow(bw_element element)
{
    switch (element) {
    case BW_ELEMENT_ROOF:
        return BW_FLOW_UP;
    case BW_ELEMENT_FLOOR:
        return BW_FLOW_DOWN;
    case BW_ELEMENT_WALL:
        break;
    }
    return BW_FLOW_HORIZONTAL;
}
