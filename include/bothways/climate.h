#ifndef BOTHWAYS_CLIMATE_H
#define BOTHWAYS_CLIMATE_H

/** @file
 * Outdoor climate: twelve months always, hours where the file has them.
 * A climate is immutable once read.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/air.h"
#include "bothways/error.h"
#include "bothways/export.h"

BW_BEGIN_C

enum { BW_MONTHS = 12, BW_FACINGS = 8 };

/** Compass points of the vertical irradiance columns, in this order. */
typedef enum bw_facing {
    BW_FACING_N, BW_FACING_NE, BW_FACING_E, BW_FACING_SE,
    BW_FACING_S, BW_FACING_SW, BW_FACING_W, BW_FACING_NW,
} bw_facing;

/** Where the hours of a climate come from. */
typedef enum bw_climate_kind {
    BW_CLIMATE_MONTHLY,   /**< only monthly means */
    BW_CLIMATE_HOURLY,    /**< an hourly file */
    BW_CLIMATE_SYNTHETIC, /**< hours generated from monthly means */
} bw_climate_kind;

/** What year the hours of a file are. */
typedef enum bw_year_kind {
    BW_YEAR_NOT_STATED,
    BW_YEAR_MEASURED,     /**< one year as it was */
    BW_YEAR_TYPICAL,      /**< put together to be typical: not a severe one */
} bw_year_kind;

/** Monthly means. Vapour pressures are means of vapour pressure, never a
 *  mean RH at a mean temperature. */
typedef struct bw_climate_month {
    double temperature;       /**< degC */
    double vapour_pressure;   /**< Pa */
    bool has_global;
    double global_horizontal; /**< W/m2 */
    bool has_vertical[BW_FACINGS];
    double vertical[BW_FACINGS]; /**< W/m2 on a vertical wall */
    bool has_wind;
    double wind;              /**< m/s */
    bool has_rain;
    double rain;              /**< kg/m2 (= mm) in the month */
    bool has_rain_wind;
    double rain_wind;         /**< m/s, mean wind weighted by rain */
    bool has_wettest_day;
    double wettest_day;       /**< kg/m2, highest of the month's days (UTC) */
    bool has_ground;
    double ground_temperature; /**< degC, of soil at the face in question */
    bool has_rain_rose;
    double rain_rose[BW_FACINGS]; /**< share of rain times wind that comes
                                       from the octant around N, NE, ...;
                                       their sum is 1 */
} bw_climate_month;

/** One hour. The instant values hold at the start of the hour; radiation
 *  and rain are means over / sums within the hour. */
typedef struct bw_climate_hour {
    double temperature;       /**< degC */
    double vapour_pressure;   /**< Pa */
    double direct_normal;     /**< W/m2 */
    double diffuse_horizontal;/**< W/m2 */
    double longwave_down;     /**< W/m2 */
    double wind;              /**< m/s */
    double wind_from;         /**< degrees from north, clockwise */
    double rain;              /**< kg/m2 in the hour */
    double pressure;          /**< Pa */
} bw_climate_hour;

/** Which optional hourly columns the file had. Without one, the field of
 *  every hour is 0 (pressure: BW_STANDARD_PRESSURE) and must not be used to
 *  decide anything. */
typedef struct bw_hourly_columns {
    bool solar, longwave, wind, wind_from, rain, pressure;
} bw_hourly_columns;

/** A climate, plain data to read; made by the functions below only. */
typedef struct bw_climate {
    const char *file;     /**< as given; never NULL */
    const char *place;    /**< never NULL, as are the three below */
    const char *source;
    const char *licence;
    const char *remark;   /**< e.g. "invented" */
    bw_climate_kind kind;
    bw_year_kind year_kind; /**< of hours from a file */
    bw_humidity_reference humidity_reference;
    bool has_position;
    double latitude;      /**< degrees north */
    double longitude;     /**< degrees east */
    bool has_altitude;
    double altitude;      /**< m */
    bool has_prevailing_wind;
    double prevailing_wind; /**< degrees from north the wind mostly blows from;
                               only the generator uses it */
    double time_offset;   /**< h; solar values hold at hh:00 + offset UTC */
    bw_climate_month month[BW_MONTHS];
    bw_hourly_columns columns;
    size_t hour_count;    /**< 0, or 8760 (a leap day is left out, noted) */
    const bw_climate_hour *hour; /**< January 1st 00:00 UTC first */
    size_t note_count;    /**< repairs and conversions, never silent */
    const bw_note *note;
} bw_climate;

/**
 * Read a climate file: monthly CSV, hourly CSV or public TMY CSV, told apart
 * by their header row (docs/input.md).
 * @return BW_OK, BW_ERR_INPUT, BW_ERR_MEMORY. *out: free with bw_climate_free
 */
BW_API bw_status bw_climate_read(bw_climate **out, const char *path,
                                 bw_error *err);

/** The same of a climate that stands in memory, ended by a NUL; `name` is what
 *  messages and results call the file. */
BW_API bw_status bw_climate_read_text(bw_climate **out, const char *text,
                                      const char *name, bw_error *err);

/** Frees a climate; NULL is allowed. */
BW_API void bw_climate_free(bw_climate *climate);

/** Seconds in month 0..11 (February has 28 days). */
BW_API double bw_month_seconds(int month);

/** "Jan".."Dec" for month 0..11. */
BW_API const char *bw_month_name(int month);

/**
 * Monthly mean irradiance on a plane [W/m2], from the vertical columns or,
 * where only hours are given, from sun position and hourly direct and diffuse.
 * Between two vertical columns the value is interpolated by angle.
 *
 * @param azimuth  degrees from north, clockwise, of the outward normal
 * @param tilt     degrees from horizontal: 90 a wall, 0 a flat roof
 * @return true and the means if the climate has what it takes, else false
 */
BW_API bool bw_climate_irradiance(const bw_climate *climate, double azimuth,
                                  double tilt, double out[BW_MONTHS]);

/**
 * The sun on a plane while it shines, and how long, from the monthly means on
 * that plane (docs/methods.md, "Sun"). A month whose sun stands out of the
 * light of the sky nowhere keeps its mean and a share of 1.
 *
 * @param azimuth, tilt  as above
 * @param mean        W/m2, of bw_climate_irradiance
 * @param irradiance  W/m2, mean of the hours with the sun before the plane
 * @param share       those hours' part of the month, above 0 up to 1
 * @return false if the climate has no position or an angle is not finite;
 *         nothing is written then
 */
BW_API bool bw_climate_sunny(const bw_climate *climate, double azimuth,
                             double tilt, const double mean[BW_MONTHS],
                             double irradiance[BW_MONTHS],
                             double share[BW_MONTHS]);

/** Sun at an instant: day of year from 0.0 (January 1st 00:00 UTC), position
 *  in degrees. Elevation is true (no refraction), azimuth from north. */
typedef struct bw_sun {
    double elevation, azimuth;   /**< degrees */
    double extraterrestrial;     /**< W/m2, normal to the beam */
} bw_sun;

/** Sun position; accuracy in docs/methods.md. */
BW_API bw_sun bw_sun_position(double latitude, double longitude,
                              double day_of_year_utc);

/** Irradiance on a plane from direct normal and diffuse horizontal [W/m2]:
 *  beam, anisotropic sky diffuse and ground-reflected. */
BW_API double bw_plane_irradiance(bw_sun sun, double direct_normal,
                                  double diffuse_horizontal, double azimuth,
                                  double tilt, double albedo);

/**
 * A year of hours from monthly means by a documented deterministic generator
 * (docs/methods.md); kind BW_CLIMATE_SYNTHETIC. The monthly means of the
 * generated hours equal the given ones.
 */
BW_API bw_status bw_climate_generate(bw_climate **out,
                                     const bw_climate *monthly, bw_error *err);

BW_END_C

#endif
