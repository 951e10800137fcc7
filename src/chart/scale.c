#include "scale.h"

#include <math.h>

/* at = at_from + (v - from) / (to - from) (at_to - at_from), or of the
 * logarithms. Ticks stand at 1, 2 or 5 times a power of ten. */

double bw_scale_at(const bw_scale *scale, double value)
{
    double from = scale->from, to = scale->to;
    if (scale->log) {
        from = log(from);
        to = log(to);
        value = log(value > 0.0 ? value : scale->from);
    }
    double span = to - from;
    double share = fabs(span) > 0.0 ? (value - from) / span : 0.5;
    return scale->at_from + share * (scale->at_to - scale->at_from);
}

static double step_for(double span, size_t most)
{
    double raw = span / (double)(most > 0 ? most : 1);
    double power = pow(10.0, floor(log10(raw)));
    double lead = raw / power;
    double nice = lead <= 1.0 + 1e-9   ? 1.0
                  : lead <= 2.0 + 1e-9 ? 2.0
                  : lead <= 5.0 + 1e-9 ? 5.0
                                       : 10.0;
    return nice * power;
}

bw_ticks bw_ticks_make(double low, double high, size_t most)
{
    bw_ticks out = {0};
    if (!(high > low) || !isfinite(high - low))
        return out;
    double step = step_for(high - low, most);
    double first = ceil(low / step - 1e-9);
    for (size_t i = 0; i < BW_TICKS; i++) {
        double value = (first + (double)i) * step;
        if (value > high + 1e-9 * step)
            break;
        out.value[out.count++] = fabs(value) < 1e-9 * step ? 0.0 : value;
    }
    double decimals = -floor(log10(step) + 1e-9);
    out.decimals = decimals > 0.0 ? (int)decimals : 0;
    return out;
}

static bw_ticks log_ticks(double low, double high, const double *lead,
                          size_t leads, int each)
{
    bw_ticks out = {.decimals = -1};
    int first = (int)floor(log10(low) + 1e-9);
    for (int power = first; out.count < BW_TICKS; power += each) {
        for (size_t i = 0; i < leads && out.count < BW_TICKS; i++) {
            double value = lead[i] * pow(10.0, power);
            if (value > high * (1.0 + 1e-9))
                return out;
            if (value >= low * (1.0 - 1e-9))
                out.value[out.count++] = value;
        }
    }
    return out;
}

bw_ticks bw_ticks_log(double low, double high, size_t most)
{
    static const double lead[] = {1.0, 2.0, 5.0};
    if (!(low > 0.0) || !(high > low) || !isfinite(high))
        return (bw_ticks){0};
    bw_ticks out = log_ticks(low, high, lead, 3, 1);
    for (int each = 1; out.count > most && each < 12; each++)
        out = log_ticks(low, high, lead, 1, each);
    return out;
}

void bw_round_range(double *low, double *high, size_t most)
{
    if (!(*high > *low))
        *high = *low + 1.0;
    double step = step_for(*high - *low, most);
    *low = floor(*low / step + 1e-9) * step;
    *high = ceil(*high / step - 1e-9) * step;
}

void bw_spread(double *at, size_t count, double gap, double low, double high)
{
    /* Push right, then back from the right edge, then halve what is left of
     * the shift by relaxing: few labels, so simple passes do. */
    for (int pass = 0; pass < 60; pass++) {
        bool moved = false;
        for (size_t i = 0; i + 1 < count; i++) {
            double lack = gap - (at[i + 1] - at[i]);
            if (lack > 1e-6) {
                at[i] -= 0.5 * lack;
                at[i + 1] += 0.5 * lack;
                moved = true;
            }
        }
        if (count > 0 && at[0] < low)
            at[0] = low;
        if (count > 0 && at[count - 1] > high)
            at[count - 1] = high;
        if (!moved)
            break;
    }
    for (size_t i = 1; i < count; i++)
        if (at[i] < at[i - 1] + gap)
            at[i] = at[i - 1] + gap;
    if (count == 0 || at[count - 1] <= high)
        return;
    at[count - 1] = high;
    for (size_t i = count - 1; i-- > 0;)
        at[i] = fmin(at[i], at[i + 1] - gap);
}
