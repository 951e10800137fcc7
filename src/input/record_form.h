#ifndef BW_RECORD_FORM_H
#define BW_RECORD_FORM_H

/* Forms in which hours are published: a file of this folder and a row of the
 * table in record_forms.c each. */

#include "bothways/record.h"
#include "climate_reader.h"
#include "number.h"

/* What a column may hold: the quantities of a record, what they are made from,
 * and what tells the row's time and place. */
enum {
    BW_RAW_GLOBAL = BW_RECORD_COUNT, /* W/m2 on the horizontal */
    BW_RAW_BEAM_HORIZONTAL,          /* W/m2 of direct sun on the horizontal */
    BW_RAW_MIXING,                   /* g of water per kg of dry air */
    BW_RAW_VAPOUR,                   /* Pa */
    BW_RAW_SEA_PRESSURE,             /* Pa, reduced to sea level */
    BW_RAW_COUNT,
    BW_KEY_A = BW_RAW_COUNT, /* texts that tell the moment */
    BW_KEY_B,
    BW_KEY_C,
    BW_KEY_STATION, /* one is wanted */
    BW_KEY_LATITUDE,
    BW_KEY_LONGITUDE,
    BW_KEY_ALTITUDE,
    BW_FORM_KINDS
};

enum { BW_KEYS = 3, BW_FORM_FIELDS = 320 };

/* One column. The value in a file times factor is in the unit above. */
typedef struct bw_form_column {
    const char *name; /* in the header row; in forms without, for messages */
    int field;        /* from 1, in forms without a header row */
    int is;
    double factor;  /* 0: 1 */
    double missing; /* this and anything beyond it, away from 0: no value; 0:
                       there is no such mark */
    double mark, means; /* another value that a mark stands for; 0: no mark */
    bool of_hour; /* of the hour told by bw_form.ends, not of its moment */
    bool needed;  /* the form is told by these */
} bw_form_column;

/* A moment as a row tells it; hour may be 24. */
typedef struct bw_moment {
    int year, month, day, hour, minute;
} bw_moment;

typedef struct bw_record_reader bw_record_reader;

typedef struct bw_form_of_hours {
    const char *title;  /* what it is, and how well its layout is known */
    const char *times;  /* its conventions, in words */
    char separator;     /* 0: found in the header row */
    const char *header; /* how the line above the rows begins; NULL: it is a
                           row of names */
    bool prefixes;      /* names are told by how they begin, in any case */
    bool any_year;      /* the year of a row does not count */
    bool averaged;      /* several rows an hour are averaged, each counts for
                           the nearest full hour */
    bool zone_told;     /* the user or the head tells the offset, not `zone` */
    double zone;        /* h east of UTC */
    int ends;           /* 1: of_hour is the hour that ends at the moment */
    bw_year_kind year_kind;
    const bw_form_column *column;
    size_t columns;
    bool (*moment)(bw_moment *out, char *const key[BW_KEYS]);
    /* A line above the header row; NULL: passed over. */
    bw_status (*head)(bw_record_reader *reader, char *line);
    /* Reads the whole text itself; the rest but the columns does not count. */
    bw_status (*whole)(bw_record_reader *reader, const char *text);
} bw_form_of_hours;

struct bw_record_reader {
    const char *path;
    const bw_form_of_hours *form;
    const bw_record_options *options;
    bw_record *record;
    bw_climate_reader own; /* for the header of our own files */
    bw_csv csv;
    char *field[BW_FORM_FIELDS];
    size_t fields;
    char separator;
    int at[BW_FORM_KINDS];     /* field of each kind, -1: none */
    int column[BW_FORM_KINDS]; /* which of the form's columns it is */
    double *value[BW_RAW_COUNT];
    long *line;    /* of each hour's row */
    int *readings; /* of each hour, where they are averaged */
    char station[32];
    int places; /* stations whose place the head tells */
    bool has_zone;
    double zone;
    int year;            /* of the rows; 0: none yet */
    size_t clamped;      /* values */
    size_t rows, others; /* rows of that year and of others */
    int other_year;
    bw_error *err;
};

extern const bw_form_of_hours bw_form_own, bw_form_public, bw_form_months,
    bw_form_typical, bw_form_location, bw_form_reference, bw_form_dutch,
    bw_form_irish, bw_form_french, bw_form_logger;

/* The form of a text, and the header row's line in it; NULL: none. */
const bw_form_of_hours *bw_form_find(long *header_line, char *separator,
                                     const char *text);
/* The forms' titles, one after the other. */
const char *bw_form_title(size_t i);

/* Fields of the current header row to kinds; true if all needed are there. */
bool bw_form_match(const bw_form_of_hours *form, char *const *field,
                   size_t fields, int at[BW_FORM_KINDS],
                   int column[BW_FORM_KINDS]);

/* Times in the ways forms write them. */
bool bw_moment_iso(bw_moment *out, const char *text);
/* Month, day and hour, a field each. */
bool bw_moment_plain(bw_moment *out, char *const key[BW_KEYS]);
/* A whole number and nothing else; -1 otherwise. */
int bw_moment_number(const char *text);

/* The first number behind `word` in a line, any case; false: none. */
bool bw_form_fact(double *out, const char *line, const char *word);
/* Position, height and offset that a head tells; refuses what cannot be. */
bw_status bw_form_place(bw_record_reader *reader, double latitude,
                        double longitude);
bw_status bw_form_zone(bw_record_reader *reader, double hours);

/* Notes of place, source, licence and remark of one of our own files. */
bw_status bw_record_origin(bw_record_reader *reader, const bw_climate *climate);

/* What is made of the raw columns once all rows are read. */
bw_status bw_record_derive(bw_record_reader *reader);

#endif
