#ifndef BW_LOG_READER_H
#define BW_LOG_READER_H

/* Parts of the reader of logs. The form: docs/input.md, "Logs". */

#include "arena.h"
#include "bothways/log.h"
#include "csv.h"
#include "number.h"

/* Columns and rows that are read. */
enum { BW_LOG_FIELDS = 128, BW_LOG_MOST = 1000000 };

/* What a field holds. */
typedef struct bw_log_column {
    int channel; /* -1: passed over */
    bool humidity;
    bool fahrenheit;
} bw_log_column;

typedef struct bw_log_owner {
    bw_log log; /* first: a bw_log * points to its owner */
    bw_arena arena;
} bw_log_owner;

typedef struct bw_log_reader {
    const char *path;
    const bw_log_options *options;
    bw_log_owner *owner;
    bw_csv csv;
    char separator;
    char *field[BW_LOG_FIELDS];
    size_t fields;
    int time;                              /* field of the times */
    bool has_offset, offset_given, is_utc; /* given: by the caller */
    double offset;                         /* h */
    bool has_reference, over_ice;
    bw_log_column column[BW_LOG_FIELDS];
    bw_log_channel *channel;
    double *value[BW_LOG_CHANNELS][2]; /* temperature, humidity */
    double *times;
    long *line;
    size_t room, note_room, apart; /* readings more than an hour apart */
    bw_note *notes;
    bw_error *err;
} bw_log_reader;

#define BW_LOG_REFUSE(reader, ...)                                             \
    bw_fail((reader)->err, BW_ERR_INPUT, (reader)->path, (reader)->csv.line,   \
            __VA_ARGS__)

/* The header row, split; makes the channels. */
bw_status bw_log_header(bw_log_reader *reader);

/* A remark of the head, behind its '#'. */
bw_status bw_log_head(bw_log_reader *reader, char *text);

#endif
