#ifndef BW_CLIMATE_READER_H
#define BW_CLIMATE_READER_H

/* Parts of the climate reader. Formats: docs/climate.md. */

#include "bothways/climate.h"
#include "climate_make.h"
#include "csv.h"
#include "number.h"

/* What a column may hold. Values in [clamp_low, low) and (high, clamp_high]
 * are taken as the limit, with one note a column; others are refused. */
typedef struct bw_column_kind {
    const char *name;        /* in our files */
    const char *public_name; /* in the public TMY file, or NULL */
    double clamp_low, low, high, clamp_high;
    const char *unit;
} bw_column_kind;

enum { BW_MOST_KINDS = 32 };

/* Keys of the header that hold one value, not text; texts: place, source,
 * licence, remark, each of so many bytes at most. */
enum { BW_HEADER_VALUES = 7, BW_HEADER_TEXTS = 4, BW_HEADER_MOST = 65536 };

/* Lines above the header row. */
enum { BW_HEADER_LINES = 10000 };

/* A text that grows as lines of its key are met. */
typedef struct bw_header_text {
    char *at;
    size_t length, room;
} bw_header_text;

/* One table of columns while it is read. */
typedef struct bw_columns {
    const bw_column_kind *kind;
    int kinds;
    int at[BW_MOST_KINDS]; /* field of the kind, -1: not in the file */
    int key;               /* field of month or time */
    size_t fields;         /* in the header row */
    long header_line;
    size_t clamped[BW_MOST_KINDS];
    long first_clamped[BW_MOST_KINDS];
} bw_columns;

typedef struct bw_climate_reader {
    const char *path;
    bw_climate *climate;
    bw_csv csv;
    bool public_tmy;
    bool has_latitude, has_longitude, has_time_offset;
    bw_header_text text[BW_HEADER_TEXTS];
    long value_line[BW_HEADER_VALUES]; /* where a value was given; 0: nowhere */
    bw_error *err;
} bw_climate_reader;

#define BW_REFUSE(reader, where, ...)                                          \
    bw_fail((reader)->err, BW_ERR_INPUT, (reader)->path, (where), __VA_ARGS__)

/* A comment line of our files, after the '#'. */
bw_status bw_climate_comment(bw_climate_reader *reader, char *text);
/* A line before the header row of the public TMY file. */
bw_status bw_climate_preamble(bw_climate_reader *reader);
/* Once all header lines are read: position complete or not. */
bw_status bw_climate_finish_header(bw_climate_reader *reader);

/* Matches the split header row with the kinds; key_name heads the rows. */
bw_status bw_columns_match(bw_columns *columns, bw_climate_reader *reader,
                           const char *key_name);
bool bw_columns_has(const bw_columns *columns, int kind);
/* The current row has as many fields as the header. */
bw_status bw_columns_row(const bw_columns *columns, bw_climate_reader *reader);
/* The value of kind in the current row; NAN where the field is empty. */
bw_status bw_columns_value(double *out, bw_columns *columns, int kind,
                           bw_climate_reader *reader);
/* Notes on what was clamped. */
bw_status bw_columns_finish(const bw_columns *columns,
                            bw_climate_reader *reader);

/* The tables; the header row is the current line. */
bw_status bw_climate_monthly(bw_climate_reader *reader);
bw_status bw_climate_hourly(bw_climate_reader *reader);

/* Kinds of the hourly table, in the order of their values. */
enum {
    BW_H_TEMPERATURE,
    BW_H_RH,
    BW_H_VAPOUR,
    BW_H_GLOBAL,
    BW_H_DIRECT,
    BW_H_DIFFUSE,
    BW_H_LONGWAVE,
    BW_H_WIND,
    BW_H_WIND_FROM,
    BW_H_RAIN,
    BW_H_PRESSURE,
    BW_H_KINDS
};

/* A year of hours as columns; NAN marks what is missing. */
typedef struct bw_hour_table {
    bw_columns columns;
    long line[BW_HOURS]; /* 0: no row */
    double *value[BW_H_KINDS];
    size_t rows;
} bw_hour_table;

/* Fills short gaps, with notes; refuses long ones. */
bw_status bw_hours_repair(bw_hour_table *table, bw_climate_reader *reader);
/* From the complete table to the climate's hours and months. */
bw_status bw_hours_store(const bw_hour_table *table, bw_climate_reader *reader);

#endif
