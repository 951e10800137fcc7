/* From the columns of a file to those of a record.
 *
 * Humidity of a mixing ratio x [kg/kg]: p_v = p x / (0.62198 + x), the ratio of
 * the molar masses of water and dry air (ISO 13788 has 0.622; from memory,
 * high confidence); phi = p_v / p_sat over water.
 * Pressure at a height z [m] from that at sea level: p = p0 (1 - 2.25577e-5
 * z)^5.2559, standard atmosphere (ISO 2533, from memory, high confidence).
 * Beam normal to the sun = beam on the horizontal / sin(elevation); global
 * alone is parted into both (split.h). The sun stands where it does at the
 * middle of the hour, or where the file says.
 *
 * Invariant: the sum on the horizontal stays; a column without one value is
 * none. */

#include <math.h>

#include "fail.h"
#include "record_form.h"
#include "record_make.h"
#include "split.h"

static const double MOLAR = 0.62198;
static const double SEA_A = 2.25577e-5, SEA_B = 5.2559;
/* Relative humidities of one file told in two ways may differ by this in the
 * mean [%]: an estimate, some times the rounding of both. */
static const double SAME_HUMIDITY = 5.0;

static bw_status make(bw_record_reader *reader, int kind)
{
    reader->value[kind] = bw_record_column(reader->record);
    return reader->value[kind] != NULL ? BW_OK : bw_fail_memory(reader->err);
}

static bw_status pressure(bw_record_reader *reader)
{
    bw_record *record = reader->record;
    const double *sea = reader->value[BW_RAW_SEA_PRESSURE];
    if (sea == NULL || reader->value[BW_RECORD_PRESSURE] != NULL)
        return BW_OK;
    if (!record->has_altitude)
        return bw_record_note(record, reader->err,
                              "pressure at sea level is left out, as the file "
                              "does not tell the station's height");
    BW_TRY(make(reader, BW_RECORD_PRESSURE));
    const double share = pow(1.0 - SEA_A * record->altitude, SEA_B);
    for (int h = 0; h < BW_HOURS; h++)
        reader->value[BW_RECORD_PRESSURE][h] = sea[h] * share;
    return bw_record_note(record, reader->err,
                          "pressure taken from sea level to %s m by the "
                          "standard atmosphere",
                          BW_G(record->altitude));
}

/* ---- humidity ---------------------------------------------------------- */

static double at_most(double humidity)
{
    return isnan(humidity) ? humidity : fmin(humidity, 100.0);
}

static void from_mixing(const bw_record_reader *reader, double *out)
{
    const double *theta = reader->value[BW_RECORD_TEMPERATURE];
    const double *p = reader->value[BW_RECORD_PRESSURE];
    for (int h = 0; h < BW_HOURS; h++) {
        double x = reader->value[BW_RAW_MIXING][h] / 1000.0;
        double air = p != NULL ? p[h] : 101325.0;
        out[h] = 100.0 * air * x / (MOLAR + x) /
                 bw_saturation_pressure_water(theta[h]);
    }
}

static bw_status refuse_contradiction(const bw_record_reader *reader,
                                      const double *other)
{
    const double *phi = reader->value[BW_RECORD_HUMIDITY];
    double sum = 0.0;
    int hours = 0;
    for (int h = 0; h < BW_HOURS; h++)
        if (!isnan(phi[h]) && !isnan(other[h])) {
            sum += at_most(other[h]) - phi[h];
            hours++;
        }
    if (hours == 0 || fabs(sum / hours) <= SAME_HUMIDITY)
        return BW_OK;
    return BW_REFUSE(reader, 0,
                     "the mixing ratio means a relative humidity %s %% higher "
                     "in the mean than the column of it says; up to %s %% is "
                     "allowed: the columns are not what they seem",
                     BW_G(sum / hours), BW_G(SAME_HUMIDITY));
}

static bw_status mixing(bw_record_reader *reader)
{
    double *other = bw_record_column(reader->record);
    BW_TRY_MEMORY(other != NULL, reader->err);
    from_mixing(reader, other);
    if (reader->value[BW_RECORD_HUMIDITY] != NULL)
        return refuse_contradiction(reader, other);
    for (int h = 0; h < BW_HOURS; h++)
        other[h] = at_most(other[h]);
    reader->value[BW_RECORD_HUMIDITY] = other;
    return bw_record_note(
        reader->record, reader->err,
        "humidity from the mixing ratio, p x / (0.62198 + x)");
}

static bw_status refuse_fraction(const bw_record_reader *reader,
                                 const double *phi)
{
    for (int h = 0; h < BW_HOURS; h++)
        if (phi[h] > 1.05)
            return BW_OK;
    return BW_REFUSE(reader, 0,
                     "relative humidity: no value is above 1.05; this looks "
                     "like a fraction, per cent are wanted");
}

static bw_status humidity(bw_record_reader *reader)
{
    const double *theta = reader->value[BW_RECORD_TEMPERATURE];
    const double *p = reader->value[BW_RAW_VAPOUR];
    double *phi = reader->value[BW_RECORD_HUMIDITY];
    if (theta == NULL)
        return BW_OK;
    if (reader->value[BW_RAW_MIXING] != NULL)
        BW_TRY(mixing(reader));
    if (p != NULL && phi == NULL) {
        BW_TRY(make(reader, BW_RECORD_HUMIDITY));
        for (int h = 0; h < BW_HOURS; h++)
            reader->value[BW_RECORD_HUMIDITY][h] = at_most(
                100.0 * p[h] / bw_saturation_pressure_water(theta[h]));
    }
    if (phi != NULL)
        BW_TRY(refuse_fraction(reader, phi));
    if (phi == NULL || reader->own.climate->humidity_reference != BW_OVER_ICE)
        return BW_OK;
    for (int h = 0; h < BW_HOURS; h++)
        phi[h] = at_most(
            100.0 * bw_vapour_pressure(theta[h], phi[h] / 100.0, BW_OVER_ICE) /
            bw_saturation_pressure_water(theta[h]));
    return bw_record_note(reader->record, reader->err,
                          "humidity over ice converted to humidity over water");
}

/* ---- sun --------------------------------------------------------------- */

static void part(bw_record_reader *reader, int h, bw_sun sun)
{
    const double *beam = reader->value[BW_RAW_BEAM_HORIZONTAL];
    const double *global = reader->value[BW_RAW_GLOBAL];
    double *direct = &reader->value[BW_RECORD_DIRECT][h];
    double *diffuse = &reader->value[BW_RECORD_DIFFUSE][h];
    if (beam != NULL && !isnan(beam[h]) && !isnan(*diffuse))
        bw_split_beam(direct, diffuse, sun, beam[h], *diffuse);
    else if (beam == NULL && !isnan(global[h]))
        bw_split_global(direct, diffuse, sun, global[h]);
    else
        *direct = *diffuse = (double)NAN;
}

static bw_status sun(bw_record_reader *reader)
{
    bw_record *record = reader->record;
    double **value = reader->value;
    const bool pair = value[BW_RAW_BEAM_HORIZONTAL] != NULL &&
                      value[BW_RECORD_DIFFUSE] != NULL;
    const bool both = value[BW_RECORD_DIRECT] != NULL &&
                      value[BW_RECORD_DIFFUSE] != NULL;
    if (!pair)
        value[BW_RAW_BEAM_HORIZONTAL] = NULL;
    if (both || (!pair && value[BW_RAW_GLOBAL] == NULL))
        return BW_OK;
    if (!record->has_position) {
        value[BW_RECORD_DIRECT] = value[BW_RECORD_DIFFUSE] = NULL;
        return bw_record_note(record, reader->err,
                              "sun on the horizontal is left out, as the file "
                              "does not tell where it is: --position "
                              "LATITUDE,LONGITUDE says it");
    }
    BW_TRY(make(reader, BW_RECORD_DIRECT));
    if (!pair)
        BW_TRY(make(reader, BW_RECORD_DIFFUSE));
    for (int h = 0; h < BW_HOURS; h++)
        part(reader, h,
             bw_sun_position(record->latitude, record->longitude,
                             (h + record->sun_offset) / 24.0));
    return bw_record_note(
        record, reader->err,
        "%s, the sun standing where it does at hh:00 + %s h",
        pair ? "direct sun on the horizontal turned normal to the beam"
             : "global sun parted into direct and diffuse by its clearness "
               "(an estimate)",
        BW_G(record->sun_offset));
}

static bool empty(const double *column)
{
    for (int h = 0; h < BW_HOURS; h++)
        if (!isnan(column[h]))
            return false;
    return true;
}

/* A trailing -0 or 360 degrees would be odd, not wrong. */
static void hand_over(bw_record_reader *reader)
{
    for (int q = 0; q < BW_RECORD_COUNT; q++) {
        double *column = reader->value[q];
        if (column == NULL || empty(column))
            continue;
        for (int h = 0; h < BW_HOURS; h++)
            if (q == BW_RECORD_WIND_FROM && column[h] >= 360.0)
                column[h] = 0.0;
        reader->record->value[q] = column;
    }
    const double **is = reader->record->value;
    if (is[BW_RECORD_DIRECT] == NULL || is[BW_RECORD_DIFFUSE] == NULL)
        is[BW_RECORD_DIRECT] = is[BW_RECORD_DIFFUSE] = NULL;
}

bw_status bw_record_derive(bw_record_reader *reader)
{
    for (int k = 0; k < BW_RAW_COUNT; k++)
        if (reader->value[k] != NULL && empty(reader->value[k]))
            reader->value[k] = NULL;
    BW_TRY(pressure(reader));
    BW_TRY(humidity(reader));
    BW_TRY(sun(reader));
    hand_over(reader);
    return BW_OK;
}
