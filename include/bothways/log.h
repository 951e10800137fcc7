#ifndef BOTHWAYS_LOG_H
#define BOTHWAYS_LOG_H

/** @file
 * A logger's record, as it is replayed (replay.h): what it measured in the room,
 * outside and within a wall, reading by reading.
 */

#include <stdbool.h>
#include <stddef.h>

#include "bothways/error.h"
#include "bothways/export.h"

BW_BEGIN_C

/** What a logger hung in. */
typedef enum bw_log_kind {
    BW_LOG_ROOM,
    BW_LOG_OUTDOOR,
    BW_LOG_CAVITY, /**< the air of a cavity */
    BW_LOG_PLACE,  /**< within the wall, between studs */
    BW_LOG_STUD,   /**< within the wall, in the line of a stud */
} bw_log_kind;

/** Most channels of a record. */
enum { BW_LOG_CHANNELS = 16 };

/** Where it hung: columns "room_temperature_C" and so on (docs/input.md). */
typedef struct bw_log_channel {
    bw_log_kind kind;
    const char *name;    /**< "room", "place:boards|wool" */
    const char *at;      /**< behind the colon; "" */
    bool has_temperature, has_humidity;
    bool over_ice;       /**< its RH is over ice below 0 degC, as stated; else
                              over liquid water */
    const double *theta; /**< degC, of each reading; NAN: none */
    const double *rh;    /**< 0..1 and up to 1.05, over what is said above; NAN */
} bw_log_channel;

/** One file. Plain data to read; made by bw_log_read only. */
typedef struct bw_log {
    const char *file;    /**< never NULL */
    const char *source;  /**< of its head; "" if not given, as are these */
    const char *licence;
    const char *remark;
    double utc_offset;   /**< h, of its times as written; 0: UTC */
    size_t count;        /**< readings, ascending in time */
    const double *time;  /**< s since 1970-01-01 00:00 UTC */
    const long *line;    /**< of the file */
    size_t channel_count;
    const bw_log_channel *channel;
    long header_line;
    size_t note_count;
    const bw_note *note;
} bw_log;

/** What a file may leave open. */
typedef struct bw_log_options {
    bool has_utc_offset;
    double utc_offset;   /**< h east of UTC */
} bw_log_options;

/**
 * Read a log (docs/input.md, "Logs").
 * @param[out] out  free with bw_log_free
 * @param options   NULL: nothing is left open
 * @return BW_OK; BW_ERR_INPUT with file and line; BW_ERR_IO; BW_ERR_MEMORY
 */
BW_API bw_status bw_log_read(bw_log **out, const char *path,
                             const bw_log_options *options, bw_error *err);

/** The same of a log in memory, ended by a NUL. */
BW_API bw_status bw_log_read_text(bw_log **out, const char *text,
                                  const char *name,
                                  const bw_log_options *options, bw_error *err);

/** Frees a log; NULL is allowed. */
BW_API void bw_log_free(bw_log *log);

BW_END_C

#endif
