#ifndef BOTHWAYS_RECORD_H
#define BOTHWAYS_RECORD_H

/** @file
 * Hours as they are published: read from many forms, joined, their gaps
 * filled, and written as one hourly climate file (docs/climate.md). A record
 * may have gaps and lack quantities; a climate (climate.h) is what is made of
 * it, through the file that is written.
 */

#include "bothways/climate.h"
#include "bothways/sink.h"

BW_BEGIN_C

/** What an hour may hold, in the order of the file that is written. */
typedef enum bw_quantity {
    BW_RECORD_TEMPERATURE, /**< degC, at the start of the hour */
    BW_RECORD_HUMIDITY,    /**< %, over liquid water, 0 to 100 */
    BW_RECORD_DIRECT,      /**< W/m2 normal to the beam, mean of the hour */
    BW_RECORD_DIFFUSE,     /**< W/m2 on the horizontal, mean of the hour */
    BW_RECORD_LONGWAVE,    /**< W/m2 from the sky, mean of the hour */
    BW_RECORD_WIND,        /**< m/s */
    BW_RECORD_WIND_FROM,   /**< degrees from north, clockwise */
    BW_RECORD_RAIN,        /**< mm in the hour that begins */
    BW_RECORD_PRESSURE,    /**< Pa, at the station's height */
    BW_RECORD_COUNT
} bw_quantity;

/** One file of hours, or several joined. Plain data to read; the 8760 hours
 *  begin on January 1st 00:00 UTC, and the year is a ring. */
typedef struct bw_record {
    const char *file;     /**< as given; never NULL, as are the next two */
    const char *form;     /**< the form it was read as, in words */
    const char *times;    /**< what the form says of time, in words */
    char sha256[65];      /**< of its bytes; "" of records that were joined */
    bw_year_kind year_kind;
    int year;             /**< 0: not one year, or not told */
    bool generated;       /**< hours made from monthly means: their sun and
                               sky alone are taken */
    bool has_position;
    double latitude;      /**< degrees north */
    double longitude;     /**< degrees east */
    bool has_altitude;
    double altitude;      /**< m */
    double sun_offset;    /**< h, radiation holds at hh:00 + this, UTC */
    const double *value[BW_RECORD_COUNT]; /**< NULL: it has none; NAN: a gap */
    const long *line;     /**< of each hour's row, 0: it has none */
    size_t note_count;
    const char *const *note; /**< what was converted, assumed, filled, left
                                  out: sentences */
} bw_record;

/** What a file may leave open. */
typedef struct bw_record_options {
    int year;             /**< of a file with several; 0: it has one */
    bool has_position;
    double latitude;      /**< degrees, of files that do not say it */
    double longitude;
    bool has_utc_offset;
    double utc_offset;    /**< h east of UTC, of files that do not say it */
} bw_record_options;

/**
 * Read a file of hours in any of the forms of docs/climate.md, told by what it
 * holds, not by its name.
 * @param[out] out     free with bw_record_free
 * @param[in]  options NULL: nothing is left open
 * @return BW_OK, BW_ERR_INPUT with file and line, BW_ERR_USAGE (an option is
 *         wanted), BW_ERR_IO, BW_ERR_MEMORY
 */
BW_API bw_status bw_record_read(bw_record **out, const char *path,
                                const bw_record_options *options,
                                bw_error *err);

/**
 * Join records: each quantity comes from the first that has it, temperature
 * with humidity and rain with wind from one. Gaps of up to three hours are
 * filled between their neighbours, of up to three days by the days before and
 * after. The notes of the result say all of it.
 * @param[out] out     free with bw_record_free
 * @param[in]  record  count of them, in order of preference; they stay
 * @return BW_OK, BW_ERR_INPUT (a longer gap, no temperature and humidity),
 *         BW_ERR_MEMORY
 */
BW_API bw_status bw_record_join(bw_record **out,
                                const bw_record *const *record, size_t count,
                                bw_error *err);

/** Write an hourly climate file; record is one that was joined.
 *  @param sink takes bytes, false ends the writing with BW_ERR_IO */
BW_API bw_status bw_record_write(const bw_record *record,
                                 bw_sink *sink, void *payload, bw_error *err);

/** Say in words what a record holds, and what is missing for a simulation and
 *  where such hours are published. Parameters as above. */
BW_API bw_status bw_record_describe(const bw_record *record,
                                    bw_sink *sink, void *payload,
                                    bw_error *err);

/** What a quantity is called, "rain"; never NULL. */
BW_API const char *bw_quantity_name(bw_quantity quantity);

/** What a simulation lacks without it, and where it is published. */
BW_API const char *bw_quantity_advice(bw_quantity quantity);

/** Frees a record; NULL is allowed. */
BW_API void bw_record_free(bw_record *record);

BW_END_C

#endif
