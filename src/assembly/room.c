#include "room.h"

#include <stdio.h>

#include "bothways/air.h"
#include "number.h"

/* phi = p / p_sat(theta) of the air in the room; a room holds at most
 * saturated air. */

double bw_room_humidity(double temperature, double vapour_pressure)
{
    return vapour_pressure / bw_saturation_pressure(temperature);
}

bool bw_room_impossible(double rh)
{
    return rh > 1.0 + 1e-9;
}

void bw_room_reason(char *text, size_t size, const bw_indoors *indoors,
                    double rh, const char *when)
{
    char percent[32], theta[32], how[64] = "as given";
    if (indoors->kind == BW_INDOOR_CLASS)
        snprintf(how, sizeof how, "humidity class %d at %s degC",
                 indoors->humidity_class,
                 bw_number_g(theta, sizeof theta, indoors->temperature, 4));
    snprintf(text, size,
             "%s, the room would be at up to %s %% RH in %s, more than air "
             "holds; write relative-humidity= or conditions= in <indoors>",
             how, bw_number_f(percent, sizeof percent, 100.0 * rh, 0), when);
}
