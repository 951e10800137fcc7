#include "climate_checks.h"

#include <math.h>
#include <string.h>

#include "fuzz.h"

static double most_pressure(double theta)
{
    return bw_saturation_pressure_water(theta) * (1 + 1e-9);
}

static void check_months(const bw_climate *climate)
{
    for (int m = 0; m < BW_MONTHS; m++) {
        const bw_climate_month *month = &climate->month[m];
        FUZZ_REQUIRE(isfinite(month->temperature));
        FUZZ_REQUIRE(isfinite(month->vapour_pressure));
        FUZZ_REQUIRE(month->vapour_pressure > 0);
        FUZZ_REQUIRE(!month->has_global ||
                     (isfinite(month->global_horizontal) &&
                      month->global_horizontal >= 0));
        FUZZ_REQUIRE(!month->has_wind || month->wind >= 0);
        FUZZ_REQUIRE(!month->has_rain || month->rain >= 0);
    }
    double plane[BW_MONTHS];
    for (double azimuth = 0; azimuth < 360; azimuth += 77)
        if (bw_climate_irradiance(climate, azimuth, 90, plane))
            for (int m = 0; m < BW_MONTHS; m++)
                FUZZ_REQUIRE(isfinite(plane[m]) && plane[m] >= 0);
}

static void check_hours(const bw_climate *climate)
{
    FUZZ_REQUIRE(climate->hour_count == 0 || climate->hour_count == 8760);
    for (size_t i = 0; i < climate->hour_count; i++) {
        const bw_climate_hour *h = &climate->hour[i];
        FUZZ_REQUIRE(isfinite(h->temperature) && isfinite(h->vapour_pressure));
        FUZZ_REQUIRE(h->vapour_pressure >= 0);
        FUZZ_REQUIRE(h->vapour_pressure <= most_pressure(h->temperature));
        FUZZ_REQUIRE(h->direct_normal >= 0 && isfinite(h->direct_normal));
        FUZZ_REQUIRE(h->diffuse_horizontal >= 0 &&
                     isfinite(h->diffuse_horizontal));
        FUZZ_REQUIRE(h->longwave_down >= 0 && isfinite(h->longwave_down));
        FUZZ_REQUIRE(h->wind >= 0 && h->rain >= 0 && isfinite(h->rain));
        FUZZ_REQUIRE(h->wind_from >= 0 && h->wind_from < 360);
        FUZZ_REQUIRE(h->pressure > 0 && isfinite(h->pressure));
    }
}

static void check_generated(const bw_climate *months)
{
    bw_climate *made = NULL;
    bw_error err = {0};
    bw_status status = bw_climate_generate(&made, months, &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(made == NULL && err.message[0] != '\0');
        return;
    }
    check_hours(made);
    for (int m = 0; m < BW_MONTHS; m++) {
        FUZZ_REQUIRE(fabs(made->month[m].temperature -
                          months->month[m].temperature) < 1e-6);
        FUZZ_REQUIRE(fabs(made->month[m].vapour_pressure -
                          months->month[m].vapour_pressure) < 1e-3);
    }
    bw_climate_free(made);
}

void fuzz_check_climate(const void *data, size_t size)
{
    bw_climate *climate = NULL;
    bw_error err = {0};
    bw_status status = bw_climate_read(&climate, fuzz_file(data, size), &err);
    if (status != BW_OK) {
        FUZZ_REQUIRE(climate == NULL);
        fuzz_check_refusal(status, &err);
        return;
    }
    check_months(climate);
    check_hours(climate);
    if (climate->hour_count == 0)
        check_generated(climate);
    bw_climate_free(climate);
}
