#include "humid.h"

/* One-sided slopes, so that a kink at a node stays a kink. */
static double slope_inside(double (*f)(double), double from, double to)
{
    const double h = (to - from) * 1e-3;
    return (-3 * f(from) + 4 * f(from + h) - f(from + 2 * h)) / (2 * h);
}

void bw_humid_build(bw_humid *table, double (*psat)(double theta),
                    double (*delta)(double theta, double pressure),
                    double pressure)
{
    const double width = (BW_HUMID_HIGH - BW_HUMID_LOW) / BW_HUMID_ROWS;
    for (int i = 0; i < BW_HUMID_ROWS; i++) {
        const double a = BW_HUMID_LOW + i * width, b = a + width;
        const double pa = psat(a), pb = psat(b);
        const double da = slope_inside(psat, a, b) * width;
        const double db = slope_inside(psat, b, a) * width;
        double *c = table->row[i].psat;
        c[0] = pa;
        c[1] = da;
        c[2] = 3 * (pb - pa) - 2 * da - db;
        c[3] = 2 * (pa - pb) + da + db;
        double *d = table->row[i].delta;
        d[0] = delta(a, pressure);
        d[1] = delta(b, pressure) - d[0];
    }
}
